"""Labels on their paper: nothing overflows or is cut, and a camera reads the squares."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Any

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

SHEETS = {
    "A4, 2 by 5": "paper: A4",
    "A4, 3 by 8": (
        "paper: A4, columns: 3, rows: 8, width: 70 mm, height: 36 mm, top: 4.5 mm, left: 0.1 mm"
    ),
    "A4, 2 by 7": (
        "paper: A4, columns: 2, rows: 7, width: 99.1 mm, height: 38.1 mm, top: 15.1 mm,"
        " left: 4.7 mm, across: 101.6 mm, down: 38.1 mm"
    ),
    "Letter, 2 by 5": (
        "paper: Letter, width: 101.6 mm, height: 50.8 mm, top: 12.7 mm, left: 4 mm,"
        " across: 104.8 mm, down: 50.8 mm"
    ),
}
LARDER = """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
turkey mince: {food: ground turkey raw, dried: freeze, raw: true, weighs: 60 g per cup}
milk powder: {food: milk powder whole, dried: bought}
"""
LONG = """\
---
title: A supper of lentils and turkey mince with everything that the riverside garden gave us
serves: 1
ingredients: [1 cup lentils, 3 tbsp turkey mince, 2 tbsp milk powder]
components:
  - {name: A relish that has a rather long name too, ingredients: [3 tbsp lentils]}
---
"""
MENU = """\
title: Labels
people: 7
packed: 2026-06-12
meals:
  - {day: 1, meal: supper, recipe: long, method: stove}
  - {day: 2, meal: supper, recipe: long, method: microwave}
"""
OVERFLOWS = """() => [...document.querySelectorAll('.label')].flatMap(label => {
  const box = label.getBoundingClientRect()
  return [...label.querySelectorAll('p, svg')].filter(part => {
    const inner = part.getBoundingClientRect()
    return inner.bottom > box.bottom + 0.5 || inner.right > box.right + 0.5
  }).map(part => label.textContent.trim().slice(0, 30) + ': ' + part.textContent.trim())
})"""


def bound(folder: Path, labels: str) -> Path:
    (folder / "recipes").mkdir()
    (folder / "menus").mkdir()
    (folder / "book.yaml").write_text(f"title: Labels\nlabels: {{{labels}}}\n")
    (folder / "larder.yaml").write_text(LARDER)
    (folder / "recipes" / "long.md").write_text(LONG)
    (folder / "menus" / "labels.yaml").write_text(MENU)
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    assert not findings.errors, [f.cause for f in findings]
    bind_book(reckoned(book, findings), folder / "site")
    return folder / "site" / "lists" / "labels-labels.html"


@pytest.mark.parametrize("name", SHEETS)
def test_the_longest_title_fits_the_label_of_any_sheet(
    page: Page, tmp_path: Path, name: str
) -> None:
    page.goto(bound(tmp_path, SHEETS[name]).as_uri())
    page.emulate_media(media="print")
    assert page.locator(".label").count() == 4
    assert page.evaluate(OVERFLOWS) == []
    assert page.get_by_text("Raw turkey mince: cook to 74").count() > 0


def test_the_demos_labels_fit_and_stand_inside_the_paper(page: Page, site: Path) -> None:
    pypdf: Any = pytest.importorskip("pypdf", reason="pypdf is not installed")
    for path in sorted((site / "lists").glob("*-labels.html")):
        page.goto(path.as_uri())
        page.emulate_media(media="print")
        assert page.evaluate(OVERFLOWS) == [], path.name
        labels, sheets = page.locator(".label").count(), page.locator(".sheet").count()
        read = pypdf.PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))
        assert len(read.pages) == sheets == -(-labels // 10)
        width, height = (float(side) for side in read.pages[0].mediabox[2:])
        assert (width, height) == pytest.approx((595.3, 841.9), abs=1.0)  # ISO 216, A4


def test_a_camera_reads_every_square_of_the_demo(page: Page, site: Path) -> None:
    decoder: Any = pytest.importorskip("zxingcpp", reason="zxing-cpp is not installed")
    image: Any = pytest.importorskip("PIL.Image", reason="pillow is not installed")
    path = site / "lists" / "midsummer-paddle-labels.html"
    page.goto(path.as_uri())
    for label in page.locator(".label").all():
        shot = label.locator("svg").screenshot(scale="css")
        picture = image.open(io.BytesIO(shot)).convert("L")
        read = decoder.read_barcodes(picture.resize((picture.width * 3, picture.height * 3)))
        assert len(read) == 1
        words = read[0].text.split("\n")
        title = label.get_attribute("aria-label")
        assert title is not None
        assert words[0] == title
        assert any(line.startswith("Pour ") and "keep back" in line for line in words)
        assert any(line.startswith(("Rest ", "Simmer ", "Soak ")) for line in words)
        assert any(line.startswith("best by 20") for line in words)
