"""The desk: one book with its addresses, as every page needs them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from cookbook_build.kitchen.boiling import boiling_point_c
from cookbook_build.manuscript.body import body_pictures, linked_addresses
from cookbook_build.planning.cautions import raw_caution
from cookbook_build.planning.lessons import part_name
from cookbook_build.planning.slices import slice_of
from cookbook_build.publishing.cautioning import CautionView, in_words
from cookbook_build.publishing.prose import Linking
from cookbook_build.publishing.views import DishView, dish_view
from cookbook_build.words import N_

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.recipes import Recipe
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.publishing.pictures import Pictures

OTHER = N_("Other recipes")
BASES = N_("Bases")


@dataclass(frozen=True, slots=True)
class Link:
    """A page of the book as another page names it."""

    title: str
    href: str


Neighbours: TypeAlias = tuple[Link | None, Link | None]


class Views(Mapping[str, "DishView"]):
    """What each dish shows, computed when it is first asked for."""

    def __init__(self, reckoning: Reckoning) -> None:
        self._reckoning = reckoning
        self._found: dict[str, DishView] = {}

    def __getitem__(self, address: str) -> DishView:
        if address not in self._found:
            dish = self._reckoning.dishes[address]
            self._found[address] = dish_view(dish, self._reckoning.book, self._reckoning.lessons)
        return self._found[address]

    def __iter__(self) -> Iterator[str]:
        return iter(self._reckoning.dishes)

    def __len__(self) -> int:
        return len(self._reckoning.dishes)


@dataclass(frozen=True, slots=True)
class Desk:
    """A reckoned book, what its dishes show, and the address of every page."""

    reckoning: Reckoning
    views: Views
    page_of: Mapping[str, str]  # of recipes and free pages
    store_pages: Mapping[str, str]
    anchors: Mapping[str, str]  # of series in the contents
    newest: str
    pictures: Pictures
    neighbours: Mapping[str, Neighbours]  # of meals in their series

    @property
    def book(self) -> Manuscript:
        """The book as it was read."""
        return self.reckoning.book

    def changed(self, recipe: Recipe) -> str:
        """Return the newest day of a recipe with a date: its own, or of a trial that counts."""
        dish, lessons = self.reckoning.dishes.get(recipe.address), self.reckoning.lessons
        parts = [part_name(dish, part) for part in dish.parts] if dish else []
        records = [record for name in parts for record in lessons.all_of(name)]
        trials = [record.day for record in records if record.keys and not record.left_out]
        return max([str(recipe.keys.date), *trials])

    def slice(self, dish: Dish) -> Desk:
        """Return the desk of a meal alone: all that its own pages can see."""
        recipe, own = dish.recipe, slice_of(self.reckoning, dish)
        linked = {recipe.address, *linked_addresses(recipe.body)}
        shown = [name for name, _ in body_pictures(recipe.body)]
        return Desk(
            own,
            Views(own),
            {address: self.page_of[address] for address in sorted(linked & self.page_of.keys())},
            {name: self.store_pages[name] for name in own.stores},
            {n: at for n, at in self.anchors.items() if n in {recipe.keys.series, OTHER, BASES}},
            self.newest,
            self.pictures.only([recipe.keys.picture, self.book.book.cover, *shown]),
            {recipe.address: self.neighbours[recipe.address]},
        )

    def linking(self, up: str = "../") -> Linking:
        """Return how a page's text reaches the rest of the book."""
        return Linking(up, self.page_of, self.pictures)


def desk_for(reckoning: Reckoning, pictures: Pictures) -> Desk:
    """Return the desk of a book."""
    book = reckoning.book
    dates = [recipe.keys.date.isoformat() for recipe in book.recipes.values() if recipe.keys.date]
    stores = anchors(reckoning.stores)
    page_of = {
        **{page.address: f"pages/{page.address}.html" for page in book.pages},
        **{address: f"recipes/{address}.html" for address in book.recipes},
    }
    return Desk(
        reckoning,
        Views(reckoning),
        page_of,
        {name: f"larder/{anchor}.html" for name, anchor in stores.items()},
        anchors([*book.book.series, OTHER, BASES]),
        max(dates, default=""),
        pictures,
        _neighbours(reckoning, page_of),
    )


def _neighbours(reckoning: Reckoning, page_of: Mapping[str, str]) -> dict[str, Neighbours]:
    """Return the meals before and after each in its series; none where it is in none."""
    runs: dict[str, list[Recipe]] = {}
    for dish in reckoning.dishes.values():
        runs.setdefault(dish.recipe.keys.series or "", []).append(dish.recipe)
    found: dict[str, Neighbours] = {r.address: (None, None) for r in runs.pop("", ())}
    for run in runs.values():
        links = [None, *(Link(r.keys.title, page_of[r.address]) for r in run), None]
        around = zip(links, links[2:], strict=False)
        found |= {r.address: both for r, both in zip(run, around, strict=True)}
    return found


def raw_view(desk: Desk, name: str) -> CautionView:
    """Return what a page says of a store that was dried raw."""
    home_m = desk.reckoning.place.conditions.altitude_m
    return in_words(raw_caution(desk.reckoning.stores[name], boiling_point_c(home_m)))


def anchors(names: Iterable[str]) -> dict[str, str]:
    """Return an address for each name: letters, digits and hyphens, no two alike."""
    found: dict[str, str] = {}
    taken: set[str] = set()
    for name in names:
        anchor = base = "-".join(re.findall(r"\w+", name.casefold())) or "part"
        number = 2
        while anchor in taken:
            anchor, number = f"{base}-{number}", number + 1
        taken.add(anchor)
        found[name] = anchor
    return found
