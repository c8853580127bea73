"""The keys of a menu, explained."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.explaining.explained import Explained
from cookbook_build.explaining.recipes import METHODS
from cookbook_build.manuscript.schema import MealKeys, MenuKeys

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.explaining.explained import Group
    from cookbook_build.manuscript.schema import Matter

_MENU: Final[Group] = {
    "title": Explained("The name of the menu.", example="Midsummer paddle"),
    "people": Explained("How many people eat.", example="3"),
    "appetites": Explained(
        "How many servings each of them eats: one number for each.",
        "Each eats one.",
        example="[1, 1, 1 1/2]",
    ),
    "date": Explained(
        "Its first day. It decides which lots of the shelf are still good then.",
        "It is planned after the menus that have one.",
        example="2026-06-20",
    ),
    "packed": Explained(
        "The day on which its mixes are packed, for the labels.",
        "The labels have a line to write it on.",
        example="2026-06-12",
    ),
    "about": Explained(
        "A sentence or two that open its page.",
        "Its page opens with the title only.",
        example="Two nights and three days, down to the weir.",
    ),
    "meals": Explained(
        "What is eaten, in order, one entry a meal.",
        example="\n  - {day: 1, meal: supper, recipe: barley-and-leek-supper}",
    ),
}

_MEAL: Final[Group] = {
    "day": Explained("On which day; the first is 1.", example="1"),
    "meal": Explained("Which meal of the day it is, in your words.", example="supper"),
    "recipe": Explained(
        "The recipe, by the name of its file.", example="barley-and-leek-supper"
    ),
    "servings": Explained(
        "How many servings are made.",
        "One for each of the people, or as many as their appetites add up to.",
        example="3",
    ),
    "method": Explained(
        "How it is made ready.",
        "The way it was tested in, else the first of its ways.",
        example="stove",
        choices=METHODS,
    ),
    "altitude": Explained(
        "How high up it is eaten.", "As high as your kitchen.", example="450 m"
    ),
}  # fmt: skip

MENU: Final[Mapping[type[Matter], Group]] = MappingProxyType({MenuKeys: _MENU, MealKeys: _MEAL})
