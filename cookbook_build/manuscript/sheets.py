"""Sheets: the text of a CSV file and the cells of its lines, whatever program saved it.

The text may be UTF-8, UTF-16 or Windows-1252; cells are parted by commas, semicolons or tabs, and
may be quoted and hold line breaks.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import Findings, Place
from cookbook_build.manuscript.source import (
    Source,
    largest_bytes,
    leads_out,
    read_source,
    straight,
)
from cookbook_build.walking import is_file

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from pathlib import Path

DELIMITERS: Final[Mapping[str, str]] = {",": "a comma", ";": "a semicolon", "\t": "a tab"}
_SHEET_FILES: Final = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")  # zipped and old spreadsheets' own
_BROKEN_UTF8: Final = re.compile(rb"[\xc3-\xf4][\x80-\xbf]")
_CONTROL: Final = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ufffe\uffff]")
_INSIDE: Final = re.compile(r'(?:[^"]++|"")*+')


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: its text with single spaces, and where that stands."""

    text: str
    line: int
    column: int
    width: int


@dataclass(frozen=True, slots=True)
class Record:
    """The cells of one row before their columns are known."""

    cells: list[Cell]
    first: int
    last: int
    open_quote: int = 0  # the column of a quotation mark that is never closed

    @property
    def is_blank(self) -> bool:
        """Whether nothing is written in it."""
        return not self.open_quote and not any(cell.text for cell in self.cells)


def read_sheet(folder: Path, path: Path, findings: Findings) -> Source | None:
    """Return the text of a file that a spreadsheet saved, or None with a finding."""
    name = path.relative_to(folder).as_posix()
    try:
        small = is_file(path) and path.stat().st_size <= largest_bytes(path)
        data = path.read_bytes() if small and not leads_out(folder, path) else None
    except OSError:
        data = None
    if data is None:  # which says why
        return read_source(folder, path, findings)
    if data.startswith(_SHEET_FILES):
        findings.error(
            Place(name),
            "this file is a spreadsheet's own, though its name says it is a table of text",
            "open it in the spreadsheet, and save it as CSV (UTF-8).",
        )
        return None
    encoding = _encoding(data)
    if encoding == "utf-8":
        return read_source(folder, path, findings)
    source = _decoded(name, data, encoding, findings)
    return straight(source, findings) if source else None


def _encoding(data: bytes) -> str:
    """Return how bytes are most likely encoded."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "utf-16"
    pairs = data[:400]
    if pairs.count(0) > len(pairs) // 3:  # Latin letters in UTF-16: every other byte is nought
        return "utf-16-le" if pairs[1::2].count(0) > pairs[::2].count(0) else "utf-16-be"
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        return "utf-8" if _BROKEN_UTF8.search(data) else "cp1252"
    return "utf-8"


def _decoded(name: str, data: bytes, encoding: str, findings: Findings) -> Source | None:
    mend = 'save the file again as CSV with the encoding "UTF-8".'
    try:
        source = Source.of(name, data.decode(encoding))
    except UnicodeDecodeError as problem:
        before = Source.of(name, data[: problem.start].decode(encoding, errors="ignore")).text
        guessed = Source.of(name, data.decode(encoding, errors="replace"))
        findings.error(
            guessed.place_at(len(before)), "a character that can't be read stands here", mend
        )
        return None
    odd = _CONTROL.search(source.text)
    if odd:
        findings.error(
            source.place_at(odd.start()), "a character that can't be seen stands here", mend
        )
        return None
    return source


def records(source: Source, start: int, delimiter: str, columns: int) -> Iterator[Record]:
    """Return the rows from a line on; `start` counts from 0."""
    lines = source.lines
    at = start
    while at < len(lines):
        if '"' in lines[at]:
            record = _quoted_record(lines, at, delimiter, columns)
        else:
            record = Record(_plain_cells(lines[at], at + 1, delimiter), at + 1, at + 1)
        yield record
        at = record.last


def _plain_cells(text: str, line: int, delimiter: str) -> list[Cell]:
    cells, start = [], 0
    for raw in text.split(delimiter):
        cells.append(_cell(raw, raw, line, start))
        start += len(raw) + 1
    return cells


def _cell(text: str, raw: str, line: int, start: int) -> Cell:
    """Return the cell of a text that stands, as `raw`, from a place of a line on."""
    bare = raw.strip()
    indent = len(raw) - len(raw.lstrip()) if bare else 0
    return Cell(" ".join(text.split()), line, start + indent + 1, max(len(bare), 1))


def _quoted_record(lines: Sequence[str], at: int, delimiter: str, columns: int) -> Record:
    cells: list[Cell] = []
    line, column = at, 0
    while True:
        text = lines[line]
        start = column
        while text[start : start + 1] == " ":
            start += 1
        if text[start : start + 1] != '"':
            end = text.find(delimiter, column)
            end = len(text) if end < 0 else end
            cells.append(_cell(text[column:end], text[column:end], line + 1, column))
        else:
            closed = _closed(lines, line, start + 1, delimiter)
            if closed is None or _swallows_rows(lines, line, closed, delimiter, columns):
                return Record(cells, at + 1, at + 1, start + 1)
            last, close = closed
            inside = [*lines[line:last], lines[last][:close]]
            inside[0] = inside[0][start + 1 :]
            joined = "\n".join(inside).replace('""', '"')
            cells.append(_cell(joined, inside[0], line + 1, start + 1))
            line, text = last, lines[last]
            end = text.find(delimiter, close)
            end = len(text) if end < 0 else end
        if end >= len(text):
            return Record(cells, at + 1, line + 1)
        column = end + 1


def _closed(lines: Sequence[str], line: int, start: int, delimiter: str) -> tuple[int, int] | None:
    """Return where a quoted cell is closed, counted from 0; None if it never is."""
    for at in range(line, len(lines)):
        inside = _INSIDE.match(lines[at], start)
        end = inside.end() if inside else len(lines[at])
        if end < len(lines[at]):
            after = lines[at][end + 1 :].lstrip(" ")
            return None if after and after[0] != delimiter else (at, end)
        start = 0
    return None


def _swallows_rows(
    lines: Sequence[str], line: int, closed: tuple[int, int], delimiter: str, columns: int
) -> bool:
    """Whether a cell with line breaks holds whole rows: then its closing mark opens another."""
    last, close = closed
    within = [*lines[line + 1 : last], lines[last][:close]] if last > line else []
    return any(text.count(delimiter) >= columns - 1 for text in within)


def whole_line(source: Source, line: int) -> Place:
    """Return the place of what is written on a line, without the spaces round it."""
    text = source.lines[line - 1]
    bare = text.strip()
    return source.place(line, len(text) - len(text.lstrip()) + 1, len(bare))


def shortened(text: str) -> str:
    """Return a text that is short enough to be named in a sentence."""
    return text if len(text) <= 40 else f"{text[:39]}…"
