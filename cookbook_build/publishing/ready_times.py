"""How long a meal takes, in the whole minutes that pages, finder and other programs are told."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.planning.camp import ready_time
from cookbook_build.publishing.wording import whole_minutes

if TYPE_CHECKING:
    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.planning.dishes import Dish


@dataclass(frozen=True, slots=True)
class ReadyView:
    """Whole minutes from cold water to the table."""

    boil_min: int
    rest_min: int  # or simmer, or soak

    @property
    def total_min(self) -> int:
        """Both, one after the other."""
        return self.boil_min + self.rest_min


def ready_view(dish: Dish, servings: float, method: Method) -> ReadyView:
    """Return how long a dish takes from cold water, all its components, at home."""
    taken = ready_time(dish, servings, method)
    boil_min = whole_minutes(taken.boil_s) if taken.boil_s else 0
    return ReadyView(boil_min, whole_minutes(taken.rest_s))
