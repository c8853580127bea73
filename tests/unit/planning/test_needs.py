"""What a meal can't be made without, and what it only holds."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.needs import held_stores, needed_stores
from cookbook_build.planning.reckoning import reckoned

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.planning.dishes import Dish

LARDER = """
oats: {food: oats, dried: bought}
salt: {food: salt, dried: bought}
apples: {food: apples raw, dried: freeze}
oil: {food: olive oil, dried: fresh}
"""


def dish_of(folder: Path, *lines: str) -> Dish:
    (folder / "recipes").mkdir()
    (folder / "book.yaml").write_text("title: A book\n")
    (folder / "larder.yaml").write_text(LARDER)
    ingredients = "".join(f"  - {line}\n" for line in lines)
    (folder / "recipes/bowl.md").write_text(
        f"---\ntitle: Bowl\ningredients:\n{ingredients}---\nPour {{water}}.\n"
    )
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    return reckoned(book, findings).dishes["bowl"]


@pytest.mark.parametrize(
    "line",
    ["1 tbsp apples", "1 tbsp apples (per pot)", "1 tsp oil", "1 tsp oil (fresh)", "1 dash salt"],
)
def test_what_is_measured_is_needed(tmp_path: Path, line: str) -> None:
    dish = dish_of(tmp_path, "1/2 cup oats", line)
    assert len(held_stores(dish)) == 2
    assert needed_stores(dish) == held_stores(dish)


@pytest.mark.parametrize(
    "line", ["1 tbsp apples (optional)", "1 tsp oil (fresh) (optional)", "salt, to taste"]
)
def test_what_may_be_left_out_is_held_and_not_needed(tmp_path: Path, line: str) -> None:
    dish = dish_of(tmp_path, "1/2 cup oats", line)
    assert len(held_stores(dish)) == 2
    assert needed_stores(dish) == ("oats",)


def test_a_store_that_is_optional_here_and_not_there_is_needed(tmp_path: Path) -> None:
    dish = dish_of(tmp_path, "1/2 cup oats", "1 tbsp oats (optional)")
    assert needed_stores(dish) == ("oats",)
