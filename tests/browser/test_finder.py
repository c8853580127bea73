"""A reader finds a meal: by words with slips, by the shelf, by way, time, energy and allergens."""

from __future__ import annotations

import io
import itertools
import random
import re
import string
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup
from rapidfuzz.distance import OSA

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.publishing.finder import folded

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, Page

DEMO = Path(__file__).parents[2] / "content_demo"
LETTERS = string.ascii_lowercase
AT_ONCE = "window.setTimeout = act => { act(); return 0 }"  # no moment is waited for
ANSWER = """({words, ticks, within, energy, by}) => {
  const form = document.querySelector('.wishes')
  for (const box of form.querySelectorAll('[type=checkbox]')) {
    box.checked = (ticks || []).includes(box.name)
  }
  form.querySelector('[name=words]').value = words || ''
  form.querySelector('[name=within]').value = within || ''
  form.querySelector('[name=energy]').value = energy || ''
  form.querySelector(`[value=${by || 'best'}]`).checked = true
  form.dispatchEvent(new Event('input', {bubbles: true}))
  const titles = lot => [...document.querySelectorAll(`.lot.${lot} .meals > li`)]
    .map(line => [line.querySelector('a').textContent, line.querySelector('.why').textContent])
  return {
    whole: titles('whole'), short: titles('short'),
    said: form.querySelector('[role=status]').textContent,
  }
}"""


@dataclass
class Meal:
    """A meal as its own page and its author's text have it."""

    title: str
    blurb: set[str] = field(default_factory=set)
    # title, series, ways, allergens, stores, what they're called and what they're made with
    other: set[str] = field(default_factory=set)
    needs: set[str] = field(default_factory=set)
    allergens: str = ""
    energy: int = 0
    ways: dict[str, int] = field(default_factory=dict)


def words_of(text: str) -> list[str]:
    return re.findall(r"[^\W_]+", folded(text))


@pytest.fixture(scope="module")
def meals(site: Path) -> list[Meal]:
    """Return the demo's meals, read from their own pages and the author's files."""
    findings = Findings()
    book = read_book(DEMO, findings)
    assert book is not None
    found = []
    stores = {name.replace(" ", "-"): store for name, store in book.larder.stores.items()}
    index = BeautifulSoup((site / "find.html").read_text("utf-8"), "lxml")
    for recipe in book.meals:
        file = site / "recipes" / f"{recipe.address}.html"
        page = BeautifulSoup(file.read_text("utf-8"), "lxml")
        meal = Meal(recipe.keys.title, set(words_of(recipe.keys.blurb or "")))
        meal.other = {*words_of(recipe.keys.title), *words_of(recipe.keys.series or "")}
        for row in page.select(".mix table:not(.poured) tbody tr"):
            assert row.a is not None
            anchor = Path(str(row.a["href"])).stem
            store = stores[anchor]
            for name in (store.name, *store.keys.also_called):
                meal.other.update(words_of(name))
            base = book.base_of(store.name)
            for part in base.components if base else ():
                for made_with in part.ingredients:
                    meal.other.update(words_of(made_with.name))
            marks = [mark.get_text() for mark in row.select(".mark")]
            if "optional" not in marks and row.select(".amount")[0].get_text() != "to taste":
                meal.needs.add(anchor)
        text = page.select(".nourishment")[0].get_text(" ")
        meal.allergens = text.split("author: ")[1].split(". Looked")[0]
        meal.other.update(words_of(meal.allergens.replace("none found", "")))
        for method in page.select(".method .segment span"):
            meal.other.update(words_of(method.get_text()))
        energy = page.find("th", string="Energy")
        assert energy is not None
        assert energy.parent is not None
        meal.energy = int(energy.parent.select("td")[-1].get_text().split("\N{NO-BREAK SPACE}")[0])
        for line in index.select(".run li"):
            if line.a and line.a.get_text() == meal.title:
                way = line.find_parent("section")
                assert way is not None
                clock = re.findall(r"(\d+)\s*(h|min)", line.select(".figure")[0].get_text())
                meal.ways[str(way["data-way"])] = sum(
                    int(number) * (60 if unit == "h" else 1) for number, unit in clock
                )
        found.append(meal)
    return sorted(found, key=lambda meal: folded(meal.title))


