"""Provisions: a menu walked backwards, to the shelf, the dryer and the shop, and packed."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from math import ceil, fsum
from typing import TYPE_CHECKING, Final, Literal, TypeAlias

from cookbook_build.kitchen.nourishment import Nourishment, total
from cookbook_build.planning.camp import camp_cell
from cookbook_build.planning.loading import Loading, loading
from cookbook_build.planning.nourish import store_nourishment
from cookbook_build.planning.packs import Pack, packs
from cookbook_build.planning.plates import (
    FreshLine,
    Plate,
    eaters,
    mix_lines,
    needs,
    people,
    plates,
)
from cookbook_build.planning.shopping import Basket, DryingLine, Shop, ShoppingLine

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping

    from cookbook_build.kitchen.fuel import Fuel
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.menus import Menu
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.planning.lots import Left, Reserves, Taken
    from cookbook_build.planning.pots import Pot
    from cookbook_build.planning.stores import ShelfStore

Lack: TypeAlias = Literal["dryer", "containers", "absorbers"]
"""What the kit of book.yaml does not name, though a list depends on it."""


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
        return fsum(taken.grams for taken in self.taken)

    @property
    def short_g(self) -> float:
        """What is to be made or bought [g]."""
        return max(self.needed_g - self.on_shelf_g, 0.0)


@dataclass(frozen=True, slots=True)
class DayLoad:
    """What meals take along, and give: of one day, or of all days together."""

    day: int  # 0: all of them
    people: int
    water_ml: float
    fuel_g: float
    carried_g: float
    energy_kcal: float

    @property
    def water_l(self) -> float:
        """Water to carry or find, in tenths, rounded up [L]."""
        return ceil(self.water_ml / 100 - ROUNDING) / 10

    @property
    def fuel_up_g(self) -> int:
        """Fuel to carry, rounded up [g]."""
        return ceil(self.fuel_g - ROUNDING)

    @property
    def carried_each_g(self) -> float:
        """What each person carries of it [g]."""
        return self.carried_g / self.people

    @property
    def energy_each_kcal(self) -> float:
        """What each person is given [kcal]."""
        return self.energy_kcal / self.people


ROUNDING: Final = 1e-6
"""What is a sum's rounding error, and not to be rounded up; our choice."""


@dataclass(frozen=True, slots=True)
class OwnServings:
    """A meal that is written for other servings than the menu's."""

    day: int
    meal: str
    servings: float


@dataclass(frozen=True, slots=True)
class Provision:
    """A menu provided for."""

    menu: Menu
    plates: tuple[Plate, ...]
    needs: tuple[NeedLine, ...]
    drying: tuple[DryingLine, ...]  # what is short of stores dried here
    pantry: tuple[DryingLine, ...]  # what is short of stores bought dry
    shopping: Mapping[str, tuple[ShoppingLine, ...]]  # by shop section, what is fresh too
    fresh: tuple[FreshLine, ...]
    to_taste: tuple[str, ...]
    shelf_to_taste: tuple[str, ...]  # of these, what this household dries
    loading: Loading
    packs: tuple[Pack, ...]
    days: tuple[DayLoad, ...]
    lacks: tuple[Lack, ...]

    @property
    def dry_g(self) -> float:
        """The mass of all dry mixes together [g]."""
        return fsum(line.needed_g for line in self.needs)

    @property
    def eaters(self) -> float:
        """How many servings a meal is for, unless it says otherwise."""
        return eaters(self.menu)

    @property
    def people(self) -> int:
        """How many people eat."""
        return people(self.menu)

    @property
    def fuel(self) -> Fuel:
        """What the household's burner burns."""
        return self.plates[0].dish.place.kit.fuel

    @property
    def own_servings(self) -> tuple[OwnServings, ...]:
        """The meals that are written for other servings than the menu's."""
        return tuple(
            OwnServings(plate.day, plate.meal, plate.servings)
            for plate in self.plates
            if plate.servings != self.eaters
        )

    @property
    def together(self) -> DayLoad:
        """All days together; water and fuel are what the days' rounded figures add up to."""
        return DayLoad(
            0,
            self.people,
            sum(100 * round(10 * day.water_l) for day in self.days),
            sum(day.fuel_up_g for day in self.days),
            fsum(day.carried_g for day in self.days),
            fsum(day.energy_kcal for day in self.days),
        )

    @property
    def each_day(self) -> tuple[float, float]:
        """What a person carries [g] and is given [kcal], on an average day with a meal."""
        days, all_days = len(self.days), self.together
        return all_days.carried_each_g / days, all_days.energy_each_kcal / days


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
    shop = Shop(stores, pots, book.foods, basket)
    short = [shop.drying_line(line.store, line.short_g) for line in lines if line.short_g > 0]
    for line in wanted.fresh:
        shop.add_fresh(wanted.stores[line.name], line.grams, line.pieces)
    seasonings = [wanted.stores[name] for name in wanted.to_taste]
    for store in seasonings:
        if not store.dried_here:
            shop.add_to_taste(store)
    drying = tuple(line for line in short if line.store.dried_here)
    loads = loading(drying, book, stores)
    return Provision(
        menu,
        listed,
        lines,
        drying,
        tuple(line for line in short if not line.store.dried_here),
        basket.by_section(),
        wanted.fresh,
        wanted.to_taste,
        tuple(store.name for store in seasonings if store.dried_here),
        loads,
        packs(listed, book, menu.address, menu.keys.packed),
        _days(listed, people(menu)),
        tuple(_lacks(book, loads)),
    )


def _lacks(book: Manuscript, loads: Loading) -> Iterator[Lack]:
    kit = book.book.kit
    if loads.lacks_dryer:
        yield "dryer"
    if not kit.pouches and not kit.jars:
        yield "containers"
    if not kit.absorbers:
        yield "absorbers"


def _days(listed: tuple[Plate, ...], of_people: int) -> tuple[DayLoad, ...]:
    by_day: dict[int, list[Plate]] = defaultdict(list)
    for plate in listed:
        by_day[plate.day].append(plate)
    return tuple(_day(day, by_day[day], of_people) for day in sorted(by_day))


def _day(day: int, listed: list[Plate], of_people: int) -> DayLoad:
    water = fuel = carried = 0.0
    food: list[Nourishment] = []
    for plate in listed:
        cell = camp_cell(plate.dish, plate.servings, plate.method, plate.altitude_m)
        water += cell.together_ml
        fuel += cell.fuel_g
        for line, grams, _ in mix_lines(plate):
            carried += grams
            food.append(store_nourishment(line.store, grams))
    return DayLoad(day, of_people, water, fuel, carried, total(food).energy_kcal)
