"""YAML read as text with its place kept.

YAML's own typing turns `12:30` into 750 and `no` into False, and lets a second key win in
silence. So scalars stay the text that was written; what they mean is decided by the schema.
Repeats (`&`, `*`) and tags (`!`) are findings: a cook's file needs none, and they can explode.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final, cast

import yaml

from cookbook_build.manuscript.slips import syntax_slip

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
    refused: bool = field(default=False, kw_only=True)  # it has a finding, and holds no value

    @property
    def place(self) -> Place:
        """Where the value stands."""
        return self.source.place(self.line, self.column, self.width)


@dataclass(slots=True)
class Scalar(Node):
    """A single value, as the text that was written."""

    text: str
    plain: bool = True  # each character stands where it was written, so places within are known
    quoted: bool = False

    @property
    def is_empty(self) -> bool:
        """Whether nothing was written (`key:`)."""
        return self.plain and self.text in ({""} if self.quoted else {"", "~", "null"})

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
    before = len(findings.gathered)
    try:
        return reader.tree(text)
    except yaml.MarkedYAMLError as problem:
        slip = syntax_slip(problem, source, first_line)
        if slip[0].line not in {found.place.line for found in findings.gathered[before:]}:
            findings.error(*slip)
    except yaml.reader.ReaderError as problem:  # pragma: no cover - `source` lets none through
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
                    self._end(event)
                case yaml.AliasEvent():
                    repeat = Scalar(self.source, *self._stretch(event), text="*", plain=False)
                    self._refuse(repeat, "*", "a repeat")
                    self._add(repeat)
                case yaml.DocumentStartEvent() if self.root is not None:
                    self.findings.error(
                        self.source.place(*self._stretch(event)[:2], 3),
                        'a second "---" begins another document here',
                        'delete the line "---".',
                    )
                    return self.root
                case _:
                    pass
        return self.root

    def _stretch(self, event: yaml.Event) -> tuple[int, int, int]:
        start, end = _marks(event)
        width = end.column - start.column if end.line == start.line else 1
        return start.line + self.first_line, start.column + 1, max(width, 1)

    def _scalar(self, event: yaml.ScalarEvent) -> Scalar:
        line, column, width = self._stretch(event)
        start, end = _marks(event)
        one_line = end.line == start.line
        if event.style in {"'", '"'} and one_line and len(event.value) == width - 2:
            found = Scalar(self.source, line, column + 1, width - 2, event.value, quoted=True)
        else:
            plain = not event.style and one_line
            found = Scalar(self.source, line, column, width, event.value, plain)
        self._check_signs(found, event)
        if not event.style and not one_line:
            self._check_dashes(found, end.line + self.first_line)
        return found

    def _check_signs(self, node: Node, event: yaml.ScalarEvent | yaml.CollectionStartEvent) -> None:
        if event.anchor:
            self._refuse(node, "&", "a repeat")
        elif event.tag is not None:
            self._refuse(node, "!", "a tag")

    def _check_dashes(self, node: Scalar, last_line: int) -> None:
        """Report entries of a list that YAML takes for more of the entry above them."""
        for line in range(node.line + 1, last_line + 1):
            text = self.source.lines[line - 1]
            indent = len(text) - len(text.lstrip())
            if text[indent:].startswith("- "):
                self.findings.error(
                    self.source.place(line, indent + 1, len(text) - indent),
                    "this entry is indented more than the one above it, and is read as part of it",
                    'begin it right below the "- " of the entry above.',
                )
                node.refused = True
                return

    def _begin(self, node: Items | Keys, event: yaml.CollectionStartEvent) -> None:
        self._check_signs(node, event)
        self._add(node)
        self.open.append((node, {}))
        self.key.append(None)
        if len(self.open) > DEEPEST:
            raise yaml.MarkedYAMLError(problem="nested too deep", problem_mark=_marks(event)[0])

    def _end(self, event: yaml.CollectionEndEvent) -> None:
        """Close a list or a group, and let its place reach to its end on its first line."""
        (node, _), _ = self.open.pop(), self.key.pop()
        if not node.refused:
            end = _marks(event)[1]
            one_line = end.line + self.first_line == node.line
            last = end.column if one_line else len(self.source.lines[node.line - 1].rstrip())
            node.width = max(last - node.column + 1, 1)

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

    def _refuse(self, node: Node, sign: str, what: str) -> None:
        node.refused = True
        self.findings.error(
            node.place,
            f'text that begins with "{sign}" is {what} in YAML, which is not read here',
            f'put quotes round it if you mean the sign "{sign}" itself.',
        )


def _marks(event: yaml.Event) -> tuple[yaml.Mark, yaml.Mark]:
    return cast("tuple[yaml.Mark, yaml.Mark]", (event.start_mark, event.end_mark))


def _events(text: str) -> Iterator[yaml.Event]:
    return iter(yaml.parse(text, Loader=_Loader))
