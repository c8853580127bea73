"""The panel says everything a finding says, and lets nothing of an author's text run."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lxml import html

from cookbook_build.findings import Findings, Place
from cookbook_build.preview.kept import KeptBook, State
from cookbook_build.preview.panel import STILL_GOOD, missing_page, panel, waiting_page, with_added

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.preview.kept import Edition

EVIL = '</pre></aside><script>alert("x")</script>\' & \u202e'


def good(folder: Path) -> Edition:
    """Return the edition of a sound book."""
    edition = KeptBook(folder).renew().state.edition
    assert edition is not None
    return edition


def with_findings(edition: Edition | None, *, error: bool = True) -> State:
    """Return a state with a warning, and an error of a text that is all markup."""
    findings = Findings()
    findings.warning(Place("book.yaml", 2), "this is odd", "look again.")
    if error:
        findings.error(Place(EVIL, 9, 5, 4, f"  - {EVIL}"), f'"{EVIL}" is no store', f'"{EVIL}".')
    return State(edition, tuple(findings))


def test_every_part_of_a_finding_is_shown_as_text(small_book: Path) -> None:
    state = with_findings(good(small_book))
    page = html.document_fromstring(with_added("<body><p>Book</p></body>", "x.html", state, "0"))
    seen = EVIL.replace("\u202e", "·")
    (aside,) = page.xpath("//aside")
    (first,) = aside.xpath(".//li[@class='error']")
    assert aside.xpath("string(.//summary)") == "1 error, 1 warning"
    assert first.xpath("string(.//code)") == f"{seen}:9:5"
    assert first.xpath("string(.//pre)").splitlines() == [
        f"9 |   - {seen}",
        "  |     ^^^^",
    ]
    assert [one.text_content() for one in first.xpath("p")[1:]] == [
        f'error: "{seen}" is no store.',
        f'mend: "{seen}".',
    ]
    assert not page.xpath("//script[not(@src)]")
    assert STILL_GOOD in aside.text_content()


def test_warnings_alone_are_folded_and_speak_of_no_earlier_book(small_book: Path) -> None:
    text = panel(with_findings(good(small_book), error=False))
    assert "<details>" in text
    assert "1 warning</summary>" in text
    assert STILL_GOOD not in text


def test_where_there_is_nothing_to_mend_there_is_no_panel(small_book: Path) -> None:
    assert panel(State(good(small_book))) == ""


def test_before_the_first_good_book_the_findings_are_the_page() -> None:
    state = with_findings(None)
    page = with_added(waiting_page(state), "index.html", state, "0")
    assert page.count("this is odd") == 1
    assert "<script>alert" not in page
    assert "Mend what stands here" in page


def test_a_missing_page_names_one_that_is_near() -> None:
    page = missing_page("recipes/leek-brot.html", ["recipes/leek-broth.html", "find.html"])
    assert '<a href="/recipes/leek-broth.html">' in page
    page = missing_page('<script>"&', ["a?b#c.html", "find.html"])
    assert "<code>&lt;script&gt;&quot;&amp;</code>" in page
    assert '<a href="/a%3Fb%23' in missing_page("a?b#d.html", ["a?b#c.html"])


def test_what_is_added_stands_before_the_end_of_the_last_body() -> None:
    page = with_added("<body>a</body><!-- </body> -->\n</html>", "x.html", State(), "0")
    assert page.startswith("<body>a</body><!-- ")
    assert with_added("no body", "x.html", State(), "0").startswith("no body<!--")
