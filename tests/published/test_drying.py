"""Lots, rates and hours against what people weighed and extensions print."""

from __future__ import annotations

from math import log
from statistics import stdev

import pytest

from cookbook_build.foods import load_foods
from cookbook_build.preserving.drying import DriedRow, drying_hours, drying_rate
from cookbook_build.preserving.lots import (
    LOT_YIELD_SHARE,
    TABLE_YIELD_SHARE,
    household_yield,
    weighed_lot,
)
from cookbook_build.preserving.yields import MOST_CREDIBLE_MOISTURE, dry_yield

POUND_G = 453.59237

# BIKE-TOUR: grams before and after, whole grams, and whether they teach by SR28's moistures: 3 g of
# 30 g of mushrooms would hold 24 % of water.
LOTS = {
    "carrots-raw": (107, 12, True),
    "mushrooms-raw": (30, 3, False),
    "red-pepper-raw": (154, 13, True),
    "onions-raw": (182, 18, True),
    "peas-raw": (88, 17, True),
}


@pytest.mark.parametrize(("food_id", "lot"), LOTS.items())
def test_lots_that_somebody_weighed_teach_though_the_tables_food_was_drier(
    food_id: str, lot: tuple[int, int, bool]
) -> None:
    # By the table three of five hold less than no water, down to -0.10: theirs were wetter, and a
    # finding for each would cry wolf.
    fresh_g, dry_g, teaches = lot
    weighed = weighed_lot(fresh_g, dry_g, load_foods()[food_id].moisture)
    assert (weighed.fault, weighed.teaches) == (None, teaches)
    assert weighed.moisture is not None
    assert weighed.moisture > -0.105


def test_the_tables_yield_is_as_unsure_as_those_lots_scatter() -> None:
    # Whole grams of 3 to 18 g: the scatter itself is known to a third.
    off = [
        log(dry_g / (fresh_g * dry_yield(load_foods()[food_id].moisture, 0.05)))
        for food_id, (fresh_g, dry_g, _) in LOTS.items()
    ]
    assert pytest.approx(stdev(off), rel=1 / 3) == TABLE_YIELD_SHARE
    assert LOT_YIELD_SHARE < TABLE_YIELD_SHARE


def test_one_lot_of_carrots_takes_the_yield_most_of_the_way() -> None:
    # BIKE-TOUR: 12 g of 107 g; whole grams, so the lot's yield is known to a twentieth.
    table = dry_yield(load_foods()["carrots-raw"].moisture, 0.05)
    own = household_yield(table, [12 / 107])
    assert 12 / 107 < own.mean < table
    assert own.mean == pytest.approx(12 / 107, rel=0.05)


def test_an_extensions_dried_food_is_credible_to_its_last_percent() -> None:
    # CSU-9308: properly dried food holds 5 to 25 % of water.
    assert MOST_CREDIBLE_MOISTURE == 0.25
    for moisture in (0.05, 0.249):
        assert weighed_lot(1000, 1000 * dry_yield(0.88, moisture), 0.88).fault is None


def test_apples_at_a_sixth_are_dry_and_at_a_fifth_are_not() -> None:
    # APPLE-2009 and APPLE-2015: 16 and 20 % of the prepared slices; SR28 09003 has 85.56 % water,
    # and home-dried fruit is to keep about 20 % or less (IOWA-FRUIT).
    dry, damp = weighed_lot(100, 16, 0.8556), weighed_lot(9, 1.8, 0.8556)
    assert dry.fault is None
    assert dry.moisture is not None
    assert 0.05 < dry.moisture < 0.20
    assert damp.fault == "still damp"


def test_beef_that_lost_two_thirds_is_dry_and_half_is_damp() -> None:
    # JERKY-SITE: jerky loses a half to two thirds; lean beef is 72 % water (GEANKOPLIS).
    assert weighed_lot(1000, 1000 / 3, 0.72).fault is None
    assert weighed_lot(1000, 500, 0.72).fault == "still damp"


def test_a_published_run_gives_its_rate_and_its_hours_back() -> None:
    # APPLE-2015: 9 lb of slices to 1.8 lb in 8 h: 0.9 lb an hour.
    rate = drying_rate([DriedRow("run", 9 * POUND_G, 1.8 * POUND_G, 8.0)])
    assert rate
    assert rate.g_per_h == pytest.approx(0.9 * POUND_G)
    assert drying_hours(7.2 * POUND_G, rate).middle_h == pytest.approx(8.0)


def test_an_unknown_machine_takes_as_long_as_an_extension_says() -> None:
    # KSU-FD: a cycle of 24 to 48 h.
    hours = drying_hours(4000.0)
    assert (hours.least_h, hours.most_h) == (24, 48)


def test_one_load_within_that_cycle_leaves_a_band_as_wide() -> None:
    # KSU-FD: most to least is two, as is a band about one load of one's own.
    rate = drying_rate([DriedRow("run", 4000.0, 400.0, 36.0)])
    hours = drying_hours(3600.0, rate)
    assert hours.most_h / hours.least_h == pytest.approx(2.0)
