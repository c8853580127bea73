"""The JSON-LD of each meal, read by an extractor that is not ours (SCHEMA-RECIPE)."""

from __future__ import annotations

import csv
import datetime as dt
import json
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from bs4 import BeautifulSoup
from extruct.jsonld import JsonLdExtractor

from cookbook_build.publishing.recipe_script import iso_duration

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.publishing.desk import Desk

# ISO 8601, 4.4.3.2, as far as hours and minutes; schema.org's Mass and Energy are a number and a
# unit with a space between
DURATION = re.compile(r"PT(?=\d)(\d+H)?(\d+M)?")
AMOUNTS = {"Mass": re.compile(r"\d+(\.\d+)? m?g"), "Energy": re.compile(r"\d+ k?cal")}
# an address that stands on its own, or one within the book where the book has none of its own
URL = re.compile(r"(https?://[^/ ]+/|\.\./)[^ ]*")


def properties() -> list[dict[str, str]]:
    """Return the rows of the list of schema.org's names."""
    path = Path(__file__).with_name("schema_recipe.csv")
    lines = path.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


EXPECTS = {(row["type"], row["property"]): row["expects"] for row in properties()}


def extracted(page: str) -> dict[str, Any]:
    """Return what the page's one recipe says."""
    (found,) = JsonLdExtractor().extract(page)
    assert found["@context"] == "https://schema.org"
    return dict(found)


def faults(thing: dict[str, Any]) -> Iterator[str]:
    """Give the properties that schema.org does not have, or whose value is of another type."""
    kind = thing["@type"]
    for name, value in thing.items():
        if name in {"@type", "@context"}:
            continue
        expects = EXPECTS.get((kind, name))
        for each in value if isinstance(value, list) else [value]:
            if expects is None:
                yield f"{kind} has no {name}"
            elif isinstance(each, dict):
                if each["@type"] != expects:
                    yield f"{name} is no {each['@type']}"
                yield from faults(each)
            elif not fits(each, expects):
                yield f"{name}: {each!r} is no {expects}"


def fits(value: object, expects: str) -> bool:
    """Return whether a text is of the type that schema.org expects."""
    if not isinstance(value, str) or not value.strip():
        return False
    match expects:
        case "Text":
            return "\N{NO-BREAK SPACE}" not in value
        case "URL":
            return bool(URL.fullmatch(value))
        case "Date":
            return str(dt.date.fromisoformat(value)) == value
        case "Duration":
            return bool(DURATION.fullmatch(value))
        case _:
            return expects in AMOUNTS and bool(AMOUNTS[expects].fullmatch(value))


def meals(desk: Desk, pages: dict[str, str]) -> Iterator[tuple[str, dict[str, Any]]]:
    for address in desk.reckoning.dishes:
        yield address, extracted(pages[desk.page_of[address]])


def test_each_meal_says_what_schema_org_knows_and_nothing_else(
    demo_desk: Desk, demo_pages: dict[str, str]
) -> None:
    found = dict(meals(demo_desk, demo_pages))
    assert len(found) == len(demo_desk.book.meals)
    for address, recipe in found.items():
        assert list(faults(recipe)) == [], address


@pytest.mark.parametrize(
    ("name", "value", "says"),
    [
        ("cookTime", "15 min", "no Duration"),
        ("cookTime", "PT", "no Duration"),
        ("recipeServings", "2", "has no recipeServings"),
        ("author", {"@type": "HowToStep", "text": "x"}, "no HowToStep"),
        ("nutrition", {"@type": "NutritionInformation", "fatContent": "9"}, "no Mass"),
        ("name", "", "no Text"),
        ("image", "a b.svg", "no URL"),
    ],
)
def test_a_planted_fault_is_found(
    demo_desk: Desk, demo_pages: dict[str, str], name: str, value: object, says: str
) -> None:
    recipe = extracted(demo_pages[demo_desk.page_of["barley-and-leek-supper"]])
    assert any(says in fault for fault in faults(recipe | {name: value}))


def test_each_meal_of_the_demo_has_all_that_is_required_and_recommended(
    demo_desk: Desk, demo_pages: dict[str, str]
) -> None:
    wanted = {r["property"] for r in properties() if r["type"] == "Recipe" and r["google"]}
    for address, recipe in meals(demo_desk, demo_pages):
        assert wanted <= set(recipe), address
        assert {"calories", "servingSize"} <= set(recipe["nutrition"]), address


def test_nobody_claims_a_diet_and_a_base_is_no_meal(
    demo_desk: Desk, demo_pages: dict[str, str]
) -> None:
    for text in demo_pages.values():
        assert "suitableForDiet" not in text
    for base in demo_desk.book.bases:
        assert "ld+json" not in demo_pages[demo_desk.page_of[base.address]]


