"""Checklists: a menu added up, and walked backwards to the dryer and the shop.

dried grams -> prepared = dried / y -> as bought = prepared / (1 - refuse) -> for cooked foods the
raw dry good = prepared (1 - M_cooked) / (1 - M_raw). Stores made from a base go through its pot.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from cookbook_build.preserving.yields import prepared_mass_g, purchased_mass_g, uncooked_mass_g

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from cookbook_build.foods import Food, FoodTable
    from cookbook_build.manuscript.menus import Menu
    from cookbook_build.planning.dishes import Dish, MixLine
    from cookbook_build.planning.pots import Pot
    from cookbook_build.planning.stores import ShelfStore


@dataclass(frozen=True, slots=True)
class Plate:
    """One meal of a menu, with its dish."""

    day: int
    meal: str
    dish: Dish
    servings: int
    method: str
    altitude_m: float | None


@dataclass(frozen=True, slots=True)
class DryingLine:
    """What the menu needs of one store: dried, prepared before drying, and as bought."""

    store: ShelfStore
    dried_g: float
    prepared_g: float
    bought_g: float
    pots: float | None = None  # how many times a base's recipe


@dataclass(frozen=True, slots=True)
class ShoppingLine:
    """What to buy of one food."""

    food: Food
    bought_g: float
    what_for: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FreshLine:
    """A companion that is bought fresh and never dried, in pieces or grams."""

    name: str
    pieces: float
    grams: float


@dataclass(frozen=True, slots=True)
class Checklist:
    """A menu added up."""

    menu: Menu
    plates: tuple[Plate, ...]
    drying: tuple[DryingLine, ...]
    pantry: tuple[DryingLine, ...]  # stores bought dry, and nothing done to them
    shopping: Mapping[str, tuple[ShoppingLine, ...]]  # by shop section
    fresh: tuple[FreshLine, ...]
    to_taste: tuple[str, ...]  # stores that some meal takes without an amount, and none with one

    @property
    def dry_g(self) -> float:
        """The mass [g] of all dry mixes together."""
        return sum(line.dried_g for line in (*self.drying, *self.pantry))


@dataclass(slots=True)
class _Basket:
    """What has been put on the shopping list so far."""

    grams: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    foods: dict[str, Food] = field(default_factory=dict)
    reasons: dict[str, dict[str, None]] = field(default_factory=lambda: defaultdict(dict))

    def add(self, food: Food, grams: float, reason: str) -> None:
        self.foods[food.id] = food
        self.grams[food.id] += grams
        self.reasons[food.id][reason] = None


def checklist(
    menu: Menu, dishes: Mapping[str, Dish], pots: Mapping[str, Pot], foods: FoodTable
) -> Checklist:
    """Return a menu added up: what to dry, what to take from the pantry, what to buy."""
    plates = tuple(_plates(menu, dishes))
    needed: dict[str, float] = defaultdict(float)
    stores: dict[str, ShelfStore] = {}
    fresh: dict[str, FreshLine] = {}
    for plate in plates:
        for line, grams, pieces in _lines(plate):
            stores[line.store.name] = line.store
            if line.is_dry:
                needed[line.store.name] += grams
            else:
                known = fresh.get(line.store.name, FreshLine(line.store.name, 0.0, 0.0))
                fresh[line.store.name] = FreshLine(
                    line.store.name, known.pieces + pieces, known.grams + grams
                )
    basket = _Basket()
    listed = [
        _drying_line(stores[name], grams, pots, foods, basket)
        for name, grams in sorted(needed.items())
        if grams > 0
    ]
    return Checklist(
        menu,
        plates,
        tuple(line for line in listed if line.store.dried_here),
        tuple(line for line in listed if not line.store.dried_here),
        _by_section(basket),
        tuple(fresh.values()),
        tuple(name for name, grams in sorted(needed.items()) if grams == 0),
    )


def _plates(menu: Menu, dishes: Mapping[str, Dish]) -> Iterable[Plate]:
    for meal in menu.keys.meals:
        dish = dishes[meal.address]
        servings = meal.servings or menu.keys.people
        method = meal.method or dish.default_method
        altitude = meal.altitude.si if meal.altitude else None
        yield Plate(meal.day, meal.meal, dish, servings, method, altitude)


def _lines(plate: Plate) -> Iterable[tuple[MixLine, float, float]]:
    """Return each line of a plate with its grams and its pieces for the servings asked."""
    for part in plate.dish.parts:
        for line in part.lines:
            times = plate.dish.times(line, plate.servings)
            is_count = line.ingredient.amount.kind == "count"
            pieces = float(line.ingredient.amount.count()) if is_count else 0.0
            yield line, line.grams * times, pieces * times


def _drying_line(
    store: ShelfStore,
    dried_g: float,
    pots: Mapping[str, Pot],
    foods: FoodTable,
    basket: _Basket,
) -> DryingLine:
    if store.food is None or not store.dried_here:
        if store.food:
            basket.add(store.food, dried_g, store.name)
        return DryingLine(store, dried_g, dried_g, dried_g)
    prepared = prepared_mass_g(dried_g, store.food.moisture, store.moisture)
    pot = pots.get(store.base or "")
    if pot is not None:
        times = prepared / pot.cooked_g
        for line in pot.lines:
            basket.add(line.food, line.bought_g * times, store.name)
        return DryingLine(
            store, dried_g, prepared, sum(line.bought_g for line in pot.lines) * times, times
        )
    food = store.food
    if food.dry_from:
        raw = foods[food.dry_from]
        bought = purchased_mass_g(
            uncooked_mass_g(prepared, food.moisture, raw.moisture), raw.refuse
        )
        basket.add(raw, bought, store.name)
    else:
        bought = purchased_mass_g(prepared, food.refuse)
        basket.add(food, bought, store.name)
    return DryingLine(store, dried_g, prepared, bought)


def _by_section(basket: _Basket) -> dict[str, tuple[ShoppingLine, ...]]:
    sections: dict[str, list[ShoppingLine]] = defaultdict(list)
    for key, food in basket.foods.items():
        if food.id != "water" and basket.grams[key] > 0:
            sections[food.group].append(
                ShoppingLine(food, basket.grams[key], tuple(basket.reasons[key]))
            )
    return {
        name: tuple(sorted(lines, key=lambda line: line.food.name))
        for name, lines in sorted(sections.items())
    }
