"""What a trial says, in millilitres."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cookbook_build.kitchen import (
    CONSISTENCIES,
    METHODS,
    Component,
    Conditions,
    Kit,
    Method,
    Portion,
    component_water,
)
from cookbook_build.kitchen.trials import Trial, equation

PLACE, KIT = Conditions(), Kit()
PEAS = Portion("peas", 40.0, 200.0, 120.0, 0.85, 0.12)
SALT = Portion("salt", 3.0, 2.5, 0.0, 1.0, 0.0)
BOWL = Component("bowl", 1, (PEAS,), CONSISTENCIES["stew"])
RIGHT = Trial("jar", 1, 200.0, PLACE)
THICK = replace(RIGHT, verdict="thick")
THIN = replace(RIGHT, verdict="thin")


@pytest.mark.parametrize(
    ("trial", "right_ml", "sd_ml"),
    [
        (RIGHT, 200.0, 6.0),
        (replace(THICK, added_ml=30.0), 230.0, 18.4),
        (replace(THICK, added_ml=0.0), 200.0, 16.0),
        (THICK, 220.0, 17.6),
        (THIN, 180.0, 14.4),
    ],
)
def test_a_verdict_says_what_was_right_and_how_surely(
    trial: Trial, right_ml: float, sd_ml: float
) -> None:
    assert trial.right_ml == pytest.approx(right_ml)
    assert trial.sd_ml == pytest.approx(sd_ml)
    said = equation("bowl", BOWL, trial, KIT)
    assert (said.stays_ml, said.sd_ml) == pytest.approx((right_ml, sd_ml))


def test_stores_grow_with_the_servings() -> None:
    said = equation("bowl", BOWL, replace(RIGHT, servings=3), KIT)
    assert said.dry_g == pytest.approx(120.0)
    assert dict(said.full_ml) == pytest.approx({"peas": 360.0})


def test_what_is_per_pot_goes_in_once() -> None:
    pot = replace(BOWL, portions=(PEAS, replace(PEAS, store="leek", per_pot=True)))
    said = equation("bowl", pot, replace(RIGHT, servings=3), KIT)
    assert said.dry_g == pytest.approx(160.0)
    assert dict(said.full_ml) == pytest.approx({"peas": 360.0, "leek": 120.0})


def test_a_store_named_twice_stands_once() -> None:
    twice = replace(BOWL, portions=(PEAS, replace(PEAS, full_ml=30.0)))
    assert equation("bowl", twice, RIGHT, KIT).full_ml == (("peas", 150.0),)


def test_salt_takes_up_nothing_and_weighs_what_it_weighs() -> None:
    salted = replace(BOWL, portions=(PEAS, SALT))
    said = equation("bowl", salted, RIGHT, KIT)
    assert (said.dry_g, dict(said.full_ml)) == (43.0, {"peas": 120.0})


def test_an_uptake_known_for_sure_is_no_unknown() -> None:
    # 10 g that surely take up 20 mL are 30 g that take up nothing, and 20 mL less that stay
    sure = Portion("crumbs", 10.0, 40.0, 20.0, 1.0, 0.0)
    said = equation("bowl", replace(BOWL, portions=(PEAS, sure)), RIGHT, KIT)
    assert (said.dry_g, said.stays_ml, dict(said.full_ml)) == (70.0, 180.0, {"peas": 120.0})


def test_no_trial_is_surer_than_its_dry_mix_was_weighed() -> None:
    assert equation("bowl", BOWL, replace(RIGHT, water_ml=5.0), KIT).sd_ml == pytest.approx(0.4)


def test_what_boils_off_does_not_stay() -> None:
    on_stove = equation("bowl", BOWL, replace(RIGHT, method="stove"), KIT)
    assert on_stove.stays_ml < 195


@pytest.mark.parametrize("method", METHODS)
def test_the_expected_water_found_right_says_nothing_new(method: Method) -> None:
    answer = component_water(BOWL, servings=2, method=method, conditions=PLACE, kit=KIT)
    said = equation("bowl", BOWL, Trial(method, 2, answer.total_ml, PLACE), KIT)
    expected_ml = 0.85 * 240 + 0.45 * (80 + 0.85 * 240)
    assert said.stays_ml == pytest.approx(expected_ml, rel=1e-9)


def test_a_longer_rest_in_an_open_bowl_loses_more() -> None:
    bare, tried = Kit(bowl_covered=False), replace(RIGHT, method="kettle")
    short, long = (
        equation("bowl", BOWL, replace(tried, rest_s=rest), bare).stays_ml for rest in (300, 1800)
    )
    assert long < short < 200


def test_the_verdict_mends_the_water_before_its_loss() -> None:
    thick = replace(THICK, method="stove", added_ml=40.0)
    right = replace(RIGHT, method="stove", water_ml=240.0)
    assert equation("bowl", BOWL, thick, KIT).stays_ml == pytest.approx(
        equation("bowl", BOWL, right, KIT).stays_ml
    )


@pytest.mark.parametrize("change", [{"water_ml": 0.0}, {"servings": 0.0}, {"added_ml": -1.0}])
def test_no_water_no_servings_and_water_taken_back_are_refused(change: dict[str, float]) -> None:
    with pytest.raises(ValueError, match="zero"):
        replace(THICK, **change)  # type: ignore[arg-type]
