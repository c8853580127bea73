"""Themes: folders of templates and styles; `plain` is ours, and a book may bring its own.

What a book's theme has in the place of ours is taken, and `own.css` is read after our styles.
"""

from __future__ import annotations

import base64
import functools
import hashlib
import json
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import tinycss2
from jinja2 import Environment, FileSystemLoader, StrictUndefined, select_autoescape

from cookbook_build.manuscript.own_theme import CARRIED
from cookbook_build.publishing import drawings, photographs
from cookbook_build.publishing.own_templates import BESIDE, OwnTemplates
from cookbook_build.publishing.policy import IN_THE_FOLDER
from cookbook_build.publishing.renditions import RefusedPictureError, Rendition
from cookbook_build.publishing.style_check import address_tokens, file_of, read_style
from cookbook_build.words import _, listed, ngettext, npgettext, numeral, pgettext

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.own_theme import OwnTheme

STYLES = ("style.css", "book.js", "finder.js")
ADDED: Final = "own.css"
"""The style of a book's own theme that is read after ours."""
MADE_BY_BOOK: Final = ("choices.css",)
TAKEN_TOGETHER: Final = ("onefile.html", "onefile.css")
"""What the file of all pages is made with; it takes the pages as a theme has made them."""


@dataclass(frozen=True)
class Theme:
    """A theme of ours, and what a book's own has in its place or adds to it."""

    ours: Path
    own: OwnTheme | None = None

    @cached_property
    def templates(self) -> Environment:
        """Its templates."""
        return environment(self.ours, self.own)

    @cached_property
    def styles(self) -> tuple[str, ...]:
        """The files of the book that hold its styles, in the order in which pages read them.

        Further ones, of labels or cards, are read by their own pages only.
        """
        return (self._placed("style.css"), *MADE_BY_BOOK, *self._added(ADDED))

    @cached_property
    def epub_styles(self) -> tuple[str, ...]:
        """The files of an e-book that hold its styles, in order."""
        first = self._placed("epub/epub.css")
        return (first if first.startswith(BESIDE) else "epub.css", *self._added(f"epub/{ADDED}"))

    @cached_property
    def made_by(self) -> str:
        """What tells its pages from those of other themes; figures of its styles do not."""
        own = self.own.templates if self.own else {}
        texts = {name: source.text for name, source in own.items()}
        told = json.dumps([texts, self.styles, self.epub_styles, sorted(self.pictures)])
        return hashlib.sha256(told.encode("utf-8", "surrogatepass")).hexdigest()

    def web_files(self) -> Iterator[tuple[str, bytes]]:
        """Give the styles and the script that no book changes, and what its own theme brings."""
        for name in STYLES:
            yield self._placed(name), self._data(name)
        for name in self._added(ADDED):
            yield name, self._data(ADDED)
        yield from self._carried((*STYLES, ADDED), self._shown())

    @cached_property
    def pictures(self) -> dict[str, Rendition]:
        """The pictures that its templates show, by their place in the book."""
        if self.own is None:
            return {}
        kinds = {name: CARRIED[Path(name).suffix.casefold()] for name in sorted(self._shown())}
        return {
            f"{BESIDE}/{name}": Rendition(kind, 0, 0, bare(name, self.own.files[name]))
            for name, kind in kinds.items()
            if kind.startswith("image/")
        }

    def epub_files(self) -> Iterator[tuple[str, str, bytes]]:
        """Give each style of an e-book, and what it names: its name, media type and content."""
        for name, at in zip(("epub/epub.css", f"epub/{ADDED}"), self.epub_styles, strict=False):
            yield at, "text/css", self._data(name)
        for name, data in self._carried(("epub/epub.css", f"epub/{ADDED}"), set()):
            yield name, CARRIED[Path(name).suffix.casefold()], data

    def held(self, name: str, text: str) -> str:
        """Return a style of the book with its fonts and pictures inside, for a single file."""
        if self.own is None:
            return text
        tokens = tinycss2.parse_component_value_list(text)
        for token in list(address_tokens(tokens)):
            file = file_of(token.value, name.removeprefix(f"{BESIDE}/"))
            if file is not None and file in self.own.files:
                kind = CARRIED[Path(file).suffix.casefold()]
                data = base64.b64encode(bare(file, self.own.files[file])).decode()
                token.value = f"data:{kind};base64,{data}"
                token.representation = (
                    f'"{token.value}"' if token.type == "string" else (f'url("{token.value}")')
                )
        return str(tinycss2.serialize(tokens))

    def _placed(self, name: str) -> str:
        """Return where a file stands in the book: our place, or beside what its theme brought."""
        own = self.own is not None and name in self.own.texts
        return f"{BESIDE}/{name}" if own else name

    def _added(self, name: str) -> tuple[str, ...]:
        return (f"{BESIDE}/{name}",) if self.own is not None and name in self.own.texts else ()

    def _data(self, name: str) -> bytes:
        if self.own is not None and name in self.own.texts:
            return self.own.texts[name].text.encode()
        return (self.ours / name).read_bytes()

    def _carried(self, styles: Iterable[str], shown: set[str]) -> Iterator[tuple[str, bytes]]:
        """Give the fonts and pictures of the theme that styles or templates name."""
        if self.own is None:
            return
        named = set(shown)
        for style in styles:
            named |= self._named_by(style)
        for name in sorted(named):
            yield f"{BESIDE}/{name}", bare(name, self.own.files[name])

    def _named_by(self, style: str) -> set[str]:
        """Return the fonts and pictures that one of the theme's own styles names."""
        if self.own is None or style not in self.own.texts:
            return set()
        addresses, _ = read_style(self.own.texts[style].text)
        return {file_of(one.address, style) or "" for one in addresses} & set(self.own.files)

    def _shown(self) -> set[str]:
        """Return the pictures that templates name, as `theme/` and their name."""
        if self.own is None:
            return set()
        text = "".join(source.text for source in self.own.templates.values())
        return {name for name in self.own.files if f"{BESIDE}/{name}" in text}


