"""Recipes as people type and paste them: one small meal in many forms is the same meal.

The recipes are invented: what a household by a river writes on the backs of envelopes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cookbook_build.manuscript.brought.lines import Shelf, our_line
from cookbook_build.manuscript.brought.text import read_text
from cookbook_build.manuscript.source import Source

if TYPE_CHECKING:
    from cookbook_build.manuscript.brought.recipe import Brought

LINES = ["1 cup lentils", "2 tbsp leeks", "1/8 tsp salt"]
STEPS = ["Pour the water over the mix.", "Cover it, and wait."]
FORMS = {
    "headings": """\
Lentil bowl

Serves 2

Ingredients
1 cup lentils
2 tbsp leeks
1/8 tsp salt

Method
Pour the water over the mix.
Cover it, and wait.
""",
    "no headings, no blank lines": """\
Lentil bowl
Serves 2
1 cup lentils
2 tbsp leeks
1/8 tsp salt
Pour the water over the mix.
Cover it, and wait.
""",
    "bullets and numbers": """\
LENTIL BOWL
(serves 2)

INGREDIENTS:
• 1 cup lentils
• 2 tbsp leeks
• 1/8 tsp salt

STEPS:
1. Pour the water over the mix.
2) Cover it, and wait.
""",
    "numbered ingredients": """\
Lentil bowl
2 servings

1. 1 cup lentils
2. 2 tbsp leeks
3. 1/8 tsp salt

1. Pour the water over the mix.
2. Cover it, and wait.
""",
    "Markdown": """\
# Lentil bowl

*Serves 2*

## Ingredients

- 1 cup lentils
- 2 tbsp leeks
- 1/8 tsp salt

## Directions

1. Pour the water over the mix.
2. Cover it, and wait.
""",
    "amounts behind": """\
Lentil bowl
for 2 people

lentils 1 cup
leeks, 2 tbsp
salt: 1/8 tsp

Pour the water over the mix.
Cover it, and wait.
""",
    "tabs": "Lentil bowl\nServes: 2\n\nlentils\t1 cup\nleeks\t2 tbsp\nsalt\t1/8 tsp\n\n"
    "Pour the water over the mix.\nCover it, and wait.\n",
    "amount, unit and name in columns": "Lentil bowl\nServings: 2\n\n1\tcup\tlentils\n"
    "2\ttbsp\tleeks\n1/8\ttsp\tsalt\n\nPour the water over the mix.\nCover it, and wait.\n",
    "two columns of ingredients": """\
Lentil bowl
Serves two

1 cup lentils       2 tbsp leeks
1/8 tsp salt

Pour the water over the mix.
Cover it, and wait.
""",
    "dots between": """\
Lentil bowl
Serves 2 people.

lentils ........ 1 cup
leeks .......... 2 tbsp
salt ......... 1/8 tsp

Pour the water over the mix.
Cover it, and wait.
""",
    "a drawn table": """\
Lentil bowl
Serves 2
| lentils | 1 cup |
|---------|-------|
| leeks   | 2 tbsp |
| salt    | 1/8 tsp |

Pour the water over the mix.
Cover it, and wait.
""",
    "boxes to tick": """\
Title: Lentil bowl
Yield: 2 servings

What you need
[ ] 1 cup lentils
☐ 2 tbsp leeks
[x] 1/8 tsp salt

How to make it
- Pour the water over the mix.
- Cover it, and wait.
""",
    "all on one line": """\
Lentil bowl
Serves 2
Ingredients: 1 cup lentils, 2 tbsp leeks, 1/8 tsp salt.
Method: Pour the water over the mix.
Cover it, and wait.
""",
    "steps that are wrapped": """\
Lentil bowl
Serves 2
Ingredients
1 cup lentils
2 tbsp leeks
1/8 tsp salt
Method
Pour the water
over the mix.
Cover it,
and wait.
""",
    "Windows line ends and odd spaces": "\ufeffLentil bowl\r\nServes\u00a02\r\n\r\n"
    "1\u00a0cup\u00a0lentils\r\n2\u2009tbsp leeks\r\n\u200b1/8 tsp salt\r\n\r\n"
    "Pour the water over the mix.\r\nCover it, and wait.\r\n",
    "times between": """\
