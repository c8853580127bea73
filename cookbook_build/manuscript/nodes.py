"""YAML read as text with its place kept.

YAML's own typing turns `12:30` into 750 and `no` into False, and lets a second key win in
silence. So scalars stay the text that was written; what they mean is decided by the schema.
Repeats (`&`, `*`) and tags (`!`) are findings: a cook's file needs none, and they can explode.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TYPE_CHECKING, Final, cast

import yaml

from cookbook_build.manuscript.naming import LONGEST_NAME
from cookbook_build.manuscript.slips import in_quotes, syntax_slip
from cookbook_build.manuscript.source import NO_WIDTH

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from cookbook_build.findings import Findings, Place
    from cookbook_build.manuscript.source import Source

DEEPEST: Final = 12
NOTHING: Final = frozenset({"", "~", "null", "Null", "NULL"})
"""What stands for no value, as YAML 1.2.2 has it in its core schema (10.3.2)."""
_COMMENT: Final = re.compile(r"\s+(#[^\s#!].*)")  # a comment of one's own has a space after it
_UNSEEN: Final = re.compile(f"[{NO_WIDTH}]")
_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(slots=True)
class Node:
    """A value of the author's text: a scalar, a list or a group of keys, with its place."""

    source: Source = field(repr=False)
    line: int
    column: int
    width: int
    refused: bool = field(default=False, kw_only=True)  # it has a finding, and holds no value
    unread: bool = field(default=False, kw_only=True)  # nobody knows what stands there

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
        words = {""} if self.quoted else NOTHING
        return self.plain and not self.refused and self.text in words

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
    bare: list[Scalar] = field(default_factory=list)  # in braces, without a colon: cut-off text
    in_braces: bool = False


def read_nodes(source: Source, findings: Findings, text: str, first_line: int = 1) -> Node | None:
    """Return the tree of a YAML text that begins at `first_line` of a file.

    Where a line can't be read, it leaves a finding, and what stands round it is read all the
    same. None comes back when the text is empty, or nothing of it can be read.
    """
    before = len(findings.gathered)
    try:
        return _Reader(source, findings, first_line).tree(text)
    except yaml.MarkedYAMLError as problem:
        slip = syntax_slip(problem, source, first_line)
        if slip[0].line not in {found.place.line for found in findings.gathered[before:]}:
            findings.error(*slip)
        findings.cut_short = True
        return _Rest(source, findings, slip[0].line).tree(text.split("\n"), first_line)
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
                    group = Keys(
                        self.source, *self._stretch(event), in_braces=bool(event.flow_style)
                    )
                    self._begin(group, event)
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
        self._check_unseen(found)
        if not event.style and one_line and event.value:
            self._check_comment(found, end)
        if not event.style and not one_line:
            self._check_dashes(found, end.line + self.first_line)
        return found

    def _check_signs(self, node: Node, event: yaml.ScalarEvent | yaml.CollectionStartEvent) -> None:
        if event.anchor:
            self._refuse(node, "&", "a repeat")
        elif event.tag is not None:
            self._refuse(node, "!", "a tag")

    def _check_unseen(self, node: Scalar) -> None:
        """Report a sign of no width, which makes two names of what looks like one."""
        unseen = _UNSEEN.search(node.text)
        if unseen:
            self.findings.error(
                node.within(unseen.start(), 1),
                f"a character that can't be seen stands here (U+{ord(unseen[0]):04X})",
                "delete it, or type the text again.",
            )
            node.refused = True

    def _check_comment(self, node: Scalar, end: yaml.Mark) -> None:
        """Warn of text that is cut off by a sign that begins a comment."""
        line = end.line + self.first_line
        cut = _COMMENT.match(self.source.lines[line - 1], end.column)
        if cut:
            self.findings.warning(
                self.source.place(line, cut.start(1) + 1, len(cut[1].rstrip())),
                f'"{cut[1].strip()}" is a comment, and nothing of it is read',
                in_quotes(
                    node.place, 'the text, if it belongs there; else put a space after the "#"'
                ),
            )

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
        if holder.in_braces and isinstance(node, Scalar) and self._is_bare(key, node):
            holder.bare.append(key)
            if key.text in seen:
                return
        if key.text in seen:
            self.findings.error(
                key.place,
                f'"{key.text}" is written twice here; the first stands on line '
                f"{seen[key.text].line}",
                "keep one of the two and delete the other.",
            )
            return
        if len(key.text) > LONGEST_NAME:
            self.findings.error(
                key.place,
                f"a name of {len(key.text):,} letters stands before this colon, and "
                f"{LONGEST_NAME} is the most that fits",
                "write it shorter, or put quotes round text that holds a colon and a space.",
            )
            return
        seen[key.text] = key
        if isinstance(node, Scalar) and node.is_empty:
            self._check_hidden(key, node)
        if key.text:
            holder.pairs.append((key, node))

    def _is_bare(self, key: Scalar, node: Scalar) -> bool:
        """Whether no colon stands after a key, as in `{note: windy, lid off}`."""
        if not key.text or node.text or node.line != key.line or not node.plain:
            return False
        between = self.source.lines[key.line - 1][key.column + key.width - 1 : node.column - 1]
        return ":" not in between

    def _check_hidden(self, key: Scalar, node: Scalar) -> None:
        """Report a key whose value begins with the sign of a comment: `picture text: #1`."""
        cut = _COMMENT.match(self.source.lines[key.line - 1], key.column + key.width)
        if cut and "{" not in self.source.lines[key.line - 1][: key.column]:
            node.refused = True
            self.findings.error(
                key.place,
                f'"{key.text}" has no value, for what begins with "#" is a comment',
                in_quotes(key.place, 'text that begins with "#"'),
            )

    def _refuse(self, node: Node, sign: str, what: str) -> None:
        node.refused = True
        self.findings.error(
            node.place,
            f'text that begins with "{sign}" is {what} in YAML, which is not read here',
            in_quotes(node.place, f'the text, if you mean the sign "{sign}" itself'),
        )


