"""The files to begin from, read from the package; each answer fills one line of book.yaml."""

from __future__ import annotations

import json
import re
from importlib import resources
from typing import TYPE_CHECKING, Final

import yaml

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from importlib.resources.abc import Traversable

FEET: Final = re.compile(r"ft|feet|foot", re.IGNORECASE)


def languages() -> tuple[str, ...]:
    """Return the languages that there is a book to begin from in."""
    found = (entry.name for entry in resources.files(__package__).iterdir() if entry.is_dir())
    return tuple(sorted(name for name in found if not name.startswith("_")))


def starter_files(language: str) -> dict[str, str]:
    """Return the texts of the book to begin from, by their paths in it."""
    return dict(sorted(_texts(resources.files(__package__).joinpath(language), "")))


def _texts(folder: Traversable, path: str) -> Iterator[tuple[str, str]]:
    for entry in folder.iterdir():
        if entry.is_dir():
            yield from _texts(entry, f"{path}{entry.name}/")
        else:
            yield path + entry.name, entry.read_text(encoding="utf-8")


def usual(language: str) -> Mapping[str, str]:
    """Return what a book to begin from says by itself, by the keys of book.yaml."""
    text = resources.files(__package__).joinpath(language, "book.yaml").read_text(encoding="utf-8")
    return dict(re.findall(r"^([a-z]+): (.*)$", text, re.MULTILINE))


def filled(files: Mapping[str, str], answers: Mapping[str, str]) -> dict[str, str]:
    """Return the files with each answer on the line of its key in book.yaml."""
    text = files["book.yaml"]
    given = dict(answers)
    if FEET.search(given.get("altitude", "")):
        given["altitudes"] = "feet"
    for key, answer in given.items():
        before, after = re.split(rf"^{key}: .*$", text, maxsplit=1, flags=re.MULTILINE)
        text = f"{before}{key}: {as_written(answer)}{after}"
    return {**files, "book.yaml": text}


def as_written(answer: str) -> str:
    """Return how a text is written in YAML: bare where it can be, else in double quotes."""
    try:
        bare = yaml.safe_load(f"key: {answer}")
    except (yaml.YAMLError, ValueError):  # such as a day that no calendar has
        bare = None
    return answer if bare == {"key": answer} else json.dumps(answer, ensure_ascii=False)
