"""What a base's pot holds: bought fresh, prepared, cooked down; the food that is then dried."""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum
from typing import TYPE_CHECKING, Final

from cookbook_build.foods import Food
from cookbook_build.measures.units import US_CUP_ML
from cookbook_build.words import N_

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from cookbook_build.findings import Findings
    from cookbook_build.foods import FoodTable
    from cookbook_build.manuscript.ingredients import Ingredient
    from cookbook_build.manuscript.recipes import Recipe
    from cookbook_build.measures.units import Measures
    from cookbook_build.planning.stores import ShelfStore

SMALLEST_SOLIDS: Final = 0.001
_PARTS: Final = (
    "energy_kcal",
    "protein_g",
    "fat_g",
    "carbohydrate_g",
    "fibre_g",
    "ash_g",
    "sodium_mg",
)


@dataclass(frozen=True, slots=True)
class PotLine:
    """One ingredient of a base: as bought, and as it goes into the pot."""

    ingredient: Ingredient
    food: Food
    bought_g: float
    prepared_g: float


@dataclass(frozen=True, slots=True)
class Pot:
    """A base's pot: its lines, its cooked weight, and the cooked food as one food."""

    lines: tuple[PotLine, ...]
    prepared_g: float
    cooked_g: float
    is_weighed: bool  # the author weighed what was cooked; else nothing is taken to boil away
    food: Food


def cooked_pot(
    base: Recipe,
    stores: Mapping[str, ShelfStore],
    foods: FoodTable,
    measures: Measures,
    findings: Findings,
) -> Pot | None:
    """Return what a base's pot holds, or None when a line can't be weighed."""
    read = [
        _pot_line(line, stores, foods, measures, findings)
        for part in base.components
        for line in part.ingredients
    ]
    lines = tuple(line for line in read if line is not None)
    if len(lines) != len(read):
        return None
    prepared = fsum(line.prepared_g for line in lines)
    solids = fsum(line.prepared_g * (1 - line.food.moisture) for line in lines)
    if solids < SMALLEST_SOLIDS * prepared or not prepared:
        findings.error(
            base.places.key("ingredients"),
            "nothing in this pot leaves anything behind when it is dried",
            "list what is cooked, with its amounts, such as 1 kg plums.",
        )
        return None
    weighed = base.keys.cooked_weight
    cooked = weighed.si if weighed else prepared
    if cooked <= solids * 1.01:
        findings.error(
            base.places.of("cooked weight"),
            f"what went into this pot holds {solids:.0f} g of dry matter, more than "
            f"{cooked:.0f} g cooked can hold",
            "weigh the pot again, or check the amounts above.",
        )
        return None
    return Pot(lines, prepared, cooked, weighed is not None, _cooked_food(base, lines, cooked))


def _cooked_food(base: Recipe, lines: tuple[PotLine, ...], cooked_g: float) -> Food:
    """Return the cooked pot as a food, per 100 g; what has no figure counts as nothing."""
    energy, protein, fat, carbohydrate, fibre, ash, sodium = (
        fsum((getattr(line.food, part) or 0.0) * line.prepared_g for line in lines) / cooked_g
        for part in _PARTS
    )
    solids = fsum(line.prepared_g * (1 - line.food.moisture) for line in lines)
    return Food(
        id=f"base-{base.address}",
        name=base.keys.title,
        group="base",
        moisture=1 - solids / cooked_g,
        energy_kcal=energy,
        protein_g=protein,
        fat_g=fat,
        carbohydrate_g=carbohydrate,
        fibre_g=fibre,
        ash_g=ash,
        sodium_mg=sodium,
        allergens_us=_union(line.food.allergens_us for line in lines),
        allergens_eu=_union(line.food.allergens_eu for line in lines),
        source=N_("computed from what goes into the pot"),
    )


def _union(lists: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    found: dict[str, None] = {}
    for listed in lists:
        found.update(dict.fromkeys(listed))
    return tuple(found)


def _pot_line(
    line: Ingredient,
    stores: Mapping[str, ShelfStore],
    foods: FoodTable,
    measures: Measures,
    findings: Findings,
) -> PotLine | None:
    store = stores.get(line.store) if line.store else None
    food = _food_of(line, store, foods)
    if food is None:
        return None
    keep = 1.0 if line.prepared or (store and store.is_dry) else 1 - food.refuse
    if line.weighed or line.amount.kind == "weight":
        grams = float((line.weighed or line.amount).weight_g(measures))
        return PotLine(line, food, grams, grams * keep)
    prepared = _prepared_g(line, store, food, measures)
    if prepared is None:
        measure = "one" if line.amount.kind == "count" else "a cup"
        findings.error(
            line.place,
            f"what {measure} of {line.name} weighs is not known",
            f"write a weight, such as 500 g {line.name}.",
        )
        return None
    return PotLine(line, food, prepared / keep, prepared)


def _prepared_g(
    line: Ingredient, store: ShelfStore | None, food: Food, measures: Measures
) -> float | None:
    """Return the mass [g] of a count or a volume, edible; nothing for `to taste`."""
    if line.amount.kind == "count":
        each = store.grams_per_piece if store and store.store.keys.weighs else None
        piece = food.piece(line.size)
        usual = piece[1] if piece else None
        return _product(float(line.amount.count()), each or usual)
    if line.amount.kind == "volume":
        cups = float(line.amount.volume_ml(measures) / US_CUP_ML)
        return _product(cups, _cup_grams(line, store, food))
    return 0.0


def _product(number: float, grams: float | None) -> float | None:
    return None if grams is None else number * grams


def _food_of(line: Ingredient, store: ShelfStore | None, foods: FoodTable) -> Food | None:
    if line.food:
        return foods[line.food]
    return store.food if store else None


def _cup_grams(line: Ingredient, store: ShelfStore | None, food: Food) -> float | None:
    if food.id == "water":
        return float(US_CUP_ML)
    if store and (store.is_dry or store.store.keys.weighs):
        return store.grams_per_cup
    cup = food.cup(line.preparation)
    return cup[1] if cup else None
