"""Digests: alike for equal values in every process, other for any two that differ."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cookbook_build.digests import Digests
from tests.hash_seeds import printed

PLAIN = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=6)
VALUES = st.recursive(
    PLAIN,
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.tuples(inner, inner)
        | st.dictionaries(st.text(max_size=3), inner, max_size=3)
    ),
    max_leaves=8,
)


@dataclass(frozen=True)
class Jar:
    """Something that holds something."""

    name: str
    holds: Any = ()


@dataclass(frozen=True)
class Tin:
    """Something else that holds as much."""

    name: str
    holds: Any = ()


def told(value: Any) -> Any:  # noqa: ANN401 - any value
    """Return a value as equality alone should see it: kinds apart, mappings with their order."""
    if isinstance(value, (list, tuple)):
        return ("list", [told(part) for part in value])
    if isinstance(value, dict):
        return ("map", [(told(key), told(part)) for key, part in value.items()])
    return (type(value).__name__, repr(value))


@given(VALUES, VALUES)
def test_two_values_have_one_digest_only_if_they_are_equal(one: Any, other: Any) -> None:  # noqa: ANN401
    alike = Digests().of(one) == Digests().of(other)
    assert alike == (told(one) == told(other))


def test_it_does_not_hang_on_which_objects_are_the_same() -> None:
    shared = Jar("peas", ("dry", 2.5))
    assert Digests().of([shared, shared]) == Digests().of([Jar("peas", ("dry", 2.5)), shared])


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (("ab", "c"), ("a", "bc")),
        (("1", 2), (1, "2")),
        ((1, 2.0), (1.0, 2)),
        ([("a",), ()], [(), ("a",)]),
        (Jar("a"), Tin("a")),
        (Jar("a"), ("a", ())),
        ({"a": 1, "b": 2}, {"b": 2, "a": 1}),
        (Fraction(1, 2), "1/2"),
        (dt.date(2026, 6, 1), dt.datetime(2026, 6, 1, tzinfo=dt.UTC)),
        (frozenset({"a"}), ("a",)),
        (b"a", "a"),
        (None, "None"),
    ],
)
def test_what_looks_much_the_same_has_another_digest(one: Any, other: Any) -> None:  # noqa: ANN401
    assert Digests().of(one) != Digests().of(other)


def test_it_is_the_same_in_another_process_with_another_hash_seed() -> None:
    words = (
        "from cookbook_build.digests import Digests\n"
        "print(Digests().of({'a', 'b', 'c'}, {'k': 1.5}))"
    )
    assert len(printed(words)) == 1


def test_what_a_type_is_told_by_is_all_that_counts() -> None:
    digests = Digests({Jar: lambda jar: (jar.name,)})
    assert digests.of(Jar("a", 1)) == digests.of(Jar("a", 2))
    assert digests.of(Jar("a", 1)) != digests.of(Jar("b", 1))


def test_a_kind_that_is_not_known_is_an_error_and_never_passed_over() -> None:
    with pytest.raises(TypeError, match="object"):
        Digests().of(["fine", object()])
