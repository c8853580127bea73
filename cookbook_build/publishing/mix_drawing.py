"""A dry mix as the strata of a river bank: each part a layer, as thick as its share of the mass.

The layers' edges are one curve, moved up or down, so a layer is everywhere as thick as at its
edge, and its area goes with its mass. Layers are told apart by line and tone, without colour and
without anything that needs a name in the page, so that a drawing can stand anywhere.
"""

from __future__ import annotations

import textwrap
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING, Final

from cookbook_build.planning.shares import mix_shares
from cookbook_build.publishing.wording import grams, part_title, percent
from cookbook_build.words import _, listed, ngettext

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from cookbook_build.planning.dishes import Dish, Part
    from cookbook_build.planning.shares import MixShare

DEPTH: Final = 128.0
"""How deep the bank of the heaviest component is, in units of its drawing."""
SWELL: Final = 5
"""How far the curve's handles stand from its chord."""
TOP: Final = 6.0
MOST_LINES: Final = 2
LEADING: Final = 15.0
GATHERED_TONE: Final = 0.6
SHOWN_AS_NONE: Final = 0.005


@dataclass(frozen=True, slots=True)
class Field:
    """The room of one drawing: its width, the bank's, and the letters of a name in a line."""

    width: int
    across: int
    letters: int

    @property
    def curve(self) -> str:
        """An edge from left to right."""
        return f"q{self.across / 4:g} {-SWELL} {self.across / 2:g} 0t{self.across / 2:g} 0"

    @property
    def back(self) -> str:
        """The same edge from right to left."""
        return f"q{-self.across / 4:g} {SWELL} {-self.across / 2:g} 0t{-self.across / 2:g} 0"

    def swell(self, x: float) -> float:
        """Return how far the edge stands below its chord: a quadratic Bézier, then its mirror."""
        half = self.across / 2
        along = (x % half) / half
        return 2 * along * (1 - along) * SWELL * (-1 if x < half else 1)


ALONE: Final = Field(340, 96, 25)
BESIDE_OTHERS: Final = Field(240, 64, 15)


@dataclass(frozen=True, slots=True)
class Grain:
    """How a layer is lined: from line to line along the curve, or rods across it."""

    tone: float
    apart: float = 0.0  # 0: no lines
    dash: str = ""
    width: float = 1.0
    lean: float | None = None  # of rods, in units to the right from top to bottom


