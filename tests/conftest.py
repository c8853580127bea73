"""No test reads or fills the cache of whoever runs it; a small book, and a preview of one."""

from __future__ import annotations

import http.client
import os
import threading
import time
from collections import Counter
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

from tests.figures import PREFIX

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from pathlib import Path

    from cookbook_build.preview.kept import Renewal

settings.register_profile("by what comes out, not by the clock", deadline=None)
settings.load_profile("by what comes out, not by the clock")

SMALL_BOOK = {
    "book.yaml": "title: River shelf\nmeasures: us-cups\naltitude: 310 m\n",
    "larder.yaml": "lentils: {food: lentils cooked, dried: freeze, cooked first: true}\n"
    "leeks: {food: leeks raw, dried: freeze, form: sliced}\n"
    "carrots: {food: carrots raw, dried: air, form: diced 5 mm, weighs: 58 g per cup}\n"
    "salt: {food: salt, dried: bought}\n",
    "recipes/suppers/lentil-bowl.md": "---\ntitle: Lentil bowl\nconsistency: stew\ningredients:\n"
    "  - 1 cup lentils\n  - 2 tbsp leeks\n  - 1/8 tsp salt\n---\n"
    "Pour {water} of boiling water over the mix, cover it, and wait {rest}.\n",
    "recipes/leek-broth.md": "---\ntitle: Leek broth\nconsistency: soup\ningredients:\n"
    "  - 1/2 cup leeks\n  - 1/4 tsp salt\n---\nPour {water}, and wait {rest}.\n",
    "menus/paddle.yaml": "title: Two days of paddling\npeople: 2\nmeals:\n"
    "  - {day: 1, meal: supper, recipe: lentil-bowl}\n",
    "pages/the-shelf.md": "---\ntitle: The shelf\n---\nJars stand in the dark.\n",
}


@pytest.fixture(scope="session", autouse=True)
def _own_cache(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    before = os.environ.get("XDG_CACHE_HOME")
    os.environ["XDG_CACHE_HOME"] = str(tmp_path_factory.mktemp("cache"))
    yield
    if before is None:
        del os.environ["XDG_CACHE_HOME"]
    else:
        os.environ["XDG_CACHE_HOME"] = before


@pytest.fixture
def small_book(tmp_path: Path) -> Path:
    """Return a folder with a small sound book of two recipes."""
    folder = tmp_path / "book"
    for name, text in SMALL_BOOK.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")
    return folder


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print the figures that tests found, of the same name together."""
    found: Counter[str] = Counter()
    for report in terminalreporter.getreports("passed"):
        for name, number in report.user_properties:
            if name.startswith(PREFIX):
                found[name.removeprefix(PREFIX)] += int(str(number))
    if found:
        terminalreporter.section("figures")
        for name, number in sorted(found.items()):
            terminalreporter.write_line(f"{number:>8,}  {name}")


def until(holds: Callable[[], object], seconds: float = 30) -> None:
    """Wait until something holds."""
    end = time.monotonic() + seconds
    while not holds():
        assert time.monotonic() < end, "it never came"
        time.sleep(0.02)


class Previewed:
    """A preview that runs in a thread of its own."""

    def __init__(self, folder: Path) -> None:
        from cookbook_build.preview.serving import free_port  # noqa: PLC0415 - slow
        from cookbook_build.preview.session import Session, run  # noqa: PLC0415 - slow

        self.readings: list[tuple[Sequence[str], Renewal]] = []
        self.said: list[str] = []
        self.session = Session(folder, lambda *reading: self.readings.append(reading))
        self.port, listening = free_port(47_520)
        self.url = f"http://127.0.0.1:{self.port}/"
        told = (self.session, listening, None, self.said.append)
        self.thread = threading.Thread(target=run, args=told)
        self.thread.start()
        until(lambda: self.readings)

    def get(self, name: str, **headers: str) -> tuple[int, str, bytes]:
        """Return the status, the type and the body of what stands at a name."""
        asked = http.client.HTTPConnection("127.0.0.1", self.port, timeout=30)
        asked.request("GET", "/" + name, headers=headers)
        answer = asked.getresponse()
        found = answer.status, answer.getheader("Content-Type", ""), answer.read()
        asked.close()
        return found

    def text(self, name: str) -> str:
        """Return the text of a page."""
        return self.get(name)[2].decode()

    def stop(self) -> None:
        """End it, and see that nothing of it goes on."""
        if self.session.ended.is_set():
            return
        self.session.ended.set()
        self.thread.join(30)
        assert not self.thread.is_alive()
        with pytest.raises(OSError, match=r"refused|reset"):
            self.get("")


@pytest.fixture
def previewed() -> Iterator[Callable[[Path], Previewed]]:
    """Give what begins a preview of a folder; each ends with the test."""
    running: list[Previewed] = []

    def begin(folder: Path) -> Previewed:
        running.append(Previewed(folder))
        return running[-1]

    yield begin
    for one in running:
        one.stop()


@pytest.fixture
def wait() -> Callable[..., None]:
    """Return what waits until something holds."""
    return until


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Try browsers last: while one is driven, its loop stands in the way of other servers' own."""
    items.sort(key=lambda item: "browser" in item.path.parts)
