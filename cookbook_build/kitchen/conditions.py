"""Where and with what a dish is made ready: the method, the place, the vessels and burners.

Specific heats of vessels (steel 0.5, ceramic 0.9, glass 0.84 kJ/kg K) are handbook values,
from memory. What a vessel weighs is from memory too: put it on a scale if it matters.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from cookbook_build.kitchen.fuel import Fuel

Method = Literal["kettle", "microwave", "stove", "jar", "cold"]

METHODS: Final[tuple[Method, ...]] = ("kettle", "microwave", "stove", "jar", "cold")

LOWEST_ALTITUDE_M: Final = -500.0
HIGHEST_ALTITUDE_M: Final = 9000.0


@dataclass(frozen=True, slots=True)
class Conditions:
    """The place where a dish is made ready.

    Parameters
    ----------
    altitude_m : float
        Height above sea level. [m]
    air_c : float
        Temperature of the air, the dry mix and a cold vessel. [°C]
    water_c : float
        Temperature of tap or stream water. [°C]
    relative_humidity : float
        Relative humidity of the air. [-]

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
        _within("altitude_m", self.altitude_m, LOWEST_ALTITUDE_M, HIGHEST_ALTITUDE_M)
        _within("air_c", self.air_c, -50.0, 55.0)
        _within("water_c", self.water_c, 0.0, 60.0)
        _within("relative_humidity", self.relative_humidity, 0.0, 1.0)


@dataclass(frozen=True, slots=True)
class Kit:
    """The vessels and burners of a household.

    The bowl and the jar are a serving's own weight: for more servings they weigh in
    proportion, while the bowl's opening, from which water leaves, stays as given.

    Parameters
    ----------
    bowl_opening_m, pot_opening_m : float
        Inner width at the rim. [m]
    bowl_covered, pot_lid : bool
        Whether a plate or lid lies on it. [-]
    bowl_g, pot_g, jar_inner_g : float
        What the vessel weighs (of the jar: its inner wall) (from memory). [g]
    bowl_kj_per_kg_k, pot_kj_per_kg_k, jar_kj_per_kg_k : float
        Specific heat of the vessel. [kJ/(kg K)]
    stove_w : float
        Burner at full power. [W]
    stove_efficiency : float
        Part of the burner's heat that reaches the pot. [-]
    simmer_throttle : float
        Part of full power while the pot simmers (from memory). [-]
    microwave_w : float
        Rated output, as IEC 60705 measures it with 1 kg of water. [W]
    jar_holds_ml : float
        Volume of the insulated jar. [mL]
    jar_label_c : float
        Temperature that the jar's label promises, filled at 95 °C in a 20 °C room. [°C]
    jar_label_h : float
        Time after which the label promises it. [h]
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
        for name in ("bowl_opening_m", "pot_opening_m"):
            _within(name, getattr(self, name), 0.02, 1.0)
        for name in ("bowl_g", "pot_g", "jar_inner_g"):
            _within(name, getattr(self, name), 0.0, 20_000.0)
        for name in ("bowl_kj_per_kg_k", "pot_kj_per_kg_k", "jar_kj_per_kg_k"):
            _within(name, getattr(self, name), 0.0, 5.0)
        _within("stove_w", self.stove_w, 50.0, 20_000.0)
        _within("stove_efficiency", self.stove_efficiency, 0.05, 1.0)
        _within("simmer_throttle", self.simmer_throttle, 0.0, 1.0)
        _within("microwave_w", self.microwave_w, 50.0, 5000.0)
        _within("jar_holds_ml", self.jar_holds_ml, 50.0, 20_000.0)
        _within("jar_label_c", self.jar_label_c, 20.001, 95.0)
        _within("jar_label_h", self.jar_label_h, 0.1, 100.0)


def _within(name: str, value: float, low: float, high: float) -> None:
    if not low <= value <= high:
        raise ValueError(f"{name} must lie between {low:g} and {high:g}, not {value!r}")
