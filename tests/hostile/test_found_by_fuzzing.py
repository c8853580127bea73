"""Texts that broke a reader once, found by a guided fuzzer, cut down to what did it."""

from __future__ import annotations

import pytest

from cookbook_build.findings import Findings, described
from cookbook_build.manuscript.recipes import read_recipe
from cookbook_build.manuscript.source import Source

BROKE = {
    "words without a colon within an entry that is refused":
        "title: A\ncomponents:\n  - &a {name: b, tested: {windy, lid off}}\n",
    "words without a colon within a key that is refused":
        "title: A\ntested: &a {water: {windy, lid off}}\n",
    "a key twice, the second time unreadable":
        "title: A\ntrials:\n  - {date: 2026-02-07, windy}\nblurb: b\ntrials:\n  - {date: 2\n",
}  # fmt: skip


@pytest.mark.parametrize("name", BROKE)
def test_it_ends_in_findings(name: str) -> None:
    findings = Findings()
    read_recipe(Source.of("recipes/a.md", f"---\n{BROKE[name]}---\nSo.\n"), findings)
    assert findings.errors
    assert all(map(described, findings))
