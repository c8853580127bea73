"""Cells: what a spreadsheet's text means as a weight, a number of hours, a day.

A spreadsheet writes 1,200 for twelve hundred in one country and for one and a fifth in another,
and the second of March as 2/3/2026 or 3/2/2026. What can be read two ways is read as the rest of
its file is written, and refused where the rest does not say.
"""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import nearest, one_of
from cookbook_build.manuscript.sheets import shortened
from cookbook_build.measures.units import OUNCE_G, POUND_G, UNITS

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

_WEIGHTS: Final = {"g": 1.0, "kg": 1000.0, "oz": float(OUNCE_G), "lb": float(POUND_G)}
GRAMS: Final[Mapping[str, float]] = MappingProxyType(
    {s: _WEIGHTS[unit.name] for unit in UNITS if unit.name in _WEIGHTS for s in unit.spellings}
    | {"gr": 1.0, "gm": 1.0}
)
HOURS: Final[Mapping[str, float]] = MappingProxyType(
    dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), 1.0)
    | dict.fromkeys(("min", "mins", "minute", "minutes"), 1 / 60)
    | dict.fromkeys(("d", "day", "days"), 24.0)
)
TRAYS: Final[Mapping[str, float]] = MappingProxyType({"tray": 1.0, "trays": 1.0})
YEARS: Final = range(1950, 2101)
LONGEST_TEXT: Final = 60

_FORMULA: Final = re.compile(r"[=@]|[+\-−]\s*(?:[A-Za-z$]+\d*\s*[(:+*/\-]|\d[\d.,]*\s*[+*/\-])")
_FAILED: Final = re.compile(r"#(?:[A-Z]+(?:/[A-Z\d]+)?[!?]?|#+)|Err:\d+", re.IGNORECASE)
_NUMBER: Final = re.compile(
    r"(?P<sign>[+\-−]?)\s*(?P<digits>\d[\d.,'’ ]*|[.,]\d+)(?:e(?P<power>[+-]?\d\d?))?"
    r"\s*(?P<unit>.*)",
    re.IGNORECASE | re.ASCII,
)
_DECIMAL: Final = {
    mark: re.compile(
        rf"(?:[1-9]\d{{0,2}}(?:[{other}'’ ]\d{{3}})+|\d*)(?:{re.escape(mark)}\d+)?", re.ASCII
    )
    for mark, other in ((".", ","), (",", "."))
}
_CLOCK: Final = re.compile(r"(\d{1,3}):([0-5]\d)(?::[0-5]\d)?", re.ASCII)
_TIME: Final = r"(?:[T ]\d{1,2}:\d\d(?::\d\d(?:\.\d+)?)?Z?)?"
_YEAR_FIRST: Final = re.compile(rf"(\d{{4}})([-/.])(\d{{1,2}})\2(\d{{1,2}}){_TIME}", re.ASCII)
_YEAR_LAST: Final = re.compile(rf"(\d{{1,2}})([-/.]) ?(\d{{1,2}})\2 ?(\d{{4}}){_TIME}", re.ASCII)
_SHORT_YEAR: Final = re.compile(r"\d{1,2}([-/.]) ?(\d{1,2})\1 ?\d\d", re.ASCII)
_WRITE_DAY: Final = "write year, month and day like 2026-03-02."


class CellError(ValueError):
    """A cell that can't be taken; carries the cause and the mend."""

    def __init__(self, cause: str, mend: str) -> None:
        super().__init__(cause)
        self.cause, self.mend = cause, mend


@dataclass(frozen=True, slots=True)
class Habits:
    """How a file writes what can be read two ways.

    `decimal` is its decimal mark, `day_first` whether the day stands before the month, by the sign
    between them; what the file does not show is left out.
    """

    decimal: str | None = None
    day_first: Mapping[str, bool] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Measure:
    """What a column of numbers counts: its units, its bounds, and how to write it."""

    units: Mapping[str, float]
    least: float
    most: float
    example: str
    if_nothing: str  # the mend for a nought
    if_small: str = ""  # the mend for less than the least
    may_group: bool = False  # whether it can run to thousands


def habits(numbers: Iterable[str], days: Iterable[str]) -> Habits:
    """Return how a file writes decimals and days, by the cells that can be read in one way only."""
    marks = set()
    for text in numbers:
        found = _NUMBER.fullmatch(text) if "," in text or "." in text else None
        readings = _readings(found["digits"].strip()) if found else {}
        if len(readings) == 1:
            marks |= set(readings)
    orders: dict[str, set[bool]] = {}
    for text in days:
        match = _YEAR_LAST.fullmatch(text)
        dates = _dates(match) if match else {}
        if match and len(dates) == 1:
            orders.setdefault(match[2], set()).update(dates)
    return Habits(
        next(iter(marks)) if len(marks) == 1 else None,
        {sign: next(iter(order)) for sign, order in orders.items() if len(order) == 1},
    )


