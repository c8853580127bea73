"""Writing a new book into a folder: whole or not at all, and never over anything."""

from __future__ import annotations

import errno
import os
import secrets
import shutil
from contextlib import suppress
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.naming import is_a_device

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

VERSION_CONTROL: Final = frozenset({
    ".git", ".gitignore", ".gitattributes", ".gitkeep", ".gitmodules",
    ".hg", ".hgignore", ".hgtags", ".svn", ".bzr", ".bzrignore", ".jj", ".fslckout", ".fossil",
})  # fmt: skip
"""What version control keeps in a folder that is empty else."""

REFUSED_SIGNS: Final = frozenset('<>:"/\\|?*')


class TakenError(Exception):
    """The folder is not free for a new book; says what stands in the way and what to do."""


class UnwritableError(Exception):
    """The disk says no; says where and why. Nothing half-written is left."""


def check_free(folder: Path) -> None:
    """Refuse a folder that holds anything but hidden files of version control.

    Raises
    ------
    TakenError
        When it holds something, is no folder, or has a name that this system does not take.
    UnwritableError
        When nobody may look into it.
    """
    if os.name == "nt" and (why := refused_by_windows(folder.name)):
        raise TakenError(f'"{folder.name}" can\'t be the name of a folder on Windows: {why}.')
    if not os.path.lexists(folder):
        return
    if not folder.is_dir():
        raise TakenError(f'"{folder}" is not a folder, and it is left as it is; name another.')
    try:
        names = sorted(path.name for path in folder.iterdir())
    except OSError as problem:
        raise UnwritableError(f'"{folder}" can\'t be read: {problem.strerror}.') from problem
    foreign = [name for name in names if name.casefold() not in VERSION_CONTROL]
    if foreign:
        more = f" and {len(foreign) - 1} more" if len(foreign) > 1 else ""
        raise TakenError(
            f'"{folder}" is not empty ("{foreign[0]}"{more}), and nothing in it is touched; '
            "name a new folder for the book."
        )


def refused_by_windows(name: str) -> str | None:
    """Return why Windows does not take the name of a folder, or None where it does."""
    if is_a_device(name):
        return "it is the name of a device there"
    if name.strip(".") and name.endswith((".", " ")):
        return "it ends with a full stop or a space"
    signs = [sign for sign in name if sign in REFUSED_SIGNS or ord(sign) < 32]
    return f"it holds {signs[0]!r}" if signs else None


def write_book(folder: Path, files: Mapping[str, str]) -> None:
    """Write the files into a free folder, which is made where there is none.

    They are written beside and moved in, so that no half of a book is ever seen.

    Raises
    ------
    TakenError
        When the folder is not free.
    UnwritableError
        When the disk says no; what was written by then is taken away again.
    """
    check_free(folder)
    try:
        if folder.is_dir():
            _fill(folder, files)
        else:
            _make(folder, files)
    except OSError as problem:
        why = problem.strerror or type(problem).__name__
        raise UnwritableError(f'"{folder}" can\'t be written: {why}.') from problem


def _make(folder: Path, files: Mapping[str, str]) -> None:
    """Write the book beside a folder that is not there yet, and give it the folder's name."""
    target = folder.absolute()
    missing = [above for above in target.parents if not above.exists()]
    beside = target.parent / _new_name()
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        _write(beside, files)
        beside.rename(target)
    except BaseException:
        shutil.rmtree(beside, ignore_errors=True)
        with suppress(OSError):  # one that is not there, or holds what somebody else put in
            for above in missing:
                above.rmdir()
        raise


def _fill(folder: Path, files: Mapping[str, str]) -> None:
    """Write the book into a folder of its own within an empty one, and move it up, book.yaml last.

    The empty folder itself stays, for it may be the one that somebody stands in.
    """
    within = folder / _new_name()
    moved: list[Path] = []
    try:
        _write(within, files)
        for entry in sorted(within.iterdir(), key=lambda path: path.name == "book.yaml"):
            target = _free(folder / entry.name)
            entry.rename(target)
            moved.append(target)
        within.rmdir()
    except BaseException:
        for path in moved:
            shutil.rmtree(path, ignore_errors=True) if path.is_dir() else path.unlink()
        shutil.rmtree(within, ignore_errors=True)
        raise


def _free(target: Path) -> Path:
    """Return a place where nothing was put meanwhile."""
    if os.path.lexists(target):
        raise FileExistsError(errno.EEXIST, f'"{target.name}" was put there meanwhile')
    return target


def _write(root: Path, files: Mapping[str, str]) -> None:
    root.mkdir()
    for name, text in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")


def _new_name() -> str:
    return f".new-book-{secrets.token_hex(4)}"
