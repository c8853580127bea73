"""Catalogues: one file of words a language, and how its numbers are written."""

from __future__ import annotations

import functools
import gettext
import io
from pathlib import Path
from typing import Final

FOLDER: Final = Path(__file__).parent
ENGLISH: Final = "en"


def languages() -> tuple[str, ...]:
    """Return the languages that the program has words of."""
    return ENGLISH, *sorted(path.stem for path in FOLDER.glob("*.po"))


def has_words(tag: str) -> bool:
    """Return whether the program speaks the language of a tag: `es-MX` is served by `es`."""
    return _spoken_as(tag) is not None


@functools.cache
def catalogue(tag: str) -> gettext.NullTranslations:
    """Return the words of a language; English for a language that nobody has written yet."""
    language = _spoken_as(tag)
    if language in {None, ENGLISH}:
        return gettext.NullTranslations()
    from babel.messages.mofile import write_mo  # noqa: PLC0415 - slow, and English needs none
    from babel.messages.pofile import read_po  # noqa: PLC0415

    with (FOLDER / f"{language}.po").open("rb") as file:
        words = read_po(file, locale=language)
    compiled = io.BytesIO()
    write_mo(compiled, words)
    compiled.seek(0)
    return gettext.GNUTranslations(compiled)


@functools.cache
def mark_of(tag: str) -> str:
    """Return what stands between a language's wholes and tenths, by the Unicode CLDR."""
    language = _spoken_as(tag)
    if language in {None, ENGLISH}:
        return "."
    from babel import Locale  # noqa: PLC0415 - slow, and English needs none
    from babel.core import UnknownLocaleError  # noqa: PLC0415
    from babel.numbers import get_decimal_symbol  # noqa: PLC0415

    try:
        return get_decimal_symbol(Locale.parse(tag, sep="-"))
    except (UnknownLocaleError, ValueError):  # a place that has no such language
        return get_decimal_symbol(Locale(language))


def _spoken_as(tag: str) -> str | None:
    language = tag.split("-", maxsplit=1)[0].casefold()
    return language if language in languages() else None
