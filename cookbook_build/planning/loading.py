"""Loading: what a menu still has to dry, on trays and in loads, with hours and target weights."""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum
from typing import TYPE_CHECKING

from cookbook_build.planning.household_yields import household_rate
from cookbook_build.planning.stock import dried_lots
from cookbook_build.planning.stores import CUP_ML
from cookbook_build.preserving.drying import DryingHours, drying_hours
from cookbook_build.preserving.loads import Batch, Dryer, LoadPlan, plan_loads
from cookbook_build.preserving.lots import fresh_moisture
from cookbook_build.preserving.runs import LONE_SPREAD, Run, run_of, shortest_run_h

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping

    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.schema import DryerKeys
    from cookbook_build.planning.shopping import DryingLine
    from cookbook_build.planning.stores import ShelfStore
    from cookbook_build.preserving.loads import Load
    from cookbook_build.preserving.yields import DryingWay


@dataclass(frozen=True, slots=True)
class TimedLoad:
    """One load of the dryer and how long it runs."""

    load: Load
    run: Run

    @property
    def hours(self) -> DryingHours:
        """How long it runs, with a band [h]."""
        return self.run.hours


@dataclass(frozen=True, slots=True)
class Loading:
    """The loads that a menu takes, and no fewer than how many they could be."""

    loads: tuple[TimedLoad, ...]
    lower_bound: int
    air: tuple[DryingLine, ...]  # what dries in the air and takes no tray of the freeze dryer
    air_run: Run | None  # of all of it together, where the log knows the way; else the least
    unsuited: tuple[DryingLine, ...]  # what a freeze dryer can't dry, and which takes no tray
    lacks_dryer: bool  # the kit names none, though something is to be freeze-dried


def loading(
    lines: Iterable[DryingLine], book: Manuscript, stores: Mapping[str, ShelfStore]
) -> Loading:
    """Return what is to be dried as loads; without a dryer in the kit there are none."""
    listed = [line for line in lines if line.dried_g > 0 and line.store.dried_here]
    freeze = [line for line in listed if line.store.store.keys.dried == "freeze"]
    suited = [line for line in freeze if not line.unsuited]
    air = tuple(line for line in listed if line.store.store.keys.dried == "air")
    keys = book.book.kit.dryer
    plan = plan_loads([_batch(line) for line in suited], dryer(keys)) if keys else LoadPlan((), 0)
    log = _Log(book, stores)
    stated = keys.removes.si if keys and keys.removes else None
    return Loading(
        tuple(TimedLoad(load, log.run(load.water_g, "freeze", stated)) for load in plan.loads),
        plan.lower_bound,
        air,
        log.run(fsum(line.removed_g for line in air), "air") if air else None,
        tuple(line for line in freeze if line.unsuited),
        bool(suited) and keys is None,
    )


@dataclass(frozen=True, slots=True)
class _Log:
    """The household's log, which tells its two ways of drying apart."""

    book: Manuscript
    stores: Mapping[str, ShelfStore]

    def run(self, water_g: float, way: DryingWay, stated_g_per_h: float | None = None) -> Run:
        """Return how long some water takes to leave: by the log, as stated, or as is usual."""
        rate = household_rate(self.book, self.stores, way)
        runs_h = self._runs_h(way)
        least_h = shortest_run_h(runs_h, way)
        if way == "air" and rate is None:  # the usual cycle is a freeze dryer's
            hours = DryingHours(least_h, least_h, least_h * LONE_SPREAD, "usual")
            return Run(hours, is_least=True, from_log=False)
        hours = drying_hours(water_g, rate, stated_g_per_h)
        return run_of(hours, least_h, from_log=bool(runs_h))

    def _runs_h(self, way: DryingWay) -> tuple[float, ...]:
        """Return how long each load of the log ran, where all of it came out dry."""
        longest: dict[dt.date, float] = {}
        damp: set[dt.date] = set()
        for lot in dried_lots(self.book, self.stores):
            row = lot.row
            if self.stores[row.store].store.keys.dried == way:
                longest[row.date] = max(longest.get(row.date, 0.0), row.hours or 0.0)
                damp |= set() if lot.is_finished else {row.date}
        return tuple(run_h for date, run_h in longest.items() if date not in damp and run_h > 0)


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
