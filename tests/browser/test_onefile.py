"""A book in one file, opened from a file: one page at a time, the same numbers, a book on paper."""

from __future__ import annotations

import io
import re
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final
from unicodedata import normalize

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing import onefile
from cookbook_build.publishing.binding import bind_book
from cookbook_build.publishing.carrying import IN_ONE_FILE
from tests.browser.conftest import without_policy
from tests.conftest import until

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, Page

DEMO: Final = Path(__file__).parents[2] / "content_demo"
NAME: Final = f"the-alder-bend-larder-book{IN_ONE_FILE}"
LOOKS: Final = ("day", "dark", "red")
SCREENS: Final = {"phone": (390, 844), "tablet": (820, 1180)}
SUPPER: Final = "p-recipes-barley-and-leek-supper"
WITHOUT_HAS: Final = """() => {
  const old = CSS.supports.bind(CSS);
  CSS.supports = (...words) => !String(words[0]).includes(':has') && old(...words);
}"""


@pytest.fixture(scope="module")
def plain(site: Path) -> Path:
    """Return the demo in one file."""
    return site / NAME


@pytest.fixture(scope="module")
def folded(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the demo in one file, folded as a large book's."""
    findings = Findings()
    book = read_book(DEMO, findings)
    assert book is not None
    out = tmp_path_factory.mktemp("folded") / "site"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(onefile, "FOLDED_FROM", 1)
        bind_book(reckoned(book, findings), out)
    return out / NAME


@pytest.fixture(params=["plain", "folded"])
def file(request: pytest.FixtureRequest) -> Path:
    """Return the demo in one file, in both its forms."""
    found: Path = request.getfixturevalue(request.param)
    return found


@pytest.fixture
def heard(page: Page) -> Iterator[None]:
    """Check that a page says nothing, and asks for nothing but its file."""
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("request", lambda ask: said.append(ask.url) if ask.url[:5] == "http:" else None)
    yield
    assert not said


def seen(page: Page) -> str:
    """Return the address of the one page that is seen."""
    pages = page.locator(".page").filter(visible=True)
    assert pages.count() == 1
    return pages.get_attribute("id") or ""


def follow(page: Page, name: str) -> None:
    """Click a link that is seen to a page or to a place on one."""
    page.locator(f"main a[href='#{name}']").filter(visible=True).first.click()


def choose(page: Page, servings: int, method: str) -> None:
    """Click a serving size and a method of the page that is seen."""
    for group, value in (("servings", servings), ("method", method)):
        inputs = f".{group} .segment:has(input[value='{value}'])"
        page.locator(inputs).filter(visible=True).click()


def numbers(page: Page) -> list[str]:
    """Return the answer and the dry mix that are seen, as words."""
    parts = page.locator(".answer, .mix td, .body").filter(visible=True)
    return [" ".join(text.split()) for text in parts.all_inner_texts()]


@pytest.mark.parametrize(
    ("name", "servings", "method"),
    [("barley-and-leek-supper", 3, "stove"), ("pea-soup-with-turkey", 4, "jar")],
)
@pytest.mark.usefixtures("heard")
def test_from_the_contents_to_a_recipe_and_its_numbers(
    page: Page, site: Path, file: Path, name: str, servings: int, method: str
) -> None:
    page.goto((site / "recipes" / f"{name}.html").as_uri())
    choose(page, servings, method)
    expected = numbers(page)
    # the words of these steps are not for that way
    assert any("These steps are told for the kettle." in words for words in expected)
    title = page.title()
    page.evaluate("localStorage.clear()")
    page.goto(file.as_uri())
    assert seen(page) == "p-index"
    follow(page, f"p-recipes-{name}")
    assert seen(page) == f"p-recipes-{name}"
    choose(page, servings, method)
    assert numbers(page) == expected
    assert page.title() == title
    follow(page, "p-larder-salt") if name.startswith("barley") else None


def test_a_choice_goes_along_to_the_next_recipe(page: Page, file: Path) -> None:
    page.goto(file.as_uri())
    follow(page, SUPPER)
    choose(page, 4, "stove")
    page.locator("[rel=next]").filter(visible=True).click()
    assert seen(page) != SUPPER
    assert page.locator("[name=servings]:checked").filter(visible=True).input_value() == "4"
    choose(page, 2, "kettle")
    page.go_back()
    assert seen(page) == SUPPER
    assert page.locator("[name=servings]:checked").filter(visible=True).input_value() == "2"


def test_back_and_forward_show_the_page_and_the_place_that_was(page: Page, file: Path) -> None:
    page.goto(file.as_uri())
    follow(page, SUPPER)
    follow(page, f"{SUPPER}.water")
    place = page.evaluate("scrollY")
    assert place > 300
    assert seen(page) == SUPPER
    page.go_back()
    until(lambda: page.evaluate("scrollY === 0"))
    assert seen(page) == SUPPER
    page.go_back()
    assert seen(page) == "p-index"
    page.go_forward()
    page.go_forward()
    assert seen(page) == SUPPER
    until(lambda: page.evaluate(f"scrollY === {place}"))


def test_the_masthead_the_title_and_the_focus_follow_the_page(page: Page, file: Path) -> None:
    page.goto(file.as_uri())
    for name, title in (("larder", "The larder"), ("cautions", "Cautions")):
        page.locator(f".masthead a[href='#p-{name}']").click()
        assert seen(page) == f"p-{name}"
        assert page.title().startswith(title)
        current = page.locator("[aria-current]")
        assert current.count() == 1
        assert current.get_attribute("href") == f"#p-{name}"
        assert page.evaluate("document.activeElement.id") == f"p-{name}"
        assert page.evaluate("scrollY") == 0


def test_the_look_and_the_way_past_the_masthead_leave_the_page_where_it_is(
    page: Page, file: Path
) -> None:
    page.goto(f"{file.as_uri()}#{SUPPER}")
    page.locator(".masthead a[href='#look']").click()
    assert seen(page) == SUPPER
    assert page.evaluate("document.activeElement.name") == "look"
    page.locator(".skip").evaluate("link => link.click()")
    assert seen(page) == SUPPER
    assert page.evaluate("document.activeElement.id") == SUPPER
    assert page.url.endswith(SUPPER)


@pytest.mark.parametrize("place", ["", ".water"])
def test_an_address_opens_the_page_that_it_names(page: Page, file: Path, place: str) -> None:
    page.goto(f"{file.as_uri()}#{SUPPER}{place}")
    assert seen(page) == SUPPER
    assert (page.evaluate("scrollY") > 300) == bool(place)
    page.reload()
    assert seen(page) == SUPPER


def test_an_address_that_the_file_does_not_know_shows_the_contents(page: Page, file: Path) -> None:
    page.goto(f"{file.as_uri()}#p-recipes-no-such-thing")
    assert seen(page) == "p-index"


def test_ticks_are_remembered_each_on_its_own_page(page: Page, file: Path) -> None:
    page.goto(f"{file.as_uri()}#p-lists-midsummer-paddle")
    boxes = page.locator(".tick").filter(visible=True)
    boxes.nth(1).click()
    page.goto(f"{file.as_uri()}#p-recipes-orchard-sauce")
    page.locator(".tick").filter(visible=True).nth(2).click()
    page.reload()
    checked = "[...document.querySelectorAll('.shown .tick input')].map(box => box.checked)"
    assert [at for at, is_on in enumerate(page.evaluate(checked)) if is_on] == [2]
    page.evaluate("location.hash = '#p-lists-midsummer-paddle'")
    until(lambda: page.evaluate("document.title.startsWith('Midsummer')"))
    assert [at for at, is_on in enumerate(page.evaluate(checked)) if is_on] == [1]


def test_a_tick_made_in_the_folder_is_there_in_the_file(page: Page, site: Path, file: Path) -> None:
    page.goto((site / "lists" / "midsummer-paddle.html").as_uri())
    page.locator(".tick").nth(3).click()
    page.goto(f"{file.as_uri()}#p-lists-midsummer-paddle")
    boxes = page.locator("#p-lists-midsummer-paddle .tick input").all()
    assert [at for at, box in enumerate(boxes) if box.is_checked()] == [3]


def test_the_look_is_remembered(page: Page, file: Path) -> None:
    page.goto(file.as_uri())
    page.locator(".looks .segment:has(#look-red)").click()
    page.reload()
    ground = "getComputedStyle(document.documentElement).backgroundColor"
    assert page.evaluate(ground) == "rgb(0, 0, 0)"


def test_without_script_every_page_is_reached_and_read(
    scriptless: Page, site: Path, file: Path
) -> None:
    scriptless.goto(file.as_uri())
    assert seen(scriptless) == "p-index"
    follow(scriptless, SUPPER)
    assert seen(scriptless) == SUPPER
    choose(scriptless, 3, "stove")
    found = numbers(scriptless)
    follow(scriptless, f"{SUPPER}.water")
    assert seen(scriptless) == SUPPER
    assert scriptless.locator(".blocked").filter(visible=True).count() == 0
    cells = scriptless.locator(f"#{SUPPER} .water td")
    assert cells.count() == cells.filter(visible=True).count() > 20
    scriptless.goto((site / "recipes" / "barley-and-leek-supper.html").as_uri())
    choose(scriptless, 3, "stove")
    assert numbers(scriptless) == found


def test_a_fold_that_nothing_opens_says_so(page: Page, folded: Path, tmp_path: Path) -> None:
    text = folded.read_text(encoding="utf-8")
    rule = '<meta http-equiv="Content-Security-Policy" content="script-src \'none\'">'
    blocked = tmp_path / "blocked.html"
    blocked.write_text(text.replace("<title>", f"{rule}<title>", 1), encoding="utf-8")
    page.goto(blocked.as_uri())
    assert page.locator(".blocked").is_visible()
    page.goto(folded.as_uri())
    assert page.locator(".blocked").is_hidden()


def test_a_browser_without_has_shows_one_page_too(page: Page, plain: Path, tmp_path: Path) -> None:
    text = plain.read_text(encoding="utf-8").replace("selector(:has(*))", "selector(:none-such(*))")
    text = without_policy(text)  # which knows the style by its digest
    old = tmp_path / "old.html"
    old.write_text(re.sub(r"^.*:has\(.*$", "", text, flags=re.MULTILINE), encoding="utf-8")
    page.add_init_script(f"({WITHOUT_HAS})()")
    page.goto(old.as_uri())
    assert seen(page) == "p-index"
    follow(page, SUPPER)
    assert seen(page) == SUPPER
    follow(page, f"{SUPPER}.water")
    assert seen(page) == SUPPER
    choose_plainly = "value => document.querySelector(`.shown [value='${value}']`).click()"
    page.evaluate(choose_plainly, "4")
    assert page.locator(".shown .answer").filter(visible=True).count() == 1
    assert "4-" in (
        page.locator(".shown .answer").filter(visible=True).get_attribute("data-on") or ""
    )


@pytest.mark.parametrize("screen", SCREENS)
@pytest.mark.parametrize("look", LOOKS)
def test_axe_finds_no_barrier(browser: Browser, folded: Path, look: str, screen: str) -> None:
    axe: Any = pytest.importorskip(
        "axe_playwright_python.sync_playwright", reason="axe is not installed"
    )
    width, height = SCREENS[screen]
    context = browser.new_context(viewport={"width": width, "height": height}, offline=True)
    page = context.new_page()
    page.goto(folded.as_uri())
    page.evaluate("look => { document.documentElement.dataset.look = look }", look)
    for name in ("index", "recipes-barley-and-leek-supper", "larder-salt", "cautions"):
        page.evaluate("name => { location.hash = name }", f"#p-{name}")
        until(partial(page.evaluate, f"document.querySelector('.shown').id === 'p-{name}'"))
        results = axe.Axe().run(page)
        assert not results.violations_count, results.generate_report()
    context.close()


def sheets(page: Page, paper: str) -> list[str]:
    """Return the words of each sheet that is printed now."""
    pypdf: Any = pytest.importorskip("pypdf", reason="pypdf is not installed")
    read = pypdf.PdfReader(io.BytesIO(page.pdf(format=paper)))
    texts = (normalize("NFKC", sheet.extract_text()) for sheet in read.pages)  # no ligatures
    return [" ".join(text.split()) for text in texts]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_from_the_contents_the_whole_book_is_printed_in_its_order(
    page: Page, folded: Path, paper: str
) -> None:
    page.goto(folded.as_uri())
    titles = page.locator("#p-index .entry .numbered + .part + h3").all_text_contents()
    assert len(titles) == 19
    printed = sheets(page, paper)
    assert "The Alder Bend larder book" in printed[0]
    contents = max(i for i, text in enumerate(printed) if "Also in this book" in text)
    begun = []
    for number, title in enumerate(titles, 1):
        head = normalize("NFKC", f"{number} {title}")
        # its number and its title stand among the first words of a sheet of its own
        at = [i for i, text in enumerate(printed) if i > contents and head in text[:120]]
        assert len(at) == 1, head
        begun += at
    assert begun == sorted(set(begun))
    assert begun[0] == contents + 1
    larder = next(i for i, text in enumerate(printed) if text.startswith("The larder What"))
    cautions = next(i for i, text in enumerate(printed) if text.startswith("Cautions"))
    assert begun[-1] < larder < cautions
    assert "local food-safety guidance" in printed[-1]
    assert not any("How it is made ready" in text for text in printed[: begun[-1]])


NAMED: Final = """() => [...document.querySelectorAll('main .page a')]
  .filter(link => !link.closest('.entry, .neighbours')
    && link.closest('.page').id !== link.hash.slice(1).split('.')[0])
  .map(link => [link, link.nextElementSibling])
  .map(([link, next]) => [link.closest('.page').id, link.hash.slice(1).split('.')[0],
    next?.matches('.numbered') ? next.innerText.trim() : ''])"""


def test_a_printed_book_gives_the_number_beside_each_name(page: Page, plain: Path) -> None:
    page.goto(plain.as_uri())
    entries = page.locator("#p-index .entry:has(.numbered)")
    numbers = {
        (link.get_attribute("href") or "")[1:]: (number.text_content() or "")
        for link, number in zip(
            entries.locator("h3 a").all(), entries.locator(".numbered").all(), strict=True
        )
    }
    assert len(numbers) == 19
    assert page.locator(".numbered").filter(visible=True).count() == 0  # on paper only
    page.emulate_media(media="print")
    told = {(where, to): number for where, to, number in page.evaluate(NAMED)}
    for (where, to), number in told.items():
        assert number == (f"({numbers[to]})" if to in numbers else ""), (where, to)
    places = {where for (where, to) in told if to in numbers}
    # the index, what a store and a base are used in, and a menu
    sauce = "p-recipes-orchard-sauce"
    assert {"p-find", "p-larder-leeks", sauce, "p-lists-midsummer-paddle"} <= places
    page.emulate_media(media="screen")
    page.goto(f"{plain.as_uri()}#p-find")
    assert page.locator(".numbered").filter(visible=True).count() == 0


def test_what_follows_the_recipes_is_told_in_the_order_of_the_sheets(
    page: Page, plain: Path
) -> None:
    page.goto(plain.as_uri())
    pages = page.locator("main > .page, main > .columns > .page").evaluate_all(
        "pages => pages.map(page => page.id)"
    )
    also = page.locator("#p-index\\.also .entry a").evaluate_all(
        "links => links.map(link => link.hash.slice(1))"
    )
    assert also == sorted(also, key=pages.index)
    assert len(also) >= 6
    stores = page.locator(".of-store h1").all_text_contents()
    assert stores == sorted(stores, key=str.casefold)  # no accent among them
    assert len(stores) > 30


def test_without_script_the_same_book_is_printed(
    page: Page, scriptless: Page, folded: Path
) -> None:
    page.goto(folded.as_uri())
    scriptless.goto(folded.as_uri())
    with_script, without = sheets(page, "A4"), sheets(scriptless, "A4")
    assert [text[:60] for text in without] == [text[:60] for text in with_script]


def test_while_a_recipe_is_shown_it_is_printed_alone(
    page: Page, scriptless: Page, file: Path
) -> None:
    for one in (page, scriptless):
        one.goto(f"{file.as_uri()}#p-recipes-beetroot-soup")
        printed = sheets(one, "A4")
        assert len(printed) <= 3
        assert "Beetroot soup" in printed[0]
        assert not any("Barley and leek supper" in text for text in printed)


@pytest.mark.usefixtures("heard")
def test_the_finder_leads_to_a_recipe_of_the_file(page: Page, file: Path) -> None:
    page.goto(f"{file.as_uri()}#p-find")
    page.locator(".asked input").fill("barly lek")  # a letter short, both
    found = page.locator(".found .meals a").filter(visible=True).first
    assert found.inner_text() == "Barley and leek supper"
    found.click()
    assert seen(page) == SUPPER
    page.go_back()
    assert seen(page) == "p-find"
    assert page.locator(".asked input").input_value() == "barly lek"


@pytest.mark.usefixtures("heard")
def test_the_finder_of_a_series_knows_its_meals_alone(page: Page, site: Path) -> None:
    held = site / f"suppers-on-a-flat-stone{IN_ONE_FILE}"
    page.goto(f"{held.as_uri()}#p-find")
    meals = page.locator(".names .meals > li")
    assert meals.count() == len(list((DEMO / "recipes/suppers-on-a-flat-stone").glob("*.md")))
    page.locator(".asked input").fill("blackcurrant")  # of another series
    page.locator(".nothing").wait_for(state="visible")
