"""What one trial teaches, worked by hand.

A dish of 100 g with one store that would take up 100 mL, believed to take up all of it, give or
take a tenth; no free water, give or take 0.13, of which 0.12 is the household's and 0.05 its own.
So 100 mL are expected, with a slope of 100 mL on the uptake and of 200 mL on either offset:
variances of 100² 0.1² = 100, 200² 0.12² = 576 and 200² 0.05² = 100 mL². With a trial's own 224 mL²
they make 1000 mL².
"""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest

from cookbook_build.kitchen.beliefs import Belief, Equation, Learned
from cookbook_build.kitchen.consistency import Consistency
from cookbook_build.kitchen.learning import SLIP_SD, expected_ml, learn
from cookbook_build.kitchen.posterior import posterior

STIFF = Consistency("stew", 0.0, 0.13)
LOOSE = Consistency("soup", 1.0, 0.13)
PRIORS = {"peas": Belief(1.0, 0.1), "corn": Belief(1.0, 0.1)}
TRIAL = Equation("bowl", STIFF, (("peas", 100.0),), 100.0, 150.0, sqrt(224))


@pytest.fixture
def first() -> Learned:
    return posterior([TRIAL], PRIORS)


def test_a_miss_is_shared_out_by_variance(first: Learned) -> None:
    # 50 mL too little expected: times slope, times variance, of 1000
    peas, stew = first.of("peas"), first.of(":stew")
    assert peas
    assert stew
    assert peas.mean == pytest.approx(1 + 0.01 * 100 * 50 / 1000)
    assert stew.mean == pytest.approx(0.0144 * 200 * 50 / 1000)
    assert first.own["bowl"].mean == pytest.approx(0.0025 * 200 * 50 / 1000)
    assert first.free_ratio("bowl", STIFF) == pytest.approx(0.144 + 0.025)


def test_what_was_learned_is_known_more_surely(first: Learned) -> None:
    peas, stew = first.of("peas"), first.of(":stew")
    assert peas
    assert stew
    assert peas.sd**2 == pytest.approx(0.01 - 1.0**2 / 1000)
    assert stew.sd**2 == pytest.approx(0.0144 - 2.88**2 / 1000)
    assert first.own["bowl"].variance == pytest.approx(0.0025 - 0.5**2 / 1000)


def test_what_one_trial_told_together_hangs_together(first: Learned) -> None:
    peas, stew = first.names["peas"], first.names[":stew"]
    assert first.covariance[peas, stew] == pytest.approx(-1.0 * 2.88 / 1000)
    assert first.own["bowl"].hangs[peas] == pytest.approx(-1.0 * 0.5 / 1000)
    assert first.own["bowl"].hangs[stew] == pytest.approx(-2.88 * 0.5 / 1000)


def test_a_score_counts_deviations_from_what_was_expected(first: Learned) -> None:
    assert list(first.scores) == pytest.approx([50 / sqrt(1000)])


def test_a_trial_as_expected_moves_nothing_but_the_band() -> None:
    learned = learn([replace(TRIAL, stays_ml=100.0)], PRIORS)
    peas = learned.of("peas")
    assert peas
    assert (peas.mean, learned.free_ratio("bowl", STIFF)) == pytest.approx((1.0, 0.0), abs=1e-12)
    assert peas.sd < 0.1


def test_another_dish_of_the_household_hears_of_its_taste_alone(first: Learned) -> None:
    assert first.free_ratio("another bowl", STIFF) == pytest.approx(0.144)


def test_another_consistency_and_another_store_hear_nothing(first: Learned) -> None:
    assert first.free_ratio("pot", LOOSE) == 1.0
    assert first.of("corn") is None
    assert first.of(":soup") is None


def test_rounds_go_on_until_the_trial_is_met_where_it_is() -> None:
    # slopes change with the estimate; sure of a trial, what is learned gives it back
    learned = learn([replace(TRIAL, sd_ml=0.01)], PRIORS)
    peas = learned.of("peas")
    assert peas
    taken_ml = 100 * peas.mean
    free_ml = learned.free_ratio("bowl", STIFF) * (100 + taken_ml)
    assert taken_ml + free_ml == pytest.approx(150, abs=1e-3)


def test_a_store_named_twice_is_one_store() -> None:
    twice = replace(TRIAL, full_ml=(("peas", 40.0), ("peas", 60.0)))
    assert posterior([twice], PRIORS).mean == pytest.approx(posterior([TRIAL], PRIORS).mean)


def test_two_trials_tell_more_than_one() -> None:
    one, two = (posterior([TRIAL] * count, PRIORS).of("peas") for count in (1, 2))
    assert one
    assert two
    assert two.mean > one.mean
    assert two.sd < one.sd


