"""Data flows one way: imports point from publishing back to the manuscript, never forward."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import cookbook_build

PACKAGE = Path(cookbook_build.__file__).parent
LEAVES = {
    "digests", "findings", "foods", "kept", "measures", "program", "steady", "user_folder",
    "walking", "whole_files", "words",
}  # fmt: skip
MAY_IMPORT = {
    "digests": {"steady"},
    "findings": set(),
    "kept": {"user_folder", "walking"},
    "program": {"walking"},
    "steady": {"findings"},
    "measures": {"findings", "words"},
    "foods": set(),
    "user_folder": {"walking"},
    "walking": set(),
    "whole_files": set(),
    "words": set(),
    "manuscript": LEAVES,
    "explaining": LEAVES | {"manuscript"},
    "kitchen": set(),
    "preserving": set(),
    "planning": LEAVES | {"manuscript", "kitchen", "preserving"},
    "publishing": LEAVES | {"manuscript", "kitchen", "preserving", "planning"},
    "preview": LEAVES | {"manuscript", "planning", "publishing"},
    "starter": LEAVES | {"manuscript"},
    "commands": LEAVES
    | {"explaining", "manuscript", "planning", "preview", "publishing", "starter"},
    "cli": {"commands"},
    "__main__": {"cli"},
    "__init__": set(),
}
READS_OR_CLOCKS = {
    "open",
    "pathlib",
    "time",
    "datetime",
    "os",
    "io",
    "yaml",
    "markdown_it",
    "jinja2",
}
MODULES = sorted(PACKAGE.rglob("*.py"))


def room(path: Path) -> str:
    """Return the room of the package that a module stands in."""
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imports(path: Path) -> set[str]:
    """Return the full names of the modules that a module imports, anywhere in it."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module)
    return found


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_each_room_imports_only_what_lies_before_it(path: Path) -> None:
    here = room(path)
    rooms = {
        name.split(".")[1]
        for name in imports(path)
        if name.startswith("cookbook_build.") and name.split(".")[1] != here
    }
    assert rooms <= MAY_IMPORT[here], f"{here} imports {sorted(rooms - MAY_IMPORT[here])}"


@pytest.mark.parametrize(
    "path",
    [path for path in MODULES if room(path) in {"kitchen", "preserving"}],
    ids=lambda p: p.relative_to(PACKAGE).as_posix(),
)
def test_kitchen_and_preserving_open_no_file_and_read_no_clock(path: Path) -> None:
    assert not {name.split(".")[0] for name in imports(path)} & READS_OR_CLOCKS
    names = {n.id for n in ast.walk(ast.parse(path.read_text())) if isinstance(n, ast.Name)}
    assert "open" not in names


@pytest.mark.parametrize(
    "path",
    [path for path in MODULES if room(path) in {"kitchen", "planning", "preserving"}],
    ids=lambda p: p.relative_to(PACKAGE).as_posix(),
)
def test_sums_of_real_numbers_are_exact(path: Path) -> None:
    """The built-in `sum` rounds otherwise from Python 3.12 on; a tie then falls to another side."""
    whole = {
        "planning/lessons.py": 1,
        "planning/reckoning.py": 1,
        "planning/provisions.py": 2,
        "preserving/loads.py": 1,
        "preserving/tray_fitting.py": 8,
    }  # of counts, of which every sum is exact
    names = [n.id for n in ast.walk(ast.parse(path.read_text())) if isinstance(n, ast.Name)]
    assert names.count("sum") == whole.get(path.relative_to(PACKAGE).as_posix(), 0), "use fsum"


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_no_module_grows_past_reading(path: Path) -> None:
    lines = len(path.read_text(encoding="utf-8").splitlines())
    assert lines <= 450, "split it, or say in DEVELOPERS.md why it is one thing"
