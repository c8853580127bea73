"""How well a book learns: random households whose truth is known, and what trials teach of it.

A book is a larder of 40 stores (20 freeze-dried, 12 air-dried, 8 powders), each with a true uptake
drawn from its prior, and 60 recipes of 3 to 8 of them, 2 to 40 g each, filling to drink. The
household's offset of each consistency and each recipe's own are drawn from what the model believes.
Of the recipes 45 get 0 to 6 trials by kettle, stove or jar, for 1 to 4 servings; the others none.
Then every recipe's water is predicted for two servings by kettle, from the priors alone and from
what was learned, and compared with the truth.

Two kinds of cook give the verdicts.

- `as modelled`: six trials in ten are right, with water 3 % off the truth; two are thick, and water
  and what was added come to the truth within 8 %; two are thin, with 1/0.9 of the truth poured,
  within 8 %. That is the noise of the equations, to the letter.
- `as a cook`: the water tried is 12 % off the truth. It is called right when within 5 %. If thick,
  half the cooks add what lacks, measured 30 % wrong, and half say no more; if thin they say no
  more. The equations are then wrong a little: errors hang on the water tried, and a guess stands
  for what was not told.

Printed are, for recipes never tested, the median and the 90th percentile of the relative error
from the priors and as learned, and the medians' ratio; how often the truth lies within one and
two deviations, of recipes never tested and of all; and the time to learn a book and answer for it.
"""

from __future__ import annotations

import argparse
import sys
from dataclasses import dataclass, replace
from time import perf_counter
from typing import TYPE_CHECKING, Final

import numpy as np

from cookbook_build.kitchen import (
    CONSISTENCIES,
    UPTAKE_PRIORS,
    Component,
    ComponentWater,
    Conditions,
    Kit,
    Method,
    Portion,
    component_water,
    full_restoration_ml,
)
from cookbook_build.kitchen.beliefs import HOUSEHOLD_SHARE, OWN_SHARE, Belief
from cookbook_build.kitchen.component import RIGHT_TRIAL_SD, Knowledge
from cookbook_build.kitchen.learning import learn
from cookbook_build.kitchen.teaching import taught
from cookbook_build.kitchen.trials import GUESSED_MISS, MENDED_TRIAL_SD, Trial, equation

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.random import Generator

    from cookbook_build.kitchen.rehydration import Dryness

STORES: Final[dict[Dryness, int]] = {"freeze": 20, "air": 12, "powder": 8}
MOISTURES: Final[dict[Dryness, tuple[float, float]]] = {
    "freeze": (0.60, 0.93),
    "air": (0.70, 0.93),
    "powder": (0.60, 0.93),
}
RESIDUES: Final[dict[Dryness, float]] = {"freeze": 0.03, "air": 0.08, "powder": 0.03}
RECIPES, TRIED, MOST_TRIALS = 60, 45, 6
WORDS: Final = ("filling", "spread", "scoopable", "scoopable", "stew", "stew", "soup", "drink")
METHODS: Final[tuple[Method, ...]] = ("kettle", "stove", "jar")
HOME, KIT = Conditions(altitude_m=310.0), Kit()

WHAT: Final = "error of predicted water, and how often the truth lies within the band"
HEADER: Final = (
    "verdicts      prior: median   90th   learned: median   90th   ratio"
    "   never tested: 1 sd   2 sd   all: 1 sd   2 sd   s/book"
)
ROW: Final = (
    "{:<12}  {:>12.1%}  {:>6.1%}  {:>14.1%}  {:>6.1%}  {:>6.2f}"
    "  {:>18.1%}  {:>5.1%}  {:>9.1%}  {:>5.1%}  {:>7.3f}"
)


@dataclass(frozen=True, slots=True)
class Household:
    """A household's recipes as written, and as they truly are."""

    written: tuple[Component, ...]
    true: tuple[Component, ...]


@dataclass(frozen=True, slots=True)
class Guess:
    """The water of one recipe: true, from the priors, and learned with its band [mL]."""

    tested: bool
    true_ml: float
    prior_ml: float
    learned_ml: float
    sd_ml: float

    @property
    def score(self) -> float:
        """How many deviations the truth lies off."""
        return abs(self.true_ml - self.learned_ml) / self.sd_ml


def household(chance: Generator) -> Household:
    """Draw a larder, its recipes, and the truth about both."""
    kinds: list[Dryness] = [kind for kind, count in STORES.items() for _ in range(count)]
    moistures = [chance.uniform(*MOISTURES[kind]) for kind in kinds]
    uptakes = [chance.normal(UPTAKE_PRIORS[kind].mean, UPTAKE_PRIORS[kind].sd) for kind in kinds]
    offsets = {
        name: chance.normal(0, HOUSEHOLD_SHARE * consistency.free_ratio_sd)
        for name, consistency in CONSISTENCIES.items()
    }
    written, true = [], []
    for number in range(RECIPES):
        portions = []
        for at in chance.choice(len(kinds), chance.integers(3, 9), replace=False):
            dry_g = float(np.exp(chance.uniform(np.log(2), np.log(40))))
            full_ml = full_restoration_ml(dry_g, moistures[at], RESIDUES[kinds[at]])
            prior = UPTAKE_PRIORS[kinds[at]]
            portions.append(Portion(f"store {at}", dry_g, 4 * dry_g, full_ml, prior.mean, prior.sd))
        consistency = CONSISTENCIES[chance.choice(WORDS)]
        own = chance.normal(0, OWN_SHARE * consistency.free_ratio_sd)
        component = Component(f"recipe {number}", 1, tuple(portions), consistency)
        written.append(component)
        true.append(_truth(component, uptakes, offsets[consistency.name] + own))
    return Household(tuple(written), tuple(true))


