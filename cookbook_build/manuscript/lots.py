"""Lots: what stock.csv and drying-log.csv say of each other.

A lot's name joins them: what the log says was dried is what the shelf holds.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.sheets import shortened

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from cookbook_build.findings import Findings, Place
    from cookbook_build.manuscript.logs import LogRow, StockRow
    from cookbook_build.manuscript.tables import Row

LOG: Final = "drying-log.csv"
SCALE_G: Final = 1.0
SCALE_SHARE: Final = 0.01
"""Two weighings that differ by no more than 1 g or 1 % are the same: a kitchen scale's step, and
by how little a tray still changes when it is dry (common practice, no source)."""


_BETWEEN: Final = re.compile(r"[\W_]+|(?<!\d)0+(?=\d)")
"""What two spellings of one lot differ by: signs between letters and digits, and the noughts
before a number, which a spreadsheet drops."""


def same_weighing_g(grams: float) -> float:
    """Return by how much [g] two weighings may differ that are the same."""
    return max(SCALE_G, SCALE_SHARE * grams)


def dried_lots(
    log: Iterable[tuple[LogRow, Row]], findings: Findings
) -> Mapping[str, tuple[LogRow, Row]]:
    """Return each lot's first row in the log; a second one leaves a finding."""
    dried: dict[str, tuple[LogRow, Row]] = {}
    for read, row in log:
        first, where = dried.setdefault(read.lot.casefold(), (read, row))
        if where is row:
            continue
        if first.store != read.store:
            _report_taken(read.place, read.lot, first.store, f"on line {where.first}", findings)
        else:
            findings.error(
                read.place,
                f'lot "{read.lot}" was dried already, on line {where.first}',
                "give each lot a name of its own; of a lot that went in again, keep one row with "
                "all its hours and its last weight.",
            )
    return dried


def check_shelf(
    stock: Iterable[tuple[StockRow, Row]],
    dried: Mapping[str, tuple[LogRow, Row]],
    findings: Findings,
) -> None:
    """Report lots that stand on the shelf twice, or otherwise than they were dried."""
    shelved: dict[str, tuple[StockRow, Row]] = {}
    rows = list(stock)
    named = {read.lot.casefold() for read, _ in rows}
    spelt = {_BETWEEN.sub("", key): pair for key, pair in dried.items() if key not in named}
    for read, row in rows:
        key = read.lot.casefold()
        first, where = shelved.setdefault(key, (read, row))
        if first.store != read.store:
            _report_taken(read.place, read.lot, first.store, f"on line {where.first}", findings)
        elif where is not row:
            findings.error(
                read.place,
                f'lot "{read.lot}" stands on the shelf already, on line {where.first}',
                "write one row with both weights added up, or give the second container a lot of "
                "its own.",
            )
        elif key in dried:
            _check_against_log(read, row, *dried[key], findings)
        elif near := spelt.get(_BETWEEN.sub("", key)):
            _report_spelling(read, row, *near, findings)


def _report_spelling(
    read: StockRow, row: Row, dried: LogRow, logged: Row, findings: Findings
) -> None:
    """Warn of a lot that the log seems to know by another spelling, and so can't speak of."""
    if dried.store == read.store:
        findings.warning(
            row.place("lot"),
            f'lot "{read.lot}" has no row in {LOG}, where line {logged.first} has '
            f'"{dried.lot}"; so nothing is known of how dry it is',
            f'if they are one lot, write "{dried.lot}".',
        )


def _check_against_log(
    read: StockRow, row: Row, dried: LogRow, logged: Row, findings: Findings
) -> None:
    where = f"on line {logged.first} of {LOG}"
    if dried.store != read.store:
        _report_taken(read.place, read.lot, dried.store, where, findings)
        return
    if read.packed < dried.date:
        findings.error(
            row.place("packed on"),
            f'lot "{read.lot}" was packed on {read.packed}, and dried on {dried.date}, {where}',
            f"write {dried.date} or a later day, or mend the day in {LOG}.",
        )
    if read.grams > dried.dry_g + same_weighing_g(dried.dry_g):
        findings.error(
            row.place("grams"),
            f'lot "{read.lot}" holds {read.grams:.6g} g, and {dried.dry_g:.6g} g came out of the '
            f"dryer, {where}",
            f"write {dried.dry_g:.6g} or less, or mend the dry weight in {LOG}.",
        )


def _report_taken(place: Place, lot: str, store: str, where: str, findings: Findings) -> None:
    findings.error(
        place,
        f'lot "{shortened(lot)}" is already that of {store}, {where}',
        "give each lot a name that no other has.",
    )
