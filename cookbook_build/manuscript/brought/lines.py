"""Ingredient lines of elsewhere in our own form, where that loses nothing of what they say."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import Findings, Place
from cookbook_build.foods.lookup import normalised
from cookbook_build.manuscript.brought.signs import without_bullet
from cookbook_build.manuscript.ingredients import read_ingredient
from cookbook_build.manuscript.pasted_lines import amount_at, times_sign, turned

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from cookbook_build.manuscript.ingredients import Ingredient

_CUTS: Final = re.compile(
    r"(?:(?:finely|coarsely|roughly|thinly|freshly)\s+)?"
    r"(?:chopped|diced|sliced|minced|grated|shredded|cubed|crushed|crumbled|ground|snipped"
    r"|freeze[- ]dried|picad[oa]s?|trocead[oa]s?|rallad[oa]s?|cortad[oa]s?"
    r"|liofilizad[oa]s?)",
    re.IGNORECASE,
)
_DRIED: Final = re.compile(
    r"\b(?:dried|dry|dehydrated|powder|sec[oa]s?|desecad[oa]s?|liofilizad[oa]s?|polvo)\b",
    re.IGNORECASE,
)
_MARK: Final = re.compile(
    r"\s*,\s*(optional|opcional|fresh|fresc[oa]|per pot|por olla)(?=\s*(?:[,(]|$))", re.IGNORECASE
)
_NOWHERE: Final = Place("", 1, 1, 1, "")


@dataclass(frozen=True, slots=True)
class Shelf:
    """What a book's larder knows: its names; of what is dried, its food and what it dries to."""

    names: Mapping[str, str] = field(default_factory=dict)
    dried_shares: Mapping[str, tuple[str, float]] = field(default_factory=dict)

    def store(self, line: Ingredient) -> str | None:
        """Return the store that a line finds."""
        return self.names.get(normalised(line.name))

    def dried(self, line: Ingredient) -> tuple[str, float] | None:
        """Return what a line weighs and grams dried of each gram, where the store is kept dried.

        A recipe of elsewhere means the food before drying, unless it says otherwise.
        """
        store = self.store(line)
        if store is None or line.amount.kind != "weight" or line.fresh:
            return None
        if _DRIED.search(line.written):
            return None
        return self.dried_shares.get(store)


def sound(text: str) -> Ingredient | None:
    """Return what a line says, if nothing at all is amiss with it."""
    findings = Findings()
    found = read_ingredient(text, _NOWHERE.within, findings)
    return None if len(findings) else found


def our_line(text: str, shelf: Shelf) -> str:
    """Return a line in our form, or as it was where it can't be put so."""
    fallback = _MARK.sub(r" (\1)", without_bullet(text))
    if len(fallback) > 1000:  # no line, whatever it is
        return fallback
    for way in _ways(fallback):
        found = sound(way)
        if found and (shelf.store(found) or not shelf.names):
            return way
    return next((way for way in _ways(fallback) if sound(way)), fallback)


def _ways(text: str) -> Iterator[str]:
    """Give the ways in which a line may be written, its own first."""
    yield text
    bare = text.rstrip(" .;,")
    yield bare
    for line in (bare, _untimed(bare), turned(bare)):
        if line:
            yield line
            if cut := _cut_behind(line):
                yield cut


def _untimed(text: str) -> str | None:
    """Return `1 x onion` as `1 onion`."""
    read = amount_at(text)
    sign = times_sign(text, *read) if read else None
    return sign[2] if sign else None


def _cut_behind(text: str) -> str | None:
    """Return `2 tbsp chopped leeks` as `2 tbsp leeks, chopped`."""
    read = amount_at(text)
    if not read:
        return None
    head, name = text[: read[1]].rstrip(), text[read[1] :].strip()
    match = _CUTS.match(name)
    rest = name[match.end() :].strip() if match else ""
    if not match or not rest or "," in rest or not name[match.end()].isspace():
        return None
    bracket = rest.find("(")
    noun, marks = (rest, "") if bracket < 0 else (rest[:bracket].strip(), f" {rest[bracket:]}")
    return f"{head} {noun}, {match[0]}{marks}" if noun else None
