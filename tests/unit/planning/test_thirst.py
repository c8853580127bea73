"""A label that does not say what it drinks is asked, where a meal's water hangs on it alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.findings import Finding

FIGURES = "per: 100 g, energy: 330 kcal, protein: 9 g, fat: 4 g, carbohydrate: 62 g"
PORCINI = f"porcini: {{label: {{{FIGURES}}}, dried: bought, weighs: 27 g per cup}}\n"
LEEKS = "leeks: {food: leeks raw, dried: freeze, form: sliced}\n"
STEW = "---\ntitle: Porcini stew\nconsistency: stew\ningredients:\n  - 1 cup porcini\n---\nPour.\n"


def warned(folder: Path, larder: str, stew: str) -> list[Finding]:
    """Return the warnings of a book of one meal."""
    (folder / "recipes").mkdir()
    (folder / "book.yaml").write_text("title: Ours\n", encoding="utf-8", newline="\n")
    (folder / "larder.yaml").write_text(larder, encoding="utf-8", newline="\n")
    (folder / "recipes" / "stew.md").write_text(stew, encoding="utf-8", newline="\n")
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    reckoned(book, findings)
    assert not findings.errors
    return findings.warnings


def test_a_label_that_says_nothing_of_what_it_drinks_is_asked(tmp_path: Path) -> None:
    (found,) = warned(tmp_path, PORCINI, STEW)
    assert (found.place.path, found.place.line, found.place.column) == ("larder.yaml", 1, 11)
    assert '"porcini" is taken to drink no water' in found.cause
    assert 'nothing else in "Porcini stew" drinks any' in found.cause
    assert 'add "restored moisture: 70 %"' in found.mend
    assert 'add "restored moisture: 5 %"' in found.mend


@pytest.mark.parametrize("share", ["70 %", "5 %"])
def test_either_line_of_the_mend_answers_it(tmp_path: Path, share: str) -> None:
    said = PORCINI.replace("62 g}", f"62 g, restored moisture: {share}}}")
    assert not warned(tmp_path, said, STEW)


@pytest.mark.parametrize("key", ["moisture", "restored moisture"])
def test_a_food_that_is_all_water_is_a_finding(tmp_path: Path, key: str) -> None:
    (tmp_path / "book.yaml").write_text("title: Ours\n", encoding="utf-8", newline="\n")
    said = PORCINI.replace("62 g}", f"62 g, {key}: 100 %}}")
    (tmp_path / "larder.yaml").write_text(said, encoding="utf-8", newline="\n")
    findings = Findings()
    book = read_book(tmp_path, findings)
    assert book is not None
    reckoned(book, findings)
    (found,) = [error for error in findings.errors if error.place.path == "larder.yaml"]
    assert found.cause.startswith('"100 %" says that all of it is water')
    assert found.place.excerpt[found.place.column - 1 :].startswith("100 %")
    assert "70 %" in found.mend


@pytest.mark.parametrize(
    ("larder", "stew"),
    [
        (PORCINI + LEEKS, STEW.replace("porcini\n", "porcini\n  - 1 cup leeks\n")),
        (PORCINI, STEW.replace("---\nPour", "tested: {water: 1 cup}\n---\nPour")),
        (PORCINI, STEW.replace("stew\nin", "drink\nin")),
        (PORCINI.replace("weighs", "form: powder, weighs"), STEW),
    ],
    ids=["beside what drinks", "tested", "a drink", "a powder"],
)
def test_where_it_says_itself_or_drinks_none_nothing_is_asked(
    tmp_path: Path, larder: str, stew: str
) -> None:
    assert not [w for w in warned(tmp_path, larder, stew) if "to drink" in w.cause]
