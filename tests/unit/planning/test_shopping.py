"""From the jar back to the shop: enough, in the shop's words, and nothing forgotten."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cookbook_build.foods import load_foods
from cookbook_build.foods.shop_words import OTHER_NAMES, SOLD_WHOLE, shop_words
from cookbook_build.planning.shopping import SWELLING_GROUPS, raw_edible_g, raw_good

if TYPE_CHECKING:
    from collections.abc import Callable

    from cookbook_build.planning.provisions import Provision
    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.planning.shopping import ShoppingLine

LARDER = """\
kale: {food: kale cooked, dried: freeze, cooked first: true, weighs: 10 g per cup}
peas: {food: peas cooked, dried: freeze, cooked first: true}
turkey: {food: turkey cooked, dried: freeze, cooked first: true, weighs: 46 g per cup}
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
apples: {food: apples without skin raw, dried: freeze}
apple rings: {food: apples raw, dried: air, weighs: 46 g per cup}
stock cube: {food: chicken bouillon cubes, dried: bought, sold by: piece, weighs: 4 g per piece}
hazelnuts: {food: hazelnuts, dried: bought}
salt: {food: salt, dried: bought}
chives: {food: chives raw, dried: freeze}
ghee: {food: ghee, dried: fresh}
egg: {food: eggs raw, dried: fresh, sold by: piece}
vinegar: {food: cider vinegar, dried: fresh}
flatbread: {food: flour tortillas, dried: fresh, sold by: piece}
leeks: {food: leeks raw, dried: freeze, form: sliced}
inner sauce: {from: bases/inner, dried: freeze, weighs: 74 g per cup}
plum sauce: {from: bases/plum-sauce, dried: freeze, weighs: 74 g per cup}
"""
POT = """\
---
title: Pot
consistency: stew
ingredients: [{}]
---
"""
MENU = "title: M\npeople: 2\nmeals: [{day: 1, meal: supper, recipe: pot}]\n"
PLUMS = """\
---
title: Plum sauce
kind: base
ingredients: [200 g inner sauce, 500 g onions, 2 g salt]
cooked weight: 600 g
becomes: plum sauce
---
"""
INNER = """\
---
title: Inner
kind: base
ingredients: [1 kg pears]
cooked weight: 800 g
becomes: inner sauce
---
"""


@pytest.fixture
def provided(reckon: Callable[..., Reckoning]) -> Callable[..., Provision]:
    def provide(ingredients: str, menu: str = MENU, **files: str) -> Provision:
        found = reckon(
            **{
                "larder.yaml": LARDER,
                "recipes__bowls__lentil-bowl.md": POT.format("1 cup lentils"),
                "recipes__bowls__pot.md": POT.format(ingredients),
                "recipes__bases__plum-sauce.md": PLUMS,
                "recipes__bases__inner.md": INNER,
                "menus__m.yaml": menu,
                **files,
            }
        )
        return found.provisions[0]

    return provide


def lines(provision: Provision) -> dict[str, ShoppingLine]:
    return {line.name: line for listed in provision.shopping.values() for line in listed}


@pytest.mark.parametrize("food", [food.id for food in load_foods() if raw_good(food, load_foods())])
def test_only_grains_and_pulses_gain_when_cooked(food: str) -> None:
    foods = load_foods()
    cooked = foods[food]
    raw = raw_good(cooked, foods)
    assert raw is not None
    needed = raw_edible_g(cooked, raw, 100.0)
    if raw.group in SWELLING_GROUPS:
        assert needed < 60.0  # common practice, no source: grain and pulses double at the least
    else:
        assert needed >= 100.0


def test_greens_are_bought_at_least_as_heavy_as_they_are_cooked(
    provided: Callable[..., Provision],
) -> None:
    provision = provided("1 cup kale, 1/2 cup lentils")
    (kale,) = (line for line in provision.drying if line.store.name == "kale")
    bought = lines(provision)["kale with stems"]
    # SR28 11233 and 11234: dry matter alone would have 55 g of raw kale make 100 g cooked
    assert bought.edible_g == pytest.approx(kale.prepared_g)
    # SR28 11233: stem ends, tough stems and tough midribs are 28 % of it as bought
    assert bought.bought_g == pytest.approx(kale.prepared_g / (1 - 0.28))
    lentils = next(line for line in provision.drying if line.store.name == "lentils")
    assert lines(provision)["dry lentils"].bought_g < lentils.prepared_g / 2


@pytest.mark.parametrize(
    ("cooked", "raw"),
    [
        ("eggs hard-boiled", "eggs raw"),
        ("potatoes boiled in skin", "potatoes raw"),
        ("onions sauteed", "onions raw"),
        ("peas frozen cooked", "peas frozen"),
        ("turkey cooked", "turkey raw"),
        ("black beans cooked", "black beans dry"),
    ],
)
def test_what_is_cooked_is_bought_raw(cooked: str, raw: str) -> None:
    foods = load_foods()
    food = foods.find(cooked)
    assert food is not None
    good = raw_good(food, foods)
    assert good is not None
    assert good.name == raw


def test_what_is_eaten_fresh_is_bought(provided: Callable[..., Provision]) -> None:
    provision = provided(
        "1 cup lentils, 1 tbsp ghee (fresh), 1 egg (fresh), 1/2 flatbread (fresh), "
        "vinegar to taste (fresh), 1/2 cup leeks (fresh)"
    )
    bought = lines(provision)
    assert bought["ghee"].bought_g > 0
    assert bought["eggs"].pieces == (2, "")
    assert bought["flour tortillas"].pieces == (1, "")
    assert "cider vinegar" in bought
    assert bought["leeks with tops"].bought_g > bought["leeks with tops"].edible_g > 0
    assert not any(bought[name].is_pantry for name in ("ghee", "eggs", "leeks with tops"))


def test_a_seasoning_to_taste_is_on_one_list(provided: Callable[..., Provision]) -> None:
    provision = provided("1 cup lentils, salt to taste, chives to taste")
    salt = lines(provision)["salt"]
    assert salt.bought_g == 0
    assert salt.is_pantry
    assert provision.shelf_to_taste == ("chives",)


def test_what_is_sold_by_the_piece_is_bought_in_pieces(provided: Callable[..., Provision]) -> None:
    cubes = lines(provided("1 cup lentils, 1 stock cube"))["chicken bouillon cubes"]
    assert cubes.pieces == (2, "")
    assert cubes.bought_g == pytest.approx(8.0)


def test_one_thing_of_the_shop_is_one_line(provided: Callable[..., Provision]) -> None:
    provision = provided("1 cup lentils, 1/4 cup apples, 1/4 cup apple rings")
    apples = lines(provision)["apples"]
    made = {line.store.name: line.bought_g for line in provision.drying}
    assert apples.bought_g == pytest.approx(made["apples"] + made["apple rings"])
    assert dict(apples.what_for) == pytest.approx(
        {name: made[name] for name in ("apples", "apple rings")}
    )


def test_a_base_within_a_base_is_cooked_and_not_bought(
    provided: Callable[..., Provision],
) -> None:
    provision = provided("1 cup lentils, 2 tbsp plum sauce")
    bought = lines(provision)
    assert not any("sauce" in name or "Inner" in name for name in bought)
    (sauce,) = (line for line in provision.drying if line.store.name == "plum sauce")
    assert sauce.pots is not None
    # SR28 09252: pears are 84 % water and 10 % core, so a gram of the inner sauce, dried to 3 %,
    # takes (1 - 0.03)/(1 - 0.8396)/(1 - 0.1) g of them
    assert bought["pears"].bought_g == pytest.approx(200.0 * sauce.pots * 6.72, rel=0.01)
    assert bought["salt"].is_pantry


def test_shop_words_are_those_of_the_shop() -> None:
    foods = load_foods()
    for name, sold in {
        "peas raw": "peas in pods",
        "turkey raw": "turkey with bone and skin",
        "sweet corn raw": "sweet corn in husks",
        "thyme dried": "dried thyme",
        "lentils dry": "dry lentils",
        "white rice dry": "white rice",
        "carrots raw": "carrots",
        "cod raw": "cod fillet",  # SR28 15015 has no refuse: it is the flesh alone
    }.items():
        food = foods.find(name)
        assert food is not None
        assert shop_words(food, whole=food.refuse > 0) == sold
    hazelnuts = foods["hazelnuts"]
    assert shop_words(hazelnuts, whole=False) == "hazelnuts, shelled"
    assert shop_words(hazelnuts, whole=True) == "hazelnuts in their shells"


def test_every_name_of_the_shop_is_that_of_a_food() -> None:
    known = {food.id for food in load_foods()}
    assert set(SOLD_WHOLE) | set(OTHER_NAMES) <= known
    assert all(load_foods()[name].refuse > 0 for name in SOLD_WHOLE)


def test_without_people_there_are_as_many_as_appetites(
    provided: Callable[..., Provision],
) -> None:
    menu = MENU.replace("people: 2", "appetites: [1, 1, 1 1/2]")
    provision = provided("1 cup lentils", menu)
    assert provision.people == 3
    assert provision.eaters == 3.5
    day = provision.days[0]
    assert day.energy_each_kcal == pytest.approx(day.energy_kcal / 3)


def test_days_add_up_to_what_is_carried(provided: Callable[..., Provision]) -> None:
    menu = MENU.replace("]\n", ", {day: 2, meal: lunch, recipe: pot, method: stove}]\n")
    provision = provided("1 cup lentils, 1 tbsp leeks", menu)
    total = provision.together
    assert total.fuel_up_g == sum(day.fuel_up_g for day in provision.days)
    assert total.water_l == pytest.approx(sum(day.water_l for day in provision.days))
    for day in provision.days:
        assert day.fuel_g <= day.fuel_up_g < day.fuel_g + 1
        assert 0 <= day.water_l * 1000 - day.water_ml < 100


def test_what_is_sold_by_the_piece_weighs_what_whole_ones_weigh(
    provided: Callable[..., Provision],
) -> None:
    bread = lines(provided("1 cup lentils, 3/4 flatbread (fresh)"))["flour tortillas"]
    assert bread.pieces == (2, "")  # two people eat one and a half
    assert bread.bought_g == pytest.approx(bread.edible_g / 1.5 * 2)
