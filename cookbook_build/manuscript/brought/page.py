"""The JSON-LD of a page saved from the web, each piece of it with its place in the file."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from lxml import etree, html

if TYPE_CHECKING:
    from cookbook_build.findings import Findings, Place
    from cookbook_build.manuscript.source import Source

_TYPE: Final = re.compile(r"application/ld\+json\b", re.IGNORECASE)
_OPENS: Final = re.compile(r"\s*(?://[ \t]*)?(?:<!--|(?:/\*)?[ \t]*<!\[CDATA\[[ \t]*(?:\*/)?)")
_CLOSES: Final = ("*/", "-->", "]]>", "/*", "//")
_CHARSET: Final = re.compile(
    rb"<meta[^<>]{0,200}?charset\s*=\s*[\"']?\s*([\w.:-]{2,40})", re.IGNORECASE
)
_CHARSET_WITHIN: Final = 4096  # bytes: HTML's own prescan takes 1024


@dataclass(frozen=True, slots=True)
class Data:
    """What one piece of JSON holds, and where in its file it stands."""

    value: Any
    source: Source
    start: int
    end: int

    def place_of(self, text: str) -> Place:
        """Return the place of a text within this piece, or of the piece."""
        for written in (json.dumps(text, ensure_ascii=False), json.dumps(text)):
            at = self.source.text.find(written, self.start, self.end)
            if at >= 0:
                return self.source.place_at(at + 1).within(0, len(written) - 2)
        return self.source.place_at(self.start)


def declared_charset(data: bytes) -> str | None:
    """Return the encoding that a page says it is written in."""
    match = _CHARSET.search(data[:_CHARSET_WITHIN])
    return match[1].decode("ascii", "replace") if match else None


def page_data(source: Source, findings: Findings) -> list[Data]:
    """Return each piece of JSON-LD of a page; one that can't be read leaves a finding."""
    found, at = [], 0
    for script in _scripts(source):
        start = source.text.find(script, at)
        if start < 0:  # the parser gave other text than what stands there
            start = at
        at = start + len(script)
        data = read_json(source, findings, start, at)
        if data is not None:
            found.append(data)
    return found


def page_address(source: Source) -> str:
    """Return the address that a page gives as its own, or nothing."""
    tree = _tree(source)
    if tree is None:
        return ""
    for element in tree.iter("link"):
        if "canonical" in (element.get("rel") or "").casefold().split():
            return str(element.get("href") or "")
    return ""


def _scripts(source: Source) -> list[str]:
    tree = _tree(source)
    elements = [] if tree is None else list(tree.iter("script"))
    return [e.text for e in elements if _TYPE.match((e.get("type") or "").strip()) and e.text]


def _tree(source: Source) -> Any:  # noqa: ANN401 - lxml has no types
    """Return a page as a tree; nothing is fetched, and HTML has no entities that grow."""
    parser = html.HTMLParser(encoding="utf-8", huge_tree=True, no_network=True)
    try:
        return html.document_fromstring(source.text.encode(errors="replace"), parser=parser)
    except (etree.ParserError, etree.XMLSyntaxError, ValueError):  # nothing but comments, or empty
        return None


def read_json(source: Source, findings: Findings, start: int, end: int) -> Data | None:
    """Return what a stretch of a file holds as JSON, or None with a finding."""
    text = source.text[start:end]
    bare = _unwrapped(text)
    try:
        value = json.loads(bare, strict=False)
    except json.JSONDecodeError as problem:
        comma = _comma_too_many(bare, problem.pos)
        at = problem.pos if comma is None else comma
        findings.error(
            source.place_at(start + min(at, max(len(bare) - 1, 0))),
            f"this JSON can't be read from here on ({_plainly(problem.msg, comma)})",
            "copy the recipe's text from the page into a plain text file, and draft that.",
        )
        return None
    except (RecursionError, ValueError):  # nested without end, or a number of thousands of digits
        findings.error(
            source.place_at(start),
            "this JSON is nested too deep, or holds a number that is too long",
            "copy the recipe's text from the page into a plain text file, and draft that.",
        )
        return None
    return Data(value, source, start, end)


def _unwrapped(text: str) -> str:
    """Return JSON without the comment that some pages put round it, each sign at its place."""
    opens = _OPENS.match(text)
    begin = opens.end() if opens else 0
    bare = text.rstrip()
    for sign in _CLOSES:
        bare = bare.removesuffix(sign).rstrip()
    return " " * begin + bare[begin:]


def _comma_too_many(text: str, at: int) -> int | None:
    """Return where a comma stands before a bracket that closes; Pythons differ in what they say."""
    if text[at : at + 1] == ",":
        return at if text[at + 1 :].lstrip()[:1] in {"]", "}"} else None
    before = text[:at].rstrip()
    return len(before) - 1 if text[at : at + 1] in {"]", "}"} and before.endswith(",") else None


def _plainly(message: str, comma: int | None) -> str:
    """Return what the reader of JSON says, in the words of a cook."""
    if comma is not None:
        return "a comma too many stands here"
    plain = {
        "Expecting value": "a value is missing, or one bracket too many stands here",
        "Expecting ',' delimiter": "a comma is missing",
        "Expecting ':' delimiter": "a colon is missing",
        "Expecting property name enclosed in double quotes": "a name in double quotes is missing",
        "Extra data": "it ended before this",
        "Unterminated string starting at": "the quotes that open here are never closed",
        "Invalid \\escape": "the backslash has no meaning here",
        "Invalid \\uXXXX escape": "the backslash has no meaning here",
    }
    said = message.removesuffix(": ").removesuffix(":")
    return plain.get(said, "it breaks off")
