"""What lies in a folder, whatever a stranger put there: links, loops, depths, what can't be read.

Names alone are looked at. No link is followed, and nothing here ends in an error of its own.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

DEEPEST: Final = 24  # folders in folders; our choice


def below(root: Path, told: Callable[[Path, str], object] = lambda *_: None) -> Iterator[Path]:
    """Give all that lies in a folder and in its folders; a link is given and not followed.

    `told` hears of each folder that can't be looked into, and why.
    """
    waiting = [(root, 0)]
    while waiting:
        folder, depth = waiting.pop()
        if depth > DEEPEST:
            told(folder, f"it lies more than {DEEPEST} folders deep")
            continue
        try:
            with os.scandir(folder) as listed:
                entries = sorted(listed, key=lambda entry: entry.name, reverse=True)
        except OSError as problem:
            told(folder, problem.strerror or type(problem).__name__)
            continue
        for entry in entries:
            path = folder / entry.name
            yield path
            if _leads_deeper(entry):
                waiting.append((path, depth + 1))


def _leads_deeper(entry: os.DirEntry[str]) -> bool:
    try:
        return entry.is_dir(follow_symlinks=False)
    except OSError:  # nobody may ask what it is: who looks into it learns why
        return True


def listed(folder: Path) -> list[Path]:
    """Return what lies in a folder itself, in the order of names; nothing where none can tell."""
    try:
        return sorted(folder.iterdir())
    except OSError:
        return []


def is_file(path: Path) -> bool:
    """Return whether there is a file that can be looked at, or a link to one."""
    return os.path.isfile(path)  # noqa: PTH113 - the other may raise


def is_folder(path: Path) -> bool:
    """Return whether there is a folder that can be looked at, or a link to one."""
    return os.path.isdir(path)  # noqa: PTH112 - the other may raise


def real(path: Path) -> Path:
    """Return where a path leads once every link is followed; a link to itself stays."""
    return Path(os.path.realpath(path))
