"""Words become weights, weights become water and lists."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.measures.units import SYSTEMS
from cookbook_build.planning.reckoning import Reckoning, reckoned

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.planning.stores import ShelfStore

Reckon = Callable[..., Reckoning]

US = SYSTEMS["us-cups"]
MENU = """\
title: Two days
people: 3
meals:
  - {day: 1, meal: supper, recipe: lentil-bowl}
  - {day: 2, meal: supper, recipe: lentil-bowl, servings: 2, method: stove}
  - {day: 2, meal: pudding, recipe: plum-bowl, servings: 3}
"""
PLUM_BOWL = """\
---
title: Plum bowl
consistency: spread
serves: 2
ingredients:
  - 1 cup plum sauce
  - 20 g quick oats
---
"""


def cup_g(store: ShelfStore) -> float:
    """Return the grams of a cup of a store that has one."""
    assert store.grams_per_cup is not None
    return store.grams_per_cup


def test_a_freeze_dried_cup_weighs_what_the_worked_example_says(reckon: Reckon) -> None:
    # from USDA SR28, 16070, 198 g a cup and 69.64 % water: 62.0 g a cup, 136.0 g of water
    lentils = reckon().stores["lentils"]
    assert lentils.grams_per_cup == pytest.approx(62.0, abs=0.05)
    assert lentils.full_ml(62.0) == pytest.approx(136.0, abs=0.1)
    assert not lentils.cup_is_measured


def test_a_weighed_cup_wins_over_a_derived_one(reckon: Reckon) -> None:
    carrots = reckon().stores["carrots"]
    assert carrots.grams_per_cup == pytest.approx(58.0)
    assert carrots.cup_is_measured


def test_a_powder_takes_up_water_as_powders_do(reckon: Reckon) -> None:
    stores = reckon().stores
    assert stores["yogurt powder"].dryness == "powder"
    assert stores["carrots"].dryness == "air"
    assert stores["quick oats"].dryness == "staple"
    assert stores["salt"].dryness is None


def test_the_tested_amount_comes_back_exactly(reckon: Reckon) -> None:
    dish = reckon().dishes["lentil-bowl"]
    (water,) = dish.waters(1, "kettle")
    assert water.total_ml == pytest.approx(float(13 * US.ml["tbsp"]), abs=1e-9)
    assert water.rest_s == pytest.approx(720.0, abs=1e-6)
    assert water.tested


def test_fresh_companions_are_no_part_of_the_dry_mix(reckon: Reckon) -> None:
    dish = reckon().dishes["lentil-bowl"]
    dry = [line.store.name for part in dish.parts for line in part.lines if line.is_dry]
    assert dry == ["lentils", "leeks", "yogurt powder", "salt"]


def test_without_the_optional_line_the_dish_wants_less(reckon: Reckon) -> None:
    dish = reckon().dishes["lentil-bowl"]
    (full,) = dish.waters(1, "kettle")
    (bare,) = dish.waters(1, "kettle", without_optional=True)
    assert bare.phi == full.phi
    assert bare.dry_g == pytest.approx(full.dry_g - 6.0)
    assert full.uptake_ml > bare.uptake_ml
    assert full.total_ml > bare.total_ml


def test_a_base_is_a_balance_of_what_goes_into_the_pot(reckon: Reckon) -> None:
    found = reckon()
    pot = found.pots["plum-sauce"]
    # USDA SR28: plums 6 % refuse and 87.23 % water, apples 85.56 % water
    solids = 940.0 * (1 - 0.8723) + 200.0 * (1 - 0.8556)
    assert pot.prepared_g == pytest.approx(1240.0)
    assert pot.cooked_g == 900.0
    assert pot.food.moisture == pytest.approx(1 - solids / 900.0, abs=1e-6)
    store = found.stores["plum sauce"]
    assert store.grams_per_prepared_gram == pytest.approx(solids / 900.0 / 0.97, abs=1e-6)


def test_a_menu_adds_up_over_its_plates(reckon: Reckon) -> None:
    found = reckon(**{"menus__two.yaml": MENU, "recipes__plum-bowl.md": PLUM_BOWL})
    (added,) = found.provisions
    plates = sum(plate.dish.dry_g(plate.servings) for plate in added.plates)
    assert added.dry_g == pytest.approx(plates, abs=1e-9)
    lentils = next(line for line in added.drying if line.store.name == "lentils")
    assert lentils.dried_g == pytest.approx(5 * cup_g(found.stores["lentils"]))


def test_a_menu_is_walked_back_to_the_shop_by_the_balance(reckon: Reckon) -> None:
    found = reckon(**{"menus__two.yaml": MENU, "recipes__plum-bowl.md": PLUM_BOWL})
    (added,) = found.provisions
    lines = {line.store.name: line for line in added.drying}
    # by hand, from USDA SR28: lentils cooked 69.64 % and raw 8.26 % water
    dried = 5 * cup_g(found.stores["lentils"])
    prepared = dried * 0.97 / (1 - 0.6964)
    assert lines["lentils"].prepared_g == pytest.approx(prepared)
    assert lines["lentils"].bought_g == pytest.approx(
        prepared * (1 - 0.6964) / (1 - 0.0826), rel=1e-3
    )
    bought = {line.food.id: line for lines_ in added.shopping.values() for line in lines_}
    share = lines["plum sauce"].prepared_g / 900.0
    assert lines["plum sauce"].pots == pytest.approx(share)
    assert bought["plums-raw"].bought_g == pytest.approx(1000.0 * share)
    assert "water" not in bought
    assert added.fresh[0].pieces == 5


def test_units_of_the_book_change_no_computed_number(reckon: Reckon) -> None:
    meal = """\
