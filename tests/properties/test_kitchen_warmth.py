"""Mass and energy are kept, whatever the bowl, the jar or the drying."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cookbook_build.kitchen.boiling import latent_heat_kj_per_kg, water_heat_kj_per_kg_k
from cookbook_build.kitchen.evaporation import (
    air_vapour_pa,
    boiling_loss_g,
    evaporation_flux_kg_per_m2_s,
    lid_fraction,
)
from cookbook_build.kitchen.heating import opening_area_m2
from cookbook_build.kitchen.rehydration import full_restoration_ml
from cookbook_build.kitchen.warmth import (
    bowl_cooling,
    jar_conductance_w_per_k,
    jar_cooling,
    mixing_temperature_c,
    vessel_surface_m2,
)
from cookbook_build.preserving.yields import dry_yield, residual_moisture

heats = st.floats(600, 10_000)
hot = st.floats(50, 100)
airs = st.floats(5, 35)


@pytest.mark.parametrize("covered", [True, False])
@given(
    heat=heats, start_c=hot, air_c=airs,
    opening_m=st.floats(0.1, 0.3), duration_s=st.floats(120, 3600),
)  # fmt: skip
def test_a_cooling_bowl_keeps_mass_and_energy_to_a_thousandth(
    heat: float, start_c: float, air_c: float, opening_m: float, duration_s: float, *, covered: bool
) -> None:
    """Against our own sums over the bowl's temperatures, not its own books."""
    vapour_pa = air_vapour_pa(air_c, 0.5)
    bowl = bowl_cooling(
        heat, start_c, duration_s,
        opening_m=opening_m, covered=covered, air_c=air_c, vapour_pa=vapour_pa, steps=400,
    )  # fmt: skip
    surface = opening_area_m2(opening_m) * lid_fraction(covered=covered)
    shell = vessel_surface_m2(opening_m)

    def vapour_g_per_s(temp_c: float) -> float:
        return 1000 * surface * evaporation_flux_kg_per_m2_s(temp_c, vapour_pa)

    def drain_w(temp_c: float) -> float:
        excess = temp_c - air_c
        film: float = 1.42 * (abs(excess) / (opening_m / 2)) ** 0.25
        radiated = 0.95 * 5.670374e-8 * ((temp_c + 273.15) ** 4 - (air_c + 273.15) ** 4)
        latent = vapour_g_per_s(temp_c) * latent_heat_kj_per_kg(temp_c)
        return shell * (film * excess + radiated) + latent

    course = list(zip(bowl.times_s, bowl.temps_c, bowl.gone_g, strict=True))
    gone = sum(
        (vapour_g_per_s(one) + vapour_g_per_s(two)) / 2 * (later - since)
        for (since, one, _), (later, two, _) in pairwise(course)
    )
    assert bowl.gone_g[-1] == pytest.approx(gone, rel=1e-3, abs=1e-6)
    drained = sum(
        (drain_w(one) + drain_w(two)) / 2 * (later - since)
        for (since, one, _), (later, two, _) in pairwise(course)
    )
    water_heat = water_heat_kj_per_kg_k(start_c)
    released = sum(
        (heat - water_heat * (before + after) / 2) * (one - two)
        for (_, one, before), (_, two, after) in pairwise(course)
    )
    assert released == pytest.approx(drained, rel=1e-3, abs=1.0)


@pytest.mark.parametrize("covered", [True, False])
@given(heat=heats, start_c=hot, air_c=airs)
def test_a_bowls_own_books_close(
    heat: float, start_c: float, air_c: float, *, covered: bool
) -> None:
    bowl = bowl_cooling(
        heat, start_c, 1800.0,
        opening_m=0.14, covered=covered, air_c=air_c, vapour_pa=air_vapour_pa(air_c, 0.5),
    )  # fmt: skip
    held_after = (heat - water_heat_kj_per_kg_k(start_c) * bowl.gone_g[-1]) * bowl.temps_c[-1]
    left = bowl.convected_j + bowl.radiated_j + bowl.vapour_j
    assert heat * start_c == pytest.approx(held_after + left, rel=1e-9)


