"""A meal in an insulated jar, and how long any dish may wait."""

from __future__ import annotations

import pytest

from cookbook_build.kitchen import CONSISTENCIES, Component, Conditions, Kit, Portion
from cookbook_build.kitchen.cooling import Relaxation
from cookbook_build.kitchen.fuel import boiling_fuel_g
from cookbook_build.kitchen.holding import JAR_FOLLOW_S, holding
from cookbook_build.kitchen.jars import change_for_lunch, jar_card
from cookbook_build.kitchen.scaling import component_water

HOME = Conditions(altitude_m=310.0)


def soup(times: float = 1.0) -> Component:
    portion = Portion("peas", 40.0 * times, 200.0 * times, 120.0 * times, 0.85, 0.12)
    return Component("soup", 1, (portion,), CONSISTENCIES["soup"])


def test_doubling_jar_and_meal_together_keeps_the_curve() -> None:
    small = jar_card(soup(), 1, HOME, Kit())
    wall_doubled = Kit(jar_holds_ml=1000.0, jar_inner_g=2 * Kit().jar_inner_g)
    large = jar_card(soup(2.0), 1, HOME, wall_doubled)
    assert large.preheated_c == pytest.approx(small.preheated_c, abs=1e-6)
    assert large.fill == pytest.approx(small.fill)


def test_a_perfect_jar_never_cools() -> None:
    card = jar_card(soup(), 1, HOME, Kit(jar_label_c=95.0))
    assert card.preheated_c == pytest.approx([card.preheated_c[0]] * 13)
    assert card.preheated.hot_until_s == JAR_FOLLOW_S


def test_no_jar_is_warmer_than_boiling_and_all_cool() -> None:
    card = jar_card(soup(), 1, HOME, Kit())
    assert card.preheated_c[0] < 99.0
    assert list(card.preheated_c) == sorted(card.preheated_c, reverse=True)
    assert all(warm > cold for warm, cold in zip(card.preheated_c, card.cold_c, strict=True))


def test_a_fuller_jar_keeps_longer() -> None:
    one, two = (jar_card(soup(0.5), size, HOME, Kit()) for size in (1, 2))
    assert two.jars == 1
    assert two.preheated.hot_until_s > one.preheated.hot_until_s


def test_the_smallest_change_really_reaches_lunch() -> None:
    lunch_s = 4 * 3600.0
    kit = Kit(jar_preheated=False)
    change = change_for_lunch(soup(0.4), 1, lunch_s, HOME, kit)
    assert change is not None
    assert change.kind == "fill"
    filled = jar_card(soup(0.4), int(change.amount), HOME, Kit())
    assert filled.preheated.hot_until_s >= lunch_s
    less = jar_card(soup(0.4), int(change.amount) - 1, HOME, Kit())
    assert less.preheated.hot_until_s < lunch_s


def test_the_two_hours_begin_at_sixty_degrees_and_are_one_in_the_heat() -> None:
    # USDA FSIS: two hours, one above 90 °F (32 °C)
    cooling = Relaxation(90.0, 20.0, 36_000.0)
    mild, hot = holding(cooling, 20.0, JAR_FOLLOW_S), holding(cooling, 35.0, JAR_FOLLOW_S)
    assert cooling.temp_c(mild.hot_until_s) == pytest.approx(60.0, abs=0.1)
    assert mild.eat_by_s - mild.hot_until_s == 7200.0
    assert hot.eat_by_s - hot.hot_until_s == 3600.0


def test_a_cold_soak_counts_from_the_pour() -> None:
    water = component_water(soup(), servings=1, method="cold", conditions=HOME, kit=Kit())
    assert water.hot_until_s == 0.0
    assert water.eat_by_s == 7200.0


def test_fuel_for_a_litre_is_what_a_stove_maker_prints() -> None:
    # stove maker's literature: 7.5 g of gas, 13.1 g of ethanol for 1 L at full efficiency;
    # its temperatures are not printed, so within a tenth
    assert boiling_fuel_g(1000.0, 15.0, 100.0, 1.0, "gas canister") == pytest.approx(7.5, rel=0.1)
    assert boiling_fuel_g(1000.0, 15.0, 100.0, 1.0, "alcohol") == pytest.approx(13.1, rel=0.1)


def test_a_published_spirit_burner_is_matched_at_its_own_efficiency() -> None:
    # spirit-burner test: 22-23 g of ethanol for 1 L from 21 to 100 °C, 49 % on the gross value
    # of 29.7 MJ/kg, hence 49 % x 29.7 / 26.8 on the lower one
    grams = boiling_fuel_g(1000.0, 21.0, 100.0, 0.49 * 29.7 / 26.8, "alcohol")
    assert 22.0 <= grams <= 23.0
