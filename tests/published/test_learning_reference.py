"""The posterior against a general library's least squares. SCIPY-LSQ.

The reference knows nothing of blocks or folding: all unknowns, own offsets too, stand in one dense
system of whitened rows, priors above and trials below.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from scipy.linalg import lstsq, pinv
from scipy.optimize import least_squares

from cookbook_build.kitchen.beliefs import (
    HOUSEHOLD_SHARE,
    OWN_SHARE,
    Belief,
    Equation,
    Learned,
)
from cookbook_build.kitchen.consistency import CONSISTENCIES
from cookbook_build.kitchen.learning import learn
from cookbook_build.kitchen.posterior import posterior
from cookbook_build.kitchen.rehydration import UPTAKE_PRIORS

if TYPE_CHECKING:
    from cookbook_build.kitchen.beliefs import Array

WITHIN = 1e-6  # the acceptance's own
SEEDS = range(6)


@dataclass(frozen=True)
class Book:
    """Trials, what was believed before, and the order of the dense system's unknowns."""

    equations: list[Equation]
    priors: dict[str, Belief]
    shared: list[str]
    components: list[str]

    @property
    def means(self) -> Array:
        stores = [self.priors[name].mean if name in self.priors else 0.0 for name in self.shared]
        return np.array(stores + [0.0] * len(self.components))

    @property
    def deviations(self) -> Array:
        own = {equation.component: equation.consistency for equation in self.equations}
        found = [
            self.priors[name].sd
            if name in self.priors
            else HOUSEHOLD_SHARE * next(c for c in own.values() if c.name == name[1:]).free_ratio_sd
            for name in self.shared
        ]
        return np.array(found + [OWN_SHARE * own[name].free_ratio_sd for name in self.components])

    def says(self, equation: Equation, at: Array) -> tuple[float, Array]:
        """Return the water that an estimate predicts for a trial, and its slopes."""
        household = self.shared.index(f":{equation.consistency.name}")
        own = len(self.shared) + self.components.index(equation.component)
        free = equation.consistency.free_ratio + at[household] + at[own]
        taken = sum(full * at[self.shared.index(store)] for store, full in equation.full_ml)
        slopes = np.zeros(len(at))
        for store, full in equation.full_ml:
            slopes[self.shared.index(store)] += full * (1 + free)
        slopes[[household, own]] = equation.dry_g + taken
        return taken + free * (equation.dry_g + taken), slopes

    def misses(self, at: Array) -> Array:
        """Return the whitened misses of priors and trials, not made linear."""
        trials = [(self.says(e, at)[0] - e.stays_ml) / e.sd_ml for e in self.equations]
        return np.concatenate([(at - self.means) / self.deviations, trials])

    def linear(self, about: Array) -> tuple[Array, Array]:
        """Return the whitened dense system about an estimate."""
        rows, wanted = [np.diag(1 / self.deviations)], [self.means / self.deviations]
        for equation in self.equations:
            water, slopes = self.says(equation, about)
            rows.append(slopes[None] / equation.sd_ml)
            wanted.append(np.array([(equation.stays_ml - water + slopes @ about) / equation.sd_ml]))
        return np.vstack(rows), np.concatenate(wanted)


def book(seed: int) -> Book:
    """Draw a book: shared stores, stores named twice, one to six trials, all consistencies."""
    chance = np.random.default_rng(seed)
    kinds = [list(UPTAKE_PRIORS.values())[at % 4] for at in range(12)]
    priors = {f"store {at:02}": Belief(kind.mean, kind.sd) for at, kind in enumerate(kinds)}
    true = [chance.normal(kind.mean, kind.sd) for kind in kinds]
    consistencies = list(CONSISTENCIES.values())
    offsets = [chance.normal(0, HOUSEHOLD_SHARE * c.free_ratio_sd) for c in consistencies]
    equations = []
    for number in range(9):
        which = number % 6
        consistency = consistencies[which]
        own = chance.normal(0, OWN_SHARE * consistency.free_ratio_sd)
        free = consistency.free_ratio + offsets[which] + own
        stores = chance.choice(12, chance.integers(1, 7), replace=number % 3 == 0)
        full = chance.uniform(5, 150, len(stores))
        dry = full.sum() * chance.uniform(0.2, 0.6)
        for _ in range(1 + number % 6):
            times = float(chance.integers(1, 5))
            taken = times * sum(f * true[s] for s, f in zip(stores, full, strict=True))
            water = taken + free * (times * dry + taken)
            noise = chance.choice([0.03, 0.08])
            stays = water * (1 + noise * chance.normal())
            amounts = tuple((f"store {s:02}", times * f) for s, f in zip(stores, full, strict=True))
            equations.append(
                Equation(f"part {number}", consistency, amounts, times * dry, stays, noise * stays)
            )
    order = chance.permutation(len(equations))
    named = sorted({store for equation in equations for store, _ in equation.full_ml})
    named += [f":{name}" for name in sorted({e.consistency.name for e in equations})]
    parts = sorted({equation.component for equation in equations})
    return Book([equations[at] for at in order], priors, named, parts)


def dense(learned: Learned, drawn: Book) -> tuple[Array, Array]:
    """Return a posterior's mean and covariance in the order of the dense system."""
    at = [learned.names[name] for name in drawn.shared]
    own = [learned.own[name] for name in drawn.components]
    mean = np.concatenate([learned.mean[at], [one.mean for one in own]])
    hangs = np.array([one.hangs[at] for one in own])
    return mean, np.vstack([learned.covariance[np.ix_(at, at)], hangs])


