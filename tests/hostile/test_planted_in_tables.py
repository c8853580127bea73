"""Planted mistakes in stock.csv and drying-log.csv: each gives one finding at its cell.

A row is the file, what is replaced by what, where the marker stands (line, column, and the text
under it, as an editor shows them), and words of the cause and of the mend.
"""
# ruff: noqa: E501 - a mistake a line

from __future__ import annotations

import datetime as dt
import tempfile
from dataclasses import dataclass
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from cookbook_build.findings import Findings, Severity, described
from cookbook_build.foods import load_foods
from cookbook_build.manuscript.larder import Larder, read_larder
from cookbook_build.manuscript.logs import LogRow, StockRow, read_logs
from cookbook_build.manuscript.nodes import read_nodes
from cookbook_build.manuscript.source import Source

TODAY = dt.date(2026, 9, 30)
LARDER_TEXT = """\
leeks: {food: leeks raw, dried: freeze, form: sliced}
kale: {food: kale cooked, dried: freeze, cooked first: true}
pearl barley: {food: pearl barley cooked, dried: freeze, cooked first: true}
carrots: {food: carrots raw, dried: air, weighs: 58 g per cup, also called: [carrot dice]}
salt: {food: salt, dried: bought}
oatcake: {food: oatcakes, dried: fresh, sold by: piece, weighs: 60 g per piece}
"""
STOCK, LOG = "stock.csv", "drying-log.csv"
SOUND = {
    STOCK: """\
store,lot,packed on,container,grams
leeks,L1,2026-03-04,jar,90
pearl barley,B1,2026-04-12,pouch,410
carrot dice,C1,2025-10-05,"tin, blue",180
""",
    LOG: """\
date,store,lot,fresh g,dry g,hours,trays,last check
2026-03-02,leeks,L1,850,149,30,2,150
2026-04-10,pearl barley,B1,1760,566,28.5,2,
2026-04-10,kale,K1,640,58,28.5,3,58
""",
}


@dataclass(frozen=True)
class Planted:
    """One mistake."""

    file: str
    old: str
    new: str
    line: int
    column: int
    culprit: str
    cause: str
    mend: str
    severity: Severity = Severity.ERROR


