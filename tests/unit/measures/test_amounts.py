"""Amounts as people write them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from cookbook_build.measures.amounts import number_text, read_amount, whole_amount
from cookbook_build.measures.numbers import NumberError
from cookbook_build.measures.units import SYSTEMS

US = SYSTEMS["us-cups"]
F = Fraction


def tsp(text: str) -> Fraction:
    read = read_amount(text)
    assert read is not None
    return read[0].volume_ml(US) / US.ml["tsp"]


@pytest.mark.parametrize(
    ("text", "teaspoons"),
    [
        ("3/4 cup + 1 tbsp", 39),
        ("¾ cup plus 1 tbsp", 39),
        ("3/4 cup and 1 Tbsp.", 39),
        ("1 1/2 cups", 72),
        ("1-1/2 cups", 72),
        ("1½ c", 72),
        ("1 ½ cups", 72),
        ("1⁄2 cup", 24),
        ("0.5 cup", 24),
        (".5 cup", 24),
        ("half a cup", 24),
        ("a tablespoon of", 3),
        ("2 T", 6),
        ("2 t", 2),
        ("2 TBSP", 6),
        ("2 fl oz", 12),
        ("2 fl. oz.", 12),
        ("1 pinch", F(1, 16)),
        ("pinch", F(1, 16)),
        ("a dash of", F(1, 8)),
        ("2-3 tsp", F(5, 2)),
        ("2 to 3 tsp", F(5, 2)),
        ("2\N{NO-BREAK SPACE}tbsp", 6),
    ],
)
def test_kitchen_spellings_are_read(text: str, teaspoons: Fraction) -> None:
    assert tsp(text) == teaspoons


@pytest.mark.parametrize(
    ("text", "kind"),
    [("45 g", "weight"), ("2 oz", "weight"), ("1 cup", "volume"), ("3", "count"), ("2-3", "count")],
)
def test_each_unit_is_of_one_kind(text: str, kind: str) -> None:
    read = read_amount(text)
    assert read is not None
    assert read[0].kind == kind


def test_a_word_that_begins_like_a_unit_is_no_unit() -> None:
    for text in ("3 large onions", "2 carrots", "1 teal duck", "4 garlic cloves", "2 turnips"):
        read = read_amount(text)
        assert read is not None
        assert read[0].kind == "count", text


def test_to_taste_is_an_amount_without_a_number() -> None:
    read = read_amount("to taste")
    assert read is not None
    assert read[0].to_taste
    assert str(read[0]) == "to taste"


@pytest.mark.parametrize(
    ("text", "cause"),
    [
        ("-2 cups", "less than nothing"),
        ("1/0 cup", "divides by zero"),
        ("1,500 g", "two ways"),
        ("9999999 cups", "more than any kitchen holds"),
        ("3-2 cups", "does not rise"),
        ("1 cup + 20 g", "adds a volume to a weight"),
        ("1 tsbp", "not a unit"),
        ("some water", "not an amount"),
        ("0 cups", "is nothing"),
        ("45 g", "not a volume"),
    ],
)
def test_what_cannot_be_an_amount_says_why(text: str, cause: str) -> None:
    with pytest.raises(NumberError, match=cause) as problem:
        whole_amount(text, "volume")
    assert problem.value.mend


def test_a_misspelt_unit_is_offered_its_nearest() -> None:
    with pytest.raises(NumberError) as problem:
        whole_amount("2 tbps", "volume")
    assert problem.value.mend == 'write "tbsp".'
    assert (problem.value.start, problem.value.width) == (2, 4)


@pytest.mark.parametrize(
    ("value", "text"),
    [(F(1, 2), "½"), (F(3, 2), "1½"), (F(12), "12"), (F(7, 20), "0.35"), (F(5, 24), "5/24")],
)
def test_numbers_are_written_as_cooks_write_them(value: Fraction, text: str) -> None:
    assert number_text(value) == text


def test_thirds_stay_exact() -> None:
    read = read_amount("1/3 cup")
    assert read is not None
    assert read[0].times(F(3)).volume_ml(US) == US.ml["cup"]
