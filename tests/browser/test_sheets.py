"""What belongs together on paper stays together: a step and its number, a head and its lines."""

from __future__ import annotations

import io
import unicodedata
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

import pytest

from cookbook_build.publishing.carrying import IN_ONE_FILE

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

PAPERS: Final = ("A4", "Letter")
BOOK: Final = f"the-alder-bend-larder-book{IN_ONE_FILE}"
STEPS: Final = """() => [...document.querySelectorAll('.body ol')].flatMap(list =>
  [...list.children].map((step, at) => [String(at + 1), step.innerText]))"""


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


def without_number(page: Page, paper: str) -> list[tuple[str, str]]:
    """Return the steps of a page that have no number of their own beside their first line."""
    page.emulate_media(media="print")
    steps = page.evaluate(STEPS)
    printed = runs(page, paper)
    page.emulate_media(media="screen")
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
        assert without_number(page, paper) == [], path.name
    assert counted > 50


@pytest.mark.parametrize("paper", PAPERS)
def test_each_step_of_the_whole_book_has_its_number(page: Page, site: Path, paper: str) -> None:
    page.goto((site / BOOK).as_uri())
    assert without_number(page, paper) == []
