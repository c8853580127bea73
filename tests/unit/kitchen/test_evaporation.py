from __future__ import annotations

import pytest

from cookbook_build.kitchen.evaporation import (
    air_vapour_pa,
    boiling_loss_g,
    evaporation_flux_kg_per_m2_s,
    heating_loss_g,
    lid_fraction,
    microwave_loss_g,
)
from cookbook_build.kitchen.heating import microwave_share, net_simmer_w


def test_a_cold_dish_in_moist_air_loses_nothing() -> None:
    assert evaporation_flux_kg_per_m2_s(5.0, air_vapour_pa(30.0, 0.9)) == 0


def test_wind_and_warmth_take_more() -> None:
    still = evaporation_flux_kg_per_m2_s(60.0, 1170.0)
    assert evaporation_flux_kg_per_m2_s(60.0, 1170.0, 1.0) > still
    assert evaporation_flux_kg_per_m2_s(70.0, 1170.0) > still


def test_a_lid_lets_out_a_tenth() -> None:
    assert lid_fraction(covered=True) == 0.1
    assert lid_fraction(covered=False) == 1


def test_no_time_on_the_fire_loses_nothing() -> None:
    assert boiling_loss_g(1000.0, 100.0, 0.0) == 0
    assert heating_loss_g(0.0, 15.0, 100.0, 0.02, 1170.0) == 0
    assert microwave_loss_g(1000.0, 15.0, 100.0, 900.0, 0.0) == 0


def test_an_oven_heats_before_it_boils_anything_off() -> None:
    # 1000 J/K x 85 K = 85 kJ, 100 s at 850 W; then 10 s make 8500 J of steam.
    assert microwave_loss_g(1000.0, 15.0, 100.0, 850.0, 100.0) == pytest.approx(0, abs=1e-9)
    assert microwave_loss_g(1000.0, 15.0, 100.0, 850.0, 110.0) == pytest.approx(
        8.5e3 / 2256.5, 1e-3
    )


def test_a_small_load_takes_less_of_the_oven() -> None:
    assert 0.69 < microwave_share(50.0) < microwave_share(400.0) < 0.91
    assert microwave_share(3000.0) == 1


def test_a_fire_that_only_replaces_the_pots_own_loss_makes_no_steam() -> None:
    assert net_simmer_w(20.0, 0.15, 80.0, lid=True) == 0
    assert net_simmer_w(150.0, 0.15, 80.0, lid=False) > net_simmer_w(150.0, 0.15, 80.0, lid=True)
