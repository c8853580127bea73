"""What the table of foods promises of its own columns, whatever the figures are."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

import pytest

from cookbook_build.foods import Food, FoodTable, load_foods
from cookbook_build.foods.lookup import normalised

FOODS = load_foods()
GROUPS = {
    "baking",
    "bread",
    "dairy",
    "eggs",
    "fish",
    "fruit",
    "grains",
    "herbs",
    "meat",
    "mushrooms",
    "nuts",
    "poultry",
    "pulses",
    "sauces",
    "spices",
    "vegetables",
}
US_NINE = {
    "milk",
    "eggs",
    "fish",
    "crustacean shellfish",
    "tree nuts",
    "peanuts",
    "wheat",
    "soybeans",
    "sesame",
}
EU_FOURTEEN = {
    "cereals containing gluten",
    "crustaceans",
    "eggs",
    "fish",
    "peanuts",
    "soybeans",
    "milk",
    "nuts",
    "celery",
    "mustard",
    "sesame",
    "sulphites",
    "lupin",
    "molluscs",
}
SUM_TOLERANCE_G = 2.0
# Rows of SR28 whose water, protein, fat, carbohydrate and ash don't add up to 100 g, and the likely
# reason.
SUM_EXCEPTIONS = {
    "balsamic-vinegar": "acetic acid is counted nowhere",
    "cider-vinegar": "acetic acid is counted nowhere",
    "white-vinegar": "acetic acid is counted nowhere",
    "wine-vinegar": "acetic acid is counted nowhere",
    "vanilla-extract": "alcohol is counted nowhere",
    "black-pepper": "the carbohydrate was analysed, not taken as the rest",
    "white-pepper": "the carbohydrate was analysed, not taken as the rest",
    "poultry-seasoning": "the parts were taken from several sources",
    "corned-beef-canned": "the carbohydrate is taken as none, the parts are rounded apart",
    "mackerel-cooked": "water and fat come from different fish",
    "mackerel-raw": "water and fat come from different fish",
    "quail-raw": "the parts were taken from several sources",
    "salmon-cooked": "water and fat come from different fish",
    "salmon-raw": "water and fat come from different fish",
    "smoked-salmon": "the curing salt is in the sodium, not in the ash",
}


def mapped(foods: FoodTable) -> dict[str, Food]:
    return {food.id: food for food in foods}


def test_the_table_is_wide_enough_for_a_larder() -> None:
    assert len(FOODS) >= 320


def test_ids_are_short_words_joined_by_hyphens_and_used_once() -> None:
    ids = [food.id for food in FOODS]
    assert len(ids) == len(set(ids))
    assert [
        name for name in ids if not name.replace("-", "a").isalnum() or not name.islower()
    ] == []


def test_no_two_foods_share_a_name() -> None:
    owners = defaultdict(set)
    for food in FOODS:
        for name in food.names:
            owners[normalised(name)].add(food.id)
    assert {name: who for name, who in owners.items() if len(who) > 1} == {}


def test_a_row_of_the_release_serves_one_food_unless_it_stands_in() -> None:
    numbers = [food.ndb for food in FOODS if not food.stand_in]
    assert len(numbers) == len(set(numbers))


def test_groups_allergens_and_reasons_come_from_closed_lists() -> None:
    assert {food.group for food in FOODS} == GROUPS
    assert {name for food in FOODS for name in food.allergens_us} <= US_NINE
    assert {name for food in FOODS for name in food.allergens_eu} <= EU_FOURTEEN
    assert {food.unsuited for food in FOODS} == {"", "fat", "sugar", "chocolate"}
    assert {food.needs_cooking for food in FOODS} == {"", "yes", "poison"}


def test_the_parts_of_a_food_add_up_to_its_weight() -> None:
    sums = {
        food.id: food.moisture * 100
        + food.protein_g
        + food.fat_g
        + food.carbohydrate_g
        + (food.ash_g or 0)
        for food in FOODS
    }
    off = {name for name, total in sums.items() if abs(total - 100) > SUM_TOLERANCE_G}
    assert off == set(SUM_EXCEPTIONS)


@pytest.mark.parametrize("food", list(FOODS), ids=lambda food: food.id)
def test_figures_stand_in_their_range(food: Food) -> None:
    assert 0 <= food.moisture < 1
    assert 0 <= food.refuse < 1
    assert 0 <= food.energy_kcal <= 902  # lard and oils, the most there is
    parts = (food.protein_g, food.fat_g, food.carbohydrate_g, food.fibre_g, food.ash_g)
    assert all(0 <= part <= 100 for part in parts if part is not None)
    assert (food.fibre_g or 0) <= food.carbohydrate_g + 0.5
    assert food.sodium_mg is None or 0 <= food.sodium_mg < 40_000
    assert all(2 <= grams <= 400 for _, grams in food.grams_per_cup)
    assert all(grams > 0 for _, grams in food.pieces)


def test_a_missing_figure_is_none_and_not_nought() -> None:
    chestnuts = FOODS.find("chestnuts raw")
    assert chestnuts is not None
    assert chestnuts.fibre_g is None


@pytest.mark.parametrize(
    "food", [food for food in FOODS if food.dry_from], ids=lambda food: food.id
)
def test_a_cooked_food_is_made_from_a_dry_one_of_its_kind(food: Food) -> None:
    dry = FOODS[food.dry_from]
    assert dry.moisture < 0.15 < food.moisture
    assert dry.group == food.group
    assert dry.needs_cooking or dry.restores_to == food.id
    assert dry.allergens_us == food.allergens_us


@pytest.mark.parametrize(
    "food", [food for food in FOODS if food.restores_to], ids=lambda food: food.id
)
def test_a_dry_staple_becomes_a_moister_food_that_may_be_eaten(food: Food) -> None:
    ready = FOODS[food.restores_to]
    assert food.moisture < 0.16
    assert ready.moisture > 0.5
    assert not food.needs_cooking
    assert not ready.needs_cooking
    assert not ready.raw_animal
    assert set(food.allergens_eu) <= set(ready.allergens_eu)


def test_raw_animal_foods_say_so_in_their_name() -> None:
    cured = {"smoked-salmon"}
    unsaid = {food.id for food in FOODS if food.raw_animal and "raw" not in food.name}
    assert unsaid == cured
    groups = {"meat", "poultry", "fish", "eggs"}
    unmarked = {
        food.id
        for food in FOODS
        if food.group in groups and "raw" in food.name.split() and not food.raw_animal
    }
    assert unmarked == set()


def test_flours_are_marked_as_raw_flour() -> None:
    ground = {food.id for food in FOODS if food.name.split()[-1] == "flour"}
    assert ground - {food.id for food in FOODS if food.flour} == {"potato-flour", "peanut-flour"}


def test_beans_of_the_kidney_kind_are_poisonous_until_cooked() -> None:
    for name in (
        "kidney beans dry",
        "white kidney beans dry",
        "black beans dry",
        "haricot beans dry",
    ):
        food = FOODS.find(name)
        assert food is not None
        assert food.needs_cooking == "poison"
    cooked = FOODS.find("kidney beans cooked")
    assert cooked is not None
    assert cooked.needs_cooking == ""


@pytest.mark.parametrize(
    "name", ["pearl barley dry", "white rice dry", "pasta dry", "lentils dry", "potatoes raw"]
)
def test_what_hot_water_does_not_cook_is_marked(name: str) -> None:
    food = FOODS.find(name)
    assert food is not None
    assert food.needs_cooking == "yes"


@pytest.mark.parametrize(
    ("name", "reason"),
    [("olive oil", "fat"), ("honey", "sugar"), ("jam", "sugar"), ("dark chocolate", "chocolate")],
)
def test_what_a_freeze_dryer_cannot_dry_gives_its_reason(name: str, reason: str) -> None:
    food = FOODS.find(name)
    assert food is not None
    assert food.unsuited == reason


@pytest.mark.parametrize(
    ("name", "form", "cut"),
    [
        ("carrots raw", "diced 5 mm", "chopped"),
        ("carrots raw", "sliced", "strips or slices"),
        ("carrots raw", "", "chopped"),
        ("leeks raw", "sliced", "plain"),
        ("red pepper raw", "sliced", "sliced"),
        ("cheddar", "grated", "shredded"),
    ],
)
def test_a_cup_is_that_of_the_cut_nearest_to_the_form(name: str, form: str, cut: str) -> None:
    food = FOODS.find(name)
    assert food is not None
    found = food.cup(form)
    assert found is not None
    assert found[0] == cut


@pytest.mark.parametrize(
    ("name", "size", "grams"),
    [
        ("carrots raw", "", 61.0),
        ("carrots raw", "large", 72.0),
        ("leeks raw", "", 89.0),
        ("eggs raw", "", 50.0),
        ("celery raw", "stalks", 40.0),
        ("garlic raw", "clove", 3.0),
        ("oranges raw", "", 131.0),
    ],
)
def test_a_piece_is_the_usual_one_unless_a_size_is_named(
    name: str, size: str, grams: float
) -> None:
    food = FOODS.find(name)
    assert food is not None
    found = food.piece(size)
    assert found is not None
    assert found[1] == grams


def test_a_food_without_weights_has_no_cup_and_no_piece() -> None:
    oatcake = FOODS.find("oatcake")
    assert oatcake is not None
    assert oatcake.stand_in
    assert oatcake.cup() is None
    assert oatcake.piece() is None


def own(**changes: object) -> Food:
    plain = Food(
        id="river-crackers",
        name="river crackers",
        group="bread",
        moisture=0.04,
        energy_kcal=420,
        protein_g=9,
        fat_g=12,
        carbohydrate_g=68,
        source="label: River crackers",
    )
    return replace(plain, **changes)  # type: ignore[arg-type]  # any field may change


def test_a_household_adds_a_food_from_a_packs_label() -> None:
    table = FOODS.with_own([own()])
    assert table.find("cracker, river") == own()
    assert len(table) == len(FOODS) + 1
    assert FOODS.find("river crackers") is None


def test_a_households_food_stands_before_the_tables() -> None:
    renamed = FOODS.with_own([own(other_names=("oats",))])
    replaced = FOODS.with_own([own(id="oats")])
    for table in (renamed, replaced):
        found = table.find("oats")
        assert found is not None
        assert found.source == "label: River crackers"
    assert len(replaced) == len(FOODS)


def test_the_table_is_read_once() -> None:
    assert load_foods() is FOODS
    assert list(mapped(FOODS)) == [food.id for food in FOODS]
