"""Provisions: a menu walked backwards, to the shelf, the dryer and the shop, and packed."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.kitchen.nourishment import Nourishment, total
from cookbook_build.planning.camp import camp_cell
from cookbook_build.planning.loading import Loading, loading
from cookbook_build.planning.nourish import store_nourishment
from cookbook_build.planning.packs import Pack, packs
from cookbook_build.planning.plates import FreshLine, Plate, eaters, mix_lines, needs, plates
from cookbook_build.planning.shopping import Basket, DryingLine, ShoppingLine, drying_line

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping

    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.menus import Menu
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.planning.lots import Left, Reserves, Taken
    from cookbook_build.planning.pots import Pot
    from cookbook_build.planning.stores import ShelfStore


@dataclass(frozen=True, slots=True)
class NeedLine:
    """What a menu takes of one store: from which lots, and how much is short."""

    store: ShelfStore
    needed_g: float
    taken: tuple[Taken, ...]
    left: tuple[Left, ...] = ()  # lots that it wanted and could not take, with the reason

    @property
    def on_shelf_g(self) -> float:
        """What the shelf gives [g]."""
        return sum(taken.grams for taken in self.taken)

    @property
    def short_g(self) -> float:
        """What is to be made or bought [g]."""
        return max(self.needed_g - self.on_shelf_g, 0.0)


@dataclass(frozen=True, slots=True)
class DayLoad:
    """What one day's meals take along, and give, for all eaters together."""

    day: int
    water_ml: float
    fuel_g: float
    carried_g: float
    energy_kcal: float


@dataclass(frozen=True, slots=True)
class Provision:
    """A menu provided for."""

    menu: Menu
    plates: tuple[Plate, ...]
    needs: tuple[NeedLine, ...]
    drying: tuple[DryingLine, ...]  # what is short of stores dried here
    pantry: tuple[DryingLine, ...]  # what is short of stores bought dry
    shopping: Mapping[str, tuple[ShoppingLine, ...]]  # by shop section
    fresh: tuple[FreshLine, ...]
    to_taste: tuple[str, ...]
    loading: Loading | None
    packs: tuple[Pack, ...]
    days: tuple[DayLoad, ...]

    @property
    def dry_g(self) -> float:
        """The mass of all dry mixes together [g]."""
        return sum(line.needed_g for line in self.needs)

    @property
    def eaters(self) -> float:
        """How many servings a meal is for, unless it says otherwise."""
        return eaters(self.menu)


def provision(
    menu: Menu,
    dishes: Mapping[str, Dish],
    stores: Mapping[str, ShelfStore],
    pots: Mapping[str, Pot],
    book: Manuscript,
    reserves: Reserves,
    day: dt.date | None,
) -> Provision:
    """Return a menu provided for; what it takes from the shelf is reserved."""
    listed = plates(menu, dishes)
    wanted = needs(listed)
    lines = tuple(
        NeedLine(stores[name], grams, reserves.reserve(name, grams, menu.keys.date or day))
        for name, grams in wanted.dry_g.items()
    )
    basket = Basket()
    short = [
        drying_line(line.store, line.short_g, pots, book.foods, basket)
        for line in lines
        if line.short_g > 0
    ]
    drying = tuple(line for line in short if line.store.dried_here)
    return Provision(
        menu,
        listed,
        lines,
        drying,
        tuple(line for line in short if not line.store.dried_here),
        basket.by_section(),
        wanted.fresh,
        wanted.to_taste,
        loading(drying, book),
        packs(listed, book, menu.address, menu.keys.packed),
        _days(listed),
    )


def _days(listed: tuple[Plate, ...]) -> tuple[DayLoad, ...]:
    by_day: dict[int, list[Plate]] = defaultdict(list)
    for plate in listed:
        by_day[plate.day].append(plate)
    return tuple(_day(day, by_day[day]) for day in sorted(by_day))


def _day(day: int, listed: list[Plate]) -> DayLoad:
    water = fuel = carried = 0.0
    food: list[Nourishment] = []
    for plate in listed:
        cell = camp_cell(plate.dish, plate.servings, plate.method, plate.altitude_m)
        water += cell.together_ml
        fuel += cell.fuel_g
        for line, grams, _ in mix_lines(plate):
            carried += grams
            food.append(store_nourishment(line.store, grams))
    return DayLoad(day, water, fuel, carried, total(food).energy_kcal)
