"""The index holds every meal wherever it belongs, with the figures of the meal's own page."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag

from cookbook_build.findings import Findings
from cookbook_build.kitchen.conditions import METHODS
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.publishing.finder import folded
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.theme import environment, theme_folder

ROOT = Path(__file__).parents[3]
BOOKS = ("content_demo", "tests/crowded_book")
Rendered = dict[str, BeautifulSoup]


def reckoning_of(folder: Path) -> Reckoning:
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    return reckoned(book, findings)


def rendered(reckoning: Reckoning) -> Rendered:
    pages = Pages(reckoning, environment(theme_folder()))
    return {
        name: BeautifulSoup(text, "lxml") for name, text in pages.render() if name.endswith(".html")
    }


@pytest.fixture(scope="module", params=BOOKS)
def book(request: pytest.FixtureRequest) -> tuple[Reckoning, Rendered]:
    reckoning = reckoning_of(ROOT / request.param)
    return reckoning, rendered(reckoning)


@pytest.fixture(scope="module")
def pages(book: tuple[Reckoning, Rendered]) -> Rendered:
    return book[1]


def recipes(pages: Rendered) -> dict[str, BeautifulSoup]:
    """Return the pages of the meals."""
    return {name: page for name, page in pages.items() if page.select_one("article.recipe")}


def line_of(pages: Rendered, name: str) -> Tag:
    """Return a meal's line in the index by name."""
    found = pages["find.html"].select(f'.names li:has(> a[href="{name}"])')
    assert len(found) == 1, name
    return found[0]


def hrefs(part: Tag, selector: str) -> list[str]:
    return [str(link["href"]) for link in part.select(selector)]


def test_every_meal_stands_once_in_the_index_by_name(pages: Rendered) -> None:
    found = hrefs(pages["find.html"], ".names .meals > li > a")
    assert sorted(found) == sorted(recipes(pages))
    titles = [link.get_text() for link in pages["find.html"].select(".names .meals > li > a")]
    assert titles == sorted(titles, key=folded)


def test_every_meal_of_every_store_stands_in_the_index_by_store(
    book: tuple[Reckoning, Rendered],
) -> None:
    reckoning, pages = book
    index = pages["find.html"]
    for name, page in pages.items():
        if not page.select_one("article.store"):
            continue
        used = sorted(hrefs(page, ".uses a"))
        lines = index.select(f'.held li:has(> a.store[href="{name}"])')
        assert len(lines) == bool(used), name
        for line in lines:
            assert sorted(f"../{href}" for href in hrefs(line, ":scope > ul a")) == used
    called = [
        (other, store.name)
        for store in reckoning.stores.values()
        for other in store.store.keys.also_called
        if reckoning.meals_using(store.name)
    ]
    seen = [tuple(line.get_text().split(", see ")) for line in index.select(".held .see")]
    assert sorted(seen) == sorted(called)


def test_every_meal_of_every_way_stands_in_the_index_by_way_the_soonest_first(
    pages: Rendered,
) -> None:
    index = pages["find.html"]
    for method in METHODS:
        using = [
            name
            for name, page in recipes(pages).items()
            if page.select(f'.method input[value="{method}"]')
        ]
        found = index.select(f'.ways [data-way="{method}"]')
        assert len(found) == bool(using)
        for part in found:
            assert sorted(hrefs(part, "a")) == sorted(using)
            shown = [minutes_of(figure.get_text()) for figure in part.select(".figure")]
            assert shown == sorted(shown)


def minutes_of(words: str) -> int:
    """Return a time in minutes as a reader reads it."""
    hours, rest = re.search(r"(\d+)\s*h", words), re.search(r"(\d+)\s*min", words)
    return 60 * int(hours.group(1) if hours else 0) + int(rest.group(1) if rest else 0)


