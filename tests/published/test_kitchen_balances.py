"""Heat lost is heat given, to a thousandth, reckoned with the steam tables and by hand."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest
from iapws import IAPWS97

from cookbook_build.kitchen.boiling import boiling_point_c
from cookbook_build.kitchen.conditions import Conditions, Kit
from cookbook_build.kitchen.evaporation import air_vapour_pa
from cookbook_build.kitchen.fuel import LOWER_HEATING_MJ_PER_KG, Fuel, boiling_fuel_g, fuel_g
from cookbook_build.kitchen.heating import microwave_share, opening_area_m2
from cookbook_build.kitchen.readying import Dish, readying
from cookbook_build.kitchen.warmth import bowl_cooling, mixing_temperature_c

THOUSANDTH = 1e-3
HOME, KIT = Conditions(), Kit()


@cache
def enthalpy(temp_c: float, vapour: int = 0) -> float:
    """Return IF97's enthalpy of saturated water, or vapour, above water at 0 °C [J/g]."""
    return float(IAPWS97(T=temp_c + 273.15, x=vapour).h)


@pytest.mark.parametrize(
    ("covered", "start_c", "about_c", "duration_s"),
    [
        (True, 95.0, 71.0, 600.0),
        (True, 80.0, 62.0, 600.0),
        (True, 70.0, 40.0, 1800.0),
        (False, 95.0, 55.0, 600.0),
        (False, 80.0, 51.0, 600.0),
        (False, 70.0, 31.0, 1800.0),
    ],
)
def test_a_bowl_gives_up_what_the_steam_tables_say_it_held(
    *, covered: bool, start_c: float, about_c: float, duration_s: float
) -> None:
    # IF97: 300 g of water in a weightless bowl. What it held before, less what it holds after, has
    # left by convection, radiation and as vapour. Its heat capacity is IF97's mean over the fall.
    heat = 300 * (enthalpy(start_c) - enthalpy(about_c)) / (start_c - about_c)
    bowl = bowl_cooling(
        heat, start_c, duration_s,
        opening_m=0.14, covered=covered, air_c=20.0, vapour_pa=air_vapour_pa(20.0, 0.5), steps=200,
    )  # fmt: skip
    left_g = 300 - bowl.gone_g[-1]
    given = 300 * enthalpy(start_c) - left_g * enthalpy(bowl.temps_c[-1])
    lost = bowl.convected_j + bowl.radiated_j + bowl.vapour_j
    assert lost == pytest.approx(given, rel=THOUSANDTH)


@pytest.mark.parametrize("start_c", [95.0, 80.0, 70.0])
def test_the_vapour_carries_its_enthalpy(start_c: float) -> None:
    # IF97: each gram that leaves takes the enthalpy of saturated vapour along.
    bowl = bowl_cooling(
        1250.0, start_c, 1800.0,
        opening_m=0.14, covered=False, air_c=20.0, vapour_pa=air_vapour_pa(20.0, 0.5), steps=200,
    )  # fmt: skip
    course = pairwise(zip(bowl.temps_c, bowl.gone_g, strict=True))
    carried = sum((two - one) * enthalpy((hot + cool) / 2, 1) for (hot, one), (cool, two) in course)
    assert bowl.vapour_j == pytest.approx(carried, rel=THOUSANDTH)


@pytest.mark.parametrize("altitude_m", [0.0, 2400.0])
def test_a_pot_takes_what_the_burner_gives(altitude_m: float) -> None:
    # IF97 for 500 g of water from 15 °C to the boil; the pot's 200 g of steel at 0.5 kJ/(kg K)
    # hold 100 J/K from 20 °C. The kit's burner gives 2000 W, half of which reaches the pot.
    boils_c = boiling_point_c(altitude_m)
    ready = readying(Dish(500.0, 0.0, 0.0, 1, 600.0), "stove", Conditions(altitude_m), KIT)
    taken = 500 * (enthalpy(boils_c) - enthalpy(15.0)) + 100 * (boils_c - 20)
    assert 2000 * 0.5 * ready.heating_s == pytest.approx(taken, rel=THOUSANDTH)


