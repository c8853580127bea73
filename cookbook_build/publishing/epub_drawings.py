"""Drawings in e-books: what else EPUB asks of a drawing that a page can show.

There a drawing runs no script, fetches nothing, is UTF-8 text, names each part once and uses none
that it does not have (EPUB 3.3, section 6.3, and what checkers hold SVG to). One that does
otherwise is left out of the e-book, its words stand in its place, and the author is told.
"""

from __future__ import annotations

import re
from typing import Final
from xml.parsers import expat

_SVG: Final = "http://www.w3.org/2000/svg"
_HELD: Final = re.compile(r"#|data:image/(?:png|jpeg|gif|webp);")
_LINKED: Final = re.compile(r"(?i)https?:")
_XLINK: Final = "http://www.w3.org/1999/xlink"
_XML: Final = "http://www.w3.org/XML/1998/namespace"
_FETCHES: Final = re.compile(r"""@import|url\(\s*["']?(?!\s*["']?(?:#|data:))""")
# what is left of a style when comments, texts and addresses are taken out
_WORDY: Final = re.compile(r"""/\*.*?\*/|"[^"\n]*"|'[^'\n]*'|url\([^)]*\)""", re.DOTALL)
# possessive throughout: a style that fits nowhere is left at once
_DECLARED: Final = r"(?>\s*+[\w-]++\s*+:\s*+[^:;{}\s][^:;{}]*+(?:;|(?=\})|\Z))*+[\s;]*+"
_RULE: Final = rf"(?>[^@{{}};\s][^@{{}};]*+\{{{_DECLARED}\}}\s*+)"
_SHEET: Final = re.compile(
    rf"\s*+(?>@font-face\s*+\{{{_DECLARED}\}}\s*+"
    rf"|@media[^{{}};]++\{{\s*+{_RULE}*+\}}\s*+|{_RULE})*+"
)
_DECLARATIONS: Final = re.compile(_DECLARED)
_PUBLIC_SVG: Final = re.compile(r"-//W3C//DTD SVG 1\.1( Basic| Tiny)?//EN")
_ID: Final = re.compile(r"[^\W\d][\w.-]*")


class _UnfitError(Exception):
    """Stops the reading of a drawing at what makes it unfit."""


def drawing_fault(data: bytes) -> str:
    """Return why an e-book can't hold a drawing, or nothing where it can."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return "is not UTF-8 text, as drawings in e-books are"
    reading = _DrawingReading()
    try:
        reading.parser.Parse(text.encode(), True)  # noqa: FBT003 - expat's own signature
        reading.end()
    except _UnfitError as problem:
        return str(problem)
    except expat.ExpatError:
        return "breaks off or is no sound XML here"
    return ""


class _DrawingReading:
    """Reads a drawing and stops at the first thing that an e-book may not hold."""

    def __init__(self) -> None:
        self.parser = expat.ParserCreate("utf-8", " ")
        self.parser.buffer_text = True
        self.parser.XmlDeclHandler = self._declaration
        self.parser.StartDoctypeDeclHandler = self._doctype
        self.parser.EntityDeclHandler = self._entity
        self.parser.ProcessingInstructionHandler = self._instruction
        self.parser.StartElementHandler = self._element
        self.parser.EndElementHandler = self._end_element
        self.parser.CharacterDataHandler = self._text
        self.sheet: list[str] | None = None  # the text of the style that is being read
        self.begun = False
        self.names: set[str] = set()
        self.used: set[str] = set()

    def end(self) -> None:
        """Say what only the whole drawing shows."""
        if missing := sorted(self.used - self.names):
            raise _UnfitError(f'uses a part "{missing[0]}" that it does not have')

    def _declaration(self, version: str, encoding: str | None, _standalone: int) -> None:
        if version != "1.0" or (encoding or "utf-8").casefold() != "utf-8":
            raise _UnfitError("is not XML 1.0 in UTF-8, as drawings in e-books are")

    def _doctype(self, _name: str, system: str | None, public: str | None, _inner: int) -> None:
        if (system or public) and not _PUBLIC_SVG.fullmatch(public or ""):
            raise _UnfitError("leans on a document type outside the book")

    def _entity(self, *_declared: object) -> None:
        raise _UnfitError("declares entities, which e-readers don't follow")

    def _instruction(self, target: str, _data: str) -> None:
        if target == "xml-stylesheet":
            raise _UnfitError("takes its style from outside the book")

    def _element(self, name: str, attributes: dict[str, str]) -> None:
        space, _, tag = name.rpartition(" ")
        if not self.begun and (space, tag) != (_SVG, "svg"):
            raise _UnfitError("is no SVG drawing")
        self.begun = True
        if space == _SVG and tag in {"script", "foreignObject"}:
            what = "a script" if tag == "script" else "a foreign page"
            raise _UnfitError(f"holds {what}, which e-books don't show")
        if (space, tag) == (_SVG, "style"):
            self.sheet = []
        for key, value in attributes.items():
            self._attribute(*key.rpartition(" ")[::2], value, is_link=tag == "a")

    def _end_element(self, name: str) -> None:
        if name == f"{_SVG} style" and self.sheet is not None:
            self._style("".join(self.sheet), _SHEET)
            self.sheet = None

    def _text(self, text: str) -> None:
        if self.sheet is not None:
            self.sheet.append(text)

    def _attribute(self, space: str, key: str, value: str, *, is_link: bool) -> None:
        if not space and key.startswith("on"):
            raise _UnfitError("holds a script, which e-books don't show")
        if key == "href" and space in {"", _XLINK}:
            self._reference(value.strip(), is_link=is_link)
        if key == "id" and space in {"", _XML}:
            if value in self.names:
                raise _UnfitError(f'has two parts named "{value}"')
            if not _ID.fullmatch(value):
                raise _UnfitError(f'names a part "{value}", which is no name in XML')
            self.names.add(value)
        self._style(value, _DECLARATIONS if key == "style" else None)

    def _reference(self, value: str, *, is_link: bool) -> None:
        if not (_HELD.match(value) or (is_link and _LINKED.match(value))):
            raise _UnfitError("names something outside the book")
        if value.startswith("#"):
            self.used.add(value[1:])

    def _style(self, text: str, grammar: re.Pattern[str] | None) -> None:
        if _FETCHES.search(text):
            raise _UnfitError("names something outside the book")
        if grammar and not grammar.fullmatch(_WORDY.sub("x", text)):
            raise _UnfitError("has a style that can't be read")
