"""Planted mistakes: each gives one finding, at the right place, with a mend that helps.

A row is the file, what is replaced by what, and what the finding must say. Positions are found
from the culprit's own text, so that the marker must stand under it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main
from cookbook_build.findings import Findings, Severity, described
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned

if TYPE_CHECKING:
    from pathlib import Path

SOUND = {
    "book.yaml": """\
title: A small book
measures: us-cups
altitude: 310 m
servings: [1, 2, 4]
series:
  Bowls: {about: Warm ones.}
kit:
  jar: {holds: 500 mL, label: 65 C after 6 h}
""",
    "larder.yaml": """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
yogurt powder: {food: yogurt plain whole milk, dried: freeze, form: powder, weighs: 96 g per cup}
turkey mince: {food: ground turkey raw, dried: freeze, form: crumbs, weighs: 58 g per cup, raw: true}
salt: {food: salt, dried: bought}
oatcake: {food: oatcakes, dried: fresh, sold by: piece, weighs: 60 g per piece}
plum sauce: {from: bases/plum-sauce, dried: freeze, form: crumbs, weighs: 74 g per cup}
""",
    "recipes/bowls/lentil-bowl.md": """\
---
title: Lentil bowl
series: Bowls
part: 1
consistency: stew
picture: bowl.svg
picture text: A bowl.
methods: [kettle, stove]
ingredients:
  - 1 cup lentils
  - 3 tbsp leeks, cut small
  - 1 tbsp yogurt powder (optional)
  - 1 oatcake (fresh)
  - 1/8 tsp salt
tested:
  method: kettle
  water: 3/4 cup + 1 tbsp
  rest: 12 min
trials:
  - {date: 2026-03-02, water: 3/4 cup, verdict: thick, added: 1 tbsp}
---
## Make ready

Pour {water} and wait {rest}. Then see [the other bowl](mince-bowl.md).

![A bowl](bowl.svg)
""",
    "recipes/bowls/mince-bowl.md": """\
---
title: Mince bowl
series: Bowls
part: 2
methods: [stove]
ingredients:
  - 1 cup turkey mince
  - 1/2 cup plum sauce
---
Simmer it {rest}.
""",
    "recipes/bases/plum-sauce.md": """\
---
title: Plum sauce
kind: base
ingredients:
  - 1 kg plums
  - 2 tsp salt
cooked weight: 700 g
becomes: plum sauce
---
Cook it down.
""",
    "menus/two-days.yaml": """\
title: Two days
people: 2
meals:
  - {day: 1, meal: supper, recipe: lentil-bowl}
  - {day: 2, meal: supper, recipe: mince-bowl, method: stove}
""",
    "pages/about.md": """\
