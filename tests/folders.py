"""What two folders hold, to compare them byte for byte."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path


def held(folder: Path) -> dict[str, bytes]:
    """Return every file of a folder by its name there."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def differing(one: Mapping[str, bytes], other: Mapping[str, bytes]) -> list[str]:
    """Return the names of files that two folders do not have alike, byte for byte."""
    return sorted(name for name in {*one, *other} if one.get(name) != other.get(name))
