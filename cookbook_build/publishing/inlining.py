"""Inlining: what a page of the folder becomes when it stands with all others in one file.

Its names are told apart by the page's own, its links lead to where the pages stand in the file,
and its pictures come along. What the file doesn't hold is linked to no more; the words stay.
"""

from __future__ import annotations

import base64
import functools
import posixpath
import re
from copy import deepcopy
from dataclasses import dataclass
from html import unescape as html_unescape
from typing import TYPE_CHECKING, Any, Final
from urllib.parse import unquote, urlsplit

from lxml import etree, html

from cookbook_build.publishing.card_pages import CARDS
from cookbook_build.publishing.carrying import is_carried

if TYPE_CHECKING:
    from collections.abc import Mapping
    from urllib.parse import SplitResult

    from cookbook_build.publishing.renditions import Rendition

_NAMING: Final = (
    "for",
    "aria-labelledby",
    "aria-describedby",
    "aria-controls",
    "aria-owns",
    "form",
)
_LEADS: Final = re.compile(r'\shref="([^"]*)"')
_SHOWS: Final = re.compile(r'\ssrc="([^"]*)"')
_PAINT: Final = re.compile(r"url\(\s*['\"]?#([^)'\"]+)['\"]?\s*\)")
_BLOCKS: Final = frozenset({
    "address", "article", "aside", "blockquote", "caption", "circle", "col", "colgroup", "dd",
    "details", "div", "dl", "dt", "fieldset", "figcaption", "figure", "footer", "form", "g",
    "h1", "h2", "h3", "h4", "header", "hr", "label", "legend", "li", "main", "nav", "ol", "p",
    "path", "picture", "polyline", "pre", "rect", "section", "summary", "svg", "table", "tbody",
    "td", "text", "tfoot", "th", "thead", "tr", "ul",
})  # fmt: skip
"""Elements between which white space is not seen."""


@dataclass(frozen=True, slots=True)
class HeldPage:
    """One page within the file."""

    anchor: str
    title: str  # as the folder's page has it, by which its ticks are kept
    name: str
    body: str
    kind: str = ""
    number: int | None = None  # of a recipe, to find it on paper


def anchor_of(name: str) -> str:
    """Return the address within the file of a page of the folder: `p-recipes-beetroot-soup`.

    Names of pages have no full stop, so those of what stands on a page follow one.
    """
    return "p-" + name.removesuffix(".html").replace("/", "-")


@dataclass(frozen=True)
class Inliner:
    """What one file holds: the names of its pages, the numbers of its recipes, all pictures."""

    names: frozenset[str]
    numbers: Mapping[str, int]
    pictures: Mapping[str, Rendition]

    def told_of(self, name: str, text: str) -> tuple[Any, ...]:
        """Return all that a page hangs on here: its number, those of its links, its pictures."""
        links = [html_unescape(address) for address in _LEADS.findall(text)]
        pages = sorted({_page_at(urlsplit(link), name) for link in links})
        shown = [_file_at(html_unescape(address), name) for address in _SHOWS.findall(text)]
        pictures = {file: self.pictures[file] for file in sorted({*shown} & self.pictures.keys())}
        known = [(page in self.names, self.numbers.get(page)) for page in pages]
        return name, self.numbers.get(name), known, pictures

    def held(self, name: str, text: str, kind: str) -> HeldPage:
        """Return what a page becomes."""
        title, alone = _alone(name, text)
        main = deepcopy(alone)
        for link in list(main.iter("a")):
            self._lead_within(link, name)
        for image in main.iter("img"):
            self._bring_along(image, name)
        heading = next(main.iter("h1"), None)  # a theme of the book's own may have none
        number = self.numbers.get(name)
        called = title if heading is None else heading.text_content().strip()
        if number is not None and heading is not None:
            heading.insert(0, _numbered(number, heading))
        return HeldPage(anchor_of(name), title, called, _markup(main), kind, number)

    def _lead_within(self, link: html.HtmlElement, name: str) -> None:
        """Lead a link to where its page stands in the file, or leave its words."""
        href = urlsplit(link.get("href", ""))
        if href.scheme or href.netloc:
            return
        page = _page_at(href, name)
        if page in self.names:
            within = f".{unquote(href.fragment)}" if href.fragment else ""
            link.set("href", f"#{anchor_of(page)}{within}")
            if page != name:
                self._number(link, page)
        elif (block := _way_there(link, page)) is not None:
            block.drop_tree()
        else:
            link.drop_tag()

    def _number(self, link: html.HtmlElement, page: str) -> None:
        """Say the number that a recipe has on paper: before an entry of the contents, or after."""
        if page not in self.numbers:
            return
        number, entry = _numbered(self.numbers[page]), next(link.iterancestors("li"), None)
        if entry is None or "entry" not in entry.classes:
            number.text = f"\N{NO-BREAK SPACE}({number.text})"
            link.addnext(number)
        elif (part := entry.find("span[@class='part']")) is not None:
            part.addprevious(number)

    def _bring_along(self, image: html.HtmlElement, name: str) -> None:
        """Put a picture's plain file into the page."""
        if image.get("src").startswith("data:"):
            return
        made = self.pictures[_file_at(image.get("src"), name)]
        data = base64.b64encode(made.data).decode("ascii")
        image.set("src", f"data:{made.media_type};base64,{data}")
        for key in ("srcset", "sizes"):
            image.attrib.pop(key, None)
        image.set("loading", "lazy")  # no picture is decoded before its page is shown