Lentil bowl
Serves 2
Prep time: 5 min
Total time: 20 min

1 cup lentils
2 tbsp leeks
1/8 tsp salt

Pour the water over the mix.
Cover it, and wait.
""",
}
SPANISH = {
    "encabezados": """\
Cuenco de lentejas

Para 4 personas

Ingredientes
- 1 taza de lentejas
- 2 cdas de puerros
- Una pizca de sal

Elaboración
1. Verter el agua sobre la mezcla.
2. Tapar y esperar.
""",
    "al revés": """\
CUENCO DE LENTEJAS
Raciones: 4

INGREDIENTES:
lentejas 1 taza
puerros: 2 cdas
sal, una pizca

PREPARACIÓN:
Verter el agua sobre la mezcla.
Tapar y esperar.
""",
    "en una línea": """\
Cuenco de lentejas
Ingredientes para 4 personas
1 taza de lentejas
2 cucharadas de puerros
Sal al gusto

Modo de hacerlo: Verter el agua sobre la mezcla.
Tapar y esperar.
""",
}


def read(text: str) -> Brought:
    """Return the recipe of a text."""
    return read_text(Source.of("a.txt", text))


def ours(recipe: Brought) -> list[str]:
    """Return its ingredient lines as a draft writes them."""
    return [our_line(line, Shelf()) for line in recipe.lines]


@pytest.mark.parametrize("form", FORMS)
def test_a_meal_is_the_same_in_every_form(form: str) -> None:
    recipe = read(FORMS[form])
    assert recipe.title.casefold() == "lentil bowl"
    assert recipe.serves == 2
    assert ours(recipe) == LINES
    assert list(recipe.steps) == STEPS


@pytest.mark.parametrize("form", SPANISH)
def test_a_meal_in_spanish_is_read(form: str) -> None:
    recipe = read(SPANISH[form])
    assert recipe.title.casefold() == "cuenco de lentejas"
    assert recipe.serves == 4
    assert [line.rsplit(" ", 1)[-1] for line in ours(recipe)][:2] == ["lentejas", "puerros"]
    assert len(recipe.lines) == 3
    assert list(recipe.steps) == ["Verter el agua sobre la mezcla.", "Tapar y esperar."]


def test_a_part_keeps_its_heading() -> None:
    recipe = read("Bowl\n1 cup rice\nFor the sauce:\n2 tbsp plums\n\nStir it all together well.\n")
    assert [(p.kind, p.text) for p in recipe.ingredients] == [
        ("line", "1 cup rice"), ("heading", "For the sauce"), ("line", "2 tbsp plums"),
    ]  # fmt: skip


def test_parts_without_a_colon_are_headings_too() -> None:
    recipe = read(
        "Bowl\nPrep 10 mins\n\nFor the pot\n1 cup rice\nTo finish\n2 tbsp plums\n\nStir.\n"
    )
    assert [p.text for p in recipe.ingredients if p.kind == "heading"] == [
        "For the pot",
        "To finish",
    ]
    assert recipe.lines == ("1 cup rice", "2 tbsp plums")
    assert recipe.notes == ("Prep 10 mins",)


def test_whose_it_is_is_kept() -> None:
    recipe = read("Bowl\nBy the aunt in the mill\n1 cup rice\n\nhttps://example.org/bowl\n")
    assert recipe.credit == "By the aunt in the mill"
    assert recipe.address == "https://example.org/bowl"


def test_what_it_makes_is_no_number_of_eaters() -> None:
    recipe = read("Oatcakes\nMakes 12 oatcakes\n1 cup oats\n")
    assert (recipe.serves, recipe.makes) == (None, "12 oatcakes")


def test_bare_names_below_a_heading_are_ingredients() -> None:
    recipe = read("Bowl\nIngredients\n1 cup rice\nsalt\nblack pepper\nMethod\nStir.\n")
    assert recipe.lines == ("1 cup rice", "salt", "black pepper")
    assert recipe.steps == ("Stir.",)


def test_a_title_that_is_missing_is_empty() -> None:
    assert read("1 cup rice\n2 tbsp leeks\n").title == ""
