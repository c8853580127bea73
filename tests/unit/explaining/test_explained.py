"""Every key that authors write is explained, and nothing that is told of it is untrue."""

from __future__ import annotations

import re
import subprocess
import sys
from typing import TYPE_CHECKING, Any

import pytest

from cookbook_build.explaining.keys import EXPLAINED, FILES, Key, groups, keys_of
from cookbook_build.explaining.schemas import description
from cookbook_build.explaining.tables import TABLES
from cookbook_build.findings import Findings
from cookbook_build.kitchen.conditions import Conditions, Kit
from cookbook_build.manuscript import schema
from cookbook_build.manuscript.checking import read_keys
from cookbook_build.manuscript.larder import LABEL_MOISTURE
from cookbook_build.manuscript.logs import COLUMNS, read_logs
from cookbook_build.manuscript.nodes import read_nodes
from cookbook_build.manuscript.source import Source
from cookbook_build.planning.dishes import USUAL_LUNCH_S
from cookbook_build.preserving.quality_bases import REFERENCE_C
from cookbook_build.publishing.carrying import LARGEST_BYTES

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from cookbook_build.manuscript.schema import Matter

READERS = {schema.Matter, schema.ReplyKeys, schema.PouredKeys}  # what readers write, not authors
MODELS = [
    model
    for model in vars(schema).values()
    if isinstance(model, type) and issubclass(model, schema.Matter) and model not in READERS
]
KEYS = [(model, key) for model in MODELS for key in keys_of(model)]


def named(pair: object) -> str:
    """Return the name of a key for a test's own name."""
    return pair.name if isinstance(pair, Key) else getattr(pair, "__name__", str(pair))


def read(model: type[Matter], text: str) -> tuple[Any, list[str]]:
    """Return what our own reader makes of some keys, and what it finds."""
    findings = Findings()
    node = read_nodes(Source.of("a.yaml", text), findings, text)
    assert node is not None, text
    keys, _ = read_keys(model, node, findings, "it")
    return keys, [finding.cause for finding in findings]


def with_needed(key: Key, model: type[Matter]) -> str:
    """Return a key's line, below those of the keys that its group needs."""
    others = [other.line for other in keys_of(model) if other.needed and other.name != key.name]
    return "\n".join([*others, key.line]) + "\n"


def field_of(model: type[Matter], key: Key) -> str:
    """Return the name that a key has in its model."""
    return next(n for n, info in model.model_fields.items() if (info.alias or n) == key.name)


def test_every_group_of_keys_is_reached_from_a_file() -> None:
    assert {model for file in FILES for model in groups(file.model)} == set(MODELS)


def test_every_group_is_explained_and_nothing_else() -> None:
    assert set(EXPLAINED) == set(MODELS)


@pytest.mark.parametrize("model", MODELS, ids=named)
def test_every_key_is_explained_and_nothing_that_is_none(model: type[Matter]) -> None:
    written = [info.alias or name for name, info in model.model_fields.items()]
    assert sorted(EXPLAINED[model]) == sorted(written)


@pytest.mark.parametrize("name", sorted(COLUMNS))
def test_every_column_is_explained_and_nothing_that_is_none(name: str) -> None:
    assert list(TABLES[name]) == [column.name for column in COLUMNS[name]]


def test_every_table_is_explained() -> None:
    assert set(TABLES) == set(COLUMNS)


@pytest.mark.parametrize(("model", "key"), KEYS, ids=named)
def test_each_choice_is_explained(model: type[Matter], key: Key) -> None:
    assert list(key.explained.choices) == list(key.choices), model


@pytest.mark.parametrize(("model", "key"), KEYS, ids=named)
def test_each_example_is_accepted_by_our_reader(model: type[Matter], key: Key) -> None:
    assert key.example
    keys, causes = read(model, with_needed(key, model))
    assert not causes
    assert keys is not None
    assert field_of(model, key) in keys.model_fields_set


