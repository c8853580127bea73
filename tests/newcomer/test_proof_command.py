"""What `proof` prints and how it ends, as somebody reads it on their first evening."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner, Result

from cookbook_build.cli import main

if TYPE_CHECKING:
    from pathlib import Path

PICTURE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"/>\n'
MEAL = """\
---
title: Lentil bowl
consistency: stew
ingredients:
  - 1 cup lentils
  - 2 tbsp leeks
tested: {method: kettle, water: 1 cup, rest: 12 min}
---
Pour {water} and wait {rest}.
"""
SOUND = {
    "book.yaml": "title: A small book\naltitude: 310 m\n",
    "larder.yaml": """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
""",
    "recipes/lentil-bowl.md": MEAL,
    "images/bowl.svg": PICTURE,
}
OATCAKE = "oatcake: {food: oatcakes, dried: Fresh, sold by: Piece, weighs: 60 g per Piece}\n"
BOWL = "recipes/lentil-bowl.md"
UNTESTED = MEAL.replace("tested: {method: kettle, water: 1 cup, rest: 12 min}\n", "")
MISSPELT = MEAL.replace("tbsp leeks", "tbsp leaks")
WORDLESS = MEAL.replace("consistency:", "picture: bowl.svg\nconsistency:")


def proofed(folder: Path, files: dict[str, str], *options: str) -> Result:
    """Return what `proof` says of a book of some files."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")
    return CliRunner().invoke(main, ["proof", str(folder), *options])


def test_a_sound_book_is_told_so_in_three_words(tmp_path: Path) -> None:
    result = proofed(tmp_path, SOUND)
    assert (result.exit_code, result.output) == (0, "Nothing to mend.\n")


@pytest.mark.parametrize(
    ("text", "options", "code"),
    [
        (MEAL, [], 0),
        (MEAL, ["--strict"], 0),
        (UNTESTED, [], 0),
        (UNTESTED, ["--strict"], 0),
        (WORDLESS, [], 0),
        (WORDLESS, ["--strict"], 1),
        (WORDLESS, ["--strict", "--json"], 1),
        (MISSPELT, [], 1),
        (MISSPELT, ["--strict"], 1),
        (MISSPELT, ["--json"], 1),
    ],
)
def test_exit_codes(text: str, options: list[str], code: int, tmp_path: Path) -> None:
    assert proofed(tmp_path, SOUND | {BOWL: text}, *options).exit_code == code


def test_suggestions_come_after_nothing_to_mend_and_are_short(tmp_path: Path) -> None:
    result = proofed(tmp_path, SOUND | {BOWL: UNTESTED})
    lines = result.stdout.split("\n")
    assert lines[0] == "Nothing to mend."
    place, cause = lines[2].split(": suggestion: ")
    assert place.endswith(f"{BOWL}:2:1")
    assert "nobody has tested this recipe yet" in cause
    assert lines[3].startswith("  try: make it once")
    assert "^" not in result.output
    assert result.stderr == "1 suggestion.\n"


def test_suggestions_wait_until_errors_are_mended(tmp_path: Path) -> None:
    soup = UNTESTED.replace("Lentil bowl", "Soup")
    files = SOUND | {"recipes/soup.md": soup, BOWL: MISSPELT}
    result = proofed(tmp_path, files)
    assert "nobody has tested" not in result.output
    assert "1 error." in result.stderr
    mended = proofed(tmp_path, files | {BOWL: MEAL})
    assert "1 suggestion." in mended.stderr


def test_suggestions_come_after_warnings_and_stand_in_the_json(tmp_path: Path) -> None:
    other = UNTESTED.replace("Lentil bowl", "Another bowl")
    files = SOUND | {"recipes/a.md": other, BOWL: WORDLESS}
    result = proofed(tmp_path, files)
    assert result.output.index("warning:") < result.output.index("suggestion:")
    listed = json.loads(proofed(tmp_path, files, "--json").stdout)
    assert [found["severity"] for found in listed] == ["warning", "suggestion"]
    assert set(listed[1]) == set(listed[0])


def test_of_many_alike_three_are_shown_and_the_rest_counted(tmp_path: Path) -> None:
    meals = {n: UNTESTED.replace("Lentil bowl", f"Bowl {n}") for n in range(9)}
    files = SOUND | {f"recipes/bowl-{n}.md": meal for n, meal in meals.items()}
    result = proofed(tmp_path, files)
    assert result.output.count("nobody has tested") == 3
    assert "and 6 more files of which the same can be said" in result.output
    listed = json.loads(proofed(tmp_path, files, "--json").stdout)
    assert sum("nobody has tested" in found["cause"] for found in listed) == 9


