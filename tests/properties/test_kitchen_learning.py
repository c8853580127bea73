"""What holds for any trials: what they teach, in any order, of anything."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from cookbook_build.kitchen import (
    CONSISTENCIES,
    METHODS,
    UPTAKE_PRIORS,
    Component,
    ComponentWater,
    Conditions,
    Kit,
    Method,
    Portion,
    Tested,
    component_water,
    full_restoration_ml,
)
from cookbook_build.kitchen.beliefs import (
    HOUSEHOLD_SHARE,
    OWN_SHARE,
    Belief,
    Equation,
    Learned,
)
from cookbook_build.kitchen.learning import learn
from cookbook_build.kitchen.posterior import posterior
from cookbook_build.kitchen.teaching import taught
from cookbook_build.kitchen.trials import Trial, Verdict, equation

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cookbook_build.kitchen.beliefs import Array

CLOSE = 1e-9
HOME, KIT = Conditions(altitude_m=310.0), Kit()
LARDER = {f"{kind} {letter}": prior for kind, prior in UPTAKE_PRIORS.items() for letter in "ab"}
PRIORS: Mapping[str, Belief] = {
    name: Belief(prior.mean, prior.sd)
    for store, prior in LARDER.items()
    for name in (store, f"other {store}")
}
QUICK: tuple[Method, ...] = ("jar", "stove", "cold")
patient = settings(deadline=None)  # the first dish of a kind is slower

VERDICTS: tuple[Verdict, ...] = ("right", "thick", "thin")

Tried = list[tuple[Component, Trial]]


@st.composite
def portions(draw: st.DrawFn, store: str, least_g: float = 2.0, most_g: float = 60.0) -> Portion:
    dry_g = draw(st.floats(least_g, most_g))
    full_ml = full_restoration_ml(dry_g, draw(st.floats(0.5, 0.94)), 0.03)
    prior, per_pot = LARDER[store], draw(st.integers(0, 5)) == 0
    return Portion(store, dry_g, dry_g * 4, full_ml, prior.mean, prior.sd, per_pot=per_pot)


@st.composite
def components(draw: st.DrawFn, name: str = "bowl") -> Component:
    stores = draw(st.lists(st.sampled_from(sorted(LARDER)), min_size=1, max_size=5, unique=True))
    mix = tuple(draw(portions(store)) for store in stores)
    return Component(
        name,
        draw(st.sampled_from([1, 2])),
        mix,
        CONSISTENCIES[draw(st.sampled_from(sorted(CONSISTENCIES)))],
    )


@st.composite
def trials(
    draw: st.DrawFn, component: Component, low: float = 0.85, high: float = 1.2
) -> tuple[Component, Trial]:
    """Draw a trial with water off what is expected, no further than may be by chance."""
    method, servings = draw(st.sampled_from(QUICK)), draw(st.sampled_from([1, 2, 4]))
    water_ml = draw(st.floats(low, high)) * water(component, method, servings).total_ml
    verdict = draw(st.sampled_from(VERDICTS))
    added_ml = 0.1 * water_ml if verdict == "thick" and draw(st.booleans()) else None
    return component, Trial(method, servings, water_ml, HOME, verdict, added_ml)


@st.composite
def books(draw: st.DrawFn, most: int = 6) -> tuple[list[Component], Tried]:
    found = [draw(components(f"recipe {at}")) for at in range(draw(st.integers(1, 3)))]
    tried = [draw(trials(draw(st.sampled_from(found)))) for _ in range(draw(st.integers(0, most)))]
    return found, tried


def equations(tried: Tried) -> list[Equation]:
    return [equation(component.name, component, trial, KIT) for component, trial in tried]


def taught_by(tried: Tried) -> Learned:
    return learn(equations(tried), PRIORS)


def water(component: Component, method: Method = "jar", servings: float = 2) -> ComponentWater:
    return component_water(component, servings=servings, method=method, conditions=HOME, kit=KIT)


def learned_water(component: Component, learned: Learned, trial: Trial) -> float:
    known = taught(component.name, component, learned, speaks=True)
    return water(known, trial.method, trial.servings).total_ml


def assert_same(one: Learned, two: Learned, names: Sequence[str]) -> None:
    """Both learned the same of these unknowns, and of each own offset that the first knows."""
    first, second = [one.names[name] for name in names], [two.names[name] for name in names]
    assert one.mean[first] == pytest.approx(two.mean[second], abs=CLOSE)
    assert one.covariance[np.ix_(first, first)] == pytest.approx(
        two.covariance[np.ix_(second, second)], abs=CLOSE
    )
    for name, own in one.own.items():
        assert own.mean == pytest.approx(two.own[name].mean, abs=CLOSE)
        assert own.variance == pytest.approx(two.own[name].variance, abs=CLOSE)
        assert own.hangs[first] == pytest.approx(two.own[name].hangs[second], abs=CLOSE)


@patient
@given(books(), st.data())
def test_a_right_trial_never_moves_its_water_away(
    book: tuple[list[Component], Tried], data: st.DataObject
) -> None:
    recipes, tried = book
    right = data.draw(trials(data.draw(st.sampled_from(recipes)), 0.6, 1.6))
    component, trial = right[0], replace(right[1], verdict="right", added_ml=None)
    before, after = taught_by(tried), taught_by([*tried, (component, trial)])
    assume(not before.left_out and not after.left_out)
    was = learned_water(component, before, trial)
    now = learned_water(component, after, trial)
    assert abs(now - trial.water_ml) <= abs(was - trial.water_ml) + CLOSE * was


@patient
@given(books(), st.randoms(use_true_random=False))
def test_the_order_of_trials_changes_nothing(
    book: tuple[list[Component], Tried],
    random: object,
) -> None:
    tried = book[1]
    shuffled = list(tried)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    one, two = taught_by(tried), taught_by(shuffled)
    assert len(one.left_out) == len(two.left_out)
    assert_same(one, two, list(one.names))


@patient
@given(books(), components("stranger"), st.data())
def test_a_trial_that_shares_nothing_changes_nothing(
    book: tuple[list[Component], Tried], stranger: Component, data: st.DataObject
) -> None:
    recipes, tried = book
    assume(all(stranger.consistency != recipe.consistency for recipe in recipes))
    others = tuple(replace(p, store=f"other {p.store}") for p in stranger.portions)
    stranger = replace(stranger, portions=others)
    alone, together = (
        taught_by(tried),
        taught_by([data.draw(trials(stranger, 0.2, 5.0)), *tried]),
    )
    assert {at + 1 for at in alone.left_out} == together.left_out - {0}
    assert_same(alone, together, list(alone.names))
    for recipe in recipes:
        one, two = (taught(recipe.name, recipe, each, speaks=True) for each in (alone, together))
        assert water(one).total_ml == pytest.approx(water(two).total_ml, rel=CLOSE)
        assert water(one).sd_ml == pytest.approx(water(two).sd_ml, rel=1e-6)


def covariance(learned: Learned, names: Sequence[str], component: Component) -> Array:
    """Return the covariance of some unknowns and a component's own offset, as parts of the prior.

    What was in no trial is as it was believed to be.
    """
    sds = np.array([*(sd_before(name) for name in names), own_sd(component)])
    found = np.eye(len(sds))
    known = [at for at, name in enumerate(names) if name in learned.names]
    there = [learned.names[names[at]] for at in known]
    found[np.ix_(known, known)] = (
        learned.covariance[np.ix_(there, there)] / sds[known] / sds[known, None]
    )
    if own := learned.own.get(component.name):
        found[-1, -1] = own.variance / sds[-1] ** 2
        found[-1, known] = found[known, -1] = own.hangs[there] / sds[known] / sds[-1]
    return found


def sd_before(name: str) -> float:
    if name in PRIORS:
        return PRIORS[name].sd
    return HOUSEHOLD_SHARE * next(
        c.free_ratio_sd for c in CONSISTENCIES.values() if c.name == name[1:]
    )


def own_sd(component: Component) -> float:
    return OWN_SHARE * component.consistency.free_ratio_sd


@patient
@given(books(), st.data())
def test_one_more_trial_never_widens_a_band(
    book: tuple[list[Component], Tried], data: st.DataObject
) -> None:
    # noise as given, linearisation held: no combination of unknowns is known less surely
    recipes, tried = book
    more = data.draw(trials(data.draw(st.sampled_from(recipes)), 0.3, 3.0))
    about = taught_by(tried)
    before = posterior(equations(tried), PRIORS, about)
    after = posterior(equations([*tried, more]), PRIORS, about)
    for recipe in recipes:
        names = sorted(after.names)
        gained = covariance(before, names, recipe) - covariance(after, names, recipe)
        assert np.linalg.eigvalsh(gained).min() >= -CLOSE


@patient
@given(components(), st.sampled_from(METHODS), st.sampled_from([1, 2, 4]))
def test_with_no_trials_an_untested_component_is_as_it_was(
    component: Component, method: Method, servings: int
) -> None:
    known = taught("bowl", component, learn([], {}), speaks=False)
    assert_answers_alike(component, known, method, servings)


@patient
@given(components(), st.sampled_from(METHODS), st.sampled_from([1, 2, 4]), st.data(), st.booleans())
def test_with_no_trials_a_tested_component_is_as_it_was(
    component: Component,
    method: Method,
    servings: int,
    data: st.DataObject,
    speaks: bool,  # noqa: FBT001
) -> None:
    trial = data.draw(trials(component, 0.7, 1.5))[1]
    block = Tested(trial.method, trial.servings, trial.water_ml, 600.0, HOME)
    tested = replace(component, tested=block)
    known = taught("bowl", tested, learn([], {}), speaks=speaks)
    assert_answers_alike(tested, known, method, servings)


def assert_answers_alike(one: Component, two: Component, method: Method, servings: float) -> None:
    before, after = water(one, method, servings), water(two, method, servings)
    for field in ComponentWater.__slots__:
        if field not in {"name", "derivation"}:
            was, now = getattr(before, field), getattr(after, field)
            close = was if isinstance(was, str) else pytest.approx(was, rel=CLOSE)
            assert now == close, field


@patient
@given(
    books(most=4),
    components("slipped"),
    st.lists(st.floats(0.98, 1.02), min_size=3, max_size=5),
    st.one_of(st.floats(0.2, 0.5), st.floats(2, 10)),
    st.data(),
)
def test_a_slip_is_left_out_and_teaches_nothing(
    book: tuple[list[Component], Tried],
    component: Component,
    good: list[float],
    factor: float,
    data: st.DataObject,
) -> None:
    others = book[1]
    right_ml = data.draw(st.floats(0.9, 1.1)) * water(component).total_ml
    tried = [*others, *((component, Trial("jar", 2, part * right_ml, HOME)) for part in good)]
    without = taught_by(tried)
    assume(not without.left_out)
    place = data.draw(st.integers(0, len(tried)))
    slip = (component, Trial("jar", 2, factor * right_ml, HOME))
    found = taught_by([*tried[:place], slip, *tried[place:]])
    assert found.left_out == {place}
    assert abs(found.scores[place]) > 4
    assert_same(without, found, list(without.names))


@patient
@given(books(), st.data())
def test_a_dish_without_its_optional_parts_wants_the_same_free_water(
    book: tuple[list[Component], Tried], data: st.DataObject
) -> None:
    recipes, tried = book
    trial = data.draw(trials(recipes[0]))[1]
    block = Tested(trial.method, trial.servings, trial.water_ml, 600.0, HOME)
    whole = replace(recipes[0], tested=data.draw(st.sampled_from([None, block])))
    bare = replace(whole, portions=whole.portions[:1], tested=None, like=whole)
    learned, speaks = taught_by(tried), data.draw(st.booleans())
    one, two = (taught(whole.name, part, learned, speaks=speaks) for part in (whole, bare))
    assert water(two).phi == pytest.approx(water(one).phi, rel=CLOSE)
    assert water(two).total_ml > 0


extremes = st.one_of(st.floats(1e-9, 1e6), st.sampled_from([1e-9, 1e-3, 1.0, 1e3, 1e6]))


@st.composite
def wild(draw: st.DrawFn) -> tuple[Component, list[Trial]]:
    names = sorted(LARDER)
    stores = draw(st.lists(st.sampled_from(names), min_size=1, max_size=12))
    mix = tuple(draw(portions(store, 1e-3, 1e5)) for store in stores)
    consistency = CONSISTENCIES[draw(st.sampled_from(sorted(CONSISTENCIES)))]
    trial = st.builds(
        Trial,
        st.sampled_from(METHODS),
        st.floats(0.01, 100),
        extremes,
        st.just(HOME),
        st.sampled_from(VERDICTS),
        st.one_of(st.none(), st.just(0.0), extremes),
    )
    return Component("wild", 1, mix, consistency), draw(st.lists(trial, min_size=1, max_size=8))


@patient
@given(wild())
def test_nothing_fails_on_any_admissible_numbers(drawn: tuple[Component, list[Trial]]) -> None:
    component, tried = drawn
    learned = taught_by([(component, trial) for trial in tried])
    assert all(np.isfinite(learned.scores))
    answer = water(taught("wild", component, learned, speaks=True))
    assert 0 < answer.total_ml < np.inf
    assert 0 <= answer.sd_ml < np.inf
    for name in learned.names:
        belief = learned.of(name)
        assert belief
        assert 0 < belief.sd <= sd_before(name) * (1 + CLOSE)
