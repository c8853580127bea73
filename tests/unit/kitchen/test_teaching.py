"""What was learned, as it stands in a component and its answer."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt
from typing import TYPE_CHECKING

import pytest

from cookbook_build.kitchen import (
    CONSISTENCIES,
    Component,
    ComponentWater,
    Conditions,
    Kit,
    Method,
    Portion,
    Tested,
    component_water,
)
from cookbook_build.kitchen.beliefs import Belief, Learned
from cookbook_build.kitchen.learning import learn
from cookbook_build.kitchen.teaching import taught
from cookbook_build.kitchen.trials import Trial, equation

if TYPE_CHECKING:
    from cookbook_build.kitchen.component import Knowledge

PLACE, KIT = Conditions(), Kit()
PEAS = Portion("peas", 40.0, 200.0, 120.0, 0.85, 0.12)
CORN = Portion("corn", 30.0, 100.0, 60.0, 0.60, 0.15)
SALT = Portion("salt", 3.0, 2.5, 0.0, 1.0, 0.0)
BOWL = Component("bowl", 1, (PEAS, SALT), CONSISTENCIES["stew"])
PRIORS = {"peas": Belief(0.85, 0.12), "corn": Belief(0.60, 0.15)}


def water(component: Component, servings: float = 1, method: Method = "jar") -> ComponentWater:
    return component_water(component, servings=servings, method=method, conditions=PLACE, kit=KIT)


def learned(*poured_ml: float, component: Component = BOWL) -> Learned:
    tried = [Trial("jar", 1, each, PLACE) for each in poured_ml]
    return learn([equation("bowl", component, trial, KIT) for trial in tried], PRIORS)


def knowledge(component: Component) -> Knowledge:
    assert component.knowledge
    return component.knowledge


def test_untaught_it_is_as_it_was() -> None:
    known = taught("bowl", BOWL, learned(), speaks=False)
    assert known.portions == BOWL.portions
    assert knowledge(known).free_ratio_sd == pytest.approx(0.12)
    assert water(known).sd_ml == pytest.approx(water(BOWL).sd_ml)


def test_right_trials_draw_the_water_to_them_and_narrow_its_band() -> None:
    # expected are 102 + 0.45 x 145 = 167.25 mL; thrice 200 was right
    assert water(BOWL).total_ml == pytest.approx(167.25)
    answer = water(taught("bowl", BOWL, learned(200.0, 200.0, 200.0), speaks=True))
    assert 197 < answer.total_ml < 200
    assert answer.sd_ml < 0.03 * 200 < water(BOWL).sd_ml


def test_a_neighbour_that_shares_a_store_moves_with_it() -> None:
    pot = replace(BOWL, name="pot", consistency=CONSISTENCIES["soup"])
    answer = water(taught("pot", pot, learned(200.0, 200.0), speaks=False))
    assert answer.total_ml > water(pot).total_ml
    assert answer.sd_ml < water(pot).sd_ml


def test_a_neighbour_of_the_same_consistency_moves_with_it() -> None:
    cup = replace(BOWL, name="cup", portions=(CORN,))
    answer = water(taught("cup", cup, learned(200.0, 200.0), speaks=False))
    assert answer.uptake_ml == water(cup).uptake_ml
    assert answer.phi > water(cup).phi


def test_a_stranger_is_as_it_was() -> None:
    glass = replace(BOWL, name="glass", portions=(CORN,), consistency=CONSISTENCIES["drink"])
    answer = water(taught("glass", glass, learned(200.0), speaks=False))
    assert answer.total_ml == pytest.approx(water(glass).total_ml, rel=1e-12)
    assert answer.sd_ml == pytest.approx(water(glass).sd_ml, rel=1e-12)


def test_the_covariance_is_of_portions_in_order_and_free_water_last() -> None:
    mixed = replace(BOWL, portions=(SALT, PEAS, CORN))
    told = learned(200.0, component=mixed)
    table = knowledge(taught("bowl", mixed, told, speaks=True)).covariance
    peas, corn, stew = (told.names[name] for name in ("peas", "corn", ":stew"))
    own = told.own["bowl"]
    assert [table[0][at] for at in range(4)] == [0.0] * 4
    assert table[1][2] == table[2][1] == pytest.approx(told.covariance[peas, corn])
    assert table[1][3] == pytest.approx(told.covariance[peas, stew] + own.hangs[peas])
    assert table[3][3] == pytest.approx(
        told.covariance[stew, stew] + 2 * own.hangs[stew] + own.variance
    )


def test_uptake_and_free_water_of_one_trial_make_up_for_each_other() -> None:
    # each is known far worse than their sum
    answer = water(taught("bowl", BOWL, learned(167.25), speaks=True))
    portion = taught("bowl", BOWL, learned(167.25), speaks=True).portions[0]
    assert answer.sd_ml < 5 < 120 * 1.45 * portion.uptake_sd


def test_a_store_that_stands_twice_errs_as_one() -> None:
    halves = replace(PEAS, dry_g=20.0, full_ml=60.0)
    split = taught("bowl", replace(BOWL, portions=(halves, halves)), learned(), speaks=False)
    whole = taught("bowl", replace(BOWL, portions=(PEAS,)), learned(), speaks=False)
    assert water(split).sd_ml == pytest.approx(water(whole).sd_ml)
    assert water(whole).sd_ml == pytest.approx(sqrt((1.45 * 14.4) ** 2 + (0.12 * 142) ** 2))


def test_a_tested_dish_keeps_its_water_where_it_was_tested() -> None:
    tested = replace(BOWL, tested=Tested("kettle", 2, 390.0, 600.0, PLACE))
    told = learned(150.0, 150.0, 150.0)
    known = taught("cup", tested, told, speaks=False)
    assert water(known, 2, "kettle").total_ml == pytest.approx(390.0, rel=1e-12)
    assert water(known, 2, "kettle").uptake_ml < water(tested, 2, "kettle").uptake_ml


def test_with_trials_of_its_own_the_trials_speak() -> None:
    tested = replace(BOWL, tested=Tested("jar", 1, 150.0, 600.0, PLACE))
    known = taught("bowl", tested, learned(200.0, 200.0, 200.0), speaks=True)
    assert water(known).total_ml == pytest.approx(200.0, abs=3)


def test_without_any_kept_trial_of_its_own_the_test_speaks() -> None:
    tested = replace(BOWL, tested=Tested("jar", 1, 150.0, 600.0, PLACE))
    known = taught("cup", tested, learned(200.0), speaks=True)
    assert not knowledge(known).speaks
    assert water(known).total_ml == pytest.approx(150.0)


@pytest.mark.parametrize("speaks", [True, False])
def test_a_dish_without_its_optional_parts_learns_with_the_whole(*, speaks: bool) -> None:
    whole = replace(BOWL, portions=(PEAS, CORN), tested=Tested("jar", 1, 260.0, 600.0, PLACE))
    bare = replace(whole, portions=(PEAS,), tested=None, like=whole)
    told = learned(300.0, 300.0, component=whole)
    one, two = (water(taught("bowl", part, told, speaks=speaks)) for part in (whole, bare))
    assert two.phi == pytest.approx(one.phi)
    assert two.total_ml < one.total_ml


def test_no_uptake_is_believed_beyond_what_a_portion_may_say() -> None:
    # eight times fourfold water, each in accord with the others: a cup weighs other than was said
    light = replace(BOWL, portions=(replace(PEAS, dry_g=3.0, full_ml=100.0),))
    told = learned(*[4 * water(light).total_ml] * 8, component=light)
    peas = told.of("peas")
    assert peas
    assert not told.left_out
    assert peas.mean > 2
    assert taught("bowl", light, told, speaks=True).portions[0].uptake_mean == 2.0
