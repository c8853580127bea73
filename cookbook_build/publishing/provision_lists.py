"""A menu provided for, as lines for a terminal and as rows for a spreadsheet."""

from __future__ import annotations

import csv
import io
import textwrap
from typing import TYPE_CHECKING, Final

from cookbook_build.publishing.lot_words import taken_note
from cookbook_build.publishing.provisioning import (
    DEFER,
    ENERGY_NOTE,
    RAW_HEED,
    air_heed,
    air_words,
    best_words,
    container_words,
    lack_words,
    left_words,
    loads_words,
    mix_words,
    on_average,
    raw_words,
    run_words,
    servings_words,
    summary,
    tray_words,
    unsuited_words,
)
from cookbook_build.publishing.shop_lines import (
    amount_words,
    bought_lines,
    bought_words,
    made_into,
    size_words,
)
from cookbook_build.publishing.wording import NBSP, dried_name, fuel_word, grams

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from cookbook_build.planning.packs import Pack
    from cookbook_build.planning.provisions import DayLoad, Lack, Provision
    from cookbook_build.planning.shopping import DryingLine, ShoppingLine

COLUMNS: Final = 78
"""Letters in a line of a terminal, with two to spare."""

GUARD: Final = "'"
"""Set before a cell that a spreadsheet would take for a formula."""
_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠")

HEADS: Final = ("what", "name", "grams", "pieces", "note")


def provision_lines(provision: Provision) -> list[str]:
    """Return a menu provided for as a household reads it on a terminal, no line too long for it."""
    blocks: dict[str, list[str]] = {
        "From the shelf": _shelf(provision),
        "On the shelf, and not counted on": left_words(provision),
        "To dry": [*map(_dried, provision.drying)],
        "Loads": _loads(provision),
        "In the air or a warm oven": _air(provision),
        "To buy": [*map(_bought, bought_lines(provision, pantry=False))],
        "Dry goods, if the pantry has none": [*map(_bought, bought_lines(provision, pantry=True))],
        "To pack": _packs(provision),
        "To carry": _carried(provision),
    }
    lines = [
        *_wrapped(f"{provision.menu.keys.title}: {summary(provision)}", ""),
        *_wrapped(servings_words(provision), ""),
    ]
    for title, listed in blocks.items():
        if listed:
            lines += ["", title]
            for line in listed:
                lines += _wrapped(line, "  ")
    return [*lines, "", *_wrapped(DEFER, "")]


def _wrapped(line: str, indent: str) -> list[str]:
    """Return a line as lines of a terminal; a number stays with its unit."""
    broken = textwrap.wrap(
        line,
        COLUMNS,
        initial_indent=indent,
        subsequent_indent=indent + "  ",
        break_on_hyphens=False,
    )
    return [part.replace(NBSP, " ") for part in broken]


def _shelf(provision: Provision) -> list[str]:
    return [
        f"{line.store.name}: {grams(taken.grams)} of lot {taken.lot.name}, best by "
        f"{taken.lot.best_by}" + (f"; {note}" if (note := taken_note(taken)) else "")
        for line in provision.needs
        for taken in line.taken
    ] + [f"{name}: to taste" for name in provision.shelf_to_taste]


def _dried(line: DryingLine) -> str:
    return (
        f"{line.store.name}: {grams(line.dried_g)} dried, {grams(line.prepared_g)} prepared, "
        f"{bought_words(line)} bought" + ("; takes no tray" if line.unsuited else "")
    )


def _loads(provision: Provision) -> list[str]:
    loading = provision.loading
    lines = [loads_words(loading)] if loading.loads else []
    lines += _lack(provision, "dryer")
    for number, timed in enumerate(loading.loads, 1):
        lines.append(f"load {number}: {run_words(timed.run)}")
        lines += [
            f"  tray {at}: {tray_words(tray.batch)}, {grams(tray.prepared_g)} in, "
            f"done at {grams(tray.done_g)}"
            for at, tray in enumerate(timed.load.trays, 1)
        ]
    left_out = "; ".join(map(unsuited_words, loading.unsuited))
    return [*lines, f"left out: {left_out}"] if left_out else lines


def _air(provision: Provision) -> list[str]:
    loading = provision.loading
    if loading.air_run is None:
        return []
    return [
        run_words(loading.air_run),
        *(
            f"{air_words(line)}: {grams(line.prepared_g)} in, done at {grams(line.dried_g)}"
            for line in loading.air
        ),
        *filter(None, [air_heed(provision)]),
    ]


def _bought(line: ShoppingLine) -> str:
    made = made_into(line)
    return f"{line.name}: {amount_words(line)}" + (f", {made}" if made else "")


def _packs(provision: Provision) -> list[str]:
    lines = [_packed(pack) for pack in provision.packs]
    if any(pack.raw_stores for pack in provision.packs):
        lines.append(RAW_HEED)
    return [*lines, *_lack(provision, "containers"), *_lack(provision, "absorbers")]


