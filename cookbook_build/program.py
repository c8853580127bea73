"""The program as it is: a digest of its own files, of Python, and of what is installed beside it.

What was made by another program is made again.
"""

from __future__ import annotations

import functools
import hashlib
import json
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Final

from cookbook_build.walking import real

if TYPE_CHECKING:
    from collections.abc import Iterator

PACKAGE: Final = Path(__file__).parent
THEMES: Final = PACKAGE.parent / "themes"  # beside the package where it was not installed


class StrangeError(Exception):
    """Something lies there of which a digest would not say all."""


@functools.cache
def program() -> str:
    """Return what stands for the program while this process runs.

    Raises
    ------
    StrangeError
        If something lies among its files that is no plain file or folder.
    """
    installed = {
        name
        for folder in sys.path
        if os.path.isdir(folder)  # noqa: PTH112 - sys.path holds text
        for name in os.listdir(folder)  # noqa: PTH208
        if name.endswith(".dist-info")
    }
    own = [tree_digest(root) for root in (PACKAGE, THEMES) if root.is_dir()]
    text = json.dumps([sys.version, sorted(installed), own])
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def tree_digest(root: Path, besides: Path | None = None) -> str:
    """Return a digest of the names and the bytes of all that lies in a folder.

    Raises
    ------
    StrangeError
        If something lies there that is no plain file or folder.
    """
    digest = hashlib.sha256()
    for path in sorted(_within(root, besides)):
        name = path.relative_to(root).as_posix()
        digest.update(json.dumps([name, path.is_dir()]).encode("utf-8", "surrogatepass"))
        if not path.is_dir():
            with path.open("rb") as file:
                digest.update(hashlib.file_digest(file, "sha256").digest())
    return digest.hexdigest()


def _within(folder: Path, besides: Path | None) -> Iterator[Path]:
    with os.scandir(folder) as entries:
        listed = list(entries)
    for entry in listed:
        path = Path(entry.path)
        if entry.is_symlink() or not (entry.is_file() or entry.is_dir()):
            raise StrangeError(entry.name)
        if entry.is_file():
            yield path
        elif not _is_passed_over(path, besides):
            yield path
            yield from _within(path, besides)


def _is_passed_over(folder: Path, besides: Path | None) -> bool:
    """Whether nothing of a book comes from a folder: where it goes, and what editors keep."""
    kept_by_others = folder.name in {".git", ".venv", "__pycache__"}
    return kept_by_others or (besides is not None and real(folder) == besides)
