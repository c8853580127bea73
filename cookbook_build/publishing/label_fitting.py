"""Label fitting: how large the type of a label may be for all its words to stand on it.

Nothing is cut. Widths are those of a wide typeface, so that a narrower one leaves room.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import fsum
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

POINT_MM: Final = 25.4 / 72
TYPES_PT: Final = (12.0, 11.0, 10.0, 9.0, 8.0, 7.5, 7.0, 6.5, 6.0, 5.5)
"""Sizes of type, the least with an x-height near 0.95 mm: Regulation (EU) No 1169/2011, article
13(3), asks 0.9 mm of small packs; that an x is half as high as its type is from memory."""
LEAST_WITH_EXTRAS_PT: Final = 6.5
TITLES_PT: Final = (18.0, 16.0, 14.0, 12.0, 11.0, 10.0, 9.0, 8.0, 7.0)
TITLE_OVER_TYPE: Final = (1.15, 1.6)
"""How much larger than the type a title is, at the least and at the most; our choice."""
MODULE_MM: Final = 0.35
"""The least side of a square's dot that a phone reads with ease; common practice, no source."""
QUIET_MODULES: Final = 8
"""White round a code, both sides together; ISO/IEC 18004 asks four modules on each."""
LARGEST_CODE_MM: Final = 34.0
LEAST_LINE_EM: Final = 1.2
"""However narrow its room, a line takes the widest letter; our choice."""
"""Larger than a square wants to be, unless its dots ask for it; our choice."""
REGULAR: Final = 0.9
"""Width of regular type to bold; measured on two typefaces."""

_WIDTHS_EM: Final = {
    0.35: "'",
    0.4: " ,-./:;IJijl|\N{NO-BREAK SPACE}·\N{NON-BREAKING HYPHEN}",
    0.5: '!"()*[]_`frt°',
    0.6: "?cszç",
    0.8: "ABCGKPRUVXZ",
    0.9: "#&+<=>DHNOQw~×",
    1.0: "%@M",
    1.1: "Wm¼½¾⅓⅔⅛⅜⅝⅞",
}
"""Bold advances of one widespread wide typeface, in classes rounded up; the rest takes 0.72 em,
and what is not of Europe a whole one."""
_WIDTH_OF: Final = {sign: width for width, signs in _WIDTHS_EM.items() for sign in signs}
_LAST_OF_EUROPE: Final = 0x0250


@dataclass(frozen=True, slots=True)
class Block:
    """Some words of a label: how large beside its type, how spaced, how far from its edges."""

    words: str
    size: float = 1.0
    bold: bool = False
    leading: float = 1.2
    below_em: float = 0.0
    inset_em: float = 0.0  # of a frame, on each side


@dataclass(frozen=True, slots=True)
class Room:
    """A label's inside, and the square at its upper right, in millimetres."""

    width: float
    height: float
    code: float
    gap: float

    @property
    def beside(self) -> float:
        """The width that the square leaves."""
        return self.width - self.code - self.gap


@dataclass(frozen=True, slots=True)
class Fit:
    """The sizes of type that a label takes, and how many of its extra lines find room."""

    type_pt: float
    title_pt: float
    extras: int


def room(width: float, height: float, code: float) -> Room:
    """Return the inside of a label of some width and height [mm]."""
    above, beside = margins(width, height)
    return Room(width - 2 * beside, height - 2 * above, code, 0.6 * beside)


def margins(width: float, height: float) -> tuple[float, float]:
    """Return the white above and beside a label's words [mm]."""
    return max(0.045 * height, 1.2), max(0.03 * width, 1.5)


def code_side(width: float, height: float, modules: int) -> float:
    """Return the side of the square on a label [mm]: large enough to be read, no larger than apt.

    It may come out larger than the label has room for: then the label is too small.
    """
    apt = min(0.46 * height, 0.34 * width, LARGEST_CODE_MM)
    return max(apt, MODULE_MM * (modules + QUIET_MODULES))


def fitted(
    title: str, part: str, blocks: Sequence[Block], extras: Sequence[Block], within: Room
) -> Fit | None:
    """Return the largest type at which a label holds all its words, or None where it can't."""
    if not has_room(title, part, blocks, within):
        return None
    for kept in range(len(extras), -1, -1):
        least = LEAST_WITH_EXTRAS_PT if kept else TYPES_PT[-1]
        for type_pt in (size for size in TYPES_PT if size >= least):
            title_pt = _title_pt(title, part, type_pt, within)
            listed = [_heading(title, part, title_pt / type_pt), *blocks, *extras[:kept]]
            if _height(listed, type_pt * POINT_MM, within) <= within.height:
                return Fit(type_pt, title_pt, kept)
    return None  # pragma: no cover - it has room at the least size


