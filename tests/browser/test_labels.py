"""Labels on their paper: nothing overflows or is cut, and a camera reads the squares."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from typing import TYPE_CHECKING, Any

import pytest
import segno

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book
from tests.browser.conftest import missing

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
    "A4, 5 by 13, far too small": (
        "paper: A4, columns: 5, rows: 13, width: 38.1 mm, height: 21.2 mm"
    ),
    "A4, 2 by 2": "paper: A4, columns: 2, rows: 2, width: 99 mm, height: 139 mm",
    "Letter as it comes": "paper: Letter",
    "Letter, 2 by 5": (
        "paper: Letter, width: 101.6 mm, height: 50.8 mm, top: 12.7 mm, left: 4 mm,"
        " across: 104.8 mm, down: 50.8 mm"
    ),
}
ALL = (  # Regulation (EU) No 1169/2011, Annex II: all fourteen
    "celery, cereals containing gluten, crustaceans, eggs, fish, lupin, milk, molluscs, mustard, "
    "nuts, peanuts, sesame seeds, soybeans, sulphur dioxide and sulphites"
)
LARDER = f"""\
lentils: {{food: lentils cooked, dried: freeze, cooked first: true}}
turkey mince: {{food: ground turkey raw, dried: freeze, raw: true, weighs: 60 g per cup}}
trail mix:
  dried: bought
  weighs: 90 g per cup
  label: {{per: 100 g, energy: 400 kcal, protein: 9 g, fat: 9 g, carbohydrate: 60 g, moisture: 5 %, allergens: [{ALL}]}}
"""  # noqa: E501 - one line of YAML
TITLE = "A supper of lentils and turkey mince with everything that the riverside garden gave us"
LONG = f"""\
---
title: {TITLE}, and the hedge behind it as well, in June
serves: 1
ingredients: [1 cup lentils, 3 tbsp turkey mince, 2 tbsp trail mix]
components:
  - {{name: A relish that has a rather long name too, ingredients: [3 tbsp lentils]}}
---
"""
SHORT = "---\ntitle: Beetroot soup with apple and caraway\ningredients: [1 cup lentils]\n---\n"
MENU = """\
title: Labels
people: 7
packed: 2026-06-12
meals:
  - {day: 1, meal: supper, recipe: long, method: stove}
  - {day: 2, meal: supper, recipe: long, method: microwave}
  - {day: 3, meal: supper, recipe: short, method: kettle}
"""
KIT = "{pouches: [{name: small, width: 13 cm, height: 18 cm}], absorbers: [100 mL, 300 mL]}"
LABELS = 5 + 1 + 5 + 1 + 4
"""Seven servings of 237 to 310 mL each, in pouches that take some 450 mL; each relish in one."""
MODULE_MM = 0.35
DOTS_A_MM = 300 / 25.4
SMALLEST_TYPE = """() => Math.min(...[...document.querySelectorAll('.label p, .label strong')]
  .map(words => parseFloat(getComputedStyle(words).fontSize))) * 25.4 / 96"""
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
    (folder / "book.yaml").write_text(
        f"title: Labels\nallergens: eu\nkit: {KIT}\nlabels: {{{labels}}}\n"
    )
    (folder / "larder.yaml").write_text(LARDER)
    (folder / "recipes" / "long.md").write_text(LONG)
    (folder / "recipes" / "short.md").write_text(SHORT)
    (folder / "menus" / "labels.yaml").write_text(MENU)
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    assert not findings.errors, [f.cause for f in findings]
    bind_book(reckoned(book, findings), folder / "site")
    return folder / "site" / "lists" / "labels-labels.html"


@pytest.fixture(scope="module", params=SHEETS)
def labelled(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[str, str]:
    """Return a sheet's name, and the address of a page of labels on it."""
    name = request.param
    return name, bound(tmp_path_factory.mktemp("labels"), SHEETS[name]).as_uri()


