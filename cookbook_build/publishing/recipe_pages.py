"""Recipe pages: meals with their water, bases with their pot."""

from __future__ import annotations

from math import floor, fsum
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.measures.spoons import friendly
from cookbook_build.planning.whatif import WhatIfError, spared
from cookbook_build.publishing.card_pages import CARDS
from cookbook_build.publishing.choices import by_choice, figure
from cookbook_build.publishing.desk import OTHER, Link, raw_view
from cookbook_build.publishing.nourish_views import store_nourish_view
from cookbook_build.publishing.other_ways import told_for
from cookbook_build.publishing.prose import prose
from cookbook_build.publishing.recipe_script import recipe_script
from cookbook_build.publishing.reply_block import method_words, reply_block, reply_link
from cookbook_build.publishing.wording import (
    grams,
    method_within,
    millilitres,
    number_of,
    part_title,
    size_name,
    written_amount,
)
from cookbook_build.words import _

if TYPE_CHECKING:
    from collections.abc import Iterator

    from markupsafe import Markup

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.manuscript.recipes import Recipe
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.publishing.desk import Desk
    from cookbook_build.publishing.meal_tables import MealTables
    from cookbook_build.publishing.pictures import PictureView
    from cookbook_build.publishing.views import DishView


NEWEST_TRIALS: Final = 12
"""Trials that a page lists; earlier ones are folded away."""


def recipe_page(desk: Desk, dish: Dish, tables: MealTables) -> dict[str, Any]:
    """Return what the page of a meal shows."""
    recipe, view = dish.recipe, desk.views[dish.recipe.address]
    before, after = desk.neighbours[recipe.address]
    series = recipe.keys.series
    return {
        "title": recipe.keys.title,
        "recipe": recipe,
        "view": view,
        "method_words": {method: method_within(method) for method in dish.methods},
        "ways": {name: word for word, name, _line in view.methods},
        "newest_trials": NEWEST_TRIALS,
        "image": _image(desk, recipe),
        "series": {"name": series, "anchor": desk.anchors.get(series, desk.anchors[OTHER])}
        if series
        else None,
        "cautions": [raw_view(desk, name) for name in dish.raw_stores],
        "optional_effects": list(_optional_effects(desk, dish, view)),
        "heat": tables.heat,
        "keeping": tables.keeping,
        "camp": tables.camp,
        "banks": tables.banks,
        "nourish": tables.nourish,
        "reply": _reply(desk, dish),
        "text": _text(desk, dish, view),
        "card": f"{CARDS}#{recipe.address}",
        "script": recipe_script(desk, dish),
        "before": before,
        "after": after,
    }


def _reply(desk: Desk, dish: Dish) -> dict[str, Any]:
    """Return the block that a reader sends back, and the letter that holds it."""
    recipe, contact = dish.recipe, desk.book.book.contact
    parts = [part_title(part.name) for part in dish.parts]
    block = reply_block(recipe.address, parts)
    link = reply_link(contact, _("A trial of {recipe}").format(recipe=recipe.keys.title), block)
    return {"block": block, "link": link, "contact": contact or "", "methods": method_words()}


def _optional_effects(desk: Desk, dish: Dish, view: DishView) -> Iterator[tuple[str, Markup]]:
    """Give each optional store with what leaving it out does to the water, for every choice."""
    for name in view.optional_names:
        try:
            without = spared(dish, desk.reckoning, name)
        except WhatIfError:  # a component of optional things only is left out whole
            continue
        words: dict[tuple[int, str], str] = {
            (size, method): _spared_words(dish, without, size, method)
            for size in view.servings
            for method in dish.methods
        }
        yield name, by_choice(words, (view.default_servings, view.default_method))


def _spared_words(dish: Dish, without: Dish, servings: int, method: Method) -> str:
    before, after = (
        fsum(water.total_ml for water in one.waters(servings, method)) for one in (dish, without)
    )
    return millilitres(before - after)


def _text(desk: Desk, dish: Dish, view: DishView) -> Markup:
    """Return the author's text, and before it how any other way than its own goes.

    It is part of the text, so no template that shows the one can leave out the other.
    """
    text = prose(dish.recipe.body, desk.linking(), lambda name, part: figure(view, name, part))
    return told_for(dish) + text if text else text


def _image(desk: Desk, recipe: Recipe) -> PictureView | None:
    return desk.pictures.view(recipe.keys.picture, recipe.keys.picture_text, "../")


def base_page(desk: Desk, base: Recipe) -> dict[str, Any]:
    """Return what the page of a base shows."""
    dried = desk.reckoning.dried_base(base.address)
    pot, becomes = dried.pot, dried.store
    stores = [s for s in desk.reckoning.stores.values() if s.base == base.address]
    note = ""
    if becomes and becomes.grams_per_cup and dried.dried_ml:
        form = f", {becomes.store.keys.form}" if becomes.store.keys.form else ""
        cups = friendly(dried.dried_ml, desk.book.book.measures)
        weighs = _("{weight} a cup: {cups}").format(weight=grams(becomes.grams_per_cup), cups=cups)
        note = f"{form}, {weighs}"
    users = [d for store in stores for d in desk.reckoning.meals_using(store.name)]
    return {
        "title": base.keys.title,
        "recipe": base,
        "image": _image(desk, base),
        "text": prose(base.body, desk.linking()),
        "facts": {
            "dried": grams(dried.dried_g),
            "cooked": (
                _("{weight}, weighed") if pot.is_weighed else _("{weight}, if nothing boils away")
            ).format(weight=grams(pot.cooked_g)),
            "removed": grams(dried.removed_g),
            "trays": number_of(dried.trays, "tray") if dried.trays else "",
            "loads": number_of(len(dried.plan.loads), "load") if dried.plan else "",
            "makes": [
                {
                    "count": number_of(floor(servings), "serving"),
                    "title": meal.recipe.keys.title,
                    "href": desk.page_of[meal.recipe.address],
                }
                for meal, servings in dried.servings
                if servings >= 1
            ],
            "becomes": {
                "name": becomes.name, "href": desk.store_pages[becomes.name], "note": note,
            } if becomes else None,
        },
        "nourish": store_nourish_view(becomes, desk.book) if becomes else None,
        "used_in": [
            Link(dish.recipe.keys.title, desk.page_of[dish.recipe.address]) for dish in users
        ],
        "lines": [
            {
                "name": line.ingredient.name,
                "note": ", ".join(
                    word
                    for word in (size_name(line.ingredient.size), line.ingredient.preparation)
                    if word
                ),
                "amount": written_amount(line.ingredient.amount),
                "prepared": grams(line.prepared_g) if line.prepared_g else "",
            }
            for line in pot.lines
        ],
    }  # fmt: skip
