"""Dishes: a recipe's words and the kitchen's numbers put together.

This is where manuscript and kitchen meet: each ingredient line becomes a mass of a store, each
component a mix that the kitchen can compute water for.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from math import fsum
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.conditions import METHODS, Conditions, Kit, Method
from cookbook_build.kitchen.consistency import CONSISTENCIES
from cookbook_build.kitchen.jars import jar_card
from cookbook_build.kitchen.rehydration import UPTAKE_PRIORS, Portion
from cookbook_build.kitchen.resting import CRUSHED_REST_S, WHOLE_REST_S
from cookbook_build.kitchen.scaling import Component, ComponentWater, Tested, component_water
from cookbook_build.kitchen.simmering import BoilOff, boil_off
from cookbook_build.manuscript.agreement import RAW_METHODS
from cookbook_build.planning.stores import HEAVIEST_MIX_G, ShelfStore, dry_mass, measures
from cookbook_build.words import N_

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.ingredients import Ingredient
    from cookbook_build.manuscript.recipes import ComponentText, Recipe
    from cookbook_build.manuscript.schema import KitKeys
    from cookbook_build.measures.units import Measures
    from cookbook_build.planning.known import Known

MAIN: Final = N_("Main bowl")
USUAL_LUNCH_S: Final = 4 * 3600.0
"""Packed at eight, eaten at noon; common practice, no source."""


@dataclass(frozen=True, slots=True)
class MixLine:
    """One ingredient line with its store, its mass and its volume, as the author wrote it."""

    ingredient: Ingredient
    store: ShelfStore
    grams: float
    ml: float

    @property
    def is_dry(self) -> bool:
        """Whether it goes into the dry mix and counts for the water."""
        return self.store.is_dry and not self.ingredient.fresh


@dataclass(frozen=True, slots=True)
class Part:
    """One component: its lines, and the mix with and without its optional lines."""

    text: ComponentText
    name: str
    lines: tuple[MixLine, ...]
    mix: Component
    bare: Component | None  # without the optional lines, where there are any
    trials: int = 0  # of its own, that it has learned from
    tests: int = 0  # its own test, where that counts as a trial beside them
    left_out: int = 0  # of both, that contradict the rest

    @property
    def optional(self) -> tuple[MixLine, ...]:
        """The dry lines that may be left out."""
        return tuple(line for line in self.lines if line.is_dry and line.ingredient.optional)


@dataclass(frozen=True, slots=True)
class Dish:
    """A meal that can be computed."""

    recipe: Recipe
    parts: tuple[Part, ...]
    methods: tuple[Method, ...]
    place: Household
    default_servings: int
    default_method: Method

    def waters(
        self,
        servings: float,
        method: Method,
        altitude_m: float | None = None,
        *,
        without_optional: bool = False,
    ) -> tuple[ComponentWater, ...]:
        """Return the water of each component for a serving size, method and altitude [m]."""
        conditions = self.place.conditions
        if altitude_m is not None:
            conditions = replace(conditions, altitude_m=altitude_m)
        return tuple(
            component_water(
                (part.bare if without_optional else None) or part.mix,
                servings=servings,
                method=self.part_method(part, method),
                conditions=conditions,
                kit=self.place.kit,
            )
            for part in self.parts
        )

    def part_method(self, part: Part, method: Method) -> Method:
        """Return how a component is made ready where the dish is made by a method.

        What the author makes with cold water stays so; beside a jar all but the main component is
        soaked at lunch.
        """
        beside = method == "jar" and part is not self.parts[0]
        return "cold" if beside or part.text.cold else method

    @property
    def has_optional(self) -> bool:
        """Whether some dry line may be left out."""
        return any(part.bare for part in self.parts)

    @property
    def is_tested(self) -> bool:
        """Whether every component was tested."""
        return all(part.mix.tested for part in self.parts)

    @property
    def raw_stores(self) -> tuple[str, ...]:
        """The stores of this meal that were dried raw."""
        names = {
            line.store.name
            for part in self.parts
            for line in part.lines
            if line.store.store.keys.raw and line.is_dry
        }
        return tuple(sorted(names))

    def times(self, line: MixLine, servings: float) -> float:
        """Return how often a line goes in for a serving size; what goes in per pot, once."""
        return 1.0 if line.ingredient.per_pot else servings / self.recipe.keys.serves

    def dry_g(self, servings: float) -> float:
        """Return the mass [g] of the dry mix for a serving size."""
        return fsum(self.part_dry(part, servings)[0] for part in self.parts)

    def part_dry(self, part: Part, servings: float) -> tuple[float, float]:
        """Return the mass [g] and the volume [mL] of one component's dry mix."""
        dry = [(line, self.times(line, servings)) for line in part.lines if line.is_dry]
        return (
            fsum(line.grams * times for line, times in dry),
            fsum(line.ml * times for line, times in dry),
        )

    def jars(self, servings: float) -> int:
        """Return how many of the household's jars the main component takes."""
        place = self.place
        return jar_card(self.parts[0].mix, servings, place.conditions, place.kit).jars


