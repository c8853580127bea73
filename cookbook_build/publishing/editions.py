"""Editions: all is written beside the old book and swapped in whole, by one run at a time."""

from __future__ import annotations

import hashlib
import shutil
import tempfile
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Final, NoReturn

from cookbook_build.publishing.swapping import MADE, drop, swap, tidied
from cookbook_build.user_folder import kept_folder
from cookbook_build.walking import below, is_file, is_folder, real

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

KEPT: Final = frozenset({".gitignore", ".gitattributes", ".gitkeep"})
MOST_NAMED: Final = 1000


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
        files = (path for path in self.root.rglob("*") if path.is_file())
        names = {path.relative_to(self.root).as_posix() for path in files}
        return sorted(names - {MADE})


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
    if real(Path()).is_relative_to(real(out)):
        raise CannotWriteError(
            f'"{out}" is the folder that you stand in, or one above it. Name another with --out.'
        )

    def closed(folder: Path, why: str) -> NoReturn:
        raise CannotWriteError(
            f'"{folder}" can\'t be looked into ({why}), so nobody knows what it holds. '
            "Move it away, or name another folder with --out."
        )

    listed = _listed(out)
    found = (
        path.relative_to(out).as_posix()
        for path in below(out, closed)
        if not is_folder(path) or path.is_symlink()
        if not (path.parent == out and _is_kept(path))
    )
    foreign = list(islice((name for name in found if name not in listed), MOST_NAMED))
    if foreign:
        least = "at least " if len(foreign) == MOST_NAMED else ""
        more = f" and {least}{len(foreign) - 1} more" if len(foreign) > 1 else ""
        raise CannotWriteError(
            f'"{out}" holds files that this program did not make: {foreign[0]}{more}. '
            "Move what is yours out of it, or name an empty folder with --out and copy the book "
            "over."
        )


PATIENCE_S: Final = 2.0
"""How long a run waits for another's folder: the helpers of one that was killed go within that."""


@contextmanager
def alone(out: Path) -> Iterator[None]:
    """Hold a folder for this run alone, put right what killed runs left, and let it go again.

    Whoever holds it already may hold it once more. Where the user's cache can't be written,
    nobody is kept out.

    Raises
    ------
    CannotWriteError
        When another run holds it.
    """
    from filelock import FileLock, Timeout  # noqa: PLC0415 - loads slowly

    root = kept_folder("held", out)
    if root is None:
        yield
        return
    name = hashlib.sha256(str(real(out)).encode("utf-8", "surrogatepass")).hexdigest()
    try:
        root.mkdir(mode=0o700, parents=True, exist_ok=True)
        held = FileLock(root / name, timeout=PATIENCE_S, is_singleton=True)
        held.acquire()
    except Timeout as problem:
        raise CannotWriteError(
            f'"{out}" is being bound by another run of this program right now. '
            "Wait until it is done, or name another folder with --out."
        ) from problem
    except OSError:
        yield
        return
    try:
        tidied(out)
        yield
    finally:
        held.release()


@contextmanager
def new_folder(out: Path) -> Iterator[Folder]:
    """Give a folder to fill, and swap it in for `out` when all went well.

    Raises
    ------
    CannotWriteError
        When `out` isn't ours, another run is binding into it, or the disk says no. The old book
        stays as it was.
    """
    with alone(out), _filled(out) as filled:
        yield filled


@contextmanager
def _filled(out: Path) -> Iterator[Folder]:
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
        filled.write(MADE, "")  # so that, should this run be killed, the next knows it for ours
        yield filled
        filled.write(MADE, "\n".join(filled.names()) + "\n")
        for name in KEPT:
            if _is_kept(out / name):
                filled.copy(name, out / name)
        beside.chmod(0o755)
        check_ours(out)  # once more: somebody may have put a file there meanwhile
        swap(beside, out)
    except OSError as problem:
        raise CannotWriteError(f'"{out}" can\'t be written: {problem.strerror}.') from problem
    finally:
        drop(beside)


def _is_kept(path: Path) -> bool:
    """Whether a file is one that its owner may keep beside a book; a link is none."""
    return path.name in KEPT and is_file(path) and not path.is_symlink()


def _listed(out: Path) -> set[str]:
    if not is_file(out / MADE):
        return set()
    try:
        return {MADE, *(out / MADE).read_text(encoding="utf-8").splitlines()}
    except (OSError, UnicodeDecodeError):
        return set()
