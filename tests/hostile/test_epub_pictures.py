"""Pictures that no e-book can hold, and a clock that is none: told, and nothing half written."""

from __future__ import annotations

import zipfile
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main

if TYPE_CHECKING:
    from pathlib import Path

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3">{}</svg>'
PICTURES = {
    "script.svg": (SVG.format("<script>1</script>").encode(), "holds a script", "plain SVG"),
    "fetch.svg": (SVG.format('<image href="a.png"/>').encode(), "outside the book", "plain SVG"),
    "latin.svg": (SVG.format("<text>\xe4</text>").encode("latin-1"), "not UTF-8", "plain SVG"),
    "half.svg": (SVG.format("<g>").encode(), "breaks off", "plain SVG"),
    "half.png": (b"\x89PNG\r\n\x1a\n\0\0", "breaks off", "PNG or JPEG"),
    "new.avif": (b"\0\0\0 ftypavif", "none of the kinds", "PNG or JPEG"),
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


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_that_an_e_book_cannot_hold_is_told_and_left_out_with_its_words(
    name: str, tmp_path: Path
) -> None:
    data, cause, mend = PICTURES[name]
    book, out = written(tmp_path / "book", name, data), tmp_path / "site"
    result = CliRunner().invoke(main, ["bind", str(book), "--out", str(out)])
    assert result.exit_code == 0, result.output
    assert f"images/{name}:1:" in result.output
    assert cause in result.output
    assert mend in result.output
    assert "1 warning." in result.output
    with zipfile.ZipFile(out / "a-book.epub") as held:
        assert not [inside for inside in held.namelist() if "pictures/" in inside]
        assert "[Picture: A bowl on a stone]" in held.read("EPUB/recipe-bowl.xhtml").decode()
    assert (out / "images" / name).read_bytes() == data, "the folder of pages has it as ever"


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
