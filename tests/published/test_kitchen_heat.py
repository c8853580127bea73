"""Heat of foods and insulated jars against published figures."""

from __future__ import annotations

from math import log

import pytest

from cookbook_build.kitchen.boiling import water_heat_kj_per_kg_k
from cookbook_build.kitchen.composition import Composition, specific_heat_kj_per_kg_k
from cookbook_build.kitchen.warmth import jar_conductance_w_per_k, jar_cooling


def food(water: float, protein: float, fat: float, carbohydrate: float) -> Composition:
    ash = max(0.0, 100 - water - protein - fat - carbohydrate)
    parts = (water, protein, fat, carbohydrate, ash)
    moist, body, oil, starch, salts = (part / 100 for part in parts)
    return Composition(moist, body, oil, starch, ash=salts)


@pytest.mark.parametrize(
    ("name", "composition", "low", "high"),
    [
        # ASHRAE-FOODS for composition, GEANKOPLIS for heat; ±10 % for moist foods.
        ("carrot", food(87.79, 1.03, 0.19, 10.14), 3.81, 3.94),
        ("snap beans", food(90.27, 1.82, 0.12, 7.14), 3.81, 3.81),
        ("sweet corn", food(75.96, 3.22, 1.18, 19.02), 3.32, 3.32),
        ("potato", food(78.96, 2.07, 0.10, 17.98), 3.52, 3.52),
        ("tomato", food(93.76, 0.85, 0.33, 4.64), 3.98, 3.98),
        # At GEANKOPLIS's own moisture, the rest of the composition ours.
        ("lean beef", food(72.0, 21.0, 6.0, 0.0), 3.43, 3.43),
        ("poultry", food(74.0, 22.0, 3.0, 0.0), 3.31, 3.31),
        ("whole milk", food(87.5, 3.3, 3.5, 5.0), 3.85, 3.85),
        ("olive oil", food(0.0, 0.0, 100.0, 0.0), 2.01, 2.01),
    ],
)
def test_moist_foods_hold_the_measured_heat(
    name: str, composition: Composition, low: float, high: float
) -> None:
    ours = specific_heat_kj_per_kg_k(composition)
    assert 0.9 * low <= ours <= 1.1 * high, name


def test_green_peas_hold_more_than_measured_because_they_are_moister() -> None:
    # GEANKOPLIS has 3.31 at 74.3 % water, ASHRAE-FOODS 78.86 % water: 11 % high as printed; at
    # the moisture of the measurement it comes within a tenth.
    assert specific_heat_kj_per_kg_k(food(74.3, 6.6, 0.5, 17.6)) == pytest.approx(3.31, rel=0.1)


@pytest.mark.parametrize(
    ("name", "composition", "measured"),
    [
        # GEANKOPLIS, ±15 % for dry foods; the rest of the compositions ours.
        ("air-dried peas", food(14.0, 22.0, 1.2, 60.0), 1.84),
        ("flour", food(12.8, 10.5, 1.0, 75.0), 1.84),
        ("macaroni", food(13.0, 12.5, 1.5, 72.0), 1.86),
    ],
)
def test_dry_foods_hold_the_measured_heat(
    name: str, composition: Composition, measured: float
) -> None:
    assert specific_heat_kj_per_kg_k(composition) == pytest.approx(measured, rel=0.15), name


def test_water_holds_the_measured_heat() -> None:
    # GEANKOPLIS: 4.185 kJ/(kg K); within the 0.3 % that the equation states.
    assert water_heat_kj_per_kg_k(20.0) == pytest.approx(4.185, rel=0.003)


@pytest.mark.parametrize(("start_c", "end_c", "hours_to_60"), [(93.3, 73.9, 8.9)])
def test_a_jar_that_kept_its_soup_hot_falls_to_60_when_its_curve_says(
    start_c: float, end_c: float, hours_to_60: float
) -> None:
    # NEWSPAPER-JARS, best of five: 93 to 73.9 °C in 4.5 h. That curve's 60 °C stands at 8.9 h in
    # the reference page, worked from the same two points: one in ten, for the unknown room.
    decay = log((start_c - 21) / (end_c - 21)) / (4.5 * 3600)
    jar = jar_cooling(2000.0, start_c, 21.0, 2000.0 * decay)
    assert jar.temp_c(4.5 * 3600) == pytest.approx(end_c)
    assert jar.time_to_s(60.0) / 3600 == pytest.approx(hours_to_60, rel=0.1)


def test_a_default_jar_stands_with_the_tested_ones() -> None:
    # CHOICE-JARS: eight jars kept over 62 °C after 6 h of the EN 12546-1 test; ours keeps 65.
    jar = jar_cooling(500.0 * 4.1, 95.0, 20.0, jar_conductance_w_per_k(500.0, 65.0, 6.0))
    assert jar.temp_c(6 * 3600) > 62


def test_a_small_jar_cools_as_a_small_jar_did() -> None:
    # CHILD-JAR: 55 to 32 °C in 4 h; worked back at 22 °C the rate is 0.30 /h.
    jar = jar_cooling(1000.0, 55.0, 22.0, 1000.0 * 0.30 / 3600)
    assert jar.temp_c(4 * 3600) == pytest.approx(32.0, abs=0.5)
