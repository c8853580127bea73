"""Allergens of the table against the two laws that list them."""

from __future__ import annotations

import re

import pytest

from cookbook_build.foods import Food, load_foods

FOODS = list(load_foods())

# US-NINE and, where the European law has a name for it (EU-FOURTEEN), that name.
US_TO_EU = {
    "milk": "milk",
    "eggs": "eggs",
    "fish": "fish",
    "crustacean shellfish": "crustaceans",
    "tree nuts": "nuts",
    "peanuts": "peanuts",
    "wheat": "cereals containing gluten",
    "soybeans": "soybeans",
    "sesame": "sesame",
}
EU_ALONE = {"celery", "mustard", "sulphites", "lupin", "molluscs"}


def holds(food: Food, words: str) -> bool:
    return re.search(rf"\b(?:{words})\b", " ; ".join((food.name, *food.other_names))) is not None


def test_the_american_names_are_the_nine_and_all_are_in_use() -> None:
    assert {name for food in FOODS for name in food.allergens_us} == set(US_TO_EU)


def test_the_european_names_are_the_fourteen_and_all_are_in_use() -> None:
    fourteen = {*US_TO_EU.values(), *EU_ALONE}
    assert len(fourteen) == 14
    assert {name for food in FOODS for name in food.allergens_eu} == fourteen


def test_what_one_law_names_the_other_names_too_but_for_two_differences() -> None:
    # EU-FOURTEEN names eight nuts, and pine nuts are not of them (US-NUTS has them); its cereals
    # are wheat, rye, barley and oats, of which US-NINE has wheat alone.
    american = {(food.id, US_TO_EU[name]) for food in FOODS for name in food.allergens_us}
    european = {(food.id, name) for food in FOODS for name in food.allergens_eu}
    assert american - european == {("pine-nuts", "nuts")}
    lacking = {pair for pair in european - american if pair[1] not in EU_ALONE}
    assert {name for _, name in lacking} == {"cereals containing gluten"}


@pytest.mark.parametrize(
    ("words", "allergen", "but_not"),
    [
        # EU-FOURTEEN, Annex II, in the words of the annex; beside it the foods that only sound so.
        (
            "wheat|spelt|khorasan|rye|barley|oats?|couscous|bulgur",
            "cereals containing gluten",
            "tamari",  # "wheat-free soy sauce"
        ),
        ("shrimp|prawns?|crab|lobster|crayfish", "crustaceans", ""),
        ("eggs?|omelette|mayonnaise", "eggs", ""),
        ("cod|salmon|trout|haddock|herring|tuna|pike|perch|anchovies", "fish", ""),
        ("peanuts?|groundnuts?", "peanuts", ""),
        ("soya?|soybeans?|tofu|edamame|tempeh|miso", "soybeans", "soybean-oil"),  # refined: exempt
        ("milk|cheese|yogurt|cheddar|parmesan", "milk", "soy-milk-unsweetened coconut-milk-canned"),
        (
            "almonds?|hazelnuts?|walnuts?|cashews?|pecans?|brazil nuts?|pistachios?|macadamia",
            "nuts",
            "",
        ),
        ("celery|celeriac", "celery", ""),
        ("mustard", "mustard", ""),
        ("sesame|tahini", "sesame", ""),
        ("lupins?", "lupin", ""),
        ("mussels?|clams?|scallops?|squid|oysters?", "molluscs", "oyster-mushrooms-raw"),
    ],
)  # fmt: skip
def test_a_food_of_the_annex_carries_its_allergen(words: str, allergen: str, but_not: str) -> None:
    bare = {food.id for food in FOODS if holds(food, words) and allergen not in food.allergens_eu}
    assert bare == set(but_not.split())


def test_american_tree_nuts_are_the_agencys_twelve() -> None:
    # US-NUTS, Table 1 of January 2025: coconut and chestnut are no longer on the list.
    twelve = "almonds?|walnuts?|brazil|cashews?|hazelnuts?|macadamia|pecans?|pine nuts?|pistachios?"
    mixed = {"granola", "pesto"}  # made with some of them
    marked = {food.id for food in FOODS if "tree nuts" in food.allergens_us}
    assert marked - mixed == {food.id for food in FOODS if holds(food, twelve)} - mixed
    for name in ("coconut raw", "chestnuts raw"):
        food = load_foods().find(name)
        assert food is not None
        assert "tree nuts" not in food.allergens_us


def test_fruit_dried_with_sulphur_says_so() -> None:
    # SR28 calls these rows "sulfured": 09011, 09032, 09246, 09259. EU-FOURTEEN: above 10 mg/kg.
    sulfured = [food for food in FOODS if food.ndb in {"09011", "09032", "09246", "09259"}]
    assert len(sulfured) == 4
    assert all("sulphites" in food.allergens_eu for food in sulfured)
