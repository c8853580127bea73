r"""What a value looks like to an editor: never stricter than our own reader.

An editor reads YAML with its own typing: `no` becomes a truth value, `12:30` may become 750, `2`
a number and `2026-03-02` a day. So each form allows what YAML 1.1 and 1.2 make of a text that we
read. Patterns are those of both Python and ECMA 262, whose `\d` and `\w` know ASCII only.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.manuscript import fields
from cookbook_build.measures import quantities

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

Fragment = dict[str, Any]
"""A part of a JSON Schema."""

FOLDED: Final = {"s": "sS\u017f", "k": "kK\u212a"}
"""The letters that are these two when case is set aside: a long s, and the sign of the kelvin."""
NOTHING: Final = (None, "")
"""What our reader takes for no value at all, the latter though it stands in quotes."""
EMPTY: Final = "^$"
WAYS_TO_WRITE: Final = {
    "array": 'Put each entry on a line of its own that begins with "- ".',
    "object": 'Write "key: value" lines below it, indented by two spaces.',
}
"""How to mend a word where a list or a group of keys belongs, as our own findings say it."""


@dataclass(frozen=True, slots=True)
class Form:
    """How a value is written: in words, and as an editor can check it."""

    words: str
    fragment: Mapping[str, Any]


def in_any_case(word: str) -> str:
    """Return a pattern of a word, however its letters are written."""
    return "".join(
        f"[{FOLDED.get(letter, letter.lower() + letter.upper())}]"
        if letter.isalpha()
        else f"\\{letter}"
        if letter in ".^$*+?()[]{}|\\/-"
        else letter
        for letter in word.lower()
    )


def _pattern(pattern: str) -> Fragment:
    return {"type": "string", "pattern": pattern}


def _units(units: Iterable[str]) -> str:
    """Return the pattern of a number and its unit, which stands at the end."""
    spelt = "|".join(
        in_any_case(unit[:-1]) + r"\s*[2²]" if unit.endswith("2") else in_any_case(unit)
        for unit in sorted(units, key=len, reverse=True)
    )
    return rf"[^A-Za-z](?:{spelt})\.?\s*$"


def _number(low: float, high: float, pattern: str) -> Fragment:
    """Return the form of a number that may also be a text, such as 1/2."""
    return {
        "type": ["number", "string"],
        "minimum": low,
        "maximum": high,
        "pattern": pattern,
    }


def _text(fragment: Fragment, *never: str) -> Fragment:
    """Return the form of a text that YAML may take for anything but a list or a group.

    JSON Schema has no type for the day that some loaders make of 2026-03-02, so what is no text
    is named instead.
    """
    return fragment | {
        "if": {"type": ["array", "object", "null", *never]},
        "then": {"type": "string", "errorMessage": "Write a line of text here."},
    }


TEXT: Final = Form("words", _text({"minLength": 1}))
WHOLE: Final = r"^\s*[+-]?[0-9][0-9_]*(?:\.0*)?\s*$"
_NO_LETTERS: Final = r"^[^A-DF-Za-df-z]+$"  # an e may belong to a number

_PER: Final = in_any_case("per")
_HOUR: Final = f"{in_any_case('hour')}|{in_any_case('h')}"

FORMS: Final[Mapping[Any, Form]] = {
    fields.Language: Form(
        "the short name of a language",
        {  # YAML 1.1 takes Norwegian for a no
            "type": ["string", "boolean"],
            "pattern": r"^\s*[A-Za-z]{2,3}(?:-[A-Za-z0-9]{2,8})*\s*$",
        },
    ),
    fields.BookAddress: Form("an address on the web", _pattern(r"^\s*\S+://\S+\s*$")),
    fields.Day: Form(
        "a day: year, month and day",
        _text(
            {
                "pattern": r"^\s*[0-9]{4}-?(?:[0-9]{2}-?[0-9]{2}|W[0-9]{2}(?:-?[0-9])?)\s*$",
                "minimum": 19500101,
                "maximum": 21001231,
            },
            "boolean",
        ),
    ),
    fields.Altitude: Form("a height", _pattern(_units(quantities.LENGTHS))),
    fields.Opening: Form("a length", _pattern(_units(quantities.LENGTHS))),
    fields.Duration: Form("a time", _pattern(_units(quantities.TIMES))),
    fields.Power: Form("a power", _pattern(_units(quantities.POWERS))),
    fields.Area: Form("an area", _pattern(_units(quantities.AREAS))),
    fields.Mass: Form("a weight", _pattern(_units(quantities.WEIGHTS))),
    fields.Capacity: Form("a volume", _pattern(_units(quantities.VOLUMES))),
    fields.JarVolume: Form("a volume", _pattern(_units(quantities.VOLUMES))),
    fields.Temperature: Form("a temperature", _pattern(r"[^A-Za-z][CcFf]\.?\s*$")),
    fields.Rate: Form("a weight in an hour", _pattern(rf"(?:{_PER}|/)\s*(?:{_HOUR})\s*$")),
    fields.Span: Form("a length", _pattern(_units(quantities.BREADTHS))),
    fields.Card: Form("a card paper", _pattern("[A-Za-z]")),
    fields.Appetite: Form("a number of servings", _number(0, 10, _NO_LETTERS)),
    fields.Share: Form("a part of all", _number(0, 1, _NO_LETTERS)),
    fields.Moisture: Form("a part of all", _number(0, 1, _NO_LETTERS)),
    fields.Volume: Form("cups, spoons or millilitres", _pattern("[A-Za-z]")),
    fields.Weighs: Form("a weight for a measure", _pattern(rf"{_PER}|\b[Aa]\b|/")),
    fields.CupWeighs: Form("a weight for a measure", _pattern(rf"{_PER}|\b[Aa]\b|/")),
    fields.Jar: Form("a temperature after a time", _pattern(in_any_case("after"))),
    fields.Energy: Form(
        "an energy",
        _pattern(
            rf"^\s*[0-9.,]+\s*(?:{in_any_case('kcal')}|{in_any_case('cal')}|{in_any_case('kj')})\s*$"
        ),
    ),
    fields.FileSize: Form(
        "the size of a file", _pattern(rf"^\s*[0-9.,]+\s*[MmGg{FOLDED['k']}][Bb]\s*$")
    ),
    fields.Grams: Form("a weight", _pattern(r"^\s*[0-9.,]+\s*[Mm]?[Gg]\s*$")),
}


def yes_or_no() -> Fragment:
    """Return the form of a yes or a no, however it is spelt."""
    words = "|".join(
        map(in_any_case, ("yes", "no", "true", "false", "on", "off", "y", "n", "t", "f"))
    )
    return {
        "anyOf": [
            {"enum": ["yes", "no"]},
            {"type": "boolean"},
            {
                "type": ["string", "integer"],
                "minimum": 0,
                "maximum": 1,
                "pattern": rf"^\s*(?:{words}|0|1)\s*$",
            },
        ]
    }


def whole_number(least: float | None, most: float | None) -> Fragment:
    """Return the form of a whole number, within its bounds."""
    found: Fragment = {"type": ["integer", "string"], "pattern": WHOLE}
    if least is not None:
        found["minimum"] = least
    if most is not None:
        found["maximum"] = most
    return found


def one_of_words(meanings: Mapping[str, str]) -> Fragment:
    """Return the form of a choice, each with what it means; capitals do not matter."""
    words = "|".join(map(in_any_case, meanings))
    return {
        "anyOf": [
            {"enum": [*meanings], "enumDescriptions": [*meanings.values()]},
            {"type": "string", "pattern": rf"^\s*(?:{words})\s*$"},
        ]
    }


def or_nothing(fragment: Mapping[str, Any]) -> Fragment:
    """Return a form whose value may be left empty, which is as good as no key."""
    found = dict(fragment)
    if "if" in found:  # a text, which takes what it is not told to refuse
        found.pop("minLength", None)
        found["if"] = {"type": [kind for kind in found["if"]["type"] if kind != "null"]}
        return found if "pattern" not in found else found | {"pattern": _or_empty(found["pattern"])}
    if "anyOf" in found:
        *named, spelt = found["anyOf"]  # editors offer what is named, and not the nothing
        return found | {"anyOf": [*named, or_nothing(spelt)]}
    kinds = [found["type"]] if isinstance(found["type"], str) else found["type"]
    told = found.get("patternErrorMessage", WAYS_TO_WRITE.get(kinds[0]))
    return found | {
        "type": [*dict.fromkeys((*kinds, "null", "string"))],
        "pattern": _or_empty(found["pattern"]) if "pattern" in found else EMPTY,
        **({"patternErrorMessage": told} if told else {}),
    }


def _or_empty(pattern: str) -> str:
    return f"{EMPTY}|{pattern}"
