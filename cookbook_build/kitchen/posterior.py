"""The posterior of trials: uptakes of stores, free water of components, their uncertainty.

Unknown are the uptake κ of each store, the household's offset u of each consistency (how stiff
this cook likes it) and each component's own offset v. A trial is one equation between them. All
beliefs are Gaussian: one linear solve about the current estimate, repeated until it rests. Own
offsets stand in their own component's trials only, so they are folded into each component's
small block, and what is solved is as large as the larder, not as the book.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from math import hypot, sqrt
from typing import TYPE_CHECKING, Final, TypeAlias

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Container, Iterator, Mapping, Sequence

    from numpy.typing import NDArray

    from cookbook_build.kitchen.consistency import Consistency

    Array: TypeAlias = NDArray[np.float64]

HOUSEHOLD_SHARE: Final = 12 / 13
OWN_SHARE: Final = 5 / 13
"""How a consistency's deviation divides between the household and the component, our choice: as
0.12 to 0.05, scaled so that both together are the consistency's own."""

LEAST_SHARE: Final = 1e-12
"""Parts of a variance that count as none; our choice."""

UPTAKE_BOUNDS: Final = (0.05, 1.5)
FREE_BOUNDS: Final = (-0.6, 20.0)
"""Estimates about which a round is linearised stay within these; our choice."""


@dataclass(frozen=True, slots=True)
class Belief:
    """A Gaussian belief about one number.

    Parameters
    ----------
    mean, sd : float
        Mean and standard deviation. [-]
    """

    mean: float
    sd: float


@dataclass(frozen=True, slots=True)
class Bound:
    """Water that was seen to be too little or too much, apart from how far off it was.

    Parameters
    ----------
    stays_ml, sd_ml : float
        Water of it that stayed, and its standard deviation: it was measured, not guessed. [mL]
    side : int
        1 where more would have been right, -1 where less would. [-]
    """

    stays_ml: float
    sd_ml: float
    side: int


@dataclass(frozen=True, slots=True)
class Equation:
    r"""One trial: what its stores took up and what stood free make the water that stayed.

    Parameters
    ----------
    component : str
        Whose own offset is in it. [-]
    consistency : Consistency
        Whose household offset is in it, and from which free water it starts. [-]
    full_ml : tuple of (str, float)
        Water that would restore each store wholly, for the trial's servings. [mL]
    dry_g : float
        Dry mix of the trial. [g]
    stays_ml : float
        Water that was right and stayed. [mL]
    sd_ml : float
        Its standard deviation. [mL]
    doubt : int
        How readily it gives way where two contradict each other: 0 for the author's test, 1 for a
        trial of the author's, 2 for one that somebody else tells. [-]
    bound : Bound or None
        Of a trial that came out thick or thin, what was poured. [-]

    Notes
    -----
    .. math:: \sum κ_i a_i + (φ + u + v)(D + \sum κ_i a_i) = W - L
    """

    component: str
    consistency: Consistency
    full_ml: tuple[tuple[str, float], ...]
    dry_g: float
    stays_ml: float
    sd_ml: float
    doubt: int = 0
    bound: Bound | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Own:
    """A component's own offset: its mean and variance, and how it hangs on the shared unknowns.

    Parameters
    ----------
    mean, variance : float
        Offset of its free water, and its variance. [-]
    hangs : numpy.ndarray
        Its covariance with each of the shared unknowns. [-]
    """

    mean: float
    variance: float
    hangs: Array


@dataclass(frozen=True, slots=True, eq=False)
class Learned:
    """What all trials together teach.

    Parameters
    ----------
    names : mapping of str to int
        Place of each store, and of each consistency as `:name`, among the shared unknowns. [-]
    prior : numpy.ndarray
        What was believed of each before. [-]
    mean : numpy.ndarray
        What is believed now. [-]
    covariance : numpy.ndarray
        How surely. [-]
    own : mapping of str to Own
        The own offset of each component that has trials. [-]
    scores : tuple of float
        How many deviations each trial lies from what all others say of it; of one left out,
        when it was left out. [-]
    left_out : frozenset of int
        The trials that contradict the rest and were left out. [-]
    """

    names: Mapping[str, int]
    prior: Array
    mean: Array
    covariance: Array
    own: Mapping[str, Own]
    scores: tuple[float, ...] = ()
    left_out: frozenset[int] = frozenset()

    def of(self, name: str) -> Belief | None:
        """Return what is believed of a store, or of a consistency as `:name`, if it was taught."""
        at = self.names.get(name)
        if at is None:
            return None
        return Belief(float(self.mean[at]), sqrt(float(self.covariance[at, at])))

    def only(self, names: Container[str], components: Container[str]) -> Learned:
        """Return what is believed of some of its names and components; all else is as untaught."""
        kept = [name for name in self.names if name in names]
        at = [self.names[name] for name in kept]
        return Learned(
            {name: place for place, name in enumerate(kept)},
            self.prior[at],
            self.mean[at],
            self.covariance[np.ix_(at, at)],
            {
                component: Own(own.mean, own.variance, own.hangs[at])
                for component, own in self.own.items()
                if component in components
            },
        )

    def free_ratio(self, component: str, consistency: Consistency) -> float:
        """Return the free water that a component is believed to want, to a gram restored [-]."""
        at = self.names.get(f":{consistency.name}")
        household = float(self.mean[at]) if at is not None else 0.0
        own = self.own[component].mean if component in self.own else 0.0
        return consistency.free_ratio + household + own