@pytest.fixture
def finder(page: Page, site: Path) -> Page:
    """Return the open index, whose answers are whole at once."""
    page.add_init_script(AT_ONCE)
    page.goto((site / "find.html").as_uri())
    return page


def found(finder: Page, **wish: object) -> list[str]:
    """Return the titles that a wish finds, in their order."""
    return [title for title, _ in finder.evaluate(ANSWER, wish)["whole"]]


def forgiven(letters: int) -> int:
    return 0 if letters < 4 else 1 if letters < 8 else 2


def is_near(typed: str, word: str) -> bool:
    """Tell whether a typed word is another with its slips, or with fewer a beginning of it."""
    if forgiven(len(word)) and OSA.distance(typed, word) <= forgiven(len(word)):
        return True
    most = forgiven(len(typed) - 1)
    begun = (word[:at] for at in range(len(word) + 1))
    return bool(most) and any(OSA.distance(typed, part) <= most for part in begun)


def is_joined(typed: str, word: str) -> bool:
    """Tell whether a word of three letters or more ends a joined one: `nut` ends `hazelnuts`."""
    at = word.rfind(typed)
    return len(typed) >= 3 and at >= 3 and len(word) - at - len(typed) <= 2


def expected(meals: list[Meal], query: str) -> set[str]:
    """Return what a query finds by the rules, with the distances of another program."""
    titles = {meal.title for meal in meals}
    for typed in words_of(query):
        known = set().union(*(meal.blurb | meal.other for meal in meals))
        stands = any(word.startswith(typed) for word in known)
        titles &= {
            meal.title
            for meal in meals
            if any(word.startswith(typed) for word in meal.blurb | meal.other)
            or any(is_joined(typed, word) for word in meal.blurb | meal.other)
            or any(is_near(typed, word) for word in meal.other)
            or (not stands and any(is_near(typed, word) for word in meal.blurb))
        }
    return titles


def slipped(chance: random.Random, word: str) -> str:
    """Return a word with one slip of any kind."""
    at = chance.randrange(len(word))
    kinds = [
        word[:at] + word[at + 1 :],
        word[:at] + chance.choice(LETTERS) + word[at:],
        word[:at] + chance.choice(LETTERS) + word[at + 1 :],
        word[:at] + word[at : at + 2][::-1] + word[at + 2 :],
    ]
    return chance.choice(kinds)


def test_a_title_s_word_with_a_slip_finds_its_meal(finder: Page, meals: list[Meal]) -> None:
    chance = random.Random(1)  # noqa: S311 - no secret
    for meal in meals:
        for word in words_of(meal.title):
            if len(word) < 4:
                continue
            for _ in range(6):
                typed = slipped(chance, word)
                if len(word) >= 8 and chance.random() < 0.5:
                    typed = slipped(chance, typed)
                assert OSA.distance(typed, word) <= forgiven(len(word))
                assert meal.title in found(finder, words=typed), (typed, word)


def queries(meals: list[Meal], chance: random.Random) -> Iterator[str]:
    every = sorted(set().union(*(meal.blurb | meal.other for meal in meals)))
    for _ in range(400):
        word = chance.choice(every)
        kind = chance.randrange(6)
        if kind == 0:
            yield word[: chance.randint(1, len(word))]
        elif kind == 1:
            yield f"{slipped(chance, word)} {chance.choice(every)[:3]}"
        elif kind == 2:
            yield slipped(chance, slipped(chance, word))
        elif kind == 3:
            yield "".join(chance.choices(LETTERS, k=chance.randint(1, 10)))
        else:
            yield slipped(chance, word[: chance.randint(3, 12)])


def test_words_find_what_another_program_s_distances_find(finder: Page, meals: list[Meal]) -> None:
    chance = random.Random(2)  # noqa: S311 - no secret
    sizes = set()
    for query in queries(meals, chance):
        wanted = expected(meals, query) if words_of(query) else set()
        assert set(found(finder, words=query)) == wanted, query
        sizes.add(len(wanted))
    assert len(sizes) > 10, "all queries were alike"


