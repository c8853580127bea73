"""How warm a dish starts and how it cools: mixing, the bowl, the insulated jar.

A dish, its water and its vessel are one well-stirred lump with one temperature.
"""

from __future__ import annotations

from functools import lru_cache
from math import fsum, inf, log
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.boiling import (
    ZERO_C_IN_K,
    latent_heat_kj_per_kg,
    water_heat_kj_per_kg_k,
)
from cookbook_build.kitchen.composition import Composition, specific_heat_kj_per_kg_k
from cookbook_build.kitchen.cooling import Cooling, Relaxation, Warmth
from cookbook_build.kitchen.evaporation import (
    evaporation_flux_kg_per_m2_s,
    lid_fraction,
)
from cookbook_build.kitchen.heating import opening_area_m2

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = [
    "STILL_AIR_W_PER_M2_K",
    "Composition",
    "Cooling",
    "Relaxation",
    "Warmth",
    "bowl_cooling",
    "jar_conductance_w_per_k",
    "jar_cooling",
    "mixing_temperature_c",
    "specific_heat_kj_per_kg_k",
    "vessel_surface_m2",
]

STEFAN_BOLTZMANN: Final = 5.670374419e-8
EMISSIVITY: Final = 0.95
"""Of glazed ceramic, painted metal and plastic; [-]; from memory."""

STILL_AIR_W_PER_M2_K: Final = 10.0
"""Convection and radiation together from a surface near room temperature; from memory."""

RELAXED_TIMES: Final = 12.0
"""Time constants after which a bowl has come to the air's warmth; our choice."""

LABEL_FILL_C: Final = 95.0
LABEL_ROOM_C: Final = 20.0
"""EN 12546-1 fills at 95 °C or above and stands the jar at 20 ± 2 °C."""


def mixing_temperature_c(parts: Iterable[tuple[float, float]]) -> float:
    r"""Return the temperature at which parts of different warmth settle.

    Assumes that no heat is lost while they are stirred, nor made by wetting.

    Parameters
    ----------
    parts : iterable of (float, float)
        Heat capacity [J/K] and temperature [°C] of each part. [-]

    Returns
    -------
    float
        Common temperature. [°C]

    Raises
    ------
    ValueError
        If the parts hold no heat.

    Notes
    -----
    .. math:: T_0 = \frac{\sum m c T}{\sum m c}

    References
    ----------
    .. [1] Energy balance.

    Examples
    --------
    >>> round(mixing_temperature_c([(800.0, 100.0), (400.0, 20.0)]), 1)
    73.3
    """
    listed = list(parts)
    whole = fsum(heat for heat, _ in listed)
    if not whole > 0:
        raise ValueError("parts without heat have no temperature in common")
    return fsum(heat * temp for heat, temp in listed) / whole


def vessel_surface_m2(opening_m: float) -> float:
    """Return the surface by which a bowl gives heat to the air.

    Assumes half a sphere, and the dish or its cover on top.

    Parameters
    ----------
    opening_m : float
        Inner width at the rim. [m]

    Returns
    -------
    float
        Wall and top. [m²]

    Notes
    -----
    .. math:: A = 2 π d^2/4 + π d^2/4 = 3 π d^2/4

    References
    ----------
    .. [1] Geometry.

    Examples
    --------
    >>> round(vessel_surface_m2(0.14), 4)
    0.0462
    """
    return 3 * opening_area_m2(opening_m)


