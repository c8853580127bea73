"""What README, DEVELOPERS and guide name exists, and the small book of the guide works."""

from __future__ import annotations

import re
from pathlib import Path
from typing import get_args

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main
from cookbook_build.manuscript.schema import Consistency, Method

ROOT = Path(__file__).parents[2]
MORE = "content_demo/pages/guide/more.md"
DOCUMENTS = ("README.md", "DEVELOPERS.md", MORE)
MADE_LATER = {"site/index.html", "my-book", "my-site", "epub/own.css"}


def words(name: str) -> list[str]:
    """Return what a document sets in code within its running text."""
    text = (ROOT / name).read_text(encoding="utf-8")
    text = re.sub(r"```.*?```", "", text, flags=re.DOTALL)
    return [" ".join(word.split()) for word in re.findall(r"`([^`]+)`", text)]


def small_book(folder: Path) -> Path:
    """Write the files that the guide shows into a folder, kit, trials and base with them."""
    own = (ROOT / MORE).read_text(encoding="utf-8")
    names = (
        "book.yaml", "larder.yaml", "recipes/suppers/lentil-bowl.md", "menus/paddle.yaml",
        "recipes/bases/plum-sauce.md",
    )  # fmt: skip
    blocks = re.findall(r"```(?:yaml|markdown)\n(.*?)```", own, re.DOTALL)
    *files, base, of_base, kit, trials, menu = blocks
    files[0] += kit
    files[1] += of_base
    files[2] = files[2].replace("tested:", f"{trials}tested:")
    files += [menu, base]
    for name, block in zip(names, files, strict=True):
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(block, encoding="utf-8")
    return folder


def test_the_guide_tells_every_consistency_and_method() -> None:
    text = (ROOT / MORE).read_text(encoding="utf-8")
    told = text.split("The `consistency` says")[1].split("\n\n")[0]
    assert set(re.findall(r"`(\w+)`", told)) == set(get_args(Consistency))
    assert all(f"`{method}`" in text for method in get_args(Method))


@pytest.mark.parametrize("name", DOCUMENTS)
def test_every_path_that_a_document_names_exists(name: str) -> None:
    paths = [word for word in words(name) if re.fullmatch(r"\.?[\w./-]+/[\w./-]*|[\w-]+\.md", word)]
    missing = [
        path
        for path in paths
        if path not in MADE_LATER
        and not path.startswith((".venv", "recipes/suppers", "recipes/bases", "bases/"))
        and not (ROOT / path).exists()
        and not (ROOT / "cookbook_build" / path).exists()
    ]
    assert not missing


def test_every_command_of_the_readme_is_one() -> None:
    named = {word.split()[1] for word in words("README.md") if word.startswith("cookbook-build ")}
    assert named
    assert named <= set(main.commands)


def test_the_small_book_of_the_guide_is_sound(tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["proof", str(small_book(tmp_path))])
    assert result.exit_code == 0, result.output
    assert "Nothing to mend." in result.output


def test_the_water_command_of_the_readme_answers(tmp_path: Path) -> None:
    command = next(word for word in words("README.md") if word.startswith("cookbook-build water"))
    arguments = re.findall(r'"[^"]+"|\S+', command.replace("my-book", str(small_book(tmp_path))))[
        1:
    ]
    result = CliRunner().invoke(main, [argument.strip('"') for argument in arguments])
    assert result.exit_code == 0, result.output
    assert "3 servings, stove" in result.output.replace("\N{NO-BREAK SPACE}", " ")


def test_the_two_commands_set_up_everything_themselves() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    commands = re.findall(r"```sh\n(.*?)\n```", text, re.DOTALL)
    assert len(commands) == 2
    assert all(command.startswith("python3 -m venv .venv && ") for command in commands)
    assert "bind content_demo --out site" in commands[0]
    assert commands[1].endswith(".venv/bin/python -m pytest")
