"""A stranger's signs made plain: one line, no hidden characters, no bullets, no markup."""

from __future__ import annotations

import html
import re
from typing import Final

# what turns the direction of a text, or stands in it unseen: Unicode, annex 9, and zero widths
_HIDDEN: Final = re.compile("[\u061c\u200b\u200e\u200f\u202a-\u202e\u2060\u2066-\u2069\ufeff]")
_NO_TEXT: Final = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\ufffe\uffff]")
_BULLET: Final = re.compile(
    r"\s*(?:\[[ xX]?\]\s*|[-*+–—•·◦▪▫‣●○◆■□☐☑✓✔➤►»>]\s+|[•·◦▪▫‣●○◆■□☐☑✓✔➤►»]\s*"
    r"|[-–—](?=[\d½⅓⅔¼¾⅛]))"
)
_NUMBER: Final = re.compile(r"\s*(?:\(\d{1,2}\)|\d{1,2}[.)])\s+(?=\S)")
_TAG: Final = re.compile(
    r"</?(?:p|br|hr|li|ul|ol|div|h[1-6]|tr|td|table|tbody|b|i|u|s|em|strong|small|sup|sub|span|a"
    r"|img|font|mark|section|article|figure|figcaption|wbr|nobr|center)(?:\s[^<>]*)?/?>",
    re.IGNORECASE,
)
_ENDS_LINE: Final = re.compile(r"</?(?:p|br|hr|li|ul|ol|div|h[1-6]|tr|table)\b", re.IGNORECASE)
_RUNS: Final = re.compile(r"<(script|style|template|iframe|noscript)\b[^<>]*>", re.IGNORECASE)
_LEVELS: Final = 2  # how often a page's text is found to be escaped


def one_line(text: str) -> str:
    """Return a text as one line that shows all it holds."""
    whole = text.encode("utf-16-le", "surrogatepass").decode("utf-16-le", "replace")
    return " ".join(_NO_TEXT.sub(" ", _HIDDEN.sub("", whole)).split())


def lines_of(text: str) -> list[str]:
    """Return the lines of a text that hold something."""
    return [line for part in text.splitlines() if (line := one_line(part))]


def without_markup(text: str) -> str:
    """Return a text of a page without its tags and escapes; a block or a break ends a line.

    Only HTML's own tags are taken for tags: `<` may stand in a text as it is.
    """
    for _level in range(_LEVELS):
        if "<" in text:
            text = _without_scripts(text)
            text = _TAG.sub(lambda tag: "\n" if _ENDS_LINE.match(tag[0]) else "", text)
        if "&" not in text:
            break
        text = html.unescape(text)
    return _TAG.sub(" ", _without_scripts(text))


def _without_scripts(text: str) -> str:
    """Return a text without what only runs or styles; what is never closed stays, as text."""
    kept, at = [], 0
    while match := _RUNS.search(text, at):
        end = re.compile(rf"</{match[1]}\b[^<>]*>", re.IGNORECASE).search(text, match.end())
        if end is None:
            break
        kept.append(text[at : match.start()])
        at = end.end()
    return " ".join([*kept, text[at:]])


def without_bullet(text: str) -> str:
    """Return a line without the bullet, the box or the number that it begins with."""
    for sign in (_BULLET, _NUMBER, _BULLET):
        match = sign.match(text)
        if match and match.end() < len(text):
            text = text[match.end() :]
    return text.strip()


def is_numbered(text: str) -> bool:
    """Return whether a line begins as an entry of a numbered list."""
    return bool(_NUMBER.match(text))


def is_bulleted(text: str) -> bool:
    """Return whether a line begins with a bullet."""
    return bool(_BULLET.match(text))