---
title: About us
---
We live by a river.
""",
    "images/bowl.svg": '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"/>',
}
BOOK, LARDER, MENU, PAGE = "book.yaml", "larder.yaml", "menus/two-days.yaml", "pages/about.md"
BOWL, MINCE, SAUCE = (
    "recipes/bowls/lentil-bowl.md",
    "recipes/bowls/mince-bowl.md",
    "recipes/bases/plum-sauce.md",
)


@dataclass(frozen=True)
class Planted:
    """One mistake: what is replaced by what, where the marker stands, what is said."""

    file: str
    old: str
    new: str
    culprit: str  # the text under the marker, as it stands in the changed file
    cause: str
    mend: str
    severity: Severity = Severity.ERROR
    also: tuple[tuple[str, str], ...] = ()  # further files written


def _p(file: str, old: str, new: str, culprit: str, cause: str, mend: str) -> Planted:
    return Planted(file, old, new, culprit, cause, mend)


W = Severity.WARNING
MISTAKES = {
    # names
    "misspelt store": _p(BOWL, "tbsp leeks", "tbsp leaks", "leaks", 'no store called "leaks"', '"leeks"'),
    "unknown store": _p(BOWL, "tbsp yogurt powder", "tbsp dandelions", "dandelions", 'no store called "dandelions"', "larder.yaml"),
    "misspelt food": _p(LARDER, "food: leeks raw", "food: leaks raw", "leaks raw", 'no food called "leaks raw"', '"leeks raw"'),
    "misspelt key": _p(BOWL, "consistency:", "consistancy:", "consistancy", '"consistancy" is not a key', '"consistency"'),
    "misspelt key in the book": _p(BOOK, "measures:", "measure:", "measure", '"measure" is not a key', '"measures"'),
    "misspelt key of a store": _p(LARDER, "form: sliced", "from: sliced", "leeks", "more than one of", "in one way"),
    "misspelt key in the kit": _p(BOOK, "holds: 500 mL", "hold: 500 mL", "hold", '"hold" is not a key', '"holds"'),
    "misspelt key of a meal": _p(MENU, "method: stove", "methot: stove", "methot", '"methot" is not a key', '"method"'),
    "a method that isn't one": _p(BOWL, "method: kettle", "method: kettel", "kettel", "is not one of kettle", '"kettle"'),
    "a consistency that isn't one": _p(BOWL, "consistency: stew", "consistency: stewy", "stewy", "is not one of filling", '"stew"'),
    "measures that aren't": _p(BOOK, "us-cups", "us cups", "us cups", "is not one of us-cups", '"us-cups"'),
    "a verdict that isn't one": _p(BOWL, "verdict: thick", "verdict: thik", "thik", "is not one of right", '"thick"'),
    "a series that book.yaml lacks": _p(BOWL, "series: Bowls", "series: By the weir", "By the weir", 'no series called "By the weir"', 'add "By the weir: {}" below series'),
    "dry beans called cooked": _p(LARDER, "food: lentils cooked", "food: moth beans dry", "moth beans dry", "the table does not say what it becomes", "a cooked food that is like it"),
    "red lentils, dry, called cooked": _p(LARDER, "food: lentils cooked", "food: red lentils dry", "red lentils dry", "is not what went into the dryer", '"lentils cooked"'),
    "a jar's label without its warmth": _p(BOOK, "label: 65 C after 6 h", "label: 6 h", "6 h", "does not say how warm it still is", "65 C after 6 h"),
    "a kettle for what was dried raw": _p(MINCE, "methods: [stove]", "methods: [kettle, stove]", "kettle", "was dried raw", 'write "methods: [stove]"'),
    "nothing but a kettle for what was dried raw": Planted(MINCE, "methods: [stove]", "methods: [kettle]", "kettle", "was dried raw", 'write "methods: [stove, microwave]"', also=(("menus/two-days.yaml", "title: Two days\nmeals:\n  - {day: 1, meal: supper, recipe: lentil-bowl}\n"),)),
    "cooked meat called raw": _p(LARDER, "food: ground turkey raw", "food: ground turkey cooked", "true", "is cooked, and this line says that the store was dried raw", '"ground turkey raw"'),
    "salt and something": _p(BOWL, "- 1/8 tsp salt", "- Salt & leeks to taste", "Salt & leeks", 'no store called "Salt & leeks"', "each on a line of its own: Salt and leeks"),
    "unknown series": _p(BOWL, "series: Bowls", "series: Bowl", "Bowl", 'no series called "Bowl"', '"Bowls"'),
    "unknown recipe in a menu": _p(MENU, "lentil-bowl", "lentil-bowls", "lentil-bowls", "no recipe with the address", '"lentil-bowl"'),
    "more appetites than people": _p(MENU, "people: 2", "people: 2\nappetites: [1, 1, 1 1/2]", "[1, 1, 1 1/2]", "3 appetites for 2 people", "[1, 1]"),
    "packed after the first day": Planted(MENU, "people: 2", "people: 2\ndate: 2026-06-20\npacked: 2026-06-21", "2026-06-21", "the mixes are packed on 2026-06-21, and the first day of this menu is 2026-06-20", 'write "packed: 2026-06-20"'),
    "an appetite for two people": _p(MENU, "people: 2", "people: 2\nappetites: [2]", "[2]", "1 appetite for 2 people", "[1, 1]"),
    "a base in a menu": _p(MENU, "recipe: lentil-bowl", "recipe: plum-sauce", "plum-sauce", "is a base", "name a meal"),
    "unknown base of a store": _p(LARDER, "bases/plum-sauce", "bases/plumb-sauce", "bases/plumb-sauce", "no base with the address", '"plum-sauce"'),
    "a meal as a base": _p(LARDER, "bases/plum-sauce", "bowls/mince-bowl", "bowls/mince-bowl", "is a meal", "kind: base"),
    "becomes a store that is not there": _p(SAUCE, "becomes: plum sauce", "becomes: plumb sauce", "plumb sauce", "no store called", '"plum sauce"'),
    "unknown food in a base": _p(SAUCE, "kg plums", "kg plumbs", "plumbs", "neither a store nor a food", "plums"),
    "unknown figure": _p(BOWL, "{water}", "{watr}", "{watr}", "stands for no computed value", "{water}"),
    "unknown component": _p(BOWL, "{water}", "{water: Relish}", "{water: Relish}", 'no component called "Relish"', "none"),
    "a picture that isn't there": _p(BOWL, "picture: bowl.svg", "picture: bowls.svg", "bowls.svg", 'no picture "bowls.svg"', '"bowl.svg"'),
    "a picture in the text that isn't there": _p(BOWL, "(bowl.svg)", "(cup.svg)", "cup.svg", 'no picture "cup.svg"', "images/"),
    "a link to nowhere": _p(BOWL, "mince-bowl.md", "mince-bowls.md", "mince-bowls.md", "no recipe or page with the address", '"mince-bowl.md"'),
    # amounts
    "unknown unit": _p(BOWL, "3 tbsp leeks", "3 tbps leeks", "tbps", '"tbps" is not a unit', '"tbsp"'),
    "unknown unit of water": _p(BOWL, "water: 3/4 cup + 1 tbsp", "water: 3/4 cpu", "cpu", '"cpu" is not a unit', '"cup"'),
    "negative amount": _p(BOWL, "- 1 cup lentils", "- -1 cup lentils", "-1", "less than nothing", "above zero"),
    "over zero": _p(BOWL, "1/8 tsp", "1/0 tsp", "1/0", "divides by zero", "1/2"),
    "two ways to read": _p(SAUCE, "1 kg plums", "1,000 g plums", "1,000", "can be read two ways", "1000 or 1.000"),
    "more than a kitchen holds": _p(BOWL, "- 1 cup lentils", "- 99999999 cups lentils", "99999999", "more than any kitchen", "below a million"),
    "a falling range": _p(BOWL, "1 oatcake", "3-2 oatcakes", "3-2", "does not rise", "smaller number first"),
    "a volume plus a weight": _p(BOWL, "3 tbsp leeks", "3 tbsp + 5 g leeks", "3 tbsp + 5 g", "adds a volume to a weight", "both as"),
    "water by weight of nothing": _p(BOWL, "water: 3/4 cup + 1 tbsp", "water: some", "some", '"some" is not an amount', "3/4 cup"),
    "no amount": _p(BOWL, "- 1/8 tsp salt", "- salt", "salt", "has no amount", "to taste"),
    "no name": _p(BOWL, "- 1/8 tsp salt", "- 1/8 tsp", "1/8 tsp", "names no ingredient", "3 tbsp leeks"),
    "a count of what has no pieces": _p(BOWL, "- 1/8 tsp salt", "- 2 salt", "2 salt", "what a piece of salt weighs", "per piece"),
    "bad weighing": _p(LARDER, "96 g per cup", "96 g", "96 g", "for which measure", "58 g per cup"),
    "a powder nobody weighed": _p(LARDER, ", weighs: 96 g per cup", "", "yogurt powder", "what a cup of yogurt powder weighs", "weighs: 74 g per cup"),
    "bad altitude": _p(BOOK, "310 m", "310", "310", "has no unit", "310 m"),
    "an altitude out of bounds": _p(BOOK, "310 m", "31000 m", "31000 m", "more than can be meant", "310 m"),
    "bad rest": _p(BOWL, "rest: 12 min", "rest: 12", "12", "has no unit", "12 min"),
    "bad jar label": _p(BOOK, "65 C after 6 h", "65 C", "65 C", "after how long", "65 C after 6 h"),
    "bad date": _p(BOWL, "2026-03-02", "2026-13-02", "2026-13-02", "not a day in the calendar", "2026-03-02"),
    "an address without its scheme": _p(BOOK, "altitude: 310 m", "altitude: 310 m\naddress: example.org/larder", "example.org/larder", "not a whole address on the web", "https://example.org/larder"),
    "an address of a mail box": _p(BOOK, "altitude: 310 m", "altitude: 310 m\naddress: mailto:a@example.org", "mailto:a@example.org", "not a whole address on the web", "delete the key"),
    "an address of a page": _p(BOOK, "altitude: 310 m", "altitude: 310 m\naddress: https://example.org/larder/index.html", "https://example.org/larder/index.html", "not the address of the folder", "without the page's name"),
    "a size that is none": _p(BOOK, "altitude: 310 m", "altitude: 310 m\nlargest file: huge", "huge", "is not the size of a file", "20 MB or 900 kB"),
    "a size in other units": _p(BOOK, "altitude: 310 m", "altitude: 310 m\nlargest file: 20 MiB", "20 MiB", "is not the size of a file", "20 MB or 900 kB"),
    "a size below any book's": _p(BOOK, "altitude: 310 m", "altitude: 310 m\nlargest file: 1 kB", "1 kB", "is less than can be meant", "20 MB or 900 kB"),
    "a licence in another spelling": _p(BOOK, "altitude: 310 m", "altitude: 310 m\nlicense: CC BY 4.0", "license", "not a key that belongs here", '"licence"'),
    "no servings": _p(BOOK, "[1, 2, 4]", "[0, 2, 4]", "0", "too small", "1 or more"),
    "servings in words": _p(BOOK, "[1, 2, 4]", "[one, 2, 4]", "one", "whole number", "write 1."),
    # shape
    "missing water": _p(BOWL, "  water: 3/4 cup + 1 tbsp\n", "", "tested", 'has no "water"', "water: 3/4 cup + 1 tbsp"),
    "missing title": _p(MINCE, "title: Mince bowl\n", "", "series", 'has no "title"', "title:"),
    "an empty title": _p(MINCE, "title: Mince bowl", "title:", "title", "has no value", "title:"),
    "missing dried": _p(LARDER, "salt: {food: salt, dried: bought}", "salt: {food: salt}", "{", 'has no "dried"', "dried: freeze"),
    "no ingredients": _p(MINCE, "ingredients:\n  - 1 cup turkey mince\n  - 1/2 cup plum sauce\n", "", "title", "has no ingredients", "ingredients:"),
    "one value where a list belongs": _p(MINCE, "methods: [stove]", "methods: stove", "stove", "is a list", '"- "'),
    "a list where one value belongs": _p(BOWL, "rest: 12 min", "rest: [12 min]", "[12 min]", "a single value", "12 min"),
    "a value where keys belong": _p(BOOK, "jar: {holds: 500 mL, label: 65 C after 6 h}", "jar: a good one", "a good one", "holds keys of its own", "jar: {holds: 500 mL, label: 65 C after 6 h}"),
    "neither food nor base nor label": _p(LARDER, "{food: salt, dried: bought}", "{dried: bought}", "salt", "neither", "food: leeks raw"),
    "yes or no": _p(LARDER, "cooked first: true", "cooked first: perhaps", "perhaps", "yes or no", "yes or no"),
    "duplicate key": _p(BOWL, "part: 1", "part: 1\npart: 2", "part", "written twice", "keep one"),
    "a tab": _p(BOWL, "  method: kettle", "\tmethod: kettle", "\t", "a tab stands", "spaces"),
    "unclosed front matter": _p(MINCE, "  - 1/2 cup plum sauce\n---\n", "  - 1/2 cup plum sauce\n", "---", "never closed", '"---"'),
    "no front matter": _p(PAGE, "---\ntitle: About us\n---\n", "", "We live", "does not begin with front matter", '"---"'),
    "an open quote": _p(BOWL, "title: Lentil bowl", 'title: "Lentil bowl', '"', "never closed", "close it"),
    "an open bracket": _p(BOOK, "[1, 2, 4]", "[1, 2, 4", "", "bracket", "close it"),
    "a second colon": _p(BOWL, "title: Lentil bowl", "title: Lentil: a bowl", "", "second colon", "quotes"),
    "a repeat": _p(BOWL, "title: Lentil bowl", "title: *bowl", "*bowl", "is a repeat", "quotes"),
    "a tag": _p(BOWL, "title: Lentil bowl", "title: !bowl x", "!bowl x", "is a tag", "quotes"),
    "an open fence": _p(BOWL, "## Make ready\n", "```\n", "```", "never closed", "where the block ends"),
    "a picture from the web": _p(BOWL, "(bowl.svg)", "(https://example.org/b.png)", "https://example.org/b.png", "outside the book", "images/"),
    "a script as a link": _p(BOWL, "(mince-bowl.md)", "(javascript:alert(1))", "javascript:alert(1)", "can't be followed", "https://"),
    # a sheet of labels
    "labels off the side of the paper": _p(BOOK, "servings: [1, 2, 4]", "servings: [1, 2, 4]\nlabels: {columns: 3, width: 80 mm}", "labels", "end at 240 mm, and A4 is 210 mm wide", "write columns: 2, or width: 70 mm and across: 70 mm."),
    "labels off the foot of the paper": _p(BOOK, "servings: [1, 2, 4]", "servings: [1, 2, 4]\nlabels: {rows: 8, height: 36 mm, top: 20 mm, down: 36 mm}", "labels", "end at 308 mm, and A4 is 297 mm high", "write rows: 7, or height: 34 mm and down: 34 mm."),
    "one label wider than its paper": _p(BOOK, "servings: [1, 2, 4]", "servings: [1, 2, 4]\nlabels: {paper: Letter, columns: 1, width: 220 mm}", "labels", "labels in 1 column (left at 0 mm, wide 220 mm) end at 220 mm", "write width: 215 mm."),
    "a margin that is wider than the paper": _p(BOOK, "servings: [1, 2, 4]", "servings: [1, 2, 4]\nlabels: {columns: 1, width: 50 mm, left: 250 mm}", "labels", "A4 is 210 mm wide", "write left: 6 mm."),
    "labels that cover each other": _p(BOOK, "servings: [1, 2, 4]", "servings: [1, 2, 4]\nlabels: {columns: 2, width: 99 mm, across: 90 mm}", "labels", "each covers part of the next", "write across: 99 mm, or width: 90 mm."),
    # what the files say of each other, and of food
    "two stores with one name": _p(LARDER, "salt: {food: salt, dried: bought}", "salt: {food: salt, dried: bought, also called: [leek]}", "leek", "already finds", "no other has"),
    "raw meat that doesn't say so": _p(LARDER, ", raw: true", "", "turkey mince", "drying does not kill germs", "raw: true"),
    "raw beans": _p(LARDER, "{food: salt, dried: bought}", "{food: kidney beans dry, dried: air}", "salt", "poisonous", "cooked first: true"),
    "raw rice in a meal": Planted(LARDER, "{food: salt, dried: bought}", "{food: white rice dry, dried: bought}", "salt", "does not cook", "cooked first: true", also=((BOWL, SOUND[BOWL]),)),
    "a raw store in a jar": _p(MINCE, "[stove]", "[stove, jar]", "jar", "does not cook", "brought to the boil"),
    "a raw store in a part with cold water": _p(MINCE, "---\nSimmer", "components:\n  - {name: Relish, cold: true, ingredients: [2 tbsp turkey mince]}\n---\nSimmer", "true", "uncooked", "brought to the boil"),
    "a first part with cold water": _p(MINCE, "ingredients:\n  - 1 cup turkey mince\n  - 1/2 cup plum sauce\n", "components:\n  - {name: Relish, cold: true, ingredients: [1/2 cup plum sauce]}\n", "true", "the first part", "methods: [cold]"),
    "a raw meal planned by kettle": _p(MENU, "method: stove", "method: kettle", "kettle", "was dried raw", "write stove."),
    "a lighter pot than its solids": _p(SAUCE, "700 g", "20 g", "20 g", "dry matter", "weigh the pot again"),
    "a picture without words": Planted(BOWL, "picture text: A bowl.\n", "", "bowl.svg", "no words", "picture text", W),
    "a tested water out of all reason": Planted(BOWL, "water: 3/4 cup + 1 tbsp", "water: 4 cups", "4 cups", "this test says 4 cups (946 mL), far more than the", "check its water", W),
    "honey in a freeze dryer": Planted(LARDER, "{food: salt, dried: bought}", "{food: honey, dried: freeze, weighs: 300 g per cup}", "freeze", "does not suit a freeze dryer", "fresh or bought", W),
    "a circle of bases": Planted(SAUCE, "  - 2 tsp salt\n", "  - 2 tsp salt\n  - 1 cup plum sauce\n", "plum sauce", "made from itself", "out of the other"),
    "two recipes with one address": Planted(MINCE, "part: 2", "part: 2", "title", "already that of", "rename", also=(("recipes/zz/mince-bowl.md", SOUND[MINCE]),)),
    "a file name that is no address": Planted(MINCE, "part: 2", "part: 2", "title", "can't be an address", "a-bowl-1.md", also=(("recipes/bowls/a bowl? 1.md", SOUND[MINCE].replace("part: 2", "part: 3")),)),
}  # fmt: skip


def write(folder: Path, files: dict[str, str]) -> Path:
    """Write a book."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def planted_book(folder: Path, planted: Planted) -> Path:
    """Write the sound book with one mistake in it."""
    assert planted.old in SOUND[planted.file], "the row's text is not in the sound book"
    changed = SOUND[planted.file].replace(planted.old, planted.new, 1)
    return write(folder, SOUND | {planted.file: changed} | dict(planted.also))


