"""Pictures that no e-book can hold, and a clock that is none: told, and nothing half written."""

from __future__ import annotations

import re
import zipfile
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main

if TYPE_CHECKING:
    from pathlib import Path

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3">{}</svg>'
PICTURES = {
    "two parts of one name": (SVG.format('<g id="a"/><g id="a"/>'), 'two parts named "a"'),
    "a part that isn't there": (SVG.format('<use href="#b"/>'), 'uses a part "b"'),
    "a name that is none in XML": (SVG.format('<g id="1 a"/>'), 'names a part "1 a"'),
}


def written(folder: Path, name: str, data: bytes) -> Path:
    """Write a small book whose recipe shows one picture."""
    files = {
        "book.yaml": "title: A book\n",
        "larder.yaml": "oats: {food: oats, dried: bought}\n",
        "recipes/a/bowl.md": "---\ntitle: Bowl\ningredients:\n  - 1 cup oats\n---\n"
        f"![A bowl on a stone]({name})\n",
    }
    for path, text in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text, encoding="utf-8")
    (folder / "images").mkdir()
    (folder / "images" / name).write_bytes(data)
    (folder / "images" / "unused.png").write_bytes(b"not shown, so not told")
    return folder


@pytest.mark.parametrize("command", ["proof", "bind"])
@pytest.mark.parametrize("name", PICTURES)
def test_a_drawing_that_an_e_book_cannot_hold_is_told_and_left_out_with_its_words(
    name: str, command: str, tmp_path: Path
) -> None:
    text, cause = PICTURES[name]
    book, out = written(tmp_path / "book", "a.svg", text.encode()), tmp_path / "site"
    words = [command, str(book), *(["--out", str(out)] if command == "bind" else [])]
    result = CliRunner().invoke(main, words)
    assert result.exit_code == 0, result.output
    assert "recipes/a/bowl.md:6:" in result.output
    assert 'no e-book can hold "a.svg": it' in result.output
    assert cause in result.output
    assert "plain SVG" in result.output
    assert re.search(r"\b1 warning\b", result.output)
    if command == "proof":
        return
    with zipfile.ZipFile(out / "a-book.epub") as held:
        assert not [inside for inside in held.namelist() if "pictures/" in inside]
        assert "[Picture: A bowl on a stone]" in held.read("EPUB/recipe-bowl.xhtml").decode()
    assert (out / "images" / "a.svg").is_file(), "the folder of pages has it as ever"


@pytest.mark.parametrize("said", ["yesterday", "-1", "1.5", "9" * 30])
def test_a_clock_that_is_none_is_told_and_the_old_book_stays(
    said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book, out = written(tmp_path / "book", "a.svg", SVG.encode()), tmp_path / "site"
    words = ["bind", str(book), "--out", str(out)]
    assert CliRunner().invoke(main, words).exit_code == 0
    before = {path: path.read_bytes() for path in out.rglob("*") if path.is_file()}
    monkeypatch.setenv("SOURCE_DATE_EPOCH", said)
    result = CliRunner().invoke(main, words)
    assert result.exit_code == 3
    assert f'SOURCE_DATE_EPOCH is "{said}"' in result.output
    assert "SOURCE_DATE_EPOCH=1767225600" in result.output
    assert {path: path.read_bytes() for path in out.rglob("*") if path.is_file()} == before
