"""A change is given once, when it has come to rest, and the last save is never lost."""

from __future__ import annotations

import os
import shutil
from typing import TYPE_CHECKING

import pytest

from cookbook_build.preview import watching
from cookbook_build.preview.watching import Watcher, differing, look_at

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def watcher(small_book: Path) -> Watcher:
    """Return a watcher that has seen the whole book."""
    made = Watcher(small_book)
    assert made.step() is None
    assert "book.yaml" in (made.step() or [])
    assert made.step() is None
    return made


def test_a_change_is_given_when_two_looks_agree(watcher: Watcher) -> None:
    (watcher.folder / "recipes/leek-broth.md").write_text("half", encoding="utf-8")
    assert watcher.step() is None
    (watcher.folder / "recipes/leek-broth.md").write_text("half and whole", encoding="utf-8")
    assert watcher.step() is None
    assert watcher.step() == ["recipes/leek-broth.md"]
    assert watcher.step() is None


def test_what_changes_while_it_is_read_is_given_next(watcher: Watcher) -> None:
    book = watcher.folder / "book.yaml"
    book.write_text("title: First\n", encoding="utf-8")
    assert watcher.step() is None
    assert watcher.step() == ["book.yaml"]
    book.write_text("title: Later\n", encoding="utf-8")  # now, while the first is being read
    assert watcher.step() is None
    assert watcher.step() == ["book.yaml"]


def test_a_save_of_the_same_size_in_the_same_instant_counts(watcher: Watcher) -> None:
    page = watcher.folder / "pages/the-shelf.md"
    before = page.stat()
    text = page.read_text(encoding="utf-8")
    page.write_text(text.replace("dark", "cold"), encoding="utf-8", newline="\n")
    os.utime(page, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert page.stat().st_size == before.st_size
    assert watcher.step() is None
    assert watcher.step() == ["pages/the-shelf.md"]


def test_an_old_file_is_not_read_to_look_at_it(watcher: Watcher) -> None:
    page = watcher.folder / "pages/the-shelf.md"
    os.utime(page, (1_000_000_000, 1_000_000_000))
    look = look_at(watcher.folder)
    assert look["pages/the-shelf.md"].digest is None
    assert look["book.yaml"].digest


def test_an_editor_that_writes_by_renaming_is_seen(watcher: Watcher) -> None:
    book = watcher.folder / "book.yaml"
    before = book.stat()
    beside = watcher.folder / "book.yaml.tmp"
    beside.write_bytes(book.read_bytes())
    os.utime(beside, ns=(before.st_atime_ns, before.st_mtime_ns))
    beside.replace(book)
    assert watcher.step() is None
    assert watcher.step() == ["book.yaml"]


def test_what_never_rests_is_given_all_the_same(
    watcher: Watcher, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(watching, "PATIENCE_S", 0.0)
    (watcher.folder / "notes.txt").write_text("1", encoding="utf-8")
    assert watcher.step() == ["notes.txt"]


def test_a_folder_that_goes_and_comes_back_is_two_changes(watcher: Watcher) -> None:
    away = watcher.folder.with_name("away")
    watcher.folder.rename(away)
    assert watcher.step() is None
    assert "larder.yaml" in (watcher.step() or [])
    assert look_at(watcher.folder) == {}
    away.rename(watcher.folder)
    assert watcher.step() is None
    assert "larder.yaml" in (watcher.step() or [])


def test_a_folder_that_is_missing_from_the_start_is_told_once(tmp_path: Path) -> None:
    watcher = Watcher(tmp_path / "nowhere")
    assert watcher.step() is None
    assert watcher.step() == []
    assert watcher.step() is None


def test_a_deleted_folder_of_the_book_is_a_change(watcher: Watcher) -> None:
    shutil.rmtree(watcher.folder / "menus")
    assert watcher.step() is None
    assert watcher.step() == ["menus/paddle.yaml"]
    (watcher.folder / "menus").mkdir()
    assert watcher.step() is None
    assert watcher.step() == ["menus/"]


def test_what_could_not_be_read_is_owed(watcher: Watcher) -> None:
    watcher.again()
    assert watcher.step() == []
    assert watcher.step() is None


def test_bound_books_and_hidden_folders_are_not_looked_at(watcher: Watcher) -> None:
    for name in (".git/index", "site/.cookbook-build", "site/index.html", ".look/own.css"):
        path = watcher.folder / name
        path.parent.mkdir(exist_ok=True)
        path.write_text("x", encoding="utf-8")
    assert differing({}, look_at(watcher.folder)) == sorted(
        path.relative_to(watcher.folder).as_posix()
        for path in watcher.folder.rglob("*.*")
        if path.is_file() and path.parts[len(watcher.folder.parts)] not in {".git", "site", ".look"}
    )
    watcher.also = {".look"}  # where the theme lies
    assert ".look/own.css" in look_at(watcher.folder, watcher.also)


def test_what_a_stranger_laid_into_a_book_is_not_waited_for(watcher: Watcher) -> None:
    try:
        (watcher.folder / "photographs").symlink_to("/")
        (watcher.folder / "loop").symlink_to("loop")
        os.mkfifo(watcher.folder / "recipes/pipe.md")
    except (OSError, AttributeError):
        pytest.skip("no links or pipes here")
    seen = look_at(watcher.folder)
    assert "recipes/pipe.md" in seen
    assert not [name for name in seen if name.startswith("photographs/")]


def test_a_linked_folder_of_the_book_is_watched(watcher: Watcher) -> None:
    try:
        (watcher.folder / "suppers").symlink_to("recipes")
    except OSError:
        pytest.skip("no links here")
    assert "suppers/leek-broth.md" in look_at(watcher.folder)


def test_links_that_lead_in_a_circle_end(watcher: Watcher) -> None:
    try:
        (watcher.folder / "recipes/round").symlink_to(watcher.folder / "recipes")
    except OSError:
        pytest.skip("no links here")
    assert len(look_at(watcher.folder)) < 30
