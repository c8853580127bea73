"""Volumes: the whole book and each series, what each holds, and its names inside and out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from cookbook_build.manuscript.naming import LONGEST_ADDRESS, is_a_device
from cookbook_build.publishing.desk import anchors
from cookbook_build.publishing.epub_package import Links

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.recipes import Page, Recipe
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.planning.stores import ShelfStore
    from cookbook_build.publishing.desk import Desk


@dataclass(frozen=True, slots=True)
class VolumeName:
    """A volume as the contents page names it: its title, its series if it is one, its file."""

    title: str
    series: str | None
    file: str


@dataclass(frozen=True)
class Volume:
    """What one e-book holds; the desk has the addresses of its pages."""

    name: VolumeName
    desk: Desk
    dishes: tuple[Dish, ...]
    bases: tuple[Recipe, ...]
    pages: tuple[Page, ...]
    stores: tuple[ShelfStore, ...]

    @cached_property
    def links(self) -> Links:
        """What of it a meal's page can lead to: recipes, pages, stores, and the parts of it."""
        desk, recipes = self.desk, [*(dish.recipe for dish in self.dishes), *self.bases]
        addresses = [recipe.address for recipe in recipes] + [page.address for page in self.pages]
        pages = [desk.page_of[address] for address in addresses]
        stores = [desk.store_pages[store.name] for store in self.stores]
        named = [desk.anchors.get(recipe.keys.series or "") for recipe in recipes]
        series = [series_page(anchor) for anchor in named if anchor]
        return Links(frozenset([*pages, *stores, *series]))


def series_page(anchor: str) -> str:
    """Return the name of a series' own page in an e-book."""
    return f"series-{anchor}.xhtml"


def volume_names(reckoning: Reckoning) -> tuple[VolumeName, ...]:
    """Return the whole book and every series that has a recipe, each with its own file name."""
    book = reckoning.book
    used = {dish.recipe.keys.series for dish in reckoning.dishes.values()}
    series = [name for name in book.book.series if name in used]
    titles: list[tuple[str, str | None]] = [
        (book.book.title, None),
        *((name, name) for name in series),
    ]
    taken: set[str] = set()
    found = []
    for title, of in titles:
        found.append(VolumeName(title, of, _file(title, taken)))
    return tuple(found)


def _file(title: str, taken: set[str]) -> str:
    """Return a file name for a title that no other volume has."""
    stem = anchors([title])[title]
    if len(stem) > LONGEST_ADDRESS:
        head = stem[: LONGEST_ADDRESS + 1]
        stem = head.rpartition("-")[0] or head
    stem = f"{stem}-book" if is_a_device(stem) else stem
    address, number = stem, 2
    while address in taken:
        address, number = f"{stem}-{number}", number + 1
    taken.add(address)
    return f"{address}.epub"


def volumes(desk: Desk) -> tuple[Volume, ...]:
    """Return every volume of a book."""
    packed = replace(
        desk,
        page_of={
            **{page.address: f"page-{page.address}.xhtml" for page in desk.book.pages},
            **{address: f"recipe-{address}.xhtml" for address in desk.book.recipes},
        },
        store_pages={
            name: f"stores.xhtml#store-{anchor}"
            for name, anchor in anchors(desk.reckoning.stores).items()
        },
    )
    return tuple(_volume(name, packed) for name in volume_names(desk.reckoning))


def _volume(name: VolumeName, desk: Desk) -> Volume:
    reckoning = desk.reckoning
    whole = name.series is None
    dishes = tuple(
        dish
        for dish in reckoning.dishes.values()
        if whole or dish.recipe.keys.series == name.series
    )
    used = {line.store.name for dish in dishes for part in dish.parts for line in part.lines}
    needed = {base.address for base in desk.book.bases} if whole else _bases(used, desk.book)
    return Volume(
        name,
        desk,
        dishes,
        tuple(
            base
            for base in desk.book.bases
            if base.address in reckoning.pots and base.address in needed
        ),
        desk.book.pages if whole else (),
        tuple(
            store
            for _, store in sorted(_stores(reckoning.stores).items())
            if whole or store.name in used
        ),
    )


def _stores(stores: Mapping[str, ShelfStore]) -> dict[str, ShelfStore]:
    return {name.casefold() + name: store for name, store in stores.items()}


def _bases(stores: Iterable[str], book: Manuscript) -> set[str]:
    """Return the bases that some stores come from, and those that these are made with."""
    found: set[str] = set()
    waiting = list(stores)
    while waiting:
        base = book.base_of(waiting.pop())
        if base is not None and base.address not in found:
            found.add(base.address)
            waiting += [
                line.store for part in base.components for line in part.ingredients if line.store
            ]
    return found