def test_what_stands_as_it_was_typed_comes_first(finder: Page, meals: list[Meal]) -> None:
    for word in ("leek", "turkey", "soup", "pear", "plum"):
        titles = found(finder, words=word)
        begun = [any(w.startswith(word) for w in words_of(title)) for title in titles]
        assert begun == sorted(begun, reverse=True)
        held = [m.title for m in meals if any(w.startswith(word) for w in m.other)]
        assert set(titles[: len(held)]) == set(held)


def test_accents_and_case_don_t_matter(finder: Page) -> None:
    assert found(finder, words="BÁRLEY Léek") == found(finder, words="barley leek") != []


def test_the_reason_is_told_where_it_is_not_the_title(finder: Page) -> None:
    answer = dict(finder.evaluate(ANSWER, {"words": "leek"})["whole"])
    assert answer["Barley and leek supper"] == ""
    assert answer["Pea soup with turkey"] == "holds leeks"
    answer = dict(finder.evaluate(ANSWER, {"words": "shiitake"})["whole"])
    assert answer == {"Mushroom rice with peas": "holds log mushrooms, also called shiitake"}
    answer = dict(finder.evaluate(ANSWER, {"words": "flat stone"})["whole"])
    assert answer["Turkey under mash"] == "in Suppers on a flat stone"


def test_nuts_are_found_as_an_allergen_and_before_what_only_begins_so(
    finder: Page, meals: list[Meal]
) -> None:
    with_nuts = [meal.title for meal in meals if "nuts" in meal.allergens]
    spiced = [m.title for m in meals if "nutmeg" in m.other and m.title not in with_nuts]
    assert with_nuts
    assert spiced
    for typed in ("nut", "nuts"):
        answer = dict(finder.evaluate(ANSWER, {"words": typed})["whole"])
        assert sorted(list(answer)[: len(with_nuts)], key=folded) == with_nuts
        assert set(spiced) <= set(answer) or typed == "nuts"
    assert "Porridge with apples and hazelnuts" in with_nuts


def test_a_way_s_name_finds_the_meals_that_are_made_so(finder: Page, meals: list[Meal]) -> None:
    for word, way in (("kettle", "kettle"), ("jar", "jar"), ("cold soak", "cold")):
        titles = found(finder, words=word)
        assert set(titles) >= {meal.title for meal in meals if way in meal.ways}


def test_what_went_into_a_base_is_found_and_told(finder: Page) -> None:
    answer = dict(finder.evaluate(ANSWER, {"words": "mushroom"})["whole"])
    assert answer["Turkey under mash"] == "holds turkey braise, made with oyster mushrooms"
    assert next(iter(answer)) == "Mushroom rice with peas"
    entry = finder.locator('.held [data-store="turkey-braise"] .made')
    assert "oyster mushrooms" in (entry.text_content() or "")
    finder.emulate_media(media="print")
    assert entry.is_visible()


def test_a_short_word_with_a_slip_is_found(finder: Page) -> None:
    assert "Egg and chive oatcakes" in found(finder, words="egss")
    titles = found(finder, words="pea")
    assert titles.index("Pea soup with turkey") < titles.index("Barley and leek supper")


def test_only_the_ways_that_are_ready_in_time_are_shown(finder: Page, meals: list[Meal]) -> None:
    for within in (5, 12, 17):
        finder.evaluate(ANSWER, {"within": within})
        lines = finder.locator(".found .meals > li").all()
        assert lines
        for line in lines:
            ways = next(m.ways for m in meals if m.title == line.locator("a").inner_text())
            shown = line.locator("[data-way]").filter(visible=True)
            told = {span.get_attribute("data-way") for span in shown.all()}
            assert told == {way for way, minutes in ways.items() if minutes <= within}
    finder.evaluate(ANSWER, {"words": "barley leek"})
    assert finder.locator(".found [data-way=cold]").first.is_visible()


def test_a_figure_out_of_bounds_is_said_not_to_count(finder: Page) -> None:
    finder.locator('.tab[data-drawer="ready"]').click()
    said = finder.locator("#amiss-within")
    assert said.is_hidden()
    for figure in ("0", "-3", "2000"):
        finder.locator("[name=within]").fill(figure)
        assert said.is_visible()
        assert said.inner_text() == "Not counted: write a number from 1 to 1440."
        assert finder.locator(".found").is_hidden()
    finder.locator("[name=within]").fill("7.5")
    assert said.is_hidden()
    assert finder.locator(".found").is_visible()


