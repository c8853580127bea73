"""What was computed of a meal is known again, and only while nothing that it hangs on differs."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Final

import pytest

from cookbook_build.digests import Digests
from cookbook_build.findings import Findings, Place
from cookbook_build.kept import Kept
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.known import Known
from cookbook_build.planning.lessons import taught_dishes
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.planning.telling import STANDS_FOR

DEMO: Final = Path(__file__).parents[3] / "content_demo"
TRIED = (
    "---\ntitle: Leek broth\nconsistency: soup\ningredients:\n  - 1/2 cup leeks\n"
    "  - 1/4 cup lentils\ntested: {method: kettle, water: 1 cup, rest: 10 min}\n"
    "trials:\n  - {date: 2026-03-01, method: kettle, servings: 1, water: 1 1/8 cups, "
    "verdict: thick}\n"
    "---\nPour {water}, and wait {rest}.\n"
)


def test_it_computes_once_and_gives_plain_data_as_it_was(tmp_path: Path) -> None:
    asked: list[int] = []

    def compute() -> list[Any]:
        asked.append(1)
        return [0.1 + 0.2, None, "é", [1, 5e-324, 1.7976931348623157e308]]

    first = Known(Kept(tmp_path)).of("a", ("leeks", 1.5), compute)
    again = Known(Kept(tmp_path)).of("a", ("leeks", 1.5), compute)
    assert first == again == compute()
    assert len(asked) == 2  # once by it, once by this test
    Known(Kept(tmp_path)).of("a", ("leeks", 1.6), compute)
    Known(Kept(tmp_path)).of("b", ("leeks", 1.5), compute)
    assert len(asked) == 4


def test_without_a_folder_it_computes_each_time() -> None:
    asked: list[int] = []
    for _ in range(3):
        Known().of("a", ("leeks",), lambda: asked.append(1))
    assert len(asked) == 3


def test_findings_come_back_as_they_were(tmp_path: Path) -> None:
    def judge(findings: Findings) -> None:
        findings.warning(Place("recipes/a.md", 3, 2, 4, "- 1 cup “leeks”"), "is far", "look.")
        findings.error(Place("larder.yaml"), "is not", "write.")

    plain, kept, again = Findings(), Findings(), Findings()
    judge(plain)
    Known(Kept(tmp_path)).judge("a", (), judge, kept)
    Known(Kept(tmp_path)).judge("a", (), lambda _: pytest.fail("it was known"), again)
    assert plain.gathered == kept.gathered == again.gathered


def test_a_book_is_reckoned_the_same_with_what_is_known(small_book: Path, tmp_path: Path) -> None:
    (small_book / "recipes/leek-broth.md").write_text(TRIED, encoding="utf-8")
    found = []
    for known in (Known(), Known(Kept(tmp_path / "kept")), Known(Kept(tmp_path / "kept"))):
        findings = Findings()
        book = read_book(small_book, findings)
        assert book is not None
        reckoning = reckoned(book, findings, known)
        records = reckoning.lessons.records
        found.append((list(findings), [record.equation for record in records]))
        assert records
    assert found[0] == found[1] == found[2]


def test_what_a_slice_knows_of_lessons_teaches_as_the_whole_does(small_book: Path) -> None:
    (small_book / "recipes/leek-broth.md").write_text(TRIED, encoding="utf-8")
    findings = Findings()
    book = read_book(small_book, findings)
    assert book is not None
    reckoning = reckoned(book, findings)
    meals, lessons = taught_dishes(reckoning.dishes, reckoning.stores, book, Known())
    learned = lessons.learned
    for dish in meals.values():
        for part in dish.parts:
            stores = {line.store.name for line in part.lines}
            name, consistency = f"{dish.recipe.address}/{part.name}", part.mix.consistency
            own = learned.only(stores | {f":{consistency.name}"}, [name])
            assert own.free_ratio(name, consistency) == learned.free_ratio(name, consistency)
            for store in stores:
                assert own.of(store) == learned.of(store)


def test_of_a_dish_only_that_is_not_told_which_the_text_of_its_recipe_decides() -> None:
    findings = Findings()
    book = read_book(DEMO, findings)
    assert book is not None
    dishes = reckoned(book, findings).dishes
    for dish in dishes.values():
        assert [part.text for part in dish.parts] == list(dish.recipe.components)
        for part in dish.parts:
            assert [line.ingredient for line in part.lines] == list(part.text.ingredients)
            assert all(line.ingredient.store == line.store.name for line in part.lines)
    assert len({Digests(STANDS_FOR).of(dish) for dish in dishes.values()}) == len(dishes)
