"""What is written for a word where keys belong can be read, in every group of keys there is."""

from __future__ import annotations

import pytest
import yaml
from pydantic import BaseModel, TypeAdapter

from cookbook_build.manuscript import schema
from cookbook_build.manuscript.group_mends import filled, group_mend, in_braces
from cookbook_build.manuscript.schema import BookKeys, KitKeys, Matter, MenuKeys

JAR = "jar: {holds: 500 mL, label: 70 C after 6 h}"
SERIES = "series: {Ashore: {about: 'a, b'}}"
GROUPS = [
    found
    for found in vars(schema).values()
    if isinstance(found, type) and issubclass(found, Matter) and found is not Matter
]


def as_texts(value: object) -> object:
    """Return what YAML reads with every value as its text, as our own reader has it."""
    if isinstance(value, dict):
        return {key: as_texts(one) for key, one in value.items()}
    if isinstance(value, list):
        return [as_texts(one) for one in value]
    return str(value)


@pytest.mark.parametrize("model", GROUPS, ids=lambda model: model.__name__)
@pytest.mark.parametrize("said", ["", "4", "sauce, and more", "nonsense: here", "'tis [odd]"])
def test_a_group_with_whatever_word_is_sound(model: type[BaseModel], said: str) -> None:
    written = in_braces(filled(model, said))
    assert "…" not in written
    read = as_texts(yaml.safe_load(written))
    TypeAdapter(model).validate_python(read)


@pytest.mark.parametrize(
    ("model", "path", "value", "mend"),
    [
        (KitKeys, ("jar",), "70 C after 6 h", f'write "{JAR}".'),
        (KitKeys, ("bowl",), ["14 cm"], 'write "bowl: {opening: 14 cm}".'),
        (KitKeys, ("bowl",), "blue", 'write it like "bowl: {opening: 14 cm}".'),
        (KitKeys, ("jars", 0), "small", 'write "{name: small, holds: 500 mL}".'),
        (BookKeys, ("kit",), "kettle", 'write it like "kit: {bowl: {opening: 14 cm}}".'),
        (BookKeys, ("series",), [{"Ashore": {"about": "a, b"}}], f'write "{SERIES}".'),
        (MenuKeys, ("meals",), "oats", 'write "meals: [{day: 1, meal: supper, recipe: oats}]".'),
        (BookKeys, ("servings",), "1, 2", None),
    ],
)  # fmt: skip
def test_a_word_stands_at_the_key_that_takes_it(
    model: type[BaseModel], path: tuple[str | int, ...], value: object, mend: str | None
) -> None:
    assert group_mend(model, path, value) == mend
