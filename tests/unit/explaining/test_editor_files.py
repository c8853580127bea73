"""The command `editor-help`: what it writes, what it says, and that it touches nothing else."""

from __future__ import annotations

import json
import os
import re
import shutil
import stat
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from cookbook_build.cli import main
from cookbook_build.explaining.editor_files import add_line, schema_line, with_line, yaml_files
from cookbook_build.explaining.schemas import schemas
from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book

DEMO = Path(__file__).parents[3] / "content_demo"
OURS = ("book.yaml", "larder.yaml", "menus/midsummer-paddle.yaml")


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Return a copy of the demo book, with a menu further down."""
    folder = tmp_path / "our book"
    shutil.copytree(DEMO, folder)
    (folder / "menus" / "later").mkdir()
    shutil.copy(folder / OURS[2], folder / "menus" / "later" / "autumn.yaml")
    return folder


def bytes_of(folder: Path) -> dict[str, bytes]:
    """Return every file of a folder but those for editors."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and ".editor" not in path.parts
    }


def run(*arguments: str) -> tuple[int, str]:
    """Return the exit code and what was said."""
    result = CliRunner().invoke(main, ["editor-help", *arguments])
    return result.exit_code, result.output


def test_it_writes_a_schema_of_each_kind_and_nothing_else(book: Path) -> None:
    before = bytes_of(book)
    code, _ = run(str(book))
    assert code == 0
    assert bytes_of(book) == before
    written = {path.name: path for path in (book / ".editor").iterdir()}
    assert sorted(written) == sorted(f"{name}.json" for name in schemas())
    for name, schema in schemas().items():
        assert json.loads(written[f"{name}.json"].read_text(encoding="utf-8")) == schema


def test_it_says_the_line_of_each_file(book: Path) -> None:
    said = run(str(book))[1]
    for name in OURS:
        assert schema_line(name) in said
    assert schema_line("menus/later/autumn.yaml") in said
    assert f'editor-help "{book.as_posix()}" --add-lines' in said


@pytest.mark.parametrize("name", [*OURS, "menus/later/autumn.yaml", "recipes/a/b.md", "pages/a.md"])
def test_the_line_of_each_file_leads_to_its_schema_from_where_it_is(book: Path, name: str) -> None:
    run(str(book))
    line = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", schema_line(name))
    assert line
    found = ((book / name).parent / line[1]).resolve()
    assert found.parent == (book / ".editor").resolve()
    wanted = {"menus": "menu", "recipes": "recipe", "pages": "page"}
    assert found.stem == wanted.get(name.split("/", maxsplit=1)[0], name.removesuffix(".yaml"))


def test_it_adds_the_line_only_when_asked_and_touches_nothing_else(book: Path) -> None:
    before = bytes_of(book)
    code, said = run(str(book), "--add-lines")
    assert code == 0
    after = bytes_of(book)
    changed = {name for name in before if before[name] != after[name]}
    assert changed == {*OURS, "menus/later/autumn.yaml"}
    for name in changed:
        assert after[name] == schema_line(name).encode() + b"\n" + before[name]
        assert f"{name}: the line was added." in said
    assert set(after) == set(before)  # and no file beside is left behind


def test_a_book_with_the_lines_is_as_sound_as_before(book: Path) -> None:
    (book / "menus/later/autumn.yaml").unlink()
    run(str(book), "--add-lines")
    findings = Findings()
    assert read_book(book, findings) is not None
    assert not len(findings)


def test_a_line_that_is_there_is_not_added_again(book: Path) -> None:
    run(str(book), "--add-lines")
    before = bytes_of(book)
    code, said = run(str(book), "--add-lines")
    assert code == 0
    assert said.count("has the line already") == 4
    assert bytes_of(book) == before


def test_another_such_line_is_left_as_it_is(book: Path) -> None:
    text = "# ours\n# yaml-language-server: $schema=https://example.org/a.json\ntitle: Ours\n"
    (book / "book.yaml").write_text(text, encoding="utf-8", newline="\n")
    said = run(str(book), "--add-lines")[1]
    assert "book.yaml: has another such line, which was left as it is." in said
    assert (book / "book.yaml").read_bytes() == text.encode()


def test_a_file_of_another_encoding_is_left_as_it_is(book: Path) -> None:
    data = "title: Näh\n".encode("latin-1")
    (book / "book.yaml").write_bytes(data)
    code, said = run(str(book), "--add-lines")
    assert code == 0
    assert "book.yaml: is not written as UTF-8, and was left as it is." in said
    assert (book / "book.yaml").read_bytes() == data


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_line_ends_and_the_byte_order_mark_stay(end: str, mark: bytes) -> None:
    data = mark + f"title: Ours{end}altitude: 310 m{end}".encode()
    assert with_line(data, "# a") == mark + f"# a{end}".encode() + data.removeprefix(mark)


@given(st.text())
def test_nothing_of_a_file_is_lost(text: str) -> None:
    changed = with_line(text.encode(), "# a").decode()
    mark, line, end = re.match(r"(\ufeff?)(# a)(\r\n|\n|\r)", changed).groups()  # type: ignore[union-attr]
    assert mark + changed.removeprefix(mark + line + end) == text


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such modes")
def test_a_files_mode_stays_and_a_link_stays_a_link(book: Path) -> None:
    (book / "book.yaml").chmod(0o640)
    (book / "larder.yaml").rename(book / "shared.yaml")
    (book / "larder.yaml").symlink_to("shared.yaml")
    run(str(book), "--add-lines")
    assert stat.S_IMODE((book / "book.yaml").stat().st_mode) == 0o640
    assert (book / "larder.yaml").is_symlink()
    assert (book / "shared.yaml").read_text(encoding="utf-8").startswith("# yaml-language-server")


def test_what_is_there_already_is_not_written_again(book: Path) -> None:
    run(str(book))
    path = book / ".editor" / "book.json"
    os.utime(path, ns=(1, 1))
    run(str(book))
    assert path.stat().st_mtime_ns == 1


def test_a_folder_that_is_no_book_is_wrong_use(tmp_path: Path) -> None:
    code, said = run(str(tmp_path))
    assert code == 2
    assert "holds no book.yaml" in said
    assert not list(tmp_path.iterdir())


def test_a_place_that_cant_be_written_ends_with_a_sentence(book: Path) -> None:
    (book / ".editor").write_text("a file is in the way", encoding="utf-8")
    code, said = run(str(book))
    assert code == 3
    assert "could not be written" in said
    assert "Traceback" not in said


def test_a_file_that_cant_be_put_in_place_stays_whole(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    run(str(book))
    before = bytes_of(book)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    code, said = run(str(book), "--add-lines")
    assert code == 3
    assert "book.yaml could not be written (No space left on device)." in said
    assert bytes_of(book) == before


def test_the_files_are_named_from_the_book(book: Path) -> None:
    assert list(yaml_files(book)) == [*OURS[:2], "menus/later/autumn.yaml", OURS[2]]
    assert add_line(book, OURS[2]) == "added"
