"""stock.csv and drying-log.csv: their rows, and what each says of the other."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from cookbook_build.findings import Findings, Severity
from cookbook_build.foods import load_foods
from cookbook_build.manuscript.collection import read_book
from cookbook_build.manuscript.larder import Larder, read_larder
from cookbook_build.manuscript.logs import LogRow, StockRow, read_logs
from cookbook_build.manuscript.nodes import read_nodes
from cookbook_build.manuscript.source import Source
from cookbook_build.preserving.yields import (
    MOST_CREDIBLE_MOISTURE,
)

DEMO = Path(__file__).parents[3] / "content_demo"
LARDER_TEXT = """\
leeks: {food: leeks raw, dried: freeze, form: sliced, also called: [leek rings]}
kale: {food: kale cooked, dried: freeze, cooked first: true}
salt: {food: salt, dried: bought}
odd: {dried: freeze}
"""
STOCK = "store,lot,packed on,container,grams\nleeks,L1,2026-03-04,jar,90\n"
LOG = "date,store,lot,fresh g,dry g,hours,trays,last check\n2026-03-02,leeks,L1,850,120,30,2,121\n"


def larder() -> Larder:
    """Return a small larder; one store has a finding of its own."""
    findings = Findings()
    source = Source.of("larder.yaml", LARDER_TEXT)
    node = read_nodes(source, findings, source.text)
    assert node is not None
    found = read_larder(node, load_foods(), findings)
    assert found is not None
    return found


def read(
    folder: Path, *, stock: str = STOCK, log: str = LOG, today: dt.date | None = None
) -> tuple[tuple[StockRow, ...], tuple[LogRow, ...], list[tuple[str, int, str]]]:
    """Return the rows of two files, and file, line and cause of each finding."""
    (folder / "stock.csv").write_text(stock, encoding="utf-8")
    (folder / "drying-log.csv").write_text(log, encoding="utf-8")
    findings = Findings()
    shelf, dried = read_logs(folder, larder(), findings, today)
    return shelf, dried, [(f.place.path, f.place.line, f.cause) for f in findings]


def test_rows_hold_what_is_written(tmp_path: Path) -> None:
    (held,), (dried,), found = read(tmp_path)
    assert not found
    assert (held.store, held.lot, held.container, held.grams) == ("leeks", "L1", "jar", 90)
    assert held.packed == dt.date(2026, 3, 4)
    assert (held.place.path, held.place.line, held.place.column) == ("stock.csv", 2, 7)
    assert dried.date == dt.date(2026, 3, 2)
    assert (dried.fresh_g, dried.dry_g, dried.hours, dried.trays) == (850, 120, 30, 2)
    assert dried.last_check_g == 121


def test_both_files_may_be_missing(tmp_path: Path) -> None:
    findings = Findings()
    assert read_logs(tmp_path, larder(), findings) == ((), ())
    assert not list(findings)


def test_a_store_is_found_by_any_of_its_names(tmp_path: Path) -> None:
    (held,), _, found = read(tmp_path, stock=STOCK.replace("leeks", "Leek Rings"))
    assert held.store == "leeks"
    assert not found


def test_weights_with_units_are_grams(tmp_path: Path) -> None:
    text = (
        "date,store,lot,fresh (kg),dry g,hours,trays\n2026-03-02,leeks,L1,0.85,0.12 kg,30:30,0.5\n"
    )
    _, (dried,), found = read(tmp_path, log=text)
    assert not found
    assert (dried.fresh_g, dried.dry_g, dried.hours, dried.trays) == (850, 120, 30.5, 0.5)
    assert dried.last_check_g is None


def test_a_spreadsheet_with_semicolons_and_decimal_commas_is_read(tmp_path: Path) -> None:
    text = (
        "\ufeffDate;Store;Lot;Fresh g;Dry g;Hours;Trays;Last check (g);\r\n"
        "25.2.2026;leeks;L1;1.850,5;260,5;30,5;2;261;\r\n"
        "2.3.2026;kale;K1;1.200;90;24;1;-;\r\n;;;;;;;;\r\n"
    )
    _, (leeks, kale), found = read(tmp_path, log=text)
    assert not found
    assert (leeks.fresh_g, leeks.dry_g, leeks.hours) == (1850.5, 260.5, 30.5)
    assert (kale.fresh_g, kale.date) == (1200, dt.date(2026, 3, 2))
    assert kale.last_check_g is None


def test_two_weighings_within_a_scales_step_are_the_same(tmp_path: Path) -> None:
    _, (dried,), found = read(
        tmp_path, log=LOG.replace("121", "119"), stock=STOCK.replace(",90", ",121")
    )
    assert not found
    assert dried.last_check_g == 119


def test_a_day_to_come_is_known_only_with_a_today(tmp_path: Path) -> None:
    assert not read(tmp_path)[2]
    found = read(tmp_path, today=dt.date(2026, 3, 3))[2]
    assert found == [
        ("stock.csv", 2, '"2026-03-04" is still to come: today is 2026-03-03'),
    ]
    assert not read(tmp_path, today=dt.date(2026, 3, 4))[2]


def test_a_store_with_a_finding_of_its_own_is_not_blamed_again(tmp_path: Path) -> None:
    assert not read(tmp_path, log=LOG.replace("leeks,L1", "odd,L9"))[2]


def test_lots_that_differ_in_case_only_are_one(tmp_path: Path) -> None:
    found = read(tmp_path, stock=STOCK + "leeks,l1,2026-03-04,tin,9\n")[2]
    assert found == [("stock.csv", 3, 'lot "l1" stands on the shelf already, on line 2')]


def test_a_lot_without_a_row_in_the_log_is_fine(tmp_path: Path) -> None:
    assert not read(tmp_path, stock=STOCK.replace("L1", "L7"))[2]


def test_everything_wrong_is_shown_at_once(tmp_path: Path) -> None:
    stock = "store,lot,packed on,container,grams\nleaks,L1,2026-13-04,,x\nleeks,L2,,,\n"
    _, _, found = read(tmp_path, stock=stock, log=LOG.replace("850", "85"))
    assert [(path, line) for path, line, _ in found] == [
        ("drying-log.csv", 2), ("stock.csv", 2), ("stock.csv", 2), ("stock.csv", 2),
        ("stock.csv", 2), ("stock.csv", 3),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("name", "mend"),
    [
        ("stock.xlsx", "save it as CSV, with the name stock.csv."),
        ("Stock.txt", "rename it to stock.csv."),
        ("drying_log.csv", "rename it to drying-log.csv."),
        ("Drying log.ods", "save it as CSV, with the name drying-log.csv."),
    ],
)
def test_a_file_with_nearly_the_right_name_is_a_warning(
    name: str, mend: str, tmp_path: Path
) -> None:
    (tmp_path / name).write_bytes(b"x")
    findings = Findings()
    read_logs(tmp_path, larder(), findings)
    (finding,) = findings
    assert (finding.severity, finding.place.path, finding.mend) == (Severity.WARNING, name, mend)


def test_the_demo_book_tells_a_year_of_drying() -> None:
    findings = Findings()
    book = read_book(DEMO, findings, today=dt.date(2026, 10, 1))
    assert not list(findings)
    assert book is not None
    assert len(book.stock) > 24
    assert len(book.log) > 28
    assert len({row.date for row in book.log}) > 11


def test_the_demo_books_lots_are_as_dry_as_a_dryer_leaves_them() -> None:
    book = read_book(DEMO, Findings())
    assert book is not None
    for row in book.log:
        food = book.larder.stores[row.store].food
        if food is not None:
            moisture = 1 - row.fresh_g * (1 - food.moisture) / row.dry_g
            assert 0 < moisture < MOST_CREDIBLE_MOISTURE / 5


def test_the_demo_books_loads_fit_its_dryer() -> None:
    book = read_book(DEMO, Findings())
    assert book is not None
    dryer = book.book.kit.dryer
    assert dryer is not None
    for date in {row.date for row in book.log}:
        load = [row for row in book.log if row.date == date]
        assert 3 <= sum(row.trays for row in load) <= dryer.trays
        assert all(row.fresh_g <= 900 * row.trays for row in load)
        assert sum(row.fresh_g - row.dry_g for row in load) < 4500
        assert {row.hours for row in load} <= {load[0].hours}
        assert 18 <= load[0].hours <= 40
