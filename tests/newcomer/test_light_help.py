"""Help is light: what is loaded before it stands on the screen, by names and not by the clock."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

HEAVY = {
    "PIL", "babel", "email", "http", "jinja2", "livereload", "lxml", "markdown_it", "numpy",
    "pint", "platformdirs", "pydantic", "pydantic_core", "rich", "segno", "sqlite3",
    "ssl", "tinycss2", "tornado", "yaml",
}  # fmt: skip
"""What takes long to load, and helps nobody to read help."""

OWN_BUDGET = 20
"""Modules of ours: the commands, what they share, and findings."""

SCRIPT = """
import json, sys
sys.argv = ["cookbook-build", *sys.argv[1:]]
before = set(sys.modules)
from cookbook_build.cli import main
try:
    main()
except SystemExit as end:
    assert end.code == 0, end.code
print("\\nLOADED" + json.dumps(sorted(set(sys.modules) - before)))
"""


def loaded(*words: str) -> list[str]:
    """Return the modules that a fresh interpreter loads to answer a command."""
    ran = subprocess.run(  # noqa: S603 - our own
        [sys.executable, "-c", SCRIPT, *words],
        capture_output=True,
        check=True,
        encoding="utf-8",
    )
    help_text, _, names = ran.stdout.rpartition("LOADED")
    assert "Usage:" in help_text
    found: list[str] = json.loads(names)
    return found


@pytest.mark.parametrize(
    "words",
    [["--help"], ["start", "--help"], ["foods", "--help"], ["proof", "--help"], ["bind", "-h"]],
    ids=" ".join,
)
def test_help_loads_nothing_heavy(words: list[str]) -> None:
    names = loaded(*words)
    assert "click" in names  # the list is the one of this run
    assert {name.split(".")[0] for name in names} & HEAVY == set()
    own = [name for name in names if name.split(".")[0] == "cookbook_build"]
    assert len(own) <= OWN_BUDGET, own
    rooms = {name.split(".")[1] for name in own if "." in name}
    assert rooms <= {"cli", "commands", "findings", "program", "user_folder", "walking"}
