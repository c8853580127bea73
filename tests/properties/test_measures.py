"""What holds for every amount."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cookbook_build.measures.amounts import Amount, Term, read_amount
from cookbook_build.measures.numbers import VULGAR, NumberError
from cookbook_build.measures.spoons import friendly, pour
from cookbook_build.measures.units import SYSTEMS, UNITS, System
from cookbook_build.words import languages, spoken

if TYPE_CHECKING:
    from collections.abc import Iterator

SYSTEM = st.sampled_from(sorted(SYSTEMS))
NUMBER = st.builds(Fraction, st.integers(1, 400), st.integers(1, 96))


@st.composite
def amounts(draw: st.DrawFn) -> Amount:
    """Return an amount of one to three terms of one kind."""
    kind = draw(st.sampled_from(["volume", "weight", "count"]))
    units = st.sampled_from([unit for unit in UNITS if unit.kind == kind])
    terms = draw(st.lists(st.tuples(NUMBER, units, st.booleans()), min_size=1, max_size=3))
    return Amount(
        tuple(Term(low, low + 1 if is_range else low, unit) for low, unit, is_range in terms)
    )


@given(amounts())
def test_an_amount_survives_print_and_parse(amount: Amount) -> None:
    read = read_amount(str(amount))
    assert read is not None
    assert read[0] == amount
    assert read[1] == len(str(amount))


@pytest.mark.parametrize("tag", languages())
@settings(deadline=None)  # the first word of a language reads its catalogue
@given(amount=amounts())
def test_an_amount_that_is_shown_in_any_language_is_read_back(amount: Amount, tag: str) -> None:
    with spoken(tag):
        shown = str(amount)
    if re.search(r"(?<!\d)[1-9]\d{0,2},\d{3}(?!\d)", shown):
        with pytest.raises(NumberError, match="two ways"):  # thousandths, or thousands?
            read_amount(shown)
    else:
        assert read_amount(shown) == (amount, len(shown))


@given(st.text(max_size=40))
def test_any_text_is_an_amount_or_a_finding(text: str) -> None:
    try:
        read_amount(text)
    except ValueError as problem:
        assert getattr(problem, "mend", "")  # noqa: PT017 - the property is about the error


@given(st.floats(0.1, 20_000), st.floats(1.0, 3.0), SYSTEM)
def test_friendly_measures_never_fall(volume: float, factor: float, system: System) -> None:
    assert friendly(volume, system).ml <= friendly(volume * factor, system).ml


@given(st.floats(20, 4000), st.floats(0.02, 0.5), SYSTEM)
def test_shown_parts_always_add_up(volume: float, share: float, system: System) -> None:
    hold = max(5.0, share * volume)
    found = pour(volume, hold, system)
    assert found.start.ml + found.hold_back.ml == found.together.ml


@st.composite
def numbers(draw: st.DrawFn) -> tuple[str, Fraction]:
    """Return a number in one of the ways that a kitchen writes it, and its value."""
    whole, top = draw(st.integers(1, 40)), draw(st.integers(1, 7))
    bottom = draw(st.sampled_from([2, 3, 4, 8]))
    glyph, part = draw(st.sampled_from(sorted(VULGAR.items())))
    tenths = draw(st.integers(1, 99))
    return draw(st.sampled_from([
        (str(whole), Fraction(whole)),
        (f"{top}/{bottom}", Fraction(top, bottom)),
        (f"{top}\u2044{bottom}", Fraction(top, bottom)),
        (f"{whole} {top}/{bottom}", whole + Fraction(top, bottom)),
        (glyph, part),
        (f"{whole}{glyph}", whole + part),
        (f"{whole} {glyph}", whole + part),
        (f"{whole}.{tenths:02}", whole + Fraction(tenths, 100)),
    ]))  # fmt: skip


@st.composite
def written_amounts(draw: st.DrawFn) -> tuple[str, Amount]:
    """Return an amount by the grammar of design.md, and what it is."""
    kind = draw(st.sampled_from(["volume", "weight"]))
    of_kind = [unit for unit in UNITS if unit.kind == kind]
    texts, terms = [], []
    for _ in range(draw(st.integers(1, 3))):
        unit = draw(st.sampled_from(of_kind))
        text, low = draw(numbers())
        high = low
        if draw(st.integers(0, 4)) == 0:
            more, high = draw(numbers().filter(lambda one: one[1] != low))  # noqa: B023 - drawn at once
            joined = draw(st.sampled_from([" to ", "\N{EN DASH}", " or "]))
            (text, low), (more, high) = sorted([(text, low), (more, high)], key=lambda one: one[1])
            text = f"{text}{joined}{more}"
        spelling = draw(st.sampled_from(unit.spellings))
        gap = draw(st.sampled_from([" ", "  ", "\xa0"]))
        texts.append(f"{text}{gap}{draw(st.sampled_from([spelling, spelling.upper()]))}")
        terms.append(Term(low, high, unit))
    return draw(st.sampled_from([" + ", " plus ", "+"])).join(texts), Amount(tuple(terms))


@settings(max_examples=2000, deadline=None)
@given(written_amounts())
def test_an_amount_by_the_grammar_is_what_it_says(written: tuple[str, Amount]) -> None:
    text, meant = written
    assert read_amount(text) == (meant, len(text))


@given(st.floats(20, 4000), SYSTEM)
def test_the_last_bit_of_a_volume_decides_nothing(volume: float, system: System) -> None:
    """Half-way between two measures, where a sum by another Python may differ in it."""
    low = friendly(volume, system)
    high = friendly(next(v for v in count_up(volume) if friendly(v, system) != low), system)
    halfway = float(low.ml + high.ml) / 2
    near = [halfway, math.nextafter(halfway, 0), math.nextafter(halfway, math.inf)]
    assert {friendly(each, system) for each in near} == {low}


def count_up(volume: float) -> Iterator[float]:
    """Give volumes ever larger, each by less than half a step between two measures."""
    while True:
        yield volume
        volume += 0.25
