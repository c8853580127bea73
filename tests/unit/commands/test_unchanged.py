"""A book that was bound already is told again; whatever is another byte is bound anew."""

from __future__ import annotations

import datetime as dt
import json
import os
import subprocess
import sys
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main
from cookbook_build.commands import unchanged
from cookbook_build.commands.unchanged import record_of
from cookbook_build.publishing import binding

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from click.testing import Result

FAR = "recipes/far.md"
FAR_TEXT = (
    "---\ntitle: Far\nconsistency: stew\ningredients: [1 cup lentils]\n"
    "tested: {method: kettle, water: 4 cups, rest: 10 min}\n---\nPour {water}.\n"
)


class Bench:
    """A book, where it goes, and how often it was really bound."""

    def __init__(self, book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.book, self.site = book, book.parent / "site"
        self.times = 0
        bind_book = binding.bind_book

        def counted(*given: object) -> object:
            self.times += 1
            return bind_book(*given)  # type: ignore[arg-type]

        monkeypatch.setattr(binding, "bind_book", counted)
        monkeypatch.setenv("XDG_CACHE_HOME", str(book.parent / "cache"))

    def bind(self) -> Result:
        """Bind it by its command."""
        return CliRunner().invoke(main, ["bind", str(self.book), "--out", str(self.site)])

    def record(self) -> Path:
        """Return the file of the record."""
        found = record_of(self.book, self.site)
        assert found is not None
        return found.path


@pytest.fixture
def bench(small_book: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    """Return a small book with a warning, bound once."""
    (small_book / FAR).write_text(FAR_TEXT, encoding="utf-8", newline="\n")
    made = Bench(small_book, monkeypatch)
    assert made.bind().exit_code == 0
    return made


def test_nothing_changed_says_the_same_and_binds_nothing(bench: Bench) -> None:
    (bench.book / FAR).write_text(FAR_TEXT.replace("Far", "Further"), encoding="utf-8")
    first, second = bench.bind(), bench.bind()
    assert "is far more than" in first.stderr
    assert (second.exit_code, second.stdout, second.stderr) == (0, first.stdout, first.stderr)
    assert bench.times == 2


SCRIPT = """
import json, sys
from cookbook_build.cli import main
try:
    main(["bind", *sys.argv[1:]])
except SystemExit as end:
    assert end.code == 0, end.code
print("LOADED" + json.dumps(sorted(name.split(".")[0] for name in sys.modules)))
"""


def test_what_is_recognised_loads_nothing_heavy(bench: Bench) -> None:
    ran = subprocess.run(  # noqa: S603 - our own
        [sys.executable, "-c", SCRIPT, str(bench.book), "--out", str(bench.site)],
        capture_output=True, check=True, encoding="utf-8",
    )  # fmt: skip
    said, _, names = ran.stdout.rpartition("LOADED")
    assert "Bound" in said
    heavy = {"numpy", "pydantic", "jinja2", "pint", "markdown_it", "PIL", "yaml", "lxml", "rich"}
    assert not heavy & set(json.loads(names))


def written(name: str, text: str) -> Callable[[Bench], object]:
    """Return what writes a file of the book."""

    def write(bench: Bench) -> None:
        path = bench.book / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")

    return write


CHANGES: dict[str, Callable[[Bench], object]] = {
    "a recipe": written(FAR, FAR_TEXT.replace("4 cups", "5 cups")),
    "another recipe": written("recipes/new.md", FAR_TEXT.replace("Far", "New")),
    "a recipe less": lambda bench: (bench.book / FAR).unlink(),
    "the same bytes by another name": lambda bench: (bench.book / FAR).rename(
        bench.book / "recipes" / "afar.md"
    ),
    "a style": written("theme/own.css", "h1 { color: #123 }\n"),
    "an empty folder": lambda bench: (bench.book / "images").mkdir(),
    "a page of the site": lambda bench: (bench.site / "index.html").write_text("x"),
    "a page lost": lambda bench: (bench.site / "index.html").unlink(),
    "a torn record": lambda bench: bench.record().write_bytes(bench.record().read_bytes()[:-9]),
    "an empty record": lambda bench: bench.record().write_bytes(b""),
    "a strange record": lambda bench: bench.record().write_text('{"digest": 1, "body": []}'),
    "a record that says otherwise": lambda bench: bench.record().write_text(
        bench.record().read_text().replace("Bound", "Found")
    ),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES.keys())
def test_whatever_changed_is_bound_anew(bench: Bench, change: Callable[[Bench], object]) -> None:
    change(bench)
    assert bench.bind().exit_code == 0
    assert bench.times == 2
    assert "Further" not in (bench.site / "index.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("of", ["program", "the day", "SOURCE_DATE_EPOCH"])
def test_another_program_or_day_binds_anew(
    bench: Bench, of: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    if of == "program":
        monkeypatch.setattr(unchanged, "program", lambda: "another")
    elif of == "the day":

        class Later(dt.datetime):
            @classmethod
            def now(cls, tz: dt.tzinfo | None = None) -> Later:
                return cls(2126, 1, 1, tzinfo=tz)

        monkeypatch.setattr(dt, "datetime", Later)
    else:
        monkeypatch.setenv(of, "1700000000")
    bench.bind()
    assert bench.times == 2


def test_a_file_of_someone_else_in_the_site_is_still_refused(bench: Bench) -> None:
    (bench.site / "notes.txt").write_text("mine", encoding="utf-8")
    result = bench.bind()
    assert result.exit_code == 3
    assert "notes.txt" in result.stderr


def test_a_record_of_another_book_is_not_taken(bench: Bench, tmp_path: Path) -> None:
    other = bench.book.rename(tmp_path / "other")
    bench.book = other
    assert "Bound" in bench.bind().stdout
    assert bench.times == 2


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="no links here")
def test_what_links_elsewhere_is_never_recognised(bench: Bench, tmp_path: Path) -> None:
    try:
        (bench.book / "pages" / "away.md").symlink_to(tmp_path / "away.md")
    except OSError:
        pytest.skip("this machine allows no links")
    assert record_of(bench.book, bench.site) is None


def test_a_full_disk_of_the_cache_stops_nothing(bench: Bench) -> None:
    record = bench.record()
    record.unlink()
    record.mkdir()
    assert bench.bind().exit_code == 0
    assert bench.times == 2
