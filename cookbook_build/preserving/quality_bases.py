"""What sources say of how long dried food stays good, and the steps between them.

Times in months at a steady temperature in °C, fat as a fraction of the dry matter.

No published table by fat and package was found. Each figure below is no longer than the source
beside it carries, and the steps between are our choice, on the short side. Makers of freeze-dried
food claim 25 years; a Brigham Young University thesis (etd 11075) found no published study behind
such claims, so none of it is used here.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, isfinite
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping

Kind = Literal["fruit", "apricots", "vegetable", "grain", "animal", "salt or sugar"]
Way = Literal["freeze", "air", "bought"]
Package = Literal["plain", "absorber"]
"""`plain`: a closed jar or bag with its air; `absorber`: a sealed barrier that an absorber of the
right size keeps free of oxygen."""


@dataclass(frozen=True, slots=True)
class Base:
    """How long a food with little fat keeps at 20 °C.

    Parameters
    ----------
    low, months, high : float
        Shortest, the figure to date by, longest. [month]
    most : float
        What the sources carry at any temperature; colder never gives a longer date. [month]
    """

    low: float
    months: float
    high: float
    most: float


PLAIN: Final[Mapping[Kind, Base]] = MappingProxyType(
    {
        # NCHFP: most dried fruit 12 months at 60 °F and 6 at 80 °F, so 9 between; dried foods 4
        # to 12 months. The low end is Utah State Extension's dried apricots at 70 °F.
        "fruit": Base(3.0, 9.0, 12.0, 12.0),
        # Utah State Extension: 24, 3 and 1 months at 40, 70 and 90 °F. Low and high: our choice.
        "apricots": Base(1.5, 3.0, 4.0, 24.0),
        # NCHFP: half as long as fruit; 6 to 12 months by Vermont and Alabama Extension. For pulses,
        # mushrooms, herbs and sauces too: our choice.
        "vegetable": Base(3.0, 4.5, 12.0, 12.0),
        # Utah State Extension: brown rice 6 months at 70 °F, which the step for its fat brings this
        # to; barley 2 years below 60 °F. Low: NCHFP's 4 months. The rest is our choice.
        "grain": Base(4.0, 8.0, 12.0, 24.0),
        # Home-dried jerky two weeks to two months, from memory (NCHFP, USDA FSIS). Meat, fish, egg
        # and milk alike: our choice.
        "animal": Base(0.5, 2.0, 3.0, 6.0),
        # They do not spoil, though they cake (from memory); no longer than all else is trusted.
        "salt or sugar": Base(24.0, 24.0, 60.0, 24.0),
    }
)
SEALED: Final[Mapping[Way, Base]] = MappingProxyType(
    {
        # A Utah State University thesis (5494) kept dried potato, apple, carrot, rice, milk, oats
        # and wheat for 24 months; at 10 and 21 °C most kept their colour. No test of home
        # freeze-dried food was found: 24 months is as far as that goes. High: our choice, under
        # the 100 months at 70 °F that a chart of military pouches has (copy read).
        "freeze": Base(12.0, 24.0, 60.0, 24.0),
        # The top of NCHFP's 4 to 12 months: no more moist food is trusted longer; our choice.
        "air": Base(4.0, 12.0, 24.0, 24.0),
        # Barley below 60 °F 2 years (Utah State Extension), brought to 20 °C and down; our choice.
        "bought": Base(12.0, 18.0, 24.0, 24.0),
    }
)
SEALED_ANIMAL: Final = Base(6.0, 12.0, 24.0, 12.0)
"""Sealed meat, fish, egg and milk: about a year, as for a fatty mix; our choice."""

LEAN: Final = 0.02
"""Fat in the dry matter below which it doesn't count; our choice. White rice has 0.8 %, pearl
barley 1.3 %, brown rice 3.6 % (SR28)."""

FAT_STEPS: Final = ((LEAN, 1.0), (0.10, 0.75), (0.30, 0.5), (inf, 0.375))
"""Up to this fat, this part of the base; conservative steps, our choice. They meet two figures:
brown rice 6 months (Utah State Extension), and mixes with a fatty fruit such as avocado within
about a year (common practice, no source)."""

REFERENCE_C: Final = 20.0
"""Temperature of the bases; our choice."""

COLDEST_COUNTED_C: Final = 4.4
"""40 °F, the coldest of the sources (Utah State Extension); colder gives no longer date."""


@dataclass(frozen=True, slots=True)
class Quotients:
    """By what the time changes over 10 °C, below and above 20 °C.

    Parameters
    ----------
    cold, warm : float
        Q10 below and above. [-]
    """

    cold: float
    warm: float


# NCHFP's fruit changes 1.87-fold, Utah State Extension's canned fruit 1.52, its apricots 3.48 in
# the cold; Missouri Extension has three to four for dried fruit, a military chart 5.0 above 80 °F.
# Each end is the one that gives the shorter time, and for the high figure the longer.
DATED: Final = Quotients(cold=1.8, warm=4.0)
LOW: Final = Quotients(cold=1.5, warm=5.0)
HIGH: Final = Quotients(cold=3.5, warm=1.87)


def fat_factor(fat: float) -> float:
    """Return the part of the keeping time that fat leaves.

    Assumes that rancid fat ends it, and that fat of any kind is alike.

    Parameters
    ----------
    fat : float
        Fat in the dry matter. [-]

    Returns
    -------
    float
        Factor, 0.375 to 1. [-]

    Raises
    ------
    ValueError
        If the fat lies outside 0 to 1.

    Notes
    -----
    `FAT_STEPS`: 1 to 2 % fat, 0.75 to 10 %, 0.5 to 30 %, 0.375 above.

    References
    ----------
    .. [1] Utah State University Extension ties brown rice's short life to its oil; the steps are
       our choice.

    Examples
    --------
    >>> fat_factor(0.012), fat_factor(0.55)
    (1.0, 0.375)
    """
    if not 0 <= fat <= 1:
        raise ValueError(f"fat must lie between 0 and 1, not {fat!r}")
    return next(factor for limit, factor in FAT_STEPS if fat <= limit)


def base_quality(kind: Kind, way: Way, package: Package, fat: float) -> Base:
    """Return how long a food keeps at 20 °C, before its fat is counted.

    Assumes that no oxygen helps where a source shows it, and nowhere else.

    Parameters
    ----------
    kind : {"fruit", "apricots", "vegetable", "grain", "animal", "salt or sugar"}
        What it is. [-]
    way : {"freeze", "air", "bought"}
        How it came dry; counts only with an absorber. [-]
    package : {"plain", "absorber"}
        What it is kept in. [-]
    fat : float
        Fat in its dry matter. [-]

    Returns
    -------
    Base
        Times. [month]

    Notes
    -----
    Grain with more than 2 % fat and apricots that were not freeze-dried get no credit for an
    absorber: the sources carry no longer time, and storage guides leave whole grain out.

    References
    ----------
    .. [1] The tables `PLAIN` and `SEALED`, each line with its source.

    Examples
    --------
    >>> base_quality("vegetable", "air", "plain", 0.02).months
    4.5
    >>> base_quality("vegetable", "freeze", "absorber", 0.02).months
    24.0
    """
    oily_grain = kind == "grain" and fat > LEAN
    browning = kind == "apricots" and way != "freeze"
    if package == "plain" or oily_grain or browning or kind == "salt or sugar":
        return PLAIN[kind]
    return SEALED_ANIMAL if kind == "animal" else SEALED[way]


def temperature_factor(temp_c: float, quotients: Quotients = DATED) -> float:
    r"""Return the part of the time at 20 °C that another temperature leaves.

    Assumes a steady temperature; a shed that is hot by day counts as hot.

    Parameters
    ----------
    temp_c : float
        Where it is kept; below 4.4 °C counts as 4.4 °C. [°C]
    quotients : Quotients
        Q10 below and above 20 °C; the cautious pair if not given. [-]

    Returns
    -------
    float
        Factor, above one in the cold. [-]

    Raises
    ------
    ValueError
        If the temperature is no number.

    Notes
    -----
    .. math:: Q_{10}^{(20 - T)/10}

    References
    ----------
    .. [1] Q10 2 to 4 for dried food: University of Missouri Extension (2009) and what NCHFP's and
       Utah State Extension's figures come to.

    Examples
    --------
    >>> temperature_factor(20.0), temperature_factor(30.0)
    (1.0, 0.25)
    """
    if not isfinite(temp_c):
        raise ValueError(f"no temperature of {temp_c!r}")
    warmer = max(temp_c, COLDEST_COUNTED_C) - REFERENCE_C
    quotient = quotients.warm if warmer > 0 else quotients.cold
    return float(quotient ** (-warmer / 10))  # Q10 is over 10 °C by definition
