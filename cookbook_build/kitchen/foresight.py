"""Which trial would teach most: the drop in uncertainty that one more trial promises."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cookbook_build.kitchen.beliefs import HOUSEHOLD_SHARE, OWN_SHARE, Learned
from cookbook_build.kitchen.fixed_order import inverse

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

    with C the covariance of the waters under what is known, s the noise and W the waters. But for
    its diagonal C is :math:`G Σ G^T`, with Σ that of the shared unknowns; so the sum is
    :math:`g_i Σ (\sum_j w_j g_j^T g_j / W_j^2) Σ g_i^T`, as large as the larder, and what is
    i's alone is added once.

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
    slopes, shared, alone = _waters(equations, learned, priors)
    across = np.einsum("cu,uk", slopes, shared)
    waters = np.array([equation.stays_ml for equation in equations])
    noise = np.array([equation.sd_ml for equation in equations]) ** 2
    weights = np.array([wish.weight for wish in wishes]) / waters**2
    together = np.sum(across * slopes, axis=1)
    weighed = np.einsum("cu,ck", across * weights[:, None], across)
    squares = np.sum(np.einsum("cu,uk", slopes, weighed) * slopes, axis=1)
    squares += weights * ((together + alone) ** 2 - together**2)
    return tuple(map(float, squares / (noise + together + alone)))


def _waters(
    equations: Sequence[Equation], learned: Learned, priors: Mapping[str, Belief]
) -> tuple[Array, Array, Array]:
    """Return slopes of the waters on the shared unknowns, their covariance, and what is alone.

    An own offset hangs on the shared unknowns, H Σ⁻¹ of it; so far its slope is theirs. What is
    left of its variance no other water shares.
    """
    names, shared = _shared(equations, learned, priors)
    taught = len(learned.names)
    slopes = np.zeros((len(equations), len(names)))
    hangs, own_slopes = np.zeros((len(equations), taught)), np.zeros(len(equations))
    variances = np.zeros(len(equations))
    for row, equation in enumerate(equations):
        free = learned.free_ratio(equation.component, equation.consistency)
        restored_g = equation.dry_g
        for store, full_ml in equation.full_ml:
            slopes[row, names[store]] += full_ml * (1 + free)
            restored_g += full_ml * (learned.of(store) or priors[store]).mean
        slopes[row, names[f":{equation.consistency.name}"]] = own_slopes[row] = restored_g
        own = learned.own.get(equation.component)
        variances[row] = (OWN_SHARE * equation.consistency.free_ratio_sd) ** 2
        if own:
            variances[row], hangs[row] = own.variance, own.hangs
    leans = np.einsum("cu,uk", hangs, inverse(learned.covariance))
    slopes[:, :taught] += own_slopes[:, None] * leans
    return slopes, shared, own_slopes**2 * (variances - np.sum(leans * hangs, axis=1))


def _shared(
    equations: Sequence[Equation], learned: Learned, priors: Mapping[str, Belief]
) -> tuple[Mapping[str, int], Array]:
    """Return the place of each shared unknown of some waters, and their covariance."""
    names, sds = dict(learned.names), dict.fromkeys(learned.names, 0.0)
    for equation in equations:
        household = HOUSEHOLD_SHARE * equation.consistency.free_ratio_sd
        own = {store: priors[store].sd for store, _ in equation.full_ml if store not in names}
        for name, sd in (own | {f":{equation.consistency.name}": household}).items():
            if name not in names:
                names[name], sds[name] = len(names), sd
    shared = np.diag([sd**2 for sd in sds.values()])
    taught = len(learned.names)
    shared[:taught, :taught] = learned.covariance
    return names, shared
