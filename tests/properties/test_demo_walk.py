"""Every demo recipe by every method, size and altitude: no number contradicts another."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.kitchen.cautions import HOT_LINE_C
from cookbook_build.kitchen.consistency import CONSISTENCIES
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.camp import BANDS_M, camp_cell, jar_day
from cookbook_build.planning.cautions import LateCaution, SoakCaution, dish_cautions
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.views import serving_sizes

if TYPE_CHECKING:
    from cookbook_build.kitchen.scaling import ComponentWater
    from cookbook_build.planning.dishes import Dish

BOOK = Path(__file__).parents[2] / "content_demo"
ALTITUDES_M = (None, *BANDS_M["metres"])
FREE_ABOVE_ZERO = {name for name, usual in CONSISTENCIES.items() if usual.free_ratio > 0}


def demo_dishes() -> dict[str, Dish]:
    findings = Findings()
    book = read_book(BOOK, findings)
    assert book is not None
    return dict(reckoned(book, findings).dishes)


DISHES = demo_dishes()


def contradictions(water: ComponentWater, method: str) -> list[str]:
    """Return what is wrong with one answer."""
    d = water.derivation
    wrong = {
        "warmer than boiling": max(d.start_c, d.mean_c, d.ready_c) > d.boiling_c + 1e-9,
        "warms while it rests": method in {"kettle", "microwave", "jar"}
        and not d.start_c >= d.mean_c >= d.ready_c,
        "parts don't add up": abs(water.uptake_ml + water.free_ml + water.loss_ml - water.total_ml)
        > 1e-6,
        "negative loss": water.loss_ml < 0,
        "loss without fire or air": method in {"jar", "cold"} and water.loss_ml != 0,
        "ready before its rest": water.ready_s < water.rest_s,
        "rest outside its band": not water.rest_low_s <= water.rest_s <= water.rest_high_s,
        "hot after it must be eaten": water.hot_until_s >= water.eat_by_s,
        "more than two hours": water.eat_by_s - water.hot_until_s > 7200.0 + 1e-6,
        "hot though it never was": method != "stove"
        and d.start_c < HOT_LINE_C
        and water.hot_until_s > d.heating_s,
        "cold but called hot": method == "cold" and water.hot_until_s != 0,
        "no water": not 0 < water.start_ml < water.start_ml + water.hold_back_ml,
    }
    return [name for name, is_so in wrong.items() if is_so]


@pytest.mark.parametrize("address", sorted(DISHES))
def test_no_answer_contradicts_itself(address: str) -> None:
    dish = DISHES[address]
    for method in dish.methods:
        for size in (1, 2, 3, 4, 6, 8):
            for altitude_m in ALTITUDES_M:
                waters = dish.waters(size, method, altitude_m)
                for part, water in zip(dish.parts, waters, strict=True):
                    where = (method, size, altitude_m)
                    assert contradictions(water, dish.part_method(part, method)) == [], where
                    if part.text.consistency in FREE_ABOVE_ZERO:
                        assert water.total_ml > water.uptake_ml, where


@pytest.mark.parametrize("address", sorted(DISHES))
def test_what_is_not_ready_in_time_says_so(address: str) -> None:
    dish = DISHES[address]
    for method in dish.methods:
        for size in (1, 8):
            for altitude_m in ALTITUDES_M:
                late = any(w.ready_s > w.eat_by_s for w in dish.waters(size, method, altitude_m))
                found = dish_cautions(dish, size, method, altitude_m)
                said = any(
                    isinstance(c, LateCaution) or (isinstance(c, SoakCaution) and c.too_long)
                    for c in found
                )
                assert said == (late and method != "jar"), (method, size, altitude_m)


@pytest.mark.parametrize("address", sorted(DISHES))
def test_up_the_mountain_it_boils_cooler_and_rests_longer(address: str) -> None:
    dish = DISHES[address]
    for method in ("stove", "kettle"):
        if method not in dish.methods:
            continue
        cells = [camp_cell(dish, 2, method, at) for at in BANDS_M["metres"]]
        boils = [cell.waters[0].derivation.boiling_c for cell in cells]
        rests = [cell.waters[0].rest_s for cell in cells]
        assert boils == sorted(boils, reverse=True)
        assert rests == sorted(rests)
        assert all(cell.fuel_g > 0 for cell in cells)


@pytest.mark.parametrize("address", sorted(a for a, d in DISHES.items() if "jar" in d.methods))
def test_the_jar_card_and_the_water_answer_tell_one_story(address: str) -> None:
    dish = DISHES[address]
    for size in serving_sizes_of(dish):
        for altitude_m in ALTITUDES_M:
            card = jar_day(dish, size, altitude_m).card
            water = dish.waters(size, "jar", altitude_m)[0]
            assert card.preheated.hot_until_s == water.hot_until_s
            assert card.preheated.eat_by_s == water.eat_by_s
            # the card holds the first pour, the answer all the water: a degree at the most
            assert 0 <= water.derivation.start_c - card.preheated_c[0] < 1.5
            assert 0 < card.fill <= 1


def serving_sizes_of(dish: Dish) -> tuple[int, ...]:
    book = read_book(BOOK, Findings())
    assert book is not None
    return serving_sizes(dish, book)
