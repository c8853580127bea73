from __future__ import annotations

from math import inf

import pytest

from cookbook_build.kitchen.cooling import Relaxation
from cookbook_build.kitchen.warmth import (
    bowl_cooling,
    jar_conductance_w_per_k,
    jar_cooling,
    mixing_temperature_c,
)


def test_mixing_meets_between_by_heat() -> None:
    assert mixing_temperature_c([(3.0, 100.0), (1.0, 20.0)]) == 80
    with pytest.raises(ValueError, match="without heat"):
        mixing_temperature_c([])


def test_a_full_jar_does_what_its_label_says() -> None:
    conductance = jar_conductance_w_per_k(500.0, 65.0, 6.0)
    jar = jar_cooling(500.0 * 4.1, 95.0, 20.0, conductance)
    assert jar.temp_c(6 * 3600.0) == pytest.approx(65.0)


def test_half_a_jar_cools_twice_as_fast() -> None:
    full, half = (jar_cooling(heat, 95.0, 20.0, 0.05) for heat in (2000.0, 1000.0))
    assert half.temp_c(3600.0) == pytest.approx(full.temp_c(7200.0))


def test_a_single_serving_in_a_big_jar_falls_below_60_c_within_hours() -> None:
    conductance = jar_conductance_w_per_k(500.0, 65.0, 6.0)
    jar = jar_cooling(250 * 4.18 + 70 * 1.75 + 60, 90.0, 20.0, conductance)
    assert 3 < jar.time_to_s(60.0) / 3600 < 4.2


def test_a_perfect_jar_never_cools() -> None:
    jar = jar_cooling(1000.0, 90.0, 20.0, jar_conductance_w_per_k(500.0, 95.0, 6.0))
    assert jar.temp_c(1e6) == jar.mean_c(1e6) == 90
    assert jar.time_to_s(60.0) == inf


def test_a_jar_never_cools_below_the_air() -> None:
    jar = jar_cooling(1000.0, 90.0, 20.0, 0.05)
    assert jar.time_to_s(20.0) == inf
    assert jar.time_to_s(95.0) == 0
    assert Relaxation(20.0, 20.0, 100.0).mean_c(50.0) == 20


@pytest.mark.parametrize("label", [(500.0, 20.0, 6.0), (500.0, 96.0, 6.0), (500.0, 65.0, 0.0)])
def test_a_label_that_no_jar_can_keep_is_refused(label: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="no jar"):
        jar_conductance_w_per_k(*label)


def test_an_empty_vessel_is_refused() -> None:
    with pytest.raises(ValueError, match="needs something"):
        jar_cooling(0.0, 90.0, 20.0, 0.05)
    with pytest.raises(ValueError, match="needs heat"):
        bowl_cooling(0.0, 90.0, 60.0, opening_m=0.14, covered=True, air_c=20.0, vapour_pa=1170.0)


def test_finer_steps_change_a_bowl_by_less_than_a_third_of_a_degree() -> None:
    def at(steps: int) -> float:
        bowl = bowl_cooling(
            1300.0, 80.0, 7200.0,
            opening_m=0.14, covered=False, air_c=20.0, vapour_pa=1170.0, steps=steps,
        )  # fmt: skip
        return bowl.temp_c(720.0)

    assert at(32) == pytest.approx(at(2000), abs=0.33)


def test_beyond_its_end_a_cooling_keeps_its_last_values() -> None:
    bowl = bowl_cooling(
        1300.0, 80.0, 600.0, opening_m=0.14, covered=True, air_c=20.0, vapour_pa=1170.0
    )
    assert bowl.temp_c(9e9) == bowl.temps_c[-1]
    assert bowl.lost_g(9e9) == bowl.gone_g[-1]
    assert bowl.mean_c(0.0) == bowl.start_c == 80
    assert bowl.temps_c[-1] < bowl.mean_c(600.0) < 80
