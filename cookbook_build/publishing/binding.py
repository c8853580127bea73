"""Binding: every edition written beside the old book, then swapped in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import Findings
from cookbook_build.publishing.editions import new_folder
from cookbook_build.publishing.epub import carried, epub_edition
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.pictures import made_pictures
from cookbook_build.publishing.progress import watched
from cookbook_build.publishing.theme import STYLES, environment, theme_folder
from cookbook_build.publishing.web_files import write_web_files
from cookbook_build.words import spoken

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.publishing.editions import Folder
    from cookbook_build.publishing.pictures import Pictures


@dataclass(frozen=True, slots=True)
class Bound:
    """What was written."""

    title: str
    meals: int
    bases: int
    files: int
    bytes: int
    out: Path

    def summary(self) -> list[str]:
        """Return what was written, in words."""
        bases = f" and {self.bases} base{'s' * (self.bases != 1)}" if self.bases else ""
        return [
            (
                f'Bound "{self.title}": {self.meals} meal{"s" * (self.meals != 1)}{bases}, '
                f"{self.files} files, {self.bytes / 1e6:.1f} MB, into {self.out}."
            )
        ]


def folder_edition(reckoning: Reckoning, pictures: Pictures, filled: Folder) -> None:
    """Write the folder of pages."""
    theme = theme_folder()
    pages = Pages(reckoning, environment(theme), pictures, carried(reckoning, filled))
    for name, text in watched(pages.render(), "Binding", len(pages) + 1):
        filled.write(name, text)
    for name in STYLES:
        filled.copy(name, theme / name)
    for file in pictures.files:
        filled.write_bytes(file.name, file.made.data)


EDITIONS: Final[Mapping[str, Callable[[Reckoning, Pictures, Folder], None]]] = {
    "epub": epub_edition,  # before the folder, whose contents page says how large it is
    "folder": folder_edition,
}


def bind_book(reckoning: Reckoning, out: Path, pictures: Pictures | None = None) -> Bound:
    """Write every edition of a book into a folder, whole or not at all.

    Pictures that the caller made already, to see their findings, are not made again.
    """
    if pictures is None:
        pictures = made_pictures(reckoning.book, Findings())
    with new_folder(out) as filled, spoken(reckoning.book.book.language):
        for write in EDITIONS.values():
            write(reckoning, pictures, filled)
        write_web_files(reckoning.book.book, environment(theme_folder()), filled)
        names = filled.names()
        size = sum((filled.root / name).stat().st_size for name in names)
    book = reckoning.book
    return Bound(book.book.title, len(book.meals), len(book.bases), len(names), size, out)
