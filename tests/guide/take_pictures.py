"""Takes the pictures of the book that README and guide show, from the demo book as it is bound.

Run it in the folder of the repository after a change of how pages look; it needs Chromium
(or `COOKBOOK_CHROMIUM` naming it): `.venv/bin/python tests/guide/take_pictures.py`.
"""

from __future__ import annotations

import io
import os
import shutil
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Final, Literal

from PIL import Image
from playwright.sync_api import sync_playwright

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book

if TYPE_CHECKING:
    from playwright.sync_api import Browser

ROOT: Final = Path(__file__).parents[2]
DEMO: Final = ROOT / "content_demo"
IMAGES: Final = DEMO / "images"
RECIPE: Final = "recipes/barley-and-leek-supper.html"
PHONE: Final = (390, 780)
GAP, MARGIN, EDGE = 40, 57, "#8a8578"
Scheme = Literal["light", "dark"]


def main() -> None:
    """Bind the demo book and take each picture anew."""
    name = os.environ.get("COOKBOOK_CHROMIUM") or shutil.which("chromium")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        site = Path(folder) / "site"
        bind(site)
        browser = play.chromium.launch(executable_path=name, args=["--no-sandbox"])
        looks = [
            shot(browser, site, "index.html", "light"),
            shot(browser, site, RECIPE, "light", 700),
            shot(browser, site, RECIPE, "dark", 1400),
            shot(browser, site, RECIPE, "dark", 700, look="red"),
        ]
        beside(looks).save(IMAGES / "guide-looks.webp", quality=82, method=6)
        sheet(browser, site).save(IMAGES / "guide-sheet.webp", quality=82, method=6)
        browser.close()


def bind(site: Path) -> None:
    """Bind the demo book."""
    findings = Findings()
    book = read_book(DEMO, findings)
    assert book is not None, [str(found) for found in findings]
    bind_book(reckoned(book, findings), site)


def shot(
    browser: Browser, site: Path, page: str, scheme: Scheme, down: int = 0, look: str = ""
) -> Image.Image:
    """Return a page as a phone shows it, scrolled down by some pixels."""
    context = browser.new_context(
        viewport={"width": PHONE[0], "height": PHONE[1]}, device_scale_factor=1.5,
        color_scheme=scheme,
    )  # fmt: skip
    shown = context.new_page()
    shown.goto((site / page).as_uri())
    if look:
        shown.evaluate("look => { document.documentElement.dataset.look = look }", look)
    shown.evaluate("down => window.scrollTo(0, down)", down)
    data = shown.screenshot()
    context.close()
    return Image.open(io.BytesIO(data)).convert("RGB")


def sheet(browser: Browser, site: Path) -> Image.Image:
    """Return the first sheet of a recipe as it is printed on A4, in pixels of 1/96 inch."""
    context = browser.new_context(
        viewport={"width": 718, "height": 1047},
        device_scale_factor=1.5,  # A4 within 10 mm
    )
    shown = context.new_page()
    shown.goto((site / RECIPE).as_uri())
    shown.emulate_media(media="print")
    next_sheet = shown.get_by_text("continued", exact=False).first.bounding_box()
    assert next_sheet is not None
    height = min(1047, int(next_sheet["y"]) - 12)
    data = shown.screenshot(clip={"x": 0, "y": 0, "width": 718, "height": height})
    context.close()
    printed = Image.open(io.BytesIO(data)).convert("RGB")
    paper = Image.new("RGB", (printed.width + 2 * MARGIN, printed.height + 2 * MARGIN), "white")
    paper.paste(printed, (MARGIN, MARGIN))
    return framed(paper)


def framed(picture: Image.Image) -> Image.Image:
    """Return a picture with a thin edge."""
    held = Image.new("RGB", (picture.width + 2, picture.height + 2), EDGE)
    held.paste(picture, (1, 1))
    return held


def beside(pictures: list[Image.Image]) -> Image.Image:
    """Return pictures side by side on a ground that suits day and dark."""
    held = [framed(one) for one in pictures]
    width = sum(one.width for one in held) + GAP * (len(held) - 1)
    ground = Image.new("RGB", (width, max(one.height for one in held)), "#ffffff")
    at = 0
    for one in held:
        ground.paste(one, (at, 0))
        at += one.width + GAP
    return ground


if __name__ == "__main__":
    main()
