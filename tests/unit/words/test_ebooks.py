"""E-books, the larder, lessons and drawings, in a made-up language: no English is left."""

from __future__ import annotations

import re
from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from lxml import etree

from cookbook_build.findings import Findings
from cookbook_build.foods.table import load_foods
from cookbook_build.kitchen.beliefs import Belief, Learned
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.camp import jar_day
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.publishing import epub_words
from cookbook_build.publishing.curves import jar_curve
from cookbook_build.publishing.cut_words import CUTS, PLAIN
from cookbook_build.publishing.desk import desk_for
from cookbook_build.publishing.epub import epub_volumes, packed
from cookbook_build.publishing.epub_words import said_by_size
from cookbook_build.publishing.larder_pages import larder_page, store_page
from cookbook_build.publishing.learned_page import learned_page
from cookbook_build.publishing.mix_drawing import mix_drawings
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.pictures import made_pictures
from cookbook_build.publishing.tables import SizeGroup, SizeTable, size_row
from cookbook_build.publishing.theme import environment, theme_folder

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from cookbook_build.manuscript.recipes import Recipe
    from cookbook_build.publishing.desk import Desk

LINES_OF_THE_KIT = {
    "{name: medium, width: 18 cm, height: 26 cm}", "{name: quart, holds: 950 mL}",
}  # fmt: skip
"""What a page says that book.yaml may hold: keys are English in every book."""

BOOKS = {name: Path(__file__).parents[3] / name for name in ("content_demo", "tests/crowded_book")}
XHTML = "{http://www.w3.org/1999/xhtml}"
SPOKEN = ("alt", "aria-label", "title")
WITHIN_A_LINE = {"a", "b", "i", "strong", "em", "small", "time", "span", "br", "code"}

pytestmark = pytest.mark.usefixtures("bracketed")
books = pytest.mark.parametrize("name", BOOKS)


@cache
def reckoning_of(name: str) -> Reckoning:
    findings = Findings()
    book = read_book(BOOKS[name], findings)
    assert book is not None
    return reckoned(book, findings)


def desk_of(name: str) -> Desk:
    reckoning = reckoning_of(name)
    return desk_for(reckoning, made_pictures(reckoning.book, Findings()))


def texts(page: bytes) -> Iterator[str]:
    """Give what a reader sees or hears of a page, but not what the author wrote as prose."""
    root = etree.fromstring(page)
    for prose in root.iter(f"{XHTML}section", f"{XHTML}div"):
        if prose.get("class") == "prose":
            for child in list(prose):
                if child.get("id") != "steps" and child.get("class") != "note":
                    prose.remove(child)
    for element in root.iter(etree.Element):
        yield from (element.get(name, "") for name in SPOKEN)
    yield from "".join(_pieces(root)).split("\n\n")


def _pieces(element: etree._Element) -> Iterator[str]:
    """Give the text of an element, with an empty line around what stands on lines of its own."""
    apart = "" if element.tag.removeprefix(XHTML) in WITHIN_A_LINE else "\n\n"
    yield apart + (element.text or "")
    for child in element:
        yield from _pieces(child)
        yield child.tail or ""
    yield apart


def own_words(reckoning: Reckoning) -> set[str]:
    """Return what the author of a book wrote and a page shows as it is."""
    keys = reckoning.book.book
    found = {keys.title, keys.subtitle, keys.author, keys.contact, keys.cover_text}
    for name, one in keys.series.items():
        found |= {name, one.about, one.picture_text}
    for recipe in reckoning.book.recipes.values():
        found |= set(_words_of(recipe))
    for page in reckoning.book.pages:
        found |= {page.keys.title, page.keys.picture_text}
    for store in reckoning.stores.values():
        of = store.store.keys
        found |= {store.name, of.form, of.note, *of.also_called}
        # the reference table's own name of a food, which stays English, and whose it is
        found |= {store.food.name if store.food else "", "USDA SR28"}
    found |= {word for row in reckoning.book.stock for word in (row.lot, row.container)}
    found |= {
        word for reply in reckoning.book.replies for word in (reply.trial.by, reply.trial.note)
    }
    found |= {record.place.path for record in reckoning.lessons.records}
    found |= {pouch.name for pouch in keys.kit.pouches} | {jar.name for jar in keys.kit.jars}
    for dish in reckoning.dishes.values():  # a long name stands in two lines of the drawing
        layers = (layer for drawing in mix_drawings(dish) for layer in drawing.layers)
        found |= {line for layer in layers if len(layer.name) > 1 for line in layer.name}
    return {word for word in found if word} | LINES_OF_THE_KIT


