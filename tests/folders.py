"""What two folders hold, to compare them byte for byte."""

from __future__ import annotations

import zipfile
from io import BytesIO
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path


def held(folder: Path) -> dict[str, bytes]:
    """Return every file of a folder by its name there."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def within(files: Mapping[str, bytes]) -> Iterator[tuple[str, bytes]]:
    """Give every file in the order of names, and after an e-book each file within it."""
    for name, data in sorted(files.items()):
        yield name, data
        if name.endswith(".epub"):
            with zipfile.ZipFile(BytesIO(data)) as container:
                for inner in container.namelist():
                    yield f"{name}/{inner}", container.read(inner)


def differing(one: Mapping[str, bytes], other: Mapping[str, bytes]) -> list[str]:
    """Return the names of files that two folders do not have alike, byte for byte."""
    return sorted(name for name in {*one, *other} if one.get(name) != other.get(name))
