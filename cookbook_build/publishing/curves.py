"""A jar's day as a drawing: where each line and word stands in a field of 360 by 210."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.cautions import HOT_LINE_C
from cookbook_build.publishing.wording import degrees, hot_words, until
from cookbook_build.words import _

if TYPE_CHECKING:
    from cookbook_build.planning.camp import JarDay

LEFT, RIGHT, TOP, BOTTOM = 40.0, 346.0, 10.0, 184.0
WARMEST_C, COOLEST_C = 100.0, 20.0
TICKS_C: Final = (20, 40, 60, 80, 100)
HOURS: Final = (0, 2, 4, 6, 8, 10, 12)


@dataclass(frozen=True, slots=True)
class Tick:
    """A mark on an axis and its word."""

    at: str
    word: str


@dataclass(frozen=True, slots=True)
class HourRow:
    """The temperatures at one hour, for those who read rather than look."""

    hour: int
    preheated: str
    cold: str


@dataclass(frozen=True, slots=True)
class CurveView:
    """What the drawing holds, in the units of its field."""

    preheated: str
    cold: str
    hot_y: str
    temps: tuple[Tick, ...]
    hours: tuple[Tick, ...]
    crossing: Tick | None  # where the preheated jar falls below the hot line
    crossing_leans: str  # which end of the word stands at the crossing
    eat_by: Tick | None
    lunch: Tick | None
    table: tuple[HourRow, ...]
    says: str


def jar_curve(day: JarDay) -> CurveView:
    """Return the drawing of a jar's day."""
    card, last_h = day.card, day.card.hours[-1]
    hot_h, by_h, lunch_h = (
        seconds / 3600
        for seconds in (card.preheated.hot_until_s, card.preheated.eat_by_s, day.lunch_s)
    )
    first, last = card.preheated_c[0], card.preheated_c[-1]
    return CurveView(
        _line(card.hours, card.preheated_c),
        _line(card.hours, card.cold_c),
        _y(HOT_LINE_C),
        tuple(Tick(_y(temp), f"{temp}") for temp in TICKS_C),
        tuple(Tick(_x(hour), f"{hour}") for hour in HOURS),
        Tick(_x(hot_h), hot_words(card.preheated.hot_until_s)) if 0 < hot_h < last_h else None,
        "end" if hot_h > last_h / 2 else "start",
        Tick(_x(by_h), until(card.preheated.eat_by_s)) if by_h <= last_h else None,
        Tick(_x(lunch_h), _("lunch")) if lunch_h <= last_h else None,
        tuple(
            HourRow(hour, degrees(warm), degrees(cold))
            for hour, warm, cold in zip(card.hours, card.preheated_c, card.cold_c, strict=True)
        ),
        _(
            "A preheated jar goes from {first} to {last} °C in {hours} hours; the table below has "
            "every hour."
        ).format(first=f"{first:.0f}", last=f"{last:.0f}", hours=last_h),
    )


def _x(hour: float) -> str:
    return f"{LEFT + (RIGHT - LEFT) * hour / HOURS[-1]:.1f}"


def _y(temp_c: float) -> str:
    inside = min(max(temp_c, COOLEST_C), WARMEST_C)
    return f"{BOTTOM - (BOTTOM - TOP) * (inside - COOLEST_C) / (WARMEST_C - COOLEST_C):.1f}"


def _line(hours: tuple[int, ...], temps_c: tuple[float, ...]) -> str:
    return " ".join(f"{_x(hour)},{_y(temp)}" for hour, temp in zip(hours, temps_c, strict=True))
