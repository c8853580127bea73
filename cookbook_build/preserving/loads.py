"""Dryer loads: batches of prepared food on trays, and trays in the fewest loads.

A batch lies evenly on its trays, one store a tray. Foods that may not share a load fall into
groups, and each group is a packing of its own: trays a load, and water a load. Masses in g.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from math import ceil, fsum, inf
from typing import TYPE_CHECKING, Final

from cookbook_build.preserving.tray_fitting import SLACK, Counts, Fitting
from cookbook_build.preserving.yields import dry_yield

if TYPE_CHECKING:
    from collections.abc import Sequence

USUAL_DEPTH_M: Final = 0.0127
"""Half an inch, our choice: a page of advice on loading trays has a quarter to half an inch."""

USUAL_DENSITY_G_PER_ML: Final = 0.66
"""Median of the cups of 350 moist foods, USDA SR28 as in the table of foods."""

USUAL_TRAY_LOAD_G: Final = 900.0
"""Where neither a tray's load nor its area is known: about two pounds, from memory."""


@dataclass(frozen=True, slots=True, order=True)
class Batch:
    """Prepared food of one store to be dried.

    Parameters
    ----------
    name : str
        The store. [-]
    prepared_g : float
        Prepared food. [g]
    moisture : float
        Its moisture. [-]
    dried_moisture : float
        Moisture when dried. [-]
    density_g_per_ml : float or None
        Of the prepared pieces as they lie; None takes that of the middle food. [g/mL]
    strong_odour : bool
        Whether mild foods would take up its smell. [-]
    raw_animal : bool
        Whether it must be cooked before it is eaten. [-]
    """

    name: str
    prepared_g: float
    moisture: float
    dried_moisture: float
    density_g_per_ml: float | None = None
    strong_odour: bool = False
    raw_animal: bool = False

    @property
    def done_g(self) -> float:
        """What it weighs dried [g]."""
        return self.prepared_g * dry_yield(self.moisture, self.dried_moisture)

    @property
    def water_g(self) -> float:
        """Water that the dryer takes from it [g]."""
        return self.prepared_g - self.done_g


@dataclass(frozen=True, slots=True)
class Dryer:
    """A dryer as the household describes it.

    Parameters
    ----------
    trays : int
        Trays it takes. [-]
    tray_area_m2 : float or None
        Of one tray. [m²]
    tray_load_g : float or None
        Prepared food a tray carries. [g]
    ice_g : float or None
        Water it holds as ice before it must be thawed; None sets no limit. [g]
    depth_m : float
        How deep food lies on a tray: half an inch, our choice. [m]
    """

    trays: int
    tray_area_m2: float | None = None
    tray_load_g: float | None = None
    ice_g: float | None = None
    depth_m: float = USUAL_DEPTH_M


@dataclass(frozen=True, slots=True)
class TrayFill:
    """One tray of a load.

    Parameters
    ----------
    batch : Batch
        Whose food lies on it. [-]
    prepared_g : float
        Food in. [g]
    done_g : float
        What it weighs when dry. [g]
    water_g : float
        Water that leaves it. [g]
    """

    batch: Batch
    prepared_g: float
    done_g: float
    water_g: float


@dataclass(frozen=True, slots=True)
class Load:
    """Trays that dry together.

    Parameters
    ----------
    trays : tuple of TrayFill
        Its trays. [-]
    water_g : float
        Water of all of them. [g]
    """

    trays: tuple[TrayFill, ...]
    water_g: float


@dataclass(frozen=True, slots=True)
class LoadPlan:
    """All loads of a plan.

    Parameters
    ----------
    loads : tuple of Load
        Ready-to-eat foods first, raw animal foods last; in each, mild ones first. [-]
    lower_bound : int
        With fewer loads it can't be done: proven by trays, by water, or by trying all. [-]
    """

    loads: tuple[Load, ...]
    lower_bound: int


def tray_capacity_g(batch: Batch, dryer: Dryer) -> float:
    r"""Return how much of a food one tray takes.

    Assumes that pieces lie as loosely as in a cup.

    Parameters
    ----------
    batch : Batch
        The food. [-]
    dryer : Dryer
        The dryer. [-]

    Returns
    -------
    float
        Prepared food a tray, at most. [g]

    Raises
    ------
    ValueError
        If a tray takes nothing.

    Notes
    -----
    .. math:: m = \min(m_{tray}, 10^6 A d ρ, m_{ice}/(1 - y))

    A tray can hold no more water than the dryer holds ice. Where a tray's load and area are
    both unknown it takes 900 g, and where only the density is, 0.66 g/mL.

    References
    ----------
    .. [1] Mass of a layer. The usual density is the median of USDA SR28's cups; the usual load is
       from memory.

    Examples
    --------
    >>> carrots = Batch("carrots", 3000.0, 0.88, 0.04, density_g_per_ml=0.54)
    >>> tray_capacity_g(carrots, Dryer(5, tray_load_g=900.0))
    900.0
    >>> round(tray_capacity_g(carrots, Dryer(5, tray_area_m2=0.1, tray_load_g=900.0)))
    686
    """
    limits = []
    if dryer.tray_load_g is not None:
        limits.append(dryer.tray_load_g)
    if dryer.tray_area_m2 is not None:
        density = batch.density_g_per_ml or USUAL_DENSITY_G_PER_ML
        limits.append(1e6 * dryer.tray_area_m2 * dryer.depth_m * density)
    limits = limits or [USUAL_TRAY_LOAD_G]
    water = 1 - dry_yield(batch.moisture, batch.dried_moisture)
    if dryer.ice_g is not None and water > 0:
        limits.append(dryer.ice_g / water)
    if not min(limits) > 0:
        raise ValueError(f"a tray that takes {min(limits)!r} g of {batch.name} takes nothing")
    return min(limits)