def test_the_longest_title_and_all_allergens_fit_the_label_of_any_sheet(
    page: Page, labelled: tuple[str, str]
) -> None:
    name, address = labelled
    page.goto(address)
    page.emulate_media(media="print")
    assert len(TITLE) + 48 > 120
    assert page.locator(".label").count() == LABELS
    assert page.evaluate(OVERFLOWS) == []
    for label in page.locator(".label").all():
        said = label.inner_text().replace("\N{NO-BREAK SPACE}", " ")
        assert "in June" in said or "caraway" in said
        assert re.search(r"\d g dry", said)
        assert re.search(r"Pour .+ mL\).+keep back", said)
        assert "packed 2026-06-12; best by 20" in said
        assert "lot labels/" in said
    raw = page.locator(".label", has_text="Raw turkey mince: cook to 74")
    assert raw.count() == 10
    assert all(f"Contains {ALL}." in label.inner_text() for label in raw.all())
    assert all("until 74" in label.inner_text() for label in raw.all())
    least_mm = page.evaluate(SMALLEST_TYPE)
    assert least_mm >= 1.9  # 5.5 points
    shown = page.locator(".heed").first.text_content() or ""
    assert ("cut them out" in shown) is any(
        small in name for small in ("too small", "3 by 8", "2 by 7")
    )


def test_a_camera_reads_every_square_as_it_is_printed(
    page: Page, tmp_path: Path, labelled: tuple[str, str]
) -> None:
    decoder: Any = pytest.importorskip("zxingcpp", reason="zxing-cpp is not installed")
    image: Any = pytest.importorskip("PIL.Image", reason="pillow is not installed")
    if not shutil.which("pdftoppm"):
        missing("no pdftoppm here: apt-get install poppler-utils")
    page.goto(labelled[1])
    titles = {label.get_attribute("aria-label") for label in page.locator(".label").all()}
    (tmp_path / "labels.pdf").write_bytes(page.pdf(prefer_css_page_size=True))
    subprocess.run(
        ["pdftoppm", "-r", "300", "-gray", "-png", "labels.pdf", "sheet"],  # noqa: S607 - as found
        cwd=tmp_path, check=True,
    )  # fmt: skip
    read = [
        code
        for picture in sorted(tmp_path.glob("sheet-*.png"))
        for code in decoder.read_barcodes(image.open(picture))
    ]
    assert len({code.text for code in read}) == LABELS
    assert len(titles) == 3
    for code in read:
        corners = code.position
        side_mm = (corners.top_right.x - corners.top_left.x) / DOTS_A_MM
        modules = segno.make_qr(code.text, error="M", boost_error=False).symbol_size(border=0)[0]
        assert side_mm / modules >= MODULE_MM - 0.01


def test_in_the_red_look_labels_are_as_dim_as_the_page_and_on_paper_white(
    page: Page, site: Path
) -> None:
    decoder: Any = pytest.importorskip("zxingcpp", reason="zxing-cpp is not installed")
    image: Any = pytest.importorskip("PIL.Image", reason="pillow is not installed")
    page.goto((site / "lists" / "midsummer-paddle-labels.html").as_uri())
    page.locator(".segment:has(#look-red)").click()
    label = page.locator(".label").first
    shot = image.open(io.BytesIO(label.screenshot(scale="css"))).convert("RGB")
    reds, greens, blues = (list(band.get_flattened_data()) for band in shot.split())
    assert max(greens) == max(blues) == 0
    assert sum(reds) / len(reds) < 64  # a quarter of full red; it was all of it
    square = label.locator("svg").screenshot(scale="css")
    red = image.open(io.BytesIO(square)).convert("RGB").split()[0]
    assert len(decoder.read_barcodes(red.resize((red.width * 3, red.height * 3)))) == 1
    page.emulate_media(media="print")
    colours = "l => [getComputedStyle(l).backgroundColor, getComputedStyle(l).color]"
    assert label.evaluate(colours) == ["rgb(255, 255, 255)", "rgb(0, 0, 0)"]
    fill = "l => getComputedStyle(l.querySelector('svg path')).fill"
    assert label.evaluate(fill) == "rgb(255, 255, 255)"


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
        assert title.startswith(words[0])
        assert any(line.startswith("Pour ") and "keep back" in line for line in words)
        assert any(re.search(r"\b(rest|simmer|soak) \d", line) for line in words)
        assert any(line.startswith("best by 20") for line in words)
        assert any(re.search(r"servings?, \d+ g dry", line) for line in words)
