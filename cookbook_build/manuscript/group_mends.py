"""Mends for a word where keys belong: the group, with the word at the key that takes it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, Final, get_args, get_origin

from pydantic import ValidationError

from cookbook_build.manuscript.key_types import (
    annotation_at,
    choices_at,
    example_at,
    examples_at,
    fields_of,
    is_group,
)
from cookbook_build.manuscript.meanings import choice_meant, number_meant

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from pydantic import BaseModel

    from cookbook_build.manuscript.key_types import Path

_SHOWN: Final[Mapping[str, str]] = {
    "trays": "4",
    "day": "1",
    "meal": "supper",
    "recipe": "lentil-bowl",
    "name": "small",
    "title": "Lentil bowl",
    "food": "leeks raw",
    "about": "One pot and a flat stone",
    "ingredients": "[3 tbsp leeks]",
}
"""What stands in a mend for a key whose type brings no example; our choice."""

_NAMING: Final = ("name", "recipe", "about", "title", "food")
"""Keys that a bare word is most likely meant for, where any text would do."""

_NEEDS_QUOTES: Final = re.compile(r"[,\[\]{}]|:(?:\s|$)|\s#|^[\s\"'#&*!|>%@`?-]|^$|\s$")
Group = dict[str, str]


def group_mend(model: type[BaseModel], path: Path, value: Any) -> str | None:  # noqa: ANN401 - text, list or dict
    """Return the mend for what stands at a path where a group of keys belongs, or a list of them.

    None where the path takes no group.
    """
    found = annotation_at(model, path)
    inner: Any = found
    if get_origin(found) in {dict, tuple}:
        inner = get_args(found)[-1 if get_origin(found) is dict else 0]
    if not is_group(inner):
        return None
    texts = value if isinstance(value, list) else [value]
    is_kept = all(isinstance(text, str) and taking(inner, text) for text in texts)
    if get_origin(found) is dict:
        written, is_kept = _named_groups(value), True
    elif get_origin(found) is tuple:
        written = f"[{', '.join(in_braces(filled(inner, text)) for text in texts)}]"
    else:
        is_kept = is_kept and len(texts) == 1
        written = in_braces(filled(inner, texts[0] if len(texts) == 1 else None))
    named = f"{path[-1]}: {written}" if path and isinstance(path[-1], str) else written
    return f'write "{named}".' if is_kept else f'write it like "{named}".'


def filled(model: type[BaseModel], value: Any) -> Group:  # noqa: ANN401 - text, list or dict
    """Return a group with a value at the key that takes it, and examples of what it needs.

    A value that no key takes, or that several do, is left out; then there is at least an example
    of the first key.
    """
    given = taking(model, value) if isinstance(value, str) else {}
    needed = {
        name: given.get(name) or _example(model, name)
        for name, info in fields_of(model)
        if name in given or info.is_required()
    }
    first = fields_of(model)[0][0]
    return needed or {first: _example(model, first)}


def taking(model: type[BaseModel], value: str) -> Group:
    """Return the key that a value is meant for, and the value as it is written there."""
    takers = [name for name, _ in fields_of(model) if is_taken(model, name, value)]
    texts = [name for name in takers if is_text(model, name)]
    others = [name for name in takers if name not in texts]
    if len(others) > 1:  # water that was poured, and not what was added later
        others = [name for name, info in fields_of(model) if name in others and info.is_required()]
    if len(others) == 1:
        return {others[0]: value}
    meant = dict(_by_meaning(model, value))
    if len(meant) == 1 and not others:
        return meant
    if texts and texts == takers and not meant:
        return {next((name for name in _NAMING if name in texts), texts[0]): value}
    return {}


def _by_meaning(model: type[BaseModel], value: str) -> Iterator[tuple[str, str]]:
    """Give the keys that take what a value means, with that: another word, or a unit left out."""
    for name, _ in fields_of(model):
        choice = choice_meant(value, choices_at(model, (name,)))
        number = _number(value, name) if annotation_at(model, (name,)) is int else None
        units = (example.partition(" ")[2] for example in examples_at(model, (name,)))
        with_unit = next((f"{value} {unit}" for unit in units if unit), "")
        if choice or number:
            yield name, choice or str(number)
        elif value.isdigit() and with_unit and is_taken(model, name, with_unit):
            yield name, with_unit


def _number(value: str, name: str) -> int | None:
    """Return the number that a word or `4 trays` means, and not that of another measure."""
    is_bare = value.isalpha() or value.isdigit()
    return number_meant(value) if is_bare or name in value.casefold() else None


def is_taken(model: type[BaseModel], name: str, value: str) -> bool:
    """Return whether the key of a group can take a value."""
    try:
        model.model_validate({name: value})
    except ValidationError as problem:
        return not any(
            error["loc"][0] == name
            for error in problem.errors()
            if error["loc"] and error["type"] != "missing"
        )
    return True


def is_text(model: type[BaseModel], name: str) -> bool:
    """Whether a key takes whatever text: of a closed form there is an example."""
    return annotation_at(model, (name,)) is str and not examples_at(model, (name,))


def _example(model: type[BaseModel], name: str) -> str:
    inner = annotation_at(model, (name,))
    if is_group(inner):
        return in_braces(filled(inner, None))
    if get_origin(inner) is tuple and is_group(get_args(inner)[0]):
        return f"[{in_braces(filled(get_args(inner)[0], None))}]"
    return example_at(model, (name,), _SHOWN.get(name, "2" if inner is int else "…"))


def _named_groups(value: Any) -> str:  # noqa: ANN401 - text, list or dict
    """Return groups by their names, as a list of names is meant."""
    names = value if isinstance(value, list) else str(value).split(",")
    groups: dict[str, Any] = {}
    for name in names:
        groups |= name if isinstance(name, dict) else {str(name).strip(): {}}
    return in_braces(groups)


def in_braces(value: Any) -> str:  # noqa: ANN401 - text, list or dict
    """Return a value as it stands in one line of YAML."""
    if isinstance(value, dict):
        return (
            f"{{{', '.join(f'{in_braces(key)}: {in_braces(one)}' for key, one in value.items())}}}"
        )
    if isinstance(value, list):
        return f"[{', '.join(map(in_braces, value))}]"
    text = str(value)
    made_here = text[:1] + text[-1:] in {"{}", "[]"}
    if made_here or not _NEEDS_QUOTES.search(text):
        return text
    return "'" + text.replace("'", "''") + "'"
