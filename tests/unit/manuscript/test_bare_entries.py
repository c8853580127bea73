"""Text that a comma cuts off within braces (YAML 1.2.2, 7.4.2: a key may lack its value)."""

from __future__ import annotations

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.checking import read_keys
from cookbook_build.manuscript.nodes import read_nodes
from cookbook_build.manuscript.schema import MealKeys, StoreKeys, TrialKeys
from cookbook_build.manuscript.source import Source


def mends(model: type, text: str) -> list[str]:
    """Return the mends of a group of keys."""
    findings = Findings()
    root = read_nodes(Source.of("a.yaml", text), findings, text)
    assert root is not None
    read_keys(model, root, findings, "this")
    return [finding.mend for finding in findings]


@pytest.mark.parametrize(
    ("model", "text", "line"),
    [
        (StoreKeys, "{dried: air, note: one, two, two}", 'note: "one, two, two"'),
        (StoreKeys, "{dried: air, note: one, one}", 'note: "one, one"'),
        (StoreKeys, "{dried: air, note: one,\n  two}", 'note: "one, two"'),
        (StoreKeys, '{dried: air, note: "one", two}', 'note: "one, two"'),
        (StoreKeys, "{dried: air, sliced}", "form: sliced"),
        (StoreKeys, "{dried: air, form: sliced, raw, also called: [x]}", '"raw: true"'),
        (StoreKeys, "{dried}", '"dried: freeze"'),
        (StoreKeys, "{dried: air, weighs: 60,5 g per cup}", '"weighs: 60.5 g per cup"'),
        (StoreKeys, "{dried: air, note: 60,5 g}", 'note: "60,5 g"'),
        (StoreKeys, "{dried: air, also called: a, b}", '"also called: [a, b]"'),
        (TrialKeys, "{date: 2026-03-02, water: 1 cup, right}", '"verdict: right"'),
        (MealKeys, "{day: 1, meal: supper, recipe: a, day:2}", '"day: 2"'),
        (MealKeys, "{recipe: a, day: 1, meal: supper, servings: 2, ours}", "a key before it"),
    ],
)
def test_what_a_comma_cut_off_is_told_once_with_its_line(model: type, text: str, line: str) -> None:
    (mend,) = mends(model, text)
    assert line in mend


@pytest.mark.parametrize(
    "text",
    ["{dried: air, note: }", "{dried: air, note: , form: a}", '{dried: air, "note" : "a, b"}'],
)
def test_a_key_with_its_colon_is_no_text(text: str) -> None:
    assert not mends(StoreKeys, text)