def fewest_trays(batch: Batch, dryer: Dryer) -> int:
    r"""Return on how few trays a batch fits.

    Assumes that it lies evenly.

    Parameters
    ----------
    batch : Batch
        The food. [-]
    dryer : Dryer
        The dryer. [-]

    Returns
    -------
    int
        Trays; none for an empty batch. [-]

    Raises
    ------
    ValueError
        If the batch weighs less than nothing.

    Notes
    -----
    .. math:: n = \lceil m/m_{tray} \rceil

    A batch that just fits still fits: a tenth of `SLACK` of a tray is let pass.

    References
    ----------
    .. [1] Arithmetic.

    Examples
    --------
    >>> fewest_trays(Batch("carrots", 3000.0, 0.88, 0.04), Dryer(5, tray_load_g=900.0))
    4
    """
    if not 0 <= batch.prepared_g < inf:
        raise ValueError(f"no batch of {batch.name} weighs {batch.prepared_g!r} g")
    # 0.1: tighter than a load's slack, so that each tray fits into an empty load; our choice.
    trays = ceil(batch.prepared_g / tray_capacity_g(batch, dryer) - 0.1 * SLACK)
    return max(trays, 1) if batch.prepared_g else 0


def fewest_loads(batches: Sequence[Batch], dryer: Dryer) -> int:
    r"""Return a number of loads that no plan can beat.

    Assumes nothing: foods that may not share a load are counted apart, each group by its trays
    and by its water.

    Parameters
    ----------
    batches : sequence of Batch
        What is to be dried. [-]
    dryer : Dryer
        The dryer. [-]

    Returns
    -------
    int
        Loads, at least. [-]

    Notes
    -----
    .. math:: \sum_{groups} \max(\lceil \sum n_b/T \rceil, \lceil \sum W_b/W_{ice} \rceil)

    References
    ----------
    .. [1] Every load takes T trays and W_ice of water at most.

    Examples
    --------
    >>> carrots = Batch("carrots", 3000.0, 0.88, 0.04)
    >>> onions = Batch("onions", 500.0, 0.89, 0.04, strong_odour=True)
    >>> fewest_loads([carrots, onions], Dryer(5, tray_load_g=900.0))
    2
    """
    return sum(_fitting(group, dryer).bound() for group in _groups(batches))


def plan_loads(batches: Sequence[Batch], dryer: Dryer) -> LoadPlan:
    """Return a plan that dries all batches in few loads, with a number that no plan can beat.

    Assumes that a batch may dry over several loads, and that a load takes as many trays of a
    store as it has room for.

    Parameters
    ----------
    batches : sequence of Batch
        What is to be dried; their order doesn't matter. [-]
    dryer : Dryer
        The dryer. [-]

    Returns
    -------
    LoadPlan
        Loads with their trays, and the lower bound. [-]

    Raises
    ------
    ValueError
        If the dryer has no tray, a tray takes nothing, or a batch weighs less than nothing or
        would gain water.

    Notes
    -----
    A load holds no more trays than the dryer and no more water than its ice; strong odours never
    lie with mild foods, nor raw animal foods with ready-to-eat ones. Each batch lies evenly on as
    few trays as hold it. First-fit decreasing, in several orders; if that misses the bound, lighter
    trays, where one more tray saves a load; then a search of limited length, which may also prove
    that fewer loads can't be. Where it ends early, the plan is the best found.

    References
    ----------
    .. [1] First-fit decreasing for packing into bins, from memory; the orders are our choice.

    Examples
    --------
    >>> dryer = Dryer(5, tray_load_g=900.0, ice_g=3500.0)
    >>> plan = plan_loads([Batch("squash", 7600.0, 0.922, 0.03)], dryer)
    >>> len(plan.loads), plan.lower_bound, round(plan.loads[0].trays[0].prepared_g)
    (2, 2, 760)
    """
    if dryer.trays < 1:
        raise ValueError("a dryer without trays dries nothing")
    loads, bound = [], 0
    for group in _groups(batches):
        fitted, proven = _fitting(group, dryer).fewest()
        loads += [_load(group, counts, fitted.trays) for counts in fitted.loads]
        bound += proven
    return LoadPlan(tuple(loads), bound)


def _groups(batches: Sequence[Batch]) -> list[list[Batch]]:
    """Return the batches that may share loads, each group and all groups in a fixed order."""
    groups: dict[tuple[bool, bool], list[Batch]] = defaultdict(list)
    for batch in batches:
        if batch.prepared_g != 0:
            groups[batch.raw_animal, batch.strong_odour].append(batch)
    return [sorted(groups[key], key=_identity) for key in sorted(groups)]


def _identity(batch: Batch) -> tuple[float | str, ...]:
    """Return what tells batches apart, the wettest first."""
    density = batch.density_g_per_ml or 0.0
    return (-batch.water_g, batch.name, batch.prepared_g, batch.moisture, density)


def _fitting(group: list[Batch], dryer: Dryer) -> Fitting:
    return Fitting(
        [batch.water_g for batch in group],
        tuple(fewest_trays(batch, dryer) for batch in group),
        dryer.trays,
        dryer.ice_g,
    )


def _load(group: list[Batch], counts: Counts, trays: tuple[int, ...]) -> Load:
    """Return a load with its trays filled."""
    fills = []
    for at in sorted(counts):
        batch, share = group[at], 1 / trays[at]
        fill = TrayFill(
            batch, batch.prepared_g * share, batch.done_g * share, batch.water_g * share
        )
        fills += [fill] * counts[at]
    return Load(tuple(fills), fsum(fill.water_g for fill in fills))