---
title: Weighed
consistency: soup
ingredients:
  - 60 g lentils
  - 12 g leeks
tested: {method: stove, water: 400 mL, rest: 12 min}
---
"""
    answers = [
        [
            (w.dry_g, w.uptake_ml, w.free_ml, w.loss_ml, w.total_ml, w.start_ml, w.rest_s)
            for size in (1, 3)
            for method in ("kettle", "stove", "cold")
            for w in reckon(
                **{
                    "book.yaml": f"title: T\nmeasures: {system}\n",
                    "recipes__weighed.md": meal,
                    # tested in cups it would teach each book something else
                    "recipes__bowls__lentil-bowl.md": meal.replace("400 mL", "402 mL"),
                }
            )
            .dishes["weighed"]
            .waters(size, method)
        ]
        for system in sorted(SYSTEMS)
    ]
    assert answers[0] == answers[1] == answers[2]


def test_servings_and_water_rise_together(reckon: Reckon) -> None:
    found = reckon()
    dish = found.dishes["lentil-bowl"]
    for method in dish.methods:
        waters = [dish.waters(size, method)[0] for size in range(1, 9)]
        totals = [water.total_ml for water in waters]
        each = [water.total_ml / size for size, water in enumerate(waters, 1)]
        assert totals == sorted(totals)
        assert [w.start_ml for w in waters] == sorted(w.start_ml for w in waters)
        assert each == sorted(each, reverse=True) or max(each) - min(each) < 1e-9


def test_altitude_alone_never_changes_what_food_takes_up(reckon: Reckon) -> None:
    dish = reckon().dishes["lentil-bowl"]
    for method in dish.methods:
        taken = {round(dish.waters(2, method, altitude)[0].uptake_ml, 9) for altitude in (0, 3000)}
        assert len(taken) == 1


def test_a_pot_of_water_is_a_finding(tmp_path: Path) -> None:
    base = "---\ntitle: Water\nkind: base\ningredients: [1 L water]\n---\n"
    for name, text in {
        "book.yaml": "title: T\n",
        "larder.yaml": "w: {from: bases/water, dried: freeze, weighs: 1 g per cup}\n",
        "recipes/bases/water.md": base,
    }.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    findings = Findings()
    book = read_book(tmp_path, findings)
    assert book is not None
    reckoned(book, findings)
    assert [f.cause for f in findings] == [
        "nothing in this pot leaves anything behind when it is dried"
    ]


@pytest.mark.parametrize(
    ("food", "mend"),
    [("lentils dry", "lentils cooked"), ("ground turkey raw", "ground turkey cooked")],
)
def test_what_was_cooked_first_is_named_as_it_was_dried(
    food: str, mend: str, tmp_path: Path
) -> None:
    files = {
        "book.yaml": "title: T\n",
        "larder.yaml": f"it: {{food: {food}, dried: freeze, cooked first: true}}\n",
        "recipes/bowl.md": "---\ntitle: Bowl\ningredients: [1 cup it]\n---\n",
    }
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    findings = Findings()
    read_book(tmp_path, findings)
    assert [f.mend for f in findings] == [f'write "{mend}".']