def test_a_line_says_what_the_meal_s_own_page_says(pages: Rendered) -> None:
    for name, page in recipes(pages).items():
        line = line_of(pages, name)
        head = [cell.get_text() for cell in page.select(".nourishment thead th")]
        row = next(
            row for row in page.select(".nourishment tbody tr")
            if row.th and row.th.get_text() == "Energy"
        )  # fmt: skip
        energy = row.select("td")[head.index("100 g dry")].get_text()
        assert energy == f"{line['data-energy']}\N{NO-BREAK SPACE}kcal"
        assert line.select(".times > span")[-1].get_text() == energy

        times = dict(pair.split(":") for pair in str(line["data-ways"]).split())
        methods = [str(choice["value"]) for choice in page.select(".method input")]
        assert list(times) == methods
        for span in line.select("[data-way]"):
            assert minutes_of(span.get_text()) == int(times[str(span["data-way"])])
        chosen = page.select_one(".method input[checked]")
        told = page.select_one('script[type="application/ld+json"]')
        assert chosen is not None
        assert told is not None
        total = json.loads(told.get_text())["totalTime"]
        hours, rest = re.fullmatch(r"PT(?:(\d+)H)?(?:(\d+)M)?", total).groups()  # type: ignore[union-attr]
        assert int(times[str(chosen["value"])]) == 60 * int(hours or 0) + int(rest or 0)

        said = next(
            words.get_text() for words in page.select(".nourishment p")
            if words.get_text().startswith("Allergens")
        )  # fmt: skip
        listed = said.split("author: ")[1].split(". Looked for")[0]
        boxes = {
            str(box["value"]): box.parent.get_text()
            for box in pages["find.html"].select('[name^="without/"]')
            if box.parent
        }
        found = [boxes[anchor] for anchor in str(line["data-allergens"]).split()]
        assert (", ".join(found) or "none found") == listed


def test_a_line_holds_the_stores_of_its_mix_and_needs_those_that_it_can_t_do_without(
    pages: Rendered,
) -> None:
    for name, page in recipes(pages).items():
        line = line_of(pages, name)
        held, needed = set(), set()
        for row in page.select(".mix table:not(.poured) tbody tr"):
            assert row.a is not None
            anchor = Path(str(row.a["href"])).stem
            held.add(anchor)
            is_optional = any(mark.get_text() == "optional" for mark in row.select(".mark"))
            amount = row.select(".amount")[0].get_text()
            if not is_optional and amount != "to taste":
                needed.add(anchor)
        assert set(str(line["data-holds"]).split()) == held
        assert set(str(line["data-needs"]).split()) == needed


def test_each_store_on_the_shelves_can_be_ticked_once(pages: Rendered) -> None:
    index = pages["find.html"]
    boxes = [str(box["value"]) for box in index.select('[name^="have/"]')]
    assert sorted(boxes) == sorted(str(line["data-store"]) for line in index.select("[data-store]"))
    shelves = [name.get_text() for name in pages["larder.html"].select(".shelf h2")]
    drawers = [name.get_text() for name in index.select("#drawer-shelf legend")]
    assert [name for name in shelves if name in drawers] == drawers


def test_what_an_author_wrote_stays_text_in_the_index(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "book.yaml").write_text("title: 'A \"book\" & more'\n")
    (tmp_path / "larder.yaml").write_text(
        '"o\\"a": {food: oats, dried: bought, also called: [\'<i>\', \'x" onclick="y\']}\n'
    )
    (tmp_path / "recipes" / "bowl.md").write_text(
        "---\ntitle: 'Élan \" data-energy=\"1\"'\nblurb: '\"><b>'\nseries: 'S \"'\n"
        'ingredients:\n  - 1 cup o"a\n---\n{water}\n'
    )
    index = rendered(reckoning_of(tmp_path))["find.html"]
    line = index.select(".names li")[0]
    assert line["data-blurb"] == '"><b>'
    assert line["data-series"] == 'S "'
    assert int(str(line["data-energy"])) > 300
    assert line["data-initial"] == "E"
    assert not index.select("[onclick], main b, main i")
    store = index.select("[data-store]")[0]
    assert store["data-called"] == '<i>; x" onclick="y'


def test_a_book_without_meals_has_an_index_too(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "book.yaml").write_text("title: A book\n")
    (tmp_path / "larder.yaml").write_text("oats: {food: oats, dried: bought}\n")
    index = rendered(reckoning_of(tmp_path))["find.html"]
    assert index.select("h1")[0].get_text() == "Index"
    assert not index.select(".meals li, [data-store], [name^=without]")


def test_letters_fold_as_they_are_looked_up() -> None:
    assert folded("Crème Brûlée") == "creme brulee"
    assert folded("Straße") == "strasse"


def test_the_contents_tell_the_same_time_as_the_index(pages: Rendered) -> None:
    for entry in pages["index.html"].select(".entry:has(.ways)"):
        assert entry.a is not None
        name = str(entry.a["href"])
        chosen = pages[name].select_one(".method input[checked]")
        assert chosen is not None
        way = line_of(pages, name).select_one(f'[data-way="{chosen["value"]}"]')
        shown = entry.select_one(".time")
        assert way is not None
        assert shown is not None
        assert minutes_of(shown.get_text()) == minutes_of(way.get_text())
