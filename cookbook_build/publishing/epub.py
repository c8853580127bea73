"""The EPUB edition: the whole book and each series as a reflowable e-book (EPUB 3.3).

The container is a zip written entry by entry: `mimetype` first and stored as it is, then the
package; every entry carries the day of the book's text, so that two bindings are alike to the byte.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Final

from cookbook_build.publishing.carrying import carried
from cookbook_build.publishing.contents import sections
from cookbook_build.publishing.epub_container import write_container
from cookbook_build.publishing.epub_package import access, metadata, moment
from cookbook_build.publishing.epub_pages import CONTENTS, EpubPages
from cookbook_build.publishing.epub_text import xml
from cookbook_build.publishing.theme import theme_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from jinja2 import Environment

    from cookbook_build.publishing.carrying import Carried
    from cookbook_build.publishing.editions import Folder
    from cookbook_build.publishing.epub_container import Deflated
    from cookbook_build.publishing.pages import Pages

INSIDE: Final = "EPUB/"


@dataclass(frozen=True, slots=True)
class Item:
    """One file as the package lists it."""

    id: str
    href: str
    media_type: str
    properties: str = ""


class EpubEdition:
    """The whole book and each series as an e-book."""

    def __init__(self, pages: Pages, filled: Folder) -> None:
        self.pages, self.filled = pages, filled
        self.when = moment(pages.desk.book)

    def meal(self, address: str) -> None:
        """Make the page of a meal for each volume that holds it."""
        for volume in self.pages.holding[address]:
            self.pages.slices.chapter(address, volume)

    def parts(self) -> dict[str, Callable[[], Carried]]:
        """Return what writes each volume."""
        made = epub_volumes(self.pages)
        return {one.volume.name.file: partial(self._write, one) for one in made}

    def _write(self, made: EpubPages) -> Carried:
        name, entries = made.volume.name, packed(made, self.pages.templates)
        write_container(self.filled.place(name.file), entries, self.when)
        return carried(name, name.file, self.filled)


def epub_volumes(pages: Pages) -> Iterator[EpubPages]:
    """Give the pages of each volume."""
    parts = tuple(sections(pages.volumes[0].desk, pages.slices))
    for volume in pages.volumes:
        yield EpubPages(volume, pages.templates, pages.slices, parts)


def packed(pages: EpubPages, templates: Environment) -> Iterator[tuple[str, bytes | Deflated]]:
    """Give the name and the bytes of everything in a volume's package."""
    volume, theme = pages.volume, theme_of(pages.volume.desk.book)
    styles = list(theme.epub_files())
    texts = dict(pages.render())
    drawn = {name for name, text in texts.items() if b"<svg" in text.whole}
    package = templates.get_template("epub/package.opf").render(
        about=metadata(volume),
        access=access(pages.pictures, has_drawings=bool(drawn)),
        items=[*_items(pages, drawn), *_style_items(styles), *_picture_items(pages)],
        spine=[page.name for page in pages.pages],
        cover=pages.cover,
    )
    yield "META-INF/container.xml", (theme.ours / "epub/container.xml").read_bytes()
    yield f"{INSIDE}package.opf", xml(package)
    for name, _kind, data in styles:
        yield f"{INSIDE}{name}", data
    for name, text in texts.items():
        yield f"{INSIDE}{name}", text
    for held in pages.pictures.files():
        yield f"{INSIDE}{held.href}", held.data


def _items(pages: EpubPages, drawn: set[str]) -> list[Item]:
    return [
        Item(
            f"page-{at}",
            page.name,
            "application/xhtml+xml",
            "nav" if page.name == CONTENTS else "svg" if page.name in drawn else "",
        )
        for at, page in enumerate(pages.pages, 1)
    ]


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
