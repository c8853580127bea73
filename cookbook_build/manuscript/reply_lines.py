"""Lines of a letter: their quoting taken off, and the key of the form that each one writes."""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import nearest
from cookbook_build.manuscript.reply_form import BLANK, HINTS, NEEDED
from cookbook_build.manuscript.reply_languages import either, meanings, unaccented
from cookbook_build.manuscript.reply_words import PLUS
from cookbook_build.words import N_

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cookbook_build.findings import Place
    from cookbook_build.manuscript.source import Source

_LEAD: Final = re.compile(rf"[{BLANK}]*(?:(?:[>|]|\w{{1,12}}>|[-*•][{BLANK}]+(?=\w))[{BLANK}]*)*")
_DEBRIS: Final = re.compile(
    r"&nbsp;|</?(?:p|div|span|br|b|strong|em|i|li|ul|ol|pre|font|table|tbody|tr|td)\b[^<>]*>"
    r"|(?:=20)?=?$",
    re.IGNORECASE,
)
"""What a letter's own marks leave behind when it is saved as text: blanks and line ends."""
_WORDS: Final = r"[^\W\d_]+(?:[ \u00a0]+[^\W\d_]+){0,2}"
_KEY: Final = re.compile(
    rf"(?:(?P<bold>\*{{1,2}})(?P<strong>{_WORDS})(?:\s*[:：]\s*(?P=bold)|(?P=bold)\s*[:：])"
    rf"|(?P<key>{_WORDS})\s*[:：])[{BLANK}]*(?P<value>.*)"
)
_CLOSE: Final = re.compile(
    r"--|_{8,}|-{3,}\s*(?:original|forwarded|begin|end)\b.*|From \S+@\S+ .*"
    r"|(?:received|return-path|delivered-to|message-id|mime-version|content-[a-z-]+|in-reply-to"
    r"|references|user-agent|list-[a-z-]+|dkim-signature|x-[a-z-]+):.*",
    re.IGNORECASE,
)
_HEADERS: Final = N_("from|to|cc|sent|subject|reply-to|date")
_KEYS_THAT_NEED_A_COLON: Final = (*NEEDED, "Water added")


@dataclass(frozen=True, slots=True)
class _Language:
    """How the lines of a letter are told apart, in the words of every language."""

    key_of: Mapping[str, str]
    seems: re.Pattern[str]  # a form that is not written as one
    goes_on: re.Pattern[str]
    header: re.Pattern[str]
    no_colon: re.Pattern[str]


@functools.cache
def language() -> _Language:
    """Return what tells the lines of a letter apart."""
    keys = either(*_KEYS_THAT_NEED_A_COLON)
    return _Language(
        meanings(HINTS),
        re.compile(
            rf"\b(?:{either('Water poured')})\b|^\W*(?:{either('Recipe')})\s*[-=–—]", re.IGNORECASE
        ),
        re.compile(rf"[{BLANK}]*(?:[+&]|(?:{either(PLUS)})\b)", re.IGNORECASE),
        re.compile(rf"(?:{either(_HEADERS)}):\s*\S.*", re.IGNORECASE),
        re.compile(rf"(?:{keys})(?=\s)", re.IGNORECASE),
    )


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a letter without its quoting: where its text begins, and how deep it is quoted.

    `key` is the key of a block that it writes, `near` the one that it misspells.
    """

    number: int
    depth: int
    start: int
    text: str
    key: str | None = None
    near: str | None = None
    value: str = ""
    value_start: int = 0
    soft: bool = False  # a mail's own coding cut it, and it goes on without a blank

    def place(self, source: Source) -> Place:
        """Return where its text stands."""
        return source.place(self.number, self.start + 1, len(self.text))


def read_line(source: Source, at: int) -> Line:
    """Return a line of a letter, counted from 0, without its quoting."""
    bare = _DEBRIS.sub(lambda found: " " * len(found.group()), source.lines[at].rstrip(BLANK))
    raw = bare.rstrip(BLANK)
    soft = source.lines[at].endswith("=")
    lead = _LEAD.match(raw)
    start = lead.end() if lead else 0
    depth, text = raw.count(">", 0, start) + raw.count("|", 0, start), raw[start:]
    match = _KEY.fullmatch(text)
    if not match:
        return Line(at + 1, depth, start, text, soft=soft)
    word = unaccented(match["key"] or match["strong"])
    key = language().key_of.get(word)
    return Line(
        at + 1,
        depth,
        start,
        text,
        key=key,
        near=None if key else _near_key(word),
        value=match["value"],
        value_start=start + match.start("value"),
        soft=soft,
    )


@functools.lru_cache(maxsize=4096)
def _near_key(word: str) -> str | None:
    if len(word) >= 20:
        return None
    key_of = language().key_of
    near = nearest(word, HINTS, likeness=0.75) or nearest(word, key_of, likeness=0.75)
    return key_of[near.casefold()] if near else None


def begins(lines: Sequence[Line], at: int) -> bool:
    """Whether a block begins here; a misspelt `Recipe` begins one where a key follows it."""
    line = lines[at]
    if language().seems.search(line.value):  # a whole form on one line
        return False
    after = next((other for other in lines[at + 1 : at + 3] if other.text), None)
    return line.key == "Recipe" or (line.near == "Recipe" and after is not None and bool(after.key))


def closes(lines: Sequence[Line], at: int) -> bool:
    """Whether a signature or the headers of another letter begin here."""
    text = lines[at].text
    if _CLOSE.fullmatch(text):
        return True
    is_header = language().header.fullmatch
    if not is_header(text):
        return False
    after = lines[at + 1] if at + 1 < len(lines) else None
    known = lines[at].key is not None  # a date is a key of ours, unless other headers follow it
    headed = after is not None and bool(is_header(after.text)) and after.key != "Date"
    before = "" if known or not at else lines[at - 1].text
    return headed or (not known and ("@" in text or bool(is_header(before))))


def goes_on(value: str, after: str) -> bool:
    """Whether a value was cut by a line's end: inside a bracket, or before or after a plus."""
    cut = value.count("(") > value.count(")") or value.rstrip(BLANK).endswith("+")
    return cut or (bool(value) and bool(language().goes_on.match(after)))
