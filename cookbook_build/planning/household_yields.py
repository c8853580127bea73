"""The household's own yields and drying rate, from its drying log.

Only a run that went on until the food was dry teaches: a lot that came out damp, or was still
losing weight, would tell the next one to stop as early.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING

from cookbook_build.planning.stock import DriedLot, dried_lots
from cookbook_build.preserving.drying import DriedRow, drying_rate
from cookbook_build.preserving.lots import household_yield

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.stores import ShelfStore
    from cookbook_build.preserving.drying import DryingRate
    from cookbook_build.preserving.yields import DryingWay


def with_household_yields(
    stores: Mapping[str, ShelfStore], book: Manuscript, findings: Findings
) -> dict[str, ShelfStore]:
    """Return the stores with the yields of the log; weights that can't be leave findings."""
    listed = tuple(dried_lots(book, stores))
    _check_weights(listed, {row.lot.casefold() for row in book.stock}, findings)
    _check_steady(listed, findings)
    _check_known(listed, stores, findings)
    shares: dict[str, list[float]] = defaultdict(list)
    for lot in listed:
        if lot.is_finished and lot.weighed.teaches and lot.weighed.dried_share:
            shares[lot.row.store].append(lot.weighed.dried_share)
    return {
        name: replace(store, own_yield=household_yield(store.grams_per_prepared_gram, shares[name]))
        if shares.get(name)
        else store
        for name, store in stores.items()
    }


def _check_weights(listed: Iterable[DriedLot], shelved: set[str], findings: Findings) -> None:
    """Report weights that can't be, and once for each store those that are unlikely."""
    light: dict[str, list[DriedLot]] = defaultdict(list)
    for lot in listed:
        row, moisture = lot.row, lot.weighed.sure_moisture or 0.0
        least = "at least " if lot.weighed.moisture is None else ""
        if lot.weighed.fault == "lighter than its dry matter":
            light[row.store].append(lot)
        elif lot.weighed.fault == "far too light":
            findings.error(
                row.place,
                f"lot {row.lot} came out at {row.dry_g:.6g} g, and the dry matter of "
                f"{row.fresh_g:.6g} g {row.store} weighs about {row.dry_g * (1 - moisture):.0f} g",
                "check both weights, and whether the tray's own weight was taken off both.",
            )
        elif lot.weighed.fault == "still damp" and row.lot.casefold() not in shelved:
            findings.warning(  # of one on the shelf, the shelf says so
                row.place,
                f"by its weights lot {row.lot} of {row.store} still holds {least}"
                f"{100 * moisture:.0f} % water",
                "dry it again and weigh it again, or check the two weights.",
            )
    for store, lots in light.items():
        _warn_of_light_lots(store, lots, findings)


def _warn_of_light_lots(store: str, lots: list[DriedLot], findings: Findings) -> None:
    most = max(1 - 1 / (1 - (lot.weighed.moisture or 0.0)) for lot in lots)
    names = ", ".join(lot.row.lot for lot in lots[:3]) + (", …" if len(lots) > 3 else "")
    lighter = (
        f"lot {names} of {store} weighs {100 * most:.0f} %"
        if len(lots) == 1
        else f"{len(lots)} lots of {store} ({names}) weigh up to {100 * most:.0f} %"
    )
    findings.warning(
        lots[0].row.place,
        f"{lighter} less than the dry matter of what went in, more than foods of one name differ",
        "check the weights; if they are right, this food is wetter than the table's, and the "
        "yield reckoned for it follows your lots.",
    )


def _check_steady(listed: Iterable[DriedLot], findings: Findings) -> None:
    """Warn of runs that ended while the food was still losing weight."""
    for lot in listed:
        row, share = lot.row, lot.unsteady_share
        if share and row.last_check_g is not None:
            findings.warning(
                row.check_place or row.place,
                f"the last two weights of lot {row.lot}, {row.last_check_g:.6g} g and "
                f"{row.dry_g:.6g} g, differ by {100 * share:.1f} %; when it is dry they differ by "
                "less than 1 %",
                "dry it on, weigh it again after another hour, and write the last two weights"
                + ("; until then no menu counts on it." if lot.is_unfinished else "."),
            )


def _check_known(
    listed: Iterable[DriedLot], stores: Mapping[str, ShelfStore], findings: Findings
) -> None:
    """Warn once a store whose weights tell nothing, without moisture and without a last check."""
    first: dict[str, DriedLot] = {}
    for lot in listed:
        if not lot.is_told:
            first.setdefault(lot.row.store, lot)
    for name, lot in first.items():
        base = stores[name].base
        findings.warning(
            lot.row.place,
            f"whether lot {lot.row.lot} of {name} is dry can't be told: "
            + (
                f'nobody weighed the pot of "{base}"'
                if base
                else "its label does not say how much water it held before"
            ),
            "write what it weighed an hour before the end under last check, or "
            + (
                f'weigh the pot and add a line such as "cooked weight: 900 g" to {base}.md.'
                if base
                else 'add its moisture before drying to the label, such as "moisture: 80 %".'
            ),
        )


def household_rate(
    book: Manuscript, stores: Mapping[str, ShelfStore], way: DryingWay = "freeze"
) -> DryingRate | None:
    """Return how fast one of this household's ways of drying takes water, from the log.

    A load counts when everything in it was dried until it was dry.
    """
    return drying_rate(
        DriedRow(
            lot.row.date.isoformat(),
            lot.row.fresh_g,
            lot.row.dry_g if lot.is_finished else None,
            lot.row.hours,
        )
        for lot in dried_lots(book, stores)
        if stores[lot.row.store].store.keys.dried == way
    )