@dataclass(frozen=True, slots=True)
class Household:
    """Where this household eats, and what it cooks with."""

    conditions: Conditions
    kit: Kit
    chosen_lunch_s: float | None = None  # from filling the jar to eating from it

    @property
    def lunch_s(self) -> float:
        """Return the time from filling a jar to lunch, chosen or usual [s]."""
        return self.chosen_lunch_s or USUAL_LUNCH_S

    @property
    def boil_off(self) -> BoilOff:
        """Return what boils off this household's pot at home."""
        return boil_off(self.conditions, self.kit)


def household(book: Manuscript) -> Household:
    """Return the household's kitchen: its altitude, its kit and its lunch hour."""
    keys = book.book
    altitude = keys.altitude.si if keys.altitude else 0.0
    lunch = keys.kit.jar.lunch if keys.kit.jar else None
    return Household(Conditions(altitude_m=altitude), _kit(keys.kit), lunch.si if lunch else None)


@dataclass(frozen=True, slots=True)
class _Cook:
    """What a book's dishes have in common."""

    place: Household
    measures: Measures
    methods: tuple[Method, ...]  # of a recipe that names none


def dishes(
    book: Manuscript, stores: Mapping[str, ShelfStore], known: Known, findings: Findings
) -> dict[str, Dish]:
    """Return every meal of the book as a dish, by its address."""
    # a jar only where the kit has one
    methods = tuple(m for m in METHODS if m != "jar" or book.book.kit.jar)
    cook = known.steady.same("cook", _Cook(household(book), measures(book), methods))
    sound = [meal for meal in book.meals if all_sound(meal, book, stores)]
    found: dict[str, Dish] = {}
    for meal in sound:
        made_of = meal, cook, *_stores_of(meal, stores)
        make = partial(_dish, meal, stores, cook)
        dish = known.steady.of(("dish", meal.address), made_of, make, findings)
        if dish is not None:
            found[meal.address] = dish
    return found


def all_sound(recipe: Recipe, book: Manuscript, stores: Mapping[str, ShelfStore]) -> bool:
    """Return whether all lines of a recipe name stores that can be counted with.

    Where one can't, its own finding has been given, and nothing more is said of the recipe.
    """
    return recipe.is_sound and all(
        store is not None and store.food is not None and store.name not in book.larder.unsound
        for store in _stores_of(recipe, stores)
    )


def _stores_of(recipe: Recipe, stores: Mapping[str, ShelfStore]) -> list[ShelfStore | None]:
    """Return the store of each line of a recipe, None where there is none."""
    lines = (line for part in recipe.components for line in part.ingredients)
    return [stores.get(line.store or "") for line in lines]


def _dish(
    recipe: Recipe, stores: Mapping[str, ShelfStore], cook: _Cook, findings: Findings
) -> Dish | None:
    """Return one meal as a dish; what can't be weighed or does not fit leaves findings."""
    read = [_part(part, recipe, stores, cook, findings) for part in recipe.components]
    parts = tuple(part for part in read if part is not None)
    if len(parts) != len(read):
        return None
    methods: tuple[Method, ...] = recipe.keys.methods or cook.methods
    found = Dish(recipe, parts, methods, cook.place, recipe.keys.serves, methods[0])
    if found.raw_stores:
        methods = tuple(m for m in methods if m not in RAW_METHODS) or ("stove",)
    hot = [part.text.tested for part in parts if not part.text.cold]
    tested = next((keys for keys in hot if keys), None)
    default = tested.method if tested and tested.method in methods else methods[0]
    return replace(found, methods=methods, default_method=default)


