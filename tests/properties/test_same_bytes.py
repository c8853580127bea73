"""The same text gives the same bytes: wherever, whenever and by whomever it is bound.

And so nothing of the place gets into a book: no path, no name of a user or a machine.
"""

from __future__ import annotations

import os
import platform
import shutil
import subprocess
import sys
import zipfile
from dataclasses import dataclass, field
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from tests.figures import figure
from tests.folders import differing, held, within
from tests.properties.author import small_demo

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

BIND: Final = """
import datetime as real
import os
import sys
from types import SimpleNamespace

from cookbook_build.commands import shared
from cookbook_build.publishing import binding

workers, day, mask = int(sys.argv[1]), real.datetime.fromisoformat(sys.argv[2]), int(sys.argv[3], 8)
os.umask(mask)
binding.hands = lambda parts: workers
shared.dt = SimpleNamespace(datetime=SimpleNamespace(now=lambda: day))

from cookbook_build.cli import main
main(["bind", *sys.argv[4:]])
"""


@dataclass(frozen=True)
class Place:
    """Where and how a book is bound."""

    folder: str
    workers: int = 1
    day: str = "2026-11-26T12:00"
    mask: str = "022"
    python: str = sys.executable
    words: tuple[str, ...] = ()
    around: Mapping[str, str] = field(default_factory=dict)


PYTHONS: Final = os.environ.get("COOKBOOK_PYTHONS_BESIDE", "").split()
"""Other Pythons with the same packages, such as those of other virtual environments."""
PLACES: Final = {
    "another folder": Place("Ein anderer Ort/ü & 'so'/library-of-otterbein"),
    "three processes": Place("b", workers=3),
    "another time zone": Place("b", around={"TZ": "Pacific/Kiritimati"}),
    "another language of the system": Place("b", around={"LC_ALL": "tr_TR.UTF-8", "LANG": "tr_TR"}),
    "no language of the system": Place("b", around={"LC_ALL": "C", "PYTHONUTF8": "0"}),
    "another hash seed": Place("b", around={"PYTHONHASHSEED": "4242"}),
    "another user": Place("b", around={"USER": "otterbein", "HOME": "/nonexistent/otterbein"}),
    "years later": Place("b", day="2031-02-28T23:59"),
    "nobody else may read": Place("b", mask="077"),
    "without asserts": Place("b", words=("-OO",)),
    **{f"the Python {path}": Place("b", python=path) for path in PYTHONS},
}


def bound(at: Place, root: Path, demo: Path) -> dict[str, bytes]:
    """Bind the same text at a place, and return every file that came out."""
    book = root / at.folder / "book"
    shutil.copytree(demo, book)
    out = book.with_name("out")
    ran = subprocess.run(  # noqa: S603 - our own
        [
            at.python, *at.words, "-c", BIND, str(at.workers), at.day, at.mask, str(book),
            "--out", str(out),
        ],
        env={**os.environ, "XDG_CACHE_HOME": str(root / "cache" / at.folder), **at.around},
        cwd=root,
        capture_output=True,
        text=True,
        encoding="utf-8",
        errors="replace",
        check=False,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stderr
    return held(out)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a small book with every kind of page."""
    return small_demo(tmp_path_factory.mktemp("demo") / "book")


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory, demo: Path) -> dict[str, bytes]:
    """Return the book as it is bound here and now."""
    return bound(Place("a", around={"PYTHONHASHSEED": "0"}), tmp_path_factory.mktemp("first"), demo)


@pytest.mark.parametrize("name", PLACES)
def test_it_is_the_same_bytes(
    name: str,
    demo: Path,
    first: dict[str, bytes],
    tmp_path: Path,
    record_property: Callable[[str, object], None],
) -> None:
    found = bound(PLACES[name], tmp_path, demo)
    assert differing(first, found) == []
    assert len(found) > 30
    figure(record_property, "files bound to the same bytes elsewhere or later", len(found))


def check_hours(files: dict[str, bytes]) -> None:
    """See that in each e-book the day is the text's newest, and the hour nobody's."""
    for name, data in files.items():
        if name.endswith(".epub"):
            with zipfile.ZipFile(BytesIO(data)) as container:
                for entry in container.infolist():
                    assert entry.date_time[3:] == (0, 0, 0), entry.filename


def test_nothing_of_the_place_stands_in_a_book(demo: Path, tmp_path: Path) -> None:
    at = Place(
        "zilverbes/otterbein",
        around={"USER": "otterbein", "LOGNAME": "otterbein", "HOSTNAME": "zilverbes"},
    )
    found = bound(at, tmp_path, demo)
    marks = [b"otterbein", b"zilverbes", str(tmp_path).encode()]
    # short ones, such as /root, stand in other words
    marks += [mark.encode() for mark in (str(Path.home()), platform.node()) if len(mark) > 6]
    check_hours(found)
    told = [(n, mark) for n, data in within(found) for mark in marks if mark in data]
    assert told == []
