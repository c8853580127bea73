"""Larder pages: the shelves, and one page for each store."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.foods import CONTEXT, shop_words
from cookbook_build.planning.lessons import store_priors, tally
from cookbook_build.planning.stores import measures
from cookbook_build.publishing.cut_words import cut_name
from cookbook_build.publishing.desk import raw_view
from cookbook_build.publishing.lot_words import (
    assumed_words,
    caution_words,
    on_page,
    refusal_words,
)
from cookbook_build.publishing.wording import (
    amount_text,
    dried_name,
    grams,
    millilitres,
    number_of,
    percent,
    tally_words,
)
from cookbook_build.words import N_, _, ngettext, pgettext

if TYPE_CHECKING:
    from collections.abc import Collection, Container, Iterator

    from cookbook_build.foods import Food
    from cookbook_build.kitchen.beliefs import Belief
    from cookbook_build.planning.lots import Lot
    from cookbook_build.planning.stores import ShelfStore
    from cookbook_build.publishing.desk import Desk

SAYS_LITTLE: Final = 0.9
"""Trials that leave more than this of a band say little of a store; our choice."""

UPTAKE: Final = N_("{learned}, learned from {trials}; usual for its kind: {usual}")
UPTAKE_SAYS_LITTLE: Final = N_(
    "{learned}, learned from {trials}, which say little of it yet; usual for its kind: {usual}"
)
SHELVES: Final = {
    "freeze": (N_("Freeze-dried"), N_("They keep their shape, and come back quickly.")),
    "air": (N_("Air-dried"), N_("They shrink and turn sweet, and want longer.")),
    "bought": (N_("Bought dry"), N_("From the shop, as it is.")),
    "fresh": (N_("Fresh"), N_("Carried when there is room; not part of a dry mix.")),
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
            shelves.append({"name": _(name), "anchor": dried, "about": _(about), "stores": stores})
    return {"title": _("The larder"), "shelves": shelves}


def _store_line(desk: Desk, store: ShelfStore) -> dict[str, Any]:
    keys, count = store.store.keys, len(desk.reckoning.meals_using(store.name))
    words = [keys.form, _("cooked first") if keys.cooked_first else None]
    words.append(_("a base of our own") if store.base else None)
    used = ngettext("{n} recipe", "{n} recipes", count).format(n=count)
    return {
        "name": store.name,
        "href": desk.store_pages[store.name],
        "weighs": _weighs(store),
        "derived": not store.cup_is_measured and store.grams_per_cup is not None,
        "form": ", ".join(word for word in words if word),
        "raw": keys.raw,
        "used": used if count else _("not used yet"),
    }


def store_uses(
    desk: Desk, store: ShelfStore, only: Container[str] | None = None
) -> list[dict[str, str]]:
    """Return the meals that a store goes into, all or some of them, and how much of it."""
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
        if only is None or dish.recipe.address in only
    ]


def store_page(desk: Desk, store: ShelfStore, only: Container[str] | None = None) -> dict[str, Any]:
    """Return what the page of a store shows, of all meals or of some."""
    return {
        "title": store.name,
        "store": {"name": store.name, "dried": dried_name(store.store.keys.dried)},
        "facts": list(_facts(desk, store)),
        "cautions": [raw_view(desk, store.name)] if store.store.keys.raw else [],
        "used_in": store_uses(desk, store, only),
        "lots": [
            {
                "name": lot.name,
                "note": ", ".join(
                    word
                    for word in (
                        lot.container,
                        _("packed {date}").format(date=lot.packed),
                        _("{share} water left").format(share=percent(max(lot.moisture, 0.0)))
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
    if grams_ <= 0:
        return ""
    return _("{weight} reserved by menus").format(weight=grams(grams_))


def _facts(desk: Desk, store: ShelfStore) -> Iterator[dict[str, str]]:
    keys, food = store.store.keys, store.food
    if store.grams_per_cup is not None:
        yield _fact(_("A level cup weighs"), grams(store.grams_per_cup))
        yield _fact(_("Weighed or not"), _weighed_words(store))
    elif store.grams_per_piece is not None:
        yield _fact(_("One weighs"), grams(store.grams_per_piece))
    if keys.form:
        yield _fact(_("Form"), keys.form)
    if store.restored_moisture is not None and store.grams_per_cup:
        taken = millilitres(store.full_ml(store.grams_per_cup))
        words = _("{amount} of water, if fully restored").format(amount=taken)
        yield _fact(_("A cup can take up"), words)
    yield from _uptake(desk, store)
    yield from _drying(store)
    if keys.also_called:
        yield _fact(_("Also called"), ", ".join(keys.also_called))
    if store.base:
        made_from = desk.book.recipes[store.base].keys.title
        yield _fact(_("Made from"), made_from, desk.page_of[store.base])
    elif food:
        source = ", ".join(filter(None, (_(food.source), food.ndb)))
        if food.stand_in:
            source += "; " + _("stands in for a food that the table lacks")
        yield _fact(_("Reference"), f"{_table_name(food)} ({source})")
    if keys.note:
        yield _fact(_("Note"), keys.note)


def _drying(store: ShelfStore) -> Iterator[dict[str, str]]:
    if store.own_yield:
        words = _("{weight} from a kilogram prepared, by the table and {lots} of ours").format(
            weight=grams(1000 * store.own_yield.mean), lots=number_of(store.own_yield.lots, "lot")
        )
        yield _fact(_("Yield"), words)
    if store.dried_here and store.food:
        words = _("{before} before drying, {after} after").format(
            before=percent(store.food.moisture), after=percent(store.moisture)
        )
        yield _fact(_("Water"), words)


def _uptake(desk: Desk, store: ShelfStore) -> Iterator[dict[str, str]]:
    prior = store_priors(desk.reckoning.stores).get(store.name)
    if prior is None:
        return
    usual = _shares(prior)
    learned = desk.reckoning.lessons.learned.of(store.name)
    if learned is None:
        words = _("{usual}: usual for its kind, no trial yet").format(usual=usual)
    else:
        stands_on = tally(desk.reckoning.lessons.of_store(store.name))
        words = _(UPTAKE_SAYS_LITTLE if learned.sd > SAYS_LITTLE * prior.sd else UPTAKE).format(
            learned=_shares(learned),
            trials=tally_words(stands_on.trials, stands_on.tests, stands_on.left_out),
            usual=usual,
        )
    yield _fact(_("Takes up in the rest"), words)


def _shares(belief: Belief) -> str:
    """Return what is believed of an uptake, and how surely."""
    return _("{share}, give or take {band}").format(
        share=percent(belief.mean), band=percent(belief.sd)
    )


def _fact(name: str, value: str, href: str = "") -> dict[str, str]:
    return {"name": name, "value": value, "href": href}


def _weighs(store: ShelfStore) -> str:
    if store.grams_per_cup is not None:
        return grams(store.grams_per_cup)
    if store.grams_per_piece is not None:
        return _("{weight} each").format(weight=grams(store.grams_per_piece))
    return ""


def _weighed_words(store: ShelfStore) -> str:
    if store.cup_sd_g:
        return _("learned from {weighings}, give or take {weight}").format(
            weighings=number_of(store.cup_weighings, "weighing"), weight=grams(store.cup_sd_g)
        )
    if store.cup_is_measured:
        return _("weighed here")
    cut = cut_name(store.cup_cut)
    if store.dried_here and store.food:
        water = percent(store.food.moisture)
        if not cut:
            return _("derived from a cup of it before drying, with {water} water").format(
                water=water
            )
        return _("derived from a cup of it {cut} before drying, with {water} water").format(
            cut=cut, water=water
        )
    return (
        _("from the reference table ({cut})").format(cut=cut)
        if cut
        else _("from the reference table")
    )


def _table_name(food: Food) -> str:
    """Return the table's name of a food; in another language, what a shop calls it."""
    sold = shop_words(food, whole=False)
    called = pgettext(CONTEXT, sold)
    return food.name if called == sold else called
