"""A recipe as it came: its words in order, and where in its file it stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from cookbook_build.findings import Place

Kind = Literal["line", "heading", "step", "text"]


@dataclass(frozen=True, slots=True)
class Piece:
    """One line of a recipe: an ingredient, a heading, a step or other text."""

    kind: Kind
    text: str


@dataclass(frozen=True, slots=True)
class Brought:
    """A recipe that somebody wrote elsewhere, not yet in our form."""

    place: Place  # where it begins
    title: str
    ingredients: tuple[Piece, ...]  # lines, and the headings between them
    method: tuple[Piece, ...] = ()  # steps, headings and text
    serves: int | None = None
    makes: str = ""
    blurb: str = ""
    credit: str = ""
    address: str = ""  # on the web
    series: str = ""
    notes: tuple[str, ...] = ()  # what has no place in a recipe of ours

    @property
    def lines(self) -> tuple[str, ...]:
        """The ingredient lines, without their headings."""
        return tuple(piece.text for piece in self.ingredients if piece.kind == "line")

    @property
    def length(self) -> int:
        """How many letters it holds."""
        pieces = (*self.ingredients, *self.method)
        texts = (self.title, self.blurb, self.credit, *self.notes, *(p.text for p in pieces))
        return sum(map(len, texts))

    @property
    def steps(self) -> tuple[str, ...]:
        """The steps, without headings and other text."""
        return tuple(piece.text for piece in self.method if piece.kind == "step")
