"""What `start` asks, writes, refuses and says."""

from __future__ import annotations

import os
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main
from cookbook_build.commands import start as command
from cookbook_build.starter import writing
from cookbook_build.starter.files import starter_files

if TYPE_CHECKING:
    from click.testing import Result


def run(*words: str, typed: str | None = None) -> Result:
    """Run a command as somebody types it."""
    return CliRunner().invoke(main, list(words), input=typed)


def book_lines(folder: Path) -> dict[str, str]:
    """Return what the lines of a book.yaml say."""
    text = (folder / "book.yaml").read_text(encoding="utf-8")
    return dict(re.findall(r"^(\w+): (.*)$", text, re.MULTILINE))


@pytest.fixture
def terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(command, "on_terminal", lambda: True)


def test_it_writes_a_book_that_proofs_and_binds(tmp_path: Path) -> None:
    folder = tmp_path / "My book"
    made = run("start", str(folder), "--language", "es")
    assert made.exit_code == 0, made.output
    proof = run("proof", str(folder))
    assert (proof.exit_code, "Nothing to mend." in proof.output) == (0, True)
    bound = run("bind", str(folder), "--out", str(tmp_path / "site"))
    assert bound.exit_code == 0, bound.output
    assert "Lentejas con puerros" in (tmp_path / "site/index.html").read_text(encoding="utf-8")


def test_it_names_the_next_commands_with_the_folder_as_it_is_typed(tmp_path: Path) -> None:
    folder = tmp_path / "My book"
    said = run("start", str(folder)).output
    for name in ("preview", "proof", "bind"):
        assert f'cookbook-build {name} "{folder}"' in said
    assert len(said.splitlines()) <= 6


def test_where_nobody_can_be_asked_it_takes_the_usual(tmp_path: Path) -> None:
    assert run("start", str(tmp_path / "book")).exit_code == 0
    lines = book_lines(tmp_path / "book")
    assert lines["title"] == "Our larder book"
    assert lines["language"] == "en"
    assert lines["measures"] == "us-cups"


@pytest.mark.usefixtures("terminal")
def test_yes_asks_nothing_on_a_terminal(tmp_path: Path) -> None:
    made = run("start", str(tmp_path / "book"), "--yes", typed="")
    assert made.exit_code == 0, made.output
    assert "[" not in made.output


@pytest.mark.usefixtures("terminal")
def test_it_asks_for_what_was_not_said_and_enter_takes_the_usual(tmp_path: Path) -> None:
    made = run("start", str(tmp_path / "book"), "--title", "Ours", typed="es\n\n1000 ft\n")
    assert made.exit_code == 0, made.output
    assert "Title" not in made.output
    assert "Cups [metric-cups]" in made.output
    lines = book_lines(tmp_path / "book")
    assert (lines["title"], lines["language"]) == ("Ours", "es")
    assert (lines["measures"], lines["altitude"]) == ("metric-cups", "1000 ft")


@pytest.mark.usefixtures("terminal")
def test_a_wrong_answer_is_asked_again_with_the_reason(tmp_path: Path) -> None:
    made = run("start", str(tmp_path / "book"), typed="klingon\nen\n\nspoons\n\nhigh\n310 m\n")
    assert made.exit_code == 0, made.output
    assert '"klingon" is not a language tag; write a tag such as en' in made.output
    assert '"spoons" is none of the cups' in made.output
    assert '"high" does not begin with a number' in made.output
    assert book_lines(tmp_path / "book")["altitude"] == "310 m"