def test_the_script_says_what_the_page_shows(demo_desk: Desk, demo_pages: dict[str, str]) -> None:
    for address, recipe in meals(demo_desk, demo_pages):
        page = BeautifulSoup(demo_pages[demo_desk.page_of[address]], "lxml")
        seen = " ".join(page.get_text(" ").split())
        head = page.select_one("h1")
        answer = page.select_one(".answer:not([hidden])")
        assert head is not None
        assert answer is not None
        said = " ".join(answer.get_text(" ").split())
        assert recipe["name"] == head.get_text()
        assert recipe["recipeYield"][0] in said
        for size in recipe["recipeYield"][1:]:
            assert f"Makes {size}" in said
        assert recipe["nutrition"]["calories"] in seen
        assert recipe["nutrition"]["proteinContent"] in seen
        rows = page.select(".mix table:not(.poured) tbody tr")
        parts = page.select(".mix table:not(.poured)")
        assert len(recipe["recipeIngredient"]) == len(rows) + len(parts)  # the water of each
        waters = [line for line in recipe["recipeIngredient"] if " water: pour " in line]
        pours = [" ".join(dd.get_text().split()) for dd in answer.select(".start dd")]
        assert [w.split("pour ")[1].split(", keep")[0] for w in waters] == pours


def test_each_numbered_step_is_a_step_with_the_default_values(
    demo_desk: Desk, demo_pages: dict[str, str]
) -> None:
    for address, recipe in meals(demo_desk, demo_pages):
        page = BeautifulSoup(demo_pages[demo_desk.page_of[address]], "lxml")
        for span in page.select(".body span[hidden]"):
            span.decompose()
        items = page.select(".body > ol > li") or [page.select_one(".body")]
        written = ["".join(item.get_text().split()) for item in items if item]
        raw = len(demo_desk.reckoning.dishes[address].raw_stores)
        said = ["".join(step["text"].split()) for step in recipe["recipeInstructions"][raw:]]
        assert said == written, address


def test_what_was_dried_raw_is_said_before_the_first_step(
    demo_desk: Desk, demo_pages: dict[str, str]
) -> None:
    raw = {a for a, dish in demo_desk.reckoning.dishes.items() if dish.raw_stores}
    assert raw
    for address, recipe in meals(demo_desk, demo_pages):
        first = recipe["recipeInstructions"][0]["text"]
        assert ("°C" in first and first.startswith("Raw ")) == (address in raw)
        marked = [line for line in recipe["recipeIngredient"] if line.endswith((" raw", "raw)"))]
        assert bool(marked) == (address in raw)


def minutes(duration: str) -> int:
    """Return the minutes of a duration of hours and minutes."""
    match = DURATION.fullmatch(duration)
    assert match
    hours, rest = (int((part or "0_")[:-1]) for part in match.groups())
    return 60 * hours + rest


def test_the_times_add_up_and_the_rest_is_that_of_the_page(
    demo_desk: Desk, demo_pages: dict[str, str]
) -> None:
    for address, recipe in meals(demo_desk, demo_pages):
        prep, cook, total = (minutes(recipe[f"{n}Time"]) for n in ("prep", "cook", "total"))
        assert prep + cook == total
        dish = demo_desk.reckoning.dishes[address]
        if dish.default_method == "cold":
            assert prep == 0
        else:
            assert prep > 0, address
        if len(dish.parts) == 1:
            assert iso_duration(cook) == recipe["cookTime"]
            words = demo_desk.views[address].minutes.replace("\N{NO-BREAK SPACE}", "").upper()
            assert recipe["cookTime"] == "PT" + words.replace("MIN", "M").replace(" ", "")


def test_hostile_words_come_back_and_end_nothing(
    hostile_desk: Desk, hostile_pages: dict[str, str], hostile_words: str
) -> None:
    page = hostile_pages[hostile_desk.page_of["bowl"]]
    raw = page.split('<script type="application/ld+json">')[1].split("</script>")[0]
    for unsafe in ("<", ">", "&", "\u2028", "\u2029"):
        assert unsafe not in raw
    read = json.loads(raw)
    assert read["name"] == read["description"] == read["author"]["name"] == hostile_words
    assert read["recipeInstructions"] == [
        {"@type": "HowToStep", "text": read["recipeInstructions"][0]["text"]}
    ]
    assert read["recipeInstructions"][0]["text"].endswith("</script> <!-- and wait.")
    assert read["image"] == ["https://example.org/n%C3%A4h/images/a-b.svg"]
    assert "license" not in read  # words are no address
    without = {key: value for key, value in read.items() if key not in {"name", "description"}}
    assert list(faults(without)) == []