def found_in(folder: Path) -> Findings:
    """Return every finding of a book."""
    findings = Findings()
    book = read_book(folder, findings)
    if book is not None:
        reckoned(book, findings)
    return findings


def plain(text: str) -> str:
    """Return a text with ordinary spaces."""
    return text.replace("\N{NO-BREAK SPACE}", " ")


def test_the_sound_book_gives_no_finding(tmp_path: Path) -> None:
    assert not list(found_in(write(tmp_path, SOUND)))


@pytest.mark.parametrize("name", MISTAKES)
def test_each_mistake_gives_one_finding_that_helps(name: str, tmp_path: Path) -> None:
    planted = MISTAKES[name]
    findings = list(found_in(planted_book(tmp_path, planted)))
    told = "\n\n".join(described(finding) for finding in findings)
    assert len(findings) == 1, told
    (finding,) = findings
    place = finding.place
    assert finding.severity is planted.severity, told
    assert planted.cause in plain(finding.cause), told
    assert planted.mend in plain(finding.mend), told
    assert place.path in {planted.file, *(path for path, _ in planted.also)}, told
    lines = (tmp_path / place.path).read_text(encoding="utf-8").split("\n")
    assert place.excerpt == lines[place.line - 1], told
    marked = place.excerpt[place.column - 1 : place.column - 1 + place.width]
    culprit = plain(planted.culprit)
    assert marked.startswith(culprit) or culprit.startswith(marked), told
    assert finding.mend.endswith("."), told


