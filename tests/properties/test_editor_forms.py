"""Whatever our reader takes as a key's value, an editor's schema takes, in YAML 1.1 and 1.2.

Texts are made of numbers, units and words as people write them, in any case, and of what YAML
takes for something else: yes and no, days, times of the clock, numbers to other bases. The judges
are the validator `jsonschema` and the two loaders, PyYAML's and ruamel.yaml's.
"""

from __future__ import annotations

import functools
from typing import TYPE_CHECKING, Any, get_origin

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from cookbook_build.explaining.forms import FORMS
from cookbook_build.explaining.keys import (
    FILES,
    Key,
    bare,
    groups,
    keys_of,
    optional,
    type_examples,
)
from cookbook_build.explaining.schemas import described
from cookbook_build.findings import Findings
from cookbook_build.manuscript.checking import read_keys
from cookbook_build.manuscript.nodes import Keys, Scalar, read_nodes
from cookbook_build.manuscript.source import Source
from cookbook_build.measures import quantities
from cookbook_build.measures.units import UNITS

if TYPE_CHECKING:
    from cookbook_build.manuscript.schema import Matter

NUMBERS = (
    "1", "2", "0", "½", "1½", "1 1/2", "1-1/2", "3/4", "0.5", ".5", "1,5", "half a", "half an",
    "half", "one", "a", "1e0", "1e3", "010", "08", "1_000", "+2", "2.0", "-5", "−5", "45", "65",
    "350", "1900", "20260302", "0x10", "0o7", "1.", ".inf", "50 %", "0,4 %", "12 345",
)  # fmt: skip
ODD = (
    "yes", "no", "on", "Off", "y", "N", "TRUE", "f", "~", "null", "Null", "NULL", "2026-03-02",
    "2026-3-2",
    "2026-W10-1", "2026W101", "12:30", "1:00", "0:45", "90:00", "2026-03-02 10:00", "=", "<<",
    "65 C after 6 h", "150 F after 8 hours", "58 g per cup", "30 g a piece", "2 oz/cup",
    "110 g per h", "4 oz per hour", "430 kcal", "1800 KJ", "600 MG", "1,5 g", "20 Mb", "900 kB",
    "A6", "4 x 6 in", "index card", "105 × 148 mm", "en-GB", "es", "nb", "https://example.org/a",
    "HTTPS://bücher.example/näh/", "3/4 cup + 1 tbsp", "media taza", "2 cdas", "1 T", "to taste",
    "1 h 20 min", "half an hour", "[a]", "a: b",
)  # fmt: skip
UNIT_WORDS = sorted(
    {
        *quantities.LENGTHS, *quantities.TIMES, *quantities.POWERS, *quantities.AREAS,
        *quantities.WEIGHTS, *quantities.VOLUMES, "c", "°c", "° F", "m²", "cm ²", "%", "",
        *(spelling for unit in UNITS for spelling in unit.spellings),
    }
)  # fmt: skip
EVERY = [(model, key) for file in FILES for model in groups(file.model) for key in keys_of(model)]
SINGLE = [
    pair for pair in EVERY if not pair[1].inner and get_origin(bare(pair[1].hint)) is not tuple
]
"""Every key that holds one value."""
KINDS = list({(optional(key.hint), key.needed): (model, key) for model, key in SINGLE}.values())
"""One key of each kind of value."""


def in_some_case(text: str, how: int) -> str:
    """Return a text in small or in capital letters, or with letters that fold to others."""
    ways = (text, text.upper(), text.capitalize(), text.replace("s", "ſ").replace("k", "\u212a"))
    return ways[how]


QUANTITIES = st.builds(
    lambda number, gap, unit, how, dot: number + gap + in_some_case(unit, how) + dot,
    st.sampled_from(NUMBERS),
    st.sampled_from(["", " ", "  ", "\u00a0"]),
    st.sampled_from(UNIT_WORDS),
    st.integers(0, 3),
    st.sampled_from(["", "", "."]),
)
WORDS = st.builds(in_some_case, st.sampled_from([*ODD, *NUMBERS]), st.integers(0, 3))
LETTERS = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs", "Zl", "Zp"]))
TEXTS = st.one_of(QUANTITIES, WORDS, LETTERS)
QUOTES = st.sampled_from(["{}", "'{}'", '"{}"', "' {} '"])


def accepted(model: type[Matter], key: Key, value: str) -> bool:
    """Whether our own reader takes a value as it is written behind a key."""
    others = [other.line for other in keys_of(model) if other.needed and other.name != key.name]
    text = "\n".join([*others, f"{key.name}: {value}"]) + "\n"
    findings = Findings()
    node = read_nodes(Source.of("a.yaml", text), findings, text)
    if node is None or len(findings):
        return False
    read_keys(model, node, findings, "it")
    return not len(findings) and isinstance(node, Keys) and isinstance(node.pairs[-1][1], Scalar)


@functools.cache
def as_loaded(value: str) -> list[Any]:
    """Return what each loader makes of a value; a loader that can't read it makes nothing."""
    found = []
    for load in (yaml.safe_load, YAML(typ="safe", pure=True).load):
        try:
            found.append(load(f"key: {value}\n")["key"])
        except Exception:  # noqa: BLE001, S112 - then no editor reads it either
            continue
    return found


def is_valid(key: Key, value: str) -> bool:
    """Whether an editor takes a value, whichever way it reads YAML."""
    check = Draft202012Validator(described(key))
    return all(check.is_valid(read) for read in as_loaded(value))


@pytest.mark.parametrize(
    ("model", "key"), KINDS, ids=[f"{model.__name__}-{key.name}" for model, key in KINDS]
)
@settings(max_examples=25, deadline=None)
@given(text=TEXTS, quotes=QUOTES)
def test_an_editor_takes_whatever_our_reader_takes(
    model: type[Matter], key: Key, text: str, quotes: str
) -> None:
    value = quotes.format(text)
    if accepted(model, key, value):
        assert is_valid(key, value), (value, as_loaded(value))


@pytest.mark.parametrize(
    ("model", "key"), KINDS, ids=[f"{model.__name__}-{key.name}" for model, key in KINDS]
)
def test_an_editor_takes_every_odd_text_that_our_reader_takes(
    model: type[Matter], key: Key
) -> None:
    units = [f"1 {unit}" for unit in UNIT_WORDS]
    texts = [*ODD, *NUMBERS, *units, *type_examples(key.hint), *key.choices]
    taken = [text for text in texts if accepted(model, key, text)]
    assert taken
    assert [text for text in taken if not is_valid(key, text)] == []


def test_each_kind_of_value_has_its_form() -> None:
    told = [key for _, key in SINGLE if type_examples(key.hint)]
    assert told
    assert not [key.name for key in told if optional(key.hint) not in FORMS]


@pytest.mark.parametrize("written", ["", "~", "null", "Null", "NULL", "''"])
def test_an_editor_takes_an_empty_value_for_none_as_our_reader_does(written: str) -> None:
    open_to_it = [(model, key) for model, key in EVERY if accepted(model, key, written)]
    assert len(open_to_it) == sum(not key.needed for _, key in EVERY)
    assert [key.name for _, key in open_to_it if not is_valid(key, written)] == []