def test_the_shelf_shows_what_is_complete_and_what_lacks_one_store(
    finder: Page, meals: list[Meal]
) -> None:
    chance = random.Random(3)  # noqa: S311 - no secret
    stores = sorted(set().union(*(meal.needs for meal in meals)))
    seen = [0, 0]
    for _ in range(150):
        has = set(chance.sample(stores, chance.randint(1, len(stores))))
        answer = finder.evaluate(ANSWER, {"ticks": [f"have/{store}" for store in has]})
        whole = [meal.title for meal in meals if not meal.needs - has]
        short = {
            meal.title: f"lacks {next(iter(meal.needs - has)).replace('-', ' ')}"
            for meal in meals
            if len(meal.needs - has) == 1
        }
        assert [title for title, _ in answer["whole"]] == whole
        assert dict(answer["short"]) == short
        assert answer["said"] == f"Complete: {len(whole)}. One store short: {len(short)}."
        seen = [seen[0] + len(whole), seen[1] + len(short)]
    assert all(seen)


def test_allergens_way_time_and_energy_leave_what_their_pages_say(
    finder: Page, meals: list[Meal]
) -> None:
    boxes = {
        box.get_attribute("name") or "": box.evaluate("box => box.parentNode.textContent")
        for box in finder.locator('[name^="without/"]').all()
    }
    for count in (1, 2):
        for names in itertools.combinations(boxes, count):
            free = [m.title for m in meals if not any(boxes[n] in m.allergens for n in names)]
            assert found(finder, ticks=names) == free
    for way in ("kettle", "microwave", "stove", "jar", "cold"):
        having = [m.title for m in meals if way in m.ways]
        assert found(finder, ticks=[f"way/{way}"]) == having
        for within in (5, 12, 17, 60):
            soon = [m.title for m in meals if m.ways.get(way, 9999) <= within]
            assert found(finder, ticks=[f"way/{way}"], within=within) == soon
    for kcal in (300, 400, 402, 403, 600):
        strong = [m.title for m in meals if m.energy >= kcal]
        assert found(finder, energy=kcal) == strong
    either = [
        m.title for m in meals if min(m.ways.get("jar", 9999), m.ways.get("cold", 9999)) <= 30
    ]
    assert found(finder, ticks=["way/jar", "way/cold"], within=30) == either


def test_answers_come_in_the_order_that_was_chosen(finder: Page, meals: list[Meal]) -> None:
    by_energy = sorted(meals, key=lambda meal: -meal.energy)
    assert found(finder, energy=1, by="energy") == [meal.title for meal in by_energy]
    by_time = sorted(meals, key=lambda meal: min(meal.ways.values()))
    assert found(finder, energy=1, by="soonest") == [meal.title for meal in by_time]
    stove = sorted((m for m in meals if "stove" in m.ways), key=lambda meal: meal.ways["stove"])
    assert found(finder, ticks=["way/stove"], by="soonest") == [meal.title for meal in stove]


def test_only_the_ways_that_were_asked_for_are_shown(finder: Page) -> None:
    finder.evaluate(ANSWER, {"ticks": ["way/stove"], "words": "barley leek"})
    shown = finder.locator(".found .times > span").filter(visible=True).all_inner_texts()
    assert shown == ["stove 13\N{NO-BREAK SPACE}min", "402\N{NO-BREAK SPACE}kcal"]
    assert finder.locator('.names [data-way="kettle"]').first.is_visible()


def test_an_empty_answer_says_which_wish_to_loosen(finder: Page, meals: list[Meal]) -> None:
    finder.evaluate(ANSWER, {"words": "lentil", "ticks": ["way/stove"], "within": 6})
    assert finder.locator(".nothing").is_visible()
    offers = finder.locator(".nothing button")
    lentils = [m for m in meals if "lentils" in m.other and "stove" in m.ways]
    stove = [m for m in meals if m.ways.get("stove", 99) <= 6]
    assert offers.all_inner_texts() == [
        f"Loosen the words “lentil”. Meals then: {len(stove)}",
        f"Loosen “ready within 6 min”. Meals then: {len(lentils)}",
    ]
    offers.nth(1).click()
    assert finder.locator(".nothing").is_hidden()
    assert finder.locator("[name=within]").input_value() == ""
    assert finder.locator("[name=words]").input_value() == "lentil"
    assert finder.locator(".found .meals a").all_inner_texts() == ["Lentils with orchard sauce"]


