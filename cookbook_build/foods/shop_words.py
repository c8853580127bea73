"""Shop words: what a food is called where it is sold, peel, pod or bone and all.

The table's names tell foods apart ("peas raw"); a shopper looks for "peas in pods". What is thrown
away of each is as SR28 describes its refuse; the words are ours.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.foods.table import load_foods

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from cookbook_build.foods.table import Food

CONTEXT: Final = "food"
"""What the catalogues of words call these names, which may mean something else elsewhere."""

SOLD_WHOLE: Final[Mapping[str, str]] = MappingProxyType({
    "artichokes-raw": "whole artichokes",
    "arugula-raw": "arugula with roots",
    "beet-greens-raw": "beet greens with stems",
    "beets-raw": "beets with short tops",
    "broad-beans-green-raw": "broad beans, shelled",
    "broccoli-raw": "broccoli with stalks",
    "cauliflower-raw": "cauliflower with leaves",
    "chicken-raw": "chicken with bone and skin",
    "chicken-thigh-raw": "chicken thighs with skin, no bone",
    "coconut-raw": "coconut in its shell",
    "collard-greens-raw": "collard greens with stems",
    "duck-raw": "duck with bone and skin",
    "fennel-raw": "fennel with stalks",
    "goose-raw": "goose with bone and skin",
    "jackfruit-raw": "whole jackfruit",
    "kale-raw": "kale with stems",
    "kohlrabi-raw": "kohlrabi with leaves",
    "lamb-shoulder-raw": "lamb shoulder with bone and fat",
    "leeks-raw": "leeks with tops",
    "lima-beans-green-raw": "lima beans in pods",
    "peas-raw": "peas in pods",
    "pheasant-raw": "pheasant with bone and skin",
    "pineapple-raw": "whole pineapple",
    "pork-shoulder-raw": "pork shoulder with bone and skin",
    "quail-raw": "quail with bone and skin",
    "spinach-raw": "spinach with roots",
    "sweet-corn-raw": "sweet corn in husks",
    "tamarind-raw": "tamarind in pods",
    "turkey-breast-raw": "turkey breast with bone and skin",
    "turkey-dark-meat-raw": "turkey legs with bone and skin",
    "turkey-raw": "turkey with bone and skin",
    "watermelon-raw": "whole watermelon",
})  # fmt: skip
"""Names of what is bought with much that is not eaten; keys are the table's."""

OTHER_NAMES: Final[Mapping[str, str]] = MappingProxyType({
    "apples-peeled-raw": "apples",
    "carp-raw": "carp fillet",
    "carrots-dehydrated": "dehydrated carrots",
    "chicken-breast-raw": "chicken breast, no bone or skin",
    "clams-cooked": "shelled clams, cooked",
    "cod-raw": "cod fillet",
    "crab-cooked": "crab meat, cooked",
    "crayfish-cooked": "shelled crayfish, cooked",
    "eggs-raw": "eggs",
    "elk-raw": "elk, no bone",
    "goat-cheese-soft": "soft goat cheese",
    "goat-raw": "goat meat, no bone",
    "haddock-raw": "haddock fillet",
    "herring-raw": "herring fillet",
    "lobster-cooked": "lobster meat, cooked",
    "mackerel-raw": "mackerel fillet",
    "milk-raw": "raw milk",
    "milk-semi-skimmed": "semi-skimmed milk",
    "milk-skimmed": "skimmed milk",
    "milk-whole": "whole milk",
    "moose-raw": "moose, no bone",
    "mussels-raw": "shelled mussels, raw",
    "oats": "rolled oats",
    "peanuts-raw": "raw peanuts",
    "perch-raw": "perch fillet",
    "pike-raw": "pike fillet",
    "rabbit-raw": "rabbit meat, no bone",
    "salmon-raw": "salmon fillet",
    "shrimp-raw": "peeled shrimp, raw",
    "tilapia-raw": "tilapia fillet",
    "tofu-firm": "firm tofu",
    "tofu-soft": "soft tofu",
    "trout-raw": "trout fillet",
    "tuna-raw": "tuna, no bone",
    "venison-raw": "venison, no bone",
    "walleye-raw": "walleye fillet",
    "yogurt": "plain yogurt",
})  # fmt: skip
"""Names in another order, and of flesh that the table has without shell or bone."""

LEFT_OUT: Final = ("raw",)
SAID_FIRST: Final = ("canned", "dehydrated", "dried", "freeze-dried", "fresh", "frozen", "dry")
"""States that a shop names before the food: `dried thyme`."""


def shop_words(food: Food, *, whole: bool) -> str:
    """Return what a food is called in a shop; `whole` with what is thrown away of it."""
    if food.group == "nuts" and food.refuse and food.id not in SOLD_WHOLE:
        return f"{food.name} in their shells" if whole else f"{food.name}, shelled"
    if whole and food.id in SOLD_WHOLE:
        return SOLD_WHOLE[food.id]
    if food.id in OTHER_NAMES:
        return OTHER_NAMES[food.id]
    name, _, state = food.name.rpartition(" ")
    if not name or food.group == "own" or state not in (*LEFT_OUT, *SAID_FIRST):
        return food.name
    plain = state in LEFT_OUT or (state == "dry" and food.group == "grains")
    return name if plain else f"{state} {name}"


def sold_as(food: Food) -> tuple[str, str]:
    """Return what a food is called in a shop, prepared and whole."""
    return shop_words(food, whole=False), shop_words(food, whole=True)


def names_to_translate(
    *_asked: object, **_options: object
) -> Iterator[tuple[int, str, tuple[str, str], list[str]]]:
    """Give every name of the table for the catalogues, in the way that Babel's extraction asks."""
    foods = load_foods()
    named = {name: None for food in foods for name in sold_as(food)}
    for line, name in enumerate(named, 1):
        yield line, "pgettext", (CONTEXT, name), []
