from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

from cookbook_build import kitchen, preserving

ROOMS = (kitchen, preserving)
MODULES = [path for room in ROOMS for path in Path(str(room.__file__)).parent.glob("*.py")]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.stem)
def test_the_kitchen_imports_the_standard_library_numpy_and_itself(path: Path) -> None:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
        if isinstance(node, ast.ImportFrom):
            names = [node.module or ""]
        for name in names:
            own = name.startswith(f"cookbook_build.{path.parent.name}")
            assert own or name.split(".")[0] in {*sys.stdlib_module_names, "numpy"}


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.stem)
def test_the_kitchen_opens_no_file_and_reads_no_clock(path: Path) -> None:
    words = {
        node.id
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Name)
    }
    assert not words & {"open", "time", "datetime", "Path", "print", "input"}
