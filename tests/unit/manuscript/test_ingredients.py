"""Ingredient lines in kitchen English."""

from __future__ import annotations

from fractions import Fraction

import pytest

from cookbook_build.findings import Findings, Place
from cookbook_build.foods.lookup import normalised
from cookbook_build.manuscript.ingredients import Ingredient, match_store, read_ingredient

LINE = Place("recipes/bowl.md", 9, 5, 1, "")
STORES = ("leeks", "spring onion", "yogurt powder")
NAMES = {normalised(name): name for name in STORES}


def read(text: str) -> tuple[Ingredient | None, Findings]:
    """Return the ingredient of a line and what was found."""
    findings = Findings()
    return read_ingredient(text, LINE.within, findings), findings


def sound(text: str) -> Ingredient:
    """Return the ingredient of a line in which nothing is found."""
    found, findings = read(text)
    assert not list(findings)
    assert found is not None
    return found


@pytest.mark.parametrize(
    "text",
    [
        "2 tbsp leeks",
        "2 T leeks",
        "2 tablespoons of leeks",
        "2 Tbsp. leeks",
        "2\u00a0tbsp\u00a0leeks",
    ],
)
def test_a_line_has_an_amount_and_a_name(text: str) -> None:
    found = sound(text)
    assert (found.amount.kind, found.amount.terms[0].low) == ("volume", Fraction(2))
    assert (found.amount.terms[0].unit.name, found.name) == ("tbsp", "leeks")


@pytest.mark.parametrize(
    ("text", "low", "unit", "name", "preparation"),
    [
        ("1,5 tazas de puerros, en aros", Fraction(3, 2), "cup", "puerros", "en aros"),
        ("200 g de puerros", Fraction(200), "g", "puerros", ""),
        ("una pizca de sal", Fraction(1), "pinch", "sal", ""),
        ("2 tortas de avena", Fraction(2), "piece", "tortas de avena", ""),
    ],
)
def test_a_line_in_spanish_has_an_amount_and_a_name(
    text: str, low: Fraction, unit: str, name: str, preparation: str
) -> None:
    found = sound(text)
    assert (found.amount.terms[0].low, found.amount.terms[0].unit.name) == (low, unit)
    assert (found.name, found.preparation) == (name, preparation)


def test_salt_may_be_to_taste_in_spanish() -> None:
    for text in ("sal, al gusto", "sal al gusto"):
        found = sound(text)
        assert found.amount.to_taste
        assert found.name == "sal"


def test_what_follows_a_comma_is_the_preparation() -> None:
    found = sound("1/3 cup carrots, cut  small (optional)")
    assert (found.name, found.preparation, found.optional) == ("carrots", "cut small", True)


def test_brackets_hold_marks_weights_and_notes() -> None:
    found = sound("1 cup leeks (60 g) (fresh) (from the lower bed)")
    assert found.weighed is not None
    assert str(found.weighed) == "60\N{NO-BREAK SPACE}g"
    assert found.fresh
    assert found.note == "from the lower bed"


def test_a_size_belongs_to_the_count_and_not_to_the_name() -> None:
    found = sound("2 large spring onions")
    assert (found.size, found.name) == ("large", "spring onions")


@pytest.mark.parametrize("text", ["salt, to taste", "salt to taste", "to taste salt"])
def test_to_taste_is_an_amount(text: str) -> None:
    found = sound(text)
    assert found.amount.to_taste
    assert found.name == "salt"


def test_the_place_of_the_name_is_where_it_stands() -> None:
    found = sound("2 tbsp  leeks, sliced")
    assert (found.name_place.column, found.name_place.width) == (5 + 8, 5)


@pytest.mark.parametrize(
    ("text", "start", "width"),
    [
        ("1/0 tsp salt", 0, 3),
        ("2 tbsp", 0, 6),
        ("0 cups salt", 0, 6),
        ("leeks (sliced", 6, 1),
        ("1/8/2 tsp salt", 0, 5),
        ("l cup leeks", 0, 1),
        ("", 0, 1),
    ],
)
def test_a_line_that_is_none_is_marked_where_it_fails(text: str, start: int, width: int) -> None:
    found, findings = read(text)
    assert found is None
    (finding,) = findings
    assert (finding.place.column, finding.place.width) == (5 + start, width)


def test_a_note_that_is_nearly_a_mark_is_a_warning() -> None:
    found, findings = read("2 tbsp leeks (optinal)")
    assert found is not None
    assert not found.optional
    assert [finding.mend for finding in findings.warnings] == [
        'write "optional" if you mean that, or other words.'
    ]


def test_a_store_is_matched_in_any_number_and_case() -> None:
    findings = Findings()
    assert match_store(sound("2 tbsp Leek"), NAMES, findings).store == "leeks"
    assert match_store(sound("2 spring onions"), NAMES, findings).store == "spring onion"
    assert not list(findings)


@pytest.mark.parametrize(
    ("text", "mend"),
    [("2 tbsp leaks", '"leeks"'), ("2 tbps leeks", 'write "tbsp"'), ("2 jars leeks", "cup, tbsp")],
)
def test_a_misspelt_store_or_unit_is_answered_with_the_nearest(text: str, mend: str) -> None:
    findings = Findings()
    assert match_store(sound(text), NAMES, findings).store is None
    (finding,) = findings
    assert mend in finding.mend
