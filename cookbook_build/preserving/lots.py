"""What the weights of a lot tell: the moisture left in it, and the household's own yield.

Masses in g, moistures and yields as fractions.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum, sqrt
from typing import TYPE_CHECKING, Final, Literal

from cookbook_build.preserving.absorbers import ABSORBER_MOISTURE
from cookbook_build.preserving.yields import (
    MOST_CREDIBLE_MOISTURE,
    residual_moisture,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

LotFault = Literal[
    "not weighed",
    "heavier than fresh",
    "lighter than its dry matter",
    "far too light",
    "still damp",
]

TABLE_YIELD_SHARE: Final = 0.15
"""How far a household's yield lies from the table's, as a standard deviation in parts of it: five
vegetables that a cyclist weighed before and after drying scatter by 0.16 about SR28's dry matter
(in the published checks); rounded, our choice."""

LOT_YIELD_SHARE: Final = 0.08
"""How far one lot lies from the household's yield, likewise: half of that, our choice."""

LIGHT_SHARE: Final = 0.9
"""A lot that weighs less than this part of its table dry matter is lighter than foods of one name
differ among themselves: our choice. The lightest of those five vegetables came to 0.908 of it."""

LIGHTEST_SHARE: Final = 0.7
"""A lot that weighs less than this part of its table dry matter can't be, and teaches nothing. It
is our choice, two standard deviations of the table's yield; a tenth would all but refuse those
vegetables."""

DAMP_MOISTURE: Final = ABSORBER_MOISTURE
"""A lot with more water than that is no pattern for the next: what it weighs says when somebody
stopped, not when it was dry. The limit of absorbers; common practice, no source."""

UNFINISHED_SHARE: Final = 0.05
"""A lot whose last two weights, an hour apart, differ by this part of the later one or more was
taken out while water still left it: our choice, five times what passes for steady. A scale's own
step is no loss."""

BOILED_OFF_SHARE: Final = 0.5
"""The most that a pot which nobody weighed is taken to lose of its weight as steam; our choice."""


@dataclass(frozen=True, slots=True)
class WeighedLot:
    """What a lot's weights say.

    Parameters
    ----------
    dried_share : float or None
        Grams dried per gram prepared; None if it was not weighed. [-]
    moisture : float or None
        Moisture left, wet basis; below zero when the weights contradict the moisture. [-]
    fault : str or None
        What is wrong with the weights. [-]
    teaches : bool
        Whether the household's own yield should count it. A lot lighter than its table dry matter
        does: the food was wetter than the table's, which is what its yield says. A damp one does
        not: its yield would tell the next tray to stop as damp. [-]
    least_moisture : float or None
        Moisture that is left at the least, where the weights only bound it; None elsewhere, and
        where they don't. [-]
    """

    dried_share: float | None
    moisture: float | None
    fault: LotFault | None
    teaches: bool
    least_moisture: float | None = None

    @property
    def sure_moisture(self) -> float | None:
        """Moisture that is left for sure: as reckoned, or else at the least."""
        return self.least_moisture if self.moisture is None else self.moisture

    @property
    def is_damp(self) -> bool:
        """Whether it surely holds more water than sealed keeping allows."""
        return self.sure_moisture is not None and self.sure_moisture > DAMP_MOISTURE


@dataclass(frozen=True, slots=True)
class HouseholdYield:
    """A store's yield as this household gets it.

    Parameters
    ----------
    mean, sd : float
        Grams dried per gram prepared, and how surely. [-]
    lots : int
        From how many lots. [-]
    """

    mean: float
    sd: float
    lots: int


def weighed_lot(fresh_g: float, dry_g: float, fresh_moisture: float) -> WeighedLot:
    r"""Return a lot's yield and the moisture left in it, or what is wrong with its weights.

    Assumes that the prepared food held its usual moisture.

    Parameters
    ----------
    fresh_g : float
        Mass before drying. [g]
    dry_g : float
        Mass after drying. [g]
    fresh_moisture : float
        Moisture of the prepared food, M_f. [-]

    Returns
    -------
    WeighedLot
        Yield, moisture left, and the fault if there is one. [-]

    Raises
    ------
    ValueError
        If the moisture lies outside 0 to 1.

    Notes
    -----
    .. math:: y = m_{dry}/m_{fresh}, \quad M_r = 1 - (1 - M_f)/y

    Credible is a moisture up to 0.25. Three of five vegetables that somebody weighed come out below
    zero with a table's moisture, by up to 0.10: foods differ. So a lot that holds 0.9 of its table
    dry matter has no fault; one that holds 0.7 has one, to be shown, and yet teaches.

    References
    ----------
    .. [1] Balance of dry matter.

    Examples
    --------
    >>> round(weighed_lot(1000.0, 125.0, 0.88).moisture, 3)
    0.04
    >>> weighed_lot(1000.0, 200.0, 0.88).fault
    'still damp'
    """
    if not 0 <= fresh_moisture < 1:
        raise ValueError(f"no food holds {fresh_moisture!r} of water")
    if not (fresh_g > 0 and dry_g > 0):
        return WeighedLot(None, None, "not weighed", teaches=False)
    moisture = residual_moisture(fresh_g, dry_g, fresh_moisture)
    fault: LotFault | None = None
    if dry_g > fresh_g:
        fault = "heavier than fresh"
    elif (1 - moisture) * LIGHTEST_SHARE > 1:
        fault = "far too light"
    elif (1 - moisture) * LIGHT_SHARE > 1:
        fault = "lighter than its dry matter"
    elif moisture > MOST_CREDIBLE_MOISTURE:
        fault = "still damp"
    teaches = fault in {None, "lighter than its dry matter"} and moisture <= DAMP_MOISTURE
    return WeighedLot(dry_g / fresh_g, moisture, fault, teaches=teaches)


