"""A pocket card says what `water --json` says, drops no caution, and gives way in order."""

from __future__ import annotations

import contextlib
import itertools
import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup, Tag
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from cookbook_build.cli import main
from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.measures.card_papers import CARDS_MM, CardPaper, named_card, read_card
from cookbook_build.measures.numbers import NumberError
from cookbook_build.planning.card_paper import card_paper, card_sheet, larger_papers
from cookbook_build.planning.label_paper import PAPERS_MM
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.publishing.answers import answer
from cookbook_build.publishing.card_fitting import LEAST_WITH_HELPS_PT, FittedCard, fitted_card
from cookbook_build.publishing.card_words import CardText, card_text
from cookbook_build.publishing.cautioning import GUIDANCE
from cookbook_build.publishing.desk import raw_view
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.theme import environment, theme_folder
from cookbook_build.publishing.wording import METHOD_NAMES, millilitres, minutes, until

DEMO = Path(__file__).parents[3] / "content_demo"
METHOD_OF = {name.casefold(): method for method, name in METHOD_NAMES.items()}


@cache
def demo() -> Reckoning:
    findings = Findings()
    book = read_book(DEMO, findings)
    assert book is not None
    return reckoned(book, findings)


@cache
def rendered() -> Pages:
    return Pages(demo(), environment(theme_folder()))


@cache
def page(name: str) -> BeautifulSoup:
    return BeautifulSoup(dict(rendered().render())[name], "lxml")


def cards() -> list[Tag]:
    return page("cards.html").select(".card")


def of(tag: Tag) -> str:
    address = tag["id"]
    assert isinstance(address, str)
    return address


def said(tag: Tag) -> str:
    return " ".join(tag.get_text(" ").split())


@cache
def texts() -> tuple[CardText, ...]:
    desk = rendered().desk
    return tuple(
        card_text(
            dish,
            desk.book,
            [raw_view(desk, name) for name in dish.raw_stores],
            desk.views[address].answers,
            desk.views[address].mix,
        )
        for address, dish in desk.reckoning.dishes.items()
    )


def poured(tag: Tag) -> list[tuple[int, str, int, list[str]]]:
    """Return the water on a card: component, method, servings, figures."""
    found = []
    for at, table in enumerate(tag.select(".water-table")):
        for group in table.select("tbody"):
            head = group.select_one(".way b")
            assert head is not None
            words = head.get_text().removesuffix(".").replace(" and ", ", ").casefold()
            ways = list(METHOD_OF.values()) if words == "each way" else [
                METHOD_OF[word] for word in words.split(", ")
            ]  # fmt: skip
            for row in group.select("tr:has(td)"):
                size = row.th
                assert size is not None
                figures = [cell.get_text() for cell in row.select("td")]
                found += [(at, way, int(size.get_text()), figures) for way in ways]
    return found


def test_every_meal_has_a_card_that_its_page_links_to() -> None:
    assert [of(card) for card in cards()] == list(demo().dishes)
    for address in demo().dishes:
        link = page(f"recipes/{address}.html").select_one(f'a[href="../cards.html#{address}"]')
        assert link is not None


def test_the_water_of_every_card_is_that_of_the_terminal() -> None:
    checked = 0
    for card in cards():
        dish = demo().dishes[of(card)]
        for at, method, size, figures in poured(card):
            if method not in dish.methods:
                continue  # "each way" stands for those that the recipe has
            found = answer(demo(), dish, size, method, None)
            part = found["components"][at]
            both_ml, shown = part["start_ml"] + part["hold_back_ml"], part["measures"]
            assert figures[:2] == [shown["start"], shown["hold_back"]], (of(card), method)
            # two volumes that come rounded to a thousandth
            assert figures[2] in {millilitres(both_ml + more) for more in (-0.001, 0, 0.001)}
            # seconds come rounded to a tenth
            assert figures[3] in {minutes(part["rest_s"] + more) for more in (-0.05, 0, 0.05)}
            if at == 0:
                # hours come rounded down to a hundredth, which is 36 s
                assert figures[4] in {until(3600 * found["eat_by_h"] + more) for more in (0, 36)}
            checked += 1
    assert checked > 150


def test_a_card_agrees_with_the_command_itself() -> None:
    arguments = ["water", "barley-and-leek-supper", "--book", str(DEMO), "--json"]
    found: dict[str, Any] = json.loads(CliRunner().invoke(main, arguments).output)
    card = next(card for card in cards() if of(card) == "barley-and-leek-supper")
    for at, part in enumerate(found["components"]):
        rows = [row for row in poured(card) if row[:3] == (at, "kettle", 1)]
        assert [row[3][:2] for row in rows] == [
            [part["measures"]["start"], part["measures"]["hold_back"]]
        ]


def test_the_mix_of_every_card_is_that_of_its_page() -> None:
    for card in cards():
        shown = page(f"recipes/{of(card)}.html").select(".mix td[data-servings]")
        amounts = {said(cell) for cell in shown}
        tables = card.select(".mix-table")
        assert len(tables) == len(demo().dishes[of(card)].parts)
        one = len(tables[0].select("thead th")) == 2
        for row in (row for table in tables for row in table.select("tbody tr")):
            cells = [said(cell) for cell in row.select("td")]
            told = [" ".join(cells).strip()] if one else cells
            assert set(told) <= amounts, (of(card), row)


