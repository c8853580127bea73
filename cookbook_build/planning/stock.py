"""The shelf's lots as stock and drying log have them: how dry, and until when at their best."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.cautions import ABSORBER_MOISTURE
from cookbook_build.manuscript.lots import same_weighing_g
from cookbook_build.planning.lots import Lot
from cookbook_build.planning.quality import kept, store_quality
from cookbook_build.preserving.drying import is_steady
from cookbook_build.preserving.keeping import best_by
from cookbook_build.preserving.lots import (
    UNFINISHED_SHARE,
    WeighedLot,
    lot_of_unweighed_pot,
    weighed_lot,
)
from cookbook_build.words import N_

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping, Sequence

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.logs import LogRow, StockRow
    from cookbook_build.planning.stores import ShelfStore

NOT_WEIGHED: Final = N_("not weighed: check that it is dry")
NOT_TOLD: Final = N_("its weights do not tell how dry it is: check that it is dry")
NOT_STEADY: Final = N_("was still losing weight: check that it is dry")
REPACKED_DAYS: Final = 31
"""A lot packed later than this after it was dried ages from the day it was dried; our choice."""

KEPT_UP_DAYS: Final = 90
"""Days after the last drying or packing until which the list is taken for what stands on the
shelf; our choice. Later, lots that are over are one suggestion instead of a warning each."""


@dataclass(frozen=True, slots=True)
class DriedLot:
    """A row of the drying log, and what its weights say."""

    row: LogRow
    weighed: WeighedLot

    @property
    def unsteady_share(self) -> float:
        """By what part of its weight it changed in the last hour; nought if it was steady."""
        return abs(self.lost_share)

    @property
    def lost_share(self) -> float:
        """What part of its weight it lost in the last hour; below nought if it gained some."""
        last, dry = self.row.last_check_g, self.row.dry_g
        if last is None or is_steady(last, dry):
            return 0.0
        return (last - dry) / dry

    @property
    def is_unfinished(self) -> bool:
        """Whether it lost much in the last hour, and more than a scale's step."""
        last, dry = self.row.last_check_g, self.row.dry_g
        much = last is not None and last - dry > same_weighing_g(dry)
        return much and round(self.lost_share, 6) >= UNFINISHED_SHARE

    @property
    def is_told(self) -> bool:
        """Whether its weights can tell how dry it is: by its moisture, or by staying the same."""
        weighed = self.weighed
        known = weighed.moisture is not None or weighed.is_damp
        return known or self.row.last_check_g is not None

    @property
    def is_finished(self) -> bool:
        """Whether its weights show a run that went on until it was dry: only such a one teaches."""
        weighed = self.weighed
        by_weight = weighed.teaches or (weighed.moisture is None and not weighed.is_damp)
        return by_weight and self.is_told and not self.unsteady_share


def dried_lots(book: Manuscript, stores: Mapping[str, ShelfStore]) -> Iterator[DriedLot]:
    """Give each row of the drying log with what its weights say."""
    for row in book.log:
        store = stores.get(row.store)
        if store is None or store.food is None or not store.dried_here:
            continue
        if moisture_is_known(store, book):
            yield DriedLot(row, weighed_lot(row.fresh_g, row.dry_g, store.food.moisture))
        elif store.base is not None:
            yield DriedLot(row, lot_of_unweighed_pot(row.fresh_g, row.dry_g, store.food.moisture))
        else:
            share = row.dry_g / row.fresh_g
            yield DriedLot(row, WeighedLot(share, None, None, teaches=False))


def moisture_is_known(store: ShelfStore, book: Manuscript) -> bool:
    """Whether somebody weighed or printed what a store's prepared food holds of water.

    Nobody did of a pot that was not weighed when it was cooked, nor of a label without moisture.
    """
    base = book.base_of(store.name)
    if base is not None:
        return base.keys.cooked_weight is not None
    label = store.store.keys.label
    return label is None or label.moisture is not None


