"""Drying and cooking balances against what people weighed and measured."""

from __future__ import annotations

import pytest

from cookbook_build.preserving.yields import (
    RESIDUAL_MOISTURE,
    dry_yield,
    uncooked_mass_g,
    water_removed,
)


@pytest.mark.parametrize(
    ("food", "raw_cup_g", "raw", "cooked_cup_g", "cooked", "cups"),
    [
        # SR28 for cups and moistures; MO-MP563 and NM-E132 for cups of cooked food from a cup.
        ("lentils", 192, 0.0826, 198, 0.6964, 3.0),  # 16069, 16070
        ("chickpeas", 200, 0.0768, 164, 0.6021, 3.0),  # 16056, 16057
        ("lima beans", 178, 0.1017, 188, 0.6979, 3.0),  # 16071, 16072
        ("pearl barley", 200, 0.1009, 157, 0.6880, 4.0),  # 20005, 20006
    ],
)
def test_a_raw_cup_cooks_to_the_published_cups(
    food: str, raw_cup_g: float, raw: float, cooked_cup_g: float, cooked: float, cups: float
) -> None:
    # Whole cups are printed, and the spread source has 2 to 3 for beans: within a sixth.
    raw_cups = uncooked_mass_g(cups * cooked_cup_g, cooked, raw) / raw_cup_g
    assert raw_cups == pytest.approx(1.0, rel=1 / 6), food


def test_apples_dried_at_home_weigh_what_two_people_weighed() -> None:
    # APPLE-2009 and APPLE-2015: 16 and 20 % of the prepared slices; SR28 09003 has 85.56 %
    # water. Home-dried fruit keeps about 20 % or less (IOWA-FRUIT): the balance lies between.
    driest, moistest = dry_yield(0.8556, 0.05), dry_yield(0.8556, 0.20)
    assert driest < 0.16 < moistest
    assert moistest == pytest.approx(0.20, abs=0.025)


def test_the_default_residual_of_freeze_drying_is_drier_than_an_extensions_figure() -> None:
    # IOWA-FD: 98-99 % of the moisture removed. Of a carrot (ASHRAE-FOODS, 87.79 %) our 3 %
    # means 99.6 %: the default is a target, not a typical result. Its effect is small.
    removed = water_removed(0.8779, RESIDUAL_MOISTURE["freeze"]) / 0.8779
    assert removed > 0.99
    assert removed == pytest.approx(0.99, abs=0.007)


def test_freeze_dried_leeks_on_the_table_are_as_dry_as_the_default() -> None:
    # SR28 11624: leeks, freeze-dried, 2.0 % water.
    assert RESIDUAL_MOISTURE["freeze"] == pytest.approx(0.020, abs=0.011)