def test_several_files_are_summed_up_in_columns(tmp_path: Path) -> None:
    files = SOUND | {
        BOWL: MISSPELT.replace("lentils", "lentil beans"),
        "recipes/cup.md": WORDLESS.replace("Lentil bowl", "A cup"),
        "book.yaml": "title: A small book\naltitude: 310\n",
    }
    result = proofed(tmp_path, files)
    *_, head, book, cup, bowl, empty, count, end = result.stderr.split("\n")
    assert head.split() == ["errors", "warnings"]
    assert book.split() == ["book.yaml", "1", "-"]
    assert bowl.split() == [BOWL, "2", "-"]
    assert cup.split() == ["recipes/cup.md", "-", "1"]
    assert {len(line) for line in (head, book, bowl, cup)} == {len(head)}
    assert (empty, end) == ("", "")
    assert count == "3 errors, 1 warning. More may show once these are mended."


def test_one_file_needs_no_sum(tmp_path: Path) -> None:
    result = proofed(tmp_path, SOUND | {BOWL: MISSPELT})
    assert "errors" not in result.output
    assert "1 error." in result.stderr


@pytest.mark.parametrize("command", ["bind", "water", "provision"])
def test_other_commands_say_nothing_of_suggestions(command: str, tmp_path: Path) -> None:
    menu = "title: A day\nmeals:\n  - {day: 1, meal: supper, recipe: lentil-bowl}\n"
    proofed(tmp_path / "book", SOUND | {BOWL: UNTESTED, "menus/day.yaml": menu})
    book, out = str(tmp_path / "book"), str(tmp_path / "site")
    words = {
        "bind": ["bind", book, "--out", out],
        "water": ["water", "lentil-bowl", "--book", book],
        "provision": ["provision", "day", "--book", book],
    }
    result = CliRunner().invoke(main, words[command])
    assert result.exit_code == 0, result.output
    assert "suggestion" not in result.output
    assert "nobody has tested" not in result.output


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("method: kettle", "method: Kettle"),
        ("consistency: stew", "consistency: STEW"),
        ("title: Lentil bowl", "title: Lentil bowl\nkind: Meal"),
        ("title: Lentil bowl", "title: Lentil bowl\nmethods: [Kettle, STOVE]"),
        ("rest: 12 min}", "rest: 12 Min}"),
        ("2 tbsp leeks", "2 Tbsp Leeks"),
    ],
)
def test_choices_are_taken_in_whatever_case(old: str, new: str, tmp_path: Path) -> None:
    assert old in MEAL
    result = proofed(tmp_path, SOUND | {BOWL: MEAL.replace(old, new)})
    assert result.output == "Nothing to mend.\n"


@pytest.mark.parametrize(
    ("file", "text"),
    [
        ("book.yaml", "title: A\nmeasures: US-Cups\naltitudes: Metres\nallergens: EU\n"),
        ("book.yaml", "title: A\nlanguage: EN\n"),
        ("book.yaml", "title: A\nkit:\n  stove: {power: 2 kW, fuel: Gas canister}\n"),
        ("book.yaml", "title: A\nlabels: {paper: a4}\n"),
        ("book.yaml", "title: A\nkit:\n  pot: {lid: Yes}\n"),
        ("larder.yaml", SOUND["larder.yaml"].replace("dried: freeze", "dried: Freeze")),
        ("larder.yaml", SOUND["larder.yaml"] + OATCAKE),
        ("larder.yaml", SOUND["larder.yaml"].replace("leeks raw", "Leeks Raw")),
        ("larder.yaml", SOUND["larder.yaml"].replace("sliced}", "sliced, weighs: 15 G Per Cup}")),
        ("menus/day.yaml",
         "title: A\nmeals:\n  - {day: 1, meal: Supper, recipe: lentil-bowl, method: Stove}\n"),
    ],
)  # fmt: skip
def test_choices_of_every_file_are_taken_in_whatever_case(
    file: str, text: str, tmp_path: Path
) -> None:
    result = proofed(tmp_path, SOUND | {file: text})
    assert result.output == "Nothing to mend.\n"


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--servings", "two"], '"two" is no number of servings; write one from 1 to 100'),
        (["--servings", "2.5"], '"2.5" is no number of servings'),
        (["--servings", "101"], '"101" is no number of servings'),
        (["--method", "ketle"], '"ketle" is no way to make a meal ready; write "kettle".'),
        (["--method", "fire"], "write kettle, microwave, stove, jar or cold."),
    ],
)
def test_words_on_the_command_line_get_plain_answers(
    options: list[str], said: str, tmp_path: Path
) -> None:
    proofed(tmp_path, SOUND)
    result = CliRunner().invoke(main, ["water", "lentil-bowl", "--book", str(tmp_path), *options])
    assert result.exit_code == 2
    assert said in result.output
    taken = ["--servings", "2", "--method", "Stove"]
    result = CliRunner().invoke(main, ["water", "lentil-bowl", "--book", str(tmp_path), *taken])
    assert "2 servings, stove" in result.output.replace("\N{NO-BREAK SPACE}", " ")
