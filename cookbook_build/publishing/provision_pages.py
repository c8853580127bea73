"""Provision pages: a menu walked back to shelf, dryer and shop, and packed, to tick off."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from cookbook_build.publishing.provisioning import (
    DEFER,
    ENERGY_NOTE,
    LACKS,
    RAW_HEED,
    air_heed,
    air_words,
    amount_words,
    best_words,
    bought_lines,
    bought_words,
    container_words,
    each_words,
    left_words,
    loads_words,
    lot_note,
    made_into,
    mix_words,
    pieces_words,
    raw_words,
    run_words,
    serving_words,
    servings_words,
    summary,
    tray_words,
    unsuited_words,
)
from cookbook_build.publishing.wording import (
    DRIED_NAMES,
    FUEL_WORDS,
    METHOD_NAMES,
    NBSP,
    grams,
    number_of,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.planning.packs import Pack
    from cookbook_build.planning.provisions import DayLoad, Provision
    from cookbook_build.planning.shopping import DryingLine, ShoppingLine
    from cookbook_build.publishing.desk import Desk

SECTIONS: Final = {"baking": "Baking and oils", "sauces": "Sauces and vinegars"}
"""Sections of the shop whose goods their own names don't tell."""


def provision_page(desk: Desk, provision: Provision) -> dict[str, Any]:
    """Return what the page of a menu shows."""
    keys, eaters = provision.menu.keys, provision.eaters
    return {
        "title": keys.title,
        "about": keys.about,
        "summary": summary(provision),
        "servings": servings_words(provision),
        "labels": f"{provision.menu.address}-labels.html",
        "plates": [
            {
                "day": plate.day,
                "meal": plate.meal,
                "title": plate.dish.recipe.keys.title,
                "href": desk.page_of[plate.dish.recipe.address],
                "how": METHOD_NAMES[plate.method].lower()
                + ("" if plate.servings == eaters else f", {serving_words(plate.servings)}"),
            }
            for plate in provision.plates
        ],
        "shelf": list(_shelf(provision)),
        "left": left_words(provision),
        "drying": [_drying(desk, line) for line in provision.drying],
        "shopping": list(_shopping(provision)),
        "dry_goods": [*map(_bought, bought_lines(provision, pantry=True))],
        "to_taste": provision.shelf_to_taste,
        "loads": list(_loads(provision)),
        "loads_note": _loads_note(provision),
        "no_dryer": LACKS["dryer"] if "dryer" in provision.lacks else "",
        "unsuited": [*map(unsuited_words, provision.loading.unsuited)],
        "air": [
            {
                "name": air_words(line),
                "prepared": grams(line.prepared_g),
                "done": grams(line.dried_g),
            }
            for line in provision.loading.air
        ],
        "air_heed": air_heed(provision),
        "each": each_words(provision),
        "air_hours": run_words(provision.loading.air_run) if provision.loading.air_run else "",
        "packs": [_pack(pack) for pack in provision.packs],
        "raw_heed": RAW_HEED if any(pack.raw_stores for pack in provision.packs) else "",
        "pack_lacks": [LACKS[lack] for lack in provision.lacks if lack != "dryer"],
        "days": [{"day": f"{day.day}", **_carried(day)} for day in provision.days],
        "total": _carried(provision.together),
        "each_day": _each_day(provision),
        "fuel": FUEL_WORDS[provision.fuel],
        "energy_note": ENERGY_NOTE,
        "defer": DEFER,
    }


def _shopping(provision: Provision) -> Iterator[dict[str, Any]]:
    """Give the sections of the shop with what is bought fresh there."""
    for name, listed in provision.shopping.items():
        lines = [_bought(line) for line in listed if not line.is_pantry]
        if lines:
            yield {"name": SECTIONS.get(name, name.capitalize()), "lines": lines}


def _bought(line: ShoppingLine) -> dict[str, str]:
    return {
        "name": line.name,
        "what_for": made_into(line),
        "bought": grams(line.bought_g) if line.bought_g > 0 else amount_words(line),
        "pieces": pieces_words(line) if line.bought_g > 0 else "",
    }


def _shelf(provision: Provision) -> Iterator[dict[str, Any]]:
    for line in provision.needs:
        for taken in line.taken:
            lot = taken.lot
            yield {
                "name": line.store.name,
                "key": f"{line.store.name}, lot {lot.name}",
                "notes": [
                    word
                    for word in (
                        f"lot {lot.name}",
                        lot.container,
                        f"best by {lot.best_by.isoformat()}",
                        lot_note(lot),
                    )
                    if word
                ],
                "amount": grams(taken.grams),
            }


def _drying(desk: Desk, line: DryingLine) -> dict[str, Any]:
    keys, store = line.store.store.keys, line.store
    words = [DRIED_NAMES[keys.dried], keys.form, "raw" if keys.raw else None]
    if line.pots is not None and store.base:
        words.append(f"{line.pots:.2g} of a pot of {desk.book.recipes[store.base].keys.title}")
    if store.own_yield:
        words.append(f"yield of {number_of(store.own_yield.lots, 'lot')} of ours")
    if line.unsuited:
        words.append("takes no tray")
    return {
        "name": store.name,
        "notes": [word for word in words if word],
        "dried": grams(line.dried_g),
        "prepared": grams(line.prepared_g),
        "bought": bought_words(line),
    }


def _loads(provision: Provision) -> Iterator[dict[str, Any]]:
    for number, timed in enumerate(provision.loading.loads, 1):
        yield {
            "number": number,
            "hours": run_words(timed.run),
            "water": grams(timed.load.water_g),
            "trays": [
                {
                    "number": at,
                    "name": tray_words(tray.batch),
                    "in": grams(tray.prepared_g),
                    "done": grams(tray.done_g),
                }
                for at, tray in enumerate(timed.load.trays, 1)
            ],
        }


def _loads_note(provision: Provision) -> str:
    if not provision.loading.loads:
        return ""
    return (
        f"{loads_words(provision.loading)} Strong smells keep to themselves, and what is raw "
        "never shares with what is eaten as it is."
    )


def _pack(pack: Pack) -> dict[str, Any]:
    day = f"day{NBSP}{pack.plate.day}, {pack.plate.meal}"
    notes = [f"{day}, {serving_words(pack.plate.servings)}", container_words(pack)]
    return {
        "title": mix_words(pack),
        "key": f"{mix_words(pack)}, {day}",
        "notes": [word for word in (*notes, best_words(pack)) if word],
        "dry": grams(pack.dry_g),
        "raw": raw_words(pack),
    }


def _carried(day: DayLoad) -> dict[str, str]:
    return {
        "water": f"{day.water_l:.1f}{NBSP}L",
        "fuel": grams(day.fuel_up_g),
        "weight": grams(day.carried_each_g),
        "energy": f"{day.energy_each_kcal:.0f}{NBSP}kcal",
    }


def _each_day(provision: Provision) -> dict[str, str]:
    weight_g, energy_kcal = provision.each_day
    return {"weight": grams(weight_g), "energy": f"{energy_kcal:.0f}{NBSP}kcal"}
