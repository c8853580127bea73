"""Water that leaves: from open and covered surfaces, at the boil, in a microwave oven.

These are order-of-magnitude laws: the surface law was fitted on pools near 27 °C, and what
a lid lets through is from memory. Good to a factor of about two; the losses themselves are
about one part in two hundred of a covered bowl and one in fifteen of a single supper's pot.
"""

from __future__ import annotations

from typing import Final

from cookbook_build.kitchen.boiling import (
    latent_heat_kj_per_kg,
    saturation_pressure_pa,
)
from cookbook_build.kitchen.heating import heating_s

LID_FRACTION: Final = 0.10
"""Part of an open surface's evaporation that a lid or plate lets through; [-]; from memory."""


def air_vapour_pa(air_c: float, relative_humidity: float) -> float:
    """Return the pressure of the water vapour in the air.

    Assumes that air below freezing holds what it would hold at 0 °C, a negligible amount.

    Parameters
    ----------
    air_c : float
        Temperature of the air. [°C]
    relative_humidity : float
        Relative humidity of the air. [-]

    Returns
    -------
    float
        Vapour pressure. [Pa]

    Notes
    -----
    .. math:: p_a = φ p_s(T_a)

    References
    ----------
    .. [1] The definition of relative humidity.

    Examples
    --------
    >>> round(air_vapour_pa(20.0, 0.5))
    1170
    """
    return relative_humidity * saturation_pressure_pa(max(air_c, 0.0))


def evaporation_flux_kg_per_m2_s(
    surface_c: float, vapour_pa: float, air_speed_m_per_s: float = 0.0
) -> float:
    """Return the water that leaves an open surface.

    Assumes the surface as warm as the bulk and adds no buoyancy beyond what the fit holds.

    Parameters
    ----------
    surface_c : float
        Temperature of the surface, 0 to 100 °C. [°C]
    vapour_pa : float
        Pressure of the vapour in the air. [Pa]
    air_speed_m_per_s : float
        Speed of the air over the surface. [m/s]

    Returns
    -------
    float
        Mass flux, never below zero. [kg/(m² s)]

    Notes
    -----
    .. math:: w = (0.089 + 0.0782 v)(p_w - p_a)/Y

    with pressures in kPa and Y in kJ/kg. Fitted on pools near 27 °C; at 60-95 °C and in
    air that a hot dish stirs, real losses may be up to twice as high. Condensation on a cold
    dish is left out.

    References
    ----------
    .. [1] ASHRAE Handbook, HVAC Applications, natatoriums: W = (95 + 0.425 v)(p_w - p_a)/Y in
       inch-pound units (v in ft/min from memory; 95 + 37.4 V with V in mph was read in a
       copy). Converted constants checked: 95 gives 0.0885.

    Examples
    --------
    >>> round(3600 * evaporation_flux_kg_per_m2_s(80.0, 1170.0), 2)
    6.42
    """
    excess_kpa = (saturation_pressure_pa(surface_c) - vapour_pa) / 1000
    speed = 0.089 + 0.0782 * air_speed_m_per_s
    return speed * excess_kpa / latent_heat_kj_per_kg(surface_c) if excess_kpa > 0 else 0.0


def lid_fraction(*, covered: bool) -> float:
    """Return the part of an open surface's evaporation that gets out.

    Assumes a plate or lid that lies loosely on the rim.

    Parameters
    ----------
    covered : bool
        Whether a lid or plate lies on the vessel. [-]

    Returns
    -------
    float
        1 open, 0.1 covered. [-]

    Notes
    -----
    A constant.

    References
    ----------
    .. [1] From memory; a single measurement of an insulated mug, read in a copy, has its lid
       cut the whole heat loss to 1/7.5.

    Examples
    --------
    >>> lid_fraction(covered=True)
    0.1
    """
    return LID_FRACTION if covered else 1.0


def boiling_loss_g(net_w: float, boiling_c: float, burn_s: float) -> float:
    r"""Return the water that leaves as steam while a pot boils.

    Assumes that all the net heat makes steam.

    Parameters
    ----------
    net_w : float
        Heat beyond what the vessel gives away. [W]
    boiling_c : float
        Temperature of the boiling water. [°C]
    burn_s : float
        Time at the boil. [s]

    Returns
    -------
    float
        Water lost. [g]

    Notes
    -----
    .. math:: L = P_{net} t/h_{fg}

    References
    ----------
    .. [1] Energy balance.

    Examples
    --------
    >>> round(boiling_loss_g(99.0, 99.97, 60.0), 2)
    2.63
    """
    return net_w * burn_s / latent_heat_kj_per_kg(boiling_c)


def heating_loss_g(
    duration_s: float, start_c: float, end_c: float, surface_m2: float, vapour_pa: float
) -> float:
    """Return the water that leaves a surface while it is warmed at a steady rate.

    Assumes a temperature that rises in a straight line.

    Parameters
    ----------
    duration_s : float
        Time from start to end. [s]
    start_c, end_c : float
        Temperatures before and after, 0 to 100 °C. [°C]
    surface_m2 : float
        Open area, times the fraction that a lid lets out. [m²]
    vapour_pa : float
        Pressure of the vapour in the air. [Pa]

    Returns
    -------
    float
        Water lost. [g]

    Notes
    -----
    .. math:: L = A t [w(T_0) + 4 w(T_{1/2}) + w(T_1)]/6

    Simpson's rule over `evaporation_flux_kg_per_m2_s`.

    References
    ----------
    .. [1] Mass balance.

    Examples
    --------
    >>> round(heating_loss_g(100.0, 15.0, 99.97, 0.0177, 1170.0), 1)
    1.9
    """
    ends = [
        evaporation_flux_kg_per_m2_s(temp_c, vapour_pa)
        for temp_c in (start_c, (start_c + end_c) / 2, end_c)
    ]
    return 1000 * surface_m2 * duration_s * (ends[0] + 4 * ends[1] + ends[2]) / 6


def microwave_loss_g(
    heat_j_per_k: float, start_c: float, boiling_c: float, taken_w: float, burn_s: float
) -> float:
    r"""Return the water that a microwave oven boils off a load.

    Assumes that the load heats evenly first and boils only for the time that is left.

    Parameters
    ----------
    heat_j_per_k : float
        Heat capacity of water, food and bowl. [J/K]
    start_c, boiling_c : float
        Temperature before, and of boiling. [°C]
    taken_w : float
        Power that the load takes: the rating times `microwave_share`. [W]
    burn_s : float
        Time at full power. [s]

    Returns
    -------
    float
        Water boiled off. [g]

    Notes
    -----
    .. math:: L = P (t - t_{heat})/h_{fg}, \quad t_{heat} = C ΔT/P

    References
    ----------
    .. [1] Energy balance.

    Examples
    --------
    >>> microwave_loss_g(1045.0, 15.0, 100.0, 765.0, 60.0)
    0.0
    >>> round(microwave_loss_g(1045.0, 15.0, 100.0, 765.0, 180.0), 1)
    21.7
    """
    boiling_s = burn_s - heating_s(heat_j_per_k, start_c, boiling_c, taken_w)
    return boiling_loss_g(taken_w, boiling_c, max(0.0, boiling_s))
