"""A CSV file as a spreadsheet writes it: encodings, delimiters, quotes, headings, places."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings, Severity
from cookbook_build.manuscript.sheets import read_sheet
from cookbook_build.manuscript.source import Source
from cookbook_build.manuscript.tables import Column, Table, read_table

if TYPE_CHECKING:
    from pathlib import Path

COLUMNS = (
    Column("store", example="leeks"),
    Column("packed on", ("packed",), example="2026-03-02"),
    Column("grams", ("weight",), {"g": 1, "grams": 1, "kg": 1000}, example="850"),
    Column("last check", needed=False, example="118"),
)


def table(text: str) -> tuple[Table | None, list[tuple[int, int, str]]]:
    """Return the table of a text, and line, column and cause of each finding."""
    findings = Findings()
    read = read_table(Source.of("a.csv", text), COLUMNS, findings)
    return read, [(f.place.line, f.place.column, f.cause) for f in findings]


def texts(text: str) -> list[dict[str, str]]:
    """Return the cells of each row of a text without findings."""
    read, found = table(text)
    assert read is not None
    assert not found
    return [{name: cell.text for name, cell in row.cells.items()} for row in read.rows]


LEEKS = {"store": "leeks", "packed on": "2026-03-02", "grams": "850"}


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_commas_semicolons_and_tabs_part_cells(delimiter: str) -> None:
    text = "store,packed on,grams\nleeks,2026-03-02,850\n".replace(",", delimiter)
    assert texts(text) == [LEEKS]


def test_a_first_line_may_name_the_delimiter() -> None:
    assert texts("sep=;\nstore;packed on;grams\nleeks;2026-03-02;850\n") == [LEEKS]


@pytest.mark.parametrize(
    "header",
    [
        "Store,Packed on,Grams",
        "STORE,packed_on,grams (g)",
        " store , Packed-On , weight [g] ",
        '"store","packed","g"',
        "store,packed on (the jar),grams",
    ],
)
def test_case_spaces_marks_and_units_in_a_heading_do_not_matter(header: str) -> None:
    assert texts(f"{header}\nleeks,2026-03-02,850\n") == [LEEKS]


def test_columns_may_stand_in_any_order() -> None:
    assert texts("grams,store,packed on\n850,leeks,2026-03-02\n") == [LEEKS]


def test_a_unit_in_a_heading_is_the_unit_of_its_bare_numbers() -> None:
    read, _ = table("store,packed on,weight (kg)\n")
    assert read is not None
    assert read.factors["grams"] == 1000


def test_two_units_in_a_heading_are_a_finding() -> None:
    _, found = table("store,packed on,grams (kg)\n")
    assert found == [(1, 17, "this column is said to be in grams and in kg")]


def test_quoted_cells_may_hold_delimiters_quotes_and_line_breaks() -> None:
    text = 'store,packed on,grams\n"red, ""sweet""\nleeks", "2026-03-02" ,"850"\nkale,x,1\n'
    read, found = table(text)
    assert read is not None
    assert not found
    first, second = read.rows
    assert first.cells["store"].text == 'red, "sweet" leeks'
    assert (first.first, first.last, second.first) == (2, 3, 4)
    place = first.place("grams")
    assert (place.line, place.excerpt[place.column - 1 :][: place.width]) == (3, "850")


def test_a_quote_that_is_never_closed_costs_one_row_and_no_more() -> None:
    read, found = table('store,packed on,grams\n"leeks,2026-03-02,850\nkale,"2026-03-03",90\n')
    assert read is not None
    assert [row.cells["store"].text for row in read.rows] == ["kale"]
    assert [place[:2] for place in found] == [(2, 1)]


def test_a_quote_that_swallows_whole_rows_is_found_where_it_is_opened() -> None:
    read, found = table(
        'store,packed on,grams\n"leeks,2026-03-02,850\nkale,x,9\nkale,x,"\nkale,x,8\n'
    )
    assert read is not None
    assert "quotation mark" in found[0][2]
    assert found[0][:2] == (2, 1)
    assert [row.first for row in read.rows] == [3, 5]


def test_empty_lines_and_columns_at_the_end_say_nothing() -> None:
    text = "\nstore,packed on,grams,,\n\nleeks,2026-03-02,850,,\n,,,,\n  \n\n"
    assert texts(text) == [LEEKS]


def test_a_column_that_may_be_missing_may_be_left_out_of_a_row() -> None:
    assert texts("store,packed on,grams,last check\nleeks,2026-03-02,850\n") == [LEEKS]


def test_a_misspelt_column_is_read_as_the_one_it_must_be() -> None:
    read, found = table("store,packt on,grams\nleeks,2026-03-02,850\n")
    assert read is not None
    assert found == [(1, 7, '"packt on" is not a column of this table')]
    assert {name: cell.text for name, cell in read.rows[0].cells.items()} == LEEKS


def test_a_column_of_the_households_own_is_a_warning() -> None:
    findings = Findings()
    text = "store,packed on,grams,remarks\nleeks,2026-03-02,850,ours\n"
    read = read_table(Source.of("a.csv", text), COLUMNS, findings)
    (finding,) = findings
    assert read is not None
    assert len(read.rows) == 1
    assert finding.severity is Severity.WARNING
    assert finding.place.column == 23


def test_many_columns_of_ones_own_are_one_warning() -> None:
    _, found = table("store,packed on,grams," + ",".join(f"week {at}" for at in range(52)))
    assert found == [
        (1, 23, '"week 0" is not a column of this table, and is not read (as 51 others are not)')
    ]


def test_a_missing_heading_is_one_finding_whatever_its_rows_hold() -> None:
    _, found = table("store,grams\nleeks,2026-03-02,850\nkale,2026-03-02\nkale\n")
    assert [cause for _, _, cause in found] == ['this table has no column "packed on"']


@pytest.mark.parametrize("text", ["", "\n\n", " ,, \n", "\ufeff", "sep=;\n"])
def test_an_empty_file_is_a_finding(text: str) -> None:
    read, found = table(text)
    assert read is None
    assert found == [(1, 1, "a.csv is empty")]


def test_a_header_alone_is_an_empty_table() -> None:
    assert texts("store,packed on,grams\n") == []
    assert texts("store,packed on,grams") == []


@pytest.mark.parametrize("text", ["<html><body>no</body></html>\n", "leeks,2026-03-02,850\n", '"'])
def test_what_is_no_table_is_one_finding(text: str) -> None:
    read, found = table(text + "and, so, on\n")
    assert read is None
    assert [cause for _, _, cause in found] == ["this line names no column of this table"]


TEXT = "store,packed on,grams\nköleeks,2026-03-02,850\n"


@pytest.mark.parametrize(
    "data",
    [
        TEXT.encode("utf-8"),
        TEXT.encode("utf-8-sig"),
        TEXT.encode("utf-16"),
        TEXT.encode("utf-16-le"),
        TEXT.encode("utf-16-be"),
        b"\xfe\xff" + TEXT.encode("utf-16-be"),
        TEXT.encode("cp1252"),
        TEXT.replace("\n", "\r\n").encode("cp1252"),
        TEXT.replace("\n", "\r\n").encode("utf-16"),
        TEXT.replace("\n", "\r").encode("utf-8-sig"),
    ],
)
def test_the_encodings_of_spreadsheets_are_read(data: bytes, tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_bytes(data)
    findings = Findings()
    source = read_sheet(tmp_path, tmp_path / "a.csv", findings)
    assert not list(findings)
    assert source is not None
    assert source.text == TEXT


@pytest.mark.parametrize(
    ("data", "line", "column"),
    [
        (b"store\nle\x81eks\n", 2, 3),
        (b"store\nle\x00eks\n", 2, 3),
        ("store\nlöeks ".encode() + b"\xff\n", 2, 7),
        (b"\xff\xfes\x00t\x00\n\x00a\x00\x00\xd8b\x00", 2, 2),
        (b"\xff\xfes\x00\n\x00a\x00\x07\x00", 2, 2),
        (b"PK\x03\x04\x14\x00", 1, 1),
    ],
)
def test_bytes_that_are_no_text_are_one_finding(
    data: bytes, line: int, column: int, tmp_path: Path
) -> None:
    (tmp_path / "a.csv").write_bytes(data)
    findings = Findings()
    assert read_sheet(tmp_path, tmp_path / "a.csv", findings) is None
    (finding,) = findings
    assert (finding.place.line, finding.place.column) == (line, column)
