"""Stock and drying log: what stands on the shelf, and how it came to be dry.

Both files are tables that a household keeps in a spreadsheet; both may be missing.
"""

from __future__ import annotations

import os
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, TypeVar

from cookbook_build.findings import Findings, Place, nearest
from cookbook_build.foods.lookup import normalised
from cookbook_build.manuscript import cells
from cookbook_build.manuscript.cells import CellError, Habits, Measure
from cookbook_build.manuscript.lots import LOG, check_shelf, dried_lots, same_weighing_g
from cookbook_build.manuscript.sheets import read_sheet
from cookbook_build.manuscript.tables import Column, Row, Table, read_table
from cookbook_build.walking import is_file, listed

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Iterable, Mapping, Sequence
    from pathlib import Path

    from cookbook_build.manuscript.larder import Larder

STOCK: Final = "stock.csv"
_TEXTS: Final = {"", ".csv", ".txt", ".tsv", ".tab"}
_SHEETS: Final = {".ods", ".xls", ".xlsx", ".numbers"}
MOST_LOOKED_UP: Final = 200  # misspelt stores that get a nearest name; beyond, the file is amiss

Value = TypeVar("Value")
Read = TypeVar("Read")


@dataclass(frozen=True, slots=True)
class StockRow:
    """One lot on the shelf; `place` is where its lot is named."""

    store: str
    lot: str
    packed: dt.date
    container: str
    grams: float
    place: Place


@dataclass(frozen=True, slots=True)
class LogRow:
    """One lot as it was dried; `place` is where its lot is named."""

    date: dt.date
    store: str
    lot: str
    fresh_g: float
    dry_g: float
    hours: float
    trays: float  # a small lot may have shared one
    last_check_g: float | None  # an hour before the end
    place: Place
    check_place: Place | None = None


_STORE: Final = Column("store", ("name", "ingredient", "food"), example="leeks")
_LOT: Final = Column("lot", ("batch", "lot number", "lot no", "lot name"), example="LEE-2603")
_STOCK_COLUMNS: Final = (
    _STORE,
    _LOT,
    Column("packed on", ("packed", "date packed", "packed date", "date"), example="2026-03-02"),
    Column("container", ("kept in", "packed in"), example="jar"),
    Column("grams", ("weight", "net weight", "weight left", "left"), cells.GRAMS, example="240"),
)
_LOG_COLUMNS: Final = (
    Column("date", ("dried on", "day", "load date"), example="2026-03-02"),
    _STORE,
    _LOT,
    Column("fresh g", ("fresh in", "fresh weight", "fresh weight in"), cells.GRAMS, example="850"),
    Column(
        "dry g",
        ("dry out", "dry weight", "dry weight out", "dried", "dried out", "dried weight"),
        cells.GRAMS,
        example="150",
    ),
    Column("hours", ("time", "drying time"), cells.HOURS, example="30"),
    Column("trays", ("number of trays", "tray count"), example="2"),
    Column(
        "last check",
        ("last check weight", "weight at last check", "last weight"),
        cells.GRAMS,
        needed=False,
        example="151",
    ),
)
COLUMNS: Final[Mapping[str, tuple[Column, ...]]] = MappingProxyType(
    {LOG: _LOG_COLUMNS, STOCK: _STOCK_COLUMNS}
)
"""The columns of each table, by its file's name."""

_KILOS: Final = "write it in grams, or with its unit, such as 0.85 kg."
# bounds: our choice, wide of what a household's dryer and shelf hold
_HELD: Final = Measure(
    cells.GRAMS, 1, 50_000, "850 or 1.2 kg",
    "write the grams that are left, or delete the row of an empty container.",
    _KILOS, may_group=True,
)  # fmt: skip
_FRESH: Final = Measure(
    cells.GRAMS, 5, 50_000, "850 or 1.2 kg", "write the grams that went in, such as 850.",
    _KILOS, may_group=True,
)  # fmt: skip
_DRY: Final = Measure(
    cells.GRAMS, 0.5, 50_000, "150 or 1.2 kg", "write the grams that came out, such as 150.",
    _KILOS, may_group=True,
)  # fmt: skip
_HOURS: Final = Measure(
    cells.HOURS, 1, 200, "30 or 30.5", "write the hours that this load took, such as 30.",
    "write the hours that this load took, such as 30, or 30:15.",
)  # fmt: skip
_TRAYS: Final = Measure(
    cells.TRAYS, 0.05, 100, "2", "write how many trays it lay on, such as 2.",
    "write how many trays it lay on, such as 2, or 0.5 of a shared one.",
)  # fmt: skip
_NUMBERS: Final = ("grams", "fresh g", "dry g", "last check", "hours", "trays")
_DAYS: Final = ("packed on", "date")


