"""The Atom feed (RFC 4287): the recipes that have a date, the newest first.

No day in it is of the clock. A recipe is new on its `date`, and changes with each trial that
counts; the feed changes with its recipes.
"""

from __future__ import annotations

import xml.etree.ElementTree as ET
from typing import TYPE_CHECKING, Final

from cookbook_build.publishing.credit import credit
from cookbook_build.publishing.legal_xml import legal
from cookbook_build.publishing.web_head import page_address

if TYPE_CHECKING:
    from cookbook_build.manuscript.recipes import Recipe
    from cookbook_build.publishing.desk import Desk

ATOM: Final = "http://www.w3.org/2005/Atom"
FEED: Final = "feed.xml"
MEDIA_TYPE: Final = "application/atom+xml"


def feed(desk: Desk) -> str | None:
    """Return the text of the feed; None for a book that is not on the web, or has no dates."""
    book = desk.book.book
    recipes = feed_recipes(desk)
    if book.address is None or not recipes:
        return None
    root = ET.Element("feed", {"xmlns": ATOM, "xml:lang": book.language})
    _add(root, "id", page_address(book.address, "index.html"))
    _add(root, "title", book.title)
    if book.subtitle:
        _add(root, "subtitle", book.subtitle)
    _add(root, "updated", _instant(max(desk.changed(recipe) for recipe in recipes)))
    _add(ET.SubElement(root, "author"), "name", book.author or book.title)
    _link(root, "self", page_address(book.address, FEED), MEDIA_TYPE)
    _link(root, "alternate", page_address(book.address, "index.html"), "text/html")
    if rights := credit(book):
        _add(root, "rights", rights.words)
    for recipe in recipes:
        _entry(root, desk, recipe, book.address)
    ET.indent(root)
    text: str = ET.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="utf-8"?>\n{text}\n'


def feed_recipes(desk: Desk) -> list[Recipe]:
    """Return the recipes of the feed: those with a date and a page, the newest first."""
    dated = [
        recipe
        for address, recipe in desk.book.recipes.items()
        if recipe.keys.date and (address in desk.reckoning.dishes or address in desk.reckoning.pots)
    ]
    return sorted(dated, key=lambda recipe: str(recipe.keys.date), reverse=True)


def _entry(root: ET.Element, desk: Desk, recipe: Recipe, address: str) -> None:
    keys, page = recipe.keys, page_address(address, desk.page_of[recipe.address])
    entry = ET.SubElement(root, "entry")
    _add(entry, "id", page)
    _add(entry, "title", keys.title)
    _link(entry, "alternate", page, "text/html")
    _add(entry, "published", _instant(str(keys.date)))
    _add(entry, "updated", _instant(desk.changed(recipe)))
    if keys.series:
        ET.SubElement(entry, "category", {"term": legal(keys.series)})
    if keys.blurb:
        _add(entry, "summary", keys.blurb)


def _add(parent: ET.Element, name: str, text: str) -> None:
    ET.SubElement(parent, name).text = legal(text)


def _link(parent: ET.Element, rel: str, href: str, media_type: str) -> None:
    ET.SubElement(parent, "link", {"rel": rel, "type": media_type, "href": href})


def _instant(day: str) -> str:
    """Return the beginning of a day as RFC 3339 writes it."""
    return f"{day}T00:00:00Z"