@functools.lru_cache(maxsize=1)  # a meal's page stands in the file of the book and its series
def _alone(name: str, text: str) -> tuple[str, html.HtmlElement]:
    """Return a page's title and what it shows, before its links and pictures are looked at."""
    page = html.document_fromstring(text)
    (main,) = page.iter("main")
    for part in [part for part in main.iter() if not isinstance(part.tag, str)]:
        part.drop_tree()  # a comment
    for unwanted in main.xpath(".//*[contains(@class, 'carried')]"):
        unwanted.drop_tree()
    for source in main.xpath(".//picture/source"):
        source.drop_tag()  # to libxml2 the picture's own image stands within it
    for part in main.iter():
        _name_apart(part, anchor_of(name))
        _close_up(part)
    return page.findtext(".//title") or "", main


def _name_apart(part: html.HtmlElement, anchor: str) -> None:
    """Tell the names of a page's parts from those of the same name on other pages."""
    if own := part.get("id"):
        part.set("id", f"{anchor}.{own}")
    for key, value in part.items():
        if key in _NAMING:
            part.set(key, " ".join(f"{anchor}.{one}" for one in value.split()))
        elif "url(" in value:
            part.set(key, _PAINT.sub(rf"url(#{anchor}.\1)", value))
        elif part.tag == "use" and value.startswith("#"):
            part.set(key, f"#{anchor}.{value[1:]}")


def _page_at(href: SplitResult, name: str) -> str:
    """Return the page that a link of a page leads to; its own, where it stays there."""
    return _file_at(href.path, name) if href.path else name


def _file_at(address: str, name: str) -> str:
    """Return the file of the folder that a page names by an address."""
    return posixpath.normpath(posixpath.join(posixpath.dirname(name), unquote(address)))


def _way_there(link: html.HtmlElement, page: str) -> html.HtmlElement | None:
    """Return what is nothing but a way to a page that stays in the folder, or None."""
    if not (page.endswith("-labels.html") or page == CARDS or is_carried(page)):
        return None
    for block in link.iterancestors("p", "li"):
        alone = block.text_content().strip() == link.text_content().strip()
        if alone or "entry" in block.classes:
            return block
    return None


def _numbered(number: int, heading: html.HtmlElement | None = None) -> html.HtmlElement:
    """Return a recipe's number, which is seen on paper only; a heading's words come after it."""
    found = html.Element("span")
    found.set("class", "numbered")
    found.text = str(number)
    if heading is not None:
        found.tail, heading.text = f" {heading.text or ''}", None
    return found


def _close_up(part: html.HtmlElement) -> None:
    """Drop white space that nobody sees: between blocks, and the separators of a cell's figures.

    These are heard, and seen only without the style; in one file the style is always there.
    """
    if part.tag == "span" and part.get("class") == "figures":
        for then in part.findall("span/i[@class='then']"):
            then.getparent().remove(then)
        for figure in part[:-1]:
            figure.tail = " "
    elif len(part) and all(child.tag in _BLOCKS for child in part):
        if not (part.text or "").strip():
            part.text = None
        for child in part:
            if not (child.tail or "").strip():
                child.tail = None


def _markup(main: html.HtmlElement) -> str:
    """Return what stands within an element, as HTML."""
    parts = (
        etree.tostring(child, encoding="unicode", method="html", with_tail=True) for child in main
    )
    text = (main.text or "").strip() + "".join(parts)
    return text.replace("&nbsp;", "\N{NO-BREAK SPACE}")