@dataclass(frozen=True, slots=True)
class _Reader:
    """What the cells of one table are read with; each reading leaves a finding or gives a value."""

    table: Table
    habits: Habits
    larder: Larder | None
    today: dt.date | None
    findings: Findings
    stores: dict[str, str | None]  # what each name that was met so far finds

    def text(self, row: Row, name: str) -> str | None:
        """Return a cell's text."""
        return self._value(row, name, cells.short)

    def grams(self, row: Row, name: str, measure: Measure) -> float | None:
        """Return a cell's number in the unit of its column."""
        factor = self.table.factors.get(name, 1.0)
        return self._value(row, name, lambda text: cells.number(text, measure, self.habits, factor))

    def day(self, row: Row, name: str) -> dt.date | None:
        """Return a cell's day, which is not to come."""
        found = self._value(row, name, lambda text: cells.day(text, self.habits))
        if found and self.today and found > self.today:
            self.findings.error(
                row.place(name),
                f'"{row.cells[name].text}" is still to come: today is {self.today}',
                "write the day on which it was done.",
            )
            return None
        return found

    def store(self, row: Row) -> str | None:
        """Return the larder's name of a row's store; without a larder, the name as written."""
        written = self.text(row, "store")
        if written is None or self.larder is None:
            return written
        if written not in self.stores:
            self.stores[written] = self.larder.names.get(normalised(written))
        found = self.stores[written]
        if found is None:
            self._report_store(row.place("store"), written, self.larder)
        return found

    def _report_store(self, place: Place, written: str, larder: Larder) -> None:
        few = sum(found is None for found in self.stores.values()) <= MOST_LOOKED_UP
        near = nearest(written, [*larder.names.values(), *larder.names]) if few else None
        shown = larder.names.get(near, near) if near else None
        write = f'write "{shown}", or ' if shown else ""
        self.findings.error(
            place,
            f'there is no store called "{written}"',
            f'{write}add "{written}" to larder.yaml.',
        )

    def _value(self, row: Row, name: str, read: Callable[[str], Value]) -> Value | None:
        cell = row.cells.get(name)
        if cell is None or not cell.text:  # a missing column and an empty cell have their findings
            return None
        try:
            return read(cell.text)
        except CellError as problem:
            self.findings.error(row.place(name), problem.cause, problem.mend)
            return None


def read_logs(
    folder: Path, larder: Larder | None, findings: Findings, today: dt.date | None = None
) -> tuple[tuple[StockRow, ...], tuple[LogRow, ...]]:
    """Return the rows of stock.csv and drying-log.csv; what is wrong in them leaves findings.

    Without `today`, no day is taken for one that is still to come.
    """
    stock = _rows(folder, STOCK, _STOCK_COLUMNS, _stock_row, larder, today, findings)
    log = _rows(folder, LOG, _LOG_COLUMNS, _log_row, larder, today, findings)
    dried = dried_lots(log, findings)
    check_shelf(stock, dried, findings)
    return tuple(read for read, _ in stock), tuple(read for read, _ in log)


def _rows(
    folder: Path,
    name: str,
    columns: Sequence[Column],
    read_row: Callable[[Row, _Reader], Read | None],
    larder: Larder | None,
    today: dt.date | None,
    findings: Findings,
) -> list[tuple[Read, Row]]:
    path = folder / name
    if not os.path.lexists(path):
        _report_misnamed(folder, name, findings)
        return []
    source = read_sheet(folder, path, findings)
    table = read_table(source, columns, findings) if source else None
    if table is None:
        return []
    known = cells.habits(_texts(table, _NUMBERS), _texts(table, _DAYS))
    reader = _Reader(table, known, larder, today, findings, {})
    found = (
        (read_row(row, reader), row) for row in table.rows if _is_filled(row, columns, findings)
    )
    return [(read, row) for read, row in found if read is not None]


def _texts(table: Table, names: Iterable[str]) -> list[str]:
    return [row.cells[name].text for name in names for row in table.rows if name in row.cells]


def _report_misnamed(folder: Path, name: str, findings: Findings) -> None:
    """Warn of a file that has the name of a table but for its ending or its spelling."""
    stem = normalised(name.removesuffix(".csv"))
    for path in listed(folder):
        ending = path.suffix.casefold()
        if (
            ending in _TEXTS | _SHEETS
            and normalised(path.stem.replace("_", " ")) == stem
            and is_file(path)
        ):
            findings.warning(
                Place(path.name),
                f"this file is not read; the builder looks for {name}",
                f"rename it to {name}."
                if ending in _TEXTS
                else f"save it as CSV, with the name {name}.",
            )