@pytest.mark.usefixtures("terminal")
def test_who_leaves_in_the_middle_leaves_nothing_behind(tmp_path: Path) -> None:
    made = run("start", str(tmp_path / "book"), typed="en\n")
    assert made.exit_code == 1
    assert "Nothing was written." in made.output
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="this system has no terminals to lend")
def test_a_real_terminal_is_asked(tmp_path: Path) -> None:
    import subprocess  # noqa: PLC0415 - here only

    ours, theirs = os.openpty()
    with subprocess.Popen(  # noqa: S603 - our own
        [sys.executable, "-m", "cookbook_build", "start", str(tmp_path / "book")],
        stdin=theirs,
        stdout=subprocess.PIPE,
        encoding="utf-8",
    ) as process:
        os.write(ours, b"\n\n\n1000 ft\n")
        said, _ = process.communicate(timeout=60)
    os.close(ours)
    os.close(theirs)
    assert process.returncode == 0
    assert "Altitude" in said
    assert book_lines(tmp_path / "book")["altitude"] == "1000 ft"


@pytest.mark.parametrize(
    ("option", "value", "said"),
    [
        ("--altitude", "high", "does not begin with a number"),
        ("--measures", "metrik-cups", "write metric-cups"),
        ("--language", "fr", "write en or es"),
        ("--title", "  ", "at least one letter"),
    ],
)
def test_a_wrong_option_is_named_and_nothing_is_written(
    tmp_path: Path, option: str, value: str, said: str
) -> None:
    made = run("start", str(tmp_path / "book"), option, value)
    assert made.exit_code == 2
    assert option in made.output
    assert said in made.output
    assert list(tmp_path.iterdir()) == []


