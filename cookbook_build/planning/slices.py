"""Slices: of a whole book's reckoning what the pages of one meal hang on, and nothing else.

What is made of a slice can be kept by the slice's digest: nothing else of the book was in reach.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.checking import Places
from cookbook_build.manuscript.larder import Larder
from cookbook_build.manuscript.nodes import Keys
from cookbook_build.manuscript.source import Source
from cookbook_build.planning.lessons import Lessons, part_name
from cookbook_build.planning.lots import Reserves

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.planning.dishes import Dish
    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.planning.stores import ShelfStore

NOWHERE: Final = Places(Keys(Source.of("", ""), 1, 1, 1))
"""Where keys stand is for findings; a slice does not know it, so a line more moves no page."""


def slice_of(reckoning: Reckoning, dish: Dish) -> Reckoning:
    """Return the reckoning of a meal alone."""
    book, recipe = reckoning.book, dish.recipe
    stores = {line.store.name: line.store for part in dish.parts for line in part.lines}
    return replace(
        reckoning,
        book=replace(
            book,
            folder=Path(),
            larder=Larder({name: store.store for name, store in stores.items()}, {}, set()),
            recipes={recipe.address: recipe},
            menus=(), pages=(), images=(), places=NOWHERE, replies=(), stock=(), log=(),
            pictures=(), theme=None, today=None,
        ),
        stores=stores,
        pots={},
        dishes={recipe.address: dish},
        lessons=_lessons_of(reckoning.lessons, dish, stores),
        lots={name: reckoning.lots[name] for name in stores if name in reckoning.lots},
        reserves=Reserves({}),
        provisions=(),
    )  # fmt: skip


def _lessons_of(lessons: Lessons, dish: Dish, stores: Mapping[str, ShelfStore]) -> Lessons:
    """Return what the book learned of a dish: its own trials, and what all say of its stores."""
    own = [part_name(dish, part) for part in dish.parts]
    taught = {*stores, *(f":{part.mix.consistency.name}" for part in dish.parts)}
    records = tuple(record for name in own for record in lessons.all_of(name))
    return Lessons(records, lessons.learned.only(taught, own), lessons.whole)
