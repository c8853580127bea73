"""A command outside of a book names the same command with the book's folder, and that runs."""

from __future__ import annotations

import shlex
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner, Result

from cookbook_build.cli import main
from tests.newcomer.test_sixty_mistakes import SOUND, write

if TYPE_CHECKING:
    from pathlib import Path


def said(*words: str) -> tuple[Result, str]:
    """Run a command; return its result, and the command that it tells to write."""
    result = CliRunner().invoke(main, list(words))
    text = " ".join(result.stderr.split())
    at = text.find("cookbook-build ", text.find("no book here"))
    return result, text[at:] if "no book here" in text else ""


COMMANDS = (
    (
        "water",
        "Lentil bowl",
        "--servings",
        "2",
        "--swap",
        "leeks=pears",
        "--add",
        "1 tsp plum sauce",
    ),
    ("water", "pear-oats", "--json"),
    ("provision", "first-trip"),
    ("proof",),
    ("bind", "--out", "made"),
)


@pytest.mark.parametrize("inside", ["recipes", "recipes/ashore", "menus"])
@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_in_a_folder_of_the_book_the_way_up_is_told(
    words: tuple[str, ...], inside: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(write(tmp_path, SOUND) / inside)
    result, told = said(*words)
    assert result.exit_code == 2, result.output
    up = "2 folders up" if "/" in inside else "one folder up"
    assert f"book.yaml is {up}" in " ".join(result.stderr.split())
    program, *again = shlex.split(told)
    assert program == "cookbook-build"
    assert set(words) <= set(again), "a word that was typed is lost"
    followed = CliRunner().invoke(main, again)
    assert "no book here" not in followed.stderr
    assert followed.exit_code == 0, followed.output


@pytest.mark.parametrize("words", COMMANDS[1:], ids=" ".join)
def test_beside_a_book_its_folder_is_named(
    words: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(tmp_path / "Cocina del río", SOUND)
    monkeypatch.chdir(tmp_path)
    _, told = said(*words)
    followed = CliRunner().invoke(main, shlex.split(told)[1:])
    assert followed.exit_code == 0, followed.output


def test_with_no_book_near_the_folder_is_put_into_the_same_command(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(tmp_path / "one", SOUND)
    write(tmp_path / "two", SOUND)
    monkeypatch.chdir(tmp_path)  # two books: neither is meant more than the other
    _, told = said("water", "Cocina del río")
    assert shlex.split(told) == [
        *("cookbook-build", "water", "Cocina del río", "--book", "my-book"),
    ]
    _, told = said("bind")
    assert shlex.split(told) == ["cookbook-build", "bind", "my-book"]
