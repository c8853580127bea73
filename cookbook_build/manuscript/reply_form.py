"""The form of a reply: its keys in their order, each with a hint until it is filled in."""

from __future__ import annotations

import functools
import re
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.reply_languages import pattern
from cookbook_build.words import N_, everywhere

if TYPE_CHECKING:
    from collections.abc import Mapping

MAIN_PART: Final = N_("Main bowl")
"""What a page calls the component that has no name of its own, where there are several."""

HINTS: Final[Mapping[str, str]] = MappingProxyType(
    {
        N_("Recipe"): "",
        N_("Date"): N_("(such as 2026-07-14)"),
        N_("Method"): N_("(kettle, microwave, stove, jar or cold)"),
        N_("Servings"): N_("(such as 2)"),
        N_("Part"): "",
        N_("Water poured"): N_("(in all, such as 1 cup + 2 tbsp)"),
        N_("Water added"): N_("(if too thick, such as 1 tbsp)"),
        N_("It was"): N_("(right, too thick or too thin)"),
        N_("Altitude"): N_("(such as 450 m or 1500 ft)"),
        N_("Note"): N_("(what else we should know)"),
        N_("Name"): N_("(to be printed with it)"),
    }
)
"""The keys of a block in their order, each with the hint that stands there until it is filled.

Pages show both in the language of the book; here they are named by their English.
"""

PREFILLED: Final = ("Recipe", "Method", "Servings", "Part")
OF_A_PART: Final = ("Water poured", "Water added", "It was")
NEEDED: Final = ("Date", "Method", "Servings", "Water poured", "It was")

BLANK: Final = " \t\v\f\N{NO-BREAK SPACE}\N{THIN SPACE}\N{ZERO WIDTH SPACE}\ufeff"
"""What is no sign of its own in a letter."""


def without_hint(key: str, text: str) -> tuple[int, str]:
    """Return a value without the hint that was left there, and how far in it begins."""
    hint = _hint(key)
    start, end = 0, len(text)
    if hint:
        if found := hint.match(text):
            start = found.end()
        elif found := next((m for m in hint.finditer(text) if m.end() == end), None):
            end = found.start()
    inner = text[start:end]
    bare = inner.strip(BLANK)
    if bare.startswith("(") and bare.endswith(")") and not set("()") & set(bare[1:-1]):
        start, inner = start + inner.index("(") + 1, bare[1:-1]
    start += len(inner) - len(inner.lstrip(BLANK))
    return start, inner.strip(BLANK)


@functools.cache
def _hint(key: str) -> re.Pattern[str] | None:
    hint = HINTS.get(key)
    return re.compile("|".join(map(pattern, everywhere(hint))), re.IGNORECASE) if hint else None
