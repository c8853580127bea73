"""What editors check with: JSON Schemas that take all that our reader takes, and know its keys.

The judge is the validator `jsonschema`, an implementation of JSON Schema that is not ours, with
the published metaschemas of draft 2020-12 and draft 7. Files are read as editors and others read
them: with PyYAML's safe loader (YAML 1.1) and with ruamel.yaml's (YAML 1.2).
"""

from __future__ import annotations

import copy
import importlib.util
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
import yaml
from jsonschema import Draft7Validator, Draft202012Validator
from ruamel.yaml import YAML

from cookbook_build.explaining.keys import FILES, groups, keys_of
from cookbook_build.explaining.schemas import schemas
from cookbook_build.findings import Severity

if TYPE_CHECKING:
    from collections.abc import Iterator
    from types import ModuleType

ROOT = Path(__file__).parents[3]
BOOKS = ("content_demo", "tests/spanish_book", "tests/crowded_book")
SCHEMAS = schemas()
IN_BOTH_DRAFTS = {
    "$schema", "title", "description", "type", "properties", "additionalProperties", "required",
    "items", "minItems", "minLength", "minimum", "maximum", "pattern", "enum", "anyOf", "oneOf",
    "not", "if", "then", "default", "examples",
}  # fmt: skip
FOR_EDITORS = {"enumDescriptions", "patternErrorMessage", "errorMessage"}
KINDS = {"book.yaml": "book", "larder.yaml": "larder"} | {
    "menus": "menu",
    "recipes": "recipe",
    "pages": "page",
}


def loaded(text: str) -> dict[str, Any]:
    """Return what each loader makes of a text."""
    return {
        "YAML 1.1": yaml.safe_load(text),
        "YAML 1.2": YAML(typ="safe", pure=True).load(text),
    }


def matter(path: str, text: str) -> str:
    """Return the YAML of a file: all of it, or what stands above a text."""
    return "".join(text.split("---\n")[1:2]) if path.endswith(".md") else text


def kind_of(path: str) -> str:
    """Return which schema a file of a book is checked with."""
    return KINDS[path.split("/", maxsplit=1)[0]]


def faults(kind: str, data: object) -> list[tuple[str | int, ...]]:
    """Return where a schema refuses something, in either draft alike."""
    schema = SCHEMAS[kind]
    newest = [
        tuple(error.absolute_path) for error in Draft202012Validator(schema).iter_errors(data)
    ]
    older = [tuple(error.absolute_path) for error in Draft7Validator(schema).iter_errors(data)]
    assert newest == older
    return newest


def files_of(book: str) -> Iterator[str]:
    """Give each file of a book that a schema is for."""
    folder = ROOT / book
    for pattern in ("book.yaml", "larder.yaml", "menus/*.yaml", "recipes/**/*.md", "pages/**/*.md"):
        yield from sorted(path.relative_to(folder).as_posix() for path in folder.glob(pattern))


def inside(schema: object) -> Iterator[tuple[str, Any]]:
    """Give every keyword of a schema with its value; properties are no keywords."""
    if isinstance(schema, dict):
        for word, value in schema.items():
            yield word, value
            if word == "properties":
                for one in value.values():
                    yield from inside(one)
            elif word not in {"default", "examples"}:
                yield from inside(value)
    elif isinstance(schema, list):
        for one in schema:
            yield from inside(one)


@pytest.mark.parametrize("kind", SCHEMAS)
def test_each_schema_is_one_by_the_published_metaschemas(kind: str) -> None:
    Draft202012Validator.check_schema(SCHEMAS[kind])
    older = SCHEMAS[kind] | {"$schema": "http://json-schema.org/draft-07/schema#"}
    Draft7Validator.check_schema(older)


@pytest.mark.parametrize("kind", SCHEMAS)
def test_only_words_that_mean_the_same_in_both_drafts_are_used(kind: str) -> None:
    used = {word for word, _ in inside(SCHEMAS[kind])}
    assert used <= IN_BOTH_DRAFTS | FOR_EDITORS