def _words_of(recipe: Recipe) -> Iterator[str | None]:
    keys = recipe.keys
    yield from (
        keys.title,
        keys.blurb,
        keys.picture_text,
        keys.makes,
        (keys.makes or "").lstrip("1234567890 "),
    )
    for part in recipe.components:
        yield part.name
        for trial in part.trials:
            yield from (trial.by, trial.note)
        for line in part.ingredients:
            yield from (line.name, line.preparation, line.size, line.note)


@books
def test_no_page_of_an_e_book_has_english_of_ours(
    name: str, english_in: Callable[..., list[str]]
) -> None:
    own = own_words(reckoning_of(name))
    reckoning, templates = reckoning_of(name), environment(theme_folder())
    pages = Pages(reckoning, templates, made_pictures(reckoning.book, Findings()))
    for volume in epub_volumes(pages):
        for page, held in packed(volume, templates):
            data = held if isinstance(held, bytes) else held.whole
            if page.endswith(".xhtml"):
                assert english_in(list(texts(data)), own=own) == [], page
            if page.endswith(".opf"):
                (said,) = re.findall(r'accessibilitySummary">([^<]+)<', data.decode())
                assert english_in(said) == []


@books
def test_the_larder_and_its_stores_are_looked_up(
    name: str, english_in: Callable[..., list[str]]
) -> None:
    desk = desk_of(name)
    views = [larder_page(desk), *(store_page(desk, one) for one in desk.reckoning.stores.values())]
    assert english_in(list(_shown(views)), own=own_words(desk.reckoning)) == []


@books
def test_lessons_and_plots_of_trials_are_looked_up(
    name: str, english_in: Callable[..., list[str]]
) -> None:
    desk = desk_of(name)
    plots = [plot for view in desk.views.values() for plot in view.plots]
    assert name != "content_demo" or plots
    shown = [
        *_shown(learned_page(desk)),
        *(text for plot in plots for text in (plot.name, plot.mean, plot.band, plot.says)),
        *(word for plot in plots for _y, word in plot.ticks),
        *(text for plot in plots for mark in plot.marks for text in (mark.word, mark.says)),
    ]
    assert english_in(shown, own=own_words(desk.reckoning)) == []


def test_the_words_in_a_jars_drawing_are_looked_up(english_in: Callable[..., list[str]]) -> None:
    dishes = [
        dish for dish in reckoning_of("content_demo").dishes.values() if "jar" in dish.methods
    ]
    curves = [jar_curve(jar_day(dish, size)) for dish in dishes for size in (1, 4)]
    assert any(curve.lunch for curve in curves)
    ticks = [tick for one in curves for tick in (one.crossing, one.eat_by, one.lunch) if tick]
    assert english_in([one.says for one in curves], [tick.word for tick in ticks]) == []


@pytest.mark.parametrize("language", ["⟦small⟧", "small"])
def test_names_keep_their_capital_where_a_language_wants_it(
    language: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(epub_words, "pgettext", lambda _context, _text: language)
    rows = (size_row("Wärme", {1: ("9", "8")}),)
    (group,) = said_by_size(SizeTable("", "", "", ("A", "B"), (SizeGroup("", rows),)))
    wanted = "wärme" if language == "small" else "Wärme"
    assert group.said[0].lines[0] == f"A: {wanted} 9."


def test_a_households_habit_is_named_in_its_language(monkeypatch: pytest.MonkeyPatch) -> None:
    desk = desk_of("content_demo")
    believed = {":stew": Belief(0.3, 0.05)}  # looser than the usual by more than its deviation
    monkeypatch.setattr(Learned, "of", lambda _learned, name: believed.get(name))
    (habit,) = learned_page(desk)["habits"]
    assert habit.name == "⟦stew⟧"
    assert "75\N{NO-BREAK SPACE}%" in habit.words
    assert habit.words.startswith("⟦looser than most")


def test_every_cut_of_the_food_table_can_be_looked_up() -> None:
    named = {cut for food in load_foods().foods for cut, _grams in food.grams_per_cup}
    assert named - {PLAIN} == CUTS


def _shown(view: object, key: str = "") -> Iterator[str]:
    """Give every text of a view that no address and no name of a place is."""
    if is_dataclass(view):
        view = {field.name: getattr(view, field.name) for field in fields(view)}
    if isinstance(view, dict):
        for name, value in view.items():
            yield from _shown(value, name)
    elif isinstance(view, list | tuple):
        for value in view:
            yield from _shown(value, key)
    elif isinstance(view, str) and key not in {"href", "anchor"}:
        yield view
