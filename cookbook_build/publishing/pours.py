"""Water in friendly measures: what to pour first, what to keep back, and both together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.measures.spoons import pour
from cookbook_build.planning.stores import measures
from cookbook_build.publishing.wording import (
    give_or_take,
    millilitres,
    minutes,
    part_title,
    rest_word,
    tally_words,
)

if TYPE_CHECKING:
    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.kitchen.scaling import ComponentWater
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.dishes import Dish, Part


@dataclass(frozen=True, slots=True)
class PourView:
    """The water of one component at one serving size and method."""

    name: str
    start: str
    hold_back: str
    together: str
    start_ml: str
    hold_back_ml: str
    together_ml: str
    total_ml: str
    band: str
    rest: str
    rest_word: str
    cold: bool  # with cold water, by every way or beside a jar
    tested: bool
    trials: str  # in words, with the test; nothing where it has none


def pours(
    dish: Dish,
    book: Manuscript,
    servings: int,
    method: Method,
    altitude_m: float | None = None,
    *,
    without_optional: bool = False,
) -> tuple[PourView, ...]:
    """Return the water of each component in friendly measures."""
    waters = dish.waters(servings, method, altitude_m, without_optional=without_optional)
    return tuple(_pour(part, water, book) for part, water in zip(dish.parts, waters, strict=True))


def own_trials(part: Part) -> str:
    """Return how many trials a component's water stands on: `3 trials and 1 test`."""
    return tally_words(part.trials, part.tests, part.left_out) if part.trials else ""


def shown_measures(water: ComponentWater, book: Manuscript) -> dict[str, str]:
    """Return the measures that pages and terminal show for a component's water."""
    shown = pour(water.start_ml, water.hold_back_ml, measures(book).system)
    return {
        "start": str(shown.start),
        "hold_back": str(shown.hold_back),
        "together": str(shown.together),
    }


def _pour(part: Part, water: ComponentWater, book: Manuscript) -> PourView:
    shown = shown_measures(water, book)
    return PourView(
        name=part.text.name or part_title(water.name),  # the steps call it as its author did
        **shown,
        start_ml=millilitres(water.start_ml),
        hold_back_ml=millilitres(water.hold_back_ml),
        together_ml=millilitres(water.start_ml + water.hold_back_ml),
        total_ml=millilitres(water.total_ml),
        band=give_or_take(water.sd_ml),
        rest=minutes(water.rest_s),
        rest_word=rest_word(water.method),
        cold=water.is_cold,
        tested=water.tested,
        trials=own_trials(part),
    )