@pytest.mark.parametrize(("model", "key"), KEYS, ids=named)
def test_each_default_that_the_model_has_is_told(model: type[Matter], key: Key) -> None:
    field = field_of(model, key)
    info = model.model_fields[field]
    if key.explained.usual:
        assert info.get_default() is None  # else two defaults would be told
    elif key.default_text:
        text = with_needed(key, model).replace(key.line, f"{key.name}: {key.default_text}")
        keys, causes = read(model, text)
        assert not causes
        assert getattr(keys, field) == info.get_default()
    else:
        assert info.is_required() or not isinstance(info.default, str | int | bool)


def usual_values() -> Iterator[tuple[type[Matter], str, float]]:
    """Give the value that the program takes for each key whose model leaves it open."""
    kit, place = Kit(), Conditions()
    yield schema.BookKeys, "altitude", place.altitude_m
    yield schema.BookKeys, "largest file", LARGEST_BYTES
    yield schema.BowlKeys, "opening", kit.bowl_opening_m
    yield schema.PotKeys, "opening", kit.pot_opening_m
    yield schema.StoveKeys, "power", kit.stove_w
    yield schema.StoveKeys, "efficiency", kit.stove_efficiency
    yield schema.JarKeys, "lunch", USUAL_LUNCH_S
    yield schema.ShelfKeys, "temperature", REFERENCE_C
    yield schema.LabelKeys, "moisture", LABEL_MOISTURE
    yield schema.TestedKeys, "water temperature", place.water_c


def test_each_value_told_as_usual_is_the_one_that_is_taken() -> None:
    told = {(model, key.name): (key, model) for model, key in KEYS if key.explained.usual}
    usual = {(model, name): value for model, name, value in usual_values()}
    assert set(told) == set(usual)
    for at, (key, model) in told.items():
        line = f"{key.name}: {key.explained.usual}"
        keys, causes = read(model, with_needed(key, model).replace(key.line, line))
        assert not causes
        found = getattr(keys, field_of(model, key))
        assert getattr(found, "si", found) == pytest.approx(usual[at]), at


def test_other_vessels_told_as_usual_are_the_ones_that_are_taken() -> None:
    kit = schema.KitKeys()
    assert kit.bowl.covered
    assert kit.pot.lid
    assert kit.stove.fuel == Kit().fuel == "gas canister"
    assert Kit().microwave_w == 900  # as is said at "microwave", in kit
    assert (schema.LabelSheetKeys().columns, schema.LabelSheetKeys().rows) == (2, 5)  # ten labels


@pytest.mark.parametrize("name", sorted(COLUMNS))
def test_the_columns_examples_make_a_row(tmp_path: Path, name: str) -> None:
    columns = COLUMNS[name]
    rows = [[column.name for column in columns], [column.example for column in columns]]
    text = "\n".join(",".join(row) for row in rows)
    (tmp_path / name).write_text(text, encoding="utf-8")
    findings = Findings()
    stock, log = read_logs(tmp_path, None, findings)
    assert len(stock) + len(log) == 1
    assert not [finding.cause for finding in findings]


@pytest.mark.parametrize(("model", "key"), KEYS, ids=named)
def test_words_are_whole_sentences_in_a_cooks_words(model: type[Matter], key: Key) -> None:
    for text in filter(None, (key.explained.means, key.explained.without)):
        assert re.fullmatch(r"[A-Z`].*\.", text, re.DOTALL), text
    jargon = r"\b(string|null|boolean|integer|schema|parse\w*|array|object|default|value)\b"
    assert not re.search(jargon, description(key).casefold()), model


@pytest.mark.parametrize(("model", "key"), KEYS, ids=named)
def test_what_happens_without_a_key_is_told(model: type[Matter], key: Key) -> None:
    if not key.needed:
        assert key.explained.without or key.default_text, model


def test_what_proofs_and_binds_loads_no_explanation() -> None:
    script = (
        "import sys, cookbook_build.cli, cookbook_build.publishing.binding, "
        "cookbook_build.publishing.proofing, cookbook_build.planning.reckoning\n"
        "print([name for name in sys.modules if 'explaining' in name])"
    )
    done = subprocess.run(  # noqa: S603 - our own interpreter
        [sys.executable, "-c", script], capture_output=True, check=True, text=True
    )
    assert done.stdout.strip() == "[]"
