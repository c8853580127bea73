"""What a page tells the web and its readers: head, credit, letter, neighbours, and the icon."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import parse_qs, urlsplit

import pytest
from bs4 import BeautifulSoup
from lxml import etree

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book
from cookbook_build.publishing.carrying import is_carried
from cookbook_build.publishing.contact import ask_link
from cookbook_build.publishing.web_files import ICON, MANIFEST, WORKER, short_name
from cookbook_build.publishing.web_head import open_graph_locale

if TYPE_CHECKING:
    from collections.abc import Mapping

DEMO = Path(__file__).parents[3] / "content_demo"
LARDER = "oats: {food: oats, dried: bought}\n"
BOWL = "---\ntitle: {title}\n{keys}ingredients: [1 cup oats]\n---\nPour {{water}}.\n"
Pages = dict[str, BeautifulSoup]


def written(folder: Path, book: str, recipes: Mapping[str, str]) -> Path:
    """Write a small book; `recipes` are keys of each by its address, which is its title."""
    files = {"book.yaml": f"title: Oats\n{book}", "larder.yaml": LARDER}
    files |= {
        f"recipes/{a}.md": BOWL.format(title=a.title(), keys=keys) for a, keys in recipes.items()
    }
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def bound(folder: Path, out: Path) -> Path:
    """Bind a book without a finding."""
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    bind_book(reckoned(book, findings), out)
    assert not list(findings)
    return out


def pages(folder: Path) -> Pages:
    """Return every page of a bound book by its name."""
    return {
        path.relative_to(folder).as_posix(): BeautifulSoup(path.read_text("utf-8"), "lxml")
        for path in folder.rglob("*.html")
        if not is_carried(path.name)
    }


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the bound demo, which stands on the web."""
    return bound(DEMO, tmp_path_factory.mktemp("demo") / "site")


def told(page: BeautifulSoup) -> dict[str, str]:
    """Return the Open Graph properties of a page; each stands once."""
    found = [(str(tag["property"]), str(tag["content"])) for tag in page.select("meta[property]")]
    assert len(found) == len(dict(found))
    return dict(found)


def test_each_page_tells_its_own_address_and_what_open_graph_requires(site: Path) -> None:
    # https://ogp.me, "Basic Metadata": title, type, image and url are required; from memory
    for name, page in pages(site).items():
        (canonical,) = page.select("link[rel=canonical]")
        here = "https://example.org/larder/" + ("" if name == "index.html" else name)
        said = told(page)
        assert canonical["href"] == said["og:url"] == here
        assert page.title is not None
        assert page.title.get_text().startswith(said["og:title"])
        assert said["og:type"] == ("website" if name == "index.html" else "article")
        picture = said["og:image"].removeprefix("https://example.org/larder/")
        assert (site / picture).is_file(), name
        assert said["og:image:alt"]
        assert said["og:description"]
        assert said["og:site_name"] == "The Alder Bend larder book"


def test_a_recipe_is_shared_with_its_blurb_and_its_picture(site: Path) -> None:
    said = told(pages(site)["recipes/orchard-sauce.html"])
    assert said["og:description"] == "Plums, onions and apples, cooked until they agree."
    assert said["og:image"] == "https://example.org/larder/images/orchard-sauce.svg"
    assert said["og:image:alt"].startswith("A wide pan")


def test_hostile_words_are_told_as_they_were_written(tmp_path: Path) -> None:
    words = '"><script>alert(1)</script> & <!-- {{ 7 * 7 }} \u2028½'
    spelt = json.dumps(words)  # which is YAML too
    keys = f"subtitle: {spelt}\nauthor: {spelt}\naddress: https://example.org\n"
    bowl = f"title: {spelt}\nblurb: {spelt}\n"
    folder = written(tmp_path / "book", keys, {"bowl": ""})
    recipe = folder / "recipes/bowl.md"
    recipe.write_text(recipe.read_text("utf-8").replace("title: Bowl\n", bowl), "utf-8")
    found = pages(bound(folder, tmp_path / "site"))
    said = told(found["recipes/bowl.html"])
    assert said["og:title"] == said["og:description"] == words
    assert told(found["index.html"])["og:description"] == words
    assert told(found["larder.html"])["og:description"] == f"From Oats, by {words}."
    assert all(not page.select("script:not([src]):not([type])") for page in found.values())


