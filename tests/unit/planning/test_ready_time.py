"""How long a dish takes, from cold water to the table."""

from __future__ import annotations

from pathlib import Path

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.camp import part_boil_s, ready_time, serving
from cookbook_build.planning.reckoning import Reckoning, reckoned

DEMO = Path(__file__).parents[3] / "content_demo"


@pytest.fixture(scope="module")
def demo() -> Reckoning:
    findings = Findings()
    book = read_book(DEMO, findings)
    assert book is not None
    return reckoned(book, findings)


def test_boiling_and_rest_together_are_the_whole_time(demo: Reckoning) -> None:
    for dish in demo.dishes.values():
        for method in dish.methods:
            taken = ready_time(dish, 2, method)
            ready_s = serving(dish.waters(2, method), method).ready_s
            assert taken.rest_s > 0, (dish.recipe.address, method)
            if method in {"stove", "microwave"}:  # heated with the mix in it
                assert taken.boil_s + taken.rest_s == pytest.approx(ready_s)
                assert 0 < taken.boil_s < ready_s
            else:
                assert taken.rest_s == pytest.approx(ready_s)
                assert (taken.boil_s > 0) == (method != "cold")


def test_burner_and_oven_take_the_rest_of_every_component(demo: Reckoning) -> None:
    supper = demo.dishes["barley-and-leek-supper"]
    waters = supper.waters(1, "stove")
    assert ready_time(supper, 1, "stove").rest_s == pytest.approx(sum(w.rest_s for w in waters))
    kettle = supper.waters(1, "kettle")
    assert ready_time(supper, 1, "kettle").rest_s == pytest.approx(max(w.rest_s for w in kettle))


def test_beside_a_jar_only_the_jar_is_boiled_for(demo: Reckoning) -> None:
    supper = demo.dishes["barley-and-leek-supper"]
    jar, *_ = supper.waters(1, "jar")
    assert ready_time(supper, 1, "jar").boil_s == pytest.approx(part_boil_s(supper, jar))
