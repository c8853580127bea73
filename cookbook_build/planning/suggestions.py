"""Suggestions: what might be better in a book that holds together; shown by `proof` alone.

Each kind keeps silent where a cook would shrug: a book without pictures wants none, and a store
that one meal uses needs no scale.
"""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import one_of
from cookbook_build.manuscript.body import body_pictures
from cookbook_build.planning.stock import is_kept_up, past_best, shelf_day

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.recipes import Recipe
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.planning.reckoning import Reckoning

NAMED: Final = 3
LEAST_ML: Final = 59.0
"""A quarter of a cup, label's or metric: below it a cup's weight hardly shows; our choice."""

MEALS_TO_WEIGH: Final = 2
"""Meals that measure a store in cups before weighing it is worth a word; our choice."""

SMALL_BOOK: Final = 4
"""Meals below which nothing is said of weighing; our choice."""

PICTURED_SHARE: Final = 0.5
"""Where more of the meals have a picture, those without one are told; our choice."""


def suggest(reckoning: Reckoning, findings: Findings) -> None:
    """Find what might be better; nothing of it is wrong."""
    told = {reply.recipe for reply in reckoning.book.replies}
    for address, dish in reckoning.dishes.items():
        if address not in told and not _was_made(dish):
            findings.suggestion(
                dish.recipe.place,
                "nobody has tested this recipe yet, so its water is an estimate",
                'make it once, and write down "tested:" with the water that was right.',
            )
    _suggest_weighing(reckoning, findings)
    _suggest_counting(reckoning, findings)
    _suggest_pictures(reckoning, findings)
    _suggest_parts(reckoning, findings)


def _was_made(dish: Dish) -> bool:
    """Whether the author made a meal and told of it."""
    return any(part.text.tested or part.text.trials for part in dish.parts)


def _suggest_weighing(reckoning: Reckoning, findings: Findings) -> None:
    """Name the stores that most meals measure in cups and nobody weighed, in one suggestion."""
    if len(reckoning.dishes) < SMALL_BOOK:
        return
    meals: dict[str, set[str]] = defaultdict(set)
    for address, dish in reckoning.dishes.items():
        for part in dish.parts:
            for line in part.lines:
                by_cups = line.ingredient.amount.kind == "volume" and line.ml >= LEAST_ML
                weighed = line.store.cup_is_measured or line.ingredient.weighed
                if by_cups and line.is_dry and line.store.dried_here and not weighed:
                    meals[line.store.name].add(address)
    often = {name: len(of) for name, of in meals.items() if len(of) >= MEALS_TO_WEIGH}
    if not often:
        return
    names = sorted(often, key=lambda name: (-often[name], name))
    first = names[0]
    findings.suggestion(
        reckoning.stores[first].store.places.keys[()].place,
        f"what a cup weighs is worked out from the food, not weighed, for {_first_few(names)} "
        f"({often[first]} meals measure {first} so)",
        f'weigh a level cup of {first}, and add what it weighs, such as "weighs: 60 g per cup".',
    )


def _suggest_counting(reckoning: Reckoning, findings: Findings) -> None:
    """Ask for a look at the shelf, where its list is old and the dates of some lots are over."""
    book = reckoning.book
    over = past_best(reckoning.lots, book)
    if not over or is_kept_up(book):
        return
    names = [f"{lot.name} of {lot.store} ({lot.best_by})" for lot in over]
    findings.suggestion(
        over[0].place,
        f"nothing was dried or packed since {shelf_day(book)}, and the quality "
        f"{'date is' if len(over) == 1 else 'dates are'} over of {_first_few(names)}",
        "look at what stands on the shelf, use the eldest first, and take out the rows of what "
        "is gone; the dates speak of taste, not of safety.",
    )


def _first_few(names: Sequence[str]) -> str:
    """Return the first three names, and how many more there are."""
    more = len(names) - NAMED
    if more <= 0:
        return one_of(names).replace(" or ", " and ")
    return f"{', '.join(names[:NAMED])} and {more} more"


def _suggest_pictures(reckoning: Reckoning, findings: Findings) -> None:
    meals = reckoning.book.meals
    bare = [meal for meal in meals if not (meal.keys.picture or any(body_pictures(meal.body)))]
    if len(meals) - len(bare) <= PICTURED_SHARE * len(meals):
        return
    for meal in bare:
        findings.suggestion(
            meal.place,
            "this meal has no picture, and most meals of the book have one",
            'put one into images/, and add "picture: bowl.jpg" and "picture text: what it shows".',
        )


def _suggest_parts(reckoning: Reckoning, findings: Findings) -> None:
    """Name series whose parts leave out a number, or that only some of their recipes have."""
    series: dict[str, list[Recipe]] = defaultdict(list)
    for recipe in reckoning.book.recipes.values():
        if recipe.keys.series:
            series[recipe.keys.series].append(recipe)
    for name, recipes in series.items():
        for recipe, cause, mend in _part_gaps(name, recipes):
            findings.suggestion(recipe.places.key("part"), cause, mend)


def _part_gaps(name: str, recipes: Sequence[Recipe]) -> Iterator[tuple[Recipe, str, str]]:
    """Give the first recipe of a series whose part is missing, or comes after a gap."""
    numbered = sorted(
        (recipe for recipe in recipes if recipe.keys.part), key=lambda r: r.keys.part or 0
    )
    without = [recipe for recipe in recipes if not recipe.keys.part]
    if numbered and without:
        last = numbered[-1].keys.part or 0
        cause = (
            f'this recipe has no "part" in the series "{name}", where {len(numbered)} of '
            f"{len(recipes)} have one"
        )
        yield without[0], cause, f'add "part: {last + 1}", or leave parts out everywhere.'
        return
    for before, recipe in zip([0, *(r.keys.part or 0 for r in numbered)], numbered, strict=False):
        part = recipe.keys.part or 0
        if part > before + 1:
            yield (
                recipe,
                f'the series "{name}" has a part {part} and no part {before + 1}',
                f'write "part: {before + 1}", if none is to come between.',
            )
            return