def test_a_book_that_is_not_on_the_web_tells_it_nothing(tmp_path: Path) -> None:
    folder = written(tmp_path / "book", "", {"bowl": "date: 2026-03-02\n"})
    out = bound(folder, tmp_path / "site")
    assert not (out / "feed.xml").exists()
    for page in pages(out).values():
        assert not page.select("[rel=canonical], [rel=alternate], [property], .credit, .contact")
    data = json.loads(
        pages(out)["recipes/bowl.html"].select("[type='application/ld+json']")[0].text
    )
    assert data["datePublished"] == "2026-03-02"
    assert not {"url", "author", "image", "license", "description"} & set(data)


def test_a_book_without_a_day_has_no_feed(tmp_path: Path) -> None:
    folder = written(tmp_path / "book", "address: https://example.org\n", {"bowl": ""})
    out = bound(folder, tmp_path / "site")
    assert not (out / "feed.xml").exists()
    assert not pages(out)["index.html"].select("[rel=alternate]")
    assert told(pages(out)["index.html"])["og:url"] == "https://example.org/"


@pytest.mark.parametrize(
    ("tag", "locale"),
    [("en-GB", "en_GB"), ("zh-Hant-TW", "zh_TW"), ("es", "es"), ("en-gb", "en_GB")],
)
def test_a_language_is_written_in_open_graphs_way(tag: str, locale: str) -> None:
    assert open_graph_locale(tag) == locale


@pytest.mark.parametrize(
    ("licence", "line", "href"),
    [
        ("CC BY-SA 4.0", "© A. Householder. CC BY-SA 4.0.", None),
        ("Copy it, and name us.", "© A. Householder. Copy it, and name us.", None),
        ("https://example.org/terms", "© A. Householder. https://example.org/terms",
         "https://example.org/terms"),
        ('"<b>&"', "© A. Householder. <b>&.", None),
    ],
)  # fmt: skip
def test_each_page_ends_with_whose_it_is_and_the_licence(
    tmp_path: Path, licence: str, line: str, href: str | None
) -> None:
    keys = f"author: A. Householder\nlicence: {licence}\n"
    out = bound(written(tmp_path / "book", keys, {"bowl": ""}), tmp_path / "site")
    for page in pages(out).values():
        (credit,) = page.select("footer .credit")
        assert credit.get_text() == line
        assert [a["href"] for a in credit.select("a")] == ([href] if href else [])
    (script,) = pages(out)["recipes/bowl.html"].select("[type='application/ld+json']")
    assert json.loads(script.text).get("license") == href


def test_each_page_asks_the_author_about_itself(site: Path) -> None:
    for page in pages(site).values():
        (ask,) = page.select("footer a[href^=mailto]")
        assert ask.get_text() == "Ask the author"
        assert "larder@example.org" in page.select("footer .contact")[0].get_text()
        letter = urlsplit(str(ask["href"]))
        assert letter.path == "larder@example.org"
        assert page.h1 is not None
        assert parse_qs(letter.query)["subject"] == [page.h1.get_text()]


@pytest.mark.parametrize(
    ("contact", "link"),
    [
        ("a@example.org", "mailto:a@example.org?subject=R%C3%B6sti%20%26%20%3Cb%3E"),
        ("https://example.org/write?to=us", "https://example.org/write?to=us"),
        ("http://example.org", "http://example.org"),
        ("the house by the bend", ""),
        ("javascript:alert(1)", ""),
        ("a@example.org?cc=b@example.org", ""),
        ("a@example.org, b@example.org", ""),
        ("", ""),
        (None, ""),
    ],
)
def test_a_contact_gives_a_letter_a_link_or_nothing(contact: str | None, link: str) -> None:
    assert ask_link(contact, "Rösti & <b>") == link


def test_a_contact_in_words_is_printed_as_words(tmp_path: Path) -> None:
    keys = 'contact: "knock <twice> @ the red door"\n'
    out = bound(written(tmp_path / "book", keys, {"bowl": ""}), tmp_path / "site")
    footer = pages(out)["index.html"].footer
    assert footer is not None
    assert "Ask the author: knock <twice> @ the red door." in footer.get_text()
    assert not footer.select("a")


