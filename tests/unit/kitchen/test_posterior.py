"""The posterior by sums against a dense one, in which every own offset is an unknown of its own.

The reference is the normal equations of all unknowns together, solved by numpy's dense solver; it
knows nothing of components, folding, or what stands where.
"""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cookbook_build.kitchen.beliefs import (
    HOUSEHOLD_SHARE,
    OWN_SHARE,
    Belief,
    Bound,
    Equation,
    Learned,
)
from cookbook_build.kitchen.consistency import CONSISTENCIES
from cookbook_build.kitchen.learning import SEEKS_AT, learn
from cookbook_build.kitchen.posterior import posterior
from cookbook_build.kitchen.witnesses import Witnesses

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cookbook_build.kitchen.beliefs import Array

WITHIN = 1e-9
STORES = [f"store {at:03}" for at in range(40)]
LARGE = [f"store {at:03}" for at in range(150)]  # numpy's own inverse of so many shares out threads
PRIORS = {store: Belief(0.6 + 0.002 * at, 0.12) for at, store in enumerate(LARGE)}


def book(
    seed: int, recipes: int = 60, off: float = 0.03, larder: Sequence[str] = STORES
) -> list[Equation]:
    """Draw the trials of a book, shuffled; a store may stand in one twice."""
    chance = np.random.default_rng(seed)
    kinds = list(CONSISTENCIES.values())
    true = {store: PRIORS[store].mean + 0.12 * chance.normal() for store in larder}
    found = []
    for recipe in range(recipes):
        kind = kinds[int(chance.integers(len(kinds)))]
        stores = chance.choice(larder, int(chance.integers(1, 8)))
        full = [(str(store), float(chance.uniform(10, 150))) for store in stores]
        free = kind.free_ratio + 0.05 * chance.normal()
        for _ in range(int(chance.integers(1, 6))):
            times = float(chance.integers(1, 5))
            taken_ml = times * sum(true[store] * ml for store, ml in full)
            dry_g = times * 0.4 * sum(ml for _, ml in full)
            stays_ml = (taken_ml + free * (dry_g + taken_ml)) * (1 + off * chance.normal())
            amounts = tuple((store, times * ml) for store, ml in full)
            found.append(
                Equation(f"recipe {recipe:03}", kind, amounts, dry_g, stays_ml, 0.03 * stays_ml)
            )
    return [found[at] for at in chance.permutation(len(found))]


@dataclass(frozen=True)
class Dense:
    """All unknowns, own offsets last, and their posterior about an estimate."""

    names: list[str]
    mean: Array
    covariance: Array
    slopes: Array
    wanted: Array

    def alone(self, at: int, equations: Sequence[Equation]) -> float:
        """Return by how many deviations a trial lies from what all others say, made linear."""
        g, sd_ml = self.slopes[at], equations[at].sd_ml
        information = np.linalg.inv(self.covariance) - np.outer(g, g) / sd_ml**2
        pull = np.linalg.solve(self.covariance, self.mean) - g * self.wanted[at] / sd_ml**2
        told = np.linalg.solve(information, np.array([pull, g]).T)
        return float((self.wanted[at] - g @ told[:, 0]) / np.sqrt(sd_ml**2 + g @ told[:, 1]))


def dense(equations: Sequence[Equation], about: Learned | None = None) -> Dense:
    stores = sorted({store for equation in equations for store, _ in equation.full_ml})
    kinds = sorted({f":{equation.consistency.name}" for equation in equations})
    own = {equation.component: equation.consistency for equation in equations}
    names = [*stores, *kinds, *sorted(own)]
    spread = {name: own[name].free_ratio_sd * OWN_SHARE for name in own}
    spread |= {name: CONSISTENCIES[name[1:]].free_ratio_sd * HOUSEHOLD_SHARE for name in kinds}  # type: ignore[index]
    prior = np.array([PRIORS[name].mean if name in PRIORS else 0.0 for name in names])
    sds = np.array([PRIORS[name].sd if name in PRIORS else spread[name] for name in names])
    at = prior.copy()
    if about:
        for place, name in enumerate(names):
            at[place] = (
                about.mean[about.names[name]]
                if name in about.names
                else about.own[name].mean
                if name in about.own
                else at[place]
            )
    slopes, wanted = np.zeros((len(equations), len(names))), np.zeros(len(equations))
    for row, equation in enumerate(equations):
        taste = [names.index(f":{equation.consistency.name}"), names.index(equation.component)]
        free = equation.consistency.free_ratio + at[taste].sum()
        taken_ml = sum(ml * at[names.index(store)] for store, ml in equation.full_ml)
        for store, ml in equation.full_ml:
            slopes[row, names.index(store)] += ml * (1 + free)
        slopes[row, taste] = equation.dry_g + taken_ml
        miss_ml = equation.stays_ml - taken_ml - free * (equation.dry_g + taken_ml)
        wanted[row] = miss_ml + slopes[row] @ at
    weights = np.array([1 / equation.sd_ml**2 for equation in equations])
    information = np.diag(1 / sds**2) + (slopes.T * weights) @ slopes
    mean = np.linalg.solve(information, prior / sds**2 + slopes.T @ (weights * wanted))
    covariance = np.linalg.solve(information, np.eye(len(names)))
    return Dense(names, mean, covariance, slopes, wanted)


