from __future__ import annotations

from math import exp, log, sqrt

import pytest

from cookbook_build.preserving.drying import (
    USUAL_SPREAD,
    DriedRow,
    done_mass_g,
    drying_hours,
    drying_rate,
    is_steady,
    load_rates,
    tray_state,
)
from cookbook_build.preserving.yields import dry_yield


def log_of(*rates: float) -> list[DriedRow]:
    return [DriedRow(f"load {at}", 20 * rate + 100, 100, 20) for at, rate in enumerate(rates)]


def test_a_load_is_all_rows_of_one_day() -> None:
    rows = [
        DriedRow("2026-03-02", 900, 100, 30),
        DriedRow("2026-03-09", 500, 100, 20),
        DriedRow("2026-03-02", 1000, 300, None),
    ]
    assert load_rates(rows) == (50.0, 20.0)


@pytest.mark.parametrize(
    "row",
    [
        DriedRow("day", 900, None, 30),
        DriedRow("day", 900, 100, None),
        DriedRow("day", 900, 100, 0),
        DriedRow("day", 900, 950, 30),
        DriedRow("day", 900, 0, 30),
    ],
)
def test_a_load_that_is_not_wholly_known_counts_for_nothing(row: DriedRow) -> None:
    other = DriedRow("other day", 900, 100, 20)
    assert load_rates([row, other]) == (40.0,)
    assert drying_rate([row]) is None


def test_the_rate_is_the_median_and_an_odd_load_moves_it_little() -> None:
    calm = drying_rate(log_of(95, 98, 100, 102, 105))
    odd = drying_rate(log_of(95, 98, 100, 102, 900))
    assert calm
    assert odd
    assert calm.g_per_h == odd.g_per_h == 100
    assert odd.spread < 1.2 * calm.spread


def test_the_spread_goes_from_the_usual_to_the_households_own() -> None:
    one, few, many = (drying_rate(log_of(*[90, 100, 110] * times)) for times in (1, 3, 200))
    assert one
    assert few
    assert many
    assert USUAL_SPREAD > one.spread > few.spread > many.spread
    assert many.spread == pytest.approx(1.4826 * log(100 / 90), rel=0.1)


def test_the_log_speaks_before_the_papers_and_both_before_the_usual() -> None:
    learned = drying_rate(log_of(100.0))
    assert drying_hours(3000.0, learned, 150.0).source == "log"
    stated = drying_hours(3000.0, None, 150.0)
    assert (stated.source, stated.middle_h) == ("stated", 20.0)
    assert stated.most_h / stated.least_h == pytest.approx(2.0)
    usual = drying_hours(3000.0)
    assert usual.source == "usual"
    assert usual.middle_h == pytest.approx(sqrt(24 * 48))


def test_twice_the_water_takes_twice_the_hours() -> None:
    learned = drying_rate(log_of(95, 100, 105))
    assert learned
    once, twice = (drying_hours(water_g, learned) for water_g in (2000.0, 4000.0))
    assert twice.middle_h == pytest.approx(2 * once.middle_h)
    assert twice.most_h == pytest.approx(twice.middle_h * exp(learned.spread))
    assert twice.least_h < twice.middle_h < twice.most_h


@pytest.mark.parametrize("stated", [0.0, -5.0])
def test_a_dryer_that_takes_nothing_has_no_hours(stated: float) -> None:
    with pytest.raises(ValueError, match="no dryer takes"):
        drying_hours(1000.0, None, stated)


def test_trays_of_a_batch_are_done_at_what_the_batch_yields() -> None:
    share = dry_yield(0.8829, 0.03)
    assert sum(done_mass_g(850.0, share) for _ in range(4)) == pytest.approx(3400 * share)


@pytest.mark.parametrize(
    ("earlier_g", "later_g", "apart_h", "steady"),
    [
        (118.0, 117.0, 1.0, True),
        (116.0, 117.0, 1.0, True),
        (118.17, 117.0, 1.0, False),
        (118.0, 117.0, 0.9, False),
        (118.0, 117.0, 5.0, True),
        (0.0, 0.0, 1.0, False),
    ],
)
def test_steady_is_a_change_below_a_hundredth_in_an_hour_or_more(
    earlier_g: float, later_g: float, apart_h: float, *, steady: bool
) -> None:
    assert is_steady(earlier_g, later_g, apart_h) is steady


@pytest.mark.parametrize(
    ("earlier_g", "later_g", "state"),
    [
        (117.5, 117.0, "done"),
        (118.5, 118.0, "done"),
        (100.3, 100.0, "done"),
        (125.0, 117.0, "still drying"),
        (119.0, 118.5, "steady but heavy"),
    ],
)
def test_a_tray_is_done_at_its_target_and_steady(
    earlier_g: float, later_g: float, state: str
) -> None:
    assert tray_state(117.0, earlier_g, later_g) == state
