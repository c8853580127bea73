"""The bound demo is valid HTML: by the Nu HTML checker, by lxml, and by its own promises."""

from __future__ import annotations

import itertools
import json
import os
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

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("bound") / "site"
    findings = Findings()
    book = read_book(ROOT / "content_demo", findings)
    assert book is not None
    bind_book(reckoned(book, findings), out)
    return out


def test_the_nu_html_checker_finds_no_error(site: Path) -> None:
    jar = Path(os.environ.get("COOKBOOK_VNU", ROOT / "node_modules/vnu-jar/build/dist/vnu.jar"))
    if not jar.is_file() or not shutil.which("java"):
        reason = (
            "no Nu HTML checker here: npm install vnu-jar, and Java; or name it in COOKBOOK_VNU"
        )
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    pages = [str(path) for path in sorted(site.rglob("*.html"))]
    command = ["java", "-jar", str(jar), "--format", "json", "--exit-zero-always", *pages]
    ran = subprocess.run(command, capture_output=True, text=True, check=True)  # noqa: S603 - our own
    found = json.loads(ran.stderr or ran.stdout)["messages"]
    errors = [m for m in found if m["type"] == "error"]
    assert not errors, json.dumps(errors[:5], indent=1)


def test_lxml_finds_no_mismatch_and_no_double_id(site: Path) -> None:
    for path in site.rglob("*.html"):
        parser = etree.HTMLParser()
        etree.fromstring(path.read_bytes(), parser)
        # libxml2 knows HTML 4: the elements of HTML 5 are strangers to it, not faults
        faults = [e.message for e in parser.error_log if "invalid" not in e.message]
        assert not faults, (path.name, faults)


def test_headings_go_down_by_one_and_pictures_have_words(site: Path) -> None:
    for path in site.rglob("*.html"):
        soup = BeautifulSoup(path.read_text(encoding="utf-8"), "lxml")
        assert soup.html is not None
        assert soup.html["lang"] == "en"
        assert len(soup.find_all("h1")) == 1, path.name
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


def test_two_bindings_are_the_same_to_the_byte(site: Path, tmp_path: Path) -> None:
    findings = Findings()
    book = read_book(ROOT / "content_demo", findings)
    assert book is not None
    bind_book(reckoned(book, findings), tmp_path / "again")
    for path in site.rglob("*"):
        if path.is_file():
            twin = tmp_path / "again" / path.relative_to(site)
            assert path.read_bytes() == twin.read_bytes(), path.name