def number(text: str, measure: Measure, known: Habits, factor: float = 1.0) -> float:
    """Return the number of a cell in its column's unit.

    `factor` is that of a unit in the column's heading, and serves where the cell names none.

    Raises
    ------
    CellError
        When it is none, can be read two ways, or is out of bounds.
    """
    plain(text)
    shown = shortened(text)
    clock = _CLOCK.fullmatch(text) if measure.units is HOURS else None
    match = _NUMBER.fullmatch(text)
    if clock:
        value = int(clock[1]) + int(clock[2]) / 60
    elif match is None or not (readings := _readings(match["digits"].strip())):
        raise CellError(f'"{shown}" is not a number', f"write it like {measure.example}.")
    else:
        factor = _unit(match["unit"], shown, measure) if match["unit"] else factor
        may_group = measure.may_group and factor == 1  # nobody dries thousands of kilograms
        value = _chosen(readings, shown, known, may_group=may_group)
        value *= factor * 10.0 ** int(match["power"] or 0)
        if match["sign"] in {"-", "−"} and value:
            raise CellError(f'"{shown}" is less than nothing', measure.if_nothing)
    if value == 0:
        raise CellError(f'"{shown}" is nothing', measure.if_nothing)
    if value < measure.least:
        raise CellError(f'"{shown}" is less than can be meant here', measure.if_small)
    if value > measure.most:
        raise CellError(
            f'"{shown}" is more than can be meant here',
            f"write a value such as {measure.example}; no more than {measure.most:g} is read.",
        )
    return value


def _readings(digits: str) -> dict[str, float]:
    """Return what digits mean with a point and with a comma as the decimal mark."""
    found = {}
    for mark, pattern in _DECIMAL.items():
        if pattern.fullmatch(digits):
            bare = re.sub(rf"[^\d{mark}]", "", digits).replace(mark, ".")
            found[mark] = float(bare)
    return found


def _chosen(readings: Mapping[str, float], shown: str, known: Habits, *, may_group: bool) -> float:
    values = sorted(set(readings.values()))
    if len(values) == 1 or not may_group:
        return values[0]
    if known.decimal:
        return readings[known.decimal]
    raise CellError(f'"{shown}" can be read two ways', f"write {values[1]:g} or {values[0]:g}.")


def _unit(written: str, shown: str, measure: Measure) -> float:
    bare = written.strip().rstrip(".").casefold()
    if bare in measure.units:
        return measure.units[bare]
    if not bare.isalpha():
        raise CellError(f'"{shown}" is not a number', f"write it like {measure.example}.")
    near = nearest(bare, measure.units) or one_of(list(measure.units)[:1])
    raise CellError(
        f'"{shortened(written.strip())}" is not a unit that fits here',
        f"write {near}, or the number alone.",
    )


def day(text: str, known: Habits) -> dt.date:
    """Return the day of a cell.

    Raises
    ------
    CellError
        When it is none, or can be read two ways.
    """
    plain(text)
    shown = shortened(text)
    year_first, year_last = _YEAR_FIRST.fullmatch(text), _YEAR_LAST.fullmatch(text)
    if year_first:
        found = _date(*(int(year_first[at]) for at in (1, 3, 4)))
        dates = {} if found is None else {True: found}
    elif year_last:
        dates = _dates(year_last)
    else:
        raise CellError(*_no_day(text, shown))
    if not dates:
        raise CellError(f'"{shown}" is not a day in the calendar', _WRITE_DAY)
    chosen = next(iter(dates.values()))
    if len(set(dates.values())) > 1:
        day_first = known.day_first.get(year_last[2]) if year_last else None
        if day_first is None:
            ways = " or ".join(sorted(str(date) for date in dates.values()))
            raise CellError(f'"{shown}" can be read two ways', f"write {ways}.")
        chosen = dates[day_first]
    if chosen.year not in YEARS:
        raise CellError(f'"{shown}" lies in no year that can be meant', _WRITE_DAY)
    return chosen


def _dates(match: re.Match[str]) -> dict[bool, dt.date]:
    """Return the days that a date with its year last can be, by whether the day stands first."""
    one, other, year = int(match[1]), int(match[3]), int(match[4])
    found = {True: _date(year, other, one), False: _date(year, one, other)}
    return {day_first: date for day_first, date in found.items() if date}


def _date(year: int, month: int, day_of_month: int) -> dt.date | None:
    try:
        return dt.date(year, month, day_of_month)
    except ValueError:
        return None


def _no_day(text: str, shown: str) -> tuple[str, str]:
    if _SHORT_YEAR.fullmatch(text):
        return f'"{shown}" does not say of which hundred its year is', _WRITE_DAY
    if re.fullmatch(r"\d{5}(?:[.,]\d+)?", text):
        return (
            f'"{shown}" is a day as a spreadsheet counts them',
            "give the column the format of a date in the spreadsheet, like 2026-03-02.",
        )
    return f'"{shown}" is not a day in the calendar', _WRITE_DAY


def plain(text: str) -> str:
    """Return a cell's text, if it is none that a spreadsheet would compute.

    Raises
    ------
    CellError
        When it is a formula, or what a failed one leaves.
    """
    if _FAILED.fullmatch(text):
        raise CellError(
            f'"{shortened(text)}" is what a spreadsheet shows in place of a value',
            "write the value itself, and make its column wide enough.",
        )
    if _FORMULA.match(text):
        raise CellError(
            f'"{shortened(text)}" is a formula, and none is worked out here',
            "write what it comes to.",
        )
    return text


def short(text: str) -> str:
    """Return a cell's text, if it is plain and short enough for a label.

    Raises
    ------
    CellError
        When it is not.
    """
    if len(plain(text)) > LONGEST_TEXT:
        raise CellError(
            f"this text has {len(text)} letters", f"shorten it to {LONGEST_TEXT}: it is printed."
        )
    return text
