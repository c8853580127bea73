"""How short a run can be: no handful dries in minutes, and a band lies about its middle."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cookbook_build.preserving.drying import DryingHours, DryingRate, drying_hours
from cookbook_build.preserving.runs import USUAL_LEAST_H, run_of, shortest_run_h

HOURS = st.floats(0.01, 500.0)


def test_a_handful_takes_the_shortest_run_of_the_log() -> None:
    by_water = drying_hours(40.0, DryingRate(110.0, 0.2, 9))
    assert by_water.middle_h < 0.5  # water over rate alone: minutes
    run = run_of(by_water, shortest_run_h([26.0, 21.0, 33.5], "freeze"), from_log=True)
    assert run.hours.middle_h == run.hours.least_h == 21.0
    assert run.hours.most_h > 21.0
    assert run.is_least
    assert run.from_log


def test_without_a_log_a_run_is_a_usual_least_one() -> None:
    # common practice, no source: a freeze dryer 18 h, an air dryer 4 h
    assert shortest_run_h([], "freeze") == 18.0
    assert shortest_run_h([0.0], "air") == 4.0


def test_a_full_load_is_not_touched() -> None:
    hours = drying_hours(3600.0, DryingRate(100.0, 0.1, 12))
    run = run_of(hours, 18.0)
    assert run.hours == hours
    assert not run.is_least


def test_a_wide_band_begins_at_half_its_middle() -> None:
    run = run_of(DryingHours(60.0, 12.0, 300.0, "log"), 4.0)
    assert run.hours.least_h == 30.0


def test_an_empty_load_has_a_band_too() -> None:
    run = run_of(drying_hours(0.0, DryingRate(100.0, 0.1, 3)), USUAL_LEAST_H["freeze"])
    assert run.hours.least_h == run.hours.middle_h == 18.0 < run.hours.most_h


def test_no_run_takes_no_time() -> None:
    with pytest.raises(ValueError, match="no run takes"):
        run_of(DryingHours(1.0, 1.0, 1.0, "log"), 0.0)


@given(middle=HOURS, factor=st.floats(1.0, 8.0), least=HOURS)
def test_every_band_lies_about_its_middle(middle: float, factor: float, least: float) -> None:
    run = run_of(DryingHours(middle, middle / factor, middle * factor, "log"), least)
    hours = run.hours
    assert hours.least_h <= hours.middle_h <= hours.most_h
    assert hours.least_h >= hours.middle_h / 2
    assert hours.middle_h >= least
