"""Cards of heat, cautions and the jar's finding, in a small book."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.camp import jar_day
from cookbook_build.planning.cautions import (
    JarCaution,
    LateCaution,
    RawCaution,
    SoakCaution,
    dish_cautions,
)
from cookbook_build.planning.heat import bowl_card, oven_rows, soak_times
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.publishing.cautioning import in_words

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.planning.dishes import Dish

LARDER = """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
salt: {food: salt, dried: bought}
turkey mince: {food: ground turkey raw, dried: freeze, raw: true, weighs: 60 g per cup}
"""
BOWL = """\
---
title: Lentil bowl
consistency: stew
ingredients: [1 cup lentils, 1/8 tsp salt]
tested: {method: kettle, water: 3/4 cup + 1 tbsp, rest: 12 min}
---
"""
MINCE = """\
---
title: Mince
consistency: stew
ingredients: [1/2 cup turkey mince, 1/2 cup lentils]
---
"""


def read(folder: Path, kit: str = "", bowl: str = BOWL) -> tuple[Reckoning, Findings]:
    (folder / "recipes").mkdir(exist_ok=True)
    (folder / "book.yaml").write_text(f"title: A book\naltitude: 310 m\n{kit}", encoding="utf-8")
    (folder / "larder.yaml").write_text(LARDER, encoding="utf-8")
    (folder / "recipes" / "bowl.md").write_text(bowl, encoding="utf-8")
    (folder / "recipes" / "mince.md").write_text(MINCE, encoding="utf-8")
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    return reckoned(book, findings), findings


def jar_kit(holds_ml: int, label: str = "65 C after 6 h", lunch: str = "") -> str:
    hour = f", lunch: {lunch}" if lunch else ""
    return f"kit: {{jar: {{holds: {holds_ml} mL, label: {label}{hour}}}}}\n"


@pytest.fixture
def bowl(tmp_path: Path) -> Dish:
    return read(tmp_path)[0].dishes["bowl"]


def test_a_plate_keeps_the_bowl_warmer_and_shortens_the_rest(bowl: Dish) -> None:
    card = bowl_card(bowl, 1)
    covered, bare = card.covered[0], card.bare[0]
    assert covered.derivation.ready_c > bare.derivation.ready_c
    assert covered.rest_s < bare.rest_s
    assert covered.total_ml < bare.total_ml
    assert covered.hot_until_s > bare.hot_until_s


def test_the_test_keeps_its_own_plate(bowl: Dish) -> None:
    # tested under a plate: that row is the tested water, to the last digit
    assert bowl_card(bowl, 1).covered[0].total_ml == pytest.approx(13 * 14.78676478125)
    assert bowl_card(bowl, 1).covered == bowl.waters(1, "kettle")


def test_a_stronger_oven_boils_sooner_in_proportion(bowl: Dish) -> None:
    rows = oven_rows(bowl, 1)
    assert [row.rated_w for row in rows] == sorted(row.rated_w for row in rows)
    energies = [row.rated_w * row.heating_s for row in rows]
    assert energies == pytest.approx([energies[0]] * len(rows), rel=1e-3)


def test_the_kitchens_own_oven_is_among_the_ratings(tmp_path: Path) -> None:
    dish = read(tmp_path, "kit: {microwave: {power: 850 W}}\n")[0].dishes["bowl"]
    assert 850.0 in [row.rated_w for row in oven_rows(dish, 1)]


def test_a_chilled_soak_takes_longer_than_one_on_the_table(bowl: Dish) -> None:
    soak = soak_times(bowl, 1)[0]
    assert soak.chilled_s > soak.water.rest_s
    assert soak.chilled_low_s <= soak.chilled_s <= soak.chilled_high_s


def test_what_was_dried_raw_is_cooked_and_never_poured_on(tmp_path: Path) -> None:
    dish = read(tmp_path)[0].dishes["mince"]
    assert set(dish.methods) == {"microwave", "stove"}
    found = dish_cautions(dish, 1, "stove")
    # USDA safe minimum internal temperatures: poultry 165 °F
    assert found == (RawCaution("turkey mince", 73.9, found[0].boils_at_c),)  # type: ignore[union-attr]


def test_a_kettle_at_home_has_nothing_to_warn_of(bowl: Dish) -> None:
    for servings in (1, 2, 8):
        assert dish_cautions(bowl, servings, "kettle") == ()


def test_a_cold_soak_is_on_the_clock_and_too_long_a_one_is_named(tmp_path: Path) -> None:
    quick = read(tmp_path)[0].dishes["bowl"]
    (caution,) = dish_cautions(quick, 1, "cold")
    assert isinstance(caution, SoakCaution)
    assert not caution.too_long
    assert caution.eat_by_s == 7200.0  # USDA FSIS: two hours
    slow = read(tmp_path, bowl=BOWL.replace("12 min", "100 min"))[0].dishes["bowl"]
    (caution,) = dish_cautions(slow, 1, "cold")
    assert isinstance(caution, SoakCaution)
    assert caution.too_long


def test_a_rest_longer_than_the_food_may_wait_is_named(tmp_path: Path) -> None:
    dish = read(tmp_path, bowl=BOWL.replace("12 min", "400 min"))[0].dishes["bowl"]
    assert isinstance(dish_cautions(dish, 1, "kettle")[0], LateCaution)


def test_no_finding_where_the_jar_is_hot_at_lunch(tmp_path: Path) -> None:
    found, findings = read(tmp_path, jar_kit(300, lunch="2 h"))
    assert not len(findings)
    assert dish_cautions(found.dishes["bowl"], 1, "jar") == ()


def test_a_jar_lukewarm_at_the_chosen_lunch_is_a_warning_with_its_change(tmp_path: Path) -> None:
    found, findings = read(tmp_path, jar_kit(1000, lunch="4 h"))
    (finding,) = findings
    assert str(finding.severity) == "warning"
    assert finding.place.path.endswith("bowl.md")
    assert "too large for this meal" in finding.cause
    assert "servings in one jar and it stays hot until then" in finding.mend
    (caution,) = dish_cautions(found.dishes["bowl"], 1, "jar")
    assert isinstance(caution, JarCaution)
    assert caution.kind in {"lukewarm", "unsafe"}


PAIR = """\
---
title: Bowls for two
consistency: stew
serves: 2
ingredients: [1 1/2 cups lentils, 1/8 tsp salt]
tested: {method: kettle, water: 1 1/4 cups, rest: 12 min}
---
"""


def test_a_fuller_jar_is_counted_in_the_jars_that_the_card_counts(tmp_path: Path) -> None:
    found, findings = read(tmp_path, jar_kit(350, "60 C after 6 h", lunch="3 h"), PAIR)
    dish = found.dishes["bowl"]
    day = jar_day(dish, 2)
    assert day.card.jars == 2
    assert day.change is not None
    assert (day.change.kind, day.change.jars) == ("fill", 2)
    assert dish.jars(day.change.amount) == 2
    (finding,) = (found for found in findings if found.place.path.endswith("bowl.md"))
    assert "pack 3 servings in the 2 jars that it takes" in finding.mend
    (caution,) = dish_cautions(dish, 2, "jar")
    assert "Fill the 2 jars with 3 servings" in str(in_words(caution))


@pytest.mark.parametrize(
    ("methods", "mend"),
    [
        ("", 'write "methods: [kettle, microwave, stove, cold]" in this recipe'),
        ("methods: [kettle, jar]\n", 'leave "jar" out of its methods'),
        ("methods: [jar]\n", 'write "methods: [kettle]" in this recipe'),
    ],
)
def test_the_mend_names_the_ways_that_a_recipe_without_methods_has(
    tmp_path: Path, methods: str, mend: str
) -> None:
    text = BOWL.replace("ingredients:", f"{methods}ingredients:")
    _, findings = read(tmp_path, jar_kit(1000, lunch="4 h"), text)
    assert any(mend in found.mend for found in findings)


def test_a_jar_unsafe_at_the_usual_lunch_is_a_warning_though_none_was_chosen(
    tmp_path: Path,
) -> None:
    found, findings = read(tmp_path, jar_kit(1000, "40 C after 6 h"))
    assert ["does not keep this meal safe" in finding.cause for finding in findings] == [True]
    (caution,) = dish_cautions(found.dishes["bowl"], 1, "jar")
    assert isinstance(caution, JarCaution)
    assert caution.kind == "unsafe"


def test_the_fuel_of_the_kit_is_burnt(tmp_path: Path) -> None:
    kit = read(tmp_path, "kit: {stove: {fuel: alcohol}}\n")[0].place.kit
    assert kit.fuel == "alcohol"
