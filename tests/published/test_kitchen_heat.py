"""Heat of foods and insulated jars against published figures."""

from __future__ import annotations

from math import log
from statistics import median

import pytest

from cookbook_build.foods import load_foods
from cookbook_build.kitchen.boiling import water_heat_kj_per_kg_k
from cookbook_build.kitchen.composition import Composition, specific_heat_kj_per_kg_k
from cookbook_build.kitchen.conditions import Conditions, Kit
from cookbook_build.kitchen.readying import Dish, readying
from cookbook_build.kitchen.warmth import jar_conductance_w_per_k, jar_cooling
from cookbook_build.planning.stores import composition_at


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


@pytest.mark.parametrize(
    ("name", "parts", "printed"),
    [
        # ASHRAE-FOODS, Table 3: water, protein, fat, carbohydrate of which fibre, ash in %, and the
        # specific heat above freezing that the table prints beside them.
        ("asparagus", (92.40, 2.28, 0.20, 4.54, 2.10, 0.57), 4.03),
        ("snap beans", (90.27, 1.82, 0.12, 7.14, 3.40, 0.66), 3.99),
        ("lima beans", (70.24, 6.84, 0.86, 20.16, 4.90, 1.89), 3.52),
        ("beets", (87.58, 1.61, 0.17, 9.56, 2.80, 1.08), 3.91),
        ("broccoli", (90.69, 2.98, 0.35, 5.24, 3.00, 0.92), 4.01),
        ("cabbage", (92.15, 1.44, 0.27, 5.43, 2.30, 0.71), 4.02),
        ("carrots", (87.79, 1.03, 0.19, 10.14, 3.00, 0.87), 3.92),
        ("celery", (94.64, 0.75, 0.14, 3.65, 1.70, 0.82), 4.07),
        ("sweet corn", (75.96, 3.22, 1.18, 19.02, 2.70, 0.62), 3.62),
        ("garlic", (58.58, 6.36, 0.50, 33.07, 2.10, 1.50), 3.17),
        ("kale", (84.46, 3.30, 0.70, 10.01, 2.00, 1.53), 3.82),
        ("leeks", (83.00, 1.50, 0.30, 14.15, 1.80, 1.05), 3.77),
        ("mushrooms", (91.81, 2.09, 0.42, 4.65, 1.20, 0.89), 3.99),
    ],
)
def test_the_handbooks_own_compositions_give_its_own_heats(
    name: str, parts: tuple[float, ...], printed: float
) -> None:
    # Ours run 0.4 to 2.1 % below, as a sum of parts does below the handbook's shorter rule.
    water, protein, fat, carbohydrate, fibre, ash = (part / 100 for part in parts)
    ours = specific_heat_kj_per_kg_k(
        Composition(water, protein, fat, carbohydrate - fibre, fibre, ash)
    )
    assert -0.022 < ours / printed - 1 < 0, name


@pytest.mark.parametrize(
    ("food_id", "printed", "within"),
    [
        # SR28 for the composition (the table of foods), ASHRAE-FOODS for the heat.
        ("carrots-raw", 3.92, 0.03),
        ("sweet-corn-raw", 3.62, 0.03),
        ("beets-raw", 3.91, 0.03),
        ("cabbage-raw", 4.02, 0.03),
        ("celery-raw", 4.07, 0.03),
        ("leeks-raw", 3.77, 0.03),
        ("mushrooms-raw", 3.99, 0.03),
        # SR28 and GEANKOPLIS: ±10 % moist, ±15 % dry; other varieties hold other water.
        ("cucumber-raw", 4.10, 0.1),
        ("oranges-raw", 3.77, 0.1),
        ("plums-raw", 3.52, 0.1),
        ("milk-whole", 3.85, 0.1),
        ("swiss-cheese", 2.68, 0.1),
        ("butter", 2.30, 0.1),
        ("olive-oil", 2.01, 0.1),
        ("flour", 1.84, 0.15),
        ("pasta-dry", 1.86, 0.15),
        ("split-peas-dry", 1.84, 0.15),
    ],
)
def test_foods_of_the_table_hold_the_published_heat(
    food_id: str, printed: float, within: float
) -> None:
    found = load_foods()[food_id]
    ours = specific_heat_kj_per_kg_k(composition_at(found, found.moisture))
    assert ours == pytest.approx(printed, rel=within)


@pytest.mark.parametrize(
    ("food_id", "water", "printed", "high"),
    # GEANKOPLIS prints 3.18 both for eggs and, at 70 % water, for cod: SR28's hold 76 and 81 %, and
    # ours 15 and 19 % more heat. At cod's printed moisture 11 % are left: the two disagree.
    [
        ("eggs-raw", 0.7615, 3.18, 0.15),
        ("cod-raw", 0.8122, 3.18, 0.19),
        ("cod-raw", 0.70, 3.18, 0.11),
    ],
)
def test_eggs_and_cod_hold_more_than_an_old_table_says(
    food_id: str, water: float, printed: float, high: float
) -> None:
    found = load_foods()[food_id]
    ours = specific_heat_kj_per_kg_k(composition_at(found, water))
    assert ours / printed - 1 == pytest.approx(high, abs=0.015)


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


# TEN-JARS: soup of 202 °F (94.4 °C) in ten jars of 10 to 20 oz, °F after an hour. Each was opened
# to be measured, every hour for five.
AFTER_AN_HOUR_F = (147, 157, 164, 168, 170, 172, 173, 174, 175, 178)


def full_default_jar(*, preheated: bool) -> list[float]:
    """Return the default jar's temperatures [°F] hour by hour, full of water of 94.4 °C."""
    place = Conditions(altitude_m=1600.0, air_c=21.0)  # where water boils at 94.7 °C
    kit = Kit(jar_preheated=preheated)
    jar = readying(Dish(450.0, 0.0, 0.0, 1, 3600.0), "jar", place, kit).warmth
    return [jar.temp_c(3600.0 * hour) * 1.8 + 32 for hour in range(6)]


def test_the_default_jar_is_warmer_after_an_hour_than_ten_that_were_opened() -> None:
    # The disagreement is stated: cold and full, ours stands 9 °F above the best of TEN-JARS and
    # 16 °F above their middle. Real jars lose most in the first hour, to lid and neck.
    cold = full_default_jar(preheated=False)[1]
    assert cold - max(AFTER_AN_HOUR_F) == pytest.approx(9, abs=1)
    assert cold - median(AFTER_AN_HOUR_F) == pytest.approx(16, abs=1)


def test_after_the_first_hour_the_default_jar_cools_like_the_best_of_ten() -> None:
    # TEN-JARS: the three best (172 to 178 °F after one hour) stood at 140 °F at the fifth.
    # By hand, from the middle one over 70 °F of room: ln(105/70)/4 h = 0.10 a hour; ours 0.085.
    hours = full_default_jar(preheated=True)
    ours = log((hours[1] - 69.8) / (hours[5] - 69.8)) / 4
    assert ours == pytest.approx(log((175 - 70) / (140 - 70)) / 4, rel=0.2)


def test_the_default_jar_keeps_soup_hot_for_the_four_hours_that_half_of_six_did() -> None:
    # SIX-JARS: of six jars filled with soup of 200 °F, three held it above 140 °F for four hours.
    assert full_default_jar(preheated=False)[4] > 140
