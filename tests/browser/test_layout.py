"""Every page fits its screen and its paper."""

from __future__ import annotations

import io
import unicodedata
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser, Page

PAPERS = {"A4": 210.0, "Letter": 215.9}  # mm across
MARGINS = 12.0 + 20.0  # mm, right and left, as the style sheet's @page has them
BEYOND = """() => [...document.querySelectorAll('main *')]
  .filter(e => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest('.unseen'))
  .map(e => e.tagName + ': ' + e.textContent.trim().slice(0, 40))"""


@pytest.mark.parametrize("width", [320, 390, 820, 1280])
def test_no_page_scrolls_sideways(browser: Browser, kinds: list[Path], width: int) -> None:
    context = browser.new_context(viewport={"width": width, "height": 800}, offline=True)
    page = context.new_page()
    for path in kinds:
        page.goto(path.as_uri())
        wide = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
        assert wide <= 0, path
    context.close()


@pytest.mark.parametrize("width", [320, 390])
def test_the_longer_words_of_other_languages_wrap(browser: Browser, site: Path, width: int) -> None:
    context = browser.new_context(viewport={"width": width, "height": 800}, offline=True)
    page = context.new_page()
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    page.evaluate("""() => {
      const names = ["Contenido", "Despensa", "Listas", "Precauciones", "Aspecto"];
      document.querySelectorAll(".masthead nav a").forEach((a, n) => { a.textContent = names[n]; });
      document.querySelectorAll(".kept").forEach(kept => {
        kept.textContent = "Comer en un plazo de 2\u00a0h 15\u00a0min; a 2\u00a0310\u00a0m.";
      });
    }""")
    assert page.evaluate("document.documentElement.scrollWidth - window.innerWidth") <= 0
    context.close()


@pytest.mark.parametrize("width", [320, 390])
def test_targets_are_large_enough_for_a_cold_thumb(
    browser: Browser, site: Path, crowded: Path, width: int
) -> None:
    context = browser.new_context(viewport={"width": width, "height": 800}, offline=True)
    page = context.new_page()
    for path in (
        site / "recipes" / "barley-and-leek-supper.html",
        site / "recipes" / "orchard-sauce.html",
        site / "lists" / "midsummer-paddle.html",
        crowded / "recipes" / "lentil-bowl.html",
    ):
        page.goto(path.as_uri())
        for target in page.locator(".segment, .tick, summary").filter(visible=True).all():
            box = target.bounding_box()
            assert box is not None
            assert min(box["height"], box["width"]) >= 44, target.inner_text()
        for link in page.locator(".masthead nav a, .within a").all():
            box = link.bounding_box()
            assert box is not None
            assert box["height"] >= 44
            assert box["width"] >= 24  # WCAG 2.2, 2.5.8
    context.close()


def printed(page: Page, path: Path, paper: str) -> tuple[int, str, set[float]]:
    """Return how many sheets a page takes, their text without spaces, and the scales of it."""
    pypdf = pytest.importorskip("pypdf", reason="pypdf is not installed")
    page.goto(path.as_uri())
    read = pypdf.PdfReader(io.BytesIO(page.pdf(format=paper)))
    scales: set[float] = set()

    def note(text: str, current: list[float], *_: Any) -> None:  # noqa: ANN401 - pypdf's own
        if text.strip():
            scales.add(round(current[0], 3))

    text = "".join(sheet.extract_text(visitor_text=note) for sheet in read.pages)
    return len(read.pages), bare(text), scales


def bare(text: str) -> str:
    """Return a text without spaces, and without the ligatures that a typeface may bring."""
    return "".join(unicodedata.normalize("NFKC", text).split())


def sheets_of(page: Page, path: Path, paper: str, method: str = "") -> list[str]:
    """Return the text of each printed sheet without spaces, by a method if one is chosen."""
    pypdf = pytest.importorskip("pypdf", reason="pypdf is not installed")
    page.emulate_media(media="screen")
    page.goto(path.as_uri())
    if method:
        page.locator(f'.segment:has([value="{method}"])').click()
    page.emulate_media(media="print")
    read = pypdf.PdfReader(io.BytesIO(page.pdf(format=paper)))
    return [bare(sheet.extract_text()) for sheet in read.pages]


@pytest.mark.parametrize("paper", PAPERS)
def test_a_recipe_takes_few_sheets_with_every_size_and_altitude_and_the_water_of_every_way(
    page: Page, site: Path, crowded: Path, paper: str
) -> None:
    for path in [*sorted((site / "recipes").glob("*.html")), crowded / "recipes/lentil-bowl.html"]:
        sheets, text, scales = printed(page, path, paper)
        several = page.locator(".answer").first.locator(".pour").count() > 1
        # a second component doubles its tables, and so the sheets that they fill
        assert sheets <= (3 + several if path.is_relative_to(site) else 6), path.name
        # a sheet too wide for the paper is shrunk by the browser until nobody can read it
        assert scales == {0.75}, path.name  # 72 points an inch over 96 pixels an inch
        page.emulate_media(media="print")
        cells = page.locator(".water td > *, .mix td, .camp td .figures > span, .poured td").filter(
            visible=True
        )
        for cell in cells.all_text_contents():
            for word in cell.removesuffix("; ").split("\n"):
                assert bare(word) in text, (path.name, word)


