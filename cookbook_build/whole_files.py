"""A file put in its place whole: whatever happens, the old one stands there or the new."""

from __future__ import annotations

import errno
import os
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path


def put(path: Path, data: bytes, *, only_new: bool = False) -> None:
    """Write a file beside its place, down to the disk, and then give it its name.

    The name beside is nobody's guess and is never a link's, so nothing is written through one.

    Raises
    ------
    FileExistsError
        If there is something of that name, and `only_new` is asked for.
    OSError
        When the disk says no; what stood there stands there still.
    """
    if path.exists() and not os.access(path, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
    beside = path.with_name(f".{path.name[:40]}.{os.urandom(4).hex()}")
    beside.touch(exist_ok=False)
    try:
        with beside.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())  # or a power cut could leave its name without its text
        if only_new and os.path.lexists(path):
            raise FileExistsError(errno.EEXIST, "it is there already")
        if path.exists():
            beside.chmod(path.stat().st_mode)
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
