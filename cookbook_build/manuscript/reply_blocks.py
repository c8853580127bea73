"""Blocks: the forms that readers filled in, found in whatever a letter is wrapped in.

A reply comes as mail does: with headers above, quoted with `>`, signed below, several pasted into
one file. A block begins at a line `Recipe: …` and holds `key: value` lines; it ends at the next
block, at the headers of the next letter, at a signature, or at its own last key.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.nodes import Keys, Scalar
from cookbook_build.manuscript.reply_form import BLANK, NEEDED, OF_A_PART, PREFILLED, without_hint
from cookbook_build.manuscript.reply_languages import unaccented
from cookbook_build.manuscript.reply_lines import Line, begins, closes, goes_on, language, read_line

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from cookbook_build.findings import Findings, Place
    from cookbook_build.manuscript.source import Source

_WATER: Final = re.compile(r"\W*(?:water|agua)\b\W*(?P<amount>[\d½⅓⅔¼¾⅛].*)", re.IGNORECASE)
"""A line such as `Water: 1 cup`, which names no key of the form and can mean one only."""
_A_NAME: Final = re.compile(r"[^\W\d_]+(?:[ '-][^\W\d_]+)?")
_CODED: Final = re.compile(r"[A-Za-z0-9+/]{60,}={0,2}")
Entries = dict[str, tuple[Scalar, Scalar]]


@dataclass(slots=True)
class Pour:
    """What a block says of one component: which one, and its water."""

    part: tuple[Scalar, Scalar] | None = None
    entries: Entries = field(default_factory=dict)


@dataclass(slots=True)
class Block:
    """One form: what it says of the whole meal, and of each component."""

    source: Source
    first: Line
    recipe: Scalar
    entries: Entries = field(default_factory=dict)
    pours: list[Pour] = field(default_factory=lambda: [Pour()])
    stray: list[Place] = field(default_factory=list)

    @property
    def place(self) -> Place:
        """Where the block begins."""
        return self.first.place(self.source)

    @property
    def is_blank(self) -> bool:
        """Whether nothing was filled in but what stood there already."""
        entries = [*self.entries.items(), *(e for p in self.pours for e in p.entries.items())]
        return not self.stray and all(
            key in PREFILLED or (value.is_empty and not value.refused)
            for key, (_, value) in entries
        )

    def above(self, line: Line) -> Scalar | None:
        """Return the value of the key on a line, if it has one."""
        held = self.pours[-1].entries if line.key in OF_A_PART else self.entries
        return held[line.key][1] if line.key in held else None


def read_blocks(source: Source, findings: Findings) -> list[Block]:
    """Return the blocks of a letter; water that belongs to no block is a finding."""
    lines = [read_line(source, at) for at in range(len(source.lines))]
    blocks: list[list[Line]] = []
    inside = lost = False
    _check_unread(source, lines, findings)
    for at, line in enumerate(lines):
        if begins(lines, at):
            blocks.append([])
            inside, lost = True, False
        elif closes(lines, at):
            inside = False
        if inside:
            blocks[-1].append(line)
        elif line.key == "Water poured" and without_hint(line.key, line.value)[1] and not lost:
            lost = True
            findings.warning(
                line.place(source),
                "this water belongs to no recipe",
                'write a line "Recipe: …" with the recipe\'s file name above it.',
            )
    return [_block(source, block, findings) for block in blocks]


def _check_unread(source: Source, lines: Sequence[Line], findings: Findings) -> None:
    """Report what seems to be a reply in a form that is not read, each kind once."""
    seen = language().seems
    seems = [line for line in lines if seen.search(line.value if line.key else line.text)]
    if seems:
        findings.warning(
            seems[0].place(source),
            "a reply seems to stand here, in a form that is not read",
            'write each of its lines as the form does: "Recipe: …", "Water poured: …".',
        )
    coded = [line for line in lines if _CODED.fullmatch(line.text)]
    if len(coded) > 1:
        findings.warning(
            coded[0].place(source),
            "this part of the letter is in a mail's own coding (base64), and is not read",
            "open the letter, and save its text as it is shown.",
        )


def _block(source: Source, lines: list[Line], findings: Findings) -> Block:
    last = max(at for at, line in enumerate(lines) if line.key or line.near)
    block = Block(source, lines[0], Scalar(source, lines[0].number, 1, 1, ""))
    at, before = 0, lines[0]
    while at < len(lines):
        line = lines[at]
        after = at + 1
        if line.key or line.near:
            after = at + _reach(lines, at, last)
            _enter(block, line, lines[at:after], findings)
        elif line.text and at < last:
            _stray(block, line, before, findings)
        at, before = after, line
    return block


def _reach(lines: list[Line], at: int, last: int) -> int:
    """Return how many lines the value of a key takes.

    A note runs to the next key, blank lines and all; the last key's to a blank line. Any other
    value stands on its own line, or on the next when nothing stands on its own; where a letter
    was wrapped inside a sum or a bracket, it goes on.
    """
    line = lines[at]
    rest = lines[at + 1 :]
    until = next((n for n, other in enumerate(rest) if other.key or other.near), len(rest))
    gap = next((n for n, other in enumerate(rest) if not other.text), len(rest))
    if line.key == "Note":
        return 1 + (until if at < last else min(until, gap))
    waits = line.key and (at < last or line.key in NEEDED or _answers(line, rest))
    taken, value = 0, line.value
    while taken < min(until, gap):
        empty = waits and not without_hint(line.key or "", value)[1]
        if not empty and not goes_on(value, rest[taken].text):
            break
        value = f"{value} {rest[taken].text}".strip()
        taken += 1
    return 1 + taken


def _answers(line: Line, rest: Sequence[Line]) -> bool:
    """Whether the last key of a block is answered below it: an amount, or a name of its own."""
    after = rest[0].text if rest else ""
    if line.key == "Name":
        return bool(_A_NAME.fullmatch(after))
    return line.key in {"Water added", "Altitude"} and after[:1].isnumeric()


def _enter(block: Block, line: Line, lines: list[Line], findings: Findings) -> None:
    """Put a key and its value into the block."""
    source = block.source
    head = line.text[: line.value_start - line.start].rstrip(BLANK + "*:：")
    word, width = line.key or head.strip("* "), len(head)
    key = Scalar(source, line.number, line.start + 1, width, word)
    value = _value(source, line, lines)
    name = line.key or line.near
    if name in {"Recipe", "Part"} and line.near:
        findings.warning(key.place, f'"{word}" is not a line of a reply', f'write "{name}".')
    if line is block.first:
        block.recipe = value
    elif name == "Part":
        if block.pours[-1].part:
            block.pours.append(Pour())
        block.pours[-1].part = (key, value)
    elif name != "Recipe":
        held = block.pours[-1].entries if name in OF_A_PART else block.entries
        _hold(held, key, value, findings)


def _hold(held: Entries, key: Scalar, value: Scalar, findings: Findings) -> None:
    """Keep a key's value; written twice, the one that was filled in counts."""
    if key.text not in held or held[key.text][1].is_empty:
        held[key.text] = (key, value)
        return
    first = held[key.text]
    if value.is_empty or value.text == first[1].text:
        return
    first[1].refused = True
    findings.warning(
        key.place,
        f'"{key.text}" is written twice here; the first stands on line {first[0].line}',
        "keep one of the two and delete the other.",
    )