@pytest.mark.parametrize("command", ["proof", "bind"])
def test_labels_too_small_for_their_words_warn_with_measures_that_do(
    command: str, tmp_path: Path
) -> None:
    small = "labels: {paper: A4, columns: 5, rows: 13, width: 38 mm, height: 21 mm}\n"
    folder = write(tmp_path / "book", SOUND | {BOOK: SOUND[BOOK] + small})
    out = ["--out", str(tmp_path / "site")] if command == "bind" else []
    result = CliRunner().invoke(main, [command, str(folder), *out])
    said = plain(result.output)
    assert result.exit_code == 0, said
    assert "book.yaml:9:1: warning: labels of 38 × 21 mm have no room" in said
    assert '"Lentil bowl" and 1 more' in said
    mend = re.search(r"labels of (\d+) × (\d+) mm would do, such as (labels: \{.*\});", said)
    assert mend, said
    (folder / BOOK).write_text(f"{SOUND[BOOK]}{mend[3]}\n", encoding="utf-8")
    mended = CliRunner().invoke(main, ["proof", str(folder)])
    assert "Nothing to mend." in mended.output


@pytest.mark.parametrize("command", ["proof", "bind"])
def test_cards_too_small_for_their_words_warn_with_a_paper_that_does(
    command: str, tmp_path: Path
) -> None:
    long = "Lentil bowl " + "of a long afternoon by the slow river " * 8
    soup = SOUND[BOWL].replace("title: Lentil bowl", f"title: {long.strip()}")
    small = {BOOK: SOUND[BOOK] + "cards: 50 x 75 mm\n", BOWL: soup}
    folder = write(tmp_path / "book", SOUND | small)
    out = ["--out", str(tmp_path / "site")] if command == "bind" else []
    result = CliRunner().invoke(main, [command, str(folder), *out])
    said = plain(result.output)
    assert result.exit_code == 0, said
    assert "book.yaml:9:1: warning: pocket cards of 50 × 75 mm have no room" in said
    mend = re.search(r"write (cards: .+?);", said)
    assert mend, said
    (folder / BOOK).write_text(f"{SOUND[BOOK]}{mend[1]}\n", encoding="utf-8")
    mended = CliRunner().invoke(main, ["proof", str(folder)])
    assert "Nothing to mend." in mended.output