class _Rest:
    """Reads what stands round a line that can't be read: each key and entry by itself.

    What can't be read is refused, so that nobody asks for it again. Only what begins on a line
    of its own is parted; a slip within braces refuses all that they hold.
    """

    def __init__(self, source: Source, findings: Findings, slip_line: int) -> None:
        self.source, self.findings, self.told = source, findings, {slip_line}

    def tree(self, lines: Sequence[str], first_line: int) -> Keys | None:
        """Return the keys that can be read; None where none can."""
        found = self._parted(lines, first_line, DEEPEST)
        if not isinstance(found, Keys) or all(node.refused for _, node in found.pairs):
            return None
        return found

    def _parted(self, lines: Sequence[str], first_line: int, levels: int) -> Node | None:
        """Return the keys or the entries of some lines that stand at one indent."""
        written = [line for line in lines if line.strip() and not line.lstrip().startswith("#")]
        if not written:
            return None
        indent = len(written[0]) - len(written[0].lstrip())
        begins = [at for at, line in enumerate(lines) if _begins(line, indent)]
        if not begins or not levels:
            return None
        spans = list(pairwise([*begins, len(lines)]))
        is_list = lines[begins[0]].lstrip().startswith("- ")
        group = Items if is_list else Keys
        found = group(self.source, first_line + begins[0], indent + 1, 1)
        seen: set[str] = set()
        for start, end in spans:
            self._take(found, seen, lines[start:end], (first_line + start, indent), levels - 1)
        return found

    def _take(
        self,
        into: Items | Keys,
        seen: set[str],
        lines: Sequence[str],
        at: tuple[int, int],
        levels: int,
    ) -> None:
        """Read one key or entry by itself, or what stands below it, or refuse it.

        It begins `at` a line and an indent; keys that were `seen` before it are passed over.
        """
        line, indent = at
        read = None if self._is_told(line, len(lines)) else self._alone(lines, line)
        if isinstance(into, Items):
            if isinstance(read, Items):
                into.items += read.items
            else:
                into.items.append(
                    Scalar(self.source, line, indent + 1, 1, "", refused=True, unread=True)
                )
            return
        if isinstance(read, Keys):
            into.pairs += [pair for pair in read.pairs if pair[0].text not in seen]
            seen.update(key.text for key, _ in read.pairs)
            return
        name = _name(lines[0])
        key = Scalar(self.source, line, indent + 1, max(len(name), 1), name)
        opens = lines[0].rstrip().endswith(":")
        below = self._parted(lines[1:], line + 1, levels) if opens else None
        refused = Scalar(self.source, line, indent + 1, 1, "", refused=True, unread=True)
        if name not in seen:
            into.pairs.append((key, below or refused))
            seen.add(name)

    def _is_told(self, line: int, height: int) -> bool:
        return bool(self.told & set(range(line, line + height)))

    def _alone(self, lines: Sequence[str], line: int) -> Node | None:
        """Return the tree of some lines; a slip of their own leaves a finding."""
        text = "\n".join(lines) + "\n"
        try:
            return _Reader(self.source, self.findings, line).tree(text)
        except yaml.MarkedYAMLError as problem:
            slip = syntax_slip(problem, self.source, line)
            self.findings.error(*slip)
            self.told.add(slip[0].line)
        return None


def _begins(line: str, indent: int) -> bool:
    """Whether a key or an entry begins on a line, at an indent or left of it."""
    bare = line.lstrip(" ")
    starts = bool(bare) and not bare[0].isspace() and bare[0] not in "#}]"
    return starts and len(line) - len(bare) <= indent


def _name(line: str) -> str:
    """Return what is most likely the key of a line that can't be read."""
    return re.split(r"[:{=]", line.strip().lstrip("- "), maxsplit=1)[0].strip().strip("\"'")


def _marks(event: yaml.Event) -> tuple[yaml.Mark, yaml.Mark]:
    return cast("tuple[yaml.Mark, yaml.Mark]", (event.start_mark, event.end_mark))


def _events(text: str) -> Iterator[yaml.Event]:
    return iter(yaml.parse(text, Loader=_Loader))
