"""What each store weighs, holds and wants back: the larder's words as numbers for the kitchen.

A store's figures come from its food, from its pack's label, or, for a store made from a base,
from what went into the pot.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.composition import Composition
from cookbook_build.kitchen.rehydration import full_restoration_ml
from cookbook_build.measures.units import SYSTEMS, US_CUP_ML, Measures
from cookbook_build.preserving.yields import dry_yield

if TYPE_CHECKING:
    from cookbook_build.findings import Findings
    from cookbook_build.foods import Food
    from cookbook_build.kitchen.rehydration import Dryness
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.ingredients import Ingredient
    from cookbook_build.manuscript.larder import Store
    from cookbook_build.preserving.lots import HouseholdYield

CUP_ML: Final = float(US_CUP_ML)

HEAVIEST_MIX_G: Final = 100_000.0
"""A hundredth of what the kitchen counts with, so that its water stays within too; our choice."""


@dataclass(frozen=True, slots=True)
class ShelfStore:
    """A store as the kitchen needs it: per gram as it stands on the shelf."""

    store: Store
    food: Food | None  # as prepared before drying; of a bought good, as bought
    base: str | None  # the address of its base
    moisture: float  # as it stands on the shelf
    restored_moisture: float | None  # what hot water brings it back to; None if it takes up none
    dryness: Dryness | None
    grams_per_cup: float | None
    cup_is_measured: bool
    cup_cut: str  # the cut whose weight was used, where it was derived
    grams_per_piece: float | None
    cup_sd_g: float | None = None  # where cups were weighed
    cup_weighings: int = 0
    own_yield: HouseholdYield | None = None  # as this household's drying log has it

    @property
    def name(self) -> str:
        """The store's name in the larder."""
        return self.store.name

    @property
    def is_dry(self) -> bool:
        """Whether it goes into the dry mix."""
        return self.store.keys.dried != "fresh"

    @property
    def dried_here(self) -> bool:
        """Whether this household dried it."""
        return self.store.keys.dried in {"freeze", "air"}

    @property
    def grams_per_prepared_gram(self) -> float:
        """Grams dried from one gram prepared, y."""
        if not self.dried_here or self.food is None:
            return 1.0
        if self.own_yield:
            return self.own_yield.mean
        return dry_yield(self.food.moisture, self.moisture)

    def full_ml(self, dry_g: float) -> float:
        """Return the water [mL] that restores a mass wholly."""
        if self.restored_moisture is None:
            return 0.0
        return full_restoration_ml(dry_g, self.restored_moisture, self.moisture)

    def composition(self) -> Composition | None:
        """Return what the store is made of, as it stands on the shelf."""
        if self.food is None:
            return None
        return composition_at(self.food, self.moisture)


def composition_at(food: Food, moisture: float) -> Composition:
    """Return what a food is made of once it holds this moisture."""
    scale = (1 - moisture) / (1 - food.moisture) / 100 if food.moisture < 1 else 0.0
    fibre = food.fibre_g or 0.0
    parts = (food.protein_g, food.fat_g, max(food.carbohydrate_g - fibre, 0.0), fibre)
    protein, fat, carbohydrate, fibre = (part * scale for part in parts)
    ash = (food.ash_g or 0.0) * scale
    return Composition(moisture, protein, fat, carbohydrate, fibre, ash)


def measures(book: Manuscript) -> Measures:
    """Return the measures that the book is written in."""
    return SYSTEMS[book.book.measures]


def dry_mass(
    line: Ingredient, store: ShelfStore, of: Measures, findings: Findings | None = None
) -> tuple[float, float]:
    """Return the mass [g] and the volume [mL] of an ingredient line of a meal.

    A line whose store can't be weighed, or that no pot holds, leaves a finding and counts as
    nothing.
    """
    grams, ml = _weighed(line, store, of, findings)
    if max(grams, ml) <= HEAVIEST_MIX_G:
        return grams, ml
    if findings is not None:
        findings.error(
            line.place,
            f"this is {grams / 1000:,.0f} kg of {store.name}, more than any pot holds",
            "check the amount and its unit.",
        )
    return 0.0, 0.0


def _weighed(
    line: Ingredient, store: ShelfStore, of: Measures, findings: Findings | None
) -> tuple[float, float]:
    amount = line.amount
    density = store.grams_per_cup / CUP_ML if store.grams_per_cup else None
    if amount.kind == "volume":
        volume = float(amount.volume_ml(of))
        if line.weighed:
            return float(line.weighed.weight_g(of)), volume
        if density:
            return volume * density, volume
        _unweighed(line, store, "cup", findings)
        return 0.0, volume
    if amount.kind == "weight":
        grams = float(amount.weight_g(of))
        return grams, grams / density if density else grams * 2.5
    if amount.kind == "count":
        if store.grams_per_piece is None and store.is_dry and not line.fresh:
            _unweighed(line, store, "piece", findings)
        grams = float(amount.count()) * (store.grams_per_piece or 0.0)
        return grams, grams / density if density else grams * 2.5
    return 0.0, 0.0


def _unweighed(
    line: Ingredient, store: ShelfStore, measure: str, findings: Findings | None
) -> None:
    if findings is not None:
        findings.error(
            line.place,
            f"what a {measure} of {store.name} weighs is not known",
            "write its grams here"
            + (
                f", or write it in {_other(measure)}."
                if store.store.keys.weighs
                else f', or weigh one and add "weighs: 60 g per {measure}" to {store.name} '
                "in larder.yaml."
            ),
        )


def _other(measure: str) -> str:
    return "pieces" if measure == "cup" else "cups and spoons"
