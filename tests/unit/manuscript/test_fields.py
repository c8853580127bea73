"""What a value may be: text becomes amounts, times and dates, or a finding."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from pydantic import TypeAdapter, ValidationError

from cookbook_build.manuscript import fields


def value(kind: object, text: object) -> Any:  # noqa: ANN401 - any type's value
    """Return what a text means as a kind of value."""
    adapter: TypeAdapter[Any] = TypeAdapter(kind)  # type: ignore[arg-type]
    return adapter.validate_python(text)


def refused(kind: object, text: object) -> dict[str, Any]:
    """Return the cause, the mend and the stretch with which a value is refused."""
    with pytest.raises(ValidationError) as caught:
        value(kind, text)
    (error,) = caught.value.errors()
    assert error["type"] == "finding"
    return error["ctx"]


@pytest.mark.parametrize(
    ("kind", "text", "si"),
    [
        (fields.Altitude, "310 m", 310.0),
        (fields.Altitude, "1000 ft", 304.8),
        (fields.Duration, "1 h 20 min", 4800.0),
        (fields.Power, "2 kW", 2000.0),
        (fields.Temperature, "-10 C", -10.0),
        (fields.Temperature, "140 F", 60.0),
        (fields.Grams, "600 mg", 0.6),
        (fields.Energy, "418.4 kJ", 100.0),
    ],
)
def test_quantities_become_si(kind: object, text: str, si: float) -> None:
    assert value(kind, text).si == pytest.approx(si)
    assert value(kind, text).text == text


def test_a_share_may_be_a_fraction_or_per_cent() -> None:
    assert value(fields.Share, "40 %") == value(fields.Share, "0.4") == pytest.approx(0.4)


def test_a_date_is_a_day_of_the_calendar() -> None:
    assert value(fields.Day, "2026-03-02") == dt.date(2026, 3, 2)
    assert "2026-02-30" in refused(fields.Day, "2026-02-30")["cause"]


def test_a_weight_is_per_measure_or_per_piece() -> None:
    assert value(fields.Weighs, "58 g per cup").measure.kind == "volume"
    assert value(fields.Weighs, "58 g/cup").measure.kind == "volume"
    assert value(fields.Weighs, "30 g per piece").measure.kind == "count"
    assert value(fields.Weighs, "40 g per 1/2 cup").measure.terms[0].low * 2 == 1


def test_a_jar_promises_a_temperature_after_hours() -> None:
    label = value(fields.Jar, "65 C after 6 h")
    assert (label.temp_c, label.after_s) == (65.0, 21_600.0)


@pytest.mark.parametrize(
    ("kind", "text", "culprit"),
    [
        (fields.Weighs, "58 g per cupp", "cupp"),
        (fields.Weighs, "58 gg per cup", "gg"),
        (fields.Jar, "65 C after 6 x", "x"),
        (fields.Volume, "3/4 cupp", "cupp"),
        (fields.Duration, "1 h 20 minuts", "minuts"),
        (fields.Altitude, "-20 m", "-20"),
    ],
)
def test_a_wrong_word_is_marked_where_it_stands(kind: object, text: str, culprit: str) -> None:
    found = refused(kind, text)
    assert text[found["start"] : found["start"] + found["width"]] == culprit


@pytest.mark.parametrize("other", [["12 min"], {"12": "min"}])
def test_a_list_or_a_group_is_answered_with_an_example(other: object) -> None:
    assert "12 min" in refused(fields.Duration, other)["mend"]
    assert "a line of text" in refused(fields.Text, other)["mend"]


@pytest.mark.parametrize("braces", ["{x}", "{0}", "%s", "{cause}"])
def test_braces_in_a_value_come_back_as_they_were_written(braces: str) -> None:
    assert f'"{braces}"' in refused(fields.Day, braces)["cause"]
