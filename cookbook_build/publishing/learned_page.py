"""The page of what the book learned: stores, cooks, untested recipes, the next trial."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.kitchen.consistency import CONSISTENCIES
from cookbook_build.planning.lessons import part_name, store_priors, tally
from cookbook_build.planning.next_trials import next_trials
from cookbook_build.publishing.desk import Link
from cookbook_build.publishing.wording import consistency_name, part_title, percent, tally_words
from cookbook_build.words import N_, _

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.planning.next_trials import NextTrial
    from cookbook_build.publishing.desk import Desk

WORTH_TELLING_SD: Final = 0.5
"""By how much of its prior deviation a store must have moved to be told; our choice."""

LOOSER: Final = N_("looser than most: free water {here} of the restored mix instead of {usual}")
STIFFER: Final = N_("stiffer than most: free water {here} of the restored mix instead of {usual}")
MOST_NEXT: Final = 3
MOST_LEFT_OUT: Final = 20


@dataclass(frozen=True, slots=True)
class StoreLesson:
    """What trials taught about one store."""

    name: str
    href: str
    before: str
    now: str
    trials: str
    how: str


@dataclass(frozen=True, slots=True)
class Habit:
    """How stiff this household likes a consistency."""

    name: str
    words: str


def learned_page(desk: Desk) -> dict[str, Any]:
    """Return what the page of lessons shows."""
    lessons = desk.reckoning.lessons
    counted = lessons.whole
    untested = [
        Link(dish.recipe.keys.title, desk.page_of[address])
        for address, dish in desk.reckoning.dishes.items()
        if not dish.is_tested and not any(part.trials for part in dish.parts)
    ]
    return {
        "title": _("What we learned"),
        "count": tally_words(counted.trials, counted.tests, counted.left_out),
        "left_out": list(_left_out(desk))[:MOST_LEFT_OUT],
        "stores": sorted(_stores(desk), key=lambda store: store[0], reverse=True),
        "habits": list(_habits(desk)),
        "untested": untested,
        "next": [_next(desk, found) for found in next_trials(desk.reckoning)[:MOST_NEXT]],
        "menus": bool(desk.book.menus),
    }


def _stores(desk: Desk) -> Iterator[tuple[float, StoreLesson]]:
    lessons, priors = desk.reckoning.lessons, store_priors(desk.reckoning.stores)
    for name, prior in priors.items():
        now = lessons.learned.of(name)
        if now is None:
            continue
        stands_on = tally(lessons.of_store(name))
        moved = abs(now.mean - prior.mean) / prior.sd
        if moved < WORTH_TELLING_SD:
            continue
        yield (
            moved,
            StoreLesson(
                name,
                desk.store_pages[name],
                f"{percent(prior.mean)} ± {percent(prior.sd)}",
                f"{percent(now.mean)} ± {percent(now.sd)}",
                str(stands_on.trials + stands_on.tests),
                _("drinks more, so far") if now.mean > prior.mean else _("drinks less, so far"),
            ),
        )


def _habits(desk: Desk) -> Iterator[Habit]:
    learned = desk.reckoning.lessons.learned
    for name, usual in CONSISTENCIES.items():
        offset = learned.of(f":{name}")
        if offset is None or abs(offset.mean) < WORTH_TELLING_SD * usual.free_ratio_sd:
            continue
        words = _(LOOSER if offset.mean > 0 else STIFFER).format(
            here=percent(usual.free_ratio + offset.mean), usual=percent(usual.free_ratio)
        )
        yield Habit(consistency_name(name), words)


def _left_out(desk: Desk) -> Iterator[dict[str, str]]:
    """Give the trials that contradict the rest, the newest first."""
    slips = [record for record in desk.reckoning.lessons.records if record.left_out]
    dish_of = {
        part_name(dish, part): (dish, part)
        for dish in desk.reckoning.dishes.values()
        for part in dish.parts
    }
    for record in sorted(slips, key=lambda record: record.day, reverse=True):
        dish, part = dish_of[record.name]
        yield {
            "title": dish.recipe.keys.title,
            "href": desk.page_of[dish.recipe.address],
            "part": part_title(part.name) if len(dish.parts) > 1 else "",
            "day": record.day,
            "place": _("{file}, line {line}").format(
                file=record.place.path, line=record.place.line
            ),
        }


def _next(desk: Desk, found: NextTrial) -> dict[str, str]:
    dish = found.dish
    several = len(dish.parts) > 1
    return {
        "title": dish.recipe.keys.title,
        "href": desk.page_of[dish.recipe.address],
        "part": part_title(found.part.name) if several else "",
    }
