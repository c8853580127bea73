"""The demo book, walked whole: every recipe, method and serving size."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.measures.spoons import pour
from cookbook_build.measures.units import SYSTEMS, System
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.theme import environment, theme_folder
from cookbook_build.publishing.views import serving_sizes

if TYPE_CHECKING:
    from cookbook_build.planning.dishes import Dish

DEMO = Path(__file__).parents[3] / "content_demo"


@pytest.fixture(scope="module")
def demo() -> Reckoning:
    findings = Findings()
    book = read_book(DEMO, findings)
    assert book is not None
    found = reckoned(book, findings)
    assert not len(findings), "a clean book gives no finding"
    return found


def dishes(demo: Reckoning) -> list[Dish]:
    return list(demo.dishes.values())


def test_the_demo_holds_what_a_demo_should(demo: Reckoning) -> None:
    recipes = demo.book.recipes.values()
    assert len(recipes) >= 14
    assert len(demo.book.bases) == 2
    assert len(demo.book.book.series) == 3
    assert len(demo.stores) >= 30
    assert any(len(dish.parts) > 1 for dish in dishes(demo))
    assert any(dish.has_optional for dish in dishes(demo))
    assert any(dish.raw_stores for dish in dishes(demo))
    assert any(not dish.is_tested for dish in dishes(demo))
    assert any(store.store.keys.dried == "air" for store in demo.stores.values())


def test_water_is_the_sum_of_its_parts_and_rises_with_servings(demo: Reckoning) -> None:
    for dish in dishes(demo):
        for method in dish.methods:
            for at in range(len(dish.parts)):
                waters = [dish.waters(size, method)[at] for size in range(1, 9)]
                for water in waters:
                    parts = water.uptake_ml + water.free_ml + water.loss_ml
                    assert water.total_ml == pytest.approx(parts, abs=1e-9)
                    assert 0 < water.start_ml < water.start_ml + water.hold_back_ml
                totals = [water.total_ml for water in waters]
                assert totals == sorted(totals)
                assert [w.start_ml for w in waters] == sorted(w.start_ml for w in waters)


@pytest.mark.parametrize("system", sorted(SYSTEMS))
def test_shown_water_rises_with_servings_and_adds_up(demo: Reckoning, system: System) -> None:
    for dish in dishes(demo):
        for method in dish.methods:
            for at in range(len(dish.parts)):
                waters = [dish.waters(size, method)[at] for size in serving_sizes(dish, demo.book)]
                shown = [pour(w.start_ml, w.hold_back_ml, system) for w in waters]
                assert all(s.start.ml + s.hold_back.ml == s.together.ml for s in shown)
                assert all(part.parts for s in shown for part in (s.start, s.hold_back, s.together))
                starts = [s.start.ml for s in shown]
                sums = [s.together.ml for s in shown]
                assert starts == sorted(starts), (dish.recipe.address, method)
                assert sums == sorted(sums), (dish.recipe.address, method)


def test_each_tested_amount_comes_back_exactly(demo: Reckoning) -> None:
    for dish in dishes(demo):
        for at, part in enumerate(dish.parts):
            tested = part.mix.tested
            if tested is None or part.trials:  # with trials of its own the posterior speaks
                continue
            water = dish.waters(int(tested.servings), tested.method)[at]
            assert water.total_ml == pytest.approx(tested.water_ml, abs=1e-6)
            assert water.rest_s == pytest.approx(tested.rest_s, abs=1e-6)


def test_two_renderings_are_the_same_to_the_byte(demo: Reckoning) -> None:
    first, second = (dict(Pages(demo, environment(theme_folder())).render()) for _ in range(2))
    assert first == second


def test_html_in_the_authors_text_stays_text(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "book.yaml").write_text("title: <script>alert(1)</script>\n")
    (tmp_path / "larder.yaml").write_text(
        '"<b>oats</b>": {food: oats, dried: bought, form: "<i>x</i>"}\n'
    )
    (tmp_path / "recipes" / "bowl.md").write_text(
        '---\ntitle: "<img src=x onerror=alert(1)>"\nblurb: "{{ 7 * 7 }}"\ningredients:\n'
        "  - 1 cup <b>oats</b>\n---\n<script>alert(2)</script> {{ 6 * 7 }} {water}\n"
    )
    findings = Findings()
    book = read_book(tmp_path, findings)
    assert book is not None
    pages = dict(Pages(reckoned(book, findings), environment(theme_folder())).render())
    for name, text in pages.items():
        if name.endswith(".html"):
            for tag in ("<script>", "<img src=x", "<b>oats", "<i>x"):
                assert tag not in text, name
    assert "{{ 7 * 7 }}" in pages["recipes/bowl.html"]
