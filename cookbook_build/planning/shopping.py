"""Shopping: from grams dried back to what is bought, in whole pieces where the table knows them.

dried grams -> prepared = dried / y -> as bought = prepared / (1 - refuse) -> for cooked foods the
raw good = prepared (1 - M_cooked) / (1 - M_raw), and of what does not swell no less than prepared.
Stores made from a base go through its pot.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from math import ceil
from typing import TYPE_CHECKING, Final

from cookbook_build.foods.shop_words import shop_words
from cookbook_build.preserving.yields import purchased_mass_g, uncooked_mass_g

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.foods import Food, FoodTable
    from cookbook_build.planning.pots import Pot
    from cookbook_build.planning.stores import ShelfStore

COOKED_WORDS: Final = frozenset({
    "cooked", "boiled", "baked", "roasted", "scrambled", "braised", "stewed", "steamed",
    "simmered", "grilled", "fried", "poached", "hard-boiled", "sauteed", "blanched", "in", "skin",
})  # fmt: skip
RAW_STATES: Final = ("raw", "dry", "frozen", "")

SWELLING_GROUPS: Final = frozenset({"grains", "pulses"})
"""Foods that weigh more cooked than raw, pasta among the grains. All others lose juice, peel and
trimmings, or at best keep their weight (common practice, no source): the dry matter of two samples
of the table, one raw and one cooked, must not make them gain."""

SMALLEST_PIECE_G: Final = 25.0
"""Lighter ones, such as peas, are weighed and not counted; our choice."""

COUNTED_GROUPS: Final = frozenset({"vegetables", "fruit", "eggs"})
AUTHORS: Final = frozenset({"own", "base"})
"""Groups of foods that an author named."""
OWN_SECTION: Final = "other"
"""Where goods stand whose section nobody knows, known only by their pack's label."""


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

    @property
    def unsuited(self) -> str:
        """Why a freeze dryer does not suit it, where it doesn't: fat, sugar or chocolate."""
        food, dried = self.store.food, self.store.store.keys.dried
        return food.unsuited if food and dried == "freeze" else ""


@dataclass(frozen=True, slots=True)
class ShoppingLine:
    """What to buy of one food, in grams and, where its pieces are known, in whole ones."""

    food: Food
    name: str  # as it is called in a shop
    bought_g: float
    edible_g: float
    what_for: tuple[tuple[str, float], ...]  # the stores, and the grams bought for each
    pieces: tuple[int, str] | None = None  # how many whole ones, and what they are: `5 ears`
    is_pantry: bool = False  # bought dry as it is used, and perhaps in the house


@dataclass(slots=True)
class Item:
    """What has been put into a basket of one thing."""

    food: Food
    bought_g: float = 0.0
    edible_g: float = 0.0
    pieces: float = 0.0
    piece_name: str = ""
    is_pantry: bool = True
    reasons: dict[str, float] = field(default_factory=dict)
    by_piece: bool = False  # bought in whole ones, and weighing what those weigh

    def line(self, name: str) -> ShoppingLine:
        """Return it as a line of a list."""
        whole = ceil(self.pieces - 1e-9)
        times = whole / self.pieces if self.by_piece and self.pieces > 0 else 1.0
        return ShoppingLine(
            self.food,
            name,
            self.bought_g * times,
            self.edible_g,
            tuple(self.reasons.items()),
            (whole, self.piece_name) if self.pieces > 0 else None,
            self.is_pantry,
        )


@dataclass(slots=True)
class Basket:
    """What has been put on a shopping list so far, by the names of the shop."""

    items: dict[str, Item] = field(default_factory=dict)

    def add(
        self,
        food: Food,
        bought_g: float,
        edible_g: float,
        reason: str,
        pieces: float | None = None,
        *,
        is_pantry: bool = False,
    ) -> None:
        """Put some of a food into the basket; without pieces they are told by the weight."""
        if food.id == "water" or not (bought_g > 0 or pieces):
            return
        whole = bought_g > edible_g * (1 + 1e-9)
        item = self.items.setdefault(shop_words(food, whole=whole), Item(food))
        item.bought_g += bought_g
        item.edible_g += edible_g
        item.is_pantry &= is_pantry
        item.reasons[reason] = item.reasons.get(reason, 0.0) + bought_g
        item.by_piece = pieces is not None and (item.by_piece or item.bought_g == bought_g)
        piece = food.piece() if food.group in COUNTED_GROUPS else None
        if pieces is not None:
            item.pieces += pieces
        elif piece and piece[1] >= SMALLEST_PIECE_G:
            item.pieces += edible_g / piece[1]
            item.piece_name = piece[0]

    def add_some(self, food: Food, reason: str, *, is_pantry: bool) -> None:
        """Put a food into the basket that is used to taste; what is in it already will do."""
        item = self.items.setdefault(shop_words(food, whole=False), Item(food))
        item.is_pantry &= is_pantry
        item.reasons.setdefault(reason, 0.0)

    def by_section(self) -> dict[str, tuple[ShoppingLine, ...]]:
        """Return what is in it by the section of the shop."""
        sections: dict[str, list[ShoppingLine]] = defaultdict(list)
        for name, item in sorted(self.items.items()):
            section = OWN_SECTION if item.food.group in AUTHORS else item.food.group
            sections[section].append(item.line(name))
        return {name: tuple(sections[name]) for name in sorted(sections)}


