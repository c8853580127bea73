"""The household's own yields and drying rate, from its drying log."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from cookbook_build.planning.lots import log_lots
from cookbook_build.preserving.drying import DriedRow, drying_rate
from cookbook_build.preserving.lots import household_yield

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.stores import ShelfStore
    from cookbook_build.preserving.drying import DryingRate

FAULTS: Final = {
    "lighter than its dry matter": (
        "{lot} weighs less dried than the dry matter of {fresh:.0f} g {store}",
        "check both weights; one of them is a slip, or the food was wetter than most.",
    ),
    "still damp": (
        "by its weights {lot} of {store} still holds {moisture:.0f} % water",
        "dry it again and weigh it again, or check the two weights.",
    ),
}


def with_household_yields(
    stores: Mapping[str, ShelfStore], book: Manuscript, findings: Findings
) -> dict[str, ShelfStore]:
    """Return the stores with the yields of the log; weights that can't be leave findings."""
    shares: dict[str, list[float]] = defaultdict(list)
    for row, lot in log_lots(book, stores):
        if lot.teaches and lot.dried_share:
            shares[row.store].append(lot.dried_share)
        if lot.fault in FAULTS:
            cause, mend = FAULTS[lot.fault]
            words = {
                "lot": f"lot {row.lot}",
                "store": row.store,
                "fresh": row.fresh_g,
                "moisture": 100 * (lot.moisture or 0.0),
            }
            findings.warning(row.place, cause.format(**words), mend)
    return {
        name: replace(store, own_yield=household_yield(store.grams_per_prepared_gram, shares[name]))
        if shares.get(name)
        else store
        for name, store in stores.items()
    }


def household_rate(book: Manuscript) -> DryingRate | None:
    """Return how fast this household's dryer takes water, from the log."""
    return drying_rate(
        DriedRow(row.date.isoformat(), row.fresh_g, row.dry_g, row.hours) for row in book.log
    )
