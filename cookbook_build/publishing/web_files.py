"""What a book needs where it is served over the web: a manifest, an icon, and an offline worker.

They change nothing for a book that is opened from a folder: its script asks for them over http
and https only. The worker is written last, for it names every file of the book.
"""

from __future__ import annotations

import hashlib
from html import escape
from typing import TYPE_CHECKING, Final

from cookbook_build.publishing.carrying import is_carried
from cookbook_build.words import _

if TYPE_CHECKING:
    from collections.abc import Iterator

    from jinja2 import Environment

    from cookbook_build.manuscript.schema import BookKeys
    from cookbook_build.publishing.editions import Folder

WORKER: Final = "worker.js"
ICON: Final = "icon.svg"
MANIFEST: Final = "manifest.webmanifest"
_SHORT: Final = 12
"""Letters that fit below an icon; common practice, no source."""


def write_web_files(book: BookKeys, templates: Environment, filled: Folder) -> None:
    """Write them into a folder that holds all other files of the book."""
    for name, text in icon_and_manifest(book, templates):
        filled.write(name, text)
    names = [name for name in filled.names() if not (name.startswith(".") or is_carried(name))]
    worker = templates.get_template(WORKER).render(
        edition=fingerprint(filled, names), files=names, missing=missing_page(book.language)
    )
    filled.write(WORKER, worker)


def icon_and_manifest(book: BookKeys, templates: Environment) -> Iterator[tuple[str, str]]:
    """Give what a served page asks for, besides the worker."""
    initial = next((char for char in book.title if char.isalnum()), "").upper()
    shown = {"book": book, "short_name": short_name(book.title), "initial": initial}
    for name in (ICON, MANIFEST):
        yield name, templates.get_template(name).render(shown)


def missing_page(language: str) -> str:
    """Return the page that answers without a signal for a file that the worker doesn't keep."""
    head = escape(_("This file is not kept on this device"))
    words = escape(
        _(
            "The book’s pages are; an e-book or a book in one file needs a signal until you have "
            "taken it."
        )
    )
    return (
        f'<!DOCTYPE html><html lang="{escape(language)}"><meta charset="utf-8">'
        f'<meta name="viewport" content="width=device-width"><title>{head}</title>'
        f'<h1>{head}</h1><p>{words}</p><p><a href="index.html">{escape(_("Contents"))}</a></p>'
    )


def short_name(title: str) -> str:
    """Return as many words of a title as fit below an icon, the last not a sign; or its first."""
    first, *words = title.split()
    found = first
    for word in words:
        if len(found) + 1 + len(word) > _SHORT:
            break
        found = f"{found} {word}"
    while len(found.split()) > 1 and not any(char.isalnum() for char in found.split()[-1]):
        found = found.rpartition(" ")[0]
    return found


def fingerprint(filled: Folder, names: list[str]) -> str:
    """Return what changes whenever a file of the book is added, changed, renamed or gone."""
    digest = hashlib.sha256()
    for name in names:
        content = hashlib.sha256((filled.root / name).read_bytes()).hexdigest()
        digest.update(f"{name}\n{content}\n".encode())
    return digest.hexdigest()[:16]