@lru_cache(maxsize=1024)  # the same bowl stands in the water, the cautions and the cards
def bowl_cooling(
    heat_j_per_k: float,
    start_c: float,
    duration_s: float,
    *,
    opening_m: float,
    covered: bool,
    air_c: float,
    vapour_pa: float,
    steps: int = 48,
) -> Cooling:
    r"""Return how a bowl of hot food cools and what evaporates from it.

    Assumes one temperature for dish, bowl and cover, still air, and no lid on the heat: the
    cover only holds vapour back.

    Parameters
    ----------
    heat_j_per_k : float
        Heat capacity of water, food and bowl at the start. [J/K]
    start_c : float
        Temperature at the start, 0 to 100 °C. [°C]
    duration_s : float
        Time to follow, unless it has come to rest before. [s]
    opening_m : float
        Inner width at the rim. [m]
    covered : bool
        Whether a plate or lid lies on it. [-]
    air_c : float
        Temperature of the air and of the walls around. [°C]
    vapour_pa : float
        Pressure of the vapour in the air. [Pa]
    steps : int
        Steps of the integration, short at first; 48 unless given, our choice. [-]

    Returns
    -------
    Cooling
        Temperatures and the water gone, at `steps` + 1 times. [-]

    Raises
    ------
    ValueError
        If there is no heat to hold or no time to pass.

    Notes
    -----
    .. math:: C dT/dt = -h A (T - T_a) - ε σ A (T^4 - T_a^4) - w A_o f h_{fg}, \quad
              dC/dt = -c_w w A_o f

    with h = 1.42 (ΔT/L)^{1/4} in W/(m² K), L half the opening, ε = 0.95, A of
    `vessel_surface_m2`, w of `evaporation_flux_kg_per_m2_s`, f of `lid_fraction`. Heun's
    method. After twelve time constants the bowl is as warm as it will stay, and what little
    evaporates from then on is not counted; without that end a long rest would take steps so
    long that they overshoot.

    References
    ----------
    .. [1] Simplified free convection in air, laminar, vertical surfaces: W. H. McAdams, Heat
       Transmission, 3rd ed. (from memory).
    .. [2] ASHRAE Handbook, HVAC Applications: see `evaporation_flux_kg_per_m2_s`.

    Examples
    --------
    >>> bowl = bowl_cooling(1300.0, 72.0, 720.0, opening_m=0.14, covered=True, air_c=20.0,
    ...                     vapour_pa=1170.0)
    >>> round(bowl.temps_c[-1]), round(bowl.lost_g(720.0), 1)
    (55, 0.9)
    """
    if not (heat_j_per_k > 0 and duration_s > 0 and steps > 0):
        raise ValueError("a bowl that cools needs heat, time and steps")
    shell_m2 = vessel_surface_m2(opening_m)
    free_kg_m2 = opening_area_m2(opening_m) * lid_fraction(covered=covered)
    convection = 1.42 * shell_m2 / (opening_m / 2) ** 0.25
    radiation = EMISSIVITY * STEFAN_BOLTZMANN * shell_m2
    air_k4 = (air_c + ZERO_C_IN_K) ** 4

    def flows(temp_c: float) -> tuple[float, float, float]:
        excess = temp_c - air_c
        convected = convection * excess * abs(excess) ** 0.25
        radiated = radiation * ((temp_c + ZERO_C_IN_K) ** 4 - air_k4)
        wet_c = max(0.0, temp_c)
        return convected, radiated, free_kg_m2 * evaporation_flux_kg_per_m2_s(wet_c, vapour_pa)

    relaxed_s = RELAXED_TIMES * heat_j_per_k / (STILL_AIR_W_PER_M2_K * shell_m2)
    followed_s = min(duration_s, relaxed_s)
    water_heat = 1000 * water_heat_kj_per_kg_k(start_c)
    temp, heat, gone, area = start_c, heat_j_per_k, 0.0, 0.0
    convected_j = radiated_j = vapour_j = 0.0
    times, temps, gones, areas = [0.0], [temp], [0.0], [0.0]
    for number in range(1, steps + 1):
        now = followed_s * (number / steps) ** 2
        step_s = now - times[-1]
        convected, radiated, vapour = flows(temp)
        drain_w = convected + radiated + 1000 * vapour * latent_heat_kj_per_kg(temp)
        guess = temp - step_s * drain_w / heat
        later = flows(guess)
        convected = (convected + later[0]) / 2 * step_s
        radiated = (radiated + later[1]) / 2 * step_s
        vapour = (vapour + later[2]) / 2 * step_s
        mean_c = (temp + guess) / 2
        carried = vapour * (1000 * latent_heat_kj_per_kg(mean_c) + water_heat * mean_c)
        held = heat * temp - convected - radiated - carried
        heat -= vapour * water_heat
        before, temp = temp, held / heat
        gone += 1000 * vapour
        area += (before + temp) / 2 * step_s
        convected_j, radiated_j = convected_j + convected, radiated_j + radiated
        vapour_j += carried
        times.append(now)
        temps.append(temp)
        gones.append(gone)
        areas.append(area)
    return Cooling(
        tuple(times), tuple(temps), tuple(gones), tuple(areas), convected_j, radiated_j, vapour_j
    )


