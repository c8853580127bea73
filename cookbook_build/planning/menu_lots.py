"""A menu and its lots: what its turn on the shelf is, what it left there, and whose date binds."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING

from cookbook_build.planning.lots import Turn
from cookbook_build.planning.packs import part_lines
from cookbook_build.preserving.keeping import TRACE, best_by

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.menus import Menu
    from cookbook_build.planning.lots import Reckoned, Reserves, Taken
    from cookbook_build.planning.packs import Pack
    from cookbook_build.planning.provisions import NeedLine, Provision


def last_day(menu: Menu) -> dt.date | None:
    """Return the day on which the last meal of a menu is eaten."""
    return _eaten(menu, max(meal.day for meal in menu.keys.meals))


def is_over(menu: Menu, day: dt.date | None) -> bool:
    """Whether a menu was eaten before a day."""
    last = last_day(menu)
    return last is not None and day is not None and last < day


def menu_turn(menu: Menu) -> Turn:
    """Return when a menu takes from the shelf."""
    keys = menu.keys
    return Turn(keys.title, keys.packed or keys.date, last_day(menu), keys.date is not None)


def _eaten(menu: Menu, day: int) -> dt.date | None:
    first = menu.keys.date
    if first is None or (dt.date.max - first).days < day:
        return None
    return first + dt.timedelta(days=day - 1)


def with_lots(
    provision: Provision, shelf: Reserves, day: dt.date | None, findings: Findings
) -> Provision:
    """Return a menu with what it left on the shelf, and packs that do not outlive their lots."""
    needs = tuple(
        replace(line, left=tuple(shelf.passed.get(line.store.name, ())))
        for line in _noted(provision, day)
    )
    until = {
        line.store.name: min(taken.lot.best_by for taken in line.taken)
        for line in needs
        if line.taken
    }
    found = replace(
        provision, needs=needs, packs=tuple(_dated(pack, until, day) for pack in provision.packs)
    )
    if not is_over(found.menu, day):
        for line in needs:
            _warn_of_days(line, found.menu, findings)
    _check_packs(found, findings)
    return found


def _noted(provision: Provision, day: dt.date | None) -> tuple[NeedLine, ...]:
    """Return what a menu takes; without a date, its soonest lot says what day that goes by.

    Nobody knows when such a menu is eaten: what it takes may be past its best by then.
    """
    turn = menu_turn(provision.menu)
    last = turn.reckoned_to(day)
    soonest = min(
        (taken.lot.best_by for line in provision.needs for taken in line.taken), default=None
    )
    if turn.is_dated or last is None or soonest is None:
        return provision.needs
    reckoned = turn.reckoned(last)
    return tuple(
        replace(line, taken=tuple(_reckoned(taken, reckoned, soonest) for taken in line.taken))
        for line in provision.needs
    )


def _reckoned(taken: Taken, reckoned: Reckoned, soonest: dt.date) -> Taken:
    return replace(taken, reckoned=reckoned) if taken.lot.best_by == soonest else taken


def _dated(pack: Pack, until: Mapping[str, dt.date], day: dt.date | None) -> Pack:
    """Return a pack that is best by the earliest of its own date and those of its lots.

    A pack whose day nobody wrote has no date of its own; but packed on the book's newest day or
    later, it can't be best longer than a lot that runs out before such a pack would.
    """
    dry = part_lines(pack.plate.dish, pack.part, pack.plate.servings)
    names = {line.store.name for line, grams in dry if grams > TRACE * pack.dry_g}
    lots = min((until[name] for name in names if name in until), default=None)
    if lots is None:
        return pack
    if pack.best_by is not None:
        return replace(pack, best_by=min(pack.best_by, lots))
    if day is not None and lots <= best_by(day, pack.quality.keeps.months):
        return replace(pack, best_by=lots)
    return pack


def _warn_of_days(line: NeedLine, menu: Menu, findings: Findings) -> None:
    """Warn of lots whose days keep them from a menu that is short of them."""
    if line.short_g <= 0 or menu.keys.date is None:
        return
    for left in line.left:
        lot = left.lot
        named = f"lot {lot.name} of {lot.store}"
        if left.why == "past its best":
            findings.warning(
                lot.place,
                f'{named} is at its best until {lot.best_by}, and "{menu.keys.title}" is eaten '
                f"until {last_day(menu)}",
                "eat it before, or mend the day; the menu does not count on it.",
            )
        elif left.why == "packed later":
            packed = menu.keys.packed or menu.keys.date
            findings.warning(
                lot.place,
                f'{named} was packed on {lot.packed}, and the mixes of "{menu.keys.title}" are '
                f"packed on {packed}",
                f'write "packed: {lot.packed}" or a later day into the menu, or mend the day here; '
                "the menu does not count on it.",
            )


def _check_packs(provision: Provision, findings: Findings) -> None:
    """Warn of mixes that are past their best on the day they are eaten."""
    menu = provision.menu
    late: dict[str, list[tuple[Pack, dt.date]]] = defaultdict(list)
    for pack in provision.packs:
        eaten = _eaten(menu, pack.plate.day)
        if pack.packed and pack.best_by and eaten and pack.best_by < eaten:
            late[pack.plate.dish.recipe.keys.title].append((pack, eaten))
    if not late:
        return
    pack, eaten = next(iter(late.values()))[0]
    findings.warning(
        menu.places.of("packed"),
        f"packed on {pack.packed}, {_named(late)} is at its best until {pack.best_by}, and is "
        f"eaten on {eaten}",
        "pack it later, or keep it colder; it is a date of quality.",
    )


def _named(titles: Iterable[str]) -> str:
    first, *others = titles
    return f'"{first}"' + (f" and {len(others)} more" if others else "")
