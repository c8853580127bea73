"""A file that somebody brings: what kind it is, and every recipe in it."""

from __future__ import annotations

import codecs
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import Findings, Place
from cookbook_build.manuscript.brought.linked_data import as_brought, things
from cookbook_build.manuscript.brought.page import (
    declared_charset,
    page_address,
    page_data,
    read_json,
)
from cookbook_build.manuscript.brought.text import read_text
from cookbook_build.manuscript.source import Source, read_bytes, read_text_of

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.manuscript.brought.recipe import Brought

LARGEST_BYTES: Final = 20_000_000
LONGEST_RECIPE: Final = 100_000  # characters; our choice, far beyond any recipe
MOST: Final = 20  # recipes of one page; our choice: a page of more is a list of others
_PAGE_SIGNS: Final = ("<!doctype html", "<html", "<head", "<body", "<script", "<meta")
_PAGE_ENDS: Final = (".html", ".htm", ".xhtml")
_BINARY: Final = 1024  # bytes in which a NUL tells that a file is no text


def read_brought(path: Path, findings: Findings) -> list[Brought]:
    """Return every recipe of a file; what stands in the way leaves findings."""
    name = path.as_posix()
    data = _bytes(path, name, findings)
    if data is None:
        return []
    is_page = path.suffix.casefold() in _PAGE_ENDS or _looks_like_a_page(data)
    source = _page_source(name, data, findings) if is_page else read_text_of(name, data, findings)
    if source is None:
        return []
    if not source.text.strip():
        findings.error(source.place(1), "this file is empty", _HOW)
        return []
    if is_page:
        return _of_page(source, findings)
    if path.suffix.casefold() == ".json" or source.text.lstrip()[:1] in {"{", "["}:
        return _of_json(source, findings)
    return _of_text(source, findings)


_HOW: Final = (
    "write the title, a line for each ingredient such as 1 cup rice, and the steps below them."
)


def _bytes(path: Path, name: str, findings: Findings) -> bytes | None:
    mend = "copy the recipe's text into a plain text file, and draft that."
    data = read_bytes(path, name, LARGEST_BYTES, ("", mend), findings)
    if data is None:
        return None
    wide = data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    if b"\0" in data[:_BINARY] and not wide:
        findings.error(
            Place(name),
            "this file is no plain text",
            "copy the recipe's text into a plain text file, saved with the encoding UTF-8.",
        )
        return None
    return data


def _looks_like_a_page(data: bytes) -> bool:
    head = data[:4096].decode("utf-8", "replace").casefold().lstrip("\ufeff \t\r\n")
    return head.startswith("<") and any(sign in head for sign in _PAGE_SIGNS)


def _page_source(name: str, data: bytes, findings: Findings) -> Source | None:
    """Return a page as text, in the encoding that it names where it is not UTF-8."""
    text = None
    charset = "utf-16" if data[:2] in {codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE} else "utf-8-sig"
    for encoding in (charset, declared_charset(data)):
        try:
            text = data.decode(encoding) if encoding and text is None else text
        except (UnicodeError, LookupError):
            continue
    if text is None:
        return read_text_of(name, data, findings)
    return Source.of(name, "".join(c if c >= " " or c in "\t\r\n" else " " for c in text))


def _of_page(source: Source, findings: Findings) -> list[Brought]:
    before = len(findings.errors)
    found = things(page_data(source, findings))
    address = page_address(source)
    recipes = [as_brought(thing, address) for thing in found]
    if not recipes and len(findings.errors) == before:
        findings.error(
            source.place(1),
            "this page holds no recipe as data (schema.org's Recipe as JSON-LD)",
            "copy the recipe's text from the page into a plain text file, and draft that.",
        )
    return _checked(recipes, findings)


def _of_json(source: Source, findings: Findings) -> list[Brought]:
    data = read_json(source, findings, 0, len(source.text))
    if data is None:
        return []
    recipes = [as_brought(thing) for thing in things([data])]
    if not recipes:
        findings.error(
            source.place(1),
            "this JSON holds no recipe (schema.org's Recipe)",
            "copy the recipe's text into a plain text file, and draft that.",
        )
    return _checked(recipes, findings)


def _of_text(source: Source, findings: Findings) -> list[Brought]:
    if len(source.text) > 2 * LONGEST_RECIPE:  # spaces and line ends are none of its words
        findings.error(source.place(1), *_too_long(len(source.text)))
        return []
    return _checked([read_text(source)], findings)


def _too_long(letters: int) -> tuple[str, str]:
    return (
        f"this holds {letters:,} letters, more than any recipe",
        "copy the recipe alone into a plain text file, and draft that.",
    )


def _checked(recipes: list[Brought], findings: Findings) -> list[Brought]:
    """Return the recipes that can be drafted; the others, and what they lack, leave findings."""
    whole = []
    for recipe in recipes:
        if recipe.length > LONGEST_RECIPE:
            findings.error(recipe.place, *_too_long(recipe.length))
        elif recipe.lines:
            whole.append(recipe)
    for recipe in recipes:
        if not recipe.lines:
            named = f' for "{recipe.title[:60]}"' if recipe.title else ""
            report = findings.warning if whole else findings.error
            report(recipe.place, f"no ingredients were found{named}", f"{_HOW}")
        elif not recipe.title:
            findings.warning(
                recipe.place,
                "this recipe has no title",
                'write it on the first line, or after "title:" in the draft.',
            )
    if len(whole) > 1:
        findings.warning(
            whole[1].place,
            f"this file holds {len(whole)} recipes",
            f"the first {MOST} are drafted; save the others apart."
            if len(whole) > MOST
            else "each is drafted; delete the files that you don't want.",
        )
    return whole[:MOST]
