"""A book in another language: nothing of the program's own words stays English.

The Spanish book is bound while a made-up language is spoken, which puts ⟦…⟧ around each text that
was looked up, but not around its gaps. What stands outside must be the author's words, numbers
and signs.
"""

from __future__ import annotations

import json
import re
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from babel.messages.pofile import read_po
from lxml import etree, html

from cookbook_build import words
from cookbook_build.findings import Findings
from cookbook_build.foods import load_foods
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book
from cookbook_build.words import speech

if TYPE_CHECKING:
    import gettext
    from collections.abc import Callable, Iterable, Iterator

BOOK = Path(__file__).parents[2] / "spanish_book"
# Signs that Spanish writes alike: of units (SI brochure, 9th edition, section 5), of sheets (A4),
# of file formats, and what a manifest says of an icon.
SIGNS = {
    "g", "kg", "mg", "ml", "l", "cm", "mm", "m", "h", "min", "s", "w", "kcal", "kj", "c", "f",
    "kb", "mb", "a", "epub", "html", "any",
}  # fmt: skip
READ_ALOUD = ("alt", "title", "aria-label", "placeholder", "content")
# `meta` of pages that names a rule of the web and not a word
RULES = {"viewport", "color-scheme", "og:type", "og:locale", "og:url", "og:image", "twitter:card"}
# of a package document: what reading systems ask for, but not the summary that they show
MACHINE = (
    "schema:accessM", "schema:accessibilityF", "schema:accessibilityH", "role", "title-type",
    "collection-type", "rendition", "dcterms",
)  # fmt: skip
NO_WORDS = {"unitCode", "inLanguage", "display", "background_color", "theme_color", "type"}
_WORD = re.compile(r"[^\W\d_]+")
_LOOKED_UP = re.compile(r"⟦[^⟦⟧]*⟧")
# addresses, and days and spans of ISO 8601: none of them are words
_NO_WORD = re.compile(
    r"\S+@\S+|https?://\S+|urn:\S+|\S+\.(?:html|xhtml|epub|csv|svg)\b|[\d:-]+T[\d:]+Z|\bPT\w+"
)


@pytest.fixture(scope="module")
def site(
    made_up: gettext.NullTranslations,
    forgetting: Callable[[], None],
    tmp_path_factory: pytest.TempPathFactory,
) -> Path:
    out = tmp_path_factory.mktemp("bracketed") / "site"
    findings = Findings()
    book = read_book(BOOK, findings)
    assert book is not None
    with pytest.MonkeyPatch.context() as patch:
        # what is kept of a book knows the program by its files, and here it speaks otherwise
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        patch.setattr(speech, "catalogue", lambda _tag: made_up)
        forgetting()
        bind_book(reckoned(book, findings), out)
    forgetting()
    return out


@pytest.fixture(scope="module")
def own_words() -> set[str]:
    """Return every word that the author wrote, but for the program's: keys, units, foods."""
    with (Path(words.__file__).parent / "es.po").open("rb") as file:
        entries = [entry for entry in read_po(file) if entry.id]
    english = words_of(text for entry in entries for text in forms(entry.id))
    english |= words_of(name for food in load_foods() for name in food.names)
    spanish = words_of(text for entry in entries for text in forms(entry.string))
    files = [path for path in BOOK.rglob("*") if path.suffix in {".md", ".yaml", ".csv"}]
    return words_of(path.read_text(encoding="utf-8") for path in files) - (english - spanish)


def forms(text: object) -> tuple[str, ...]:
    """Return the forms of a text: one, or one for each number of things."""
    if isinstance(text, str):
        return (text,)
    return tuple(text) if isinstance(text, list | tuple) else ()


def words_of(texts: Iterable[str]) -> set[str]:
    return {word for text in texts for word in _WORD.findall(text.casefold())}


def texts(name: str, data: bytes) -> Iterator[str]:
    """Give what a reader sees or hears of a file."""
    if name.endswith((".html", ".xhtml", ".xml", ".opf", ".ncx", ".svg")):
        parser = html.HTMLParser(encoding="utf-8") if name.endswith(".html") else None
        tree = etree.fromstring(data, parser)
        for element in tree.iter(etree.Element):
            tag = etree.QName(element).localname if isinstance(element.tag, str) else ""
            if tag in {"style", "script"}:
                if element.get("type") == "application/ld+json":
                    yield from strings(json.loads(element.text))
                continue
            if tag == "meta" and element.get("http-equiv"):
                continue
            if tag == "meta" and {element.get("name"), element.get("property")} & RULES:
                continue
            if (element.get("property") or "").startswith(MACHINE):
                continue
            yield element.text or ""
            yield from (element.get(name, "") for name in READ_ALOUD)
        for element in tree.iter():
            yield element.tail or ""
    elif name.endswith((".webmanifest", ".json")):
        yield from strings(json.loads(data))


def strings(value: object) -> Iterator[str]:
    """Give the strings of JSON but for its keys and schema.org's own types and addresses."""
    if isinstance(value, dict):
        for key, inner in value.items():
            if not key.startswith("@") and key not in NO_WORDS:
                yield from strings(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from strings(inner)
    elif isinstance(value, str):
        yield value


def files(site: Path) -> Iterator[tuple[str, bytes]]:
    for path in sorted(site.rglob("*")):
        name = path.relative_to(site).as_posix()
        if path.suffix == ".epub":
            with zipfile.ZipFile(path) as zipped:
                for inner in zipped.namelist():
                    if not inner.startswith("META-INF"):
                        yield f"{name}/{inner}", zipped.read(inner)
        elif path.is_file():
            yield name, path.read_bytes()


def english(text: str, own: set[str]) -> set[str]:
    """Return the words of a text that were neither looked up nor the author's."""
    words = _WORD.findall(_NO_WORD.sub(" ", _LOOKED_UP.sub(" ", text)).casefold())
    return {word for word in words if word.isalpha() and word not in own | SIGNS}


def test_every_word_of_every_page_is_looked_up_or_the_authors(
    site: Path, own_words: set[str]
) -> None:
    left: dict[str, str] = {}
    for name, data in files(site):
        for text in texts(name, data):
            for word in english(text, own_words):
                left.setdefault(word, f"{name}: {' '.join(text.split())[:100]}")
    told = "\n".join(f"{word} in {where}" for word, where in sorted(left.items()))
    assert not left, f"{len(left)} words were not looked up:\n{told}"


def test_the_walk_sees_a_word_that_was_not_looked_up() -> None:
    page = '<p title="Pour it">⟦Rest⟧ 5 min ⟦then⟧ ½ <b>sal</b> then</p>'
    said = [word for text in texts("a.html", page.encode()) for word in english(text, {"sal"})]
    assert set(said) == {"pour", "it", "then"}
