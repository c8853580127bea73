"""What `foods` shows of a food, what it says of a larder, and how it adds a line to one."""

from __future__ import annotations

import json
import os
import re
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main
from cookbook_build.findings import Findings
from cookbook_build.foods import load_foods
from cookbook_build.manuscript.collection import read_shelf

if TYPE_CHECKING:
    from pathlib import Path

    from click.testing import Result

LARDER = """\
# Our shelf.
leeks: {food: leeks raw, dried: freeze, form: sliced, also called: [the green]}  # sliced thin
salt: {food: salt, dried: bought}
"""


def run(*words: str) -> Result:
    """Run `foods` as somebody types it."""
    return CliRunner().invoke(main, ["foods", *words])


@pytest.fixture
def book(tmp_path: Path) -> Path:
    (tmp_path / "book.yaml").write_text("title: Ours\n", encoding="utf-8")
    (tmp_path / "larder.yaml").write_text(LARDER, encoding="utf-8")
    return tmp_path


def test_it_shows_the_figures_of_the_table_and_the_line_to_copy() -> None:
    """The figures of number 11246, leeks raw, in USDA SR28."""
    said = run("leeks").output
    block = said.split("\n\n")[0].splitlines()
    assert block[0] == "leeks raw"
    assert re.search(r"water +83\.0%", block[1])
    assert re.search(r"refuse +56%", block[1])
    assert "1 US cup: 89 g" in block[1]
    for figure in ("61 kcal", "1.5 g", "0.3 g", r"14.2 g"):
        assert re.search(rf" {figure}\b", block[2])
    assert "USDA SR28, no. 11246" in said
    assert block[-1] == "leeks: {food: leeks raw, dried: freeze, form: sliced}"


def test_figures_stand_under_each_other_within_80_columns() -> None:
    said = run("beans", "--all").output
    rows = [line for line in said.splitlines() if line.startswith("  in 100 g")]
    assert len(rows) > 20
    assert len({line.index("protein") for line in rows}) == 1
    assert len({line.index("carbohydrate") for line in rows}) == 1
    assert len({len(line) for line in rows}) == 1
    assert all(len(line) < 80 for line in said.splitlines() if not re.match(r"\S.*: \{", line))


def test_every_food_keeps_its_columns() -> None:
    from cookbook_build.manuscript.food_search import FoundFood  # noqa: PLC0415 - one use
    from cookbook_build.manuscript.store_lines import StoreLine  # noqa: PLC0415
    from cookbook_build.publishing.food_lines import food_lines  # noqa: PLC0415

    for food in load_foods():
        lines = food_lines(FoundFood(food, "", StoreLine("x", "x: {}")), ())
        row = next(line for line in lines if line.startswith("  in 100 g"))
        assert row.index("carbohydrate") == 55
        assert lines[1].index("refuse") == 18
        assert max(map(len, lines)) <= 78


def test_it_shows_the_best_few_and_says_that_there_are_more() -> None:
    few, every = run("beans").output, run("beans", "--all").output
    assert few.count("in 100 g") == 8
    assert re.search(r"These are 8 of \d+; --all shows all\.", few)
    assert every.count("in 100 g") == int(re.findall(r"8 of (\d+)", few)[0])
    assert "--all" not in every


@pytest.mark.parametrize("words", ["xyzzy", "xy: zz #y", "[x", "ñ'"])
def test_nothing_found_is_a_sentence_and_a_line_that_works(book: Path, words: str) -> None:
    said = run(words)
    assert said.exit_code == 1
    assert f'is called anything like "{words}"' in said.output
    (book / "larder.yaml").write_text(said.output.splitlines()[-1] + "\n", encoding="utf-8")
    assert "larder.yaml" not in CliRunner().invoke(main, ["proof", str(book)]).output


def test_a_food_that_the_table_lacks_is_said_to_be_lacking_beside_what_is_near(book: Path) -> None:
    said = run("wild garlic").output
    first, near, *_ = said.split("\n\n")
    assert first == 'The table has no "wild garlic". These are near it:'
    assert near.splitlines()[0] == "garlic raw"
    own = said.splitlines()[-1]
    assert own.startswith("wild garlic: {label: ")
    (book / "larder.yaml").write_text(f"{own}\n", encoding="utf-8")
    findings = Findings()
    _, larder = read_shelf(book, findings)
    assert larder is not None
    assert not findings.errors
    assert larder.stores["wild garlic"].food is not None


def test_the_label_that_is_offered_drinks_water(book: Path) -> None:
    """The moisture of rice cooked and of mushrooms raw, USDA SR28: 68 % and 92 %."""
    said = run("porcini")
    assert "rice has about 70 %, fresh mushrooms 90 %" in said.output
    line = said.output.splitlines()[-1]
    (book / "larder.yaml").write_text(f"{line}\n", encoding="utf-8")
    findings = Findings()
    _, larder = read_shelf(book, findings)
    assert larder is not None
    assert not findings.errors
    label = larder.stores["porcini"].keys.label
    assert label is not None
    assert label.restored_moisture == 0.7