def snapshot(folder: Path) -> dict[str, bytes | None]:
    """Return every file and folder within a folder, hidden ones too."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() if path.is_file() else None
        for path in sorted(folder.rglob("*"))
    }


@pytest.mark.parametrize("name", ["notes.txt", "book.yaml", ".hidden", "recipes/x.md"])
def test_a_folder_that_holds_anything_is_left_as_it_is(tmp_path: Path, name: str) -> None:
    (tmp_path / name).parent.mkdir(exist_ok=True)
    (tmp_path / name).write_text("mine", encoding="utf-8")
    before = snapshot(tmp_path)
    made = run("start", str(tmp_path))
    assert made.exit_code == 2
    assert f'"{name.split("/", maxsplit=1)[0]}"' in made.output
    assert len(made.output.splitlines()) == 1
    assert snapshot(tmp_path) == before


def test_a_file_of_that_name_is_left_as_it_is(tmp_path: Path) -> None:
    (tmp_path / "book").write_text("mine", encoding="utf-8")
    made = run("start", str(tmp_path / "book"))
    assert (made.exit_code, len(made.output.splitlines())) == (2, 1)
    assert snapshot(tmp_path) == {"book": b"mine"}


def test_a_link_to_nowhere_is_left_as_it_is(tmp_path: Path) -> None:
    try:
        (tmp_path / "book").symlink_to(tmp_path / "nowhere")
    except OSError:
        pytest.skip("this system lets nobody make links")
    assert run("start", str(tmp_path / "book")).exit_code == 2
    assert (tmp_path / "book").is_symlink()
    assert not (tmp_path / "nowhere").exists()


def test_files_of_version_control_stay_and_are_no_hindrance(tmp_path: Path) -> None:
    (tmp_path / ".git").mkdir()
    (tmp_path / ".git/HEAD").write_text("ref", encoding="utf-8")
    (tmp_path / ".gitignore").write_text("site\n", encoding="utf-8")
    assert run("start", str(tmp_path)).exit_code == 0
    kept = snapshot(tmp_path)
    assert (kept[".git/HEAD"], kept[".gitignore"]) == (b"ref", b"site\n")
    assert set(starter_files("en")) <= set(kept)


def test_the_folder_that_one_stands_in_can_become_the_book(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    made = run("start", ".")
    assert made.exit_code == 0, made.output
    assert run("proof").exit_code == 0
    assert Path("book.yaml").is_file()


def test_files_are_the_same_on_every_system(tmp_path: Path) -> None:
    run("start", str(tmp_path / "book"), "--language", "es")
    for data in snapshot(tmp_path).values():
        assert data is None or b"\r" not in data
    for name in starter_files("es"):
        assert re.fullmatch(r"[a-z./-]+", name)


@pytest.mark.parametrize("exists", [False, True])
@pytest.mark.parametrize("after", range(6))
def test_a_disk_that_fills_up_leaves_nothing_half_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, after: int, *, exists: bool
) -> None:
    folder = tmp_path / "deep/er/book"
    if exists:
        folder.mkdir(parents=True)
        (folder / ".gitignore").write_text("site\n", encoding="utf-8")
    before = snapshot(tmp_path)
    write, written = Path.write_text, []

    def fills_up(path: Path, text: str, **named: str) -> int:
        written.append(path)
        if len(written) > after:
            raise OSError(28, "No space left on device")
        return write(path, text, **named)

    monkeypatch.setattr(Path, "write_text", fills_up)
    made = run("start", str(folder))
    assert made.exit_code == 3
    assert "can't be written: No space left on device." in made.output
    assert snapshot(tmp_path) == before


@pytest.mark.parametrize("exists", [False, True])
@pytest.mark.parametrize("after", range(5))
def test_a_move_that_fails_takes_back_what_was_moved(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, after: int, *, exists: bool
) -> None:
    folder = tmp_path / "book"
    if exists:
        folder.mkdir()
    before = snapshot(tmp_path)
    rename, moves = Path.rename, []

    def stuck(path: Path, target: Path) -> Path:
        moves.append(path)
        if len(moves) > (after if exists else 0):
            raise PermissionError(13, "Permission denied")
        return rename(path, target)

    monkeypatch.setattr(Path, "rename", stuck)
    made = run("start", str(folder))
    assert made.exit_code == 3
    assert "Permission denied" in made.output
    assert snapshot(tmp_path) == before


def test_what_somebody_puts_there_meanwhile_is_not_written_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    rename = Path.rename

    def meanwhile(path: Path, target: Path) -> Path:
        (tmp_path / "book.yaml").write_text("mine", encoding="utf-8")
        return rename(path, target)

    monkeypatch.setattr(Path, "rename", meanwhile)
    assert run("start", str(tmp_path)).exit_code == 3
    assert snapshot(tmp_path) == {"book.yaml": b"mine"}


def test_a_folder_in_a_file_can_not_be_written(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine", encoding="utf-8")
    made = run("start", str(tmp_path / "file" / "book"))
    assert made.exit_code == 3
    assert snapshot(tmp_path) == {"file": b"mine"}


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("con", "device"),
        ("Aux.book", "device"),
        ("com1", "device"),
        ("a:b", "':'"),
        ("what?", "'?'"),
        ("book.", "full stop"),
        ("book ", "space"),
    ],
)
def test_names_that_windows_refuses_are_told(name: str, why: str) -> None:
    """Names as in Microsoft's page "Naming Files, Paths, and Namespaces" (from memory)."""
    found = writing.refused_by_windows(name)
    assert found is not None
    assert why in found


@pytest.mark.parametrize("name", ["my book", "console", "ñandú", ".book", "com", "..", "."])
def test_other_names_are_fine_on_windows(name: str) -> None:
    assert writing.refused_by_windows(name) is None


@pytest.mark.parametrize(
    ("name", "posix", "windows"),
    [
        ("my-book", "my-book", "my-book"),
        ("My book", '"My book"', '"My book"'),
        ("cena para ñandú", '"cena para ñandú"', '"cena para ñandú"'),
        ("a$b", "'a$b'", '"a$b"'),
        ("it's", '"it\'s"', '"it\'s"'),
        ("a\\b", "'a\\b'", "a\\b"),
        ("-x", f".{os.sep}-x", f".{os.sep}-x"),
        ("~x", '"~x"', '"~x"'),
    ],
)
def test_a_name_is_quoted_where_a_command_line_needs_it(
    name: str, posix: str, windows: str
) -> None:
    assert command.shell_word(name, "posix") == posix
    assert command.shell_word(name, "nt") == windows
