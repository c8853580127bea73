"""The next trial most worth making, for the menus of the book or for all its recipes."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.kitchen.foresight import Wish, expected_drops
from cookbook_build.kitchen.trials import Trial, equation
from cookbook_build.planning.lessons import part_name, store_priors

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from cookbook_build.kitchen.beliefs import Equation
    from cookbook_build.planning.dishes import Dish, Part
    from cookbook_build.planning.reckoning import Reckoning


@dataclass(frozen=True, slots=True)
class NextTrial:
    """A component worth trying, and its share of all that one trial can teach."""

    dish: Dish
    part: Part
    drop: float


def next_trials(reckoning: Reckoning) -> tuple[NextTrial, ...]:
    """Return the components of the book, the one whose trial would teach most first."""
    weights = _weights(reckoning)
    listed = [
        (dish, part)
        for dish in reckoning.dishes.values()
        for part in dish.parts
        if weights.get(dish.recipe.address)
    ]
    wishes = [Wish(_expected(dish, part), weights[dish.recipe.address]) for dish, part in listed]
    drops = expected_drops(wishes, reckoning.lessons.learned, store_priors(reckoning.stores))
    found = [NextTrial(dish, part, drop) for (dish, part), drop in zip(listed, drops, strict=True)]
    return tuple(sorted(found, key=lambda n: (-n.drop, part_name(n.dish, n.part))))


def _weights(reckoning: Reckoning) -> Mapping[str, float]:
    """Return how many servings of each meal the menus hold; without menus, one of each."""
    if not reckoning.book.menus:
        return dict.fromkeys(reckoning.dishes, 1.0)
    found: dict[str, float] = defaultdict(float)
    for address, servings in _planned(reckoning):
        found[address] += servings
    return found


def _planned(reckoning: Reckoning) -> Iterator[tuple[str, float]]:
    for menu in reckoning.book.menus:
        for meal in menu.keys.meals:
            yield meal.address, float(meal.servings or menu.keys.people)


def _expected(dish: Dish, part: Part) -> Equation:
    at = dish.parts.index(part)
    water = dish.waters(dish.default_servings, dish.default_method)[at]
    trial = Trial(dish.default_method, dish.default_servings, water.total_ml, dish.place.conditions)
    return equation(part_name(dish, part), part.mix, trial, dish.place.kit)
