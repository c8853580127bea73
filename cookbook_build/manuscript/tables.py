"""Tables: a CSV file as a person's spreadsheet writes it, with the place of every cell kept.

The first line names the columns, in any order and in a person's spelling; each row below has a
cell for each.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import nearest, one_of
from cookbook_build.manuscript.sheets import DELIMITERS, records, shortened, whole_line

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cookbook_build.findings import Findings, Place
    from cookbook_build.manuscript.sheets import Cell, Record
    from cookbook_build.manuscript.source import Source

MOST_STRANGERS: Final = 12  # unknown columns that are named one by one
_SEP_LINE: Final = re.compile(r'"?sep=([,;\t])"?\s*', re.IGNORECASE)
_BRACKETS: Final = re.compile(r"[(\[]([^)\]]*)[)\]]")
_WORD: Final = re.compile(r"[^\W_]+")
LONGEST_LINE: Final = 2000  # letters of one row; our choice


@dataclass(frozen=True, slots=True)
class Column:
    """One column that a table may have.

    `also` are further names of it, `units` what a unit beside its name makes of a bare number.
    """

    name: str
    also: tuple[str, ...] = ()
    units: Mapping[str, float] = field(default_factory=dict)
    needed: bool = True
    example: str = ""

    def is_called(self, words: Sequence[str]) -> bool:
        """Whether the words of a heading name this column, whatever unit stands among them."""
        return bool(words) and self._bare(words) in {
            self._bare(_words(name)) for name in (self.name, *self.also)
        }

    def _bare(self, words: Sequence[str]) -> tuple[str, ...]:
        return tuple(word for word in words if word not in self.units)


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its cells by the names of their columns."""

    source: Source
    cells: Mapping[str, Cell]
    first: int  # its first and its last line
    last: int

    def place(self, name: str) -> Place:
        """Return the place of a cell."""
        cell = self.cells[name]
        return self.source.place(cell.line, cell.column, cell.width)

    @property
    def whole(self) -> Place:
        """The place of the whole row."""
        return whole_line(self.source, self.first)


@dataclass(frozen=True, slots=True)
class Table:
    """A table: its rows, and by what a bare number of each column is multiplied."""

    rows: tuple[Row, ...]
    factors: Mapping[str, float]


def read_table(source: Source, columns: Sequence[Column], findings: Findings) -> Table | None:
    """Return the table of a file; None leaves a finding. Rows that don't fit leave theirs."""
    for at, line in enumerate(source.lines, start=1):
        if len(line) > LONGEST_LINE:
            findings.error(
                source.place(at),
                f"this line holds {len(line):,} letters, and {LONGEST_LINE:,} is the most",
                "write a row on each line; a quotation mark that is not closed may join them.",
            )
            return None
    names = ",".join(column.name for column in columns)
    first = _first_line(source, 0)
    told = _SEP_LINE.fullmatch(source.lines[first]) if first is not None else None
    if first is not None and told:
        first = _first_line(source, first + 1)
    if first is None:
        findings.error(
            source.place(1),
            f"{source.path} is empty",
            f'begin it with the line "{names}", or delete it.',
        )
        return None
    delimiter, header = _header(source, first, columns, told[1] if told else None)
    if header is None:
        findings.error(
            whole_line(source, first + 1),
            "this line names no column of this table",
            f'begin the file with the line "{names}".',
        )
        return None
    width = len(header.cells)
    while header.cells and not header.cells[-1].text:
        header.cells.pop()
    heads, factors = _headings(source, header, columns, findings)
    complete = all(column.name in heads for column in columns if column.needed)
    rows = [
        Row(
            source,
            {name: record.cells[at] for name, at in heads.items() if at < len(record.cells)},
            record.first,
            record.last,
        )
        for record in records(source, header.last, delimiter, len(header.cells))
        if not record.is_blank
        # where a heading is missing, a row that has its cell is no slip of its own
        and (complete or len(record.cells) == width)
        and _fits(source, record, header, heads, columns, delimiter, findings)
    ]
    return Table(tuple(rows), factors)


def _first_line(source: Source, start: int) -> int | None:
    """Return the first line from a line on, counted from 0, that holds more than delimiters."""
    lines = range(start, len(source.lines))
    return next((at for at in lines if source.lines[at].strip(' ,;\t"')), None)


def _header(
    source: Source, first: int, columns: Sequence[Column], told: str | None
) -> tuple[str, Record | None]:
    """Return the delimiter under which a line names most columns, and the cells of that line."""
    best: tuple[int, int, str, Record | None] = (0, 0, ",", None)
    for delimiter in (told,) if told else DELIMITERS:
        record = next(records(source, first, delimiter, len(columns)), None)
        if record is None or record.open_quote:
            continue
        known = sum(_column(cell.text, columns) is not None for cell in record.cells)
        if known and (known, len(record.cells)) > best[:2]:
            best = (known, len(record.cells), delimiter, record)
    return best[2:]


def _words(text: str) -> list[str]:
    return _WORD.findall(_BRACKETS.sub(" ", text).casefold())


