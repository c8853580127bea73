"""A made-up language that puts every text of the catalogue in brackets.

What a page then holds outside of brackets was never looked up: it is an author's, a number, a
unit that is written alike everywhere, or English that somebody forgot. The gaps of a text and its
tags stay outside of the brackets, so that English put into one is seen as well.
"""

from __future__ import annotations

import gettext
import re
from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING, Any

import pytest

from cookbook_build.manuscript import reply_form, reply_languages, reply_lines, reply_words
from cookbook_build.words import speech, spoken

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

_GAP = re.compile(r"(<[^<>]*>|%\(\w+\)[a-z]|(?<!\{)\{[^{}]*\}(?!\}))")
_BRACKETED = re.compile(r"⟦[^⟧]*⟧")
_WORD = re.compile(r"[^\W\d_]{2,}")
SAME_EVERYWHERE = {
    "kg", "mg", "mL", "cL", "dL", "kcal", "kJ", "kB", "MB", "mm", "cm", "min", "kW", "QR", "DNA",
}  # fmt: skip


class Bracketed(gettext.NullTranslations):
    """Each text in brackets, its gaps and tags between them; many are spoken of as one is."""

    def gettext(self, message: str) -> str:
        parts = _GAP.split(message)
        return "".join(part if at % 2 else f"⟦{part}⟧" for at, part in enumerate(parts) if part)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        assert context
        return self.gettext(message)

    def npgettext(self, context: str, msgid1: str, msgid2: str, n: int) -> str:
        assert context
        return self.ngettext(msgid1, msgid2, n)


@pytest.fixture(scope="session")
def made_up() -> Bracketed:
    """Return the words of the made-up language."""
    return Bracketed()


@pytest.fixture
def bracketed(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Speak the made-up language, whose numbers have a comma."""
    words = Bracketed()
    monkeypatch.setattr(speech, "catalogue", lambda _tag: words)
    monkeypatch.setattr(speech, "mark_of", lambda _tag: ",")
    forget()
    with spoken("qaa"):
        yield
    forget()


def forget() -> None:
    """Forget what readers may write in every language, which is kept once it was looked up."""
    for module in (reply_form, reply_lines, reply_languages, reply_words):
        for kept in vars(module).values():
            if hasattr(kept, "cache_clear"):
                kept.cache_clear()


@pytest.fixture(scope="session")
def forgetting() -> Callable[[], None]:
    """Return how to forget it."""
    return forget


def texts_of(thing: Any) -> Iterator[str]:  # noqa: ANN401 - whatever a view holds
    """Give every text within a view."""
    if isinstance(thing, str):
        yield thing
    elif isinstance(thing, dict):
        yield from (text for value in thing.values() for text in texts_of(value))
    elif isinstance(thing, list | tuple | set | frozenset):
        yield from (text for value in thing for text in texts_of(value))
    elif is_dataclass(thing):
        yield from (
            text for field in fields(thing) for text in texts_of(getattr(thing, field.name))
        )


def never_looked_up(texts: Iterable[str], own: Iterable[str] = ()) -> list[str]:
    """Return the texts with words that stand outside of brackets and are nobody's own."""
    longest = sorted({word for word in own if word.strip()}, key=len, reverse=True)
    theirs = re.compile("|".join(map(re.escape, longest)) or r"(?!)", re.IGNORECASE)
    left = []
    for text in texts:
        bare = theirs.sub(" ", _BRACKETED.sub(" ", text))
        if [word for word in _WORD.findall(bare) if word not in SAME_EVERYWHERE] or re.search(
            r"\d\.\d", bare
        ):
            left.append(text)
    return left


@pytest.fixture
def english_in() -> Callable[..., list[str]]:
    """Return how to find what was never looked up, in texts or in views."""

    def found(*things: object, own: Iterable[str] = ()) -> list[str]:
        return never_looked_up(texts_of(things), own)

    return found
