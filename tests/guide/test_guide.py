"""The generated pages of the guide are current, and what they show works."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from cookbook_build.explaining.keys import EXPLAINED
from cookbook_build.explaining.reference import every_key
from cookbook_build.explaining.tables import TABLES
from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned

if TYPE_CHECKING:
    from types import ModuleType

HERE = Path(__file__).parent
FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.DOTALL | re.MULTILINE)
NEEDED = {
    "book.yaml": "title: Ours\n",
    "larder.yaml": "",
    "Recipes": "title: Barley and leeks\ningredients: [1 cup lentils]\n",
    "Menus": "title: Ours\nmeals: [{day: 1, meal: supper, recipe: bowl}]\n",
    "Free pages": "title: Ours\n",
}
SMALL = {
    "book.yaml": "title: Ours\n",
    "larder.yaml": "lentils: {food: lentils cooked, dried: freeze, cooked first: true}\n"
    "leeks: {food: leeks raw, dried: freeze, form: sliced}\n"
    "pears: {food: pears raw, dried: freeze, form: cubes}\n"
    "ginger: {food: ginger ground, dried: bought}\n"
    "salt: {food: salt, dried: bought}\n",
    "recipes/suppers/bowl.md": "---\ntitle: Bowl\ningredients: [1 cup lentils]\n---\nPour.\n",
}
PLACES = {
    "book.yaml": "book.yaml",
    "larder.yaml": "larder.yaml",
    "Recipes": "recipes/suppers/barley-and-leek-supper.md",
    "Menus": "menus/ours.yaml",
    "Free pages": "pages/ours.md",
}


def made() -> ModuleType:
    """Return the script that writes the guide."""
    spec = importlib.util.spec_from_file_location("make_guide", HERE / "make_guide.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def blocks() -> list[tuple[str, str, str]]:
    """Return each block of the page: under which file's heading, its language, its text."""
    found = []
    for section in re.split(r"^## ", every_key(), flags=re.MULTILINE)[1:]:
        heading = section.partition("\n")[0]
        found += [(heading, kind, text) for kind, text in FENCE.findall(section)]
    return found


YAML = [(heading, text) for heading, kind, text in blocks() if kind == "yaml"]
CSV = [(heading, text) for heading, kind, text in blocks() if kind == "csv"]


def with_block(heading: str, text: str) -> dict[str, str]:
    """Return a small book with a block of the page in it."""
    place = PLACES[heading]
    keys = dict.fromkeys(re.findall(r"^[a-z][a-z ]*(?=:)", text, re.MULTILINE))
    needed = [line for line in NEEDED[heading].splitlines() if line.partition(":")[0] not in keys]
    body = "\n".join([*needed, text.replace("---\n", "")])
    if place.endswith(".md"):
        body = f"---\n{body}---\nText.\n"
    supper = SMALL["recipes/suppers/bowl.md"].replace("title: Bowl", "title: Barley and leeks")
    files = SMALL | {"recipes/suppers/barley-and-leek-supper.md": supper}
    if heading == "larder.yaml":
        body = SMALL["larder.yaml"] + body
    return files | {place: body}


def found_in(folder: Path, files: dict[str, str]) -> list[str]:
    """Return what is amiss in a book, but for the pictures that it does not have."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    findings = Findings()
    book = read_book(folder, findings)
    if book:
        reckoned(book, findings)
    return [f"{f.place}: {f.cause}" for f in findings if "no picture" not in f.cause]


@pytest.mark.parametrize("name", made().PAGES)
def test_each_page_of_the_guide_is_current(name: str) -> None:
    script: Any = made()
    written = (script.GUIDE / name).read_text(encoding="utf-8")
    assert written == script.PAGES[name](), "run tests/guide/make_guide.py"


def test_there_is_a_block_for_each_group_of_keys() -> None:
    assert len(YAML) == len(EXPLAINED)
    assert [heading for heading, _ in CSV] == list(TABLES)


@pytest.mark.parametrize(("heading", "text"), YAML, ids=lambda part: part[:40])
def test_each_block_is_accepted_by_our_reader(tmp_path: Path, heading: str, text: str) -> None:
    files = with_block(heading, text)
    (tmp_path / "winter-look").mkdir()
    assert not found_in(tmp_path, files)


@pytest.mark.parametrize(("name", "text"), CSV, ids=lambda part: part[:14])
def test_each_table_is_accepted_by_our_reader(tmp_path: Path, name: str, text: str) -> None:
    assert not found_in(tmp_path, SMALL | {name: text})


def test_no_line_begins_another_list_than_it_should() -> None:
    text = re.sub(r"```.*?```", "", every_key(), flags=re.DOTALL)
    assert not re.findall(r"^\s+(?:[+*]|\d+[.)]) .*", text, re.MULTILINE)
    assert not re.findall(r"^ +- (?!`)", text, re.MULTILINE)  # entries within are choices
