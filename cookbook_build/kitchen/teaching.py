"""What was learned, put into a component: its stores' uptakes, its free water, their band."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

import numpy as np

from cookbook_build.kitchen.beliefs import HOUSEHOLD_SHARE, OWN_SHARE
from cookbook_build.kitchen.component import Knowledge

if TYPE_CHECKING:
    from cookbook_build.kitchen.beliefs import Array, Learned
    from cookbook_build.kitchen.component import Component


MOST_UPTAKE: Final = 2.0
"""The most that is put in of an uptake, as much as a portion may say; our choice."""


def taught(
    name: str,
    component: Component,
    learned: Learned,
    *,
    speaks: bool,
    thick_ml_per_serving: float = 0.0,
) -> Component:
    """Return a component that knows what trials taught.

    Assumes that stores and consistencies without any trial are as they were believed to be.

    Parameters
    ----------
    name : str
        The component's name in the whole book. [-]
    component : Component
        The component as the author wrote it. [-]
    learned : Learned
        The posterior. [-]
    speaks : bool
        Whether it has trials of its own, so that they and not its test fix its water. [-]
    thick_ml_per_serving : float
        The most water that stayed in a serving of one that was too thick. [mL]

    Returns
    -------
    Component
        The same with the learned uptakes, free water and covariance. [-]

    Notes
    -----
    The covariance is of its portions' uptakes, in order, and its free water, last. What it is like
    is taught with it. If all its own trials were left out, they do not speak.

    References
    ----------
    .. [1] See `learning`.

    Examples
    --------
    >>> from cookbook_build.kitchen import CONSISTENCIES, Component, Portion
    >>> from cookbook_build.kitchen.learning import learn
    >>> bowl = Component("bowl", 1, (Portion("peas", 40.0, 200.0, 120.0, 0.85, 0.12),),
    ...                  CONSISTENCIES["stew"])
    >>> taught("bowl", bowl, learn([], {}), speaks=False).knowledge.free_ratio
    0.45
    """
    portions = []
    for portion in component.portions:
        belief = learned.of(portion.store) if portion.uptake_sd > 0 else None
        portions.append(
            replace(
                portion,
                uptake_mean=min(max(belief.mean, 0.0), MOST_UPTAKE),
                uptake_sd=belief.sd,
            )
            if belief
            else portion
        )
    covariance = _covariance(name, component, learned)
    return replace(
        component,
        portions=tuple(portions),
        like=component.like and taught(name, component.like, learned, speaks=speaks),
        knowledge=Knowledge(
            learned.free_ratio(name, component.consistency),
            tuple(tuple(map(float, row)) for row in covariance),
            speaks and name in learned.own,
            thick_ml_per_serving,
        ),
    )


def _covariance(name: str, component: Component, learned: Learned) -> Array:
    portions, consistency = component.portions, component.consistency
    size = len(portions)
    found = np.zeros((size + 1, size + 1))
    at = [learned.names.get(p.store) if p.uptake_sd > 0 else None for p in portions]
    household = learned.names.get(f":{consistency.name}")
    own = learned.own.get(name)
    for one in range(size):
        for two in range(size):
            first, second = at[one], at[two]
            if first is not None and second is not None:
                found[one, two] = learned.covariance[first, second]
            elif portions[one].store == portions[two].store:
                found[one, two] = portions[one].uptake_sd * portions[two].uptake_sd
        place = at[one]
        if place is not None:
            shared = learned.covariance[place, household] if household is not None else 0.0
            found[one, size] = found[size, one] = shared + (own.hangs[place] if own else 0.0)
    found[size, size] = (
        learned.covariance[household, household]
        if household is not None
        else (HOUSEHOLD_SHARE * consistency.free_ratio_sd) ** 2
    )
    if own is None:
        found[size, size] += (OWN_SHARE * consistency.free_ratio_sd) ** 2
    else:
        found[size, size] += own.variance + 2 * own.hangs[household]
    return found
