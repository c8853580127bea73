"""What all other trials say of one component: those of it are taken out of what all taught."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cookbook_build.kitchen.learning import SEEKS_AT
from cookbook_build.kitchen.rounds import Linear, Round
from cookbook_build.kitchen.trial_rows import Estimate, Rows, Unknowns

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence

    from cookbook_build.kitchen.beliefs import Belief, Equation, Learned
    from cookbook_build.kitchen.incidence import Flags


class Witnesses:
    """All trials that taught, made linear once about what they taught together.

    Parameters
    ----------
    equations : sequence of Equation
        The trials. [-]
    priors : mapping of str to Belief
        Uptake of each store that stands in them. [-]
    learned : Learned
        What they taught together, and which of them were left out: those never speak. [-]

    Notes
    -----
    What a component's own trials say stands in sums over all, so it is taken out of them, and one
    solve as large as the larder gives what the others teach. Only where that moves an unknown by
    a thousandth are there further rounds, each about the last, until none does.

    Examples
    --------
    >>> from cookbook_build.kitchen.beliefs import Belief, Equation
    >>> from cookbook_build.kitchen.consistency import CONSISTENCIES
    >>> from cookbook_build.kitchen.learning import learn
    >>> stew, priors = CONSISTENCIES["stew"], {"peas": Belief(0.85, 0.12)}
    >>> bowl = Equation("bowl", stew, (("peas", 100.0),), 40.0, 160.0, 4.8)
    >>> pot = Equation("pot", stew, (("peas", 100.0),), 40.0, 150.0, 4.5)
    >>> found = Witnesses([bowl, pot], priors, learn([bowl, pot], priors)).on("bowl")
    >>> abs(found.of("peas").mean - learn([pot], priors).of("peas").mean) < 1e-3
    True
    """

    def __init__(
        self, equations: Sequence[Equation], priors: Mapping[str, Belief], learned: Learned
    ) -> None:
        self._equations = equations
        self._rows = Rows(equations, Unknowns.of(equations, priors))
        self._about = self._rows.estimate(learned)
        self._heard = np.ones(len(equations), dtype=bool)
        self._heard[list(learned.left_out)] = False
        self._all = Linear(self._rows, self._about, self._heard)
        self._places: dict[str, list[int]] = defaultdict(list)
        for at, equation in enumerate(equations):
            self._places[equation.component].append(at)

    def on(self, component: str, own: Collection[int] = ()) -> Learned:
        """Return what others say of a component, and those of its trials at some places.

        To a thousandth of every unknown; own offsets of other components are not in it.
        """
        part, heard = self._of(component), self._heard.copy()
        heard[part.places] = [bool(heard[at]) and at in own for at in part.places]
        silent, speaking = (part.linear(self._about, each) for each in (self._heard, heard))
        found = speaking.solved(self._all.evidence - silent.evidence + speaking.evidence)
        estimate = Estimate(found.estimate.shared, self._all.own(found.step))
        estimate.own[part.at] = found.estimate.own
        about = Estimate(self._about.shared, self._about.own.copy())
        if not heard[part.places].any():  # then nobody asks for its own offset
            about.own[part.at] = found.estimate.own
        if estimate.apart(about) >= SEEKS_AT:
            rested = Round.at_rest(self._rows, estimate, heard, SEEKS_AT)
            speaking = part.linear(rested.linear.about, heard)
            found = Round(speaking, rested.taught, rested.step, rested.covariance)
        return found.learned()

    def _of(self, component: str) -> _Part:
        places = self._places.get(component, [])
        rows = Rows([self._equations[at] for at in places], self._rows.unknowns)
        return _Part(rows, places, [self._rows.components[name] for name in rows.components])


@dataclass(frozen=True, slots=True)
class _Part:
    """The trials of one component by themselves, their places, and its own among components."""

    rows: Rows
    places: list[int]
    at: list[int]

    def linear(self, about: Estimate, heard: Flags) -> Linear:
        """Return them made linear, where all trials are heard or not."""
        return Linear(self.rows, Estimate(about.shared, about.own[self.at]), heard[self.places])
