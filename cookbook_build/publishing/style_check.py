"""What a style sheet names and where it breaks off, read by the CSS Syntax Module, Level 3."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final
from urllib.parse import unquote

import tinycss2
from tinycss2.color4 import parse_color

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

_FETCHING: Final = frozenset({"url", "src", "image", "image-set", "-webkit-image-set"})
_OF_RULES: Final = frozenset({"media", "supports", "layer", "container"})
_NO_COLOURS: Final = frozenset({
    "inherit", "initial", "unset", "revert", "revert-layer", "auto", "canvas", "canvastext",
    "linktext", "visitedtext", "activetext", "buttonface", "buttontext", "buttonborder", "field",
    "fieldtext", "highlight", "highlighttext", "selecteditem", "selecteditemtext", "mark",
    "marktext", "graytext", "accentcolor", "accentcolortext",
})  # fmt: skip
"""Words of any property, and the system's colours (CSS Color Module, Level 4, 9)."""
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


def rule_faults(text: str) -> Iterator[Broken]:
    """Give the lines of a style sheet that a browser would skip: no declaration, or no colour."""
    rules = tinycss2.parse_stylesheet(text, skip_comments=True, skip_whitespace=True)
    yield from _of_rules(rules, text.split("\n"))


def _of_rules(rules: Iterable[Any], lines: Sequence[str]) -> Iterator[Broken]:
    for rule in rules:
        if rule.type not in {"qualified-rule", "at-rule"} or rule.content is None:
            continue
        if rule.type == "at-rule" and rule.lower_at_keyword in _OF_RULES:
            yield from _of_rules(tinycss2.parse_rule_list(rule.content), lines)
            continue
        for held in tinycss2.parse_blocks_contents(rule.content):
            if held.type == "declaration":
                yield from _colour_fault(held)
            elif held.type == "error":
                line = lines[held.source_line - 1]  # the parser knows where it gave up
                yield Broken(
                    "a line stands here that a browser skips: it is no name, colon and value",
                    'write it like "font-style: italic;".',
                    held.source_line,
                    len(line) - len(line.lstrip()) + 1,
                    len(line.strip()),
                )


def _colour_fault(declaration: Any) -> Iterator[Broken]:  # noqa: ANN401 - tinycss2 has no types
    """Give a word that stands where a colour is wanted and is none."""
    tokens = [one for one in declaration.value if one.type not in {"whitespace", "comment"}]
    wanted = re.fullmatch(r"(?:.*-)?color|--(?:day|dark)-.*", declaration.lower_name)
    if not wanted or len(tokens) != 1 or tokens[0].type not in {"ident", "hash"}:
        return
    token = tokens[0]
    if parse_color(token) is not None or token.serialize().casefold() in _NO_COLOURS:
        return
    yield Broken(
        f'"{token.serialize()}" is no colour',
        "write a colour such as #1f4e79 or darkgreen.",
        token.source_line,
        token.source_column,
        len(token.serialize()),
    )


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