@pytest.mark.parametrize("kind", SCHEMAS)
def test_each_pattern_is_one_of_ecma_262_too(kind: str) -> None:
    patterns = [value for word, value in inside(SCHEMAS[kind]) if word == "pattern"]
    assert patterns or kind == "page"
    for pattern in patterns:
        assert re.compile(pattern)
        assert not re.search(r"\(\?(?!:)|\\[AZpPdDwW]|[*+?}]\+", pattern), pattern


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_each_key_has_its_title_its_words_and_an_example_that_fits(file: Any) -> None:  # noqa: ANN401
    shown = [value for word, value in inside(SCHEMAS[file.name]) if word == "properties"]
    described = {name for properties in shown for name in properties}
    assert described == {key.name for model in groups(file.model) for key in keys_of(model)}
    for properties in shown:
        for name, schema in properties.items():
            if schema.keys() == {"not"}:
                continue
            assert schema["title"] == name
            assert len(schema["description"]) > 10
            for value in (
                *schema["examples"],
                *([schema["default"]] if "default" in schema else []),
            ):
                assert Draft202012Validator(schema).is_valid(value), (name, value)


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_each_choice_is_named_with_its_meaning(file: Any) -> None:  # noqa: ANN401
    choices = {key.choices for model in groups(file.model) for key in keys_of(model) if key.choices}
    named = {
        tuple(schema["enum"]): schema["enumDescriptions"]
        for schema in [SCHEMAS[file.name], *(v for _, v in inside(SCHEMAS[file.name]))]
        for schema in (schema if isinstance(schema, list) else [schema])
        if isinstance(schema, dict) and "enumDescriptions" in schema
    }
    assert set(named) == choices
    assert all(len(words) == len(meanings) for words, meanings in named.items())


@pytest.mark.parametrize(
    ("book", "path"), [(book, path) for book in BOOKS for path in files_of(book)]
)
def test_each_file_of_our_books_is_valid(book: str, path: str) -> None:
    text = (ROOT / book / path).read_text(encoding="utf-8")
    for data in loaded(matter(path, text)).values():
        assert not faults(kind_of(path), data)


