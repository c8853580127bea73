"""A mistake in one place of a recipe hides none of the others, and makes up none."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.newcomer.test_sixty_mistakes import (
    BOWL,
    OATS,
    SAUCE,
    SOUND,
    found_in,
    plain,
    told,
    write,
)

if TYPE_CHECKING:
    from pathlib import Path

LATER = {
    "an unknown store": ("- 1 oatcake", "- 1 taotcak", 'no store called "taotcak"'),
    "another line without an amount": ("- 1/8 tsp salt", "- salt", '"salt" has no amount'),
    "a picture of no file": ("picture: bowl.svg", "picture: bol.svg", 'no picture "bol.svg"'),
    "a figure that is none": ("wait {rest}", "wait {rset}", '"{rset}" stands for no'),
    "a link to nothing": ("(pear-oats.md)", "(pear-oat.md)", 'the address "pear-oat"'),
    "water of no unit": ("rest: 12 min", "rest: 12 minits", '"minits" is not a unit'),
}  # fmt: skip
FIRST = {
    "no amount": ("- 2 tbsp leeks", "- leeks", '"leeks" has no amount'),
    "no name": ("- 2 tbsp leeks", "- 2 tbsp", "this line names no ingredient"),
    "a handful": ("- 2 tbsp leeks", "- handful of leeks", '"handful" is not a measure'),
}


@pytest.mark.parametrize("first", FIRST)
@pytest.mark.parametrize("later", LATER)
def test_a_line_that_can_not_be_read_hides_nothing_of_its_recipe(
    first: str, later: str, tmp_path: Path
) -> None:
    text = SOUND[BOWL]
    for old, wrong, _ in (FIRST[first], LATER[later]):
        assert old in text
        text = text.replace(old, wrong, 1)
    findings = found_in(write(tmp_path, SOUND | {BOWL: text}))
    causes = [plain(finding.cause) for finding in findings]
    assert len(causes) == 2, told(findings)
    for _, _, cause in (FIRST[first], LATER[later]):
        assert any(cause in told_cause for told_cause in causes), told(findings)


@pytest.mark.parametrize(
    ("file", "old", "wrong"),
    [
        (BOWL, "  - 1 cup lentils\n", "  - lentils\n"),
        (OATS, "  - 1/2 cup quick oats\n", "  - quick oats\n"),
        (SAUCE, "  - 1 kg plums\n", "  - plums\n"),
        (SAUCE, "  - 1 kg plums\n  - 2 large apples\n", "  - plums and apples\n"),
    ],
)
def test_what_hangs_on_a_line_that_can_not_be_read_is_not_blamed(
    file: str, old: str, wrong: str, tmp_path: Path
) -> None:
    assert old in SOUND[file]
    findings = found_in(write(tmp_path, SOUND | {file: SOUND[file].replace(old, wrong)}))
    assert len(findings) == 1, told(findings)
    assert "has no amount" in findings[0].cause


def test_a_recipe_without_ingredients_has_its_other_findings(tmp_path: Path) -> None:
    lines = "  - 1/2 cup quick oats\n  - 2 tbsp pears\n  - 1 tbsp plum sauce\n"
    bare = SOUND[OATS].replace(f"ingredients:\n{lines}", "").replace("{water}", "{watter}")
    findings = found_in(write(tmp_path, SOUND | {OATS: bare}))
    assert [finding.cause for finding in findings] == [
        "this recipe has no ingredients",
        '"{watter}" stands for no computed value',
    ], told(findings)


@pytest.mark.parametrize("later", LATER)
def test_a_recipe_whose_address_is_taken_has_its_other_findings(later: str, tmp_path: Path) -> None:
    old, wrong, cause = LATER[later]
    twin = "recipes/elsewhere/lentil-bowl.md"
    findings = found_in(write(tmp_path, SOUND | {twin: SOUND[BOWL].replace(old, wrong, 1)}))
    assert len(findings) == 2, told(findings)
    assert all(finding.place.path == twin for finding in findings)
    causes = [plain(finding.cause) for finding in findings]
    assert any(f'the address "lentil-bowl" is already that of {BOWL}' in one for one in causes)
    assert any(cause in one for one in causes)


def test_a_recipe_whose_address_is_taken_is_one_finding_alone(tmp_path: Path) -> None:
    for name in (BOWL, OATS, SAUCE):
        folder = tmp_path / name.rsplit("/", 1)[-1]
        twin = "recipes/z/" + name.rsplit("/", 1)[-1]
        findings = found_in(write(folder, SOUND | {twin: SOUND[name]}))
        assert len(findings) == 1, told(findings)
