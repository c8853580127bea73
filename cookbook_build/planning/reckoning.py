"""The whole book reckoned: stores, pots, dishes and checklists, with their findings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.planning.checklists import Checklist, checklist
from cookbook_build.planning.dishes import Dish, dishes
from cookbook_build.planning.shelf import shelf

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.pots import Pot
    from cookbook_build.planning.stores import ShelfStore


@dataclass(frozen=True, slots=True)
class Reckoning:
    """A book with all its numbers, ready to be published."""

    book: Manuscript
    stores: Mapping[str, ShelfStore]
    pots: Mapping[str, Pot]
    dishes: Mapping[str, Dish]
    checklists: tuple[Checklist, ...]

    def meals_using(self, store: str) -> list[Dish]:
        """Return the meals in which a store is used."""
        return [
            dish
            for dish in self.dishes.values()
            if any(line.store.name == store for part in dish.parts for line in part.lines)
        ]


def reckoned(book: Manuscript, findings: Findings) -> Reckoning:
    """Return a book with all its numbers; what can't be reckoned leaves findings."""
    found = shelf(book, findings)
    pots = {address: pot for address, pot in found.pots.items() if pot is not None}
    meals = dishes(book, found.stores, findings)
    menus = tuple(
        checklist(menu, meals, pots, book.foods)
        for menu in book.menus
        if all(meal.address in meals for meal in menu.keys.meals)
    )
    return Reckoning(book, found.stores, pots, meals, menus)
