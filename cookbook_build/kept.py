"""What was made and is kept, in the user's cache folder; nothing in it is taken on trust.

Each file begins with a digest of its name and of what follows; a torn, changed or misplaced one
counts as not there. A full or forbidden disk only means to make it again.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import shutil
import tempfile
import time
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Final

from cookbook_build.user_folder import kept_folder
from cookbook_build.walking import real

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator

_DIGEST_BYTES: Final = 32
FORGOTTEN_S: Final = 180 * 86_400.0
"""Half a year without being bound, until the pieces of a book are deleted; our choice."""


@dataclass(slots=True)
class Kept:
    """A folder of kept files; without one nothing is kept."""

    root: Path | None
    asked: set[str] = field(default_factory=set)  # the keys that were read

    def read(self, key: str) -> bytes | None:
        """Return what is kept under a key, None where that is nothing or isn't whole."""
        if self.root is None:
            return None
        self.asked.add(key)
        try:
            kept = (self.root / key).read_bytes()
        except OSError:
            return None
        digest, body = kept[:_DIGEST_BYTES], kept[_DIGEST_BYTES:]
        return body if digest == _digest(key, body) else None

    def keep(self, key: str, body: bytes) -> None:
        """Keep something under a key."""
        if self.root is None:
            return
        with contextlib.suppress(OSError):
            self.root.mkdir(mode=0o700, parents=True, exist_ok=True)
            beside, name = tempfile.mkstemp(dir=self.root, prefix=".")
            try:
                with os.fdopen(beside, "wb") as file:
                    file.write(_digest(key, body))
                    file.write(body)
                Path(name).replace(self.root / key)
            except OSError:
                Path(name).unlink(missing_ok=True)

    def made(self, key: str, make: Callable[[], bytes]) -> bytes:
        """Return what is kept under a key, or what is made now, and keep that."""
        found = self.read(key)
        if found is None:
            found = make()
            self.keep(key, found)
        return found

    def only(self, keys: Collection[str]) -> None:
        """Delete all that is kept under other keys."""
        if self.root is None:
            return
        with contextlib.suppress(OSError), os.scandir(self.root) as entries:
            for entry in entries:
                if entry.name not in keys and not entry.name.startswith("."):  # being written
                    Path(entry.path).unlink(missing_ok=True)

    def forget_others(self) -> None:
        """Delete what lies beside it of books that nobody has bound for a long time."""
        if self.root is None:
            return
        eldest_s = time.time() - FORGOTTEN_S
        with contextlib.suppress(OSError):
            self.root.touch()
            for other in self.root.parent.iterdir():
                if other.is_dir() and other.stat().st_mtime < eldest_s:
                    shutil.rmtree(other, ignore_errors=True)


NOTHING_KEPT: Final = Kept(None)


@contextmanager
def pieces_of(book: Path, out: Path, kept: Kept | None = None) -> Iterator[Kept]:
    """Give where the pieces of a book are kept that is bound into a folder; what is given, itself.

    Where the user's cache would lie within one of both, they are kept for this time only.
    """
    kept = kept or users_pieces(book)
    if kept.root is not None and not kept.root.is_relative_to(real(out)):
        yield kept
        return
    with tempfile.TemporaryDirectory() as folder:
        yield Kept(Path(folder))


def users_pieces(book: Path) -> Kept:
    """Return where the user's cache keeps the pieces of a book."""
    root = kept_folder("pieces", book)
    if root is None:
        return NOTHING_KEPT
    name = str(real(book)).encode("utf-8", "surrogatepass")
    return Kept(root / hashlib.sha256(name).hexdigest())


def _digest(key: str, body: bytes) -> bytes:
    digest = hashlib.sha256(key.encode())
    digest.update(body)
    return digest.digest()
