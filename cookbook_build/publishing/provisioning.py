"""A menu provided for, as plain data, as lines for a terminal, and as rows for a spreadsheet."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.preserving.packing import Pouch
from cookbook_build.publishing.wording import grams, millilitres, number_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.planning.lots import Lot
    from cookbook_build.planning.packs import Pack
    from cookbook_build.planning.provisions import Provision
    from cookbook_build.planning.shopping import DryingLine, ShoppingLine
    from cookbook_build.preserving.drying import DryingHours
    from cookbook_build.preserving.keeping import MixQuality
    from cookbook_build.preserving.packing import Packing

HOURS_FROM: Final = {
    "log": "by this household's log",
    "stated": "by the dryer's own rate",
    "usual": "as is usual",
}
GUARD: Final = "'"
"""Set before a cell that a spreadsheet would take for a formula."""


def serving_words(servings: float) -> str:
    """Return a number of servings: `3 servings`, `3.5 servings`."""
    return number_of(servings, "serving")


def bought_words(line: DryingLine) -> str:
    """Return what a store is bought as: `1.2 kg`, or the weight of its dry good."""
    food = line.store.food
    return grams(line.bought_g) + (" dry" if food and food.dry_from else "")


def pieces_words(line: ShoppingLine) -> str:
    """Return how many whole pieces that is: `about 5 (medium)`."""
    pieces = line.pieces
    if pieces is None:
        return ""
    count, name = pieces
    plain = name in {"", "fruit"} or name.split()[0] in line.food.name
    return f"about {count}" if plain else f"about {count} ({name})"


def hours_words(hours: DryingHours) -> str:
    """Return how long a load runs: `31 h, between 26 and 36, by this household's log`."""
    return (
        f"{hours.middle_h:.0f}\N{NO-BREAK SPACE}h, between {hours.least_h:.0f} and "
        f"{hours.most_h:.0f}, {HOURS_FROM[hours.source]}"
    )


def months_words(quality: MixQuality) -> str:
    """Return how long a mix stays at its best: `8 months from packing`."""
    months = int(quality.keeps.months)
    if months < 1:
        return "a few weeks from packing"
    return f"{number_of(months, 'month')} from packing"


def container_words(pack: Pack) -> str:
    """Return what a mix is packed in, if the kit says with what."""
    return packing_words(pack.packing) if pack.packing else ""


def packing_words(packing: Packing) -> str:
    """Return a container and what goes into it: `medium pouch, 300 mL absorber`."""
    choice = packing.choice
    kind = "pouch" if isinstance(choice.container, Pouch) else "jar"
    name = choice.container.name
    named = name if kind in name.casefold() else f"{name} {kind}"
    words = named if choice.count == 1 else f"{choice.count} × {named}"
    if packing.absorbers:
        sizes = " + ".join(millilitres(size) for size in packing.absorbers.sizes_ml)
        words += f", {sizes} absorber" + (" in each" if choice.count > 1 else "")
    return words


def lot_note(lot: Lot) -> str:
    """Return what to know of a lot before it is packed: what to check, and what was assumed."""
    return "; ".join(word for word in (lot.caution, lot.assumed) if word)


def provision_data(provision: Provision) -> dict[str, Any]:
    """Return every number of a menu provided for."""
    return {
        "menu": provision.menu.address,
        "title": provision.menu.keys.title,
        "people": provision.menu.keys.people,
        "eaters": provision.eaters,
        "dry_g": round(provision.dry_g, 3),
        "needs": [
            {
                "store": line.store.name,
                "needed_g": round(line.needed_g, 3),
                "on_shelf_g": round(line.on_shelf_g, 3),
                "short_g": round(line.short_g, 3),
                "lots": [
                    {
                        "lot": taken.lot.name,
                        "grams": round(taken.grams, 3),
                        "best_by": taken.lot.best_by.isoformat(),
                        "note": lot_note(taken.lot),
                    }
                    for taken in line.taken
                ],
                "left": [
                    {"lot": left.lot.name, "why": left.why, "words": left.words}
                    for left in line.left
                ],
            }
            for line in provision.needs
        ],
        "drying": [_drying(line) for line in provision.drying],
        "pantry": [
            {"store": line.store.name, "grams": round(line.dried_g, 3)} for line in provision.pantry
        ],
        "shopping": [
            {
                "section": section,
                "food": line.food.name,
                "bought_g": round(line.bought_g, 3),
                "edible_g": round(line.edible_g, 3),
                "pieces": line.pieces[0] if line.pieces else None,
                "for": list(line.what_for),
            }
            for section, lines in provision.shopping.items()
            for line in lines
        ],
        "fresh": [
            {"store": f.name, "pieces": round(f.pieces, 3), "grams": round(f.grams, 3)}
            for f in provision.fresh
        ],
        "to_taste": list(provision.to_taste),
        "loads": _loads(provision),
        "packs": [_pack(pack) for pack in provision.packs],
        "days": [
            {
                "day": day.day,
                "water_ml": round(day.water_ml, 1),
                "fuel_g": round(day.fuel_g, 2),
                "carried_g": round(day.carried_g, 1),
                "energy_kcal": round(day.energy_kcal, 1),
            }
            for day in provision.days
        ],
    }


def _drying(line: DryingLine) -> dict[str, Any]:
    return {
        "store": line.store.name,
        "dried_g": round(line.dried_g, 3),
        "prepared_g": round(line.prepared_g, 3),
        "bought_g": round(line.bought_g, 3),
        "water_removed_g": round(line.removed_g, 3),
        "pots": None if line.pots is None else round(line.pots, 4),
    }


def _loads(provision: Provision) -> dict[str, Any] | None:
    loading = provision.loading
    if loading is None:
        return None
    return {
        "lower_bound": loading.lower_bound,
        "loads": [
            {
                "water_g": round(timed.load.water_g, 3),
                "hours": round(timed.hours.middle_h, 2),
                "hours_low": round(timed.hours.least_h, 2),
                "hours_high": round(timed.hours.most_h, 2),
                "hours_from": timed.hours.source,
                "trays": [
                    {
                        "store": tray.batch.name,
                        "prepared_g": round(tray.prepared_g, 3),
                        "done_g": round(tray.done_g, 3),
                    }
                    for tray in timed.load.trays
                ],
            }
            for timed in loading.loads
        ],
        "air": [_drying(line) for line in loading.air],
    }


def _pack(pack: Pack) -> dict[str, Any]:
    packing = pack.packing
    return {
        "recipe": pack.plate.dish.recipe.address,
        "component": pack.part.name,
        "day": pack.plate.day,
        "meal": pack.plate.meal,
        "servings": pack.plate.servings,
        "method": pack.plate.method,
        "dry_g": round(pack.dry_g, 3),
        "dry_ml": round(pack.dry_ml, 3),
        "container": packing.choice.container.name if packing else None,
        "containers": packing.choice.count if packing else None,
        "air_ml": round(packing.air_ml, 1) if packing else None,
        "absorbers_ml": (
            [round(size, 1) for size in packing.absorbers.sizes_ml]
            if packing and packing.absorbers
            else []
        ),
        "best_months": round(pack.quality.keeps.months, 2),
        "best_by": pack.best_by.isoformat() if pack.best_by else None,
        "shortest": pack.quality.shortest,
        "raw_stores": list(pack.raw_stores),
        "lot": pack.lot,
    }


def provision_lines(provision: Provision, summary: str) -> list[str]:
    """Return a menu provided for as a household reads it on a terminal."""
    lines = [f"{provision.menu.keys.title}: {summary}"]
    blocks = {
        "From the shelf": _shelf_lines(provision),
        "To dry": [
            f"{line.store.name}: {grams(line.dried_g)} dried, {grams(line.prepared_g)} prepared, "
            f"{bought_words(line)} bought"
            for line in provision.drying
        ],
        "Loads": _load_lines(provision),
        "From the pantry": [
            f"{line.store.name}: {grams(line.dried_g)}" for line in provision.pantry
        ],
        "To buy": [
            f"{line.food.name}: {grams(line.bought_g)}"
            + (f", {words}" if (words := pieces_words(line)) else "")
            for listed in provision.shopping.values()
            for line in listed
        ],
        "To pack": [
            f"{pack.plate.dish.recipe.keys.title}, {pack.part.name.lower()}: {grams(pack.dry_g)}"
            + (f", {words}" if (words := container_words(pack)) else "")
            + f"; best {f'by {pack.best_by}' if pack.best_by else months_words(pack.quality)}"
            for pack in provision.packs
        ],
        "To carry": [
            f"day {day.day}: {day.water_ml / 1000:.1f} L of water, {grams(day.fuel_g)} of fuel, "
            f"{grams(day.carried_g)} of food, {day.energy_kcal:.0f} kcal"
            for day in provision.days
        ],
    }
    for title, listed in blocks.items():
        if listed:
            lines += ["", title, *(f"  {line}" for line in listed)]
    return lines


def _shelf_lines(provision: Provision) -> list[str]:
    return [
        f"{line.store.name}: {grams(taken.grams)} of lot {taken.lot.name}, best by "
        f"{taken.lot.best_by}"
        for line in provision.needs
        for taken in line.taken
    ]


def _load_lines(provision: Provision) -> list[str]:
    if provision.loading is None:
        return []
    return [
        f"{number}: "
        + ", ".join(
            f"tray {at} {tray.batch.name} {grams(tray.prepared_g)} in, done at {grams(tray.done_g)}"
            for at, tray in enumerate(timed.load.trays, 1)
        )
        + f"; {hours_words(timed.hours)}"
        for number, timed in enumerate(provision.loading.loads, 1)
    ]


def provision_csv(provision: Provision) -> str:
    """Return a menu's lists as one table for a spreadsheet; no cell is a formula."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["list", "what", "grams", "note"])
    for row in _rows(provision):
        writer.writerow([guarded(cell) for cell in row])
    return out.getvalue()


def guarded(cell: str) -> str:
    """Return a cell that no spreadsheet takes for a formula."""
    return GUARD + cell if cell[:1] in {"=", "+", "-", "@", "\t", "\r"} else cell


def _rows(provision: Provision) -> Iterator[tuple[str, str, str, str]]:
    for line in provision.needs:
        for taken in line.taken:
            yield "shelf", line.store.name, f"{taken.grams:.1f}", f"lot {taken.lot.name}"
    for dry in provision.drying:
        yield "dry", dry.store.name, f"{dry.prepared_g:.1f}", f"{dry.dried_g:.1f} g dried"
    for pantry in provision.pantry:
        yield "pantry", pantry.store.name, f"{pantry.dried_g:.1f}", ""
    for section, listed in provision.shopping.items():
        for bought in listed:
            note = "; ".join(filter(None, [section, pieces_words(bought)]))
            yield "buy", bought.food.name, f"{bought.bought_g:.1f}", note
    for pack in provision.packs:
        what = f"{pack.plate.dish.recipe.keys.title}, {pack.part.name.lower()}"
        yield "pack", what, f"{pack.dry_g:.1f}", container_words(pack)
