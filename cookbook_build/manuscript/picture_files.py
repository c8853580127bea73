"""Picture files: what kind each is by its own bytes, and whether an e-book may hold it.

An e-book holds PNG, JPEG, GIF, WebP and SVG (EPUB 3.3, section 3.2, core media types). A drawing
in it runs no script, fetches nothing and is UTF-8 text; one that does otherwise is left out there,
its words stand in its place, and the author is told.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final
from xml.parsers import expat

from cookbook_build.findings import Findings, Place
from cookbook_build.manuscript.body import image_name

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator
    from pathlib import Path

    from cookbook_build.manuscript.recipes import Page, Recipe
    from cookbook_build.manuscript.schema import BookKeys

# how each kind begins, and what a file of it holds when it is whole
_KINDS: Final = (
    (rb"\x89PNG\r\n\x1a\n", rb"....IHDR.*IEND", "image/png", ".png"),
    (rb"\xff\xd8\xff", rb".*\xff[\xc0-\xc3\xc5-\xc7\xc9-\xcb\xcd-\xcf].{8}", "image/jpeg", ".jpg"),
    (rb"GIF8[79]a", rb".{7}.*;", "image/gif", ".gif"),
    (rb"RIFF....WEBP", rb"VP8.{15}", "image/webp", ".webp"),
)
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


@dataclass(frozen=True, slots=True)
class PictureFile:
    """A picture's kind by its bytes; `problem` says why an e-book can't hold it, if it can't."""

    media_type: str = ""
    suffix: str = ""
    problem: str = ""
    line: int = 1
    column: int = 1


class _UnfitError(Exception):
    """Stops the reading of a drawing at what makes it unfit."""

    def __init__(self, found: PictureFile) -> None:
        super().__init__(found.problem)
        self.found = found


def picture_file(path: Path) -> PictureFile:
    """Return what kind of picture a file is, and whether an e-book may hold it."""
    try:
        data = path.read_bytes()
    except OSError as problem:
        return PictureFile(problem=f"can't be opened ({problem.strerror})")
    if path.suffix.casefold() == ".svg":
        return _drawing(data)
    for begins, whole, media_type, suffix in _KINDS:
        if re.match(begins, data, re.DOTALL):
            if re.match(begins + whole, data, re.DOTALL):
                return PictureFile(media_type, suffix)
            return PictureFile(problem="breaks off before its end")
    return PictureFile(problem="is none of the kinds that e-readers show")


def check_pictures(folder: Path, names: Iterable[str], findings: Findings) -> None:
    """Warn of each picture that an e-book can't hold, so that none is left out in silence."""
    for name in names:
        found = picture_file(folder / "images" / name)
        if found.problem:
            svg = name.casefold().endswith(".svg")
            kind = "plain SVG without scripts and links" if svg else "PNG or JPEG"
            findings.warning(
                Place(f"images/{name}", found.line, found.column),
                f'the picture "{name}" {found.problem}',
                f"save it as {kind}; until then the e-book has its words in its place.",
            )


def named_pictures(
    book: BookKeys, recipes: Iterable[Recipe], pages: Iterable[Page], images: Collection[str]
) -> list[str]:
    """Return the pictures that the book shows somewhere, of those that are in images/."""
    written = [book.cover, *(series.picture for series in book.series.values())]
    texts: list[Recipe | Page] = [*recipes, *pages]
    for text in texts:
        written.append(text.keys.picture)
        written += _in_body(text)
    return sorted({image_name(name) for name in written if name} & set(images))


def _in_body(text: Recipe | Page) -> Iterator[str]:
    for block in text.body.tokens:
        for token in block.children or ():
            if token.type == "image":
                yield str(token.attrs["src"])


def _drawing(data: bytes) -> PictureFile:
    """Return what a drawing is, read once from end to end."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return PictureFile(problem="is not UTF-8 text, as drawings in e-books are")
    reading = _DrawingReading()
    try:
        reading.parser.Parse(text.encode(), True)  # noqa: FBT003 - expat's own signature
        reading.end()
    except _UnfitError as problem:
        return problem.found
    except expat.ExpatError as problem:
        return PictureFile(
            "", "", "breaks off or is no sound XML here", problem.lineno, problem.offset + 1
        )
    return PictureFile("image/svg+xml", ".svg")


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

    def _unfit(self, problem: str) -> _UnfitError:
        """Return what stops the reading, with the line and column that it stands at, from 1."""
        line, column = self.parser.CurrentLineNumber, self.parser.CurrentColumnNumber + 1
        return _UnfitError(PictureFile("", "", problem, line, column))

    def end(self) -> None:
        """Say what only the whole drawing shows."""
        if missing := sorted(self.used - self.names):
            raise self._unfit(f'uses a part "{missing[0]}" that it does not have')

    def _declaration(self, version: str, encoding: str | None, _standalone: int) -> None:
        if version != "1.0" or (encoding or "utf-8").casefold() != "utf-8":
            raise self._unfit("is not XML 1.0 in UTF-8, as drawings in e-books are")

    def _doctype(self, _name: str, system: str | None, public: str | None, _inner: int) -> None:
        if (system or public) and not _PUBLIC_SVG.fullmatch(public or ""):
            raise self._unfit("leans on a document type outside the book")

    def _entity(self, *_declared: object) -> None:
        raise self._unfit("declares entities, which e-readers don't follow")

    def _instruction(self, target: str, _data: str) -> None:
        if target == "xml-stylesheet":
            raise self._unfit("takes its style from outside the book")

    def _element(self, name: str, attributes: dict[str, str]) -> None:
        space, _, tag = name.rpartition(" ")
        if not self.begun and (space, tag) != (_SVG, "svg"):
            raise self._unfit("is no SVG drawing")
        self.begun = True
        if space == _SVG and tag in {"script", "foreignObject"}:
            what = "a script" if tag == "script" else "a foreign page"
            raise self._unfit(f"holds {what}, which e-books don't show")
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
            raise self._unfit("holds a script, which e-books don't show")
        if key == "href" and space in {"", _XLINK}:
            self._reference(value.strip(), is_link=is_link)
        if key == "id" and space in {"", _XML}:
            if value in self.names:
                raise self._unfit(f'has two parts named "{value}"')
            if not _ID.fullmatch(value):
                raise self._unfit(f'names a part "{value}", which is no name in XML')
            self.names.add(value)
        self._style(value, _DECLARATIONS if key == "style" else None)

    def _reference(self, value: str, *, is_link: bool) -> None:
        if not (_HELD.match(value) or (is_link and _LINKED.match(value))):
            raise self._unfit("names something outside the book")
        if value.startswith("#"):
            self.used.add(value[1:])

    def _style(self, text: str, grammar: re.Pattern[str] | None) -> None:
        if _FETCHES.search(text):
            raise self._unfit("names something outside the book")
        if grammar and not grammar.fullmatch(_WORDY.sub("x", text)):
            raise self._unfit("has a style that can't be read")
