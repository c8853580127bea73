"""Shopping: from grams dried back to what is bought, in whole pieces where the table knows them.

dried grams -> prepared = dried / y -> as bought = prepared / (1 - refuse) -> for cooked foods the
raw good = prepared (1 - M_cooked) / (1 - M_raw). Stores made from a base go through its pot.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from math import ceil
from typing import TYPE_CHECKING, Final

from cookbook_build.preserving.yields import purchased_mass_g, uncooked_mass_g

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.foods import Food, FoodTable
    from cookbook_build.planning.pots import Pot
    from cookbook_build.planning.stores import ShelfStore

COOKED_WORDS: Final = frozenset({
    "cooked", "boiled", "baked", "roasted", "scrambled", "braised", "stewed", "steamed",
    "simmered", "grilled", "fried",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class DryingLine:
    """What is to be made of one store: dried, prepared before drying, and as bought."""

    store: ShelfStore
    dried_g: float
    prepared_g: float
    bought_g: float
    pots: float | None = None  # how many times a base's recipe

    @property
    def removed_g(self) -> float:
        """Water that the dryer takes away [g]."""
        return self.prepared_g - self.dried_g


@dataclass(frozen=True, slots=True)
class ShoppingLine:
    """What to buy of one food, in grams and, where its pieces are known, in whole ones."""

    food: Food
    bought_g: float
    edible_g: float
    what_for: tuple[str, ...]

    @property
    def pieces(self) -> tuple[int, str] | None:
        """How many whole pieces it takes, and what they are called: `5 ears`."""
        piece = self.food.piece() if self.food.group in {"vegetables", "fruit", "eggs"} else None
        if piece is None or piece[1] < SMALLEST_PIECE_G:
            return None
        return ceil(self.edible_g / piece[1] - 1e-9), piece[0]


SMALLEST_PIECE_G: Final = 25.0
"""Lighter ones, such as peas, are weighed and not counted; our choice."""


@dataclass(slots=True)
class Basket:
    """What has been put on a shopping list so far."""

    bought_g: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    edible_g: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    foods: dict[str, Food] = field(default_factory=dict)
    reasons: dict[str, dict[str, None]] = field(default_factory=lambda: defaultdict(dict))

    def add(self, food: Food, bought_g: float, edible_g: float, reason: str) -> None:
        """Put some of a food into the basket."""
        self.foods[food.id] = food
        self.bought_g[food.id] += bought_g
        self.edible_g[food.id] += edible_g
        self.reasons[food.id][reason] = None

    def by_section(self) -> dict[str, tuple[ShoppingLine, ...]]:
        """Return what is in it by the section of the shop."""
        sections: dict[str, list[ShoppingLine]] = defaultdict(list)
        for key, food in self.foods.items():
            if food.id != "water" and self.bought_g[key] > 0:
                sections[food.group].append(
                    ShoppingLine(
                        food, self.bought_g[key], self.edible_g[key], tuple(self.reasons[key])
                    )
                )
        return {
            name: tuple(sorted(lines, key=lambda line: line.food.name))
            for name, lines in sorted(sections.items())
        }


def drying_line(
    store: ShelfStore,
    dried_g: float,
    pots: Mapping[str, Pot],
    foods: FoodTable,
    basket: Basket,
) -> DryingLine:
    """Return what one store takes on its way back, and put that into the basket."""
    food = store.food
    if food is None or not store.dried_here:
        if food:
            basket.add(food, dried_g, dried_g, store.name)
        return DryingLine(store, dried_g, dried_g, dried_g)
    prepared = dried_g / store.grams_per_prepared_gram
    pot = pots.get(store.base or "")
    if pot is not None:
        times = prepared / pot.cooked_g
        for line in pot.lines:
            basket.add(line.food, line.bought_g * times, line.prepared_g * times, store.name)
        bought = sum(line.bought_g for line in pot.lines) * times
        return DryingLine(store, dried_g, prepared, bought, times)
    raw = raw_good(food, foods)
    edible = uncooked_mass_g(prepared, food.moisture, raw.moisture) if raw else prepared
    bought = purchased_mass_g(edible, (raw or food).refuse)
    basket.add(raw or food, bought, edible, store.name)
    return DryingLine(store, dried_g, prepared, bought)


def raw_good(food: Food, foods: FoodTable) -> Food | None:
    """Return what a cooked food is bought as: its dry good, or the raw food of its name."""
    if food.dry_from:
        return foods[food.dry_from]
    words = food.name.split()
    bare = [word for word in words if word not in COOKED_WORDS]
    if len(bare) == len(words) or not bare:
        return None
    raw = foods.find(f"{' '.join(bare)} raw") or foods.find(f"{' '.join(bare)} dry")
    return raw if raw and raw.moisture < 1 and raw.id != food.id else None
