"""What a meal holds, and what of it must be on the shelf before it can be made.

Water is among neither: no store is water, since the table has it for pots only.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.planning.dishes import Dish, MixLine


def held_stores(dish: Dish) -> tuple[str, ...]:
    """Return the stores of a meal, what is optional, fresh or to taste among them."""
    return tuple(sorted({line.store.name for line in _lines(dish)}))


def needed_stores(dish: Dish) -> tuple[str, ...]:
    """Return the stores that a meal can't be made without.

    What is optional may be left out, and so may what is only to taste: none of it is a taste too.
    """
    return tuple(sorted({line.store.name for line in _lines(dish) if not _may_be_left_out(line)}))


def _lines(dish: Dish) -> Iterator[MixLine]:
    for part in dish.parts:
        yield from part.lines


def _may_be_left_out(line: MixLine) -> bool:
    return line.ingredient.optional or not line.ingredient.amount.terms
