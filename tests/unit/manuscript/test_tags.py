"""The few tags of HTML that a page may ask for.

What each says is that of the HTML Standard (text-level semantics, 4.5); their nesting is checked
with html5lib, which reads a page as that standard tells browsers to.
"""

from __future__ import annotations

import random
from typing import TYPE_CHECKING, Final

import pytest
from bs4 import BeautifulSoup
from lxml import etree
from markupsafe import Markup

from cookbook_build.findings import Finding, Findings
from cookbook_build.manuscript.body import check_body, read_body
from cookbook_build.manuscript.recipes import read_page
from cookbook_build.manuscript.source import Source
from cookbook_build.manuscript.tags import MOST_OPEN, TAGS
from cookbook_build.publishing.prose import prose
from tests.figures import figure

if TYPE_CHECKING:
    from collections.abc import Callable

OURS: Final = frozenset({
    *TAGS, "br", "p", "em", "strong", "s", "a", "code", "pre", "ul", "ol", "li", "hr", "blockquote",
    "div", "table", "thead", "tbody", "tr", "th", "td", "h2", "h3", "h4", "h5", "h6", "html",
    "head", "body",
})  # fmt: skip
ATTRIBUTES: Final = frozenset({"href", "class", "role", "aria-label", "tabindex", "start"})


class _Nowhere:
    def to(self, address: str) -> str:
        return f"{address}.html"

    def picture(self, written: str, alt: str) -> Markup:
        return Markup("({}: {})").format(written, alt)


def shown(text: str, *, tags: bool = True) -> Markup:
    """Return a page's text as HTML."""
    return prose(read_body(Source.of("pages/a.md", text), text, 1, tags=tags), _Nowhere())  # type: ignore[arg-type]


def told(text: str, *, tags: bool = True) -> list[Finding]:
    """Return what is found in a page's text."""
    findings, source = Findings(), Source.of("pages/a.md", text)
    check_body(
        read_body(source, text, 1, tags=tags), findings,
        components=None, images=["a.svg"], addresses=["a"],
    )  # fmt: skip
    return list(findings)


@pytest.mark.parametrize("tag", TAGS)
def test_each_tag_is_read_where_a_page_asks_for_it_and_text_elsewhere(tag: str) -> None:
    text = f"Say <{tag}>so</{tag}>."
    assert shown(text) == f"<p>Say <{tag}>so</{tag}>.</p>\n"
    assert not told(text)
    assert shown(text, tags=False) == f"<p>Say &lt;{tag}&gt;so&lt;/{tag}&gt;.</p>\n"
    assert not told(text, tags=False)


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("H<SUB >2</Sub\t>O", "H<sub>2</sub>O"),
        ("a<br>b<BR />c", "a<br />\nb<br />\nc"),
        ("<u>*a* [b](a.md)</u>", '<u><em>a</em> <a href="a.html">b</a></u>'),
        (
            "**<q>a</q>** [<q>b</q>](a.md)",
            '<strong><q>a</q></strong> <a href="a.html"><q>b</q></a>',
        ),
        ("<q>a <q>b</q> c</q>", "<q>a <q>b</q> c</q>"),
        ("<q>a <u>b</q> c", "<q>a &lt;u&gt;b</q> c"),
        ("`<u>a</u>` \\<u>b\\</u>", "<code>&lt;u&gt;a&lt;/u&gt;</code> &lt;u&gt;b&lt;/u&gt;"),
        ("![<u>a</u> b](a.svg)", "(a.svg: a b)"),
    ],
)
def test_tags_stand_within_emphasis_and_links_and_around_them(text: str, html: str) -> None:
    assert shown(text) == f"<p>{html}</p>\n"


def test_tags_are_read_in_headings_and_tables() -> None:
    assert shown("# a<sup>2</sup>") == "<h2>a<sup>2</sup></h2>\n"
    assert "<td><kbd>a</kbd></td>" in shown("|a|b|\n|-|-|\n|<kbd>a</kbd>|b|\n")


