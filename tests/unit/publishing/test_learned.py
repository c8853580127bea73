"""The trial plot, the page of lessons and what-if on the terminal, by their numbers."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner

from cookbook_build.cli import main
from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.lessons import part_name
from cookbook_build.planning.next_trials import next_trials
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.plots import BOTTOM, TOP, trial_plot
from cookbook_build.publishing.theme import environment, theme_folder

DEMO = Path(__file__).parents[3] / "content_demo"


@cache
def demo() -> Reckoning:
    findings = Findings()
    book = read_book(DEMO, findings)
    assert book is not None
    return reckoned(book, findings)


@cache
def page(name: str) -> BeautifulSoup:
    pages = dict(Pages(demo(), environment(theme_folder())).render())
    return BeautifulSoup(pages[name], "lxml")


def water(*words: str) -> Any:  # noqa: ANN401 - JSON
    done = CliRunner().invoke(main, ["water", *words, "--book", str(DEMO), "--json"])
    assert done.exit_code == 0, done.output
    return json.loads(done.output)


def test_the_demo_has_trials_that_show_it_well() -> None:
    lessons = demo().lessons
    verdicts = {record.trial.verdict for record in lessons.records}
    methods = {record.trial.method for record in lessons.records if record.keys}
    assert verdicts == {"right", "thick", "thin"}
    assert len(methods) == 5
    assert not lessons.learned.left_out
    assert sum(len(lessons.of_store(store)) > 4 for store in demo().stores) >= 5


def test_each_mark_stands_where_its_trial_says() -> None:
    dish = demo().dishes["barley-and-leek-supper"]
    part = dish.parts[0]
    plot = trial_plot(dish, part, demo().lessons)
    assert plot is not None
    records = [r for r in demo().lessons.records if r.name == part_name(dish, part) and r.keys]
    assert len([mark for mark in plot.marks if mark.shape != "test"]) == len(records)
    by_water = sorted(records, key=lambda record: record.per_serving_ml)
    by_height = sorted((m for m in plot.marks if m.shape != "test"), key=lambda m: -float(m.y))
    assert [record.trial.verdict for record in by_water] == [mark.shape for mark in by_height]
    for mark in plot.marks:
        assert TOP - 0.1 <= float(mark.high) <= float(mark.y) <= float(mark.low) <= BOTTOM + 0.1
    assert TOP <= float(plot.band_top) <= float(plot.mean_y) <= BOTTOM
    assert len(plot.ticks) in range(2, 7)


def test_a_component_without_trials_has_no_plot() -> None:
    silent = [(dish, part) for dish in demo().dishes.values() for part in dish.parts]
    silent = [(dish, part) for dish, part in silent if not part.trials]
    assert silent
    assert all(trial_plot(dish, part, demo().lessons) is None for dish, part in silent)


def test_the_page_of_a_recipe_shows_trials_plot_and_the_test_beside_them() -> None:
    found = page("recipes/barley-and-leek-supper.html").select_one("section.trials")
    assert found is not None
    assert found.select_one("figure.plot svg[role=img][aria-label]") is not None
    text = " ".join(found.get_text(" ").split())
    assert "Tested: 1 cup + 3 tbsp for 1 serving" in text
    answer = water("barley-and-leek-supper", "--method", "kettle", "--servings", "1")
    words = answer["components"][0]["measures"]
    assert f"pour {words['start']}, keep {words['hold_back']} back" in found.get_text(" ").replace(
        "\n", " "
    )


def test_the_page_of_lessons_has_stores_untested_recipes_and_the_next_trial() -> None:
    found = page("learned.html")
    rows = {
        tr.th.a.get_text(): [td.get_text() for td in tr.select("td")]  # type: ignore[union-attr]
        for tr in found.select(".lessons table tbody tr")
    }
    learned = demo().lessons.learned.of("quick oats")
    assert learned is not None
    assert rows["quick oats"][:2] == [
        "85\xa0% ± 12\xa0%", f"{learned.mean * 100:.0f}\xa0% ± {learned.sd * 100:.0f}\xa0%",
    ]  # fmt: skip
    untested = {a.get_text() for a in found.select("#untested ~ ul a")}
    assert untested == {
        dish.recipe.keys.title
        for dish in demo().dishes.values()
        if not dish.is_tested and not any(part.trials for part in dish.parts)
    }
    first = found.select_one("#next ~ ol a")
    assert first is not None
    assert first.get_text() == next_trials(demo())[0].dish.recipe.keys.title


def test_a_store_says_what_was_learned_of_it_beside_what_is_usual() -> None:
    text = page("larder/quick-oats.html").get_text(" ")
    learned = demo().lessons.learned.of("quick oats")
    assert learned is not None
    trials = len(demo().lessons.of_store("quick oats"))
    assert f"{learned.mean * 100:.0f}\xa0%, give or take {learned.sd * 100:.0f}\xa0%" in text
    assert f"learned from {trials} trials" in text
    assert "usual for its kind: 85\xa0%, give or take 12\xa0%" in text


def test_the_page_tells_what_leaving_out_the_optional_spares() -> None:
    notes = page("recipes/barley-and-leek-supper.html").select(".mix .note")
    spans = {
        choice: span.get_text()
        for note in notes
        for span in note.select("[data-on]")
        for choice in str(span["data-on"]).split()
    }
    change = water(
        "barley-and-leek-supper", "--without", "yogurt powder", "--servings", "3",
        "--method", "stove",
    )["what_if"]  # fmt: skip
    assert spans["3-stove"] == f"{-change['change_ml']:.0f}\xa0mL"


def test_what_if_on_the_terminal_says_how_much_more_or_less() -> None:
    done = CliRunner().invoke(
        main,
        [
            "water", "barley-and-leek-supper", "--book", str(DEMO),
            "--add", "2 tbsp onions", "--swap", "leeks=celery",
        ],
    )  # fmt: skip
    assert done.exit_code == 0, done.output
    assert re.search(r"2 tbsp onions more: \d+\smL more\s+water than as\s+written", done.output)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--without", "leaks"), 'did you mean "leeks"'),
        (("--swap", "leeks"), 'write it like "leeks=onions"'),
        (("--swap", "=onions"), 'write it like "leeks=onions"'),
        (("--add", "2 tbsp unicorn"), 'there is no store called "unicorn"'),
        (("--add", ""), "mend"),
    ],
)
def test_a_change_that_can_not_be_is_a_wrong_use(words: tuple[str, ...], said: str) -> None:
    done = CliRunner().invoke(
        main, ["water", "barley-and-leek-supper", "--book", str(DEMO), *words]
    )
    assert done.exit_code == 2, done.output
    assert said in done.output or said == "mend"
    assert "Traceback" not in done.output


def test_a_component_of_optional_things_only_still_has_its_page(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "book.yaml").write_text("title: All optional\n")
    (tmp_path / "larder.yaml").write_text("oats: {food: oats, dried: bought}\n")
    (tmp_path / "recipes" / "bowl.md").write_text(
        "---\ntitle: Bowl\ningredients: [1 cup oats (optional)]\n---\n"
    )
    findings = Findings()
    book = read_book(tmp_path, findings)
    assert book is not None
    pages = dict(Pages(reckoned(book, findings), environment(theme_folder())).render())
    assert "Bowl" in pages["recipes/bowl.html"]
