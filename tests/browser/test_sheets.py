"""What belongs together on paper stays together: a step and its number, a head and its lines."""

from __future__ import annotations

import io
import unicodedata
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

import pytest

from cookbook_build.publishing.carrying import IN_ONE_FILE

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from playwright.sync_api import Browser, Page

WIDTHS_MM: Final = {"A4": 210.0, "Letter": 215.9}
PAPERS: Final = tuple(WIDTHS_MM)
BOOK: Final = f"the-alder-bend-larder-book{IN_ONE_FILE}"
STEPS: Final = """() => [...document.querySelectorAll('.body ol')].flatMap(list =>
  [...list.children].map((step, at) => [String(at + 1), step.innerText]))"""
GROUPS: Final = """() => [...document.querySelectorAll('.ways section, .held li:has(li)')]
  .map(group => [group.querySelector('h3, .store'),
    ...group.querySelectorAll(':scope :is(ol, ul) a')].map(e => e.textContent))"""
STORES: Final = """() => [...document.querySelectorAll('.stores > li')].map(store =>
  ['.name', '.used'].map(name => store.querySelector(name).textContent))"""
WAYS: Final = (
    """() => [...document.querySelectorAll('.water .method')].map(way => way.textContent)"""
)
LIST: Final = "lists/midsummer-paddle"
FEWEST_LINES: Final = 8  # our choice
LEFT_POINTS: Final = 20 / 25.4 * 72  # as the style sheet's @page has it
WIDE_POINTS: Final = {paper: (wide - 32) / 25.4 * 72 for paper, wide in WIDTHS_MM.items()}


@dataclass(frozen=True)
class Run:
    """Words that were set in one go, and where on a sheet they begin [points]."""

    sheet: int
    x: float
    y: float
    words: str


def bare(text: str) -> str:
    """Return a text without spaces, and without the ligatures that a typeface may bring."""
    return "".join(unicodedata.normalize("NFKC", text).split())


def runs(page: Page, paper: str) -> list[Run]:
    """Return all that is printed of a page, with its places."""
    pypdf: Any = pytest.importorskip("pypdf", reason="pypdf is not installed")
    found: list[Run] = []
    for at, sheet in enumerate(pypdf.PdfReader(io.BytesIO(page.pdf(format=paper))).pages):

        def note(
            text: str, to: list[float], of: list[float], *_: object, at: int = at
        ) -> None:  # the two matrices of PDF 32000-1, 9.4.4: a place in text, moved onto the sheet
            if text.strip():
                x, y = (of[4] * to[n] + of[5] * to[n + 2] + to[n + 4] for n in (0, 1))
                found.append(Run(at, x, y, bare(text)))

        sheet.extract_text(visitor_text=note)
    return found


def steps_of(page: Page) -> list[tuple[str, str]]:
    """Return the number and the words of each step that is printed of a page."""
    page.emulate_media(media="print")
    steps: list[tuple[str, str]] = page.evaluate(STEPS)
    return steps


def without_number(steps: list[tuple[str, str]], printed: list[Run]) -> list[tuple[str, str]]:
    """Return the steps that have no number of their own beside their first line."""
    free = [run for run in printed if run.words.isdigit()]
    alone = []
    for number, text in steps:
        words = bare(text)
        firsts = [run for run in printed if words.startswith(run.words[:8]) and len(run.words) > 1]
        beside = [
            run
            for run in free
            if run.words == number
            and any(
                run.sheet == first.sheet and abs(run.y - first.y) < 3 and 0 < first.x - run.x < 25
                for first in firsts
            )
        ]
        if beside:
            free.remove(beside[0])
        else:
            alone.append((number, text))
    return alone


@pytest.mark.parametrize("paper", PAPERS)
def test_each_step_has_its_number_beside_its_first_line(page: Page, site: Path, paper: str) -> None:
    counted = 0
    for path in sorted((site / "recipes").glob("*.html")):
        page.goto(path.as_uri())
        counted += page.locator(".body ol > li").count()
        assert without_number(steps_of(page), runs(page, paper)) == [], path.name
    assert counted > 50


@pytest.fixture(scope="module")
def whole_book(browser: Browser, site: Path) -> Callable[[str], tuple[list[Any], list[Run]]]:
    """Return what gives the steps of the whole book and its print on a paper."""
    context = browser.new_context(offline=True)
    page = context.new_page()
    page.set_default_timeout(60_000)
    page.goto((site / BOOK).as_uri())
    steps = steps_of(page)
    printed = {paper: runs(page, paper) for paper in PAPERS}
    context.close()
    return lambda paper: (steps, printed[paper])