def posterior(
    equations: Sequence[Equation], priors: Mapping[str, Belief], about: Learned | None = None
) -> Learned:
    r"""Return the Gaussian posterior of trials, made linear about an estimate.

    Assumes that the own offset of a component stands in that component's trials only.

    Parameters
    ----------
    equations : sequence of Equation
        The trials. [-]
    priors : mapping of str to Belief
        Uptake of each store that stands in them. [-]
    about : Learned or None
        The estimate; None for the priors. [-]

    Returns
    -------
    Learned
        The posterior, every trial counted. [-]

    Raises
    ------
    KeyError
        If a trial's store has no prior.

    Notes
    -----
    With β the shared unknowns, r = G (β - β_0) + h v + ε for the trials of one component and
    S = diag(s²) + σ_v² h h^T,

    .. math:: Σ = \left(Σ_0^{-1} + \sum G^T S^{-1} G\right)^{-1}, \quad
              β - β_0 = Σ \sum G^T S^{-1} r, \quad v = σ_v^2 h^T S^{-1} (r - G (β - β_0))

    References
    ----------
    .. [1] C. M. Bishop, Pattern Recognition and Machine Learning, 2006, section 3.3 (from
       memory).

    Examples
    --------
    >>> posterior([], {}).names
    {}
    """
    names, before = _unknowns(equations, priors)
    prior = np.array([belief.mean for belief in before])
    information = np.diag([1 / belief.sd**2 for belief in before])
    pull = np.zeros(len(before))
    estimate = about or Learned({}, prior, prior, information, {})
    blocks = [_block(rows, names, prior, estimate) for rows in _by_component(equations)]
    for block in blocks:
        information[np.ix_(block.touches, block.touches)] += block.weighted @ block.slopes
        pull[block.touches] += block.weighted @ block.misses
    covariance = np.linalg.inv(information) if len(before) else information
    step = covariance @ pull
    own: dict[str, Own] = {}
    scores = np.zeros(len(equations))
    for block in blocks:
        own[block.component], scores[block.rows] = block.told(step, covariance)
    return Learned(names, prior, prior + step, covariance, own, tuple(map(float, scores)))


def deviations(equation: Equation, miss_ml: float, told_sd_ml: float) -> float:
    r"""Return how many deviations a trial lies from what others say of it.

    Assumes that what was poured into a dish that came out thick is known as well as what was
    right in another; only how much more it wanted is not.

    Parameters
    ----------
    equation : Equation
        The trial. [-]
    miss_ml : float
        Its water over what the others let expect. [mL]
    told_sd_ml : float
        Standard deviation of what they let expect. [mL]

    Returns
    -------
    float
        Deviations, of its water or of its bound, whichever contradicts more. [-]

    Notes
    -----
    .. math:: z = \frac{W - w}{\sqrt{σ_w^2 + σ^2}}, \quad
              z_b = \frac{B - w}{\sqrt{σ_w^2 + σ_B^2}}

    The bound B contradicts only on its own side: a dish too thick with B wanted more than B.

    References
    ----------
    .. [1] Arithmetic.

    Examples
    --------
    >>> from cookbook_build.kitchen.consistency import CONSISTENCIES
    >>> thick = Equation("bowl", CONSISTENCIES["stew"], (), 40.0, 385.0, 31.0, 0,
    ...                  Bound(355.0, 10.0, 1))
    >>> round(deviations(thick, 185.0, 37.0), 2), round(deviations(thick, 35.0, 37.0), 2)
    (4.04, 0.73)
    """
    score = miss_ml / hypot(told_sd_ml, equation.sd_ml)
    bound = equation.bound
    if bound is None:
        return score
    over_ml = miss_ml + bound.stays_ml - equation.stays_ml
    bounded = over_ml / hypot(told_sd_ml, bound.sd_ml)
    return max(score, bounded) if bound.side > 0 else min(score, bounded)


def _unknowns(
    equations: Sequence[Equation], priors: Mapping[str, Belief]
) -> tuple[dict[str, int], list[Belief]]:
    stores = sorted({store for equation in equations for store, _ in equation.full_ml})
    household = {equation.consistency.name: equation.consistency for equation in equations}
    beliefs = {store: priors[store] for store in stores} | {
        f":{name}": Belief(0.0, HOUSEHOLD_SHARE * household[name].free_ratio_sd)
        for name in sorted(household)
    }
    return {name: at for at, name in enumerate(beliefs)}, list(beliefs.values())


