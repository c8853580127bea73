"""An e-book's pages hold on a six-inch page, in the reader's large type and on any ground."""

from __future__ import annotations

import zipfile
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

pytestmark = pytest.mark.browser
# a page of 90 mm by 120 mm, six inches across its corners, at 150 points an inch
SIX_INCHES = {"width": 540, "height": 720}


def unpacked(folder: Path, out: Path) -> list[Path]:
    """Return the pages of every e-book in a folder."""
    for path in folder.glob("*.epub"):
        with zipfile.ZipFile(path) as held:
            held.extractall(out / path.stem)
    return sorted(out.rglob("*.xhtml"))


@pytest.mark.parametrize("type_px", [16, 26])
def test_nothing_runs_off_a_small_page_however_large_the_type(
    type_px: int, site: Path, crowded: Path, page: Page, tmp_path: Path
) -> None:
    page.set_viewport_size({"width": SIX_INCHES["width"], "height": SIX_INCHES["height"]})
    pages = [*unpacked(site, tmp_path / "demo"), *unpacked(crowded, tmp_path / "crowded")]
    assert len(pages) > 30
    for path in pages:
        page.goto(path.as_uri())
        page.add_style_tag(content=f"html {{ font-size: {type_px}px }}")
        width = page.evaluate("document.documentElement.scrollWidth")
        assert width <= SIX_INCHES["width"], (path.name, width)


def test_text_rules_and_links_take_the_colour_that_a_dark_reader_gives(
    crowded: Path, page: Page, tmp_path: Path
) -> None:
    found = next(p for p in unpacked(crowded, tmp_path) if p.name == "recipe-lentil-bowl.xhtml")
    page.goto(found.as_uri())
    page.add_style_tag(content="html { background: #000; color: rgb(200, 200, 200) }")
    other = page.evaluate(
        """() => [...document.querySelectorAll("body, body *")].filter(element => {
          const style = getComputedStyle(element);
          return style.color !== "rgb(200, 200, 200)"
            || style.backgroundColor !== "rgba(0, 0, 0, 0)"
            || (style.borderTopStyle !== "none" && style.borderTopColor !== style.color);
        }).map(element => element.outerHTML.slice(0, 80))"""
    )
    assert other == []
