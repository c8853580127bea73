"""Inlining: what a page of the folder becomes when it stands with all others in one file.

Its names are told apart by the page's own, its links lead to where the pages stand in the file,
and its pictures come along. What the file doesn't hold is linked to no more; the words stay.
"""

from __future__ import annotations

import base64
import functools
import json
import posixpath
import re
from copy import deepcopy
from dataclasses import dataclass
from html import unescape as html_unescape
from typing import TYPE_CHECKING, Any, Final
from urllib.parse import unquote, urlsplit

from lxml import etree

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
_GOING: Final = "going"
"""No page has an element of this name."""
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

    def as_bytes(self) -> bytes:
        """Return it as it is kept."""
        head = json.dumps([self.anchor, self.title, self.name, self.kind, self.number])
        return f"{head}\n{self.body}".encode()

    @classmethod
    def of_bytes(cls, kept: bytes) -> HeldPage:
        """Return what was kept."""
        head, _, body = kept.decode().partition("\n")
        anchor, title, name, kind, number = json.loads(head)
        return cls(anchor, title, name, body, kind, number)


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
        pages, shown = _named_by(name, text)
        pictures = {file: self.pictures[file] for file in shown if file in self.pictures}
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
        called = title if heading is None else _words(heading).strip()
        if number is not None and heading is not None:
            heading.insert(0, _numbered(number, heading))
        return HeldPage(anchor_of(name), title, called, _markup(main), kind, number)

    def _lead_within(self, link: etree._Element, name: str) -> None:
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
            _drop(block)
        else:
            _unwrap(link)

    def _number(self, link: etree._Element, page: str) -> None:
        """Say the number that a recipe has on paper: before an entry of the contents, or after."""
        if page not in self.numbers:
            return
        number, entry = _numbered(self.numbers[page]), next(link.iterancestors("li"), None)
        if entry is None or "entry" not in _classes(entry):
            number.text = f"\N{NO-BREAK SPACE}({number.text})"
            link.addnext(number)
        elif (part := entry.find("span[@class='part']")) is not None:
            part.addprevious(number)

    def _bring_along(self, image: etree._Element, name: str) -> None:
        """Put a picture's plain file into the page."""
        if image.get("src").startswith("data:"):
            return
        made = self.pictures[_file_at(image.get("src"), name)]
        data = base64.b64encode(made.data).decode("ascii")
        image.set("src", f"data:{made.media_type};base64,{data}")
        for key in ("srcset", "sizes"):
            image.attrib.pop(key, None)
        image.set("loading", "lazy")  # no picture is decoded before its page is shown


@functools.lru_cache(maxsize=128)  # the stores of a book stand in the file of each series
def _named_by(name: str, text: str) -> tuple[list[str], list[str]]:
    """Return the pages that a page leads to, and the files that it shows."""
    pages = {_page_at(urlsplit(html_unescape(link)), name) for link in set(_LEADS.findall(text))}
    shown = {_file_at(html_unescape(address), name) for address in set(_SHOWS.findall(text))}
    return sorted(pages), sorted(shown)


@functools.lru_cache(maxsize=1)  # a meal's page stands in the file of the book and its series
def _alone(name: str, text: str) -> tuple[str, etree._Element]:
    """Return a page's title and what it shows, before its links and pictures are looked at."""
    page = etree.fromstring(text, etree.HTMLParser())
    (main,) = page.iter("main")
    etree.strip_tags(main, etree.Comment)
    for unwanted in main.xpath(".//*[contains(@class, 'carried')]"):
        _drop(unwanted)
    etree.strip_tags(main, "source")  # to libxml2 the picture's own image stands within it
    anchor = anchor_of(name)
    for part in main.iter():
        if part.keys():
            _name_apart(part, anchor)
        if len(part):
            _close_up(part)
    return page.findtext(".//title") or "", main


def _name_apart(part: etree._Element, anchor: str) -> None:
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


def _way_there(link: etree._Element, page: str) -> etree._Element | None:
    """Return what is nothing but a way to a page that stays in the folder, or None."""
    if not (page.endswith("-labels.html") or page == CARDS or is_carried(page)):
        return None
    for block in link.iterancestors("p", "li"):
        alone = _words(block).strip() == _words(link).strip()
        if alone or "entry" in _classes(block):
            return block
    return None


def _numbered(number: int, heading: etree._Element | None = None) -> etree._Element:
    """Return a recipe's number, which is seen on paper only; a heading's words come after it."""
    found = etree.Element("span")
    found.set("class", "numbered")
    found.text = str(number)
    if heading is not None:
        found.tail, heading.text = f" {heading.text or ''}", None
    return found


def _words(part: etree._Element) -> str:
    return "".join(part.itertext())


def _classes(part: etree._Element) -> list[str]:
    return str(part.get("class", "")).split()


def _drop(part: etree._Element) -> None:
    """Take a part out with all that it holds; what follows it stays."""
    above, before = part.getparent(), part.getprevious()
    if part.tail and before is not None:
        before.tail = (before.tail or "") + part.tail
    elif part.tail:
        above.text = (above.text or "") + part.tail
    above.remove(part)


def _unwrap(part: etree._Element) -> None:
    """Leave what a part holds in its place."""
    part.tag = _GOING
    etree.strip_tags(part.getparent(), _GOING)


def _close_up(part: etree._Element) -> None:
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


def _markup(main: etree._Element) -> str:
    """Return what stands within an element, as HTML."""
    parts = (
        etree.tostring(child, encoding="unicode", method="html", with_tail=True) for child in main
    )
    text = (main.text or "").strip() + "".join(parts)
    return text.replace("&nbsp;", "\N{NO-BREAK SPACE}")