def test_no_trials_teach_nothing() -> None:
    learned = learn([], PRIORS)
    assert learned.of("peas") is None
    assert learned.free_ratio("bowl", LOOSE) == 1.0
    assert (learned.scores, learned.left_out) == ((), frozenset())


def test_a_slip_is_left_out_and_reported_with_its_place() -> None:
    good = replace(TRIAL, stays_ml=110.0, sd_ml=3.3)
    slip = replace(TRIAL, stays_ml=220.0, sd_ml=6.6)
    learned = learn([good, good, slip, good], PRIORS)
    alone = learn([good] * 3, PRIORS)
    assert learned.left_out == {2}
    assert learned.scores[2] > 4
    assert learned.mean == pytest.approx(alone.mean, abs=1e-9)


def test_two_slips_are_both_left_out() -> None:
    good = replace(TRIAL, stays_ml=110.0, sd_ml=3.3)
    high = replace(TRIAL, stays_ml=220.0, sd_ml=6.6)
    low = replace(TRIAL, stays_ml=50.0, sd_ml=1.5)
    assert learn([high, good, good, good, low, good], PRIORS).left_out == {0, 4}


def test_a_dish_far_from_its_kind_but_true_to_itself_is_no_slip() -> None:
    odd = replace(TRIAL, stays_ml=160.0, sd_ml=4.8)
    assert not learn([odd] * 4, PRIORS).left_out


def test_one_dish_with_a_slip_accuses_no_other_of_its_consistency() -> None:
    # the slip drags the household's taste along, which must not speak against the other bowl
    other = replace(TRIAL, component="cup", full_ml=(("corn", 100.0),), stays_ml=100.0, sd_ml=3.0)
    good = replace(TRIAL, stays_ml=100.0, sd_ml=3.0)
    slip = replace(TRIAL, stays_ml=400.0, sd_ml=12.0)
    learned = learn([slip, good, good, good, other, replace(other, stays_ml=88.0)], PRIORS)
    assert learned.left_out == {0}


def test_an_estimate_of_fewer_names_serves_as_well() -> None:
    # the estimate came without a store: that store stands at its prior
    wider = replace(TRIAL, full_ml=(("corn", 50.0), ("peas", 50.0)))
    about = posterior([TRIAL], PRIORS)
    assert posterior([wider], PRIORS, about).names == {"corn": 0, "peas": 1, ":stew": 2}


def test_a_store_without_a_prior_is_our_mistake() -> None:
    with pytest.raises(KeyError):
        learn([TRIAL], {})


def test_before_any_trial_the_ingredients_alone_let_expect() -> None:
    told = expected_ml(TRIAL, learn([], PRIORS), PRIORS)
    assert (told.mean, told.sd**2) == pytest.approx((100.0, 100 + 576 + 100))


def test_what_is_expected_of_another_trial_is_what_its_score_is_counted_from() -> None:
    # nearly linear, so that a trial's deviation from the others is that of its residual
    others = [replace(TRIAL, stays_ml=101.0), replace(TRIAL, component="pan", stays_ml=99.0)]
    told = expected_ml(TRIAL, learn(others, PRIORS), PRIORS)
    score = (TRIAL.stays_ml - told.mean) / sqrt(told.sd**2 + TRIAL.sd_ml**2)
    together = posterior([*others, TRIAL], PRIORS, about=learn(others, PRIORS))
    assert together.scores[2] == pytest.approx(score, rel=1e-6)


def test_of_two_that_contradict_each_other_the_more_doubted_goes() -> None:
    sure = replace(TRIAL, stays_ml=110.0, sd_ml=1.0)
    far = replace(TRIAL, stays_ml=60.0, sd_ml=1.0)
    for first, second, left_out in (
        (replace(sure, doubt=2), far, 0),
        (sure, replace(far, doubt=2), 1),
        (sure, far, 1),  # neither more doubted: the one further from what was believed
    ):
        assert learn([first, second], PRIORS).left_out == {left_out}


def test_one_that_was_left_out_for_another_s_sake_comes_back() -> None:
    good = [replace(TRIAL, stays_ml=100.0 + at, sd_ml=3.0, doubt=2) for at in (0, 1)]
    absurd = replace(TRIAL, stays_ml=1000.0, sd_ml=3.0, doubt=1)
    found = learn([*good, absurd], PRIORS)
    assert found.left_out == {2}
    assert all(abs(score) < 1 for score in found.scores[:2])
    assert abs(found.scores[2]) > SLIP_SD
