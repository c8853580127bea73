"""The four questions of a new book, and what their answers may be."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final, get_args

from pydantic import TypeAdapter, ValidationError

from cookbook_build.findings import nearest, one_of
from cookbook_build.manuscript.fields import Altitude, Language
from cookbook_build.manuscript.schema import BookKeys
from cookbook_build.manuscript.source import NO_WIDTH, TURNING
from cookbook_build.starter.files import languages

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from cookbook_build.manuscript.fields import Written

LINE_ENDS: Final = re.compile("[\t\n\x0b\x0c\r\x1c-\x1f\x85\u2028\u2029]+")
UNSEEN: Final = re.compile(f"[\x00-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff{TURNING}{NO_WIDTH}]")
MEASURES: Final[tuple[str, ...]] = get_args(BookKeys.model_fields["measures"].annotation)
SPOKEN_NAMES: Final = {
    "english": "en", "inglés": "en", "ingles": "en",
    "spanish": "es", "español": "es", "espanol": "es", "castellano": "es",
}  # fmt: skip


class AnswerError(Exception):
    """An answer that can't be taken: says why, and what to write."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question: the key of book.yaml it fills, how it is asked, and how it is read."""

    key: str
    asked: str
    explained: str
    read: Callable[[str], str]


def read_title(text: str) -> str:
    """Return a title on one line."""
    title = LINE_ENDS.sub(" ", text).strip()
    if not title:
        raise AnswerError("a title needs at least one letter; write any words.")
    if odd := UNSEEN.search(title):
        raise AnswerError(
            f"a character that can't be seen is in this title (U+{ord(odd.group()):04X}); "
            "type it again without."
        )
    return title


def read_measures(text: str) -> str:
    """Return which cup is meant; its first letters are enough."""
    typed = "-".join(text.casefold().split())
    meant = [name for name in MEASURES if typed and name.startswith(typed)]
    if len(meant) == 1:
        return meant[0]
    near = nearest(typed, MEASURES)
    raise AnswerError(f'"{text.strip()}" is none of the cups; write {near or one_of(MEASURES)}.')


def read_altitude(text: str) -> str:
    """Return an altitude as it was written, once the reader of book.yaml takes it."""
    altitude: Written = _taken(Altitude, text)
    return altitude.text


def read_language(text: str) -> str:
    """Return a language that there is a book to begin from in, by its tag."""
    typed = SPOKEN_NAMES.get(text.strip().casefold(), text.strip())
    if typed.casefold() in languages():
        return typed.casefold()
    tag: str = _taken(Language, typed)
    if base_language(tag) not in languages():
        raise AnswerError(
            f'there is no book to begin from in "{tag}" yet; write {one_of(languages())}, and '
            "change it in book.yaml when the book is there."
        )
    return tag


def base_language(tag: str) -> str:
    """Return the language of a tag: `es-MX` begins from `es`."""
    return tag.split("-", maxsplit=1)[0]


def _taken(kind: Any, text: str) -> Any:  # noqa: ANN401 - any of the types of book.yaml's keys
    try:
        return TypeAdapter(kind).validate_python(text)
    except ValidationError as problem:
        context: Mapping[str, str] = problem.errors(include_url=False)[0].get("ctx", {})
        raise AnswerError(f"{context['cause']}; {context['mend']}") from None


QUESTIONS: Final = (
    Question(
        "language",
        "Language",
        "The language of the book's own words: en (English) or es (Spanish).",
        read_language,
    ),
    Question("title", "Title", "What the book is called; any words.", read_title),
    Question(
        "measures",
        "Cups",
        "Your cup: us-cups (237 mL), metric-cups (250 mL) or label-cups (240 mL).",
        read_measures,
    ),
    Question(
        "altitude",
        "Altitude",
        "How high your kitchen lies, as 310 m or 1000 ft: water boils cooler higher up.",
        read_altitude,
    ),
)
