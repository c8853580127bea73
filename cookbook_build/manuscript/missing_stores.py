"""What to write where a line names a store that the larder lacks."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import nearest, one_of
from cookbook_build.foods.lookup import name_words, normalised
from cookbook_build.manuscript.larder import cooked_counterpart
from cookbook_build.manuscript.pasted_lines import LONGEST, is_water, parted
from cookbook_build.manuscript.store_lines import store_line

if TYPE_CHECKING:
    from collections.abc import Iterable

    from cookbook_build.foods import Food, FoodTable
    from cookbook_build.manuscript.larder import Larder

A_SLIP: Final = 0.8  # how alike a name is to a store's, when the name is a food's as well


def missing_mend(name: str, larder: Larder, tables: Iterable[FoodTable]) -> str:
    """Return the mend for a name that finds no store: a store to write, or a line to add.

    A name that is a food's own is offered the stores of that food before one that is spelt alike.
    """
    if is_water(name):
        return "delete the line: the book says how much to pour; what you poured goes into tested."
    joined = parted(name)
    if len(joined) > 1 and any(normalised(one) in larder.names for one in joined):
        return f"write each on a line of its own: {' and '.join(joined)}."
    listed = list(tables) if len(name) <= LONGEST else []
    found = next(((food, table) for table in listed if (food := named(name, table))), None)
    near = nearest(name, [*larder.names.values(), *larder.names], A_SLIP if found else 0.6)
    shown = larder.names.get(near, near) if near else None
    if shown:
        return f'write "{shown}", or add "{name}" to larder.yaml.'
    if found is None:
        return f'add "{name}" to larder.yaml; "cookbook-build foods {_asked(name)}" shows how.'
    food, table = found
    kin = {food.id, *(other.id for other in (cooked_counterpart(food, table),) if other)}
    same = [store.name for store in larder.stores.values() if store.food and store.food.id in kin]
    line = _line(name, food, table)
    if same:
        stores = one_of(f'"{store}"' for store in same)
        return f"write {stores}, or add a line to larder.yaml, such as {line}."
    return f"add a line to larder.yaml, such as {line}."


def named(name: str, table: FoodTable) -> Food | None:
    """Return the food that a cook means by a name: its own, or the first that says all of it."""
    found = table.find(name) or table.find(f"{name} raw")
    if found:
        return found
    words = set(name_words(name))
    close = (food for food in table.nearest(name, 4) for each in food.names if words <= _all(each))
    return next(close, None) if words else None


def _all(name: str) -> set[str]:
    return set(name_words(name))


def _line(name: str, food: Food, table: FoodTable) -> str:
    """Return a line of larder.yaml that keeps a food, cooked where the table has it cooked."""
    kept = store_line(cooked_counterpart(food, table) or food, table, name.casefold())
    raw = "raw: true" in kept.line and kept.cautions
    return f"{kept.line}; mind: {kept.cautions[0].rstrip('.')}" if raw else kept.line


def _asked(name: str) -> str:
    """Return the words of a name as they are typed behind a command."""
    head = re.split(r"[,;:(]", name, maxsplit=1)[0]
    return " ".join(re.findall(r"[^\W\d_]{3,}", head)[:3]) or "leeks"
