"""The language being spoken, and how a text is looked up in it."""

from __future__ import annotations

from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING

from cookbook_build.words.catalogues import ENGLISH, catalogue, languages, mark_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

_SPOKEN: ContextVar[str] = ContextVar("spoken", default=ENGLISH)


@contextmanager
def spoken(tag: str) -> Iterator[None]:
    """Speak a language for as long as the block lasts; English where it has no words yet."""
    before = _SPOKEN.set(tag)
    try:
        yield
    finally:
        _SPOKEN.reset(before)


def _(text: str) -> str:
    """Return a text in the language being spoken."""
    return catalogue(_SPOKEN.get()).gettext(text)


def everywhere(text: str) -> tuple[str, ...]:
    """Return a text in each language that the program speaks, English first, each wording once."""
    return tuple(dict.fromkeys(catalogue(tag).gettext(text) for tag in languages()))


def N_(text: str) -> str:  # noqa: N802 - gettext's own name
    """Mark a text for the catalogue that is looked up later; return it as it is."""
    return text


def ngettext(one: str, many: str, number: float) -> str:
    """Return the text for a number of things, in the language being spoken.

    What is no whole number takes the form for many, as half a litre would.
    """
    whole = int(number) if number == int(number) else 2
    return catalogue(_SPOKEN.get()).ngettext(one, many, whole)


def pgettext(context: str, text: str) -> str:
    """Return a text that means more than one thing, in the meaning of its context."""
    return catalogue(_SPOKEN.get()).pgettext(context, text)


def npgettext(context: str, one: str, many: str, number: int) -> str:
    """Return the text for a number of things, in the meaning of its context."""
    return catalogue(_SPOKEN.get()).npgettext(context, one, many, number)


def decimal_mark() -> str:
    """Return what stands between wholes and tenths in the language being spoken."""
    return mark_of(_SPOKEN.get())


def numeral(written: str) -> str:
    """Return a number that was written with a decimal point, with the mark of the language."""
    return written.replace(".", decimal_mark())


def listed(items: Sequence[str], last: str | None = None) -> str:
    """Return things one after another: `a, b and c`, or with another last word.

    `last` is a text of two gaps, such as `_("{most} or {last}")`.
    """
    if len(items) < 2:
        return "".join(items)
    joined = last or _("{most} and {last}")
    return joined.format(most=", ".join(items[:-1]), last=items[-1])
