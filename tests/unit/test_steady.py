"""What is made of the same objects is the same object, and whatever else is made anew."""

from __future__ import annotations

import gc

import pytest

from cookbook_build.findings import Findings, Place
from cookbook_build.steady import Lately, Steady, staying


def test_it_makes_once_of_the_same_objects_and_says_the_same() -> None:
    steady, made = Steady(), []
    leeks, other = ["leeks"], ["leeks"]

    def make(findings: Findings) -> list[str]:
        findings.warning(Place("larder.yaml"), "is far", "look.")
        findings.cut_short = True
        made.append(list(leeks))
        return made[-1]

    found = [Findings() for _ in range(3)]
    first = steady.of("a", (leeks, 1), make, found[0])
    assert steady.of("a", (leeks, 1), make, found[1]) is first
    assert steady.of("a", (other, 1), make, found[2]) is not first  # equal, and not the same
    assert len(made) == 2
    assert found[0] == found[1] == found[2]
    assert len(found[0].gathered) == 1


@pytest.mark.parametrize("made_of", [(), ("x",), ("x", "y", "z"), ("y", "x")])
def test_it_makes_anew_of_others_fewer_and_more(made_of: tuple[str, ...]) -> None:
    steady = Steady()
    steady.of("a", ("x", "y"), lambda _: "before", Findings())
    assert steady.of("a", made_of, lambda _: "now", Findings()) == "now"


def test_an_equal_value_is_the_one_that_was_there() -> None:
    steady, before = Steady(), (1.5, "leeks")
    assert steady.same("a", before) is before
    assert steady.same("a", (1.5, "le" + "eks"[:3])) is before
    assert steady.same("a", (1.5, "peas")) == (1.5, "peas")
    assert steady.same("b", before) is before


def test_what_was_not_asked_for_between_two_settlings_is_dropped() -> None:
    lately: Lately[str] = Lately()
    for key in ("asked", "left"):
        lately.put(key, key)
    for _ in range(3):
        lately.settle()
        assert lately.get("asked") == "asked"
    assert lately.get("left") is None


@pytest.mark.parametrize("was_on", [True, False])
def test_the_collector_is_as_it_was_whatever_happens(was_on: bool) -> None:  # noqa: FBT001
    on = gc.isenabled()
    try:
        (gc.enable if was_on else gc.disable)()
        with pytest.raises(ZeroDivisionError), staying():
            1 / gc.isenabled()  # off, so it is a division by zero
        assert gc.isenabled() == was_on
    finally:
        (gc.enable if on else gc.disable)()
