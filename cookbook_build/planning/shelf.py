"""The shelf: every store of the larder weighed, every base's pot filled, bases first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.planning.pots import Pot, cooked_pot
from cookbook_build.planning.stores import CUP_ML, ShelfStore, measures
from cookbook_build.preserving.yields import (
    DERIVED_SHARE,
    RESIDUAL_MOISTURE,
    TABLE_SHARE,
    VOLUME_KEPT,
    dried_cup_weight,
    learned_cup_weight,
)

if TYPE_CHECKING:
    from cookbook_build.findings import Findings
    from cookbook_build.foods import Food
    from cookbook_build.kitchen.rehydration import Dryness
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.fields import Weight
    from cookbook_build.manuscript.larder import Store
    from cookbook_build.manuscript.recipes import Recipe
    from cookbook_build.measures.units import Measures


@dataclass(frozen=True, slots=True)
class Shelf:
    """All stores by name, and the pot of every base by its address."""

    stores: dict[str, ShelfStore]
    pots: dict[str, Pot | None]


def shelf(book: Manuscript, findings: Findings) -> Shelf:
    """Return every store and every pot that the book can count with; bases come first."""
    found = Shelf({}, {})
    for name in book.larder.stores:
        _place(name, book, found, findings)
    for base in book.bases:
        _fill_pot(base, book, found, findings)
    return found


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
    cup = _cup(store, food, measures(book))
    piece = keys.weighs if keys.weighs and keys.weighs.measure.kind == "count" else None
    dried_here = keys.dried in {"freeze", "air"}  # what one weighs fresh says little then
    usual = food.piece() if food and not dried_here else None
    grams_per_piece = (
        float(piece.grams.weight_g(measures(book)) / piece.measure.count())
        if piece
        else usual[1]
        if usual
        else None
    )
    moisture, restored, dryness = _water(store, food, book)
    return ShelfStore(
        store, food, base, moisture, restored, dryness, cup.grams, cup.weighings > 0, cup.cut,
        grams_per_piece, cup.sd_g, cup.weighings,
    )  # fmt: skip


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


@dataclass(frozen=True, slots=True)
class _Cup:
    """What a cup of a store weighs, from how many weighings, and of which cut if derived."""

    grams: float | None
    cut: str = ""
    weighings: int = 0
    sd_g: float | None = None


def _cup(store: Store, food: Food | None, of: Measures) -> _Cup:
    """Return the cup that was said, learned from weighings, or derived."""
    said = store.keys.weighs
    weighings = [_cup_g(weighing, of) for weighing in store.keys.weighings]
    if said and said.measure.kind == "volume":
        if not weighings:
            return _Cup(_cup_g(said, of), weighings=1)
        weighings.append(_cup_g(said, of))
    derived, share = _derived_cup(store, food)
    if not weighings:
        return derived
    grams, sd_g = learned_cup_weight(derived.grams, share, weighings)
    return _Cup(grams, weighings=len(weighings), sd_g=sd_g)


def _cup_g(weighs: Weight, of: Measures) -> float:
    return float(weighs.grams.weight_g(of) / weighs.measure.volume_ml(of)) * CUP_ML


def _derived_cup(store: Store, food: Food | None) -> tuple[_Cup, float]:
    """Return the cup of the reference table, dried if it was, and how unsure that is."""
    cup = food.cup(store.keys.form or "") if food else None
    if food is None or cup is None:
        return _Cup(None), TABLE_SHARE
    cut, grams = cup
    match store.keys.dried:
        case "freeze" | "air" as dried:
            residual = min(RESIDUAL_MOISTURE[dried], food.moisture)
            kept = VOLUME_KEPT[dried].mean
            grams = dried_cup_weight(grams, food.moisture, residual, kept)
            return _Cup(grams, cut), DERIVED_SHARE[dried]
        case _:
            return _Cup(grams, cut), TABLE_SHARE
