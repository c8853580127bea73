"""A real browser on a bound demo; skipped with a reason where there is none."""

from __future__ import annotations

import os
import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, BrowserContext, Page

DEMO = Path(__file__).parents[2] / "content_demo"
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
]  # fmt: skip


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark every test of this folder."""
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.browser)


def missing(reason: str) -> None:
    """Skip, or fail where everything must be there."""
    if os.environ.get("CI") == "true":
        pytest.fail(reason)
    pytest.skip(reason)


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of the bound demo."""
    out = tmp_path_factory.mktemp("bound") / "site"
    findings = Findings()
    book = read_book(DEMO, findings)
    assert book is not None
    bind_book(reckoned(book, findings), out)
    return out


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Give a headless Chromium."""
    path = os.environ.get("COOKBOOK_CHROMIUM") or shutil.which("chromium")
    if not path:
        missing("no Chromium here: apt-get install chromium, or name it in COOKBOOK_CHROMIUM")
    sync_api = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    with sync_api.sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=path, args=FLAGS)
        yield launched
        launched.close()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """Give a fresh, offline profile on a phone's screen."""
    made = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    yield made
    made.close()


@pytest.fixture
def page(context: BrowserContext) -> Page:
    """Return a page of that profile."""
    return context.new_page()
