"""The dry mix of a component as a table: each ingredient at every serving size."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from cookbook_build.measures.spoons import friendly
from cookbook_build.planning.stores import measures
from cookbook_build.publishing.wording import amount_text, grams, part_title
from cookbook_build.words import _

if TYPE_CHECKING:
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.dishes import Dish, MixLine, Part


@dataclass(frozen=True, slots=True)
class MixCell:
    """How much of an ingredient at one serving size."""

    servings: int
    amount: str
    grams: str


@dataclass(frozen=True, slots=True)
class MixRow:
    """One ingredient with its amounts at every serving size."""

    name: str
    store: str
    preparation: str
    note: str
    optional: bool
    fresh: bool
    per_pot: bool
    cells: tuple[MixCell, ...]

    @property
    def marks(self) -> tuple[str, ...]:
        """The words that are set beside its name."""
        marks = (
            (_("optional"), self.optional),
            (_("fresh"), self.fresh),
            (_("per pot"), self.per_pot),
        )
        return tuple(word for word, is_so in marks if is_so)


@dataclass(frozen=True, slots=True)
class MixView:
    """The ingredients of one component."""

    name: str
    rows: tuple[MixRow, ...]
    totals: tuple[MixCell, ...]


def mix_view(part: Part, dish: Dish, book: Manuscript, sizes: tuple[int, ...]) -> MixView:
    """Return the ingredients of a component, and their totals."""
    rows = tuple(_mix_row(line, dish, book, sizes) for line in part.lines)
    totals = []
    for size in sizes:
        mass, volume = dish.part_dry(part, size)
        totals.append(MixCell(size, str(friendly(volume, measures(book).system)), grams(mass)))
    return MixView(part_title(part.name), rows, tuple(totals))


def _mix_row(line: MixLine, dish: Dish, book: Manuscript, sizes: tuple[int, ...]) -> MixRow:
    written = line.ingredient
    own = dish.recipe.keys.serves
    cells = tuple(
        MixCell(
            size,
            amount_text(written, Fraction(size, own), measures(book)),
            grams(line.grams * dish.times(line, size)) if line.grams and line.is_dry else "",
        )
        for size in sizes
    )
    return MixRow(
        name=written.name,
        store=line.store.name,
        preparation=written.preparation,
        note=written.note,
        optional=written.optional,
        fresh=not line.is_dry,
        per_pot=written.per_pot,
        cells=cells,
    )
