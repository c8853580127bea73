"""Quantities as people write them, in SI."""

from __future__ import annotations

import pytest

from cookbook_build.measures import quantities
from cookbook_build.measures.numbers import NumberError


@pytest.mark.parametrize(
    ("reader", "text", "value"),
    [
        (quantities.length_m, "310 m", 310.0),
        (quantities.length_m, "8000 ft", 2438.4),
        (quantities.length_m, "14 cm", 0.14),
        (quantities.length_m, "5 1/2 in", 0.1397),
        (quantities.duration_s, "12 min", 720.0),
        (quantities.duration_s, "1 h 20 min", 4800.0),
        (quantities.power_w, "2 kW", 2000.0),
        (quantities.area_m2, "1900 cm2", 0.19),
        (quantities.area_m2, "1900 cm²", 0.19),
        (quantities.mass_g, "4.5 kg", 4500.0),
        (quantities.volume_ml, "500 mL", 500.0),
        (quantities.temperature_c, "65 C", 65.0),
        (quantities.temperature_c, "65 °C", 65.0),
        (quantities.temperature_c, "149 F", 65.0),
        (quantities.temperature_c, "-5 C", -5.0),
    ],
)
def test_units_become_si(reader: quantities.Reader, text: str, value: float) -> None:
    assert reader(text) == pytest.approx(value)


@pytest.mark.parametrize("text", ["310", "m", "310 min", "high", "310 m m", ""])
def test_what_is_no_length_says_how_to_write_one(text: str) -> None:
    with pytest.raises(NumberError) as problem:
        quantities.length_m(text)
    assert "310 m" in problem.value.mend


@pytest.mark.parametrize(
    ("text", "first", "second"),
    [
        ("0:12", "12 min", "12 s"),
        ("1:10", "1 h 10 min", "1 min 10 s"),
        ("12:30", "12 min 30 s", "12 h 30 min"),
        ("1:00", "1 h", "1 min"),
    ],
)
def test_a_time_with_a_colon_is_asked_about(text: str, first: str, second: str) -> None:
    """ISO 8601 has 01:10 for hours and minutes, and a stopwatch for minutes and seconds."""
    with pytest.raises(NumberError) as problem:
        quantities.duration_s(text)
    assert problem.value.mend == f"write {first}, or {second}."
    assert quantities.duration_s(first) in {quantities.duration_s(second) * f for f in (60, 1 / 60)}


def test_no_time_at_all_is_no_time() -> None:
    with pytest.raises(NumberError) as problem:
        quantities.duration_s("0:00")
    assert quantities.duration_s("12 min") == 720
    assert "12 min" in problem.value.mend
