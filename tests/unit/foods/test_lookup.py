"""How a name finds its food, and what is offered when it does not."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cookbook_build.foods import Food, load_foods
from cookbook_build.foods.lookup import normalised, singular

FOODS = load_foods()
DEMO_LARDER = Path(__file__).parents[3] / "content_demo/larder.yaml"
# The food names of the demo book's larder, as its author wrote them.
DEMO = """
    pearl barley cooked; lentils cooked; white rice cooked; potatoes boiled; green peas cooked;
    sweet corn cooked; leeks raw; onions raw; carrots raw; celery raw; beets cooked;
    butternut squash baked; kale cooked; chives raw; parsley fresh; tomatoes raw;
    oyster mushrooms raw; shiitake mushrooms raw; apples without skin raw; apples raw; pears raw;
    plums raw; raspberries raw; blackcurrants raw; yogurt plain whole milk; cheddar cheese;
    scrambled eggs; turkey cooked; ground turkey raw; oats; couscous dry; whole milk powder;
    hazelnuts; brown sugar; sugar; salt; black pepper; thyme dried; nutmeg ground; cinnamon ground;
    ginger ground; garlic powder; mustard powder; caraway seed; olive oil; cider vinegar; oatcake
"""


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("leeks raw", "leeks raw"),
        ("raw leeks", "leeks raw"),
        ("Leek, raw", "leeks raw"),
        ("  LEEKS  ", "leeks raw"),
        ("leeks-raw", "leeks raw"),
        ("courgette", "zucchini raw"),
        ("aubergines cooked", "eggplant cooked"),
        ("quick oats", "oats"),
        ("swede", "rutabaga raw"),
        ("turkey mince raw", "ground turkey raw"),
        ("Hen's eggs, raw", "eggs raw"),
        ("natural yoghurt", "yogurt"),
        ("dried kidney beans", "kidney beans dry"),
        ("boiled lentils", "lentils cooked"),
        ("tinned chickpeas", "chickpeas canned"),
        ("blackberry", "blackberries raw"),
        ("fresh leeks", "leeks raw"),
        ("parsley, fresh", "parsley raw"),
        ("raw basil", "basil fresh"),
        ("fresh milk", "milk whole"),
        ("raw milk", "milk raw"),
    ],
)
def test_a_name_finds_its_food_in_any_dress(words: str, name: str) -> None:
    found = FOODS.find(words)
    assert found is not None
    assert found.name == name


@pytest.mark.parametrize("words", ["", "leaks raw", "leeks", "1 2 3", "raw"])
def test_a_near_name_is_not_the_name(words: str) -> None:
    found = FOODS.find(words)
    assert found is None or normalised(words) in {normalised(name) for name in found.names}


@pytest.mark.parametrize("food", list(FOODS), ids=lambda food: food.id)
def test_every_name_finds_its_own_food(food: Food) -> None:
    for name in food.names:
        assert FOODS.find(name) is food
        assert FOODS.find(" ".join(reversed(name.split())).upper()) is food


@pytest.mark.parametrize("name", [" ".join(name.split()) for name in DEMO.split(";")])
def test_every_food_of_the_demo_larder_is_found(name: str) -> None:
    assert FOODS.find(name) is not None


@pytest.mark.skipif(not DEMO_LARDER.is_file(), reason="there is no demo book here")
def test_the_demo_larder_names_no_food_that_the_table_lacks() -> None:
    text = DEMO_LARDER.read_text(encoding="utf-8")
    named = [name.strip(" \"'") for name in re.findall(r"\bfood:([^,}#\n]+)", text)]
    assert named
    assert [name for name in named if FOODS.find(name) is None] == []


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("leaks raw", "leeks raw"),
        ("pototo flake", "potato flakes"),
        ("lentls", "lentils dry"),
        ("brocoli", "broccoli raw"),
        ("chikpeas cooked", "chickpeas cooked"),
        ("barly", "pearl barley dry"),
        ("courgete", "zucchini raw"),
        ("porrige", "porridge"),
        ("strawbery dried", "strawberries raw"),
        ("turkey", "turkey raw"),
        ("rice", "white rice cooked"),
    ],
)
def test_a_slip_is_offered_the_name_that_was_meant(typed: str, meant: str) -> None:
    assert FOODS.nearest(typed)[0].name == meant


def test_whole_words_come_before_likenesses() -> None:
    offered = [food.name for food in FOODS.nearest("orange", limit=20)]
    assert offered[0] == "oranges raw"
    assert {"orange peel", "orange juice"} <= set(offered[:4])


def test_no_more_is_offered_than_was_asked_for_and_nothing_twice() -> None:
    for limit in (0, 1, 3, 50):
        offered = FOODS.nearest("beans cooked", limit=limit)
        assert len(offered) <= limit
        assert len({food.id for food in offered}) == len(offered)


def test_nothing_near_means_nothing_offered() -> None:
    assert FOODS.nearest("xyzzy") == []
    assert FOODS.nearest("") == []


@pytest.mark.parametrize(
    ("plural", "one"),
    [
        ("cherries", "cherry"),
        ("tomatoes", "tomato"),
        ("peaches", "peach"),
        ("oats", "oat"),
        ("leaves", "leaf"),
        ("chillies", "chilli"),
        ("couscous", "couscous"),
        ("asparagus", "asparagus"),
        ("watercress", "watercress"),
        ("peas", "pea"),
    ],
)
def test_a_plural_loses_its_ending(plural: str, one: str) -> None:
    assert singular(plural) == one


@given(st.text(max_size=40))
def test_any_text_may_be_looked_up(text: str) -> None:
    FOODS.find(text)
    assert normalised(normalised(text)) == normalised(text)
