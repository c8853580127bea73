"""A recipe is read again only where its text is another, with the same findings."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.manuscript.recipes import read_recipe
from cookbook_build.steady import Steady

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.manuscript.recipes import Recipe
    from cookbook_build.manuscript.source import Source


@pytest.fixture
def read(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Return the paths of the recipes that are really read, as they are."""
    paths: list[str] = []

    def counted(source: Source, findings: Findings) -> Recipe | None:
        paths.append(source.path)
        return read_recipe(source, findings)

    monkeypatch.setattr("cookbook_build.manuscript.collection.read_recipe", counted)
    return paths


def test_only_a_changed_file_is_read_again_and_findings_stay(
    small_book: Path, read: list[str]
) -> None:
    broth = small_book / "recipes/leek-broth.md"
    broth.write_text(broth.read_text(encoding="utf-8").replace("soup", "sop"), encoding="utf-8")
    steady, found = Steady(), []
    for _ in range(3):
        findings = Findings()
        read_book(small_book, findings, steady=steady)
        found.append(findings.gathered)
    assert sorted(read) == ["recipes/leek-broth.md", "recipes/suppers/lentil-bowl.md"]
    assert found[0]
    assert found[0] == found[1] == found[2]
    broth.write_text(broth.read_text(encoding="utf-8").replace("sop", "soup"), encoding="utf-8")
    findings = Findings()
    read_book(small_book, findings, steady=steady)
    assert not findings.gathered
    assert read.count("recipes/leek-broth.md") == 2


def test_a_book_whose_decimal_mark_is_a_comma_reads_its_numbers_anew(
    small_book: Path, read: list[str]
) -> None:
    steady = Steady()
    for language in ("en", "es", "es"):
        keys = f"title: River shelf\nlanguage: {language}\n"
        (small_book / "book.yaml").write_text(keys, encoding="utf-8")
        read_book(small_book, Findings(), steady=steady)
    assert read.count("recipes/leek-broth.md") == 2
