"""What trials teach, slips left out, and what they let expect of a trial that is not among them.

A slip is judged by what all others say of it. Where two contradict each other, both are far from
what the other says: then the author's own test stands before a trial, a trial of the author's
before somebody else's, and what was likely before any trial before what was not.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache, partial
from math import fsum, sqrt
from typing import TYPE_CHECKING, Final

import numpy as np

from cookbook_build.kitchen.beliefs import (
    HOUSEHOLD_SHARE,
    OWN_SHARE,
    Belief,
    Learned,
    deviations,
)
from cookbook_build.kitchen.posterior import posterior
from cookbook_build.kitchen.rounds import Round
from cookbook_build.kitchen.trial_rows import Rows, Unknowns

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from cookbook_build.kitchen.beliefs import Array, Equation

SLIP_SD: Final = 4.0
"""A trial further off than this is reported and left out; our choice."""

RESTS_AT: Final = 1e-12
SEEKS_AT: Final = 1e-3
"""The step at which rounds of linearising rest, and that at which they are close enough to look
for slips; both our choice."""


def learn(equations: Sequence[Equation], priors: Mapping[str, Belief]) -> Learned:
    """Return what trials teach, slips left out.

    Assumes that trials err independently, each with the deviation that it says.

    Parameters
    ----------
    equations : sequence of Equation
        The trials. [-]
    priors : mapping of str to Belief
        Uptake of each store that stands in them. [-]

    Returns
    -------
    Learned
        The posterior. [-]

    Notes
    -----
    `posterior`, each time about the last estimate, until it rests. Of the trials that lie more
    than four deviations from what all others say of them, the one most readily doubted is left
    out, and among equals the one furthest from what was believed before any: of two that
    contradict each other it is the likelier slip. With it go others as far off that share no
    store or consistency with it; and all is done again. One that was left out for another's sake
    is taken back in the end.

    References
    ----------
    .. [1] C. M. Bishop, Pattern Recognition and Machine Learning, 2006, section 3.3 (from
       memory), for the linear Gaussian posterior.

    Examples
    --------
    >>> from cookbook_build.kitchen.consistency import CONSISTENCIES
    >>> from cookbook_build.kitchen.beliefs import Equation
    >>> trial = Equation("bowl", CONSISTENCIES["stew"], (("peas", 100.0),), 40.0, 160.0, 4.8)
    >>> taught = learn([trial], {"peas": Belief(0.85, 0.12)})
    >>> round(taught.of("peas").mean, 2), round(taught.free_ratio("bowl", CONSISTENCIES["stew"]), 2)
    (0.92, 0.51)
    """
    rows = Rows(equations, Unknowns.of(equations, priors))
    readiness = _readiness(equations, priors)
    heard = np.ones(len(equations), dtype=bool)
    returned: set[int] = set()
    estimate, closeness = rows.estimate(None), SEEKS_AT
    while True:
        found = Round.at_rest(rows, estimate, heard, closeness)
        estimate, scores = found.estimate, found.scores()
        far = np.flatnonzero(heard & (np.abs(scores) > SLIP_SD))
        slips = _apart(equations, sorted(map(int, far), key=partial(readiness, scores)))
        heard[slips] = False
        if slips or closeness != RESTS_AT:
            closeness = SEEKS_AT if slips else RESTS_AT
            continue
        learned = found.learned()
        left_out = frozenset(map(int, np.flatnonzero(~heard)))
        for at in left_out:
            scores[at] = _score(equations[at], learned, priors)
        back = {at for at in left_out - returned if abs(scores[at]) <= SLIP_SD}
        if not back:
            return replace(learned, scores=tuple(map(float, scores)), left_out=left_out)
        heard[list(back)] = True
        returned |= back


def expected_ml(equation: Equation, learned: Learned, priors: Mapping[str, Belief]) -> Belief:
    r"""Return the water that what was learned lets expect of a trial that is not among it.

    Assumes that what no trial has taught is as it was believed to be.

    Parameters
    ----------
    equation : Equation
        The trial. [-]
    learned : Learned
        The posterior of others. [-]
    priors : mapping of str to Belief
        Uptake of each of its stores before any trial. [-]

    Returns
    -------
    Belief
        Water that stays, and its standard deviation without the trial's own noise. [mL]

    Notes
    -----
    .. math:: \sum κ_i a_i + (φ + u + v)(D + \sum κ_i a_i), \quad σ^2 = g^T Σ g

    with g the slopes by κ, u and v.

    References
    ----------
    .. [1] C. M. Bishop, Pattern Recognition and Machine Learning, 2006, section 3.3.2 (from
       memory).

    Examples
    --------
    >>> from cookbook_build.kitchen.consistency import CONSISTENCIES
    >>> from cookbook_build.kitchen.beliefs import Equation
    >>> priors = {"peas": Belief(0.85, 0.12)}
    >>> trial = Equation("bowl", CONSISTENCIES["stew"], (("peas", 100.0),), 40.0, 160.0, 4.8)
    >>> round(expected_ml(trial, learn([], priors), priors).mean, 2)
    141.25
    """
    consistency, own = equation.consistency, learned.own.get(equation.component)
    free = learned.free_ratio(equation.component, consistency)
    beliefs = [learned.of(store) or priors[store] for store, _ in equation.full_ml]
    taken_ml = fsum(b.mean * full for b, (_, full) in zip(beliefs, equation.full_ml, strict=True))
    restored_g = equation.dry_g + taken_ml
    household = f":{consistency.name}"
    slopes = np.zeros(len(learned.names))
    variance = 0.0
    for name, slope, sd in (
        *(
            (store, full * (1 + free), belief.sd)
            for belief, (store, full) in zip(beliefs, equation.full_ml, strict=True)
        ),
        (household, restored_g, HOUSEHOLD_SHARE * consistency.free_ratio_sd),
    ):
        if name in learned.names:
            slopes[learned.names[name]] += slope
        else:
            variance += (slope * sd) ** 2
    at = np.flatnonzero(slopes)
    variance += float(slopes[at] @ learned.covariance[np.ix_(at, at)] @ slopes[at])
    if own is None:
        variance += (restored_g * OWN_SHARE * consistency.free_ratio_sd) ** 2
    else:
        variance += restored_g * (restored_g * own.variance + 2 * float(slopes @ own.hangs))
    return Belief(taken_ml + free * restored_g, sqrt(max(variance, 0.0)))


def _score(equation: Equation, learned: Learned, priors: Mapping[str, Belief]) -> float:
    """Return how many deviations a trial lies from what others say of it."""
    told = expected_ml(equation, learned, priors)
    miss_ml = equation.stays_ml - told.mean
    numbers = np.array([miss_ml, told.sd, equation.sd_ml, *equation.bounded])
    return float(deviations(*numbers[:, None])[0])


def _readiness(
    equations: Sequence[Equation], priors: Mapping[str, Belief]
) -> Callable[[Array, int], tuple[float, ...]]:
    """Return how trials are ordered by their readiness to be doubted, with all scores given."""
    nothing = posterior([], {})

    @cache
    def before(at: int) -> float:
        return abs(_score(equations[at], nothing, priors))

    return lambda scores, at: (-equations[at].doubt, -before(at), -abs(float(scores[at])), at)


def _apart(equations: Sequence[Equation], slips: Iterable[int]) -> list[int]:
    """Return those of some slips that share no store or consistency with one before them."""
    found: list[int] = []
    touched: set[str] = set()
    for at in slips:
        shared = {equations[at].consistency.name, *(store for store, _ in equations[at].full_ml)}
        if not shared & touched:
            found.append(at)
            touched |= shared
    return found
