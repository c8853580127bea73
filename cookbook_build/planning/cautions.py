"""What a dish must warn of, at one serving size, method and altitude."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from cookbook_build.kitchen.cautions import HOT_LINE_C
from cookbook_build.kitchen.holding import TWO_HOURS_S
from cookbook_build.planning.camp import jar_day
from cookbook_build.planning.heat import soak_times
from cookbook_build.planning.rawness import cook_to_c

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.kitchen.scaling import ComponentWater
    from cookbook_build.planning.camp import JarDay
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.planning.stores import ShelfStore


@dataclass(frozen=True, slots=True)
class RawCaution:
    """A store that was dried raw is cooked to a temperature, if boiling water gets there."""

    store: str
    cook_to_c: float
    boils_at_c: float


@dataclass(frozen=True, slots=True)
class JarCaution:
    """A jar too large for the meal: it is no longer hot, or no longer to be eaten, at lunch."""

    day: JarDay

    @property
    def kind(self) -> Literal["unsafe", "lukewarm"]:
        """Whether lunch comes after the time to eat by, or only after it has cooled."""
        return "unsafe" if self.day.is_unsafe else "lukewarm"


@dataclass(frozen=True, slots=True)
class SoakCaution:
    """A cold soak is on the clock from the pour; kept chilled it takes longer."""

    eat_by_s: float
    soak_s: float
    chilled_s: float
    component: str = ""  # the one with cold water in a hot meal

    @property
    def too_long(self) -> bool:
        """Whether it is not ready before it should be eaten."""
        return self.soak_s > self.eat_by_s


@dataclass(frozen=True, slots=True)
class LateCaution:
    """A component that is not ready before it should be eaten."""

    component: str
    ready_s: float
    eat_by_s: float


@dataclass(frozen=True, slots=True)
class SlowCaution:
    """A burner or oven so weak that the food passes the warm hours before it is hot."""

    component: str
    warm_s: float


Caution = RawCaution | JarCaution | SoakCaution | LateCaution | SlowCaution


def raw_caution(store: ShelfStore, boils_at_c: float) -> RawCaution:
    """Return what to warn of with a store that was dried raw."""
    return RawCaution(store.name, cook_to_c(store), boils_at_c)


def dish_cautions(
    dish: Dish, servings: float, method: Method, altitude_m: float | None = None
) -> tuple[Caution, ...]:
    """Return all that a dish warns of, the gravest first."""
    waters = dish.waters(servings, method, altitude_m)
    return tuple(_cautions(dish, servings, method, altitude_m, waters))


def _cautions(
    dish: Dish,
    servings: float,
    method: Method,
    altitude_m: float | None,
    waters: tuple[ComponentWater, ...],
) -> Iterator[Caution]:
    boils_at_c = waters[0].derivation.boiling_c
    stores = {line.store.name: line.store for part in dish.parts for line in part.lines}
    for name in dish.raw_stores:
        yield raw_caution(stores[name], boils_at_c)
    if method == "jar":
        day = jar_day(dish, servings, altitude_m)
        if day.change:
            yield JarCaution(day)
        yield from _long_soaks(dish, servings, waters)
    elif method == "cold":
        soaks = soak_times(dish, servings)
        yield SoakCaution(
            min(water.eat_by_s for water in waters),
            max(water.ready_s for water in waters),
            max(soak.chilled_s for soak in soaks),
        )
    else:
        yield from _long_soaks(dish, servings, waters)
        for water in waters:
            if water.is_cold:
                continue
            warm_s = _warming_s(water, dish.place.conditions.water_c)
            if warm_s > TWO_HOURS_S:
                yield SlowCaution(water.name, warm_s)
            if water.ready_s > water.eat_by_s:
                yield LateCaution(water.name, water.ready_s, water.eat_by_s)


def _long_soaks(
    dish: Dish, servings: float, waters: tuple[ComponentWater, ...]
) -> Iterator[SoakCaution]:
    """Give the components with cold water in a hot meal that can't be ready on the table."""
    for at, water in enumerate(waters):
        if water.is_cold and water.ready_s > water.eat_by_s:
            chilled_s = soak_times(dish, servings)[at].chilled_s
            yield SoakCaution(water.eat_by_s, water.ready_s, chilled_s, water.name)


def _warming_s(water: ComponentWater, water_c: float) -> float:
    """Return how long a component on the fire takes to come above the hot line [s]."""
    derived = water.derivation
    rise_c = derived.boiling_c - water_c
    return derived.heating_s * (HOT_LINE_C - water_c) / rise_c if rise_c > 0 else 0.0
