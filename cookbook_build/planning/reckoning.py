"""The whole book reckoned: stores, pots, dishes and provisions, with their findings."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from dataclasses import dataclass
from functools import cached_property, partial
from math import floor, fsum
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import one_of
from cookbook_build.kitchen.cautions import HOT_LINE_C
from cookbook_build.planning.camp import jar_day
from cookbook_build.planning.dishes import Dish, dishes, household
from cookbook_build.planning.household_yields import with_household_yields
from cookbook_build.planning.known import Known
from cookbook_build.planning.label_paper import check_sheet
from cookbook_build.planning.lessons import (
    Lessons,
    report_slips,
    store_priors,
    taught_dishes,
)
from cookbook_build.planning.loading import dryer, store_batch
from cookbook_build.planning.lots import Lot, Reserves
from cookbook_build.planning.menu_lots import is_over, menu_turn, with_lots
from cookbook_build.planning.provisions import Provision, provision
from cookbook_build.planning.rawness import check_air_dried
from cookbook_build.planning.shelf import shelf
from cookbook_build.planning.stock import book_day, shelf_lots
from cookbook_build.planning.stores import CUP_ML, measures
from cookbook_build.planning.tested_waters import check_tested, far_waters
from cookbook_build.planning.thirst import check_thirst
from cookbook_build.planning.unit_slips import check_units
from cookbook_build.preserving.loads import plan_loads

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.menus import Menu
    from cookbook_build.planning.camp import JarDay
    from cookbook_build.planning.dishes import Household
    from cookbook_build.planning.pots import Pot
    from cookbook_build.planning.stores import ShelfStore
    from cookbook_build.preserving.loads import LoadPlan

_JAR_MENDS: Final = {
    "preheat": "preheat the jar with boiling water",
    "fill": "pack {amount:.0f} servings in {jars}",
    "smaller jar": "use a jar of {amount:.0f} mL that promises as much",
    "more water": "pour {amount:.0f} mL more",
}


@dataclass(frozen=True, slots=True)
class DriedBase:
    """A base's pot, dried."""

    pot: Pot
    store: ShelfStore | None
    dried_g: float
    dried_ml: float | None  # None where nobody weighed a cup of it
    plan: LoadPlan | None  # one pot on this household's trays
    servings: tuple[tuple[Dish, float], ...]  # of each meal, if all of it went there

    @property
    def trays(self) -> int:
        """Trays that one pot fills."""
        return sum(len(load.trays) for load in self.plan.loads) if self.plan else 0

    @property
    def removed_g(self) -> float:
        """Water that the dryer takes away [g]."""
        return self.pot.cooked_g - self.dried_g


@dataclass(frozen=True)
class Reckoning:
    """A book with all its numbers, ready to be published."""

    book: Manuscript
    place: Household
    stores: Mapping[str, ShelfStore]
    pots: Mapping[str, Pot]
    dishes: Mapping[str, Dish]
    lessons: Lessons
    lots: Mapping[str, tuple[Lot, ...]]
    reserves: Reserves
    provisions: tuple[Provision, ...]

    def dried_base(self, base: str) -> DriedBase:
        """Return what a base's pot leaves when it is dried, and the store it becomes."""
        pot = self.pots[base]
        store = next((store for store in self.stores.values() if store.base == base), None)
        dried_g = pot.cooked_g * (store.grams_per_prepared_gram if store else 1.0)
        cup = store.grams_per_cup if store else None
        dryer_keys = self.book.book.kit.dryer
        plan = None
        if dryer_keys and store and store.store.keys.dried == "freeze":
            plan = plan_loads([store_batch(store, pot.cooked_g)], dryer(dryer_keys))
        return DriedBase(
            pot,
            store,
            dried_g,
            dried_g / cup * CUP_ML if cup else None,
            plan,
            tuple(self._servings_of(store, dried_g)) if store else (),
        )

    def _servings_of(self, store: ShelfStore, dried_g: float) -> Iterator[tuple[Dish, float]]:
        """Give each meal with a store, and how many servings of it some grams make."""
        for meal in self.meals_using(store.name):
            each = fsum(
                line.grams / meal.recipe.keys.serves
                for part in meal.parts
                for line in part.lines
                if line.store.name == store.name and line.is_dry
            )
            if each > 0:
                yield meal, dried_g / each

    def meals_using(self, store: str) -> list[Dish]:
        """Return the meals in which a store is used."""
        return list(self._meals_by_store.get(store, ()))

    @cached_property
    def _meals_by_store(self) -> Mapping[str, list[Dish]]:
        found: dict[str, list[Dish]] = defaultdict(list)
        for dish in self.dishes.values():
            names = (line.store.name for part in dish.parts for line in part.lines)
            for store in dict.fromkeys(names):
                found[store].append(dish)
        return found


