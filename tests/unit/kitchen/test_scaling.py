from __future__ import annotations

from dataclasses import FrozenInstanceError, fields, replace
from typing import cast

import pytest

from cookbook_build.kitchen import (
    CONSISTENCIES,
    METHODS,
    Component,
    ComponentWater,
    Conditions,
    Kit,
    Portion,
    Tested,
    component_water,
)
from cookbook_build.kitchen.composition import Composition
from cookbook_build.kitchen.scaling import dry_mix, free_water

HOME, KIT = Conditions(altitude_m=310.0), Kit()
LENTILS = Portion("lentils", 40.0, 150.0, 87.7, 0.85, 0.12)
LEEKS = Portion("leeks", 8.0, 110.0, 38.0, 0.85, 0.12)
SALT = Portion("salt", 1.0, 0.8, 0.0, 1.0, 0.0)
BOWL = Component("bowl", 1, (LENTILS, LEEKS, SALT), CONSISTENCIES["scoopable"])
TESTED = replace(BOWL, tested=Tested("kettle", 1, 165.0, 720.0, HOME))


def water(component: Component = BOWL, **changes: object) -> ComponentWater:
    asked = {"servings": 1, "method": "kettle", "conditions": HOME, "kit": KIT} | changes
    return component_water(component, **asked)


def test_the_parts_add_up_to_the_total() -> None:
    for method in METHODS:
        answer = water(method=method, servings=3)
        parts = answer.uptake_ml + answer.free_ml + answer.loss_ml
        assert parts == pytest.approx(answer.total_ml)


def test_free_water_is_the_consistencys_part_of_restored_food() -> None:
    answer = water()
    assert answer.uptake_ml == pytest.approx(0.85 * (87.7 + 38.0))
    assert answer.free_ml == pytest.approx(0.35 * (49.0 + answer.uptake_ml))
    assert not answer.tested


def test_a_tested_component_gives_back_its_test() -> None:
    answer = water(TESTED)
    assert answer.tested
    assert answer.total_ml == pytest.approx(165.0, abs=1e-9)
    assert answer.rest_s == pytest.approx(720.0, abs=1e-9)
    assert answer.rest_low_s == pytest.approx(answer.rest_high_s, abs=1e-6)


def test_a_tested_component_holds_back_six_percent_and_at_least_a_teaspoon() -> None:
    assert water(TESTED).hold_back_ml == pytest.approx(0.06 * 165.0)
    little = replace(BOWL, tested=Tested("kettle", 1, 60.0, 720.0, HOME))
    assert water(little).hold_back_ml == 5
    assert water(little).start_ml == pytest.approx(55.0)


def test_a_spoonful_holds_back_no_more_than_half() -> None:
    tiny = replace(BOWL, tested=Tested("cold", 1, 6.0, 720.0, HOME))
    answer = water(tiny, method="cold")
    assert (answer.start_ml, answer.hold_back_ml) == pytest.approx((3.0, 3.0))


def test_an_untested_component_holds_back_up_to_the_most_one_should_need() -> None:
    answer = water()
    assert answer.start_ml == pytest.approx(answer.total_ml - answer.sd_ml)
    assert answer.start_ml + answer.hold_back_ml == pytest.approx(answer.total_ml + answer.sd_ml)


def test_uncertainties_add_in_quadrature() -> None:
    answer = water()
    free_sd = 0.12 * (answer.dry_g + answer.uptake_ml)
    stores_sd = 1.35 * 0.12 * (87.7**2 + 38.0**2) ** 0.5
    assert answer.sd_ml == pytest.approx((free_sd**2 + stores_sd**2) ** 0.5)


def test_what_goes_in_once_does_not_scale() -> None:
    bay = Portion("bay leaf", 2.0, 3.0, 1.0, 0.85, 0.12, per_pot=True)
    mix = dry_mix(replace(BOWL, portions=(LENTILS, bay)), 4)
    assert mix.dry_g == pytest.approx(4 * 40.0 + 2.0)
    assert mix.dry_ml == pytest.approx(4 * 150.0 + 3.0)


