"""What trials teach, slips left out, and what they let expect of a trial that is not among them.

A slip is judged by what all others say of it. Where two contradict each other, both are far from
what the other says: then the author's own test stands before a trial, a trial of the author's
before somebody else's, and what was likely before any trial before what was not.
"""

from __future__ import annotations

from dataclasses import replace
from math import sqrt
from typing import TYPE_CHECKING, Final

import numpy as np

from cookbook_build.kitchen.posterior import (
    HOUSEHOLD_SHARE,
    OWN_SHARE,
    Belief,
    Learned,
    deviations,
    posterior,
)

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cookbook_build.kitchen.posterior import Equation

SLIP_SD: Final = 4.0
"""A trial further off than this is reported and left out; our choice."""

MOST_ROUNDS: Final = 50
RESTS_AT: Final = 1e-12
SEEKS_AT: Final = 1e-3
"""Rounds of linearising, the step at which they rest, and that at which they are close enough to
look for slips; all our choice. Three rounds are plenty."""


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
    >>> from cookbook_build.kitchen.posterior import Equation
    >>> trial = Equation("bowl", CONSISTENCIES["stew"], (("peas", 100.0),), 40.0, 160.0, 4.8)
    >>> taught = learn([trial], {"peas": Belief(0.85, 0.12)})
    >>> round(taught.of("peas").mean, 2), round(taught.free_ratio("bowl", CONSISTENCIES["stew"]), 2)
    (0.92, 0.51)
    """
    nothing = posterior([], {})
    before = [abs(_score(equation, nothing, priors)) for equation in equations]
    left_out: set[int] = set()
    returned: set[int] = set()
    found, closeness = None, SEEKS_AT
    while True:
        kept = [at for at in range(len(equations)) if at not in left_out]
        found = _rested([equations[at] for at in kept], priors, found, closeness)
        scores = dict(zip(kept, found.scores, strict=True))
        slips = _slips(equations, scores, before)
        left_out.update(slips)
        if slips or closeness != RESTS_AT:
            closeness = SEEKS_AT if slips else RESTS_AT
            continue
        scores |= {at: _score(equations[at], found, priors) for at in left_out}
        back = {at for at in left_out - returned if abs(scores[at]) <= SLIP_SD}
        if not back:
            ordered = tuple(scores[at] for at in range(len(equations)))
            return replace(found, scores=ordered, left_out=frozenset(left_out))
        left_out -= back
        returned |= back


def relearned(
    equations: Sequence[Equation], priors: Mapping[str, Belief], about: Learned
) -> Learned:
    """Return about what some trials teach, from what they and others taught together.

    Assumes that none of them is a slip; those that `learn` left out are not given.

    Parameters
    ----------
    equations : sequence of Equation
        The trials. [-]
    priors : mapping of str to Belief
        Uptake of each store that stands in them. [-]
    about : Learned
        What all taught, from which a few rounds lead on. [-]

    Returns
    -------
    Learned
        The posterior, to a thousandth of every unknown. [-]

    Notes
    -----
    `posterior`, about the last estimate, until no unknown moves by a thousandth.

    References
    ----------
    .. [1] C. M. Bishop, Pattern Recognition and Machine Learning, 2006, section 3.3 (from
       memory).

    Examples
    --------
    >>> from cookbook_build.kitchen.consistency import CONSISTENCIES
    >>> from cookbook_build.kitchen.posterior import Equation
    >>> bowl = Equation("bowl", CONSISTENCIES["stew"], (("peas", 100.0),), 40.0, 160.0, 4.8)
    >>> pot, priors = replace(bowl, component="pot"), {"peas": Belief(0.85, 0.12)}
    >>> alone = relearned([pot], priors, about=learn([bowl, pot], priors))
    >>> abs(alone.of("peas").mean - learn([pot], priors).of("peas").mean) < 1e-3
    True
    """
    return _rested(equations, priors, about, SEEKS_AT)


def _rested(
    equations: Sequence[Equation],
    priors: Mapping[str, Belief],
    about: Learned | None,
    closeness: float,
) -> Learned:
    found = posterior(equations, priors, about)
    for _ in range(MOST_ROUNDS):
        before, found = found, posterior(equations, priors, about=found)
        steps = [abs(found.own[name].mean - own.mean) for name, own in before.own.items()]
        if max([*steps, *np.abs(found.mean - before.mean)], default=0.0) < closeness:
            break
    return found


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
    >>> from cookbook_build.kitchen.posterior import Equation
    >>> priors = {"peas": Belief(0.85, 0.12)}
    >>> trial = Equation("bowl", CONSISTENCIES["stew"], (("peas", 100.0),), 40.0, 160.0, 4.8)
    >>> round(expected_ml(trial, learn([], priors), priors).mean, 2)
    141.25
    """
    consistency, own = equation.consistency, learned.own.get(equation.component)
    free = learned.free_ratio(equation.component, consistency)
    beliefs = [learned.of(store) or priors[store] for store, _ in equation.full_ml]
    taken_ml = sum(b.mean * full for b, (_, full) in zip(beliefs, equation.full_ml, strict=True))
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
    variance += float(slopes @ learned.covariance @ slopes)
    if own is None:
        variance += (restored_g * OWN_SHARE * consistency.free_ratio_sd) ** 2
    else:
        variance += restored_g * (restored_g * own.variance + 2 * float(slopes @ own.hangs))
    return Belief(taken_ml + free * restored_g, sqrt(max(variance, 0.0)))


def _score(equation: Equation, learned: Learned, priors: Mapping[str, Belief]) -> float:
    """Return how many deviations a trial lies from what others say of it."""
    told = expected_ml(equation, learned, priors)
    return deviations(equation, equation.stays_ml - told.mean, told.sd)


def _slips(
    equations: Sequence[Equation], scores: Mapping[int, float], before: Sequence[float]
) -> list[int]:
    """Return the likeliest slips, no two of which share a store or a consistency."""
    slips: list[int] = []
    touched: set[str] = set()

    def readiness(at: int) -> tuple[float, ...]:
        return -equations[at].doubt, -before[at], -abs(scores[at]), at

    for at in sorted(scores, key=readiness):
        shared = {equations[at].consistency.name, *(store for store, _ in equations[at].full_ml)}
        if abs(scores[at]) > SLIP_SD and not shared & touched:
            slips.append(at)
            touched |= shared
    return slips
