from __future__ import annotations

import numpy as np
import pytest
import segno

from cookbook_build.preserving.label_text import (
    LEAST_TITLE_BYTES,
    QR_BYTES,
    QR_LEVEL,
    QR_VERSION,
    cut,
    plain_text,
    qr_text,
    size_bytes,
)

LINES = [
    "RAW turkey: cook to 73.9 °C",
    "Water 1½ cups (355 mL), hold back 1 tbsp",
    "Rest 12 min, kettle",
    "Best by 2027-09-14",
    "Packed 2026-07-14, lot L12",
]


def decoded(text: str) -> tuple[str, int]:
    """Return what a reader finds in the printed code, and the code's version."""
    reader = pytest.importorskip("zxingcpp", reason="no decoder: pip install zxing-cpp")
    code = segno.make_qr(text, error=QR_LEVEL, boost_error=False)
    modules = [[0 if dark else 255 for dark in row] for row in code.matrix_iter(scale=4, border=4)]
    (found,) = reader.read_barcodes(np.array(modules, dtype=np.uint8))
    return str(found.text), int(code.version)


@pytest.mark.parametrize(
    ("words", "plain"),
    [
        ("½ cup", "1/2 cup"),
        ("1½ cups", "1 1/2 cups"),
        ("2⅛ tsp or ⅔", "2 1/8 tsp or 2/3"),
        ("74 °C — 3 × 250 mL", "74 C - 3 x 250 mL"),
        ("“Cook’s” best…", '"Cook\'s" best...'),
        ("two\nlines\tand\N{NO-BREAK SPACE}more ", "two lines and more"),
        ("soft\N{SOFT HYPHEN}ly \N{ZERO WIDTH SPACE}seen\x07", "softly seen"),
        ("Purée of crème", "Purée of crème"),
        ("\ud800lone", "lone"),
    ],
)
def test_signs_that_readers_garble_are_spelt_out(words: str, plain: str) -> None:
    assert plain_text(words) == plain


def test_a_label_says_its_things_in_order() -> None:
    assert qr_text("Barley & leek", LINES).splitlines() == [
        "Barley & leek",
        "RAW turkey: cook to 73.9 C",
        "Water 1 1/2 cups (355 mL), hold back 1 tbsp",
        "Rest 12 min, kettle",
        "Best by 2027-09-14",
        "Packed 2026-07-14, lot L12",
    ]


def test_a_long_title_gives_way_before_any_line() -> None:
    text = qr_text("Slow " * 160, LINES)
    assert size_bytes(text) <= QR_BYTES
    title, *lines = text.splitlines()
    assert title.startswith("Slow Slow")
    assert title.endswith("...")
    assert lines == [plain_text(line) for line in LINES]


def test_lines_are_left_out_whole_from_the_end() -> None:
    title, *lines = qr_text("T" * 50, [*LINES, "x" * 240, "y" * 240]).splitlines()
    assert len(title) > LEAST_TITLE_BYTES
    assert lines == [*(plain_text(line) for line in LINES), "x" * 240]


def test_a_first_line_longer_than_the_code_is_cut_not_lost() -> None:
    text = qr_text("Soup", ["RAW " + "careful " * 80, "Water 1 cup"])
    assert size_bytes(text) <= QR_BYTES
    assert text.startswith("Soup\nRAW careful")
    assert text.endswith("...")


def test_no_letter_is_halved() -> None:
    for most in range(3, 12):
        assert "\N{REPLACEMENT CHARACTER}" not in cut("ééééééé", most)
        assert size_bytes(cut("ééééééé", most)) <= most


def test_a_label_of_nothing_is_empty() -> None:
    assert qr_text("", []) == ""
    assert qr_text("", ["Water 1 cup"]) == "Water 1 cup"


def test_the_limit_is_the_encoders() -> None:
    full = segno.make_qr("a" * QR_BYTES, version=QR_VERSION, error=QR_LEVEL, boost_error=False)
    assert full.version == QR_VERSION
    with pytest.raises(segno.DataOverflowError):
        segno.make_qr("a" * (QR_BYTES + 1), version=QR_VERSION, error=QR_LEVEL)


@pytest.mark.parametrize(
    "title", ["Barley & leek supper", "Purée of crème", "Ячмень и лук", "Long " * 190, "鍋 " * 190]
)
def test_a_reader_finds_the_same_words(title: str) -> None:
    text = qr_text(title, LINES)
    found, version = decoded(text)
    assert found == text
    assert version <= QR_VERSION