@pytest.mark.parametrize(
    ("text", "line", "culprit", "mend"),
    [
        ("One.\n\nH<sub>2</sub>O and H<sub>2O\n", 3, "<sub>", "write <sub>so</sub> within"),
        ("`</q>` \\</q> a</q>", 1, "</q>", "write <q>so</q> within"),
        ("*a <u>b* c", 1, "<u>", "and not across *stress* or a link."),
        ("<u onclick=ran()>a", 1, "<u onclick=ran()>", "write <u>so</u>."),
        ("<br class='a'>", 1, "<br class='a'>", "write <br>."),
        ("a</br>", 1, "</br>", "write <br>."),
        ("a <b>b</b>", 1, "<b>", "write **so**."),
        ("<a href='https://example.org'>", 1, "<a href='https://example.org'>", "write [so]("),
        ("<!-- a -->", 1, "<!--", "take it out of this file."),
        ("<script>ran()</script>", 1, "<script>", "leave it out; what is read: sub, sup,"),
        ("|a|b|\n|-|-|\n|<kbd>a</kbd>|<kbd>b|\n", 3, "<kbd>", "write <kbd>so</kbd> within"),
        ("```\n<u>\n```\n\n    <u>\n\n- <u>\n", 7, "<u>", "write <u>so</u> within"),
    ],
)
def test_a_tag_that_stays_text_is_told_where_it_stands(
    text: str, line: int, culprit: str, mend: str
) -> None:
    finding = told(text)[0]
    place = finding.place
    at = text.splitlines()[line - 1].rindex(culprit)
    assert (place.line, place.column, place.width) == (line, at + 1, len(culprit))
    assert finding.severity == "warning"
    assert mend in finding.mend
    assert not told(text, tags=False)


def test_one_cause_is_told_once() -> None:
    assert len(told("<a1>" + "<b2> " * 50 + "\n\n<u>\n\n<u>\n")) == 2


def test_tags_are_read_so_deep_and_no_deeper() -> None:
    deep = MOST_OPEN + 5
    html = shown("<u>" * deep + "a" + "</u>" * deep)
    assert html.count("<u>") == html.count("</u>") == MOST_OPEN
    assert html.count("&lt;u&gt;") == 5


@pytest.mark.parametrize(
    ("key", "read"), [("html: yes\n", True), ("html: no\n", False), ("", False)]
)
def test_a_page_asks_for_tags_by_a_key(key: str, *, read: bool) -> None:
    findings = Findings()
    page = read_page(
        Source.of("pages/a.md", f"---\ntitle: A\n{key}---\nH<sub>2</sub>O\n"), findings
    )
    assert page
    assert not findings.errors
    assert page.body.has_tags == read


def test_whatever_stands_in_a_text_only_these_tags_come_of_it(
    record_property: Callable[[str, object], None],
) -> None:
    chance = random.Random("tags")  # noqa: S311 - names what is tried
    pieces = [
        *(f"<{end}{tag}>" for tag in TAGS for end in ("", "/")),
        "<br>", "*", "**", "`", "~~", "[", "](a.md)", "![", "](a.svg)", "\\", "\n", "\n\n", "- ",
        "# ", "> ", "|", "\n|-|-|\n", "<", ">", "</", "a", " ", "&lt;u>", "<u onclick=ran()>",
        "<script>", "</script>", "<img src=x onerror=ran()>", "<!--", "-->", "<https://a.example>",
    ]  # fmt: skip
    read = 0
    for _ in range(1500):
        text = "".join(chance.choices(pieces, k=chance.randrange(1, 40)))
        html = str(shown(text))
        told(text)
        whole = etree.fromstring(f"<body>{html}</body>")  # well-formed, as an e-book wants it
        tree = BeautifulSoup(html, "html5lib")
        parts = [(str(one.tag), dict(one.attrib)) for one in whole.iter("*")]
        seen = [(one.name, one.attrs) for one in tree.select("*")]
        assert {tag for tag, _ in parts + seen} <= OURS, text
        assert {key for _, attributes in parts + seen for key in attributes} <= ATTRIBUTES, text
        assert [tag for tag, _ in parts if tag in TAGS] == [tag for tag, _ in seen if tag in TAGS]
        read += sum(tag in TAGS for tag, _ in parts)
    assert read > 500
    figure(record_property, "tags of HTML read in texts at random, and nothing else", read)
