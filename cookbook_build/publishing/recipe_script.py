"""A meal as other programs read it: schema.org's Recipe as JSON-LD in the page.

What stands here stands on the page too: the default serving size and method, the cautions for
what was dried raw, and how each store came dry, since the larder is not there to ask.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, Final

from markupsafe import Markup

from cookbook_build.manuscript.web_addresses import web_address
from cookbook_build.planning.nourish import dish_nourishment
from cookbook_build.publishing.choices import figure_words
from cookbook_build.publishing.desk import raw_view
from cookbook_build.publishing.nourish_views import ROWS
from cookbook_build.publishing.ready_times import ready_view
from cookbook_build.publishing.steps import steps
from cookbook_build.publishing.web_head import page_address, picture_address
from cookbook_build.publishing.wording import (
    consistency_name,
    dried_name,
    grams,
    method_within,
    number_of,
)
from cookbook_build.words import _, spoken

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.planning.dishes import Dish
    from cookbook_build.publishing.desk import Desk
    from cookbook_build.publishing.mixes import MixRow
    from cookbook_build.publishing.views import AnswerView, DishView

# what would end the script, begin a comment or break a line in it (HTML, section 4.12.1.3)
_UNSAFE: Final = {ord(char): f"\\u{ord(char):04x}" for char in "<>&\u2028\u2029"}
_NUTRITION: Final = {
    "calories": "Energy",
    "proteinContent": "Protein",
    "fatContent": "Fat",
    "carbohydrateContent": "Carbohydrate",
    "fiberContent": "of it fibre",
    "sodiumContent": "Sodium",
}


def recipe_script(desk: Desk, dish: Dish) -> Markup:
    """Return the JSON-LD of a meal, safe within a script element."""
    text = json.dumps(recipe_data(desk, dish), ensure_ascii=False)
    return Markup(text.translate(_UNSAFE))  # noqa: S704 - no markup is left in it


def recipe_data(desk: Desk, dish: Dish) -> dict[str, Any]:
    """Return a meal in schema.org's names; what the book does not know is left out."""
    book, keys, view = desk.book.book, dish.recipe.keys, desk.views[dish.recipe.address]
    answer = next(answer for answer in view.answers if answer.is_default)
    page = desk.page_of[dish.recipe.address]
    found = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": keys.title,
        "url": page_address(book.address, page) if book.address else None,
        "inLanguage": book.language,
        "author": {"@type": "Person", "name": book.author} if book.author else None,
        "datePublished": keys.date.isoformat() if keys.date else None,
        "dateModified": desk.changed(dish.recipe) if keys.date else None,
        "description": keys.blurb,
        "image": _image(desk, dish, page),
        "recipeYield": _yield(answer),
        "recipeCategory": keys.series,
        "keywords": ", ".join(_keywords(dish)),
        **_times(dish),
        "recipeIngredient": list(_ingredients(desk, view, answer)),
        "recipeInstructions": [
            {"@type": "HowToStep", "text": text} for text in _instructions(desk, dish, answer)
        ],
        "nutrition": _nutrition(dish),
        "license": web_address(book.licence) if book.licence else None,
    }
    return {name: value for name, value in found.items() if value}


def _image(desk: Desk, dish: Dish, page: str) -> list[str] | None:
    keys, address = dish.recipe.keys, desk.book.book.address
    image = desk.pictures.view(keys.picture, keys.picture_text, "../")
    if image is None:
        return None
    return [picture_address(address, page, image) if address else image.src]


def _yield(answer: AnswerView) -> list[str]:
    servings = number_of(answer.servings, "serving")
    return [servings, _plain(answer.makes)] if answer.makes else [servings]


def _keywords(dish: Dish) -> Iterator[str]:
    yield consistency_name(dish.recipe.keys.consistency)
    yield from map(method_within, dish.methods)
    yield _("add water")


def _times(dish: Dish) -> dict[str, str]:
    """Return boiling the water as preparing, and rest or simmer as cooking."""
    taken = ready_view(dish, dish.default_servings, dish.default_method)
    times = {"prepTime": taken.boil_min, "cookTime": taken.rest_min, "totalTime": taken.total_min}
    return {name: iso_duration(minutes) for name, minutes in times.items()}


def iso_duration(minutes: int) -> str:
    """Return whole minutes as ISO 8601 writes a duration: `PT1H20M`."""
    hours, rest = divmod(minutes, 60)
    return "PT" + (f"{hours}H" if hours else "") + (f"{rest}M" if rest or not hours else "")


def _ingredients(desk: Desk, view: DishView, answer: AnswerView) -> Iterator[str]:
    """Give what goes in at the default size, the water of each component after its mix."""
    for mix, pour in zip(view.mix, answer.parts, strict=True):
        part = f" ({mix.name})" if view.several else ""
        for row in mix.rows:
            yield _plain(_ingredient(desk, row, answer.servings)) + part
        poured = (
            _("{amount} cold drinking water: pour {start}, keep {hold_back} back")
            if pour.cold
            else _("{amount} water: pour {start}, keep {hold_back} back")
        )
        water = poured.format(amount=pour.together, start=pour.start, hold_back=pour.hold_back)
        yield _plain(water) + part


def _ingredient(desk: Desk, row: MixRow, servings: int) -> str:
    amount = next(cell.amount for cell in row.cells if cell.servings == servings)
    store = desk.reckoning.stores[row.store].store.keys
    dried = dried_name(store.dried) if store.dried in {"freeze", "air"} and not row.fresh else ""
    raw = _("raw") if store.raw else ""
    said = [row.name, row.preparation, row.note, dried, raw, *row.marks]
    if amount == _("to taste"):
        return ", ".join(word for word in (*said, amount) if word)
    return f"{amount} " + ", ".join(word for word in said if word)


def _instructions(desk: Desk, dish: Dish, answer: AnswerView) -> Iterator[str]:
    """Give the steps, after what must be heeded of stores that were dried raw."""
    for name in dish.raw_stores:
        caution = raw_view(desk, name)
        yield _plain(f"{caution.head} {caution.text}")
    written = steps(dish.recipe.body, lambda name, component: figure_words(answer, name, component))
    yield from written or (_plain(_without_words(answer)),)


def _without_words(answer: AnswerView) -> str:
    """Return the step of a recipe whose author wrote none."""
    pours = [
        _("{part}: pour {start}, keep {hold_back} back. {rest_word} {time}.").format(
            part=part.name,
            start=part.start,
            hold_back=part.hold_back,
            rest_word=part.rest_word,
            time=part.rest,
        )
        for part in answer.parts
    ]
    return " ".join([answer.method_line, *pours])


def _nutrition(dish: Dish) -> dict[str, str] | None:
    """Return what a serving holds, fresh companions too; nothing where a figure is lacking."""
    found = dish_nourishment(dish)
    if found.lacking:
        return None
    whole = found.whole
    size = _plain(_("1 serving, {weight} before the water").format(weight=grams(whole.mass_g)))
    with spoken("en"):  # a number has a point there: https://schema.org/Number
        rows = {name: _plain(ROWS[row](whole)) for name, row in _NUTRITION.items()}
    return {"@type": "NutritionInformation", "servingSize": size, **rows}


def _plain(text: str) -> str:
    """Return a text with ordinary spaces."""
    return " ".join(text.split())
