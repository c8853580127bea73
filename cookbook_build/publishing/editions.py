"""Editions: everything is written beside the old book and swapped in whole."""

from __future__ import annotations

import shutil
import tempfile
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

MADE: Final = ".cookbook-build"
KEPT: Final = frozenset({".gitignore", ".gitattributes", ".gitkeep"})


class CannotWriteError(Exception):
    """The book can't be written where it was asked to be; says why and what to do."""


@dataclass(frozen=True, slots=True)
class Folder:
    """A folder being filled; what is written here becomes the book."""

    root: Path

    def place(self, name: str) -> Path:
        """Return where a file of the book goes, in a folder that is there."""
        path = self.root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        return path

    def write(self, name: str, text: str) -> None:
        """Write one text file of the book."""
        self.place(name).write_text(text, encoding="utf-8", newline="\n")

    def write_pieces(self, name: str, pieces: Iterable[str]) -> None:
        """Write one text file of the book, piece by piece."""
        with self.place(name).open("w", encoding="utf-8", newline="\n") as file:
            file.writelines(pieces)

    def write_bytes(self, name: str, data: bytes) -> None:
        """Write one file of the book that is no text."""
        self.place(name).write_bytes(data)

    def read(self, name: str) -> str:
        """Return the text of a file that was written so far."""
        return (self.root / name).read_text(encoding="utf-8")

    def size_bytes(self, name: str) -> int | None:
        """Return how large a file is that was written so far, None where there is none."""
        path = self.root / name
        return path.stat().st_size if path.is_file() else None

    def copy(self, name: str, source: Path) -> None:
        """Copy one file into the book."""
        shutil.copyfile(source, self.place(name))

    def names(self) -> list[str]:
        """Return the names of all files written so far."""
        return sorted(
            path.relative_to(self.root).as_posix()
            for path in self.root.rglob("*")
            if path.is_file()
        )


def check_ours(out: Path) -> None:
    """Refuse a folder that holds files which no earlier binding made.

    Raises
    ------
    CannotWriteError
        When `out` is a file, or holds what isn't ours.
    """
    if out.is_symlink() or (out.exists() and not out.is_dir()):
        raise CannotWriteError(f'"{out}" is not a folder. Name another with --out.')
    if not out.is_dir():
        return
    listed = _listed(out)
    foreign = sorted(
        path.relative_to(out).as_posix()
        for path in out.rglob("*")
        if not path.is_dir() and path.relative_to(out).as_posix() not in listed
        if path.name not in KEPT
    )
    if foreign:
        more = f" and {len(foreign) - 1} more" if len(foreign) > 1 else ""
        raise CannotWriteError(
            f'"{out}" holds files that this program did not make: {foreign[0]}{more}. '
            "Move what is yours out of it, or name an empty folder with --out and copy the book "
            "over."
        )


@contextmanager
def new_folder(out: Path) -> Iterator[Folder]:
    """Give a folder to fill, and swap it in for `out` when all went well.

    Raises
    ------
    CannotWriteError
        When `out` isn't ours, or the disk says no. The old book stays as it was.
    """
    check_ours(out)
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        beside = Path(tempfile.mkdtemp(prefix=f".{out.name}-", dir=out.parent))
    except OSError as problem:
        raise CannotWriteError(
            f'"{out.parent}" can\'t be written: {problem.strerror}.'
        ) from problem
    try:
        filled = Folder(beside)
        yield filled
        filled.write(MADE, "\n".join(filled.names()) + "\n")
        for name in KEPT:
            if (out / name).is_file():
                filled.copy(name, out / name)
        beside.chmod(0o755)
        _swap(beside, out)
    except OSError as problem:
        raise CannotWriteError(f'"{out}" can\'t be written: {problem.strerror}.') from problem
    finally:
        shutil.rmtree(beside, ignore_errors=True)


def _swap(beside: Path, out: Path) -> None:
    """Put the new folder in the place of the old one; the old one is deleted last."""
    old = beside.with_name(f"{beside.name}.old")
    if out.is_dir():
        out.rename(old)
    try:
        beside.rename(out)
    except OSError:
        if old.is_dir():
            old.rename(out)
        raise
    shutil.rmtree(old, ignore_errors=True)


def _listed(out: Path) -> set[str]:
    try:
        return {MADE, *(out / MADE).read_text(encoding="utf-8").splitlines()}
    except (OSError, UnicodeDecodeError):
        return set()
