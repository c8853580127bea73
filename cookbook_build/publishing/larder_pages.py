"""Larder pages: the shelves, and one page for each store."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.planning.lessons import store_priors, tally
from cookbook_build.planning.stores import measures
from cookbook_build.publishing.desk import raw_view
from cookbook_build.publishing.lot_words import (
    assumed_words,
    caution_words,
    on_page,
    refusal_words,
)
from cookbook_build.publishing.wording import (
    DRIED_NAMES,
    amount_text,
    grams,
    millilitres,
    number_of,
    percent,
    tally_words,
)

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from cookbook_build.planning.lots import Lot
    from cookbook_build.planning.stores import ShelfStore
    from cookbook_build.publishing.desk import Desk

SAYS_LITTLE: Final = 0.9
"""Trials that leave more than this of a band say little of a store; our choice."""

SHELVES: Final = {
    "freeze": ("Freeze-dried", "They keep their shape, and come back quickly."),
    "air": ("Air-dried", "They shrink and turn sweet, and want longer."),
    "bought": ("Bought dry", "From the shop, as it is."),
    "fresh": ("Fresh", "Carried when there is room; not part of a dry mix."),
}


def larder_page(desk: Desk, only: Collection[str] | None = None) -> dict[str, Any]:
    """Return what the larder page shows: every store, or some of them."""
    shelves = []
    for dried, (name, about) in SHELVES.items():
        stores = [
            _store_line(desk, store)
            for store in sorted(desk.reckoning.stores.values(), key=lambda s: s.name)
            if store.store.keys.dried == dried and (only is None or store.name in only)
        ]
        if stores:
            shelves.append({"name": name, "anchor": dried, "about": about, "stores": stores})
    return {"title": "The larder", "shelves": shelves}


def _store_line(desk: Desk, store: ShelfStore) -> dict[str, Any]:
    keys, count = store.store.keys, len(desk.reckoning.meals_using(store.name))
    words = [keys.form, "cooked first" if keys.cooked_first else None]
    words.append("a base of our own" if store.base else None)
    return {
        "name": store.name,
        "href": desk.store_pages[store.name],
        "weighs": _weighs(store),
        "derived": not store.cup_is_measured and store.grams_per_cup is not None,
        "form": ", ".join(word for word in words if word),
        "raw": keys.raw,
        "used": f"{count} recipe{'s' * (count != 1)}" if count else "not used yet",
    }


def store_uses(desk: Desk, store: ShelfStore) -> list[dict[str, str]]:
    """Return the meals that a store goes into, and how much of it."""
    return [
        {
            "title": dish.recipe.keys.title,
            "href": desk.page_of[dish.recipe.address],
            "amount": ", ".join(
                amount_text(line.ingredient, Fraction(1), measures(desk.book))
                for part in dish.parts
                for line in part.lines
                if line.store.name == store.name
            ),
        }
        for dish in desk.reckoning.meals_using(store.name)
    ]


def store_page(desk: Desk, store: ShelfStore) -> dict[str, Any]:
    """Return what the page of a store shows."""
    return {
        "title": store.name,
        "store": {"name": store.name, "dried": DRIED_NAMES[store.store.keys.dried]},
        "facts": list(_facts(desk, store)),
        "cautions": [raw_view(desk, store.name)] if store.store.keys.raw else [],
        "used_in": store_uses(desk, store),
        "lots": [
            {
                "name": lot.name,
                "note": ", ".join(
                    word
                    for word in (
                        lot.container,
                        f"packed {lot.packed}",
                        f"{percent(max(lot.moisture, 0.0))} water left"
                        if lot.moisture is not None and not lot.is_damp
                        else "",
                        _reserved(desk, lot),
                        on_page(refusal_words(lot)) or caution_words(lot),
                        assumed_words(lot),
                    )
                    if word
                ),
                "grams": grams(lot.grams),
                "best": None if lot.refusal else lot.best_by.isoformat(),
            }
            for lot in desk.reckoning.lots.get(store.name, ())
        ],
    }


def _reserved(desk: Desk, lot: Lot) -> str:
    """Return what the menus of the book take of a lot."""
    grams_ = lot.grams - desk.reckoning.reserves.left_g(lot)
    return f"{grams(grams_)} reserved by menus" if grams_ > 0 else ""


def _facts(desk: Desk, store: ShelfStore) -> Iterator[dict[str, str]]:
    keys, food = store.store.keys, store.food
    if store.grams_per_cup is not None:
        yield _fact("A level cup weighs", grams(store.grams_per_cup))
        yield _fact("Weighed or not", _weighed_words(store))
    elif store.grams_per_piece is not None:
        yield _fact("One weighs", grams(store.grams_per_piece))
    if keys.form:
        yield _fact("Form", keys.form)
    if store.restored_moisture is not None and store.grams_per_cup:
        taken = store.full_ml(store.grams_per_cup)
        yield _fact("A cup can take up", f"{millilitres(taken)} of water, if fully restored")
    yield from _uptake(desk, store)
    yield from _drying(store)
    if keys.also_called:
        yield _fact("Also called", ", ".join(keys.also_called))
    if store.base:
        yield _fact("Made from", desk.book.recipes[store.base].keys.title, desk.page_of[store.base])
    elif food:
        stand_in = "; stands in for a food that the table lacks" if food.stand_in else ""
        number = f", {food.ndb}" if food.ndb else ""
        yield _fact("Reference", f"{food.name} ({food.source}{number}{stand_in})")
    if keys.note:
        yield _fact("Note", keys.note)


def _drying(store: ShelfStore) -> Iterator[dict[str, str]]:
    if store.own_yield:
        yield _fact(
            "Yield",
            f"{grams(1000 * store.own_yield.mean)} from a kilogram prepared, by the table and "
            f"{number_of(store.own_yield.lots, 'lot')} of ours",
        )
    if store.dried_here and store.food:
        before, after = percent(store.food.moisture), percent(store.moisture)
        yield _fact("Water", f"{before} before drying, {after} after")


def _uptake(desk: Desk, store: ShelfStore) -> Iterator[dict[str, str]]:
    prior = store_priors(desk.reckoning.stores).get(store.name)
    if prior is None:
        return
    before = f"{percent(prior.mean)}, give or take {percent(prior.sd)}"
    learned = desk.reckoning.lessons.learned.of(store.name)
    if learned is None:
        yield _fact("Takes up in the rest", f"{before}: usual for its kind, no trial yet")
        return
    stands_on = tally(desk.reckoning.lessons.of_store(store.name))
    little = ", which say little of it yet" if learned.sd > SAYS_LITTLE * prior.sd else ""
    yield _fact(
        "Takes up in the rest",
        f"{percent(learned.mean)}, give or take {percent(learned.sd)}, learned from "
        f"{tally_words(stands_on.trials, stands_on.tests, stands_on.left_out)}{little}; usual for "
        f"its kind: {before}",
    )


def _fact(name: str, value: str, href: str = "") -> dict[str, str]:
    return {"name": name, "value": value, "href": href}


def _weighs(store: ShelfStore) -> str:
    if store.grams_per_cup is not None:
        return grams(store.grams_per_cup)
    return f"{grams(store.grams_per_piece)} each" if store.grams_per_piece is not None else ""


def _weighed_words(store: ShelfStore) -> str:
    if store.cup_sd_g:
        return (
            f"learned from {number_of(store.cup_weighings, 'weighing')}, give or take "
            f"{grams(store.cup_sd_g)}"
        )
    if store.cup_is_measured:
        return "weighed here"
    cut = f" {store.cup_cut}" if store.cup_cut not in {"", "plain"} else ""
    if store.dried_here and store.food:
        water = percent(store.food.moisture)
        return f"derived from a cup of it{cut} before drying, with {water} water"
    return f"from the reference table{cut and f' ({cut.strip()})'}"
