"""The promised drop in uncertainty is the drop that the trial then brings."""

from __future__ import annotations

import tracemalloc
from dataclasses import replace

import numpy as np
import pytest

from cookbook_build.kitchen.beliefs import Belief, Equation, Learned
from cookbook_build.kitchen.consistency import CONSISTENCIES
from cookbook_build.kitchen.foresight import Wish, expected_drops
from cookbook_build.kitchen.learning import learn
from cookbook_build.kitchen.posterior import posterior

STORES = ("peas", "leeks", "barley", "lentils", "plums")
PRIORS = {store: Belief(0.85, 0.12) for store in STORES}


def dish(number: int, chance: np.random.Generator, noise: float = 0.03) -> Equation:
    consistency = CONSISTENCIES[("stew", "soup", "scoopable")[number % 3]]
    stores = chance.choice(STORES, size=3, replace=False)
    full = tuple(sorted((str(store), float(chance.uniform(20, 150))) for store in stores))
    dry_g = float(chance.uniform(30, 120))
    taken = sum(0.85 * ml for _, ml in full)
    stays = taken + consistency.free_ratio * (dry_g + taken)
    return Equation(f"dish {number}", consistency, full, dry_g, stays, noise * stays)


def variance(equation: Equation, known: Learned, about: Learned) -> float:
    """Return the variance of a component's water by adding a trial too vague to teach."""
    vague = Equation(
        equation.component, equation.consistency, equation.full_ml, equation.dry_g,
        equation.stays_ml, 1e7,
    )  # fmt: skip
    free = about.free_ratio(equation.component, equation.consistency)
    names = [*(store for store, _ in equation.full_ml), f":{equation.consistency.name}"]
    taken = sum(ml * (about.of(s) or PRIORS[s]).mean for s, ml in equation.full_ml)
    slopes = np.array([*(ml * (1 + free) for _, ml in equation.full_ml), equation.dry_g + taken])
    at = [known.names[name] for name in names]
    own = known.own[vague.component]
    found = slopes @ known.covariance[np.ix_(at, at)] @ slopes
    found += 2 * (equation.dry_g + taken) * (own.hangs[at] @ slopes)
    return float(found + (equation.dry_g + taken) ** 2 * own.variance)


@pytest.mark.parametrize("seed", range(5))
def test_the_drop_is_the_one_that_comes(seed: int) -> None:
    chance = np.random.default_rng(seed)
    dishes = [dish(number, chance) for number in range(6)]
    vague = [
        Equation(d.component, d.consistency, d.full_ml, d.dry_g, d.stays_ml, 1e7) for d in dishes
    ]
    trials = [dishes[0], dishes[1], dishes[1]]
    about = learn([*trials, *vague], PRIORS)
    weights = [1.0, 2.0, 1.0, 3.0, 1.0, 1.0]
    wishes = [Wish(d, w) for d, w in zip(dishes, weights, strict=True)]
    promised = expected_drops(wishes, about, PRIORS)
    before = posterior([*trials, *vague], PRIORS, about=about)
    for at, promise in enumerate(promised):
        after = posterior([*trials, *vague, dishes[at]], PRIORS, about=about)
        came = sum(
            w * (variance(d, before, about) - variance(d, after, about)) / d.stays_ml**2
            for d, w in zip(dishes, weights, strict=True)
        )
        assert promise == pytest.approx(came, rel=1e-4), at


def test_what_was_never_tried_promises_more_than_what_was() -> None:
    chance = np.random.default_rng(7)
    one, other = dish(0, chance), dish(1, chance)
    known = learn([one, one, one], PRIORS)
    first, second = expected_drops([Wish(one, 1.0), Wish(other, 1.0)], known, PRIORS)
    assert second > 3 * first


def test_what_no_trial_has_touched_is_as_it_was_believed() -> None:
    # trials too vague to teach name all stores and tastes, and change nothing
    chance = np.random.default_rng(3)
    dishes = [dish(number, chance) for number in range(6)]
    vague = [replace(each, sd_ml=1e9) for each in dishes]
    wishes = [Wish(each, 1.0) for each in dishes]
    for known in ([], dishes[:1], dishes[:3]):
        expected = expected_drops(wishes, learn([*known, *vague], PRIORS), PRIORS)
        assert expected_drops(wishes, learn(known, PRIORS), PRIORS) == pytest.approx(
            expected, rel=1e-9
        )


def test_a_large_book_takes_no_table_of_all_dishes_by_all() -> None:
    chance = np.random.default_rng(4)
    dishes = [dish(number, chance) for number in range(1500)]
    known = learn(dishes[:100], PRIORS)
    wishes = [Wish(each, 1.0) for each in dishes]
    tracemalloc.start()
    drops = expected_drops(wishes, known, PRIORS)
    _, most_bytes = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert len(drops) == len(dishes)
    assert most_bytes < 8 * len(dishes) ** 2 / 4


def test_nothing_planned_promises_nothing() -> None:
    assert expected_drops([], learn([], {}), {}) == ()
