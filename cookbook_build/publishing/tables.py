"""Tables whose columns are the serving sizes: each cell holds one figure or a few."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True)
class SizeCell:
    """The figures of one row at one serving size."""

    servings: int
    figures: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SizeRow:
    """A row with its name, a word beside it, and a cell for each serving size."""

    name: str
    note: str
    cells: tuple[SizeCell, ...]


@dataclass(frozen=True, slots=True)
class SizeGroup:
    """Some rows under one name; the name is empty where a table has only one group."""

    name: str
    rows: tuple[SizeRow, ...]


@dataclass(frozen=True, slots=True)
class SizeTable:
    """A table for one question, such as the water at every altitude."""

    caption: str
    corner: str  # what the rows are
    corner_note: str  # what the word beside a row's name is
    heads: tuple[str, ...]  # what the figures of a cell are, if there are several
    groups: tuple[SizeGroup, ...]


def size_row(name: str, figures: Mapping[int, tuple[str, ...]], note: str = "") -> SizeRow:
    """Return a row from its figures at each serving size."""
    return SizeRow(name, note, tuple(SizeCell(size, words) for size, words in figures.items()))
