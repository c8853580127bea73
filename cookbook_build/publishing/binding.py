"""Binding: every edition written beside the old book, then swapped in."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.findings import Findings
from cookbook_build.publishing.carrying import EPUB, ONE_FILE, check_sizes, offers
from cookbook_build.publishing.crew import crew, hands
from cookbook_build.publishing.editions import new_folder
from cookbook_build.publishing.epub import epub_edition
from cookbook_build.publishing.onefile import onefile_edition
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.pictures import made_pictures
from cookbook_build.publishing.progress import watched
from cookbook_build.publishing.theme import theme_of
from cookbook_build.publishing.web_files import write_web_files
from cookbook_build.publishing.web_head import COVER
from cookbook_build.words import spoken

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping
    from pathlib import Path

    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.publishing.carrying import Carried
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
    carried: tuple[Carried, ...]
    out: Path

    def summary(self) -> list[str]:
        """Return what was written, in words."""
        bases = f" and {self.bases} base{'s' * (self.bases != 1)}" if self.bases else ""
        width = max((len(file.href) for file in self.carried), default=0)
        return [
            (
                f'Bound "{self.title}": {self.meals} meal{"s" * (self.meals != 1)}{bases}, '
                f"{self.files} files, {self.bytes / 1e6:.1f} MB, into {self.out}."
            ),
            *(f"  {file.href:<{width}}  {file.size:>8}" for file in self.carried),
        ]


def folder_edition(pages: Pages, filled: Folder) -> Iterable[Carried]:
    """Write the folder of pages, save the cover, which says how large the other editions are."""
    names = [name for name in pages.makers() if name != COVER]
    for name in watched(names, "Binding", len(names)):
        filled.write(name, pages.made(name))
    for name, data in beside_pages(pages):
        filled.write_bytes(name, data)
    return ()


def beside_pages(pages: Pages) -> Iterator[tuple[str, bytes]]:
    """Give what stands in the folder beside its pages: the theme's files and the pictures."""
    yield from theme_of(pages.desk.book).web_files()
    for file in pages.desk.pictures.files:
        yield file.name, file.made.data


EDITIONS: Final[Mapping[str, Callable[[Pages, Folder], Iterable[Carried]]]] = {
    EPUB: epub_edition,
    "folder": folder_edition,
    ONE_FILE: onefile_edition,  # of the folder's pages
}
ALONE: Final = frozenset({EPUB})
"""The editions that take nothing from the others, and so can be made beside them."""


def bind_book(
    reckoning: Reckoning,
    out: Path,
    pictures: Pictures | None = None,
    findings: Findings | None = None,
) -> Bound:
    """Write every edition of a book into a folder, whole or not at all.

    Pictures that the caller made already, to see their findings, are not made again.
    """
    if pictures is None:
        pictures = made_pictures(reckoning.book, Findings())
    book = reckoning.book
    with new_folder(out) as filled, spoken(book.book.language):
        pages = Pages(reckoning, theme_of(book).templates, pictures)
        alone = {name: partial(_written, name, pages, filled) for name in EDITIONS if name in ALONE}
        parts: dict[str, Callable[[], Any]] = {**alone, **pages.makers()}
        with crew(parts, hands(len(book.recipes))) as pages.made:
            editions = {
                name: pages.made(name) if name in alone else _written(name, pages, filled)
                for name in EDITIONS
            }
        pages.offers = offers(editions)
        filled.write(COVER, pages.cover())
        write_web_files(book.book, pages.templates, filled)
        names = filled.names()
        size = sum((filled.root / name).stat().st_size for name in names)
    if findings is not None:
        check_sizes(editions, book, findings)
    carried = tuple(file for files in editions.values() for file in files)
    return Bound(book.book.title, len(book.meals), len(book.bases), len(names), size, carried, out)


def _written(name: str, pages: Pages, filled: Folder) -> tuple[Carried, ...]:
    """Write an edition, and return what of it is carried away."""
    return tuple(EDITIONS[name](pages, filled))
