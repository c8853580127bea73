"""What the cards of a recipe say is looked up, whatever language is spoken."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings, Place
from cookbook_build.kitchen.jars import Change
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.camp import jar_day
from cookbook_build.planning.cautions import (
    JarCaution,
    LateCaution,
    RawCaution,
    SlowCaution,
    SoakCaution,
)
from cookbook_build.planning.lots import Lot
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.publishing.camp_views import camp_tables
from cookbook_build.publishing.cautioning import caution_views, in_words
from cookbook_build.publishing.heat_views import heat_views
from cookbook_build.publishing.keeping_views import damp_lot, damp_mix, keeping_view
from cookbook_build.publishing.nourish_views import nourish_view, store_nourish_view
from cookbook_build.publishing.pours import pours
from cookbook_build.publishing.views import dish_view, serving_sizes

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from cookbook_build.planning.cautions import Caution
    from cookbook_build.planning.dishes import Dish

DEMO = Path(__file__).parents[3] / "content_demo"
pytestmark = pytest.mark.usefixtures("bracketed")


@cache
def demo() -> Reckoning:
    findings = Findings()
    book = read_book(DEMO, findings)
    assert book is not None
    return reckoned(book, findings)


ADDRESSES = sorted(demo().dishes)


def own_words(dish: Dish) -> Iterator[str]:
    """Give what the author of the demo book wrote: names, notes and who made a trial."""
    kit = demo().book.book.kit
    yield from demo().stores
    yield from (pouch.name for pouch in kit.pouches)
    yield from (jar.name for jar in kit.jars)
    yield from (part.text.name for part in dish.parts if part.text.name)
    for trials in demo().lessons.records:
        if trials.keys:
            yield from filter(None, (trials.keys.by, trials.keys.note))
    if dish.recipe.keys.makes:
        yield dish.recipe.keys.makes.lstrip("0123456789 ")
    for lots in demo().lots.values():
        yield from (lot.name for lot in lots)


def water_words(dish: Dish) -> list[object]:
    view = dish_view(dish, demo().book, demo().lessons)
    answers = [
        (answer.method_name, answer.method_line, answer.parts, answer.makes, answer.jars,
         answer.eat_within, answer.cautions)
        for answer in view.answers
    ]  # fmt: skip
    return [
        answers, [names for _, *names in view.methods], view.table, view.without_optional,
        view.tested_words, view.reasons, view.trials, view.learned, view.altitude, view.minutes,
    ]  # fmt: skip


def heat_words(dish: Dish) -> list[object]:
    cards = heat_views(dish, serving_sizes(dish, demo().book))
    return [(card.title, card.table, card.notes) for card in cards]


def camp_words(dish: Dish) -> list[object]:
    return [camp_tables(dish, demo().book, serving_sizes(dish, demo().book))]


def nourish_words(dish: Dish) -> list[object]:
    stores = [line.store for part in dish.parts for line in part.lines]
    return [
        nourish_view(dish, demo().book),
        [store_nourish_view(store, demo().book) for store in stores],
    ]


def keeping_words(dish: Dish) -> list[object]:
    sizes = serving_sizes(dish, demo().book)
    card = keeping_view(dish, demo().book, sizes, demo().lots)
    rows = [row for group in card.table.groups for row in group.rows]
    return [card.notes, card.table.caption, [(row.name, row.note) for row in rows]]


def caution_words(dish: Dish) -> list[object]:
    return [
        caution_views(dish, size, method, altitude_m)
        for method in dish.methods
        for size in (1, 8)
        for altitude_m in (None, 4000.0)
    ]


@pytest.mark.parametrize("address", ADDRESSES)
@pytest.mark.parametrize(
    "words",
    [water_words, heat_words, camp_words, nourish_words, keeping_words, caution_words],
)
def test_a_card_says_nothing_that_was_not_looked_up(
    address: str, words: Callable[[Dish], list[object]], english_in: Callable[..., list[str]]
) -> None:
    dish = demo().dishes[address]
    assert english_in(*words(dish), own=own_words(dish)) == []


def jar_cautions() -> Iterator[Caution]:
    """Give a caution for each change that a jar may want, safe at lunch or not."""
    dish = next(dish for dish in demo().dishes.values() if "jar" in dish.methods)
    day = jar_day(dish, 2)
    for kind in ("preheat", "fill", "smaller jar", "more water", "none"):
        for lunch_s in (3600.0, 360_000.0):
            yield JarCaution(type(day)(2, day.card, lunch_s, Change(kind, 350.0)))
    yield JarCaution(type(day)(2, day.card, 3600.0, Change("fill", 3.0, 2)))


@pytest.mark.parametrize(
    "caution",
    [
        RawCaution("Turkey", 73.9, 99.0),
        RawCaution("Turkey", 73.9, 70.0),
        SoakCaution(7200.0, 3600.0, 9000.0),
        SoakCaution(7200.0, 36_000.0, 90_000.0),
        SoakCaution(7200.0, 36_000.0, 90_000.0, "Cream"),
        SlowCaution("Main bowl", 8000.0),
        LateCaution("Main bowl", 8000.0, 7200.0),
        *jar_cautions(),
    ],
)
def test_every_caution_is_looked_up_whole(
    caution: Caution, english_in: Callable[..., list[str]]
) -> None:
    said = in_words(caution)
    assert said.head.removeprefix("Cream").startswith("⟦")
    assert english_in(said.head, said.text, own=["Turkey", "Cream"]) == []


@pytest.mark.parametrize(
    ("moisture", "least", "lost_share"), [(0.14, None, 0.0), (None, 0.14, 0.0), (0.03, None, 0.025)]
)
def test_a_lot_too_damp_to_seal_is_told_whole(
    moisture: float | None,
    least: float | None,
    lost_share: float,
    english_in: Callable[..., list[str]],
) -> None:
    lot = Lot(
        "leeks", "L-3", dt.date(2026, 5, 1), "bag", 90.0, dt.date(2026, 9, 1), moisture,
        Place("stock.csv"), least_moisture=least, lost_share=lost_share,
    )  # fmt: skip
    assert lot.refusal
    assert english_in(damp_lot(lot), own=["leeks", "L-3"]) == []


@pytest.mark.parametrize("several", [True, False])
def test_a_mix_too_damp_to_seal_is_told_whole(
    several: bool,  # noqa: FBT001 - a case of the table
    english_in: Callable[..., list[str]],
) -> None:
    part = next(iter(demo().dishes.values())).parts[0]
    assert english_in(damp_mix(part, 0.14, several=several), own=[part.name]) == []


def test_a_component_that_its_author_named_keeps_its_name() -> None:
    """The steps find it by that name: `{water: Main bowl}`."""
    dish = demo().dishes["barley-and-leek-supper"]
    main, other = dish.parts
    assert main.text.name is None
    named = replace(other, text=replace(other.text, name="Main bowl"), name="Main bowl")
    made = replace(dish, parts=(main, named))
    assert [pour.name for pour in pours(made, demo().book, 2, "kettle")] == [
        "⟦Main bowl⟧",
        "Main bowl",
    ]
