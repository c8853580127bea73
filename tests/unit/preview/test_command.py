"""The command as its user meets it: where to look, what changed, how it ends."""

from __future__ import annotations

import os
import re
import signal
import socket
import subprocess
import sys
import threading
from typing import TYPE_CHECKING
from urllib.request import urlopen

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main
from cookbook_build.commands.preview import named, reporter
from cookbook_build.preview.serving import free_port
from cookbook_build.preview.session import Session, run

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from cookbook_build.preview.kept import Renewal

ENV = {"PYTHONUNBUFFERED": "1", "PYTHONIOENCODING": "utf-8"}


@pytest.fixture(autouse=True)
def _pressed_keys_reach_a_program() -> Iterator[None]:
    """Let Ctrl-C through, which a program begun in the background inherits as passed over."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


class Terminal:
    """A preview in a process of its own, and the lines that it says."""

    def __init__(self, *arguments: str, code: str | None = None, **env: str) -> None:
        program = ["-m", "cookbook_build"] if code is None else ["-c", code]
        self.process = subprocess.Popen(  # noqa: S603 - ours
            [sys.executable, *program, "preview", *arguments],
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT, encoding="utf-8",
            env=os.environ | ENV | env,
        )  # fmt: skip
        self.lines: list[str] = []
        self.reading = threading.Thread(target=self._read)
        self.reading.start()

    def _read(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            self.lines.append(line)

    def has(self, pattern: str) -> re.Match[str] | None:
        """Return where something was said."""
        return re.search(pattern, "".join(self.lines), re.MULTILINE)

    def stop(self) -> int:
        """Press Ctrl-C, and return the exit code."""
        self.process.send_signal(signal.SIGINT)
        code = self.process.wait(60)
        self.reading.join(60)
        assert self.process.stdout is not None
        self.process.stdout.close()
        return code


@pytest.fixture
def terminal() -> Iterator[Callable[..., Terminal]]:
    """Give what begins a preview; what still runs is ended with the test."""
    begun: list[Terminal] = []

    def begin(*arguments: str, **env: str) -> Terminal:
        begun.append(Terminal(*arguments, **env))
        return begun[-1]

    yield begin
    for one in begun:
        if one.process.poll() is None:
            one.process.kill()
            one.stop()


def free() -> socket.socket:
    """Return a socket that listens at a port of its own."""
    made = socket.socket()
    made.bind(("127.0.0.1", 0))
    made.listen()
    return made


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C can't be sent to a process there")
def test_it_says_where_and_ends_with_ctrl_c(
    small_book: Path, terminal: Callable[..., Terminal], wait: Callable[..., None], tmp_path: Path
) -> None:
    asked = tmp_path / "asked"
    opener = tmp_path / "opener.py"
    opener.write_text(
        f"import sys\nopen({str(asked)!r}, 'w').write(sys.argv[1])\n", encoding="utf-8"
    )
    with free() as taken:
        port = taken.getsockname()[1]
        shown = terminal(
            str(small_book), "--port", str(port), "--open",
            BROWSER=f"{sys.executable} {opener} %s",
        )  # fmt: skip
        wait(lambda: shown.has("the whole book: "), 60)
    address = shown.has(r"^Open (http://127\.0\.0\.1:(\d+)/)$")
    assert address is not None
    assert int(address[2]) > port
    assert shown.lines[:4] == [
        f"Port {port} is taken, so this preview has port {address[2]}.\n",
        f"Open {address[1]}\n",
        f"Watching {small_book}: save a file, and the page follows.\n",
        "Ctrl-C ends it.\n",
    ]
    wait(lambda: asked.exists() and asked.read_text("utf-8") == address[1])
    (small_book / "larder.yaml").write_text("lentils: {food: lentil", encoding="utf-8")
    wait(lambda: shown.has(r"larder.yaml: \d+\.\d s, \d+ errors?; the last good pages stay\."), 60)
    assert shown.has(f"^{small_book.as_posix()}/larder.yaml:1:")
    with urlopen(address[1]) as answer:  # noqa: S310 - the address that it said
        assert b"preview-panel" in answer.read()
    assert shown.stop() == 0
    assert shown.lines[-1] == "The preview has ended; your files are as you saved them.\n"
    assert not shown.has("Traceback|Error")
    with pytest.raises(OSError, match="refused"), urlopen(address[1]):  # noqa: S310
        pass


SAYING_WHEN = """
import sys
from cookbook_build.preview import kept
read = kept.read_book
def told(*rest, **more):
    print("reading now", flush=True)
    return read(*rest, **more)