@pytest.mark.parametrize("paper", PAPERS)
def test_the_first_sheet_of_a_recipe_holds_all_that_a_cook_needs(
    page: Page, site: Path, paper: str
) -> None:
    for path in sorted((site / "recipes").glob("*.html")):
        first, second = sheets_of(page, path, paper)[:2]
        if not page.locator(".answers").count():
            continue  # a base
        title = bare(page.locator("h1").inner_text())
        assert title in first
        assert second.startswith(f"{title}continued"), path.name  # by the way of its author
        page.emulate_media(media="print")
        answer = page.locator(".answer").filter(visible=True)
        method, servings = (
            page.locator(f'[name="{name}"]:checked').get_attribute("value")
            for name in ("method", "servings")
        )
        needed = [
            *page.locator(".caution, .body :is(p, li, h2)").filter(visible=True).all_inner_texts(),
            *page.locator(".mix tbody th, .mix td").filter(visible=True).all_inner_texts(),
            *answer.locator("dd, .how").all_inner_texts(),
        ]
        # every size's water by this way, as the whole table has it on a screen
        page.emulate_media(media="screen")
        cells = page.locator(f'.water [data-way="{method}"] td')
        needed += [
            words.removeprefix("+\N{NO-BREAK SPACE}")
            for part in (".start", ".keep", ".together")
            for words in cells.locator(part).all_text_contents()
        ]
        needed += [words.split(" ")[-1] for words in cells.locator(".rest").all_text_contents()]
        for word in needed:
            for line in word.split("\n"):
                assert bare(line) in first, (path.name, servings, line)


def test_the_first_sheet_follows_the_way_that_is_chosen(page: Page, site: Path) -> None:
    path = site / "recipes" / "beetroot-soup.html"
    for method, word in (("stove", "Simmer"), ("cold", "Soak")):
        sheets = sheets_of(page, path, "A4", method)
        row = page.locator(f'.poured[data-method="{method}"] tbody tr')
        for text in row.all_text_contents():
            assert bare(text) in sheets[0]
        assert bare(row.last.text_content() or "").startswith(word)
        rest = "".join(sheets[1:])
        assert rest.count("Stove:altitude") == (method in {"stove", "cold"})
        assert rest.count("Kettle:altitude") == (method == "cold")


@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_is_cut_off_at_the_paper_s_edge(
    browser: Browser, kinds: list[Path], paper: str
) -> None:
    width = int((PAPERS[paper] - MARGINS) / 25.4 * 96)
    context = browser.new_context(viewport={"width": width, "height": 900}, offline=True)
    page = context.new_page()
    page.emulate_media(media="print")
    for path in kinds:
        if path.stem.endswith("-labels") or path.stem == "cards":
            continue  # they fill their own paper to the edge, and have a test of their own
        page.goto(path.as_uri())
        assert page.evaluate(BEYOND) == [], path
    context.close()


CLOSE = """() => [...document.querySelectorAll(':is(.camp, .water, .mix) tr')].flatMap(row => {
  const range = document.createRange(), found = [];
  let end = -Infinity;
  for (const cell of row.cells) {
    const texts = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT), boxes = [];
    while (texts.nextNode()) {
      range.selectNodeContents(texts.currentNode);
      boxes.push(...[...range.getClientRects()].filter(box => box.width > 1));
    }
    if (!boxes.length) { continue; }
    const start = Math.min(...boxes.map(box => box.left));
    if (start - end < 2.5) { found.push(cell.textContent); }
    end = Math.max(...boxes.map(box => box.right));
  }
  return found;
})"""


@pytest.mark.parametrize("paper", PAPERS)
def test_no_column_runs_into_the_next_on_paper(browser: Browser, site: Path, paper: str) -> None:
    width = int((PAPERS[paper] - MARGINS) / 25.4 * 96)
    context = browser.new_context(viewport={"width": width, "height": 900}, offline=True)
    page = context.new_page()
    page.emulate_media(media="print")
    for path in sorted((site / "recipes").glob("*.html")):
        page.goto(path.as_uri())
        assert page.evaluate(CLOSE) == [], path.name
    context.close()


@pytest.mark.parametrize("paper", PAPERS)
def test_no_sheet_is_taken_by_a_last_sentence(page: Page, site: Path, paper: str) -> None:
    for name, method in (("barley-and-leek-supper", "cold"), ("turkey-under-mash", "kettle")):
        sheets = sheets_of(page, site / "recipes" / f"{name}.html", paper, method)
        assert [sheet for sheet in sheets if len(sheet) < 400] == [], name
