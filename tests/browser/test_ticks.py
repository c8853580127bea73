"""What a reader ticks and chooses stays on the device."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page


def test_a_tick_survives_a_reload_and_so_does_its_removal(page: Page, site: Path) -> None:
    page.goto((site / "lists" / "midsummer-paddle.html").as_uri())
    boxes = page.locator(".tick input")
    page.locator(".tick").first.click()
    page.locator(".tick").nth(2).click()
    page.reload()
    assert [box.is_checked() for box in boxes.all()[:4]] == [True, False, True, False]
    page.locator(".tick").first.click()
    page.reload()
    assert [box.is_checked() for box in boxes.all()[:4]] == [False, False, True, False]


def test_a_tick_on_one_list_leaves_the_others_alone(page: Page, site: Path) -> None:
    page.goto((site / "lists" / "midsummer-paddle.html").as_uri())
    for tick in page.locator(".tick").all():
        tick.click()
    for base in ("orchard-sauce", "turkey-and-mushroom-braise"):
        page.goto((site / "recipes" / f"{base}.html").as_uri())
        assert page.locator(".tick input").count() > 0
        assert page.locator(".tick input:checked").count() == 0


def test_the_chosen_look_survives_on_every_page(page: Page, site: Path) -> None:
    page.goto((site / "lists" / "midsummer-paddle.html").as_uri())
    page.locator(".looks .segment:has(#look-red)").click()
    for name in ("lists/midsummer-paddle.html", "index.html", "recipes/beetroot-soup.html"):
        page.goto((site / name).as_uri())
        assert page.evaluate("document.documentElement.dataset.look") == "red"
        assert page.locator("#look-red").is_checked()


def test_the_look_can_be_given_back_to_the_device(page: Page, site: Path) -> None:
    page.goto((site / "index.html").as_uri())
    page.locator(".looks .segment:has(#look-dark)").click()
    page.locator(".looks .segment:has(#look-device)").click()
    page.reload()
    ground = "getComputedStyle(document.documentElement).backgroundColor"
    assert page.evaluate(ground) == "rgb(255, 253, 248)"
