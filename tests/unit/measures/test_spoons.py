"""Friendly measures: at most two, close enough, never falling, and adding up."""

from __future__ import annotations

from fractions import Fraction

import pytest

from cookbook_build.measures.spoons import exact, friendly, pour, shown, tolerance_ml
from cookbook_build.measures.units import SYSTEMS, System

EVERY = sorted(SYSTEMS)
# the measures that a cook owns; common practice, no source
CUP_PARTS = {Fraction(0), *(Fraction(*p) for p in ((1, 4), (1, 3), (1, 2), (2, 3), (3, 4)))}


def volumes(system: System) -> list[float]:
    """Return volumes from a pinch to forty cups, finer than any spoon."""
    smallest = float(SYSTEMS[system].ml["tsp"]) / 8
    return [smallest * 1.003**step for step in range(2400) if smallest * 1.003**step < 9000]


@pytest.mark.parametrize("system", EVERY)
def test_error_stays_within_the_tolerance(system: System) -> None:
    for volume in volumes(system):
        error = abs(float(friendly(volume, system).ml) - volume)
        assert error <= tolerance_ml(volume, system) * (1 + 1e-9), volume


def test_the_gap_under_a_cup_is_the_one_that_no_measure_fills() -> None:
    # between 15 tablespoons and a cup nothing fits: half a gap of 3 tsp in 46.5 is 3.2 %
    middle = 46.5 * float(SYSTEMS["us-cups"].ml["tsp"])
    error = abs(float(friendly(middle, "us-cups").ml) - middle) / middle
    assert error == pytest.approx(0.032, abs=0.0005)


@pytest.mark.parametrize("system", EVERY)
def test_shown_volume_never_falls_while_the_volume_grows(system: System) -> None:
    shown_ml = [friendly(volume, system).ml for volume in volumes(system)]
    assert shown_ml == sorted(shown_ml)


@pytest.mark.parametrize("system", EVERY)
def test_only_measures_that_a_cook_owns_are_shown(system: System) -> None:
    for volume in volumes(system):
        parts = friendly(volume, system).parts
        assert 1 <= len(parts) <= 2, volume
        for number, unit in parts:
            assert unit in {"cup", "tbsp", "tsp"}
            if unit == "cup":
                assert number % 1 in CUP_PARTS
            elif unit == "tbsp":
                assert number * 2 % 1 == 0
                assert number <= SYSTEMS[system].largest_tbsp
            else:
                assert number == Fraction(1, 8) or number * 4 % 1 == 0
                assert number <= SYSTEMS[system].largest_tsp


@pytest.mark.parametrize("system", EVERY)
def test_start_and_hold_back_add_up_to_the_sum_shown(system: System) -> None:
    for together in volumes(system):
        if together < 15:
            continue
        hold = max(5.0, 0.06 * together)
        found = pour(together - hold, hold, system)
        assert found.start.ml + found.hold_back.ml == found.together.ml
        for part in (found.start, found.hold_back, found.together):
            assert 1 <= len(part.parts) <= 2
        for value, part in ((together, found.together), (together - hold, found.start)):
            assert abs(float(part.ml) - value) <= tolerance_ml(value, system) * (1 + 1e-9)


@pytest.mark.parametrize(
    "text_ml", [Fraction(13, 16), Fraction(1, 2), Fraction(7, 8), Fraction(4, 3)]
)
def test_a_tested_sum_that_two_measures_hold_is_shown_exactly(text_ml: Fraction) -> None:
    volume = text_ml * SYSTEMS["us-cups"].ml["cup"]
    hold = max(5.0, 0.06 * float(volume))
    assert pour(float(volume) - hold, hold, "us-cups").together.ml == volume


def test_words_of_a_measure_never_break_from_their_number() -> None:
    assert (
        str(friendly(192.2, "us-cups"))
        == "¾\N{NO-BREAK SPACE}cup\N{NO-BREAK SPACE}+ 1\N{NO-BREAK SPACE}tbsp"
    )


def test_an_ingredient_that_two_measures_hold_is_shown_exactly() -> None:
    eighth = SYSTEMS["us-cups"].ml["tsp"] / 8
    assert shown(3 * eighth, "us-cups").ml == 3 * eighth
    assert exact(SYSTEMS["us-cups"].ml["cup"] * 40 / 41, "us-cups") is None


def test_nothing_is_shown_for_nothing() -> None:
    assert friendly(0.0, "us-cups").parts == ()


@pytest.mark.parametrize("system", EVERY)
@pytest.mark.parametrize("cups", [9, 17, 39, 41, 60, 125, 400, 999, 1500, 5000])
def test_a_batch_for_a_crowd_is_still_told_in_cups(system: System, cups: int) -> None:
    volume = cups * float(SYSTEMS[system].ml["cup"]) * 1.004
    found = pour(0.94 * volume, 0.06 * volume, system)
    assert all(part.parts for part in (found.start, found.hold_back, found.together))
    assert found.start.ml + found.hold_back.ml == found.together.ml
    assert float(found.together.ml) == pytest.approx(volume, rel=0.035)
