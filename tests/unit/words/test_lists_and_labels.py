"""The pages of menus and the sheets of labels, in whatever language is spoken."""

from __future__ import annotations

import gettext
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from bs4 import BeautifulSoup

from cookbook_build.findings import Findings
from cookbook_build.foods import load_foods
from cookbook_build.foods.shop_words import shop_words
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.planning.shopping import (
    AUTHORS,
    COUNTED_GROUPS,
    SMALLEST_PIECE_G,
    ShoppingLine,
)
from cookbook_build.preserving.label_text import QR_BYTES, plain_text
from cookbook_build.publishing import label_sheets
from cookbook_build.publishing.label_words import LabelWords, label_words
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.provision_pages import provision_page
from cookbook_build.publishing.provisioning import LACKS
from cookbook_build.publishing.shop_lines import called, section_name, size_words
from cookbook_build.publishing.theme import environment, theme_folder
from cookbook_build.words import decimal_mark, languages, speech, spoken

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.packs import Pack

    English = Callable[..., list[str]]

DEMO = Path(__file__).parents[3] / "content_demo"
NOT_SHOWN = {"href", "key", "labels", "back"}
"""What a view holds for its template: addresses, and names of boxes to tick."""

KIT = """\
kit:
  dryer: {trays: 4, tray load: 900 g, removes: 90 g per h}
  pouches: [{name: little one, width: 13 cm, height: 18 cm}]
  jars: [{name: big one, holds: 900 mL}]
  absorbers: [20 mL, 50 mL]
"""
WITH_KIT = ("in each", "no plan has fewer", "dated as a closed")
HOT_SHELF = "kit: {shelf: {temperature: 50 °C}}\n"
WITHOUT = ("a few weeks", "names no dryer", "neither pouches", "names no absorbers")
FILES = {
    "book.yaml": "title: A book\naltitude: 310 m\n" + KIT,
    "larder.yaml": """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
carrots: {food: carrots raw, dried: air, weighs: 58 g per cup}
leeks: {food: leeks raw, dried: freeze, form: sliced}
plums: {food: plums raw, dried: freeze, form: halved}
barley: {food: pearl barley cooked, dried: freeze, cooked first: true}
turkey mince: {food: ground turkey raw, dried: freeze, raw: true, weighs: 60 g per cup}
beef strips: {food: beef chuck raw, dried: air, raw: true, weighs: 60 g per cup}
raisins: {food: raisins, dried: bought}
honey: {food: honey, dried: freeze, weighs: 300 g per cup}
flatbread: {food: flour tortillas, dried: fresh, sold by: piece}
ghee: {food: ghee, dried: fresh}
salt: {food: salt, dried: bought}
""",
    "recipes/bowl.md": """\
---
title: Bowl
consistency: stew
ingredients: [3 cups lentils, 1 tbsp carrots, 2 tbsp leeks, 1 tbsp ghee (fresh), salt to taste]
components:
  - {name: Crumble, ingredients: [2 tbsp barley, 1 tbsp plums, 1 flatbread (fresh)]}
---
""",
    "recipes/mince.md": """\
---
title: Mince
ingredients: [1/2 cup turkey mince, 1/4 cup beef strips, 1 tbsp honey]
---
""",
    "recipes/soak.md": """\
---
title: Soak
methods: [cold, jar]
ingredients: [1/2 cup leeks, 1 cup raisins]
---
""",
    "menus/m.yaml": """\
title: Nights out
about: Two nights.
people: 3
appetites: [1, 1, 1 1/2]
date: 2026-06-10
packed: 2026-06-05
meals:
  - {day: 1, meal: supper, recipe: bowl, servings: 12}
  - {day: 2, meal: supper, recipe: mince, method: stove, servings: 4}
  - {day: 2, meal: lunch, recipe: soak, method: cold}
""",
    "menus/n.yaml": """\
title: At home
people: 2
meals: [{day: 1, meal: supper, recipe: mince, altitude: 8000 m}]
""",
    "menus/o.yaml": """\
title: With a guest
people: 2
appetites: [1, 1 1/2]
meals: [{day: 1, meal: lunch, recipe: soak}]
""",
    "menus/p.yaml": """\
title: For two, and once for four
people: 2
meals:
  - {day: 1, meal: lunch, recipe: soak}
  - {day: 1, meal: supper, recipe: bowl, servings: 4}
""",
    "stock.csv": (
        "store,lot,packed on,container,grams\n"
        "leeks,L1,2024-01-02,paper bag,40\n"  # past its best
        "leeks,L2,2026-06-08,little one,40\n"  # packed later
        "plums,L3,2026-06-01,hat,40\n"  # nobody knows how it keeps
        "plums,L4,2026-06-01,little one,40\n"  # damp
        "lentils,L5,2026-06-01,little one,30\n"
        "carrots,L6,2026-06-01,little one,30\n"  # not told
        "turkey mince,L7,2026-06-01,little one,4\n"
    ),
    "drying-log.csv": (
        "date,store,lot,fresh g,dry g,hours,trays,last check\n"
        "2026-06-01,plums,L4,200,60,20,1,\n"
        "2026-06-01,carrots,L6,300,40,20,1,50\n"
    ),
}