def _truth(component: Component, uptakes: Sequence[float], offset: float) -> Component:
    surely = ((0.0,) * (len(component.portions) + 1),) * (len(component.portions) + 1)
    return replace(
        component,
        portions=tuple(
            replace(portion, uptake_mean=max(uptakes[int(portion.store.split()[1])], 0.0))
            for portion in component.portions
        ),
        knowledge=Knowledge(component.consistency.free_ratio + offset, surely),
    )


def as_modelled(chance: Generator, ask: Trial, true_ml: float) -> Trial:
    """Return a trial that errs as the equations say."""
    kind = chance.random()
    if kind < 0.6:
        return replace(ask, water_ml=true_ml * (1 + RIGHT_TRIAL_SD * chance.normal()))
    right_ml = true_ml * max(1 + MENDED_TRIAL_SD * chance.normal(), 0.5)
    if kind < 0.8:
        added_ml = right_ml * chance.uniform(0.05, 0.2)
        return replace(ask, water_ml=right_ml - added_ml, verdict="thick", added_ml=added_ml)
    return replace(ask, water_ml=right_ml / (1 - GUESSED_MISS), verdict="thin")


def as_a_cook(chance: Generator, ask: Trial, true_ml: float) -> Trial:
    """Return a trial with water off the truth, and what a cook says of it."""
    water_ml = true_ml * max(1 + 0.12 * chance.normal(), 0.5)
    tried = replace(ask, water_ml=water_ml)
    if abs(water_ml / true_ml - 1) < 0.05:
        return tried
    if water_ml > true_ml:
        return replace(tried, verdict="thin")
    lacks_ml = (true_ml - water_ml) * max(1 + 0.3 * chance.normal(), 0)
    return replace(tried, verdict="thick", added_ml=lacks_ml if chance.random() < 0.5 else None)


def trials(
    chance: Generator, home: Household, cook: Callable[[Generator, Trial, float], Trial]
) -> list[tuple[int, Trial]]:
    """Draw each recipe's trials."""
    found = []
    for number, count in enumerate(chance.integers(0, MOST_TRIALS + 1, TRIED)):
        for _ in range(count):
            method = METHODS[chance.integers(len(METHODS))]
            ask = Trial(method, float(chance.integers(1, 5)), 1.0, HOME)
            true_ml = water(home.true[number], ask.method, ask.servings).total_ml
            found.append((number, cook(chance, ask, true_ml)))
    return found


def water(component: Component, method: Method = "kettle", servings: float = 2) -> ComponentWater:
    """Return a component's water."""
    return component_water(component, servings=servings, method=method, conditions=HOME, kit=KIT)


def guesses(home: Household, tried: Sequence[tuple[int, Trial]]) -> list[Guess]:
    """Return what trials make of a book, beside the truth."""
    priors = {
        portion.store: Belief(portion.uptake_mean, portion.uptake_sd)
        for component in home.written
        for portion in component.portions
    }
    learned = learn(
        [equation(str(at), home.written[at], trial, KIT) for at, trial in tried], priors
    )
    tested = {at for at, _ in tried}
    found = []
    for at, (component, true) in enumerate(zip(home.written, home.true, strict=True)):
        answer = water(taught(str(at), component, learned, speaks=at in tested))
        true_ml, prior_ml = water(true).total_ml, water(component).total_ml
        found.append(Guess(at in tested, true_ml, prior_ml, answer.total_ml, answer.sd_ml))
    return found


def row(name: str, found: Sequence[Guess], seconds: float) -> str:
    """Return a line of the table."""
    never = [guess for guess in found if not guess.tested]
    prior = [abs(guess.prior_ml / guess.true_ml - 1) for guess in never]
    learned = [abs(guess.learned_ml / guess.true_ml - 1) for guess in never]
    return ROW.format(
        name,
        np.median(prior),
        np.quantile(prior, 0.9),
        np.median(learned),
        np.quantile(learned, 0.9),
        np.median(learned) / np.median(prior),
        *(
            np.mean([guess.score < sd for guess in group])
            for group in (never, found)
            for sd in (1, 2)
        ),
        seconds,
    )


def study(books: int, seed: int) -> list[str]:
    """Return the table."""
    lines = [f"{books} books, seed {seed}: {WHAT}", "", HEADER]
    for name, cook in {"as modelled": as_modelled, "as a cook": as_a_cook}.items():
        found: list[Guess] = []
        seconds = 0.0
        for book in range(books):
            chance = np.random.default_rng([seed, book])
            home = household(chance)
            tried = trials(chance, home, cook)
            began = perf_counter()
            found += guesses(home, tried)
            seconds += perf_counter() - began
        lines.append(row(name, found, seconds / books))
    return lines


def main(arguments: Sequence[str] | None = None) -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description="How well a book learns from trials.")
    parser.add_argument("--books", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args(arguments)
    sys.stdout.write("\n".join(study(given.books, given.seed)) + "\n")


if __name__ == "__main__":
    main()
