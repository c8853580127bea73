"""By what some values are told where something is kept by a digest of all it was made from."""

from __future__ import annotations

from dataclasses import fields
from operator import attrgetter
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.findings import Place
from cookbook_build.foods.table import FoodTable
from cookbook_build.kitchen.beliefs import Learned, Own
from cookbook_build.manuscript.checking import Places
from cookbook_build.manuscript.larder import Store
from cookbook_build.manuscript.recipes import Recipe
from cookbook_build.planning.dishes import Dish, MixLine, Part
from cookbook_build.planning.lots import Reserves

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping


def _all_but(kind: Any, *names: str) -> Callable[[Any], Any]:  # noqa: ANN401 - a dataclass
    """Return what gives all fields of a value but some."""
    return attrgetter(*(field.name for field in fields(kind) if field.name not in names))


_OF_DISH: Final = _all_but(Dish, "parts")
_OF_PART: Final = _all_but(Part, "text", "lines")
_OF_LINE: Final = _all_but(MixLine, "ingredient")


def _dish(dish: Dish) -> tuple[Any, ...]:
    parts = ((_OF_PART(part), *map(_OF_LINE, part.lines)) for part in dish.parts)
    return _OF_DISH(dish), *parts


STANDS_FOR: Final[Mapping[type, Callable[[Any], Any]]] = {
    Dish: _dish,
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

A recipe is told by its file, and so are the texts of a dish's parts and lines; what its lines
were matched with are the stores there.
"""