def test_no_caution_of_a_page_is_missing_on_its_card() -> None:
    warned = 0
    for card in cards():
        words, ways = said(card), {(method, size) for _, method, size, _ in poured(card)}
        desk = rendered().desk
        dish = demo().dishes[of(card)]
        told = [raw_view(desk, name) for name in dish.raw_stores]
        for shown in desk.views[of(card)].answers:
            if (shown.method, shown.servings) in ways:
                told += shown.cautions
        for caution in told:
            bare = " ".join(caution.text.replace(GUIDANCE, "").split())
            assert caution.head in words
            assert bare in words
            warned += 1
        assert GUIDANCE in words
    assert warned > 20


def test_what_was_dried_raw_is_told_on_both_sides() -> None:
    card = next(c for c in cards() if of(c) == "turkey-mince-with-apples-and-barley")
    sides = [said(side) for side in card.select(".face")]
    assert ["Raw turkey mince." in side for side in sides] == [True, True]
    assert "74 °C (165 °F)" in sides[0].replace("\N{NO-BREAK SPACE}", " ")
    assert "The time alone is not enough" in sides[1]


def test_allergens_series_and_altitude_stand_on_every_card() -> None:
    for card in cards():
        recipe = page(f"recipes/{of(card)}.html")
        listed = next(p for p in recipe.select(".nourishment p") if "Allergens" in p.get_text())
        names = said(listed).split(": ")[1].split(". Looked")[0]
        assert all(
            name in said(card) for name in names.replace("none found", "").split(", ") if name
        )
        kicker = recipe.select_one(".kicker")
        assert kicker is not None
        assert " ".join(kicker.get_text("").split()) in said(card)
        assert "310 m" in said(card)


def held(fitted: FittedCard | None) -> tuple[int, int]:
    if fitted is None:
        return 0, 0
    return len(fitted.back.choice.sizes), len(fitted.back.choice.methods)


def test_a_larger_card_never_holds_fewer_sizes() -> None:
    for text in texts():
        papers = [CardPaper("", width, 1.4 * width) for width in range(60, 210, 15)]
        counts = [held(fitted_card(text, paper)) for paper in papers]
        assert [ways for _, ways in counts] == sorted(ways for _, ways in counts)
        assert [sizes for sizes, _ in counts] == sorted(sizes for sizes, _ in counts)


def test_sizes_give_way_first_then_ways_then_grams() -> None:
    for text in texts():
        choices = list(text.choices())
        assert (choices[0].sizes, choices[0].methods) == (text.sizes, text.methods)
        assert choices[-1] == text.least(narrow=False)
        for before, after in itertools.pairwise(choices):
            if len(after.methods) < len(before.methods):
                assert len(before.sizes) == 1
            if before.grams and not after.grams:
                assert len(before.methods) == 1
            assert after.sizes[0] <= text.dish.default_servings <= after.sizes[-1]
            assert text.dish.default_method in after.methods


def test_small_type_is_only_for_what_must_stand() -> None:
    for text in texts():
        for name in CARDS_MM:
            fitted = fitted_card(text, named_card(name))
            for face in (fitted.front, fitted.back) if fitted else ():
                assert face.type_pt >= LEAST_WITH_HELPS_PT or not face.choice.grams


def test_a_full_front_takes_no_size_from_the_water() -> None:
    fuller = 0
    for text in texts():
        for name in CARDS_MM:
            if fitted := fitted_card(text, named_card(name)):
                mix, water = fitted.front.choice.sizes, fitted.back.choice.sizes
                assert set(mix) <= set(water)
                fuller += len(water) > len(mix)
    assert fuller >= 3


@pytest.mark.parametrize(
    ("text", "sides"),
    [
        ("A6", (105, 148)),  # ISO 216
        ("a7", (74, 105)),  # ISO 216
        ("index card", (76.2, 127)),  # 3 by 5 inches of 25.4 mm, common practice, no source
        ("4 x 6 in", (101.6, 152.4)),
        ("6 × 4 in", (152.4, 101.6)),
        ("148 by 105 mm", (148, 105)),
        ("10 cm x 6 in", (100, 152.4)),
    ],
)
def test_a_card_is_named_or_measured(text: str, sides: tuple[float, float]) -> None:
    found = read_card(text)
    assert (found.width_mm, found.height_mm) == pytest.approx(sides)
    assert found.name


@given(st.text(max_size=30))
def test_any_text_is_a_card_or_no_card_with_a_cause(text: str) -> None:
    with contextlib.suppress(NumberError):
        assert read_card(text).area_mm2 > 0


@settings(deadline=None)
@given(st.floats(50, 210), st.floats(75, 279), st.sampled_from(sorted(PAPERS_MM)))
def test_cards_lie_within_their_sheet_and_a_larger_paper_covers_them(
    width: float, height: float, paper: str
) -> None:
    asked = CardPaper("", width, height)
    on = card_sheet(asked, paper)
    of = on.sheet
    # half a millimetre of slack: makers round their measures, our choice
    assert of.left + (of.columns - 1) * of.across + of.width <= of.paper_width + 0.5 + 1e-6
    assert of.top + (of.rows - 1) * of.down + of.height <= of.paper_height + 0.5 + 1e-6
    for larger in larger_papers(asked, paper):
        assert larger.covers(asked)


def test_cups_choose_the_usual_card() -> None:
    keys = demo().book.book
    assert card_paper(keys) == named_card("A6")  # as the demo says
    bare = keys.model_copy(update={"cards": None})
    assert card_paper(bare) == named_card("4 x 6 in")
    assert card_paper(bare.model_copy(update={"measures": "metric-cups"})) == named_card("A6")
