"""Amounts as people write them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from cookbook_build.measures.amounts import number_text, read_amount, whole_amount
from cookbook_build.measures.numbers import NumberError, decimal_commas
from cookbook_build.measures.units import SYSTEMS, nearest_unit

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
        ("1·5 cups", 72),  # a decimal point as it is written by hand in Britain
        ("0\u22c55 cup", 24),
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
    ("text", "teaspoons"),
    [
        ("3/4 taza + 1 cda", 39),
        ("¾ taza y 1 cda.", 39),
        ("1,5 tazas de cebada", 72),
        ("1 1/2 tazas", 72),
        ("0,5 taza", 24),
        ("media taza de cebada", 24),
        ("una cucharada de cebada", 3),
        ("2 CDAS", 6),
        ("2 cucharadas", 6),
        ("1 cdta", 1),
        ("2 cdtas.", 2),
        ("1 cucharadita", 1),
        ("2 cucharaditas", 2),
        ("1 pizca", F(1, 16)),
        ("pizca de cebada", F(1, 16)),
        ("2 a 3 cdtas", F(5, 2)),
        ("2 o 3 cdtas", F(5, 2)),
        ("2 oz líq.", 12),
        ("2 cuartos de galón", 384),
        ("taza y media de cebada", 72),
        ("4 tazas y media de cebada", 216),
        ("2 cucharadas y media", F(15, 2)),
        ("2 tazas y media cucharada", F(195, 2)),
        ("2 toques", F(1, 4)),
    ],
)
def test_spanish_spellings_are_read_in_any_book(text: str, teaspoons: Fraction) -> None:
    read = read_amount(text)
    assert read is not None
    assert read[0].volume_ml(US) / US.ml["tsp"] == teaspoons
    assert text[read[1] :] in {"", "cebada"}


@pytest.mark.parametrize(
    ("text", "grams"), [("1,8 kilos", 1800), ("200 gramos de", 200), ("1 kilogramo", 1000)]
)
def test_spanish_weights_are_read_in_any_book(text: str, grams: int) -> None:
    read = read_amount(text)
    assert read is not None
    assert read[0].weight_g(US) == grams


def test_a_comma_before_three_digits_may_be_a_thousand() -> None:
    for text in ("1,500 g de cebada", "12,250 tazas"):
        with pytest.raises(NumberError, match="can be read two ways"):
            read_amount(text)
    read = read_amount("0,250 kg")
    assert read is not None
    assert read[0].weight_g(US) == 250


def test_a_point_before_three_digits_may_be_a_thousand_where_a_comma_is_decimal() -> None:
    for text, mend in (("1.500 g de cebada", "1500 or 1,5"), ("12.250 tazas", "12250 or 12,25")):
        with decimal_commas(), pytest.raises(NumberError, match="can be read two ways") as caught:
            read_amount(text)
        assert mend in caught.value.mend
        assert read_amount(text) is not None  # elsewhere it is a decimal point
    with decimal_commas():
        for sound in ("0.250 kg", "1.25 kg", "1,5 kg", "1500 g"):
            assert read_amount(sound) is not None


def test_what_is_taken_to_taste_is_no_amount_in_spanish_either() -> None:
    read = read_amount("al gusto")
    assert read is not None
    assert read[0].to_taste


@pytest.mark.parametrize(
    ("word", "unit"), [("tablespon", "tbsp"), ("cucharda", "cucharada"), ("tasas", "tazas")]
)
def test_a_slip_in_a_unit_is_mended_in_its_own_language(word: str, unit: str) -> None:
    assert nearest_unit(word) == unit


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