def about(drawn: Book, at: Array) -> Learned:
    """Return an estimate to make trials linear about."""
    names = {name: place for place, name in enumerate(drawn.shared)}
    found: Any = posterior(drawn.equations, drawn.priors)
    own = {
        name: type(found.own[name])(float(at[len(names) + place]), 0.0, np.zeros(len(names)))
        for place, name in enumerate(drawn.components)
    }
    return Learned(names, found.prior, at[: len(names)], found.covariance, own)


@pytest.fixture(params=SEEDS)
def drawn(request: pytest.FixtureRequest) -> Book:
    return book(request.param)


@pytest.fixture
def somewhere(drawn: Book) -> Array:
    chance = np.random.default_rng(len(drawn.equations))
    return np.asarray(drawn.means + 0.5 * drawn.deviations * chance.normal(size=len(drawn.means)))


def test_the_first_round_is_least_squares_about_the_priors(drawn: Book) -> None:
    # SCIPY-LSQ
    expected = lstsq(*drawn.linear(drawn.means))[0]
    mean, _ = dense(posterior(drawn.equations, drawn.priors), drawn)
    np.testing.assert_allclose(mean, expected, rtol=WITHIN, atol=WITHIN**2)


def test_means_are_least_squares_about_any_estimate(drawn: Book, somewhere: Array) -> None:
    # SCIPY-LSQ
    expected = lstsq(*drawn.linear(somewhere))[0]
    mean, _ = dense(posterior(drawn.equations, drawn.priors, about(drawn, somewhere)), drawn)
    np.testing.assert_allclose(mean, expected, rtol=WITHIN, atol=WITHIN**2)


def test_covariances_are_least_squares_about_any_estimate(drawn: Book, somewhere: Array) -> None:
    # SCIPY-LSQ
    inverse = pinv(drawn.linear(somewhere)[0])
    expected = inverse @ inverse.T
    found = posterior(drawn.equations, drawn.priors, about(drawn, somewhere))
    size = len(drawn.shared)
    np.testing.assert_allclose(
        dense(found, drawn)[1], expected[:, :size], rtol=WITHIN, atol=WITHIN**2
    )
    for place, name in enumerate(drawn.components, start=size):
        assert found.own[name].variance == pytest.approx(expected[place, place], rel=WITHIN)


def test_scores_are_those_of_each_trial_left_alone(drawn: Book, somewhere: Array) -> None:
    # SCIPY-LSQ: fitted without the trial, how far does it lie from what is then expected of it,
    # in deviations of that expectation and its own noise together?
    rows, wanted = drawn.linear(somewhere)
    found = posterior(drawn.equations, drawn.priors, about(drawn, somewhere))
    for at, score in enumerate(found.scores, start=len(drawn.means)):
        others = [row for row in range(len(rows)) if row != at]
        alone = lstsq(rows[others], wanted[others])[0]
        inverse = pinv(rows[others])
        expected = (wanted[at] - rows[at] @ alone) / np.hypot(1, np.linalg.norm(rows[at] @ inverse))
        assert score == pytest.approx(expected, rel=WITHIN, abs=WITHIN)


def test_what_is_learned_is_the_smallest_penalised_sum_of_squares(drawn: Book) -> None:
    # SCIPY-LSQ, not linear
    found = learn(drawn.equations, drawn.priors)
    expected = least_squares(
        drawn.misses, drawn.means, x_scale=drawn.deviations, xtol=1e-15, ftol=1e-15, gtol=1e-12
    ).x
    assert not found.left_out
    np.testing.assert_allclose(dense(found, drawn)[0], expected, rtol=WITHIN, atol=WITHIN)


def test_what_is_learned_stays_where_it_is(drawn: Book) -> None:
    # SCIPY-LSQ about the estimate itself
    mean, covariance = dense(learn(drawn.equations, drawn.priors), drawn)
    rows, wanted = drawn.linear(mean)
    inverse = pinv(rows)
    np.testing.assert_allclose(lstsq(rows, wanted)[0], mean, rtol=WITHIN, atol=WITHIN**2)
    np.testing.assert_allclose(
        covariance, (inverse @ inverse.T)[:, : len(drawn.shared)], rtol=WITHIN, atol=WITHIN**2
    )


def test_a_slip_leaves_the_least_squares_of_the_others(drawn: Book) -> None:
    # SCIPY-LSQ, not linear, of the trials that were kept
    most = max(drawn.components, key=lambda name: sum(e.component == name for e in drawn.equations))
    at = next(at for at, e in enumerate(drawn.equations) if e.component == most)
    one = drawn.equations[at]
    slip = Equation(
        one.component, one.consistency, one.full_ml, one.dry_g, 2 * one.stays_ml, 2 * one.sd_ml
    )
    found = learn([*drawn.equations[:at], slip, *drawn.equations[at + 1 :]], drawn.priors)
    kept = [e for place, e in enumerate(drawn.equations) if place != at]
    rest = Book(kept, drawn.priors, drawn.shared, drawn.components)
    expected = least_squares(
        rest.misses, rest.means, x_scale=rest.deviations, xtol=1e-15, ftol=1e-15, gtol=1e-12
    ).x
    assert found.left_out == {at}
    np.testing.assert_allclose(dense(found, rest)[0], expected, rtol=WITHIN, atol=WITHIN)