def test_a_simmering_pot_boils_away_what_its_wall_does_not_give_to_the_air() -> None:
    # IF97 for the steam. By hand: 2000 W x 0.5 x 0.15 = 150 W come in; a lidded pot half as deep as
    # its 15 cm are wide has 3 x 0.01767 = 0.0530 m² and gives off 12 x 0.0530 x 80.0 = 50.9 W.
    ready = readying(Dish(500.0, 0.0, 0.0, 1, 600.0), "stove", HOME, KIT)
    boils_c = boiling_point_c(0.0)
    steam_w = ready.steam_g_per_s * (enthalpy(boils_c, 1) - enthalpy(boils_c))
    assert steam_w == pytest.approx(150 - 50.88, rel=THOUSANDTH)
    assert 3 * opening_area_m2(0.15) == pytest.approx(0.0530, abs=5e-5)


def test_an_oven_puts_its_watts_into_water_and_bowl() -> None:
    # IF97 for a litre, which takes all of the rating (IEC705), from 15 °C; the bowl's 300 g of
    # ceramic at 0.9 kJ/(kg K) hold 270 J/K from 20 °C.
    boils_c = boiling_point_c(0.0)
    ready = readying(Dish(1000.0, 0.0, 0.0, 1, 600.0), "microwave", HOME, KIT)
    taken = 1000 * (enthalpy(boils_c) - enthalpy(15.0)) + 270 * (boils_c - 20)
    assert microwave_share(1000.0) == 1
    assert 900 * ready.heating_s == pytest.approx(taken, rel=THOUSANDTH)


@pytest.mark.parametrize("fuel", LOWER_HEATING_MJ_PER_KG)
@pytest.mark.parametrize("efficiency", [0.4, 0.5, 1.0])
def test_the_heat_in_the_fuel_times_the_efficiency_is_the_heat_in_the_water(
    fuel: Fuel, efficiency: float
) -> None:
    # IF97: a kilogram from 15 to 100 °C takes 419.1 - 63.0 = 356.1 kJ.
    grams = boiling_fuel_g(1000.0, 15.0, 100.0, efficiency, fuel)
    given = grams * LOWER_HEATING_MJ_PER_KG[fuel] * efficiency
    assert given == pytest.approx(enthalpy(100.0) - enthalpy(15.0), rel=THOUSANDTH)


def test_both_ways_to_reckon_fuel_agree() -> None:
    # By hand: 1000 W in the pot raise 1 kg from 15 to 100 °C in 356.1 s (IF97); the burner's
    # 2000 W over that time are the fuel's heat.
    by_time = fuel_g(356.1, 0.0, 2000.0, 0.15, "alcohol")
    assert by_time == pytest.approx(
        boiling_fuel_g(1000.0, 15.0, 100.0, 0.5, "alcohol"), rel=THOUSANDTH
    )


@pytest.mark.parametrize(
    ("parts", "common_c"),
    [
        # By hand, heats of water 4.19, steel 0.5, ceramic 0.9 J/(g K) (handbook values).
        # (200 x 4.19 x 100 + 300 x 0.9 x 20)/(838 + 270) = (83 800 + 5 400)/1108
        ([(838.0, 100.0), (270.0, 20.0)], 80.51),
        # + 70 g of dry mix at 1.75: (83 800 + 5 400 + 2 450)/(838 + 270 + 122.5)
        ([(838.0, 100.0), (270.0, 20.0), (122.5, 20.0)], 74.48),
        # 250 g of stream water at 5 °C, 60 g of mix and 100 g of steel at 30 °C:
        # (5 237.5 + 3 150 + 1 500)/(1047.5 + 105 + 50)
        ([(1047.5, 5.0), (105.0, 30.0), (50.0, 30.0)], 8.22),
    ],
)
def test_mixtures_settle_where_a_sum_by_hand_puts_them(
    parts: list[tuple[float, float]], common_c: float
) -> None:
    assert mixing_temperature_c(parts) == pytest.approx(common_c, abs=0.005)


def test_a_cold_mug_cools_boiling_water_as_someone_measured() -> None:
    # MUG-FORUM: 12 oz of boiling water in a 17 oz ceramic mug at about 65 °F read "a bit over
    # 180 °F and falling". By hand: (340 x 4.19 x 100 + 482 x 0.9 x 18.3)/(1425 + 434) = 80.9 °C,
    # 178 °F: 3 °F either way for unweighed water.
    common_c = mixing_temperature_c([(12 * 28.35 * 4.19, 100.0), (17 * 28.35 * 0.9, 18.3)])
    assert common_c * 1.8 + 32 == pytest.approx(180.5, abs=3)
