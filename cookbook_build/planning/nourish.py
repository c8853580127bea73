"""What a dish nourishes with, and what of it people may be allergic to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.kitchen.nourishment import Nourishment, total

if TYPE_CHECKING:
    from collections.abc import Iterable

    from cookbook_build.planning.dishes import Dish, MixLine, Part
    from cookbook_build.planning.stores import ShelfStore


@dataclass(frozen=True, slots=True)
class DishNourishment:
    """One serving: the dry mix whole, without its optional lines, and its fresh companions."""

    dry: Nourishment
    without_optional: Nourishment | None
    fresh: Nourishment | None
    lacking: tuple[str, ...]  # stores whose food has no figures

    @property
    def whole(self) -> Nourishment:
        """The dry mix with its fresh companions."""
        return total([self.dry, self.fresh] if self.fresh else [self.dry])


def store_nourishment(store: ShelfStore, grams: float) -> Nourishment:
    """Return what a mass [g] of a store holds, as it stands on the shelf."""
    food = store.food
    if food is None:
        return Nourishment(grams)
    scale = (1 - store.moisture) / (1 - food.moisture) if food.moisture < 1 else 0.0
    return Nourishment(
        100.0,
        food.energy_kcal * scale,
        food.protein_g * scale,
        food.fat_g * scale,
        food.carbohydrate_g * scale,
        (food.fibre_g or 0.0) * scale,
        (food.sodium_mg or 0.0) * scale,
    ).times(grams / 100)


def dish_nourishment(dish: Dish, servings: int | None = None) -> DishNourishment:
    """Return what one serving holds; what goes in per pot is shared by all servings."""
    made = servings or dish.recipe.keys.serves
    lines = [line for part in dish.parts for line in part.lines]
    dry = [line for line in lines if line.is_dry]
    kept = [line for line in dry if not line.ingredient.optional]
    fresh = [line for line in lines if not line.is_dry]
    return DishNourishment(
        _per_serving(dry, dish, made),
        _per_serving(kept, dish, made) if len(kept) < len(dry) else None,
        _per_serving(fresh, dish, made) if fresh else None,
        tuple(sorted({line.store.name for line in lines if line.store.food is None})),
    )


def _per_serving(lines: Iterable[MixLine], dish: Dish, made: int) -> Nourishment:
    return total(
        store_nourishment(line.store, line.grams * dish.times(line, made) / made) for line in lines
    )


def allergens(dish: Dish, law: str) -> tuple[str, ...]:
    """Return the allergens of a dish by the list of a law, `us` or `eu`, fresh companions too."""
    return _allergens((line for part in dish.parts for line in part.lines), law)


def mix_allergens(part: Part, law: str) -> tuple[str, ...]:
    """Return the allergens of one component's dry mix by the list of a law."""
    return _allergens((line for line in part.lines if line.is_dry), law)


def companions(part: Part, law: str) -> dict[str, tuple[str, ...]]:
    """Return what is added fresh to a component, with the allergens of each."""
    fresh = [line for line in part.lines if not line.is_dry]
    return {line.store.name: _allergens([line], law) for line in fresh}


def store_allergens(store: ShelfStore, law: str) -> tuple[str, ...]:
    """Return the allergens of one store by the list of a law."""
    return tuple(getattr(store.food, f"allergens_{law}")) if store.food else ()


def _allergens(lines: Iterable[MixLine], law: str) -> tuple[str, ...]:
    found: dict[str, None] = {}
    for line in lines:
        found.update(dict.fromkeys(store_allergens(line.store, law)))
    return tuple(sorted(found))
