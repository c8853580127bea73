"""Trials as equations, and what is believed once they have spoken.

Unknown are the uptake κ of each store, the household's offset u of each consistency (how stiff
this cook likes it) and each component's own offset v. A trial is one equation between them, and
all beliefs are Gaussian.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING, Final, TypeAlias

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Container, Mapping, Sequence

    from numpy.typing import NDArray

    from cookbook_build.kitchen.consistency import Consistency

    Array: TypeAlias = NDArray[np.float64]

HOUSEHOLD_SHARE: Final = 12 / 13
OWN_SHARE: Final = 5 / 13
"""How a consistency's deviation divides between the household and the component, our choice: as
0.12 to 0.05, scaled so that both together are the consistency's own."""


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

    @property
    def bounded(self) -> tuple[float, float, int]:
        """Water of its bound over its own, the bound's deviation [mL], and side; 0 for none."""
        if self.bound is None:
            return 0.0, 1.0, 0
        return self.bound.stays_ml - self.stays_ml, self.bound.sd_ml, self.bound.side


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

    def only(self, names: Container[str], components: Sequence[str]) -> Learned:
        """Return what is believed of some of its names and components; all else is as untaught."""
        kept = [name for name in self.names if name in names]
        at = [self.names[name] for name in kept]
        own = {component: self.own[component] for component in components if component in self.own}
        return Learned(
            {name: place for place, name in enumerate(kept)},
            self.prior[at],
            self.mean[at],
            self.covariance[np.ix_(at, at)],
            {name: Own(one.mean, one.variance, one.hangs[at]) for name, one in own.items()},
        )

    def free_ratio(self, component: str, consistency: Consistency) -> float:
        """Return the free water that a component is believed to want, to a gram restored [-]."""
        at = self.names.get(f":{consistency.name}")
        household = float(self.mean[at]) if at is not None else 0.0
        own = self.own[component].mean if component in self.own else 0.0
        return consistency.free_ratio + household + own


def deviations(
    miss_ml: Array,
    told_sd_ml: Array,
    sd_ml: Array,
    over_ml: Array,
    over_sd_ml: Array,
    side: Array,
) -> Array:
    r"""Return how many deviations trials lie from what others say of them.

    Assumes that what was poured into a dish that came out thick is known as well as what was
    right in another; only how much more it wanted is not.

    Parameters
    ----------
    miss_ml : numpy.ndarray
        Water of each over what the others let expect. [mL]
    told_sd_ml : numpy.ndarray
        Standard deviation of what they let expect. [mL]
    sd_ml : numpy.ndarray
        That of the trial's own water. [mL]
    over_ml, over_sd_ml : numpy.ndarray
        Water of its bound over its own, and its standard deviation. [mL]
    side : numpy.ndarray
        1 where more than the bound would have been right, -1 where less, 0 without a bound. [-]

    Returns
    -------
    numpy.ndarray
        Deviations, of the water or of its bound, whichever contradicts more. [-]

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
    >>> misses_ml, told_sds_ml = np.array([185.0, 35.0]), np.array([37.0, 37.0])
    >>> bound = np.array([[-30.0, -30.0], [10.0, 10.0], [1.0, 1.0]])
    >>> [round(float(z), 2) for z in deviations(misses_ml, told_sds_ml, np.array([31.0]), *bound)]
    [4.04, 0.73]
    """
    score = miss_ml / np.hypot(told_sd_ml, sd_ml)
    beyond = (miss_ml + over_ml) / np.hypot(told_sd_ml, over_sd_ml)
    return np.where(side * beyond > side * score, beyond, score)
