"""Slips of YAML's own grammar in plain words: where the slip is, what it is, how to mend it.

YAML reports where it got stuck, which is often the line below the slip; here the place is moved
back to the slip itself.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.slips_in_braces import colon_in_braces

if TYPE_CHECKING:
    from collections.abc import Sequence

    import yaml

    from cookbook_build.findings import Place
    from cookbook_build.manuscript.source import Source

Slip = tuple["Place", str, str]

# what YAML calls what it was reading when it got stuck: the slip stands where that began
_BEGINS_THERE: Final = ("quoted scalar", "simple key", "alias", "anchor", "tag")
_BULLET: Final = re.compile(r"\s*- ")
_GLUED: Final = re.compile(r"^\s*([-•*–—·])\s*(?=\S)")
_KEY: Final = re.compile(r"[^\s:#\-][^:]*:(\s|$)")
_SQUEEZED: Final = re.compile(r"([\w ]+):(?=[^\s/])")
_NO_COLON: Final = re.compile(r"\s*([\w][\w ]*?)\s*(?:=\s*)?\{")  # leeks {food: …}
_GROUP: Final = re.compile(  # leeks: food: leeks raw, dried: freeze
    r"(\s*(?:- )?[\w][\w ]*):\s+([a-z][a-z ]*:\s[^,{}:]+(?:,\s*[a-z][a-z ]*:\s[^,{}:]+)+)"
)
_ROUND: Final = re.compile(r"(\s*[\w][\w ]*):\s+(\()([a-z][a-z ]*:\s[^()]*)\)")  # leeks: (food: …)
_EQUALS: Final = re.compile(r"([\w ]+?)\s*(?:=|->|-|–)\s+(?=\S)")
_VALUE: Final = re.compile(r"(\s*(?:- )?(?:[^\s:#{\[\-\"'][^:#]*:\s)?)\s*(\S.*)")
_COMMENTED: Final = re.compile(r"#\s*([^\W\d_][\w ]*):\s*")  # a key that waits for later
_OUTER: Final = re.compile(r"""(["'“”„‘’«])(.*)(["'“”‘’»])""")


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
    if told := _under_comment(stuck, source):
        return told
    if "mapping values are not allowed" in words:
        return _second_colon(stuck, source, first_line)
    return _odd_text(words, stuck) or _shape_slip(words, stuck, began, source)


def _under_comment(stuck: Place, source: Source) -> Slip | None:
    """Return the slip of an indented key that was taken into use without the key it belongs to."""
    indent = len(stuck.excerpt) - len(stuck.excerpt.lstrip())
    above = key_in_comment(source.lines, stuck.line)
    if not indent or above is None or not _KEY.match(stuck.excerpt.strip()):
        return None
    return still_a_comment(stuck.excerpt.split(":")[0].strip(), *above, source)


def key_in_comment(lines: Sequence[str], line: int) -> tuple[int, str] | None:
    """Return the line and the name of a key that is a comment, with only comments below it."""
    while line > 1 and (not (text := lines[line - 2].strip()) or text.startswith("#")):
        line -= 1
        if found := _COMMENTED.fullmatch(text):
            return line, found[1]
    return None


def still_a_comment(below: str, line: int, name: str, source: Source) -> Slip:
    """Return the slip of a key that is a comment, while one that belongs to it is none."""
    return (
        _text_of(line, source),
        f'"{below}" belongs below "{name}", and this line is still a comment',
        f'write "{name}:", without the "# ".',
    )


def _shape_slip(words: str, stuck: Place, began: Place, source: Source) -> Slip:
    """Return the slip of a line that is not what a list or a group of keys is made of."""
    if began.excerpt[began.column - 1 :].startswith("* "):
        return _no_dash(_text_of(began.line, source), "")
    if "could not find expected ':'" in words:
        return _missing_colon(began, source)
    if "block mapping" in words and stuck.column == 1 and stuck.excerpt.startswith("- "):
        bare = stuck.excerpt[2:].strip()
        return (
            _text_of(stuck.line, source),
            "a dash begins an entry of a list, and above it stand keys",
            f'write "{bare}", without the dash.',
        )
    if "flow mapping" in words and (colon := colon_in_braces(stuck)):
        return colon
    if "flow " in words and began.line != stuck.line:
        stuck = began
    if any(what in words for what in _BEGINS_THERE):
        stuck = began
    for sign, cause, mend in _PLAIN_WORDS:
        if sign in words:
            return stuck, cause, in_quotes(stuck, "the text") if mend is _QUOTE else mend
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
    if opened := _NO_COLON.match(stuck.excerpt):
        place = stuck.within(opened.start(1) + 1 - stuck.column, len(opened[1]))
        line = f"{opened[1]}: {stuck.excerpt[opened.end() - 1 :].strip()}"
        return place, f'a colon is missing after "{opened[1]}"', f'write "{line}".'
    if group := _GROUP.fullmatch(stuck.excerpt.rstrip()):
        return (
            stuck,
            "several keys stand behind one name, without braces",
            f'write "{group[1].strip()}: {{{group[2].strip()}}}".',
        )
    if group := _ROUND.fullmatch(stuck.excerpt.rstrip()):
        return (
            stuck.within(group.start(2) + 1 - stuck.column, 1),
            "round brackets hold no keys",
            f'write "{group[1].strip()}: {{{group[3].strip()}}}", with braces.',
        )
    above = _text_of(stuck.line - 1, source) if stuck.line > first_line else None
    written = above.excerpt.strip() if above else ""
    if ": " in before or _BULLET.match(before) or above is None:
        return (
            stuck,
            "a second colon stands on this line",
            in_quotes(stuck, "text that holds a colon and a space"),
        )
    if not _KEY.match(written) and not _BULLET.match(above.excerpt):
        return _missing_colon(above, source)
    return (
        _text_of(stuck.line, source),
        "this line is indented more than the line above it",
        "line keys up under each other.",
    )


def _odd_text(words: str, stuck: Place) -> Slip | None:
    """Return text that goes on after a quote or a bracket was closed, or begins with a sign."""
    value = _VALUE.match(stuck.excerpt)
    if value is None or not value[1].strip():
        return None
    sign, begins = value[2][0], value.start(2) + 1
    if sign in "\"'[{" and begins < stuck.column and "block " in words:
        whole = sign in "\"'" or not re.search(r",|:\s", value[2])
        return (
            stuck,
            f"text goes on after what begins with {sign} was closed",
            _with_quotes(value, "the whole text") if whole else "delete what stands after it.",
        )
    if value[2][:2].rstrip() in {"-", "?", ">", "|"} and value[1].strip() != "-":
        place = stuck.within(begins - stuck.column, 1)
        return place, f"{sign} can't begin a text", _with_quotes(value, "the text")
    return None


def in_quotes(place: Place, what: str) -> str:
    """Return a mend that spells out the line with its whole value in quotes, where that is plain.

    Within braces or brackets nobody knows where the text was to end.
    """
    value = _VALUE.match(place.excerpt)
    if value is None or any(sign in place.excerpt[: place.column - 1] for sign in "{["):
        return f"put quotes round {what}."
    return _with_quotes(value, what)


def _with_quotes(value: re.Match[str], what: str) -> str:
    line = f"{value[1].strip()} {quoted(value[2])}".strip()
    return f"write {line}, with quotes round {what}."


def quoted(text: str) -> str:
    """Return a text in quotes, as YAML reads it; quotes that stand round it already are ours."""
    bare = text.strip()
    outer = _OUTER.fullmatch(bare)
    bare = outer[2] if outer else bare
    return (
        f'"{bare}"' if '"' not in bare and "\\" not in bare else "'" + bare.replace("'", "''") + "'"
    )


def _no_dash(place: Place, where: str) -> Slip:
    bare = _GLUED.sub("", place.excerpt.strip(), count=1)
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
    return (place, *missing_colon(written))


def looks_like_key(written: str) -> bool:
    """Whether a line is most likely a key whose colon has no space, or is another sign."""
    return bool(_SQUEEZED.match(written) or _EQUALS.match(written))


def missing_colon(written: str) -> tuple[str, str]:
    """Return the cause and the mend of a line whose key has no colon, or no space after it."""
    squeezed = _SQUEEZED.match(written)
    key, _, value = written.partition(" ")
    if equals := _EQUALS.match(written):
        key, value = equals[1], written[equals.end() :]
    line = f"{squeezed[1]}: {written[squeezed.end() :]}" if squeezed else f"{key}: {value}".strip()
    return (
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
        "block collection",
        "this line does not fit into the list above it",
        'begin it with "- ", indented like the entries above, or line it up with their key.',
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
