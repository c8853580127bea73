"""Suggestions: what a cook would want to read, and no more of it."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.planning.suggestions import suggest

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.findings import Finding

STORES = ("leeks", "onions", "carrots", "peas", "celery", "apples")
LARDER = "".join(f"{name}: {{food: {name} raw, dried: freeze}}\n" for name in STORES)
LARDER += "salt: {food: salt, dried: bought}\n"
PICTURE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"/>\n'
WITH_PICTURE = "picture: bowl.svg\npicture text: A bowl.\n"
TESTED = "tested: {water: 1 cup}\n"


def meal(lines: str, keys: str = "", title: str = "A bowl") -> str:
    """Return a meal of some ingredients."""
    return f"---\ntitle: {title}\nconsistency: soup\ningredients: [{lines}]\n{keys}---\nPour.\n"


def said(
    folder: Path, meals: dict[str, str], today: dt.date | None = None, **files: str
) -> list[Finding]:
    """Return the suggestions for a book with some meals; it has no error."""
    texts = {"book.yaml": "title: A book\n", "larder.yaml": LARDER, "images/bowl.svg": PICTURE}
    texts |= {f"recipes/{name}.md": text for name, text in meals.items()}
    texts |= {name.replace("_", "."): text for name, text in files.items()}
    for name, text in texts.items():
        (folder / name).parent.mkdir(exist_ok=True, parents=True)
        (folder / name).write_text(text, encoding="utf-8", newline="\n")
    findings = Findings()
    book = read_book(folder, findings, today=today)
    assert book is not None
    reckoning = reckoned(book, findings)
    assert not findings.errors, [f.cause for f in findings]
    suggest(reckoning, findings)
    return findings.suggestions


def test_a_small_tested_book_is_left_in_peace(tmp_path: Path) -> None:
    assert not said(tmp_path, {"bowl": meal("1 cup leeks, 1/8 tsp salt", TESTED)})


def test_a_recipe_that_nobody_made_is_named_whatever_its_components(tmp_path: Path) -> None:
    tried = "trials: [{date: 2026-03-02, water: 1 cup, verdict: thick}]\n"
    part = "components: [{name: Top, ingredients: [2 tbsp onions], tested: {water: 2 tbsp}}]\n"
    found = said(
        tmp_path,
        {
            "new": meal("1/8 cup leeks"),
            "tested": meal("1 cup leeks", TESTED),
            "tried": meal("1 cup onions", tried),
            "topped": meal("2 tbsp leeks", part),
        },
    )
    assert [(f.place.path, f.place.line) for f in found if "tested" in f.cause] == [
        ("recipes/new.md", 2)
    ]


def test_a_reader_s_reply_counts_as_a_trial(tmp_path: Path) -> None:
    reply = (
        "Recipe: new\nDate: 2026-07-04\nMethod: kettle\nServings: 1\n"
        "Water poured: 1 cup\nIt was: right\n"
    )
    before = said(tmp_path, {"new": meal("1 cup leeks")})
    assert len(before) == 1
    (tmp_path / "replies").mkdir()
    (tmp_path / "replies/a.txt").write_text(reply, encoding="utf-8")
    assert not said(tmp_path, {"new": meal("1 cup leeks")})


def test_stores_to_weigh_are_one_suggestion_most_used_first(tmp_path: Path) -> None:
    meals = {
        "a": meal("1 cup leeks, 1 cup onions, 1/2 cup carrots, 1/4 cup celery", TESTED),
        "b": meal("1 cup leeks, 1 cup onions, 1/2 cup carrots, 1/4 cup celery", TESTED),
        "c": meal("1 cup onions, 2 tbsp apples, 1 tbsp leeks", TESTED),
        "d": meal("1 cup peas, 2 tbsp apples", TESTED),
    }
    meals = {name: text.replace("water: 1 cup", "water: 2 cups") for name, text in meals.items()}
    (finding,) = (f for f in said(tmp_path, meals) if f.place.path == "larder.yaml")
    assert "onions, carrots, celery and 1 more (3 meals measure onions so)" in finding.cause
    assert (finding.place.line, finding.place.column) == (2, 1)
    assert "weighs: 60 g per cup" in finding.mend
    few = {name: text for name, text in meals.items() if name != "d"}
    assert not said(tmp_path / "small", few)
    weighed = LARDER.replace("onions raw,", "onions raw, weighs: 60 g per cup,")
    (finding,) = (
        f for f in said(tmp_path, meals, larder_yaml=weighed) if f.place.path == "larder.yaml"
    )
    assert "for carrots, celery and leeks (2 meals measure carrots so)" in finding.cause


def test_pictures_are_missed_only_where_most_meals_have_one(tmp_path: Path) -> None:
    bare = meal("1/8 cup leeks", "tested: {water: 1/4 cup}\n")
    drawn = bare.replace("---\nPour", f"{WITH_PICTURE}---\nPour")
    shown = bare.replace("Pour.", "![A bowl](bowl.svg)")
    assert not said(tmp_path / "none", {"a": bare, "b": bare})
    assert not said(tmp_path / "half", {"a": bare, "b": drawn})
    found = said(tmp_path / "most", {"a": bare, "b": drawn, "c": shown})
    assert [(f.place.path, "no picture" in f.cause) for f in found] == [("recipes/a.md", True)]


def test_a_gap_in_a_series_is_named_once(tmp_path: Path) -> None:
    def part(text: str) -> str:
        return meal("1/8 cup leeks", f"tested: {{water: 1/4 cup}}\nseries: Bowls\n{text}")

    meals = {"a": part("part: 1\n"), "b": part("part: 3\n"), "c": part("part: 6\n")}
    (finding,) = said(tmp_path / "gap", meals)
    assert (finding.place.path, finding.cause) == (
        "recipes/b.md",
        'the series "Bowls" has a part 3 and no part 2',
    )
    assert finding.mend.startswith('write "part: 2"')
    (finding,) = said(tmp_path / "some", meals | {"d": part("")})
    assert finding.place.path == "recipes/d.md"
    assert "where 3 of 4 have one" in finding.cause
    assert '"part: 7"' in finding.mend
    assert not said(tmp_path / "none", {"a": part(""), "b": part("")})
    assert not said(tmp_path / "all", {"a": part("part: 2\n"), "b": part("part: 1\n")})


def test_lots_that_are_over_warn_while_the_shelf_is_kept_and_else_ask_for_a_look(
    tmp_path: Path,
) -> None:
    stock = "store,lot,packed on,container,grams\nleeks,L1,2016-03-02,jar,80\n"
    meals = {"bowl": meal("1 cup leeks", TESTED)}
    (finding,) = said(tmp_path, meals, dt.date(2026, 6, 1), stock_csv=stock)
    assert (finding.place.path, finding.place.line) == ("stock.csv", 2)
    assert "since 2016-03-02" in finding.cause
    assert "not of safety" in finding.mend
    (tmp_path / "stock.csv").write_text(stock + "onions,O1,2026-05-20,jar,90\n", encoding="utf-8")
    findings = Findings()
    book = read_book(tmp_path, findings, today=dt.date(2026, 6, 1))
    assert book is not None
    reckoned(book, findings)
    (warning,) = findings
    assert warning.severity == "warning"
    assert (warning.place.path, warning.place.line, warning.place.column) == ("stock.csv", 2, 7)
    assert "was at its best until" in warning.cause
    assert "neither before nor after it of safety" in warning.mend


def read(folder: Path, texts: dict[str, str]) -> Findings:
    """Return the findings of a book with some texts."""
    (folder / "recipes").mkdir()
    for name, text in texts.items():
        (folder / name).write_text(text, encoding="utf-8")
    findings = Findings()
    read_book(folder, findings)
    return findings


@pytest.mark.parametrize(("title", "column"), [("A bowl", 8), ("a  BOWL", 8)])
def test_two_recipes_with_one_title_warn_at_the_second(
    tmp_path: Path, title: str, column: int
) -> None:
    texts = {
        "book.yaml": "title: A book\n",
        "larder.yaml": LARDER,
        "recipes/a.md": meal("1 cup leeks"),
        "recipes/b.md": meal("1 cup leeks", title=title),
        "recipes/c.md": meal("1 cup leeks", title="A bowl of another kind"),
    }
    (finding,) = read(tmp_path, texts)
    assert finding.severity == "warning"
    assert (finding.place.path, finding.place.line, finding.place.column) == (
        "recipes/b.md", 2, column,
    )  # fmt: skip
    assert "recipes/a.md is called" in finding.cause


def test_two_recipes_with_one_part_warn_at_the_second(tmp_path: Path) -> None:
    keys = "tested: {water: 1 cup}\nseries: Bowls\npart: 1\n"
    texts = {
        "book.yaml": "title: A book\n",
        "larder.yaml": LARDER,
        "recipes/a.md": meal("1 cup leeks", keys),
        "recipes/b.md": meal("1 cup leeks", keys, "B bowl"),
        "recipes/c.md": meal("1 cup leeks", keys.replace("Bowls", "Cups"), "C bowl"),
    }
    (finding,) = read(tmp_path, texts)
    assert finding.severity == "warning"
    assert (finding.place.path, finding.place.line, finding.place.column) == ("recipes/b.md", 7, 7)
    assert '"A bowl" (recipes/a.md) is part 1 of the series "Bowls" too' in finding.cause
    assert '"part: 2"' in finding.mend
