"""Tables whose columns are serving sizes, put into words and narrow tables for a small reader."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.publishing.wording import number_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from cookbook_build.publishing.tables import SizeGroup, SizeRow, SizeTable

SUM: Final = "together"
"""The first figure of a camp row that adds up the components."""


@dataclass(frozen=True, slots=True)
class Said:
    """What is said of one serving size."""

    size: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SaidGroup:
    """What is said under one name: of a component, or at an altitude."""

    name: str
    note: str
    said: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class NarrowRow:
    """One serving size with its figures."""

    size: int
    figures: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NarrowTable:
    """A table with a row for each serving size."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[NarrowRow, ...]


def serving_words(sizes: Iterable[int]) -> str:
    """Return serving sizes in words: `1 serving`, `2, 3 and 4 servings`."""
    words = [str(size) for size in sizes]
    if words == ["1"]:
        return number_of(1, "serving")
    listed = f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]
    return f"{listed} servings"


def narrow(table: SizeTable) -> tuple[NarrowTable, ...]:
    """Return a table of single figures with its serving sizes as rows, one for each group."""
    return tuple(
        NarrowTable(
            group.name,
            tuple(_named(row) for row in group.rows),
            tuple(
                NarrowRow(size, tuple("; ".join(_figures(row, size)) or "–" for row in group.rows))
                for size in _sizes(group)
            ),
        )
        for group in table.groups
    )


def said_by_size(table: SizeTable) -> tuple[SaidGroup, ...]:
    """Return a table of several figures a cell in words: a line for each head, size by size."""
    return tuple(
        SaidGroup(
            group.name,
            "",
            tuple(
                Said(number_of(size, "serving"), tuple(_by_head(group, size, table.heads)))
                for size in _sizes(group)
            ),
        )
        for group in table.groups
    )


def said_by_row(table: SizeTable) -> tuple[SaidGroup, ...]:
    """Return a table in words row by row, as at camp: at each altitude, size by size.

    A row without a note belongs to the row with one above it.
    """
    found: list[list[SizeRow]] = []
    for group in table.groups:
        for row in group.rows:
            if row.note or not found:
                found.append([])
            found[-1].append(row)
    return tuple(
        SaidGroup(
            rows[0].name,
            f"{table.corner_note} {rows[0].note}",
            tuple(
                Said(
                    number_of(cell.servings, "serving"),
                    tuple(_row_words(row, cell.servings, table.heads, rows[0]) for row in rows),
                )
                for cell in rows[0].cells
            ),
        )
        for rows in found
    )


def _by_head(group: SizeGroup, size: int, heads: tuple[str, ...]) -> Iterator[str]:
    for row in group.rows:
        figures = _figures(row, size)
        if len(figures) < len(heads):
            yield f"{_named(row)}: {', '.join(figures)}."
    for at, head in enumerate(heads):
        by_note: dict[str, list[str]] = {}
        for row in group.rows:
            figures = _figures(row, size)
            if len(figures) == len(heads):
                by_note.setdefault(row.note, []).append(f"{_lowered(row.name)} {figures[at]}")
        said = [
            f"{note}: {', '.join(words)}" if note else ", ".join(words)
            for note, words in by_note.items()
        ]
        yield f"{head}: {'; '.join(said)}."


def _row_words(row: SizeRow, size: int, heads: tuple[str, ...], first: SizeRow) -> str:
    figures = _figures(row, size)
    if figures[0] == SUM:
        figures, lead = ("", *figures[1:]), f"{SUM.capitalize()}: "
    else:
        lead = "" if row is first else f"{row.name}: "
    words = [
        f"{_lowered(head.removeprefix('+ '))} {figure.removeprefix('+ ')}"
        for head, figure in zip(heads, figures, strict=True)
        if figure
    ]
    said = ", ".join(words)
    return f"{lead}{said}." if lead else f"{said[:1].upper()}{said[1:]}."


def _named(row: SizeRow) -> str:
    return f"{row.name}, {row.note}" if row.note else row.name


def _sizes(group: SizeGroup) -> list[int]:
    return sorted({cell.servings for row in group.rows for cell in row.cells})


def _figures(row: SizeRow, size: int) -> tuple[str, ...]:
    return next((cell.figures for cell in row.cells if cell.servings == size), ())


def _lowered(words: str) -> str:
    return words[:1].lower() + words[1:]