kept.read_book = told
from cookbook_build.cli import main
main(sys.argv[1:])
"""


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C can't be sent to a process there")
@pytest.mark.parametrize("_again", range(3))  # a torn thread ends a process badly only mostly
def test_ctrl_c_while_it_reads_ends_it_too(
    demo_folder: Path, terminal: Callable[..., Terminal], wait: Callable[..., None], _again: int
) -> None:
    shown = terminal(str(demo_folder), "--port", "47100", code=SAYING_WHEN)
    wait(lambda: shown.has("reading now"), 60)
    assert shown.stop() == 0
    assert shown.lines[-1] == "The preview has ended; your files are as you saved them.\n"
    assert not shown.has("Traceback|Error|FATAL|whole book")


def test_a_reading_that_goes_on_is_told_and_reports_no_more(
    small_book: Path, monkeypatch: pytest.MonkeyPatch, wait: Callable[..., None]
) -> None:
    monkeypatch.setattr("cookbook_build.preview.session.PARTING_S", 0.1)
    reports: list[object] = []
    session = Session(small_book, lambda *report: reports.append(report))
    renew, begun, go_on = session.kept.renew, threading.Event(), threading.Event()

    def slow() -> Renewal:
        if reports:
            begun.set()
            go_on.wait(60)
        return renew()

    monkeypatch.setattr(session.kept, "renew", slow)
    _port, listening = free_port(47_700)
    ends: list[bool] = []
    serving = threading.Thread(
        target=lambda: ends.append(run(session, listening, None, lambda _words: None))
    )
    serving.start()
    wait(lambda: reports)
    (small_book / "book.yaml").write_text("title: Slow\n", encoding="utf-8")
    wait(begun.is_set)
    session.ended.set()
    serving.join(60)
    assert ends == [True]
    go_on.set()
    wait(lambda: not [one for one in threading.enumerate() if one.name == "watch"])
    assert len(reports) == 1


def test_a_folder_that_is_not_there_is_said_in_a_line(tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["preview", str(tmp_path / "nowhere")])
    assert result.exit_code == 2
    assert "there is no folder" in result.output


def test_where_no_port_is_free_it_ends(small_book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("cookbook_build.preview.serving.TRIED", 0)
    with free() as taken:
        port = str(taken.getsockname()[1])
        result = CliRunner().invoke(main, ["preview", str(small_book), "--port", port])
    assert result.exit_code == 3
    assert f"the ports from {port} to {port} are all taken. Name another" in result.output


def test_findings_are_shown_when_they_changed_and_else_counted(
    small_book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    session = Session(small_book, reporter(small_book))
    book = small_book / "book.yaml"

    def said() -> tuple[str, str]:
        while not session.step():
            pass
        return capsys.readouterr()

    out, err = said()
    assert re.fullmatch(r"\d\d:\d\d:\d\d  the whole book: \d+\.\d s, nothing to mend\.\n", out)
    assert err == ""
    book.write_text("title: River\nmeasure: us-cups\n", encoding="utf-8")
    out, err = said()
    assert "book.yaml:2:1: error:" in err
    assert re.search(r"  book\.yaml: .* s, 1 error; the last good pages stay\.\n$", out)
    (small_book / "pages/the-shelf.md").write_text("---\ntitle: Shelf\n---\n", encoding="utf-8")
    out, err = said()
    assert err == ""
    assert "pages/the-shelf.md: " in out
    assert "1 error" in out


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ([], "read again"),
        (["a.md"], "a.md"),
        (["a", "b", "c"], "a, b, c"),
        (["a", "b", "c", "d", "e"], "a, b, c and 2 more"),
        (["/"], "the folder"),
        (["menus/"], "menus"),
        (["a\x1b[31m\n.md"], "a·[31m·.md"),
    ],
)
def test_names_stand_in_one_line(changed: list[str], words: str) -> None:
    assert named(changed) == words
