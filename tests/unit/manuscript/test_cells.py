"""What a spreadsheet's text means: weights, hours and days, or a finding."""

from __future__ import annotations

import datetime as dt

import pytest

from cookbook_build.manuscript import cells
from cookbook_build.manuscript.cells import CellError, Habits, Measure, habits

WEIGHT = Measure(cells.GRAMS, 1, 50_000, "850", "write the grams.", "grams.", may_group=True)
TIME = Measure(cells.HOURS, 0, 200, "30", "write the hours.")
NONE = Habits()


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("850", 850),
        ("850 g", 850),
        ("850g.", 850),
        ("1.2 kg", 1200),
        ("1,2 kg", 1200),
        ("1.250 kg", 1250),
        ("1,250 kg", 1250),
        ("12,5", 12.5),
        ("12.5", 12.5),
        ("1 200", 1200),
        ("1'200", 1200),
        ("1.200,5", 1200.5),
        ("1,200.5", 1200.5),
        ("1200,500", 1200.5),
        ("12.34E+02", 1234),
        ("+850", 850),
        ("2 oz", 56.69904625),
        ("1 lb", 453.59237),
    ],
)
def test_weights_are_read_as_people_and_spreadsheets_write_them(text: str, grams: float) -> None:
    assert cells.number(text, WEIGHT, NONE) == pytest.approx(grams)


@pytest.mark.parametrize(
    ("text", "hours"),
    [("30", 30), ("30.5 h", 30.5), ("30:15", 30.25), ("30:15:00", 30.25), ("90 min", 1.5),
     ("1 d", 24)],
)  # fmt: skip
def test_hours_are_read_as_people_and_spreadsheets_write_them(text: str, hours: float) -> None:
    assert cells.number(text, TIME, NONE) == pytest.approx(hours)


def test_a_units_heading_serves_where_the_cell_names_none() -> None:
    assert cells.number("1.2", WEIGHT, NONE, 1000) == pytest.approx(1200)
    assert cells.number("850 g", WEIGHT, NONE, 1000) == pytest.approx(850)


@pytest.mark.parametrize("text", ["1,200", "1.200"])
def test_a_thousand_or_a_decimal_is_refused_where_the_file_does_not_say(text: str) -> None:
    with pytest.raises(CellError) as caught:
        cells.number(text, WEIGHT, NONE)
    assert "two ways" in caught.value.cause
    assert caught.value.mend == "write 1200 or 1.2."


def test_the_rest_of_the_file_says_which_mark_is_the_decimal_one() -> None:
    german = habits(["850", "12,5", "1.200"], [])
    english = habits(["850", "12.5", "1,200"], [])
    assert cells.number("1.200", WEIGHT, german) == pytest.approx(1200)
    assert cells.number("1,200", WEIGHT, german) == pytest.approx(1.2)
    assert cells.number("1,200", WEIGHT, english) == pytest.approx(1200)
    assert habits(["12,5", "12.5"], []).decimal is None


@pytest.mark.parametrize(
    ("text", "cause"),
    [
        ("-5", "less than nothing"),
        ("−5 g", "less than nothing"),
        ("0", "is nothing"),
        ("0.4", "less than can be meant"),
        ("90000", "more than can be meant"),
        ("9" * 400, "more than can be meant"),
        ("a lot", "not a number"),
        ("12 %", "not a number"),
        ("1,2,3", "not a number"),
        ("850 grm", "not a unit"),
        ("=1+1", "formula"),
        ("=SUM(E2:E9)", "formula"),
        ("+1+1", "formula"),
        ("-A1*2", "formula"),
        ("@A1", "formula"),
        ("#DIV/0!", "in place of a value"),
        ("#N/A", "in place of a value"),
        ("######", "in place of a value"),
        ("Err:508", "in place of a value"),
    ],
)
def test_what_is_no_weight_is_refused(text: str, cause: str) -> None:
    with pytest.raises(CellError) as caught:
        cells.number(text, WEIGHT, NONE)
    assert cause in caught.value.cause
    assert caught.value.mend.endswith(".")
    assert len(caught.value.cause) < 120


@pytest.mark.parametrize(
    "text",
    ["2026-03-02", "2026-3-2", "2026/03/02", "2026.03.02", "2026-03-02 00:00:00",
     "2026-03-02T08:30"],
)  # fmt: skip
def test_a_date_with_its_year_first_is_one_day(text: str) -> None:
    assert cells.day(text, NONE) == dt.date(2026, 3, 2)


def test_a_date_that_can_be_one_day_only_is_read() -> None:
    assert cells.day("25/3/2026", NONE) == dt.date(2026, 3, 25)
    assert cells.day("3/25/2026", NONE) == dt.date(2026, 3, 25)
    assert cells.day("3. 3. 2026", NONE) == dt.date(2026, 3, 3)


def test_a_date_that_can_be_two_days_is_read_as_the_rest_of_the_file_is() -> None:
    day_first = habits([], ["2/3/2026", "25/3/2026"])
    month_first = habits([], ["2/3/2026", "3/25/2026"])
    assert cells.day("2/3/2026", day_first) == dt.date(2026, 3, 2)
    assert cells.day("2/3/2026", month_first) == dt.date(2026, 2, 3)
    for known in (NONE, habits([], ["25/3/2026", "3/25/2026"]), habits([], ["25.3.2026"])):
        with pytest.raises(CellError) as caught:
            cells.day("2/3/2026", known)
        assert caught.value.mend == "write 2026-02-03 or 2026-03-02."


@pytest.mark.parametrize(
    ("text", "cause"),
    [
        ("2026-02-30", "not a day in the calendar"),
        ("31/11/2026", "not a day in the calendar"),
        ("March", "not a day in the calendar"),
        ("2/3/26", "of which hundred"),
        ("46083", "as a spreadsheet counts them"),
        ("0026-03-02", "no year"),
        ("=TODAY()", "formula"),
    ],
)
def test_what_is_no_day_is_refused(text: str, cause: str) -> None:
    with pytest.raises(CellError) as caught:
        cells.day(text, NONE)
    assert cause in caught.value.cause


def test_a_name_fits_on_a_label() -> None:
    assert cells.short("LEE-2603") == "LEE-2603"
    with pytest.raises(CellError):
        cells.short("x" * 61)
