"""A book in one file holds every page of the folder, with the same words, and reaches nothing."""

from __future__ import annotations

import re
from copy import deepcopy
from pathlib import Path
from typing import Final
from urllib.parse import unquote

import pytest
from lxml import html

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing import onefile
from cookbook_build.publishing.binding import Bound, bind_book
from cookbook_build.publishing.carrying import (
    IN_ONE_FILE,
    ONE_FILE,
    Carried,
    check_sizes,
    is_carried,
)
from cookbook_build.publishing.inlining import Inliner, anchor_of

ROOT: Final = Path(__file__).parents[3]


class Site:
    """A bound book: its folder, and its one files as they are read."""

    def __init__(self, book: str, folder: Path) -> None:
        findings = Findings()
        read = read_book(ROOT / book, findings)
        assert read is not None
        self.folder = folder
        self.bound: Bound = bind_book(reckoned(read, findings), folder, findings=findings)
        assert not list(findings)
        self.files = {
            path.name: html.document_fromstring(path.read_text(encoding="utf-8"))
            for path in sorted(folder.glob(f"*{IN_ONE_FILE}"))
        }
        self.whole = next(file.href for file in self.bound.carried if IN_ONE_FILE in file.href)

    @property
    def names(self) -> list[str]:
        """The pages of the folder, save what has a paper of its own: labels and pocket cards."""
        found = (path.relative_to(self.folder).as_posix() for path in self.folder.rglob("*.html"))
        own_paper = ("-labels.html", "cards.html")
        return sorted(n for n in found if not (n.endswith(own_paper) or is_carried(n)))

    def page(self, name: str) -> html.HtmlElement:
        """Return the content of a page of the folder."""
        text = (self.folder / name).read_text(encoding="utf-8")
        return html.document_fromstring(text).find(".//main")


