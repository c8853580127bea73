"""Which trial would teach most: the drop in uncertainty that one more trial promises."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cookbook_build.kitchen.beliefs import HOUSEHOLD_SHARE, OWN_SHARE, Learned

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cookbook_build.kitchen.beliefs import Array, Belief, Equation


@dataclass(frozen=True, slots=True)
class Wish:
    """A component that the household means to make.

    Parameters
    ----------
    equation : Equation
        A trial of it that was right, as it is expected to be. [-]
    weight : float
        How often it is to be made. [-]
    """

    equation: Equation
    weight: float


def expected_drops(
    wishes: Sequence[Wish], learned: Learned, priors: Mapping[str, Belief]
) -> tuple[float, ...]:
    r"""Return how much one trial of each component would lower the uncertainty over all.

    Assumes that the trial comes out right, with the noise of one that does.

    Parameters
    ----------
    wishes : sequence of Wish
        The components, each once, with how often they are to be made. [-]
    learned : Learned
        What is known already. [-]
    priors : mapping of str to Belief
        Uptake of each store, for those that no trial has touched. [-]

    Returns
    -------
    tuple of float
        Weighted sum of the drops in relative variance of the water, for a trial of each. [-]

    Notes
    -----
    .. math:: Δ_i = \sum_j w_j \frac{C_{ij}^2}{(s_i^2 + C_{ii})\,W_j^2}

    with C the covariance of the waters under what is known, s the noise and W the waters.

    References
    ----------
    .. [1] Rank-one update of a Gaussian posterior.

    Examples
    --------
    >>> from cookbook_build.kitchen.consistency import CONSISTENCIES
    >>> from cookbook_build.kitchen.learning import learn
    >>> from cookbook_build.kitchen.beliefs import Belief, Equation
    >>> bowl = Equation("bowl", CONSISTENCIES["stew"], (("peas", 100.0),), 40.0, 150.0, 4.5)
    >>> known, fresh = learn([bowl], {"peas": Belief(0.85, 0.12)}), learn([], {})
    >>> again, first = (
    ...     expected_drops([Wish(bowl, 1.0)], about, {"peas": Belief(0.85, 0.12)})[0]
    ...     for about in (known, fresh)
    ... )
    >>> again < first
    True
    """
    if not wishes:
        return ()
    equations = [wish.equation for wish in wishes]
    covariance = _covariance(equations, learned, priors)
    waters = np.array([equation.stays_ml for equation in equations])
    noise = np.array([equation.sd_ml for equation in equations]) ** 2
    weights = np.array([wish.weight for wish in wishes])
    drops = (covariance**2 @ (weights / waters**2)) / (noise + np.diag(covariance))
    return tuple(map(float, drops))


def _covariance(
    equations: Sequence[Equation], learned: Learned, priors: Mapping[str, Belief]
) -> Array:
    """Return the covariance of the waters of some components."""
    names = dict(learned.names)
    for equation in equations:
        for name in (*(store for store, _ in equation.full_ml), f":{equation.consistency.name}"):
            names.setdefault(name, len(names))
    shared = np.zeros((len(names), len(names)))
    taught = len(learned.names)
    shared[:taught, :taught] = learned.covariance
    slopes = np.zeros((len(equations), len(names)))
    own_slopes = np.zeros(len(equations))
    for row, equation in enumerate(equations):
        free = learned.free_ratio(equation.component, equation.consistency)
        taken_ml = 0.0
        for store, full_ml in equation.full_ml:
            belief = learned.of(store) or priors[store]
            shared[names[store], names[store]] = belief.sd**2
            slopes[row, names[store]] += full_ml * (1 + free)
            taken_ml += full_ml * belief.mean
        household = names[f":{equation.consistency.name}"]
        if household >= taught:
            spread = equation.consistency.free_ratio_sd
            shared[household, household] = (HOUSEHOLD_SHARE * spread) ** 2
        slopes[row, household] = own_slopes[row] = equation.dry_g + taken_ml
    found = slopes @ shared @ slopes.T
    return np.asarray(found + _own(equations, learned, slopes[:, :taught], own_slopes))


def _own(
    equations: Sequence[Equation], learned: Learned, slopes: Array, own_slopes: Array
) -> Array:
    """Return what the components' own offsets add to that covariance."""
    hangs = np.zeros(slopes.shape)
    variances = np.zeros(len(equations))
    for row, equation in enumerate(equations):
        own = learned.own.get(equation.component)
        spread = OWN_SHARE * equation.consistency.free_ratio_sd
        variances[row] = own.variance if own else spread**2
        if own:
            hangs[row] = own.hangs
    # own offsets hang together through what is shared: H Σ⁻¹ Hᵀ
    together = np.zeros((len(equations), len(equations)))
    if hangs.size:
        together = hangs @ np.linalg.solve(learned.covariance, hangs.T)
    np.fill_diagonal(together, variances)
    through = (hangs * own_slopes[:, None]) @ slopes.T
    return np.asarray(np.outer(own_slopes, own_slopes) * together + through + through.T)
