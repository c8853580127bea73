"""The benchmark with a small book: right in what it makes and compares, whatever the clock says."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.benchmarks.edits import EDITS, recipes_of
from tests.benchmarks.measuring import Cost, Costs
from tests.benchmarks.ratios import COLD, FLOOR, FOLDER, PREVIEW, ROWS, Size, growth, table
from tests.benchmarks.synthetic_book import files_of, written_book
from tests.folders import differing, held

HERE = Path(__file__).parent
RECIPES = 6  # a bind takes seconds, and this needs nine; one recipe of six has a component


@pytest.fixture(scope="module")
def ran(tmp_path_factory: pytest.TempPathFactory) -> tuple[subprocess.CompletedProcess[str], Any]:
    """Return what the benchmark printed for a small book, and its figures."""
    figures = tmp_path_factory.mktemp("figures") / "ratios.json"
    size = ["--recipes", str(RECIPES), "--runs", "1", "--edits", "2"]
    done = subprocess.run(  # noqa: S603 - our own script
        [sys.executable, str(HERE / "bench.py"), *size, "--check", "--json", str(figures)],
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert figures.is_file(), done.stderr
    return done, json.loads(figures.read_text(encoding="utf-8"))


def test_after_each_edit_the_book_is_as_bound_anew(
    ran: tuple[subprocess.CompletedProcess[str], Any],
) -> None:
    done, figures = ran
    # the book has no errors, or the benchmark had ended there
    assert figures["unlike"] == {str(RECIPES): {edited: [] for edited in ("unchanged", *EDITS)}}
    assert done.returncode == 0, done.stderr


def test_the_table_has_every_row(ran: tuple[subprocess.CompletedProcess[str], Any]) -> None:
    done, figures = ran
    (size,) = figures["sizes"]
    assert list(size["rows"]) == list(ROWS.values())
    lines = done.stdout.splitlines()
    assert lines[0] == f"{RECIPES} recipes"
    for what, line in zip(ROWS, lines[2:], strict=False):
        assert line.startswith(what)
        assert size["rows"][ROWS[what]]["seconds"] > 0


def test_each_edit_is_seen_in_the_book_and_no_two_are_alike(tmp_path: Path) -> None:
    written_book(tmp_path, 3)
    seen = [held(tmp_path)]
    for _ in range(12):
        for edited, edit in EDITS.items():
            edit(tmp_path)
            seen.append(held(tmp_path))
            (changed,) = differing(seen[-2], seen[-1])
            part = {"words": "recipe"}.get(edited, edited)
            assert part in changed.split("/")[0].removesuffix("s.yaml")


def test_what_differs_between_two_folders_is_named() -> None:
    one = {"index.html": b"a", "larder.html": b"b", "old.html": b"c"}
    other = {"index.html": b"a", "larder.html": b"B", "new.html": b"c"}
    assert differing(one, other) == ["larder.html", "new.html", "old.html"]


def test_the_floor_writes_a_page_of_the_same_size_for_each_recipe(tmp_path: Path) -> None:
    written_book(tmp_path / "book", RECIPES)
    asked = {
        f"{file.stem}.html": 20_000 + 917 * at
        for at, file in enumerate(recipes_of(tmp_path / "book"))
    }
    plan = [
        (str(file), str(tmp_path / "out" / f"{file.stem}.html"), asked[f"{file.stem}.html"])
        for file in recipes_of(tmp_path / "book")
    ]
    plan.append((str(tmp_path / "book/larder.yaml"), str(tmp_path / "out/larder.html"), 15_000))
    (tmp_path / "plan.json").write_text(json.dumps(plan), encoding="utf-8")
    floor = [sys.executable, str(HERE / "floor.py"), str(tmp_path / "plan.json")]
    subprocess.run(floor, check=True)  # noqa: S603 - our own script
    made = {path.name: len(path.read_bytes()) for path in (tmp_path / "out").iterdir()}
    assert len(made) == RECIPES + 1
    assert made == {**asked, "larder.html": 15_000}


@pytest.mark.parametrize("recipes", [30, 120])
def test_a_synthetic_book_is_the_same_each_time_and_has_what_a_book_has(recipes: int) -> None:
    files = dict(files_of(recipes))
    assert files == dict(files_of(recipes))
    assert files != dict(files_of(recipes, seed=2))
    meals = [str(text) for name, text in files.items() if name.startswith("recipes/")]
    titles = {text.split("title: ")[1].split("\n")[0] for text in meals}
    assert len(meals) == len(titles) == recipes
    assert len([name for name in files if name.startswith("menus/")]) == -(-recipes // 50)
    ingredients = [
        text.split("ingredients:\n")[1].split("tested")[0].count("  - ") for text in meals
    ]
    assert min(ingredients) >= 4
    assert max(ingredients) <= 9
    assert {text.count("verdict:") for text in meals} == {0, 1, 2, 3}
    assert sum("components:" in text for text in meals) == recipes // 6
    steps = [text.split("## Make ready")[1].split("## Notes")[0].count(". ") for text in meals]
    assert all("{water}" in text and "{rest}" in text for text in meals)
    assert min(steps) >= 3
    assert 40 <= str(files["larder.yaml"]).count("food: ") <= 80


def test_one_recipe_in_five_has_a_picture_where_pictures_are_asked_for() -> None:
    shown = {name: data for name, data in files_of(10, pictures=True) if name.startswith("images/")}
    assert len(shown) == 2
    assert all(isinstance(data, bytes) for data in shown.values())
    assert {data[:3] for data in shown.values()} == {b"\xff\xd8\xff"}  # a JPEG: ISO/IEC 10918-1


def test_goals_are_judged_by_the_floor_and_growth_by_both_sizes() -> None:
    def costs(seconds: float, peak_mb: float | None) -> Costs:
        return Costs((Cost(seconds, seconds, peak_mb),))

    small = Size(
        1_000,
        {
            FLOOR: costs(2, 50),
            FOLDER: costs(2, 100),
            COLD: costs(4.1, 101),
            PREVIEW: costs(0.149, None),
        },
    )
    large = Size(10_000, {FLOOR: costs(20, 50), FOLDER: costs(22.1, 500), COLD: costs(41, 700)})
    folder, cold, preview = list(table(small))[3:]
    assert folder.count(": met") == 2
    assert cold.count(": not met") == 2
    assert preview.count(": met") == 1
    head, floor, folder, cold = growth([small, large])
    assert "1,000 to 10,000" in head
    assert "goal" not in floor
    assert "11.05 (goal 11: not met)" in folder
    assert "5.00 (goal 6: met)" in folder
    assert "10.00 (goal 11: met)" in cold
    assert "6.93 (goal 6: not met)" in cold
    assert not list(growth([small]))
