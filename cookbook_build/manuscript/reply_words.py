"""Words of readers: `a bit too thick`, `on the camp stove`, `14 July 2026`, `about 1 cup of water`.

A form is filled in by hand at a table. What is plainly meant is put into the words of the schema;
what is not is left as it was written, and becomes a finding there. The ways to say a thing are
texts of the catalogue, divided by `|`, and are read in every language.
"""

from __future__ import annotations

import datetime as dt
import functools
import html
import re
from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.fields import LONGEST_VALUE
from cookbook_build.manuscript.reply_languages import abroad, either, unaccented, ways
from cookbook_build.measures.amounts import whole_amount
from cookbook_build.measures.numbers import NumberError
from cookbook_build.words import N_, everywhere

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Mapping

    from cookbook_build.manuscript.nodes import Scalar
    from cookbook_build.manuscript.reply_blocks import Entries

_NOTHING: Final = N_("none|nothing|no|0|-|–|—|n/a|?|unknown|nil")
_OPTIONAL: Final = ("Water added", "Altitude", "Note")
PLUS: Final = N_("plus|and")
_SIGNS: Final = {PLUS: "+", N_("a|an"): "1", N_("half|half a"): "1/2"}
"""What an amount is read by; its English words are read with the amount."""
_ABOUT: Final = N_("about|around|roughly|approx|approx.|ca|ca.")
_OF: Final = N_("of|of the")
_WATERS: Final = N_("water|boiling water|boiled water|hot water|warm water|cold water")
_FOR: Final = N_("for|served")
_SERVED: Final = N_("serving|servings|portion|portions|people|person|persons|of us")
_NUMBERS: Final = N_("one|two|three|four|five|six|seven|eight|nine|ten")
_WITH: Final = N_("on|in|with|by|from")
_THE: Final = N_("the|a|an|my|our")
_METHODS: Final = {
    "kettle": N_(
        "kettle|bowl|boiling water|boiled water|hot water|boiled water in a bowl|"
        "boiling water in a bowl|boiling water into a bowl|kettle and bowl|bowl and kettle"
    ),
    "microwave": N_("microwave|microwave oven"),
    "stove": N_(
        "stove|camp stove|camping stove|gas stove|stove top|stovetop|hob|burner|pot|"
        "pot on a burner|pot on the stove|pot on a stove"
    ),
    "jar": N_("jar|insulated jar|insulated food jar|food jar"),
    "cold": N_("cold|cold soak|cold soaked|soaked cold|cold water|soaked in cold water"),
}
_IT_WAS: Final = N_("it was|it came out")
_A_BIT: Final = N_("a little|a bit|a touch|slightly|rather|much|far|way")
_TOO: Final = N_("too|over")
_THICK: Final = N_("thick|stiff|dry")
_THIN: Final = N_("thin|runny|watery|wet")
_RIGHT: Final = N_("right|just right|about right|perfect")
_SEA_LEVEL: Final = N_("sea level|at sea level")
_MONTHS: Final = N_(
    "january|february|march|april|may|june|july|august|september|october|november|december"
)


@dataclass(frozen=True, slots=True)
class _Language:
    """What readers write, in every language."""

    nothing: Collection[str]
    water: re.Pattern[str]
    signs: Mapping[str, re.Pattern[str]]
    servings: re.Pattern[str]
    number: Mapping[str, int]
    with_what: re.Pattern[str]
    method: Mapping[str, str]
    verdict: re.Pattern[str]
    day: re.Pattern[str]
    months: Collection[tuple[str, ...]]


@functools.cache
def _language() -> _Language:
    word = r"[^\W\d_]{3,12}"
    return _Language(
        nothing=ways(_NOTHING),
        water=re.compile(
            rf"(?:(?:{either(_ABOUT)})\s+|[~≈]\s*)?(?P<bare>.*?)"
            rf"(?:\s+(?:(?:{either(_OF)})\s+)?(?:{either(_WATERS)}))?[.!]?",
            re.IGNORECASE,
        ),
        signs={
            sign: re.compile(rf"(?<!\w)(?:{abroad(text)})(?=\s)", re.IGNORECASE)
            for text, sign in _SIGNS.items()
        },
        servings=re.compile(
            rf"(?:(?:{either(_FOR)})\s+)?(?P<bare>\S+)(?:\s+(?:{either(_SERVED)}))?[.!]?",
            re.IGNORECASE,
        ),
        number={said: at for names in _in_order(_NUMBERS) for at, said in enumerate(names, 1)},
        with_what=re.compile(rf"(?:{either(_WITH)})\s+(?:(?:{either(_THE)})\s+)?"),
        method={said: method for method, text in _METHODS.items() for said in ways(text)},
        verdict=re.compile(
            rf"(?:(?:{either(_IT_WAS)}) )?(?:(?:(?:{either(_A_BIT)}) )?(?:(?:{either(_TOO)}) )?"
            rf"(?:(?P<thick>{either(_THICK)})|(?P<thin>{either(_THIN)}))|(?P<right>{either(_RIGHT)}))"
        ),
        day=re.compile(
            rf"(?:{word}[.,]?\s+)?(?:(?P<day>\d{{1,2}})(?:st|nd|rd|th|\.)?\s+"
            rf"(?:(?:{either(_OF)})\s+)?(?P<month>{word})\.?,?"
            rf"|(?P<month_first>{word})\.?\s+(?P<second>\d{{1,2}})(?:st|nd|rd|th)?,?)\s+"
            rf"(?:(?:{either(_OF)})\s+)?(?P<year>\d{{4}})",
            re.IGNORECASE,
        ),
        months=_in_order(_MONTHS),
    )