def jar_conductance_w_per_k(holds_ml: float, label_c: float, label_h: float) -> float:
    r"""Return what an insulated jar loses to each degree, from the promise on its label.

    Assumes the label's test: filled with water of 95 °C, shut, standing at 20 °C.

    Parameters
    ----------
    holds_ml : float
        Volume of the jar. [mL]
    label_c : float
        Temperature that the label promises, above 20 and up to 95 °C. [°C]
    label_h : float
        Time after which it promises it. [h]

    Returns
    -------
    float
        Conductance; zero for a perfect jar. [W/K]

    Raises
    ------
    ValueError
        If the label promises more than it was filled with, or less than the room.

    Notes
    -----
    .. math:: UA = V ρ c/τ, \quad τ = t/\ln\frac{95 - 20}{T_6 - 20}

    with ρ c of water at the mean temperature taken as 4.1 J/(mL K).

    References
    ----------
    .. [1] EN 12546-1:2000, hot test, as described by a maker (filled at 95 °C or above, 6 h at
       20 ± 2 °C).

    Examples
    --------
    >>> round(jar_conductance_w_per_k(500.0, 65.0, 6.0), 4)
    0.0485
    >>> jar_conductance_w_per_k(500.0, 95.0, 6.0)
    0.0
    """
    if not (LABEL_ROOM_C < label_c <= LABEL_FILL_C and label_h > 0 and holds_ml > 0):
        raise ValueError(f"no jar of {holds_ml!r} mL keeps {label_c!r} °C for {label_h!r} h")
    decay = log((LABEL_FILL_C - LABEL_ROOM_C) / (label_c - LABEL_ROOM_C))
    return holds_ml * 4.1 * decay / (3600 * label_h)


def jar_cooling(
    heat_j_per_k: float, start_c: float, air_c: float, conductance_w_per_k: float
) -> Relaxation:
    r"""Return how a dish cools in an insulated jar.

    Assumes that the jar loses by the degree what it lost in its label's test, however full.

    Parameters
    ----------
    heat_j_per_k : float
        Heat capacity of what is in it and of its inner wall. [J/K]
    start_c : float
        Temperature after stirring. [°C]
    air_c : float
        Temperature around the jar. [°C]
    conductance_w_per_k : float
        Of `jar_conductance_w_per_k`. [W/K]

    Returns
    -------
    Relaxation
        Temperature over time; the time constant shrinks with the heat held. [-]

    Raises
    ------
    ValueError
        If nothing is in it, or the conductance is negative.

    Notes
    -----
    .. math:: T(t) = T_a + (T_0 - T_a) e^{-t/τ}, \quad τ = C/UA

    References
    ----------
    .. [1] Newton's law of cooling.

    Examples
    --------
    >>> jar = jar_cooling(2050.0, 95.0, 20.0, jar_conductance_w_per_k(500.0, 65.0, 6.0))
    >>> round(jar.temp_c(6 * 3600.0), 1)
    65.0
    """
    if not (heat_j_per_k > 0 and conductance_w_per_k >= 0):
        raise ValueError("a jar needs something in it, and loses heat or keeps it")
    tau_s = heat_j_per_k / conductance_w_per_k if conductance_w_per_k else inf
    return Relaxation(start_c, air_c, tau_s)