@pytest.fixture
def book(tmp_path: Path) -> Callable[..., Reckoning]:
    def write(**changed: str) -> Reckoning:
        for name, text in (FILES | changed).items():
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        return read(tmp_path)

    return write


def read(folder: Path) -> Reckoning:
    findings = Findings()
    found = read_book(folder, findings)
    assert found is not None
    made = reckoned(found, findings)
    assert not findings.errors, [f"{one.place} {one.cause}" for one in findings.errors]
    return made


@pytest.fixture(scope="module")
def demo() -> Reckoning:
    return read(DEMO)


def own_words(found: Reckoning) -> Iterator[str]:
    """Give what the author wrote: titles, stores, components, containers, lots, examples."""
    for store in found.stores.values():
        yield from (store.name, store.store.keys.form or "")
    for pot in found.book.bases:
        yield pot.keys.title
    for lots in found.lots.values():
        for lot in lots:
            yield from (lot.name, lot.container)
    for provision in found.provisions:
        keys = provision.menu.keys
        yield from (keys.title, keys.about or "")
        for pack in provision.packs:
            yield from (pack.part.name, pack.lot, pack.plate.meal)
            yield pack.plate.dish.recipe.keys.title
            yield pack.packing.choice.container.name if pack.packing else ""
    yield from (example for _, example in LACKS.values())


def shown(view: Any) -> Any:  # noqa: ANN401 - whatever a view holds
    """Return a view without what no reader sees."""
    if isinstance(view, dict):
        return {key: shown(value) for key, value in view.items() if key not in NOT_SHOWN}
    return [shown(each) for each in view] if isinstance(view, list) else view


def labels(found: Reckoning) -> list[LabelWords]:
    return [
        words
        for provision in found.provisions
        for pack in provision.packs
        for words in label_words(pack, found.book)
    ]


def menu_views(found: Reckoning) -> list[Any]:
    desk = Pages(found, environment(theme_folder())).desk
    return [shown(provision_page(desk, provision)) for provision in found.provisions]


@pytest.mark.usefixtures("bracketed")
def test_all_that_a_menu_of_the_demo_shows_is_looked_up(
    demo: Reckoning, english_in: English
) -> None:
    views = menu_views(demo)
    assert views
    assert english_in(views, own=own_words(demo)) == []


@pytest.mark.usefixtures("bracketed")
@pytest.mark.parametrize("kit", [KIT, HOT_SHELF])
def test_what_a_menu_says_seldom_is_looked_up_too(
    book: Callable[..., Reckoning], english_in: English, kit: str
) -> None:
    found = book(**{"book.yaml": FILES["book.yaml"].replace(KIT, kit)})
    views = menu_views(found)
    assert english_in(views, own=own_words(found)) == []
    said = f"{views}"
    for words in (
        "packed on", "at its best until", "dry it again", "check that it",
        "sugar does not dry", "but as the menu says", ", raw", "to taste", "raw meat",
        *(WITH_KIT if kit == KIT else WITHOUT),
    ):  # fmt: skip
        assert words in said.lower().replace("⟦", "").replace("⟧", ""), words


@pytest.mark.usefixtures("bracketed")
def test_all_that_a_label_says_is_looked_up(
    demo: Reckoning, book: Callable[..., Reckoning], english_in: English
) -> None:
    home = book()
    for found in (demo, home):
        assert english_in(labels(found), own=map(plain_text, own_words(found))) == []
    said = f"{labels(home)}".replace("⟦", "").replace("⟧", "")
    for words in ("Raw ", "only under pressure", "Take the absorber", "in one: pour", "Goes with"):
        assert words in said, words


