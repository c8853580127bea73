"""A menu's page on paper: one sheet, two for a long menu, and nothing broken or cut."""

from __future__ import annotations

import io
import shutil
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book

if TYPE_CHECKING:
    from playwright.sync_api import Page

DEMO = Path(__file__).parents[2] / "content_demo"
PAPERS = {"A4": 210.0, "Letter": 215.9}  # mm across
MARGINS = 12.0 + 20.0  # mm, right and left, as the style sheet's @page has them
MEALS = ("breakfast", "lunch", "supper", "late cup")
CROSSING = """() => {
  const list = document.querySelector('.checklist'), style = getComputedStyle(list);
  const count = +style.columnCount, gap = parseFloat(style.columnGap);
  const box = list.getBoundingClientRect(), wide = (box.width + gap) / count;
  return [...list.querySelectorAll('.list td, .list th, .list p')].flatMap(e =>
    [...e.getClientRects()].filter(r => {
      const left = r.left - box.left, column = Math.floor((left + 1) / wide);
      return r.right - box.left > (column + 1) * wide - gap + 1;
    }).map(() => e.textContent.trim().slice(0, 40)));
}"""
BROKEN = """() => [...document.querySelectorAll('.whole')]
  .filter(e => e.getClientRects().length > 1).map(e => e.textContent)"""


@pytest.fixture(scope="module")
def long_menu(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the page of a menu with every meal of the demo."""
    return menu_page(tmp_path_factory.mktemp("long"), 100)


@pytest.fixture(scope="module")
def short_menu(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the page of a menu with a day's meals."""
    return menu_page(tmp_path_factory.mktemp("short"), 4)


def menu_page(folder: Path, most: int) -> Path:
    """Return the page of a menu with some of the demo's meals."""
    book = folder / "book"
    shutil.copytree(DEMO, book)
    meals = [
        path.stem
        for path in sorted((book / "recipes").rglob("*.md"))
        if "kind: base" not in path.read_text(encoding="utf-8")
    ]
    lines = [
        f"  - {{day: {1 + at // 4}, meal: {MEALS[at % 4]}, recipe: {meal}}}"
        for at, meal in enumerate(meals[:most])
    ]
    for menu in (book / "menus").iterdir():
        menu.unlink()
    text = "title: Some meals\npeople: 3\npacked: 2026-06-12\nmeals:\n" + "\n".join(lines) + "\n"
    (book / "menus" / "some.yaml").write_text(text, encoding="utf-8")
    read = read_book(book, Findings())
    assert read is not None
    bind_book(reckoned(read, Findings()), folder / "site")
    return folder / "site" / "lists" / "some.html"


def sheets(page: Page, path: Path, paper: str) -> list[str]:
    """Return the words of each sheet."""
    pypdf: Any = pytest.importorskip("pypdf", reason="pypdf is not installed")
    page.goto(path.as_uri())
    read = pypdf.PdfReader(io.BytesIO(page.pdf(format=paper)))
    return [sheet.extract_text() for sheet in read.pages]


@pytest.mark.parametrize("paper", PAPERS)
def test_a_day_s_menu_takes_one_sheet(page: Page, short_menu: Path, paper: str) -> None:
    (only,) = sheets(page, short_menu, paper)
    assert "local food-safety guidance" in " ".join(only.split())


@pytest.mark.parametrize("paper", PAPERS)
def test_a_long_menu_takes_two_sheets(page: Page, site: Path, long_menu: Path, paper: str) -> None:
    for path in (site / "lists" / "midsummer-paddle.html", long_menu):
        printed = sheets(page, path, paper)
        assert len(printed) <= 2
        assert "To carry" in printed[-1]  # a list, and not the foot of the page alone


@pytest.mark.parametrize("paper", PAPERS)
def test_no_date_is_broken_and_no_number_cut(
    page: Page, site: Path, long_menu: Path, paper: str
) -> None:
    width = int((PAPERS[paper] - MARGINS) / 25.4 * 96)
    page.set_viewport_size({"width": width, "height": 900})
    page.emulate_media(media="print")
    for path in (site / "lists" / "midsummer-paddle.html", long_menu):
        page.goto(path.as_uri())
        assert page.locator(".whole").count() > 10
        assert page.evaluate(BROKEN) == []
        assert page.evaluate(CROSSING) == []


@pytest.mark.parametrize("width", [320, 360])
def test_no_date_is_broken_on_a_phone(page: Page, long_menu: Path, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    page.goto(long_menu.as_uri())
    assert page.evaluate(BROKEN) == []
    assert page.evaluate("document.documentElement.scrollWidth - window.innerWidth") <= 0
