"""Where and with what a dish is made ready: the method, the place, the vessels and burners.

Specific heats of vessels (steel 0.5, ceramic 0.9, glass 0.84 kJ/kg K) are handbook values,
from memory. What a vessel weighs is from memory too: put it on a scale if it matters.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.kitchen.fuel import Fuel

Method = Literal["kettle", "microwave", "stove", "jar", "cold"]

METHODS: Final[tuple[Method, ...]] = ("kettle", "microwave", "stove", "jar", "cold")

# From below the Dead Sea's shore to above any kitchen: our choice.
LOWEST_ALTITUDE_M: Final = -500.0
HIGHEST_ALTITUDE_M: Final = 9000.0

# What the checks accept: our choice, wide enough for any kitchen.
PLACE_BOUNDS: Final[Mapping[str, tuple[float, float]]] = MappingProxyType(
    {
        "altitude_m": (LOWEST_ALTITUDE_M, HIGHEST_ALTITUDE_M),
        "air_c": (-50.0, 55.0),
        "water_c": (0.0, 60.0),
        "relative_humidity": (0.0, 1.0),
    }
)
# Likewise our choice.
KIT_BOUNDS: Final[Mapping[str, tuple[float, float]]] = MappingProxyType(
    {
        "bowl_opening_m": (0.02, 1.0),
        "pot_opening_m": (0.02, 1.0),
        "bowl_g": (0.0, 20_000.0),
        "pot_g": (0.0, 20_000.0),
        "jar_inner_g": (0.0, 20_000.0),
        "bowl_kj_per_kg_k": (0.0, 5.0),
        "pot_kj_per_kg_k": (0.0, 5.0),
        "jar_kj_per_kg_k": (0.0, 5.0),
        "stove_w": (50.0, 20_000.0),
        "stove_efficiency": (0.05, 1.0),
        "simmer_throttle": (0.0, 1.0),
        "microwave_w": (50.0, 5000.0),
        "jar_holds_ml": (50.0, 20_000.0),
        "jar_label_c": (20.001, 95.0),
        "jar_label_h": (0.1, 100.0),
    }
)


@dataclass(frozen=True, slots=True)
class Conditions:
    """The place where a dish is made ready.

    Parameters
    ----------
    altitude_m : float
        Height above sea level. [m]
    air_c : float
        Temperature of the air, the dry mix and a cold vessel; a room of 20 °C as in EN 12546-1
        is the default. [°C]
    water_c : float
        Temperature of tap or stream water; the default is from memory. [°C]
    relative_humidity : float
        Relative humidity of the air; the default is our choice. [-]

    Raises
    ------
    ValueError
        If a number lies outside what people cook in.

    Examples
    --------
    >>> Conditions(altitude_m=2400.0).water_c
    15.0
    """

    altitude_m: float = 0.0
    air_c: float = 20.0
    water_c: float = 15.0
    relative_humidity: float = 0.5

    def __post_init__(self) -> None:
        _check(self, PLACE_BOUNDS)


@dataclass(frozen=True, slots=True)
class Kit:
    """The vessels and burners of a household.

    The bowl and the jar are a serving's own weight: for more servings they weigh in
    proportion, while the bowl's opening, from which water leaves, stays as given.

    Parameters
    ----------
    bowl_opening_m, pot_opening_m : float
        Inner width at the rim; the defaults are from memory. [m]
    bowl_covered, pot_lid : bool
        Whether a plate or lid lies on it. [-]
    bowl_g, pot_g, jar_inner_g : float
        What the vessel weighs (of the jar: its inner wall) (from memory). [g]
    bowl_kj_per_kg_k, pot_kj_per_kg_k, jar_kj_per_kg_k : float
        Specific heat of the vessel. [kJ/(kg K)]
    stove_w : float
        Burner at full power; the default, a small camp burner, is from memory. [W]
    stove_efficiency : float
        Part of the burner's heat that reaches the pot; half, as in a spirit-burner test. [-]
    simmer_throttle : float
        Part of full power while the pot simmers (from memory). [-]
    microwave_w : float
        Rated output, as IEC 60705 measures it with 1 kg of water. [W]
    jar_holds_ml : float
        Volume of the insulated jar; the default is from memory. [mL]
    jar_label_c : float
        Temperature that the jar's label promises, filled at 95 °C in a 20 °C room by
        EN 12546-1; the default lies within what a consumer council measured. [°C]
    jar_label_h : float
        Time after which the label promises it, six hours by EN 12546-1. [h]
    jar_preheated : bool
        Whether the jar was first warmed with boiling water. [-]
    fuel : Fuel
        What the burner burns. [-]

    Raises
    ------
    ValueError
        If a number lies outside what a kitchen holds.

    Examples
    --------
    >>> Kit(pot_lid=False).pot_opening_m
    0.15
    """

    bowl_opening_m: float = 0.14
    bowl_covered: bool = True
    bowl_g: float = 300.0
    bowl_kj_per_kg_k: float = 0.9
    pot_opening_m: float = 0.15
    pot_lid: bool = True
    pot_g: float = 200.0
    pot_kj_per_kg_k: float = 0.5
    stove_w: float = 2000.0
    stove_efficiency: float = 0.5
    simmer_throttle: float = 0.15
    microwave_w: float = 900.0
    jar_holds_ml: float = 500.0
    jar_label_c: float = 65.0
    jar_label_h: float = 6.0
    jar_preheated: bool = True
    jar_inner_g: float = 120.0
    jar_kj_per_kg_k: float = 0.5
    fuel: Fuel = "gas canister"

    def __post_init__(self) -> None:
        _check(self, KIT_BOUNDS)


def _check(given: object, bounds: Mapping[str, tuple[float, float]]) -> None:
    for name, (low, high) in bounds.items():
        _within(name, getattr(given, name), low, high)


def _within(name: str, value: float, low: float, high: float) -> None:
    if not low <= value <= high:
        raise ValueError(f"{name} must lie between {low:g} and {high:g}, not {value!r}")