def test_portions_are_for_the_servings_the_author_wrote() -> None:
    for_two = replace(
        BOWL,
        servings=2,
        portions=tuple(
            replace(p, dry_g=2 * p.dry_g, dry_ml=2 * p.dry_ml, full_ml=2 * p.full_ml)
            for p in BOWL.portions
        ),
    )
    assert water(for_two, servings=5).total_ml == pytest.approx(water(servings=5).total_ml)


def test_a_stove_test_leaves_out_what_boiled_off_elsewhere() -> None:
    on_stove = replace(BOWL, tested=Tested("stove", 1, 190.0, 480.0, HOME))
    answer = water(on_stove, method="jar")
    boiled_off = free_water(on_stove, KIT).tested_loss_ml
    assert boiled_off > 10
    assert answer.total_ml == pytest.approx(190.0 - boiled_off)
    assert answer.loss_ml == 0


def test_a_test_that_mostly_boiled_away_still_gives_sane_water() -> None:
    long_simmer = replace(BOWL, tested=Tested("stove", 1, 30.0, 3600.0, HOME))
    assert water(long_simmer, method="stove").total_ml == pytest.approx(30.0, abs=1e-9)
    for method in METHODS:
        for servings in (1, 4, 8):
            assert water(long_simmer, method=method, servings=servings).start_ml > 0


def test_dry_goods_that_take_up_nothing_still_start_above_zero() -> None:
    sugar = replace(
        BOWL, portions=(Portion("sugar", 20.0, 24.0, 0.0, 1.0, 0.0),),
        consistency=CONSISTENCIES["filling"],
    )  # fmt: skip
    answer = water(sugar, method="cold")
    assert answer.start_ml > 0
    assert answer.total_ml == pytest.approx(2.0)


def test_a_known_composition_changes_warmth_and_not_water_taken_up() -> None:
    oily = replace(LENTILS, composition=Composition(water=0.03, fat=0.9))
    fat, usual = water(replace(BOWL, portions=(oily,))), water(replace(BOWL, portions=(LENTILS,)))
    assert fat.uptake_ml == usual.uptake_ml
    assert fat.derivation.start_c != usual.derivation.start_c


def test_the_answer_says_what_it_was_derived_from() -> None:
    said = water(TESTED, method="stove", conditions=Conditions(altitude_m=2400.0)).derivation
    assert said.boiling_c == pytest.approx(92.0, abs=0.1)
    assert said.mean_c == said.boiling_c
    assert said.reference_rest_s == 720
    assert said.lost_heating_ml + said.lost_resting_ml > 5
    assert said.tested_loss_ml > 0
    assert said.heating_s > 30


def test_answers_are_frozen_and_slotted() -> None:
    answer = water()
    with pytest.raises(FrozenInstanceError):
        answer.total_ml = 1.0  # type: ignore[misc]
    assert not hasattr(answer, "__dict__")
    assert [field.name for field in fields(answer)][:3] == ["name", "dry_g", "dry_ml"]


@pytest.mark.parametrize("servings", [0, -1, float("nan"), float("inf")])
def test_impossible_servings_are_refused(servings: float) -> None:
    with pytest.raises(ValueError, match="above zero"):
        water(servings=servings)


def test_a_component_without_dry_mix_is_refused() -> None:
    with pytest.raises(ValueError, match="above zero"):
        replace(BOWL, portions=())


def test_a_test_without_water_is_refused() -> None:
    with pytest.raises(ValueError, match="above zero"):
        Tested("kettle", 1, 0.0, 720.0, HOME)


def test_an_unknown_method_is_refused() -> None:
    with pytest.raises(ValueError, match="no method"):
        water(method=cast("object", "oven"))
