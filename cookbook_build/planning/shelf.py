"""The shelf: every store of the larder weighed, every base's pot filled, bases first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.planning.cups import store_cup
from cookbook_build.planning.pots import Pot, cooked_pot
from cookbook_build.planning.stores import ShelfStore, measures
from cookbook_build.preserving.yields import RESIDUAL_MOISTURE

if TYPE_CHECKING:
    from cookbook_build.findings import Findings
    from cookbook_build.foods import Food
    from cookbook_build.kitchen.rehydration import Dryness
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.larder import Store
    from cookbook_build.manuscript.recipes import Recipe


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
    found.stores[name] = _shelf_store(store, food, address, book, findings)


def _fill_pot(base: Recipe, book: Manuscript, found: Shelf, findings: Findings) -> None:
    """Compute a base's pot once, after the stores that go into it."""
    if base.address in found.pots:
        return
    found.pots[base.address] = None  # ends a circle, which the manuscript has reported
    lines = [line for part in base.components for line in part.ingredients]
    for line in lines:
        if line.store:
            _place(line.store, book, found, findings)
    if base.is_whole:  # else nobody knows what the pot holds, and its finding says why
        found.pots[base.address] = cooked_pot(
            base, found.stores, book.foods, measures(book), findings
        )


def _shelf_store(
    store: Store, food: Food | None, base: str | None, book: Manuscript, findings: Findings
) -> ShelfStore:
    keys = store.keys
    cup = store_cup(store, food, measures(book), findings)
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
