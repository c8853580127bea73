"""The posterior of trials: uptakes of stores, free water of components, their uncertainty.

One linear solve about the current estimate, repeated until it rests. Own offsets stand in their
own component's trials only, so they are folded into each component's share, and what is solved is
as large as the larder, not as the book.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from cookbook_build.kitchen.rounds import Linear
from cookbook_build.kitchen.trial_rows import Rows, Unknowns

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cookbook_build.kitchen.beliefs import Belief, Equation, Learned


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

    S is inverted by the formula of Sherman and Morrison: with W = diag(1/s²) and the variance k
    that v is left with where β is known,

    .. math:: S^{-1} = W - k\,W h h^T W, \quad k = \left(σ_v^{-2} + h^T W h\right)^{-1}

    References
    ----------
    .. [1] C. M. Bishop, Pattern Recognition and Machine Learning, 2006, section 3.3 (from
       memory).

    Examples
    --------
    >>> posterior([], {}).names
    {}
    """
    rows = Rows(equations, Unknowns.of(equations, priors))
    found = Linear(rows, rows.estimate(about), np.ones(len(equations), dtype=bool)).solved()
    return replace(found.learned(), scores=tuple(map(float, found.scores())))
