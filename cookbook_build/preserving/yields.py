"""What drying leaves: yields, moistures, cup weights, and the way back to the shop.

Masses in g, volumes in mL, moistures and refuse as fractions of the whole (wet basis).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, fsum, log
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

DryingWay = Literal["freeze", "air"]

RESIDUAL_MOISTURE: Final[Mapping[DryingWay, float]] = MappingProxyType(
    # freeze: target 3 %, common practice, no source. Iowa State Extension (2021) has 98-99 % of the
    # water removed, which would leave a carrot 7 to 13 % moist: let the drying log decide.
    # air: vegetables brittle at about 10 % (from memory); 8 % is our choice.
    {"freeze": 0.03, "air": 0.08}
)

MOST_CREDIBLE_MOISTURE: Final = 0.25
"""Above this a drying log holds a weighing slip, or a tray that isn't dry; our choice, from 5-25 %
for properly dried food: Colorado State Extension 9.308 (2012)."""


@dataclass(frozen=True, slots=True)
class VolumeKept:
    """The part of its volume that a food keeps as it dries.

    Parameters
    ----------
    mean, sd : float
        Dried volume to prepared volume and its standard deviation. [-]

    Examples
    --------
    >>> VOLUME_KEPT["air"].mean
    0.21
    """

    mean: float
    sd: float


VOLUME_KEPT: Final[Mapping[DryingWay, VolumeKept]] = MappingProxyType(
    # freeze: a supplier's chart has no volume change on rehydration; published cups scatter from
    # a fifth to two and a half times of it. air: median and spread of eighteen published cups of
    # dried food (SR28, a supplier's chart, an army card), which the published checks list.
    {"freeze": VolumeKept(1.0, 0.0), "air": VolumeKept(0.21, 0.08)}
)


CUP_SHARE: Final = 0.05
"""By how much two level cups of one store differ, in parts; common practice, no source."""

DERIVED_SHARE: Final[Mapping[DryingWay, float]] = MappingProxyType(
    # air: the spread of `VOLUME_KEPT`. freeze: that of eight published cups about a kept volume
    # (SR28 and a supplier's chart, in the published checks), rounded.
    {"freeze": 0.5, "air": 0.38}
)
TABLE_SHARE: Final = 0.1
"""The same for a cup of the reference table; from memory."""


def dry_yield(fresh_moisture: float, dried_moisture: float) -> float:
    """Return the dried mass from a unit of prepared food.

    Assumes that drying takes water and nothing else.

    Parameters
    ----------
    fresh_moisture : float
        Moisture of the prepared food, M_f. [-]
    dried_moisture : float
        Moisture of the dried food, M_r. [-]

    Returns
    -------
    float
        Grams dried per gram prepared. [-]

    Raises
    ------
    ValueError
        If a moisture lies outside 0 to 1, or drying would add water.

    Notes
    -----
    .. math:: y = (1 - M_f)/(1 - M_r)

    References
    ----------
    .. [1] Balance of dry matter.

    Examples
    --------
    >>> round(dry_yield(0.6964, 0.03), 4)
    0.313
    """
    if not 0 <= dried_moisture <= fresh_moisture < 1:
        raise ValueError(f"no food dries from {fresh_moisture!r} to {dried_moisture!r}")
    return (1 - fresh_moisture) / (1 - dried_moisture)


def water_removed(fresh_moisture: float, dried_moisture: float) -> float:
    """Return the water that drying takes from a unit of prepared food.

    Assumes that drying takes water and nothing else.

    Parameters
    ----------
    fresh_moisture : float
        Moisture of the prepared food. [-]
    dried_moisture : float
        Moisture of the dried food. [-]

    Returns
    -------
    float
        Grams of water per gram prepared. [-]

    Notes
    -----
    .. math:: 1 - y

    References
    ----------
    .. [1] Balance of mass.

    Examples
    --------
    >>> round(water_removed(0.9221, 0.03), 3)
    0.92
    """
    return 1 - dry_yield(fresh_moisture, dried_moisture)


def residual_moisture(fresh_g: float, dry_g: float, fresh_moisture: float) -> float:
    """Return the moisture left in a dried food, from two weighings.

    Assumes that the prepared food held its usual moisture and nothing was spilt.

    Parameters
    ----------
    fresh_g : float
        Mass before drying. [g]
    dry_g : float
        Mass after drying. [g]
    fresh_moisture : float
        Moisture of the prepared food, wet basis. [-]

    Returns
    -------
    float
        Moisture left, wet basis; below zero when the weighings contradict the moisture. [-]

    Raises
    ------
    ValueError
        If a mass is not above zero or the moisture lies outside 0 to 1.

    Notes
    -----
    .. math:: M_r = 1 - m_{fresh} (1 - M_f)/m_{dry}

    A percent of error in M_f of a wet food is ten percent in its dry matter.

    References
    ----------
    .. [1] Balance of dry matter.

    Examples
    --------
    >>> round(residual_moisture(1000.0, 313.0, 0.6964), 3)
    0.03
    """
    if not (fresh_g > 0 and dry_g > 0 and 0 <= fresh_moisture < 1):
        raise ValueError(f"no drying from {fresh_g!r} g to {dry_g!r} g at {fresh_moisture!r}")
    return 1 - fresh_g * (1 - fresh_moisture) / dry_g


def dried_cup_weight(
    prepared_g_per_cup: float,
    fresh_moisture: float,
    dried_moisture: float,
    volume_kept: float = 1.0,
) -> float:
    """Return what a cup of a dried food weighs, from a cup of it prepared.

    Assumes that pieces shrink alike and pack as before.

    Parameters
    ----------
    prepared_g_per_cup : float
        Mass of a cup in that cut. [g]
    fresh_moisture : float
        Moisture of the prepared food. [-]
    dried_moisture : float
        Moisture of the dried food. [-]
    volume_kept : float
        Dried volume to prepared volume, s; see `VOLUME_KEPT`. [-]

    Returns
    -------
    float
        Mass of a cup dried. [g]

    Raises
    ------
    ValueError
        If the cup weighs nothing or no volume is kept.

    Notes
    -----
    .. math:: m_{cup,dry} = m_{cup} y/s

    References
    ----------
    .. [1] Balance of mass; the cups of the examples are USDA SR28's, NDB 16070 and 11821.

    Examples
    --------
    >>> round(dried_cup_weight(198.0, 0.6964, 0.03), 1)
    62.0
    >>> round(dried_cup_weight(149.0, 0.9221, 0.03), 1)
    12.0
    """
    if not (prepared_g_per_cup > 0 and volume_kept > 0):
        raise ValueError(f"no cup of {prepared_g_per_cup!r} g keeps {volume_kept!r} of its volume")
    return prepared_g_per_cup * dry_yield(fresh_moisture, dried_moisture) / volume_kept


def learned_cup_weight(
    derived_g: float | None, derived_share: float, weighed_g: Sequence[float]
) -> tuple[float, float]:
    r"""Return what a cup weighs, and how surely, from weighings and what was derived before.

    Assumes that two level cups of one store differ by a twentieth, and that errors are in parts of
    the weight, so that logarithms are averaged.

    Parameters
    ----------
    derived_g : float or None
        What a cup was reckoned to weigh. [g]
    derived_share : float
        Standard deviation of that, in parts of it. [-]
    weighed_g : sequence of float
        What cups weighed. [g]

    Returns
    -------
    tuple of float
        Mean and standard deviation. [g]

    Raises
    ------
    ValueError
        If there is neither a weighing nor a derived weight.

    Notes
    -----
    .. math:: \ln m = \frac{\sum \ln m_i/s_i^2}{\sum 1/s_i^2}, \quad
              σ = m \left(\sum 1/s_i^2\right)^{-1/2}

    References
    ----------
    .. [1] Mean weighted by precision.

    Examples
    --------
    >>> mean, sd = learned_cup_weight(40.0, 0.38, [57.0, 59.0, 58.0])
    >>> round(mean, 1), round(sd, 1)
    (57.9, 1.7)
    """
    known = [(grams, CUP_SHARE) for grams in weighed_g]
    if derived_g is not None:
        known.append((derived_g, derived_share))
    if not known or not all(grams > 0 and share > 0 for grams, share in known):
        raise ValueError("a cup is weighed or derived, and weighs something")
    precision = fsum(share**-2 for _, share in known)
    mean_g = exp(fsum(log(grams) / share**2 for grams, share in known) / precision)
    return mean_g, mean_g * precision**-0.5


def prepared_mass_g(dry_g: float, fresh_moisture: float, dried_moisture: float) -> float:
    """Return the prepared food that dries to a mass.

    Assumes that drying takes water and nothing else.

    Parameters
    ----------
    dry_g : float
        Dried food wanted. [g]
    fresh_moisture : float
        Moisture of the prepared food. [-]
    dried_moisture : float
        Moisture of the dried food. [-]

    Returns
    -------
    float
        Prepared food. [g]

    Notes
    -----
    .. math:: m_{prepared} = m_{dry}/y

    References
    ----------
    .. [1] Balance of dry matter.

    Examples
    --------
    >>> round(prepared_mass_g(62.0, 0.6964, 0.03))
    198
    """
    return dry_g / dry_yield(fresh_moisture, dried_moisture)


def purchased_mass_g(prepared_g: float, refuse: float) -> float:
    """Return what to buy, peel and core counted.

    Assumes the reference table's refuse: a careful hand wastes less.

    Parameters
    ----------
    prepared_g : float
        Prepared food wanted. [g]
    refuse : float
        Part of the purchase that is thrown away. [-]

    Returns
    -------
    float
        As bought. [g]

    Raises
    ------
    ValueError
        If all of it is refuse.

    Notes
    -----
    .. math:: m_{bought} = m_{prepared}/(1 - r)

    References
    ----------
    .. [1] Balance of mass; USDA SR28 defines refuse as a percentage of the total as bought.

    Examples
    --------
    >>> round(purchased_mass_g(820.0, 0.18))
    1000
    """
    if not 0 <= refuse < 1:
        raise ValueError(f"refuse must lie between 0 and 1, not {refuse!r}")
    return prepared_g / (1 - refuse)


def uncooked_mass_g(cooked_g: float, cooked_moisture: float, uncooked_moisture: float) -> float:
    """Return the raw dry food that cooks to a mass.

    Assumes that all dry matter stays in the food; boiled pulses lose a few percent of it to
    the cooking water, so buy a little more.

    Parameters
    ----------
    cooked_g : float
        Cooked food wanted. [g]
    cooked_moisture : float
        Moisture when cooked. [-]
    uncooked_moisture : float
        Moisture of the raw dry food. [-]

    Returns
    -------
    float
        Raw dry food. [g]

    Raises
    ------
    ValueError
        If a moisture lies outside 0 to 1.

    Notes
    -----
    .. math:: m_{raw} = m_{cooked} (1 - M_{cooked})/(1 - M_{raw})

    References
    ----------
    .. [1] Balance of dry matter. Chickpeas lose 2.3 % of their solids to water at 20 °C and
       10.2 % at 100 °C: J. Food Process Eng. 34 (2011) 1172-1186.

    Examples
    --------
    >>> round(uncooked_mass_g(198.0, 0.6964, 0.0826), 1)
    65.5
    """
    if not (0 <= cooked_moisture < 1 and 0 <= uncooked_moisture < 1):
        raise ValueError(f"no food cooks from {uncooked_moisture!r} to {cooked_moisture!r}")
    return cooked_g * (1 - cooked_moisture) / (1 - uncooked_moisture)
