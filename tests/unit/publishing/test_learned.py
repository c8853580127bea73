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
    assert "Main bowl: tested: 1 cup + 3 tbsp for 1 serving" in text
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
    records = demo().lessons.of_store("quick oats")
    trials = sum(record.keys is not None for record in records)
    assert f"{learned.mean * 100:.0f}\xa0%, give or take {learned.sd * 100:.0f}\xa0%" in text
    assert f"learned from {trials} trials and {len(records) - trials} test" in text
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
    said = " ".join(done.output.split())
    assert re.search(
        r"With celery instead of leeks, with 2 tbsp onions more in the main bowl: \d+ mL more", said
    )
    assert re.search(r"reckoned from 4 trials of the recipe as it is written: most", said)
    assert "learned from 1 trial and 1 test: most likely" in said  # the relish, as it was
    assert all(len(line) <= 78 for line in done.output.splitlines())


def test_a_change_of_a_tested_dish_is_not_called_untested(tmp_path: Path) -> None:
    small = {
        "book.yaml": "title: Bowls\n",
        "larder.yaml": "lentils: {food: lentils cooked, dried: freeze, cooked first: true}\n"
        "leeks: {food: leeks raw, dried: freeze, form: sliced}\n",
        "recipes/bowl.md": "---\ntitle: Bowl\ningredients: [1 cup lentils, 2 tbsp leeks]\n"
        "tested: {water: 3/4 cup, rest: 12 min}\n---\n",
    }
    (tmp_path / "recipes").mkdir()
    for name, text in small.items():
        (tmp_path / name).write_text(text)
    done = CliRunner().invoke(
        main, ["water", "bowl", "--book", str(tmp_path), "--add", "1/4 cup leeks"]
    )
    said = " ".join(done.output.split())
    assert "reckoned from the test of the recipe as it is written: most likely" in said
    assert "not yet tested" not in said


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--without", "leaks"), 'did you mean "leeks"'),
        (("--swap", "leeks"), 'write it like "leeks=onions"'),
        (("--swap", "=onions"), 'write it like "leeks=onions"'),
        (("--swap", "leeks=leeks"), '"leeks" and "leeks" are one store'),
        (("--swap", "oatcake=leeks"), "what a piece of leeks weighs is not known"),
        (("--swap", "black pepper=leeks"), "to taste, which measures nothing"),
        (("--add", "100000 cups leeks"), "more than any kitchen holds"),
        (("--add", "3000 cups leeks"), "more than any pot holds"),
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


BOWLS = {
    "book.yaml": "title: Bowls\n",
    "larder.yaml": "lentils: {food: lentils cooked, dried: freeze, cooked first: true}\n"
    "leeks: {food: leeks raw, dried: freeze, form: sliced}\n",
}


def bowls(folder: Path, trials: str) -> dict[str, BeautifulSoup]:
    """Return the pages of a book of one recipe with these trials."""
    recipe = "---\ntitle: Bowl\nconsistency: stew\ningredients: [1 cup lentils, 2 tbsp leeks]\n"
    recipe += f"tested: {{water: 1 cup, rest: 12 min}}\ntrials:\n{trials}---\n"
    (folder / "recipes").mkdir()
    for name, text in (BOWLS | {"recipes/bowl.md": recipe}).items():
        (folder / name).write_text(text)
    book = read_book(folder, Findings())
    assert book is not None
    pages = Pages(reckoned(book, Findings()), environment(theme_folder())).render()
    return {name: BeautifulSoup(text, "lxml") for name, text in pages if name.endswith("html")}


SLIPS = """\
  - {date: 2026-03-02, water: 1 cup, verdict: thick, added: 1 tbsp}
  - {date: 2026-05-02, water: 1 tbsp, verdict: right}
  - {date: 2026-04-02, water: 17 tbsp, verdict: right}
"""


def test_a_trial_left_out_is_crossed_in_the_plot_and_told_on_every_page(tmp_path: Path) -> None:
    pages = bowls(tmp_path, SLIPS)
    found = pages["recipes/bowl.html"].select_one("section.trials")
    assert found is not None
    (crossed,) = found.select(".plot .left-out")
    assert not crossed.select("circle, rect")
    assert "left out" in [text.get_text() for text in found.select(".plot .words text")]
    assert "crossed: left out, far from what all else lets expect" in " ".join(
        found.get_text().split()
    )
    days = [time.get_text() for time in found.select("ol time")]
    assert days == ["2026-05-02", "2026-04-02", "2026-03-02"]
    counted = "2 trials and 1 test, 1 left out"
    lessons = pages["learned.html"]
    assert f"{counted}: for 1 serving" in " ".join(found.get_text().split())
    assert counted in str(found.select_one("svg[aria-label]"))
    assert counted in pages["larder/leeks.html"].get_text()
    assert lessons.get_text().count(counted) == 1
    (item,) = lessons.select("#left-out ~ ul li")
    assert "Bowl: the trial of 2026-05-02" in item.get_text()
    assert "in the main bowl" not in item.get_text()
    assert "recipes/bowl.md, line 8" in item.get_text()


