"""A real browser on two bound books; skipped with a reason where there is none."""

from __future__ import annotations

import os
import re
import shutil
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, BrowserContext, Page

ROOT = Path(__file__).parents[2]
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
]  # fmt: skip
USUAL_PLACE = "/usr/bin/chromium"  # Debian's


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark every test of this folder."""
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.browser)


def missing(reason: str) -> NoReturn:
    """Skip, or fail where everything must be there."""
    if os.environ.get("CI") == "true":
        pytest.fail(reason)
    pytest.skip(reason)


def bound(book_folder: Path, out: Path, *, warned: bool = False) -> Path:
    """Bind a sound book, or one that is warned of, and return the folder of its pages."""
    findings = Findings()
    book = read_book(book_folder, findings)
    assert book is not None
    bind_book(reckoned(book, findings), out)
    assert bool(list(findings)) == warned
    return out


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of the bound demo."""
    return bound(ROOT / "content_demo", tmp_path_factory.mktemp("bound") / "site")


@pytest.fixture(scope="session")
def crowded(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the bound folder of a book with all that is long, wide, quoted and nested."""
    return bound(ROOT / "tests/crowded_book", tmp_path_factory.mktemp("crowded") / "site")


@pytest.fixture(scope="session")
def spanish(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the bound folder of a book in Spanish, whose words are longer; it has a damp lot."""
    out = tmp_path_factory.mktemp("spanish") / "site"
    return bound(ROOT / "tests/spanish_book", out, warned=True)


@pytest.fixture(scope="session")
def kinds(site: Path, crowded: Path) -> list[Path]:
    """Return a page of each kind, and every page of the crowded book."""
    demo = (
        "index.html",
        "recipes/barley-and-leek-supper.html",  # two components, an optional ingredient
        "recipes/squash-and-sweetcorn-supper.html",  # not tested
        "recipes/turkey-mince-with-apples-and-barley.html",  # dried raw
        "recipes/orchard-sauce.html",  # a base
        "larder.html",
        "larder/turkey-mince.html",
        "find.html",
        "cards.html",
        "lists.html",
        "lists/midsummer-paddle.html",
        "pages/how-we-dry.html",
        "cautions.html",
    )
    return [*(site / name for name in demo), *sorted(crowded.rglob("*.html"))]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Give a headless Chromium."""
    usual = USUAL_PLACE if Path(USUAL_PLACE).is_file() else None
    path = os.environ.get("COOKBOOK_CHROMIUM") or shutil.which("chromium") or usual
    if not path:
        missing("no Chromium here: apt-get install chromium, or name it in COOKBOOK_CHROMIUM")
    try:
        from playwright.sync_api import sync_playwright  # noqa: PLC0415 - may be missing
    except ImportError:
        missing("playwright is not installed: pip install -e '.[test]'")
    try:
        playwright = sync_playwright().start()
    except Exception as problem:  # noqa: BLE001 - playwright raises no narrower one
        missing(f"playwright can't start ({problem}): on Debian, apt-get install libatomic1")
    launched = playwright.chromium.launch(executable_path=path, args=FLAGS)
    yield launched
    launched.close()
    playwright.stop()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """Give a fresh, offline profile on a phone's screen."""
    made = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    made.set_default_timeout(10_000)
    yield made
    made.close()


@pytest.fixture
def page(context: BrowserContext) -> Page:
    """Return a page of that profile."""
    return context.new_page()


@pytest.fixture
def scriptless(browser: Browser) -> Iterator[Page]:
    """Give a page whose reader has no JavaScript."""
    made = browser.new_context(
        viewport={"width": 390, "height": 844}, offline=True, java_script_enabled=False
    )
    made.set_default_timeout(10_000)
    yield made.new_page()
    made.close()


def without_policy(text: str) -> str:
    """Return a page that says nothing of what a browser may run in it."""
    without, times = re.subn(r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", text)
    assert times == 1
    return without
