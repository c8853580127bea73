"""Card fitting: how much a pocket card holds, and how large its type may be.

What only helps gives way, in the order of `CardText.choices`, on each side as far as that side
needs; what must stand there stands in smaller type. Widths are those of a wide typeface, as for
labels; nothing is cut.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum
from typing import TYPE_CHECKING, Final

from cookbook_build.publishing.card_pieces import CardLine, CardTable
from cookbook_build.publishing.label_fitting import POINT_MM, Block, reach, width_em

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from cookbook_build.measures.card_papers import CardPaper
    from cookbook_build.publishing.card_pieces import CardCell, CardChoice, Piece
    from cookbook_build.publishing.card_words import CardText

TYPES_PT: Final = (10.0, 9.5, 9.0, 8.5, 8.0, 7.5, 7.0, 6.5)
"""Sizes of type. The smallest words of a card are 0.85 of it, and so never under 5.5 points, as
on labels."""
LEAST_WITH_HELPS_PT: Final = 7.0
"""The least at which a card holds more than it must; our choice."""
MARGIN_MM: Final = 5.0
"""White round a card, within which most printers can't print; common practice, no source."""
BLOCKS: Final = {
    "kicker": Block("", 0.85, leading=1.2, below_em=0.1),
    "name": Block("", 1.5, bold=True, leading=1.12, below_em=0.35),
    "long-name": Block("", 1.15, bold=True, leading=1.12, below_em=0.35),
    "again": Block("", 1.15, bold=True, leading=1.15, below_em=0.15),
    "raw": Block("", 1.0, bold=True, leading=1.2, below_em=0.4, inset_em=0.5),
    "heed": Block("", 0.95, bold=True, leading=1.2, below_em=0.3),
    "allergens": Block("", 0.95, bold=True, leading=1.2, below_em=0.3),
    "note": Block("", 0.9, leading=1.2, below_em=0.3),
    "foot": Block("", 0.85, leading=1.2),
    "caption": Block("", 0.95, bold=True, leading=1.2, below_em=0.1),
}
"""How each kind of words is set; `cards.css` has the same."""
SMALL: Final = 0.85
"""Of a table's heads, and of what stands under an amount; `cards.css` has the same."""
LEADING, ROW_PADDING_EM, GAP_EM, TABLE_BELOW_EM = 1.2, 0.24, 0.5, 0.55
RULE_MM: Final = 0.3
SET_EM, WAY_ABOVE_EM = 0.95, 0.35
"""Of the words above the rows of one way, and of the white above them; as in `cards.css`."""
LEAST_NAME_EM: Final = 7.0
"""Of a name's column, which breaks its words onto lines rather than be narrower; our choice."""
LONG_NAME: Final = 42
"""Letters of a title from which on it is set smaller; our choice."""


@dataclass(frozen=True, slots=True)
class Face:
    """One side of a card: what it holds, its words, and the size of their type."""

    choice: CardChoice
    pieces: tuple[Piece, ...]
    type_pt: float


@dataclass(frozen=True, slots=True)
class FittedCard:
    """A card whose words all find room."""

    text: CardText
    front: Face
    back: Face

    @property
    def holds(self) -> tuple[int, int, int, bool]:
        """How much it holds of what only helps: ways and sizes of the water, the mix, grams."""
        back, front = self.back.choice, self.front.choice
        return len(back.methods), len(back.sizes), len(front.sizes), front.grams


def fitted_card(text: CardText, paper: CardPaper) -> FittedCard | None:
    """Return the fullest card that a paper holds, or None where it has no room for the least."""
    found = [_fitted(text, paper, narrow=narrow) for narrow in (False, True)]
    return max(filter(None, found), key=lambda fitted: fitted.holds, default=None)


def smallest_card(text: CardText) -> FittedCard:
    """Return the least of a card in the least type, for a paper that grows with it."""
    least, type_pt = text.least(narrow=True), TYPES_PT[-1]
    return FittedCard(
        text,
        Face(least, text.front(least), type_pt),
        Face(least, text.back(least), type_pt),
    )


def kind_of(line: CardLine) -> str:
    """Return how some words are set: a long title is smaller."""
    long = line.kind == "name" and len(line.words) > LONG_NAME
    return "long-name" if long else line.kind


def _fitted(text: CardText, paper: CardPaper, *, narrow: bool) -> FittedCard | None:
    """Return a card whose back holds what it can, and whose front no size that the back has not."""
    choices = tuple(text.choices(narrow=narrow))
    back = next(_faces(text.back, choices, paper), None)
    if back is None:
        return None
    sizes = set(back.choice.sizes)
    front = next(_faces(text.front, [c for c in choices if sizes.issuperset(c.sizes)], paper), None)
    return FittedCard(text, front, back) if front else None


