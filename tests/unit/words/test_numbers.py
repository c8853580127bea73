"""Numbers, measures and the names of ways, in whatever language is spoken."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import pytest

from cookbook_build.kitchen.conditions import METHODS
from cookbook_build.measures.amounts import whole_amount
from cookbook_build.measures.spoons import friendly
from cookbook_build.publishing import wording

if TYPE_CHECKING:
    from collections.abc import Callable

NBSP = wording.NBSP


@pytest.mark.usefixtures("bracketed")
@pytest.mark.parametrize(
    ("shown", "text"),
    [
        (lambda: wording.grams(1250.0), f"1,25{NBSP}kg"),
        (lambda: wording.grams(4.2), f"4,2{NBSP}g"),
        (lambda: wording.millilitres(12_400.0), f"12,4{NBSP}L"),
        (lambda: wording.metres(1034.0), f"1034{NBSP}m"),
        (lambda: wording.metres(12_400.0), f"12{NBSP}400{NBSP}m"),
        (lambda: wording.file_size(1_260_000), f"1,3{NBSP}MB"),
        (lambda: wording.number_of(2, "serving"), "2⟦ servings⟧"),
        (lambda: wording.number_of(1.5, "serving"), "1,5⟦ servings⟧"),
        (lambda: wording.number_of(2, "filled oatcakes"), "2 filled oatcakes"),
        (lambda: wording.tally_words(3, 1, 1), "3⟦ trials⟧⟦ and ⟧1⟦ test⟧⟦, ⟧1⟦ left out⟧"),
        (lambda: wording.written_amount(whole_amount("1.8 kg", "weight")), f"1,8{NBSP}kg"),
        (lambda: str(whole_amount("1.35 cups", "volume")), f"1,35{NBSP}⟦cups⟧"),
        (lambda: str(whole_amount("1/2 cup", "volume")), f"½{NBSP}⟦cup⟧"),
        (lambda: str(friendly(192.0, "us-cups")), f"¾{NBSP}⟦cup⟧{NBSP}+ 1{NBSP}⟦tbsp⟧"),
        (lambda: str(friendly(0.0, "us-cups")), "⟦none⟧"),
    ],
)  # fmt: skip
def test_numbers_and_units_are_looked_up(shown: Callable[[], str], text: str) -> None:
    assert shown() == text


def test_thousands_stand_apart_in_english() -> None:
    assert wording.metres(1034.0) == f"1{NBSP}034{NBSP}m"


@pytest.mark.usefixtures("bracketed")
def test_names_of_ways_fuels_and_dryings_are_looked_up(
    english_in: Callable[..., list[str]],
) -> None:
    of_methods = (wording.method_name, wording.method_within, wording.method_line)
    said = [word(method) for method in METHODS for word in (*of_methods, wording.rest_word)]
    said += [wording.fuel_word(fuel) for fuel in wording.FUEL_WORDS]
    said += [wording.dried_name(dried) for dried in wording.DRIED_NAMES]
    said += [wording.part_title("Main bowl"), wording.hot_words(0), wording.hot_words(600)]
    said += [wording.give_or_take(0.1), wording.give_or_take(12), wording.back_words(10)]
    said += [wording.back_words(100), wording.rate(0.05), wording.altitude_words(310, "feet")]
    said += [wording.number_of(2, what) for what in wording.COUNTED]
    assert len(said) > 40
    assert english_in(said) == []


def test_a_way_within_a_line_is_its_name_in_small_letters_where_english_is_spoken() -> None:
    for method in METHODS:
        assert wording.method_within(method) == wording.method_name(method).lower()


def test_a_number_that_is_counted_keeps_its_english_plural() -> None:
    assert [wording.number_of(n, "load") for n in (1, 2)] == ["1 load", "2 loads"]
    assert wording.number_of(3, "pie") == "3 pies"
    assert str(whole_amount("2 dashes", "volume").times(Fraction(1, 2))) == f"1{NBSP}dash"