@pytest.mark.usefixtures("bracketed")
@pytest.mark.parametrize("sheet", ["", "labels: {columns: 5, rows: 13}\n"])
def test_a_page_of_labels_has_no_word_that_is_not_looked_up(
    book: Callable[..., Reckoning], english_in: English, sheet: str
) -> None:
    found = book(**{"book.yaml": FILES["book.yaml"] + sheet})
    pages = label_pages(found)
    assert len(pages) == 4
    for html in pages:
        article = html.select_one("article.labels")
        assert article is not None
        said = [*article.stripped_strings]
        said += [str(each["aria-label"]) for each in article.select("[aria-label]")]
        assert len(said) > 10
        assert english_in(said, own=[*own_words(found), found.book.book.title]) == []
    told = " ".join(" ".join(html.stripped_strings) for html in pages)
    told = told.replace("⟦", "").replace("⟧", "")
    for words in (
        "No absorber goes with",
        "A jar with an absorber",
        *(["tape them"] * bool(sheet)),
    ):
        assert words in told, words


def label_pages(found: Reckoning) -> list[BeautifulSoup]:
    pages = dict(Pages(found, environment(theme_folder())).render())
    return [
        BeautifulSoup(html, "html.parser")
        for name, html in pages.items()
        if name.endswith("-labels.html")
    ]


class Long(gettext.NullTranslations):
    """A language that says less than half as shortly when a pack is at its best."""

    def gettext(self, message: str) -> str:
        return {"best by {date}": "of the best quality that can be had until {date}"}.get(
            message, message
        )


def test_where_words_run_long_only_the_date_is_never_broken(
    book: Callable[..., Reckoning], monkeypatch: pytest.MonkeyPatch
) -> None:
    found = book()
    monkeypatch.setattr(speech, "catalogue", lambda _tag: Long())
    pages = dict(Pages(found, environment(theme_folder())).render())
    for name in ("lists/m.html", "lists/m-labels.html"):
        soup = BeautifulSoup(pages[name], "html.parser")
        whole = {element.get_text().rstrip(".,;") for element in soup.select(".whole")}
        dates = set(re.findall(r"had until (\d{4}-\d\d-\d\d)", soup.get_text()))
        assert dates
        assert dates <= whole
        assert not [words for words in whole if "quality" in words]
    # a short one stays with its words
    assert any(words.startswith("packed 2026") for words in whole)


@pytest.mark.usefixtures("bracketed")
def test_what_foods_are_called_in_a_shop_is_looked_up(english_in: English) -> None:
    lines = [
        ShoppingLine(food, shop_words(food, whole=whole), 1.0, 1.0, ())
        for food in load_foods().foods
        for whole in (True, False)
    ]
    assert english_in([called(line) for line in lines]) == []


def test_every_section_and_every_piece_of_the_table_has_its_words() -> None:
    sections, pieces = set(), set()
    for food in load_foods().foods:
        assert food.group not in AUTHORS
        sections.add(section_name(food.group))
        piece = food.piece()
        if food.group in COUNTED_GROUPS and piece and piece[1] >= SMALLEST_PIECE_G:
            for count in (1, 2):
                name = shop_words(food, whole=True)
                line = ShoppingLine(food, name, 1.0, 1.0, (), (count, piece[0]))
                pieces.add(size_words(line))
    assert {"Baking and oils", "Vegetables"} <= sections
    assert {"", "medium", "medium head", "bunches", "leaves", "radishes"} <= pieces


@pytest.mark.parametrize("language", languages())
def test_a_square_keeps_all_that_must_stand_there_in_every_language(
    demo: Reckoning, book: Callable[..., Reckoning], language: str
) -> None:
    for found in (demo, book()):
        with spoken(language):
            for label in labels(found):
                lines = label.code_text.split("\n")
                assert len(label.code_text.encode()) <= QR_BYTES
                for told in (label.raw, label.allergens, label.pour, label.how, label.absorber):
                    assert not told or plain_text(told) in lines
                assert plain_text(label.best_by) in lines
                assert lines[-1] != lines[0]


def test_a_sheet_is_judged_by_the_words_of_the_books_language(
    book: Callable[..., Reckoning], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A label takes more room in most languages than in English."""
    marks = set()

    def heard(pack: Pack, of: Manuscript) -> Iterator[LabelWords]:
        marks.add(decimal_mark())
        return label_words(pack, of)

    monkeypatch.setattr(label_sheets, "label_words", heard)
    label_sheets.check_labels(
        book(**{"book.yaml": FILES["book.yaml"] + "language: es\n"}), Findings()
    )
    assert marks == {","}