def test_a_language_without_words_is_told_and_read_all_the_same(tmp_path: Path) -> None:
    folder = write(tmp_path / "book", SOUND | {BOOK: f"language: fr\n{SOUND[BOOK]}"})
    result = CliRunner().invoke(main, ["proof", str(folder)])
    said = plain(result.output)
    assert result.exit_code == 0, said
    assert "book.yaml:1:11: warning: the book's own words" in said
    assert 'are not there in "fr" yet' in said
    assert "there are words in en and es." in said
    (folder / BOOK).write_text(f"language: es-MX\n{SOUND[BOOK]}", encoding="utf-8")
    assert "Nothing to mend." in CliRunner().invoke(main, ["proof", str(folder)]).output


@pytest.mark.parametrize(("language", "found"), [("es", 2), ("es-MX", 0), ("en", 0)])
def test_a_point_before_three_digits_is_asked_about_where_a_comma_is_decimal(
    language: str, found: int, tmp_path: Path
) -> None:
    """The decimal mark of each is that of the Unicode CLDR."""
    book = SOUND[BOOK].replace("altitude: 310 m", f"altitude: 1.200 m\nlanguage: {language}")
    sauce = SOUND[SAUCE].replace("1 kg plums", "1.250 kg plums")
    folder = write(tmp_path / "book", SOUND | {BOOK: book, SAUCE: sauce})
    causes = [f.cause for f in found_in(folder) if "two ways" in f.cause]
    assert len(causes) == found, causes


