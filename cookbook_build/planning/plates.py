"""Plates: a menu's meals with their dishes, and what each takes of every store."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from math import fsum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.manuscript.menus import Menu
    from cookbook_build.planning.dishes import Dish, MixLine
    from cookbook_build.planning.stores import ShelfStore


@dataclass(frozen=True, slots=True)
class Plate:
    """One meal of a menu, with its dish."""

    day: int
    meal: str
    dish: Dish
    servings: float
    method: Method
    altitude_m: float | None


@dataclass(frozen=True, slots=True)
class FreshLine:
    """A companion that is bought fresh and never dried, in pieces or grams."""

    name: str
    pieces: float
    grams: float


@dataclass(frozen=True, slots=True)
class Needs:
    """What a menu takes of each store."""

    dry_g: Mapping[str, float]
    stores: Mapping[str, ShelfStore]
    fresh: tuple[FreshLine, ...]
    to_taste: tuple[str, ...]  # stores that some meal takes without an amount, and none with one


def people(menu: Menu) -> int:
    """Return how many people eat a menu; where it doesn't say, as many as it has appetites."""
    if "people" in menu.keys.model_fields_set:
        return menu.keys.people
    return len(menu.keys.appetites) or menu.keys.people


def eaters(menu: Menu) -> float:
    """Return how many servings a meal of a menu is for, where it doesn't say itself."""
    return fsum(menu.keys.appetites) or float(menu.keys.people)


def plates(menu: Menu, dishes: Mapping[str, Dish]) -> tuple[Plate, ...]:
    """Return the meals of a menu with their dishes."""
    return tuple(
        Plate(
            meal.day,
            meal.meal,
            dishes[meal.address],
            float(meal.servings or eaters(menu)),
            meal.method or dishes[meal.address].default_method,
            meal.altitude.si if meal.altitude else None,
        )
        for meal in menu.keys.meals
    )


def mix_lines(plate: Plate) -> Iterator[tuple[MixLine, float, float]]:
    """Give each line of a plate with its grams and its pieces for the servings asked."""
    for part in plate.dish.parts:
        for line in part.lines:
            times = plate.dish.times(line, plate.servings)
            is_count = line.ingredient.amount.kind == "count"
            pieces = float(line.ingredient.amount.count()) if is_count else 0.0
            yield line, line.grams * times, pieces * times


def needs(listed: Iterable[Plate]) -> Needs:
    """Return what some plates take of each store."""
    dry: dict[str, float] = defaultdict(float)
    stores: dict[str, ShelfStore] = {}
    fresh: dict[str, FreshLine] = {}
    for plate in listed:
        for line, grams, pieces in mix_lines(plate):
            name = line.store.name
            stores[name] = line.store
            if line.is_dry:
                dry[name] += grams
            else:
                known = fresh.get(name, FreshLine(name, 0.0, 0.0))
                fresh[name] = FreshLine(name, known.pieces + pieces, known.grams + grams)
    return Needs(
        {name: grams for name, grams in sorted(dry.items()) if grams > 0},
        stores,
        tuple(fresh.values()),
        tuple(name for name, grams in sorted(dry.items()) if grams == 0),
    )
