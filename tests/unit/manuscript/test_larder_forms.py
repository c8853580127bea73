"""A form means the same in English and in Spanish."""

from __future__ import annotations

import pytest

from cookbook_build.findings import Findings, described
from cookbook_build.foods import load_foods
from cookbook_build.manuscript.larder import Store, read_larder
from cookbook_build.manuscript.nodes import read_nodes
from cookbook_build.manuscript.source import Source

FOODS = load_foods()


def store(form: str, weighs: str = ", weighs: 96 g per cup") -> tuple[Store, Findings]:
    """Return a store of a form, and what was found."""
    findings = Findings()
    text = f"yogur: {{food: yogurt, dried: freeze, form: {form}{weighs}}}\n"
    root = read_nodes(Source.of("larder.yaml", text), findings, text)
    assert root is not None
    larder = read_larder(root, FOODS, findings)
    assert larder is not None
    return larder.stores["yogur"], findings


@pytest.mark.parametrize(
    ("spanish", "english"),
    [("en polvo", "powder"), ("migas", "crumbs"), ("copos", "flakes"), ("triturado", "crushed")],
)
def test_a_fine_form_is_fine_in_spanish_too(spanish: str, english: str) -> None:
    for form in (spanish, english):
        assert store(form)[0].is_crushed
        assert store(form)[0].is_powder == (english == "powder")
        _, findings = store(form, weighs="")
        assert ["weigh a level cup" in described(found) for found in findings] == [True]


@pytest.mark.parametrize(
    ("spanish", "english", "food"),
    [
        ("en rodajas", "sliced", "onions raw"),
        ("picadas", "chopped", "onions raw"),
        ("en dados", "diced", "pears raw"),
        ("en láminas", "slices", "pears raw"),
        ("mitades", "halves", "apricots raw"),
        ("rallado", "shredded", "cheddar"),
        ("en tiras", "strips", "red pepper cooked"),
    ],
)
def test_a_cut_finds_the_same_cup(spanish: str, english: str, food: str) -> None:
    found = FOODS.find(food)
    assert found is not None
    assert found.cup(spanish) == found.cup(english)
    assert len(found.grams_per_cup) > 1