W = Severity.WARNING
P = Planted
LEEKS = "leeks,L1,2026-03-04,jar,90"
MISTAKES = {
    # names
    "a misspelt store": P(
        STOCK, "leeks", "leaks", 2, 1, "leaks", 'no store called "leaks"', '"leeks"'
    ),
    "an unknown store": P(
        STOCK,
        "leeks,L1",
        "dandelions,D1",
        2,
        1,
        "dandelions",
        'no store called "dandelions"',
        "larder.yaml",
    ),
    "a misspelt store in the log": P(
        LOG, "kale", "kail", 4, 12, "kail", 'no store called "kail"', '"kale"'
    ),
    "a bought store that was dried": P(
        LOG, "kale,K1", "salt,S1", 4, 12, "salt", "is bought", "dried: freeze"
    ),
    "a fresh good on the shelf": P(
        STOCK, "leeks,L1", "oatcake,O1", 2, 1, "oatcake", "is fresh", "delete this row", W
    ),
    "a misspelt column": P(
        STOCK, "container", "contaner", 1, 21, "contaner", "not a column", '"container"'
    ),
    "a column of one's own": P(
        STOCK, "grams\n", "grams,shelf\n", 1, 37, "shelf", "is not read", "delete it", W
    ),
    "a missing column": P(
        LOG,
        "hours,",
        "",
        1,
        1,
        "date,store,lot,fresh g,dry g,trays,last check",
        'no column "hours"',
        "each row",
    ),
    "a column twice": P(STOCK, "grams\n", "grams,lot\n", 1, 37, "lot", "a second time", "keep one"),
    "two units in a heading": P(
        LOG, "dry g", "dry g (kg)", 1, 24, "dry g (kg)", "in g and in kg", '"dry g"'
    ),
    # lots
    "a lot twice in stock": P(
        STOCK,
        "pearl barley,B1",
        "leeks,L1",
        3,
        7,
        "L1",
        "on the shelf already, on line 2",
        "added up",
    ),
    "a lot of two stores": P(
        STOCK, "B1", "L1", 3, 14, "L1", "already that of leeks, on line 2", "no other"
    ),
    "a lot of two stores in two files": P(
        STOCK,
        "carrot dice,C1",
        "carrots,K1",
        4,
        9,
        "K1",
        "that of kale, on line 4 of drying-log.csv",
        "no other",
    ),
    "a lot dried twice": P(
        LOG, "kale,K1", "leeks,L1", 4, 18, "L1", "dried already, on line 2", "of its own"
    ),
    "a lot of two stores in the log": P(
        LOG, "K1", "B1", 4, 17, "B1", "that of pearl barley, on line 3", "no other"
    ),
    "a lot spelt otherwise than in the log": P(
        STOCK, "L1", "L-01", 2, 7, "L-01", 'line 2 has "L1"', 'write "L1"', W
    ),
    "no lot": P(STOCK, "L1", "", 2, 7, "", 'nothing stands here under "lot"', "LEE-2603"),
    "a lot too long for a label": P(STOCK, "C1", "C" * 61, 4, 13, "C" * 61, "61 letters", "60"),
    # days
    "packed in the future": P(
        STOCK,
        "2026-04-12",
        "2027-04-12",
        3,
        17,
        "2027-04-12",
        "still to come",
        "on which it was done",
    ),
    "dried in the future": P(
        LOG,
        "2026-04-10,kale",
        "2026-12-10,kale",
        4,
        1,
        "2026-12-10",
        "today is 2026-09-30",
        "on which it was done",
    ),
    "packed before it was dried": P(
        STOCK,
        "2026-03-04",
        "2026-02-04",
        2,
        10,
        "2026-02-04",
        "dried on 2026-03-02",
        "2026-03-02 or a later day",
    ),
    "no day of the calendar": P(
        STOCK, "2026-03-04", "2026-03-34", 2, 10, "2026-03-34", "not a day", "2026-03-02"
    ),
    "a day that can be two": P(
        STOCK, "2026-03-04", "4/3/2026", 2, 10, "4/3/2026", "two ways", "2026-03-04 or 2026-04-03"
    ),
    "a dotted day that can be two": P(
        LOG, "2026-03-02", "2.3.2026", 2, 1, "2.3.2026", "two ways", "2026-02-03 or 2026-03-02"
    ),
    "a year of two digits": P(
        STOCK, "2026-03-04", "4/3/26", 2, 10, "4/3/26", "which hundred", "2026-03-02"
    ),
    "a day as a spreadsheet counts": P(
        STOCK, "2026-03-04", "46085", 2, 10, "46085", "spreadsheet counts", "format of a date"
    ),
    # weights
    "dry heavier than fresh": P(
        LOG, "640,58", "58,640", 4, 23, "640", "drying makes food lighter", "both weights"
    ),
    "as dry as fresh": P(
        LOG, "640,58", "58,58", 4, 23, "58", "drying makes food lighter", "both weights"
    ),
    "more on the shelf than came out": P(
        STOCK, "jar,90", "jar,190", 2, 25, "190", "149 g came out", "149 or less"
    ),
    "last check lighter than dry": P(
        LOG, "3,58", "3,50", 4, 34, "50", "less than the 58", "leave the last check empty"
    ),
    "last check heavier than fresh": P(
        LOG, "2,150", "2,1500", 2, 34, "1500", "more than the 850", "leave the last check empty"
    ),
    "less than nothing on the shelf": P(
        STOCK, "jar,90", "jar,-90", 2, 25, "-90", "less than nothing", "empty container"
    ),
    "an empty container": P(STOCK, "jar,90", "jar,0", 2, 25, "0", "is nothing", "empty container"),
    "kilograms written as grams": P(
        LOG, "850", "0.85", 2, 21, "0.85", "less than can be meant", "0.85 kg"
    ),
    "more than a shelf bears": P(
        STOCK, "410", "410000", 3, 34, "410000", "more than can be meant", "850"
    ),
    "no number": P(STOCK, "410", "plenty", 3, 34, "plenty", "not a number", "850"),
    "a unit of volume": P(
        STOCK, "410", "410 ml", 3, 34, "410 ml", "not a unit", "the number alone"
    ),
    "a thousand or a decimal": P(
        STOCK, "410", '"1,410"', 3, 35, "1,410", "two ways", "1410 or 1.41"
    ),
    "a formula": P(STOCK, "410", "=1+1", 3, 34, "=1+1", "is a formula", "what it comes to"),
    "a formula in a name": P(
        STOCK, "C1", "=CONCAT(A1)", 4, 13, "=CONCAT(A1)", "is a formula", "what it comes to"
    ),
    "a formula that failed": P(
        LOG, "566", "#REF!", 3, 33, "#REF!", "in place of a value", "the value itself"
    ),
    # hours and trays
    "no hours": P(LOG, "30,2", "0,2", 2, 29, "0", "is nothing", "such as 30"),
    "fewer hours than a load takes": P(
        LOG, "30,2", "0.4,2", 2, 29, "0.4", "less than can be meant", "30:15"
    ),
    "more hours than a load takes": P(
        LOG, "30,2", "300,2", 2, 29, "300", "more than can be meant", "no more than 200"
    ),
    "no trays": P(LOG, "30,2", "30,0", 2, 32, "0", "is nothing", "how many trays"),
    "trays in words": P(LOG, "30,2", "30,two", 2, 32, "two", "not a number", "write it like 2"),
    # shape
    "a row too short": P(
        STOCK,
        "leeks,L1,",
        "leeks,",
        2,
        1,
        "leeks,2026-03-04,jar,90",
        "4 cells, and the first line 5",
        "leave none out",
    ),
    "a decimal comma between commas": P(
        STOCK, "jar,90", "jar,90,5", 2, 28, "5", "6 cells, and the first line 5", "12.5"
    ),
    "semicolons under commas": P(
        STOCK,
        LEEKS,
        LEEKS.replace(",", ";"),
        2,
        1,
        LEEKS.replace(",", ";"),
        "1 cell",
        "part the cells with a comma",
    ),
    "a row that is not filled in": P(
        STOCK,
        "leeks,L1,2026-03-04,jar,90",
        "all,,,,680",
        2,
        1,
        "all,,,,680",
        'nothing under "lot", "packed on", "container"',
        "delete the row",
    ),
    "an open quote": P(STOCK, "jar,90", '"jar,90', 2, 21, '"', "quotation mark", "close it"),
    "the first line again": P(
        STOCK,
        LEEKS,
        "store,lot,packed on,container,grams",
        2,
        1,
        "store,lot,packed on,container,grams",
        "a second time",
        "delete",
    ),
    "no first line": P(
        STOCK,
        "store,lot,packed on,container,grams\n",
        "",
        1,
        1,
        LEEKS,
        "names no column",
        "store,lot,packed on",
    ),
    "no table": P(
        LOG,
        SOUND[LOG],
        "We dried leeks.\n",
        1,
        1,
        "We dried leeks.",
        "names no column",
        "date,store,lot",
    ),
    "an empty file": P(LOG, SOUND[LOG], "", 1, 1, "", "drying-log.csv is empty", "delete it"),
    "a byte of nothing": P(STOCK, "jar", "j\x00r", 2, 22, "\x00", "can't be seen", "plain text"),
}