def assert_alike(found: Learned, told: Dense, components: Sequence[str]) -> None:
    """Both know the same of the shared unknowns and of these own offsets, to `WITHIN` of each."""
    size = len(found.names)
    assert list(found.names) == told.names[:size]
    scale = np.sqrt(np.diag(told.covariance))
    mean = [*found.mean, *(found.own[name].mean for name in components)]
    at = [*range(size), *(told.names.index(name) for name in components)]
    np.testing.assert_allclose(mean, told.mean[at], rtol=WITHIN, atol=WITHIN * scale.min())
    lines = [*found.covariance, *(found.own[name].hangs for name in components)]
    expected = told.covariance[np.ix_(at, range(size))]
    parts = np.outer(scale[at], scale[:size])  # a covariance is as exact as its deviations
    np.testing.assert_allclose(lines / parts, expected / parts, rtol=0, atol=WITHIN)
    for name in components:
        place = told.names.index(name)
        assert found.own[name].variance == pytest.approx(told.covariance[place, place], rel=WITHIN)


@pytest.fixture(params=range(4))
def trials(request: pytest.FixtureRequest) -> list[Equation]:
    return book(request.param)


def test_about_the_priors_it_is_the_dense_posterior(trials: list[Equation]) -> None:
    found = posterior(trials, PRIORS)
    assert_alike(found, dense(trials), sorted(found.own))
    assert len(found.own) == 60


def test_about_any_estimate_it_is_the_dense_posterior(trials: list[Equation]) -> None:
    about = posterior(trials, PRIORS)
    found = posterior(trials, PRIORS, about)
    assert_alike(found, dense(trials, about), sorted(found.own))


def test_scores_are_those_of_the_dense_posterior_without_the_trial(trials: list[Equation]) -> None:
    about = posterior(trials, PRIORS)
    found, told = posterior(trials, PRIORS, about), dense(trials, about)
    expected = [told.alone(at, trials) for at in range(len(trials))]
    np.testing.assert_allclose(found.scores, expected, rtol=1e-7, atol=1e-8)  # twice solved


def test_a_bound_counts_where_it_contradicts_more(trials: list[Equation]) -> None:
    # told to be too little with twice the water that was right: on its own side it contradicts
    thick = replace(trials[0], bound=Bound(2 * trials[0].stays_ml, 1.0, 1))
    thin = replace(trials[0], bound=Bound(2 * trials[0].stays_ml, 1.0, -1))
    plain, more, less = (
        posterior([first, *trials[1:]], PRIORS).scores for first in (trials[0], thick, thin)
    )
    assert more[0] > plain[0] + 4
    assert less[0] == plain[0]
    assert more[1:] == less[1:] == plain[1:]


def without(trials: Sequence[Equation], component: str) -> list[Equation]:
    return [trial for trial in trials if trial.component != component]


def at_rest(trials: Sequence[Equation]) -> Learned:
    found = posterior(trials, PRIORS)
    for _ in range(30):
        found = posterior(trials, PRIORS, found)
    return found


