"""What a cook means by another word than the one that belongs there, so that a mend can name it."""

from __future__ import annotations

import datetime as dt
import re
from contextlib import suppress
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

_SAID: Final[Mapping[str, str]] = {
    "kettle": "boiling water|boiled water|hot water|bowl|poured",
    "microwave": "microwave oven|micro wave",
    "stove": "pot|pan|saucepan|hob|cooker|burner|camp stove|gas|fire",
    "jar": "thermos|flask|food jar|insulated jar|food flask",
    "cold": "cold soak|soak|soaked|cold water|overnight",
    "filling": "stuffing|wrap|dry|crumbly|firm",
    "spread": "paste|dip|spreadable|pate|hummus|smooth",
    "scoopable": "thick|very thick|porridge|oatmeal|mash|mashed|risotto|spoonable|stiff|creamy",
    "stew": "saucy|curry|chili|chilli|chunky|casserole|ragout|medium|normal",
    "soup": "thin|broth|runny|soupy|brothy|watery|liquid",
    "drink": "tea|smoothie|shake|cocoa|drinkable",
    "freeze": "frozen|freeze dried|freeze-dried|freeze dryer|freeze-dry|freezedried",
    "air": "air dried|air-dried|dehydrated|dehydrator|oven|sun|rack|dried",
    "bought": "shop|store|store-bought|shop-bought|purchased|dry|staple|no",
    "fresh": "not dried|raw|undried",
    "right": "perfect|good|ok|okay|just right|fine|great",
    "thick": "too thick|stiff|too stiff|dry|too dry",
    "thin": "too thin|runny|too runny|wet|too wet|watery",
    "gas canister": "gas|propane|butane|isobutane|canister",
    "alcohol": "spirit|meths|methylated spirits|ethanol",
    "white gas": "petrol|naphtha|benzine|gasoline",
    "us-cups": "us|american|usa|imperial|american cups",
    "metric-cups": "metric|ml|grams|australian",
    "label-cups": "label|labels|fda",
    "metres": "m|meters|meter|metre",
    "feet": "ft|foot",
    "meal": "dinner|supper|lunch|breakfast|recipe|dish",
    "base": "sauce|ingredient",
    "piece": "each|pieces|unit|count|item",
    "weight": "kg|g|kilo|pound|lb",
}
"""What is said for a choice; common practice, no source."""

CONSISTENCY_WORDS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "filling": "drier than its pieces would like, to be wrapped or stuffed",
        "spread": "soft, and stays on a knife",
        "scoopable": "stands on a spoon, such as porridge or mash",
        "stew": "moist, with a little juice round the pieces",
        "soup": "pieces that swim",
        "drink": "thin enough for a cup",
    }
)
"""What each consistency is, in a few words."""

_KEYS: Final[Mapping[str, str]] = {
    "title": "name|heading",
    "serves": "yield|portions|servings|people",
    "also called": "aliases|alias|synonyms|other names|names",
    "weighs": "weight|cup weight|density",
    "dried": "drying|state|preserved",
    "picture": "photo|image|photograph",
    "picture text": "alt|alt text|caption|photo text",
    "blurb": "description|summary|about|intro",
    "about": "description|summary|blurb",
    "meals": "dishes|recipes|plan",
    "measures": "units|cups",
    "altitude": "elevation|height",
    "consistency": "texture|thickness",
    "rest": "time|wait|soak",
    "water": "amount|liquid",
    "series": "category|chapter|collection",
    "people": "persons|serves|eaters",
    "method": "way|how",
    "verdict": "result|outcome",
}
"""What is written for a key; common practice, no source."""

_NUMBERS: Final = {
    word: number
    for number, words in enumerate(
        (
            "one|first|uno|una", "two|second|a couple|dos", "three|third|tres",
            "four|fourth|cuatro", "five|fifth|cinco", "six|sixth|seis", "seven|seventh|siete",
            "eight|eighth|ocho", "nine|ninth|nueve", "ten|tenth|diez",
        ),
        1,
    )
    for word in words.split("|")
}  # fmt: skip
_MONTHS: Final = "jan feb mar apr may jun jul aug sep oct nov dec"
_DAY_FIRST: Final = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?\s+([A-Za-z]{3})[a-z]*\.?,?\s+(\d{4})")
_MONTH_FIRST: Final = re.compile(r"([A-Za-z]{3})[a-z]*\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})")
_YEAR_FIRST: Final = re.compile(r"(\d{4})[./ -](\d{1,2})[./ -](\d{1,2})")
_YEAR_LAST: Final = re.compile(r"(\d{1,2})[./ -](\d{1,2})[./ -](\d{4})")


def choice_meant(said: str, choices: Collection[str]) -> str | None:
    """Return the one of some choices that a cook means by another word, or None."""
    word = " ".join(said.strip("\"'“”‘’ ").split()).casefold()
    told = next((choice for choice in choices if word in _SAID.get(choice, "").split("|")), None)
    words = set(re.findall(r"\w+", word))
    named = [choice for choice in choices if choice in words]  # a thick stew is a stew
    return told or (named[0] if len(named) == 1 and not words & {"not", "no", "too"} else None)


def choices_told(choices: Collection[str]) -> str:
    """Return what each consistency is, for a mend; of other choices nothing."""
    if not all(choice in CONSISTENCY_WORDS for choice in choices):
        return ""
    told = "; ".join(f"{choice} ({CONSISTENCY_WORDS[choice]})" for choice in choices)
    return f" There are: {told}."


def key_meant(said: str, keys: Collection[str]) -> str | None:
    """Return the one of some keys that a cook means by another word, or None."""
    word = said.strip().casefold()
    return next((key for key in keys if word in _KEYS.get(key, "").split("|")), None)


def number_meant(said: str) -> int | None:
    """Return the whole number that is said in words, or stands among some, or None."""
    word = said.strip().casefold()
    if word in _NUMBERS:
        return _NUMBERS[word]
    numbers = re.findall(r"\d+", word)
    plain = len(numbers) == 1 and len(numbers[0]) < 4 and not re.search(r"[-.,/½¼¾]", word)
    if plain:
        return int(numbers[0])
    first = word.split(" ", maxsplit=1)[0]
    return _NUMBERS.get(first) if not numbers else None


def day_meant(said: str) -> dt.date | None:
    """Return the day that is written in another way and can be no other, or None."""
    text = said.strip()
    year, month, day = "", "", ""
    if found := _DAY_FIRST.fullmatch(text):
        day, month, year = found.groups()
    elif found := _MONTH_FIRST.fullmatch(text):
        month, day, year = found.groups()
    elif found := _YEAR_FIRST.fullmatch(text):
        year, month, day = found.groups()
    elif found := _YEAR_LAST.fullmatch(text):
        day, month, year = found.groups()
        if int(day) <= 12:  # then it may be the month, unless the other can't be
            day, month = month, day
            if int(day) <= 12 and day != month:
                return None
    if month.casefold() in _MONTHS.split():
        month = str(_MONTHS.split().index(month.casefold()) + 1)
    with suppress(ValueError):
        return dt.date(int(year), int(month), int(day))
    return None
