"""Everyone can read it: axe finds no barrier, and the keyboard reaches everything."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

import pytest

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser, Page

LOOKS = ("day", "dark", "red")
SCREENS = {"phone": (390, 844), "tablet": (820, 1180)}


def barriers(page: Page) -> list[str]:
    """Return what axe finds on the page as it stands."""
    axe = pytest.importorskip(
        "axe_playwright_python.sync_playwright", reason="axe is not installed"
    )
    results = axe.Axe().run(page)
    return [results.generate_report()] if results.violations_count else []


@pytest.mark.parametrize("screen", SCREENS)
@pytest.mark.parametrize("look", LOOKS)
def test_axe_finds_no_barrier(browser: Browser, kinds: list[Path], look: str, screen: str) -> None:
    width, height = SCREENS[screen]
    context = browser.new_context(viewport={"width": width, "height": height}, offline=True)
    page = context.new_page()
    for path in kinds:
        page.goto(path.as_uri())
        page.evaluate("look => { document.documentElement.dataset.look = look }", look)
        assert not barriers(page), path.name
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_no_barrier_where_the_device_chooses(
    browser: Browser, site: Path, scheme: Literal["light", "dark"]
) -> None:
    context = browser.new_context(color_scheme=scheme, offline=True)
    page = context.new_page()
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    dark = page.evaluate("getComputedStyle(document.documentElement).colorScheme") == "dark"
    assert dark == (scheme == "dark")
    assert not barriers(page)
    context.close()


def test_axe_finds_no_barrier_in_an_opened_explanation(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    page.locator(".why summary").click()
    assert not barriers(page)


@pytest.mark.parametrize("method", ["microwave", "stove", "jar", "cold"])
def test_axe_finds_no_barrier_in_the_card_of_any_method(
    page: Page, site: Path, method: str
) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    page.locator(f'.segment:has([value="{method}"])').click()
    for summary in page.locator("summary").filter(visible=True).all():
        summary.click()
    assert page.locator(f'.card[data-method="{method}"]').is_visible()
    assert not barriers(page)


def test_tab_reaches_every_control_and_shows_where_it_is(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    reached: list[str] = []
    for _ in range(200):
        page.keyboard.press("Tab")
        seen = page.evaluate(
            """() => {
              const at = document.activeElement
              const ring = at.matches('.segment input') ? at.nextElementSibling : at
              const style = getComputedStyle(ring)
              const shown = style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2
              return [at.name || at.className || at.tagName, at === document.body || shown]
            }"""
        )
        if seen[0] == "BODY":
            break
        assert seen[1], f"{seen[0]} takes the focus and doesn't show it"
        reached.append(seen[0])
    assert reached[0] == "skip"
    assert {"servings", "method", "look", "SUMMARY", "wide-table"} <= set(reached)
    assert reached.index("servings") < reached.index("method")