GRAINS: Final = (
    Grain(0.05, 7, "0.1 6", 2.2),
    Grain(0.22),
    Grain(0.0, 5),
    Grain(0.12, 8, lean=0),
    Grain(0.0, 7, "8 5"),
    Grain(0.3, 4, width=0.8),
    Grain(0.04, 9, lean=9),
    Grain(0.14, 6, "9 4 0.1 4", 1.6),
)
"""From the heaviest down; a ninth part begins again."""


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer: its outline, tone and lines, and where its name stands."""

    outline: str
    tone: float
    lines: str
    dash: str
    width: float
    leader: str  # the hairline to its name
    name_y: str
    name: tuple[str, ...]  # line by line
    share: str


@dataclass(frozen=True, slots=True)
class MixDrawing:
    """The drawing of one component, in a field of its own width and height."""

    name: str
    mass: str
    width: int
    height: str
    share_x: int
    name_x: int
    layers: tuple[Layer, ...]
    says: str


def mix_drawings(dish: Dish) -> tuple[MixDrawing, ...]:
    """Return the drawing of each component of a meal at its own size, all to one scale."""
    size = dish.default_servings
    masses = [dish.part_dry(part, size)[0] for part in dish.parts]
    return tuple(
        _drawing(dish, part, mass, DEPTH * mass / max(masses), size)
        for part, mass in zip(dish.parts, masses, strict=True)
    )


def _drawing(dish: Dish, part: Part, mass_g: float, depth: float, size: int) -> MixDrawing:
    several = len(dish.parts) > 1
    field = BESIDE_OTHERS if several else ALONE
    shares = tuple(reversed(mix_shares(dish, part, size)))  # the heaviest lies at the bottom
    edges = [TOP, *(TOP + depth * below for below in accumulate(one.share for one in shares))]
    names = [_name(one, field) for one in shares]
    centres = [(upper + lower) / 2 for upper, lower in pairwise(edges)]
    places = _spread(centres, [LEADING * len(name) for name in names])
    grains = [_grain(one, at) for at, one in enumerate(reversed(shares))][::-1]
    layers = tuple(
        _layer(field, one, *between, grain, name, place)
        for one, between, grain, name, place in zip(
            shares, pairwise(edges), grains, names, places, strict=True
        )
    )
    lowest = max(edges[-1], places[-1] + LEADING * (len(names[-1]) - 1))
    name = part_title(part.name) if several else ""
    return MixDrawing(
        name,
        grams(mass_g),
        field.width,
        f"{lowest + TOP:.0f}",
        field.across + 54,
        field.across + 62,
        layers,
        _says(name, mass_g, shares, size),
    )


def _says(name: str, mass_g: float, shares: Sequence[MixShare], size: int) -> str:
    """Return what the drawing shows, in words: each part with its share."""
    sizes = ngettext("{n} serving", "{n} servings", size).format(n=size)
    under = _("under {share}")
    parts = [f"{listed(one.names)} {_share_words(one, under)}" for one in reversed(shares)]
    said = _("The dry mix by weight, {grams} for {servings}: {parts}.").format(
        grams=grams(mass_g), servings=sizes, parts="; ".join(parts)
    )
    return f"{name}: {said}" if name else said


def _name(share: MixShare, field: Field) -> tuple[str, ...]:
    """Return what stands beside a layer, line by line."""
    words = share.names[0] if len(share.names) == 1 else listed(share.names)
    lines = textwrap.wrap(words, field.letters)
    if len(share.names) > 1 and len(lines) > 1:
        return (_("{n} small parts").format(n=len(share.names)),)
    if len(lines) > MOST_LINES:
        lines = textwrap.wrap(words, field.letters, max_lines=MOST_LINES, placeholder="…")
    return tuple(lines)


def _grain(share: MixShare, at: int) -> Grain:
    return Grain(GATHERED_TONE) if len(share.names) > 1 else GRAINS[at % len(GRAINS)]


def _layer(
    field: Field,
    share: MixShare,
    upper: float,
    lower: float,
    grain: Grain,
    name: tuple[str, ...],
    name_y: float,
) -> Layer:
    side, word_y = field.across, name_y - 4
    return Layer(
        f"M0 {upper:.2f}{field.curve}V{lower:.2f}{field.back}Z",
        grain.tone,
        "".join(_lines(field, upper, lower, grain)),
        grain.dash,
        grain.width,
        f"{side} {(upper + lower) / 2:.1f} {side + 12} {word_y:.1f} {side + 18} {word_y:.1f}",
        f"{name_y:.1f}",
        name,
        _share_words(share, "< {share}"),
    )


def _lines(field: Field, upper: float, lower: float, grain: Grain) -> Iterator[str]:
    """Give a layer's lines: none where there is no room for one between its edges."""
    thickness = lower - upper
    if not grain.apart or thickness < 3 * grain.width:
        return
    if grain.lean is None:
        count = max(1, round(thickness / grain.apart))
        for number in range(count):
            yield f"M0 {upper + thickness * (number + 0.5) / count:.2f}{field.curve}"
        return
    lean = min(grain.lean, thickness)
    x = grain.apart / 2
    while x + lean < field.across:
        begins, ends = upper + field.swell(x), lower + field.swell(x + lean)
        yield f"M{x:.2f} {begins:.2f}L{x + lean:.2f} {ends:.2f}"
        x += grain.apart


def _share_words(share: MixShare, under: str) -> str:
    """Return a share in whole percents; what would be none is less than one."""
    if share.share < SHOWN_AS_NONE:
        return under.format(share=percent(0.01))
    return percent(share.share)


def _spread(centres: Sequence[float], heights: Sequence[float]) -> list[float]:
    """Return the base lines of names beside their layers, in order and none over another."""
    places: list[float] = []
    free = 0.0
    for centre, height in zip(centres, heights, strict=True):
        top = max(free, centre - height / 2)
        places.append(top)
        free = top + height
    floor = max(free, TOP + DEPTH + LEADING / 2)
    for at in reversed(range(len(places))):
        places[at] = min(places[at], floor - heights[at])
        floor = places[at]
    shift = max(0.0, -min(places, default=0.0))
    return [place + shift + LEADING - 3.5 for place in places]
