"""Fuel for a meal: the heat that a burner must give, as grams of what it burns."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping

Fuel = Literal["gas canister", "alcohol", "white gas"]

LOWER_HEATING_MJ_PER_KG: Final[Mapping[Fuel, float]] = MappingProxyType(
    # lower heating values: isobutane 45.6, ethanol 26.8, white gas (naphtha) 44; from memory.
    # Seen beside them: ethanol 29.7 MJ/kg gross in a spirit-burner test, canister fuel
    # 48.8 MJ/kg gross; lower values are about 7 to 10 % below gross ones.
    {"gas canister": 45.6, "alcohol": 26.8, "white gas": 44.0}
)


def boiling_fuel_g(
    water_ml: float, from_c: float, to_c: float, efficiency: float, fuel: Fuel
) -> float:
    r"""Return the fuel that brings water to the boil.

    Assumes that the efficiency covers the pot and all that the air takes.

    Parameters
    ----------
    water_ml : float
        Water to heat. [mL]
    from_c, to_c : float
        Its temperature before and after. [°C]
    efficiency : float
        Part of the burner's heat that reaches the water. [-]
    fuel : Fuel
        What it burns. [-]

    Returns
    -------
    float
        Mass of fuel. [g]

    Raises
    ------
    ValueError
        If the efficiency is not above zero, or the fuel is unknown.

    Notes
    -----
    .. math:: m = m_w c ΔT/(η H)

    with c = 4.19 kJ/(kg K).

    References
    ----------
    .. [1] Energy balance. A stove maker's literature gives 7.5 g of gas and 13.1 g of ethanol
       for a litre at full efficiency.

    Examples
    --------
    >>> round(boiling_fuel_g(1000.0, 15.0, 100.0, 1.0, "gas canister"), 1)
    7.8
    """
    if fuel not in LOWER_HEATING_MJ_PER_KG:
        raise ValueError(f"no fuel is called {fuel!r}")
    if not efficiency > 0:
        raise ValueError("an efficiency must be above zero")
    joules = water_ml * 4.19 * max(to_c - from_c, 0.0) / efficiency
    return joules / (LOWER_HEATING_MJ_PER_KG[fuel] * 1000)


def fuel_g(
    heating_s: float, simmering_s: float, burner_w: float, throttle: float, fuel: Fuel
) -> float:
    r"""Return the fuel that a burner uses for a meal.

    Assumes that the burner gives its rated power while heating and a constant part of it
    while simmering, and that the fuel burns wholly.

    Parameters
    ----------
    heating_s : float
        Time at full power. [s]
    simmering_s : float
        Time at the throttle. [s]
    burner_w : float
        Rated power of the burner, before any loss to the air. [W]
    throttle : float
        Part of full power while simmering. [-]
    fuel : Fuel
        What it burns. [-]

    Returns
    -------
    float
        Mass of fuel. [g]

    Raises
    ------
    ValueError
        If a time or a power is negative, or the fuel is unknown.

    Notes
    -----
    .. math:: m = P (t_h + s t_s)/H

    with H the lower heating value.

    References
    ----------
    .. [1] Energy balance. Check: 22 to 23 g of ethanol boil 1 L from 21 °C in a published
       spirit-burner test, an efficiency of 49 % on the gross value.

    Examples
    --------
    >>> round(fuel_g(300.0, 600.0, 2000.0, 0.15, "gas canister"), 1)
    17.1
    """
    if fuel not in LOWER_HEATING_MJ_PER_KG:
        raise ValueError(f"no fuel is called {fuel!r}")
    if min(heating_s, simmering_s, burner_w, throttle) < 0:
        raise ValueError("times and powers must not be negative")
    joules = burner_w * (heating_s + throttle * simmering_s)
    return joules / (LOWER_HEATING_MJ_PER_KG[fuel] * 1000)