def _part(
    text: ComponentText,
    recipe: Recipe,
    stores: Mapping[str, ShelfStore],
    cook: _Cook,
    findings: Findings,
) -> Part | None:
    lines = tuple(
        MixLine(line, store, *dry_mass(line, store, cook.measures, findings))
        for line in text.ingredients
        if (store := stores.get(line.store or ""))
    )
    name = text.name or MAIN
    dry = [line for line in lines if line.is_dry]
    kept = [line for line in dry if not line.ingredient.optional]
    if not 0 < fsum(line.grams for line in dry) <= HEAVIEST_MIX_G:
        _no_dry_mix(text, recipe, dry, findings)
        return None
    hint = _rest_hint_s(dry)
    tested = _tested(text, recipe, cook, hint)
    mix = component_of(name, recipe, text, dry, tested)
    bare = None
    if len(kept) < len(dry) and any(line.grams > 0 for line in kept):
        # the author tested with everything in; without the optional lines the same free water
        # share holds, so the untested mix borrows the tested one's
        bare = component_of(name, recipe, text, kept, None, borrowed=mix if tested else None)
    return Part(text, name, lines, mix, bare)


def _no_dry_mix(
    text: ComponentText, recipe: Recipe, dry: list[MixLine], findings: Findings
) -> None:
    place = recipe.places.key(*text.path, "ingredients")
    if dry_g := fsum(line.grams for line in dry):
        findings.error(
            place,
            f"this list weighs {dry_g / 1000:,.0f} kg, more than any pot holds",
            "check its amounts and their units.",
        )
        return
    findings.error(
        place,
        "nothing in this list is dry and has a weight, so there is nothing to pour water on",
        "add a dried or bought store with an amount.",
    )


def component_of(
    name: str,
    recipe: Recipe,
    text: ComponentText,
    lines: list[MixLine],
    tested: Tested | None,
    borrowed: Component | None = None,
) -> Component:
    """Return the mix of some lines, with its test or with another mix's free water and rest."""
    return Component(
        name=name,
        servings=recipe.keys.serves,
        portions=tuple(_portion(line) for line in lines),
        consistency=CONSISTENCIES[text.consistency],
        tested=tested,
        rest_hint_s=_rest_hint_s(lines),
        like=borrowed,
    )


def _rest_hint_s(lines: list[MixLine]) -> float:
    """Return the rest [s] of a mix that nobody tested: shorter where most of it is crushed."""
    crushed = fsum(line.grams for line in lines if line.store.store.is_crushed)
    return CRUSHED_REST_S if crushed > fsum(line.grams for line in lines) / 2 else WHOLE_REST_S


def _portion(line: MixLine) -> Portion:
    store = line.store
    prior = UPTAKE_PRIORS[store.dryness] if store.dryness else None
    return Portion(
        store=store.name,
        dry_g=line.grams,
        dry_ml=line.ml,
        full_ml=store.full_ml(line.grams),
        uptake_mean=prior.mean if prior else 0.0,
        uptake_sd=prior.sd if prior else 0.0,
        composition=store.composition(),
        per_pot=line.ingredient.per_pot,
    )


def _tested(text: ComponentText, recipe: Recipe, cook: _Cook, rest_hint_s: float) -> Tested | None:
    """Return a component's test; cold water was in it, whatever way the meal was made by."""
    keys = text.tested
    if keys is None:
        return None
    method: Method = "cold" if text.cold else keys.method
    conditions = cook.place.conditions
    if keys.altitude:
        conditions = replace(conditions, altitude_m=keys.altitude.si)
    if keys.water_temperature and method == "cold":
        conditions = replace(conditions, water_c=keys.water_temperature.si)
    return Tested(
        method=method,
        servings=keys.servings or recipe.keys.serves,
        water_ml=float(keys.water.volume_ml(cook.measures)),
        rest_s=keys.rest.si if keys.rest else rest_hint_s,
        conditions=conditions,
    )


def _kit(keys: KitKeys) -> Kit:
    given: dict[str, float | bool | str] = {
        "bowl_covered": keys.bowl.covered,
        "pot_lid": keys.pot.lid,
        "fuel": keys.stove.fuel,
    }
    optional = {
        "bowl_opening_m": keys.bowl.opening,
        "pot_opening_m": keys.pot.opening,
        "stove_w": keys.stove.power,
        "microwave_w": keys.microwave.power if keys.microwave else None,
        "jar_holds_ml": keys.jar.holds if keys.jar else None,
    }
    given |= {name: value.si for name, value in optional.items() if value is not None}
    if keys.stove.efficiency:
        given["stove_efficiency"] = max(keys.stove.efficiency, 0.05)
    if keys.jar:
        given["jar_label_c"] = keys.jar.label.temp_c
        given["jar_label_h"] = keys.jar.label.after_s / 3600
    return Kit(**given)  # type: ignore[arg-type]
