"""Readers write in their own language: its words for those of the form, from every catalogue.

What a reader may write for one thing is one text of the catalogue, its ways divided by `|`.
Capitals and accents don't count, for a hurried thumb leaves them out.
"""

from __future__ import annotations

import functools
import re
import unicodedata
from typing import TYPE_CHECKING

from cookbook_build.words import everywhere

if TYPE_CHECKING:
    from collections.abc import Iterable


def unaccented(word: str) -> str:
    """Return a word in small letters without accents, its blanks single: `metodo`."""
    letters = unicodedata.normalize("NFD", " ".join(word.casefold().split()))
    return "".join(letter for letter in letters if not unicodedata.combining(letter))


@functools.cache
def ways(text: str) -> tuple[str, ...]:
    """Return what readers may write for a text, in every language, without accents."""
    return tuple(
        dict.fromkeys(
            unaccented(way) for said in everywhere(text) for way in said.split("|") if way
        )
    )


@functools.cache
def either(*texts: str) -> str:
    """Return a pattern of what readers may write for some texts, with their accents or without."""
    said = {way for text in texts for each in everywhere(text) for way in each.split("|") if way}
    forms = {form for way in said for form in (way, unaccented(way))}
    # the longest first, for a pattern takes the first that fits
    return "|".join(pattern(form) for form in sorted(forms, key=lambda form: (-len(form), form)))


@functools.cache
def abroad(text: str) -> str:
    """Return a pattern of what readers of other languages may write for an English text."""
    english, *others = everywhere(text)
    said = {way for other in others for way in other.split("|") if way} - set(english.split("|"))
    forms = sorted(said | {unaccented(way) for way in said}, key=lambda form: (-len(form), form))
    return "|".join(map(pattern, forms)) or "(?!)"


def pattern(text: str) -> str:
    """Return a pattern of a text whose words may stand apart by any blanks."""
    return r"\s+".join(map(re.escape, text.split()))


def meanings(texts: Iterable[str]) -> dict[str, str]:
    """Return which of some texts each way to write them means; where two agree, English wins."""
    found: dict[str, str] = {}
    for text in texts:
        for way in ways(text):
            found.setdefault(way, text)
    return found | {unaccented(text): text for text in texts}
