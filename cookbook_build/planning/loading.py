"""Loading: what a menu still has to dry, on trays and in loads, with hours and target weights."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.planning.household_yields import household_rate
from cookbook_build.planning.stores import CUP_ML
from cookbook_build.preserving.drying import drying_hours
from cookbook_build.preserving.loads import Batch, Dryer, plan_loads
from cookbook_build.preserving.lots import fresh_moisture

if TYPE_CHECKING:
    from collections.abc import Iterable

    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.schema import DryerKeys
    from cookbook_build.planning.shopping import DryingLine
    from cookbook_build.planning.stores import ShelfStore
    from cookbook_build.preserving.drying import DryingHours
    from cookbook_build.preserving.loads import Load, LoadPlan


@dataclass(frozen=True, slots=True)
class TimedLoad:
    """One load of the dryer and how long it runs."""

    load: Load
    hours: DryingHours


@dataclass(frozen=True, slots=True)
class Loading:
    """The loads that a menu takes, and no fewer than how many they could be."""

    loads: tuple[TimedLoad, ...]
    lower_bound: int
    air: tuple[DryingLine, ...]  # what dries in the air and takes no tray of the freeze dryer


def loading(lines: Iterable[DryingLine], book: Manuscript) -> Loading | None:
    """Return what is to be dried as loads; None where the kit has no dryer."""
    keys = book.book.kit.dryer
    if keys is None:
        return None
    listed = [line for line in lines if line.dried_g > 0]
    freeze = [line for line in listed if line.store.store.keys.dried == "freeze"]
    plan: LoadPlan = plan_loads([_batch(line) for line in freeze], dryer(keys))
    rate = household_rate(book)
    stated = keys.removes.si if keys.removes else None
    return Loading(
        tuple(TimedLoad(load, drying_hours(load.water_g, rate, stated)) for load in plan.loads),
        plan.lower_bound,
        tuple(line for line in listed if line.store.store.keys.dried == "air"),
    )


def dryer(keys: DryerKeys) -> Dryer:
    """Return the household's dryer."""
    return Dryer(
        keys.trays,
        keys.tray_area.si if keys.tray_area else None,
        keys.tray_load.si if keys.tray_load else None,
        keys.ice.si if keys.ice else None,
    )


def store_batch(store: ShelfStore, prepared_g: float) -> Batch:
    """Return prepared food of a store as it goes on trays."""
    food = store.food
    cup = food.cup(store.store.keys.form or "") if food else None
    return Batch(
        store.name,
        prepared_g,
        fresh_moisture(store.grams_per_prepared_gram, store.moisture),
        store.moisture,
        cup[1] / CUP_ML if cup else None,
        strong_odour=food is not None and food.odour == "strong",
        raw_animal=store.store.keys.raw,
    )


def _batch(line: DryingLine) -> Batch:
    return store_batch(line.store, line.prepared_g)
