"""The packing card: what each mix goes into, what keeps it, and for how long."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.measures.spoons import friendly
from cookbook_build.planning.packs import part_lines, part_packing
from cookbook_build.planning.quality import lines_quality, package, shelf_c
from cookbook_build.planning.stores import measures
from cookbook_build.publishing.provisioning import packing_words
from cookbook_build.publishing.tables import SizeGroup, SizeRow, SizeTable, size_row
from cookbook_build.publishing.wording import degrees, grams, number_of

if TYPE_CHECKING:
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.dishes import Dish, Part


@dataclass(frozen=True, slots=True)
class KeepingView:
    """The packing card of a dish."""

    table: SizeTable
    notes: tuple[str, ...]


def keeping_view(dish: Dish, book: Manuscript, sizes: tuple[int, ...]) -> KeepingView:
    """Return the packing card of a dish."""
    several = len(dish.parts) > 1
    groups = tuple(
        SizeGroup(part.name if several else "", _rows(dish, part, book, sizes))
        for part in dish.parts
    )
    notes = [_quality_words(dish, part, book) for part in dish.parts]
    sealed = package(book) == "absorber"
    notes.append(
        ("With an absorber, and" if sealed else "In a closed jar or bag,")
        + f" at {degrees(shelf_c(book))}, dark and dry. A date of quality, not of safety."
        + (
            " An absorber goes only with what is dry right through; a jar with an absorber is "
            "not canning."
            if sealed
            else ""
        )
    )
    return KeepingView(SizeTable("One pack a meal", "", "", (), groups), tuple(notes))


def _rows(dish: Dish, part: Part, book: Manuscript, sizes: tuple[int, ...]) -> tuple[SizeRow, ...]:
    dry = {size: dish.part_dry(part, size) for size in sizes}
    system = measures(book).system
    rows = [
        size_row("Dry mix", {size: (grams(mass),) for size, (mass, _) in dry.items()}),
        size_row(
            "Takes up",
            {size: (str(friendly(volume, system)),) for size, (_, volume) in dry.items()},
        ),
    ]
    packed = {
        size: part_packing(part_lines(dish, part, size), volume, dish, book)
        for size, (_, volume) in dry.items()
    }
    into = {size: (packing_words(found),) for size, found in packed.items() if found}
    return (*rows, size_row("Goes into", into)) if into else tuple(rows)


def _quality_words(dish: Dish, part: Part, book: Manuscript) -> str:
    quality = lines_quality(part_lines(dish, part, dish.recipe.keys.serves), book)
    keeps = quality.keeps
    name = f"{part.name}: best" if len(dish.parts) > 1 else "Best"
    return (
        f"{name} within {number_of(int(keeps.months), 'month')} of packing (between "
        f"{keeps.low:.0f} and {keeps.high:.0f}); {quality.shortest} sets that."
    )
