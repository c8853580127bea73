"""Watching: which files of a folder changed since they were last read.

A change is given when two looks in a row agree, so a file that is being written waits; what never
comes to rest is given all the same. Whatever is read after a change was given is at least as new
as the look that gave it, and a later save differs from that look: so the last save always counts.
"""

from __future__ import annotations

import hashlib
import os
import stat
import time
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final, NamedTuple

from cookbook_build.manuscript.source import leads_out
from cookbook_build.publishing.swapping import MADE
from cookbook_build.walking import is_file

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping
    from pathlib import Path

FRESH_S: Final = 3.0
"""How long a file's time of change may not yet tell two saves apart: FAT counts in 2 s."""
LARGEST_READ_BYTES: Final = 4_000_000
PATIENCE_S: Final = 2.0
"""How long a folder may go on changing before it is read as it is; our choice."""
ROOT: Final = "/"
"""The name of the folder itself in a look at it; names of folders end with a slash."""


class Trace(NamedTuple):
    """What tells one state of a file from another, without reading it unless it is fresh."""

    size_bytes: int
    changed_ns: int
    inode: int
    mode: int
    digest: bytes | None = None

    def may_be(self, other: Trace) -> bool:
        """Return whether nothing tells the two apart."""
        read = self.digest is not None and other.digest is not None
        return self[:4] == other[:4] and (not read or self.digest == other.digest)


Look = dict[str, Trace]
"""Every file and folder by its name within the book; empty where the folder is gone."""


def look_at(folder: Path, also: Collection[str] = ()) -> Look:
    """Return what stands in a folder now.

    Hidden folders (save those in `also`) and bound books are left out, where they lie at its top.
    """
    found: Look = {}
    for name, path in _walked(folder, also):
        trace = _traced(path, is_file=not name.endswith("/"))
        if trace is not None:
            found[name] = trace
    return found if ROOT in found else {}


def differing(before: Mapping[str, Trace], after: Mapping[str, Trace]) -> list[str]:
    """Return the names of what came, changed or went; of folders only where no file did."""
    names = sorted(
        name
        for name in {*before, *after}
        if name not in before or name not in after or not before[name].may_be(after[name])
    )
    files = [name for name in names if not name.endswith("/")]
    return files or names


@dataclass(slots=True)
class Watcher:
    """Looks at a folder again and again, and gives what changed once it has come to rest."""

    folder: Path
    also: Collection[str] = ()
    _given: Look = field(default_factory=dict)  # as it was when a change was last given
    _last: Look | None = None
    _restless_since: float | None = None
    _is_owed: bool = True  # nothing was read yet, or what was given could not be read

    def step(self) -> list[str] | None:
        """Look once; return the names of what changed, or None while there is nothing to do.

        The first two looks that agree give every file.
        """
        before, self._last = self._last, look_at(self.folder, self.also)
        changed = differing(self._given, self._last)
        if not changed and not self._is_owed:
            self._restless_since = None
            return None
        if self._restless_since is None:
            self._restless_since = time.monotonic()
        at_rest = before is not None and not differing(before, self._last)
        if not at_rest and time.monotonic() - self._restless_since < PATIENCE_S:
            return None
        self._given, self._restless_since, self._is_owed = self._last, None, False
        return changed

    def again(self) -> None:
        """Give a change at the next look that is at rest, since the last could not be read."""
        self._is_owed = True


def _walked(folder: Path, also: Collection[str]) -> Iterator[tuple[str, Path]]:
    """Give the name and the path of all there is; links to folders of the book only at its top."""
    yield ROOT, folder
    waiting = [("", folder)]
    while waiting:
        above, at = waiting.pop()
        for entry in _listed(at):
            name, path = above + entry.name, at / entry.name
            own_link = not above and entry.is_symlink() and not leads_out(folder, path)
            if not _is_folder(entry, linked=own_link):
                yield name, path
            elif above or not _is_left_out(entry.name, path, also):
                yield f"{name}/", path
                waiting.append((f"{name}/", path))


def _listed(folder: Path) -> list[os.DirEntry[str]]:
    try:
        with os.scandir(folder) as entries:
            return list(entries)
    except OSError:  # gone, or no folder any more
        return []


def _is_folder(entry: os.DirEntry[str], *, linked: bool) -> bool:
    try:
        return entry.is_dir(follow_symlinks=linked)
    except OSError:
        return False


def _is_left_out(name: str, path: Path, also: Collection[str]) -> bool:
    return (name.startswith(".") and name not in also) or is_file(path / MADE)


def _traced(path: Path, *, is_file: bool) -> Trace | None:
    """Return the trace of a file or folder, None where there is none any more."""
    try:
        found = path.stat()
    except (OSError, ValueError):
        return None
    if not is_file:  # its files speak for it
        return Trace(0, 0, 0, found.st_mode)
    fresh = time.time_ns() - found.st_mtime_ns < FRESH_S * 1e9
    read = fresh and stat.S_ISREG(found.st_mode) and found.st_size <= LARGEST_READ_BYTES
    digest = _digest(path) if read else None
    return Trace(found.st_size, found.st_mtime_ns, found.st_ino, found.st_mode, digest)


def _digest(path: Path) -> bytes:
    """Return a digest of what a file holds, or nothing where another program holds it closed."""
    try:
        return hashlib.blake2b(path.read_bytes(), digest_size=16).digest()
    except OSError:
        return b""