def _packed(pack: Pack) -> str:
    day = f"day {pack.plate.day} {pack.plate.meal}: {mix_words(pack)}, {grams(pack.dry_g)}"
    return "; ".join(filter(None, [day, container_words(pack), best_words(pack), raw_words(pack)]))


def _carried(provision: Provision) -> list[str]:
    weight_g, energy_kcal = provision.each_day
    whose = "an average" if on_average(provision) else "a"
    return [
        *(f"day {day.day}: {_load(day, provision)}" for day in provision.days),
        f"together: {_load(provision.together, provision)}",
        f"{whose} person a day: {grams(weight_g)} of food, {energy_kcal:.0f}{NBSP}kcal",
        ENERGY_NOTE,
    ]


def _load(day: DayLoad, provision: Provision) -> str:
    fuel = fuel_word(provision.fuel)
    each = "a person on average" if on_average(provision) else "each person"
    return (
        f"{day.water_l:.1f}{NBSP}L of water, {grams(day.fuel_up_g)} of {fuel}; "
        f"{each} {grams(day.carried_each_g)} of food, "
        f"{day.energy_each_kcal:.0f}{NBSP}kcal"
    )


def _lack(provision: Provision, lack: Lack) -> list[str]:
    return [lack_words(lack)] if lack in provision.lacks else []


def provision_csv(provision: Provision) -> str:
    """Return a menu's lists as one table for a spreadsheet; no cell is a formula.

    `what` says what a row's grams are: taken from the shelf, prepared to dry, on a tray of a load,
    as bought, dry in a pack, or to be carried; or that a lot is left on the shelf, and why.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEADS)
    for row in _rows(provision):
        writer.writerow([guarded(cell.replace(NBSP, " ")) for cell in row])
    return out.getvalue()


def guarded(cell: str) -> str:
    """Return a cell that no spreadsheet takes for a formula."""
    return GUARD + cell if cell.startswith(_FORMULA) else cell


Row = tuple[str, str, str, str, str]


def _row(what: str, name: str, grams_of: float = 0.0, pieces: int = 0, *notes: str) -> Row:
    weight = f"{grams_of:.1f}" if grams_of > 0 else ""
    return what, name, weight, f"{pieces}" if pieces else "", "; ".join(filter(None, notes))


def _rows(provision: Provision) -> Iterator[Row]:
    for need in provision.needs:
        for taken in need.taken:
            notes = [f"lot {taken.lot.name}", f"best by {taken.lot.best_by}", taken_note(taken)]
            yield _row("take", need.store.name, taken.grams, 0, *notes)
    for words in left_words(provision):
        yield _row("leave", words.split(", lot ", 1)[0], 0.0, 0, words)
    for name in provision.shelf_to_taste:
        yield _row("take", name, 0.0, 0, "to taste")
    for line in provision.drying:
        way = dried_name(line.store.store.keys.dried)
        done = f"{line.dried_g:.1f} g dried"
        out = f"no tray: {unsuited_words(line)}" if line.unsuited else ""
        yield _row("dry", line.store.name, line.prepared_g, 0, way, done, out)
    yield from _load_rows(provision)
    yield from _buy_rows(provision)
    for pack in provision.packs:
        day = f"day {pack.plate.day} {pack.plate.meal}"
        notes = [day, container_words(pack), best_words(pack), raw_words(pack)]
        yield _row("pack", mix_words(pack), pack.dry_g, 0, *notes)
    yield from _carry_rows(provision.days, fuel_word(provision.fuel))


def _load_rows(provision: Provision) -> Iterator[Row]:
    loading = provision.loading
    for number, timed in enumerate(loading.loads, 1):
        for at, tray in enumerate(timed.load.trays, 1):
            done = f"done at {tray.done_g:.1f} g"
            place = f"load {number}, tray {at}"
            name, run = tray_words(tray.batch), run_words(timed.run)
            yield _row("load", name, tray.prepared_g, 0, place, done, run)
    for line in loading.air:
        done = f"done at {line.dried_g:.1f} g"
        run = run_words(loading.air_run) if loading.air_run else ""
        heed = air_heed(provision) if line.store.store.keys.raw else ""
        yield _row("load", air_words(line), line.prepared_g, 0, "in the air", done, run, heed)


def _buy_rows(provision: Provision) -> Iterator[Row]:
    for section, listed in provision.shopping.items():
        for line in listed:
            count, size = line.pieces[0] if line.pieces else 0, size_words(line)
            pantry = "look in the pantry first" if line.is_pantry else ""
            taste = "" if line.bought_g > 0 or count else "to taste"
            notes = [section, size, made_into(line), taste, pantry]
            yield _row("buy", line.name, line.bought_g, count, *notes)


def _carry_rows(days: Iterable[DayLoad], fuel: str) -> Iterator[Row]:
    for day in days:
        yield _row("carry", f"water, day {day.day}", 1000 * day.water_l)
        yield _row("carry", f"fuel, day {day.day}", day.fuel_up_g, 0, fuel)
        energy = f"{day.energy_kcal:.0f} kcal"
        yield _row("carry", f"food, day {day.day}", day.carried_g, 0, energy)