SOUND = {
    "book": "title: Ours\nmeasures: us-cups\nservings: [1, 2]\nseries:\n  Bowls: {about: Warm.}\n"
    "kit:\n  stove: {power: 2 kW}\n  jar: {holds: 500 mL, label: 65 C after 6 h}\n"
    "  pouches: [{name: small, width: 13 cm, height: 18 cm}]\n",
    "larder": "leeks: {food: leeks raw, dried: freeze}\nsalt: {food: salt, dried: bought}\n"
    "oats:\n  dried: bought\n  label: {per: 100 g, energy: 430 kcal, protein: 9 g, fat: 7 g, "
    "carbohydrate: 60 g}\n",
    "recipe": "title: Bowl\nserves: 2\nmethods: [kettle, stove]\ningredients:\n  - 1 cup lentils\n"
    "tested: {method: kettle, water: 1 cup, rest: 12 min}\n"
    "trials:\n  - {date: 2026-03-02, water: 1 cup, verdict: right}\n"
    "components:\n  - {name: Relish, ingredients: [3 tbsp pears]}\n",
    "menu": "title: Two days\npeople: 2\nmeals:\n  - {day: 1, meal: supper, recipe: bowl}\n",
    "page": "title: Ours\norder: 2\n",
}
WRONG: list[tuple[str, str, str, tuple[str | int, ...]]] = [
    ("book", "title: Ours\n", "", ()),
    ("book", "title: Ours", "title:", ("title",)),
    ("book", "title: Ours", "title: [Ours]", ("title",)),
    ("book", "title: Ours", "title: {name: Ours}", ("title",)),
    ("book", "title: Ours", 'title: ""', ("title",)),
    ("book", "measures:", "measure:", ()),
    ("book", "us-cups", "us cups", ("measures",)),
    ("book", "us-cups", "[us-cups]", ("measures",)),
    ("book", "[1, 2]", "[]", ("servings",)),
    ("book", "[1, 2]", "[0, 2]", ("servings", 0)),
    ("book", "[1, 2]", "[1, 200]", ("servings", 1)),
    ("book", "[1, 2]", "[one, 2]", ("servings", 0)),
    ("book", "[1, 2]", "2", ("servings",)),
    ("book", "{about: Warm.}", "Warm.", ("series", "Bowls")),
    ("book", "{about: Warm.}", "{abuot: Warm.}", ("series", "Bowls")),
    ("book", "power: 2 kW", "power: 2", ("kit", "stove", "power")),
    ("book", "power: 2 kW", "power: 2 horses", ("kit", "stove", "power")),
    ("book", "power: 2 kW", "fuel: coal", ("kit", "stove", "fuel")),
    ("book", "power: 2 kW", "efficiency: 50", ("kit", "stove", "efficiency")),
    ("book", "holds: 500 mL, ", "", ("kit", "jar")),
    ("book", "holds: 500 mL", "hold: 500 mL", ("kit", "jar")),
    ("book", "65 C after 6 h", "65 C", ("kit", "jar", "label")),
    ("book", "jar: {holds: 500 mL, label: 65 C after 6 h}", "jar: a good one", ("kit", "jar")),
    ("book", "18 cm}]", "18}]", ("kit", "pouches", 0, "height")),
    ("book", "title: Ours", "title: Ours\naltitude: 310", ("altitude",)),
    ("book", "title: Ours", "title: Ours\naddress: example.org", ("address",)),
    ("book", "title: Ours", "title: Ours\nlargest file: 20 MiB", ("largest file",)),
    ("book", "title: Ours", "title: Ours\nlanguage: English", ("language",)),
    ("larder", "food: leeks raw, ", "", ("leeks",)),
    ("larder", "food: leeks raw", "food: leeks raw, from: bases/sauce", ("leeks",)),
    ("larder", "dried: freeze", "dried: frozen", ("leeks", "dried")),
    ("larder", ", dried: freeze", "", ("leeks",)),
    ("larder", "dried: freeze", "dried: freeze, raw: perhaps", ("leeks", "raw")),
    ("larder", "dried: freeze", "dried: freeze, weighs: 96 g", ("leeks", "weighs")),
    ("larder", "dried: freeze", "dried: freeze, also called: leek", ("leeks", "also called")),
    ("larder", "salt: {food: salt, dried: bought}", "salt:", ("salt",)),
    ("larder", "protein: 9 g", "protein: 9", ("oats", "label", "protein")),
    ("larder", ", fat: 7 g", "", ("oats", "label")),
    ("recipe", "title: Bowl\n", "", ()),
    ("recipe", "title: Bowl", "Title: Bowl", ()),
    ("recipe", "serves: 2", "serves: two", ("serves",)),
    ("recipe", "[kettle, stove]", "kettle", ("methods",)),
    ("recipe", "[kettle, stove]", "[kettel, stove]", ("methods", 0)),
    ("recipe", "[kettle, stove]", "[]", ("methods",)),
    ("recipe", "  - 1 cup lentils", "  lentils: 1 cup", ("ingredients",)),
    ("recipe", "rest: 12 min", "rest: 12", ("tested", "rest")),
    ("recipe", "rest: 12 min", "rest: [12 min]", ("tested", "rest")),
    ("recipe", "water: 1 cup, rest", "rest", ("tested",)),
    ("recipe", "verdict: right", "verdict: good", ("trials", 0, "verdict")),
    ("recipe", "date: 2026-03-02", "date: soon", ("trials", 0, "date")),
    ("recipe", "date: 2026-03-02, ", "", ("trials", 0)),
    ("recipe", "ingredients: [3 tbsp pears]", "ingredients: []", ("components", 0, "ingredients")),
    ("menu", "meals:\n  - {day: 1, meal: supper, recipe: bowl}\n", "", ()),
    ("menu", "day: 1, ", "", ("meals", 0)),
    ("menu", "day: 1", "day: 0", ("meals", 0, "day")),
    ("menu", "recipe: bowl", "recipe: bowl, methot: stove", ("meals", 0)),
    ("menu", "people: 2", "people: 2\nappetites: 2", ("appetites",)),
    ("menu", "people: 2", "people: 2\nappetites: [1, some]", ("appetites", 1)),
    ("page", "title: Ours", "name: Ours", ()),
    ("page", "order: 2", "order: last", ("order",)),
    ("page", "order: 2", "order: 2\ndraft: yes", ()),
]  # fmt: skip


