"""A unit written for another is named where it alone explains the water that was right.

What is right is taken from lines of everyday cooking: a bowl of a cup of lentils and two spoons of
leeks takes about a cup of water as a stew; a spoon of lentils does not.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.findings import Finding

LARDER = """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
onions: {food: onions raw, dried: freeze, form: chopped}
salt: {food: salt, dried: bought}
"""


def found(folder: Path, lines: str, keys: str) -> list[Finding]:
    """Return the findings of a book with one bowl."""
    bowl = f"---\ntitle: Bowl\nconsistency: stew\ningredients: [{lines}]\n{keys}\n---\n"
    (folder / "recipes").mkdir()
    for name, text in (
        ("book.yaml", "title: A book\naltitude: 310 m\n"),
        ("larder.yaml", LARDER),
        ("recipes/bowl.md", bowl),
    ):
        (folder / name).write_text(text, encoding="utf-8", newline="\n")
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    reckoned(book, findings)
    return list(findings)


def marked(finding: Finding) -> str:
    """Return what stands under a finding's marker."""
    place = finding.place
    return place.excerpt[place.column - 1 : place.column - 1 + place.width]


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


TEST = "tested: {water: 1 cup, rest: 12 min}"
TRIALS = """\
trials:
  - {date: 2026-03-02, water: 1 cup, verdict: right}
  - {date: 2026-03-09, servings: 2, water: 2 cups, verdict: right}"""


@pytest.mark.parametrize("keys", [TEST, TRIALS])
def test_a_spoon_for_a_cup_is_named_at_its_line(keys: str, tmp_path: Path) -> None:
    (finding,) = found(tmp_path, "1 tbsp lentils, 2 tbsp leeks", keys)
    assert finding.severity == "warning"
    assert marked(finding) == "1 tbsp lentils"
    assert 'with "1 tbsp lentils", 1 cup (237 mL) was right, far more' in plain(finding.cause)
    assert plain(finding.mend).startswith('did you mean cup? Write "1 cup lentils";')


@pytest.mark.parametrize("keys", [TEST, TRIALS])
def test_the_line_mended_as_said_leaves_nothing_to_say(keys: str, tmp_path: Path) -> None:
    assert not found(tmp_path, "1 cup lentils, 2 tbsp leeks", keys)


def test_a_cup_for_a_spoon_is_named_too(tmp_path: Path) -> None:
    (finding,) = found(tmp_path, "1/2 cup onions, 1/2 cup leeks", "tested: {water: 1/4 cup}")
    assert marked(finding) == "1/2 cup onions"
    assert "far less than the" in finding.cause
    assert plain(finding.mend).startswith('did you mean tbsp? Write "½ tbsp onions";')


@pytest.mark.parametrize(
    ("water", "meant"), [("3 tsp", "did you mean tbsp?"), ("1 tbsp", "")], ids=["once", "never"]
)
def test_the_unit_of_the_water_is_named_where_that_explains_it(
    water: str, meant: str, tmp_path: Path
) -> None:
    (finding,) = found(tmp_path, "3 tbsp onions, 1 tbsp leeks", f"tested: {{water: {water}}}")
    assert marked(finding) == water
    told = plain(finding.cause)
    assert told.startswith(f"{water} is far less than the 2 tbsp + 2 tsp (41 mL) that a")
    assert finding.mend.startswith(meant or "check the measure")


def test_a_trial_s_water_is_held_against_the_test_as_well(tmp_path: Path) -> None:
    slip = "trials: [{date: 2026-03-02, water: 1 tbsp, verdict: right}]\n"
    (finding,) = found(tmp_path, "1 cup lentils, 2 tbsp leeks", slip + TEST)
    assert marked(finding) == "1 tbsp"
    assert "this trial says 1 tbsp (15 mL), far less than the 1 cup" in plain(finding.cause)
    assert plain(finding.mend).startswith('did you mean cup? Write "1 cup";')


def test_where_several_lines_would_explain_it_none_is_named(tmp_path: Path) -> None:
    (finding,) = found(tmp_path, "1 tbsp lentils, 1 tbsp onions", "tested: {water: 3/4 cup}")
    assert marked(finding) == "3/4 cup"
    assert '"Main bowl": ¾ cup (177 mL) was right, far more' in plain(finding.cause)
    assert "did you mean" not in finding.mend
    assert '"1 cup lentils" or "1 cup onions"' in plain(finding.mend)


def test_a_trial_that_was_thin_explains_nothing(tmp_path: Path) -> None:
    thin = "trials: [{date: 2026-03-02, water: 1 cup, verdict: thin}]"
    (finding,) = found(tmp_path, "1 tbsp lentils, 2 tbsp leeks", thin)
    assert "did you mean" not in finding.mend


def test_an_amount_that_nobody_writes_is_not_offered(tmp_path: Path) -> None:
    # five cups of lentils would explain the water, and no serving holds them
    (finding,) = found(tmp_path, "5 tbsp lentils, 1/8 tsp salt", "tested: {water: 5 cups}")
    assert "did you mean" not in finding.mend
