"""Heat that goes in: how long a load takes to warm, and what a burner or an oven gives it."""

from __future__ import annotations

from math import pi
from typing import Final

POT_LOSS_W_PER_M2_K: Final = 12.0
"""Heat that a pot's wall and lid give to still air, convection and radiation; from memory."""

MICROWAVE_LOAD_POWER: Final = 0.12
"""Exponent of the load in `microwave_share`: 0.7-0.9 for small loads is from memory."""


def opening_area_m2(opening_m: float) -> float:
    """Return the area of a round opening.

    Assumes that the water's surface is as wide as the rim.

    Parameters
    ----------
    opening_m : float
        Inner width at the rim. [m]

    Returns
    -------
    float
        Area. [m²]

    Notes
    -----
    .. math:: A = π d^2/4

    References
    ----------
    .. [1] Geometry.

    Examples
    --------
    >>> round(opening_area_m2(0.14), 4)
    0.0154
    """
    return pi * opening_m * opening_m / 4


def heating_s(heat_j_per_k: float, start_c: float, end_c: float, net_w: float) -> float:
    """Return how long heat takes to warm a load.

    Assumes that the net power is steady and the load well stirred.

    Parameters
    ----------
    heat_j_per_k : float
        Heat capacity of water, food and vessel. [J/K]
    start_c, end_c : float
        Temperatures before and after. [°C]
    net_w : float
        Heat that reaches the load. [W]

    Returns
    -------
    float
        Time; none if the load is warm enough. [s]

    Notes
    -----
    .. math:: t = m c ΔT/P_{net}

    References
    ----------
    .. [1] Energy balance; IEC 60705 rates a microwave oven by it, P = 4187 ΔT/t.

    Examples
    --------
    >>> round(heating_s(4187.0, 10.0, 20.0, 700.0))
    60
    """
    return max(0.0, heat_j_per_k * (end_c - start_c) / net_w)


def net_simmer_w(burner_w: float, opening_m: float, excess_k: float, *, lid: bool) -> float:
    r"""Return the heat that makes steam in a simmering pot.

    Assumes a pot filled half as deep as it is wide, its wall and lid as hot as the water.

    Parameters
    ----------
    burner_w : float
        Heat that reaches the pot: power x efficiency x throttle. [W]
    opening_m : float
        Inner width of the pot. [m]
    excess_k : float
        Temperature of the water above the air. [K]
    lid : bool
        Whether the lid is on. [-]

    Returns
    -------
    float
        Heat left for steam, never below zero. [W]

    Notes
    -----
    .. math:: P_{net} = P - h (A_{wall} + A_{lid}) ΔT, \quad A_{wall} = 2 A

    With h = 12 W/(m² K) (from memory). Steam that a tight lid sends back is not counted: in
    a steady simmer what condenses on the lid is the heat that the lid gives away.

    References
    ----------
    .. [1] Energy balance.

    Examples
    --------
    >>> round(net_simmer_w(150.0, 0.15, 80.0, lid=True))
    99
    """
    # wall and lid, or the wall alone, in openings: the assumed shape, our choice
    area = opening_area_m2(opening_m) * (3 if lid else 2)
    return max(0.0, burner_w - POT_LOSS_W_PER_M2_K * area * excess_k)


def microwave_share(load_g: float) -> float:
    r"""Return the part of a microwave oven's rated power that a load takes.

    Assumes a load of water or moist food in one bowl.

    Parameters
    ----------
    load_g : float
        Mass in the oven. [g]

    Returns
    -------
    float
        Part of the rating, 1 for a kilogram or more. [-]

    Notes
    -----
    .. math:: s = \min(1, (m/1000)^{0.12})

    The form is our own: it gives the 0.7-0.9 (from memory) of loads of 50 to 400 g.

    References
    ----------
    .. [1] IEC 60705 fixes the point at 1 kg. The rest is from memory.

    Examples
    --------
    >>> round(microwave_share(250.0), 2), microwave_share(1000.0)
    (0.85, 1.0)
    """
    return float(min(1.0, (max(load_g, 1.0) / 1000) ** MICROWAVE_LOAD_POWER))
