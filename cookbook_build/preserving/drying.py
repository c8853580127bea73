"""How long a load dries by the household's own log, and when a tray is done.

Masses in g, times in h, as a log is kept.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from math import exp, fsum, log, sqrt
from statistics import median
from typing import TYPE_CHECKING, Final, Literal

from cookbook_build.preserving.lots import (
    HouseholdYield,
    WeighedLot,
    fresh_moisture,
    household_yield,
    weighed_lot,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = [
    "DriedRow", "DryingHours", "DryingRate", "HoursFrom", "HouseholdYield", "TrayState",
    "WeighedLot", "done_mass_g", "drying_hours", "drying_rate", "fresh_moisture",
    "household_yield", "is_steady", "load_rates", "tray_state", "weighed_lot",
]  # fmt: skip

TrayState = Literal["done", "still drying", "steady but heavy"]
HoursFrom = Literal["log", "stated", "usual"]

USUAL_HOURS: Final = (24.0, 48.0)
"""A home machine's cycle: Kansas State University Extension (2021)."""

USUAL_SPREAD: Final = log(2) / 2
"""Standard deviation of the logarithm of the hours: that cycle, 24 to 48 h, as a band of one
deviation each way, our choice."""

USUAL_LOADS: Final = 2
"""As many loads as that spread counts for beside the log's own; our choice."""

NORMAL_MAD: Final = 1.4826
"""Standard deviation to median absolute deviation of a normal distribution; exact to the digits."""

STEADY_SHARE: Final = 0.01
"""Two weighings that differ by less than this part of the dry weight are alike; our choice.
Guides say to dry on and weigh again until nothing changes, with no figure (from memory)."""

STEADY_APART_H: Final = 1.0
"""How long after the first the second weighing comes, at least; our choice."""


@dataclass(frozen=True, slots=True)
class DriedRow:
    """A row of the drying log: one store on one load.

    Parameters
    ----------
    load : str
        What tells the loads apart, such as the date. [-]
    fresh_g : float
        Mass before drying. [g]
    dry_g : float or None
        Mass after drying; None while it dries. [g]
    hours : float or None
        How long the load took; the longest of its rows counts. [h]
    """

    load: str
    fresh_g: float
    dry_g: float | None
    hours: float | None


@dataclass(frozen=True, slots=True)
class DryingRate:
    """How fast a dryer takes water.

    Parameters
    ----------
    g_per_h : float
        Water an hour over a load. [g/h]
    spread : float
        Standard deviation of its logarithm from load to load. [-]
    loads : int
        From how many loads of the log; 0 if it was stated. [-]
    """

    g_per_h: float
    spread: float
    loads: int


@dataclass(frozen=True, slots=True)
class DryingHours:
    """How long a load dries.

    Parameters
    ----------
    middle_h, least_h, most_h : float
        Hours, and a band that holds two loads of three. [h]
    source : str
        Where they are from: the log, the dryer's stated rate, or a usual machine. [-]
    """

    middle_h: float
    least_h: float
    most_h: float
    source: HoursFrom


def load_rates(rows: Iterable[DriedRow]) -> tuple[float, ...]:
    """Return how fast each finished load of a log lost its water, in the log's order.

    Assumes that a load takes as long as the longest of its rows says.

    Parameters
    ----------
    rows : iterable of DriedRow
        The log. [-]

    Returns
    -------
    tuple of float
        Water an hour of each load whose every row lost weight and whose hours are known. [g/h]

    Notes
    -----
    .. math:: r = (m_{fresh} - m_{dry})/t

    References
    ----------
    .. [1] Balance of mass.

    Examples
    --------
    >>> load_rates([DriedRow("2026-03-02", 900.0, 100.0, 30.0),
    ...             DriedRow("2026-03-02", 800.0, 100.0, None)])
    (50.0,)
    """
    loads: dict[str, list[DriedRow]] = defaultdict(list)
    for row in rows:
        loads[row.load].append(row)
    rates = (_rate(load) for load in loads.values())
    return tuple(rate for rate in rates if rate is not None)


def _rate(load: list[DriedRow]) -> float | None:
    hours = max((row.hours or 0.0 for row in load), default=0.0)
    water = [row.fresh_g - row.dry_g for row in load if row.dry_g is not None and row.dry_g > 0]
    if hours <= 0 or len(water) < len(load) or min(water) <= 0:
        return None
    return fsum(water) / hours


def drying_rate(rows: Iterable[DriedRow]) -> DryingRate | None:
    r"""Return the household's drying rate, or None before its first finished load.

    Assumes that the logarithm of the rate scatters normally, apart from a few odd loads.

    Parameters
    ----------
    rows : iterable of DriedRow
        The log, of one dryer. [-]

    Returns
    -------
    DryingRate or None
        Median water an hour, and its spread. [g/h]

    Notes
    -----
    .. math:: σ^2 = \frac{n_0 σ_0^2 + (n - 1) (1.4826\,MAD)^2}{n_0 + n - 1}

    with MAD the median absolute deviation of ln r, and σ_0 the spread of usual machines, which
    counts for n_0 = 2 loads.

    References
    ----------
    .. [1] Median and median absolute deviation; variances pooled by their degrees of freedom.

    Examples
    --------
    >>> rate = drying_rate([DriedRow("2026-03-02", 4000.0, 400.0, 36.0)])
    >>> rate.g_per_h, round(rate.spread, 2), rate.loads
    (100.0, 0.35, 1)
    """
    rates = load_rates(rows)
    if not rates:
        return None
    middle = median(rates)
    own = NORMAL_MAD * median(abs(log(rate / middle)) for rate in rates)
    more = len(rates) - 1
    variance = (USUAL_LOADS * USUAL_SPREAD**2 + more * own**2) / (USUAL_LOADS + more)
    return DryingRate(middle, sqrt(variance), len(rates))


