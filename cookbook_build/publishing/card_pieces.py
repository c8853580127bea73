"""The pieces of a pocket card: lines and tables, which are reckoned and set one after another."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cookbook_build.kitchen.conditions import Method


@dataclass(frozen=True, slots=True)
class CardLine:
    """Some words of a card, set as their kind is: its name, a caution, a note."""

    kind: str
    words: str
    head: str = ""  # its first words, in bold

    @property
    def whole(self) -> str:
        """All its words in one line."""
        return f"{self.head} {self.words}".strip()


@dataclass(frozen=True, slots=True)
class CardCell:
    """One figure of a table, and another under it."""

    words: str
    below: str = ""


@dataclass(frozen=True, slots=True)
class CardRow:
    """One row of a table: its name, and its figures."""

    name: str
    cells: tuple[CardCell, ...]
    kind: str = ""


@dataclass(frozen=True, slots=True)
class CardRows:
    """Some rows of a table, with what stands above them."""

    rows: tuple[CardRow, ...]
    head: str = ""
    line: str = ""  # after its head


@dataclass(frozen=True, slots=True)
class CardTable:
    """A table of a card: the mix by servings, or the water by ways and servings."""

    kind: str  # mix or water; lines, where each row is broken as its words need
    caption: str
    corner: str
    heads: tuple[str, ...]
    groups: tuple[CardRows, ...]
    bold: int = 0  # the column that is read first

    @property
    def rows(self) -> tuple[CardRow, ...]:
        """All its rows."""
        return tuple(row for group in self.groups for row in group.rows)


Piece = CardLine | CardTable


@dataclass(frozen=True, slots=True)
class CardChoice:
    """What a card holds of all that only helps."""

    sizes: tuple[int, ...]
    methods: tuple[Method, ...]
    grams: bool = True
    extras: bool = True
    narrow: bool = False  # water in lines, where a table of it is too wide