def has_room(title: str, part: str, blocks: Sequence[Block], within: Room) -> bool:
    """Return whether a label holds all that must stand on it, at the least size of type."""
    if within.code > within.height or within.beside <= 0:
        return False
    type_pt = TYPES_PT[-1]
    heading = _heading(title, part, _title_pt(title, part, type_pt, within) / type_pt)
    return _height([heading, *blocks], type_pt * POINT_MM, within) <= within.height


def _heading(title: str, part: str, size: float) -> Block:
    return Block(f"{title} {part}".strip(), size, bold=True, leading=1.15, below_em=0.3)


def _title_pt(title: str, part: str, type_pt: float, within: Room) -> float:
    """Return the largest size at which a title stands on one line, else the least."""
    least, most = (over * type_pt for over in TITLE_OVER_TYPE)
    apt = [size for size in TITLES_PT if least <= size <= most] or [TITLES_PT[-1]]
    for size in apt:
        if width_em(f"{title} {part}".strip(), bold=True) * size * POINT_MM <= within.beside:
            return size
    return apt[-1]


@lru_cache(maxsize=8192)
def width_em(words: str, *, bold: bool) -> float:
    """Return how wide words run, in parts of their type's size."""
    return fsum(map(_sign_em, words)) * (1.0 if bold else REGULAR)


def _sign_em(sign: str) -> float:
    return _WIDTH_OF.get(sign, 0.72 if ord(sign) < _LAST_OF_EUROPE else 1.0)


def reach(blocks: Sequence[Block], type_mm: float, width: float) -> float:
    """Return how far down some blocks reach where no square stands beside them [mm]."""
    down = 0.0
    for block in blocks:
        size = block.size * type_mm
        inset = block.inset_em * size
        most = max((width - 2 * inset) / size, LEAST_LINE_EM)
        lines = _line_count(block.words, most, bold=block.bold)
        down += lines * block.leading * size + inset + block.below_em * size
    return down


@lru_cache(maxsize=65536)
def _line_count(words: str, most_em: float, *, bold: bool) -> int:
    """Return the lines that some words take, none of them wider than a measure [em]."""
    if width_em(words, bold=bold) * (1 + 1e-9) <= most_em:  # most stand on one
        return 1
    left, lines = words.split(" "), 0
    while left:
        left = _after_line(left, most_em, bold=bold)
        lines += 1
    return lines


def _height(blocks: Sequence[Block], type_mm: float, within: Room) -> float:
    """Return how far down some blocks reach that flow round the square [mm]."""
    down = 0.0
    for block in blocks:
        size = block.size * type_mm
        inset = block.inset_em * size
        down += inset / 2
        for _ in _lines(block, size, down, within):
            down += block.leading * size
        down += inset / 2 + block.below_em * size
    return down


def _lines(block: Block, size: float, down: float, within: Room) -> Iterator[None]:
    """Give each line of a block that begins some way down."""
    words = block.words.split(" ")
    framed = block.inset_em > 0 and down < within.code  # a frame keeps its width to its end
    while words:
        yield None
        beside = framed or down < within.code + size / 2
        wide = within.beside if beside else within.width
        most = max((wide - 2 * block.inset_em * size) / size, LEAST_LINE_EM)
        words = _after_line(words, most, bold=block.bold)
        down += block.leading * size


def _after_line(words: list[str], most_em: float, *, bold: bool) -> list[str]:
    """Return what is left of some words after one line; a word longer than it is broken."""
    space = width_em(" ", bold=bold)
    run = width_em(words[0], bold=bold)
    if run > most_em:
        return _after_break(words, most_em, bold=bold)
    at = 1
    while at < len(words) and run + space + width_em(words[at], bold=bold) <= most_em:
        run += space + width_em(words[at], bold=bold)
        at += 1
    return words[at:]


def _after_break(words: list[str], most_em: float, *, bold: bool) -> list[str]:
    run, kept = 0.0, 0
    for sign in words[0]:
        run += width_em(sign, bold=bold)
        if run > most_em:
            break
        kept += 1
    kept = max(kept, 1)
    return [words[0][kept:], *words[1:]] if words[0][kept:] else words[1:]