def _by_component(equations: Sequence[Equation]) -> Iterator[list[tuple[int, Equation]]]:
    groups: dict[str, list[tuple[int, Equation]]] = defaultdict(list)
    for at, equation in enumerate(equations):
        groups[equation.component].append((at, equation))
    for component in sorted(groups):
        yield groups[component]


@dataclass(frozen=True, slots=True, eq=False)
class _Block:
    """The trials of one component, made linear: slopes G, own slopes h, misses r, inverse of S."""

    component: str
    rows: list[int]
    trials: list[Equation]
    touches: list[int]
    slopes: Array
    own_slopes: Array
    misses: Array
    variances: Array
    own_variance: float
    inverse: Array

    @property
    def weighted(self) -> Array:
        """The slopes, weighted by the inverse of S."""
        return np.asarray(self.slopes.T @ self.inverse)

    def told(self, step: Array, covariance: Array) -> tuple[Own, Array]:
        """Return the own offset once the shared unknowns are known, and the trials' scores."""
        across = covariance[:, self.touches]
        shared = across[self.touches]
        left = self.misses - self.slopes @ step[self.touches]
        gain = self.own_variance * self.own_slopes @ self.inverse
        through = gain @ self.slopes
        alone = self.own_variance * (1 - gain @ self.own_slopes)
        own = Own(float(gain @ left), float(alone + through @ shared @ through), -across @ through)
        # left alone, a trial's miss is its residual over 1 - its own leverage
        known = np.sum((self.slopes @ shared) * self.slopes, axis=1)
        known += 2 * self.own_slopes * (self.slopes @ own.hangs[self.touches])
        known += self.own_slopes**2 * own.variance
        lonely = np.maximum(1 - known / self.variances, LEAST_SHARE)
        misses = (left - self.own_slopes * own.mean) / lonely
        told_sds = np.sqrt(self.variances / lonely - self.variances)
        scores = [
            deviations(trial, float(miss), float(told_sd))
            for trial, miss, told_sd in zip(self.trials, misses, told_sds, strict=True)
        ]
        return own, np.array(scores)


def _inverse(variances: Array, own_slopes: Array, own_variance: float) -> Array:
    """Return the inverse of S = diag(s²) + σ_v² h h^T, by the formula of Sherman and Morrison."""
    scaled = own_slopes / variances
    shrunk = own_variance / (1 + own_variance * (scaled @ own_slopes))
    return np.asarray(np.diag(1 / variances) - shrunk * np.outer(scaled, scaled))


def _block(
    rows: list[tuple[int, Equation]], names: Mapping[str, int], prior: Array, about: Learned
) -> _Block:
    component, consistency = rows[0][1].component, rows[0][1].consistency
    used = {name for _, row in rows for name, _ in row.full_ml} | {f":{consistency.name}"}
    touches = sorted(names[name] for name in used)
    place = {at: column for column, at in enumerate(touches)}
    slopes = np.zeros((len(rows), len(touches)))
    own_slopes, misses = np.zeros(len(rows)), np.zeros(len(rows))
    free = _within(about.free_ratio(component, consistency), FREE_BOUNDS)
    estimate = prior[touches]
    for name in used & about.names.keys():
        estimate[place[names[name]]] = about.mean[about.names[name]]
    offset = float(estimate[place[names[f":{consistency.name}"]]])
    estimate = np.clip(estimate, *UPTAKE_BOUNDS)
    estimate[place[names[f":{consistency.name}"]]] = offset
    for row, (_, trial) in enumerate(rows):
        taken_ml = 0.0
        for store, full_ml in trial.full_ml:
            column = place[names[store]]
            taken_ml += full_ml * float(estimate[column])
            slopes[row, column] += full_ml * (1 + free)
        restored_g = trial.dry_g + taken_ml
        slopes[row, place[names[f":{consistency.name}"]]] = own_slopes[row] = restored_g
        misses[row] = trial.stays_ml - taken_ml - free * restored_g
    own = free - consistency.free_ratio - offset
    misses += slopes @ (estimate - prior[touches]) + own_slopes * own
    variances = np.array([trial.sd_ml**2 for _, trial in rows])
    own_variance = (OWN_SHARE * consistency.free_ratio_sd) ** 2
    return _Block(
        component,
        [at for at, _ in rows],
        [trial for _, trial in rows],
        touches,
        slopes,
        own_slopes,
        misses,
        variances,
        own_variance,
        _inverse(variances, own_slopes, own_variance),
    )


def _within(value: float, bounds: tuple[float, float]) -> float:
    return min(max(value, bounds[0]), bounds[1])
