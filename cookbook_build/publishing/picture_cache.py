"""A cache of what pictures became: all that was made of one picture is one kept file.

It holds a line that lists the pictures, and the pictures.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.kept import Kept
from cookbook_build.publishing.renditions import SUFFIXES, Rendition
from cookbook_build.user_folder import kept_folder

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path


@dataclass(frozen=True, slots=True)
class PictureCache:
    """Where made pictures are kept; without a folder it keeps nothing."""

    root: Path | None

    def read(self, key: str) -> tuple[Rendition, ...]:
        """Return what a picture became, or nothing where that isn't kept or isn't whole."""
        body = Kept(self.root).read(key)
        try:
            return () if body is None else _unpacked(body)
        except (ValueError, TypeError):
            return ()

    def keep(self, key: str, made: Sequence[Rendition]) -> None:
        """Keep what a picture became."""
        Kept(self.root).keep(key, _packed(made))


def users_cache(book: Path) -> PictureCache:
    """Return the user's cache, or one that keeps nothing where that lies within the book."""
    return PictureCache(kept_folder("pictures", book))


def key_of(data: bytes, settings: str) -> str:
    """Return the name of what a picture becomes with some settings."""
    return hashlib.sha256(hashlib.sha256(settings.encode()).digest() + data).hexdigest()


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
