from __future__ import annotations

from math import nan
from typing import get_args

import pytest

from cookbook_build.kitchen.conditions import METHODS, Conditions, Kit, Method


def test_methods_stand_in_the_order_of_the_book() -> None:
    assert METHODS == ("kettle", "microwave", "stove", "jar", "cold")
    assert get_args(Method) == METHODS


def test_the_default_kit_is_the_one_of_the_example_book() -> None:
    kit = Kit()
    assert (kit.bowl_opening_m, kit.bowl_covered) == (0.14, True)
    assert (kit.pot_opening_m, kit.pot_lid) == (0.15, True)
    assert (kit.stove_w, kit.stove_efficiency, kit.microwave_w) == (2000, 0.5, 900)
    assert (kit.jar_holds_ml, kit.jar_label_c, kit.jar_label_h) == (500, 65, 6)


@pytest.mark.parametrize(
    "wrong",
    [{"altitude_m": 12_000.0}, {"air_c": nan}, {"water_c": -1.0}, {"relative_humidity": 1.01}],
)
def test_a_place_where_nobody_cooks_is_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(ValueError, match="must lie between"):
        Conditions(**wrong)


@pytest.mark.parametrize(
    "wrong",
    [
        {"stove_w": 0.0},
        {"stove_efficiency": 1.2},
        {"jar_label_c": 20.0},
        {"jar_label_c": 96.0},
        {"bowl_opening_m": 0.0},
        {"microwave_w": nan},
    ],
)
def test_a_kit_that_no_kitchen_holds_is_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(ValueError, match="must lie between"):
        Kit(**wrong)  # type: ignore[arg-type]
