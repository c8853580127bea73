"""The feed, by the rules of RFC 4287 and by a reader of feeds that is not ours (RFC4287)."""

from __future__ import annotations

import datetime as dt
import re
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import feedparser
import pytest
from lxml import etree

from cookbook_build.publishing.feed import FEED, feed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.publishing.desk import Desk

A = "{http://www.w3.org/2005/Atom}"
XML_LANG = "{http://www.w3.org/XML/1998/namespace}lang"
# section 3.3: RFC 3339 with an uppercase T and, without an offset, an uppercase Z
INSTANT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)")
MEDIA_TYPE = re.compile(r".+/.+")  # section 4.2.7.3, by its grammar of a media type
ONCE = {"feed": ("id", "title", "updated"), "entry": ("id", "title", "updated")}
AT_MOST_ONCE = {
    "feed": ("generator", "icon", "logo", "rights", "subtitle"),
    "entry": ("content", "published", "rights", "source", "summary"),
}


def faults(text: str) -> list[str]:
    """Return the requirements of RFC 4287 that a feed does not meet, by their sections."""
    root = etree.fromstring(text.encode())
    return [*_feed_faults(root), *_common_faults(root)]


def _feed_faults(root: etree._Element) -> Iterator[str]:
    if root.tag != f"{A}feed":
        yield "4.1.1: the root is atom:feed"
        return
    entries = root.findall(f"{A}entry")
    yield from _counted(root, "4.1.1", "feed")
    if not root.findall(f"{A}author") and not all(e.findall(f"{A}author") for e in entries):
        yield "4.1.1: an author, or one in each entry"
    if not _links(root, "self"):
        yield "4.1.1: one link of rel self"
    for entry in entries:
        yield from _counted(entry, "4.1.2", "entry")
        if entry.find(f"{A}content") is None and not _links(entry, "alternate"):
            yield "4.1.2: an alternate link where there is no content"
    for holder in (root, *entries):
        kinds = [(e.get("type"), e.get("hreflang")) for e in _links(holder, "alternate")]
        if len(kinds) != len(set(kinds)):
            yield "4.1.1, 4.1.2: one alternate link of each type and language"


def _counted(holder: etree._Element, section: str, kind: str) -> Iterator[str]:
    for name in ONCE[kind]:
        if len(holder.findall(A + name)) != 1:
            yield f"{section}: exactly one {name}"
    for name in AT_MOST_ONCE[kind]:
        if len(holder.findall(A + name)) > 1:
            yield f"{section}: at most one {name}"


def _common_faults(root: etree._Element) -> Iterator[str]:
    for element in root.iter():
        name, words = str(element.tag).removeprefix(A), element.text or ""
        if name in {"title", "subtitle", "summary", "rights"}:
            if element.get("type", "text") == "text" and len(element):
                yield "3.1.1.1: text has no child elements"
        elif name in {"updated", "published"} and not INSTANT.fullmatch(words):
            yield "3.3: a date as RFC 3339 writes it"
        elif name == "author" and len(element.findall(f"{A}name")) != 1:
            yield "3.2.1: exactly one name"
        elif name == "id" and not (urlsplit(words).scheme and words == words.strip()):
            yield "4.2.6: an absolute IRI"
        elif name == "category" and not element.get("term"):
            yield "4.2.2.1: a term"
        elif name == "link" and not element.get("href"):
            yield "4.2.7.1: an href"
        elif name == "link" and not MEDIA_TYPE.fullmatch(element.get("type", "a/b")):
            yield "4.2.7.3: a media type"


def _links(holder: etree._Element, rel: str) -> list[etree._Element]:
    return [e for e in holder.findall(f"{A}link") if e.get("rel", "alternate") == rel]


@pytest.fixture(params=["demo", "hostile"])
def desk(request: pytest.FixtureRequest) -> Desk:
    """Return the desk of each shared book."""
    found: Desk = request.getfixturevalue(f"{request.param}_desk")
    return found


def text_of(desk: Desk) -> str:
    """Return the text of a book's feed."""
    text = feed(desk)
    assert text is not None
    return text


def test_the_feed_meets_every_requirement(desk: Desk) -> None:
    assert faults(text_of(desk)) == []


