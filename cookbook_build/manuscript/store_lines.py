"""The line of larder.yaml for a food of the table, as a household would most likely keep it."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.larder import (
    DRY_MOISTURE,
    cooked_counterpart,
    is_known_dry_only,
    undercooked,
)

if TYPE_CHECKING:
    from cookbook_build.foods import Food, FoodTable

COOKED: Final = frozenset({
    "cooked", "boiled", "baked", "roasted", "scrambled", "braised", "stewed", "grilled", "fried",
    "poached", "hard-boiled", "sauteed", "canned",
})  # fmt: skip
COOKED_DISHES: Final = frozenset({
    "falafel", "hummus", "instant-porridge", "mashed-potatoes", "mashed-potatoes-from-flakes",
    "omelette", "porridge", "refried-beans",
})  # fmt: skip
STATES: Final = COOKED - {"hard-boiled", "scrambled"} | {
    "raw", "dry", "dried", "fresh", "frozen", "freeze-dried", "dehydrated",
}  # fmt: skip
"""Words of a food's name that a store's name does without."""

DRIED_FRUIT_MOISTURE: Final = 0.35
FAT_OR_SUGAR_MOISTURE: Final = 0.20
"""Below these, too, a food is sold dry, or keeps as it is (common practice, no source)."""

EATEN_AS_IT_IS: Final = frozenset({
    "cider-vinegar", "white-vinegar", "wine-vinegar", "balsamic-vinegar", "soy-sauce", "tamari",
    "worcestershire-sauce", "fish-sauce", "hot-sauce", "hoisin-sauce", "mustard", "horseradish",
    "capers", "pickles", "yeast-extract", "vanilla-extract",
})  # fmt: skip
"""Condiments that nobody dries (common practice, no source)."""

CUTS: Final = {
    "chopped": "chopped", "diced": "diced", "sliced": "sliced", "slices": "sliced",
    "cubes": "cubes", "chunks": "cubes", "shredded": "shredded", "grated": "grated",
    "strips": "strips", "halves": "halves", "pieces": "pieces", "chips": "pieces",
}  # fmt: skip
"""How a cup of the table was cut, and the form that says so."""

FORMS: Final = {
    "es": {
        "chopped": "en trozos", "cubes": "en dados", "diced": "en dados", "grated": "en hebras",
        "halves": "en mitades", "pieces": "en trozos", "powder": "en polvo",
        "shredded": "en hebras", "sliced": "en rodajas", "strips": "en tiras",
    },
}  # fmt: skip
"""The same forms in other languages, for a book's pages show them."""

SLICED: Final = frozenset({
    "asparagus-raw", "celeriac-raw", "garlic-raw", "kohlrabi-raw", "leeks-raw", "okra-raw",
    "shiitake-raw", "sweet-onions-raw", "yellow-pepper-raw",
})  # fmt: skip
"""What is cut before it dries, though the table's cup does not say how."""

RUNNY: Final = frozenset({
    "broth", "buttermilk", "cream", "gravy", "half-and-half", "hummus", "juice", "ketchup",
    "mashed", "milk", "paste", "porridge", "puree", "salsa", "sauce", "yogurt",
})  # fmt: skip
"""Words of what has no pieces, and dries to crumbs or a powder (common practice, no source)."""

PLAIN_NAME: Final = re.compile(r"[^\W\d_](?:[\w /-]*\w)?")


@dataclass(frozen=True, slots=True)
class StoreLine:
    """A line for larder.yaml, and what its cook should mind."""

    name: str
    line: str
    cautions: tuple[str, ...] = ()


