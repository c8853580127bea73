"""Checklist pages: a menu added up, to tick off."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from cookbook_build.publishing.wording import DRIED_NAMES, METHOD_NAMES, grams

if TYPE_CHECKING:
    from cookbook_build.planning.checklists import Checklist
    from cookbook_build.planning.stores import ShelfStore
    from cookbook_build.publishing.desk import Desk


def checklist_page(desk: Desk, checklist: Checklist) -> dict[str, Any]:
    """Return what the page of a menu shows."""
    keys = checklist.menu.keys
    return {
        "title": keys.title,
        "list": {
            "title": keys.title,
            "about": keys.about,
            "summary": summary(checklist),
            "plates": [
                {
                    "day": plate.day,
                    "meal": plate.meal,
                    "title": plate.dish.recipe.keys.title,
                    "href": desk.page_of[plate.dish.recipe.address],
                    "how": f"{METHOD_NAMES[plate.method].lower()}, {plate.servings} "
                    f"serving{'s' * (plate.servings != 1)}",
                }
                for plate in checklist.plates
            ],
            "drying": [
                {
                    "name": line.store.name,
                    "note": _drying_note(desk, line.store, line.pots),
                    "dried": grams(line.dried_g),
                    "prepared": grams(line.prepared_g),
                    "bought": grams(line.bought_g)
                    + (" dry" if line.store.food and line.store.food.dry_from else ""),
                }
                for line in checklist.drying
            ],
            "pantry": [
                {
                    "name": line.store.name,
                    "note": line.store.store.keys.form or "",
                    "dried": grams(line.dried_g),
                }
                for line in checklist.pantry
            ],
            "fresh": [
                {"name": f.name, "amount": f"{f.pieces:g}" if f.pieces else grams(f.grams)}
                for f in checklist.fresh
            ],
            "to_taste": checklist.to_taste,
            "shopping": [
                {
                    "name": name.capitalize(),
                    "lines": [
                        {
                            "name": line.food.name,
                            "what_for": ", ".join(line.what_for),
                            "bought": grams(line.bought_g),
                        }
                        for line in lines
                    ],
                }
                for name, lines in checklist.shopping.items()
            ],
        },
    }


def _drying_note(desk: Desk, store: ShelfStore, pots: float | None) -> str:
    keys = store.store.keys
    words = [DRIED_NAMES[keys.dried], keys.form, "raw" if keys.raw else None]
    if pots is not None and store.base:
        words.append(f"{pots:.2g} of a pot of {desk.book.recipes[store.base].keys.title}")
    return ", ".join(word for word in words if word)


def summary(checklist: Checklist) -> str:
    """Return a menu in one line."""
    people, count = checklist.menu.keys.people, len(checklist.plates)
    days = len({plate.day for plate in checklist.plates})
    return (
        f"{people} {'person' if people == 1 else 'people'}, {days} day{'s' * (days != 1)}, "
        f"{count} meal{'s' * (count != 1)}: {grams(checklist.dry_g)} of dry mix."
    )
