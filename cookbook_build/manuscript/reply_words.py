"""Words of readers: `a bit too thick`, `on the camp stove`, `14 July 2026`, `about 1 cup of water`.

A form is filled in by hand at a table. What is plainly meant is put into the words of the schema;
what is not is left as it was written, and becomes a finding there.
"""

from __future__ import annotations

import datetime as dt
import html
import re
from contextlib import suppress
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from cookbook_build.manuscript.nodes import Scalar
    from cookbook_build.manuscript.reply_blocks import Entries

_NOTHING: Final = {"none", "nothing", "no", "0", "-", "–", "—", "n/a", "?", "unknown", "nil"}
_OPTIONAL: Final = ("Water added", "Altitude", "Note")
_WATER: Final = re.compile(
    r"(?:(?:about|around|roughly|approx\.?|ca\.?)\s+|[~≈]\s*)?(?P<bare>.*?)"
    r"(?:\s+(?:of\s+)?(?:(?:boiling|boiled|hot|warm|cold)\s+)?water)?[.!]?",
    re.IGNORECASE,
)
_SERVINGS: Final = re.compile(
    r"(?:for\s+)?(?P<bare>\S+)(?:\s+(?:servings?|portions?|people|persons?|of us))?[.!]?",
    re.IGNORECASE,
)
_NUMBERS: Final = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_WITH: Final = re.compile(r"(?:on|in|with|by|from)\s+(?:(?:the|a|an|my|our)\s+)?")
_METHODS: Final = {
    "kettle": "kettle|bowl|boiling water|boiled water|hot water|boiled water in a bowl|"
    "boiling water in a bowl|boiling water into a bowl|kettle and bowl|bowl and kettle",
    "microwave": "microwave|microwave oven",
    "stove": "stove|camp stove|camping stove|gas stove|stove top|stovetop|hob|burner|pot|"
    "pot on a burner|pot on the stove|pot on a stove",
    "jar": "jar|insulated jar|insulated food jar|food jar",
    "cold": "cold|cold soak|cold soaked|soaked cold|cold water|soaked in cold water",
}
_METHOD_OF: Final = {word: method for method, ws in _METHODS.items() for word in ws.split("|")}
_VERDICT: Final = re.compile(
    r"(?:it was )?(?:(?:a (?:little|bit|touch)|slightly|rather|much|far|way) )?(?:too )?"
    r"(?:(?P<thick>thick|stiff|dry)|(?P<thin>thin|runny|watery|wet))"
)
_RIGHT: Final = {"right", "just right", "about right", "perfect"}
_MONTHS: Final = (
    "january february march april may june july august september october november december"
)
_DAY: Final = re.compile(
    r"(?:[a-z]{3,9}[.,]?\s+)?(?:(?P<day>\d{1,2})(?:st|nd|rd|th|\.)?\s+(?:of\s+)?"
    r"(?P<month>[a-z]{3,9})\.?,?"
    r"|(?P<month_first>[a-z]{3,9})\.?\s+(?P<second>\d{1,2})(?:st|nd|rd|th)?,?)\s+(?P<year>\d{4})",
    re.IGNORECASE,
)
_DAY_IN_NUMBERS: Final = re.compile(r"(\d{1,2})([./-])(\d{1,2})\2(\d{4})\.?")
_YEAR_FIRST: Final = re.compile(r"(\d{4})([./-])(\d{1,2})\2(\d{1,2})\.?")
_CODED: Final = re.compile(r"(?:=[0-9A-F]{2})+")


def plainly(entries: Entries) -> None:
    """Put each value into the words that the schema knows, where it is plain what is meant."""
    for key, (_, value) in entries.items():
        if key in _OPTIONAL and value.text.casefold().rstrip(".") in _NOTHING:
            value.text, value.plain = "", True
        elif key in _EVERYDAY and not value.is_empty:
            _EVERYDAY[key](value)


def _reword(value: Scalar, word: str | None) -> None:
    """Let a value mean a word; its place stays that of what was written."""
    if word is not None and word != value.text:
        value.text, value.plain = word, False


def _water(value: Scalar) -> None:
    """Narrow water to its amount: `about 1 cup of hot water`."""
    found = _WATER.fullmatch(value.text)
    if found and found["bare"]:
        value.column += found.start("bare")
        value.text = found["bare"]
        value.width = len(value.text)


def _servings(value: Scalar) -> None:
    found = _SERVINGS.fullmatch(value.text)
    bare = found["bare"] if found else value.text
    word = bare.casefold()
    _reword(value, str(_NUMBERS.index(word) + 1) if word in _NUMBERS else bare)


def _method(value: Scalar) -> None:
    word = _folded(value.text)
    _reword(value, _METHOD_OF.get(word) or _METHOD_OF.get(_WITH.sub("", word, count=1)))


def _verdict(value: Scalar) -> None:
    word = _folded(value.text)
    found = _VERDICT.fullmatch(word)
    if found:
        _reword(value, "too thick" if found["thick"] else "too thin")
    elif word.removeprefix("it was ") in _RIGHT:
        _reword(value, "right")


def _altitude(value: Scalar) -> None:
    _reword(value, "0 m" if _folded(value.text) in {"sea level", "at sea level"} else None)


def _date(value: Scalar) -> None:
    """Read a day whose month is written out, so that it can't be read two ways."""
    found = _DAY.fullmatch(value.text)
    if not found:
        _reword(value, _told_apart(value.text))
        return
    name = (found["month"] or found["month_first"]).casefold()
    months = [at for at, month in enumerate(_MONTHS.split(), 1) if month.startswith(name)]
    day = int(found["day"] or found["second"])
    with suppress(ValueError):
        if len(months) == 1:
            _reword(value, dt.date(int(found["year"]), months[0], day).isoformat())


def _told_apart(text: str) -> str | None:
    """Return the day of 25.08.2026 or 08/25/2026: one of the numbers is too large for a month."""
    if found := _YEAR_FIRST.fullmatch(text):
        year, month, day = int(found[1]), int(found[3]), int(found[4])
    elif found := _DAY_IN_NUMBERS.fullmatch(text):
        first, second, year = int(found[1]), int(found[3]), int(found[4])
        if first != second and (first <= 12) == (second <= 12):
            return None
        day, month = (first, second) if second <= 12 else (second, first)
    else:
        return None
    with suppress(ValueError):
        return dt.date(year, month, day).isoformat()
    return None


def _decoded(found: re.Match[str]) -> str:
    """Return the letters that a mail wrote in its own coding: `=C3=B6` is an ö."""
    try:
        return bytes.fromhex(found.group().replace("=", "")).decode("utf-8")
    except UnicodeDecodeError:
        return found.group()


def _printed(value: Scalar) -> None:
    """Make a reader's own words fit to be printed: one line, and no sign that can't be seen."""
    text = html.unescape(_CODED.sub(_decoded, value.text))
    joined = " ".join(text.split())
    kept = "".join(char for char in joined if char.isprintable() or char in "\u200c\u200d")
    _reword(value, kept)


_EVERYDAY: Final[Mapping[str, Callable[[Scalar], None]]] = {
    "Date": _date,
    "Method": _method,
    "Servings": _servings,
    "Altitude": _altitude,
    "Name": _printed,
    "Note": _printed,
    "Water poured": _water,
    "Water added": _water,
    "It was": _verdict,
}


def _folded(text: str) -> str:
    return " ".join(text.casefold().replace("-", " ").rstrip(".!").split())