def test_every_mistake_at_once_is_shown_at_once(tmp_path: Path) -> None:
    names = ("misspelt store", "bad date", "unknown unit of water", "bad altitude", "bad weighing")
    rows = [MISTAKES[name] for name in names]
    files = dict(SOUND)
    for row in rows:
        files[row.file] = files[row.file].replace(row.old, row.new, 1)
    result = CliRunner().invoke(main, ["proof", str(write(tmp_path, files))])
    assert result.exit_code == 1
    for row in rows:
        assert row.cause in plain(result.output)


def test_a_book_with_errors_is_not_bound(tmp_path: Path) -> None:
    folder = planted_book(tmp_path / "book", MISTAKES["misspelt store"])
    out = tmp_path / "site"
    result = CliRunner().invoke(main, ["bind", str(folder), "--out", str(out)])
    assert result.exit_code == 1
    assert not out.exists()
    assert [path.name for path in tmp_path.iterdir()] == ["book"]


def test_a_book_with_warnings_is_bound(tmp_path: Path) -> None:
    folder = planted_book(tmp_path / "book", MISTAKES["a picture without words"])
    result = CliRunner().invoke(main, ["bind", str(folder), "--out", str(tmp_path / "site")])
    assert result.exit_code == 0, result.output
    assert "1 warning." in result.output
    assert (tmp_path / "site" / "index.html").is_file()