@pytest.mark.parametrize("recipes", [4, 60])
def test_others_say_of_a_component_what_they_teach_without_it(recipes: int) -> None:
    trials = book(1, recipes)
    witnesses = Witnesses(trials, PRIORS, at_rest(trials))
    for component in sorted({trial.component for trial in trials}):
        found, expected = witnesses.on(component), at_rest(without(trials, component))
        assert found.names == expected.names
        assert not found.own
        np.testing.assert_allclose(found.mean, expected.mean, rtol=0, atol=SEEKS_AT)
        ratio = np.diag(found.covariance) / np.diag(expected.covariance)
        np.testing.assert_allclose(ratio, 1, rtol=0, atol=0.02)


def test_a_component_that_moves_little_is_taken_out_in_one_solve() -> None:
    # all trials as expected: nothing moves, and what is left is the dense posterior of the others
    trials = [
        replace(trial, stays_ml=told, sd_ml=0.03 * told)
        for trial in book(2, off=0.0)
        for taken in [sum(PRIORS[store].mean * ml for store, ml in trial.full_ml)]
        for told in [taken + trial.consistency.free_ratio * (trial.dry_g + taken)]
    ]
    about = at_rest(trials)
    witnesses = Witnesses(trials, PRIORS, about)
    for component in sorted(about.own)[:10]:
        others = without(trials, component)
        assert_alike(witnesses.on(component), dense(others, about), [])


def test_trials_of_its_own_speak_beside_the_others() -> None:
    trials = book(3)
    learned = at_rest(trials)
    witnesses = Witnesses(trials, PRIORS, learned)
    component = max(learned.own, key=lambda name: sum(t.component == name for t in trials))
    odd, *beside = (at for at, trial in enumerate(trials) if trial.component == component)
    found = witnesses.on(component, beside)
    expected = at_rest([trial for at, trial in enumerate(trials) if at != odd])
    assert list(found.own) == [component]
    assert found.own[component].mean == pytest.approx(expected.own[component].mean, abs=SEEKS_AT)
    np.testing.assert_allclose(found.mean, expected.mean, rtol=0, atol=SEEKS_AT)
    assert witnesses.on(component).own == {}


def test_what_was_left_out_never_speaks() -> None:
    trials = book(4)
    slip = replace(trials[0], stays_ml=3 * trials[0].stays_ml)
    spoiled = [slip, *trials[1:]]
    learned = learn(spoiled, PRIORS)
    assert 0 in learned.left_out
    kept = [trial for at, trial in enumerate(spoiled) if at not in learned.left_out]
    other = next(trial.component for trial in kept if trial.component != slip.component)
    found = Witnesses(spoiled, PRIORS, learned).on(other)
    expected = at_rest(without(kept, other))
    np.testing.assert_allclose(found.mean, expected.mean, rtol=0, atol=SEEKS_AT)
    own = Witnesses(spoiled, PRIORS, learned).on(slip.component, [0])
    assert not own.own


def test_of_a_component_without_trials_all_speak() -> None:
    trials = book(5)
    learned = at_rest(trials)
    found = Witnesses(trials, PRIORS, learned).on("nobody's")
    np.testing.assert_allclose(found.mean, learned.mean, rtol=WITHIN)


def test_nothing_that_nobody_else_tried_is_told_by_others() -> None:
    lonely = replace(book(6)[0], component="lonely", full_ml=(("salsify", 50.0),))
    trials = [*book(6), lonely]
    priors = PRIORS | {"salsify": Belief(0.7, 0.1)}
    found = Witnesses(trials, priors, learn(trials, priors)).on("lonely")
    assert "salsify" not in found.names


LEARNS = """
import hashlib, sys
sys.path.insert(0, sys.argv[1])
from test_posterior import LARGE, PRIORS, book, learn
found = learn(book(7, 800, larder=LARGE), PRIORS)
numbers = [found.mean, found.covariance, *(own.hangs for own in found.own.values())]
print(hashlib.sha256(b"".join(each.tobytes() for each in numbers)).hexdigest(), found.scores)
"""


def test_no_digit_hangs_on_the_number_of_threads() -> None:
    printed = set()
    for threads in ("1", "2", "4"):
        names = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")
        done = subprocess.run(  # noqa: S603 - our own
            [sys.executable, "-c", LEARNS, str(Path(__file__).parent)],
            env=os.environ | dict.fromkeys(names, threads),
            capture_output=True,
            check=True,
        )
        printed.add(done.stdout)
    assert len(printed) == 1