def test_nobody_is_offered_what_they_may_be_allergic_to(finder: Page) -> None:
    finder.evaluate(ANSWER, {"words": "oatcakes", "ticks": ["without/milk"], "within": 30})
    assert "Meals with milk would fit; they stay out." in finder.locator(".nothing").inner_text()
    for offer in finder.locator(".nothing button").all_inner_texts():
        assert "milk" not in offer
    finder.evaluate(ANSWER, {"words": "zzzz", "ticks": ["without/milk"], "energy": 899})
    assert "Let go of two, or of all" in finder.locator(".nothing").inner_text()


def test_choices_survive_a_reload_until_they_are_cleared(page: Page, site: Path) -> None:
    page.goto((site / "find.html").as_uri())
    page.locator("[name=words]").fill("barley")
    page.locator('.tab[data-drawer="shelf"]').click()
    page.locator('[data-tick="all"]').click()
    page.locator('.have:has([value="leeks"])').click()
    page.locator('.tab[data-drawer="ready"]').click()
    page.locator("[name=within]").fill("45")
    page.locator('.segment:has([value="energy"])').click()
    before = page.locator(".found .meals a").all_inner_texts()
    assert before
    page.reload()
    assert page.locator(".found .meals a").all_inner_texts() == before
    assert page.locator("[name=words]").input_value() == "barley"
    assert page.locator("[name=within]").is_visible()
    assert page.locator("[value=energy]").is_checked()
    assert not page.locator('[value="leeks"]').is_checked()
    page.locator(".clear").click()
    page.reload()
    assert page.locator(".found").is_hidden()
    assert page.locator(".wishes [type=checkbox]:checked").count() == 0
    assert page.locator('[role="status"]').inner_text() == "Meals in this book: 17."


def test_all_can_be_ticked_and_cleared_and_a_shelf_alone(page: Page, site: Path) -> None:
    page.goto((site / "find.html").as_uri())
    page.locator('.tab[data-drawer="shelf"]').click()
    boxes = page.locator('[name^="have/"]')
    page.locator('[data-tick="all"]').click()
    assert page.locator('[name^="have/"]:checked').count() == boxes.count()
    assert page.locator('[role="status"]').inner_text() == "Complete: 17. One store short: 0."
    page.locator('[data-tick="none"]').click()
    assert page.locator('[name^="have/"]:checked').count() == 0
    air = page.locator('fieldset:has(> legend:text-is("Air-dried"))')
    air.locator("button").click()
    ticked = page.locator('[name^="have/"]:checked').count()
    assert ticked == air.locator("input").count() > 0


def test_the_keyboard_alone_finds_opens_and_ticks(page: Page, site: Path) -> None:
    page.goto((site / "find.html").as_uri())
    for _ in range(20):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.name") == "words":
            break
    page.keyboard.type("leks soup")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.dataset.drawer") == "ready"
    assert page.evaluate("document.activeElement.getAttribute('aria-expanded')") == "true"
    for _ in range(3):
        page.keyboard.press("Tab")
    page.keyboard.press("Space")
    assert page.evaluate("document.activeElement.name") == "way/kettle"
    assert page.evaluate("document.activeElement.checked")
    for _ in range(5):
        page.keyboard.press("Tab")
    page.keyboard.type("40")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.textContent") == "Pea soup with turkey"
    page.keyboard.press("Enter")
    page.wait_for_url("**/recipes/pea-soup-with-turkey.html")