def lot_of_unweighed_pot(fresh_g: float, dry_g: float, filled_moisture: float) -> WeighedLot:
    r"""Return what the weights of a lot tell when nobody weighed the pot that it came from.

    Assumes that no more than half of the pot's weight boiled off, and nothing was poured away.

    Parameters
    ----------
    fresh_g : float
        Mass of the cooked food before drying. [g]
    dry_g : float
        Mass after drying. [g]
    filled_moisture : float
        Moisture of all that went into the pot, M_0. [-]

    Returns
    -------
    WeighedLot
        Yield, the least moisture left, and the fault if there is one; it never teaches. [-]

    Raises
    ------
    ValueError
        If the moisture lies outside 0 to 1.

    Notes
    -----
    .. math:: M_r \ge 1 - \frac{m_{fresh}}{m_{dry}} \min\left(1, \frac{1 - M_0}{1 - b}\right)

    with b = 0.5, the most that boils off. With nothing boiled off more water is left, so that
    reading, the wettest, refuses nothing that this one allows.

    References
    ----------
    .. [1] Balance of dry matter.

    Examples
    --------
    >>> lot = lot_of_unweighed_pot(2740.0, 2000.0, 0.8)
    >>> round(lot.least_moisture, 3), lot.fault
    (0.452, 'still damp')
    """
    if not 0 <= filled_moisture < 1:
        raise ValueError(f"no food holds {filled_moisture!r} of water")
    if not (fresh_g > 0 and dry_g > 0):
        return WeighedLot(None, None, "not weighed", teaches=False)
    least_cooked = max(0.0, 1 - (1 - filled_moisture) / (1 - BOILED_OFF_SHARE))
    least = residual_moisture(fresh_g, dry_g, least_cooked)
    fault: LotFault | None = "still damp" if least > DAMP_MOISTURE else None
    return WeighedLot(dry_g / fresh_g, None, fault, teaches=False, least_moisture=least)


def household_yield(table_yield: float, lot_yields: Sequence[float]) -> HouseholdYield:
    r"""Return a store's yield: the table's, drawn toward the household's lots, and never above it.

    Assumes that lots scatter alike, and that a household lies about the table as lots about it.

    Parameters
    ----------
    table_yield : float
        Grams dried per gram prepared by the table's moistures, y_0. [-]
    lot_yields : sequence of float
        The same of each lot that teaches. [-]

    Returns
    -------
    HouseholdYield
        Mean, standard deviation and number of lots. [-]

    Raises
    ------
    ValueError
        If a yield is not above zero.

    Notes
    -----
    .. math:: y = \min\left(y_0, \frac{y_0/p^2 + n \bar y/s^2}{1/p^2 + n/s^2}\right), \quad
              σ = y_0 (1/p^2 + n/s^2)^{-1/2}

    with p = 0.15 for the table and s = 0.08 for a lot, both in parts of the table's yield.

    Lots that weigh more than the table's came from richer food or are damper, and no weighing tells
    which; a tray's target follows from the yield, so the drier reading is taken: with y above y_0
    each tray would be called done with more water left than the target moisture.

    References
    ----------
    .. [1] Mean weighted by precision.

    Examples
    --------
    >>> own = household_yield(0.12, [0.108, 0.110, 0.106])
    >>> round(own.mean, 3), round(own.sd, 3), own.lots
    (0.109, 0.005, 3)
    >>> household_yield(0.12, [0.132, 0.130, 0.134]).mean
    0.12
    """
    if not all(share > 0 for share in (table_yield, *lot_yields)):
        raise ValueError("a yield is above zero")
    before, each = TABLE_YIELD_SHARE**-2, LOT_YIELD_SHARE**-2
    precision = before + len(lot_yields) * each
    mean = (table_yield * before + fsum(lot_yields) * each) / precision
    return HouseholdYield(min(mean, table_yield), table_yield / sqrt(precision), len(lot_yields))


def fresh_moisture(dried_share: float, dried_moisture: float) -> float:
    """Return the moisture that a prepared food held, from what it yielded.

    Assumes that the dried food is as dry as said: the yield then speaks of the fresh food.

    Parameters
    ----------
    dried_share : float
        Grams dried per gram prepared, y. [-]
    dried_moisture : float
        Moisture of the dried food, M_r. [-]

    Returns
    -------
    float
        Moisture of the prepared food, M_f. [-]

    Raises
    ------
    ValueError
        If the yield lies outside 0 to 1.

    Notes
    -----
    .. math:: M_f = 1 - y (1 - M_r)

    References
    ----------
    .. [1] Balance of dry matter.

    Examples
    --------
    >>> round(fresh_moisture(0.125, 0.04), 2)
    0.88
    """
    if not 0 < dried_share <= 1:
        raise ValueError(f"no food dries to {dried_share!r} of itself")
    return 1 - dried_share * (1 - dried_moisture)
