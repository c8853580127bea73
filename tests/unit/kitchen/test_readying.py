from __future__ import annotations

from typing import cast

import pytest

from cookbook_build.kitchen.conditions import METHODS, Conditions, Kit, Method
from cookbook_build.kitchen.readying import READYINGS, Dish, readying
from cookbook_build.kitchen.resting import COVERED_BOWL_C

SUPPER = Dish(water_g=215.0, dry_g=70.0, dry_heat_j_per_k=122.0, servings=1, follow_s=6000.0)
HOME, KIT = Conditions(), Kit()


def test_every_method_has_its_function_in_order() -> None:
    assert tuple(READYINGS) == METHODS


def test_the_reference_temperature_of_untested_rests_is_a_covered_bowls() -> None:
    bowl = readying(SUPPER, "kettle", HOME, KIT)
    assert bowl.warmth.mean_c(600.0) == pytest.approx(COVERED_BOWL_C, abs=3)


def test_methods_stand_from_cold_to_hot() -> None:
    means = {method: readying(SUPPER, method, HOME, KIT).warmth.mean_c(600.0) for method in METHODS}
    assert means["cold"] < means["kettle"] < means["microwave"] <= means["stove"]
    assert means["kettle"] < means["jar"] <= means["stove"]


def test_a_pot_loses_by_its_heat_balance() -> None:
    # 150 W at low throttle less 12 W/m²K x 3 x 0.01767 m² x 79.97 K = 50.9 W leaves 99.1 W.
    pot = readying(SUPPER, "stove", HOME, KIT)
    assert pot.steam_g_per_s == pytest.approx(99.1 / 2256.5, rel=1e-3)


def test_jar_and_cold_soak_lose_nothing() -> None:
    assert readying(SUPPER, "jar", HOME, KIT).lost_g(3600.0) == 0
    assert readying(SUPPER, "cold", HOME, KIT).lost_g(3600.0) == 0


def test_a_cold_jar_starts_cooler_than_a_preheated_one() -> None:
    cold = readying(SUPPER, "jar", HOME, Kit(jar_preheated=False))
    assert cold.warmth.start_c < readying(SUPPER, "jar", HOME, KIT).warmth.start_c


def test_a_lid_keeps_water_in_bowl_oven_and_pot() -> None:
    bare = Kit(bowl_covered=False, pot_lid=False)
    methods: tuple[Method, ...] = ("kettle", "microwave", "stove")
    for method in methods:
        open_g = readying(SUPPER, method, HOME, bare).lost_g(600.0)
        assert open_g > readying(SUPPER, method, HOME, KIT).lost_g(600.0)


def test_winter_air_is_no_obstacle() -> None:
    winter = Conditions(altitude_m=3000.0, air_c=-25.0, water_c=0.0)
    for method in METHODS:
        assert readying(SUPPER, method, winter, KIT).lost_g(1200.0) >= 0


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="no method"):
        readying(SUPPER, cast("Method", "oven"), HOME, KIT)
    with pytest.raises(ValueError, match="needs water"):
        readying(Dish(0.0, 70.0, 122.0, 1, 600.0), "kettle", HOME, KIT)
