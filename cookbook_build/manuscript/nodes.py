"""YAML read as text with its place kept.

YAML's own typing turns `12:30` into 750 and `no` into False, and lets a second key win in
silence. So scalars stay the text that was written; what they mean is decided by the schema.
Repeats (`&`, `*`) and tags (`!`) are findings: a cook's file needs none, and they can explode.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final, cast

import yaml

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.findings import Findings, Place
    from cookbook_build.manuscript.source import Source

DEEPEST: Final = 12
_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(slots=True)
class Node:
    """A value of the author's text: a scalar, a list or a group of keys, with its place."""

    source: Source = field(repr=False)
    line: int
    column: int
    width: int

    @property
    def place(self) -> Place:
        """Where the value stands."""
        return self.source.place(self.line, self.column, self.width)


@dataclass(slots=True)
class Scalar(Node):
    """A single value, as the text that was written."""

    text: str
    plain: bool = True  # each character stands where it was written, so places within are known

    @property
    def is_empty(self) -> bool:
        """Whether nothing was written (`key:`)."""
        return self.plain and self.text in {"", "~", "null"}

    def within(self, start: int, width: int) -> Place:
        """Return the place of a stretch of the text."""
        inside = self.plain and start <= self.width
        return self.place.within(start, width) if inside else self.place


@dataclass(slots=True)
class Items(Node):
    """A list."""

    items: list[Node] = field(default_factory=list)


@dataclass(slots=True)
class Keys(Node):
    """A group of keys, in the order written."""

    pairs: list[tuple[Scalar, Node]] = field(default_factory=list)


def read_nodes(source: Source, findings: Findings, text: str, first_line: int = 1) -> Node | None:
    """Return the tree of a YAML text that begins at `first_line` of a file.

    None comes back when the text is empty or can't be read; the latter leaves a finding.
    """
    reader = _Reader(source, findings, first_line)
    try:
        return reader.tree(text)
    except yaml.MarkedYAMLError as problem:
        reader.syntax(problem)
    except yaml.reader.ReaderError as problem:
        line = first_line + text.count("\n", 0, int(problem.position))
        findings.error(
            source.place(line),
            "this line holds a character that YAML does not allow",
            "delete it, or type the line again.",
        )
    return None


