"""Every page is quiet, whole, reachable and fits its screen and its paper."""

from __future__ import annotations

import io
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import unquote, urlsplit

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

KINDS = (
    "index.html",
    "recipes/barley-and-leek-supper.html",
    "recipes/squash-and-sweetcorn-supper.html",
    "recipes/turkey-mince-with-apples-and-barley.html",
    "recipes/orchard-sauce.html",
    "larder.html",
    "larder/turkey-mince.html",
    "lists.html",
    "lists/midsummer-paddle.html",
    "pages/how-we-dry.html",
    "cautions.html",
)
LOOKS = ("day", "dark", "red")
SCREENS = {"phone": (390, 844), "tablet": (820, 1180)}


def every_page(site: Path) -> list[Path]:
    """Return every page of the book."""
    return sorted(site.rglob("*.html"))


def test_no_page_says_or_asks_for_anything(page: Page, site: Path) -> None:
    heard: list[str] = []
    asked: list[str] = []
    page.on("console", lambda message: heard.append(message.text))
    page.on("pageerror", lambda error: heard.append(str(error)))
    page.on("request", lambda request: asked.append(request.url))
    page.on("requestfailed", lambda request: heard.append(f"missing {request.url}"))
    for path in every_page(site):
        page.goto(path.as_uri())
    assert not heard
    assert asked
    assert all(url.startswith(site.as_uri()) for url in asked)


def test_every_link_of_the_book_leads_somewhere(page: Page, site: Path) -> None:
    for path in every_page(site):
        page.goto(path.as_uri())
        hrefs = page.eval_on_selector_all("a[href]", "links => links.map(a => a.href)")
        ids = set(page.eval_on_selector_all("[id]", "found => found.map(e => e.id)"))
        for href in hrefs:
            parts = urlsplit(href)
            if parts.scheme == "mailto":
                continue
            assert parts.scheme == "file", href
            assert Path(unquote(parts.path)).is_file(), f"{path}: {href}"
            if parts.fragment and unquote(parts.path) == str(path):
                assert parts.fragment in ids, f"{path}: {href}"


@pytest.mark.parametrize("width", [320, 390, 820, 1280])
def test_no_page_scrolls_sideways(browser: Browser, site: Path, width: int) -> None:
    context = browser.new_context(viewport={"width": width, "height": 800}, offline=True)
    page = context.new_page()
    for name in KINDS:
        page.goto((site / name).as_uri())
        wide = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
        assert wide <= 0, name
    context.close()


@pytest.mark.parametrize(
    "name", ["recipes/barley-and-leek-supper.html", "lists/midsummer-paddle.html"]
)
def test_targets_are_large_enough_for_a_cold_thumb(page: Page, site: Path, name: str) -> None:
    page.goto((site / name).as_uri())
    for target in page.locator(".segment, .tick, .masthead nav a").all():
        box = target.bounding_box()
        assert box is not None
        assert box["height"] >= 44
        assert box["width"] >= 24


@pytest.mark.parametrize("screen", SCREENS)
@pytest.mark.parametrize("look", LOOKS)
def test_axe_finds_no_barrier(browser: Browser, site: Path, look: str, screen: str) -> None:
    axe = pytest.importorskip(
        "axe_playwright_python.sync_playwright", reason="axe is not installed"
    )
    width, height = SCREENS[screen]
    context = browser.new_context(viewport={"width": width, "height": height}, offline=True)
    page = context.new_page()
    for name in KINDS:
        page.goto((site / name).as_uri())
        page.evaluate("look => { document.documentElement.dataset.look = look }", look)
        results = axe.Axe().run(page)
        assert results.violations_count == 0, f"{name}: {results.generate_report()}"
    context.close()


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_paper_holds_every_size_and_method(page: Page, site: Path, paper: str) -> None:
    pypdf = pytest.importorskip("pypdf", reason="pypdf is not installed")
    page.goto((site / "recipes" / "pea-soup-with-turkey.html").as_uri())
    cells = page.locator(".water td").all_text_contents()
    read = pypdf.PdfReader(io.BytesIO(page.pdf(format=paper)))
    text = "".join("".join(sheet.extract_text() for sheet in read.pages).split())
    assert len(read.pages) <= 3
    for cell in cells:
        for word in cell.split("\n"):
            assert "".join(word.split()) in text


def test_paper_shows_every_column_and_no_chooser(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    page.emulate_media(media="print")
    assert page.locator(".mix thead th[data-servings]:visible").count() == 12
    assert page.locator(".choose").is_hidden()
    assert page.locator(".masthead").is_hidden()
    assert page.locator(".water table").first.is_visible()


def test_without_style_every_number_is_on_the_page(browser: Browser, site: Path) -> None:
    context = browser.new_context(java_script_enabled=False, offline=True)
    page = context.new_page()
    page.route("**/*.css", lambda route: route.abort())
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    assert page.locator(".water td:visible").count() == page.locator(".water td").count()
    assert page.locator(".mix td:visible").count() == page.locator(".mix td").count()
    assert page.locator(".answer:visible").count() == 1
    context.close()


def test_ticks_and_looks_stay_on_the_device(page: Page, site: Path) -> None:
    address = (site / "lists" / "midsummer-paddle.html").as_uri()
    page.goto(address)
    page.locator(".tick").first.click()
    page.locator(".looks .segment:has(#look-red)").click()
    page.goto(address)
    assert page.locator(".tick input").first.is_checked()
    assert page.evaluate("document.documentElement.dataset.look") == "red"
    assert page.locator("#look-red").is_checked()
