"""What a style sheet names and where it breaks off, read by the CSS Syntax Module, Level 3."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final
from urllib.parse import unquote

import tinycss2

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

_FETCHING: Final = frozenset({"url", "src", "image", "image-set", "-webkit-image-set"})
_SCHEME: Final = re.compile(r"(?i)[a-z][a-z0-9+.-]*:")
_HELD: Final = re.compile(r"(?i)data:(?:image|font)/|data:application/(?:x-)?font")
_IGNORED: Final = re.compile("[\t\n\r]")
_BROKEN: Final = {
    "bad-string": ("a text in quotes begins here and is never closed", "close it on its line."),
    "eof-in-string": ("a text in quotes begins here and is never closed", "close it."),
    "bad-url": ("this url(…) can't be read", 'put quotes round it, such as url("river.svg").'),
    "eof-in-url": ("this url(…) is never closed", 'close it, such as url("river.svg").'),
    "}": ("a } closes nothing here", "take it out, or look for a { that is missing above."),
    ")": ("a ) closes nothing here", "take it out, or look for a ( that is missing above."),
    "]": ("a ] closes nothing here", "take it out, or look for a [ that is missing above."),
}


@dataclass(frozen=True, slots=True)
class Named:
    """An address that a style sheet names, and where."""

    address: str
    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Broken:
    """A place at which a style sheet can't be read on, or fetches by a rule of its own."""

    cause: str
    mend: str
    line: int
    column: int
    width: int = 1


def read_style(text: str) -> tuple[list[Named], list[Broken]]:
    """Return every address in a style sheet, and every place that a browser would skip."""
    tokens = tinycss2.parse_component_value_list(text)
    broken = list(_faults(tokens))
    if opened := _never_closed(text):
        broken.append(opened)
    named = [
        Named(token.value, token.source_line, token.source_column)
        for token in address_tokens(tokens)
    ]
    return named, broken


def address_tokens(tokens: Iterable[Any], *, fetching: bool = False) -> Iterator[Any]:
    """Give the tokens of a style sheet that hold an address."""
    for token in tokens:
        if token.type == "url" or (token.type == "string" and fetching):
            yield token
        elif token.type == "function":
            yield from address_tokens(token.arguments, fetching=token.lower_name in _FETCHING)
        elif hasattr(token, "content"):
            yield from address_tokens(token.content)


def _faults(tokens: Iterable[Any]) -> Iterator[Broken]:
    for token in tokens:
        if token.type == "error":
            cause, mend = _BROKEN.get(
                token.kind, ("a browser can't read on from here", "write it as CSS has it.")
            )
            yield Broken(cause, mend, token.source_line, token.source_column)
        elif token.type == "at-keyword" and token.lower_value == "import":
            yield Broken(
                "@import fetches another style",
                "write its rules in this file.",
                token.source_line,
                token.source_column,
                len("@import"),
            )
        yield from _faults(
            getattr(token, "content", None) or getattr(token, "arguments", None) or ()
        )


def _never_closed(text: str) -> Broken | None:
    """Return where the outermost bracket begins that the end of the text closes."""
    held = re.sub(r'(?s)/\*.*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'', _blank, text)
    if (comment := held.find("/*")) >= 0:
        return _opened(text, comment, "a comment begins here and is never closed", "write */")
    depth: list[int] = []
    for at, char in enumerate(held):
        if char == "{":
            depth.append(at)
        elif char == "}" and depth:
            depth.pop()
    return _opened(text, depth[0], "a { is never closed", "write }") if depth else None


def _opened(text: str, at: int, cause: str, mend: str) -> Broken:
    line, column = text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at)
    return Broken(cause, f"{mend} where it ends.", line, column)


def _blank(found: re.Match[str]) -> str:
    return re.sub(r"[^\n]", " ", found[0])


def plainly(address: str) -> str:
    """Return an address as a browser takes it: without the spaces and breaks that it skips."""
    return _IGNORED.sub("", address.strip("".join(map(chr, range(33))))).replace("\\", "/")


def is_within(address: str) -> bool:
    """Return whether an address holds its own content, or points into the page itself."""
    return bool(_HELD.match(plainly(address))) or plainly(address).startswith("#")


def reaches_out(address: str) -> bool:
    """Return whether a browser would leave the book's folder to follow an address."""
    plain = plainly(address)
    return not is_within(plain) and bool(_SCHEME.match(plain) or plain.startswith("/"))


def file_of(address: str, beside: str) -> str | None:
    """Return the name that an address has in the theme, None where it leads out of it.

    `beside` is the name of the style in which it stands.
    """
    steps = beside.split("/")[:-1]
    for step in unquote(re.split("[?#]", plainly(address))[0]).split("/"):
        if step == "..":
            if not steps:
                return None
            steps.pop()
        elif step not in {"", "."}:
            steps.append(step)
    return "/".join(steps)
