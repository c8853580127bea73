"""A preview in a real browser: it follows what is saved, and shows what is to be mended."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from tests.conftest import until

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, BrowserContext, Page

    from tests.conftest import Previewed

    Begin = Callable[[Path], Previewed]

EVIL = "Bowl <script>window.ran = 1</script> & \"quotes\" 'too'"
FILE = "a <b> & 'quoted' page.md"


@pytest.fixture
def online(browser: Browser) -> Iterator[BrowserContext]:
    """Give a fresh profile, as wide as the narrowest phone, that reaches the loopback address."""
    made = browser.new_context(viewport={"width": 360, "height": 740})
    made.set_default_timeout(30_000)
    yield made
    made.close()


@pytest.fixture
def author(online: BrowserContext) -> Page:
    """Return a page of that profile."""
    return online.new_page()


def barriers(page: Page) -> list[str]:
    """Return what axe finds on the page as it stands."""
    axe = pytest.importorskip(
        "axe_playwright_python.sync_playwright", reason="axe is not installed"
    )
    results = axe.Axe().run(page)
    return [results.generate_report()] if results.violations_count else []


def change(path: Path, old: str, new: str) -> None:
    """Save a file with a word changed."""
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8", newline="\n")


def test_a_page_follows_the_text_and_keeps_place_and_choice(
    small_book: Path, previewed: Begin, author: Page
) -> None:
    recipe = small_book / "recipes/leek-broth.md"
    said: list[str] = []
    author.on("pageerror", lambda error: said.append(str(error)))
    author.goto(previewed(small_book).url + "recipes/leek-broth.html")
    assert author.locator(".preview-panel").count() == 0
    author.locator('.segment:has([name="servings"])').last.click()
    chosen = author.locator('[name="servings"]:checked').input_value()
    author.locator("details summary").first.click()
    author.evaluate("window.scrollTo(0, 500)")
    for words in ("and sit {rest}", "and stand {rest}", "and idle {rest}"):  # one after another
        change(recipe, recipe.read_text("utf-8").split(", ")[-1].strip(), f"{words}.")
        author.get_by_text(words.split(" {", maxsplit=1)[0]).first.wait_for()
        # the browser brings its reader back to the place when all is loaded
        until(lambda: author.evaluate("window.scrollY === 500"))
    assert author.locator('[name="servings"]:checked').input_value() == chosen
    assert author.locator("details").first.get_attribute("open") is not None
    assert said == []


def test_mistakes_are_shown_beside_the_last_good_page_and_go_when_mended(
    small_book: Path, previewed: Begin, author: Page
) -> None:
    recipe = small_book / "recipes/suppers/lentil-bowl.md"
    author.goto(previewed(small_book).url + "recipes/lentil-bowl.html")
    quoted = json.dumps(EVIL)
    change(recipe, "title: Lentil bowl", f"title: {quoted}\nsome key: {quoted}")
    (small_book / "pages" / FILE).write_text(
        f"---\ntitle: {quoted}\nwrong: {quoted}\n---\nText.\n", encoding="utf-8"
    )
    panel = author.locator(".preview-panel")
    panel.get_by_text(f"pages/{FILE}:3:1").wait_for()
    panel.get_by_text("recipes/suppers/lentil-bowl.md:3:1").wait_for()
    assert author.locator("h1").inner_text() == "Lentil bowl"
    assert panel.get_by_text("These pages are those of the last good book.").is_visible()
    assert quoted in panel.locator("pre", has_text="wrong:").inner_text()
    assert author.evaluate("window.ran") is None
    assert panel.locator("script, b").count() == 0
    (small_book / "pages" / FILE).unlink()
    change(recipe, f"\nsome key: {quoted}", "")
    panel.wait_for(state="detached")
    assert author.locator("h1").inner_text() == EVIL
    assert author.evaluate("window.ran") is None


def test_the_findings_are_the_page_until_there_is_a_book(
    small_book: Path, previewed: Begin, author: Page
) -> None:
    change(small_book / "book.yaml", "title", "tittle")
    author.goto(previewed(small_book).url)
    assert author.locator("h1").inner_text() == "Not a book yet"
    assert author.get_by_text("book.yaml:1:1").first.is_visible()
    assert not barriers(author)
    change(small_book / "book.yaml", "tittle", "title")
    author.get_by_role("heading", name="River shelf").wait_for()


@pytest.mark.parametrize("look", ["day", "dark", "red"])
def test_axe_finds_no_barrier_in_the_panel(
    small_book: Path, previewed: Begin, author: Page, look: str, wait: Callable[..., None]
) -> None:
    preview = previewed(small_book)
    for number in range(8):  # more than the panel shows at once
        (small_book / f"pages/odd-{number}.md").write_text("---\nodd: yes\n---\n", encoding="utf-8")
    wait(lambda: len({one.place.path for one in preview.session.kept.state.findings}) == 8)
    author.goto(preview.url + "recipes/leek-broth.html")
    author.evaluate("look => { localStorage.setItem('look', look) }", look)
    author.reload()
    assert author.evaluate("document.documentElement.dataset.look") == look
    assert author.locator(".preview-panel li").count() >= 8
    assert not barriers(author)
    author.goto(preview.url + "nothing/here.html")
    assert author.locator("h1").inner_text() == "No such page"
    assert not barriers(author)


def test_the_panel_fits_a_phone_folds_by_key_and_stays_folded(
    small_book: Path, previewed: Begin, author: Page
) -> None:
    preview = previewed(small_book)
    wide = "x" * 300
    change(small_book / "recipes/leek-broth.md", "title:", f"wrong: {wide}\ntitle:")
    author.goto(preview.url + "recipes/lentil-bowl.html")
    summary = author.locator(".preview-panel summary")
    summary.wait_for()
    width = author.evaluate("document.documentElement.scrollWidth")
    assert width == 360
    box = author.locator(".preview-panel").bounding_box()
    assert box is not None
    assert box["y"] + box["height"] <= 740.5  # it stands at the foot of the glass
    assert box["height"] < 0.6 * 740
    listed = author.locator(".preview-panel .preview-list")
    summary.focus()
    author.keyboard.press("Tab")
    assert listed.evaluate("list => list === document.activeElement")
    summary.focus()
    author.keyboard.press("Enter")
    assert not listed.is_visible()
    change(small_book / "pages/the-shelf.md", "dark", "cold")  # the same findings come again
    author.goto(preview.url + "find.html")
    author.locator(".preview-panel details:not([open])").wait_for(state="attached")
    change(small_book / "recipes/leek-broth.md", wide, "short")  # news open it
    author.locator(".preview-panel details[open]").wait_for(state="attached")
    author.emulate_media(media="print")
    assert not author.locator(".preview-panel").is_visible()


def test_a_page_opened_by_a_restarted_preview_goes_on(
    small_book: Path, previewed: Begin, author: Page
) -> None:
    first = previewed(small_book)
    author.goto(first.url + "pages/the-shelf.html")
    first.stop()
    change(small_book / "pages/the-shelf.md", "the dark", "the shade")
    again = previewed(small_book)
    assert again.port == first.port
    author.get_by_text("Jars stand in the shade.").wait_for()
