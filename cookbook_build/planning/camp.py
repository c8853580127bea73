"""Camp and jar: a dish at every altitude band, its fuel, and its day in an insulated jar."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.boiling import boiling_point_c
from cookbook_build.kitchen.fuel import boiling_fuel_g, fuel_g
from cookbook_build.kitchen.jars import Change, JarCard, change_for_lunch, jar_card

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
USUAL_LUNCH_S: Final = 4 * 3600.0  # packed at eight, eaten at noon


@dataclass(frozen=True, slots=True)
class CampCell:
    """A dish at one altitude for one serving size."""

    servings: int
    waters: tuple[ComponentWater, ...]
    fuel_g: float

    @property
    def together_ml(self) -> float:
        """Water to have at hand for all components."""
        return sum(water.start_ml + water.hold_back_ml for water in self.waters)

    @property
    def heating_s(self) -> float:
        """Time to bring all components to the boil, one after the other."""
        return sum(water.derivation.heating_s for water in self.waters)


@dataclass(frozen=True, slots=True)
class CampRow:
    """A dish at one altitude."""

    altitude_m: float
    boiling_c: float
    cells: tuple[CampCell, ...]


@dataclass(frozen=True, slots=True)
class JarDay:
    """A serving size of a dish in the household's jars."""

    servings: int
    card: JarCard
    lunch_s: float
    change: Change | None  # what would keep it hot until lunch, where it isn't


def camp_rows(
    dish: Dish, sizes: tuple[int, ...], method: Method, altitudes: str
) -> tuple[CampRow, ...]:
    """Return a dish at every altitude band."""
    return tuple(
        CampRow(
            altitude,
            boiling_point_c(altitude),
            tuple(camp_cell(dish, size, method, altitude) for size in sizes),
        )
        for altitude in BANDS_M[altitudes]
    )


def camp_cell(dish: Dish, servings: int, method: Method, altitude_m: float | None) -> CampCell:
    """Return a dish at one altitude [m] for one serving size."""
    waters = dish.waters(servings, method, altitude_m)
    return CampCell(servings, waters, meal_fuel_g(dish, waters, method))


def meal_fuel_g(dish: Dish, waters: tuple[ComponentWater, ...], method: Method) -> float:
    """Return the fuel [g] for a meal on the household's burner; none without a flame."""
    kit, conditions = dish.place.kit, dish.place.conditions
    if method == "stove":
        return sum(
            fuel_g(
                water.derivation.heating_s, water.rest_s, kit.stove_w, kit.simmer_throttle, kit.fuel
            )
            for water in waters
        )
    if method in {"kettle", "jar"}:
        boiled_ml = sum(water.total_ml for water in waters)
        boils_c = waters[0].derivation.boiling_c
        return boiling_fuel_g(
            boiled_ml, conditions.water_c, boils_c, kit.stove_efficiency, kit.fuel
        )
    return 0.0


def jar_days(dish: Dish, sizes: tuple[int, ...], lunch_s: float | None) -> tuple[JarDay, ...]:
    """Return how the main component of a dish fares in the jar, at every serving size."""
    mix, place = dish.parts[0].mix, dish.place
    lunch = lunch_s or USUAL_LUNCH_S
    return tuple(
        JarDay(
            size,
            jar_card(mix, size, place.conditions, place.kit),
            lunch,
            change_for_lunch(mix, size, lunch, place.conditions, place.kit),
        )
        for size in sizes
    )
