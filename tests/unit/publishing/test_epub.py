"""An e-book's container, its names and what it says of itself, and tables put into words."""

from __future__ import annotations

import io
import re
import zipfile
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest
from lxml import etree

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import Manuscript, read_book
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.publishing.epub import epub_volumes, packed
from cookbook_build.publishing.epub_container import write_container
from cookbook_build.publishing.epub_package import identifier, moment
from cookbook_build.publishing.epub_volumes import volume_names
from cookbook_build.publishing.epub_words import (
    narrow,
    said_by_altitude,
    said_by_size,
    serving_words,
)
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.pictures import made_pictures
from cookbook_build.publishing.tables import SizeGroup, SizeTable, size_row
from cookbook_build.publishing.theme import environment, theme_folder
from cookbook_build.publishing.wording import file_size

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.publishing.epub_pages import EpubPages

NOON = datetime(2026, 6, 20, 12, 0, 0, tzinfo=UTC)
RECIPE = "---\ntitle: Bowl\n{}ingredients:\n  - 1 cup oats\n---\n{}\n"
SMALL = {
    "book.yaml": "title: A book\nauthor: A. Cook\n",
    "larder.yaml": "oats: {food: oats, dried: bought}\nsalt: {food: salt, dried: bought}\n",
    "recipes/a/bowl.md": RECIPE.format("", "Pour {water}."),
}


def book_of(folder: Path, **changed: str) -> Manuscript:
    """Return a small book with some of its files written anew; `__` stands for `/`."""
    files = SMALL | {name.replace("__", "/"): text for name, text in changed.items()}
    for name, text in files.items():
        path = folder / (name if "." in name else f"{name}.yaml")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    book = read_book(folder, Findings())
    assert book is not None
    return book


def reckoning_of(book: Manuscript) -> Reckoning:
    findings = Findings()
    found = reckoned(book, findings)
    assert not findings.errors
    return found


def volumes_of(book: Manuscript) -> list[EpubPages]:
    pages = Pages(reckoning_of(book), environment(theme_folder()), made_pictures(book, Findings()))
    return list(epub_volumes(pages))


def pages_of(volume: EpubPages) -> dict[str, str]:
    """Return the texts of an e-book's package."""
    return {
        name.removeprefix("EPUB/"): (data if isinstance(data, bytes) else data.whole).decode()
        for name, data in packed(volume, environment(theme_folder()))
        if not name.startswith("EPUB/pictures/")
    }


def container(folder: Path, entries: dict[str, bytes], when: datetime) -> bytes:
    """Return the container of some entries."""
    write_container(folder / "a.epub", entries.items(), when)
    return (folder / "a.epub").read_bytes()


def test_the_container_begins_with_a_stored_mimetype_and_dates_all_alike(tmp_path: Path) -> None:
    entries = {"a.txt": b"x" * 1000, "b.txt": b""}
    data = container(tmp_path, entries, NOON)
    with zipfile.ZipFile(io.BytesIO(data)) as held:
        first, *others = held.infolist()
        assert (first.filename, first.compress_type) == ("mimetype", zipfile.ZIP_STORED)
        assert held.read(first) == b"application/epub+zip"
        assert {entry.compress_type for entry in others} == {zipfile.ZIP_DEFLATED}
        assert {entry.date_time for entry in held.infolist()} == {(2026, 6, 20, 12, 0, 0)}
        assert {name: held.read(name) for name in entries} == entries
    assert data == container(tmp_path, entries, NOON)


def test_what_is_deflated_before_lies_in_it_as_the_zip_itself_would_have_it(tmp_path: Path) -> None:
    entries = {"a.txt": b"river " * 900, "b.txt": b"", "c.bin": bytes(range(256)) * 40}
    with zipfile.ZipFile(tmp_path / "z.zip", "w", zipfile.ZIP_DEFLATED, compresslevel=9) as plain:
        for name, data in entries.items():
            plain.writestr(name, data)
    container(tmp_path, entries, NOON)
    with zipfile.ZipFile(tmp_path / "z.zip") as one, zipfile.ZipFile(tmp_path / "a.epub") as two:
        assert two.testzip() is None
        for name in entries:
            ours, theirs = two.getinfo(name), one.getinfo(name)
            assert (ours.CRC, ours.compress_size) == (theirs.CRC, theirs.compress_size)


@pytest.mark.parametrize(("year", "kept"), [(1970, 1980), (2026, 2026), (2500, 2107)])
def test_a_year_that_a_zip_cannot_name_is_its_nearest(tmp_path: Path, year: int, kept: int) -> None:
    data = container(tmp_path, {}, NOON.replace(year=year))
    with zipfile.ZipFile(io.BytesIO(data)) as held:
        assert held.infolist()[0].date_time[0] == kept