@pytest.mark.parametrize("listed", [True, False])
def test_a_series_leads_on_back_and_to_its_place_in_the_contents(
    tmp_path: Path, *, listed: bool
) -> None:
    book = "series: {Bowls: {about: Warm.}}\n" if listed else ""
    run = {name: f"series: Bowls\npart: {at}\n" for at, name in enumerate(("c", "a", "b"), 1)}
    out = bound(written(tmp_path / "book", book, run), tmp_path / "site")
    found = pages(out)
    for name, before, after in (("c", None, "a"), ("a", "c", "b"), ("b", "a", None)):
        page = found[f"recipes/{name}.html"]
        for rel, other in (("prev", before), ("next", after)):
            links = [str(a["href"]) for a in page.select(f"a[rel={rel}]")]
            assert links == ([f"../recipes/{other}.html"] if other else [])
        (kicker,) = page.select(".kicker a")
        assert kicker.get_text() == "Bowls"
        place, _, anchor = str(kicker["href"]).partition("#")
        assert place == "../index.html"
        assert f"recipes/{name}.html" in {
            a["href"] for a in found["index.html"].select(f"[id='{anchor}'] a")
        }


def test_each_series_of_the_demo_is_one_run(site: Path) -> None:
    found = pages(site)
    starts = [n for n, p in found.items() if p.select(".neighbours") and not p.select("[rel=prev]")]
    assert len(starts) == 3
    walked = set()
    for start in starts:
        at, before = start, None
        while True:
            back = [str(a["href"]).removeprefix("../") for a in found[at].select("[rel=prev]")]
            assert back == ([before] if before else [])
            walked.add(at)
            on = [str(a["href"]).removeprefix("../") for a in found[at].select("[rel=next]")]
            if not on:
                break
            at, before = on[0], at
    assert walked == {name for name, page in found.items() if page.select(".recipe .kicker")}


def edition(folder: Path) -> str:
    """Return the name that the worker gives to what it keeps."""
    text = (folder / WORKER).read_text("utf-8")
    return text.split('EDITION = OURS + "')[1].split('"')[0]


def test_another_book_has_another_edition_and_the_same_book_the_same(tmp_path: Path) -> None:
    one = bound(written(tmp_path / "a", "", {"bowl": ""}), tmp_path / "one")
    same = bound(written(tmp_path / "b", "", {"bowl": ""}), tmp_path / "same")
    renamed = bound(written(tmp_path / "c", "", {"dish": ""}), tmp_path / "other")
    changed = bound(written(tmp_path / "d", "author: A\n", {"bowl": ""}), tmp_path / "changed")
    assert edition(one) == edition(same)
    assert len({edition(one), edition(renamed), edition(changed)}) == 3


def test_the_worker_names_every_other_file_of_the_book_but_what_is_carried(site: Path) -> None:
    text = (site / WORKER).read_text("utf-8")
    listed = json.loads(text.split("FILES = ")[1].split(";")[0])
    files = {p.relative_to(site).as_posix() for p in site.rglob("*") if p.is_file()}
    kept = {name for name in files if not (name.startswith(".") or is_carried(name))}
    assert set(listed) == kept - {WORKER}
    assert kept < files
    assert len(listed) == len(set(listed))
    assert {ICON, MANIFEST, "index.html", "images/cover.svg", "style.css"} <= set(listed)


def test_manifest_and_icon_hold_any_title(tmp_path: Path) -> None:
    book = written(tmp_path / "book", "", {"bowl": ""})
    title = '"<&\'] \\u2028 </svg>"'
    (book / "book.yaml").write_text(f"title: {title}\nlanguage: en-GB\n", encoding="utf-8")
    out = bound(book, tmp_path / "site")
    manifest = json.loads((out / MANIFEST).read_text("utf-8"))
    assert manifest["name"] == "<&'] \u2028 </svg>"
    assert manifest["lang"] == "en-GB"
    # W3C Web Application Manifest: an address is taken from where the manifest stands
    assert (out / manifest["start_url"]).is_file()
    assert all((out / icon["src"]).is_file() for icon in manifest["icons"])
    drawn = etree.parse(out / ICON)
    assert drawn.getroot().findtext("{http://www.w3.org/2000/svg}text") == "S"


@pytest.mark.parametrize(
    ("title", "short"),
    [
        ("Our larder", "Our larder"),
        ("The Alder Bend larder book", "The Alder"),
        ("Riverbanksuppersinajar", "Riverbanksuppersinajar"),
        ("Soup", "Soup"),
        ("Mère & Fille", "Mère & Fille"),
        ("Mother & daughters", "Mother"),
    ],
)
def test_a_short_name_is_whole_words(title: str, short: str) -> None:
    assert short_name(title) == short
