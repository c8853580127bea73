"""The page "Every key": what authors may write in each file, made from what is known of it."""

from __future__ import annotations

import re
import textwrap
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final, get_args, get_origin

from cookbook_build.explaining.forms import FORMS
from cookbook_build.explaining.keys import (
    FILES,
    LARDER_FILE,
    PAGE_FILE,
    RECIPE_FILE,
    Key,
    bare,
    bounds,
    inner_model,
    keys_of,
    optional,
    type_examples,
)
from cookbook_build.explaining.schemas import if_left_out
from cookbook_build.explaining.tables import TABLES
from cookbook_build.findings import one_of
from cookbook_build.manuscript.logs import COLUMNS
from cookbook_build.manuscript.schema import LabelKeys, RecipeKeys, StoreKeys

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from cookbook_build.explaining.keys import File
    from cookbook_build.manuscript.schema import Matter
    from cookbook_build.manuscript.tables import Column

OPENING: Final = """\
---
title: Every key
order: 90
---
What may stand in each file of a book, and what happens where it does not. This page is made from
the program itself, so it is never out of date.

A key is the word before a colon; a *needed* one must be there. Keys that belong together stand
below each other, indented by two spaces, or in braces on one line. A list has an entry on each
line that begins with a dash, or stands in square brackets. What follows a `#` is for yourself.
"""
A_TABLE: Final = (
    "A table that any spreadsheet saves as CSV. Its first line names the columns, in any order."
)
APART: Final[Mapping[type[Matter], tuple[str, ...]]] = MappingProxyType(
    {
        StoreKeys: ("from", "label", "cooked first", "raw"),
        LabelKeys: ("sodium",),
        RecipeKeys: ("cooked weight", "becomes"),
    }
)
"""Keys that no example shows beside the others, because they would contradict them."""
_IN_FRONT: Final = {RECIPE_FILE, PAGE_FILE}


def every_key() -> str:
    """Return the page as Markdown."""
    parts = [OPENING, *map(_file, FILES), *(_table(name) for name in TABLES)]
    return "\n".join(parts)


def _file(file: File) -> str:
    """Return what may stand in one kind of file."""
    lines = [f"## {file.shown}\n", f"{file.what}\n"]
    told: list[Mapping[str, str]] = []
    for at, (steps, model) in enumerate(_steps(file)):
        if at:
            lines.append(f"### {_heading(steps)}\n")
        lines += [_block(file, steps, model), *(_entry(key, told) for key in keys_of(model)), ""]
    return "\n".join(lines)


def _steps(file: File) -> Iterator[tuple[tuple[Key, ...], type[Matter]]]:
    """Give each group of a file, and the keys that lead to it."""
    seen: set[type[Matter]] = set()
    waiting: list[tuple[tuple[Key, ...], type[Matter]]] = [((), file.model)]
    while waiting:
        steps, model = waiting.pop(0)
        if model in seen:
            continue
        seen.add(model)
        yield steps, model
        inside = [((*steps, key), key.inner) for key in keys_of(model) if key.inner]
        waiting = [*inside, *waiting]


def _heading(steps: Sequence[Key]) -> str:
    """Return the heading of a group: the last of its keys first."""
    *above, last = [f"`{key.name}`" for key in steps]
    of = get_origin(bare(steps[-1].hint))
    said = f"Each of {last}" if of in {tuple, dict} else last
    return f"{said}, in {', in '.join(reversed(above))}" if above else said


def _block(file: File, steps: Sequence[Key], model: type[Matter]) -> str:
    """Return an example with every key of a group, below the keys that lead to it."""
    left_out = APART.get(model, ())
    text = "\n".join(key.line for key in keys_of(model) if key.name not in left_out)
    for key in reversed(steps):
        text = _below(key, text)
    if file is LARDER_FILE:
        within = ["dried: bought", text] if steps else [text]
        text = textwrap.indent("\n".join(["oatmeal:" if steps else "carrots:", *within]), "  ")[2:]
    if file in _IN_FRONT:
        text = f"---\n{text}\n---" if not steps else text
    return f"```yaml\n{text}\n```\n"


