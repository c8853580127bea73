"""The keys above the text of a recipe or a page, explained."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.explaining.explained import Explained
from cookbook_build.manuscript.meanings import CONSISTENCY_WORDS
from cookbook_build.manuscript.schema import (
    ComponentKeys,
    PageKeys,
    RecipeKeys,
    TestedKeys,
    TrialKeys,
)
from cookbook_build.manuscript.tags import BREAK, TAGS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.explaining.explained import Group
    from cookbook_build.manuscript.schema import Matter

METHODS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "kettle": "boiling water, poured over it in a bowl",
        "microwave": "cold water, and both heated in the oven",
        "stove": "cold water in a pot, brought to the boil and simmered",
        "jar": "boiling water, and hours in an insulated jar",
        "cold": "cold water, and a long soak",
    }
)
_RECIPE: Final[Group] = {
    "title": Explained("The name of the recipe.", example="Barley and leek supper"),
    "kind": Explained(
        "What becomes of it.",
        choices={
            "meal": "mixed dry, and eaten after adding water",
            "base": "cooked fresh and dried, and then used as a store",
        },
    ),
    "series": Explained(
        "The series it belongs to, as `book.yaml` names it.",
        "It stands by itself, after the series.",
        example="Riverbank suppers",
    ),
    "part": Explained(
        "Its place in the series.", "It comes after those that have one.", example="2"
    ),
    "serves": Explained("How many servings the amounts below are for."),
    "makes": Explained(
        "What the servings make, where that can be counted.",
        "Only servings are named.",
        example="2 filled oatcakes",
    ),
    "consistency": Explained(
        "How stiff it is meant to be. It says how much water an untested meal gets beyond what "
        "its stores drink.",
        example="stew",
        choices=CONSISTENCY_WORDS,
    ),
    "methods": Explained(
        "The ways in which it can be made ready, the usual one first.",
        "All ways are shown that suit its stores; a jar only where your kit has one.",
        example="[kettle, stove]",
        choices=METHODS,
    ),
    "ingredients": Explained(
        "What goes in, a line each: amount, store, and what is done to it. `(optional)`, "
        "`(fresh)` and `(per pot)` may follow. In a base they are what you buy.",
        "All of it stands in its components.",
        example="\n  - 1 cup lentils\n  - 3 tbsp leeks, cut small\n  - 1/8 tsp salt",
    ),
    "tested": Explained(
        "What you really did, once it was right. It anchors every number of the page.",
        "The page gives an honest estimate, and says so.",
        example="{method: kettle, water: 3/4 cup + 1 tbsp, rest: 12 min}",
    ),
    "trials": Explained(
        "Each time that you made it, the failures too. The book learns from them.",
        "The book learns nothing from this recipe.",
        example="\n  - {date: 2026-03-02, water: 3/4 cup, verdict: thick, added: 1 tbsp}",
    ),
    "components": Explained(
        "Parts with water of their own, such as a topping that is stirred apart.",
        "It is all one.",
        example="\n  - {name: Pear relish, ingredients: [3 tbsp pears]}",
    ),
    "blurb": Explained(
        "A sentence that makes one hungry, for the contents and the finder.",
        "It stands there with its name only.",
        example="Thick, green, and warm to the toes.",
    ),
    "date": Explained(
        "The day it was first published. It stands in the feed of new recipes.",
        "It is not in the feed.",
    ),
    "picture": Explained(
        "The picture above it: a file in the folder `images`.",
        "It has none.",
        example="bowl.svg",
    ),
    "picture text": Explained(
        "What the picture shows, for those who can't see it.",
        "A picture without it is a warning.",
        example="A bowl by the fire",
    ),
    "cooked weight": Explained(
        "Of a base: what all of it weighs when it is cooked, without the pot.",
        "It is reckoned as if nothing had boiled off, and the page says so.",
        example="2150 g",
    ),
    "becomes": Explained(
        "Of a base: the store of `larder.yaml` that it becomes.",
        "The store alone says it, with `from`.",
        example="orchard sauce",
    ),
}  # fmt: skip

_TESTED: Final[Group] = {
    "method": Explained("How you made it ready.", choices=METHODS),
    "water": Explained("All the water that it took, measured."),
    "rest": Explained(
        "How long it stood until it was soft.",
        "Ten minutes are taken, or five for what is mostly powder or crumbs.",
    ),
    "servings": Explained("How many servings you made.", "As many as it `serves`.", example="1"),
    "altitude": Explained(
        "How high up you were.", "You were in your own kitchen.", example="2400 m"
    ),
    "water temperature": Explained(
        "Of a cold soak: how warm the water was.", usual="15 C", example="15 C"
    ),
}

_TRIAL: Final[Group] = {
    "date": Explained("The day you made it."),
    "method": Explained("How you made it ready.", choices=METHODS),
    "servings": Explained("How many servings you made.", "As many as it `serves`.", example="2"),
    "water": Explained("The water that you poured at first.", example="1 1/2 cups"),
    "verdict": Explained(
        "How it was with that water.",
        example="thick",
        choices={"right": "as you like it", "thick": "too thick", "thin": "too thin"},
    ),
    "added": Explained(
        "Where it was too thick: the water added until it was right.",
        "Only that it was too thick is known, which teaches less.",
        example="2 tbsp",
    ),
    "altitude": Explained(
        "How high up you were.", "You were in your own kitchen.", example="2400 m"
    ),
    "rest": Explained(
        "How long it stood.", "As long as the book says for that way.", example="12 min"
    ),
    "by": Explained("Who made it.", "It was you.", example="Mirela"),
    "note": Explained(
        "What else you want to keep of that day.",
        "The page shows the trial without.",
        example="Windy, and the lid was off.",
    ),
}

_COMPONENT: Final[Group] = {
    "name": Explained(
        "What this part is called. In the text, `{water: Pear relish}` is its water.",
        example="Pear relish",
    ),
    "ingredients": Explained(
        "What goes into this part, a line each.",
        example="\n  - 3 tbsp pears\n  - 1 pinch ginger",
    ),
    "cold": Explained(
        "Whether this part is made with cold water, whatever the way of the meal.",
        "Its water is as hot as the meal's.",
        example="yes",
    ),
    "consistency": Explained(
        "How stiff this part is meant to be.",
        "As the recipe itself is.",
        example="spread",
        choices=CONSISTENCY_WORDS,
    ),
    "tested": Explained(
        "What you really did with this part.",
        "Its water is an estimate.",
        example="{water: 2 tbsp, rest: 7 min}",
    ),
    "trials": Explained(
        "Each time that you made this part.",
        "The book learns nothing from this part.",
        example="\n  - {date: 2026-03-02, water: 2 tbsp, verdict: right}",
    ),
}

_PAGE: Final[Group] = {
    "title": Explained("The name of the page.", example="How we dry"),
    "order": Explained(
        "Its place among the free pages; smaller numbers come first.", example="2"
    ),
    "html": Explained(
        "Whether a few tags of HTML are read in its text, for what Markdown has no sign: "
        f"{', '.join(f'`<{tag}>`' for tag in TAGS)}, each with its end, and `<{BREAK}>`. Nothing "
        "else may stand in a tag.",
        "All HTML stays text.",
        example="yes",
    ),
    "picture": Explained(
        "The picture above it: a file in the folder `images`.", "It has none.", example="racks.jpg"
    ),
    "picture text": Explained(
        "What the picture shows, for those who can't see it.",
        "A picture without it is a warning.",
        example="Apple rings on a rack",
    ),
}  # fmt: skip

RECIPE: Final[Mapping[type[Matter], Group]] = MappingProxyType(
    {RecipeKeys: _RECIPE, TestedKeys: _TESTED, TrialKeys: _TRIAL, ComponentKeys: _COMPONENT}
)
PAGE: Final[Mapping[type[Matter], Group]] = MappingProxyType({PageKeys: _PAGE})
