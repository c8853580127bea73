"""A run that is killed, starved or met by another leaves the old book or the new, whole.

`COOKBOOK_KILLS=200` kills as many real runs as that; figures are printed at the end.
"""

from __future__ import annotations

import os
import random
import shutil
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from cookbook_build.publishing.editions import alone, new_folder
from cookbook_build.publishing.swapping import ASIDE, MADE
from tests.figures import figure
from tests.folders import held

if TYPE_CHECKING:
    from collections.abc import Callable

KILLS: Final = int(os.environ.get("COOKBOOK_KILLS", "8"))
LEAST_RUN_S: Final = 0.2

STEPS = """
import os, signal, sys
from pathlib import Path
from cookbook_build.publishing import editions, swapping

out, last, exchanges = Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3] == "exchange"
if not exchanges:
    swapping._exchange = lambda: None
LOOKED_AT = {
    "open", "os.chmod", "os.listdir", "os.mkdir", "os.remove", "os.rename", "os.rmdir",
    "os.scandir", "shutil.copyfile", "shutil.rmtree", "tempfile.mkdtemp", "ctypes.get_errno",
    "ctypes.call_function",
}
step = 0

def count(event, _arguments):
    global step
    if event in LOOKED_AT:  # to kill is an event, too
        step += 1
        if step == last:
            os.kill(os.getpid(), signal.SIGKILL)

with editions.alone(out):
    sys.addaudithook(count)
    with editions.new_folder(out) as filled:
        filled.write("index.html", "new")
        filled.write("deep/page.html", "new")
"""


def write_book(out: Path, text: str) -> dict[str, bytes]:
    """Write a small edition, and return what it holds."""
    with new_folder(out) as filled:
        filled.write("index.html", text)
        filled.write("deep/page.html", text)
    return held(out)


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="this system kills otherwise")
@pytest.mark.parametrize("way", ["exchange", "aside"])
def test_killed_before_any_of_its_steps_a_swap_leaves_the_old_book_or_the_new(
    tmp_path: Path, way: str, record_property: Callable[[str, object], None]
) -> None:
    new = write_book(tmp_path / "other", "new")
    out = tmp_path / "shelf" / "site"
    old = write_book(out, "old")
    seen, step = [], 0
    while True:
        step += 1
        ran = subprocess.run(  # noqa: S603 - our own
            [sys.executable, "-c", STEPS, str(out), str(step), way],
            capture_output=True,
            text=True,
            check=False,
        )
        if ran.returncode == 0:
            break
        assert ran.returncode == -signal.SIGKILL, ran.stderr
        if way == "aside" and not out.is_dir():
            (aside,) = out.parent.glob(f".site-*{ASIDE}")
            assert held(aside) == old
            seen.append("aside")
        else:
            seen.append("old" if held(out) == old else "new" if held(out) == new else "torn")
        with alone(out):  # what the next run does first
            assert held(out) in (old, new)
        assert [path.name for path in out.parent.iterdir()] == ["site"]
        write_book(out, "old")
    assert {"old", "new"} <= set(seen) <= ({"old", "new"} | ({"aside"} & {way})), seen
    assert held(out) == new
    figure(record_property, f"killed before each step of a swap ({way}), and whole", len(seen))


@pytest.fixture
def both(small_book: Path) -> tuple[Path, Path]:
    """Return a small book, and the same with another text."""
    other = small_book.with_name("other")
    shutil.copytree(small_book, other)
    page = other / "pages/the-shelf.md"
    page.write_text(page.read_text(encoding="utf-8") + "\nAnd dry.\n", encoding="utf-8")
    return small_book, other


def binding(book: Path, out: Path, **more: str) -> subprocess.Popen[str]:
    """Begin to bind."""
    return subprocess.Popen(  # noqa: S603 - our own
        [sys.executable, "-m", "cookbook_build", "bind", str(book), "--out", str(out)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, **more},
        start_new_session=True,
    )