@dataclass(frozen=True, slots=True)
class Shop:
    """What a menu's stores are made from, and the basket that it fills."""

    stores: Mapping[str, ShelfStore]
    pots: Mapping[str, Pot]
    foods: FoodTable
    basket: Basket

    def drying_line(self, store: ShelfStore, dried_g: float) -> DryingLine:
        """Return what one store takes on its way back, and put that into the basket."""
        food, pot = store.food, self.pots.get(store.base or "")
        prepared = dried_g / store.grams_per_prepared_gram
        if pot is not None:
            times = prepared / pot.cooked_g
            return DryingLine(store, dried_g, prepared, self._fill_pot(pot, times, store), times)
        if food is None or not store.dried_here:
            if food:
                each = store.grams_per_piece if store.store.keys.sold_by == "piece" else None
                pieces = dried_g / each if each else None
                self.basket.add(food, dried_g, dried_g, store.name, pieces, is_pantry=True)
            return DryingLine(store, dried_g, dried_g, dried_g)
        return DryingLine(store, dried_g, prepared, self._buy(food, prepared, store.name))

    def add_fresh(self, store: ShelfStore, grams: float, pieces: float) -> None:
        """Put a companion that is eaten fresh into the basket; one from a base is cooked."""
        pot = self.pots.get(store.base or "")
        if pot is not None:
            self._fill_pot(pot, grams / pot.cooked_g, store)
        elif store.food is not None and store.dried_here:  # a line marked as fresh
            self._buy(store.food, grams, store.name)
        elif store.food is not None and (grams or pieces):
            bought = purchased_mass_g(grams, store.food.refuse)
            self.basket.add(store.food, bought, grams, store.name, pieces or None)
        else:
            self.add_to_taste(store)

    def add_to_taste(self, store: ShelfStore) -> None:
        """Put what is bought, in an amount that nobody wrote, into the basket."""
        if store.food is not None:
            is_pantry = store.store.keys.dried == "bought"
            self.basket.add_some(store.food, store.name, is_pantry=is_pantry)

    def _buy(self, food: Food, prepared_g: float, reason: str) -> float:
        """Put what becomes some prepared food into the basket, and return its grams as bought."""
        raw = raw_good(food, self.foods)
        edible = raw_edible_g(food, raw, prepared_g) if raw else prepared_g
        bought = purchased_mass_g(edible, (raw or food).refuse)
        self.basket.add(raw or food, bought, edible, reason)
        return bought

    def _fill_pot(self, pot: Pot, times: float, store: ShelfStore) -> float:
        """Put what goes into some pots of a base into the basket, and return its grams."""
        bought = 0.0
        for line in pot.lines:
            inner = self.stores.get(line.ingredient.store or "")
            inner_pot = self.pots.get(inner.base or "") if inner else None
            if inner and inner_pot:  # a base within a base is cooked, not bought
                prepared = line.prepared_g * times / inner.grams_per_prepared_gram
                bought += self._fill_pot(inner_pot, prepared / inner_pot.cooked_g, store)
                continue
            grams = line.bought_g * times
            is_pantry = inner is not None and inner.store.keys.dried == "bought"
            self.basket.add(
                line.food, grams, line.prepared_g * times, store.name, is_pantry=is_pantry
            )
            bought += grams
        return bought


def raw_edible_g(food: Food, raw: Food, cooked_g: float) -> float:
    """Return what to cook of a raw good: by its dry matter, yet no less than what comes of it."""
    balance = uncooked_mass_g(cooked_g, food.moisture, raw.moisture)
    return balance if raw.group in SWELLING_GROUPS else max(balance, cooked_g)


def raw_good(food: Food, foods: FoodTable) -> Food | None:
    """Return what a cooked food is bought as: its dry good, or the raw food of its name."""
    if food.dry_from:
        return foods[food.dry_from]
    words = food.name.split()
    bare = [word for word in words if word not in COOKED_WORDS]
    if len(bare) == len(words) or not bare:
        return None
    names = [f"{' '.join(bare)} {state}".strip() for state in RAW_STATES]
    found = (foods.find(name) for name in names)
    return next((raw for raw in found if raw and raw.moisture < 1 and raw.id != food.id), None)
