"""How long stores and mixes stay at their best, from what they are and how they are kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from cookbook_build.preserving.keeping import Part, mix_quality, quality_time
from cookbook_build.preserving.quality_bases import REFERENCE_C, Kind, Package, Way

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


def store_quality(store: ShelfStore, book: Manuscript) -> QualityTime:
    """Return how long a store stays at its best, packed as this household packs."""
    return quality_time(
        _kind(store.food), _way(store), package(book), fat_share(store), shelf_c(book)
    )


def lines_quality(lines: Iterable[tuple[MixLine, float]], book: Manuscript) -> MixQuality:
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
    return mix_quality(parts, package(book), shelf_c(book))


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
    return KIND_OF_GROUP.get(food.group, "vegetable")


def _way(store: ShelfStore) -> Way:
    match store.store.keys.dried:
        case "freeze" | "air" as dried:
            return dried
        case _:
            return "bought"
