"""The water of one dish as plain data, and as lines for a terminal."""

from __future__ import annotations

from math import fsum
from textwrap import wrap
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.planning.camp import camp_cell, jar_day, serving
from cookbook_build.publishing.cautioning import GUIDANCE, caution_views
from cookbook_build.publishing.pours import shown_measures
from cookbook_build.publishing.wording import (
    FUEL_WORDS,
    METHOD_NAMES,
    REST_WORDS,
    altitude_words,
    back_words,
    degrees,
    give_or_take,
    grams_up,
    hours_down,
    millilitres,
    minutes,
    number_of,
    tally_words,
    until,
)
from cookbook_build.words import _

if TYPE_CHECKING:
    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.kitchen.holding import Holding
    from cookbook_build.kitchen.scaling import ComponentWater
    from cookbook_build.planning.camp import JarDay
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.planning.whatif import Changes

WIDTH: Final = 78


def answer(
    reckoning: Reckoning, dish: Dish, servings: int, method: Method, altitude_m: float | None
) -> dict[str, Any]:
    """Return every number of a dish's water for one size, method and altitude."""
    where_m = dish.place.conditions.altitude_m if altitude_m is None else altitude_m
    counted = [line.store.name for part in dish.parts for line in part.optional]
    found: dict[str, Any] = {
        "recipe": dish.recipe.address,
        "title": dish.recipe.keys.title,
        "servings": servings,
        "method": method,
        "altitude_m": where_m,
        "altitude": altitude_words(where_m, reckoning.book.book.altitudes),
        "measures": reckoning.book.book.measures,
        **_heat(dish, servings, method, altitude_m),
        "components": _components(reckoning, dish, dish.waters(servings, method, altitude_m)),
        "counts_optional": counted,
        "raw_stores": list(dish.raw_stores),
    }
    if method == "jar":
        start_ml = dish.waters(servings, method, altitude_m)[0].start_ml
        day = jar_day(dish, servings, altitude_m)
        found["jar"] = _jar(day, start_ml, dish.place.kit.jar_holds_ml)
    if counted:
        bare = dish.waters(servings, method, altitude_m, without_optional=True)
        found["without_optional"] = _components(reckoning, dish, bare)
    return found


def compared(
    dish: Dish,
    made: Dish,
    servings: int,
    method: Method,
    altitude_m: float | None,
    changes: Changes,
) -> dict[str, Any]:
    """Return what a change does to a dish's water."""
    before, after = (
        fsum(water.total_ml for water in one.waters(servings, method, altitude_m))
        for one in (dish, made)
    )
    return {
        "without": list(changes.without),
        "swap": [list(pair) for pair in changes.swaps],
        "add": list(changes.adds),
        "added_to": {
            "component": dish.parts[0].name if len(dish.parts) > 1 else None,
            "servings": dish.recipe.keys.serves,
        },
        "components": [
            part.name for part, old in zip(made.parts, dish.parts, strict=True) if part != old
        ],
        "as_written_total_ml": round(before, 3),
        "total_ml": round(after, 3),
        "change_ml": round(after - before, 3),
    }


def _heat(dish: Dish, servings: int, method: Method, altitude_m: float | None) -> dict[str, Any]:
    """Return when a dish is ready, until when it may be eaten, its fuel and its warnings."""
    cell = camp_cell(dish, servings, method, altitude_m)
    table = serving(cell.waters, method)
    place = dish.place.conditions
    kept = cell.waters[:1] if method == "jar" else cell.waters
    hot = [water for water in kept if water.method == method]
    last = max(hot, key=lambda water: water.ready_s)
    return {
        "air_c": place.air_c,
        "water_c": place.water_c,
        "rest_s": round(max(water.rest_s for water in kept), 1),
        "ready_at": {
            "after_s": round(table.ready_s, 1),
            "temp_c": round(last.derivation.ready_c, 2),
        },
        "temperatures": _temperatures(last),
        "eat_by_h": hours_down(table.eat_by_s),
        "fuel_g": round(cell.fuel_g, 2),
        "fuel": dish.place.kit.fuel,
        "warnings": [str(found) for found in caution_views(dish, servings, method, altitude_m)],
        "guidance": _(GUIDANCE),
    }


def _ready_at(water: ComponentWater) -> dict[str, float]:
    return {
        "after_s": round(water.ready_s, 1),
        "temp_c": round(water.derivation.ready_c, 2),
    }


def _jar(day: JarDay, start_ml: float, holds_ml: float) -> dict[str, Any]:
    card, change = day.card, day.change
    return {
        "jars": card.jars,
        "holds_ml": holds_ml,
        "pour_each_ml": round(start_ml / card.jars, 1),
        "fill": round(card.fill, 4),
        "hours": list(card.hours),
        "preheated_c": [round(temp, 2) for temp in card.preheated_c],
        "cold_c": [round(temp, 2) for temp in card.cold_c],
        "preheated": _held(card.preheated),
        "cold": _held(card.cold),
        "lunch_h": round(day.lunch_s / 3600, 3),
        "change": {"kind": change.kind, "amount": round(change.amount, 1)} if change else None,
    }


def _held(held: Holding) -> dict[str, float]:
    return {
        "hot_until_h": hours_down(held.hot_until_s),
        "eat_by_h": hours_down(held.eat_by_s),
    }


def _temperatures(water: ComponentWater) -> dict[str, float]:
    derived = water.derivation
    return {
        "boiling_c": round(derived.boiling_c, 2),
        "start_c": round(derived.start_c, 2),
        "mean_c": round(derived.mean_c, 2),
        "ready_c": round(derived.ready_c, 2),
    }


