from __future__ import annotations

import pytest

from cookbook_build.kitchen.cooling import Relaxation
from cookbook_build.kitchen.resting import (
    COVERED_BOWL_C,
    CRUSHED_REST_S,
    WHOLE_REST_S,
    rest_band_s,
    rest_s,
    settled_rest_s,
)


def test_common_practice_has_crushed_pieces_rest_five_minutes_and_whole_ones_ten() -> None:
    assert (CRUSHED_REST_S, WHOLE_REST_S) == (300, 600)


def test_at_the_tested_temperature_the_tested_rest_comes_back_without_a_band() -> None:
    assert rest_s(720.0, 68.0, 68.0) == 720
    assert rest_band_s(720.0, 68.0, 68.0) == (720, 720)


def test_a_cold_soak_takes_several_times_the_hot_rest() -> None:
    assert 3 < rest_s(600.0, COVERED_BOWL_C, 16.0) / 600.0 < 4


@pytest.mark.parametrize("mean_c", [5.0, 40.0, 95.0])
def test_the_band_holds_the_rest(mean_c: float) -> None:
    low, high = rest_band_s(600.0, 65.0, mean_c)
    assert low < rest_s(600.0, 65.0, mean_c) < high


def test_the_settled_rest_fits_the_mean_temperature_over_itself() -> None:
    warmth = Relaxation(80.0, 20.0, 2000.0)
    rest = settled_rest_s(warmth, 900.0, 75.0)
    assert rest == pytest.approx(rest_s(900.0, 75.0, warmth.mean_c(rest)), rel=1e-12)


def test_a_rest_of_no_time_is_refused() -> None:
    with pytest.raises(ValueError, match="takes time"):
        rest_s(0.0, 60.0, 60.0)
