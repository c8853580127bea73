"""The EPUB edition: the whole book and each series as a reflowable e-book (EPUB 3.3).

The container is a zip written entry by entry: `mimetype` first and stored as it is, then the
package; every entry carries the day of the book's text, so that two bindings are alike to the byte.
"""

from __future__ import annotations

import io
import re
import zipfile
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.publishing.carrying import EPUB, MEDIA_TYPES, carried
from cookbook_build.publishing.epub_package import access, metadata, moment
from cookbook_build.publishing.epub_pages import CONTENTS, EpubPages
from cookbook_build.publishing.epub_volumes import volumes
from cookbook_build.publishing.theme import theme_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from datetime import datetime

    from jinja2 import Environment

    from cookbook_build.publishing.carrying import Carried
    from cookbook_build.publishing.editions import Folder
    from cookbook_build.publishing.epub_volumes import Volume
    from cookbook_build.publishing.pages import Pages

MEDIA_TYPE: Final = MEDIA_TYPES[EPUB]
INSIDE: Final = "EPUB/"
FIRST_YEAR, LAST_YEAR = 1980, 2107
"""The years that a zip can date its entries with (PKWARE APPNOTE, 4.4.6)."""

_NO_XML: Final = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


@dataclass(frozen=True, slots=True)
class Item:
    """One file as the package lists it."""

    id: str
    href: str
    media_type: str
    properties: str = ""


def epub_edition(pages: Pages, filled: Folder) -> Iterator[Carried]:
    """Write the whole book and each series as an e-book, and give each of them."""
    meals: dict[str, dict[str, Any]] = {}  # each meal's view is made once, for all volumes
    when = moment(pages.desk.book)
    for volume in volumes(pages.desk):
        entries = packed(volume, pages.templates, meals)
        filled.write_bytes(volume.name.file, container(entries, when))
        yield carried(volume.name, volume.name.file, filled)


def packed(
    volume: Volume, templates: Environment, meals: dict[str, dict[str, Any]]
) -> Iterator[tuple[str, bytes]]:
    """Give the name and the bytes of everything in a volume's package."""
    pages, theme = EpubPages(volume, templates, meals), theme_of(volume.desk.book)
    styles = list(theme.epub_files())
    texts = {name: _xml(text) for name, text in pages.render()}
    package = templates.get_template("epub/package.opf").render(
        about=metadata(volume),
        access=access(pages.pictures, has_drawings=any(b"<svg" in text for text in texts.values())),
        items=[*_items(pages, texts), *_style_items(styles), *_picture_items(pages)],
        spine=[page.name for page in pages.pages],
        cover=pages.cover,
    )
    yield "META-INF/container.xml", (theme.ours / "epub/container.xml").read_bytes()
    yield f"{INSIDE}package.opf", _xml(package)
    for name, _kind, data in styles:
        yield f"{INSIDE}{name}", data
    for name, data in texts.items():
        yield f"{INSIDE}{name}", data
    for held in pages.pictures.files():
        yield f"{INSIDE}{held.href}", held.data


def _items(pages: EpubPages, texts: Mapping[str, bytes]) -> list[Item]:
    return [
        Item(
            f"page-{at}",
            page.name,
            "application/xhtml+xml",
            _properties(page.name, texts[page.name]),
        )
        for at, page in enumerate(pages.pages, 1)
    ]


def _properties(name: str, text: bytes) -> str:
    """Return what a page must say of itself: that it is the contents, or has a drawing in it."""
    return "nav" if name == CONTENTS else "svg" if b"<svg" in text else ""


def _style_items(styles: list[tuple[str, str, bytes]]) -> list[Item]:
    return [
        Item("style" if at == 1 else f"style-{at}", name, media_type)
        for at, (name, media_type, _data) in enumerate(styles, 1)
    ]


def _picture_items(pages: EpubPages) -> list[Item]:
    cover = pages.cover.href if pages.cover is not None else None
    return [
        Item(
            f"picture-{at}",
            held.href,
            held.media_type,
            "cover-image" if held.href == cover else "",
        )
        for at, held in enumerate(pages.pictures.files(), 1)
    ]


def _xml(text: str) -> bytes:
    """Return a page's bytes, without the characters that XML 1.0 (section 2.2) can't hold."""
    return _NO_XML.sub("\N{REPLACEMENT CHARACTER}", text).encode("utf-8")


def container(entries: Iterator[tuple[str, bytes]], when: datetime) -> bytes:
    """Return a zip of some entries behind the mimetype that every e-book begins with."""
    filled = io.BytesIO()
    with zipfile.ZipFile(filled, "w") as zipped:
        zipped.writestr(_entry("mimetype", when, zipfile.ZIP_STORED), MEDIA_TYPE)
        for name, data in entries:
            zipped.writestr(_entry(name, when, zipfile.ZIP_DEFLATED), data, compresslevel=9)
    return filled.getvalue()


def _entry(name: str, when: datetime, method: int) -> zipfile.ZipInfo:
    """Return an entry's head: the same on every machine."""
    year = min(max(when.year, FIRST_YEAR), LAST_YEAR)
    clock = (when.hour, when.minute, when.second)
    entry = zipfile.ZipInfo(name, (year, when.month, when.day, *clock))
    entry.compress_type = method
    entry.create_system = 3
    entry.external_attr = 0o644 << 16
    return entry