def drying_hours(
    water_g: float, learned: DryingRate | None = None, stated_g_per_h: float | None = None
) -> DryingHours:
    r"""Return how long a load dries: by the log, else the dryer's stated rate, else as is usual.

    Assumes that hours grow with the water.

    Parameters
    ----------
    water_g : float
        Water to take from the load. [g]
    learned : DryingRate or None
        The household's own rate. [g/h]
    stated_g_per_h : float or None
        What the dryer's papers state. [g/h]

    Returns
    -------
    DryingHours
        Hours with a band, and where they are from. [h]

    Raises
    ------
    ValueError
        If the water is below zero, or a rate is not above it.

    Notes
    -----
    .. math:: t = (W/r) e^{\pm σ}

    With no rate known, a cycle of 24 to 48 h, whatever the load, with their geometric mean.

    References
    ----------
    .. [1] Balance of mass. Cycle of a home machine: Kansas State University Extension (2021).

    Examples
    --------
    >>> hours = drying_hours(3600.0, DryingRate(100.0, 0.1, 12))
    >>> round(hours.least_h, 1), hours.middle_h, round(hours.most_h, 1), hours.source
    (32.6, 36.0, 39.8, 'log')
    >>> drying_hours(3600.0).least_h, drying_hours(3600.0).most_h
    (24.0, 48.0)
    """
    if not water_g >= 0:
        raise ValueError(f"no load holds {water_g!r} g of water")
    if learned is None and stated_g_per_h is None:
        least, most = USUAL_HOURS
        return DryingHours(sqrt(least * most), least, most, "usual")
    source: HoursFrom = "log" if learned else "stated"
    rate = learned or DryingRate(stated_g_per_h or 0.0, USUAL_SPREAD, 0)
    if not rate.g_per_h > 0:
        raise ValueError(f"no dryer takes {rate.g_per_h!r} g an hour")
    middle, factor = water_g / rate.g_per_h, exp(rate.spread)
    return DryingHours(middle, middle / factor, middle * factor, source)


def done_mass_g(fresh_g: float, dried_share: float) -> float:
    """Return what a tray weighs, its own weight left out, once it is dry.

    Assumes that the food yields as before.

    Parameters
    ----------
    fresh_g : float
        Prepared food on the tray. [g]
    dried_share : float
        Grams dried per gram prepared: the household's own, or the table's. [-]

    Returns
    -------
    float
        Target. [g]

    Notes
    -----
    .. math:: m_{done} = m_{fresh} y

    References
    ----------
    .. [1] Balance of mass.

    Examples
    --------
    >>> round(done_mass_g(850.0, 0.1378))
    117
    """
    return fresh_g * dried_share


def is_steady(earlier_g: float, later_g: float, apart_h: float = STEADY_APART_H) -> bool:
    r"""Return whether two weighings of a tray, dried on between them, are alike.

    Assumes that the tray's own weight is taken off both.

    Parameters
    ----------
    earlier_g, later_g : float
        The two weighings. [g]
    apart_h : float
        Hours between them; less than one tells nothing. [h]

    Returns
    -------
    bool
        Whether they differ by less than a hundredth of the later one. [-]

    Notes
    -----
    .. math:: |m_1 - m_2| < 0.01 m_2, \quad t_2 - t_1 \ge 1\,h

    References
    ----------
    .. [1] Weighing until nothing changes, common practice, no source; the figures are our choice.

    Examples
    --------
    >>> is_steady(118.0, 117.0), is_steady(119.0, 117.0), is_steady(117.5, 117.0, apart_h=0.3)
    (True, False, False)
    """
    return apart_h >= STEADY_APART_H and abs(earlier_g - later_g) < STEADY_SHARE * later_g


def tray_state(
    target_g: float, earlier_g: float, later_g: float, apart_h: float = STEADY_APART_H
) -> TrayState:
    r"""Return whether a tray is done: at its target, and steady.

    Assumes that the tray's own weight is taken off both weighings.

    Parameters
    ----------
    target_g : float
        What it should weigh when done. [g]
    earlier_g, later_g : float
        The two last weighings. [g]
    apart_h : float
        Hours between them. [h]

    Returns
    -------
    str
        Done, still drying, or steady but heavy: the middle of thick pieces is wet, or the food
        held more dry matter than the table's. [-]

    Notes
    -----
    .. math:: m_2 \le 1.01\,m_{done}

    with the hundredth by which two weighings may differ; that it must be steady too is because a
    yield is known to a tenth only.

    References
    ----------
    .. [1] Our choice.

    Examples
    --------
    >>> tray_state(117.0, 118.0, 117.0), tray_state(117.0, 131.0, 130.0)
    ('done', 'steady but heavy')
    """
    if not is_steady(earlier_g, later_g, apart_h):
        return "still drying"
    return "done" if later_g <= target_g * (1 + STEADY_SHARE) else "steady but heavy"
