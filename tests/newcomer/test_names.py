"""Menus and recipes are found as people say them; what can't be read is not called missing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main
from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.manuscript.naming import address_meant, nearest_address

if TYPE_CHECKING:
    from pathlib import Path

BOWL = "recipes/lentil-bowl.md"
SOUND = {
    "book.yaml": "title: A small book\naltitude: 310 m\nkit:\n  pot: {opening: 16 cm}\n",
    "larder.yaml": """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
carrots: {food: carrots raw, dried: freeze}
""",
    BOWL: """\
---
title: Lentil bowl for the landing
consistency: stew
ingredients:
  - 1 cup lentils
  - 2 tbsp leeks
tested: {method: kettle, water: 1 cup, rest: 12 min}
---
Pour {water}.
""",
    "menus/Midsummer paddle.yaml": """\
title: Three days in June
meals:
  - {day: 1, meal: supper, recipe: lentil-bowl}
""",
}


def write(folder: Path, files: dict[str, str]) -> Path:
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8", newline="\n")
    return folder


def causes(folder: Path) -> list[str]:
    """Return what is found in a book, as `path:line: cause`."""
    findings = Findings()
    read_book(folder, findings)
    return [f"{f.place.path}:{f.place.line}: {f.cause}" for f in findings]


@pytest.mark.parametrize(
    "name",
    [
        "Midsummer paddle", "midsummer paddle", "midsummer-paddle", "MIDSUMMER_PADDLE",
        "menus/Midsummer paddle.yaml", "Midsummer paddle.yaml", "Three days in June",
        "three days in june",
    ],
)  # fmt: skip
def test_a_menu_is_found_by_file_and_title_in_any_case(name: str, tmp_path: Path) -> None:
    book = str(write(tmp_path, SOUND))
    result = CliRunner().invoke(main, ["provision", name, "--book", book])
    assert result.exit_code == 0, result.output
    assert "Three days in June" in result.output


def test_a_menu_is_found_by_its_path_from_within_the_book(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(write(tmp_path, SOUND))
    result = CliRunner().invoke(main, ["provision", "menus/Midsummer paddle.yaml"])
    assert result.exit_code == 0, result.output


def test_a_menu_with_a_space_in_its_name_is_bound(tmp_path: Path) -> None:
    book = str(write(tmp_path / "book", SOUND))
    result = CliRunner().invoke(main, ["bind", book, "--out", str(tmp_path / "site")])
    assert result.exit_code == 0, result.output


def test_a_misspelt_menu_gets_the_nearest_name(tmp_path: Path) -> None:
    book = str(write(tmp_path, SOUND))
    result = CliRunner().invoke(main, ["provision", "Tree days in Jun", "--book", book])
    assert result.exit_code == 2
    assert 'write "Midsummer paddle".' in result.output


@pytest.mark.parametrize(
    "name", ["lentil-bowl", "Lentil bowl", "LENTIL_BOWL.md", "lentil bowl for the landing"]
)
def test_a_recipe_is_found_by_file_and_title_in_any_case(name: str, tmp_path: Path) -> None:
    book = str(write(tmp_path, SOUND))
    result = CliRunner().invoke(main, ["water", name, "--book", book])
    assert result.exit_code == 0, result.output
    assert "pour first" in result.output


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("title: Lentil", "title: Lentil: a", ":2:14: error: a second colon"),
        ("---\nPour", "Pour", ":1:1: error: the front matter that begins here is never closed"),
        (
            "title: Lentil bowl for the landing",
            "kind: meal",
            ':2:1: error: a recipe has no "title"',
        ),
        ("  - 1 cup lentils\n", "  - 1 cpu lentils\n", ':5:7: error: "cpu" is not a unit'),
    ],
)
def test_a_recipe_that_can_t_be_read_is_told_with_its_findings(
    old: str, new: str, said: str, tmp_path: Path
) -> None:
    assert old in SOUND[BOWL]
    files = SOUND | {BOWL: SOUND[BOWL].replace(old, new), "recipes/b.md": "---\ntitel: B\n---\n"}
    result = CliRunner().invoke(
        main, ["water", "lentil-bowl", "--book", str(write(tmp_path, files))]
    )
    assert result.exit_code == 1
    assert f"{BOWL}{said}" in result.output
    assert "there is no recipe" not in result.output


def test_water_is_not_answered_with_a_kit_that_was_refused(tmp_path: Path) -> None:
    files = SOUND | {"book.yaml": SOUND["book.yaml"].replace("16 cm", "16")}
    result = CliRunner().invoke(
        main, ["water", "lentil-bowl", "--book", str(write(tmp_path, files))]
    )
    assert result.exit_code == 1
    assert "pour first" not in result.output
    assert "book.yaml:4:18: error" in result.output


def test_a_refused_key_of_the_kit_hides_nothing_that_hangs_on_no_kit(tmp_path: Path) -> None:
    far = SOUND[BOWL].replace("water: 1 cup", "water: 5 cups")
    files = SOUND | {"book.yaml": SOUND["book.yaml"].replace("16 cm", "16"), BOWL: far}
    result = CliRunner().invoke(main, ["proof", str(write(tmp_path, files))])
    assert "5 cups is far more than" in result.output.replace("\N{NO-BREAK SPACE}", " ")
    assert "1 error, 1 warning. More may show once these are mended." in result.output


@pytest.mark.parametrize(
    "broken", ["leeks: {food: leeks raw, dried: freeze", 'leeks: {food: "leeks']
)
def test_a_broken_store_hides_no_other(broken: str, tmp_path: Path) -> None:
    lines = SOUND["larder.yaml"].split("\n")
    lines[1] = broken
    lines[2] = "carrots: {food: carots raw, dried: freeze}"
    found = causes(write(tmp_path, SOUND | {"larder.yaml": "\n".join(lines)}))
    assert [where.split(": ")[0] for where in found] == ["larder.yaml:2", "larder.yaml:3"]
    assert 'no food called "carots raw"' in found[1]


def test_a_broken_line_of_a_recipe_hides_neither_keys_nor_ingredients(tmp_path: Path) -> None:
    text = (
        SOUND[BOWL]
        .replace("consistency: stew", "consistency: stewy")
        .replace("  - 2 tbsp leeks\n", "  - 2 tbsp leaks\n  * 1 tbsp carrots\n  - 1 tpsb carrots\n")
    )
    found = causes(write(tmp_path, SOUND | {BOWL: text}))
    assert [where.split(": ")[0] for where in found] == [
        f"{BOWL}:3", f"{BOWL}:6", f"{BOWL}:7", f"{BOWL}:8",
    ]  # fmt: skip


def test_two_broken_lines_are_told_at_once(tmp_path: Path) -> None:
    menu = SOUND["menus/Midsummer paddle.yaml"]
    text = menu.replace("title: Three", "title: @Three") + "  - {day: 2, meal: supper, recipe: x\n"
    found = causes(write(tmp_path, SOUND | {"menus/Midsummer paddle.yaml": text}))
    assert [where.split(":")[1] for where in found] == ["1", "4"]


def test_names_that_two_share_mean_neither() -> None:
    titles = {"bowl-a": "Bowl", "bowl-b": "bowl", "cup": "The cup"}
    assert address_meant("Bowl", titles) is None
    assert address_meant("BOWL A", titles) == "bowl-a"
    assert nearest_address("the cupp", titles) == "cup"
    assert nearest_address("zanthum", titles) is None


def test_a_deeply_indented_slip_is_one_finding(tmp_path: Path) -> None:
    deep = "\n".join(f"{' ' * at}a:" for at in range(600)) + f"\n{' ' * 600}@x\n"
    found = causes(write(tmp_path, SOUND | {"book.yaml": f"title: A\n{deep}"}))
    assert [where.split(":")[0] for where in found].count("book.yaml") >= 1
