"""One round of learning: trials made linear about an estimate, and the posterior of that."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from cookbook_build.kitchen.beliefs import Learned, Own, deviations
from cookbook_build.kitchen.fixed_order import inverse, sums
from cookbook_build.kitchen.trial_rows import Estimate

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.kitchen.beliefs import Array
    from cookbook_build.kitchen.incidence import Flags, Places
    from cookbook_build.kitchen.trial_rows import Rows

LEAST_SHARE: Final = 1e-12
"""Parts of a variance that count as none; our choice."""

UPTAKE_BOUNDS: Final = (0.05, 1.5)
FREE_BOUNDS: Final = (-0.6, 20.0)
"""Estimates about which a round is linearised stay within these; our choice."""

MOST_ROUNDS: Final = 50
"""Rounds of linearising, our choice; three are plenty."""


@dataclass(frozen=True, slots=True, eq=False)
class Evidence:
    """What trials say of the shared unknowns, in sums: those of some can be taken out again.

    Parameters
    ----------
    information, pull : numpy.ndarray
        What they add to the inverse of the prior covariance, and how far they draw. [-]
    trials : numpy.ndarray
        How often each unknown stands in them. [-]
    """

    information: Array
    pull: Array
    trials: Array

    def __add__(self, other: Evidence) -> Evidence:
        return Evidence(
            self.information + other.information,
            self.pull + other.pull,
            self.trials + other.trials,
        )

    def __sub__(self, other: Evidence) -> Evidence:
        return Evidence(
            self.information - other.information,
            self.pull - other.pull,
            self.trials - other.trials,
        )


class Linear:
    """Trials made linear about an estimate: slopes G, own slopes h, misses r, weights W.

    Parameters
    ----------
    rows : Rows
        The trials. [-]
    about : Estimate
        The estimate. [-]
    heard : numpy.ndarray
        Whether each trial counts, in the order in which they were given. [-]
    """

    def __init__(self, rows: Rows, about: Estimate, heard: Flags) -> None:
        self.rows, self.about, self.heard = rows, about, heard[rows.order]
        self.weights = self.heard / rows.variances
        self._set_slopes()
        loud = self.weights * self.own_slopes
        entries, cells = rows.entries, rows.cells
        self.own_miss = rows.by_component(loud * self.misses)  # h W r
        own_information = rows.by_component(loud * self.own_slopes)  # h W h
        self.alone = 1 / (1 / rows.own_variances + own_information)  # k
        self.lean = sums(  # h W G, in the cells
            rows.cell_of, loud[entries.rows] * self.slopes, len(cells.rows)
        )
        own_pull = (self.alone * self.own_miss)[cells.rows]
        self.evidence = Evidence(
            entries.information(self.slopes, self.weights)
            - cells.information(self.lean, self.alone),
            entries.by_unknown(self.slopes * (self.weights * self.misses)[entries.rows])
            - cells.by_unknown(self.lean * own_pull),
            entries.by_unknown(self.heard[entries.rows].astype(float)),
        )

    def _set_slopes(self) -> None:
        rows, entries = self.rows, self.rows.entries
        shared, taste = self.about.shared, self.about.shared[rows.tastes]
        free = np.clip(rows.usual + taste + self.about.own, *FREE_BOUNDS)
        shared = np.where(rows.is_store, np.clip(shared, *UPTAKE_BOUNDS), shared)
        taken_ml = entries.times(rows.full_ml, shared)
        restored_g = rows.dry_g + taken_ml
        self.own_slopes = restored_g
        self.slopes = rows.full_ml * (1 + free[rows.whose[entries.rows]])
        self.slopes[rows.taste_entries] = restored_g
        self.misses = rows.stays_ml - taken_ml - free[rows.whose] * restored_g
        self.misses += entries.times(self.slopes, shared - rows.unknowns.prior)
        self.misses += restored_g * (free - rows.usual - taste)[rows.whose]

    def solved(self, evidence: Evidence | None = None) -> Round:
        """Return what they teach, or what other evidence about the same estimate does."""
        evidence = evidence or self.evidence
        prior = np.diag(1 / self.rows.unknowns.sd**2)
        covariance = inverse(prior + evidence.information)
        step = np.einsum("ij,j", covariance, evidence.pull)
        return Round(self, evidence.trials > 0, step, covariance)

    def own(self, step: Array) -> Array:
        """Return the own offset of each component where the shared unknowns are known."""
        return self.alone * (self.own_miss - self.rows.cells.times(self.lean, step))


@dataclass(frozen=True, slots=True, eq=False)
class Round:
    """What trials that were made linear teach.

    Parameters
    ----------
    linear : Linear
        The trials. [-]
    taught : numpy.ndarray
        Which of the shared unknowns stand in any that was heard. [-]
    step, covariance : numpy.ndarray
        How far the shared unknowns moved from their priors, and how surely. [-]
    """

    linear: Linear
    taught: Flags
    step: Array
    covariance: Array

    @classmethod
    def at_rest(cls, rows: Rows, about: Estimate, heard: Flags, closeness: float) -> Round:
        """Return the round that moves no unknown as far as this, each about what the last found."""
        found = Linear(rows, about, heard).solved()
        for _ in range(MOST_ROUNDS):
            if found.estimate.apart(about) < closeness:
                break
            about = found.estimate
            found = Linear(rows, about, heard).solved()
        return found

    @property
    def estimate(self) -> Estimate:
        """What is believed now."""
        return Estimate(self.linear.rows.unknowns.prior + self.step, self.linear.own(self.step))

    def scores(self) -> Array:
        """Return how many deviations each trial that was heard lies from what all others say."""
        linear, rows = self.linear, self.linear.rows
        entries, h = rows.entries, linear.own_slopes
        hangs, variances = self._own_hangs()
        known = entries.by_row(linear.slopes * entries.through(linear.slopes, self.covariance))
        known += 2 * h * entries.by_row(linear.slopes * hangs[rows.cell_of])
        known += h**2 * variances[rows.whose]
        # left alone, a trial's miss is its residual over 1 - its own leverage
        lonely = np.maximum(1 - known / rows.variances, LEAST_SHARE)
        left = linear.misses - entries.times(linear.slopes, self.step)
        misses = (left - h * linear.own(self.step)[rows.whose]) / lonely
        told_sds = np.sqrt(rows.variances / lonely - rows.variances)
        found = np.zeros(rows.count)
        found[rows.order] = deviations(misses, told_sds, np.sqrt(rows.variances), *rows.bounds)
        return found

    def _own_hangs(self) -> tuple[Array, Array]:
        """Return how own offsets hang on the unknowns of their component, and their variances."""
        linear, cells = self.linear, self.linear.rows.cells
        hangs = -linear.alone[cells.rows] * cells.through(linear.lean, self.covariance)
        return hangs, linear.alone * (1 - cells.by_row(linear.lean * hangs))

    def learned(self) -> Learned:
        """Return it by name; what stands in no trial that was heard is not in it."""
        rows = self.linear.rows
        kept = np.flatnonzero(self.taught)
        names = [name for name, at in rows.unknowns.names.items() if self.taught[at]]
        prior = rows.unknowns.prior[kept]
        return Learned(
            {name: at for at, name in enumerate(names)},
            prior,
            prior + self.step[kept],
            self.covariance[np.ix_(kept, kept)],
            dict(self._owns(kept)),
        )

    def _owns(self, kept: Places) -> Iterator[tuple[str, Own]]:
        linear, rows = self.linear, self.linear.rows
        means, (_, variances) = linear.own(self.step), self._own_hangs()
        gains = rows.cells.filled(linear.alone[rows.cells.rows] * linear.lean)
        hangs = -np.einsum("cu,uk", gains, self.covariance[:, kept])
        heard = rows.by_component(linear.heard.astype(float))
        for name, at in rows.components.items():
            if heard[at]:
                yield name, Own(float(means[at]), float(variances[at]), hangs[at])
