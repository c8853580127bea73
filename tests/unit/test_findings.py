"""Findings as they are shown: clickable place, excerpt, marker, mend."""

from __future__ import annotations

from cookbook_build.findings import (
    Finding,
    Findings,
    Place,
    Severity,
    described,
    did_you_mean,
    nearest,
    one_of,
)


def shown(excerpt: str, column: int, width: int = 1) -> list[str]:
    """Return the lines of a finding about a line of text."""
    place = Place("recipes/bowl.md", 9, column, width, excerpt)
    return described(Finding(Severity.ERROR, place, "it is wrong", "mend it.")).split("\n")


def test_the_first_line_can_be_clicked_and_the_last_mends() -> None:
    lines = shown("  - 3 tbsp leaks", 12, 5)
    assert lines[0] == "recipes/bowl.md:9:12: error: it is wrong"
    assert lines[-1] == "  mend: mend it."


def test_the_marker_stands_under_the_culprit() -> None:
    lines = shown("  - 3 tbsp leaks", 12, 5)
    at = lines[1].index("leaks")
    assert lines[2][at : at + 5] == "^^^^^"
    assert lines[2].count("^") == 5


def test_tabs_before_the_culprit_keep_the_marker_under_it() -> None:
    lines = shown("\tleaks", 2, 5)
    assert lines[2].split("| ")[1] == "\t^^^^^"


def test_a_long_line_is_cut_around_the_culprit() -> None:
    lines = shown("x" * 300 + "leaks" + "y" * 300, 301, 5)
    at = lines[1].index("leaks")
    assert lines[2][at : at + 5] == "^^^^^"
    assert len(lines[1]) < 120


def test_control_and_direction_characters_are_made_visible() -> None:
    lines = shown("leaks \x1b[31m\N{RIGHT-TO-LEFT OVERRIDE}", 1, 5)
    assert "\x1b" not in lines[1]
    assert "\N{RIGHT-TO-LEFT OVERRIDE}" not in lines[1]


def test_errors_come_first_and_each_finding_once() -> None:
    findings = Findings()
    findings.warning(Place("a.md", 1), "late", "mend.")
    findings.error(Place("b.md", 2), "second", "mend.")
    findings.error(Place("b.md", 1), "first", "mend.")
    findings.error(Place("b.md", 1), "first", "mend.")
    assert [finding.cause for finding in findings] == ["first", "second", "late"]
    assert len(findings) == 3


def test_the_nearest_name_is_offered_whatever_its_case() -> None:
    assert nearest("LEAKS", ["carrots", "Leeks"]) == "Leeks"
    assert nearest("dandelions", ["carrots", "leeks"]) is None
    assert did_you_mean("ketle", ["kettle"], "else.") == 'write "kettle".'
    assert one_of(["a", "b", "c"]) == "a, b or c"


def test_a_marker_ends_where_its_line_is_cut() -> None:
    lines = shown("leaks " * 60, 200, 300)
    assert len(lines[2]) <= len(lines[1])
    assert lines[2].endswith("^")


def test_a_tab_within_the_culprit_is_one_mark() -> None:
    assert shown("a\tb", 1, 3)[2].split("| ")[1] == "^^^"


def test_an_empty_line_or_a_missing_file_is_shown_without_an_excerpt() -> None:
    assert shown("", 1) == ["recipes/bowl.md:9:1: error: it is wrong", "  mend: mend it."]


def test_a_no_break_space_of_an_amount_is_a_space_on_a_terminal() -> None:
    finding = Finding(Severity.WARNING, Place("a.md"), "3\N{NO-BREAK SPACE}cups is far", "check.")
    assert "3 cups is far" in described(finding)