def _faces(
    words: Callable[[CardChoice], tuple[Piece, ...]],
    choices: Iterable[CardChoice],
    paper: CardPaper,
) -> Iterator[Face]:
    """Give the sides that find room, the fullest first."""
    for choice in choices:
        least = LEAST_WITH_HELPS_PT if choice.grams else TYPES_PT[-1]
        if face := _face(choice, words(choice), paper, least):
            yield face


def _face(
    choice: CardChoice, pieces: tuple[Piece, ...], paper: CardPaper, least_pt: float
) -> Face | None:
    width, height = paper.width_mm - 2 * MARGIN_MM, paper.height_mm - 2 * MARGIN_MM
    sizes = [size for size in TYPES_PT if size >= least_pt]
    if not _has_room(pieces, sizes[-1], width, height):  # nor then in any larger
        return None
    fitting = (size for size in sizes[:-1] if _has_room(pieces, size, width, height))
    return Face(choice, pieces, next(fitting, sizes[-1]))


def _has_room(pieces: Sequence[Piece], type_pt: float, width: float, height: float) -> bool:
    down = _heights(pieces, type_pt * POINT_MM, width)
    return down is not None and down <= height


def _heights(pieces: Sequence[Piece], type_mm: float, width: float) -> float | None:
    """Return how far down a side's pieces reach [mm], or None where a table is too wide."""
    total = 0.0
    for piece in pieces:
        if isinstance(piece, CardTable):
            table = _table_height(piece, type_mm, width)
            if table is None:
                return None
            total += table
        else:
            total += reach([_set(kind_of(piece), piece.whole)], type_mm, width)
    return total


def _set(kind: str, words: str) -> Block:
    of = BLOCKS[kind]
    return Block(words, of.size, of.bold, of.leading, of.below_em, of.inset_em)


def _table_height(table: CardTable, type_mm: float, width: float) -> float | None:
    if table.kind == "lines":
        name_em = _least_name_em(table)
    else:
        name_em = width / type_mm - fsum(_columns_em(table))
        if name_em < _least_name_em(table):
            return None
    total = reach([_set("caption", table.caption)], type_mm, width) if table.caption else 0.0
    head = Block(table.corner, SMALL, leading=LEADING)
    total += reach([head], type_mm, name_em * type_mm) + _row_mm(type_mm)
    for group in table.groups:
        if group.head:
            said = Block(f"{group.head}. {group.line}", SET_EM, bold=True, leading=LEADING)
            total += reach([said], type_mm, width) + WAY_ABOVE_EM * type_mm + _row_mm(type_mm)
        for row in group.rows:
            lines = reach([Block(row.name, leading=LEADING)], type_mm, name_em * type_mm)
            if table.kind == "lines":
                beside = width - (name_em + GAP_EM) * type_mm
                figure = reach(_broken(row.cells[0]), type_mm, beside)
            else:
                figure = (LEADING + SMALL * 1.1 * any(c.below for c in row.cells)) * type_mm
            total += max(lines, figure) + _row_mm(type_mm)
    return total + TABLE_BELOW_EM * type_mm


def _broken(cell: CardCell) -> list[Block]:
    """Return a cell whose words are broken onto lines."""
    return [
        Block(cell.words, bold=True, leading=LEADING),
        Block(cell.below, SMALL, leading=LEADING),
    ]


def _row_mm(type_mm: float) -> float:
    """Return what a row takes beside its words [mm]."""
    return ROW_PADDING_EM * type_mm + RULE_MM


def _least_name_em(table: CardTable) -> float:
    if table.kind == "mix":
        return LEAST_NAME_EM
    names = [width_em(row.name, bold=True) for row in table.rows]
    return max(SMALL * width_em(table.corner, bold=False), *names)


def _columns_em(table: CardTable) -> list[float]:
    """Return how wide a table's figures run, each with the gap before it [em]."""
    columns = zip(*(row.cells for row in table.rows), strict=True)
    return [
        GAP_EM
        + max(
            SMALL * width_em(head, bold=False),
            *(width_em(cell.words, bold=at == table.bold) for cell in cells),
            *(SMALL * width_em(cell.below, bold=False) for cell in cells),
        )
        for at, (head, cells) in enumerate(zip(table.heads, columns, strict=True))
    ]
