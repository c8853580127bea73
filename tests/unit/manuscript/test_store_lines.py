"""The line of larder.yaml for each food: it proofs as it stands, and says what must be minded."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings, Severity, described
from cookbook_build.foods import Food, load_foods
from cookbook_build.foods.lookup import normalised
from cookbook_build.manuscript.collection import read_book
from cookbook_build.manuscript.food_search import found_foods, name_in, store_name_in, tongues
from cookbook_build.manuscript.store_lines import StoreLine, as_key, store_line
from cookbook_build.planning.reckoning import reckoned

if TYPE_CHECKING:
    from pathlib import Path

FOODS = load_foods()
BOOK = "title: A small book\n"
LARDER = "lentil stew base: {food: lentils cooked, dried: freeze, cooked first: true}\n"
MEAL = """\
---
title: Lentil bowl
ingredients: [1 cup lentil stew base]
---
Pour {water}.
"""
WANTED = {
    "leeks raw": "leeks: {food: leeks raw, dried: freeze, form: sliced}",
    "lentils cooked": "lentils: {food: lentils cooked, dried: freeze, cooked first: true}",
    "lentils dry": "lentils: {food: lentils cooked, dried: freeze, cooked first: true}",
    "ground turkey raw": "ground turkey: {food: ground turkey raw, dried: freeze, raw: true}",
    "eggs raw": "eggs: {food: eggs raw, dried: freeze, raw: true}",
    "milk raw": "milk: {food: milk raw, dried: freeze, raw: true}",
    "salmon raw": "salmon: {food: salmon raw, dried: freeze, raw: true}",
    "flour": "flour: {food: flour, dried: bought, raw: true}",
    "salt": "salt: {food: salt, dried: bought}",
    "oats": "oats: {food: oats, dried: bought}",
    "hazelnuts": "hazelnuts: {food: hazelnuts, dried: bought}",
    "thyme dried": "thyme: {food: thyme dried, dried: bought}",
    "milk powder": "milk powder: {food: milk powder, dried: bought, form: powder}",
    "apples dried": "apples: {food: apples dried, dried: bought}",
    "honey": "honey: {food: honey, dried: bought}",
    "jam": "jam: {food: jam, dried: fresh}",
    "soy sauce": "soy sauce: {food: soy sauce, dried: fresh}",
    "pan bread": "pan bread: {food: pan bread, dried: fresh}",
}
"""What a household would write; common practice, no source."""


def line_of(name: str) -> str:
    """Return the line of a food by its name in the table."""
    food = FOODS.find(name)
    assert food is not None
    return store_line(food, FOODS).line


@pytest.mark.parametrize(("name", "line"), WANTED.items())
def test_a_line_is_what_a_household_would_write(name: str, line: str) -> None:
    assert line_of(name) == line


def proofed(folder: Path, lines: list[str]) -> Findings:
    """Return what proof finds in a small book with these lines in its larder."""
    (folder / "recipes/bowls").mkdir(parents=True, exist_ok=True)
    (folder / "book.yaml").write_text(BOOK, encoding="utf-8")
    (folder / "larder.yaml").write_text(LARDER + "\n".join(lines) + "\n", encoding="utf-8")
    (folder / "recipes/bowls/lentil-bowl.md").write_text(MEAL, encoding="utf-8")
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None, [described(found) for found in findings]
    assert len(book.larder.stores) == 1 + len(lines)
    reckoned(book, findings)
    return findings


def larders(lines: list[StoreLine]) -> list[list[str]]:
    """Return the lines dealt out to larders in which no name stands twice."""
    dealt: list[dict[str, str]] = []
    for line in lines:
        name = normalised(line.name)
        free = next((larder for larder in dealt if name not in larder), None)
        if free is None:
            dealt.append(free := {})
        free[name] = line.line
    return [list(larder.values()) for larder in dealt]


@pytest.mark.parametrize("tag", ["en", "es"])
def test_the_line_of_every_food_proofs_in_a_small_larder(tmp_path: Path, tag: str) -> None:
    lines = [
        store_line(food, FOODS, store_name_in(name_in(food, tag)) if tag != "en" else "", tag)
        for food in FOODS
    ]
    dealt = larders(lines)
    assert sum(map(len, dealt)) == len(FOODS)
    for larder in dealt:
        found = proofed(tmp_path, larder)
        assert [described(one) for one in found if one.severity is Severity.ERROR] == []


@pytest.mark.parametrize("food", [f for f in FOODS if f.raw_animal or f.flour], ids=lambda f: f.id)
def test_what_is_raw_says_so_and_how_it_is_eaten(food: Food) -> None:
    kept = store_line(food, FOODS)
    assert "raw: true" in kept.line
    assert "cooked through" in kept.cautions[0]


@pytest.mark.parametrize("food", [f for f in FOODS if f.needs_cooking], ids=lambda f: f.id)
def test_what_hot_water_does_not_cook_is_cooked_first(food: Food) -> None:
    kept = store_line(food, FOODS)
    uncooked = "no figures of it cooked" in kept.cautions[0]
    assert ("cooked first: true" in kept.line) is not uncooked
    assert ("dried: bought" in kept.line) is uncooked
    assert not (uncooked and food.moisture > 0.15)  # what is sold fresh is cooked and dried
    assert "hot water alone does not cook" in kept.cautions[0]
    assert ("poisonous" in kept.cautions[0]) == (food.needs_cooking == "poison")


@pytest.mark.parametrize(
    "food", [f for f in FOODS if f.group in {"pulses", "grains"} and "cooked" in f.name], ids=str
)
def test_cooked_pulses_and_grains_say_so(food: Food) -> None:
    assert "cooked first: true" in store_line(food, FOODS).line


@pytest.mark.parametrize("food", [f for f in FOODS if f.unsuited], ids=lambda food: food.id)
def test_what_does_not_suit_a_freeze_dryer_is_not_put_into_one(food: Food) -> None:
    kept = store_line(food, FOODS)
    assert "dried: freeze" not in kept.line
    assert f"({food.unsuited})" in kept.cautions[0]


def test_what_has_no_pieces_is_to_be_weighed_as_a_powder() -> None:
    for name in ("yogurt", "milk whole", "tomato sauce", "mashed potatoes", "orange juice"):
        food = FOODS.find(name)
        assert food is not None
        assert any("weigh a cup" in caution for caution in store_line(food, FOODS).cautions)


@pytest.mark.parametrize(
    ("name", "key"),
    [("leeks", "leeks"), ("sweet corn", "sweet corn"), ("no", '"no"'), ("a: b", '"a: b"')],
)
def test_a_name_is_quoted_where_a_key_needs_it(name: str, key: str) -> None:
    assert as_key(name) == key


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("leaks", "leeks raw"),
        ("leek", "leeks raw"),
        ("pear barly", "pearl barley dry"),
        ("turkey mince", "ground turkey raw"),
        ("minced beef", "ground beef raw"),
        ("courgette", "zucchini raw"),
        ("puerros", "leeks raw"),
        ("puerro", "leeks raw"),
        ("pueros", "leeks raw"),
        ("lentejas cocidas", "lentils cooked"),
        ("lentexas", "lentils dry"),
        ("limón", "lemons raw"),
        ("limon", "lemons raw"),
        ("limones", "lemons raw"),
        ("calabacin", "zucchini raw"),
        ("melocoton", "peaches raw"),
        ("platano", "bananas raw"),
        ("jugo de naranja", "orange juice"),
        ("papas", "potatoes raw"),
        ("camarones cocidos", "shrimp cooked"),
        ("leche en polvo", "milk powder"),
        ("harina", "flour"),
        ("nueces", "walnuts"),
        ("sal", "salt"),
    ],
)
def test_slips_and_other_names_find_their_food_in_both_languages(typed: str, first: str) -> None:
    assert found_foods(typed, tongues(""))[0].food.name == first


@pytest.mark.parametrize(
    ("typed", "among"),
    [
        ("arroz", "white rice dry"),
        ("setas", "mushrooms raw"),
        ("frijoles negros", "black beans dry"),
        ("ternera picada", "ground beef raw"),
    ],
)
def test_a_kind_finds_its_foods_among_the_best_few(typed: str, among: str) -> None:
    assert among in [found.food.name for found in found_foods(typed, tongues(""))[:8]]


def test_a_food_found_by_a_spanish_name_is_kept_under_it() -> None:
    found = found_foods("lentejas cocidas", ("es",))[0]
    assert found.called == "lentejas cocidas"
    assert found.kept.line == (
        "lentejas: {food: lentils cooked, dried: freeze, cooked first: true}"
    )


@pytest.mark.parametrize("food", list(FOODS), ids=lambda food: food.id)
def test_a_spanish_form_takes_the_cup_of_the_english_one(food: Food) -> None:
    forms = [
        found[1]
        for tag in ("en", "es")
        if (found := re.search(r"form: ([^,}]+)", store_line(food, FOODS, tag=tag).line))
    ]
    assert len(forms) in {0, 2}
    assert len({food.cup(form) for form in forms}) <= 1
    assert not forms or forms[0] != forms[1]


def test_a_slip_does_not_bring_half_the_table() -> None:
    assert len(found_foods("leaks", tongues(""))) < 10


def test_nothing_near_is_nothing() -> None:
    for words in ("xyzzy", "", "   ", "🍲", "de la"):
        assert found_foods(words, tongues("")) == []


@pytest.mark.parametrize("typed", ["shiitake", "okra", "quinoa"])
def test_a_name_of_both_languages_is_answered_in_english(typed: str) -> None:
    for found in found_foods(typed, tongues(""))[:2]:
        assert not found.called
        assert " en " not in found.kept.line
