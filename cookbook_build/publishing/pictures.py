"""Pictures: which files the book shows, and their size on a page."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.body import image_name

if TYPE_CHECKING:
    from pathlib import Path

_VIEW_BOX: Final = re.compile(r'viewBox="\s*[\d.-]+[ ,]+[\d.-]+[ ,]+([\d.]+)[ ,]+([\d.]+)\s*"')
_SVG_HEAD: Final = 4096


@dataclass(frozen=True, slots=True)
class PictureView:
    """A picture as a page shows it."""

    src: str
    alt: str
    width: int | None
    height: int | None


def picture_view(folder: Path, name: str | None, text: str | None, up: str) -> PictureView | None:
    """Return a picture of the book, with its proportions where the file tells them at once."""
    if name is None:
        return None
    file = image_name(name)
    width, height = _svg_size(folder / "images" / file)
    return PictureView(f"{up}images/{file}", text or "", width, height)


def _svg_size(path: Path) -> tuple[int | None, int | None]:
    if path.suffix.casefold() != ".svg":
        return None, None
    with path.open(encoding="utf-8", errors="replace") as file:
        match = _VIEW_BOX.search(file.read(_SVG_HEAD))
    return (round(float(match[1])), round(float(match[2]))) if match else (None, None)
