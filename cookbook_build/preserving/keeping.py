"""How long dried food stays good to eat: quality, never safety.

Times in months at a steady temperature in °C, fat as a fraction of the dry matter. The figures and
their sources stand in `quality_bases`.
"""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass
from math import floor, fsum, isfinite
from typing import TYPE_CHECKING, Final, Protocol, Self, TypeVar

from cookbook_build.preserving.quality_bases import (
    DATED,
    HIGH,
    LOW,
    REFERENCE_C,
    Kind,
    Package,
    Way,
    base_quality,
    fat_factor,
    temperature_factor,
)

if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import SupportsIndex


@dataclass(frozen=True, slots=True)
class QualityTime:
    """How long a food stays at its best, and the range that sources and foods spread over.

    Parameters
    ----------
    low, months, high : float
        Shortest, the figure to date by, longest. [month]
    """

    low: float
    months: float
    high: float


TRACE: Final = 0.02
"""Part of a mix's dry weight below which a part is seasoning and sets no date; our choice."""


@dataclass(frozen=True, slots=True)
class Part:
    """One store in a dry mix.

    Parameters
    ----------
    name : str
        What the household calls it. [-]
    dry_g : float
        Its weight in the mix. [g]
    fat : float
        Fat in its dry matter. [-]
    kind : {"fruit", "apricots", "vegetable", "grain", "animal", "salt or sugar"}
        What it is. [-]
    way : {"freeze", "air", "bought"}
        How it came dry. [-]
    """

    name: str
    dry_g: float
    fat: float
    kind: Kind
    way: Way


@dataclass(frozen=True, slots=True)
class MixQuality:
    """How long a mix keeps, and which part of it says so.

    Parameters
    ----------
    keeps : QualityTime
        The shortest of its parts. [month]
    shortest : str
        Name of the part that sets the date. [-]
    """

    keeps: QualityTime
    shortest: str


class CalendarDate(Protocol):
    """A day of the calendar, as the standard library's date has it; no clock is read here."""

    @property
    def year(self) -> int:
        """The year."""

    @property
    def month(self) -> int:
        """The month, 1 to 12."""

    @property
    def day(self) -> int:
        """The day of the month."""

    def replace(
        self, year: SupportsIndex = ..., month: SupportsIndex = ..., day: SupportsIndex = ...
    ) -> Self:
        """Return the day with some of the three replaced."""


Date = TypeVar("Date", bound=CalendarDate)


def quality_time(
    kind: Kind, way: Way, package: Package, fat: float, temp_c: float = REFERENCE_C
) -> QualityTime:
    r"""Return how long a dried food stays at its best.

    Assumes that it is as dry as its package asks, dark, and not opened before.

    Parameters
    ----------
    kind : {"fruit", "apricots", "vegetable", "grain", "animal", "salt or sugar"}
        What it is. [-]
    way : {"freeze", "air", "bought"}
        How it came dry. [-]
    package : {"plain", "absorber"}
        What it is kept in. [-]
    fat : float
        Fat in its dry matter. [-]
    temp_c : float
        Where it is kept; 20 °C if not given (our choice). [°C]

    Returns
    -------
    QualityTime
        The figure to date by, and its range. [month]

    Notes
    -----
    .. math:: t = \min(t_{20} Q_{10}^{(20 - T)/10}, t_{most}) f(fat)

    A date of quality: no number here promises that food is safe.

    References
    ----------
    .. [1] See `quality_bases`.

    Examples
    --------
    >>> quality_time("fruit", "freeze", "absorber", 0.55)
    QualityTime(low=4.5, months=9.0, high=22.5)
    >>> round(quality_time("vegetable", "air", "plain", 0.02, 30.0).months, 1)
    1.1
    """
    base, factor = base_quality(kind, way, package, fat), fat_factor(fat)
    longest = max(base.high, base.most)
    low = min(base.low * temperature_factor(temp_c, LOW), base.most)
    months = min(base.months * temperature_factor(temp_c, DATED), base.most)
    high = min(base.high * temperature_factor(temp_c, HIGH), longest)
    return QualityTime(low * factor, months * factor, high * factor)


def mix_quality(parts: Sequence[Part], package: Package, temp_c: float = REFERENCE_C) -> MixQuality:
    """Return how long a dry mix stays at its best: as long as the shortest of its parts.

    Assumes that fat goes rancid in the piece that holds it: a mix is tasted piece by piece, so
    spreading a fatty part's fat over lean rice would date it too late.

    Parameters
    ----------
    parts : sequence of Part
        What is in it. [-]
    package : {"plain", "absorber"}
        What it is kept in. [-]
    temp_c : float
        Where it is kept; 20 °C if not given (our choice). [°C]

    Returns
    -------
    MixQuality
        Time, and the part that sets it. [-]

    Raises
    ------
    ValueError
        If nothing in it weighs anything.

    Notes
    -----
    A part under 2 % of the weight is seasoning and not counted, if any other part is.

    References
    ----------
    .. [1] Our choice.

    Examples
    --------
    >>> rice = Part("rice", 60.0, 0.008, "grain", "bought")
    >>> avocado = Part("avocado", 15.0, 0.55, "fruit", "freeze")
    >>> mix_quality([rice, avocado], "absorber").shortest
    'avocado'
    """
    whole_g = fsum(part.dry_g for part in parts)
    if not whole_g > 0:
        raise ValueError("a mix weighs something")
    counted = [part for part in parts if part.dry_g >= TRACE * whole_g] or list(parts)
    times = [quality_time(part.kind, part.way, package, part.fat, temp_c) for part in counted]
    soonest = min(range(len(counted)), key=lambda index: times[index].months)
    keeps = QualityTime(
        min(one.low for one in times), times[soonest].months, min(one.high for one in times)
    )
    return MixQuality(keeps, counted[soonest].name)


def best_by(packed: Date, months: float) -> Date:
    """Return the day until which a lot is at its best.

    Assumes nothing about safety: a quality date.

    Parameters
    ----------
    packed : date
        The day it was packed. [-]
    months : float
        How long it keeps, rounded down to whole months. [month]

    Returns
    -------
    date
        The same day so many months later, or the month's last if it has no such day. [-]

    Raises
    ------
    ValueError
        If the months are below zero or no number.

    Notes
    -----
    Under one month it is the day of packing: eat it, or keep it another way.

    References
    ----------
    .. [1] The Gregorian calendar.

    Examples
    --------
    >>> from datetime import date
    >>> best_by(date(2026, 8, 31), 6.9)
    datetime.date(2027, 2, 28)
    """
    if not (isfinite(months) and months >= 0):
        raise ValueError(f"no date lies {months!r} months on")
    # a millionth of a month forgives rounding: our choice; twelve months by definition
    years, month = divmod(packed.month - 1 + floor(months + 1e-6), 12)
    year = packed.year + years
    last = monthrange(year, month + 1)[1]
    return packed.replace(year=year, month=month + 1, day=min(packed.day, last))
