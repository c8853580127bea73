"""A component's trials as a small drawing: each trial, what was learned, and its band."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.planning.lessons import part_name, tally
from cookbook_build.publishing.wording import (
    give_or_take,
    method_within,
    millilitres,
    part_title,
    tally_words,
)
from cookbook_build.words import N_, _

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cookbook_build.planning.dishes import Dish, Part
    from cookbook_build.planning.lessons import Lessons, Record

LEFT, RIGHT, TOP, BOTTOM = 58.0, 346.0, 12.0, 128.0
VERDICTS: Final = {
    "right": N_("right"),
    "thick": N_("too thick"),
    "thin": N_("too thin"),
    "test": N_("the test"),
}
TRIAL: Final = N_("{day}, {method}: {verdict}; {water} a serving would have been right")
TRIAL_LEFT_OUT: Final = N_(
    "{day}, {method}: {verdict}; {water} a serving would have been right, left out"
)
LEARNED: Final = (N_("learned, {water}"), N_("{trials}; learned {water} a serving, {band}."))
EXPECTED: Final = (N_("expected, {water}"), N_("{trials}; expected {water} a serving, {band}."))
"""What the line of a drawing is, below it and in words for those who don't see it."""

MONTHS: Final = (
    N_("Jan"), N_("Feb"), N_("Mar"), N_("Apr"), N_("May"), N_("Jun"),
    N_("Jul"), N_("Aug"), N_("Sep"), N_("Oct"), N_("Nov"), N_("Dec"),
)  # fmt: skip
MOST_WORDS: Final = 8
MOST_MONTHS: Final = 5
MOST_MARKS: Final = 24
"""Trials whose days, or months of several years, still fit under the drawing, and trials that can
be told apart in it."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One trial: where it stands, how long its whisker is, and its shape."""

    x: str
    y: str
    low: str
    high: str
    shape: str  # right, thick, thin or test
    left_out: bool
    word: str
    says: str


@dataclass(frozen=True, slots=True)
class TrialPlot:
    """The drawing, in a field of 360 by 160."""

    name: str
    marks: tuple[Mark, ...]
    mean_y: str
    band_top: str
    band_height: str
    mean: str
    band: str
    earlier: int  # trials before those that are drawn
    ticks: tuple[tuple[str, str], ...]
    says: str


def trial_plot(dish: Dish, part: Part, lessons: Lessons) -> TrialPlot | None:
    """Return the drawing of a component's trials, None where it has none."""
    name = part_name(dish, part)
    records = lessons.all_of(name)
    if not any(record.keys for record in records):
        return None
    drawn = records[-MOST_MARKS:]
    serves = dish.recipe.keys.serves
    at = dish.parts.index(part)
    water = dish.waters(serves, dish.default_method)[at]
    mean_ml, sd_ml = (water.total_ml - water.loss_ml) / serves, water.sd_ml / serves
    scale = _Scale(drawn, mean_ml, sd_ml)
    words = _words(drawn)
    marks = tuple(
        _mark(record, (number + 0.5) / len(drawn), words[number], scale)
        for number, record in enumerate(drawn)
    )
    several = len(dish.parts) > 1
    counted = tally(records)
    mean, says = LEARNED if counted.trials + counted.tests else EXPECTED
    said = _(says).format(
        trials=tally_words(counted.trials, counted.tests, counted.left_out),
        water=millilitres(mean_ml),
        band=give_or_take(sd_ml),
    )
    return TrialPlot(
        part_title(part.name) if several else "",
        marks,
        scale.y(mean_ml),
        scale.y(mean_ml + sd_ml),
        f"{scale.height(2 * sd_ml):.1f}",
        _(mean).format(water=millilitres(mean_ml)),
        give_or_take(sd_ml),
        len(records) - len(drawn),
        tuple((scale.y(tick), millilitres(tick)) for tick in scale.ticks()),
        _("{part}: {words}").format(part=part_title(part.name), words=said) if several else said,
    )


class _Scale:
    """From millilitres a serving to where that stands; what was left out stands at the edge."""

    def __init__(self, records: Sequence[Record], mean_ml: float, sd_ml: float) -> None:
        ends = [mean_ml - 2 * sd_ml, mean_ml + 2 * sd_ml]
        for record in records:
            if record.left_out:
                continue
            ends.append(record.per_serving_ml - record.per_serving_sd_ml)
            ends.append(record.per_serving_ml + record.per_serving_sd_ml)
        self.low = min(ends)
        self.high = max(*ends, self.low + STEPS_ML[0])

    def y(self, ml: float) -> str:
        within = min(max(ml, self.low), self.high)
        return f"{BOTTOM - self.height(within - self.low):.1f}"

    def height(self, ml: float) -> float:
        return (BOTTOM - TOP) * ml / (self.high - self.low)

    def ticks(self) -> list[float]:
        """Return two to five round amounts within the field."""
        span = self.high - self.low
        step = next(step for step in STEPS_ML if span / step <= 5)
        first = -(-self.low // step) * step
        return [first + step * n for n in range(6) if first + step * n <= self.high]


STEPS_ML: Final = (1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000, 10_000, 100_000, 10_000_000)


def _words(records: Sequence[Record]) -> list[str]:
    """Return what stands under each mark: its day, of several years its month, as room allows."""
    if len(records) > MOST_WORDS:
        return [""] * len(records)
    years = {record.day[:4] for record in records if record.day}
    words = [_short_day(record.day) if len(years) == 1 else record.day[:7] for record in records]
    if len(years) > 1 and len(records) > MOST_MONTHS:
        words[1:-1] = [""] * (len(records) - 2)
    return [
        _("left out") if record.left_out else word if record.day else _("test")
        for record, word in zip(records, words, strict=True)
    ]


def _short_day(day: str) -> str:
    """Return a day without its year, its month as a word: figures alone can be read two ways."""
    if not day:
        return ""
    month, number = int(day[5:7]), int(day[8:])
    return _("{number} {month}").format(number=number, month=_(MONTHS[month - 1]))


def _mark(record: Record, across: float, word: str, scale: _Scale) -> Mark:
    x = LEFT + 24 + (RIGHT - LEFT - 48) * across
    ml, sd = record.per_serving_ml, record.per_serving_sd_ml
    keys = record.keys
    shape = keys.verdict if keys else "test"
    return Mark(
        f"{x:.1f}",
        scale.y(ml),
        scale.y(ml - sd),
        scale.y(ml + sd),
        shape,
        record.left_out,
        word,
        _(TRIAL_LEFT_OUT if record.left_out else TRIAL).format(
            day=record.day or _("test"),
            method=method_within(record.trial.method),
            verdict=_(VERDICTS[shape]),
            water=millilitres(ml),
        ),
    )
