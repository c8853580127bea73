"""The water of one dish as plain data, and as lines for a terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from cookbook_build.publishing.views import shown_measures
from cookbook_build.publishing.wording import METHOD_NAMES, metres, millilitres, minutes

if TYPE_CHECKING:
    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.kitchen.scaling import ComponentWater
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.planning.reckoning import Reckoning


def answer(
    reckoning: Reckoning, dish: Dish, servings: int, method: Method, altitude_m: float | None
) -> dict[str, Any]:
    """Return every number of a dish's water for one size, method and altitude."""
    counted = [line.store.name for part in dish.parts for line in part.optional]
    found: dict[str, Any] = {
        "recipe": dish.recipe.address,
        "title": dish.recipe.keys.title,
        "servings": servings,
        "method": method,
        "altitude_m": dish.place.conditions.altitude_m if altitude_m is None else altitude_m,
        "measures": reckoning.book.book.measures,
        "components": _components(reckoning, dish.waters(servings, method, altitude_m)),
        "counts_optional": counted,
        "raw_stores": list(dish.raw_stores),
    }
    if counted:
        bare = dish.waters(servings, method, altitude_m, without_optional=True)
        found["without_optional"] = _components(reckoning, bare)
    return found


def _components(reckoning: Reckoning, waters: tuple[ComponentWater, ...]) -> list[dict[str, Any]]:
    return [
        {
            "name": water.name,
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
            "sd_ml": round(water.sd_ml, 3),
            "phi": round(water.phi, 5),
            "tested": water.tested,
            "measures": shown_measures(water, reckoning.book),
        }
        for water in waters
    ]


def answer_lines(found: dict[str, Any]) -> list[str]:
    """Return the answer as a cook reads it on a terminal."""
    servings = found["servings"]
    lines = [
        (
            f"{found['title']}: {servings} serving{'s' * (servings > 1)}, "
            f"{METHOD_NAMES[found['method']].lower()}, {metres(found['altitude_m'])}"
        ),
    ]
    several = len(found["components"]) > 1
    for part in found["components"]:
        shown = part["measures"]
        lines += [
            "",
            *([f"{part['name']}"] if several else []),
            f"  pour first  {shown['start']}  ({millilitres(part['start_ml'])})",
            f"  keep back   {shown['hold_back']}, and add it a teaspoon at a time",
            (
                f"  together    {shown['together']}  "
                f"({millilitres(part['start_ml'] + part['hold_back_ml'])})"
            ),
            f"  rest        {minutes(part['rest_s'])}",
        ]
        if not part["tested"]:
            lines.append(
                f"  not yet tested: reckoned from its ingredients, most likely "
                f"{millilitres(part['total_ml'])}, give or take {millilitres(part['sd_ml'])}"
            )
    if found["counts_optional"]:
        names = ", ".join(found["counts_optional"])
        lines += ["", f"The optional {names} is counted; without it:"]
        lines += [
            f"  {part['name']}: pour {part['measures']['start']}, keep back "
            f"{part['measures']['hold_back']}"
            for part in found["without_optional"]
        ]
    if found["raw_stores"]:
        names = ", ".join(found["raw_stores"])
        lines += ["", f"Raw: {names}. Cook it through; drying kills no germs."]
    return lines
