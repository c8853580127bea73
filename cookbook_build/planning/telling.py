"""By what some values are told where something is kept by a digest of all it was made from."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from cookbook_build.findings import Place
from cookbook_build.foods.table import FoodTable
from cookbook_build.kitchen.beliefs import Learned, Own
from cookbook_build.manuscript.checking import Places
from cookbook_build.manuscript.larder import Store
from cookbook_build.manuscript.recipes import Recipe
from cookbook_build.planning.lots import Reserves

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

STANDS_FOR: Final[Mapping[type, Callable[[Any], Any]]] = {
    Recipe: lambda recipe: (recipe.path, recipe.body.source.text),
    Store: lambda store: (store.name, store.keys, store.food, store.base),
    Place: lambda _place: (),
    Places: lambda _places: (),
    FoodTable: lambda _foods: (),  # the program's own, in the book's language
    Reserves: lambda _reserves: (),
    Learned: lambda learned: (
        learned.names,
        *(array.tolist() for array in (learned.prior, learned.mean, learned.covariance)),
        learned.own,
    ),
    Own: lambda own: (own.mean, own.variance, own.hangs.tolist()),
}
"""By what some values are told.

A recipe is told by its file; what its lines were matched with stands in the lines of its dish.
"""