def _components(
    reckoning: Reckoning, dish: Dish, waters: tuple[ComponentWater, ...]
) -> list[dict[str, Any]]:
    return [
        {
            "name": water.name,
            "method": water.method,
            "dry_g": round(water.dry_g, 3),
            "dry_ml": round(water.dry_ml, 3),
            "uptake_ml": round(water.uptake_ml, 3),
            "free_ml": round(water.free_ml, 3),
            "loss_ml": round(water.loss_ml, 3),
            "total_ml": round(water.total_ml, 3),
            "start_ml": round(water.start_ml, 3),
            "hold_back_ml": round(water.hold_back_ml, 3),
            "rest_s": round(water.rest_s, 1),
            "rest_low_s": round(water.rest_low_s, 1),
            "rest_high_s": round(water.rest_high_s, 1),
            "heating_s": round(water.derivation.heating_s, 1),
            "ready_at": _ready_at(water),
            "temperatures": _temperatures(water),
            "hot_until_h": hours_down(water.hot_until_s),
            "eat_by_h": hours_down(water.eat_by_s),
            "sd_ml": round(water.sd_ml, 3),
            "phi": round(water.phi, 5),
            "tested": water.tested,
            "trials": part.trials,
            "tests": part.tests,
            "left_out": part.left_out,
            "measures": shown_measures(water, reckoning.book),
        }
        for part, water in zip(dish.parts, waters, strict=True)
    ]


def answer_lines(found: dict[str, Any]) -> list[str]:
    """Return the answer as a cook reads it on a terminal."""
    servings = found["servings"]
    lines = [
        (
            f"{found['title']}: {servings} serving{'s' * (servings > 1)}, "
            f"{METHOD_NAMES[found['method']].lower()}, {found['altitude']}"
        ),
    ]
    several = len(found["components"]) > 1
    made_other = found["what_if"]["components"] if "what_if" in found else []
    for part in found["components"]:
        shown = part["measures"]
        lines += [
            "",
            *([_named(part, found["method"])] if several else []),
            f"  pour first  {shown['start']}  ({millilitres(part['start_ml'])})",
            f"  keep back   {shown['hold_back']}, and add it {back_words(part['hold_back_ml'])}",
            (
                f"  together    {shown['together']}  "
                f"({millilitres(part['start_ml'] + part['hold_back_ml'])})"
            ),
            f"  {REST_WORDS[part['method']].lower():<12}{minutes(part['rest_s'])}",
        ]
        likely = f"most likely {millilitres(part['total_ml'])}, {give_or_take(part['sd_ml'])}"
        if stands_on := _stands_on(part, changed=part["name"] in made_other):
            lines += wrap(
                f"{stands_on}: {likely}", WIDTH, initial_indent="  ", subsequent_indent="  "
            )
    if "what_if" in found:
        lines += ["", *_change_lines(found["what_if"], servings)]
    lines += ["", *_heat_lines(found)]
    if found["counts_optional"]:
        names = ", ".join(found["counts_optional"])
        lines += ["", f"The optional {names} is counted; without it:"]
        lines += [
            f"  {part['name']}: pour {part['measures']['start']}, keep back "
            f"{part['measures']['hold_back']}"
            for part in found["without_optional"]
        ]
    for warning in found["warnings"]:
        lines += ["", *wrap(warning, WIDTH)]
    return lines


def _named(part: dict[str, Any], method: Method) -> str:
    """Return a component's name, and that its water is cold where that of the meal is not."""
    cold = part["method"] == "cold" != method
    return f"{part['name']}, with cold drinking water" if cold else str(part["name"])


def _stands_on(part: dict[str, Any], *, changed: bool) -> str:
    """Return what a component's water stands on; of one just as it was tested, nothing."""
    written = " of the recipe as it is written" if changed else ""
    if part["trials"]:
        counted = tally_words(part["trials"], part["tests"], part["left_out"])
        return f"{'reckoned' if changed else 'learned'} from {counted}{written}"
    if part["tested"]:
        return ""
    if part["tests"]:
        return f"reckoned from the test{written}"
    return "not yet tested: reckoned from its ingredients"


def _change_lines(change: dict[str, Any], servings: int) -> list[str]:
    to = change["added_to"]
    where = f" in the {to['component'].lower()}" if to["component"] else ""
    if to["servings"] != servings:
        where += f" for {number_of(to['servings'], 'serving')}"
    words = [f"without {name}" for name in change["without"]]
    words += [f"with {new} instead of {old}" for old, new in change["swap"]]
    words += [f"with {line} more{where}" for line in change["add"]]
    by = change["change_ml"]
    said = (
        "as much water as the recipe as it is written"
        if abs(by) < 0.5
        else f"{millilitres(abs(by))} {'more' if by > 0 else 'less'} water than as written"
    )
    text = f"{', '.join(words)}: {said}."
    return wrap(text[0].upper() + text[1:], WIDTH)


def _heat_lines(found: dict[str, Any]) -> list[str]:
    ready = found["ready_at"]
    lines = [
        f"  ready       after {minutes(ready['after_s'])}, at {degrees(ready['temp_c'])}",
        f"  eat within  {until(3600 * found['eat_by_h'])}",
    ]
    if found["fuel_g"]:
        fuel = FUEL_WORDS[found["fuel"]]
        preheats = ", preheating counted" if found["method"] == "jar" else ""
        lines.append(f"  fuel        {grams_up(found['fuel_g'])} of {fuel}{preheats}")
    if "jar" in found:
        jar, held = found["jar"], found["jar"]["cold"]
        lines += [
            f"  jars        {jar['jars']} of {millilitres(jar['holds_ml'])}",
            f"  in each     {millilitres(jar['pour_each_ml'])}, after a rinse of boiling water",
            f"  not heated  eat within {until(3600 * held['eat_by_h'])}",
        ]
    return lines
