"""A cache of what pictures became, in the user's cache folder; nothing in it is taken on trust.

One file holds all that was made of one picture: a digest of what follows and of its key, a line
that lists the files, and the files. A torn, changed or misplaced file is made again.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

from cookbook_build.publishing.renditions import SUFFIXES, Rendition
from cookbook_build.user_folder import kept_folder

if TYPE_CHECKING:
    from collections.abc import Sequence

_DIGEST_BYTES: Final = 32


@dataclass(frozen=True, slots=True)
class PictureCache:
    """Where made pictures are kept; without a folder it keeps nothing."""

    root: Path | None

    def read(self, key: str) -> tuple[Rendition, ...]:
        """Return what a picture became, or nothing where that isn't kept or isn't whole."""
        if self.root is None:
            return ()
        try:
            digest, body = _parted((self.root / key).read_bytes())
            return _unpacked(body) if digest == _digest(key, body) else ()
        except (OSError, ValueError, TypeError):
            return ()

    def keep(self, key: str, made: Sequence[Rendition]) -> None:
        """Keep what a picture became; a full or forbidden disk only means to make it again."""
        if self.root is None:
            return
        body = _packed(made)
        with contextlib.suppress(OSError):
            self.root.mkdir(mode=0o700, parents=True, exist_ok=True)
            beside, name = tempfile.mkstemp(dir=self.root, prefix=".")
            try:
                with os.fdopen(beside, "wb") as file:
                    file.write(_digest(key, body) + body)
                Path(name).replace(self.root / key)
            except OSError:
                Path(name).unlink(missing_ok=True)


def users_cache(book: Path) -> PictureCache:
    """Return the user's cache, or one that keeps nothing where that lies within the book."""
    return PictureCache(kept_folder("pictures", book))


def key_of(data: bytes, settings: str) -> str:
    """Return the name of what a picture becomes with some settings."""
    return hashlib.sha256(hashlib.sha256(settings.encode()).digest() + data).hexdigest()


def _digest(key: str, body: bytes) -> bytes:
    return hashlib.sha256(key.encode() + body).digest()


def _parted(kept: bytes) -> tuple[bytes, bytes]:
    return kept[:_DIGEST_BYTES], kept[_DIGEST_BYTES:]


def _packed(made: Sequence[Rendition]) -> bytes:
    listed = [[one.media_type, one.width, one.height, len(one.data)] for one in made]
    return json.dumps(listed).encode() + b"\n" + b"".join(one.data for one in made)


def _unpacked(body: bytes) -> tuple[Rendition, ...]:
    head, _, data = body.partition(b"\n")
    found, at = [], 0
    for media_type, width, height, length in json.loads(head):
        if media_type not in SUFFIXES:
            raise ValueError(media_type)
        found.append(Rendition(media_type, width, height, data[at : at + length]))
        at += length
    return tuple(found)
