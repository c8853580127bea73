"""Lines as people paste them, and how they are written in a book."""

from __future__ import annotations

import pytest

from cookbook_build.findings import Findings, Place
from cookbook_build.manuscript.ingredients import read_ingredient
from cookbook_build.manuscript.pasted_lines import amount_for, is_water, turned

LINE = Place("recipes/bowl.md", 9, 5, 1, "")


@pytest.mark.parametrize(
    ("pasted", "written"),
    [
        ("rice 1 cup", "1 cup rice"),
        ("rice, 1 cup", "1 cup rice"),
        ("rice: 1 1/2 cups", "1 1/2 cups rice"),
        ("rice - ½ cup", "½ cup rice"),
        ("rice (1 cup), rinsed", "1 cup rice, rinsed"),
        ("rice 1 cup (185 g)", "1 cup rice (185 g)"),
        ("leeks, sliced, 2 tbsp", "2 tbsp leeks, sliced"),
        ("leeks 20g (optional)", "20g leeks (optional)"),
        ("salt, a pinch", "a pinch of salt"),
        ("arroz 1,5 tazas", "1,5 tazas arroz"),
        ("eggs 2-3", "2-3 eggs"),
    ],
)
def test_an_amount_comes_in_front_of_its_name(pasted: str, written: str) -> None:
    findings = Findings()
    assert turned(pasted) == written
    assert read_ingredient(written, LINE.within, findings)
    assert not list(findings)


@pytest.mark.parametrize(
    "text",
    [
        "rice", "1 cup rice", "leeks, cut in half", "Juice of 1 lemon", "vitamin B12", "rice 0 cup",
        "rice 1/0 cup", "salt and a little pepper", "",
    ],
)  # fmt: skip
def test_what_has_no_amount_behind_its_name_is_left(text: str) -> None:
    assert turned(text) is None


@pytest.mark.parametrize("name", ["salt", "thyme", "sal", "leeks", "something"])
def test_both_ways_to_say_how_much_can_be_read(name: str) -> None:
    for written in amount_for(name).split(", or "):
        findings = Findings()
        assert read_ingredient(written, LINE.within, findings), written
        assert not list(findings)


@pytest.mark.parametrize(
    "name",
    ["water", "Boiling water", "cold drinking water: pour 1 cup", "agua hirviendo", "Agua fría"],
)
def test_water_to_pour_is_known_however_hot(name: str) -> None:
    assert is_water(name)


@pytest.mark.parametrize("name", ["rose water", "watermelon", "coconut water", "aguacate", ""])
def test_what_is_no_water_to_pour_is_not(name: str) -> None:
    assert not is_water(name)
