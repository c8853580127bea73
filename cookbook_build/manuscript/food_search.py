"""Foods of the table as somebody asks for them: by slips and other names, in several languages."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.foods import CONTEXT, Food, load_foods, sold_as
from cookbook_build.foods.lookup import STATES, name_words, nearest_names, normalised
from cookbook_build.manuscript.store_lines import CUTS, StoreLine, store_line
from cookbook_build.words import ENGLISH, languages, pgettext, spoken

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

SHELLED: Final = " sin cáscara"
CANNED: Final = " en conserva"
HEAD_FIRST: Final = 0.15
NO_HELP: Final = 0.6
"""A food whose names fit less than this part of what the best one does is no help."""
NO_HELP_FOR_A_SLIP: Final = 0.9
"""The same where no word was met as it was written: many words are near to a slip."""


@dataclass(frozen=True, slots=True)
class FoundFood:
    """A food that was found, its name where another language was asked, and how it is kept."""

    food: Food
    called: str  # its name in the language that found it, where that is not English
    kept: StoreLine


def tongues(asked: str) -> tuple[str, ...]:
    """Return the languages to search in: the one that was asked for, else all there are."""
    return tuple(tag for tag in languages() if asked in {"", tag})


def found_foods(words: str, tags: tuple[str, ...]) -> list[FoundFood]:
    """Return the foods with names near to these words, the nearest first."""
    table = load_foods()
    owners = _owners(tags)
    near_names = nearest_names(words, owners)
    exact = [name for name in owners if normalised(name) == normalised(words)]
    asked = set(name_words(words))
    near = sorted(
        (
            (score + _head_first(name, owners[name][1], asked, _named_last(words)), name)
            for score, name in near_names
        ),
        key=lambda pair: -pair[0],
    )
    best = near[0][0] if near else 0.0
    enough = best * (NO_HELP if best >= 1 else NO_HELP_FOR_A_SLIP)
    names = exact + [name for score, name in near if score >= enough]
    found: dict[str, FoundFood] = {}
    for food, owner in (owners[name] for name in names):
        if food.id not in found:
            in_english = ENGLISH in tags and asked <= _english_words(food)  # shiitake, in both
            tag = ENGLISH if in_english else owner
            called = name_in(food, tag)
            own = "" if tag == ENGLISH else store_name_in(called)
            found[food.id] = FoundFood(food, called, store_line(food, table, own, tag))
    return list(found.values())


def _english_words(food: Food) -> set[str]:
    return {word for name in (food.name, *food.other_names) for word in name_words(name)}


def says_all(words: str, found: Iterable[FoundFood]) -> bool:
    """Return whether one of the foods found has every word that was asked for, or none has any.

    Where none has any, the words were most likely misspelt. How it is cut is no part of a food.
    """
    asked = set(name_words(words)) - STATES - set(name_words(" ".join(CUTS)))
    names = [set(name_words(one.called)) | _english_words(one.food) for one in found]
    return any(asked <= name for name in names) or not any(asked & name for name in names)


def _named_last(words: str) -> str:
    """Return the last of several words that says no state: the garlic of `wild garlic`."""
    asked = [word for word in name_words(words) if word not in STATES]
    return asked[-1] if len(asked) > 1 else ""


def _head_first(name: str, tag: str, asked: set[str], last: str) -> float:
    """Return what a name gains that has the word which was asked for as what it names.

    `Arroz blanco` is rice, and `fideos de arroz` are noodles; in English the last word says so,
    and the state comes after it: wild garlic is nearer to garlic than to wild rice.
    """
    if tag == ENGLISH:
        return HEAD_FIRST if last and last in name_words(name) else 0.0
    return HEAD_FIRST if set(name_words(name)[:1]) & asked else 0.0


def name_in(food: Food, tag: str) -> str:
    """Return what a food is called in a language; nothing for English, which is the table's."""
    if tag == ENGLISH:
        return ""
    with spoken(tag):
        return pgettext(CONTEXT, sold_as(food)[0])


def store_name_in(called: str) -> str:
    """Return a name without its last words for a state: `lentejas` of `lentejas cocidas`."""
    words = called.removesuffix(CANNED).removesuffix(SHELLED).split()
    while len(words) > 1 and STATES & set(name_words(words[-1])):
        words.pop()
    return " ".join(words)


@functools.cache
def _owners(tags: tuple[str, ...]) -> dict[str, tuple[Food, str]]:
    """Return every name in these languages, with the food it means; a language asked first wins."""
    owners: dict[str, tuple[Food, str]] = {}
    for tag in tags:
        for food, name in _names(tag):
            owners.setdefault(name, (food, tag))
    return owners


def _names(tag: str) -> Iterator[tuple[Food, str]]:
    foods = load_foods()
    if tag == ENGLISH:
        yield from ((food, name) for food in foods for name in (food.name, *food.other_names))
        return
    with spoken(tag):
        for food in foods:
            for name in sold_as(food):
                called = pgettext(CONTEXT, name)
                yield food, called
                yield food, called.removesuffix(SHELLED)
