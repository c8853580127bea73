"""A reader picks a size and a method, and sees what `water --json` gives."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import unquote

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main
from cookbook_build.publishing.wording import minutes

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

DEMO = Path(__file__).parents[2] / "content_demo"


def water(recipe: str, servings: int, method: str) -> dict[str, Any]:
    """Return what the command says."""
    arguments = ["water", recipe, "--book", str(DEMO), "--servings", str(servings)]
    result = CliRunner().invoke(main, [*arguments, "--method", method, "--json"])
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.stdout)
    return found


def seen_sizes(page: Page) -> list[str | None]:
    """Return the size of each cell of the dry mix that is seen."""
    cells = page.locator(".mix [data-servings]:visible").all()
    return [cell.get_attribute("data-servings") for cell in cells]


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
        shown = seen.locator(".rest dd").inner_text()
        assert shown == minutes(part["rest_s"])
        if part["rest_s"] < 3600:
            rest = max(1, int(part["rest_s"] / 60 + 0.5))
            assert shown.replace("\N{NO-BREAK SPACE}", " ") == f"{rest} min"


CHOICES = [
    ("barley-and-leek-supper", 3, "stove"),
    ("barley-and-leek-supper", 8, "kettle"),
    ("turkey-under-mash", 2, "microwave"),
    ("plums-under-yogurt", 6, "kettle"),
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


def test_every_size_and_method_of_a_page_shows_one_answer(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    for size in page.locator(".servings input").all():
        for method in page.locator(".method input").all():
            size.check(force=True)
            method.check(force=True)
            chosen = f"{size.get_attribute('value')}-{method.get_attribute('value')}"
            assert shown_answer(page).get_attribute("data-on") == chosen


@pytest.mark.parametrize("name", ["barley-and-leek-supper", "turkey-under-mash"])
def test_the_choosers_work_without_script(scriptless: Page, site: Path, name: str) -> None:
    scriptless.goto((site / "recipes" / f"{name}.html").as_uri())
    choose(scriptless, 3, "stove")
    check(scriptless, name, 3, "stove")
    assert set(seen_sizes(scriptless)) == {"3"}


def test_back_and_forward_keep_the_choice(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    choose(page, 4, "microwave")
    page.locator(".mix tbody a").first.click()
    assert "/larder/" in page.url
    page.go_back()
    check(page, "barley-and-leek-supper", 4, "microwave")
    page.go_forward()
    page.go_back()
    check(page, "barley-and-leek-supper", 4, "microwave")


def test_back_keeps_the_choice_without_script(scriptless: Page, site: Path) -> None:
    scriptless.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    choose(scriptless, 4, "microwave")
    scriptless.locator(".mix tbody a").first.click()
    scriptless.go_back()
    check(scriptless, "barley-and-leek-supper", 4, "microwave")


def test_the_dry_mix_follows_the_size(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "turkey-under-mash.html").as_uri())
    for size in (1, 3, 8):
        choose(page, size, "stove")
        assert set(seen_sizes(page)) == {str(size)}
        assert len(seen_sizes(page)) == page.locator(".mix table:not(.poured) tr").count()
        dry = water("turkey-under-mash", size, "stove")["components"]
        totals = page.locator(".mix tfoot td:visible .grams").all_inner_texts()
        for total, part in zip(totals, dry, strict=True):
            assert total == f"{part['dry_g']:.0f}\N{NO-BREAK SPACE}g"


@pytest.mark.parametrize(("servings", "method"), [(1, "kettle"), (3, "stove"), (8, "cold")])
def test_the_text_follows_size_and_method(
    page: Page, site: Path, servings: int, method: str
) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    choose(page, servings, method)
    text = page.locator(".body").inner_text()
    for part in water("barley-and-leek-supper", servings, method)["components"]:
        assert part["measures"]["start"] in text
        assert minutes(part["rest_s"]) in text


TOLD = {
    "kettle": "boiling water on the mix in a bowl",
    "microwave": "heated to the boil",
    "stove": "brought to the boil",
    "jar": "preheat it with boiling water",
    "cold": "cold drinking water instead of boiling",
}
"""What the steps say first by a way that is not the author's."""


