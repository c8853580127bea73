"""What a browser is shown at an address: a page of the last good book and what is to be mended."""

from __future__ import annotations

import functools
import hashlib
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Final
from urllib.parse import unquote, urlsplit

from cookbook_build.manuscript.own_theme import CARRIED
from cookbook_build.preview.panel import AT, FILES, missing_page, panel, waiting_page, with_added
from cookbook_build.publishing.feed import MEDIA_TYPE
from cookbook_build.publishing.renditions import SUFFIXES
from cookbook_build.publishing.theme import Theme, theme_folder
from cookbook_build.publishing.web_head import COVER

if TYPE_CHECKING:
    from cookbook_build.preview.kept import State

HTML: Final = "text/html; charset=utf-8"
MEDIA_TYPES: Final = {
    ".html": HTML,
    ".txt": "text/plain; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".xml": f"{MEDIA_TYPE}; charset=utf-8",
    ".webmanifest": "application/manifest+json",
    **CARRIED,
    **{f".{suffix}": kind for kind, suffix in SUFFIXES.items()},
}


@dataclass(frozen=True, slots=True)
class Answer:
    """What stands at an address, and what tells it from what stood there before."""

    status: int
    media_type: str
    body: bytes
    stamp: str = ""


def name_at(address: str) -> str:
    """Return the name of the file of a book that a page's address means."""
    return unquote(urlsplit(address).path).removeprefix("/") or COVER


def answer(state: State, name: str) -> Answer:
    """Return what a browser is shown of a name; may be called from any thread."""
    edition = state.edition
    ours = own_files().get(name)
    if ours is None and edition is not None and name in edition.names:
        if name.endswith(".html"):
            return _page(state, name, 200, edition.content(name).decode(), edition.stamp(name))
        ours = edition.content(name)
    ours = plain_files().get(name) if ours is None else ours
    if ours is not None:
        return Answer(200, _media_type(name), ours)
    if PurePosixPath(name).suffix not in {"", ".html"}:
        return Answer(404, MEDIA_TYPES[".txt"], b"There is no such file in this book.\n")
    if edition is None:
        return _page(state, name, 200, waiting_page(state))
    return _page(state, name, 404, missing_page(name, edition.pages))


def _page(state: State, name: str, status: int, text: str, of: str = "") -> Answer:
    """Return a page with what is added to it; its stamp is of all that a reader sees there."""
    stamp = hashlib.sha256(f"{of or text}\0{panel(state)}".encode()).hexdigest()[:16]
    return Answer(status, HTML, with_added(text, name, state, stamp).encode(), stamp)


@functools.cache
def own_files() -> dict[str, bytes]:
    """Return what the panel needs, by name."""
    here = Path(__file__).parent
    return {AT + name: (here / name).read_bytes() for name in FILES}


@functools.cache
def plain_files() -> dict[str, bytes]:
    """Return the styles and scripts of our own look, for pages that are none of the book's."""
    return dict(Theme(theme_folder()).web_files())


def _media_type(name: str) -> str:
    return MEDIA_TYPES.get(PurePosixPath(name).suffix.casefold(), "application/octet-stream")