def _below(key: Key, text: str) -> str:
    """Return a group as the value of its key: itself, an entry of a list, or one by name."""
    of = get_origin(bare(key.hint))
    if of is tuple:
        first, *rest = text.split("\n")
        return "\n".join([f"{key.name}:", f"  - {first}", *(f"    {line}" for line in rest)])
    if of is dict:
        text = f"Riverbank suppers:\n{textwrap.indent(text, '  ')}"
    return f"{key.name}:\n{textwrap.indent(text, '  ')}"


def _entry(key: Key, told: list[Mapping[str, str]]) -> str:
    """Return what is said of one key; choices that were told in this file are only named."""
    meanings = key.explained.choices
    said = [f"**{key.name}**{_needed(key.needed)}. {key.explained.means}", form_words(key)]
    if meanings in told:
        said.append(f"One of {one_of(f'`{word}`' for word in meanings)}.")
    if not key.needed:
        said.append(if_left_out(key))
    lines = [_listed(said)]
    if meanings and meanings not in told:
        told.append(meanings)
        lines += [f"  - `{word}`: {means}" for word, means in meanings.items()]
    return "\n".join(lines)


def _needed(needed: bool) -> str:  # noqa: FBT001 - it is what is asked
    return " (needed)" if needed else ""


def _listed(said: Iterable[str]) -> str:
    """Return sentences as an entry of a list; no line may break within a piece of code.

    A line that begins with a plus would be an entry of another list.
    """
    text = re.sub(
        r"`[^`]*`", lambda code: code.group().replace(" ", _HELD), " ".join(filter(None, said))
    )
    filled = textwrap.fill(
        text, 98, initial_indent="- ", subsequent_indent="  ",
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip
    return filled.replace(_HELD, " ")


_HELD: Final = "\x00"


def form_words(key: Key) -> str:
    """Return how a value is written; nothing where it is plain text."""
    plain = bare(key.hint)
    if get_origin(plain) is not tuple:
        return _form_words(key.hint, [key.explained.example] if key.explained.example else [])
    of = get_args(plain)[0]
    if inner_model(of):
        return "A list; the keys of each entry are below."
    inside = _form_words(of, [])
    return f"A list, each {inside[0].lower()}{inside[1:]}" if inside else "A list."


def _form_words(hint: Any, shown: Sequence[str]) -> str:  # noqa: ANN401 - any type's annotation
    found, plain = optional(hint), bare(hint)
    if found in FORMS:
        words = FORMS[found].words
        examples = one_of(f"`{example}`" for example in shown or type_examples(found))
        return f"{words[0].upper()}{words[1:]}, such as {examples}."
    if get_origin(plain) is dict or inner_model(plain):
        return "Its keys are below."
    if plain is int:
        return _whole_number(*bounds(found))
    return "Yes or no." if plain is bool else ""


def _whole_number(least: float | None, most: float | None) -> str:
    if least is None or most is None:
        return "A whole number."
    return f"A whole number from {least:g} to {most:g}."


def _table(name: str) -> str:
    """Return what may stand in a table: its first line, a row, and its columns."""
    columns = COLUMNS[name]
    head = ",".join(column.name for column in columns)
    row = ",".join(column.example for column in columns)
    lines = [
        f"## {name}\n",
        f"{A_TABLE}\n",
        f"```csv\n{head}\n{row}\n```\n",
        *(_column(column, name) for column in columns),
        "",
    ]
    return "\n".join(lines)


def _column(column: Column, name: str) -> str:
    told = TABLES[name][column.name]
    also = f"It may also be headed {one_of(f'`{other}`' for other in column.also)}."
    return _listed([f"**{column.name}**{_needed(column.needed)}. {told.means}", told.without, also])