def _is_filled(row: Row, columns: Sequence[Column], findings: Findings) -> bool:
    """Whether no cell is empty that must not be."""
    empty = [
        column
        for column in columns
        if column.needed and column.name in row.cells and not row.cells[column.name].text
    ]
    if len(empty) == 1:
        findings.error(
            row.place(empty[0].name),
            f'nothing stands here under "{empty[0].name}"',
            f"write a value such as {empty[0].example}.",
        )
    elif empty:
        names = ", ".join(f'"{column.name}"' for column in empty)
        findings.error(
            row.whole, f"this row has nothing under {names}", "fill it in, or delete the row."
        )
    return len(empty) < 2


def _stock_row(row: Row, reader: _Reader) -> StockRow | None:
    store, lot = reader.store(row), reader.text(row, "lot")
    packed, container = reader.day(row, "packed on"), reader.text(row, "container")
    grams = reader.grams(row, "grams", _HELD)
    if store is None or lot is None or packed is None or container is None or grams is None:
        return None
    _check_keeps(row, store, reader)
    return StockRow(store, lot, packed, container, grams, row.place("lot"))


def _log_row(row: Row, reader: _Reader) -> LogRow | None:
    date, store, lot = reader.day(row, "date"), reader.store(row), reader.text(row, "lot")
    fresh, dry = reader.grams(row, "fresh g", _FRESH), reader.grams(row, "dry g", _DRY)
    hours, trays = reader.grams(row, "hours", _HOURS), reader.grams(row, "trays", _TRAYS)
    last = _last_check(row, reader)
    _check_weights(row, fresh, dry, last, reader.findings)
    if store:
        _check_dried(row, store, reader)
    if date is None or store is None or lot is None or hours is None or trays is None:
        return None
    if fresh is None or dry is None:
        return None
    check = row.place("last check") if last is not None else None
    return LogRow(date, store, lot, fresh, dry, hours, trays, last, row.place("lot"), check)


def _last_check(row: Row, reader: _Reader) -> float | None:
    cell = row.cells.get("last check")
    if cell is None or cell.text in {"-", "–", "—"}:
        return None
    return reader.grams(row, "last check", _DRY)


def _check_weights(
    row: Row, fresh: float | None, dry: float | None, last: float | None, findings: Findings
) -> None:
    written = {name: cell.text for name, cell in row.cells.items()}
    if fresh is not None and dry is not None and dry >= fresh:
        findings.error(
            row.place("dry g"),
            f"{written['dry g']} came out dry, and {written['fresh g']} went in fresh"
            ": drying makes food lighter",
            "check both weights, and which of the two columns each stands in.",
        )
    elif dry is not None and last is not None and last < dry - same_weighing_g(dry):
        findings.error(
            row.place("last check"),
            f"{written['last check']} at the last check is less than the {written['dry g']} that "
            "came out an hour later",
            "check both weights, or leave the last check empty.",
        )
    elif fresh is not None and last is not None and last > fresh + same_weighing_g(fresh):
        findings.error(
            row.place("last check"),
            f"{written['last check']} at the last check is more than the {written['fresh g']} that "
            "went in",
            "check both weights, or leave the last check empty.",
        )


def _check_keeps(row: Row, name: str, reader: _Reader) -> None:
    """Warn of a fresh good on the shelf: it has no lot that keeps, and no menu counts on one."""
    larder = reader.larder
    if larder is None or name in larder.unsound or larder.stores[name].keys.dried != "fresh":
        return
    reader.findings.warning(
        row.place("store"),
        f'the larder says that "{name}" is fresh, and here it stands among what keeps; '
        "no menu counts on it",
        "delete this row, or write how it came dry into its line of larder.yaml, such as "
        '"dried: bought".',
    )


def _check_dried(row: Row, name: str, reader: _Reader) -> None:
    """Report a store that was dried, and that the larder says is not."""
    larder = reader.larder
    if larder is None or name in larder.unsound:
        return
    dried = larder.stores[name].keys.dried
    if dried not in {"freeze", "air"}:
        reader.findings.error(
            row.place("store"),
            f'the larder says that "{name}" is {dried}, and here it was dried',
            'name the store that came out, or write "dried: freeze" into its line of larder.yaml.',
        )
