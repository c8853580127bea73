"""Measures that kitchens say and nobody can weigh: a handful, a knob, a clove, a heaped spoon."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from cookbook_build.measures.amounts import number_text
from cookbook_build.measures.units import unit_at

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from cookbook_build.manuscript.ingredients import Ingredient

_VAGUE: Final[Mapping[str, str]] = {
    "handful": "1/4 cup", "fistful": "1/4 cup", "few": "1/4 cup", "some": "1/4 cup",
    "bit": "1 tbsp", "little": "1 tbsp", "knob": "1 tbsp", "lump": "1 tbsp", "glug": "1 tbsp",
    "splash": "1 tsp", "drizzle": "1 tsp", "sprinkle": "1/4 tsp", "sprinkling": "1/4 tsp",
    "bunch": "1/2 cup", "mug": "1 cup", "bowl": "1 cup", "ladle": "1/2 cup", "scoop": "1/4 cup",
    "stick": "1/2 cup", "tin": "1 cup", "can": "1 cup", "packet": "1 cup", "puñado": "1/4 cup",
}  # fmt: skip
"""What a line may look like instead; common practice, no source, and everyone's is another."""

_PIECES: Final[Mapping[str, str]] = {
    "clove": "1/2 tsp", "sprig": "1/4 tsp", "leaf": "1/4 tsp", "leave": "1/4 tsp",
    "slice": "1 tbsp", "stalk": "2 tbsp", "rib": "2 tbsp", "head": "1/2 cup", "ear": "1/2 cup",
    "diente": "1/2 tsp",
}  # fmt: skip
"""Parts of a plant, and what one may be when it is dry; common practice, no source."""

_SPOONED: Final = frozenset({
    "level", "heaped", "heaping", "rounded", "scant", "packed", "generous", "big", "full",
})  # fmt: skip
_OF: Final = re.compile(r"(?:of|de)\s+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Loose:
    """A loose measure of a line: where it stands in the name, and what the line is without it."""

    start: int
    word: str
    name: str
    line: str
    is_piece: bool = False

    @property
    def cause(self) -> str:
        """What is wrong with it."""
        if self.word.casefold() in _SPOONED:
            return f'"{self.word}" is not read: cups and spoons are level ones here'
        why = "one is larger than another" if self.is_piece else "one cook's is another's double"
        return f'"{self.word}" is not a measure: {why}'

    @property
    def mend(self) -> str:
        """What to write."""
        how = "level" if self.word.casefold() in _SPOONED else "once, with spoons or a scale"
        return f'measure it {how}, and write it like "{self.line}".'


def loose_measure(ingredient: Ingredient, is_known: Callable[[str], bool]) -> Loose | None:
    """Return the loose measure that a line with a number, or none, has, or None.

    Behind a name it is one only where the name without it `is_known`: a bay leaf is none.
    """
    if ingredient.amount.terms and ingredient.amount.kind != "count":
        return None
    times = ingredient.amount.count() if ingredient.amount.terms else Fraction(1)
    first, _, rest = ingredient.name.partition(" ")
    bare = _OF.sub("", rest, count=1) if _OF.match(rest) else rest
    if not bare:
        return None
    if first.casefold() in _SPOONED:
        unit = unit_at(bare, 0)
        name = bare[unit[1] :].strip() if unit else ""
        line = f"{number_text(times)} {bare}"
        return Loose(0, first, name, line) if name else None
    for table in (_VAGUE, _PIECES):
        if one := table.get(_single(first)):
            return Loose(0, first, bare, _measured(times, one, bare), table is _PIECES)
    head, _, last = ingredient.name.rpartition(" ")
    if (one := _PIECES.get(_single(last))) and is_known(head):
        return Loose(len(head) + 1, last, head, _measured(times, one, head), is_piece=True)
    return None


def _single(word: str) -> str:
    plain = word.casefold()
    return plain.removesuffix("s")


def _measured(times: Fraction, one: str, name: str) -> str:
    """Return a line with so many times an amount."""
    number, unit = one.split(" ")
    amount = Fraction(number) * times
    if unit == "tsp" and amount >= 3:
        amount, unit = amount / 3, "tbsp"
    amount = Fraction(round(amount * 4), 4) or Fraction(1, 4)
    several = "s" if unit == "cup" and amount > 1 else ""
    whole, part = divmod(amount, 1)
    plain = " ".join(filter(None, (str(whole) if whole else "", str(part) if part else "")))
    return f"{plain} {unit}{several} {name}"
