"""Folders as a stranger or a careless hour leaves them: nothing of anybody's is lost or let out."""

from __future__ import annotations

import ctypes
import os
import shutil
import subprocess
import sys
import time
from typing import TYPE_CHECKING, Final

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main
from tests.figures import figure
from tests.folders import held
from tests.hostile.test_hostile_books import DRAWING, KEPT_OUT, Hostile, written

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

pytestmark = pytest.mark.skipif(os.name == "nt", reason="links and pipes are of other systems")

PARTS: Final = ("recipes", "menus", "images", "pages", "replies", "theme")
MOST_S: Final = 20.0
_DROP_FROM_BOUNDS, _CAP_DAC_OVERRIDE, _CAP_DAC_READ_SEARCH = 24, 1, 2  # linux/prctl.h, capability.h


def bare(tmp_path: Path) -> Path:
    """Write a sound book with every folder; return its own."""
    more: dict[str, str | bytes] = {"replies/a.txt": "", "theme/cards.css": ":root { }\n"}
    return written(tmp_path / "all", Hostile(more, ""))


def ran(*words: object) -> tuple[int, str]:
    """Run a command; return how it ended, and what it said."""
    began = time.process_time()
    result = CliRunner().invoke(main, [str(word) for word in words])
    assert time.process_time() - began < MOST_S
    assert isinstance(result.exception, SystemExit | None), result.exception
    return result.exit_code, result.output


def _without_root_s_rights() -> None:
    libc = ctypes.CDLL(None)
    for right in (_CAP_DAC_OVERRIDE, _CAP_DAC_READ_SEARCH):
        libc.prctl(_DROP_FROM_BOUNDS, right, 0, 0, 0)


def ran_by_a_user(*words: object) -> tuple[int, str]:
    """Run a command as somebody whom a folder's rights bind, root or not."""
    made = subprocess.run(  # noqa: S603 - our own
        [sys.executable, "-m", "cookbook_build", *map(str, words)],
        capture_output=True, text=True, encoding="utf-8", check=False,
        preexec_fn=_without_root_s_rights if sys.platform == "linux" else None,
    )  # fmt: skip
    assert "Traceback" not in made.stderr, made.stderr[-3000:]
    return made.returncode, made.stdout + made.stderr


def _link_for_git(out: Path) -> None:
    (out / ".gitignore").symlink_to(out.parent / "all/secret.md")


def _link_to_nothing(out: Path) -> None:
    (out / ".gitkeep").symlink_to("nowhere")


def _file_for_git_below(out: Path) -> None:
    (out / "lists").mkdir(exist_ok=True)
    (out / "lists/.gitattributes").write_text("* text\n", encoding="utf-8")


def _linked_folder(out: Path) -> None:
    (out / "photographs").symlink_to(out.parent / "all/elsewhere")


def _pipe(out: Path) -> None:
    (out / ".cookbook-build").unlink(missing_ok=True)
    os.mkfifo(out / ".cookbook-build")


def _deep(out: Path) -> None:
    (out / ("d/" * 900)).mkdir(parents=True)


STRANGE: Final[dict[str, Callable[[Path], None]]] = {
    "a link that is kept beside books": _link_for_git,
    "a link that leads nowhere": _link_to_nothing,
    "a file that is kept beside books, deeper": _file_for_git_below,
    "a link to a folder": _linked_folder,
    "a pipe as its list": _pipe,
    "folders in folders": _deep,
}


def everything(folder: Path) -> set[tuple[str, str]]:
    """Return the names of all there is and where links lead, without what is very deep."""
    found = set()
    for above, folders, files in os.walk(folder):
        for name in (*folders, *files):
            path = os.path.join(above, name)  # noqa: PTH118 - as walk gives it
            found.add((path, os.readlink(path) if os.path.islink(path) else ""))  # noqa: PTH114, PTH115
    return found


@pytest.mark.parametrize("name", STRANGE)
@pytest.mark.parametrize("before", ["a book", "nothing"])
def test_what_is_not_ours_in_the_folder_of_a_book_stays(
    name: str, before: str, tmp_path: Path, record_property: Callable[[str, object], None]
) -> None:
    book, out = bare(tmp_path), tmp_path / "out"
    if before == "a book":
        assert ran("bind", book, "--out", out)[0] == 0
    else:
        out.mkdir()
    STRANGE[name](out)
    stood = everything(out)
    index = book / "book.yaml"
    index.write_text(index.read_text(encoding="utf-8") + "\n# changed\n", encoding="utf-8")
    code, said = ran("bind", book, "--out", out)
    assert code == 3, said
    assert everything(out) == stood
    assert not [path for path in tmp_path.iterdir() if path.name.startswith(".out")]
    if name == "a link that is kept beside books":
        assert (out / ".gitignore").is_symlink()
    figure(record_property, "folders of a book with what is not ours, left as they were", 1)


def test_what_its_owner_keeps_beside_a_book_is_carried_on(tmp_path: Path) -> None:
    book, out = bare(tmp_path), tmp_path / "out"
    out.mkdir()
    (out / ".gitattributes").write_text("* text\n", encoding="utf-8")
    assert ran("bind", book, "--out", out)[0] == 0
    assert (out / ".gitattributes").read_text(encoding="utf-8") == "* text\n"