def ended(run: subprocess.Popen[str]) -> tuple[int, str]:
    """Wait for a run, and return its exit code and what it said of what is wrong."""
    _, said = run.communicate(timeout=300)
    assert "Traceback" not in said
    return run.returncode, said


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="this system kills otherwise")
def test_killed_at_any_moment_a_bind_leaves_the_old_book_or_the_new(
    both: tuple[Path, Path], tmp_path: Path, record_property: Callable[[str, object], None]
) -> None:
    chance = random.Random(7)  # noqa: S311 - which moments are tried
    out, books, took = tmp_path / "shelf" / "site", [], 0.0
    for book in both:
        began = time.monotonic()
        assert ended(binding(book, out))[0] == 0
        took = time.monotonic() - began
        books.append(held(out))
    assert books[0] != books[1]
    survived = done = 0
    while survived < KILLS:
        now = books.index(held(out))
        run = binding(both[1 - now], out)
        # half of them near the end, where it is swapped in
        time.sleep(chance.uniform(LEAST_RUN_S if survived % 2 else 0.7 * took, took))
        if run.poll() is None:
            run.kill()
            survived += 1
        else:
            done += 1
            assert run.returncode in {0, -signal.SIGKILL}
        run.communicate()
        assert held(out) in books
    for book, whole in zip(both, books, strict=True):
        assert ended(binding(book, out)) == (0, "")
        assert held(out) == whole
    assert [path.name for path in out.parent.iterdir()] == ["site"]
    figure(record_property, "runs killed at random moments, the book whole after each", survived)


def test_a_reader_finds_the_old_book_or_the_new_at_any_instant(
    tmp_path: Path, record_property: Callable[[str, object], None]
) -> None:
    out = tmp_path / "site"
    write_book(out, "0")
    found: set[str] = set()
    looks, stop = 0, threading.Event()
    missed: list[OSError] = []

    def read() -> None:
        nonlocal looks
        while not stop.is_set():
            looks += 1
            try:
                found.add((out / "deep/page.html").read_text(encoding="utf-8"))
            except OSError as problem:
                missed.append(problem)

    reader = threading.Thread(target=read)
    reader.start()
    try:
        for number in range(1, 60):
            write_book(out, str(number))
    finally:
        stop.set()
        reader.join()
    if sys.platform in {"linux", "darwin"}:
        assert not missed
    assert found <= {str(number) for number in range(60)}
    assert len(found) > 5
    figure(record_property, "looks at a page while its book was swapped 59 times", looks)


def test_a_second_bind_says_so_and_leaves(small_book: Path, tmp_path: Path) -> None:
    out = tmp_path / "site"
    old = write_book(out, "old")
    with alone(out):
        code, said = ended(binding(small_book, out))
        assert code == 3
        assert said == (
            f'"{out}" is being bound by another run of this program right now. Wait until it is '
            "done, or name another folder with --out.\n"
        )
        assert held(out) == old
        assert ended(binding(small_book, tmp_path / "elsewhere"))[0] == 0
    assert ended(binding(small_book, out))[0] == 0


def test_two_binds_at_once_leave_one_whole_book(both: tuple[Path, Path], tmp_path: Path) -> None:
    wholes = []
    for at, book in enumerate(both):
        assert ended(binding(book, tmp_path / f"alone-{at}"))[0] == 0
        wholes.append(held(tmp_path / f"alone-{at}"))
    out = tmp_path / "shelf" / "site"
    runs = [binding(book, out) for book in both]
    codes = [ended(run)[0] for run in runs]
    assert 0 in codes
    assert set(codes) <= {0, 3}
    assert held(out) in [whole for whole, code in zip(wholes, codes, strict=True) if code == 0]
    assert [path.name for path in out.parent.iterdir()] == ["site"]


def test_helpers_of_a_killed_run_end_with_it() -> None:
    words = """
import os, sys, time
from cookbook_build.publishing.crew import crew
def part():
    os.write(1, f"{os.getpid()}\\n".encode())  # at once: both write to one pipe
    time.sleep(600)
with crew({"a": part, "b": part}, 2) as made:
    made("a")
"""
    with subprocess.Popen(  # noqa: S603 - our own
        [sys.executable, "-c", words], stdout=subprocess.PIPE, text=True
    ) as run:
        assert run.stdout is not None
        helpers = [int(run.stdout.readline()) for _ in range(2)]
        run.kill()
    end = time.monotonic() + 30
    while any(_is_there(helper) for helper in helpers):
        assert time.monotonic() < end, "a helper went on without the one who began it"
        time.sleep(0.05)


