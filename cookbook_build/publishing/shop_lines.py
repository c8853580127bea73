"""Shop lines: what a household buys, in the words of the shop."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.planning.shopping import AUTHORS
from cookbook_build.publishing.wording import grams, size_name
from cookbook_build.words import N_, _, listed, npgettext, pgettext

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from cookbook_build.planning.provisions import Provision
    from cookbook_build.planning.shopping import DryingLine, ShoppingLine

SECTIONS: Final[Mapping[str, str]] = MappingProxyType({
    "baking": N_("Baking and oils"),
    "bread": N_("Bread"),
    "dairy": N_("Dairy"),
    "eggs": N_("Eggs"),
    "fish": N_("Fish"),
    "fruit": N_("Fruit"),
    "grains": N_("Grains"),
    "herbs": N_("Herbs"),
    "meat": N_("Meat"),
    "mushrooms": N_("Mushrooms"),
    "nuts": N_("Nuts"),
    "other": N_("Other"),
    "poultry": N_("Poultry"),
    "pulses": N_("Pulses"),
    "sauces": N_("Sauces and vinegars"),
    "spices": N_("Spices"),
    "vegetables": N_("Vegetables"),
})  # fmt: skip
"""Sections of the shop; keys are the table's."""

SIZES: Final = ("small", "medium", "large")
PIECES: Final[Mapping[str, Callable[[int], str]]] = MappingProxyType({
    "bulb": lambda n: npgettext("pieces to buy", "bulb", "bulbs", n),
    "bunch": lambda n: npgettext("pieces to buy", "bunch", "bunches", n),
    "fruit without peel": lambda n: npgettext(
        "pieces to buy", "fruit without peel", "fruits without peel", n
    ),
    "head": lambda n: npgettext("pieces to buy", "head", "heads", n),
    "leaf": lambda n: npgettext("pieces to buy", "leaf", "leaves", n),
    "medium ear": lambda n: npgettext("pieces to buy", "medium ear", "medium ears", n),
    "medium head": lambda n: npgettext("pieces to buy", "medium head", "medium heads", n),
    "medium melon": lambda n: npgettext("pieces to buy", "medium melon", "medium melons", n),
    "medium stalk": lambda n: npgettext("pieces to buy", "medium stalk", "medium stalks", n),
    "pepper": lambda n: npgettext("pieces to buy", "pepper", "peppers", n),
    "radish": lambda n: npgettext("pieces to buy", "radish", "radishes", n),
    "root": lambda n: npgettext("pieces to buy", "root", "roots", n),
    "small ear": lambda n: npgettext("pieces to buy", "small ear", "small ears", n),
    "small fruit": lambda n: npgettext("pieces to buy", "small fruit", "small fruits", n),
    "stalk": lambda n: npgettext("pieces to buy", "stalk", "stalks", n),
    "stalks": lambda n: npgettext("pieces to buy", "stalk", "stalks", n),
    "sweetpotato": lambda n: npgettext("pieces to buy", "sweet potato", "sweet potatoes", n),
})  # fmt: skip
"""What whole pieces are called where the food's own name doesn't tell; keys are the table's."""


def section_name(section: str) -> str:
    """Return what a section of the shop is called."""
    return _(SECTIONS[section])


def called(line: ShoppingLine) -> str:
    """Return what a food is called in a shop; an author's name stays as it is written.

    The catalogues hold what `shop_words` says of every food of the table.
    """
    return line.name if line.food.group in AUTHORS else pgettext("food", line.name)


def bought_words(line: DryingLine) -> str:
    """Return what a store is bought as: `1.2 kg`, or the weight of its dry good."""
    food, weight = line.store.food, grams(line.bought_g)
    return _("{weight} dry").format(weight=weight) if food and food.dry_from else weight


def pieces_words(line: ShoppingLine) -> str:
    """Return how many whole pieces that is: `about 5 (medium)`; or just `5`, if that is all."""
    if line.pieces is None:
        return ""
    count, named = line.pieces
    roughly = line.bought_g > 0 and bool(named)
    about = _("about {count}").format(count=count) if roughly else f"{count}"
    size = size_words(line)
    return f"{about} ({size})" if size else about


def size_words(line: ShoppingLine) -> str:
    """Return what whole pieces are, where the food's own name doesn't tell: `medium`."""
    if line.pieces is None:
        return ""
    count, name = line.pieces
    words = [word for word in name.split() if word != "whole"]
    if not words or name == "fruit" or words[0] in line.food.name:
        return ""
    if words[-1] in SIZES:
        words.insert(0, words.pop())
    named = " ".join(words)
    return size_name(named) or PIECES[named](count)


def amount_words(line: ShoppingLine) -> str:
    """Return how much to buy: `101 g, about 1 (medium)`."""
    weight = grams(line.bought_g) if line.bought_g > 0 else ""
    return ", ".join(filter(None, [weight, pieces_words(line)])) or _("to taste")


def bought_lines(provision: Provision, *, pantry: bool) -> list[ShoppingLine]:
    """Return what is bought, apart from or among what a pantry may hold."""
    return [
        line
        for section in provision.shopping.values()
        for line in section
        if line.is_pantry is pantry
    ]


def made_into(line: ShoppingLine) -> str:
    """Return which stores it is bought for, where its own name doesn't tell.

    `for turkey braise`; where only some of it is, `of which 66 g for turkey braise`.
    """
    told = [(name, part_g) for name, part_g in line.what_for if name.split()[0] not in line.name]
    if len(line.what_for) == 1 and told:
        return _("for {store}").format(store=told[0][0])
    parts = [
        _("{weight} for {store}").format(weight=grams(part_g), store=name)
        for name, part_g in told
        if part_g > 0
    ]
    return _("of which {parts}").format(parts=listed(parts)) if parts else ""
