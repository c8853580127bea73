"""What a dry mix is made of by mass: each part's share, the heaviest first, the least gathered."""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from cookbook_build.planning.dishes import Dish, Part

LEAST: Final = 0.02
"""The share below which parts are gathered; our choice: thinner can't be seen in a drawing."""


@dataclass(frozen=True, slots=True)
class MixShare:
    """One part of a dry mix, or several small ones taken together."""

    names: tuple[str, ...]
    mass_g: float
    share: float  # of the component


def mix_shares(dish: Dish, part: Part, servings: int) -> tuple[MixShare, ...]:
    """Return what a component's dry mix is made of at a serving size, the heaviest first."""
    dry = [line for line in part.lines if line.is_dry and line.grams > 0]
    masses = {
        line.ingredient.name: fsum(
            one.grams * dish.times(one, servings)
            for one in dry
            if one.ingredient.name == line.ingredient.name
        )
        for line in dry
    }
    whole_g = fsum(masses.values())
    ordered = sorted(masses.items(), key=lambda pair: -pair[1])
    seen = [MixShare((name,), grams, grams / whole_g) for name, grams in ordered]
    small = [one for one in seen if one.share < LEAST]
    if len(small) < 2:
        return tuple(seen)
    gathered = MixShare(
        tuple(name for one in small for name in one.names),
        fsum(one.mass_g for one in small),
        fsum(one.share for one in small),
    )
    return (*(one for one in seen if one.share >= LEAST), gathered)
