"""The Spanish catalogue holds every text of the program, whole, and with the same gaps."""

from __future__ import annotations

import re
import string
import tomllib
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po

from cookbook_build import words

ROOT = Path(__file__).parents[3]
SPANISH = Path(words.__file__).parent / "es.po"
_PERCENT_GAP = re.compile(r"%\((\w+)\)[a-z]")
_TAG = re.compile(r"</?\w+")


@pytest.fixture(scope="module")
def used() -> Catalog:
    """Return every text that code and templates look up, as `pybabel extract` finds them."""
    tool = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["babel"]
    mappings = tool["mappings"]
    catalog = Catalog()
    for _, _, message, _, context in extract_from_dir(
        ROOT,
        method_map=[(mapping["pattern"], mapping["method"]) for mapping in mappings],
        options_map={
            mapping["pattern"]: {k: v for k, v in mapping.items() if k not in {"pattern", "method"}}
            for mapping in mappings
        },
        directory_filter=lambda path: (
            Path(path).parent != ROOT or Path(path).name in {"cookbook_build", "themes"}
        ),
    ):
        catalog.add(message, context=context)
    return catalog


@pytest.fixture(scope="module")
def spanish() -> Catalog:
    with SPANISH.open("rb") as file:
        return read_po(file, locale="es")


def keys(catalog: Catalog) -> set[tuple[str | None, str]]:
    return {(entry.context, forms(entry.id)[0]) for entry in catalog if entry.id}


def forms(text: object) -> list[str]:
    """Return the forms of a text: one, or one for each number of things."""
    if isinstance(text, str):
        return [text]
    return list(text) if isinstance(text, list | tuple) else []


def gaps(text: str) -> set[str]:
    """Return the gaps of a text, of both kinds, and its tags."""
    braces = {name for _, name, _, _ in string.Formatter().parse(text) if name is not None}
    return braces | set(_PERCENT_GAP.findall(text)) | set(_TAG.findall(text))


def test_the_catalogue_holds_what_is_looked_up_and_nothing_else(
    used: Catalog, spanish: Catalog
) -> None:
    assert len(keys(used)) > 1500
    assert sorted(keys(used) - keys(spanish), key=str) == []
    assert sorted(keys(spanish) - keys(used), key=str) == []


def test_every_text_is_translated(spanish: Catalog) -> None:
    untold = [entry.id for entry in spanish if entry.id and not all(forms(entry.string) or [""])]
    assert untold == []
    assert [entry.id for entry in spanish if entry.id and entry.fuzzy] == []


def test_plurals_have_a_form_for_one_and_for_many(spanish: Catalog) -> None:
    counted = [entry for entry in spanish if isinstance(entry.id, tuple | list)]
    assert counted
    for entry in counted:
        assert len(forms(entry.string)) == spanish.num_plurals == 2, entry.id


def test_every_gap_stays_and_none_reaches_into_what_fills_it(spanish: Catalog) -> None:
    for entry in spanish:
        if not entry.id:
            continue
        asked = set().union(*(gaps(text) for text in forms(entry.id)))
        given = [gaps(text) for text in forms(entry.string)]
        assert set().union(*given) == asked, entry.id
        for names in given:
            assert not [name for name in names if re.search(r"[.\[!:]", name)], entry.id


def test_texts_begin_and_end_as_theirs_do(spanish: Catalog) -> None:
    """A space at an end joins a text to what stands beside it."""
    for entry in spanish:
        for english, theirs in zip(forms(entry.id), forms(entry.string), strict=False):
            if english:
                for end in (0, -1):
                    assert english[end].isspace() == theirs[end].isspace(), entry.id