@given(heats, hot, airs)
def test_a_hot_bowl_cools_and_dries_steadily(heat: float, start_c: float, air_c: float) -> None:
    bowl = bowl_cooling(
        heat, start_c, 1800.0,
        opening_m=0.14, covered=True, air_c=air_c, vapour_pa=air_vapour_pa(air_c, 0.5),
    )  # fmt: skip
    assert all(one > two for one, two in pairwise(bowl.temps_c))
    assert all(one <= two for one, two in pairwise(bowl.gone_g))


@given(heats, hot, st.floats(-20, 35), st.floats(0, 1e6))
def test_a_perfect_jar_never_cools(
    heat: float, start_c: float, air_c: float, time_s: float
) -> None:
    jar = jar_cooling(heat, start_c, air_c, jar_conductance_w_per_k(500.0, 95.0, 6.0))
    assert jar.temp_c(time_s) == pytest.approx(start_c)
    assert jar.mean_c(time_s) == pytest.approx(start_c)


@given(heats, hot, airs, st.floats(1, 1e5))
def test_a_jars_mean_lies_between_start_and_now(
    heat: float, start_c: float, air_c: float, time_s: float
) -> None:
    jar = jar_cooling(heat, start_c, air_c, 0.05)
    assert jar.temp_c(time_s) <= jar.mean_c(time_s) + 1e-9
    assert jar.mean_c(time_s) <= start_c + 1e-9


@given(st.lists(st.tuples(st.floats(1, 5000), st.floats(-20, 100)), min_size=1, max_size=5))
def test_mixing_neither_makes_nor_loses_heat(parts: list[tuple[float, float]]) -> None:
    common = mixing_temperature_c(parts)
    moved = sum(heat * (temp - common) for heat, temp in parts)
    assert moved == pytest.approx(0, abs=1e-6)


@given(st.floats(0, 3000), st.floats(70, 100))
def test_no_burn_time_loses_nothing(net_w: float, boiling_c: float) -> None:
    assert boiling_loss_g(net_w, boiling_c, 0.0) == 0


@given(st.floats(1, 5000), st.floats(0.3, 0.97), st.floats(0, 0.25))
def test_what_drying_took_water_gives_back(fresh_g: float, fresh: float, dried: float) -> None:
    dry_g = fresh_g * dry_yield(fresh, dried)
    assert dry_g + full_restoration_ml(dry_g, fresh, dried) == pytest.approx(fresh_g)
    assert residual_moisture(fresh_g, dry_g, fresh) == pytest.approx(dried, abs=1e-9)


@pytest.mark.parametrize("covered", [True, False])
@given(
    heat=st.floats(200, 60_000), start_c=st.floats(20, 100), air_c=st.floats(-20, 50),
    opening_m=st.floats(0.02, 1.0), duration_s=st.floats(1, 7 * 86_400),
)  # fmt: skip
def test_a_bowl_never_overshoots_however_long_it_stands(
    heat: float, start_c: float, air_c: float, opening_m: float, duration_s: float, *, covered: bool
) -> None:
    """In the steps that the answers use: warmer than the wet bulb, cooler than it was."""
    bowl = bowl_cooling(
        heat, start_c, duration_s,
        opening_m=opening_m, covered=covered, air_c=air_c, vapour_pa=air_vapour_pa(air_c, 0.5),
    )  # fmt: skip
    coolest, warmest = min(start_c, air_c) - 25, max(start_c, air_c) + 0.5
    assert all(coolest < temp < warmest for temp in bowl.temps_c)
    assert coolest < bowl.mean_c(2 * duration_s) < warmest
    assert list(bowl.gone_g) == sorted(bowl.gone_g)
