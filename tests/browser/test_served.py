"""Served over the web the whole book stays on the device; opened from a folder nothing of it is."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book
from cookbook_build.publishing.carrying import is_carried
from cookbook_build.publishing.web_files import MANIFEST, WORKER
from tests.browser.serving import Quiet, Served

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, BrowserContext, Page

ROOT = Path(__file__).parents[2]
ACTIVE = """async () => {
  const found = await navigator.serviceWorker.ready
  if (found.active.state === 'activated') { return }
  await new Promise(go => found.active.addEventListener('statechange', go, {once: true}))
}"""
KEPT = """async () => {
  const found = {}
  for (const name of await caches.keys()) {
    found[name] = (await (await caches.open(name)).keys()).map(request => request.url)
  }
  return found
}"""
GONE = """async name => {
  for (let tries = 0; await caches.has(name); tries++) {
    if (tries > 400) { throw new Error(name + ' is still there') }
    await new Promise(go => setTimeout(go, 50))
  }
}"""
# counts what a page asks of the worker, from before its own script runs
COUNTED = """
  window.asked = []
  const register = ServiceWorkerContainer.prototype.register
  ServiceWorkerContainer.prototype.register = function (url) {
    window.asked.push(String(url))
    return register.apply(this, arguments)
  }
"""


class WithoutEndings(Quiet):
    """Serves pages without `.html` in their addresses, and sends on who asks with it."""

    def do_GET(self) -> None:  # noqa: N802 - the library's name
        if self.path.endswith(".html"):
            self.send_response(308)
            self.send_header("Location", self.path.removesuffix(".html").removesuffix("index"))
            self.end_headers()
            return
        if "." not in self.path.rsplit("/", 1)[-1] and not self.path.endswith("/"):
            self.path += ".html"
        super().do_GET()


@pytest.fixture
def copied(site: Path, tmp_path: Path) -> Path:
    """Return a copy of the bound demo below a folder that is not the server's root."""
    shutil.copytree(site, tmp_path / "root" / "larder")
    return tmp_path / "root" / "larder"


@pytest.fixture
def served(copied: Path) -> Iterator[Served]:
    """Give a server of the copy's parent."""
    made = Served(copied.parent)
    yield made
    made.stop()


@pytest.fixture
def online(browser: Browser) -> Iterator[BrowserContext]:
    """Give a fresh profile that reaches the loopback address."""
    made = browser.new_context(viewport={"width": 390, "height": 844})
    made.set_default_timeout(20_000)
    yield made
    made.close()


@pytest.fixture
def visitor(online: BrowserContext) -> Page:
    """Return a page of that profile."""
    return online.new_page()


def names(folder: Path) -> set[str]:
    """Return the names of all files of a book that are served."""
    found = (p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file())
    return {name for name in found if not name.startswith(".")}


def test_after_one_visit_every_kind_of_page_opens_offline(
    online: BrowserContext, visitor: Page, served: Served, copied: Path, kinds: list[Path],
    site: Path,
) -> None:  # fmt: skip
    here = served.url + "larder/"
    visitor.goto(here + "recipes/beetroot-soup.html")
    visitor.evaluate(ACTIVE)
    (kept,) = visitor.evaluate(KEPT).values()
    books = {name for name in names(copied) if is_carried(name)}
    assert books
    assert {url.removeprefix(here) for url in kept} == names(copied) - {WORKER} - books
    online.set_offline(True)
    served.stop()
    said: list[str] = []
    visitor.on("console", lambda message: said.append(message.text))
    visitor.on("pageerror", lambda error: said.append(str(error)))
    of_the_demo = [path.relative_to(site).as_posix() for path in kinds if site in path.parents]
    assert len(of_the_demo) > 8
    for name in [*of_the_demo, "", "index.html?from=home#bases"]:
        answer = visitor.goto(here + name)
        assert answer is not None
        assert answer.from_service_worker
        assert visitor.locator("h1").count() == 1, name
        assert visitor.evaluate("document.styleSheets.length") >= 2, name
        pictures = visitor.locator("main img")
        for picture in pictures.all():
            picture.scroll_into_view_if_needed()
            assert picture.evaluate("image => image.decode().then(() => image.naturalWidth)") > 0
    assert [words for words in said if "worker.js" not in words] == []


def test_without_a_signal_a_file_to_take_along_is_said_not_to_be_kept(
    online: BrowserContext, visitor: Page, served: Served, copied: Path
) -> None:
    here = served.url + "larder/"
    visitor.goto(here + "index.html")
    visitor.evaluate(ACTIVE)
    online.set_offline(True)
    served.stop()
    visitor.goto(here + min(n for n in names(copied) if is_carried(n) and n.endswith(".html")))
    assert visitor.locator("h1").inner_text() == "This file is not kept on this device"
    visitor.locator("a").click()
    assert visitor.locator(".cover").is_visible()