def _column(text: str, columns: Sequence[Column]) -> tuple[Column, bool] | None:
    """Return the column that a heading names, and whether it is spelt right."""
    words = _words(text)
    exact = next((column for column in columns if column.is_called(words)), None)
    if exact:
        return exact, True
    by_name = {name: column for column in columns for name in (column.name, *column.also)}
    near = nearest(" ".join(words), by_name, likeness=0.7) if words else None
    return (by_name[near], False) if near else None


def _headings(
    source: Source, header: Record, columns: Sequence[Column], findings: Findings
) -> tuple[dict[str, int], dict[str, float]]:
    """Return where each column stands, and by what its bare numbers are multiplied."""
    read = [_column(cell.text, columns) for cell in header.cells]
    heads: dict[str, int] = {}
    factors: dict[str, float] = {}
    for spelt_right in (True, False):
        for at, (cell, found) in enumerate(zip(header.cells, read, strict=True)):
            if found is None or found[1] is not spelt_right:
                continue
            column, place = found[0], source.place(cell.line, cell.column, cell.width)
            if column.name not in heads:
                heads[column.name] = at
                factors[column.name] = _factor(column, cell.text, place, findings)
                if not spelt_right:
                    findings.error(place, _no_column(cell), f'write "{column.name}".')
            elif spelt_right:
                findings.error(
                    place,
                    f'the column "{column.name}" stands here a second time',
                    "keep one of the two.",
                )
            else:
                read[at] = None
    _report_strangers(source, header, read, columns, findings)
    missing = [c for c in columns if c.needed and c.name not in heads]
    if missing:
        findings.error(
            whole_line(source, header.first),
            f'this table has no column "{missing[0].name}"'
            if len(missing) == 1
            else f"this table lacks the columns {_quoted(missing)}",
            f"add {_quoted(missing)} to this line, and the values to each row below.",
        )
    return heads, factors


def _report_strangers(
    source: Source,
    header: Record,
    read: Sequence[object],
    columns: Sequence[Column],
    findings: Findings,
) -> None:
    known = one_of(column.name for column in columns)
    strangers = [
        cell for cell, found in zip(header.cells, read, strict=True) if found is None and cell.text
    ]
    many = len(strangers) > MOST_STRANGERS
    more = f" (as {len(strangers) - 1} others are not)" if many else ""
    for cell in strangers[:1] if many else strangers:
        findings.warning(
            source.place(cell.line, cell.column, cell.width),
            f"{_no_column(cell)}, and is not read{more}",
            f"delete it, or name it {known}.",
        )


def _no_column(cell: Cell) -> str:
    return f'"{shortened(cell.text)}" is not a column of this table'


def _quoted(columns: Sequence[Column]) -> str:
    names = [f'"{column.name}"' for column in columns]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _factor(column: Column, heading: str, place: Place, findings: Findings) -> float:
    """Return by what the bare numbers of a column are multiplied: 1000 below `fresh (kg)`."""
    named = [
        *_words(heading),
        *(inside.strip().casefold() for inside in _BRACKETS.findall(heading)),
    ]
    units = {column.units[word]: word for word in named if word in column.units}
    if len(units) > 1:
        findings.error(
            place,
            f"this column is said to be in {' and in '.join(sorted(units.values()))}",
            f'write "{column.name}".',
        )
    return next(iter(units), 1.0) if len(units) == 1 else 1.0


def _fits(
    source: Source,
    record: Record,
    header: Record,
    heads: Mapping[str, int],
    columns: Sequence[Column],
    delimiter: str,
    findings: Findings,
) -> bool:
    """Whether a row has a cell for each column; a row that doesn't leaves a finding."""
    if record.open_quote:
        findings.error(
            source.place(record.first, record.open_quote),
            "a quotation mark is opened here and not closed where the cell ends",
            "close it, delete it, or write it twice where it belongs to the text.",
        )
        return False
    if [cell.text for cell in record.cells] == [cell.text for cell in header.cells]:
        findings.error(
            whole_line(source, record.first),
            "the names of the columns stand here a second time",
            "delete this line.",
        )
        return False
    wanted, has = len(header.cells), len(record.cells)
    cause = f"this row has {has} cell{'s' if has > 1 else ''}, and the first line {wanted}"
    extra = next((cell for cell in record.cells[wanted:] if cell.text), None)
    if extra:
        text = source.lines[extra.line - 1]
        place = source.place(extra.line, extra.column, len(text.rstrip()) - extra.column + 1)
        findings.error(place, cause, _too_long(delimiter))
        return False
    needed = {column.name for column in columns if column.needed}
    if any(at >= has for name, at in heads.items() if name in needed):
        findings.error(whole_line(source, record.first), cause, _too_short(record, delimiter))
        return False
    return True


def _too_long(delimiter: str) -> str:
    if delimiter == ",":
        return "put quotes round a cell that holds a comma, and write 12.5 in place of 12,5."
    return (
        f"delete what is too much, or put quotes round a cell that holds {DELIMITERS[delimiter]}."
    )


def _too_short(record: Record, delimiter: str) -> str:
    written = " ".join(cell.text for cell in record.cells)
    if any(other in written for other in DELIMITERS if other not in {delimiter, ","}):
        return f"part the cells with {DELIMITERS[delimiter]}, as the first line does."
    return f"write every cell, with {DELIMITERS[delimiter]} between them; leave none out."
