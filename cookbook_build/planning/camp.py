"""Camp and jar: a dish at every altitude band, its fuel, and its day in an insulated jar."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import fsum
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.boiling import boiling_point_c
from cookbook_build.kitchen.fuel import boiling_fuel_g, fuel_g
from cookbook_build.kitchen.heating import heating_s
from cookbook_build.kitchen.jars import Change, JarCard, change_for_lunch, jar_card
from cookbook_build.kitchen.readying import WATER_KJ_PER_KG_K

if TYPE_CHECKING:
    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.kitchen.scaling import ComponentWater
    from cookbook_build.planning.dishes import Dish

FOOT_M: Final = 0.3048
BANDS_M: Final = {
    "metres": (0.0, 1000.0, 2000.0, 3000.0, 4000.0),
    "feet": tuple(FOOT_M * feet for feet in (0, 3000, 6000, 9000, 12000)),
}
CAMP_METHODS: Final[tuple[Method, ...]] = ("stove", "kettle")


@dataclass(frozen=True, slots=True)
class CampCell:
    """A dish at one altitude for one serving size, in the order of its components."""

    servings: float
    waters: tuple[ComponentWater, ...]
    part_fuel_g: tuple[float, ...]
    part_boil_s: tuple[float, ...]

    @property
    def fuel_g(self) -> float:
        """Fuel for all components [g]."""
        return fsum(self.part_fuel_g)

    @property
    def together_ml(self) -> float:
        """Water to have at hand for all components [mL]."""
        return fsum(water.start_ml + water.hold_back_ml for water in self.waters)

    @property
    def boil_s(self) -> float:
        """Time to bring all water to the boil, one component after the other [s]."""
        return fsum(self.part_boil_s)

    @property
    def steam_ml(self) -> float:
        """Water that leaves all components [mL]."""
        return fsum(water.loss_ml for water in self.waters)


@dataclass(frozen=True, slots=True)
class CampRow:
    """A dish at one altitude."""

    altitude_m: float
    boiling_c: float
    cells: tuple[CampCell, ...]


@dataclass(frozen=True, slots=True)
class JarDay:
    """A serving size of a dish in the household's jars."""

    servings: float
    card: JarCard
    lunch_s: float
    change: Change | None  # what would keep it hot until lunch, where it isn't
    bare: JarCard | None = None  # the same without what is optional

    @property
    def is_unsafe(self) -> bool:
        """Whether lunch comes after the time by which it should be eaten."""
        return self.card.preheated.eat_by_s < self.lunch_s


def camp_rows(
    dish: Dish, sizes: tuple[int, ...], method: Method, altitudes: str
) -> tuple[CampRow, ...]:
    """Return a dish at every altitude band, `metres` or `feet`."""
    return tuple(
        CampRow(
            altitude,
            boiling_point_c(altitude),
            tuple(camp_cell(dish, size, method, altitude) for size in sizes),
        )
        for altitude in BANDS_M[altitudes]
    )


def camp_cell(dish: Dish, servings: float, method: Method, altitude_m: float | None) -> CampCell:
    """Return a dish at one altitude [m] for one serving size."""
    waters = dish.waters(servings, method, altitude_m)
    fuel = [part_fuel_g(dish, water) for water in waters]
    boil = [part_boil_s(dish, water) for water in waters]
    if method == "jar":  # each jar is first filled with boiling water
        kit, place = dish.place.kit, dish.place.conditions
        jars_ml = dish.jars(servings) * kit.jar_holds_ml
        boils_c = waters[0].derivation.boiling_c
        fuel[0] += boiling_fuel_g(jars_ml, place.water_c, boils_c, kit.stove_efficiency, kit.fuel)
    return CampCell(servings, waters, tuple(fuel), tuple(boil))


def part_fuel_g(dish: Dish, water: ComponentWater) -> float:
    """Return the fuel [g] for a component on the household's burner; none without a flame.

    What is held back is boiled too, for it is added hot.
    """
    kit, derivation = dish.place.kit, water.derivation
    if water.method == "stove":
        return fuel_g(
            derivation.heating_s, water.rest_s, kit.stove_w, kit.simmer_throttle, kit.fuel
        )
    if water.method in {"kettle", "jar"}:
        return boiling_fuel_g(
            water.start_ml + water.hold_back_ml,
            dish.place.conditions.water_c,
            derivation.boiling_c,
            kit.stove_efficiency,
            kit.fuel,
        )
    return 0.0


def part_boil_s(dish: Dish, water: ComponentWater) -> float:
    """Return how long the burner or the oven takes to bring a component's water to the boil [s]."""
    if water.method not in {"kettle", "jar"}:
        return water.derivation.heating_s
    kit, place = dish.place.kit, dish.place.conditions
    heat = (water.start_ml + water.hold_back_ml) * WATER_KJ_PER_KG_K
    net_w = kit.stove_w * kit.stove_efficiency
    return heating_s(heat, place.water_c, water.derivation.boiling_c, net_w)


@dataclass(frozen=True, slots=True)
class Serving:
    """When a whole dish is on the table, and until when it may be eaten."""

    ready_s: float
    eat_by_s: float


def serving(waters: tuple[ComponentWater, ...], method: Method) -> Serving:
    """Return when all components are ready, and until when the first of them may be eaten.

    Burner and oven take one component after the other; bowls rest side by side, and what is made
    with cold water soaks beside both. Each is begun so that all are ready together. Beside a jar
    the rest is made up when it is eaten.
    """
    if method == "jar":
        waters = waters[:1]
    one_by_one = method in {"stove", "microwave"}
    readies = [water.ready_s for water in waters if not (one_by_one and water.is_cold)]
    ready_s = fsum(readies) if one_by_one else max(readies)
    ready_s = max(ready_s, *(water.ready_s for water in waters if water.is_cold), 0.0)
    left_s = min(water.eat_by_s - water.ready_s for water in waters)
    return Serving(ready_s, ready_s + left_s)


@dataclass(frozen=True, slots=True)
class ReadyTime:
    """How long a dish takes: bringing water to the boil, and what comes after."""

    boil_s: float
    rest_s: float


def ready_time(dish: Dish, servings: float, method: Method) -> ReadyTime:
    """Return how long a dish takes from cold water, all its components, at home.

    Burner and oven heat water and mix together, so the time until ready holds the boiling; a
    kettle's water is boiled before the pour. Beside a jar the rest is made up at lunch.
    """
    cell = camp_cell(dish, servings, method, None)
    boil_s = cell.part_boil_s[0] if method == "jar" else cell.boil_s
    ready_s = serving(cell.waters, method).ready_s
    return ReadyTime(boil_s, ready_s - boil_s if method in {"stove", "microwave"} else ready_s)


def jar_day(dish: Dish, servings: float, altitude_m: float | None = None) -> JarDay:
    """Return how the main component of a dish fares in the jar until the household's lunch."""
    mix, bare, place = dish.parts[0].mix, dish.parts[0].bare, dish.place
    conditions = place.conditions
    if altitude_m is not None:
        conditions = replace(conditions, altitude_m=altitude_m)
    return JarDay(
        servings,
        jar_card(mix, servings, conditions, place.kit),
        place.lunch_s,
        change_for_lunch(mix, servings, place.lunch_s, conditions, place.kit),
        jar_card(bare, servings, conditions, place.kit) if bare else None,
    )
