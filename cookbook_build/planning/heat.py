"""A dish by each method: how hot, how long, what boils away, and until when it may be eaten."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import fsum
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.cautions import FRIDGE_C
from cookbook_build.kitchen.resting import rest_band_s, rest_s
from cookbook_build.kitchen.scaling import component_water

if TYPE_CHECKING:
    from cookbook_build.kitchen.conditions import Kit, Method
    from cookbook_build.kitchen.scaling import ComponentWater
    from cookbook_build.planning.dishes import Dish

OVEN_RATINGS_W: Final = (600.0, 700.0, 800.0, 900.0, 1000.0, 1200.0)
"""Ratings that microwave ovens are sold with; common practice, no source."""


@dataclass(frozen=True, slots=True)
class BowlCard:
    """A bowl filled from the kettle, with a plate on it and without."""

    covered: tuple[ComponentWater, ...]
    bare: tuple[ComponentWater, ...]


@dataclass(frozen=True, slots=True)
class OvenRow:
    """The time to the boil in ovens of one rating, components one after the other."""

    rated_w: float
    heating_s: float


@dataclass(frozen=True, slots=True)
class SoakTimes:
    """A component's cold soak: on the table, and kept chilled, each with its band."""

    water: ComponentWater
    chilled_s: float
    chilled_low_s: float
    chilled_high_s: float


def bowl_card(dish: Dish, servings: float) -> BowlCard:
    """Return a kettle's bowl with a plate on it and without, the test's own plate kept."""
    covered, bare = (
        _waters(dish, servings, "kettle", replace(dish.place.kit, bowl_covered=plate))
        for plate in (True, False)
    )
    return BowlCard(covered, bare)


def oven_rows(dish: Dish, servings: float) -> tuple[OvenRow, ...]:
    """Return the time to the boil by the rating of the oven, the household's own among them."""
    ratings = sorted({*OVEN_RATINGS_W, dish.place.kit.microwave_w})
    return tuple(
        OvenRow(
            rating,
            fsum(
                water.derivation.heating_s
                for water in _waters(
                    dish, servings, "microwave", replace(dish.place.kit, microwave_w=rating)
                )
            ),
        )
        for rating in ratings
    )


def soak_times(dish: Dish, servings: float) -> tuple[SoakTimes, ...]:
    """Return how long each component soaks at the air's warmth and in the cold."""
    return tuple(_soak(water) for water in dish.waters(servings, "cold"))


def _soak(water: ComponentWater) -> SoakTimes:
    reference = water.derivation.reference_rest_s, water.derivation.reference_c
    low_s, high_s = rest_band_s(*reference, FRIDGE_C)
    middle_s = rest_s(*reference, FRIDGE_C)
    return SoakTimes(water, middle_s, min(low_s, middle_s), max(high_s, middle_s))


def _waters(dish: Dish, servings: float, method: Method, kit: Kit) -> tuple[ComponentWater, ...]:
    """Return the water with another kit; the test was made with the household's own."""
    return tuple(
        component_water(
            part.mix,
            servings=servings,
            method=dish.part_method(part, method),
            conditions=dish.place.conditions,
            kit=kit,
            tested_with=dish.place.kit,
        )
        for part in dish.parts
    )
