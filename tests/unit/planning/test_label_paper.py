"""Where labels stand on their paper; what goes off it or overlaps is a finding (hostile tests)."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cookbook_build.findings import Findings, Place
from cookbook_build.manuscript.fields import Written
from cookbook_build.manuscript.schema import LabelSheetKeys
from cookbook_build.planning.label_paper import PAPERS_MM, check_sheet, even_sheet, sheet


def mm(value: float) -> Written:
    return Written(f"{value} mm", value / 1000)


@pytest.mark.parametrize("paper", PAPERS_MM)
def test_without_measures_the_paper_is_divided_evenly(paper: Literal["A4", "Letter"]) -> None:
    keys = LabelSheetKeys.model_construct(paper=paper, columns=3, rows=8)
    of = sheet(keys)
    assert of == even_sheet(paper, 3, 8)
    width, height = PAPERS_MM[paper]
    assert of.left + 2 * of.across + of.width == pytest.approx(width - of.left)
    assert of.top + 7 * of.down + of.height == pytest.approx(height - of.top)


def test_labels_of_a_given_width_touch_and_stand_in_the_middle() -> None:
    of = sheet(LabelSheetKeys.model_construct(columns=3, rows=8, width=mm(70)))
    assert (of.left, of.width, of.across) == (0, 70, 70)


def test_with_a_left_margin_the_right_one_is_alike() -> None:
    of = sheet(LabelSheetKeys.model_construct(columns=2, width=mm(99), left=mm(4.5)))
    assert of.left + of.across + of.width == pytest.approx(210 - 4.5)


def test_what_is_written_holds() -> None:
    keys = LabelSheetKeys.model_construct(
        columns=2, rows=7, width=mm(99.1), height=mm(38.1), top=mm(15.1), left=mm(4.7),
        across=mm(101.6), down=mm(38.1),
    )  # fmt: skip
    of = sheet(keys)
    assert (of.width, of.height, of.top, of.left, of.across, of.down) == (
        99.1, 38.1, 15.1, 4.7, 101.6, 38.1,
    )  # fmt: skip


spans = st.none() | st.floats(0, 500).map(mm)


@given(
    st.integers(1, 1000), st.integers(1, 1000), spans, spans, spans, spans, spans, spans,
)  # fmt: skip
def test_any_measures_are_a_sheet_or_a_finding(
    columns: int,
    rows: int,
    width: Written | None,
    height: Written | None,
    top: Written | None,
    left: Written | None,
    across: Written | None,
    down: Written | None,
) -> None:
    keys = LabelSheetKeys.model_construct(
        columns=columns, rows=rows, width=width, height=height, top=top, left=left, across=across,
        down=down,
    )  # fmt: skip
    findings = Findings()
    book = SimpleNamespace(
        book=SimpleNamespace(labels=keys),
        places=SimpleNamespace(key=lambda _: Place("book.yaml")),
    )
    if check_sheet(book, findings):  # type: ignore[arg-type]
        of = sheet(keys)
        # half a millimetre of slack: makers round their measures, our choice
        assert of.left + (columns - 1) * of.across + of.width <= 210.5 + 1e-6
        assert of.top + (rows - 1) * of.down + of.height <= 297.5 + 1e-6
    else:
        assert findings.errors
