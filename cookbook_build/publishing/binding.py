"""Binding: every edition written beside the old book, then swapped in."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Final, TypeVar

from cookbook_build.findings import Findings
from cookbook_build.kept import pieces_of
from cookbook_build.publishing.carrying import EPUB, ONE_FILE, check_sizes, offers
from cookbook_build.publishing.crew import crew, hands
from cookbook_build.publishing.editions import new_folder
from cookbook_build.publishing.epub import EpubEdition
from cookbook_build.publishing.folder_edition import FolderEdition
from cookbook_build.publishing.onefile import OneFileEdition
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.pictures import made_pictures
from cookbook_build.publishing.progress import watched
from cookbook_build.publishing.theme import theme_of
from cookbook_build.publishing.web_files import write_web_files
from cookbook_build.publishing.web_head import COVER
from cookbook_build.words import spoken

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from pathlib import Path

    from cookbook_build.kept import Kept
    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.publishing.carrying import Carried
    from cookbook_build.publishing.edition import Edition
    from cookbook_build.publishing.editions import Folder
    from cookbook_build.publishing.pictures import Pictures
    from cookbook_build.publishing.slices import Made


Thing = TypeVar("Thing")


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


EDITIONS: Final[Mapping[str, Callable[[Pages, Folder], Edition]]] = {
    "folder": FolderEdition,
    EPUB: EpubEdition,
    ONE_FILE: OneFileEdition,
}
LAST: Final = frozenset({ONE_FILE})
"""The editions that are made of the pages of others, once these are written."""


def bind_book(
    reckoning: Reckoning,
    out: Path,
    pictures: Pictures | None = None,
    findings: Findings | None = None,
    kept: Kept | None = None,
) -> Bound:
    """Write every edition of a book into a folder, whole or not at all.

    Pictures that the caller made already, to see their findings, are not made again; of what is
    kept, only that stays which the caller and this asked for.
    """
    if pictures is None:
        pictures = made_pictures(reckoning.book, Findings())
    book = reckoning.book
    with pieces_of(book.folder, out, kept) as pieces, new_folder(out) as filled:
        with spoken(book.book.language):
            pages = Pages(reckoning, theme_of(book).templates, pictures, pieces)
            editions = {name: make(pages, filled) for name, make in EDITIONS.items()}
            _make_meals(pages, editions.values(), pieces)
            taken = _write_parts(editions, pieces, hands(len(book.recipes)))
            pages.offers = offers(taken)
            filled.write(COVER, pages.cover())
            write_web_files(book.book, pages.templates, filled)
        names = filled.names()
        size = sum((filled.root / name).stat().st_size for name in names)
    pieces.only(pieces.asked)
    pieces.forget_others()
    if findings is not None:
        check_sizes(taken, book, findings)
    files = tuple(file for found in taken.values() for file in found)
    return Bound(book.book.title, len(book.meals), len(book.bases), len(names), size, files, out)


def _make_meals(pages: Pages, editions: Iterable[Edition], kept: Kept) -> None:
    """Make of each meal what every edition has of it, in as many processes as pays."""
    meals, slices = list(pages.desk.reckoning.dishes), pages.slices

    def made(address: str) -> Made:
        for edition in editions:
            edition.meal(address)
        return slices.made(address)

    parts = {address: partial(_asking, kept, partial(made, address)) for address in meals}
    with crew(parts, hands(len(meals))) as asked:
        for address in watched(meals, "Meals", len(meals)):
            found, keys = asked(address)
            slices.know(address, found)
            kept.asked.update(keys)


def _write_parts(
    editions: Mapping[str, Edition], kept: Kept, workers: int
) -> dict[str, tuple[Carried, ...]]:
    """Write what is left of each edition, and return what of it is taken along."""
    taken: dict[str, tuple[Carried, ...]] = {}
    for are_last in (False, True):
        parts = {
            (name, part): partial(_asking, kept, write)
            for name, edition in editions.items()
            if (name in LAST) == are_last
            for part, write in edition.parts().items()
        }
        with crew(parts, workers) as asked:
            for name, part in watched(parts, "Binding", len(parts)):
                file, keys = asked((name, part))
                kept.asked.update(keys)
                taken[name] = (*taken.get(name, ()), *([file] if file else ()))
    return taken


def _asking(kept: Kept, make: Callable[[], Thing]) -> tuple[Thing, set[str]]:
    """Make something, and return it with the keys that were asked for on the way."""
    before, kept.asked = kept.asked, set()
    try:
        return make(), kept.asked
    finally:
        kept.asked = before
