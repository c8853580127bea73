"""Without style or script, and on paper, a page loses comfort and no number."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

RECIPES = ("barley-and-leek-supper", "turkey-under-mash", "squash-and-sweetcorn-supper")


SHOWN = (
    ".water td",
    ".mix td[data-servings]",
    ".camp td[data-servings]",
    ".nourishment td.number",
    ".heat td[data-servings]",
)
PRINTED = (  # the chosen way's water stands under the mix, and the others in the whole table
    '.water tbody:not([data-way="kettle"], [data-bare]) td',
    '.poured[data-method="kettle"] tbody td',
    ".mix td[data-servings]",
    '.camp-way[data-camp="kettle"] td[data-servings]',
    ".nourishment td.number",
)


def numbers_seen(page: Page, tables: tuple[str, ...]) -> None:
    """Check that each cell of some tables is seen, and has its text."""
    for table in tables:
        cells = page.locator(table)
        assert cells.count() > 0
        assert page.locator(f"{table}:visible").count() == cells.count()
        assert all(text.strip() for text in cells.all_inner_texts())


def test_without_style_or_script_every_number_is_on_the_page(scriptless: Page, site: Path) -> None:
    scriptless.route("**/*.css", lambda route: route.abort())
    for name in RECIPES:
        scriptless.goto((site / "recipes" / f"{name}.html").as_uri())
        numbers_seen(scriptless, SHOWN)
        curves = scriptless.locator(".curve svg").count()
        assert scriptless.locator(".curve svg:visible").count() == curves
        assert scriptless.locator(".answer:visible").count() == 1


def test_without_style_each_place_in_the_text_has_one_value(scriptless: Page, site: Path) -> None:
    scriptless.route("**/*.css", lambda route: route.abort())
    scriptless.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    for words in scriptless.locator(".body p, .body li").all():
        spans = words.locator("> span[data-on]")
        if spans.count():
            assert words.locator("> span[data-on]:visible").count() > 0
            assert "{" not in words.inner_text()


def test_paper_shows_every_column_and_no_chooser(page: Page, site: Path) -> None:
    page.emulate_media(media="print")
    for name in RECIPES:
        page.goto((site / "recipes" / f"{name}.html").as_uri())
        numbers_seen(page, PRINTED)
        # a second component goes on under the heads of the first, in the same columns
        heads = page.locator(".mix table").first.locator("thead th[data-servings]")
        assert heads.filter(visible=True).count() == heads.count() > 1
        for hidden in (".choose", ".masthead", ".looks"):
            assert page.locator(hidden).is_hidden()


def test_without_script_the_look_still_follows_its_chooser(scriptless: Page, site: Path) -> None:
    scriptless.goto((site / "index.html").as_uri())
    scriptless.locator(".looks .segment:has(#look-red)").click()
    ground = "getComputedStyle(document.documentElement).backgroundColor"
    assert scriptless.evaluate(ground) == "rgb(0, 0, 0)"