def _is_there(process: int) -> bool:
    try:
        state = Path(f"/proc/{process}/stat").read_text(encoding="ascii").rsplit(") ", 1)[1][0]
    except OSError:
        return False
    return state != "Z"


def test_a_source_folder_that_vanishes_leaves_the_old_book(
    both: tuple[Path, Path], tmp_path: Path
) -> None:
    chance = random.Random(11)  # noqa: S311 - which moments are tried
    out, copy = tmp_path / "shelf" / "site", tmp_path / "copy"
    began = time.monotonic()
    assert ended(binding(both[0], out))[0] == 0
    took, old = time.monotonic() - began, held(out)
    codes = set()
    for at in range(8):
        shutil.copytree(both[1], copy)
        page = copy / "pages/the-shelf.md"
        page.write_text(f"{page.read_text(encoding='utf-8')}\n{at}\n", encoding="utf-8")
        run = binding(copy, out)
        time.sleep(chance.uniform(0, took))
        shutil.rmtree(copy)
        code, said = ended(run)
        codes.add(code)
        assert code in {0, 1, 2, 3}
        if code:
            assert said
            assert held(out) == old
        old = held(out)
        assert set(old) >= {MADE, "index.html", "recipes/leek-broth.html"}
    assert codes - {0}, "it never vanished in time"
    assert ended(binding(both[0], out))[0] == 0


NARROW = """
set -e
mount -t tmpfs -o {options} tmpfs "$1"
cp -r "$2"/. "$1"
{then}
set +e
"$3" -m cookbook_build bind "$4" --out "$1/site" 2> "$5/said"
echo $? > "$5/code"
set -e
cp -r "$1" "$5/after"
"""


def in_a_narrow_place(
    tmp_path: Path, book: Path, before: Path, options: str, then: str = ""
) -> tuple[int, str, Path]:
    """Bind where a disk is small or can't be written; return code, words and what stood there."""
    if shutil.which("unshare") is None:
        pytest.skip("util-linux has no unshare here")
    place, told = tmp_path / "place", tmp_path / "told"
    place.mkdir()
    told.mkdir()
    script = NARROW.format(options=options, then=then)
    words = ["sh", "-c", script, "sh", place, before, sys.executable, book, told]
    ran = subprocess.run(  # noqa: S603 - our own
        ["unshare", "--map-root-user", "--mount", *map(str, words)],  # noqa: S607
        capture_output=True,
        text=True,
        check=False,
    )
    if ran.returncode and not (told / "code").exists():
        pytest.skip(f"nothing can be mounted here: {ran.stderr.strip()}")
    return (
        int((told / "code").read_text(encoding="ascii")),
        (told / "said").read_text(encoding="utf-8"),
        told / "after",
    )


@pytest.fixture
def before(tmp_path: Path) -> Path:
    """Return a folder that holds an old book."""
    write_book(tmp_path / "before/site", "old")
    return tmp_path / "before"


@pytest.mark.parametrize("size", ["40k", "200k", "600k"])
def test_a_full_disk_leaves_the_old_book(
    small_book: Path, tmp_path: Path, before: Path, size: str
) -> None:
    code, said, after = in_a_narrow_place(tmp_path, small_book, before, f"size={size}")
    assert (code, "No space left on device" in said) == (3, True), said
    assert "Traceback" not in said
    assert held(after) == held(before)
    assert [path.name for path in after.iterdir()] == ["site"]


def test_a_disk_that_cannot_be_written_leaves_the_old_book(
    small_book: Path, tmp_path: Path, before: Path
) -> None:
    only_read = 'mount -o remount,ro "$1"'
    code, said, after = in_a_narrow_place(tmp_path, small_book, before, "size=9m", only_read)
    assert (code, "Read-only file system" in said) == (3, True), said
    assert "Traceback" not in said
    assert held(after) == held(before)