@pytest.fixture(scope="module", params=["content_demo", "tests/crowded_book"])
def site(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Site:
    """Return a bound book."""
    return Site(request.param, tmp_path_factory.mktemp("bound") / "site")


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Site:
    """Return the bound demo."""
    return Site("content_demo", tmp_path_factory.mktemp("demo") / "site")


ASIDE: Final = (
    ".//*[@class='numbered' or contains(@class, 'carried')] | .//i[@class='then']"
    " | .//p[a[contains(@href, '-labels.html')]] | .//li[.//a[contains(@href, 'cards.html')]]"
)
"""What only the folder or only the one file has."""


def words(part: html.HtmlElement) -> str:
    """Return the words of a page, without what only the folder or only the one file has."""
    copied = deepcopy(part)
    for unwanted in copied.xpath(ASIDE):
        unwanted.drop_tree()
    return "".join("".join(copied.itertext()).split())


def test_every_page_of_the_folder_is_in_the_whole_book_word_for_word(site: Site) -> None:
    held = site.files[site.whole]
    pages = {page.get("id"): page for page in held.xpath("//section[@data-title]")}
    assert sorted(pages) == sorted(map(anchor_of, site.names))
    for name in site.names:
        ours, folder = pages[anchor_of(name)], site.page(name)
        if name == "index.html":  # whose last part is in the order of the sheets
            entries = ".//li[@class='entry'][not(.//a[contains(@href, 'cards.html')])]"
            told = [sorted(map(words, main.xpath(entries))) for main in (ours, folder)]
            assert told[0] == told[1]
            assert sorted(words(ours)) == sorted(words(folder))
        else:
            assert words(ours) == words(folder), name


def test_every_figure_of_every_recipe_stands_in_its_place(demo: Site) -> None:
    held = demo.files[demo.whole]
    count = 0
    for name in (n for n in demo.names if n.startswith("recipes/")):
        here = held.get_element_by_id(anchor_of(name))
        there = demo.page(name)
        for path in (".//td", ".//dd", ".//span[@data-on]"):
            cells, of = there.xpath(path), here.xpath(path)
            for cell, other in zip(cells, of, strict=True):
                assert words(other) == words(cell), name
                assert dict(other.attrib) == dict(cell.attrib), name
            count += len(of)
    assert count > 5_000


def test_no_name_stands_twice_and_each_that_is_used_is_there(site: Site) -> None:
    for file, held in site.files.items():
        names = held.xpath("//@id")
        assert len(names) == len(set(names)), file
        for key in ("for", "aria-labelledby", "aria-describedby", "aria-controls"):
            for value in held.xpath(f"//@{key}"):
                assert set(value.split()) <= set(names), (file, value)


def test_every_link_leads_within_the_file_or_was_the_author_s(site: Site) -> None:
    for file, held in site.files.items():
        names = set(held.xpath("//@id"))
        links = [str(href) for href in held.xpath("//a/@href")]
        assert len(links) > 50
        for href in links:
            within = href.startswith("#") and unquote(href[1:]) in names
            assert within or re.match(r"(mailto:|https?://)", href), (file, href)


def test_nothing_outside_the_file_is_referred_to(site: Site) -> None:
    for file, held in site.files.items():
        assert not held.xpath("//link | //source | //iframe | //object | //embed | //base"), file
        assert not held.xpath("//meta[@property]"), file
        assert not held.xpath("//@srcset"), file
        assert not held.xpath("//script[@src]"), file
        sources = held.xpath("//@src")
        assert all(source.startswith("data:image/") for source in sources), file
        styles = " ".join(style.text for style in held.iter("style"))
        assert "@import" not in styles
        for address in re.findall(r"url\(([^)]*)\)", styles + " ".join(held.xpath("//@*"))):
            assert address.strip("'\" ").startswith(("#", "data:")), (file, address)


def test_every_picture_of_the_folder_is_inside(demo: Site) -> None:
    held = demo.files[demo.whole]
    shown = sum(len(demo.page(name).xpath(".//img")) for name in demo.names)
    assert len(held.xpath("//img")) == shown > 20


def test_styles_and_scripts_stand_there_once(site: Site) -> None:
    for file, held in site.files.items():
        assert len(list(held.iter("style"))) == 1, file
        assert len(list(held.iter("script"))) == 1, file


def test_boxes_of_one_name_on_two_pages_are_kept_apart(site: Site) -> None:
    held = site.files[site.whole]
    keys = [
        (box.xpath("string(ancestor::section[@data-title]/@data-title)"), box.get("name"))
        for box in held.xpath("//input[@type='checkbox']")
    ]
    assert len(keys) == len(set(keys)) > 0
    of_the_folder = [
        (html.parse(site.folder / name).findtext(".//title"), box.get("name"))
        for name in site.names
        for box in site.page(name).xpath(".//input[@type='checkbox']")
    ]
    assert sorted(keys) == sorted(of_the_folder), "a tick has one name in both editions"


def test_radio_buttons_of_one_name_stand_in_a_form_of_their_own(site: Site) -> None:
    held = site.files[site.whole]
    forms = held.xpath("//form[.//input[@type='radio']]")
    assert len(held.xpath("//input[@type='radio']")) == sum(
        len(form.xpath(".//input[@type='radio']")) for form in forms
    )
    for form in forms:
        chosen = [box.get("name") for box in form.xpath(".//input[@checked]")]
        named = {box.get("name") for box in form.xpath(".//input[@type='radio']")}
        assert sorted(chosen) == sorted(named)


def test_a_series_holds_its_recipes_and_what_they_are_made_of(demo: Site) -> None:
    held = demo.files[f"suppers-on-a-flat-stone{IN_ONE_FILE}"]
    pages = {page.get("id") for page in held.xpath("//section[@data-title]")}
    meals = {name for name in pages if name.startswith("p-recipes-")}
    assert "p-recipes-barley-and-leek-supper" in meals
    assert "p-recipes-beetroot-soup" not in meals
    assert "p-recipes-orchard-sauce" in meals, "a base that a recipe of it is made with"
    assert {"p-index", "p-larder", "p-cautions", "p-larder-pearl-barley"} <= pages
    assert not {name for name in pages if name.startswith(("p-lists", "p-learned", "p-pages"))}
    assert "p-larder-salt" in pages
    assert held.xpath("string(//section[@id='p-index']//h1)") == "Suppers on a flat stone"
    listed = set(held.xpath("//section[@id='p-index']//a/@href"))
    assert {f"#{name}" for name in meals} <= listed


def test_the_stores_of_a_series_name_its_own_meals_and_no_others(demo: Site) -> None:
    for name, page in demo.files.items():
        if name == demo.whole:
            continue
        pages = {f"#{one}" for one in page.xpath("//section[@data-title]/@id")}
        uses = page.xpath("//ul[contains(@class, 'uses')]/li/span[@class='name']")
        assert uses
        for use in uses:
            assert use.find("a") is not None, use.text_content()
            assert use.find("a").get("href") in pages


def test_recipes_are_numbered_alike_in_the_contents_and_at_their_head(demo: Site) -> None:
    held = demo.files[demo.whole]
    entries = held.xpath("//li[@class='entry'][span[@class='numbered']]")
    numbers = [int(entry.xpath("string(span[@class='numbered'])")) for entry in entries]
    assert numbers == list(range(1, 20))
    for number, entry in zip(numbers, entries, strict=True):
        page = held.get_element_by_id(entry.xpath("string(.//a/@href)").removeprefix("#"))
        assert page.xpath("string(.//h1/span[@class='numbered'])") == str(number)


def test_the_cover_offers_each_file_with_its_size(demo: Site) -> None:
    page = demo.page("index.html")
    offered = {
        line.xpath("string(.//a/@href)"): line.xpath("string(span[@class='cup'])")
        for line in page.xpath(".//section[contains(@class, 'carried')]//li")
    }
    assert set(offered) == {file.href for file in demo.bound.carried}
    assert len(offered) == 8
    for name, size in offered.items():
        count, unit = size.split("\N{NO-BREAK SPACE}")
        step = {"kB": 1000, "MB": 100_000}[unit]
        rounded_up = float(count) * {"kB": 1e3, "MB": 1e6}[unit]
        assert 0 <= rounded_up - (demo.folder / name).stat().st_size < step


def test_the_terminal_says_each_file_and_its_size(demo: Site) -> None:
    lines = demo.bound.summary()
    for file in demo.bound.carried:
        assert any(file.href in line and line.endswith(file.size) for line in lines)


def test_the_worker_leaves_them_to_whoever_takes_them_along(demo: Site) -> None:
    worker = (demo.folder / "worker.js").read_text(encoding="utf-8")
    assert "recipes/barley-and-leek-supper.html" in worker
    assert IN_ONE_FILE not in worker
    assert not is_carried(f"recipes/supper{IN_ONE_FILE}"), "a recipe may be called that"


def test_the_feed_and_the_head_for_the_web_stay_in_the_folder(tmp_path: Path) -> None:
    text = "title: Oats\naddress: https://example.org/oats\ncontact: me@example.org\n"
    write_book(tmp_path / "book", text)
    out = bound(tmp_path)[0]
    (whole,) = out.glob(f"*{IN_ONE_FILE}")
    assert "og:url" in (out / "index.html").read_text(encoding="utf-8")
    held = whole.read_text(encoding="utf-8")
    assert "og:" not in held
    assert "feed.xml" not in held
    assert "ld+json" not in held


def write_book(folder: Path, book: str, image: str = "") -> None:
    """Write a small book, with a picture if there is one."""
    files = {
        "book.yaml": book,
        "larder.yaml": "oats: {food: oats, dried: bought}\n",
        "recipes/bowl.md": "---\ntitle: Bowl\ndate: 2026-03-02\ningredients: [1 cup oats]\n"
        + ("picture: one.svg\npicture text: One.\n" if image else "")
        + "---\nPour {water}.\n",
        "images/one.svg": image,
    }
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")


def bound(folder: Path) -> tuple[Path, Findings]:
    """Bind the book of a folder."""
    findings = Findings()
    book = read_book(folder / "book", findings)
    assert book is not None
    bind_book(reckoned(book, findings), folder / "site", findings=findings)
    return folder / "site", findings


def drawing(kilobytes: int) -> str:
    """Return a drawing of some size."""
    lines = "".join(f'<path d="M{at} 0V9"/>' for at in range(10_000, 10_000 + 48 * kilobytes))
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3">{lines}</svg>'


def test_from_a_number_of_meals_on_their_pages_lie_folded(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """HTML, 4.12.2: what stands in `noscript` is text to a browser that runs scripts."""
    write_book(tmp_path / "book", "title: Oats\n")
    (whole,) = bound(tmp_path)[0].glob(f"*{IN_ONE_FILE}")
    plain = html.document_fromstring(whole.read_text(encoding="utf-8"))
    assert not plain.xpath("//noscript | //*[@class='blocked']")
    monkeypatch.setattr(onefile, "FOLDED_FROM", 1)
    (whole,) = bound(tmp_path)[0].glob(f"*{IN_ONE_FILE}")
    folded = html.document_fromstring(whole.read_text(encoding="utf-8"))
    (fold,) = folded.xpath("//noscript")
    assert fold.getparent().get("id") == "p-recipes-bowl"
    here, there = (
        folded.xpath("//*[@id='p-recipes-bowl']"),
        plain.xpath("//*[@id='p-recipes-bowl']"),
    )
    assert words(here[0]) == words(there[0])
    assert len(folded.xpath("//*[@class='blocked']")) == 1


def test_a_file_larger_than_the_author_wants_one_is_a_warning_at_the_key(tmp_path: Path) -> None:
    write_book(tmp_path / "book", "title: Oats\nlargest file: 400 kB\n", drawing(400))
    (finding,) = bound(tmp_path)[1]
    assert (finding.severity, finding.place.path) == ("warning", "book.yaml")
    assert (finding.place.line, finding.place.column) == (2, 1)
    assert f"oats{IN_ONE_FILE}" in finding.cause
    assert "more than the 400 kB" in finding.cause
    assert "fewer or lighter pictures" in finding.mend
    (size,) = re.findall(r"largest file: (\d\d)0\N{NO-BREAK SPACE}kB", finding.mend)
    held = (tmp_path / "site" / f"oats{IN_ONE_FILE}").stat().st_size
    assert 0 <= 10_000 * int(size) - held < 10_000


def test_a_file_within_the_limit_is_no_finding(tmp_path: Path) -> None:
    write_book(tmp_path / "book", "title: Oats\nlargest file: 2 MB\n", drawing(400))
    assert not list(bound(tmp_path)[1])


def test_without_the_key_twenty_megabytes_are_the_limit_and_the_book_is_the_place(
    tmp_path: Path,
) -> None:
    write_book(tmp_path / "book", "title: Oats\n")
    findings = Findings()
    book = read_book(tmp_path / "book", findings)
    assert book is not None
    whole, series = f"oats{IN_ONE_FILE}", f"suppers{IN_ONE_FILE}"
    files = [Carried("Oats", whole, 20_000_001), Carried("Suppers", series, 20_000_000)]
    check_sizes({ONE_FILE: files}, book, findings)
    (finding,) = findings
    assert finding.place.path == "book.yaml"
    assert whole in finding.cause
    assert "more than the 20.0\N{NO-BREAK SPACE}MB" in finding.cause
    assert "the files of its series instead" in finding.mend
    assert "largest file: 21.0\N{NO-BREAK SPACE}MB" in finding.mend


def test_what_the_file_does_not_hold_leaves_its_words() -> None:
    inliner = Inliner(frozenset({"recipes/a.html", "larder.html"}), {}, {})
    page = """<title>A · Book</title><main><article><h1>A</h1>
<p>See <a href="b.html">the <em>other</em></a>, <a href="../larder.html#top">larder</a>,
<a href="#here">below</a>, <a href="https://example.org/x">the web</a>.</p>
<p class="screen"><a href="a-labels.html">Labels</a></p>
<h2 id="here">Here</h2><p aria-labelledby="here"><em>one</em>
<strong>two</strong></p></article></main>"""
    held = inliner.held("recipes/a.html", page, "recipe")
    assert (held.anchor, held.title, held.name) == ("p-recipes-a", "A · Book", "A")
    assert 'See the <em>other</em>, <a href="#p-larder.top">larder</a>' in held.body
    assert '<a href="#p-recipes-a.here">below</a>' in held.body
    assert '<a href="https://example.org/x">the web</a>' in held.body
    assert "Labels" not in held.body
    assert '<h2 id="p-recipes-a.here">' in held.body
    assert "<em>one</em>\n<strong>two</strong>" in held.body, "white space between words stays"


def test_a_drawing_within_a_page_keeps_its_own_patterns() -> None:
    inliner = Inliner(frozenset({"a.html"}), {}, {})
    page = """<title>A</title><main><h1>A</h1><svg viewBox="0 0 1 1"><pattern id="dots"></pattern>
<rect fill="url(#dots)"></rect><use href="#dots"></use></svg></main>"""
    body = inliner.held("a.html", page, "page").body
    assert 'id="p-a.dots"' in body
    assert 'fill="url(#p-a.dots)"' in body
    assert 'href="#p-a.dots"' in body