def _in_order(text: str) -> tuple[tuple[str, ...], ...]:
    """Return the words of a text whose order counts, in every language."""
    return tuple(tuple(map(unaccented, said.split("|"))) for said in everywhere(text))


_DAY_FIRST: Final = re.compile(r"\bfecha\b", re.IGNORECASE)
"""The key of a form in whose language 10/05/2026 is the tenth of May, and nothing else."""
_DAY_IN_NUMBERS: Final = re.compile(r"(\d{1,2})([./-])(\d{1,2})\2(\d{4})\.?")
_YEAR_FIRST: Final = re.compile(r"(\d{4})([./-])(\d{1,2})\2(\d{1,2})\.?")
_CODED: Final = re.compile(r"(?:=[0-9A-F]{2})+")


def plainly(entries: Entries) -> None:
    """Put each value into the words that the schema knows, where it is plain what is meant."""
    for key, (written, value) in entries.items():
        if key == "Date" and _DAY_FIRST.search(written.place.excerpt):
            _reword(value, _told_apart(value.text, day_first=True))
        if key in _OPTIONAL and unaccented(value.text).rstrip(".") in _language().nothing:
            value.text, value.plain = "", True
        elif key in _EVERYDAY and not value.is_empty and len(value.text) <= LONGEST_VALUE:
            _EVERYDAY[key](value)


def _reword(value: Scalar, word: str | None) -> None:
    """Let a value mean a word; its place stays that of what was written."""
    if word is not None and word != value.text:
        value.text, value.plain = word, False


def _water(value: Scalar) -> None:
    """Narrow water to its amount: `about 1 cup of hot water`."""
    found = _language().water.fullmatch(value.text)
    if found and found["bare"]:
        value.column += found.start("bare")
        value.text = found["bare"]
        value.width = len(value.text)
        with suppress(NumberError):
            whole_amount(value.text, "volume")
            return
        said = value.text
        for sign, word in _language().signs.items():
            said = word.sub(sign, said)
        _reword(value, said)


def _servings(value: Scalar) -> None:
    found = _language().servings.fullmatch(value.text)
    count = found["bare"] if found else value.text
    number = _language().number.get(unaccented(count))
    _reword(value, str(number) if number else count)


def _method(value: Scalar) -> None:
    word = _folded(value.text)
    method, with_what = _language().method, _language().with_what
    _reword(value, method.get(word) or method.get(with_what.sub("", word, count=1)))


def _verdict(value: Scalar) -> None:
    found = _language().verdict.fullmatch(_folded(value.text))
    if found and found["right"]:
        _reword(value, "right")
    elif found:
        _reword(value, "too thick" if found["thick"] else "too thin")


def _altitude(value: Scalar) -> None:
    _reword(value, "0 m" if _folded(value.text) in ways(_SEA_LEVEL) else None)


def _date(value: Scalar) -> None:
    """Read a day whose month is written out, so that it can't be read two ways."""
    found = _language().day.fullmatch(value.text)
    if not found:
        _reword(value, _told_apart(value.text))
        return
    name = unaccented(found["month"] or found["month_first"])
    months = {
        at
        for year in _language().months
        for at, month in enumerate(year, 1)
        if month.startswith(name)
    }
    day = int(found["day"] or found["second"])
    with suppress(ValueError):
        if len(months) == 1:
            _reword(value, dt.date(int(found["year"]), months.pop(), day).isoformat())


def _told_apart(text: str, *, day_first: bool = False) -> str | None:
    """Return the day of 25.08.2026 or 08/25/2026: one of the numbers is too large for a month.

    Where the day comes first by its language, both may be small: 10/05/2026.
    """
    if found := _YEAR_FIRST.fullmatch(text):
        year, month, day = int(found[1]), int(found[3]), int(found[4])
    elif found := _DAY_IN_NUMBERS.fullmatch(text):
        first, second, year = int(found[1]), int(found[3]), int(found[4])
        if not day_first and first != second and (first <= 12) == (second <= 12):
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
    return unaccented(text.replace("-", " ").rstrip(".!"))
