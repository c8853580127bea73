"""How long a dish stays hot, and until when it may be eaten."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.cautions import HOT_LINE_C, WARM_AIR_C

if TYPE_CHECKING:
    from cookbook_build.kitchen.cooling import Warmth

TWO_HOURS_S: Final = 7200.0
ONE_HOUR_S: Final = 3600.0
"""USDA FSIS: two hours between 4 and 60 °C, one where the air is above 32 °C (90 °F)."""

STEP_S: Final = 60.0
JAR_FOLLOW_S: Final = 172_800.0
"""The moment is told to a minute, and a jar is followed for two days, longer than any meal is
kept; our choice."""


@dataclass(frozen=True, slots=True)
class Holding:
    """When a dish leaves the hot side, and when it should be eaten.

    Parameters
    ----------
    hot_until_s : float
        Time from the pour until it falls below 60 °C; zero if it never was above. [s]
    eat_by_s : float
        Time from the pour by which it should be eaten. [s]
    """

    hot_until_s: float
    eat_by_s: float


def holding(warmth: Warmth, air_c: float, follow_s: float) -> Holding:
    """Return how long a dish stays hot and until when it may be eaten.

    Assumes that the clock of the two-hour rule starts as the dish falls below 60 °C, and that
    nothing is known beyond the time over which the warmth was followed.

    Parameters
    ----------
    warmth : Warmth
        Its temperature over time. [-]
    air_c : float
        Temperature of the air. [°C]
    follow_s : float
        Time over which the warmth is known. [s]

    Returns
    -------
    Holding
        Both times. [-]

    Notes
    -----
    The moment is found to a minute, rounded down.

    References
    ----------
    .. [1] USDA FSIS, two-hour rule; FDA Food Code 3-501.16 would allow 57 °C, the stricter
       60 °C is used.

    Examples
    --------
    >>> from cookbook_build.kitchen.cooling import Relaxation
    >>> jar = Relaxation(90.0, 20.0, 36000.0)
    >>> round(holding(jar, 20.0, 86400.0).hot_until_s / 3600, 1)
    5.6
    """
    hot_until_s = _hot_until_s(warmth, follow_s)
    return Holding(hot_until_s, hot_until_s + _allowed_s(air_c))


def simmered(rest_s: float, air_c: float) -> Holding:
    """Return how long a simmered pot stays hot, its cooling counted as nothing.

    Assumes that it is eaten from the pot: the clock starts as the burner goes out.

    Parameters
    ----------
    rest_s : float
        Time that it simmers. [s]
    air_c : float
        Temperature of the air. [°C]

    Returns
    -------
    Holding
        Both times. [-]

    Notes
    -----
    Cautious: a lidded pot stays above 60 °C for some while.

    References
    ----------
    .. [1] USDA FSIS, two-hour rule.

    Examples
    --------
    >>> simmered(600.0, 20.0).eat_by_s
    7800.0
    """
    return Holding(rest_s, rest_s + _allowed_s(air_c))


def _allowed_s(air_c: float) -> float:
    return ONE_HOUR_S if air_c > WARM_AIR_C else TWO_HOURS_S


def _hot_until_s(warmth: Warmth, follow_s: float) -> float:
    if warmth.start_c < HOT_LINE_C:
        return 0.0
    low, high = 0.0, follow_s
    if follow_s == inf or warmth.temp_c(follow_s) >= HOT_LINE_C:
        return follow_s
    while high - low > STEP_S / 4:  # a quarter of the step that is told: our choice
        middle = (low + high) / 2
        low, high = (middle, high) if warmth.temp_c(middle) >= HOT_LINE_C else (low, middle)
    return low - low % STEP_S
