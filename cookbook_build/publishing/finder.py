"""The index at the back of the book, and what its finder needs to know of every meal.

The finder's script reads all it knows from the page: each meal is one line of the index by name
with its figures beside it, each store one line of the index by store with what else it is called.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from cookbook_build.kitchen.conditions import METHODS
from cookbook_build.planning.needs import held_stores, needed_stores
from cookbook_build.planning.nourish import allergens, dish_nourishment
from cookbook_build.publishing.desk import Link, anchors
from cookbook_build.publishing.larder_pages import SHELVES
from cookbook_build.publishing.nourish_views import LAWS, ROWS
from cookbook_build.publishing.wording import clock, method_name, method_within
from cookbook_build.words import _

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.publishing.desk import Desk
    from cookbook_build.publishing.slices import Slices


@dataclass(frozen=True, slots=True)
class WayTime:
    """One way to make a meal ready, and how long it takes from cold water."""

    method: Method
    name: str
    within: str  # its name as it stands within a line
    minutes: int
    words: str


@dataclass(frozen=True, slots=True)
class MealLine:
    """A meal in the index by name; stores and allergens by their addresses, spaces between."""

    title: str
    href: str
    initial: str  # where it is the first of its letter
    series: str
    blurb: str
    ways: tuple[WayTime, ...]
    energy_kcal: int  # in 100 g of its dry mix
    energy: str
    holds: str
    needs: str
    allergens: str

    @property
    def times(self) -> str:
        """Its ways and their minutes, as the script reads them: `kettle:17 stove:13`."""
        return " ".join(f"{way.method}:{way.minutes}" for way in self.ways)


@dataclass(frozen=True, slots=True)
class StoreLine:
    """A store in the index by store, with the meals that hold it; or where to look instead."""

    name: str
    anchor: str
    href: str
    also_called: tuple[str, ...] = ()
    made_with: tuple[str, ...] = ()  # what goes into its pot, if it is dried from a base
    meals: tuple[Link, ...] = ()
    see: str = ""  # the store that is also called so


def finder_page(desk: Desk, slices: Slices, only: Iterable[Dish] | None = None) -> dict[str, Any]:
    """Return what the index and its finder show: of all meals, or only of some."""
    law = desk.book.book.allergens
    asked = desk.reckoning.dishes.values() if only is None else only
    dishes = sorted(asked, key=lambda dish: folded(dish.recipe.keys.title))
    found = {dish.recipe.address: allergens(dish, law) for dish in dishes}
    named = anchors(sorted({name for names in found.values() for name in names}))
    stores = anchors(desk.reckoning.stores)
    meals = tuple(_meal_lines(desk, slices, dishes, stores, named))
    held = {name for dish in dishes for name in held_stores(dish)}
    return {
        "title": _("Index"),
        "meals": meals,
        "ways": tuple(_by_way(meals)),
        "stores": tuple(_by_store(desk, dishes, stores)),
        "shelves": tuple(_shelves(desk, held, stores)),
        "allergens": {anchor: _(name) for name, anchor in named.items()},
        "law": _(LAWS[law]),
    }


def folded(text: str) -> str:
    """Return a text without case and accents, as words are looked up and put in order."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(char for char in apart if not unicodedata.combining(char))


def _meal_lines(
    desk: Desk,
    slices: Slices,
    dishes: Iterable[Dish],
    stores: Mapping[str, str],
    named: Mapping[str, str],
) -> Iterator[MealLine]:
    letter = ""
    for dish in dishes:
        keys, energy = dish.recipe.keys, dish_nourishment(dish).dry.per_100_g()
        minutes = slices.facts(dish.recipe.address).minutes
        first = "".join(re.findall(r"\w", folded(keys.title)))[:1].upper()
        yield MealLine(
            title=keys.title,
            href=desk.page_of[dish.recipe.address],
            initial=first if first != letter else "",
            series=keys.series or "",
            blurb=keys.blurb or "",
            ways=tuple(_way_time(method, minutes[method]) for method in dish.methods),
            energy_kcal=round(energy.energy_kcal),
            energy=ROWS["Energy"](energy),
            holds=" ".join(stores[name] for name in held_stores(dish)),
            needs=" ".join(stores[name] for name in needed_stores(dish)),
            allergens=" ".join(named[name] for name in allergens(dish, desk.book.book.allergens)),
        )
        letter = first


def _way_time(method: Method, minutes: int) -> WayTime:
    return WayTime(method, method_name(method), method_within(method), minutes, clock(minutes))


def _by_way(meals: Iterable[MealLine]) -> Iterator[dict[str, Any]]:
    """Give each way with its meals, the soonest ready first."""
    for method in METHODS:
        timed = [(meal, way) for meal in meals for way in meal.ways if way.method == method]
        if timed:
            yield {
                "method": method,
                "name": timed[0][1].name,
                "meals": sorted(timed, key=lambda one: one[1].minutes),
            }


def _by_store(desk: Desk, dishes: Iterable[Dish], stores: Mapping[str, str]) -> list[StoreLine]:
    """Return each store that a meal holds, and each other name of one, by the alphabet."""
    lines: list[StoreLine] = []
    holding: dict[str, list[Link]] = {}
    for dish in dishes:
        link = Link(dish.recipe.keys.title, desk.page_of[dish.recipe.address])
        for name in held_stores(dish):
            holding.setdefault(name, []).append(link)
    for name, meals in holding.items():
        anchor, also = stores[name], desk.reckoning.stores[name].store.keys.also_called
        href = desk.store_pages[name]
        within = tuple(sorted(_made_with(desk.book, name)))
        lines.append(StoreLine(name, anchor, href, also, within, tuple(meals)))
        lines += [StoreLine(other, anchor, href, see=name) for other in also]
    return sorted(lines, key=lambda line: (folded(line.name), bool(line.see), line.see))


def _made_with(book: Manuscript, name: str) -> set[str]:
    """Return what goes into the pot that a store is dried from, and into pots within it."""
    base = book.base_of(name)
    if base is None:
        return set()
    used = [line for part in base.components for line in part.ingredients]
    below = (_made_with(book, line.store) for line in used if line.store)
    return {line.name for line in used}.union(*below)


def _shelves(desk: Desk, held: set[str], stores: Mapping[str, str]) -> Iterator[dict[str, Any]]:
    """Give the stores that meals hold, on the shelves of the larder."""
    for dried, (name, _about) in SHELVES.items():
        names = sorted(
            store for store in held if desk.reckoning.stores[store].store.keys.dried == dried
        )
        if names:
            yield {"name": _(name), "stores": [{"name": n, "anchor": stores[n]} for n in names]}