def test_the_search_takes_the_focus_where_it_can_be_seen(page: Page, site: Path) -> None:
    page.emulate_media(reduced_motion="reduce")  # where it is, not where it is scrolling to
    page.goto((site / "find.html").as_uri())
    page.locator('.tab[data-drawer="shelf"]').click()
    page.locator(".skip").focus()
    reached = set()
    for _ in range(120):
        page.keyboard.press("Tab")
        seen = page.evaluate(
            """() => {
              const at = document.activeElement
              const ring = at.matches('.segment input') ? at.nextElementSibling : at
              const box = ring.getBoundingClientRect(), style = getComputedStyle(ring)
              const count = document.querySelector('.count').getBoundingClientRect()
              const hidden = at.matches('.wishes *') && !at.matches('.count *') &&
                box.top < count.bottom && box.bottom > count.top
              return [at.name || at.tagName, at === document.body ||
                style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2, hidden]
            }"""
        )
        assert seen[1], f"{seen[0]} takes the focus and doesn't show it"
        assert not seen[2], f"{seen[0]} lies under the count"
        reached.add(seen[0])
    assert {"words", "have/leeks", "BUTTON", "by"} <= reached


def test_without_a_script_the_index_is_whole_and_asks_for_nothing(
    scriptless: Page, site: Path, meals: list[Meal]
) -> None:
    scriptless.goto((site / "find.html").as_uri())
    assert scriptless.locator(".wishes").is_hidden()
    assert scriptless.locator(".found").is_hidden()
    for part in (".names .meals > li", ".run li", ".held .columns > li"):
        lines = scriptless.locator(part)
        assert lines.count() >= len(meals)
        assert lines.filter(visible=True).count() == lines.count()


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_on_paper_it_is_the_index_alone(
    page: Page, site: Path, meals: list[Meal], paper: str
) -> None:
    pypdf = pytest.importorskip("pypdf", reason="pypdf is not installed")
    page.goto((site / "find.html").as_uri())
    page.locator("[name=words]").fill("barley")
    sheets = pypdf.PdfReader(io.BytesIO(page.pdf(format=paper))).pages
    text = "".join("".join(sheet.extract_text() for sheet in sheets).split())
    assert "Lookfor" not in text
    assert "Mealsthatfit" not in text
    for meal in meals:
        # by name, and once for each way and each store that it holds
        times = 1 + len(meal.ways) + len(meal.needs)
        assert text.count("".join(meal.title.split())) >= times, meal.title


def test_the_finder_works_wherever_its_main_part_is_put(
    page: Page, site: Path, tmp_path: Path
) -> None:
    text = (site / "find.html").read_text("utf-8")
    main = text.split('<main id="main">')[1].split("</main>")[0]
    main = re.sub(r'\b(id|for|aria-controls|aria-labelledby)="', r'\1="p-find--', main)
    main = re.sub(r'href="recipes/([\w-]+)\.html"', r'href="#p-\1"', main)
    script = (site / "finder.js").read_text("utf-8")
    assert "</script" not in script
    whole = f"<!DOCTYPE html><title>A</title><div>{main}</div><script>{script}</script>"
    (tmp_path / "one.html").write_text(whole, "utf-8")
    page.goto((tmp_path / "one.html").as_uri())
    page.locator("[name=words]").fill("barly lek")
    link = page.locator(".found .meals a")
    assert link.get_attribute("href") == "#p-barley-and-leek-supper"


@pytest.mark.parametrize("look", ["day", "dark", "red"])
@pytest.mark.parametrize("width", [390, 820])
def test_axe_finds_no_barrier_in_any_drawer_or_answer(
    browser: Browser, site: Path, look: str, width: int
) -> None:
    axe = pytest.importorskip(
        "axe_playwright_python.sync_playwright", reason="axe is not installed"
    )
    context = browser.new_context(viewport={"width": width, "height": 900}, offline=True)
    page = context.new_page()
    page.goto((site / "find.html").as_uri())
    page.evaluate("look => { document.documentElement.dataset.look = look }", look)

    def check() -> None:
        results = axe.Axe().run(page)
        assert not results.violations_count, results.generate_report()

    for drawer in ("shelf", "ready", "without", "energy"):
        page.locator(f'.tab[data-drawer="{drawer}"]').click()
        if drawer == "shelf":
            page.locator('[data-tick="all"]').click()
            page.locator('.have:has([value="leeks"])').click()
        check()
    page.locator("[name=words]").fill("lek")
    check()
    page.locator("[name=words]").fill("zzzz")
    assert page.locator(".nothing").is_visible()
    check()
    context.close()
