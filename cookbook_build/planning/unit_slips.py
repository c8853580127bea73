"""Unit slips: water that was right and lies far off, and one unit that would explain it.

A teaspoon written for a tablespoon, or a cup for a spoon, makes all that is computed of a recipe
wrong by as much. Where one unit alone explains the water that was right, its line is named; where
several do, none of them is.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property, partial
from math import hypot
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import one_of
from cookbook_build.kitchen.learning import expected_ml
from cookbook_build.kitchen.posterior import posterior
from cookbook_build.kitchen.witnesses import Witnesses
from cookbook_build.measures.amounts import Amount
from cookbook_build.measures.units import BY_NAME
from cookbook_build.planning.dishes import component_of
from cookbook_build.planning.lessons import (
    as_it_says,
    contradiction,
    equations,
    expected_right_ml,
    part_name,
    right_records,
)
from cookbook_build.planning.stores import dry_mass, measures
from cookbook_build.planning.tested_waters import far_words, in_their_units

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from cookbook_build.findings import Findings, Place
    from cookbook_build.kitchen.beliefs import Belief, Equation, Learned
    from cookbook_build.kitchen.component import Component
    from cookbook_build.kitchen.trials import Trial
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.measures.units import Measures, System
    from cookbook_build.planning.dishes import Dish, MixLine, Part
    from cookbook_build.planning.known import Known
    from cookbook_build.planning.lessons import Lessons, Record

FAR_SD: Final = 3.0
NEAR_SD: Final = 1.0
"""Deviations from which on water is far from what is computed, and within which it fits; our
choice."""

EXCHANGED: Final[Mapping[str, tuple[str, ...]]] = {
    "tsp": ("tbsp",),
    "tbsp": ("tsp", "cup"),
    "cup": ("tbsp",),
}
"""Units that are mistaken for each other; common practice, no source."""

USUAL_PARTS: Final[Mapping[str, int]] = {"tsp": 8, "tbsp": 2, "cup": 24}
"""The smallest part of a unit that cooks write: 1/8 tsp, 1/2 tbsp, 1/8 and 1/3 cup."""

MOST_CUPS: Final = {"line": Fraction(3, 2), "water": Fraction(3)}
"""Cups for a serving of one store, and of water, that can be meant; our choice."""


@dataclass(frozen=True, slots=True)
class _Guess:
    """One unit written otherwise: what is written, what may be meant, and whose water it mends."""

    place: Place
    written: str
    meant: str
    unit: str


@dataclass(frozen=True)
class _Witnessed:
    """What speaks for or against a unit: what others learned, and the measures it is one of."""

    lessons: Lessons
    priors: Mapping[str, Belief]
    measures: Measures
    known: Known

    @cached_property
    def witnesses(self) -> Witnesses:
        """What all trials say together, to be asked without some of them."""
        equations = [record.equation for record in self.lessons.records]
        return Witnesses(equations, self.priors, self.lessons.learned)

    @cached_property
    def untaught(self) -> Learned:
        """What is learned of nothing."""
        return posterior([], {})


def check_units(
    dishes: Iterable[Dish],
    lessons: Lessons,
    priors: Mapping[str, Belief],
    book: Manuscript,
    known: Known,
    findings: Findings,
) -> set[Place]:
    """Report units that explain water far off, and return the places of water so explained."""
    by = _Witnessed(lessons, priors, measures(book), known)
    explained: set[Place] = set()
    for dish in dishes:
        name, made_of = ("units", dish.recipe.address), (dish, lessons, by.measures)
        explained |= known.steady.of(name, made_of, partial(_explained, dish, by), findings)
    return explained


def _explained(dish: Dish, by: _Witnessed, findings: Findings) -> set[Place]:
    found: set[Place] = set()
    for part in dish.parts:
        records = right_records(dish, part, by.lessons, by.known)
        if any(_is_odd(record, by.untaught, by.priors) for record in records):
            found |= _explain(dish, part, records, by, findings)
    return found


def _is_odd(record: Record, untaught: Learned, priors: Mapping[str, Belief]) -> bool:
    """Whether a trial is far from what its ingredients, or all other trials, let expect."""
    alone = _off(record.equation, untaught, priors)
    return max(abs(record.score), abs(alone)) >= FAR_SD


def _off(trial: Equation, learned: Learned, priors: Mapping[str, Belief]) -> float:
    """Return by how many deviations the water that stayed is more than what is computed."""
    told = expected_ml(trial, learned, priors)
    return (trial.stays_ml - told.mean) / hypot(told.sd, trial.sd_ml)


def _explain(
    dish: Dish, part: Part, records: Sequence[Record], by: _Witnessed, findings: Findings
) -> set[Place]:
    name = part_name(dish, part)
    learned = by.witnesses.on(name)

    def off(record: Record, mix: Component, trial: Trial | None = None) -> float:
        trials = [trial or record.trial]
        (made,) = equations(record.name, mix, trials, dish.place.kit, by.known)
        return _off(made, learned, by.priors)

    far = [record for record in records if abs(off(record, part.mix)) >= FAR_SD]
    if not far:
        return set()
    lines = [
        guess
        for guess, mix in _other_lines(dish, part, by.measures)
        if all(abs(off(record, mix)) <= NEAR_SD for record in records)
    ]
    odd = far[0]
    waters: list[_Guess] = []
    if len(far) == 1:  # then its own other trials are witnesses too
        beside = [
            at for at in by.lessons.places_of(name) if by.lessons.records[at].place != odd.place
        ]
        learned = by.witnesses.on(name, beside)
        waters = [
            guess
            for guess, water_ml in _other_waters(odd, by.measures)
            if abs(off(odd, part.mix, replace(odd.trial, water_ml=water_ml))) <= NEAR_SD
        ]
    if not (lines or waters):
        return set()
    right_ml = expected_right_ml(odd, learned, by.priors)
    system = by.measures.system
    says = contradiction(odd, right_ml, by.lessons, system)
    if odd.keys is None:
        says = far_words(part, right_ml, system)
    if len(lines) + len(waters) > 1:
        listed = one_of([f'"{guess.meant}"' for guess in (*lines, *waters)])
        findings.warning(
            odd.place,
            f'"{part.name}": {_figures(odd, right_ml, system)}, and several units written '
            "otherwise would explain it",
            f"look at its units: {listed} would each fit.",
        )
    for guess in (*lines, *waters) if len(lines) + len(waters) == 1 else ():
        findings.warning(
            guess.place,
            says if waters else f'with "{guess.written}", {_figures(odd, right_ml, system)}',
            f'did you mean {guess.unit}? Write "{guess.meant}"; else check its other measures.',
        )
    return {record.place for record in far}


def _figures(record: Record, right_ml: float, system: System) -> str:
    more = "more" if record.trial.right_ml > right_ml else "less"
    right = in_their_units(right_ml, record.poured, system)
    return f"{as_it_says(record, system)} was right, far {more} than the {right} computed"


def _other_lines(dish: Dish, part: Part, of: Measures) -> Iterator[tuple[_Guess, Component]]:
    """Give the mix with the unit of one line written otherwise, for each that can be meant."""
    serves = dish.recipe.keys.serves
    for at, line in enumerate(part.lines):
        written = line.ingredient
        if not line.is_dry or written.weighed:
            continue
        for unit, amount in _otherwise(written.amount, MOST_CUPS["line"] * serves):
            other = replace(written, amount=amount)
            grams, ml = dry_mass(other, line.store, of)
            changed = replace(line, ingredient=other, grams=grams, ml=ml)
            lines = [*part.lines[:at], changed, *part.lines[at + 1 :]]
            yield (
                _Guess(written.place, written.written, _meant(line, amount), unit),
                _mix(dish, part, lines),
            )


def _mix(dish: Dish, part: Part, lines: Sequence[MixLine]) -> Component:
    dry = [line for line in lines if line.is_dry]
    made = component_of(part.name, dish.recipe, part.text, dry, None)
    return replace(part.mix, portions=made.portions)


def _meant(line: MixLine, amount: Amount) -> str:
    """Return a line as it would be written with another amount."""
    written = line.ingredient.written
    at = line.ingredient.name_place.column - line.ingredient.place.column
    return f"{amount} {written[at:]}"


def _other_waters(far: Record, of: Measures) -> Iterator[tuple[_Guess, float]]:
    written = far.poured
    if written is None:
        return
    for unit, amount in _otherwise(written, MOST_CUPS["water"] * Fraction(far.trial.servings)):
        water_ml = float(amount.volume_ml(of))
        yield _Guess(far.place, str(written), str(amount), unit), water_ml


def _otherwise(amount: Amount, most_cups: Fraction) -> Iterator[tuple[str, Amount]]:
    """Give an amount in the units that are mistaken for its own, where that can be meant."""
    if len(amount.terms) != 1:
        return
    (term,) = amount.terms
    for unit in EXCHANGED.get(term.unit.name, ()):
        usual = (term.low * USUAL_PARTS[unit]).denominator == 1
        if usual and (unit != "cup" or term.high <= most_cups):
            yield unit, Amount((replace(term, unit=BY_NAME[unit]),))
