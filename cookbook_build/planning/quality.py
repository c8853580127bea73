"""How long stores and mixes stay at their best, from what they are and how they are kept."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.preserving.keeping import Part, mix_quality, quality_time
from cookbook_build.preserving.quality_bases import REFERENCE_C, Kind, Package, Way
from cookbook_build.words import N_

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from cookbook_build.foods import Food
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.dishes import MixLine
    from cookbook_build.planning.stores import ShelfStore
    from cookbook_build.preserving.keeping import MixQuality, QualityTime

KIND_OF_GROUP: Final[dict[str, Kind]] = {
    "fruit": "fruit",
    "grains": "grain",
    "bread": "grain",
    "baking": "grain",
    "nuts": "grain",
    "meat": "animal",
    "poultry": "animal",
    "fish": "animal",
    "eggs": "animal",
    "dairy": "animal",
    "base": "animal",  # what a pot holds is told by its shortest-lived kind
}
"""The kinds of the sources; what they do not name counts as the vegetables that keep shortest."""

PURE_G, PURE_MOISTURE = 0.5, 0.03
"""Food with no more protein, fat and fibre in 100 g, and no wetter, is salt or sugar: our choice.
Brown sugar has 0.12 g and 1.3 % (SR28)."""

_AIRY: Final = re.compile(
    r"\b(?:bags?|zip\w*|box(?:es)?|tubs?|tins?|papers?|buckets?|baskets?|sacks?|bins?|packets?|"
    r"bowls?|cartons?)\b"
)
"""Words for containers that keep their air, or are opened and closed; from memory."""
_SEALED: Final = re.compile(r"\b(?:pouch(?:es)?|jars?|foil|barrier)\b")
_ABSORBER: Final = re.compile(r"\b(?:absorbers?|scavengers?)\b")
_WITHOUT: Final = re.compile(r"\b(?:no|without)\b")


@dataclass(frozen=True, slots=True)
class Kept:
    """How a container keeps what is in it, and what was assumed where its name doesn't tell."""

    package: Package
    assumed: str = ""


def store_quality(
    store: ShelfStore, book: Manuscript, kept_in: Package | None = None
) -> QualityTime:
    """Return how long a store stays at its best, as it is kept or else as this household packs."""
    return quality_time(
        _kind(store.food),
        _way(store),
        kept_in or package(book),
        fat_share(store),
        shelf_c(book),
    )


def kept(container: str, book: Manuscript) -> Kept:
    """Return how a container of the stock keeps, by the words for it and by the kit.

    A pouch or a jar is sealed as this household seals, with an absorber if it has any; a bag, a
    box or a tin keeps its air; of anything else the shorter time is assumed.
    """
    words, ours = container.casefold(), package(book)
    if _ABSORBER.search(words):
        return Kept("plain" if _WITHOUT.search(words) else "absorber")
    kit = book.book.kit
    names = [pouch.name.casefold() for pouch in kit.pouches]
    names += [jar.name.casefold() for jar in kit.jars]
    named = [name for name in names if re.search(rf"(?<!\w){re.escape(name)}(?!\w)", words)]
    if _AIRY.search(words) and not any(_AIRY.search(name) for name in named):
        return Kept("plain")
    if named or _SEALED.search(words) or ours == "plain":
        return Kept(ours)
    return Kept("plain", N_("dated as a closed container with air in it"))


def lines_quality(
    lines: Iterable[tuple[MixLine, float]], book: Manuscript, way: Package | None = None
) -> MixQuality:
    """Return how long a dry mix stays at its best, and which of its stores sets that."""
    parts: Sequence[Part] = [
        Part(
            line.store.name,
            grams,
            fat_share(line.store),
            _kind(line.store.food),
            _way(line.store),
        )
        for line, grams in lines
        if grams > 0
    ]
    return mix_quality(parts, way or package(book), shelf_c(book))


def package(book: Manuscript) -> Package:
    """Return how this household keeps what it dried: with absorbers, where it has any."""
    return "absorber" if book.book.kit.absorbers else "plain"


def shelf_c(book: Manuscript) -> float:
    """Return the temperature of this household's shelf [°C]."""
    given = book.book.kit.shelf.temperature
    return given.si if given else REFERENCE_C


def fat_share(store: ShelfStore) -> float:
    """Return the fat in a store's dry matter."""
    food = store.food
    if food is None or food.moisture >= 1:
        return 0.0
    return min(food.fat_g / (100 * (1 - food.moisture)), 1.0)


def _kind(food: Food | None) -> Kind:
    if food is None:
        return "animal"
    if "apricot" in food.name:
        return "apricots"
    matter_g = food.protein_g + food.fat_g + (food.fibre_g or 0.0)
    if matter_g <= PURE_G and food.moisture <= PURE_MOISTURE:
        return "salt or sugar"
    return KIND_OF_GROUP.get(food.group, "vegetable")


def _way(store: ShelfStore) -> Way:
    match store.store.keys.dried:
        case "freeze" | "air" as dried:
            return dried
        case _:
            return "bought"
