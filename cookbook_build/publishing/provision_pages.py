"""Provision pages: a menu walked back to shelf, dryer and shop, and packed, to tick off."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, Any

from cookbook_build.publishing.provisioning import (
    bought_words,
    container_words,
    hours_words,
    months_words,
    pieces_words,
    serving_words,
)
from cookbook_build.publishing.wording import DRIED_NAMES, METHOD_NAMES, grams, grams_up, number_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from cookbook_build.planning.packs import Pack
    from cookbook_build.planning.provisions import DayLoad, Provision
    from cookbook_build.planning.shopping import DryingLine
    from cookbook_build.publishing.desk import Desk


def provision_page(desk: Desk, provision: Provision) -> dict[str, Any]:
    """Return what the page of a menu shows."""
    keys = provision.menu.keys
    return {
        "title": keys.title,
        "about": keys.about,
        "summary": summary(provision),
        "labels": f"{provision.menu.address}-labels.html",
        "plates": [
            {
                "day": plate.day,
                "meal": plate.meal,
                "title": plate.dish.recipe.keys.title,
                "href": desk.page_of[plate.dish.recipe.address],
                "how": f"{METHOD_NAMES[plate.method].lower()}, {serving_words(plate.servings)}",
            }
            for plate in provision.plates
        ],
        "shelf": list(_shelf(provision)),
        "drying": [_drying(desk, line) for line in provision.drying],
        "pantry": [
            {"name": line.store.name, "note": line.store.store.keys.form or "",
             "amount": grams(line.dried_g)}
            for line in provision.pantry
        ],
        "fresh": [
            {"name": f.name, "amount": f"{ceil(f.pieces):g}" if f.pieces else grams(f.grams)}
            for f in provision.fresh
        ],
        "to_taste": provision.to_taste,
        "shopping": [
            {
                "name": name.capitalize(),
                "lines": [
                    {
                        "name": line.food.name,
                        "what_for": ", ".join(line.what_for),
                        "bought": grams(line.bought_g),
                        "pieces": pieces_words(line),
                    }
                    for line in lines
                ],
            }
            for name, lines in provision.shopping.items()
        ],
        "loads": list(_loads(provision)),
        "loads_note": _loads_note(provision),
        "air": [
            {"name": line.store.name, "prepared": grams(line.prepared_g),
             "done": grams(line.dried_g)}
            for line in (provision.loading.air if provision.loading else ())
        ],
        "packs": [_pack(pack) for pack in provision.packs],
        "days": list(_days(provision)),
        "total": _carried(provision.days, provision),
    }  # fmt: skip


def summary(provision: Provision) -> str:
    """Return a menu in one line."""
    people = provision.menu.keys.people
    eaters = "" if provision.eaters == people else f" with {provision.eaters:g} appetites"
    days = len({plate.day for plate in provision.plates})
    return (
        f"{'1 person' if people == 1 else f'{people} people'}{eaters}, {number_of(days, 'day')}, "
        f"{number_of(len(provision.plates), 'meal')}: {grams(provision.dry_g)} of dry mix."
    )


def _shelf(provision: Provision) -> Iterator[dict[str, str]]:
    for line in provision.needs:
        for taken in line.taken:
            lot = taken.lot
            yield {
                "name": f"{line.store.name}, lot {lot.name}",
                "note": f"{lot.container}, best by {lot.best_by.isoformat()}",
                "amount": grams(taken.grams),
            }


def _drying(desk: Desk, line: DryingLine) -> dict[str, str]:
    keys, store = line.store.store.keys, line.store
    words = [DRIED_NAMES[keys.dried], keys.form, "raw" if keys.raw else None]
    if line.pots is not None and store.base:
        words.append(f"{line.pots:.2g} of a pot of {desk.book.recipes[store.base].keys.title}")
    if store.own_yield:
        words.append(f"yield of {number_of(store.own_yield.lots, 'lot')} of ours")
    return {
        "name": store.name,
        "note": ", ".join(word for word in words if word),
        "dried": grams(line.dried_g),
        "prepared": grams(line.prepared_g),
        "bought": bought_words(line),
    }


def _loads(provision: Provision) -> Iterator[dict[str, Any]]:
    loads = provision.loading.loads if provision.loading else ()
    for number, timed in enumerate(loads, 1):
        yield {
            "number": number,
            "hours": hours_words(timed.hours),
            "water": grams(timed.load.water_g),
            "trays": [
                {
                    "number": at,
                    "name": tray.batch.name,
                    "in": grams(tray.prepared_g),
                    "done": grams(tray.done_g),
                }
                for at, tray in enumerate(timed.load.trays, 1)
            ],
        }


def _loads_note(provision: Provision) -> str:
    if provision.loading is None or not provision.loading.loads:
        return ""
    loads = len(provision.loading.loads)
    bound = provision.loading.lower_bound
    fewest = "no fewer would do" if loads == bound else f"{bound} at the least"
    return (
        f"{number_of(loads, 'load')}; {fewest}. Strong smells keep to themselves, and what is raw "
        "never shares with what is eaten as it is."
    )


def _pack(pack: Pack) -> dict[str, Any]:
    keys = pack.plate.dish.recipe.keys
    several = len(pack.plate.dish.parts) > 1
    best = f"best by {pack.best_by}" if pack.best_by else f"best {months_words(pack.quality)}"
    words = [
        f"day {pack.plate.day}, {pack.plate.meal}, {serving_words(pack.plate.servings)}",
        container_words(pack),
        best,
    ]
    return {
        "title": keys.title + (f", {pack.part.name.lower()}" if several else ""),
        "note": "; ".join(word for word in words if word),
        "dry": grams(pack.dry_g),
        "raw": ", ".join(pack.raw_stores),
    }


def _days(provision: Provision) -> Iterator[dict[str, str]]:
    for day in provision.days:
        yield {"day": f"{day.day}", **_carried([day], provision)}


def _carried(days: Sequence[DayLoad], provision: Provision) -> dict[str, str]:
    people = provision.menu.keys.people
    return {
        "water": f"{sum(day.water_ml for day in days) / 1000:.1f}\N{NO-BREAK SPACE}L",
        "fuel": grams_up(sum(day.fuel_g for day in days)),
        "weight": grams(sum(day.carried_g for day in days) / people),
        "energy": f"{sum(day.energy_kcal for day in days) / people:.0f}\N{NO-BREAK SPACE}kcal",
    }