def reckoned(book: Manuscript, findings: Findings, known: Known | None = None) -> Reckoning:
    """Return a book with all its numbers; what can't be reckoned leaves findings.

    Of a book that is not sound only what hangs on no key of the kit is looked at.
    """
    known = known or Known()
    if book.is_sound:
        check_sheet(book, findings)
    found = shelf(book, findings)
    pots = {address: pot for address, pot in found.pots.items() if pot is not None}
    weighed = with_household_yields(found.stores, book, findings)
    stores = {name: known.steady.same(("store", name), store) for name, store in weighed.items()}
    check_air_dried(stores, findings)
    written = dishes(book, stores, known, findings)
    meals, lessons = taught_dishes(written, stores, book, known)
    _check_waters(written, lessons, stores, book, known, findings)
    if book.is_sound:
        check_thirst(meals.values(), findings)
        _check_menu_methods(book, meals, findings)
        for meal in meals.values():
            known.judge("jar", (meal,), partial(_check_jar, meal, known), findings)
    lots = shelf_lots(book, stores, findings)
    reserves, day = Reserves(lots), book_day(book)
    menus: dict[str, Provision] = {}
    for menu in sorted(book.menus if book.is_sound else (), key=lambda menu: _turn(menu, day)):
        if all(meal.address in meals for meal in menu.keys.meals):
            turn = reserves.for_menu(menu_turn(menu))
            provided = provision(menu, meals, stores, pots, book, turn, day)
            menus[menu.address] = with_lots(provided, turn, day, findings)
    return Reckoning(
        book, household(book), stores, pots, meals, lessons, lots, reserves,
        tuple(menus[menu.address] for menu in book.menus if menu.address in menus),
    )  # fmt: skip


def _check_waters(
    written: Mapping[str, Dish],
    lessons: Lessons,
    stores: Mapping[str, ShelfStore],
    book: Manuscript,
    known: Known,
    findings: Findings,
) -> None:
    """Report water that is far off, once: by the unit that explains it, else as it is."""
    priors = store_priors(stores)
    explained = check_units(written.values(), lessons, priors, book, known, findings)
    told = explained | {record.place for record in lessons.records if record.left_out}
    for dish in written.values():
        check_tested(dish, told, measures(book).system, known, findings)
    report_slips(lessons, priors, explained, measures(book).system, findings)


def _turn(menu: Menu, day: dt.date | None) -> tuple[bool, bool, dt.date, str]:
    """Return when a menu's turn on the shelf is: by its date, those without one later.

    What was eaten before the book's newest day comes last: it takes nothing off the shelf any more
    that a menu to come may want.
    """
    keys = menu.keys
    return is_over(menu, day), keys.date is None, keys.date or dt.date.max, menu.address


def _check_menu_methods(book: Manuscript, meals: Mapping[str, Dish], findings: Findings) -> None:
    """Report meals of a menu planned by a method that their recipe does not allow."""
    for menu in book.menus:
        for at, meal in enumerate(menu.keys.meals):
            dish = meals.get(meal.address)
            if dish is None or meal.method is None or meal.method in dish.methods:
                continue
            raw = f'; "{dish.raw_stores[0]}" was dried raw' if dish.raw_stores else ""
            findings.error(
                menu.places.of("meals", at, "method"),
                f'"{meal.address}" is not made ready by "{meal.method}"{raw}',
                f"write {one_of(dish.methods)}.",
            )


def _check_jar(dish: Dish, known: Known, findings: Findings) -> None:
    """Warn of a jar too large for its meal: cool at the lunch chosen, or unsafe at the usual."""
    if "jar" not in dish.methods or far_waters(dish, known):
        return  # what is wrong with its water was said already
    day = jar_day(dish, dish.default_servings)
    if not (day.is_unsafe or (day.change and dish.place.chosen_lunch_s)):
        return
    hot, by, lunch = (
        f"{floor(seconds / 360) / 10:g} h"
        for seconds in (day.card.preheated.hot_until_s, day.card.preheated.eat_by_s, day.lunch_s)
    )
    findings.warning(
        dish.recipe.places.key("methods") if dish.recipe.keys.methods else dish.recipe.place,
        f"{_jar_fault(day)}: it falls below {HOT_LINE_C:g} °C after {hot} and is to be eaten by "
        f"{by}, and lunch is at {lunch}",
        f"{_kept_hot(day)}{_without_jar(dish)}, or set an earlier lunch in the kit.",
    )


def _without_jar(dish: Dish) -> str:
    """Return how a recipe says that it is not for a jar."""
    others = [method for method in dish.methods if method != "jar"]
    if dish.recipe.keys.methods and others:
        return 'leave "jar" out of its methods'
    return f'write "methods: [{", ".join(others or ["kettle"])}]" in this recipe'


def _jar_fault(day: JarDay) -> str:
    if day.change and day.change.kind in {"fill", "smaller jar"}:
        return "the jar of the kit is too large for this meal"
    return f"the jar of the kit does not keep this meal {'safe' if day.is_unsafe else 'hot'}"


def _kept_hot(day: JarDay) -> str:
    if day.change is None or day.change.kind not in _JAR_MENDS:
        return ""
    jars = "one jar" if day.change.jars == 1 else f"the {day.change.jars} jars that it takes"
    mend = _JAR_MENDS[day.change.kind].format(amount=day.change.amount, jars=jars)
    return f"{mend} and it stays hot until then, or "
