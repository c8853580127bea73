"""A reader picks a size and a method, and sees what `water --json` gives."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page

DEMO = Path(__file__).parents[2] / "content_demo"


def water(recipe: str, servings: int, method: str) -> dict[str, Any]:
    """Return what the command says."""
    arguments = ["water", recipe, "--book", str(DEMO), "--servings", str(servings)]
    result = CliRunner().invoke(main, [*arguments, "--method", method, "--json"])
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.stdout)
    return found


def choose(page: Page, servings: int, method: str) -> None:
    """Click a serving size and a method."""
    page.locator(f".servings .segment:has(input[value='{servings}'])").click()
    page.locator(f".method .segment:has(input[value='{method}'])").click()


def shown_answer(page: Page) -> Locator:
    """Return the one answer that is seen."""
    seen = page.locator(".answer:visible")
    assert seen.count() == 1
    return seen


def check(page: Page, recipe: str, servings: int, method: str) -> None:
    """Compare what is seen with what the command says."""
    expected = water(recipe, servings, method)["components"]
    pours = shown_answer(page).locator(".pour")
    assert pours.count() == len(expected)
    for at, part in enumerate(expected):
        seen = pours.nth(at)
        measures = part["measures"]
        assert seen.locator(".start dd").inner_text() == measures["start"]
        assert seen.locator(".keep dd").inner_text() == measures["hold_back"]
        together = round(part["start_ml"] + part["hold_back_ml"])
        text = seen.locator(".together").inner_text().replace("\N{NO-BREAK SPACE}", " ")
        assert f"{together} mL" in text
        assert measures["together"].replace("\N{NO-BREAK SPACE}", " ") in text
        if part["rest_s"] < 3600:
            rest = max(1, int(part["rest_s"] / 60 + 0.5))
            shown = seen.locator(".rest dd").inner_text().replace("\N{NO-BREAK SPACE}", " ")
            assert shown == f"{rest} min"


CHOICES = [
    ("barley-and-leek-supper", 3, "stove"),
    ("barley-and-leek-supper", 8, "kettle"),
    ("turkey-under-mash", 2, "microwave"),
    ("pea-soup-with-turkey", 4, "jar"),
    ("squash-and-sweetcorn-supper", 6, "cold"),
    ("egg-and-chive-oatcakes", 3, "kettle"),
]


@pytest.mark.parametrize(("recipe", "servings", "method"), CHOICES)
def test_a_click_shows_the_numbers_of_the_command(
    page: Page, site: Path, recipe: str, servings: int, method: str
) -> None:
    page.goto((site / "recipes" / f"{recipe}.html").as_uri())
    choose(page, servings, method)
    check(page, recipe, servings, method)


def test_the_choosers_work_without_script(browser: Browser, site: Path) -> None:
    context = browser.new_context(java_script_enabled=False, offline=True)
    page = context.new_page()
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    choose(page, 3, "stove")
    check(page, "barley-and-leek-supper", 3, "stove")
    context.close()


def test_the_dry_mix_and_the_text_follow_the_choice(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    choose(page, 3, "stove")
    heads = page.locator(".mix thead th:visible").all_inner_texts()
    assert [head for head in heads if "serving" in head] == ["3 servings"] * 2
    expected = water("barley-and-leek-supper", 3, "stove")["components"][0]["measures"]["start"]
    assert expected in page.locator(".body").inner_text()


def test_the_author_s_own_test_is_what_a_reader_sees_first(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    check(page, "barley-and-leek-supper", 1, "kettle")


def test_the_choosers_work_from_the_keyboard(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    page.locator(".servings input:checked").focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowRight")
    check(page, "barley-and-leek-supper", 3, "microwave")


def test_a_choice_is_remembered_on_the_next_page(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    choose(page, 4, "stove")
    page.goto((site / "recipes" / "pea-soup-with-turkey.html").as_uri())
    check(page, "pea-soup-with-turkey", 4, "stove")
