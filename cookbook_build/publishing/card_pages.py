"""Pocket cards: every recipe on a card of its own, and the page that prints them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

from cookbook_build.measures.card_papers import CardPaper
from cookbook_build.planning.card_paper import CardSheet, card_paper, card_sheet, larger_papers
from cookbook_build.publishing.card_fitting import (
    BLOCKS,
    GAP_EM,
    LEADING,
    MARGIN_MM,
    ROW_PADDING_EM,
    SET_EM,
    SMALL,
    TABLE_BELOW_EM,
    TYPES_PT,
    WAY_ABOVE_EM,
    FittedCard,
    fitted_card,
    kind_of,
    smallest_card,
)
from cookbook_build.publishing.card_pieces import Piece  # noqa: TC001 - cards are read again
from cookbook_build.publishing.card_words import card_text, least_text
from cookbook_build.publishing.desk import raw_view
from cookbook_build.publishing.label_fitting import POINT_MM
from cookbook_build.publishing.label_sheets import step_name
from cookbook_build.publishing.wording import method_within
from cookbook_build.words import _, listed, spoken

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.schema import BookKeys
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.planning.known import Known
    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.publishing.card_words import CardText
    from cookbook_build.publishing.desk import Desk

CARDS = "cards.html"


@dataclass(frozen=True, slots=True)
class CardSide:
    """The front or the back of a card: its words, and the step of type that they are set in."""

    name: str
    step: str
    pieces: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class Card:
    """One recipe's card, as the page shows it."""

    address: str
    href: str
    title: str
    paper: CardPaper
    sides: tuple[CardSide, ...]
    left_out: str  # what of the recipe it has no room for


@dataclass(frozen=True, slots=True)
class CardGroup:
    """Cards of one paper, and how they lie on a sheet."""

    number: int
    paper: CardPaper
    on_sheet: CardSheet
    cards: tuple[Card, ...]

    @property
    def sheets(self) -> Iterator[tuple[Card, ...]]:
        """Its cards, sheet by sheet."""
        for at in range(0, len(self.cards), self.on_sheet.cards):
            yield self.cards[at : at + self.on_sheet.cards]


def card_of(desk: Desk, dish: Dish) -> Card:
    """Return the card of a meal, on the paper asked for or on the next that has room for it."""
    book, address = desk.book, dish.recipe.address
    view, raw = desk.views[address], [raw_view(desk, name) for name in dish.raw_stores]
    text = card_text(dish, book, raw, view.answers, view.mix)
    paper, fitted = _on_paper(text, card_paper(book.book), book.book.labels.paper)
    sides = tuple(
        CardSide(name, step_name("type", face.type_pt), face.pieces)
        for name, face in (("front", fitted.front), ("back", fitted.back))
    )
    return Card(address, desk.page_of[address], text.title, paper, sides, _left_out(fitted))


def _left_out(fitted: FittedCard) -> str:
    """Return what of a recipe its card has no room for, in words."""
    text, mix, water = fitted.text, fitted.front.choice, fitted.back.choice
    sizes = [str(size) for size in text.sizes if size not in water.sizes]
    dry = [str(size) for size in water.sizes if size not in mix.sizes]
    ways = [method_within(way) for way in text.methods if way not in water.methods]
    told = [_("servings {sizes}").format(sizes=listed(sizes))] if sizes else []
    told += [_("the mix for {sizes}").format(sizes=listed(dry))] if dry else []
    told += [_("the way by {ways}").format(ways=listed(ways))] if ways else []
    told += [_("the grams")] if not mix.grams else []
    return _("Left out for want of room: {what}.").format(what=listed(told)) if told else ""


def card_groups(book: BookKeys, cards: Iterable[Card]) -> tuple[CardGroup, ...]:
    """Return the cards of a book: those on the paper asked for, then those that need a larger."""
    paper = book.labels.paper
    found: dict[CardPaper, list[Card]] = {card_paper(book): []}
    for card in cards:
        found.setdefault(card.paper, []).append(card)
    return tuple(
        CardGroup(number, on, card_sheet(on, paper), tuple(cards))
        for number, (on, cards) in enumerate(found.items())
        if cards
    )


def check_cards(reckoning: Reckoning, findings: Findings, known: Known) -> None:
    """Warn of cards on which what must stand there finds no room, with the paper that has it."""
    book = reckoning.book
    asked, paper = card_paper(book.book), book.book.labels.paper
    cramped: dict[str, CardPaper] = {}
    with spoken(book.book.language):  # whose words may be longer
        for dish in reckoning.dishes.values():
            told = (dish, book.book)
            larger = known.of("card", told, partial(_larger_paper, dish, book, asked, paper))
            if larger is not None:
                cramped[dish.recipe.keys.title] = CardPaper(*larger)
    if not cramped:
        return
    first, others = next(iter(cramped)), len(cramped) - 1
    more = f" and {others} more" if others else ""
    largest = max(cramped.values(), key=lambda one: one.area_mm2)
    findings.warning(
        book.places.key("cards"),
        f"pocket cards of {asked.name} have no room for all that must stand on them: "
        f'"{first}"{more}',
        f"write cards: {_written(largest)}; until then each of these is printed on the next "
        "larger paper that has room.",
    )


def _larger_paper(
    dish: Dish, book: Manuscript, asked: CardPaper, sheet: str
) -> list[str | float] | None:
    """Return the paper that the least of a card needs, None where the one asked for holds it."""
    text = least_text(dish, book)
    if fitted_card(text, asked) is not None:
        return None
    needed = _on_paper(text, asked, sheet)[0]
    return [needed.name, needed.width_mm, needed.height_mm]


def cards_page(desk: Desk, groups: tuple[CardGroup, ...]) -> dict[str, Any]:
    """Return what the page of cards shows."""
    book = desk.book.book
    return {
        "title": _("Pocket cards"),
        "groups": groups,
        "asked": card_paper(book),
        "sheet_paper": book.labels.paper,
        "kind_of": kind_of,
    }


def cards_css(groups: tuple[CardGroup, ...]) -> dict[str, Any]:
    """Return the measures that the style sheet of cards needs."""
    return {
        "groups": groups,
        "margin": MARGIN_MM,
        "blocks": BLOCKS,
        "small": SMALL,
        "leading": LEADING,
        "padding": ROW_PADDING_EM / 2,
        "gap": GAP_EM,
        "below": TABLE_BELOW_EM,
        "set": SET_EM,
        "above": WAY_ABOVE_EM,
        "types": [(step_name("type", size), size * POINT_MM) for size in TYPES_PT],
    }


def _on_paper(text: CardText, asked: CardPaper, sheet: str) -> tuple[CardPaper, FittedCard]:
    """Return the paper on which a card finds room, the one asked for if it can, and the card."""
    on = asked
    for on in (asked, *larger_papers(asked, sheet)):
        if fitted := fitted_card(text, on):
            return on, fitted
    return on, smallest_card(text)


def _written(paper: CardPaper) -> str:
    """Return a paper as an author writes it."""
    return paper.name.replace("×", "x").replace("\N{NO-BREAK SPACE}", " ")
