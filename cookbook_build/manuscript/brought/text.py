"""A recipe as people type or paste it: a title, ingredient lines, steps, in English or Spanish.

A heading says what follows. Where none does, lines that begin with an amount are ingredients, and
what reads like a sentence after them is a step.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final, Literal

from cookbook_build.manuscript.brought.recipe import Brought, Kind, Piece
from cookbook_build.manuscript.brought.signs import (
    is_bulleted,
    is_numbered,
    one_line,
    without_bullet,
)
from cookbook_build.manuscript.brought.yields import Yield, read_yield
from cookbook_build.manuscript.pasted_lines import LONGEST, amount_at, turned
from cookbook_build.manuscript.web_addresses import web_address
from cookbook_build.measures.numbers import WORDS

if TYPE_CHECKING:
    from cookbook_build.findings import Place
    from cookbook_build.manuscript.source import Source

Part = Literal["before", "ingredients", "method", "notes"]
_HEADINGS: Final[dict[Part, str]] = {
    "ingredients": (
        "ingredients?|ingredient list|what you need|what goes in|you (?:will )?need|you'll need"
        "|shopping list|ingredientes?|lista de ingredientes|(?:que )?necesitas|necesitaras"
        "|hace falta"
    ),
    "method": (
        "method|steps?|step by step|directions?|instructions?|preparation|procedure"
        "|how to make (?:it|this)|how to|to make|making it|make ready"
        "|metodo|pasos?|paso a paso|elaboracion|preparacion|instrucciones|procedimiento"
        "|modo de (?:hacerlo|preparacion|preparar)|como (?:se hace|hacerlo)"
    ),
    "notes": "notes?|tips?|hints?|notas?|consejos?|trucos?|observaciones",
}
_HEADING: Final = {
    part: re.compile(rf"(?:{words})(?:\s*[:.]|(?=\s+(?:for|para)\s)|(?=\s*\()|\s*$)")
    for part, words in _HEADINGS.items()
}
_TITLE: Final = re.compile(
    r"(?:title|t[íi]tulo|name|nombre|recipe|receta)\s*:\s*(?=\S)", re.IGNORECASE
)
_CREDIT: Final = re.compile(
    r"(?:source|from|by|recipe by|author|adapted from|credit|fuente|autora?|adaptad[ao] de)"
    r"\s*:\s*\S"
    r"|(?:recipe by|by|from|adapted from|receta de|adaptad[ao] de)\s+\S",
    re.IGNORECASE,
)
_TIME: Final = re.compile(
    r"(?:(?:prep(?:aration)?|cook(?:ing)?|total|rest(?:ing)?|ready in|soak(?:ing)?)(?:\s+time)?"
    r"|time|tiempo(?:\s+(?:de|total)\b[^:]{0,30})?|duraci[óo]n|reposo)"
    r"(?:\s*[:=]\s*[^.]*\d|\s+\d+\s*(?:min|h))",
    re.IGNORECASE,
)
_WEB: Final = re.compile(r"https?://\S+", re.IGNORECASE)
_TASTE: Final = re.compile(r"\b(?:to taste|al gusto)\b", re.IGNORECASE)
_FOR: Final = re.compile(
    r"(?:for|para)\s+(?:the|el|la|los|las)\s|(?:to|para)\s+(?:finish|serve|top|acabar|servir)\b",
    re.IGNORECASE,
)
_GAP: Final = re.compile(r"\t+| {3,}|\||\.{4,}|(?:\. ){3,}\.?")
_SPLIT: Final = re.compile(r"\s*[;•·]\s*|,\s+(?=[\d½⅓⅔¼¾⅛])")
_LONG_TITLE: Final = 120
_SENTENCE: Final = 6  # words with a full stop behind them
_LONG_LINE: Final = 14  # words of the longest line that is an ingredient


@dataclass(slots=True)
class _Reading:
    """What was read so far, and in which part of the recipe it goes on."""

    title: str = ""
    ingredients: list[Piece] = field(default_factory=list)
    method: list[Piece] = field(default_factory=list)
    before: list[Piece] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    part: Part = "before"
    given: Yield = field(default_factory=Yield)
    credit: str = ""
    address: str = ""
    headed: bool = False  # a heading said which part this is
    after_gap: bool = True  # an empty line stands above
    joins: bool = False  # the last line of the method may go on here
    first: Place | None = None

    def ingredient(self, text: str) -> None:
        """Add an ingredient line."""
        self.ingredients.append(Piece("line", text))
        self.part = "ingredients"


def read_text(source: Source) -> Brought:
    """Return the recipe of a plain text; what it lacks is empty."""
    reading = _Reading()
    for number, raw in enumerate(source.lines, start=1):
        line = one_line(raw.replace("\t", " "))
        if not re.search(r"\w", line):  # empty, or a line that is drawn
            reading.after_gap, reading.joins = True, False
            continue
        reading.first = reading.first or source.place(number, 1, len(raw))
        _take(raw, line, reading)
        reading.after_gap = False
    return Brought(
        place=reading.first or source.place(1),
        title=reading.title,
        ingredients=tuple(reading.ingredients),
        method=(*reading.before, *reading.method),
        serves=reading.given.serves,
        makes=reading.given.makes,
        credit=reading.credit,
        address=reading.address,
        notes=tuple(dict.fromkeys(reading.notes)),
    )


def _take(raw: str, line: str, reading: _Reading) -> None:
    """Read one line into what it belongs to."""
    bare = line.lstrip("#> ").strip("*_ ") or line
    for part in _HEADINGS:
        if _is_heading(bare, part):
            _begin(part, bare, reading)
            return
    if _is_about(bare, line, reading):
        return
    cells = _cells(raw)
    likely = [_likely(cell) for cell in cells]
    ingredients = all(likely) or (reading.part == "ingredients" and any(likely))
    untitled = not reading.title and reading.part == "before" and not is_bulleted(line)
    if untitled and not ingredients and len(bare) <= _LONG_TITLE:
        _name(bare, reading)
        return
    if reading.part in {"method", "notes"} and (reading.headed or not reading.after_gap):
        ingredients = False
    if ingredients and not (reading.part == "method" and is_numbered(line) and _is_sentence(bare)):
        for cell in cells:
            reading.ingredient(cell)
        return
    _words(line, bare, cells, reading)


def _words(line: str, bare: str, cells: list[str], reading: _Reading) -> None:
    """Read a line that is no plain ingredient, by the part that it stands in."""
    heading = line.startswith("#") or (bare.endswith(":") and len(bare.split()) <= 6)
    if reading.part == "ingredients":
        if heading or (_FOR.match(bare) and len(bare.split()) <= 6):
            reading.ingredients.append(Piece("heading", bare.rstrip(":")))
        elif (
            _is_sentence(bare)
            or (reading.after_gap and bare.endswith("."))
            or (is_numbered(line) and not reading.headed)
        ):
            reading.part, reading.headed = "method", False
            _step(line, bare, heading=False, reading=reading)
        else:
            for cell in cells:
                reading.ingredient(cell)
    elif reading.part == "before" and _FOR.match(bare) and len(bare.split()) <= 6:
        reading.ingredients.append(Piece("heading", bare.rstrip(":")))
        reading.part = "ingredients"
    elif reading.part == "before" and not reading.ingredients and not is_numbered(line):
        reading.before.append(Piece("text", without_bullet(bare)))
    else:
        _step(line, bare, heading=heading, reading=reading)


def _step(line: str, bare: str, *, heading: bool, reading: _Reading) -> None:
    """Add a line to the method: a heading, more of the step above it, or a new step."""
    reading.part = "notes" if reading.part == "notes" else "method"
    if heading:
        reading.method.append(Piece("heading", bare.rstrip(":")))
        reading.joins = False
        return
    begins = is_numbered(line) or is_bulleted(line)
    last = reading.method[-1] if reading.method else None
    if reading.joins and last and not begins:
        reading.method[-1] = Piece(last.kind, f"{last.text} {bare}")
    else:
        kind: Kind = "text" if reading.part == "notes" else "step"
        reading.method.append(Piece(kind, without_bullet(line) if begins else bare))
    reading.joins = bare[-1:] not in ".!?:;)"


def _name(bare: str, reading: _Reading) -> None:
    """Take a line as the title; what stood before it is kept if it says more than that."""
    named = _TITLE.match(bare)
    reading.title = (bare[named.end() :] if named else bare).rstrip("# ")
    if named:
        reading.notes.append(bare)


def _is_heading(bare: str, part: Part) -> bool:
    return bool(_HEADING[part].match(_plain(bare)))


def _plain(text: str) -> str:
    """Return a text in lower case without accents, as long as it was, for comparing."""
    return "".join(unicodedata.normalize("NFD", char)[0] for char in text).lower()


def _begin(part: Part, bare: str, reading: _Reading) -> None:
    """Begin a part with its heading; what follows on the same line belongs to it."""
    match = _HEADING[part].match(_plain(bare))
    end = match.end() if match else len(bare)
    head, tail = bare[:end].rstrip(" :."), bare[end:].strip()
    reading.part, reading.headed, reading.joins = part, True, False
    served = read_yield(tail.strip("()")) if tail else None
    if served or tail.startswith("(") or re.match(r"(?:for|para)\s", tail):
        head, tail = bare, ""
        _serve(served, reading)
    if part == "ingredients":
        if _plain(head) != "ingredients":
            reading.ingredients.append(Piece("heading", head.rstrip(":")))
        for text in _SPLIT.split(tail):
            if text.strip():
                reading.ingredient(without_bullet(text).rstrip("."))
        return
    reading.method.append(Piece("heading", head))
    if tail:
        _step(tail, tail, heading=False, reading=reading)


def _serve(found: Yield | None, reading: _Reading) -> None:
    if found:
        given = reading.given
        reading.given = Yield(given.serves or found.serves, given.makes or found.makes)


def _is_about(bare: str, line: str, reading: _Reading) -> bool:
    """Take a line that says how many, how long or by whom, and keep its words as a note."""
    early = reading.part == "before" or (reading.part == "ingredients" and not reading.headed)
    short = len(bare.split()) <= 8 and not is_numbered(line)
    served = read_yield(bare) if short else None
    if served and (reading.part != "method" or not reading.headed or not bare.endswith(".")):
        _serve(served, reading)
        reading.notes.append(bare)
        return True
    if short and _TIME.match(bare):
        reading.notes.append(bare)
        return True
    match = _CREDIT.match(bare)
    if match and reading.title and (":" in match[0] or (early and short)):
        _credit(bare, reading)
        return True
    if _WEB.fullmatch(bare):
        _credit(bare, reading)
        return True
    return False


def _credit(bare: str, reading: _Reading) -> None:
    web = _WEB.search(bare)
    address = web_address(web[0]) if web else None
    if web and address and not reading.address:
        reading.address = address
        bare = " ".join((bare[: web.start()] + bare[web.end() :]).split()).rstrip(" ,;")
    if bare.strip(" :-–—"):
        reading.credit = f"{reading.credit}; {bare}" if reading.credit else bare


def _cells(raw: str) -> list[str]:
    """Return the ingredient lines that stand on one line, in columns or side by side."""
    line = without_bullet(one_line(raw.replace("\t", " ")))
    parts = [one_line(part) for part in _GAP.split(without_bullet(raw.strip().strip("|")))]
    cells = [without_bullet(part) for part in parts if re.search(r"\w", part)]
    if len(cells) < 2:
        return [cells[0] if cells else line]
    if all(_begins_with_amount(cell) and _names(cell) for cell in cells):
        return cells
    return [" ".join(cells)]


def _begins_with_amount(text: str) -> bool:
    return amount_at(text) is not None


def _names(text: str) -> bool:
    read = amount_at(text)
    return bool(read and re.search(r"[^\W\d_]", text[read[1] :]))


def _likely(text: str) -> bool:
    """Return whether a line by itself looks like an ingredient."""
    words = text.split()
    if len(text) > LONGEST or len(words) > _LONG_LINE:
        return False
    stops = text.endswith((".", "!", "?")) and len(words) >= _SENTENCE
    if _TASTE.search(text):
        return len(words) <= 8 and not stops
    read = amount_at(text)
    if read:
        amount, end = read
        worded = words[0].casefold() in WORDS or text[:1].isalpha()
        named = bool(re.search(r"[^\W\d_]", text[end:]))
        only_word = worded and amount.terms[0].unit.name == "piece"
        return (
            named and not stops and not only_word and not re.match(r"\s*(?:min|h|°)\b", text[end:])
        )
    return not stops and turned(text) is not None and len(words) <= 10


def _is_sentence(text: str) -> bool:
    words = text.split()
    stops = text.endswith((".", "!", "?"))
    return len(words) > _LONG_LINE or (stops and len(words) >= 4) or (is_numbered(text) and stops)
