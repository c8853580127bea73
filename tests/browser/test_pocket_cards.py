"""Pocket cards on their paper: every side is one card, and nothing on it is cut."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Any

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

PAPERS = {  # as an author writes it: the sides in points, and how many cards are on a sheet of A4
    "A6": (297.6, 419.5, 2),  # ISO 216
    "index card": (216.0, 360.0, 2),  # 3 by 5 inches
    "4 x 6 in": (288.0, 432.0, 1),
    "6 x 4 in": (432.0, 288.0, 1),
    "A5": (419.5, 595.3, 1),
}
ALL = (  # Regulation (EU) No 1169/2011, Annex II: all fourteen
    "celery, cereals containing gluten, crustaceans, eggs, fish, lupin, milk, molluscs, mustard, "
    "nuts, peanuts, sesame seeds, soybeans, sulphur dioxide and sulphites"
)
LARDER = f"""\
lentils: {{food: lentils cooked, dried: freeze, cooked first: true}}
turkey mince: {{food: ground turkey raw, dried: freeze, raw: true, weighs: 60 g per cup}}
beef mince: {{food: ground beef raw, dried: freeze, raw: true, weighs: 60 g per cup}}
trail mix:
  dried: bought
  weighs: 90 g per cup
  label: {{per: 100 g, energy: 400 kcal, protein: 9 g, fat: 9 g, carbohydrate: 60 g, moisture: 5 %, allergens: [{ALL}]}}
"""  # noqa: E501 - one line of YAML
TITLE = (
    "A supper of lentils and two sorts of mince with everything that the riverside garden and the "
    "hedge behind it gave us in June"
)
LONG = f"""\
---
title: {TITLE}
series: Suppers that want a long name as well, for the length of it
part: 12
serves: 2
ingredients:
  - 1 cup lentils
  - 3 tbsp turkey mince, rubbed through the coarse side of the grater
  - 3 tbsp beef mince
  - 2 tbsp trail mix (optional)
components:
  - {{name: A relish that has a rather long name too, ingredients: [3 tbsp lentils]}}
