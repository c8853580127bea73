"""The text of an e-book's page: what its template makes of its view, with what all pages show."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from cookbook_build.publishing.legal_xml import legal

if TYPE_CHECKING:
    from collections.abc import Mapping

    from jinja2 import Environment

    from cookbook_build.publishing.desk import Desk
    from cookbook_build.publishing.epub_package import Links, PictureBox
    from cookbook_build.publishing.epub_volumes import VolumeName


def xml(text: str) -> bytes:
    """Return a page's bytes, without the characters that XML can't hold."""
    return legal(text).encode("utf-8")


@dataclass(frozen=True, slots=True)
class EpubText:
    """Makes the text of a volume's pages; the box gathers the pictures that they show."""

    desk: Desk
    volume: VolumeName
    templates: Environment
    links: Links
    pictures: PictureBox

    def of(self, name: str, title: str, template: str, shown: Mapping[str, Any]) -> str:
        """Return the text of the page of a name that shows a view."""
        return self.templates.get_template(f"epub/{template}").render(
            self._shared(name, title) | dict(shown)
        )

    def _shared(self, name: str, title: str) -> dict[str, Any]:
        return {
            "book": self.desk.book.book,
            "volume": self.volume,
            "here": name,
            "title": title,
            "newest": self.desk.newest,
            "store_pages": self.desk.store_pages,
            "reach": self.links.reach,
            "packed": self.pictures.packed,
        }