def test_the_moment_is_the_newest_day_of_the_text_or_what_the_caller_says(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    undated = book_of(tmp_path / "undated")
    assert moment(undated) == moment(undated)
    dated = book_of(
        tmp_path / "dated", **{"recipes__a__bowl.md": RECIPE.format("date: 2026-03-02\n", "")}
    )
    assert moment(dated) == datetime(2026, 3, 2, tzinfo=UTC)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1767225600")
    assert moment(dated) == datetime(2026, 1, 1, tzinfo=UTC)
    package = pages_of(volumes_of(dated)[0])["package.opf"]
    assert '<meta property="dcterms:modified">2026-01-01T00:00:00Z</meta>' in package


def test_an_identifier_stays_and_is_each_books_own(tmp_path: Path) -> None:
    first = book_of(tmp_path / "one")
    again = book_of(
        tmp_path / "two", book="title: A book\nauthor: A. Cook\naltitude: 310 m\nsubtitle: New\n"
    )
    other = book_of(tmp_path / "three", book="title: A book\nauthor: B. Cook\n")
    placed = book_of(tmp_path / "four", book="title: A book\naddress: https://example.org/a\n")
    moved = book_of(tmp_path / "five", book="title: Renamed\naddress: https://example.org/a\n")
    assert identifier(first, None) == identifier(again, None)
    assert identifier(placed, None) == identifier(moved, None)
    names = [identifier(b, s) for b in (first, other, placed) for s in (None, "A series")]
    assert len(set(names)) == len(names)
    urn = r"urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}"
    assert all(re.fullmatch(urn, name) for name in names)  # RFC 9562: version 5


def test_a_series_named_like_the_book_gets_a_file_of_its_own(tmp_path: Path) -> None:
    book = book_of(
        tmp_path,
        book="title: A book\nseries: {A book: {about: x}, Empty: {about: y}}\n",
        **{"recipes__a__bowl.md": RECIPE.format("series: A book\n", "")},
    )
    names = volume_names(reckoning_of(book))
    assert [name.file for name in names] == ["a-book.epub", "a-book-2.epub"]


def test_a_long_title_is_cut_at_a_word(tmp_path: Path) -> None:
    book = book_of(tmp_path, book=f"title: {'larder and leeks ' * 9}\n")
    (name,) = volume_names(reckoning_of(book))
    assert name.file == "larder-and-leeks-larder-and-leeks-larder-and-leeks-larder.epub"


def test_a_series_leaves_out_what_is_not_its_own_and_keeps_the_words_of_links(
    tmp_path: Path,
) -> None:
    text = "See [the porridge](porridge.md), [us](about.md), [all the water](#water), [x](#no)."
    book = book_of(
        tmp_path,
        book="title: A book\nseries: {Bowls: {about: Bowls.}}\n",
        **{
            "recipes__a__bowl.md": RECIPE.format("series: Bowls\n", text),
            "recipes__a__porridge.md": RECIPE.format("", "").replace("Bowl", "Porridge"),
            "pages__about.md": "---\ntitle: About us\n---\nA river.\n",
        },
    )
    whole, series = (pages_of(volume) for volume in volumes_of(book))
    assert {"recipe-porridge.xhtml", "page-about.xhtml"} <= set(whole)
    assert not {"recipe-porridge.xhtml", "page-about.xhtml"} & set(series)
    assert '<a href="recipe-porridge.xhtml">the porridge</a>' in whole["recipe-bowl.xhtml"]
    here = series["recipe-bowl.xhtml"]
    assert 'See the porridge, us, <a href="#water">all the water</a>, x.' in here
    assert "store-salt" in whole["stores.xhtml"]
    assert "store-salt" not in series["stores.xhtml"], "which no recipe of the series takes"
    assert "About us" not in series["contents.xhtml"]
    assert (
        '<meta property="belongs-to-collection" id="collection">A book</meta>'
        in (series["package.opf"])
    )


def test_every_page_is_sound_xml_whatever_an_author_types(tmp_path: Path) -> None:
    book = book_of(
        tmp_path,
        book='title: "\\"A\\a & <b> ]]> \\uFFFF"\nauthor: "<script>"\nsubtitle: "&nbsp;"\n',
        **{"recipes__a__bowl.md": RECIPE.format("", "a <b> & &nbsp; [x](https://[) ![y](z.png)")
           .replace("![y](z.png)", "<https://example.org/?a=1&b=2>\n\n---\n\nend  \nhere")},
    )  # fmt: skip
    pages = pages_of(volumes_of(book)[0])
    for name, text in pages.items():
        if not name.endswith(".css"):
            etree.fromstring(text.encode())
    assert "<script>" not in pages["title.xhtml"]
    assert "A\N{REPLACEMENT CHARACTER} &amp; &lt;b&gt;" in pages["title.xhtml"]
    assert 'href="https://["' not in pages["recipe-bowl.xhtml"]


def test_a_book_without_a_cover_picture_has_its_title_for_one(tmp_path: Path) -> None:
    pages = pages_of(volumes_of(book_of(tmp_path))[0])
    assert "cover.xhtml" not in pages
    assert '<a epub:type="cover" href="title.xhtml">Cover</a>' in pages["contents.xhtml"]
    assert "cover-image" not in pages["package.opf"]
    assert 'schema:accessMode">visual' in pages["package.opf"]  # the drawings of its mixes


def test_a_picture_without_words_is_not_promised_as_readable_by_ear(tmp_path: Path) -> None:
    svg = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"/>'
    for name, words, sufficient in (
        ("worded", "cover text: A kettle.\n", "textual"),
        ("bare", "", "textual,visual"),
    ):
        (tmp_path / name / "images").mkdir(parents=True)
        (tmp_path / name / "images" / "a b.svg").write_text(svg, encoding="utf-8")
        book = book_of(tmp_path / name, book=f"title: A book\ncover: a b.svg\n{words}")
        package = pages_of(volumes_of(book)[0])["package.opf"]
        assert f'accessModeSufficient">{sufficient}<' in package
        assert ('accessibilityFeature">alternativeText<' in package) == bool(words)
        assert 'href="pictures/a-b.svg" media-type="image/svg+xml"' in package
        assert 'properties="cover-image"' in package


def test_a_table_of_several_figures_is_said_size_by_size() -> None:
    rows = (
        size_row("Jars", {1: ("1, full",), 2: ("2, full",)}),
        size_row("Eat within", {1: ("2 h", "1 h"), 2: ("3 h", "2 h")}),
        size_row("Eat within", {1: ("4 h", "3 h"), 2: ("5 h", "4 h")}, "without leeks"),
    )
    table = SizeTable("The jar", "", "", ("Warmed", "Not warmed"), (SizeGroup("", rows),))
    (group,) = said_by_size(table)
    assert [said.size for said in group.said] == ["1 serving", "2 servings"]
    assert group.said[0].lines == (
        "Jars: 1, full.",
        "Warmed: eat within 2 h; without leeks: eat within 4 h.",
        "Not warmed: eat within 1 h; without leeks: eat within 3 h.",
    )


def test_a_table_by_altitude_is_said_row_by_row_with_its_components() -> None:
    heads = ("Pour first", "+ keep back", "together", "To the boil", "Simmer", "Fuel")
    bowl = ("1 cup", "+ 2 tsp", "247 mL", "3 min", "9 min", "7 g")
    rows = (
        size_row("0 m", {1: ("together", "", "282 mL", "4 min", "", "9 g")}, "100 °C"),
        size_row("Bowl", {1: bowl}),
        size_row("Relish", {1: ("2 tbsp", "+ 1 tsp", "35 mL", "1 min", "5 min", "2 g")}),
    )
    several = SizeTable("Stove", "Altitude", "water boils at", heads, (SizeGroup("", rows),))
    (place,) = said_by_altitude(several, "stove")
    assert (place.name, place.note) == ("0 m", "Water boils at 100 °C.")
    assert place.said[0].lines == (
        "Together: 282 mL, to the boil 4 min, fuel 9 g.",
        (
            "Bowl: pour first 1 cup, keep back 2 tsp, together 247 mL, to the boil 3 min, "
            "simmer 9 min, fuel 7 g."
        ),
        (
            "Relish: pour first 2 tbsp, keep back 1 tsp, together 35 mL, to the boil 1 min, "
            "simmer 5 min, fuel 2 g."
        ),
    )
    alone = tuple(size_row(f"{n} m", {1: bowl}, "9") for n in (0, 1000))
    places = said_by_altitude(
        SizeTable("Kettle", "", "boils at", heads, (SizeGroup("", alone),)), "kettle"
    )
    assert [place.name for place in places] == ["0 m", "1000 m"]
    (line,) = places[0].said[0].lines
    assert line == (
        "Pour first 1 cup, keep back 2 tsp, together 247 mL, to the boil 3 min, rest 9 min, "
        "fuel 7 g."
    )


def test_a_table_of_single_figures_has_its_sizes_as_rows() -> None:
    rows = (
        size_row("Dry mix", {1: ("9 g",), 2: ("18 g",)}),
        size_row("Goes into", {2: ("a pouch",)}, "small"),
    )
    (table,) = narrow(SizeTable("Pack", "", "", (), (SizeGroup("Bowl", rows),)))
    assert (table.name, table.heads) == ("Bowl", ("Dry mix", "Goes into, small"))
    assert [(row.size, row.figures) for row in table.rows] == [
        (1, ("9 g", "–")),
        (2, ("18 g", "a pouch")),
    ]


@pytest.mark.parametrize(
    ("sizes", "words"),
    [([1], "1 serving"), ([4], "4 servings"), ([1, 2], "1 and 2 servings"),
     ([2, 3, 8], "2, 3 and 8 servings")],
)  # fmt: skip
def test_serving_sizes_in_words(sizes: list[int], words: str) -> None:
    assert serving_words(sizes) == words


@pytest.mark.parametrize(
    ("size_bytes", "words"),
    [(1, "1 kB"), (1000, "1 kB"), (411_001, "412 kB"), (999_001, "1.0 MB"), (1_300_001, "1.4 MB")],
)
def test_a_file_is_at_most_as_large_as_it_is_said_to_be(size_bytes: int, words: str) -> None:
    assert file_size(size_bytes) == words.replace(" ", "\N{NO-BREAK SPACE}")