def told_ways(page: Page, recipe: Locator) -> None:
    """Choose each way, and see on screen and on paper how it goes where the steps begin."""
    ways = [
        str(way.get_attribute("value")) for way in recipe.locator('.method [name="method"]').all()
    ]
    own = recipe.locator('.method [name="method"][checked]').get_attribute("value")
    assert len(ways) > 1
    for way in ways:
        recipe.locator(f".method .segment:has(input[value='{way}'])").click()
        for media in ("screen", "print"):
            page.emulate_media(media=media)
            seen = recipe.locator(".body .told:visible")
            assert seen.count() == (way != own), (way, media)
            if way != own:
                text = seen.inner_text()
                assert f"These steps are told for the {own}." in text
                assert TOLD[way] in text
                assert "follow your choice" in text
        page.emulate_media(media="screen")


@pytest.mark.parametrize("reader", ["page", "scriptless"])
def test_the_steps_say_which_way_they_are_told_for_and_how_the_chosen_way_goes(
    request: pytest.FixtureRequest, site: Path, reader: str
) -> None:
    page: Page = request.getfixturevalue(reader)
    for name in ("barley-and-leek-supper", "beetroot-soup"):
        page.goto((site / "recipes" / f"{name}.html").as_uri())
        told_ways(page, page.locator(".recipe"))


def test_without_style_the_steps_are_told_for_the_way_that_is_shown(
    scriptless: Page, site: Path
) -> None:
    scriptless.route("**/*.css", lambda route: route.abort())
    scriptless.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    assert scriptless.locator(".told").count() == 4
    assert scriptless.locator(".told:visible").count() == 0


def test_the_author_s_own_test_is_what_a_reader_sees_first(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    check(page, "barley-and-leek-supper", 1, "kettle")


def test_the_choosers_work_from_the_keyboard(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    while page.evaluate("document.activeElement.name") != "servings":
        page.keyboard.press("Tab")
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


def test_a_remembered_method_gives_way_where_a_raw_store_forbids_it(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    choose(page, 2, "jar")
    page.goto((site / "recipes" / "turkey-mince-with-apples-and-barley.html").as_uri())
    assert page.locator(".method input[value='jar']").count() == 0
    assert (shown_answer(page).get_attribute("data-on") or "").startswith("2-")
    page.goto((site / "recipes" / "pea-soup-with-turkey.html").as_uri())
    check(page, "pea-soup-with-turkey", 2, "jar")


def test_the_form_to_send_back_follows_the_choice(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    choose(page, 4, "stove")
    form = page.locator(".reply pre").text_content() or ""
    letter = unquote(page.locator(".reply a").get_attribute("href") or "")
    for text in (form, letter):
        assert "Method: stove" in text
        assert "Servings: 4" in text
        assert "Water poured: (in all" in text
    choose(page, 2, "kettle")
    assert "Method: kettle" in (page.locator(".reply pre").text_content() or "")


def test_the_form_follows_in_its_own_words(page: Page, site: Path) -> None:
    page.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    page.evaluate("""() => {
      const pre = document.querySelector(".reply pre"), letter = document.querySelector(".reply a");
      Object.assign(pre.dataset, { servings: "Raciones", method: "Método" });
      pre.textContent = "Método: (hervidor)\\nRaciones: (2)\\nNota: (más)\\n";
      letter.href = "mailto:a@example.org?body=" + encodeURIComponent(
        pre.textContent.replaceAll("\\n", "\\r\\n"));
      document.querySelector("[name=method][value=stove]").dataset.word = "fogón";
    }""")
    choose(page, 4, "stove")
    form = page.locator(".reply pre").text_content()
    letter = unquote(page.locator(".reply a").get_attribute("href") or "")
    assert form == "Método: fogón\nRaciones: 4\nNota: (más)\n"
    assert letter.endswith("body=" + form.replace("\n", "\r\n"))


def test_without_script_the_form_leaves_method_and_servings_open(
    scriptless: Page, site: Path
) -> None:
    scriptless.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    form = scriptless.locator(".reply pre").text_content() or ""
    assert "Servings: (such as 2)" in form
