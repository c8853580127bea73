"""A book's own files are written by the commands that say so, and by no other."""

from __future__ import annotations

import os
import shutil
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main
from tests.figures import figure
from tests.folders import held
from tests.properties.author import small_demo

if TYPE_CHECKING:
    from collections.abc import Callable

READING: Final = {
    "proof": ["proof", "{book}"],
    "proof, for tools": ["proof", "{book}", "--json"],
    "bind": ["bind", "{book}", "--out", "{out}"],
    "water": ["water", "beetroot-soup", "--book", "{book}"],
    "provision": ["provision", "midsummer-paddle", "--book", "{book}"],
    "foods": ["foods", "leeks raw"],
    "a draft that is only shown": ["draft", "{letter}", "--book", "{book}", "--print"],
    "help for an editor": ["editor-help", "{book}"],
}
WRITING: Final = {
    "a draft": (["draft", "{letter}", "--book", "{book}"], {"recipes/drafts/elderflower-cup.md"}),
    "a store": (["foods", "sorrel raw", "--add", "--book", "{book}"], {"larder.yaml"}),
    "lines for an editor": (
        ["editor-help", "{book}", "--add-lines"],
        {"book.yaml", "larder.yaml", "menus/midsummer-paddle.yaml"},
    ),
}
LETTER: Final = (
    "Elderflower cup\n\nIngredients\n2 tbsp dried elderflowers\n\nMethod\nPour and wait.\n"
)


def state(book: Path) -> dict[str, tuple[bytes, int]]:
    """Return what each file of a book holds, and when it was written."""
    return {
        name: (data, (book / name).stat().st_mtime_ns)
        for name, data in held(book).items()
        if not name.startswith(".editor/")
    }


def ran(arguments: list[str], tmp_path: Path) -> None:
    """Run a command on the book of a folder, and see that it succeeds."""
    (tmp_path / "letter.txt").write_text(LETTER, encoding="utf-8")
    names = {name: str(tmp_path / name) for name in ("book", "out")}
    names["letter"] = str(tmp_path / "letter.txt")
    result = CliRunner().invoke(main, [one.format(**names) for one in arguments])
    assert result.exit_code == 0, result.output


@pytest.mark.parametrize("name", READING)
def test_no_file_of_a_book_is_written_by_a_command_that_reads(
    name: str, tmp_path: Path, record_property: Callable[[str, object], None]
) -> None:
    book = small_demo(tmp_path / "book")
    before = state(book)
    ran(READING[name], tmp_path)
    assert state(book) == before
    figure(record_property, "files of a book left as they were by commands that read", len(before))


@pytest.mark.parametrize("name", WRITING)
def test_what_is_written_is_put_in_place_whole(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = small_demo(tmp_path / "book")
    before, arguments, written = state(book), *WRITING[name]

    def moved(path: Path, target: str | Path) -> Path:
        if Path(target).is_relative_to(book):
            moves.append(Path(target).relative_to(book).as_posix())
            assert path.stat().st_size  # it is whole before it has its name
        os.replace(path, target)  # noqa: PTH105 - the other is this one
        return Path(target)

    moves: list[str] = []
    monkeypatch.setattr(Path, "replace", moved)
    monkeypatch.setattr(Path, "rename", moved)
    ran(arguments, tmp_path)
    after = state(book)
    assert {file for file in after if after[file] != before.get(file)} == written
    assert before.keys() <= after.keys()
    assert written <= set(moves)


@pytest.mark.skipif(os.name == "nt", reason="links need a right there")
def test_nothing_is_written_through_a_link_that_leads_out(tmp_path: Path) -> None:
    book, away = small_demo(tmp_path / "book"), tmp_path / "away"
    away.mkdir()
    (away / "profile").write_text("not ours\n", encoding="utf-8")
    menu = book / "menus/midsummer-paddle.yaml"
    menu.unlink()
    menu.symlink_to(away / "profile")
    added = CliRunner().invoke(main, ["editor-help", str(book), "--add-lines"])
    assert "leads out of the book" in added.output
    shutil.rmtree(book / ".editor")
    (book / ".editor").symlink_to(away, target_is_directory=True)
    schemas = CliRunner().invoke(main, ["editor-help", str(book)])
    assert schemas.exit_code == 3
    assert "leads out of the book" in schemas.output
    shutil.rmtree(book / "recipes")
    (book / "recipes").symlink_to(away, target_is_directory=True)
    (tmp_path / "letter.txt").write_text(LETTER, encoding="utf-8")
    draft = CliRunner().invoke(main, ["draft", str(tmp_path / "letter.txt"), "--book", str(book)])
    assert draft.exit_code == 3, draft.output
    assert "leads out of the book" in draft.output
    assert [path.name for path in away.iterdir()] == ["profile"]
    assert (away / "profile").read_text(encoding="utf-8") == "not ours\n"


@pytest.mark.skipif(os.name == "nt", reason="links need a right there")
def test_a_link_laid_where_a_new_file_may_be_written_is_left_alone(tmp_path: Path) -> None:
    book, away = small_demo(tmp_path / "book"), tmp_path / "profile"
    away.write_text("not ours\n", encoding="utf-8")
    (book / "recipes/drafts").mkdir()
    for name in (".elderflower-cup.md.part", ".elderflower-cup.md", "elderflower-cup.md~"):
        (book / "recipes/drafts" / name).symlink_to(away)
    ran(WRITING["a draft"][0], tmp_path)
    assert (book / "recipes/drafts/elderflower-cup.md").is_file()
    assert away.read_text(encoding="utf-8") == "not ours\n"