@pytest.mark.parametrize("kind", SOUND)
def test_the_files_are_sound_before_they_are_spoilt(kind: str) -> None:
    for data in loaded(SOUND[kind]).values():
        assert not faults(kind, data)


@pytest.mark.parametrize(("kind", "old", "new", "path"), WRONG)
def test_each_wrong_file_is_refused_where_it_is_wrong(
    kind: str, old: str, new: str, path: tuple[str | int, ...]
) -> None:
    assert SOUND[kind].count(old) == 1
    for data in loaded(SOUND[kind].replace(old, new)).values():
        assert set(faults(kind, data)) == {path}


def planted() -> ModuleType:
    """Return the table of mistakes of the hostile tests."""
    path = ROOT / "tests/hostile/test_planted_mistakes.py"
    spec = importlib.util.spec_from_file_location("planted_mistakes", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module  # its dataclass asks for it
    spec.loader.exec_module(module)
    return module


PLANTED = planted()
KNOWN = {
    "misspelt key", "misspelt key in the book", "misspelt key of a store",
    "misspelt key in the kit", "misspelt key of a meal", "a method that isn't one",
    "a consistency that isn't one", "measures that aren't", "a verdict that isn't one",
    "bad weighing", "bad altitude", "bad rest", "bad jar label",
    "an address without its scheme", "an address of a mail box", "a size that is none",
    "a size in other units", "a licence in another spelling", "no servings", "servings in words",
    "missing water", "missing title", "an empty title", "missing dried",
    "one value where a list belongs", "a list where one value belongs",
    "a value where keys belong", "neither food nor base nor label", "yes or no",
}  # fmt: skip
"""Those of the mistakes that lie in a key, a choice or a value's own form."""


def refused(name: str) -> bool:
    """Whether an editor sees a planted mistake, whichever way it reads YAML."""
    row = PLANTED.MISTAKES[name]
    text = matter(row.file, PLANTED.SOUND[row.file].replace(row.old, row.new, 1))
    try:
        read = loaded(text)
    except Exception:  # noqa: BLE001 - what no loader reads needs no schema
        return False
    seen = {bool(faults(kind_of(row.file), data)) for data in read.values()}
    return seen == {True}


def test_every_planted_mistake_of_keys_and_choices_is_refused() -> None:
    names = [name for name in PLANTED.MISTAKES if refused(name)]
    assert set(names) >= KNOWN
    assert all(PLANTED.MISTAKES[name].severity is Severity.ERROR for name in names)


def test_the_sound_book_of_the_planted_mistakes_is_valid() -> None:
    for path, text in PLANTED.SOUND.items():
        if not path.startswith("images"):
            for data in loaded(matter(path, text)).values():
                assert not faults(kind_of(path), data)


@pytest.mark.parametrize("word", ["Kettle", "KETTLE", " kettle "])
def test_capitals_in_a_choice_are_no_reason_to_refuse_it(word: str) -> None:
    data = copy.deepcopy(yaml.safe_load(SOUND["recipe"]))
    data["methods"] = [word]
    assert not faults("recipe", data)


@pytest.mark.parametrize("written", ["yes", "no", "True", "off", "y", '"yes"', "1"])
def test_a_yes_or_a_no_may_be_spelt_in_any_way(written: str) -> None:
    text = SOUND["larder"].replace("dried: freeze", f"dried: freeze, raw: {written}")
    for data in loaded(text).values():
        assert not faults("larder", data)