def shelf_lots(
    book: Manuscript, stores: Mapping[str, ShelfStore], findings: Findings
) -> dict[str, tuple[Lot, ...]]:
    """Return the lots of each store, first best-by first; damp ones leave a warning."""
    dried = {lot.row.lot.casefold(): lot for lot in dried_lots(book, stores)}
    found: dict[str, list[Lot]] = defaultdict(list)
    for row in book.stock:
        store = stores.get(row.store)
        if store is not None and store.food is not None and store.is_dry:
            found[row.store].append(_lot(row, store, dried.get(row.lot.casefold()), book))
    lots = {
        name: tuple(sorted(listed, key=lambda lot: (lot.best_by, lot.packed, lot.name)))
        for name, listed in sorted(found.items())
    }
    for lot in (lot for listed in lots.values() for lot in listed):
        if lot.is_damp:
            findings.warning(
                lot.place,
                f"by its weights lot {lot.name} of {lot.store} {lot.holds}, more than the "
                f"{100 * ABSORBER_MOISTURE:.0f} % that sealed keeping allows",
                f"dry it again and weigh it again{_or_weigh_the_pot(lot, stores[lot.store])}; "
                "until then no menu counts on it.",
            )
    if is_kept_up(book):
        for lot in past_best(lots, book):
            findings.warning(
                lot.place,
                f"lot {lot.name} of {lot.store} was at its best until {lot.best_by}",
                "look at it and smell it, and use it before the others, or delete its row; the "
                "date speaks of taste, and neither before nor after it of safety.",
            )
    return lots


def shelf_day(book: Manuscript) -> dt.date | None:
    """Return the newest day on which something was dried or packed."""
    return max([row.packed for row in book.stock] + [row.date for row in book.log], default=None)


def is_kept_up(book: Manuscript) -> bool:
    """Whether something was dried or packed lately, so that the shelf's list can be believed."""
    newest = shelf_day(book)
    return bool(newest and book.today and (book.today - newest).days <= KEPT_UP_DAYS)


def past_best(lots: Mapping[str, Sequence[Lot]], book: Manuscript) -> list[Lot]:
    """Return the lots whose quality date is over, the longest over first; damp ones aside."""
    today = book.today
    over = [
        lot
        for listed in lots.values()
        for lot in listed
        if today and lot.best_by < today and not lot.is_damp
    ]
    return sorted(over, key=lambda lot: (lot.best_by, lot.store, lot.name))


def _or_weigh_the_pot(lot: Lot, store: ShelfStore) -> str:
    """Return what else mends a lot whose pot's weight would tell more, if anything."""
    if lot.moisture is not None:
        return ""
    return (
        ", or, if more than half of the pot boiled off or was poured away, add its weight, such as "
        f'"cooked weight: 900 g", to {store.base}.md'
    )


def _lot(row: StockRow, store: ShelfStore, dried: DriedLot | None, book: Manuscript) -> Lot:
    keeps = kept(row.container, book)
    months = store_quality(store, book, keeps.package).months
    caution = ""
    if dried is None:
        caution = NOT_WEIGHED if store.dried_here else ""
    elif not dried.is_told:
        caution = NOT_TOLD
    elif dried.unsteady_share:
        caution = NOT_STEADY
    return Lot(
        row.store, row.lot, row.packed, row.container, row.grams,
        best_by(_aged_from(row, dried), months),
        dried.weighed.moisture if dried else None,
        row.place, keeps.package, keeps.assumed, caution,
        dried.weighed.least_moisture if dried else None,
        dried.lost_share if dried and dried.is_unfinished else 0.0,
    )  # fmt: skip


def _aged_from(row: StockRow, dried: DriedLot | None) -> dt.date:
    """Return the day from which a lot ages: a new container makes no old lot young."""
    if dried and (row.packed - dried.row.date).days > REPACKED_DAYS:
        return dried.row.date
    return row.packed


def book_day(book: Manuscript) -> dt.date | None:
    """Return the newest day that the book's stock, log, trials or recipes name."""
    days = [row.packed for row in book.stock]
    days += [row.date for row in book.log]
    for recipe in book.recipes.values():
        days += [recipe.keys.date] if recipe.keys.date else []
        days += [trial.date for part in recipe.components for trial in part.trials]
    return max(days, default=None)
