"""Meals of which nothing drinks, for a label that does not say what it drinks."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from cookbook_build.findings import Findings
    from cookbook_build.planning.dishes import Dish, Part
    from cookbook_build.planning.stores import ShelfStore


def check_thirst(dishes: Iterable[Dish], findings: Findings) -> None:
    """Warn of labels without a restored moisture, where all computed water hangs on them."""
    told: set[str] = set()
    for dish in dishes:
        for part in dish.parts:
            for store in _unsaid(part):
                if store.name not in told:
                    told.add(store.name)
                    _warn(store, part.name if dish.parts[1:] else dish.recipe.keys.title, findings)


def _warn(store: ShelfStore, meal: str, findings: Findings) -> None:
    findings.warning(
        store.store.places.key("label"),
        f'"{store.name}" is taken to drink no water, for its label does not say that it does, and '
        f'nothing else in "{meal}" drinks any',
        'add "restored moisture: 70 %" to its label, with the part of it that is water once it '
        "has drunk its fill (cooked rice has about 70 %, fresh mushrooms 90 %); if it drinks "
        f'none, add "restored moisture: {100 * store.moisture:.0f} %".',
    )


def _unsaid(part: Part) -> list[ShelfStore]:
    """Return the stores whose labels leave open what they drink, of a mix of which nothing does.

    What somebody made says itself how much it drinks, and a drink or a powder is stirred in.
    """
    made = part.text.tested or part.text.trials or part.trials
    dry = [line.store for line in part.lines if line.is_dry]
    drinks = any(store.restored_moisture is not None for store in dry)
    if made or drinks or part.text.consistency == "drink":
        return []
    return [store for store in dry if store.store.keys.label and not store.store.is_powder]
