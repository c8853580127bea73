"""Foods of the table for a terminal, in columns, and as plain data."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cookbook_build.foods import Food
    from cookbook_build.manuscript.food_search import FoundFood

COLUMNS: Final = 78
"""Letters in a line of a terminal, with two to spare."""
CUPS_SHOWN: Final = 3


def food_lines(found: FoundFood, stores: Sequence[str]) -> list[str]:
    """Return what is known of a food, and last its line for larder.yaml, to copy as it stands."""
    food = found.food
    name = f"{food.name} ({found.called})" if found.called else food.name
    return [
        name,
        *_wrapped(f"  water {food.moisture:6.1%}    refuse {food.refuse:4.0%}    {cups(food)}"),
        _nourishment(food),
        *_wrapped(f"  allergens: {allergens(food)}"),
        *_wrapped(f"  source: {source(food)}"),
        *(line for caution in found.kept.cautions for line in _wrapped(f"  mind: {caution}")),
        *([f"  in your larder: {', '.join(stores)}"] if stores else []),
        found.kept.line,
    ]


def _nourishment(food: Food) -> str:
    return (
        f"  in 100 g {food.energy_kcal:4.0f} kcal   protein {food.protein_g:5.1f} g   "
        f"fat {food.fat_g:5.1f} g   carbohydrate {food.carbohydrate_g:5.1f} g"
    )


def cups(food: Food) -> str:
    """Return what a US cup of a food weighs, with its cut."""
    if not food.grams_per_cup:
        return "1 US cup: not known"
    said = [
        f"{grams:.4g} g" + ("" if cut == "plain" else f" {cut}")
        for cut, grams in food.grams_per_cup[:CUPS_SHOWN]
    ]
    return f"1 US cup: {', '.join(said)}"


def allergens(food: Food) -> str:
    """Return the allergens that the table has, where its two lists differ with their names."""
    if not food.allergens_us and not food.allergens_eu:
        return "none in the table; what you bought says on its pack"
    us, eu = (", ".join(names) or "none" for names in (food.allergens_us, food.allergens_eu))
    return us if us == eu else f"US: {us}; EU: {eu}"


def source(food: Food) -> str:
    """Return where the figures of a food come from."""
    said = f"{food.source}, no. {food.ndb}" if food.ndb else food.source
    return f"{said} (the nearest food that it has)" if food.stand_in else said


def food_data(found: FoundFood, stores: Sequence[str] | None) -> dict[str, Any]:
    """Return what is known of a food as plain data; without a book it says nothing of stores."""
    food = found.food
    data = {
        "id": food.id,
        "name": food.name,
        "called": found.called or food.name,
        "other_names": list(food.other_names),
        "group": food.group,
        "moisture_percent": round(food.moisture * 100, 2),
        "refuse_percent": round(food.refuse * 100, 2),
        "grams_per_us_cup": [{"form": cut, "grams": grams} for cut, grams in food.grams_per_cup],
        "per_100_g": {
            "energy_kcal": food.energy_kcal,
            "protein_g": food.protein_g,
            "fat_g": food.fat_g,
            "carbohydrate_g": food.carbohydrate_g,
            "fibre_g": food.fibre_g,
            "sodium_mg": food.sodium_mg,
        },
        "allergens": {"us": list(food.allergens_us), "eu": list(food.allergens_eu)},
        "source": source(food),
        "larder_line": found.kept.line,
        "mind": list(found.kept.cautions),
    }
    return data if stores is None else {**data, "in_larder": list(stores)}


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, COLUMNS, subsequent_indent="    ", break_long_words=False)