def larder() -> Larder:
    """Return the larder that the lots are stores of."""
    findings = Findings()
    source = Source.of("larder.yaml", LARDER_TEXT)
    node = read_nodes(source, findings, source.text)
    assert node is not None
    found = read_larder(node, load_foods(), findings)
    assert found is not None
    assert not list(findings)
    return found


SHELF = larder()
Rows = tuple[tuple[StockRow, ...], tuple[LogRow, ...]]


def read(files: dict[str, bytes]) -> tuple[Rows, Findings]:
    """Return the rows and the findings of files in a folder of their own."""
    findings = Findings()
    with tempfile.TemporaryDirectory() as folder:
        for name, data in files.items():
            (Path(folder) / name).write_bytes(data)
        return read_logs(Path(folder), SHELF, findings, TODAY), findings


def encoded(texts: dict[str, str], encoding: str = "utf-8") -> dict[str, bytes]:
    """Return texts as the bytes of files."""
    return {name: text.encode(encoding) for name, text in texts.items()}


def planted(mistake: Planted) -> dict[str, str]:
    """Return the sound files with one mistake in them."""
    assert SOUND[mistake.file].count(mistake.old) >= 1, "the row's text is not in the sound file"
    return SOUND | {mistake.file: SOUND[mistake.file].replace(mistake.old, mistake.new, 1)}


def test_the_sound_files_give_no_finding() -> None:
    (stock, log), findings = read(encoded(SOUND))
    assert not list(findings)
    assert [row.lot for row in stock] == ["L1", "B1", "C1"]
    assert [row.lot for row in log] == ["L1", "B1", "K1"]


def test_there_are_forty_mistakes_and_more() -> None:
    assert len(MISTAKES) >= 40


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "cp1252"])
@pytest.mark.parametrize("name", MISTAKES)
def test_each_mistake_gives_one_finding_that_helps(name: str, encoding: str) -> None:
    mistake = MISTAKES[name]
    texts = planted(mistake)
    if "\x00" in mistake.new and encoding != "utf-8":
        pytest.skip("a file with a byte of nothing is one of UTF-8 here")
    files = {name: text.replace("\n", "\r\n") for name, text in texts.items()}
    _, findings = read(encoded(files, encoding))
    told = "\n\n".join(described(finding) for finding in findings)
    assert len(findings) == 1, told
    (finding,) = findings
    place = finding.place
    assert finding.severity is mistake.severity, told
    assert (place.path, place.line, place.column) == (mistake.file, mistake.line, mistake.column), (
        told
    )
    assert place.excerpt == texts[mistake.file].split("\n")[place.line - 1], told
    assert place.width == max(len(mistake.culprit), 1), told
    assert place.excerpt[place.column - 1 :].startswith(mistake.culprit), told
    assert mistake.cause in finding.cause, told
    assert mistake.mend in finding.mend, told
    assert finding.mend.endswith("."), told


