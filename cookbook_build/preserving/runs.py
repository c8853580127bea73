"""How short a run of a dryer can be: a handful of food does not dry in minutes.

Water an hour tells how long a full load takes. A small one takes as long as its pieces do, for the
water comes out of their middle. Times in h.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.preserving.drying import DryingHours

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from cookbook_build.preserving.yields import DryingWay

USUAL_LEAST_H: Final[Mapping[DryingWay, float]] = MappingProxyType({"freeze": 18.0, "air": 4.0})
"""The shortest run of a home machine, whatever lies in it: common practice, no source."""

LOWEST_SHARE: Final = 0.5
"""A band begins at 0.5 of its middle at the lowest; our choice."""

LONE_SPREAD: Final = sqrt(2.0)
"""How far a run may last beyond its middle where nothing tells: as far as a usual cycle of 24 to
48 h does, Kansas State University Extension (2021)."""


@dataclass(frozen=True, slots=True)
class Run:
    """How long a load runs.

    Parameters
    ----------
    hours : DryingHours
        Hours with a band. [h]
    is_least : bool
        Whether they are those of the shortest run, and not of the load's water. [-]
    from_log : bool
        Whether the shortest run is the household's own. [-]
    """

    hours: DryingHours
    is_least: bool
    from_log: bool


def shortest_run_h(runs_h: Iterable[float], way: DryingWay) -> float:
    r"""Return the shortest run that a household's log has, or a usual one before it has any.

    Assumes that the runs of the log were long enough.

    Parameters
    ----------
    runs_h : iterable of float
        Runs of the log, of one way of drying, that left their food dry. [h]
    way : str
        How it is dried. [-]

    Returns
    -------
    float
        Hours, at least. [h]

    Notes
    -----
    .. math:: t_{least} = \min t

    References
    ----------
    .. [1] Common practice, no source.

    Examples
    --------
    >>> shortest_run_h([26.0, 21.5, 33.0], "freeze"), shortest_run_h([], "air")
    (21.5, 4.0)
    """
    return min((run_h for run_h in runs_h if run_h > 0), default=USUAL_LEAST_H[way])


def run_of(hours: DryingHours, least_h: float, *, from_log: bool = False) -> Run:
    r"""Return how long a load runs: by its water, yet no shorter than the shortest run.

    Assumes that no load is dry before the shortest run is over.

    Parameters
    ----------
    hours : DryingHours
        Hours by the water of the load. [h]
    least_h : float
        The shortest run. [h]
    from_log : bool
        Whether that is the household's own. [-]

    Returns
    -------
    Run
        Hours whose band lies about their middle. [h]

    Raises
    ------
    ValueError
        If the shortest run is not above zero.

    Notes
    -----
    .. math:: t' = \max(t, t_{least}), \quad
              \max(t_{low}, t_{least}, t'/2) \le t' \le t' t_{high}/t

    References
    ----------
    .. [1] Our choice.

    Examples
    --------
    >>> run = run_of(DryingHours(4.5, 3.2, 6.4, "log"), 18.0)
    >>> run.hours.least_h, run.hours.middle_h, round(run.hours.most_h, 1), run.is_least
    (18.0, 18.0, 25.6, True)
    >>> run_of(DryingHours(36.0, 32.6, 39.8, "log"), 18.0).hours.least_h
    32.6
    """
    if not least_h > 0:
        raise ValueError(f"no run takes {least_h!r} h")
    middle = max(hours.middle_h, least_h)
    spread = hours.most_h / hours.middle_h if hours.middle_h > 0 else LONE_SPREAD
    lowest = min(max(hours.least_h, least_h, LOWEST_SHARE * middle), middle)
    floored = DryingHours(middle, lowest, max(middle, middle * spread), hours.source)
    return Run(floored, hours.middle_h < least_h, from_log)
