"""A recipe that was brought, written as a file of the book: front matter, ingredients, steps.

All that it holds is a stranger's text, and is written so that it stays text: no key, no heading,
no link and no `{water}` comes of it. What has no place among our keys stands as a comment.
"""

from __future__ import annotations

import json
import re
import textwrap
import unicodedata
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import Findings
from cookbook_build.manuscript.brought.lines import Shelf, our_line, sound
from cookbook_build.manuscript.brought.signs import one_line
from cookbook_build.manuscript.naming import LONGEST_ADDRESS, is_a_device
from cookbook_build.manuscript.nodes import Items, Scalar, read_nodes
from cookbook_build.manuscript.pasted_lines import is_water
from cookbook_build.manuscript.source import Source
from cookbook_build.measures.units import SYSTEMS

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from cookbook_build.manuscript.brought.recipe import Brought

_COMMENT_WIDTH: Final = 96
_UNTITLED: Final = "A recipe without a title"
_SIGNS: Final = re.compile(r"([\\`*_{}\[\]<>#&|~!$])")
_BEGINS: Final = re.compile(r"([-+=:])|(\d+)([.)])")


def drafted(recipe: Brought, shelf: Shelf, *, came_from: str, series: str = "") -> str:
    """Return the text of the file that a recipe becomes; it ends with a line end."""
    title = recipe.title or _UNTITLED
    head = [f"title: {yaml_text(title)}", "kind: meal"]
    head += [f"series: {yaml_text(series)}"] * bool(series)
    head += [f"serves: {recipe.serves}"] * bool(recipe.serves)
    head += [f"makes: {yaml_text(recipe.makes)}"] * bool(recipe.makes)
    head += [f"blurb: {yaml_text(recipe.blurb)}"] * bool(recipe.blurb)
    said = "\n".join(
        [
            "---",
            *_comments(_preface(came_from)),
            *head,
            "ingredients:",
            *_ingredients(recipe, shelf),
            *_comments(recipe.notes),
            "---",
        ]
    )
    body = _body(recipe)
    return f"{said}\n{body}\n" if body else f"{said}\n"


def _preface(came_from: str) -> tuple[str, ...]:
    untested = (
        f"A draft from {one_line(came_from)}: nobody has made it with hot water yet. When you "
        "have, write a line such as tested: {method: kettle, water: …, rest: …} below."
    )
    figures = "In the steps, write {water} and {rest} where the book is to say how much, how long."
    rights = (
        "The words of a recipe belong to whoever wrote them: before you share the book, put the "
        "steps into your own words, or ask."
    )
    return untested, figures, rights


def _ingredients(recipe: Brought, shelf: Shelf) -> Iterator[str]:
    """Give the list; water is left to the book, and stands as a comment."""
    read = [sound(our_line(line, shelf)) for line in recipe.lines]
    only_water = all(line and is_water(line.name) for line in read)
    for piece in recipe.ingredients:
        if piece.kind == "heading":
            yield from _comments((piece.text,), indent="  ")
            continue
        line = our_line(piece.text, shelf)
        found = sound(line)
        if found and is_water(found.name) and not only_water:
            yield from _comments((f"{line} (the book says how much to pour)",), indent="  ")
            continue
        note = dried_note(line, shelf)
        yield f"  - {yaml_text(line)}" + (f"  # {note}" if note else "")


def dried_note(line: str, shelf: Shelf) -> str:
    """Return what is to be known of a line that weighs fresh food, or nothing."""
    found = sound(line)
    known = shelf.dried(found) if found else None
    if found is None or known is None:
        return ""
    food, share = known
    fresh_g = float(found.amount.weight_g(SYSTEMS["us-cups"]))
    return f"{_grams(fresh_g)} of {food} dry to about {_grams(fresh_g * share)}"


def _grams(grams: float) -> str:
    return f"{grams:.0f} g" if grams >= 10 else f"{grams:.2g} g"


def _comments(texts: Collection[str], indent: str = "") -> Iterator[str]:
    for text in texts:
        wrapped = textwrap.wrap(
            text, _COMMENT_WIDTH, break_long_words=False, break_on_hyphens=False
        )
        yield from (f"{indent}# {line}" for line in wrapped)


def yaml_text(text: str) -> str:
    """Return a line of text as YAML writes it: as it is where that is read back, else quoted."""
    quoted = "'" + text.replace("'", "''") + "'"
    double = json.dumps(text, ensure_ascii=False)
    return next((way for way in (text, quoted, double) if _reads_back(way, text)), double)


def _reads_back(written: str, text: str) -> bool:
    findings = Findings()
    source = Source.of("", f"- {written}\n")
    node = read_nodes(source, findings, source.text)
    key = read_nodes(Source.of("", f"a: {written}\n"), findings, f"a: {written}\n")
    if len(findings) or key is None or not isinstance(node, Items) or len(node.items) != 1:
        return False
    found = node.items[0]
    return isinstance(found, Scalar) and found.text == text and not found.is_empty


def _body(recipe: Brought) -> str:
    parts: list[str] = []
    number = 0
    for piece in recipe.method:
        text = markdown_text(piece.text)
        if piece.kind == "step":
            number += 1
            parts.append(f"{number}. {text}")
        else:
            parts.append(f"## {text}" if piece.kind == "heading" else text)
            number = 0 if piece.kind == "heading" else number
    if credit := _credit(recipe):
        parts.append(credit)
    return "\n\n".join(parts)


def _credit(recipe: Brought) -> str:
    """Return the line that says whose it is and where it stands."""
    link = f"<{recipe.address}>" if recipe.address else ""
    parts = [part for part in (markdown_text(recipe.credit), link) if part]
    return f"— {', '.join(parts)}" if parts else ""


def markdown_text(text: str) -> str:
    """Return a line of text as Markdown that shows it as it is."""
    escaped = _SIGNS.sub(r"\\\1", one_line(text))
    match = _BEGINS.match(escaped)
    if match is None:
        return escaped
    at = match.end(2) if match[2] else 0
    return f"{escaped[:at]}\\{escaped[at:]}"


def free_address(title: str, taken: Collection[str], otherwise: str = "") -> str:
    """Return a file's name for a title that no other file of the book has, in any case."""
    base = _address(title) or _address(otherwise) or "recipe"
    base = f"{base}-recipe" if is_a_device(base) else base
    used = {name.casefold() for name in taken}
    number = 1
    address = base
    while address in used:
        number += 1
        address = f"{base}-{number}"
    return address


def _address(title: str) -> str:
    """Return the letters and digits of a title, without accents, joined by hyphens."""
    apart = unicodedata.normalize("NFKD", title.replace("'", "").replace("’", ""))
    bare = "".join(char for char in apart if not unicodedata.combining(char)).casefold()
    words = re.findall(r"[^\W_]+", unicodedata.normalize("NFC", bare))
    address = ""
    for word in words:
        longer = f"{address}-{word}" if address else word[:LONGEST_ADDRESS]
        if len(longer) > LONGEST_ADDRESS:
            break
        address = longer
    return address


def folder_name(series: str) -> str:
    """Return the folder that a series goes into, or nothing where its name has no letters."""
    name = _address(series)
    return f"{name}-series" if is_a_device(name) else name
