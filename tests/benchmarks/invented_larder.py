"""The larder of invented books: some sixty stores, and what goes with what."""

from __future__ import annotations

from typing import Final

GROUNDS: Final = {
    "barley": "{food: pearl barley cooked, dried: freeze, cooked first: true}",
    "lentils": "{food: lentils cooked, dried: freeze, cooked first: true}",
    "rice": "{food: white rice cooked, dried: freeze, cooked first: true}",
    "potato cubes": "{food: potatoes boiled, dried: freeze, form: diced 10 mm, cooked first: true}",
    "couscous": "{food: couscous, dried: bought}",
    "bulgur": "{food: bulgur cooked, dried: freeze, cooked first: true}",
    "millet": "{food: millet cooked, dried: freeze, cooked first: true}",
    "quinoa": "{food: quinoa cooked, dried: freeze, cooked first: true}",
    "buckwheat": "{food: buckwheat cooked, dried: freeze, cooked first: true}",
    "black beans": "{food: black beans cooked, dried: freeze, cooked first: true}",
}
GARDEN: Final = {
    "leeks": "{food: leeks raw, dried: freeze, form: sliced}",
    "carrots": "{food: carrots raw, dried: air, form: diced 5 mm, weighs: 52 g per cup}",
    "peas": "{food: green peas cooked, dried: freeze, cooked first: true}",
    "sweetcorn": "{food: sweet corn cooked, dried: freeze, cooked first: true}",
    "beetroot": "{food: beets cooked, dried: freeze, form: sliced, cooked first: true}",
    "squash": "{food: butternut squash baked, dried: freeze, form: cubes, cooked first: true}",
    "kale": "{food: kale cooked, dried: freeze, form: chopped, cooked first: true}",
    "celery": "{food: celery raw, dried: freeze, form: chopped}",
    "parsnips": "{food: parsnips cooked, dried: freeze, form: cubes, cooked first: true}",
    "zucchini": "{food: zucchini cooked, dried: freeze, form: sliced, cooked first: true}",
    "green beans": "{food: green beans cooked, dried: freeze, cooked first: true}",
    "red pepper": "{food: red pepper raw, dried: freeze, form: diced 10 mm}",
    "spinach": "{food: spinach cooked, dried: freeze, form: chopped, cooked first: true}",
    "cauliflower": (
        "{food: cauliflower cooked, dried: freeze, form: chopped, "
        "weighs: 18 g per cup, cooked first: true}"
    ),
    "turnips": "{food: turnips cooked, dried: freeze, form: cubes, cooked first: true}",
    "fennel": "{food: fennel raw, dried: freeze, form: sliced}",
}
HEARTY: Final = {
    "turkey mince": (
        "{food: ground turkey cooked, dried: freeze, weighs: 58 g per cup, cooked first: true}"
    ),
    "mushrooms": "{food: shiitake mushrooms raw, dried: air, form: sliced, weighs: 24 g per cup}",
    "egg powder": "{food: egg scrambled, dried: freeze, weighs: 96 g per cup, cooked first: true}",
    "yogurt powder": "{food: yogurt plain, dried: freeze, form: powder, weighs: 80 g per cup}",
    "oyster mushrooms": "{food: oyster mushrooms raw, dried: freeze, form: sliced}",
    "ground beef": (
        "{food: ground beef cooked, dried: freeze, weighs: 62 g per cup, cooked first: true}"
    ),
    "hard cheese": "{food: cheddar cheese, dried: freeze, form: shredded}",
    "tofu": "{food: tofu firm, dried: freeze, form: crumbs, weighs: 40 g per cup}",
    "trout": "{food: trout cooked, dried: freeze, weighs: 44 g per cup, cooked first: true}",
    "chickpeas": "{food: chickpeas cooked, dried: freeze, cooked first: true}",
}
FRUIT: Final = {
    "apples": "{food: apples without skin raw, dried: freeze, form: slices}",
    "pears": "{food: pears raw, dried: freeze, form: cubes}",
    "plums": "{food: plums raw, dried: freeze, form: sliced}",
    "raspberries": "{food: raspberries raw, dried: freeze}",
    "blueberries": "{food: blueberries raw, dried: freeze}",
    "strawberries": "{food: strawberries raw, dried: freeze, form: sliced}",
    "rhubarb": "{food: rhubarb raw, dried: freeze, form: sliced}",
    "apricots": "{food: apricots raw, dried: freeze, form: cubes}",
}
SEASONING: Final = {
    "salt": "{food: salt, dried: bought}",
    "black pepper": "{food: black pepper, dried: bought}",
    "parsley": "{food: parsley fresh, dried: freeze, form: chopped}",
    "chives": "{food: chives raw, dried: freeze, form: chopped}",
    "onion powder": "{food: onions raw, dried: freeze, form: powder, weighs: 90 g per cup}",
    "thyme": "{food: thyme dried, dried: bought}",
    "caraway": "{food: caraway seed, dried: bought}",
    "paprika": "{food: paprika, dried: bought}",
    "ginger": "{food: ginger powder, dried: bought}",
    "mustard powder": "{food: mustard powder, dried: bought}",
    "nutmeg": "{food: nutmeg, dried: bought}",
    "turmeric": "{food: turmeric, dried: bought}",
    "cumin": "{food: cumin, dried: bought}",
    "sugar": "{food: sugar, dried: bought}",
}
OTHERS: Final = {
    "oatcake": "{food: oatcake, dried: fresh, sold by: piece}",
    "tomato powder": "{food: tomatoes raw, dried: air, form: powder, weighs: 110 g per cup}",
    "milk powder": "{food: whole milk powder, dried: bought, form: powder}",
}
SHELF: Final = {**GROUNDS, **GARDEN, **HEARTY, **FRUIT, **SEASONING, **OTHERS}
"""Every store, and its line."""
FIRST: Final = (*list(GROUNDS)[:5], *list(GARDEN)[:8], *list(HEARTY)[:4], *list(SEASONING)[:5])
"""The 22 stores of the smaller larder that the study of opening binds, in its order."""


def larder(names: tuple[str, ...] = tuple(SHELF)) -> str:
    """Return the text of a larder with some stores."""
    return "".join(f"{name}: {SHELF[name]}\n" for name in names)
