"""JSON Schemas of the files that authors write, for editors that check YAML while one types.

They are written in what draft 2020-12 and draft 7 have in common, since many editors know the
latter only; nothing in them refers to anything else. What our own reader takes they take.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, Final, Literal, get_args, get_origin

import yaml

from cookbook_build.explaining.forms import (
    FORMS,
    NOTHING,
    TEXT,
    Fragment,
    one_of_words,
    or_nothing,
    whole_number,
    yes_or_no,
)
from cookbook_build.explaining.keys import (
    FILES,
    LARDER_FILE,
    File,
    Key,
    annotated,
    bare,
    bounds,
    inner_model,
    keys_of,
    optional,
)
from cookbook_build.manuscript.schema import StoreKeys

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.manuscript.schema import Matter

DRAFT: Final = "https://json-schema.org/draft/2020-12/schema"
_WAYS: Final = ("food", "from", "label")


def schemas() -> dict[str, Fragment]:
    """Return the schema of each kind of file, by its name."""
    return {file.name: _root(file) for file in FILES}


def _root(file: File) -> Fragment:
    found: Fragment = {"$schema": DRAFT, "title": file.shown, "description": _plain(file.what)}
    if file is not LARDER_FILE:
        return found | _group(file.model)
    return found | {
        "type": "object",
        "additionalProperties": {
            "title": "a store",
            "description": "One store: its name, and what it is.",
            **_group(file.model),
        },
    }


def _group(model: type[Matter]) -> Fragment:
    """Return what may stand in a group of keys."""
    keys = list(keys_of(model))
    found: Fragment = {
        "type": "object",
        "properties": {key.name: described(key) for key in keys},
        "additionalProperties": False,
    }
    if needed := [key.name for key in keys if key.needed]:
        found["required"] = needed
    if model is StoreKeys:
        found["oneOf"] = [_present(way) for way in _WAYS]
    return found


def _present(name: str) -> Fragment:
    """Return what holds where a key has a value; an empty one is as good as none."""
    return {"required": [name], "properties": {name: {"not": {"enum": [*NOTHING]}}}}


def described(key: Key) -> Fragment:
    """Return what may stand behind a key, and what it means."""
    value = _value(key.hint, key.explained.choices)
    found = {
        "title": key.name,
        "description": _plain(description(key)),
        **(value if key.needed else or_nothing(value)),
        "examples": [as_data(key.example)],
    }
    if key.default_text:
        found["default"] = as_data(key.default_text)
    if "pattern" in value:
        told = f"Write it like {key.example}."
        found |= {"patternErrorMessage": told, "errorMessage": told}  # as some editors show it
    return found


def _plain(text: str) -> str:
    """Return a text without the sign for code, which editors show as it is."""
    return text.replace("`", '"')


def description(key: Key) -> str:
    """Return what a key means, and what happens without it."""
    return f"{key.explained.means} {if_left_out(key)}".strip()


def if_left_out(key: Key) -> str:
    """Return what is taken where a key is not written."""
    if key.needed:
        return "It is needed."
    usual = f"`{key.default_text}`" if key.default_text else ""
    said = key.explained.without.removesuffix(".")
    if not said:
        return f"If left out: {usual}."
    lowered = said[0].lower() + said[1:]
    return f"If left out, {lowered}{f' ({usual})' if usual else ''}."


def _value(hint: Any, meanings: Mapping[str, str]) -> Fragment:  # noqa: ANN401 - any type's annotation
    """Return the form of a type: of a single value, of a list or of a group."""
    found, plain = optional(hint), bare(hint)
    if get_origin(plain) is tuple:
        least = annotated(found, "min_length")
        items = or_nothing(_value(get_args(plain)[0], meanings))
        return {"type": "array", "items": items} | ({"minItems": least} if least else {})
    if get_origin(plain) is dict:
        held = or_nothing(_value(get_args(plain)[1], meanings))
        return {"type": "object", "additionalProperties": held}
    model = inner_model(plain)
    return _group(model) if model else _single(found, meanings)


def _single(hint: Any, meanings: Mapping[str, str]) -> Fragment:  # noqa: ANN401 - any type's annotation
    plain = bare(hint)
    if hint in FORMS:
        return dict(FORMS[hint].fragment)
    if get_origin(plain) is Literal:
        return one_of_words(meanings)
    if plain is int:
        return whole_number(*bounds(hint))
    return yes_or_no() if plain is bool else dict(TEXT.fragment)


def as_data(text: str) -> Any:  # noqa: ANN401 - text, list or group
    """Return a value as data: numbers where they are plain ones, else the text that was written."""
    return _typed(yaml.load(text, Loader=yaml.BaseLoader))  # noqa: S506 - it makes texts only


def _typed(value: Any) -> Any:  # noqa: ANN401 - text, list or group
    if isinstance(value, dict):
        return {key: _typed(one) for key, one in value.items()}
    if isinstance(value, list):
        return [_typed(one) for one in value]
    if re.fullmatch(r"[0-9]+", value):
        return int(value)
    return float(value) if re.fullmatch(r"[0-9]+\.[0-9]+", value) else value