def test_many_trials_are_drawn_and_listed_in_part_and_all_are_counted(tmp_path: Path) -> None:
    rows = "".join(
        f"  - {{date: 2025-{1 + at // 28:02}-{1 + at % 28:02}, water: {238 + at % 5} mL, "
        "verdict: right}\n"
        for at in range(300)
    )
    found = bowls(tmp_path, rows)["recipes/bowl.html"].select_one("section.trials")
    assert found is not None
    assert len(found.select(".plot .mark")) == 24
    text = " ".join(found.get_text().split())
    assert "300 trials and 1 test: for 1 serving" in text
    assert "The newest 24; 277 earlier are counted and not drawn." in text
    assert len(found.select("section > ol > li")) == 12
    assert len(found.select("details ol > li")) == 288
    assert found.select_one("details summary")
    assert found.select("time")[0].get_text() == "2025-11-20"
    assert "give or take less than 1" in text or "give or take 1" in text


def test_a_store_of_which_trials_say_little_says_so(tmp_path: Path) -> None:
    pages = bowls(tmp_path, "  - {date: 2026-03-02, water: 17 tbsp, verdict: right}\n")
    assert "which say little of it yet; usual" in pages["larder/leeks.html"].get_text()
    assert "which say little" not in page("larder/quick-oats.html").get_text()
    assert "lentils drinks more, so far" in pages["learned.html"].get_text()
    told = [row.get_text() for row in pages["learned.html"].select("tbody th")]
    assert [words.split()[0] for words in told] == ["lentils"]  # leeks moved by next to nothing


def test_dates_of_several_years_tell_the_year(tmp_path: Path) -> None:
    rows = "".join(
        f"  - {{date: {year}-03-02, water: 17 tbsp, verdict: right}}\n"
        for year in (2024, 2025, 2026)
    )
    found = bowls(tmp_path, rows)["recipes/bowl.html"]
    words = [text.get_text() for text in found.select(".plot .words text")]
    assert words[-4:] == ["test", "2024-03", "2025-03", "2026-03"]


def test_a_plot_of_slips_alone_claims_to_have_learned_nothing(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    for name, text in BOWLS.items():
        (tmp_path / name).write_text(text)
    (tmp_path / "recipes/bowl.md").write_text(
        "---\ntitle: Bowl\nconsistency: stew\ningredients: [1 cup lentils]\n"
        "trials: [{date: 2026-03-02, water: 1 tbsp, verdict: right}]\n---\n"
    )
    book = read_book(tmp_path, Findings())
    assert book is not None
    pages = dict(Pages(reckoned(book, Findings()), environment(theme_folder())).render())
    text = " ".join(BeautifulSoup(pages["recipes/bowl.html"], "lxml").get_text().split())
    assert "Line and band: expected, " in text
    assert "no trial, 1 left out" in BeautifulSoup(pages["learned.html"], "lxml").get_text()


def test_what_is_added_is_added_to_the_recipe_as_it_is_written() -> None:
    done = CliRunner().invoke(
        main,
        ["water", "beetroot-soup", "--book", str(DEMO), "--add", "2 tbsp leeks (optional)",
         "--servings", "4"],
    )  # fmt: skip
    said = " ".join(done.output.split())
    serves = demo().dishes["beetroot-soup"].recipe.keys.serves
    assert serves != 4
    assert f"more for {serves} serving" in said
    assert "leeks is counted" not in said


def test_an_untested_recipe_names_the_free_water_that_it_was_reckoned_with() -> None:
    address = "squash-and-sweetcorn-supper"
    share = f"{100 * water(address)['components'][0]['phi']:.0f}\N{NO-BREAK SPACE}%"
    text = " ".join(page(f"recipes/{address}.html").get_text().split(" "))
    (said,) = set(re.findall(r"whose free water was taken as (.+?) of the restored mix", text))
    assert said == share
    assert share != "35\N{NO-BREAK SPACE}%"  # what is usual of a scoopable, before any trial
