"""Numbers as a reader sees them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from cookbook_build.findings import Findings, Place
from cookbook_build.manuscript.ingredients import Ingredient, read_ingredient
from cookbook_build.measures.units import SYSTEMS
from cookbook_build.publishing.wording import (
    NBSP,
    amount_text,
    celsius,
    grams,
    metres,
    minutes,
    rounds_up,
)

US = SYSTEMS["us-cups"]


def line(text: str) -> Ingredient:
    """Return the ingredient of a line."""
    found = read_ingredient(
        text, lambda start, width: Place("r.md", 1, start + 1, width), Findings()
    )
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.24, "0.2 g"), (4.0, "4 g"), (45.4, "45 g"), (999.6, "1 kg"), (1250.0, "1.25 kg")],
)
def test_weights(value: float, text: str) -> None:
    assert grams(value).replace(NBSP, " ") == text


@pytest.mark.parametrize(
    ("seconds", "text"),
    [(10, "1 min"), (750, "13 min"), (3600, "1 h"), (3720, "1 h"), (4800, "1 h 20 min"),
     (16200, "4 h 30 min"), (36000, "10 h")],
)  # fmt: skip
def test_times_are_those_of_a_kitchen_clock(seconds: float, text: str) -> None:
    assert minutes(seconds).replace(NBSP, " ") == text


def test_temperatures_are_told_in_both_scales() -> None:
    assert celsius(73.9).replace(NBSP, " ") == "74 °C (165 °F)"
    assert metres(2400).replace(NBSP, " ") == "2 400 m"


@pytest.mark.parametrize(
    ("text", "factor", "shown"),
    [
        ("2/3 cup barley", 1, "⅔ cup"),
        ("2/3 cup barley", 3, "2 cups"),
        ("3 tbsp leeks", 4, "¾ cup"),
        ("1/8 tsp salt", 3, "¼ tsp + ⅛ tsp"),
        ("1 pinch salt", 2, "2 pinches"),
        ("1 pinch salt", 8, "½ tsp"),
        ("45 g barley", 2, "90 g"),
        ("1 oatcake (fresh)", 3, "3"),
        ("salt, to taste", 8, "to taste"),
        ("1 bay leaf (per pot)", 8, "1"),
        ("2-3 oatcakes", 1, "2–3"),
    ],
)
def test_amounts_scale_into_measures_that_a_cook_owns(text: str, factor: int, shown: str) -> None:
    assert amount_text(line(text), Fraction(factor), US).replace(NBSP, " ") == shown


def test_pieces_are_counted_up_for_more_servings() -> None:
    oatcakes = line("3 oatcakes (fresh)")
    assert amount_text(oatcakes, Fraction(3, 2), US) == "5"
    assert rounds_up(oatcakes, Fraction(3, 2))
    assert not rounds_up(oatcakes, Fraction(2))
