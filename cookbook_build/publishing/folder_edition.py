"""The folder edition: a page for every meal, store and list, and what stands beside the pages."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from cookbook_build.publishing.theme import theme_of
from cookbook_build.publishing.web_head import COVER

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from cookbook_build.publishing.editions import Folder
    from cookbook_build.publishing.pages import Pages


class FolderEdition:
    """The folder of pages, save the cover, which says how large the other editions are."""

    def __init__(self, pages: Pages, filled: Folder) -> None:
        self.pages, self.filled = pages, filled

    def meal(self, address: str) -> None:
        """Write the page of a meal."""
        self.filled.write(self.pages.desk.page_of[address], self.pages.slices.page(address))

    def parts(self) -> dict[str, Callable[[], None]]:
        """Return what writes each further page, and the files beside them."""
        desk = self.pages.desk
        made = {COVER, *(desk.page_of[address] for address in desk.reckoning.dishes)}
        pages = {
            name: partial(self._write, name, make)
            for name, make in self.pages.makers().items()
            if name not in made
        }
        return {**pages, "beside the pages": self._beside}

    def _write(self, name: str, make: Callable[[], str]) -> None:
        self.filled.write(name, make())

    def _beside(self) -> None:
        for name, data in beside_pages(self.pages):
            self.filled.write_bytes(name, data)


def beside_pages(pages: Pages) -> Iterator[tuple[str, bytes]]:
    """Give what stands in the folder beside its pages: the theme's files and the pictures."""
    yield from theme_of(pages.desk.book).web_files()
    for file in pages.desk.pictures.files:
        yield file.name, file.made.data
