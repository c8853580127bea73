"""Each look keeps its promise, and what stands side by side stays apart."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pytest
from PIL import Image

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser, Page

FULLEST = "recipes/barley-and-leek-supper.html"
COVERED = """() => [...document.querySelectorAll('.figures')].flatMap(figures => {
  const boxes = [...figures.children].map(one => {
    const range = document.createRange()
    const said = [...one.childNodes].find(node => node.nodeType === Node.TEXT_NODE)
    if (!said) return []  // an empty figure, and what only a listener hears
    range.selectNodeContents(said)
    return [...range.getClientRects()].map(box => [box, one.textContent])
  })
  return boxes.flatMap((one, at) => boxes.slice(at + 1).flatMap(other =>
    one.flatMap(([a, said]) => other
      .filter(([b]) => a.width > 1 && b.width > 1 && a.left < b.right - 1
        && b.left < a.right - 1 && a.top < b.bottom - 4 && b.top < a.bottom - 4)
      .map(([, words]) => said + ' / ' + words))))
})"""


@pytest.mark.parametrize("name", ["index.html", FULLEST, "learned.html"])
def test_night_vision_has_no_light_but_red(page: Page, site: Path, name: str) -> None:
    page.goto((site / name).as_uri())
    page.evaluate("document.documentElement.dataset.look = 'red'")
    page.evaluate("document.querySelectorAll('img').forEach(img => { img.loading = 'eager' })")
    page.wait_for_load_state("networkidle")
    shown = Image.open(io.BytesIO(page.screenshot(full_page=True))).convert("RGB")
    assert shown.getextrema() == ((0, 255), (0, 0), (0, 0))


@pytest.mark.parametrize("width", [320, 360, 820, 1280])
def test_no_figure_of_a_cell_stands_over_another(browser: Browser, site: Path, width: int) -> None:
    context = browser.new_context(viewport={"width": width, "height": 800}, offline=True)
    page = context.new_page()
    page.goto((site / FULLEST).as_uri())
    for size in ("1", "3", "8"):
        page.locator(f'.servings .segment:has([value="{size}"])').click()
        assert page.evaluate(COVERED) == []
    context.close()


@pytest.mark.parametrize("width", [820, 1280])
def test_the_whole_water_table_is_seen_at_once_on_a_tablet(
    browser: Browser, site: Path, width: int
) -> None:
    context = browser.new_context(viewport={"width": width, "height": 800}, offline=True)
    page = context.new_page()
    page.goto((site / FULLEST).as_uri())
    for table in page.locator(".water .wide-table").all():
        assert table.evaluate("one => one.scrollWidth <= one.clientWidth")
    context.close()


def test_on_a_wide_screen_the_steps_stand_under_the_water_and_beside_the_mix(
    browser: Browser, site: Path
) -> None:
    context = browser.new_context(viewport={"width": 1280, "height": 800}, offline=True)
    page = context.new_page()
    page.goto((site / FULLEST).as_uri())
    boxes = [
        page.locator(f".recipe > {one}").bounding_box() for one in (".answers", ".body", ".mix")
    ]
    answers, steps, mix = (box for box in boxes if box)
    assert 0 <= steps["y"] - answers["y"] - answers["height"] < 80
    assert steps["x"] + steps["width"] <= mix["x"]
    assert mix["y"] == pytest.approx(answers["y"], abs=1)
    context.close()


def test_a_table_that_goes_on_shows_a_line_where_it_is_cut(page: Page, site: Path) -> None:
    page.goto((site / FULLEST).as_uri())
    table = page.locator(".water .wide-table").first
    table.scroll_into_view_if_needed()

    def edge() -> tuple[int, ...]:
        shown = Image.open(io.BytesIO(table.screenshot())).convert("RGB")
        # above the line at the table's own foot, whose colour may be the same
        return tuple(shown.getpixel((shown.width - 1, shown.height - 12)))  # type: ignore[arg-type]

    cut = edge()
    table.evaluate("one => { one.scrollLeft = one.scrollWidth }")
    assert cut != edge()
