"""What if: a dish with a store left out, put in another's place, or added."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import fsum
from typing import TYPE_CHECKING

from cookbook_build.findings import Findings, Place, nearest
from cookbook_build.foods.lookup import normalised
from cookbook_build.kitchen.teaching import taught
from cookbook_build.manuscript.agreement import RAW_METHODS
from cookbook_build.manuscript.ingredients import match_store, read_ingredient
from cookbook_build.manuscript.larder import undercooked
from cookbook_build.planning.dishes import MixLine, component_of
from cookbook_build.planning.lessons import part_name
from cookbook_build.planning.stores import dry_mass, measures

if TYPE_CHECKING:
    from collections.abc import Iterable

    from cookbook_build.findings import Finding
    from cookbook_build.manuscript.ingredients import Ingredient
    from cookbook_build.planning.dishes import Dish, Part
    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.planning.stores import ShelfStore


class WhatIfError(ValueError):
    """What was asked for can't be; says why and how to ask."""


@dataclass(frozen=True, slots=True)
class Changes:
    """What to change in a dish: stores to leave out, to swap, and lines to add."""

    without: tuple[str, ...] = ()
    swaps: tuple[tuple[str, str], ...] = ()
    adds: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        """Whether anything is to be changed."""
        return bool(self.without or self.swaps or self.adds)


def changed(dish: Dish, reckoning: Reckoning, changes: Changes) -> Dish:
    """Return a dish with some changes; its free water stays as tested, learned or usual.

    Raises
    ------
    WhatIfError
        If a store is not in the dish or not in the larder, or the dish can't be made so.
    """
    lines = {part.name: list(part.lines) for part in dish.parts}
    for name in changes.without:
        _leave_out(name, lines, reckoning)
    for old, new in changes.swaps:
        _swap(old, new, lines, reckoning)
    for text in changes.adds:
        lines[dish.parts[0].name].append(_added(text, reckoning))
    parts = tuple(_part(dish, part, lines[part.name], reckoning) for part in dish.parts)
    made = replace(dish, parts=parts)
    if made.raw_stores:
        methods = tuple(method for method in dish.methods if method not in RAW_METHODS)
        if not methods:
            raise WhatIfError(
                f'"{made.raw_stores[0]}" was dried raw, and no method of this recipe cooks it'
            )
        default = dish.default_method if dish.default_method in methods else methods[0]
        made = replace(made, methods=methods, default_method=default)
    return made


def spared(dish: Dish, reckoning: Reckoning, name: str) -> Dish:
    """Return a dish without the optional lines of one store."""
    parts = tuple(
        _part(
            dish,
            part,
            [line for line in part.lines if line not in part.optional or line.store.name != name],
            reckoning,
        )
        for part in dish.parts
    )
    return replace(dish, parts=parts)


def _part(dish: Dish, part: Part, lines: list[MixLine], reckoning: Reckoning) -> Part:
    if lines == list(part.lines):
        return part
    dry = [line for line in lines if line.is_dry]
    if not fsum(line.grams for line in dry):
        raise WhatIfError(f"nothing dry is left in the {part.name.lower()} to pour water on")
    kept = [line for line in dry if not line.ingredient.optional]
    learned, name = reckoning.lessons.learned, part_name(dish, part)

    def mixed(chosen: list[MixLine]) -> Part:
        component = component_of(part.name, dish.recipe, part.text, chosen, None, borrowed=part.mix)
        return replace(part, mix=taught(name, component, learned, speaks=part.trials > 0))

    bare = None
    if len(kept) < len(dry) and any(line.grams > 0 for line in kept):
        bare = mixed(kept).mix
    return replace(part, lines=tuple(lines), mix=mixed(dry).mix, bare=bare)


def _leave_out(name: str, lines: dict[str, list[MixLine]], reckoning: Reckoning) -> None:
    key = _in_dish(name, lines, reckoning)
    for part, listed in lines.items():
        lines[part] = [line for line in listed if line.store.name != key]


def _swap(old: str, new: str, lines: dict[str, list[MixLine]], reckoning: Reckoning) -> None:
    key, store = _in_dish(old, lines, reckoning), _on_shelf(new, reckoning)
    if key == store.name:
        raise WhatIfError(f'"{old}" and "{new}" are one store; name another to put in its place')
    for part, listed in lines.items():
        lines[part] = [
            _swapped(line, store, reckoning) if line.store.name == key else line for line in listed
        ]


def _swapped(line: MixLine, store: ShelfStore, reckoning: Reckoning) -> MixLine:
    """Return a line with the same measure of another store, as that store is."""
    if not line.ingredient.amount.terms:
        raise WhatIfError(
            f'"{line.store.name}" goes in to taste, which measures nothing; leave it out with '
            f'--without, and add an amount such as --add "1 tsp {store.name}"'
        )
    fresh = not store.is_dry
    bare = replace(line.ingredient, name=store.name, weighed=None, fresh=fresh)
    return _line(bare, store, reckoning)


def _added(text: str, reckoning: Reckoning) -> MixLine:
    findings = Findings()

    def place(start: int, width: int) -> Place:
        return Place("--add", 1, start + 1, max(width, 1), text)

    read = read_ingredient(text, place, findings)
    matched = match_store(read, reckoning.book.larder.names, findings) if read else None
    if matched is None or not matched.store or findings.errors:
        raise WhatIfError(_said(findings))
    return _line(replace(matched, optional=False), _on_shelf(matched.store, reckoning), reckoning)


def _line(ingredient: Ingredient, store: ShelfStore, reckoning: Reckoning) -> MixLine:
    """Return a line weighed with its store; one that hot water can't cook is refused."""
    keys = store.store.keys
    if store.food and store.food.needs_cooking and keys.dried == "bought" and not keys.cooked_first:
        cause, mend = undercooked(store.food)
        raise WhatIfError(f"{cause}; {mend}")
    findings = Findings()
    written = replace(ingredient, store=store.name)
    grams, ml = dry_mass(written, store, measures(reckoning.book), findings)
    if findings.errors:
        raise WhatIfError(_said(findings))
    return MixLine(written, store, grams, ml)


def _in_dish(name: str, lines: dict[str, list[MixLine]], reckoning: Reckoning) -> str:
    stores = {line.store.name for listed in lines.values() for line in listed}
    key = reckoning.book.larder.names.get(normalised(name), name)
    if key not in stores:
        raise WhatIfError(_unknown(name, stores, "this recipe has no"))
    return key


def _on_shelf(name: str, reckoning: Reckoning) -> ShelfStore:
    key = reckoning.book.larder.names.get(normalised(name), name)
    store = reckoning.stores.get(key)
    if store is None:
        raise WhatIfError(_unknown(name, reckoning.stores, "the larder has no"))
    return store


def _unknown(name: str, known: Iterable[str], lacks: str) -> str:
    listed = sorted(known)
    near = nearest(name, listed)
    return f'{lacks} "{name}"; ' + (
        f'did you mean "{near}"?' if near else f"it has {', '.join(listed)}."
    )


def _said(findings: Findings) -> str:
    first: Finding = next(iter(findings))
    return f"{first.cause}; {first.mend}"
