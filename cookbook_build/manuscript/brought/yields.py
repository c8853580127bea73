"""How many a recipe serves, as people say it: `Serves 4`, `4-6 servings`, `para 2 personas`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from cookbook_build.manuscript.pasted_lines import counted

LARGEST: Final = 1000
_EATERS: Final = (
    r"servings?|serves|portions?|persons?|people|plates|bowls|eaters"
    r"|raciones|raci[óo]n|porciones|porci[óo]n|personas?|comensales|platos"
)
_LEAD: Final = (
    r"serves|servings?|yields?|portions?|makes|for|feeds|recipe for|enough for"
    r"|raciones|porciones|comensales|personas|para|rinde|salen|sirve(?: para| a)?|da para"
)
_NUMBER: Final = r"(?P<low>\d{1,4}|[^\W\d_]+)(?:\s*(?:-|–|—|to|or|a|o)\s*(?P<high>\d{1,4}))?"
_SAID: Final = re.compile(
    rf"(?:(?P<lead>{_LEAD})\s*[:=\-–]?\s*)?(?:about\s+|unas?\s+|unos\s+)?{_NUMBER}"
    rf"\s*(?P<rest>\S.*)?",
    re.IGNORECASE,
)
_OF_EATERS: Final = re.compile(rf"(?:{_EATERS})\b", re.IGNORECASE)
_ASIDE: Final = re.compile(r"[,;(]")
_ONLY_WITH_EATERS: Final = {"for", "recipe for", "enough for", "para", "da para"}
_OF_THINGS: Final = {"makes", "yield", "yields", "salen", "rinde"}


@dataclass(frozen=True, slots=True)
class Yield:
    """How many are served, or what it makes."""

    serves: int | None = None
    makes: str = ""


def read_yield(text: str, *, alone: bool = False) -> Yield | None:
    """Return what a text says of how much a recipe gives; None where it says nothing of that.

    `alone` says that the text is known to be about that, so that a bare number will do.
    """
    match = _SAID.fullmatch(text.strip().strip("().;* "))
    if match is None:
        return None
    low = int(match["low"]) if match["low"].isdecimal() else counted(match["low"], 0)
    lead, rest = (match["lead"] or "").casefold(), (match["rest"] or "").strip()
    bare = not rest or _ASIDE.match(rest)  # (serves 4, from the river house)
    known = _OF_EATERS.match(rest) or (bare and (lead or alone))
    if not 1 <= low <= LARGEST or (lead in _ONLY_WITH_EATERS and not _OF_EATERS.match(rest)):
        return None
    if known:
        return Yield(serves=low)
    things = re.match(r"[^\W\d_]", rest) and (lead in _OF_THINGS or (alone and not lead))
    return Yield(makes=f"{match['low']} {rest}") if things else None
