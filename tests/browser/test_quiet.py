"""No page says, asks for or misses anything, and every link leads somewhere."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import unquote, urljoin, urlsplit

import pytest
from bs4 import BeautifulSoup

if TYPE_CHECKING:
    from playwright.sync_api import Page, Request


def every_page(folder: Path) -> list[Path]:
    """Return every page of a book."""
    return sorted(folder.rglob("*.html"))


@pytest.fixture
def heard(page: Page) -> list[str]:
    """Return what the page will say, fail at or fail to find."""
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))

    def fails(request: Request) -> None:
        # a picture that is still on its way when the next page is asked for is aborted
        if request.failure != "net::ERR_ABORTED":
            said.append(f"missing {request.url}")

    page.on("requestfailed", fails)
    return said


@pytest.fixture
def asked(page: Page) -> list[str]:
    """Return what the page will ask for."""
    urls: list[str] = []
    page.on("request", lambda request: urls.append(request.url))
    return urls


def test_no_page_says_or_asks_for_anything(
    page: Page, site: Path, heard: list[str], asked: list[str]
) -> None:
    for path in every_page(site):
        page.goto(path.as_uri())
    assert not heard
    assert asked
    assert all(url.startswith(site.as_uri()) for url in asked)


def test_a_page_stays_quiet_while_it_is_used(
    page: Page, site: Path, heard: list[str], asked: list[str]
) -> None:
    for name in ("recipes/barley-and-leek-supper.html", "lists/midsummer-paddle.html"):
        page.goto((site / name).as_uri())
        before = len(asked)
        for control in page.locator(".segment, .tick").all():
            control.click()
            for summary in page.locator("summary").filter(visible=True).all():
                summary.click()
        assert len(asked) == before
    assert not heard


def test_every_link_and_every_file_of_the_book_is_there(site: Path, crowded: Path) -> None:
    pages = every_page(site) + every_page(crowded)
    soups = {path: BeautifulSoup(path.read_text(encoding="utf-8"), "lxml") for path in pages}
    ids = {path: {tag["id"] for tag in soup.select("[id]")} for path, soup in soups.items()}
    for path, soup in soups.items():
        named = [*(tag["href"] for tag in soup.select("[href]:not([rel=canonical])"))]
        named += [tag["src"] for tag in soup.select("[src]")]  # lazy pictures are never asked for
        named += [
            one.split()[0]
            for tag in soup.select("[srcset]")
            for one in str(tag["srcset"]).split(",")
        ]
        for name in named:
            parts = urlsplit(urljoin(path.as_uri(), str(name)))
            if parts.scheme in {"mailto", "data"}:  # a picture within one file
                continue
            assert parts.scheme == "file", f"{path.name}: {name}"
            target = Path(unquote(parts.path))
            assert target.is_file(), f"{path.name}: {name}"
            assert not parts.fragment or unquote(parts.fragment) in ids[target], (
                f"{path.name}: {name}"
            )