def test_a_new_edition_takes_the_place_of_the_old_and_of_nothing_else(
    visitor: Page, served: Served, copied: Path
) -> None:
    here = served.url + "larder/"
    visitor.goto(here)
    visitor.evaluate(ACTIVE)
    visitor.evaluate("caches.open('another book')")
    (old,) = set(visitor.evaluate(KEPT)) - {"another book"}
    cover, worker = copied / "index.html", copied / WORKER
    cover.write_text(cover.read_text("utf-8").replace("</h1>", ", again</h1>"), "utf-8")
    visitor.reload()
    assert "again" not in visitor.locator("h1").inner_text()  # kept, for the worker is the same
    text = worker.read_text("utf-8")
    edition = text.split('EDITION = OURS + "')[1].split('"')[0]
    worker.write_text(text.replace(edition, "0123456789abcdef"), "utf-8")
    visitor.reload()
    visitor.evaluate(GONE, old)
    visitor.reload()
    assert "again" in visitor.locator("h1").inner_text()
    kept = set(visitor.evaluate(KEPT))
    assert "another book" in kept
    (new,) = kept - {"another book"}
    assert new.endswith("0123456789abcdef")
    assert new.startswith(f"book {here} ")


def test_a_book_that_is_half_fetched_is_not_kept(
    visitor: Page, served: Served, copied: Path
) -> None:
    (copied / "cautions.html").unlink()
    visitor.goto(served.url + "larder/")
    state = visitor.evaluate(
        """async () => {
          const found = await navigator.serviceWorker.register('worker.js')
          const worker = found.installing || found.waiting || found.active
          while (!['redundant', 'activated'].includes(worker.state)) {
            await new Promise(go => setTimeout(go, 50))
          }
          return worker.state
        }"""
    )
    assert state == "redundant"
    assert visitor.locator("h1").count() == 1


def test_a_picture_of_any_name_is_seen_offline(
    online: BrowserContext, visitor: Page, tmp_path: Path
) -> None:
    picture = "a & b (grün), 'c'; d+e=f@g!.svg"
    folder, out = tmp_path / "book", tmp_path / "root" / "my book"
    drawn = '<svg xmlns="http://www.w3.org/2000/svg" width="4" height="3" viewBox="0 0 4 3"/>'
    files = {
        "book.yaml": "title: Oats\n",
        "larder.yaml": "oats: {food: oats, dried: bought}\n",
        f"images/{picture}": drawn,
        "recipes/grütze.md": f'---\ntitle: Oats\npicture: "{picture}"\npicture text: Oats.\n'
        "ingredients: [1 cup oats]\n---\nPour {water}.\n",
    }
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    bind_book(reckoned(book, findings), out)
    served = Served(out.parent)
    visitor.goto(served.url + "my book/index.html")
    visitor.evaluate(ACTIVE)
    served.stop()
    online.set_offline(True)
    visitor.goto(served.url + "my book/recipes/grütze.html")
    image = visitor.locator("main img")
    assert image.evaluate("image => image.decode().then(() => image.naturalWidth)") == 4


def test_a_server_that_drops_the_endings_of_pages_is_no_hindrance(
    online: BrowserContext, visitor: Page, copied: Path
) -> None:
    served = Served(copied.parent, WithoutEndings)
    here = served.url + "larder/"
    visitor.goto(here)
    visitor.evaluate(ACTIVE)
    served.stop()
    online.set_offline(True)
    for name in ("recipes/beetroot-soup", "recipes/beetroot-soup.html", "", "larder"):
        visitor.goto(here + name)
        assert visitor.locator("h1").count() == 1, name


def test_the_manifest_is_one_that_a_browser_takes(
    online: BrowserContext, visitor: Page, served: Served
) -> None:
    visitor.goto(served.url + "larder/recipes/beetroot-soup.html")
    devtools = online.new_cdp_session(visitor)
    found = devtools.send("Page.getAppManifest")
    assert found["url"] == f"{served.url}larder/{MANIFEST}"
    assert found["errors"] == []
    assert found["manifest"]["startUrl"] == f"{served.url}larder/index.html"
    icons = [visitor.request.get(icon["url"]) for icon in found["manifest"]["icons"]]
    assert icons
    assert all(icon.ok and icon.text().startswith("<svg") for icon in icons)


def test_opened_from_a_folder_no_worker_and_no_manifest_is_asked_for(
    page: Page, site: Path, kinds: list[Path]
) -> None:
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.add_init_script(COUNTED)
    for path in [path for path in kinds if site in path.parents]:
        page.goto(path.as_uri())
        page.wait_for_load_state("load")
        assert page.evaluate("window.asked") == []
        assert page.locator("link[rel=manifest], link[rel=icon]").count() == 0
    assert said == []


def test_served_the_worker_is_asked_for_once(visitor: Page, served: Served) -> None:
    visitor.add_init_script(COUNTED)
    visitor.goto(served.url + "larder/recipes/beetroot-soup.html")
    visitor.evaluate(ACTIVE)
    assert visitor.evaluate("window.asked") == [f"{served.url}larder/{WORKER}"]
    assert visitor.locator("link[rel=manifest], link[rel=icon]").count() == 2


def test_where_the_worker_is_not_served_nothing_is_said(
    visitor: Page, served: Served, copied: Path
) -> None:
    (copied / WORKER).unlink()
    said: list[str] = []
    visitor.on("pageerror", lambda error: said.append(str(error)))
    visitor.goto(served.url + "larder/")
    visitor.wait_for_load_state("networkidle")
    assert said == []
    assert visitor.evaluate("navigator.serviceWorker.controller === null")