@pytest.mark.parametrize("where", [".", "..", "x/..", "/"])
def test_the_folder_that_somebody_stands_in_is_not_swapped_away(
    where: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = bare(tmp_path)
    here = tmp_path / "empty" / "x"
    here.mkdir(parents=True)
    monkeypatch.chdir(here.parent if where != ".." else here)
    code, said = ran("bind", book, "--out", where)
    assert code == 3
    assert "the folder that you stand in" in said
    assert [path.name for path in here.parent.iterdir()] == ["x"]


@pytest.fixture
def closed() -> Iterator[Callable[[Path, int], None]]:
    """Give what closes a folder, and open all again."""
    shut: list[Path] = []

    def close(folder: Path, mode: int) -> None:
        folder.chmod(mode)
        shut.append(folder)

    yield close
    for folder in shut:
        folder.chmod(0o755)


@pytest.mark.skipif(sys.platform != "linux" and not hasattr(os, "geteuid"), reason="no rights here")
@pytest.mark.parametrize("mode", [0o000, 0o644, 0o311])
def test_a_folder_that_may_not_be_looked_into_is_told(
    mode: int, tmp_path: Path, closed: Callable[[Path, int], None],
    record_property: Callable[[str, object], None],
) -> None:  # fmt: skip
    book, letter = bare(tmp_path), tmp_path / "all/secret.md"
    for part in PARTS:
        closed(book / part, mode)
        code, said = ran_by_a_user("proof", book)
        if part != "theme":
            assert code == (part != "replies"), said
            told = ("can't be looked into", "can't be opened", "there is no picture")
            assert any(words in said for words in told), said
        if mode == 0o644:
            ran_by_a_user("draft", letter, "--book", book, "--print")
            ran_by_a_user("editor-help", book, "--add-lines")
            ran_by_a_user("water", "nothing", "--book", book)
        (book / part).chmod(0o755)
        figure(record_property, "folders that nobody may look into, told", 1)
    closed(book, mode)
    for command in ("proof", "editor-help"):
        code, said = ran_by_a_user(command, book)
        assert code, said


@pytest.mark.parametrize(("mode", "why"), [
    (0o000, "can't be looked into"), (0o644, "did not make: private/thesis.txt"),
])  # fmt: skip
def test_a_folder_of_somebody_s_within_a_book_is_not_taken_away(
    mode: int, why: str, tmp_path: Path, closed: Callable[[Path, int], None]
) -> None:
    book, out = bare(tmp_path), tmp_path / "out"
    assert ran_by_a_user("bind", book, "--out", out)[0] == 0
    (out / "private").mkdir()
    (out / "private/thesis.txt").write_text("mine", encoding="utf-8")
    closed(out / "private", mode)
    index = book / "book.yaml"
    index.write_text(index.read_text(encoding="utf-8") + "\n# changed\n", encoding="utf-8")
    code, said = ran_by_a_user("bind", book, "--out", out)
    assert code == 3, said
    assert why in said
    (out / "private").chmod(0o755)
    assert (out / "private/thesis.txt").read_text(encoding="utf-8") == "mine"


def test_a_larder_that_its_author_protects_is_not_written_over(tmp_path: Path) -> None:
    book = bare(tmp_path)
    larder = book / "larder.yaml"
    before = larder.read_bytes()
    larder.chmod(0o444)
    assert ran_by_a_user("foods", "sorrel raw", "--add", "--book", book)[0] == 3
    assert ran_by_a_user("editor-help", book, "--add-lines")[0] == 3
    assert larder.read_bytes() == before


def test_an_editor_s_line_goes_into_no_recipe_and_over_no_file_of_the_author_s(
    tmp_path: Path,
) -> None:
    book = bare(tmp_path)
    recipe = next((book / "recipes").rglob("*.md"))
    before = recipe.read_bytes()
    (book / "menus/x.yaml").symlink_to(recipe)
    code, said = ran("editor-help", book, "--add-lines")
    assert code == 0, said
    assert "menus/x.yaml: is a link to what is no YAML" in said
    assert recipe.read_bytes() == before
    (book / ".editor/menu.json").unlink()
    os.mkfifo(book / ".editor/menu.json")  # waited for by nobody
    assert ran("editor-help", book)[0] == 0
    (book / ".editor/book.json").write_text("mine", encoding="utf-8")
    code, said = ran("editor-help", book)
    assert code == 3
    assert "book.json in it is not this program's" in said
    assert (book / ".editor/book.json").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    "words", [["editor-help", "{book}"], ["draft", "{text}", "--book", "{book}"]]
)
def test_folders_in_a_ring_are_told(words: list[str], tmp_path: Path) -> None:
    book, text = bare(tmp_path), tmp_path / "supper.txt"
    text.write_text("Supper\n\nIngredients\n2 tbsp lentils\n\nMethod\nPour.\n", encoding="utf-8")
    for name in (".editor", "recipes"):
        if (book / name).is_dir():
            shutil.rmtree(book / name)
        (book / name).symlink_to(name)
    code, said = ran(*(word.format(book=book, text=text) for word in words))
    assert code == 3, said


def test_pipes_in_a_book_are_told_and_waited_for_by_nobody(tmp_path: Path) -> None:
    book = bare(tmp_path)
    for name in ("recipes/x.md", "pages/y.md", "menus/z.yaml", "drying-log.csv", "images/a.svg"):
        os.mkfifo(book / name)
    code, said = ran("proof", book)
    assert code == 1
    for name in ("recipes/x.md", "pages/y.md", "menus/z.yaml", "drying-log.csv"):
        assert f"{name}:1:1: error: this has the name of a file and is none" in said


def test_nothing_of_what_lies_beside_a_book_is_named_or_shown(tmp_path: Path) -> None:
    book = bare(tmp_path)
    shutil.rmtree(book / "images")
    (tmp_path / "all/elsewhere/hidden-landing.svg").write_text(DRAWING, encoding="utf-8")
    (book / "images").symlink_to(tmp_path / "all/elsewhere")
    _, said = ran("proof", book)
    assert "hidden" not in said
    assert KEPT_OUT not in said
    assert not held(book).get("images/landing.svg")