def store_line(food: Food, table: FoodTable, name: str = "", tag: str = "") -> StoreLine:
    """Return the line that keeps a food in a larder, under a name of its own or a given one.

    `tag` is the language of its form, English where it says nothing.
    """
    kept, keys, cautions = _kept(food, table)
    if keys["dried"] in {"freeze", "air"}:
        form = form_of(kept)
        keys = {**keys, **({"form": form} if form else {})}
    elif "powder" in kept.name.split():
        keys = {**keys, "form": "powder"}
    if keys["dried"] == "freeze" and RUNNY & set(kept.name.split()):
        cautions = (*cautions, POWDERS)
    elif kept.cup() is None:
        cautions = (*cautions, _no_cup(keys["dried"]))
    name = name or store_name(food)
    if "form" in keys:
        keys = {**keys, "form": FORMS.get(tag, {}).get(keys["form"], keys["form"])}
    order = ("dried", "form", "raw", "cooked first")
    said = ", ".join(f"{key}: {keys[key]}" for key in order if key in keys)
    return StoreLine(name, f"{as_key(name)}: {{food: {kept.name}, {said}}}", cautions)


def store_name(food: Food) -> str:
    """Return what a cook calls a store of this food: its name without its state."""
    bare = [word for word in food.name.split() if word not in STATES]
    return " ".join(bare) or food.name


def as_key(name: str) -> str:
    """Return a name as it is written before a colon, in quotes where it needs them."""
    odd = not PLAIN_NAME.fullmatch(name) or name.casefold() in {"yes", "no", "on", "off", "null"}
    return json.dumps(name, ensure_ascii=False) if odd else name


def form_of(food: Food) -> str:
    """Return how pieces of a food are cut for drying, as the table's cup says; else nothing."""
    if food.id in SLICED:
        return "sliced"
    for cut, _ in food.grams_per_cup:
        words = re.split(r"\W+", cut)
        if form := next((CUTS[word] for word in words if word in CUTS), ""):
            return form
        if cut == "plain":
            return ""
    return ""


def _kept(food: Food, table: FoodTable) -> tuple[Food, dict[str, str], tuple[str, ...]]:
    """Return the food that is kept, the keys of its store, and what to mind."""
    if food.needs_cooking:
        cause, _ = undercooked(food)
        cooked = cooked_counterpart(food, table) or food
        mind = f"{cause}: cook it until you would eat it, and dry it then."
        if is_known_dry_only(food, table):
            mind += " The table has no figures of it cooked: give those in a label."
            return food, {"dried": "bought"}, (mind,)
        return cooked, {"dried": "freeze", "cooked first": "true"}, (mind,)
    if food.raw_animal:
        return food, {"dried": "freeze", "raw": "true"}, (_raw_caution(food, table),)
    if food.flour:
        mind = "flour is raw: it is brought to the boil and cooked through before it is eaten."
        return food, {"dried": "bought", "raw": "true"}, (mind,)
    dried = _dried(food)
    cooked_first = dried == "freeze" and _is_cooked(food)
    mind = f"it does not suit a freeze dryer ({food.unsuited})." if food.unsuited else ""
    keys = {"dried": dried} | ({"cooked first": "true"} if cooked_first else {})
    return food, keys, (mind,) if mind else ()


def _dried(food: Food) -> str:
    """Return how a food that is not raw most likely comes to be on a shelf."""
    if food.unsuited:
        return "bought" if food.moisture <= FAT_OR_SUGAR_MOISTURE else "fresh"
    if food.id in EATEN_AS_IT_IS or food.group == "bread":
        return "fresh"
    fruit = food.group == "fruit" and "raw" not in food.name.split()
    dry = food.moisture < (DRIED_FRUIT_MOISTURE if fruit else DRY_MOISTURE)
    return "bought" if dry else "freeze"


def _raw_caution(food: Food, table: FoodTable) -> str:
    cooked = cooked_counterpart(food, table)
    mind = (
        "drying does not kill germs: dried raw, it is brought to the boil and cooked through "
        "before it is eaten; follow your local food-safety guidance"
    )
    return f'{mind}. To dry it cooked, look up "{cooked.name}".' if cooked else f"{mind}."


POWDERS: Final = (
    "it dries to crumbs or a powder: weigh a cup of that, and add such as form: powder, "
    "weighs: 96 g per cup."
)


def _no_cup(dried: str) -> str:
    dry = " of it dry" if dried in {"freeze", "air"} else " of it"
    return f"the table has no cup of it: weigh a cup{dry}, and add such as weighs: 58 g per cup."


def _is_cooked(food: Food) -> bool:
    return food.id in COOKED_DISHES or bool(COOKED & set(food.name.split()))
