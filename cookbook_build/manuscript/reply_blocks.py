"""Blocks: the forms that readers filled in, found in whatever a letter is wrapped in.

A reply comes as mail does: with headers above, quoted with `>`, signed below, several pasted into
one file. A block begins at a line `Recipe: …` and holds `key: value` lines; it ends at the next
block, at the headers of the next letter, at a signature, or at its own last key.
"""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import nearest
from cookbook_build.manuscript.nodes import Keys, Scalar
from cookbook_build.manuscript.reply_languages import either, meanings, pattern, unaccented
from cookbook_build.manuscript.reply_words import PLUS
from cookbook_build.words import N_, everywhere

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from cookbook_build.findings import Findings, Place
    from cookbook_build.manuscript.source import Source

MAIN_PART: Final = N_("Main bowl")
"""What a page calls the component that has no name of its own, where there are several."""

HINTS: Final[Mapping[str, str]] = MappingProxyType(
    {
        N_("Recipe"): "",
        N_("Date"): N_("(such as 2026-07-14)"),
        N_("Method"): N_("(kettle, microwave, stove, jar or cold)"),
        N_("Servings"): N_("(such as 2)"),
        N_("Part"): "",
        N_("Water poured"): N_("(in all, such as 1 cup + 2 tbsp)"),
        N_("Water added"): N_("(if too thick, such as 1 tbsp)"),
        N_("It was"): N_("(right, too thick or too thin)"),
        N_("Altitude"): N_("(such as 450 m or 1500 ft)"),
        N_("Note"): N_("(what else we should know)"),
        N_("Name"): N_("(to be printed with it)"),
    }
)
"""The keys of a block in their order, each with the hint that stands there until it is filled.

Pages show both in the language of the book; here they are named by their English.
"""

PREFILLED: Final = ("Recipe", "Method", "Servings", "Part")
OF_A_PART: Final = ("Water poured", "Water added", "It was")
_NEEDED: Final = ("Date", "Method", "Servings", "Water poured", "It was")

_BLANK: Final = " \t\v\f\N{NO-BREAK SPACE}\N{THIN SPACE}\N{ZERO WIDTH SPACE}\ufeff"
_LEAD: Final = re.compile(
    rf"[{_BLANK}]*(?:(?:[>|]|\w{{1,12}}>|[-*•][{_BLANK}]+(?=\w))[{_BLANK}]*)*"
)
_DEBRIS: Final = re.compile(
    r"&nbsp;|</?(?:p|div|span|br|b|strong|em|i|li|ul|ol|pre|font|table|tbody|tr|td)\b[^<>]*>"
    r"|(?:=20)?=?$",
    re.IGNORECASE,
)
"""What a letter's own marks leave behind when it is saved as text: blanks and line ends."""
_WORDS: Final = r"[^\W\d_]+(?:[ \u00a0]+[^\W\d_]+){0,2}"
_KEY: Final = re.compile(
    rf"(?:(?P<bold>\*{{1,2}})(?P<strong>{_WORDS})(?:\s*[:：]\s*(?P=bold)|(?P=bold)\s*[:：])"
    rf"|(?P<key>{_WORDS})\s*[:：])[{_BLANK}]*(?P<value>.*)"
)
_CLOSE: Final = re.compile(
    r"--|_{8,}|-{3,}\s*(?:original|forwarded|begin|end)\b.*|From \S+@\S+ .*"
    r"|(?:received|return-path|delivered-to|message-id|mime-version|content-[a-z-]+|in-reply-to"
    r"|references|user-agent|list-[a-z-]+|dkim-signature|x-[a-z-]+):.*",
    re.IGNORECASE,
)
_HEADERS: Final = N_("from|to|cc|sent|subject|reply-to|date")
_WATER: Final = re.compile(r"\W*(?:water|agua)\b\W*(?P<amount>[\d½⅓⅔¼¾⅛].*)", re.IGNORECASE)
"""A line such as `Water: 1 cup`, which names no key of the form and can mean one only."""
_A_NAME: Final = re.compile(r"[^\W\d_]+(?:[ '-][^\W\d_]+)?")
_CODED: Final = re.compile(r"[A-Za-z0-9+/]{60,}={0,2}")
_KEYS_THAT_NEED_A_COLON: Final = (*_NEEDED, "Water added")


@dataclass(frozen=True, slots=True)
class _Language:
    """How the lines of a letter are told apart, in the words of every language."""

    key_of: Mapping[str, str]
    seems: re.Pattern[str]  # a form that is not written as one
    goes_on: re.Pattern[str]
    header: re.Pattern[str]
    no_colon: re.Pattern[str]


