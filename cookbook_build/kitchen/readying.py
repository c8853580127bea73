"""Each method in one function: how a dish gets warm, how it cools, what leaves it.

A dish is reckoned with the water that stays in it; what boils off or evaporates comes on top.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.boiling import (
    pressure_pa,
    saturation_temperature_c,
    water_heat_kj_per_kg_k,
)
from cookbook_build.kitchen.cooling import Relaxation
from cookbook_build.kitchen.evaporation import (
    air_vapour_pa,
    heating_loss_g,
    lid_fraction,
    microwave_loss_g,
)
from cookbook_build.kitchen.filling import dish_ml, jars_filled
from cookbook_build.kitchen.heating import (
    heating_s,
    microwave_share,
    opening_area_m2,
)
from cookbook_build.kitchen.simmering import steam_g_per_s
from cookbook_build.kitchen.warmth import (
    STILL_AIR_W_PER_M2_K,
    bowl_cooling,
    jar_conductance_w_per_k,
    jar_cooling,
    mixing_temperature_c,
    vessel_surface_m2,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from cookbook_build.kitchen.conditions import Conditions, Kit, Method
    from cookbook_build.kitchen.cooling import Warmth

MICROWAVE_BOIL_S: Final = 10.0
"""How long an oven runs on once the dish boils, until someone stops it; [s]; from memory."""

WATER_KJ_PER_KG_K: Final = water_heat_kj_per_kg_k(60.0)
"""Of Choi and Okos at 60 °C, between cold water and boiling; the temperature is our choice."""


@dataclass(frozen=True, slots=True)
class Dish:
    """What is to be made ready.

    Parameters
    ----------
    water_g : float
        Water that stays in it. [g]
    dry_g : float
        Dry mix. [g]
    dry_heat_j_per_k : float
        Heat capacity of the dry mix. [J/K]
    servings : float
        Servings; the bowl's weight goes with them. [-]
    follow_s : float
        Time over which to follow the warmth. [s]
    jars : int or None
        Jars among which it is divided; None for as few as hold it. [-]
    """

    water_g: float
    dry_g: float
    dry_heat_j_per_k: float
    servings: float
    follow_s: float
    jars: int | None = None

    @property
    def water_heat_j_per_k(self) -> float:
        """Heat capacity of the water [J/K]."""
        return self.water_g * WATER_KJ_PER_KG_K


@dataclass(frozen=True, slots=True)
class Readying:
    """How a dish is made ready by a method at a place.

    Parameters
    ----------
    pressure_pa : float
        Air pressure. [Pa]
    boiling_c : float
        Boiling point. [°C]
    warmth : Warmth
        Temperature and evaporation over the rest. [-]
    heating_s : float
        Time to the boil on the burner or in the oven. [s]
    lost_heating_g : float
        Water that leaves before the rest begins. [g]
    steam_g_per_s : float
        Water that boils off over the rest. [g/s]
    """

    pressure_pa: float
    boiling_c: float
    warmth: Warmth
    heating_s: float = 0.0
    lost_heating_g: float = 0.0
    steam_g_per_s: float = 0.0

    def lost_resting_g(self, rest_s: float) -> float:
        """Return the water that leaves over a rest [g]."""
        return self.steam_g_per_s * rest_s + self.warmth.lost_g(rest_s)

    def lost_g(self, rest_s: float) -> float:
        """Return the water that leaves, from cold to the end of a rest [g]."""
        return self.lost_heating_g + self.lost_resting_g(rest_s)


def _kettle(dish: Dish, place: Conditions, kit: Kit) -> Readying:
    air_pa = pressure_pa(place.altitude_m)
    boiling_c = saturation_temperature_c(air_pa)
    bowl = dish.servings * kit.bowl_g * kit.bowl_kj_per_kg_k
    start_c = mixing_temperature_c(
        [
            (dish.water_heat_j_per_k, boiling_c),
            (dish.dry_heat_j_per_k, place.air_c),
            (bowl, place.air_c),
        ]
    )
    return Readying(air_pa, boiling_c, _bowl_warmth(dish, start_c, bowl, place, kit))


def _microwave(dish: Dish, place: Conditions, kit: Kit) -> Readying:
    air_pa = pressure_pa(place.altitude_m)
    boiling_c = saturation_temperature_c(air_pa)
    bowl = dish.servings * kit.bowl_g * kit.bowl_kj_per_kg_k
    heat = dish.water_heat_j_per_k + dish.dry_heat_j_per_k + bowl
    start_c = mixing_temperature_c(
        [
            (dish.water_heat_j_per_k, place.water_c),
            (dish.dry_heat_j_per_k + bowl, place.air_c),
        ]
    )
    taken_w = kit.microwave_w * microwave_share(dish.water_g + dish.dry_g)
    warming_s = heating_s(heat, start_c, boiling_c, taken_w)
    surface_m2 = opening_area_m2(kit.bowl_opening_m) * lid_fraction(covered=kit.bowl_covered)
    vapour_pa = air_vapour_pa(place.air_c, place.relative_humidity)
    warming_g = heating_loss_g(warming_s, max(start_c, 0.0), boiling_c, surface_m2, vapour_pa)
    boiled_g = microwave_loss_g(heat, start_c, boiling_c, taken_w, warming_s + MICROWAVE_BOIL_S)
    return Readying(
        air_pa,
        boiling_c,
        _bowl_warmth(dish, boiling_c, bowl, place, kit),
        heating_s=warming_s,
        lost_heating_g=warming_g + boiled_g,
    )


def _stove(dish: Dish, place: Conditions, kit: Kit) -> Readying:
    air_pa = pressure_pa(place.altitude_m)
    boiling_c = saturation_temperature_c(air_pa)
    pot = kit.pot_g * kit.pot_kj_per_kg_k
    start_c = mixing_temperature_c(
        [
            (dish.water_heat_j_per_k, place.water_c),
            (dish.dry_heat_j_per_k + pot, place.air_c),
        ]
    )
    full_w = kit.stove_w * kit.stove_efficiency
    heat = dish.water_heat_j_per_k + dish.dry_heat_j_per_k + pot
    warming_s = heating_s(heat, start_c, boiling_c, full_w)
    surface_m2 = opening_area_m2(kit.pot_opening_m) * lid_fraction(covered=kit.pot_lid)
    vapour_pa = air_vapour_pa(place.air_c, place.relative_humidity)
    return Readying(
        air_pa,
        boiling_c,
        Relaxation(boiling_c, place.air_c, inf),
        heating_s=warming_s,
        lost_heating_g=heating_loss_g(
            warming_s, max(start_c, 0.0), boiling_c, surface_m2, vapour_pa
        ),
        steam_g_per_s=steam_g_per_s(
            full_w * kit.simmer_throttle,
            kit.pot_opening_m,
            boiling_c,
            place.air_c,
            lid=kit.pot_lid,
        ),
    )


def _jar(dish: Dish, place: Conditions, kit: Kit) -> Readying:
    """As few jars as hold it, filled alike."""
    air_pa = pressure_pa(place.altitude_m)
    boiling_c = saturation_temperature_c(air_pa)
    jars = dish.jars or jars_filled(dish_ml(dish.water_g, dish.dry_g), kit.jar_holds_ml)
    water, dry = dish.water_heat_j_per_k / jars, dish.dry_heat_j_per_k / jars
    wall = kit.jar_inner_g * kit.jar_kj_per_kg_k
    wall_c = boiling_c if kit.jar_preheated else place.air_c
    start_c = mixing_temperature_c([(water, boiling_c), (dry, place.air_c), (wall, wall_c)])
    conductance = jar_conductance_w_per_k(kit.jar_holds_ml, kit.jar_label_c, kit.jar_label_h)
    warmth = jar_cooling(water + dry + wall, start_c, place.air_c, conductance)
    return Readying(air_pa, boiling_c, warmth)


def _cold(dish: Dish, place: Conditions, kit: Kit) -> Readying:
    air_pa = pressure_pa(place.altitude_m)
    bowl = dish.servings * kit.bowl_g * kit.bowl_kj_per_kg_k
    around = dish.dry_heat_j_per_k + bowl
    start_c = mixing_temperature_c(
        [(dish.water_heat_j_per_k, place.water_c), (around, place.air_c)]
    )
    heat = dish.water_heat_j_per_k + around
    tau_s = heat / (STILL_AIR_W_PER_M2_K * vessel_surface_m2(kit.bowl_opening_m))
    warmth = Relaxation(start_c, place.air_c, tau_s)
    return Readying(air_pa, saturation_temperature_c(air_pa), warmth)


def _bowl_warmth(dish: Dish, start_c: float, bowl: float, place: Conditions, kit: Kit) -> Warmth:
    return bowl_cooling(
        dish.water_heat_j_per_k + dish.dry_heat_j_per_k + bowl,
        start_c,
        dish.follow_s,
        opening_m=kit.bowl_opening_m,
        covered=kit.bowl_covered,
        air_c=place.air_c,
        vapour_pa=air_vapour_pa(place.air_c, place.relative_humidity),
    )


READYINGS: Final[Mapping[Method, Callable[[Dish, Conditions, Kit], Readying]]] = MappingProxyType(
    {
        "kettle": _kettle,
        "microwave": _microwave,
        "stove": _stove,
        "jar": _jar,
        "cold": _cold,
    }
)


def readying(dish: Dish, method: Method, conditions: Conditions, kit: Kit) -> Readying:
    """Return how a dish is made ready by a method.

    Assumes one bowl or pot for all servings, and the fewest jars that hold them.

    Parameters
    ----------
    dish : Dish
        What is to be made ready. [-]
    method : Method
        How. [-]
    conditions : Conditions
        Where. [-]
    kit : Kit
        With what. [-]

    Returns
    -------
    Readying
        Its warmth and its losses. [-]

    Raises
    ------
    ValueError
        If there is no such method.

    Notes
    -----
    kettle: boiled water meets the dry mix in a bowl at the air's temperature. microwave: all
    is brought to the boil in the bowl, then stands. stove: all is brought to the boil under
    full power, then simmers at the kit's throttle for the rest. jar: boiled water in a
    preheated jar. cold: tap or stream water in a bowl.

    References
    ----------
    .. [1] Energy and mass balances of `warmth`, `heating` and `evaporation`.

    Examples
    --------
    >>> from cookbook_build.kitchen.conditions import Conditions, Kit
    >>> supper = Dish(200.0, 70.0, 120.0, servings=1, follow_s=7200.0)
    >>> pot = readying(supper, "stove", Conditions(), Kit())
    >>> round(pot.heating_s), round(pot.lost_g(600.0))
    (89, 27)
    """
    if method not in READYINGS:
        raise ValueError(f"no method is called {method!r}")
    if not (dish.water_g > 0 and dish.servings > 0):
        raise ValueError(f"a dish needs water and servings, not {dish.water_g!r} g")
    return READYINGS[method](dish, conditions, kit)