@pytest.mark.parametrize(
    ("old", "new", "section"),
    [
        (r"<id>[^<]*</id>", "", "4.1.1"),
        (r"(<updated>[^<]*</updated>)", r"\1\1", "4.1.1"),
        (r"<author>.*?</author>", "", "4.1.1"),
        (r"<name>.*?</name>", "", "3.2.1"),
        (r'rel="self"', 'rel="related"', "4.1.1"),
        (r'rel="alternate"', 'rel="related"', "4.1.2"),
        (r"<title>", "<title><b/>", "3.1.1.1"),
        (r"T00:00:00Z", "", "3.3"),
        (r"<id>https:", "<id>", "4.2.6"),
        (r'term="[^"]*"', "", "4.2.2.1"),
        (r'href="[^"]*"', "", "4.2.7.1"),
        (r'type="text/html"', 'type="html"', "4.2.7.3"),
    ],
)
def test_a_planted_fault_is_found(demo_desk: Desk, old: str, new: str, section: str) -> None:
    broken = re.sub(old, new, text_of(demo_desk), flags=re.DOTALL)
    assert any(fault.startswith(section) for fault in faults(broken))


def test_a_reader_of_feeds_finds_nothing_wrong(desk: Desk) -> None:
    read = feedparser.parse(text_of(desk).encode())
    assert read.bozo == 0
    assert read.version == "atom10"
    assert read.feed.language == "en"
    assert len(read.entries) == sum(bool(r.keys.date) for r in desk.book.recipes.values())


def test_the_newest_recipe_comes_first_and_no_day_is_of_the_clock(demo_desk: Desk) -> None:
    read = feedparser.parse(text_of(demo_desk).encode())
    days = [entry.published for entry in read.entries]
    assert days == sorted(days, reverse=True)
    recipes = demo_desk.book.recipes
    assert days[0] == f"{max(r.keys.date for r in recipes.values() if r.keys.date)}T00:00:00Z"
    trials = {t.date.isoformat() for r in recipes.values() for part in r.components
              for t in part.trials}  # fmt: skip
    replied = {reply.trial.date.isoformat() for reply in demo_desk.book.replies}
    written = {str(r.keys.date) for r in recipes.values()} | trials | replied
    for entry in read.entries:
        assert entry.updated[:10] in written
        assert entry.updated >= entry.published
    assert read.feed.updated == max(entry.updated for entry in read.entries)


def test_a_trial_that_counts_makes_a_recipe_new_again(demo_desk: Desk) -> None:
    supper = demo_desk.book.recipes["barley-and-leek-supper"]
    last = max(t.date for part in supper.components for t in part.trials)
    assert supper.keys.date is not None
    assert dt.date.fromisoformat(demo_desk.changed(supper)) >= last > supper.keys.date


def test_each_entry_names_its_page_and_no_two_are_one(demo_desk: Desk) -> None:
    read = feedparser.parse(text_of(demo_desk).encode())
    ids = [entry.id for entry in read.entries]
    assert len(ids) == len(set(ids))
    pages = set(demo_desk.page_of.values())
    for entry in read.entries:
        assert entry.link == entry.id
        assert entry.link.removeprefix("https://example.org/larder/") in pages
    assert read.feed.link == "https://example.org/larder/"
    assert [a.href for a in read.feed.links if a.rel == "self"] == [
        f"https://example.org/larder/{FEED}"
    ]


def test_hostile_words_come_back_as_they_were_written(
    hostile_desk: Desk, hostile_words: str
) -> None:
    root = etree.fromstring(text_of(hostile_desk).encode())
    legal = re.sub("[\uffff\x1b]", "\ufffd", hostile_words)
    for path in ("title", "subtitle", "author/name", "entry/title", "entry/summary"):
        found = root.find("/".join(A + step for step in path.split("/")))
        assert found is not None
        assert found.text == legal, path
    rights = root.findtext(f"{A}rights")
    assert rights is not None
    assert rights.count(legal) == 2  # whose it is, and the licence
    category = root.find(f"{A}entry/{A}category")
    assert category is not None
    assert category.get("term") == "Bowls & <b>"
    assert root.get(XML_LANG) == "en"


def test_every_page_leads_to_the_feed(demo_pages: dict[str, str]) -> None:
    assert FEED in demo_pages
    for name, text in demo_pages.items():
        if name.endswith(".html"):
            up = "../" * name.count("/")
            link = rf'<link rel="alternate" type="application/atom\+xml" title="[^"]+" href="{up}'
            assert re.search(link + r'feed\.xml">', text), name
