"""Amounts as people write them: `3/4 cup + 1 tbsp`, `45 g`, `2-3`, `a pinch`, `to taste`.

In Spanish as well: `1,5 tazas de`, `2 cdas`, `media taza`, `al gusto`, in whatever book.

Kept as exact fractions of the units that were written, so that nothing is ever lost to
rounding; what a unit holds is decided later, by the book's choice of measures.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from cookbook_build.measures.numbers import VULGAR, NumberError, read_range
from cookbook_build.measures.units import (
    PIECE,
    SYSTEMS,
    Unit,
    nearest_unit,
    unit_at,
    unit_name,
)
from cookbook_build.words import _, numeral

if TYPE_CHECKING:
    from cookbook_build.measures.units import Kind, Measures

_PLUS = re.compile(
    r"\s*(?:\+|\bplus\b|\band\b|&|\bmás\b|\by\b)\s*"
    rf"(?=[\d{''.join(VULGAR)}]|half\b|an?\b|medi[ao]\b|una?\b)"
)
_SPACE = re.compile(r"\s*")
_OF = re.compile(r"\s+(?:of|de)\s+(?=\S)")
_AND_A_HALF = re.compile(r"\s+y\s+medi[ao]\b(?=(?P<gap>\s*))", re.IGNORECASE)
_TO_TASTE = re.compile(r"(?:to taste|al gusto)\b", re.IGNORECASE)
_GLYPHS = {value: char for char, value in VULGAR.items()}

LARGEST_ML: Final = 1_000_000
LARGEST_G: Final = 1_000_000
"""A cubic metre and a tonne: no amount that a kitchen measures is larger; our choice."""


@dataclass(frozen=True, slots=True)
class Term:
    """One number (or range) of one unit."""

    low: Fraction
    high: Fraction
    unit: Unit

    @property
    def middle(self) -> Fraction:
        """The middle of the range; the number itself when there is no range."""
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True)
class Amount:
    """A sum of terms of one kind, all volumes, all weights or all counts."""

    terms: tuple[Term, ...] = ()
    to_taste: bool = False

    @property
    def kind(self) -> Kind | None:
        """What the amount measures, or None for `to taste`."""
        return self.terms[0].unit.kind if self.terms else None

    def volume_ml(self, measures: Measures) -> Fraction:
        """Return the volume [mL] in the book's measures."""
        return sum((term.middle * measures.ml[term.unit.name] for term in self.terms), Fraction(0))

    def weight_g(self, measures: Measures) -> Fraction:
        """Return the weight [g]."""
        return sum(
            (term.middle * measures.grams[term.unit.name] for term in self.terms), Fraction(0)
        )

    def count(self) -> Fraction:
        """Return the number of pieces [-]."""
        return sum((term.middle for term in self.terms), Fraction(0))

    def times(self, factor: Fraction) -> Amount:
        """Return the amount scaled by a factor, still in the units that were written."""
        terms = tuple(Term(t.low * factor, t.high * factor, t.unit) for t in self.terms)
        return Amount(terms, self.to_taste)

    def __str__(self) -> str:
        if self.to_taste:
            return _("to taste")
        return " + ".join(_term_text(term) for term in self.terms)


def read_amount(text: str, start: int = 0) -> tuple[Amount, int] | None:
    """Return the amount that stands at `start` and where the text goes on, or None.

    Raises
    ------
    NumberError
        When an amount stands there that can't be taken.
    """
    taste = _TO_TASTE.match(text, start)
    if taste:
        return Amount(to_taste=True), taste.end()
    terms: list[Term] = []
    at = start
    while (read := _read_term(text, at)) is not None:
        term, end = read
        if terms and term.unit.kind != terms[0].unit.kind:
            raise NumberError(
                f'"{text[start:end]}" adds a {terms[0].unit.kind} to a {term.unit.kind}',
                "write both as volumes or both as weights.",
                start,
                end - start,
            )
        terms.append(term)
        plus = _PLUS.match(text, end)
        if not plus:
            amount = Amount(tuple(terms))
            _check_size(amount, text[start:end].strip(), start, end)
            return amount, end
        at = plus.end()
    return None