def _value(source: Source, line: Line, lines: list[Line]) -> Scalar:
    """Return the value of a key without its hint: on the key's line, the next, or over many."""
    skipped, text = without_hint(line.key or "", line.value)
    more = [other for other in lines[1:] if other.text]
    if not more:
        column = line.value_start + skipped + 1
        return Scalar(source, line.number, column, max(len(text), 1), text)
    if line.key != "Note" and not line.value and len(more) == 1:
        return Scalar(source, more[0].number, more[0].start + 1, len(more[0].text), more[0].text)
    joined = line.value
    for above, other in zip([line, *more], more, strict=False):
        joined += other.text if above.soft else f" {other.text}"
    text = without_hint(line.key or "", joined)[1]
    return Scalar(source, line.number, line.start + 1, len(line.text), text, plain=not text)


def _stray(block: Block, line: Line, before: Line, findings: Findings) -> None:
    """Report a line between the keys of a block that is none of them.

    A number below a value may be the rest of it, and what is quoted less than the line above it
    is an answer to that; so the trial waits until it is mended.
    """
    place = line.place(block.source)
    found = language().no_colon.match(line.text)
    key = language().key_of[unaccented(found.group())] if found else ""
    held = block.pours[-1].entries if key in OF_A_PART else block.entries
    block.stray.append(place)
    if found and key not in held:
        name = Scalar(block.source, line.number, line.start + 1, found.end(), key)
        held[key] = (name, Scalar(block.source, *_stretch(place), line.text, refused=True))
        findings.warning(
            place,
            f'a colon is missing after "{found.group()}"',
            f'write "{key}:{line.text[found.end() :]}".',
        )
        return
    above = block.above(before)
    if above and (line.text[0].isnumeric() or line.depth < before.depth):
        above.refused = True
        findings.warning(
            place,
            f'this line follows "{before.key}" and is not read, so that the trial waits',
            f'write the whole answer after "{before.key}:", and remarks after "Note:".',
        )
        return
    findings.warning(
        place,
        "this line of a reply is not read",
        f'write "Water poured: {said["amount"].strip()}".'
        if (said := _WATER.fullmatch(line.text)) and before.key != "Water poured"
        else 'move it into the note, after "Note:", or delete it.',
    )


def group(source: Source, place: Place, entries: Entries) -> Keys:
    """Return entries as a group of keys that stands at a place."""
    return Keys(source, *_stretch(place), pairs=list(entries.values()))


def filled(entries: Entries) -> Iterator[str]:
    """Give the keys that have a value."""
    yield from (key for key, (_, value) in entries.items() if value.refused or not value.is_empty)


def _stretch(place: Place) -> tuple[int, int, int]:
    return place.line, place.column, place.width