@pytest.mark.parametrize(
    "words", ["leeks", "leaks", "wild rice", "leeks sliced", "aceite de oliva"]
)
def test_of_what_the_table_has_nothing_of_the_kind_is_said(words: str) -> None:
    said = run(words).output
    assert "The table has no" not in said
    assert "label" not in said


def test_spanish_finds_and_names_in_spanish() -> None:
    said = run("puerros", "--language", "es").output.splitlines()
    assert said[0] == "leeks raw (puerros)"
    assert "puerros: {food: leeks raw, dried: freeze, form: en rodajas}" in said
    assert run("puerros", "--language", "en").exit_code == 1


def test_json_holds_what_the_terminal_shows(book: Path) -> None:
    said = run("leeks", "--json", "--book", str(book))
    first = json.loads(said.output)[0]
    assert (first["name"], first["source"]) == ("leeks raw", "USDA SR28, no. 11246")
    assert (first["moisture_percent"], first["refuse_percent"]) == (83, 56)
    assert first["grams_per_us_cup"] == [{"form": "plain", "grams": 89}]
    assert first["larder_line"] == "leeks: {food: leeks raw, dried: freeze, form: sliced}"
    assert first["in_larder"] == ["leeks"]
    assert "in_larder" not in json.loads(run("leeks", "--json").output)[0]


def test_allergens_are_told_and_where_the_two_lists_differ() -> None:
    said = run("celery", "raw").output
    assert "US: none; EU: celery" in said
    assert "allergens: milk" in run("cheddar").output


def test_raw_and_poisonous_foods_are_told_with_what_to_mind() -> None:
    assert "drying does not kill germs" in run("ground", "turkey", "raw").output
    assert "undercooked it" in run("kidney", "beans", "dry").output
    assert "does not suit a freeze dryer (sugar)" in run("honey").output


def test_it_says_what_the_larder_has_already(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert "in your larder: leeks" in run("leek", "--book", str(book)).output
    monkeypatch.chdir(book)
    assert "in your larder: leeks" in run("puerro").output
    assert "in your larder" not in run("carrots").output


def test_a_larder_that_can_not_be_read_is_said_and_hinders_nothing(book: Path) -> None:
    (book / "larder.yaml").write_text("leeks: [", encoding="utf-8")
    said = run("leeks", "--book", str(book))
    assert said.exit_code == 0
    assert "larder.yaml can't be read" in said.output
    assert "leeks: {food: leeks raw" in said.output


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_a_line_is_added_and_all_else_stays(book: Path, end: str) -> None:
    before = LARDER.replace("\n", end).removesuffix(end).encode()
    (book / "larder.yaml").write_bytes(before)
    said = run("carrots raw", "--add", "--book", str(book))
    assert said.exit_code == 0, said.output
    line = "carrots: {food: carrots raw, dried: freeze, form: chopped}"
    assert (book / "larder.yaml").read_bytes() == before + f"{end}{line}{end}".encode()
    assert line in said.output
    assert sorted(path.name for path in book.iterdir()) == ["book.yaml", "larder.yaml"]


@pytest.mark.parametrize(
    ("words", "larder", "said"),
    [
        ("leeks raw", LARDER, 'a store that is called "leeks" (leeks)'),
        ("leeks raw", LARDER.replace("leeks:", "poireaux:").replace("the green", "leek"), "poire"),
        ("beans", LARDER, '"beans" may be several foods; write one whole name: '),
        ("carrots raw", "{leeks: {food: leeks raw, dried: freeze}}\n", "no line can be added"),
        ("carrots raw", "  leeks: {food: leeks raw, dried: freeze}\n", "no line can be added"),
        ("carrots raw", "leeks: [", "larder.yaml can't be read"),
    ],
)
def test_a_line_that_can_not_be_added_leaves_the_larder(
    book: Path, words: str, larder: str, said: str
) -> None:
    (book / "larder.yaml").write_text(larder, encoding="utf-8")
    made = run(*words.split(), "--add", "--book", str(book))
    assert made.exit_code == 2
    assert said in made.output
    assert (book / "larder.yaml").read_text(encoding="utf-8") == larder


def test_a_disk_that_says_no_leaves_the_larder(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def no_room(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", no_room)
    made = run("carrots raw", "--add", "--book", str(book))
    assert made.exit_code == 3
    assert "No space left on device" in made.output
    assert (book / "larder.yaml").read_text(encoding="utf-8") == LARDER
    assert len(list(book.iterdir())) == 2


def test_without_a_book_nothing_can_be_added(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("carrots", "--add").exit_code == 2
    assert run("carrots").exit_code == 0


def test_words_are_wanted() -> None:
    assert run().exit_code == 2
