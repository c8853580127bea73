"""Slips of YAML's own grammar in plain words: where the slip is, what it is, how to mend it.

YAML reports where it got stuck, which is often the line below the slip; here the place is moved
back to the slip itself.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    import yaml

    from cookbook_build.findings import Place
    from cookbook_build.manuscript.source import Source

Slip = tuple["Place", str, str]

# what YAML calls what it was reading when it got stuck: the slip stands where that began
_BEGINS_THERE: Final = ("quoted scalar", "simple key", "alias", "anchor", "tag")
_BULLET: Final = re.compile(r"\s*- ")
_GLUED: Final = re.compile(r"\s*([-•*–—·])\s*(?=\S)")
_KEY: Final = re.compile(r"[^\s:#\-][^:]*:(\s|$)")
_SQUEEZED: Final = re.compile(r"([\w ]+):(?=\S)")


def syntax_slip(problem: yaml.MarkedYAMLError, source: Source, first_line: int) -> Slip:
    """Return the place, the cause and the mend of what YAML could not read.

    `first_line` is the line of the file on which the YAML begins.
    """
    words = f"{problem.context or ''} {problem.problem or ''}"
    stuck = _place(problem.problem_mark or problem.context_mark, source, first_line)
    began = _place(problem.context_mark, source, first_line) if problem.context_mark else stuck
    for line in (stuck.line, max(stuck.line - 1, first_line)):
        if odd := _odd_space(line, stuck, source):
            return odd
    if "mapping values are not allowed" in words:
        return _second_colon(stuck, source, first_line)
    if began.excerpt[began.column - 1 :].startswith("* "):
        return _no_dash(_text_of(began.line, source), "")
    if "could not find expected ':'" in words:
        return _missing_colon(began, source)
    if "flow " in words and began.line != stuck.line:
        stuck = began
    if any(what in words for what in _BEGINS_THERE):
        stuck = began
    for sign, cause, mend in _PLAIN_WORDS:
        if sign in words:
            return stuck, cause, mend
    return (
        stuck,
        f"this can't be read as YAML ({words.strip()})",
        'write "key: value" lines, lined up under each other with spaces.',
    )


def _place(mark: yaml.Mark | None, source: Source, first_line: int) -> Place:
    line, column = (mark.line + first_line, mark.column + 1) if mark else (first_line, 1)
    if line > len(source.lines):  # the text ended too soon: show where
        line = max(len(source.lines), 1)
        column = max(len(source.lines[line - 1]), 1)
    return source.place(line, column)


def _text_of(line: int, source: Source) -> Place:
    """Return the place of what is written on a line, without the spaces round it."""
    text = source.lines[line - 1]
    bare = text.strip()
    return source.place(line, len(text) - len(text.lstrip()) + 1, len(bare))


def _odd_space(line: int, stuck: Place, source: Source) -> Slip | None:
    """Return a tab or another odd space that indents a line, or stands where reading stopped."""
    text = source.lines[line - 1]
    reach = stuck.column if line == stuck.line else 0
    indent = len(text) - len(text.lstrip())
    for at, char in enumerate(text[: max(indent, reach)]):
        if char == "\t" and (at < indent or at == reach - 1):
            place = source.place(line, at + 1)
            return place, "a tab stands where YAML wants spaces", "put spaces in place of the tab."
        if char.isspace() and char != " " and at < indent:
            return (
                source.place(line, at + 1, indent - at),
                f"spaces of another kind (U+{ord(char):04X}) stand at the start of this line",
                "delete them, and type the spaces again.",
            )
    return None


def _second_colon(stuck: Place, source: Source, first_line: int) -> Slip:
    """Tell a second colon from a line that went wrong above it, by what stands before it."""
    before = stuck.excerpt[: stuck.column - 1]
    above = _text_of(stuck.line - 1, source) if stuck.line > first_line else None
    written = above.excerpt.strip() if above else ""
    if ": " in before or _BULLET.match(before) or above is None:
        return (
            stuck,
            "a second colon stands on this line",
            "put quotes round text that holds a colon and a space.",
        )
    if not _KEY.match(written) and not _BULLET.match(above.excerpt):
        return _missing_colon(above, source)
    return (
        _text_of(stuck.line, source),
        "this line is indented more than the line above it",
        "line keys up under each other.",
    )


def _no_dash(place: Place, where: str) -> Slip:
    bare = _GLUED.sub("", place.excerpt.strip())
    return (
        place,
        f"this line does not fit into the list{where}",
        f'begin it with a dash and a space: "- {bare}".',
    )


def _missing_colon(began: Place, source: Source) -> Slip:
    place = _text_of(began.line, source)
    written = place.excerpt.strip()
    above = source.lines[place.line - 2] if place.line > 1 else ""
    if _BULLET.match(above):
        return _no_dash(place, " above it")
    squeezed = _SQUEEZED.match(written)
    key, _, value = written.partition(" ")
    line = f"{squeezed[1]}: {written[squeezed.end() :]}" if squeezed else f"{key}: {value}".strip()
    return (
        place,
        f"a colon {'and a space are' if squeezed else 'is'} missing after a key",
        f'write "{line}", with a space after the colon.',
    )


_QUOTE: Final = "put quotes round the text."
_PLAIN_WORDS: Final = (
    ("nested too deep", "this is nested too deep", "write it flatter."),
    (
        "quoted scalar",
        "a quotation mark is opened here and never closed",
        "close it, or delete it.",
    ),
    (
        "flow mapping",
        "a brace { is opened and not closed, or a comma is missing",
        "close it with } and put a comma between the entries.",
    ),
    (
        "flow sequence",
        "a bracket [ is opened and not closed, or a comma is missing",
        "close it with ] and put a comma between the entries.",
    ),
    (
        "flow node",
        "a value is missing here, or a bracket [ or a brace { is not closed",
        "write a value between the commas, and close what is open with ] or }.",
    ),
    (
        "block sequence",
        "this line does not fit into the list above it",
        'begin it with "- ", indented like the entries above.',
    ),
    (
        "block mapping",
        "this line does not line up with the lines above it",
        "indent it by as many spaces as the lines it belongs with, and close any quotes above.",
    ),
    ("cannot start any token", "this sign can't begin a value", _QUOTE),
    ("alias", 'text that begins with "*" is a repeat in YAML, which is not read here', _QUOTE),
    ("anchor", 'text that begins with "&" is a repeat in YAML, which is not read here', _QUOTE),
    ("tag", 'text that begins with "!" is a tag in YAML, which is not read here', _QUOTE),
)