---
Cook it.
"""
SHORT = "---\ntitle: Lentils\ningredients: [1 cup lentils]\n---\nPour {water}.\n"
CUT = """() => [...document.querySelectorAll('.face')].filter(face => {
  const height = parseFloat(getComputedStyle(face).minHeight)
  const box = face.getBoundingClientRect()
  const low = [...face.children].some(c => c.getBoundingClientRect().bottom > box.bottom + 0.5)
  return face.scrollHeight > face.clientHeight || face.scrollWidth > face.clientWidth ||
    box.height > height + 0.6 || low
}).map(face => face.parentNode.id + ' ' + face.className)"""
SMALLEST = """() => Math.min(...[...document.querySelectorAll('.face *')]
  .map(words => parseFloat(getComputedStyle(words).fontSize))) * 72 / 96"""


def bound(folder: Path, cards: str) -> Path:
    (folder / "recipes").mkdir()
    (folder / "book.yaml").write_text(
        f"title: Cards\nallergens: eu\ncards: {cards}\nservings: [1, 2, 3, 4, 6, 8, 10, 12]\n"
    )
    (folder / "larder.yaml").write_text(LARDER)
    (folder / "recipes" / "long.md").write_text(LONG)
    (folder / "recipes" / "short.md").write_text(SHORT)
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    assert not findings.errors, [f.cause for f in findings]
    bind_book(reckoned(book, findings), folder / "site")
    return folder / "site" / "cards.html"


def choose(page: Page, paper: str) -> None:
    """Choose the paper that is printed on, though paper shows no chooser."""
    page.evaluate("value => { document.querySelector(`[value=${value}]`).checked = true }", paper)


def pages_of(page: Page) -> list[tuple[float, float, str]]:
    """Return the sides of each printed page in points, and its words."""
    pypdf: Any = pytest.importorskip("pypdf", reason="pypdf is not installed")
    read = pypdf.PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))
    return [
        (float(p.mediabox[2]), float(p.mediabox[3]), " ".join(p.extract_text().split()))
        for p in read.pages
    ]


@pytest.mark.parametrize("paper", PAPERS)
def test_the_longest_card_stands_whole_on_any_paper(page: Page, tmp_path: Path, paper: str) -> None:
    assert len(TITLE) >= 120
    page.goto(bound(tmp_path, paper).as_uri())
    page.emulate_media(media="print")
    assert page.evaluate(CUT) == []
    assert page.evaluate(SMALLEST) >= 5.5
    long = page.locator("#long").inner_text().replace("\N{NO-BREAK SPACE}", " ")
    assert long.count(TITLE) == 2  # on both sides
    assert all(name.strip() in long for name in ALL.split(","))
    for meat in ("turkey", "beef"):
        assert f"Raw {meat} mince." in long
    assert "74 °C (165 °F)" in long
    assert "71 °C (160 °F)" in long  # USDA FSIS: minced meat other than poultry
    width, height, on_sheet = PAPERS[paper]
    sides = pages_of(page)
    assert len(sides) == 4
    for wide, high, _ in sides:
        assert (wide, high) == pytest.approx((width, height), abs=1)
    choose(page, "sheet")
    assert page.evaluate(CUT) == []
    sheets = pages_of(page)
    assert len(sheets) == -(-2 // on_sheet)
    for wide, high, _ in sheets:
        assert sorted((wide, high)) == pytest.approx([595.3, 841.9], abs=1)  # ISO 216, A4


def test_a_card_too_small_is_printed_on_a_larger_one_and_others_stay(
    page: Page, tmp_path: Path
) -> None:
    page.goto(bound(tmp_path, "60 x 90 mm").as_uri())
    page.emulate_media(media="print")
    assert page.evaluate(CUT) == []
    sides = [(round(wide * 25.4 / 72), round(high * 25.4 / 72)) for wide, high, _ in pages_of(page)]
    assert sides[:2] == [(60, 90)] * 2
    assert len(sides) == 4
    assert sides[2] == sides[3] != (60, 90)


def test_every_card_of_the_demo_is_whole_and_has_two_sides(page: Page, site: Path) -> None:
    page.goto((site / "cards.html").as_uri())
    page.emulate_media(media="print")
    assert page.evaluate(CUT) == []
    sides = pages_of(page)
    cards = page.locator(".card").all()
    assert len(sides) == 2 * len(cards)
    for number, card in enumerate(cards):
        title = card.locator(".name, .long-name").inner_text()
        for side in (2 * number, 2 * number + 1):
            assert "".join(title.split()) in "".join(sides[side][2].split())
        assert "food-safetyguidance" in "".join(sides[2 * number + 1][2].split())
    choose(page, "sheet")
    assert page.evaluate(CUT) == []
    assert len(pages_of(page)) == -(-len(cards) // 2)


@pytest.mark.parametrize("paper", ["card", "sheet"])
def test_reached_from_its_recipe_a_card_is_printed_alone(
    page: Page, site: Path, paper: str
) -> None:
    page.goto((site / "recipes" / "beetroot-soup.html").as_uri())
    page.get_by_role("link", name="Pocket card").click()
    page.wait_for_url("**/cards.html#beetroot-soup")
    choose(page, paper)
    sides = pages_of(page)
    assert len(sides) == {"card": 2, "sheet": 1}[paper]
    assert all("Beetroot soup" in words for _, _, words in sides)


def test_on_a_phone_a_card_is_read_and_not_only_seen(page: Page, site: Path) -> None:
    page.goto((site / "cards.html").as_uri())
    assert page.evaluate("document.documentElement.scrollWidth - window.innerWidth") <= 0
    size = page.locator("#barley-and-leek-supper .back td").first
    assert size.evaluate("cell => parseFloat(getComputedStyle(cell).fontSize)") >= 12
