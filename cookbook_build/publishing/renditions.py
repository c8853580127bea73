"""What a picture becomes: files of a few widths, or the word why it can't be shown."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

SUFFIXES: Final = {
    "image/webp": "webp",
    "image/jpeg": "jpg",
    "image/png": "png",
    "image/svg+xml": "svg",
}


@dataclass(frozen=True, slots=True)
class Rendition:
    """One file made of a picture; its width and height are in px."""

    media_type: str
    width: int
    height: int
    data: bytes = field(repr=False)


class RefusedPictureError(Exception):
    """A file that no page can show; says why and what mends it, without the file's name."""

    def __init__(self, cause: str, mend: str) -> None:
        super().__init__(cause)
        self.cause, self.mend = cause, mend
