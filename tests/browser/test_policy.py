"""A page runs the book's own scripts alone, even where a stranger's text got in as markup."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from tests.browser.conftest import without_policy
from tests.browser.serving import Quiet, Served

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, Page

MEAL: Final = "recipes/barley-and-leek-supper.html"
ONE_FILE: Final = "the-alder-bend-larder-book-in-one-file.html"
GOT_IN: Final = """
<script>document.documentElement.dataset.ran = "inline"</script>
<script src="data:text/javascript,document.documentElement.dataset.ran='data'"></script>
<script src="http://127.0.0.1:{port}/away.js"></script>
<img src="missing.png" onerror="document.documentElement.dataset.ran = 'handler'">
<svg onload="document.documentElement.dataset.ran = 'drawing'"></svg>
<iframe srcdoc="<script>parent.document.documentElement.dataset.ran = 'frame'</script>"></iframe>
<object data="data:text/html,<script>parent.ran = 1</script>"></object>
<a id="leads" href="javascript:void(document.documentElement.dataset.ran = 'link')">on</a>
<style>h1 { color: rgb(1, 2, 3) !important }</style>
<p id="styled" style="color: rgb(1, 2, 3)">p</p>
<img src="http://127.0.0.1:{port}/away.png">
<link rel="stylesheet" href="http://127.0.0.1:{port}/away.css">
<base href="http://127.0.0.1:{port}/">
<form action="http://127.0.0.1:{port}/"><button id="sends">send</button></form>
"""
"""What no text becomes a part of; here it is written into a page that was bound."""


@dataclass
class Stranger:
    """A server elsewhere that a stranger would like to hear from."""

    port: int
    heard: list[str]


@pytest.fixture
def stranger() -> Iterator[Stranger]:
    """Give a server that remembers what it was asked for."""
    heard: list[str] = []

    class Listening(Quiet):
        def do_GET(self) -> None:  # noqa: N802 - the library's name
            heard.append(self.path)
            self.send_error(404)

    made = Served(Path(), Listening)
    yield Stranger(made.server.server_port, heard)
    made.stop()


@pytest.fixture
def spoilt(site: Path, tmp_path: Path, stranger: Stranger) -> Path:
    """Return a book into whose pages a stranger's markup was written after it was bound."""
    folder = tmp_path / "spoilt"
    shutil.copytree(site, folder)
    got_in = GOT_IN.replace("{port}", str(stranger.port))
    for name in (MEAL, ONE_FILE):
        before, heading, after = (folder / name).read_text(encoding="utf-8").partition("</h1>")
        assert heading  # the contents, in one file, which are shown first
        (folder / name).write_text(before + heading + got_in + after, encoding="utf-8")
    return folder


@pytest.fixture
def reader(browser: Browser) -> Iterator[Page]:
    """Give a page of a reader who is on the web."""
    context = browser.new_context()
    context.set_default_timeout(10_000)
    yield context.new_page()
    context.close()


def tried(page: Page, address: str, stranger: Stranger) -> dict[str, object]:
    """Open a page, do what a reader may do there, and return what came of it."""
    page.goto(address)
    for part in ("#leads", "#sends"):  # a refused navigation is one that a locator would wait for
        page.evaluate("part => document.querySelector(part).click()", part)
    page.wait_for_timeout(300)
    return {
        "ran": page.evaluate("document.documentElement.dataset.ran ?? null"),
        "heard": stranger.heard,
        "stayed": page.url.split("#")[0] == address,
        "styled": page.evaluate(
            "getComputedStyle(document.querySelector('#styled') || document.body).color"
        )
        == "rgb(1, 2, 3)",
        # the book's own script names the look on the root, and its style sets the type
        "own": page.evaluate("Boolean(document.documentElement.dataset.look)"),
        "shown": page.evaluate("getComputedStyle(document.body).margin") == "0px",
    }


WHOLE: Final[dict[str, object]] = {
    "ran": None, "heard": [], "stayed": True, "styled": False, "own": True, "shown": True,
}  # fmt: skip


@pytest.mark.parametrize("name", [MEAL, ONE_FILE])
def test_nothing_that_got_into_a_page_runs_or_leads_away(
    reader: Page, spoilt: Path, stranger: Stranger, name: str
) -> None:
    assert tried(reader, (spoilt / name).as_uri(), stranger) == WHOLE


@pytest.mark.parametrize("name", [MEAL, ONE_FILE])
def test_nor_where_the_book_is_served(
    reader: Page, spoilt: Path, stranger: Stranger, name: str
) -> None:
    made = Served(spoilt)
    assert tried(reader, made.url + name, stranger) == WHOLE
    made.stop()


def test_without_the_policy_it_would(reader: Page, spoilt: Path, stranger: Stranger) -> None:
    path = spoilt / MEAL
    path.write_text(without_policy(path.read_text(encoding="utf-8")), encoding="utf-8")
    reader.goto(path.as_uri())
    reader.wait_for_timeout(300)
    assert reader.evaluate("document.documentElement.dataset.ran")
    assert stranger.heard
