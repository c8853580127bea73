"""Consoles that know few letters: what they lack is written in letters that they have.

A Windows console, or a pipe of one, often speaks a code page without ⅔ or –. An amount must not
become "? cup" there, and a command must not break off in the middle of its answer.
"""

from __future__ import annotations

import codecs
import sys
import unicodedata
from typing import Final

PLAINLY: Final = "plainly"
_LIKE: Final = {
    "\N{EN DASH}": "-",
    "\N{EM DASH}": "-",
    "\N{MINUS SIGN}": "-",
    "\N{HYPHEN}": "-",
    "\N{NON-BREAKING HYPHEN}": "-",
    "\N{MULTIPLICATION SIGN}": "x",
    "\N{MIDDLE DOT}": ".",
    "\N{RIGHT SINGLE QUOTATION MARK}": "'",
    "\N{LEFT DOUBLE QUOTATION MARK}": '"',
    "\N{RIGHT DOUBLE QUOTATION MARK}": '"',
    "\N{LEFT-POINTING DOUBLE ANGLE QUOTATION MARK}": '"',
    "\N{RIGHT-POINTING DOUBLE ANGLE QUOTATION MARK}": '"',
    "\N{RIGHTWARDS ARROW}": "->",
    "\N{LESS-THAN OR EQUAL TO}": "<=",
    "\N{GREATER-THAN OR EQUAL TO}": ">=",
    "\N{PLUS-MINUS SIGN}": "+-",
    "\N{DEGREE SIGN}": "",  # as in 65 C
}


def speak_plainly() -> None:
    """Let what is printed never fail for a letter that the console lacks."""
    codecs.register_error(PLAINLY, plainly)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors=PLAINLY)


def plainly(problem: UnicodeError) -> tuple[str, int]:
    """Return letters of ASCII for those that can't be encoded, and where to go on."""
    if not isinstance(problem, UnicodeEncodeError):
        raise problem
    text, start, end = problem.object, problem.start, problem.end
    return "".join(_like(text, at) for at in range(start, end)), end


def _like(text: str, at: int) -> str:
    letter = text[at]
    if letter in _LIKE:
        return _LIKE[letter]
    spelt = unicodedata.normalize("NFKD", letter).replace("\N{FRACTION SLASH}", "/")
    plain = "".join(char for char in spelt if char.isascii())
    after_digit = at > 0 and text[at - 1].isdigit() and text[at - 1].isascii()
    return " " * ("/" in plain and after_digit) + (plain or "?")
