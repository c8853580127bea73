"""Numbers as people write them in a kitchen: 2, 0.5, 1/2, ½, 1 1/2, 1½, 2-3."""

from __future__ import annotations

import re
import unicodedata
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

VULGAR = {
    char: Fraction(unicodedata.numeric(char)).limit_denominator(10) for char in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
}
WORDS = dict.fromkeys(("a", "an", "one", "un", "una"), Fraction(1)) | dict.fromkeys(
    ("half", "medio", "media"), Fraction(1, 2)
)
LARGEST = Fraction(1_000_000)

_GLYPHS = "".join(VULGAR)
_WIDE = "\u00a0\u2009\u202f"  # no-break and thin spaces, which come with text from a page
_MIDDLE = "\u00b7\u22c5\u2219"  # decimal points as they are written by hand in Britain
_NUMBER = re.compile(
    rf"""(?P<sign>[-−]\s*(?=[\d{_GLYPHS}.]))?
    (?:
      (?P<whole>\d{{1,12}})(?:\s*-\s*|[\s{_WIDE}]+)(?P<top>\d{{1,6}})[/⁄](?P<bottom>\d{{1,6}})
    | (?P<only_top>\d{{1,12}})\s*[/⁄]\s*(?P<only_bottom>\d{{1,12}})
    | (?P<before>\d{{1,12}})?[\s{_WIDE}]?(?P<glyph>[{_GLYPHS}])
    | (?P<decimal>\d*[.,]\d+|\d+[{_MIDDLE}]\d+|\d+)(?:[eE](?P<power>\d{{1,3}})(?![\w.]))?
    )""",
    re.VERBOSE | re.ASCII,
)
_WORD = re.compile(r"(half an?|half|an?|one|medi[ao]|una?)(?=\s)", re.IGNORECASE)
_RANGE = re.compile(r"\s*(?:-|–|—|\bto\b|\bor\b|\ba\b|\bo\b)\s*")


_COMMAS: ContextVar[bool] = ContextVar("commas", default=False)


@contextmanager
def decimal_commas(*, written: bool = True) -> Iterator[None]:
    """Read numbers of people whose decimal mark is a comma, for as long as the block lasts.

    To them `1.200` is twelve hundred, and elsewhere a little more than one: so it is asked about.
    """
    before = _COMMAS.set(written)
    try:
        yield
    finally:
        _COMMAS.reset(before)


def has_decimal_commas() -> bool:
    """Return whether numbers are read so now."""
    return _COMMAS.get()


class NumberError(ValueError):
    """A number that can't be taken; carries the cause, the mend and the stretch it stands on."""

    def __init__(self, cause: str, mend: str, start: int = 0, width: int = 1) -> None:
        super().__init__(cause)
        self.cause, self.mend, self.start, self.width = cause, mend, start, width


@dataclass(frozen=True, slots=True)
class Found:
    """A number, or a range of numbers, and where the text goes on after it."""

    low: Fraction
    high: Fraction
    end: int


def read_number(text: str, start: int = 0) -> Found | None:
    """Return the number that stands at `start`, or None when none does.

    Raises
    ------
    NumberError
        When a number stands there that can't be taken: negative, over zero, too large, or
        one that can be read two ways.
    """
    word = _WORD.match(text, start)
    if word:
        value = WORDS[word.group().split()[0].casefold()]
        return Found(value, value, word.end())
    match = _NUMBER.match(text, start)
    if not match:
        return None
    value = _value(match)
    return Found(value, value, match.end())


def read_range(text: str, start: int = 0) -> Found | None:
    """Return the number or the range (`2-3`, `2 to 3`) that stands at `start`."""
    first = read_number(text, start)
    if first is None:
        return None
    dash = _RANGE.match(text, first.end)
    second = read_number(text, dash.end()) if dash else None
    if second is None or second.low <= first.low:
        if second is not None:
            raise NumberError(
                f'the range "{text[start : second.end]}" does not rise',
                "write the smaller number first, such as 2-3.",
                start,
                second.end - start,
            )
        return first
    return Found(first.low, second.low, second.end)


def _value(match: re.Match[str]) -> Fraction:
    written = match.group()
    start, width = match.start(), len(written)
    if match["sign"]:
        raise NumberError(
            f'"{written}" is less than nothing', "write an amount above zero.", start, width
        )
    try:
        value = _magnitude(match)
    except ZeroDivisionError:
        raise NumberError(
            f'"{written}" divides by zero', "write a fraction such as 1/2.", start, width
        ) from None
    if value > LARGEST:
        raise NumberError(
            f"{_shortened(written)} is more than any kitchen holds",
            "write a number below a million.",
            start,
            width,
        )
    return value


def _magnitude(match: re.Match[str]) -> Fraction:
    if match["whole"]:
        return int(match["whole"]) + Fraction(int(match["top"]), int(match["bottom"]))
    if match["only_top"]:
        return Fraction(int(match["only_top"]), int(match["only_bottom"]))
    if match["glyph"]:
        return int(match["before"] or 0) + VULGAR[match["glyph"]]
    decimal = re.sub(f"[{_MIDDLE}]", ".", match["decimal"])
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", decimal):
        raise _two_ways(match, decimal.replace(",", "."))
    if _COMMAS.get() and re.fullmatch(r"[1-9]\d{0,2}\.\d{3}", decimal):
        raise _two_ways(match, decimal.replace(".", ",").rstrip("0").rstrip(","))
    if len(decimal) > 24:  # far beyond LARGEST, and int() need not read it
        return LARGEST + 1
    return Fraction(decimal.replace(",", ".")) * Fraction(10) ** int(match["power"] or 0)


def _two_ways(match: re.Match[str], as_decimal: str) -> NumberError:
    written = match["decimal"]
    whole = re.sub("[.,]", "", written)
    return NumberError(
        f'"{written}" can be read two ways',
        f"write {whole} or {as_decimal}.",
        match.start(),
        len(written),
    )


def _shortened(written: str) -> str:
    return f'"{written}"' if len(written) <= 20 else f'"{written[:17]}…"'
