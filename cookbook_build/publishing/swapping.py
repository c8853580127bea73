"""Swapping: a whole folder put into the place of another, so that one of both always stands there.

Where the system can exchange two names at once (Linux, macOS), a reader finds the old book or the
new at any instant, and so does whoever comes after a run that was killed. Elsewhere the old one is
laid aside for a moment, and `tidied` brings it back.
"""

from __future__ import annotations

import contextlib
import ctypes
import errno
import functools
import os
import re
import shutil
import sys
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

MADE: Final = ".cookbook-build"
"""The file that tells a folder of ours, with the names of all in it."""
ASIDE: Final = ".old"
_AT_FDCWD: Final = -100
_EXCHANGE: Final = 2  # RENAME_EXCHANGE of renameat2(2); RENAME_SWAP of renamex_np(2) from memory
_CANNOT: Final = frozenset({errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EXDEV})
"""What a system or a disk says that has no exchange."""


def swap(beside: Path, out: Path) -> None:
    """Put a folder into the place of another; afterwards the other, if any, is at neither name.

    Raises
    ------
    OSError
        If that can't be done; then `out` is as it was.
    """
    if out.is_dir() and _exchanged(beside, out):
        drop(beside)
        return
    aside = beside.with_name(beside.name + ASIDE)
    if out.is_dir():
        out.rename(aside)
    try:
        beside.rename(out)
    except OSError:
        if aside.is_dir():
            aside.rename(out)
        raise
    drop(aside)


def drop(folder: Path) -> None:
    """Delete a folder of ours, its marker last, so that one cut short is still known for ours."""
    try:
        for path in folder.iterdir():
            if path.is_dir() and not path.is_symlink():
                shutil.rmtree(path, ignore_errors=True)
            elif path.name != MADE:
                path.unlink()
    except OSError:
        return  # the next run tries again
    shutil.rmtree(folder, ignore_errors=True)


def tidied(out: Path) -> None:
    """Put right what killed runs left beside a book: bring an old one back, drop unfinished ones.

    Only for who holds the book alone: what a run is filling right now looks the same.
    """
    ours = re.compile(rf"\.{re.escape(out.name)}-[a-z0-9_]{{8}}(?:{re.escape(ASIDE)})?")
    try:
        left = [path for path in out.parent.iterdir() if ours.fullmatch(path.name)]
        left = [path for path in left if path.is_dir() and not path.is_symlink()]
        left = [path for path in left if (path / MADE).is_file() or not any(path.iterdir())]
    except OSError:
        return
    for path in sorted(left, key=lambda path: not path.name.endswith(ASIDE)):
        if path.name.endswith(ASIDE) and not os.path.lexists(out):
            with contextlib.suppress(OSError):  # who may not write here is told so when binding
                path.rename(out)
        else:
            drop(path)


def _exchanged(one: Path, other: Path) -> bool:
    """Exchange two names at once; False where there is nothing to do it with."""
    exchange = _exchange()
    return exchange is not None and exchange(os.fsencode(one), os.fsencode(other))


@functools.cache
def _exchange() -> Callable[[bytes, bytes], bool] | None:
    if sys.platform not in {"linux", "darwin"}:
        return None
    library = ctypes.CDLL(None, use_errno=True)
    name = "renameat2" if sys.platform == "linux" else "renamex_np"
    call = getattr(library, name, None)
    if call is None:
        return None

    def exchange(one: bytes, other: bytes) -> bool:
        if name == "renameat2":
            failed = call(_AT_FDCWD, one, _AT_FDCWD, other, ctypes.c_uint(_EXCHANGE))
        else:
            failed = call(one, other, ctypes.c_uint(_EXCHANGE))
        if not failed:
            return True
        number = ctypes.get_errno()
        if number in _CANNOT:
            return False
        raise OSError(number, os.strerror(number), os.fsdecode(other))

    return exchange
