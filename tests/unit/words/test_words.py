from __future__ import annotations

import pytest

from cookbook_build.words import (
    _,
    decimal_mark,
    has_words,
    languages,
    listed,
    ngettext,
    numeral,
    spoken,
)


def test_english_is_spoken_until_another_language_is() -> None:
    assert listed(["a", "b", "c"]) == "a, b and c"
    with spoken("es"):
        assert listed(["a", "b", "c"]) == "a, b y c"
        with spoken("en-GB"):
            assert listed(["a", "b"]) == "a and b"
        assert listed(["a", "b"]) == "a y b"
    assert listed(["a", "b"]) == "a and b"


def test_lists_of_none_and_one_have_no_and() -> None:
    assert listed([]) == ""
    assert listed(["a"]) == "a"
    assert listed(["a", "b"], "{most} or {last}") == "a or b"


@pytest.mark.parametrize(
    ("tag", "mark"), [("en", "."), ("en-GB", "."), ("es", ","), ("es-MX", "."), ("es-AR", ",")]
)
def test_numbers_take_the_mark_that_the_unicode_cldr_names(tag: str, mark: str) -> None:
    """Spain and Argentina write a comma, Mexico a point: Unicode CLDR, numbers/symbols."""
    with spoken(tag):
        assert decimal_mark() == mark
        assert numeral("1.25") == f"1{mark}25"


def test_a_language_without_words_stays_english() -> None:
    assert not has_words("fr")
    with spoken("fr"):
        assert _("{most} and {last}") == "{most} and {last}"
        assert numeral("1.5") == "1.5"


def test_regions_and_unknown_places_are_served_by_their_language() -> None:
    assert {"en", "es"} <= set(languages())
    assert has_words("es-MX")
    assert has_words("ES")
    with spoken("es-ZZ"):
        assert numeral("1.5") == "1,5"


def test_parts_of_a_thing_are_counted_as_many() -> None:
    assert [ngettext("one", "many", n) for n in (1, 0, 2, 0.5, 1.5)] == [
        "one", "many", "many", "many", "many",
    ]  # fmt: skip
