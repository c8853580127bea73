"""Editions are swapped in whole, and never over files that aren't ours."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cookbook_build.publishing.editions import CannotWriteError, new_folder
from cookbook_build.publishing.swapping import MADE

if TYPE_CHECKING:
    from pathlib import Path


def write_book(out: Path, **files: str) -> None:
    """Write files into an edition."""
    with new_folder(out) as filled:
        for name, text in files.items():
            filled.write(name.replace("__", "/") + ".html", text)


def write_half(out: Path) -> None:
    """Begin an edition, and fail."""
    with new_folder(out) as filled:
        filled.write("index.html", "half")
        raise ZeroDivisionError


def names(folder: Path) -> set[str]:
    """Return the names of all files in a folder."""
    return {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file()}


def test_a_second_binding_replaces_the_first_whole(tmp_path: Path) -> None:
    out = tmp_path / "site"
    write_book(out, index="one", old="gone")
    write_book(out, index="two", deep__page="new")
    assert names(out) == {MADE, "index.html", "deep/page.html"}
    assert (out / "index.html").read_text() == "two"
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_a_gitignore_stays_where_it_was(tmp_path: Path) -> None:
    out = tmp_path / "site"
    out.mkdir()
    (out / ".gitignore").write_text("*\n")
    write_book(out, index="one")
    assert (out / ".gitignore").read_text() == "*\n"


def test_a_folder_with_a_strangers_file_is_refused_and_left_alone(tmp_path: Path) -> None:
    out = tmp_path / "letters"
    out.mkdir()
    (out / "to-mother.txt").write_text("Dear mother")
    with pytest.raises(CannotWriteError, match=r"to-mother\.txt"):
        write_book(out, index="one")
    assert names(out) == {"to-mother.txt"}
    assert [path.name for path in tmp_path.iterdir()] == ["letters"]


def test_a_file_added_to_a_bound_book_is_not_deleted(tmp_path: Path) -> None:
    out = tmp_path / "site"
    write_book(out, index="one")
    (out / "notes.txt").write_text("mine")
    with pytest.raises(CannotWriteError, match=r"notes\.txt"):
        write_book(out, index="two")
    assert (out / "index.html").read_text() == "one"


def test_a_binding_that_fails_leaves_the_old_book(tmp_path: Path) -> None:
    out = tmp_path / "site"
    write_book(out, index="one")
    with pytest.raises(ZeroDivisionError):
        write_half(out)
    assert (out / "index.html").read_text() == "one"
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_a_file_in_the_place_of_the_folder_is_refused(tmp_path: Path) -> None:
    out = tmp_path / "site"
    out.write_text("a file")
    with pytest.raises(CannotWriteError, match="not a folder"):
        write_book(out, index="one")
    assert out.read_text() == "a file"
