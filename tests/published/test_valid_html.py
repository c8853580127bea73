"""The bound demo is valid HTML: by the Nu HTML checker, by lxml, and by its own promises."""

from __future__ import annotations

import itertools
import json
import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from lxml import etree

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book
from cookbook_build.publishing.carrying import IN_ONE_FILE

ROOT = Path(__file__).parents[2]


ADVICE = "Consider using the “h1” element as a top-level heading only"
POLICY = re.compile(r"(?:Inline style|Inline script|Resource) violates Content Security Policy")
BOOKS = ("content_demo", "tests/crowded_book")


def bound(book_folder: Path, out: Path) -> Path:
    findings = Findings()
    book = read_book(book_folder, findings)
    assert book is not None
    bind_book(reckoned(book, findings), out)
    return out


@pytest.fixture(scope="module", params=BOOKS)
def site(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return bound(ROOT / request.param, tmp_path_factory.mktemp("bound") / "site")


def checked(kind: str, files: list[Path]) -> list[str]:
    """Return what the Nu HTML checker finds in files of one kind."""
    jar = Path(os.environ.get("COOKBOOK_VNU") or ROOT / "node_modules/vnu-jar/build/dist/vnu.jar")
    if not jar.is_file() or not shutil.which("java"):
        reason = (
            "no Nu HTML checker here: npm install vnu-jar, and Java; or name it in COOKBOOK_VNU"
        )
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    assert files
    flags = ["--format", "json", "--exit-zero-always", f"--{kind}"]
    command = ["java", "-jar", str(jar), *flags, *map(str, files)]
    ran = subprocess.run(command, capture_output=True, text=True, check=True)  # noqa: S603 - our own
    found = json.loads(ran.stderr or ran.stdout)["messages"]
    return [
        f"{Path(m.get('url', '')).name}:{m.get('lastLine')}: {m['message']}"
        for m in found
        # what is left out: the remark that a Markdown break or rule is written `<br />`
        if m["type"] != "info" or m.get("subType") == "warning"
        # and the advice to have one h1: a book in one file has one a page, and shows one page
        if not (m.get("url", "").endswith(IN_ONE_FILE) and m["message"].startswith(ADVICE))
        # and what it takes a page's policy to forbid, as it knows neither digests nor where a page
        # stands: what a browser forbids is seen in tests/browser/test_policy.py
        if not POLICY.match(m["message"])
    ]


def test_the_nu_html_checker_finds_no_fault_in_a_page(site: Path) -> None:
    assert checked("html", sorted(site.rglob("*.html"))) == []


def test_the_nu_html_checker_finds_no_fault_in_a_style(site: Path) -> None:
    assert checked("css", sorted(site.rglob("*.css"))) == []


def test_the_nu_html_checker_finds_a_planted_fault(tmp_path: Path) -> None:
    page, style = tmp_path / "page.html", tmp_path / "style.css"
    page.write_text("<!DOCTYPE html><title>A</title><p id=a><p id=a>", encoding="utf-8")
    style.write_text("p { margin: 1 furlong }", encoding="utf-8")
    assert any("Duplicate ID" in fault for fault in checked("html", [page]))
    assert checked("css", [style])


def test_lxml_finds_no_mismatch_and_no_double_id(site: Path) -> None:
    for path in site.rglob("*.html"):
        assert faults_of(path) == [], path.name


def test_lxml_finds_a_planted_mismatch_and_a_double_id(tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    page.write_text("<html><body><p id='a'><b>x</i></p><p id='a'></p></body></html>", "utf-8")
    assert len(faults_of(page)) >= 2


def faults_of(path: Path) -> list[str]:
    """Return what libxml2 says of a page, save that it knows HTML 4 and no newer element."""
    parser = etree.HTMLParser()
    etree.fromstring(path.read_bytes(), parser)
    newer = re.compile(r"Tag \w+ invalid")
    return [entry.message for entry in parser.error_log if not newer.fullmatch(entry.message)]


def test_headings_go_down_by_one_and_pictures_have_words(site: Path) -> None:
    for path in site.rglob("*.html"):
        soup = BeautifulSoup(path.read_text(encoding="utf-8"), "lxml")
        assert soup.html is not None
        assert soup.html["lang"] == "en"
        pages = soup.select("section.page")  # of a book in one file, shown one at a time
        assert len(soup.find_all("h1")) == (len(pages) or 1), path.name
        assert all(len(page.find_all("h1")) == 1 for page in pages), path.name
        levels = [int(tag.name[1]) for tag in soup.find_all(["h1", "h2", "h3", "h4"])]
        steps = [after - before for before, after in itertools.pairwise(levels)]
        assert all(step <= 1 for step in steps), path.name
        assert all(image.get("alt") for image in soup.find_all("img")), path.name


def test_no_unit_breaks_from_its_number(site: Path) -> None:
    units = ("cup", "cups", "tbsp", "tsp", "mL", "g", "kg", "min", "h")
    for path in (site / "recipes").glob("*.html"):
        soup = BeautifulSoup(path.read_text(encoding="utf-8"), "lxml")
        for cell in soup.select(".pour dd, .together, .water td *, .amount, .grams"):
            words = cell.get_text().split(" ")
            assert not any(word in units for word in words), (path.name, cell.get_text())


def test_no_two_ticks_of_a_page_are_kept_under_one_name(site: Path) -> None:
    for path in site.rglob("*.html"):
        soup = BeautifulSoup(path.read_text(encoding="utf-8"), "lxml")
        for page in soup.select("section.page") or [soup]:
            names = [box["name"] for box in page.select("input[type=checkbox]")]
            assert len(names) == len(set(names)), path.name


@pytest.mark.parametrize("name", BOOKS)
def test_two_bindings_are_the_same_to_the_byte(name: str, tmp_path: Path) -> None:
    one, other = (bound(ROOT / name, tmp_path / at) for at in ("one", "other"))
    names = sorted(path.relative_to(one) for path in one.rglob("*") if path.is_file())
    assert names == sorted(path.relative_to(other) for path in other.rglob("*") if path.is_file())
    for file in names:
        assert (one / file).read_bytes() == (other / file).read_bytes(), file