def _check_size(amount: Amount, written: str, start: int, end: int) -> None:
    """Refuse what no kitchen holds, whichever cups the book is written in."""
    largest = SYSTEMS["metric-cups"]
    high = Amount(tuple(Term(term.high, term.high, term.unit) for term in amount.terms))
    if (amount.kind == "volume" and high.volume_ml(largest) > LARGEST_ML) or (
        amount.kind == "weight" and high.weight_g(largest) > LARGEST_G
    ):
        raise NumberError(
            f'"{written}" is more than any kitchen holds',
            "write what was measured, such as 3/4 cup or 45 g.",
            start,
            end - start,
        )


def whole_amount(text: str, *kinds: Kind) -> Amount:
    """Return the amount that all of the text is, of one of the given kinds.

    Raises
    ------
    NumberError
        When the text is no amount, goes on after one, or is of another kind.
    """
    start = len(text) - len(text.lstrip())
    read = read_amount(text, start)
    example = "3/4 cup + 1 tbsp" if "volume" in kinds else "45 g"
    if read is None:
        raise NumberError(
            f'"{text.strip()}" is not an amount', f"write it like {example}.", start, len(text)
        )
    amount, end = read
    rest = text[end:].strip()
    if rest:
        raise NumberError(
            f'"{rest}" is not a unit', _unit_mend(rest, example), text.index(rest, end), len(rest)
        )
    if amount.kind not in kinds:
        raise NumberError(
            f'"{text.strip()}" is not a {" or ".join(kinds)}',
            f"write it like {example}.",
            start,
            end - start,
        )
    if not any(term.high for term in amount.terms):
        raise NumberError(
            f'"{text.strip()}" is nothing', f"write it like {example}.", start, end - start
        )
    return amount


def number_text(value: Fraction) -> str:
    """Return a number as a cook writes it: 1½, ⅔, 12, 0.35."""
    whole, part = divmod(value, 1)
    if not part:
        return str(whole)
    if part in _GLYPHS:
        return f"{whole or ''}{_GLYPHS[part]}"
    for places in range(1, 4):
        if value * 10**places % 1 == 0:
            return numeral(f"{float(value):.{places}f}")
    return f"{whole} {part}" if whole else str(part)


def _read_term(text: str, start: int) -> tuple[Term, int] | None:
    number = read_range(text, start)
    gap = _SPACE.match(text, number.end if number else start)
    found = unit_at(text, gap.end()) if gap else None
    if found is None:
        return (Term(number.low, number.high, PIECE), number.end) if number else None
    unit, end = found
    half = _AND_A_HALF.match(text, end)
    if half and unit_at(text, half.end("gap")):
        half = None  # "1 taza y media cucharada": the half is another unit's
    # "pinch of salt", "taza y media": a unit without a number is one
    if number is None and not half and unit.name not in {"pinch", "dash"}:
        return None
    low, high = (number.low, number.high) if number else (Fraction(1), Fraction(1))
    if half:
        low, high, end = low + Fraction(1, 2), high + Fraction(1, 2), half.end()
    return Term(low, high, unit), _after_of(text, end)


def _after_of(text: str, end: int) -> int:
    of = _OF.match(text, end)
    return of.end() if of else end


def _unit_mend(word: str, example: str) -> str:
    close = nearest_unit(word)
    return f'write "{close}".' if close else f"write it like {example}."


def _term_text(term: Term) -> str:
    number = number_text(term.low)
    if term.high != term.low:
        number += f"–{number_text(term.high)}"
    if term.unit is PIECE:
        return number
    return f"{number}\N{NO-BREAK SPACE}{unit_name(term.unit.name, several=term.high > 1)}"
