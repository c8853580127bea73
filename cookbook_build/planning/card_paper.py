"""Card paper: the household's cards, the next larger ones, and how they lie on a sheet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from cookbook_build.measures.card_papers import CARDS_MM, CardPaper, named_card
from cookbook_build.planning.label_paper import PAPERS_MM, Sheet, full_sheet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.manuscript.schema import BookKeys

Fold = Literal["beside", "below", "none"]
USUAL: Final = {"metric-cups": "A6"}
"""The card of a household that names none: where cups are metric, paper is ISO's; our choice."""
USUAL_ELSEWHERE: Final = "4 x 6 in"


@dataclass(frozen=True, slots=True)
class CardSheet:
    """Cards on a sheet, to be cut out and folded: front and back of each in one piece."""

    sheet: Sheet
    lying: bool
    fold: Fold  # where the back is joined to the front

    @property
    def cards(self) -> int:
        """How many cards it holds."""
        return self.sheet.labels


def card_paper(keys: BookKeys) -> CardPaper:
    """Return the paper of the household's cards."""
    return keys.cards or named_card(USUAL.get(keys.measures, USUAL_ELSEWHERE))


def larger_papers(than: CardPaper, sheet_paper: str) -> Iterator[CardPaper]:
    """Give the cards that are larger than one, the next one first, and a whole sheet last."""
    lies = than.width_mm > than.height_mm
    whole = CardPaper(sheet_paper, *PAPERS_MM[sheet_paper])
    for paper in (*map(named_card, CARDS_MM), whole):
        turned = paper.turned() if lies else paper
        if turned.covers(than) and turned.area_mm2 > than.area_mm2:
            yield turned


def card_sheet(of: CardPaper, paper: str) -> CardSheet:
    """Return how cards lie on a sheet so that it holds the most of them."""
    found = [
        CardSheet(sheet, lying, fold)
        for fold, across, down in _pieces(of)
        for lying in (False, True)
        if (sheet := full_sheet(paper, across, down, lying=lying)) is not None
    ]
    folded = [one for one in found if one.fold != "none"]
    return max(folded or found, key=lambda one: one.cards)


def _pieces(of: CardPaper) -> tuple[tuple[Fold, float, float], ...]:
    """Return the sides of a piece of paper that becomes a card, for each fold."""
    return (
        ("beside", 2 * of.width_mm, of.height_mm),
        ("below", of.width_mm, 2 * of.height_mm),
        ("none", of.width_mm, of.height_mm),
    )
