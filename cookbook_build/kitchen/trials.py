"""From a trial to an equation: what was right, how surely, and what of it stayed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from cookbook_build.kitchen.beliefs import Bound, Equation
from cookbook_build.kitchen.component import (
    RIGHT_TRIAL_SD,
    dry_mix,
    free_water,
    readied,
    require_positive,
    stayed_ml,
)
from cookbook_build.kitchen.resting import settled_rest_s

if TYPE_CHECKING:
    from cookbook_build.kitchen.component import Component
    from cookbook_build.kitchen.conditions import Conditions, Kit, Method

Verdict = Literal["right", "thick", "thin"]

MENDED_TRIAL_SD: Final = 0.08
"""Noise of a trial that came out thick or thin, in parts of its water; our choice."""

GUESSED_MISS: Final = 0.10
"""By how much a trial was off that says thick or thin and no more; common practice, no source."""


LEAST_SD_SHARE: Final = 0.01
"""No trial is surer than a hundredth of its dry mix, which is weighed no better; our choice."""


@dataclass(frozen=True, slots=True)
class Trial:
    """One time that somebody made a component.

    Parameters
    ----------
    method : Method
        How it was made ready. [-]
    servings : float
        For how many. [-]
    water_ml : float
        Water poured. [mL]
    conditions : Conditions
        Where. [-]
    verdict : Verdict
        How it came out. [-]
    added_ml : float or None
        Water added to one that was thick, if it was measured. [mL]
    rest_s : float or None
        Rest, if it was told. [s]

    Raises
    ------
    ValueError
        If water or servings are not above zero, or added water is below.
    """

    method: Method
    servings: float
    water_ml: float
    conditions: Conditions
    verdict: Verdict = "right"
    added_ml: float | None = None
    rest_s: float | None = None

    def __post_init__(self) -> None:
        require_positive(self.servings)
        require_positive(self.water_ml)
        require_positive(self.water_ml + (self.added_ml or 0.0))
        if self.added_ml is not None and self.added_ml < 0:
            raise ValueError(f"water added must not be below zero, not {self.added_ml!r}")

    @property
    def right_ml(self) -> float:
        """The water that would have been right, as far as the trial tells [mL]."""
        if self.verdict == "thick":
            added = GUESSED_MISS * self.water_ml if self.added_ml is None else self.added_ml
            return self.water_ml + added
        return self.water_ml * (1 - GUESSED_MISS) if self.verdict == "thin" else self.water_ml

    @property
    def sd_ml(self) -> float:
        """Its standard deviation [mL]."""
        share = RIGHT_TRIAL_SD if self.verdict == "right" else MENDED_TRIAL_SD
        return share * self.right_ml


def equation(name: str, component: Component, trial: Trial, kit: Kit) -> Equation:
    """Return what a trial says of the stores and the free water of a component.

    Assumes that the trial was rested as long as the component is, unless it says otherwise.

    Parameters
    ----------
    name : str
        The component's name in the whole book. [-]
    component : Component
        The component. [-]
    trial : Trial
        The trial. [-]
    kit : Kit
        With what. [-]

    Returns
    -------
    Equation
        Uptakes and free water on one side, water that stayed on the other. [-]

    Notes
    -----
    What left, L, is that of the trial's own method, place, servings and rest. What is known for
    sure to be taken up stands with the dry mix.

    References
    ----------
    .. [1] Water balance; see `component_water`.

    Examples
    --------
    >>> from cookbook_build.kitchen import CONSISTENCIES, Component, Conditions, Kit, Portion
    >>> bowl = Component("bowl", 1, (Portion("peas", 40.0, 200.0, 120.0, 0.85, 0.12),),
    ...                  CONSISTENCIES["stew"])
    >>> two = equation("bowl", bowl, Trial("jar", 2, 300.0, Conditions()), Kit())
    >>> two.stays_ml, two.full_ml
    (300.0, (('peas', 240.0),))
    """
    mix = dry_mix(component, trial.servings)
    least_sd_ml = LEAST_SD_SHARE * mix.dry_g
    free = free_water(component, kit)

    def lost_ml(stays_ml: float) -> float:
        ready = readied(
            mix, stays_ml, trial.servings, free.reference_rest_s,
            trial.method, trial.conditions, kit,
        )  # fmt: skip
        rest = trial.rest_s or settled_rest_s(ready.warmth, free.reference_rest_s, free.reference_c)
        return ready.lost_g(rest)

    full: dict[str, float] = {}
    known_ml = 0.0
    for portion in component.portions:
        times = 1.0 if portion.per_pot else trial.servings / component.servings
        if portion.uptake_sd == 0:
            known_ml += times * portion.uptake_ml
        elif portion.full_ml > 0:
            full[portion.store] = full.get(portion.store, 0.0) + times * portion.full_ml
    return Equation(
        name,
        component.consistency,
        tuple(sorted(full.items())),
        mix.dry_g + known_ml,
        stayed_ml(trial.right_ml, lost_ml) - known_ml,
        max(trial.sd_ml, least_sd_ml),
        bound=None
        if trial.verdict == "right"
        else Bound(
            stayed_ml(trial.water_ml, lost_ml) - known_ml,
            max(RIGHT_TRIAL_SD * trial.water_ml, least_sd_ml),
            1 if trial.verdict == "thick" else -1,
        ),
    )
