"""Temperatures and hours that decide safety, against the bodies that set them."""

from __future__ import annotations

import pytest

from cookbook_build.foods import load_foods
from cookbook_build.kitchen.cautions import (
    ABSORBER_MOISTURE,
    COLD_LINE_C,
    COOK_TO_C,
    FRIDGE_C,
    HOT_LINE_C,
    WARM_AIR_C,
    RawKind,
)
from cookbook_build.kitchen.cooling import Relaxation
from cookbook_build.kitchen.holding import holding, simmered
from cookbook_build.planning.rawness import raw_kind


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


CHART: dict[RawKind, float] = {
    # USDA-CHART, whole °F: poultry, ground meat, whole cuts, fish, egg dishes.
    "poultry": 165,
    "minced meat": 160,
    "whole meat": 145,
    "fish": 145,
    "egg": 160,
}


@pytest.mark.parametrize(("kind", "fahrenheit"), CHART.items())
def test_raw_foods_are_cooked_to_the_charts_temperature(kind: RawKind, fahrenheit: float) -> None:
    # Tenths of a °C, as the chart's own metric column prints them; rounded, never by more.
    assert COOK_TO_C[kind] == pytest.approx(celsius(fahrenheit), abs=0.05)


def test_what_the_chart_leaves_out_is_cooked_to_its_hottest_line() -> None:
    # USDA-CHART has no line for raw milk or flour; leftovers and casseroles are its hottest, 165.
    for kind in COOK_TO_C.keys() - CHART.keys():
        assert COOK_TO_C[kind] == pytest.approx(celsius(165), abs=0.05), kind


@pytest.mark.parametrize(
    ("name", "fahrenheit"),
    [
        # USDA-CHART, in its own words: all poultry, ground poultry too; ground beef, pork, veal and
        # lamb; steaks, roasts and chops; fish; eggs.
        ("chicken breast raw", 165),
        ("ground turkey raw", 165),
        ("ground beef raw", 160),
        ("ground pork raw", 160),
        ("ground lamb raw", 160),
        ("pork sausage raw", 160),
        ("beef top round raw", 145),
        ("lamb shoulder raw", 145),
        ("pork tenderloin raw", 145),
        ("cod raw", 145),
        ("salmon raw", 145),
        ("shrimp raw", 145),
        ("eggs raw", 160),
    ],
)
def test_a_food_of_the_table_finds_its_line_of_the_chart(name: str, fahrenheit: float) -> None:
    food = load_foods().find(name)
    assert food is not None, f"the table has no {name}"
    assert food.raw_animal
    assert COOK_TO_C[raw_kind(food)] == pytest.approx(celsius(fahrenheit), abs=0.05)


def test_the_danger_zone_is_the_departments() -> None:
    # FSIS-ZONE: 40 to 140 °F. The lower edge is printed 4.4 °C, which errs to the cold side.
    assert pytest.approx(celsius(140)) == HOT_LINE_C
    assert celsius(40) - 0.05 < COLD_LINE_C <= celsius(40)
    assert celsius(40) - 0.5 < FRIDGE_C <= celsius(40)  # "4 °C" on the same leaflets


def test_no_line_is_laxer_than_the_food_code() -> None:
    # FOOD-CODE 3-501.16: hot at 57 °C (135 °F) or above, cold at 5 °C (41 °F) or below.
    assert HOT_LINE_C >= 57
    assert COLD_LINE_C <= 5
    assert FRIDGE_C <= 5


@pytest.mark.parametrize(
    ("air_f", "hours"),
    [(70, 2), (89, 2), (91, 1), (100, 1)],  # FSIS-ZONE: two hours, one above 90 °F
)
def test_the_two_hour_rule_shortens_above_90_fahrenheit(air_f: float, hours: float) -> None:
    air_c = celsius(air_f)
    bowl = Relaxation(90.0, air_c, 7200.0)
    held = holding(bowl, air_c, 86_400.0)
    assert bowl.temp_c(held.hot_until_s) == pytest.approx(60, abs=0.5)
    assert held.eat_by_s - held.hot_until_s == 3600 * hours
    assert simmered(600.0, air_c).eat_by_s == 600 + 3600 * hours


def test_warm_air_begins_at_90_fahrenheit() -> None:
    assert pytest.approx(celsius(90), abs=0.05) == WARM_AIR_C  # FSIS-ZONE, printed 32 °C


def test_an_absorber_goes_with_a_tenth_of_moisture_at_most() -> None:
    # HOME-STORAGE: dry foods of about 10 % moisture or less; a_w 0.85 would be far wetter.
    assert ABSORBER_MOISTURE == 0.10