@functools.cache
def _language() -> _Language:
    keys = either(*_KEYS_THAT_NEED_A_COLON)
    return _Language(
        meanings(HINTS),
        re.compile(
            rf"\b(?:{either('Water poured')})\b|^\W*(?:{either('Recipe')})\s*[-=–—]", re.IGNORECASE
        ),
        re.compile(rf"[{_BLANK}]*(?:[+&]|(?:{either(PLUS)})\b)", re.IGNORECASE),
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
        return _place(self.source, self.first)

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
    lines = [_line(source, at) for at in range(len(source.lines))]
    blocks: list[list[Line]] = []
    inside = lost = False
    _check_unread(source, lines, findings)
    for at, line in enumerate(lines):
        if _begins(lines, at):
            blocks.append([])
            inside, lost = True, False
        elif _closes(lines, at):
            inside = False
        if inside:
            blocks[-1].append(line)
        elif line.key == "Water poured" and _without_hint(line.key, line.value)[1] and not lost:
            lost = True
            findings.warning(
                _place(source, line),
                "this water belongs to no recipe",
                'write a line "Recipe: …" with the recipe\'s file name above it.',
            )
    return [_block(source, block, findings) for block in blocks]


def _check_unread(source: Source, lines: Sequence[Line], findings: Findings) -> None:
    """Report what seems to be a reply in a form that is not read, each kind once."""
    seen = _language().seems
    seems = [line for line in lines if seen.search(line.value if line.key else line.text)]
    if seems:
        findings.warning(
            _place(source, seems[0]),
            "a reply seems to stand here, in a form that is not read",
            'write each of its lines as the form does: "Recipe: …", "Water poured: …".',
        )
    coded = [line for line in lines if _CODED.fullmatch(line.text)]
    if len(coded) > 1:
        findings.warning(
            _place(source, coded[0]),
            "this part of the letter is in a mail's own coding (base64), and is not read",
            "open the letter, and save its text as it is shown.",
        )


def _line(source: Source, at: int) -> Line:
    bare = _DEBRIS.sub(lambda found: " " * len(found.group()), source.lines[at].rstrip(_BLANK))
    raw = bare.rstrip(_BLANK)
    soft = source.lines[at].endswith("=")
    lead = _LEAD.match(raw)
    start = lead.end() if lead else 0
    depth, text = raw.count(">", 0, start) + raw.count("|", 0, start), raw[start:]
    match = _KEY.fullmatch(text)
    if not match:
        return Line(at + 1, depth, start, text, soft=soft)
    word = unaccented(match["key"] or match["strong"])
    key = _language().key_of.get(word)
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
    key_of = _language().key_of
    near = nearest(word, HINTS, likeness=0.75) or nearest(word, key_of, likeness=0.75)
    return key_of[near.casefold()] if near else None


def _begins(lines: Sequence[Line], at: int) -> bool:
    """Whether a block begins here; a misspelt `Recipe` begins one where a key follows it."""
    line = lines[at]
    if _language().seems.search(line.value):  # a whole form on one line
        return False
    after = next((other for other in lines[at + 1 : at + 3] if other.text), None)
    return line.key == "Recipe" or (line.near == "Recipe" and after is not None and bool(after.key))


def _closes(lines: Sequence[Line], at: int) -> bool:
    """Whether a signature or the headers of another letter begin here."""
    text = lines[at].text
    if _CLOSE.fullmatch(text):
        return True
    is_header = _language().header.fullmatch
    if not is_header(text):
        return False
    after = lines[at + 1] if at + 1 < len(lines) else None
    known = lines[at].key is not None  # a date is a key of ours, unless other headers follow it
    headed = after is not None and bool(is_header(after.text)) and after.key != "Date"
    before = "" if known or not at else lines[at - 1].text
    return headed or (not known and ("@" in text or bool(is_header(before))))


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
    waits = line.key and (at < last or line.key in _NEEDED or _answers(line, rest))
    taken, value = 0, line.value
    while taken < min(until, gap):
        empty = waits and not _without_hint(line.key or "", value)[1]
        if not empty and not _goes_on(value, rest[taken].text):
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


def _goes_on(value: str, after: str) -> bool:
    """Whether a value was cut by a line's end: inside a bracket, or before or after a plus."""
    cut = value.count("(") > value.count(")") or value.rstrip(_BLANK).endswith("+")
    return cut or (bool(value) and bool(_language().goes_on.match(after)))


def _enter(block: Block, line: Line, lines: list[Line], findings: Findings) -> None:
    """Put a key and its value into the block."""
    source = block.source
    head = line.text[: line.value_start - line.start].rstrip(_BLANK + "*:：")
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
    skipped, text = _without_hint(line.key or "", line.value)
    more = [other for other in lines[1:] if other.text]
    if not more:
        column = line.value_start + skipped + 1
        return Scalar(source, line.number, column, max(len(text), 1), text)
    if line.key != "Note" and not line.value and len(more) == 1:
        return Scalar(source, more[0].number, more[0].start + 1, len(more[0].text), more[0].text)
    joined = line.value
    for above, other in zip([line, *more], more, strict=False):
        joined += other.text if above.soft else f" {other.text}"
    text = _without_hint(line.key or "", joined)[1]
    return Scalar(source, line.number, line.start + 1, len(line.text), text, plain=not text)


def _without_hint(key: str, text: str) -> tuple[int, str]:
    """Return a value without the hint that was left there, and how far in it begins."""
    hint = _hint(key)
    start, end = 0, len(text)
    if hint:
        if found := hint.match(text):
            start = found.end()
        elif found := next((m for m in hint.finditer(text) if m.end() == end), None):
            end = found.start()
    inner = text[start:end]
    bare = inner.strip(_BLANK)
    if bare.startswith("(") and bare.endswith(")") and not set("()") & set(bare[1:-1]):
        start, inner = start + inner.index("(") + 1, bare[1:-1]
    start += len(inner) - len(inner.lstrip(_BLANK))
    return start, inner.strip(_BLANK)


@functools.cache
def _hint(key: str) -> re.Pattern[str] | None:
    hint = HINTS.get(key)
    return re.compile("|".join(map(pattern, everywhere(hint))), re.IGNORECASE) if hint else None


def _stray(block: Block, line: Line, before: Line, findings: Findings) -> None:
    """Report a line between the keys of a block that is none of them.

    A number below a value may be the rest of it, and what is quoted less than the line above it
    is an answer to that; so the trial waits until it is mended.
    """
    place = _place(block.source, line)
    found = _language().no_colon.match(line.text)
    key = _language().key_of[unaccented(found.group())] if found else ""
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


def _place(source: Source, line: Line) -> Place:
    return source.place(line.number, line.start + 1, len(line.text))