@pytest.mark.parametrize("name", ["misspelt store", "more appetites than people"])
def test_no_lists_are_made_of_a_book_with_errors(name: str, tmp_path: Path) -> None:
    folder = planted_book(tmp_path / "book", MISTAKES[name])
    for how in ([], ["--json"], ["--csv"]):
        result = CliRunner().invoke(main, ["provision", "two-days", "--book", str(folder), *how])
        assert result.exit_code == 1, result.output
        assert MISTAKES[name].cause in plain(result.stderr)
        assert result.stdout == ""


def test_a_menu_that_can_t_be_read_is_not_said_to_be_missing(tmp_path: Path) -> None:
    folder = planted_book(tmp_path / "book", MISTAKES["misspelt key of a meal"])
    (folder / "menus" / "empty.yaml").write_text("")
    result = CliRunner().invoke(main, ["provision", "empty", "--book", str(folder)])
    assert result.exit_code == 1
    assert "this menu is empty" in result.stderr


def test_warnings_are_shown_after_the_lists(tmp_path: Path) -> None:
    folder = planted_book(tmp_path / "book", MISTAKES["a picture without words"])
    result = CliRunner().invoke(main, ["provision", "two-days", "--book", str(folder)])
    assert result.exit_code == 0, result.output
    assert "1 warning." in result.stderr
    assert result.output.index("To buy") < result.output.index("warning:")


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (["proof"], 2, "no book here"),
        (["proof", "nowhere"], 2, "no folder"),
        (["water", "lentil-bowls", "--book", "BOOK"], 2, '"lentil-bowl"'),
        (["water", "plum-sauce", "--book", "BOOK"], 2, "is a base"),
        (["water", "mince-bowl", "--book", "BOOK", "--method", "jar"], 2, "its methods: stove"),
        (["water", "lentil-bowl", "--book", "BOOK", "--altitude", "high"], 2, "310 m"),
        (["water", "lentil-bowl", "--book", "BOOK", "--servings", "0"], 2, "servings"),
        (["bind", "BOOK", "--out", "BOOK"], 3, "did not make"),
        (["bind", "BOOK", "--out", "BOOK"], 3, "Move what is yours out of it"),
        (["provision", "two-days", "--book", "BOOK"], 0, "Two days: 2 people"),
        (["provision", "two-day", "--book", "BOOK"], 2, '"two-days"'),
        (["provision", "two-days", "--book", "BOOK", "--json", "--csv"], 2, "not for both"),
        (["proof", "BOOK"], 0, "Nothing to mend."),
        (["proof", "BOOK", "--json"], 0, '"severity": "suggestion"'),
    ],
)
def test_exit_codes_and_words(
    arguments: list[str], code: int, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = str(write(tmp_path / "book", SOUND))
    monkeypatch.chdir(tmp_path)
    words = [book if word == "BOOK" else word for word in arguments]
    result = CliRunner().invoke(main, words)
    assert result.exit_code == code, result.output
    assert said in plain(result.output)


@pytest.mark.parametrize(
    ("name", "data", "cause"),
    [
        ("book.yaml", b"", "empty"),
        ("larder.yaml", b"# nothing\n", "empty"),
        ("recipes/bowls/lentil-bowl.md", b"", "empty"),
        ("recipes/bowls/lentil-bowl.md", b"---\ntitle: \xff\xfe\n---\n", "not written as UTF-8"),
        ("recipes/bowls/lentil-bowl.md", b"---\ntitle: a\0b\n---\n", "NUL"),
        ("recipes/bowls/lentil-bowl.md", b"---\ntitle: a\x07b\n---\n", "can't be seen"),
        ("book.yaml", b"title: " + b"[" * 500 + b"]" * 500, "nested too deep"),
        ("book.yaml", b"a: &a [x, x]\nb: [*a, *a]\n", "is a repeat"),
        ("book.yaml", b"- just\n- a list\n", "group of keys"),
    ],
)
def test_files_that_are_no_text_of_ours(name: str, data: bytes, cause: str, tmp_path: Path) -> None:
    folder = write(tmp_path, {n: t for n, t in SOUND.items() if not n.startswith("menus")})
    (folder / name).write_bytes(data)
    findings = [f for f in found_in(folder) if f.place.path == name]
    assert findings
    assert any(cause in finding.cause for finding in findings), [described(f) for f in findings]


@pytest.mark.parametrize("name", ["book.yaml", "larder.yaml"])
def test_a_file_that_a_book_needs_is_asked_for(name: str, tmp_path: Path) -> None:
    folder = write(tmp_path, SOUND)
    (folder / name).unlink()
    findings = [f for f in found_in(folder) if f.place.path == name]
    assert len(findings) == 1
    assert name in findings[0].cause


def test_windows_line_ends_and_a_byte_order_mark_change_nothing(tmp_path: Path) -> None:
    for name, text in SOUND.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    assert not list(found_in(tmp_path))
