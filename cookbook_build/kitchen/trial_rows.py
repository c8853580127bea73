"""The trials of a book as rows of arrays, one component's beside each other."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain
from typing import TYPE_CHECKING

import numpy as np

from cookbook_build.kitchen.beliefs import HOUSEHOLD_SHARE, OWN_SHARE, Belief
from cookbook_build.kitchen.fixed_order import sums
from cookbook_build.kitchen.incidence import Incidence

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cookbook_build.kitchen.beliefs import Array, Equation, Learned
    from cookbook_build.kitchen.consistency import Consistency
    from cookbook_build.kitchen.incidence import Places


@dataclass(frozen=True, slots=True, eq=False)
class Unknowns:
    """What trials are to teach of all components together.

    Parameters
    ----------
    names : mapping of str to int
        Place of each store, and of each consistency as `:name`. [-]
    prior, sd : numpy.ndarray
        What was believed of each before, and how surely. [-]
    """

    names: Mapping[str, int]
    prior: Array
    sd: Array

    @classmethod
    def of(cls, equations: Sequence[Equation], priors: Mapping[str, Belief]) -> Unknowns:
        """Return those that stand in some trials."""
        stores = sorted({store for equation in equations for store, _ in equation.full_ml})
        household = {equation.consistency.name: equation.consistency for equation in equations}
        beliefs = {store: priors[store] for store in stores} | {
            f":{name}": Belief(0.0, HOUSEHOLD_SHARE * household[name].free_ratio_sd)
            for name in sorted(household)
        }
        return cls(
            {name: at for at, name in enumerate(beliefs)},
            np.array([belief.mean for belief in beliefs.values()], dtype=float),
            np.array([belief.sd for belief in beliefs.values()], dtype=float),
        )


@dataclass(frozen=True, slots=True, eq=False)
class Estimate:
    """Where trials are made linear.

    Parameters
    ----------
    shared, own : numpy.ndarray
        The shared unknowns, and the own offsets of the components, both in the rows' order. [-]
    """

    shared: Array
    own: Array

    def apart(self, other: Estimate) -> float:
        """Return the most that any unknown lies from where it is in another estimate."""
        steps = np.concatenate((self.shared - other.shared, self.own - other.own))
        return float(np.max(np.abs(steps), initial=0.0))


class Rows:
    """Trials as arrays: an entry for each store of a row, and a last one for its household's taste.

    Parameters
    ----------
    equations : sequence of Equation
        The trials. [-]
    unknowns : Unknowns
        What they are to teach; all that stands in them is among it. [-]
    """

    def __init__(self, equations: Sequence[Equation], unknowns: Unknowns) -> None:
        self.unknowns = unknowns
        self.count = len(equations)
        self.components = _placed({equation.component for equation in equations})
        whose = _places([self.components[equation.component] for equation in equations])
        self.order = np.argsort(whose, kind="stable")
        self.whose = whose[self.order]
        trials = [equations[at] for at in self.order]
        self.dry_g = np.array([trial.dry_g for trial in trials], dtype=float)
        self.stays_ml = np.array([trial.stays_ml for trial in trials], dtype=float)
        self.variances = np.array([trial.sd_ml**2 for trial in trials], dtype=float)
        bounded = [trial.bounded for trial in trials]
        self.bounds = (
            np.array([over_ml for over_ml, _, _ in bounded], dtype=float),
            np.array([sd_ml for _, sd_ml, _ in bounded], dtype=float),
            np.array([side for _, _, side in bounded], dtype=float),
        )
        likes = self._likes(trials)
        self.usual = np.array([like.free_ratio for like in likes], dtype=float)
        self.own_variances = np.array([(OWN_SHARE * like.free_ratio_sd) ** 2 for like in likes])
        self.tastes = _places([unknowns.names[f":{like.name}"] for like in likes])
        self._set_entries(trials)

    def _likes(self, trials: Sequence[Equation]) -> list[Consistency]:
        """Return the consistency of each component, as its first trial has it."""
        found = {trial.component: trial.consistency for trial in reversed(trials)}
        return [found[component] for component in self.components]

    def _set_entries(self, trials: Sequence[Equation]) -> None:
        """Lay out the entries of the rows, and those of the components, the cells."""
        size = len(self.unknowns.names)
        counts = _places([len(trial.full_ml) + 1 for trial in trials])
        rows = np.repeat(np.arange(self.count), counts)
        self.taste_entries = np.cumsum(counts) - 1
        self.full_ml = np.zeros(len(rows))
        unknowns = np.zeros(len(rows), dtype=np.intp)
        is_store = np.ones(len(rows), dtype=bool)
        is_store[self.taste_entries] = False
        listed = list(chain.from_iterable(trial.full_ml for trial in trials))
        self.full_ml[is_store] = [full_ml for _, full_ml in listed]
        unknowns[is_store] = [self.unknowns.names[store] for store, _ in listed]
        unknowns[self.taste_entries] = self.tastes[self.whose]
        self.entries = Incidence(rows, unknowns, self.count, size)
        cells, self.cell_of = np.unique(self.whose[rows] * size + unknowns, return_inverse=True)
        self.cells = Incidence(
            cells // max(size, 1), cells % max(size, 1), len(self.components), size
        )
        self.is_store = np.ones(size, dtype=bool)
        self.is_store[self.tastes] = False

    def by_component(self, of_rows: Array) -> Array:
        """Return the sum of some values over the rows of each component."""
        return sums(self.whose, of_rows, len(self.components))

    def estimate(self, about: Learned | None) -> Estimate:
        """Return what was learned, in the rows' order; what was not, as it was believed before."""
        shared, own = self.unknowns.prior.copy(), np.zeros(len(self.components))
        if about is not None:
            for name, at in self.unknowns.names.items():
                belief = about.names.get(name)
                shared[at] = shared[at] if belief is None else about.mean[belief]
            for component, at in self.components.items():
                own[at] = about.own[component].mean if component in about.own else 0.0
        return Estimate(shared, own)


def _placed(names: set[str]) -> dict[str, int]:
    return {name: at for at, name in enumerate(sorted(names))}


def _places(listed: Sequence[int]) -> Places:
    return np.array(listed, dtype=np.intp)