class _Reader:
    """Turns a stream of YAML events into a tree of nodes, without recursion."""

    def __init__(self, source: Source, findings: Findings, first_line: int) -> None:
        self.source, self.findings, self.first_line = source, findings, first_line
        self.open: list[tuple[Items | Keys, dict[str, Scalar]]] = []
        self.key: list[Scalar | None] = []
        self.root: Node | None = None

    def tree(self, text: str) -> Node | None:
        for event in _events(text):
            match event:
                case yaml.ScalarEvent():
                    self._add(self._scalar(event))
                case yaml.SequenceStartEvent():
                    self._begin(Items(self.source, *self._stretch(event)), event)
                case yaml.MappingStartEvent():
                    self._begin(Keys(self.source, *self._stretch(event)), event)
                case yaml.SequenceEndEvent() | yaml.MappingEndEvent():
                    self.open.pop()
                    self.key.pop()
                case yaml.AliasEvent():
                    self._refuse(event, "*", "a repeat")
                    self._add(Scalar(self.source, *self._stretch(event), text="*", plain=False))
                case yaml.DocumentStartEvent() if self.root is not None:
                    self.findings.error(
                        self.source.place(*self._stretch(event)[:2]),
                        'a second "---" begins another document here',
                        'delete the line "---".',
                    )
                    return self.root
                case _:
                    pass
        return self.root

    def syntax(self, problem: yaml.MarkedYAMLError) -> None:
        mark = problem.problem_mark or problem.context_mark
        line, column = (mark.line, mark.column) if mark else (0, 0)
        place = self.source.place(line + self.first_line, column + 1)
        before = place.excerpt[: place.column]
        indent = place.excerpt[: len(place.excerpt) - len(place.excerpt.lstrip())]
        if "\t" in indent or before.endswith("\t"):
            tab = place.excerpt.index("\t") + 1
            self.findings.error(
                self.source.place(place.line, tab),
                "a tab stands where YAML wants spaces",
                "put spaces in place of the tab.",
            )
            return
        context_mark = problem.context_mark
        if problem.context and "quoted scalar" in problem.context and context_mark:
            place = self.source.place(context_mark.line + self.first_line, context_mark.column + 1)
        cause, mend = _plain_words(f"{problem.context or ''} {problem.problem or ''}")
        self.findings.error(place, cause, mend)

    def _stretch(self, event: yaml.Event) -> tuple[int, int, int]:
        start, end = _marks(event)
        width = end.column - start.column if end.line == start.line else 1
        return start.line + self.first_line, start.column + 1, max(width, 1)

    def _scalar(self, event: yaml.ScalarEvent) -> Scalar:
        line, column, width = self._stretch(event)
        if event.anchor:
            self._refuse(event, "&", "a repeat")
        if event.tag is not None:
            self._refuse(event, "!", "a tag")
        start, end = _marks(event)
        one_line = end.line == start.line
        if event.style in {"'", '"'} and one_line and len(event.value) == width - 2:
            return Scalar(self.source, line, column + 1, width - 2, event.value)
        plain = not event.style and one_line
        return Scalar(self.source, line, column, width, event.value, plain)

    def _begin(self, node: Items | Keys, event: yaml.CollectionStartEvent) -> None:
        if event.anchor:
            self._refuse(event, "&", "a repeat")
        if event.tag is not None:
            self._refuse(event, "!", "a tag")
        self._add(node)
        self.open.append((node, {}))
        self.key.append(None)
        if len(self.open) > DEEPEST:
            raise yaml.MarkedYAMLError(problem="nested too deep", problem_mark=_marks(event)[0])

    def _add(self, node: Node) -> None:
        if not self.open:
            self.root = node
            return
        holder, seen = self.open[-1]
        if isinstance(holder, Items):
            holder.items.append(node)
        elif (key := self.key[-1]) is None:
            self.key[-1] = self._as_key(node)
        else:
            self.key[-1] = None
            self._pair(holder, seen, key, node)

    def _as_key(self, node: Node) -> Scalar:
        if isinstance(node, Scalar):
            return node
        self.findings.error(
            node.place,
            "a name before a colon is missing here",
            'write "name: value"; put quotes round text that begins with { or [.',
        )
        return Scalar(self.source, node.line, node.column, node.width, "")

    def _pair(self, holder: Keys, seen: dict[str, Scalar], key: Scalar, node: Node) -> None:
        if key.text in seen:
            self.findings.error(
                key.place,
                f'"{key.text}" is written twice here; the first stands on line '
                f"{seen[key.text].line}",
                "keep one of the two and delete the other.",
            )
            return
        seen[key.text] = key
        if key.text:
            holder.pairs.append((key, node))

    def _refuse(self, event: yaml.Event, sign: str, what: str) -> None:
        line, column, width = self._stretch(event)
        self.findings.error(
            self.source.place(line, column, width),
            f'text that begins with "{sign}" is {what} in YAML, which is not read here',
            f'put quotes round it if you mean the sign "{sign}" itself.',
        )


def _marks(event: yaml.Event) -> tuple[yaml.Mark, yaml.Mark]:
    return cast("tuple[yaml.Mark, yaml.Mark]", (event.start_mark, event.end_mark))


def _events(text: str) -> Iterator[yaml.Event]:
    return iter(yaml.parse(text, Loader=_Loader))


_QUOTE: Final = "put quotes round the text."
_PLAIN_WORDS: Final = (
    (
        "mapping values are not allowed",
        "a second colon stands on this line, or it is indented more than the line above",
        "put quotes round text that holds a colon and a space; line keys up under each other.",
    ),
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
        "block sequence",
        "this line does not fit into the list above it",
        'begin it with "- ", indented like the entries above.',
    ),
    (
        "could not find expected ':'",
        "a colon is missing after a key",
        'write "key: value", with a space after the colon.',
    ),
    (
        "block mapping",
        "this line does not line up with the keys above it",
        "indent it with the same number of spaces as the keys above, and close any open quotes.",
    ),
    ("cannot start any token", "this sign can't begin a value", _QUOTE),
    ("alias", 'text that begins with "*" is a repeat in YAML, which is not read here', _QUOTE),
    ("anchor", 'text that begins with "&" is a repeat in YAML, which is not read here', _QUOTE),
    ("tag", 'text that begins with "!" is a tag in YAML, which is not read here', _QUOTE),
)


def _plain_words(problem: str) -> tuple[str, str]:
    for sign, cause, mend in _PLAIN_WORDS:
        if sign in problem:
            return cause, mend
    return (
        f"this can't be read as YAML ({problem.strip()})",
        'write "key: value" lines, lined up under each other with spaces.',
    )
