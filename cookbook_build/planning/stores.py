"""What each store weighs, holds and wants back: the larder's words as numbers for the kitchen.

A store's figures come from its food, from its pack's label, or, for a store made from a base,
from what went into the pot.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.composition import Composition
from cookbook_build.kitchen.rehydration import full_restoration_ml
from cookbook_build.measures.units import SYSTEMS, US_CUP_ML, Measures
from cookbook_build.planning.pots import Pot, cooked_pot
from cookbook_build.preserving.yields import (
    RESIDUAL_MOISTURE,
    VOLUME_KEPT,
    dried_cup_weight,
    dry_yield,
)

if TYPE_CHECKING:
    from fractions import Fraction

    from cookbook_build.findings import Findings
    from cookbook_build.foods import Food
    from cookbook_build.kitchen.rehydration import Dryness
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.ingredients import Ingredient
    from cookbook_build.manuscript.larder import Store
    from cookbook_build.manuscript.recipes import Recipe

CUP_ML: Final = float(US_CUP_ML)


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


@dataclass(frozen=True, slots=True)
class Shelf:
    """All stores by name, and the pot of every base by its address."""

    stores: dict[str, ShelfStore]
    pots: dict[str, Pot | None]


def composition_at(food: Food, moisture: float) -> Composition:
    """Return what a food is made of once it holds this moisture."""
    scale = (1 - moisture) / (1 - food.moisture) / 100 if food.moisture < 1 else 0.0
    fibre = food.fibre_g or 0.0
    parts = (food.protein_g, food.fat_g, max(food.carbohydrate_g - fibre, 0.0), fibre)
    protein, fat, carbohydrate, fibre = (part * scale for part in parts)
    ash = (food.ash_g or 0.0) * scale
    return Composition(moisture, protein, fat, carbohydrate, fibre, ash)


def shelf(book: Manuscript, findings: Findings) -> Shelf:
    """Return every store and every pot that the book can count with; bases come first."""
    found = Shelf({}, {})
    for name in book.larder.stores:
        _place(name, book, found, findings)
    for base in book.bases:
        _fill_pot(base, book, found, findings)
    return found


def measures(book: Manuscript) -> Measures:
    """Return the measures that the book is written in."""
    return SYSTEMS[book.book.measures]


def _place(name: str, book: Manuscript, found: Shelf, findings: Findings) -> None:
    if name in found.stores:
        return
    store = book.larder.stores[name]
    base = book.base_of(name)
    food = store.food
    if base is not None:
        _fill_pot(base, book, found, findings)
        pot = found.pots.get(base.address)
        food = pot.food if pot else None
    address = base.address if base else None
    found.stores[name] = _shelf_store(store, food, address, book)


def _fill_pot(base: Recipe, book: Manuscript, found: Shelf, findings: Findings) -> None:
    """Compute a base's pot once, after the stores that go into it."""
    if base.address in found.pots:
        return
    found.pots[base.address] = None  # ends a circle, which the manuscript has reported
    lines = [line for part in base.components for line in part.ingredients]
    for line in lines:
        if line.store:
            _place(line.store, book, found, findings)
    found.pots[base.address] = cooked_pot(base, found.stores, book.foods, measures(book), findings)


def _shelf_store(store: Store, food: Food | None, base: str | None, book: Manuscript) -> ShelfStore:
    keys = store.keys
    cup, measured, cut = _cup(store, food, measures(book))
    piece = keys.weighs if keys.weighs and keys.weighs.measure.kind == "count" else None
    usual = food.piece() if food else None
    grams_per_piece = (
        float(piece.grams.weight_g(measures(book)) / piece.measure.count())
        if piece
        else usual[1]
        if usual
        else None
    )
    moisture, restored, dryness = _water(store, food, book)
    return ShelfStore(
        store, food, base, moisture, restored, dryness, cup, measured, cut, grams_per_piece
    )


def _water(
    store: Store, food: Food | None, book: Manuscript
) -> tuple[float, float | None, Dryness | None]:
    """Return a store's moisture, the moisture it is restored to, and its kind of dryness."""
    if food is None:
        return 0.05, None, None
    match store.keys.dried:
        case "freeze" | "air" as dried:
            dryness: Dryness = "powder" if store.is_powder else dried
            residual = min(RESIDUAL_MOISTURE[dried], food.moisture)
            return residual, food.moisture, dryness
        case "bought":
            label = store.keys.label
            restored = label.restored_moisture if label else None
            if food.restores_to:
                restored = book.foods[food.restores_to].moisture
            if restored is None:
                return food.moisture, None, None
            return food.moisture, restored, "powder" if store.is_powder else "staple"
        case _:
            return food.moisture, None, None


def _cup(store: Store, food: Food | None, of: Measures) -> tuple[float | None, bool, str]:
    """Return the grams of a US cup of a store, whether they were measured, and the cut used."""
    weighs = store.keys.weighs
    if weighs and weighs.measure.kind == "volume":
        density = weighs.grams.weight_g(of) / weighs.measure.volume_ml(of)
        return float(density) * CUP_ML, True, ""
    cup = food.cup(store.keys.form or "") if food else None
    if food is None or cup is None:
        return None, False, ""
    cut, grams = cup
    if store.keys.dried in {"freeze", "air"}:
        residual = min(RESIDUAL_MOISTURE[store.keys.dried], food.moisture)
        grams = dried_cup_weight(grams, food.moisture, residual, VOLUME_KEPT[store.keys.dried].mean)
    return grams, False, cut


def dry_mass(
    line: Ingredient, store: ShelfStore, of: Measures, findings: Findings | None = None
) -> tuple[float, float]:
    """Return the mass [g] and the volume [mL] of an ingredient line of a meal.

    A line whose store can't be weighed leaves a finding and counts as nothing.
    """
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
            f'weigh one, and add a line such as "weighs: 60 g per {measure}" to {store.name} '
            "in larder.yaml.",
        )


def scaled(line: Ingredient, factor: Fraction) -> Ingredient:
    """Return an ingredient line for more or fewer servings; what goes in per pot stays."""
    if line.per_pot:
        return line
    weighed = line.weighed.times(factor) if line.weighed else None
    return replace(line, amount=line.amount.times(factor), weighed=weighed)
