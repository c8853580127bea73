"""What a menu still has to dry: how long, what takes no tray, and a household without a dryer."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from cookbook_build.planning.loading import Loading
    from cookbook_build.planning.reckoning import Reckoning

BOOK = "title: A book\naltitude: 310 m\n"
KIT = BOOK + "kit: {dryer: {trays: 4, tray load: 900 g, ice: 4 kg, removes: 110 g per h}}\n"
LARDER = """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
carrots: {food: carrots raw, dried: air, weighs: 58 g per cup}
honey: {food: honey, dried: freeze, weighs: 300 g per cup}
plum sauce: {from: bases/plum-sauce, dried: freeze, form: crumbs, weighs: 74 g per cup}
"""
BOWL = "---\ntitle: Bowl\nconsistency: stew\ningredients: [{}]\n---\n"
MENU = "title: M\nmeals: [{day: 1, meal: supper, recipe: bowl}]\n"
LOG = "date,store,lot,fresh g,dry g,hours,trays\n"
HANDFUL = "2 tbsp lentils"


@pytest.fixture
def loaded(reckon: Callable[..., Reckoning]) -> Callable[..., Loading]:
    def load(ingredients: str, book: str = KIT, log: str = "") -> Loading:
        found = reckon(
            **{
                "book.yaml": book,
                "larder.yaml": LARDER,
                "recipes__bowls__lentil-bowl.md": BOWL.format("1 cup lentils"),
                "recipes__bowl.md": BOWL.format(ingredients),
                "menus__m.yaml": MENU,
                **({"drying-log.csv": LOG + log} if log else {}),
            }
        )
        return found.provisions[0].loading

    return load


def test_a_handful_runs_as_long_as_the_shortest_run_of_the_log(
    loaded: Callable[..., Loading],
) -> None:
    log = (
        "2026-02-01,lentils,L1,2000,626,30,3\n"
        "2026-02-08,lentils,L2,1000,313,21.5,2\n"
        "2026-02-09,leeks,L3,1000,175,26,2\n"
    )
    (timed,) = loaded(HANDFUL, log=log).loads
    assert timed.hours.middle_h == 21.5
    assert timed.run.is_least
    assert timed.run.from_log


def test_a_load_counts_as_long_as_the_longest_of_its_rows(loaded: Callable[..., Loading]) -> None:
    log = "2026-02-01,lentils,L1,2000,626,30,3\n2026-02-01,leeks,L2,200,35,2,1\n"
    (timed,) = loaded(HANDFUL, log=log).loads
    assert timed.hours.middle_h == 30.0


def test_a_run_that_left_its_food_damp_is_no_shortest_run(loaded: Callable[..., Loading]) -> None:
    log = "2026-02-01,lentils,L1,2000,626,30,3\n2026-02-08,lentils,L2,1000,450,6,2\n"
    (timed,) = loaded(HANDFUL, log=log).loads
    assert timed.hours.middle_h == 30.0


def test_a_stated_rate_has_a_usual_least_run(loaded: Callable[..., Loading]) -> None:
    (timed,) = loaded(HANDFUL).loads
    assert timed.hours.middle_h == 18.0  # common practice, no source
    assert not timed.run.from_log


def test_the_two_ways_of_drying_are_told_apart(loaded: Callable[..., Loading]) -> None:
    # carrots lose 880 g in 8 h in the air; the freeze dryer takes 1374 g in 30 h
    log = "2026-02-01,lentils,L1,2000,626,30,3\n2026-02-02,carrots,C1,1000,127,8,4\n"
    found = loaded(HANDFUL + ", 1/4 cup carrots", log=log)
    assert found.loads[0].hours.middle_h == 30.0
    assert found.air_run is not None
    assert found.air_run.hours.middle_h == 8.0
    large = loaded("15 cups lentils", log=log).loads[0]
    assert large.hours.middle_h == pytest.approx(large.load.water_g / (1374 / 30))
    alone = loaded("1/4 cup carrots", log="2026-02-01,lentils,L1,2000,626,30,3\n")
    assert alone.air_run is not None
    assert alone.air_run.hours.middle_h == 4.0  # common practice, no source


def test_what_does_not_suit_the_dryer_takes_no_tray(loaded: Callable[..., Loading]) -> None:
    found = loaded(HANDFUL + ", 2 tbsp honey")
    assert [line.store.name for line in found.unsuited] == ["honey"]
    assert found.unsuited[0].unsuited == "sugar"
    on_trays = {tray.batch.name for timed in found.loads for tray in timed.load.trays}
    assert on_trays == {"lentils"}


def test_a_household_without_a_dryer_still_dries_in_the_air(
    loaded: Callable[..., Loading],
) -> None:
    found = loaded(HANDFUL + ", 1/4 cup carrots", book=BOOK)
    assert found.loads == ()
    assert found.lacks_dryer
    assert [line.store.name for line in found.air] == ["carrots"]
    assert not loaded("1/4 cup carrots", book=BOOK).lacks_dryer