def test_every_mistake_at_once_is_shown_at_once() -> None:
    names = (
        "a misspelt store",
        "no number",
        "no hours",
        "dry heavier than fresh",
        "a formula in a name",
    )
    texts = dict(SOUND)
    for name in names:
        mistake = MISTAKES[name]
        texts[mistake.file] = texts[mistake.file].replace(mistake.old, mistake.new, 1)
    _, findings = read(encoded(texts))
    assert len(findings) == len(names)


def is_told(files: dict[str, bytes], rows: Rows, findings: Findings) -> None:
    """Check that every line that holds anything is a row that was read or has a finding."""
    found = list(findings)
    assert all(described(finding) for finding in found)
    stock, log = rows
    read_places = [row.place for row in stock] + [row.place for row in log]
    for name in (STOCK, LOG):
        places = [*read_places, *(finding.place for finding in found)]
        told = {place.line for place in places if place.path == name}
        lines = files[name].decode("utf-8").split("\n")
        for at, line in enumerate(lines[1:], start=2):
            assert not line.strip(" ,\t") or at in told or 1 in told, (name, at, line)


CELLS = st.one_of(
    st.sampled_from(
        [
            "", " ", "leeks", "kale", "Pearl  Barley", "salt", "leaks", "L1", "L2", "K1", "2026-03-02",
            "2/3/2026", "25/3/2026", "3.2.2026", "46083", "850", "0", "-1", "1.2 kg", "1,2", "1,200",
            "1e5", "9" * 30, "=1+1", "#REF!", "jar", "½", "–", "’", "NaN", "inf", "1e400", "30:15",
        ]
    ),
    st.text(st.characters(codec="utf-8", exclude_characters='\n\r"\x85\u2028\u2029', exclude_categories=["Cc", "Cn"]), max_size=12),
)  # fmt: skip


def line_of(cells: list[str]) -> str:
    """Return a row as a spreadsheet writes it."""
    return ",".join(f'"{cell}"' if "," in cell else cell for cell in cells)


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.lists(st.lists(CELLS, min_size=1, max_size=6), max_size=6),
    st.lists(st.lists(CELLS, min_size=1, max_size=9), max_size=6),
)
def test_every_row_is_read_or_has_a_finding(stock: list[list[str]], log: list[list[str]]) -> None:
    heads = {name: text.split("\n")[0] for name, text in SOUND.items()}
    texts = {
        STOCK: "\n".join([heads[STOCK], *map(line_of, stock)]),
        LOG: "\n".join([heads[LOG], *map(line_of, log)]),
    }
    files = encoded(texts)
    rows, findings = read(files)
    is_told(files, rows, findings)


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.sampled_from([STOCK, LOG]),
    st.integers(36, 200),
    st.integers(0, 6),
    st.text(st.sampled_from('",;\t\n=L1g5. -'), max_size=8),
)
def test_a_torn_table_leaves_no_row_untold(name: str, at: int, cut: int, noise: str) -> None:
    text = SOUND[name]
    at = max(at, text.index("\n") + 1)
    files = encoded(SOUND | {name: text[:at] + noise + text[at + cut :]})
    rows, findings = read(files)
    lines = files[name].decode().split("\n")
    if any(line.count('"') for line in lines[1:]):
        return  # a cell may run over lines; what it holds is told at its first
    is_told(files, rows, findings)


@settings(max_examples=300, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.binary(max_size=80), st.binary(max_size=80), st.integers(0, 120))
@example(b"\xff\xfe", b"\xfe\xff\x00", 0)
@example(b"PK\x03\x04", b"\x00", 0)
@example(b"sep=;", b'sep=,\n"', 0)
def test_no_bytes_stop_the_reading(stock: bytes, log: bytes, at: int) -> None:
    for files in (
        {STOCK: stock, LOG: log},
        {
            name: (data := SOUND[name].encode())[:at] + noise + data[at:]
            for name, noise in ((STOCK, stock), (LOG, log))
        },
    ):
        _, findings = read(files)
        assert all(described(finding) for finding in findings)


def test_a_long_log_is_read_whole() -> None:
    day = dt.date(2000, 1, 1)
    rows = [f"{day + dt.timedelta(at // 2)},leeks,L{at},850,149,30,2,150" for at in range(10_000)]
    shelf = [f"leeks,L{at},{day + dt.timedelta(at // 2 + 2)},jar,90" for at in range(0, 10_000, 4)]
    heads = {name: text.split("\n")[0] for name, text in SOUND.items()}
    files = {LOG: "\n".join([heads[LOG], *rows]), STOCK: "\n".join([heads[STOCK], *shelf])}
    (stock, log), findings = read(encoded(files))
    assert not list(findings)
    assert (len(stock), len(log)) == (2500, 10_000)
