"""A part that its author makes with cold water is made so by every way of the meal."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Final

import pytest

from cookbook_build.planning.camp import camp_cell, part_fuel_g, serving
from cookbook_build.planning.cautions import SoakCaution, dish_cautions
from cookbook_build.planning.heat import bowl_card, oven_rows
from cookbook_build.publishing.answers import answer, answer_lines
from cookbook_build.publishing.camp_views import camp_tables
from cookbook_build.publishing.epub_words import said_by_altitude, said_by_size
from cookbook_build.publishing.heat_views import heat_views
from cookbook_build.publishing.reasons import reasons
from cookbook_build.publishing.views import dish_answer

if TYPE_CHECKING:
    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.planning.reckoning import Reckoning

    Reckon = Callable[..., Reckoning]

ALLOWED_S = 7200.0
"""Two hours at room temperature: USDA FSIS, the two-hour rule."""
HOT: Final[tuple[Method, ...]] = ("kettle", "microwave", "stove")
MEAL = """\
---
title: Lentils under cream
consistency: stew
methods: [kettle, microwave, stove, cold]
ingredients:
  - 1 cup lentils
tested: {{method: kettle, water: 3/4 cup + 1 tbsp, rest: 12 min}}
components:
  - name: Cream
    cold: {cold}
    consistency: spread
    ingredients: [3 tbsp yogurt powder]
    tested: {{method: {method}, water: 1/4 cup, rest: {rest}}}
    trials:
      - {{date: 2026-05-16, method: kettle, servings: 2, water: 1/2 cup, verdict: right}}
---
Pour {{water}}; the cream stands {{rest: Cream}}.
"""


def meal(cold: str = "true", method: str = "cold", rest: str = "5 min") -> str:
    return MEAL.format(cold=cold, method=method, rest=rest)


@pytest.fixture
def kitchen(reckon: Reckon) -> Callable[..., tuple[Reckoning, Dish]]:
    def kitchen(text: str) -> tuple[Reckoning, Dish]:
        found = reckon(**{"recipes__bowls__lentil-bowl.md": text})
        return found, found.dishes["lentil-bowl"]

    return kitchen


Kitchen = Callable[..., "tuple[Reckoning, Dish]"]


def test_it_is_cold_by_every_way_and_its_clock_runs_from_the_pour(kitchen: Kitchen) -> None:
    _, dish = kitchen(meal())
    for method in HOT:
        bowl, cream = dish.waters(2, method)
        assert (bowl.method, cream.method) == (method, "cold")
        assert cream.eat_by_s == ALLOWED_S
        assert cream.hot_until_s == cream.loss_ml == 0
        assert cream.rest_s == pytest.approx(5 * 60, rel=0.01)
        assert bowl.eat_by_s > ALLOWED_S
        told = serving(dish.waters(2, method), method)
        assert told.eat_by_s - told.ready_s == pytest.approx(ALLOWED_S - cream.ready_s)
    hot = kitchen(meal(cold="false"))[1]
    assert serving(hot.waters(2, "kettle"), "kettle").eat_by_s > told.ready_s + ALLOWED_S - 300


def test_it_takes_no_fire(kitchen: Kitchen) -> None:
    _, dish = kitchen(meal())
    alone = kitchen(meal().split("components:")[0] + "---\nPour {water}.\n")[1]
    assert [row.heating_s for row in oven_rows(dish, 2)] == pytest.approx(
        [row.heating_s for row in oven_rows(alone, 2)], rel=0.02
    )
    for method in HOT:
        cell, bowl = camp_cell(dish, 2, method, None), dish.waters(2, method)[0]
        assert cell.part_fuel_g == (part_fuel_g(dish, bowl), 0.0)
        assert cell.part_boil_s[1] == 0
    assert bowl_card(dish, 2).covered[1] == bowl_card(dish, 2).bare[1] == dish.waters(2, "cold")[1]


def test_its_test_and_trials_count_as_cold_whatever_way_they_name(kitchen: Kitchen) -> None:
    assert (
        kitchen(meal(method="kettle"))[1].waters(1, "kettle")[1]
        == kitchen(meal(method="cold"))[1].waters(1, "kettle")[1]
    )


def test_the_test_of_a_cold_part_does_not_say_how_the_meal_is_made(kitchen: Kitchen) -> None:
    text = meal().replace("tested: {method: kettle, water: 3/4 cup + 1 tbsp, rest: 12 min}\n", "")
    assert kitchen(text)[1].default_method == "kettle"


def test_its_rows_say_what_holds_for_it(kitchen: Kitchen) -> None:
    found, dish = kitchen(meal())
    for card in heat_views(dish, (1, 2)):
        if card.method == "cold":
            continue
        group = card.table.groups[-1]
        assert group.name == "Cream, in cold drinking water"
        assert {row.name: row.cells[0].figures for row in group.rows} == {
            "Soak": ("5\N{NO-BREAK SPACE}min",),
            "Eat within": ("2\N{NO-BREAK SPACE}h",),
        }
    bowl = heat_views(dish, (1,))[0].table
    assert said_by_size(bowl)[-1].said[0].lines == (
        "Soak: 5\N{NO-BREAK SPACE}min.",
        "Eat within: 2\N{NO-BREAK SPACE}h.",
    )
    kettle, stove = (camp_tables(dish, found.book, (1,))[at] for at in (1, 0))
    for table, way in ((kettle, "kettle"), (stove, "stove")):
        place = said_by_altitude(table, way)[0]  # type: ignore[arg-type]
        line = place.said[0].lines[-1]
        assert line.startswith("Cream, cold: pour first")
        assert "boil" not in line
        assert "soak 5\N{NO-BREAK SPACE}min" in line


def test_the_answer_says_that_its_water_is_cold(kitchen: Kitchen) -> None:
    found, dish = kitchen(meal())
    for method in HOT:
        view = dish_answer(dish, found.book, 1, method)
        assert "Cream: cold drinking water, whatever the way." in view.method_line
        assert view.parts[1].rest_word == "Soak"
        told = answer(found, dish, 1, method, None)
        assert "Cream, with cold drinking water" in answer_lines(told)
        assert told["ready_at"]["temp_c"] > 40  # the bowl's, not the cream's
    assert "whatever" not in dish_answer(dish, found.book, 1, "cold").method_line
    words = [line for line in reasons(dish, "310 m") if line.startswith("Cream")]
    assert not any("steam" in line or "boils" in line for line in words)


def test_one_that_soaks_too_long_on_the_table_says_so(kitchen: Kitchen) -> None:
    _, dish = kitchen(meal(rest="3 h"))
    (caution,) = (c for c in dish_cautions(dish, 1, "kettle") if isinstance(c, SoakCaution))
    assert caution.component == "Cream"
    assert caution.too_long
    assert not any(
        isinstance(c, SoakCaution) for c in dish_cautions(kitchen(meal())[1], 1, "kettle")
    )
