"""What leaves, and what an oven does, against published figures. A factor of two is meant."""

from __future__ import annotations

import pytest

from cookbook_build.kitchen.boiling import (
    latent_heat_kj_per_kg,
    saturation_pressure_pa,
    water_heat_kj_per_kg_k,
)
from cookbook_build.kitchen.evaporation import air_vapour_pa, evaporation_flux_kg_per_m2_s
from cookbook_build.kitchen.heating import heating_s
from cookbook_build.kitchen.warmth import bowl_cooling

POUND_KG, FOOT_M, INCH_OF_MERCURY_PA, BTU_PER_LB_KJ_PER_KG = 0.45359237, 0.3048, 3386.39, 2.326


@pytest.mark.parametrize("temp_c", [27.0, 40.0])
def test_the_si_constants_are_the_handbooks(temp_c: float) -> None:
    # ASHRAE-POOL: (95 + 37.4 V[mph])(Pw - Pa)[inHg]/Hv[Btu/lb] in lb/(h ft²). Three digits.
    vapour_pa = air_vapour_pa(25.0, 0.5)
    excess = (saturation_pressure_pa(temp_c) - vapour_pa) / INCH_OF_MERCURY_PA
    latent_btu = latent_heat_kj_per_kg(temp_c) / BTU_PER_LB_KJ_PER_KG
    for mph in (0.0, 2.0):
        pounds = (95 + 37.4 * mph) * excess / latent_btu
        published = pounds * POUND_KG / FOOT_M**2 / 3600
        ours = evaporation_flux_kg_per_m2_s(temp_c, vapour_pa, mph * 0.44704)
        assert ours == pytest.approx(published, rel=0.01)


@pytest.mark.parametrize("temp_c", [27.0, 40.0, 60.0])
def test_another_law_agrees_within_a_factor_of_two(temp_c: float) -> None:
    # POOL-SIMPLE: (1 + 0.8 V)(ew - ea)[hPa] x 0.01 kg/(m² h).
    vapour_pa = air_vapour_pa(25.0, 0.5)
    published = 0.01 * (saturation_pressure_pa(temp_c) - vapour_pa) / 100 / 3600
    assert published / 2 < evaporation_flux_kg_per_m2_s(temp_c, vapour_pa) < 2 * published


@pytest.mark.parametrize("temp_c", [27.0, 40.0, 60.0])
def test_the_humidity_ratio_law_agrees_within_a_factor_of_two(temp_c: float) -> None:
    # POOL-RATIO: (25 + 19 v) A (xs - x) kg/h with x in kg water to kg dry air.
    def ratio(vapour_pa: float) -> float:
        return 0.62198 * vapour_pa / (101_325 - vapour_pa)

    vapour_pa = air_vapour_pa(25.0, 0.5)
    published = 25 * (ratio(saturation_pressure_pa(temp_c)) - ratio(vapour_pa)) / 3600
    assert published / 2 < evaporation_flux_kg_per_m2_s(temp_c, vapour_pa) < 2 * published


def test_most_of_an_open_cups_cooling_is_evaporation() -> None:
    # OPEN-CUP: about 70 %, one page's measurement; a sanity check, 15 points either way.
    cup = bowl_cooling(
        1050.0, 90.0, 600.0,
        opening_m=0.08, covered=False, air_c=20.0, vapour_pa=air_vapour_pa(20.0, 0.5),
    )  # fmt: skip
    share = cup.vapour_j / (cup.vapour_j + cup.convected_j + cup.radiated_j)
    assert share == pytest.approx(0.70, abs=0.15)


@pytest.mark.parametrize(
    ("rated_w", "seconds"), [(600, 70), (700, 60), (800, 52), (900, 47), (1000, 42)]
)
def test_an_oven_warms_a_kilogram_by_ten_kelvin_in_the_printed_seconds(
    rated_w: float, seconds: int
) -> None:
    # IEC705, service manual's table: whole seconds.
    heat = 1000 * water_heat_kj_per_kg_k(15.0)
    assert heating_s(heat, 10.0, 20.0, rated_w) == pytest.approx(seconds, abs=0.6)
