"""What a page made with somebody's own templates may not hold: what runs, and what reaches out."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, Final

import lxml.html
from lxml import etree

from cookbook_build.publishing.policy import NOWHERE
from cookbook_build.publishing.style_check import plainly, reaches_out, read_style

if TYPE_CHECKING:
    from collections.abc import Iterator

Fault = tuple[str, str, str]
"""The text that shows where, the cause and the mend."""

_OURS: Final = re.compile(r"(?:\.\./)*[\w-]+\.js")
_MISMATCH: Final = re.compile(
    r"Opening and ending tag mismatch: (?P<closed>\w+) and (?P<opened>\w+)\s*"
)
_UNOPENED: Final = re.compile(r"Unexpected end tag : (?P<tag>\w+)\s*")
"""What libxml2 says of elements that are not nested."""
_DATA: Final = "application/ld+json"
_FETCHED: Final = frozenset({
    "src", "srcset", "imagesrcset", "poster", "data", "background", "action", "formaction",
    "ping", "manifest",
})  # fmt: skip
_LISTS: Final = frozenset({"srcset", "imagesrcset"})
_FOLLOWED: Final = frozenset({"a", "area"})
_TOLD: Final = frozenset({"canonical", "alternate", "license", "author", "me", "help"})
"""Kinds of link that a browser follows only when it is asked to (HTML, 4.6.7)."""
_ELSEWHERE: Final = frozenset({"iframe", "frame", "embed", "object", "applet", "base"})
_READ_TWO_WAYS: Final = frozenset({
    "noscript", "noembed", "noframes", "xmp", "plaintext", "listing", "template", "math",
    "foreignobject",
})  # fmt: skip
"""What a browser reads otherwise than the parser that looks for faults here."""
_OFFLINE: Final = "a book must open without a network: put the file into the theme and name it."
_NO_SCRIPT: Final = "take it out: a theme brings no script, and a page works without one."


def page_faults(name: str, text: str) -> Iterator[Fault]:
    """Give what a page, or a style, holds that no book may hold; each once."""
    seen: set[Fault] = set()
    for fault in _faults(name, text):
        if fault not in seen:
            seen.add(fault)
            yield fault


def _faults(name: str, text: str) -> Iterator[Fault]:
    if name.endswith(".css"):
        yield from style_faults(text)
        return
    if name.endswith(".xhtml"):
        try:
            root = etree.fromstring(text.encode(), etree.XMLParser(resolve_entities=False))
        except etree.XMLSyntaxError as problem:
            yield (
                _line(text, problem.lineno or 1),
                _not_xml(problem),
                ("close every element, such as <br/>, and write &amp; for &."),
            )
            return
    elif name.endswith(".html"):
        root = lxml.html.document_fromstring(text)
        yield from _unbalanced(text)
    else:
        return
    if name.endswith(".html") and (mains := len(list(root.iter("main")))) != 1:
        yield (
            "<main",
            f"a page has one <main>, and this one has {mains or 'none'}",
            "keep it as plain/layout.html has it.",
        )
    if name.endswith(".html") and not _has_policy(root):
        yield (
            "<head",
            "a page says what a browser may run in it before it names a file, and this one doesn't",
            "keep the line with {{ policy }} where plain/layout.html has it.",
        )
    for element in root.iter():
        if isinstance(element.tag, str):
            yield from _of(element)
        elif ">" in (element.text or ""):
            yield "<!--", "a comment holds a piece of a page", "write {# … #} for what none shows."


def _has_policy(root: Any) -> bool:  # noqa: ANN401 - lxml has no types
    """Return whether a page's policy comes before all that it is for."""
    for element in root.iter("meta", "link", "script", "style", "img"):
        if element.tag != "meta":
            return False
        kind, content = element.get("http-equiv", ""), element.get("content", "")
        if kind.casefold() == "content-security-policy" and content.startswith(NOWHERE):
            return True
    return False


def _unbalanced(text: str) -> Iterator[Fault]:
    """Give the first element that is opened and not closed, or closed and not opened."""
    parser = etree.HTMLParser()
    etree.fromstring(text.encode(), parser)
    for error in parser.error_log:
        if opened := _MISMATCH.fullmatch(error.message):
            tag = opened["opened"]
            cause = f"<{tag}> is still open where </{opened['closed']}> stands"
            yield f"<{tag}", cause, f"write </{tag}> where it ends."
            return
        if unopened := _UNOPENED.fullmatch(error.message):
            tag = unopened["tag"]
            yield (
                f"</{tag}",
                f"</{tag}> closes nothing here",
                f"take it out, or open <{tag}> before.",
            )
            return


def _not_xml(problem: etree.XMLSyntaxError) -> str:
    said = re.sub(r", line \d+, column \d+.*", "", problem.msg or "").replace("'", '"')
    return f"the e-book's pages are XML, and this one breaks off: {said}"


def _line(text: str, line: int) -> str:
    return text.split("\n")[line - 1].strip()


def _of(element: Any) -> Iterator[Fault]:  # noqa: ANN401 - lxml has no types
    tag = etree.QName(element).localname.lower()
    attributes = {etree.QName(key).localname.lower(): value for key, value in element.items()}
    yield from _of_kind(tag, attributes)
    if tag == "style":
        yield from style_faults(element.text or "")
    for key, value in attributes.items():
        if key.startswith("on"):
            yield key, f'"{key}" runs a script', _NO_SCRIPT
        if key == "style":
            yield from style_faults(value)
        if plainly(value).casefold().startswith("javascript:"):
            yield value.strip(), f'"{value.strip()}" runs a script', _NO_SCRIPT
        elif key in _FETCHED or (key == "href" and not _is_followed(tag, attributes)):
            for address in filter(reaches_out, _addresses(key, value)):
                yield address.strip(), f'"{address.strip()}" reaches out of the book', _OFFLINE


def _of_kind(tag: str, attributes: dict[str, str]) -> Iterator[Fault]:
    """Give what is wrong with an element as such."""
    source = attributes.get("src", "")
    if tag == "script" and not (attributes.get("type") == _DATA or _OURS.fullmatch(source)):
        yield source or "<script", "this is a script", _NO_SCRIPT
    if tag in _ELSEWHERE:
        yield f"<{tag}", f"<{tag}> brings another page into this one", "take it out."
    if tag in _READ_TWO_WAYS:
        yield f"<{tag}", f"<{tag}> is read in two ways", "write it with other elements."
    if tag == "meta" and attributes.get("http-equiv", "").casefold() == "refresh":
        yield "refresh", "this sends a reader to another page", "take it out; write a link."


def _is_followed(tag: str, attributes: dict[str, str]) -> bool:
    """Return whether an address is only followed when a reader asks for it."""
    rel = set(attributes.get("rel", "").casefold().split())
    return tag in _FOLLOWED or (tag == "link" and bool(rel) and rel <= _TOLD)


def _addresses(key: str, value: str) -> list[str]:
    """Return the addresses of an attribute; of a list of pictures, each without its width."""
    if key not in _LISTS:
        return [value]
    return [one.split()[0] for one in value.split(",") if one.strip()]


def style_faults(text: str) -> Iterator[Fault]:
    """Give the addresses of a style that reach out of the book, and what fetches another style."""
    named, broken = read_style(text)
    for one in named:
        if reaches_out(one.address):
            yield one.address, f'"{one.address}" reaches out of the book', _OFFLINE
    for fault in broken:
        if "@import" in fault.cause:
            yield "@import", fault.cause, fault.mend
