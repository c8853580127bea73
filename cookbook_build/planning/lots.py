"""Lots: what stands on the shelf, how dry, until when at its best, and who has reserved it."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.kitchen.cautions import ABSORBER_MOISTURE
from cookbook_build.planning.quality import store_quality
from cookbook_build.preserving.keeping import best_by
from cookbook_build.preserving.lots import weighed_lot

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping

    from cookbook_build.findings import Findings, Place
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.logs import LogRow
    from cookbook_build.planning.stores import ShelfStore
    from cookbook_build.preserving.lots import WeighedLot


@dataclass(frozen=True, slots=True)
class Lot:
    """One dated container of a store."""

    store: str
    name: str
    packed: dt.date
    container: str
    grams: float
    best_by: dt.date
    moisture: float | None  # from the drying log, where it was weighed
    place: Place

    @property
    def is_damp(self) -> bool:
        """Whether the log shows it too damp for sealed keeping."""
        return self.moisture is not None and self.moisture > ABSORBER_MOISTURE


@dataclass(frozen=True, slots=True)
class Taken:
    """What is taken from one lot."""

    lot: Lot
    grams: float


class Reserves:
    """The shelf while menus reserve from it: first what is first past its best."""

    def __init__(self, lots: Mapping[str, tuple[Lot, ...]]) -> None:
        self.lots = lots
        self._left = {id(lot): lot.grams for listed in lots.values() for lot in listed}

    def left_g(self, lot: Lot) -> float:
        """Return what nobody has reserved of a lot [g]."""
        return self._left[id(lot)]

    def reserve(self, store: str, grams: float, day: dt.date | None) -> tuple[Taken, ...]:
        """Take up to some grams of a store from lots that are dry and in date on a day."""
        taken = []
        for lot in self.lots.get(store, ()):
            if grams <= 0:
                break
            if lot.is_damp or (day is not None and lot.best_by < day):
                continue
            take = min(self._left[id(lot)], grams)
            if take > 0:
                taken.append(Taken(lot, take))
                self._left[id(lot)] -= take
                grams -= take
        return tuple(taken)


def shelf_lots(
    book: Manuscript, stores: Mapping[str, ShelfStore], findings: Findings
) -> dict[str, tuple[Lot, ...]]:
    """Return the lots of each store, first best-by first; damp ones leave a warning."""
    logged = {row.lot.casefold(): row for row in book.log}
    found: dict[str, list[Lot]] = defaultdict(list)
    for row in book.stock:
        store = stores.get(row.store)
        if store is None or store.food is None:
            continue
        log_row = logged.get(row.lot.casefold())
        weighed = _weighed(log_row, store) if log_row else None
        months = store_quality(store, book).months
        found[row.store].append(
            Lot(
                row.store,
                row.lot,
                row.packed,
                row.container,
                row.grams,
                best_by(row.packed, months),
                weighed.moisture if weighed else None,
                row.place,
            )
        )
    lots = {
        name: tuple(sorted(listed, key=lambda lot: (lot.best_by, lot.packed, lot.name)))
        for name, listed in sorted(found.items())
    }
    for lot in (lot for listed in lots.values() for lot in listed):
        if lot.is_damp and lot.moisture is not None:
            findings.warning(
                lot.place,
                f"by its weights lot {lot.name} of {lot.store} holds {100 * lot.moisture:.0f} % "
                f"water, more than the {100 * ABSORBER_MOISTURE:.0f} % that sealed keeping allows",
                "dry it again and weigh it again; until then no menu counts on it.",
            )
    return lots


def _weighed(row: LogRow, store: ShelfStore) -> WeighedLot | None:
    if store.food is None or not store.dried_here:
        return None
    return weighed_lot(row.fresh_g, row.dry_g, store.food.moisture)


def log_lots(
    book: Manuscript, stores: Mapping[str, ShelfStore]
) -> Iterator[tuple[LogRow, WeighedLot]]:
    """Give each row of the drying log with what its weights say."""
    for row in book.log:
        store = stores.get(row.store)
        weighed = _weighed(row, store) if store else None
        if weighed is not None:
            yield row, weighed


def book_day(book: Manuscript) -> dt.date | None:
    """Return the newest day that the book's stock, log, trials or recipes name."""
    days = [row.packed for row in book.stock]
    days += [row.date for row in book.log]
    for recipe in book.recipes.values():
        days += [recipe.keys.date] if recipe.keys.date else []
        days += [trial.date for part in recipe.components for trial in part.trials]
    return max(days, default=None)
