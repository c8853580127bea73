"""The text of a page: what its template makes of its view, with what all pages show."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.publishing.contact import ask_link
from cookbook_build.publishing.credit import credit
from cookbook_build.publishing.web_head import COVER, web_head
from cookbook_build.words import N_, _

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from jinja2 import Environment

    from cookbook_build.publishing.desk import Desk

SECTIONS: Final = (
    (N_("Contents"), COVER),
    (N_("Index"), "find.html"),
    (N_("Larder"), "larder.html"),
    (N_("Lists"), "lists.html"),
    (N_("Cautions"), "cautions.html"),
)
LOOKS: Final = (
    ("device", N_("As the device")),
    ("day", N_("Day")),
    ("dark", N_("Dark")),
    ("red", N_("Red")),
)


@dataclass(frozen=True, slots=True)
class PageText:
    """Makes the text of pages on a desk, with the templates of a theme."""

    desk: Desk
    templates: Environment
    has_feed: bool

    def of(self, name: str, template: str, shown: Mapping[str, Any]) -> str:
        """Return the text of the page of a name that shows a view."""
        return self.templates.get_template(template).render(self._whole(name, shown))

    def in_pieces(self, name: str, template: str, shown: Mapping[str, Any]) -> Iterator[str]:
        """Give the text of a page that is too large to be held."""
        yield from self.templates.get_template(template).generate(self._whole(name, shown))

    def _whole(self, name: str, shown: Mapping[str, Any]) -> dict[str, Any]:
        return {**self._shared(name), **self._told_to_the_web(name, shown), **shown}

    def _shared(self, name: str) -> dict[str, Any]:
        return {
            "book": self.desk.book.book,
            "up": "../" * name.count("/"),
            "here": name,
            "sections": [(_(word), href) for word, href in SECTIONS],
            "looks": [(value, _(word)) for value, word in LOOKS],
            "newest": self.desk.newest,
            "store_pages": self.desk.store_pages,
            "credit": credit(self.desk.book.book),
            "has_feed": self.has_feed,
        }

    def _told_to_the_web(self, name: str, shown: Mapping[str, Any]) -> dict[str, Any]:
        """Return what differs with what a page shows: its head, and a letter about it."""
        book = self.desk.book.book
        cover_picture = self.desk.pictures.view(book.cover, book.cover_text, "")
        return {
            "web": web_head(book, name, shown, cover_picture),
            "ask": ask_link(book.contact, shown["title"]),
        }
