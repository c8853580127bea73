"""Ingredient lines as people paste them: the amount behind the name, or nothing but the name."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from cookbook_build.foods import load_foods
from cookbook_build.measures.amounts import read_amount
from cookbook_build.measures.numbers import NumberError

if TYPE_CHECKING:
    from cookbook_build.measures.amounts import Amount

_WORD_START: Final = re.compile(r"(?<![\w.,/½⅓⅔¼¾⅛])(?=[^\W_]|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])")
LONGEST: Final = 300  # of a line that can be meant for an ingredient
_BETWEEN: Final = " \t\u00a0,;:(|=-–—"
_TIMES: Final = re.compile(r"\s*([xX×])(?:\s+(?=\S)|(?=\d))")
_WATER: Final = re.compile(
    r"(?:(?:boiling|boiled|hot|warm|lukewarm|cold|iced?|tap|fresh|clean|drinking|filtered|bottled"
    r"|of)\s+)*water\b(?:\s*[:;,(].*)?"
    r"|agua(?:\s+(?:hirviendo|hervida|caliente|templada|tibia|fr[ií]a|potable|filtrada|del grifo))*"
    r"(?:\s*[:;,(].*)?",
    re.IGNORECASE,
)
_AND: Final = re.compile(r"\s+(?:and|y|&|\+)\s+", re.IGNORECASE)
_SEASONED: Final = frozenset({"spices", "herbs"})
_SPANISH: Final = frozenset({"sal", "pimienta", "pimienta negra", "pimienta blanca"})
_NUMBERS: Final = (
    ("zero", "cero"), ("one", "uno"), ("two", "dos"), ("three", "tres"), ("four", "cuatro"),
    ("five", "cinco"), ("six", "seis"), ("seven", "siete"), ("eight", "ocho"), ("nine", "nueve"),
    ("ten", "diez"), ("eleven", "once"), ("twelve", "doce"),
)  # fmt: skip


def counted(word: str, otherwise: int = 1) -> int:
    """Return the number that a word such as `two` or `dos` says; of other words, `otherwise`."""
    plain = word.casefold()
    return next((at for at, words in enumerate(_NUMBERS) if at and plain in words), otherwise)


def is_water(name: str) -> bool:
    """Return whether a name is that of the water to pour, however hot."""
    return bool(_WATER.fullmatch(name.strip()))


def amount_at(text: str, start: int = 0) -> tuple[Amount, int] | None:
    """Return the amount that stands at `start` and where the text goes on; one that is none, not.

    Of what can't be taken as an amount, `read_ingredient` says why.
    """
    try:
        read = read_amount(text, start)
    except NumberError:
        return None
    return read if read and any(term.high for term in read[0].terms) else None


def turned(text: str) -> str | None:
    """Return a line such as `rice 1 cup` with its amount in front of its name, or None."""
    text = text.strip()
    if len(text) > LONGEST:
        return None
    for match in _WORD_START.finditer(text):
        at = match.start()
        name = text[:at].rstrip(_BETWEEN)
        read = amount_at(text, at) if re.search(r"[^\W\d_]", name) else None
        if read is None:
            continue
        amount, end = read
        rest = text[end:].strip()
        bracket = rest.startswith(")") and text[:at].rstrip().endswith("(")
        rest = rest[1:].lstrip() if bracket else rest
        if rest and not rest.startswith((",", "(")):
            continue
        behind = rest if rest.startswith(",") else f" {rest}"
        written = text[at:end].strip()
        of = "of " if amount.terms[0].unit.name in {"pinch", "dash"} else ""
        return f"{written} {of}{name}{behind}".strip()
    return None


def times_sign(text: str, amount: Amount, end: int) -> tuple[int, str, str] | None:
    """Return where `1 x onion` has its sign, the sign, and how the line is written without it."""
    match = _TIMES.match(text, end) if amount.kind == "count" else None
    if match is None:
        return None
    rest = text[match.end() :].strip()
    inner = amount_at(rest)
    if inner and inner[0].kind != "count":
        together = inner[0].times(amount.count())
        rest = f"{together} {rest[inner[1] :].strip()}".replace("\N{NO-BREAK SPACE}", " ")
    else:
        rest = f"{text[:end].strip()} {rest}"
    return match.start(1), match[1], rest


def parted(name: str) -> list[str]:
    """Return the names that a line joins by "and" or "&", or the one that it has."""
    return _AND.split(name.strip())


def _is_seasoning(name: str) -> bool:
    food = load_foods().find(name)
    return name.casefold() in _SPANISH or bool(food and food.group in _SEASONED)


def amount_for(name: str) -> str:
    """Return how a line that is nothing but a name might go on: two ways to write it."""
    plain = name.casefold()
    first, *others = _AND.split(name)
    if others and _is_seasoning(first):
        return f"{amount_for(first)}, and {others[0]} on a line of its own"
    if plain in _SPANISH:
        return f"una pizca de {name}, or {name}, al gusto"
    if _is_seasoning(plain):
        return f"a pinch of {name}, or {name}, to taste"
    return f"1/4 cup {name}, or {name}, to taste"
