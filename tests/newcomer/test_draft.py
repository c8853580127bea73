"""`cookbook-build draft`, as somebody uses it who has a recipe in a text or a saved page."""

from __future__ import annotations

import json
import re
import time
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main
from cookbook_build.findings import Findings
from cookbook_build.manuscript.body import read_body
from cookbook_build.manuscript.collection import read_book
from cookbook_build.manuscript.source import Source
from cookbook_build.planning import bringing

if TYPE_CHECKING:
    from pathlib import Path

    from click.testing import Result

BOOK = """\
title: The willow landing book
altitude: 310 m
series:
  Landing suppers: {about: One pot.}
"""
LARDER = """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
carrots: {food: carrots raw, dried: air, weighs: 58 g per cup}
turkey mince: {food: ground turkey raw, dried: freeze, raw: true, weighs: 70 g per cup}
kidney beans: {food: kidney beans dry, dried: bought}
oats: {food: oats, dried: bought}
salt: {food: salt, dried: bought}
"""
SUPPER = (
    "---\ntitle: Lentil bowl\nseries: Landing suppers\ningredients: [1 cup lentils]\n---\nPour.\n"
)
SOUND = "Leek bowl\nServes 2\n\n1 cup lentils\n2 tbsp leeks\nsalt to taste\n\n1. Pour the water.\n"


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Return a small book."""
    folder = tmp_path / "my book"
    for name, text in {
        "book.yaml": BOOK,
        "larder.yaml": LARDER,
        "recipes/evening/lentil-bowl.md": SUPPER,
    }.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8", newline="\n")
    return folder


def draft(book: Path, text: str | bytes, *options: str, name: str = "found.txt") -> Result:
    """Return what the command answers for a file beside the book."""
    path = book.parent / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return CliRunner().invoke(main, ["draft", str(path), "--book", str(book), *options])


def files(book: Path) -> set[str]:
    """Return every file of the book."""
    return {path.relative_to(book).as_posix() for path in book.rglob("*") if path.is_file()}


def proofed(book: Path) -> list[dict[str, object]]:
    """Return what proof finds."""
    result = CliRunner().invoke(main, ["proof", str(book), "--json"])
    return list(json.loads(result.stdout))


def test_a_sound_text_becomes_a_recipe_that_proof_has_nothing_against(book: Path) -> None:
    result = draft(book, SOUND)
    assert result.exit_code == 0, result.output
    assert "3 ingredients, 1 step. Nobody has tested it yet." in result.output
    text = (book / "recipes/drafts/leek-bowl.md").read_text(encoding="utf-8")
    assert "\ntested:" not in text
    assert "nobody has made it with hot water yet" in text
    assert not [f for f in proofed(book) if f["severity"] != "suggestion"]


def test_printing_writes_nothing(book: Path) -> None:
    before = files(book)
    result = draft(book, SOUND, "--print")
    assert result.exit_code == 0
    assert "title: Leek bowl" in result.stdout
    assert files(book) == before


def test_an_address_that_is_taken_is_left_alone_and_told(book: Path) -> None:
    kept = (book / "recipes/evening/lentil-bowl.md").read_bytes()
    result = draft(book, SOUND.replace("Leek bowl", "LENTIL bowl"))
    assert result.exit_code == 0
    assert '("lentil-bowl" is taken, so it is called "lentil-bowl-2".)' in result.output
    assert (book / "recipes/drafts/lentil-bowl-2.md").is_file()
    draft(book, SOUND.replace("Leek bowl", "Lentil Bowl"))
    assert (book / "recipes/drafts/lentil-bowl-3.md").is_file()
    assert (book / "recipes/evening/lentil-bowl.md").read_bytes() == kept


def test_a_file_that_came_meanwhile_is_left_alone(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = book / "recipes/drafts/leek-bowl.md"
    path.parent.mkdir(parents=True)
    path.write_text("theirs", encoding="utf-8")
    monkeypatch.setattr(bringing, "addresses", lambda _folder: set())  # it was not there to be seen
    result = draft(book, SOUND)
    assert result.exit_code == 3
    assert "leek-bowl.md could not be written (it is there already)." in result.stderr
    assert path.read_text(encoding="utf-8") == "theirs"
    assert [p.name for p in path.parent.iterdir()] == ["leek-bowl.md"]


def test_a_series_goes_where_its_recipes_stand(book: Path) -> None:
    result = draft(book, SOUND, "--series", "landing suppers")
    assert result.exit_code == 0
    text = (book / "recipes/evening/leek-bowl.md").read_text(encoding="utf-8")
    assert "series: Landing suppers\n" in text


def test_a_new_series_gets_a_folder_and_the_finding_that_proof_gives(book: Path) -> None:
    result = draft(book, SOUND, "--series", "Aux")
    assert (book / "recipes/aux-series/leek-bowl.md").is_file()
    assert 'there is no series called "Aux" in book.yaml' in result.output


def test_several_recipes_of_a_page_become_as_many_files(book: Path) -> None:
    recipes = [
        {"@type": "Recipe", "name": name, "recipeIngredient": ["1 cup lentils"]}
        for name in ("Dusk bowl", "Dawn bowl")
    ]
    text = f'<html><script type="application/ld+json">{json.dumps(recipes)}</script></html>'
    result = draft(book, text, name="saved page.html")
    assert result.exit_code == 0, result.output
    assert {"recipes/drafts/dusk-bowl.md", "recipes/drafts/dawn-bowl.md"} <= files(book)


FINDINGS = {
    "nearest store": ("2 tbsp leaks", 'there is no store called "leaks"', 'write "leeks", or add'),
    "a food the larder lacks": (
        "2 tbsp onions", 'there is no store called "onions"',
        "such as onions: {food: onions raw, dried: freeze, form: chopped}.",
    ),
    "its food under another name": (
        "2 cdas de puerros", 'there is no store called "puerros"', 'write "leeks", or add a line',
    ),
    "what nobody has": (
        "2 tbsp zanthum", 'there is no store called "zanthum"', '"cookbook-build foods zanthum"',
    ),
    "raw meat to add": (
        "1 cup chicken breast", 'there is no store called "chicken breast"', "cooked first: true}",
    ),
    "raw pulses in the larder": (
        "1 cup kidney beans", "undercooked it is poisonous", "cook it until you would eat it",
    ),
    "bare": ("salt", '"salt" has no amount', "a pinch of salt"),
    "a piece": ("2 leeks", "what a piece of leeks weighs is not known", "weighs: 60 g per piece"),
    "not readable": ("1/0 cup leeks", '"1/0" divides by zero', "1/2"),
}  # fmt: skip


@pytest.mark.parametrize("row", FINDINGS)
def test_what_has_no_place_stands_as_it_was_and_proof_says_the_same(book: Path, row: str) -> None:
    line, cause, mend = FINDINGS[row]
    result = draft(book, f"Bowl\nIngredients\n1 cup lentils\n{line}\nMethod\nStir it.\n")
    assert result.exit_code == 0, result.output
    path = "recipes/drafts/bowl.md"
    at = (book / path).read_text(encoding="utf-8").splitlines().index(f"  - {line}") + 1
    (found,) = [f for f in proofed(book) if f["severity"] == "error"]
    assert (found["path"], found["line"]) == (path, at)
    assert cause in str(found["cause"])
    assert mend in str(found["mend"])
    said = f"{book.as_posix()}/{path}:{at}:{found['column']}: error: {found['cause']}"
    assert said in result.stderr
    assert f"mend: {found['mend']}" in result.stderr


def test_lines_beside_one_that_cannot_be_read_are_matched_too(book: Path) -> None:
    result = draft(book, "Bowl\nIngredients\nsalt\n2 tbsp leaks\nMethod\nStir it.\n")
    assert '"salt" has no amount' in result.stderr
    assert 'there is no store called "leaks"' in result.stderr


def test_the_line_to_paste_mends(book: Path) -> None:
    draft(book, "Bowl\n1 cup lentils\n2 tbsp onions\n1 cup chicken breast\nStir it all together.\n")
    with (book / "larder.yaml").open("a", encoding="utf-8", newline="\n") as larder:
        for found in proofed(book):
            match = re.search(r"such as (.*})\.$", str(found["mend"]))
            assert match, found
            larder.write(f"{match[1]}\n")
    assert not [f for f in proofed(book) if f["severity"] == "error"]


def test_a_fresh_weight_is_left_and_said_in_dried_grams(book: Path) -> None:
    # USDA SR28: leeks are 83 % water; with 3 % left (science.md, section 1), 200 g dry to 35.05 g
    result = draft(book, "Bowl\n200 g leeks\n40 g oats\n1 cup lentils\nStir it all together.\n")
    text = (book / "recipes/drafts/bowl.md").read_text(encoding="utf-8")
    assert "  - 200 g leeks  # 200 g of leeks raw dry to about 35 g\n" in text
    assert "  - 40 g oats\n" in text
    assert '"200 g leeks" reads as a weight before drying' in result.stderr
    assert "2 warnings" not in result.stderr


def test_water_is_left_to_the_book(book: Path) -> None:
    draft(book, "Bowl\n1 cup lentils\n2 cups boiling water\nStir it all together.\n")
    text = (book / "recipes/drafts/bowl.md").read_text(encoding="utf-8")
    assert "  # 2 cups boiling water (the book says how much to pour)\n" in text
    assert not [f for f in proofed(book) if f["severity"] == "error"]


HOSTILE = {
    "a title of several lines": "Bowl\n---\ntested: x",
    "a title that closes the front matter": "---",
    "a title that is a key": "title: x\nkind: base",
    "a device of Windows": "con",
    "slashes": "../../etc/passwd",
    "a drive": "a:b",
    "an emoji": "🫖",
    "turned round": "\u202egnp.exe",
    "nothing for YAML": "null",
    "a dot behind": "Bowl.",
    "very long": "Bowl " * 200,
    "a script": "<script>alert(1)</script>",
    "our signs": "{water} {{ 7*7 }} {% raw %}",
    "quotes": '"It\'s" # no: comment',
}


@pytest.mark.parametrize("row", HOSTILE)
def test_a_hostile_page_gives_text_and_a_name_that_every_system_takes(book: Path, row: str) -> None:
    words = HOSTILE[row]
    recipe = {
        "@type": "Recipe", "name": words, "description": words,
        "recipeIngredient": ["1 cup lentils", words],
        "recipeInstructions": [words, "{water} [a](javascript:x) <img src=x onerror=y>"],
        "author": words, "url": words, "keywords": words,
    }  # fmt: skip
    held = json.dumps(recipe).replace("</", "<\\/")
    before = files(book)
    page = f'<html><script type="application/ld+json">{held}</script></html>'
    result = draft(book, page, name="page.html")
    assert result.exit_code == 0, result.output
    (new,) = files(book) - before
    assert re.fullmatch(r"recipes/drafts/(?!(?:con|aux|nul)\.)[a-z0-9-]{1,60}\.md", new)
    text = (book / new).read_text(encoding="utf-8")
    assert "\u202e" not in text
    source = Source.of(new, text)
    body = read_body(source, text.split("\n---\n", 1)[1], 1)
    types = {inner.type for token in body.tokens for inner in token.children or ()}
    assert types <= {"text", "text_special", "softbreak"}
    manuscript = read_book(book, Findings())
    assert manuscript
    keys = [r.keys for r in manuscript.recipes.values() if r.path == new]
    assert all(key.kind == "meal" and not key.tested for key in keys)


FILES: dict[str, tuple[str, bytes, str, str]] = {
    "empty": ("a.txt", b" \n", "1:1", "this file is empty"),
    "a photograph": ("a.txt", b"\xff\xd8\xff\xe0\0\x10JFIF", "1:1", "no plain text"),
    "not UTF-8": ("a.txt", "Bowl\n1 cup piña".encode("latin-1"), "2:9", "not written as UTF-8"),
    "a hidden sign": ("a.txt", b"Bowl\n1 cup\x07 rice", "2:6", "can't be seen"),
    "no ingredients": ("a.txt", b"\n  A walk along the river.\n", "2:1", "no ingredients were"),
    "a page without data": ("a.html", b"<html><p>1 cup rice</p></html>", "1:1", "no recipe as"),
    "broken JSON": ("a.json", b'{"@type": "Recipe",\n "name" "Bowl"}', "2:9", "a colon is missing"),
    "a comma too many": ("a.json", b'{"@type":\n ["Recipe",]}', "2:11", "a comma too many"),
    "a comma and a line too many": ("a.json", b'{"a": 1,\n }', "1:8", "a comma too many"),
    "broken JSON in a page": (
        "a.html", b'<html>\n<script type="application/ld+json">{"name": "x"\n "b": 1}</script>',
        "3:2", "a comma is missing",
    ),
    "JSON that is no recipe": ("a.json", b'{"@type": "Person"}', "1:1", "holds no recipe"),
    "nested without end": ("a.json", b"[" * 100_000, "1:1", "nested too deep"),
    "a number without end": ("a.json", b'{"a": ' + b"9" * 9000 + b"}", "1:1", "too long"),
    "a recipe without ingredients": (
        "a.json", b'{"@type": "Recipe",\n"name": "Bowl"}', "2:10", 'found for "Bowl"',
    ),
}  # fmt: skip


@pytest.mark.parametrize("row", FILES)
def test_a_file_that_is_no_recipe_is_told_with_its_place(book: Path, row: str) -> None:
    name, data, place, cause = FILES[row]
    before = files(book)
    result = draft(book, data, name=name)
    assert result.exit_code == 1, result.output
    assert f"{(book.parent / name).as_posix()}:{place}: error: " in result.stderr
    assert cause in result.stderr
    assert "Nothing was drafted." in result.stderr
    assert files(book) == before


HEAVY = {
    "white space in JSON": ("a.json", '{"a":' + " " * 3_000_000 + "1}"),
    "white space in a text": ("a.txt", "Bowl\n1 cup" + "\u00a0" * 150_000 + "rice"),
    "comments that never end": ("a.html", "<html>" + "<!--" * 500_000),
    "scripts that never end": (
        "a.json", json.dumps({"@type": "Recipe", "name": "<script>" * 90_000}),
    ),
    "commas": ("a.txt", "Bowl\nIngredients\n1 cup rice" + "," * 90_000),
    "a bracket": ("a.txt", "Bowl\nIngredients\n2 leeks (" + "a" * 90_000 + ")"),
    "words": ("a.txt", "Bowl\nIngredients\n1 cup " + "qwrtz " * 16_000),
    "lines": ("a.txt", "1 cup rice\n" * 30_000),
    "steps": ("a.json", json.dumps({"@type": "Recipe", "recipeInstructions": ["x"] * 20_000})),
}  # fmt: skip


@pytest.mark.parametrize("row", HEAVY)
def test_a_heavy_file_takes_no_longer_than_its_size(book: Path, row: str) -> None:
    # each of these takes minutes where the time goes with the square of the length
    name, text = HEAVY[row]
    began = time.process_time()
    result = draft(book, text, "--print", name=name)
    assert result.exit_code in {0, 1}
    assert time.process_time() - began < 30


def test_a_huge_file_is_refused_by_its_size(book: Path) -> None:
    result = draft(book, b"x" * 20_000_001)
    assert result.exit_code == 1
    assert "this file holds 20 MB" in result.stderr


def test_a_text_without_a_title_is_drafted_and_told(book: Path) -> None:
    result = draft(book, "1 cup lentils\n2 tbsp leeks\n", name="from Osk.txt")
    assert result.exit_code == 0, result.output
    assert "from Osk.txt:1:1: warning: this recipe has no title" in result.stderr
    assert (book / "recipes/drafts/from-osk.md").is_file()


def test_wrong_use_ends_with_two(book: Path) -> None:
    for arguments in (["nowhere.txt"], [str(book)], []):
        result = CliRunner().invoke(main, ["draft", *arguments, "--book", str(book)])
        assert result.exit_code == 2


def test_what_cannot_be_written_ends_with_three_and_leaves_nothing(book: Path) -> None:
    (book / "recipes/drafts").write_text("in the way", encoding="utf-8")
    before = files(book)
    result = draft(book, SOUND)
    assert result.exit_code == 3
    assert "could not be written" in result.stderr
    assert files(book) == before


@pytest.mark.parametrize(
    "line",
    ["Serves 4 (two hungry)", "(serves 4, from the river house)", "4 servings; or 3 big ones"],
)
def test_servings_with_a_word_beside_them_are_no_ingredient(line: str, book: Path) -> None:
    draft(book, f"Bowl\n{line}\n1 cup lentils\n2 tbsp leeks\nStir it all together.\n")
    text = (book / "recipes/drafts/bowl.md").read_text(encoding="utf-8")
    assert "\nserves: 4\n" in text
    assert f"\n# {line}\n" in text
    assert text.count("\n  - ") == 2