@pytest.mark.parametrize("paper", PAPERS)
def test_each_step_of_the_whole_book_has_its_number(
    whole_book: Callable[[str], tuple[list[Any], list[Run]]], paper: str
) -> None:
    assert without_number(*whole_book(paper)) == []


def scant(printed: list[Run]) -> dict[int, str]:
    """Return the sheets that hold only some lines, with what they hold."""
    lines: dict[int, set[int]] = {}
    for run in printed:
        lines.setdefault(run.sheet, set()).add(round(run.y / 3))
    return {
        sheet: " ".join(run.words for run in printed if run.sheet == sheet)
        for sheet, of in lines.items()
        if len(of) < FEWEST_LINES
    }


@pytest.mark.parametrize("paper", PAPERS)
def test_no_sheet_holds_a_few_last_words_alone(
    page: Page, site: Path, whole_book: Callable[[str], tuple[list[Any], list[Run]]], paper: str
) -> None:
    assert set(scant(whole_book(paper)[1])) <= {0}  # the cover
    for name in ("find", "larder", "cautions", "learned", "pages/how-we-dry", LIST):
        page.goto((site / f"{name}.html").as_uri())
        assert scant(runs(page, paper)) == {}, name


def column_of(run: Run, columns: int, wide: float) -> tuple[int, int]:
    """Return the sheet and the column that words stand in."""
    return run.sheet, int((run.x - LEFT_POINTS) / (wide / columns) + 0.05)


@pytest.mark.parametrize("paper", PAPERS)
def test_a_head_of_the_index_keeps_two_of_its_lines(page: Page, site: Path, paper: str) -> None:
    page.goto((site / "find.html").as_uri())
    groups = page.evaluate(GROUPS)
    printed = runs(page, paper)
    at = next(n for n, run in enumerate(printed) if run.words == "Byway")
    checked = 0
    for head, *lines in groups:
        found = []
        for text in (head, *lines):
            at = next(n for n in range(at, len(printed)) if bare(text).startswith(printed[n].words))
            found.append(column_of(printed[at], 3, WIDE_POINTS[paper]))
            at += 1
        assert len(set(found[:3])) == 1, head  # the head and two lines
        assert len(set(found[-2:])) == 1, head  # nor does a last line go on alone
        if len(lines) < 5:
            assert len(set(found)) == 1, head
        checked += 1
    assert checked > 40


@pytest.mark.parametrize("paper", PAPERS)
def test_a_store_of_the_larder_is_on_one_sheet(page: Page, site: Path, paper: str) -> None:
    page.goto((site / "larder.html").as_uri())
    stores = page.evaluate(STORES)
    printed = runs(page, paper)
    at = 0
    for words in stores:
        sheets = set()
        for text in words:
            at = next(n for n in range(at, len(printed)) if bare(text).startswith(printed[n].words))
            sheets.add(printed[at].sheet)
        assert len(sheets) == 1, words


MOVED_DOWN = """(rules) => {
  const sheet = new CSSStyleSheet();  // a page's policy lets in no other style
  sheet.replaceSync(rules);
  document.adoptedStyleSheets.push(sheet);
}"""


@pytest.mark.parametrize("paper", PAPERS)
def test_no_sheet_of_a_water_table_opens_with_rows_of_no_named_way(
    page: Page, site: Path, paper: str
) -> None:
    for down_mm in (0, 8, 16):  # wherever the table begins
        page.goto((site / "recipes/barley-and-leek-supper.html").as_uri())
        page.evaluate(MOVED_DOWN, f"@media print {{ .water {{ padding-top: {down_mm}mm }} }}")
        ways = {bare(way) for way in page.evaluate(WAYS)}
        left = [
            run
            for run in runs(page, paper)
            if run.x - LEFT_POINTS < 3 and run.words != "Servings"  # the head, repeated
        ]
        down = sorted(left, key=lambda run: (run.sheet, -run.y))
        table = next(n for n, run in enumerate(down) if run.words == "Thewholewatertable")
        after = next(n for n, run in enumerate(down) if run.words == "Packedfortheshelf")
        first = {run.sheet: run.words for run in reversed(down[table + 1 : after])}
        first.pop(down[table].sheet)
        for words in first.values():
            assert words in ways or words.startswith("Withouttheoptional"), words