@functools.lru_cache(maxsize=64)
def bare(name: str, data: bytes) -> bytes:
    """Return a font as it is, and a picture without what was noted beside it.

    Raises
    ------
    RefusedPictureError
        When it is no such picture.
    """
    ending = Path(name).suffix.casefold()
    if not CARRIED[ending].startswith("image/"):
        return data
    if ending == ".svg":
        return drawings.drawing(data).data
    kind = photographs.kind_of(data)
    right = photographs.ENDINGS[kind][0]
    if ending not in photographs.ENDINGS[kind]:
        raise RefusedPictureError(
            f"is of the kind {kind}, and its ending {ending} says another",
            f"rename it to end in {right}." if right in CARRIED else "save it as PNG.",
        )
    return photographs.same_kind(data)


def theme_of(book: Manuscript) -> Theme:
    """Return the theme that a book is bound with."""
    return Theme(theme_folder(), book.theme)


def theme_folder(name: str = "plain") -> Path:
    """Return the folder of a theme that comes with the program."""
    package = Path(__file__).parent.parent
    for themes in (package / "themes", package.parent / "themes"):
        if (themes / name).is_dir():
            return themes / name
    raise FileNotFoundError(name)


def environment(folder: Path, own: OwnTheme | None = None) -> Environment:
    """Return the templates of a theme; text is escaped, and a missing name is a mistake.

    Those of a book's own theme run in a sandbox, ours with them.
    """
    options: dict[str, Any] = {
        "autoescape": select_autoescape(("html", "xhtml", "opf")),
        "undefined": StrictUndefined,
        "trim_blocks": True,
        "lstrip_blocks": True,
        "keep_trailing_newline": True,
        "extensions": ["jinja2.ext.i18n"],
    }
    templates: Environment
    if own is None or not own.templates:
        templates = Environment(loader=FileSystemLoader(folder), **options)  # noqa: S701 - it is on
    else:
        templates = OwnTemplates(own, folder, **options)
    templates.install_gettext_callables(  # type: ignore[attr-defined]  # the extension's
        _, ngettext, newstyle=True, pgettext=pgettext, npgettext=npgettext
    )
    templates.filters["numeral"] = numeral
    templates.filters["listed"] = listed
    templates.filters["groupby_order"] = grouped
    theme = Theme(folder, own)
    templates.globals |= {"styles": theme.styles, "epub_styles": theme.epub_styles}
    templates.globals["policy"] = IN_THE_FOLDER
    return templates


def grouped(items: Iterable[Any], attribute: str) -> list[tuple[Any, list[Any]]]:
    """Return items grouped by an attribute, in the order in which they come."""
    found: dict[Any, list[Any]] = {}
    for item in items:
        found.setdefault(getattr(item, attribute), []).append(item)
    return list(found.items())
