"""A menu provided for: by an independent path, in balance, from the shelf first."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.planning.shopping import raw_good

if TYPE_CHECKING:
    from collections.abc import Callable

    from cookbook_build.planning.provisions import Provision

DEMO = Path(__file__).parents[3] / "content_demo"

BOOK = """\
title: A book
altitude: 310 m
kit:
  dryer: {trays: 4, tray area: 1900 cm2, tray load: 900 g, ice: 4 kg}
  pouches: [{name: small, width: 13 cm, height: 18 cm}, {name: medium, width: 18 cm, height: 26 cm}]
  absorbers: [100 mL, 300 mL]
"""
LARDER = """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
potatoes: {food: potatoes boiled, dried: freeze, cooked first: true, weighs: 60 g per cup}
carrots: {food: carrots raw, dried: air, form: diced, weighs: 58 g per cup}
turkey mince: {food: ground turkey raw, dried: freeze, raw: true, weighs: 60 g per cup}
salt: {food: salt, dried: bought}
"""
BOWL = """\
---
title: Lentil bowl
consistency: stew
ingredients: [1 cup lentils, 2 tbsp leeks, 1 tbsp carrots, 1/8 tsp salt]
tested: {method: kettle, water: 1 cup + 1 tbsp, rest: 12 min}
---
"""
HASH = """\
---
title: Potato hash
ingredients: [1 cup potatoes, 1 tbsp leeks]
---
"""
MINCE = """\
---
title: Mince
ingredients: [1/2 cup turkey mince, 1/2 cup potatoes]
---
"""
MENU = """\
title: Two nights
people: 2
meals:
  - {day: 1, meal: supper, recipe: bowl, method: stove}
  - {day: 2, meal: supper, recipe: hash}
"""
STOCK = """\
store,lot,packed on,container,grams
leeks,LEE-1,2025-10-01,jar,6
leeks,LEE-2,2026-03-01,jar,50
lentils,LEN-1,2026-02-01,pouch,40
"""


@pytest.fixture
def book(tmp_path: Path) -> Callable[..., tuple[Reckoning, Findings]]:
    def write(**changed: str) -> tuple[Reckoning, Findings]:
        files = {
            "book.yaml": BOOK,
            "larder.yaml": LARDER,
            "recipes/bowl.md": BOWL,
            "recipes/hash.md": HASH,
            "recipes/mince.md": MINCE,
            "menus/nights.yaml": MENU,
        }
        files |= {name.replace("__", "/"): text for name, text in changed.items()}
        for name, text in files.items():
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        findings = Findings()
        read = read_book(tmp_path, findings)
        assert read is not None
        return reckoned(read, findings), findings

    return write


def demo() -> Reckoning:
    findings = Findings()
    read = read_book(DEMO, findings)
    assert read is not None
    found = reckoned(read, findings)
    assert not len(findings)
    return found


def check_balance(provision: Provision, reckoning: Reckoning) -> None:
    """Check that what is needed is what is taken, dried and bought, and water adds up."""
    for line in provision.needs:
        assert line.needed_g == pytest.approx(line.on_shelf_g + line.short_g, abs=1e-9)
    short = {line.store.name: line.short_g for line in provision.needs if line.short_g > 0}
    made = {line.store.name: line.dried_g for line in (*provision.drying, *provision.pantry)}
    assert made == pytest.approx(short)
    check_trays(provision)
    check_dry_matter(provision)
    assert reckoning.book.menus


def check_trays(provision: Provision) -> None:
    """Check that trays carry what is to be dried, to the gram."""
    trays: dict[str, list[tuple[float, float]]] = {}
    if provision.loading:
        for timed in provision.loading.loads:
            assert timed.load.water_g == pytest.approx(sum(t.water_g for t in timed.load.trays))
            for tray in timed.load.trays:
                trays.setdefault(tray.batch.name, []).append((tray.prepared_g, tray.done_g))
        for made_line in provision.drying:
            if made_line.store.store.keys.dried == "freeze":
                filled = trays[made_line.store.name]
                assert sum(p for p, _ in filled) == pytest.approx(made_line.prepared_g, abs=1e-6)
                assert sum(d for _, d in filled) == pytest.approx(made_line.dried_g, abs=1e-6)


def check_dry_matter(provision: Provision) -> None:
    """Check that water and dry matter are kept from the shop to the jar."""
    # what goes on the tray holds by the table's moisture what is dried off and what stays
    for dry in provision.drying:
        food = dry.store.food
        assert food is not None
        if dry.store.own_yield is None:
            held = dry.prepared_g * food.moisture
            assert held == pytest.approx(dry.removed_g + dry.dried_g * dry.store.moisture, abs=0.5)
    # and what is bought holds the dry matter that is dried, pots and own yields aside; of what
    # does not swell it holds more, where the table's samples would let it gain by cooking
    made = {
        dry.store.name: dry
        for dry in provision.drying
        if dry.pots is None and dry.store.own_yield is None
    }
    for listed in provision.shopping.values():
        for bought in listed:
            if not all(name in made for name, _ in bought.what_for):
                continue
            lines = [made[name] for name, _ in bought.what_for]
            held = bought.edible_g * (1 - bought.food.moisture)
            solids = sum(line.dried_g * (1 - line.store.moisture) for line in lines)
            assert held >= solids - 0.5
            if bought.edible_g != pytest.approx(sum(line.prepared_g for line in lines)):
                assert held == pytest.approx(solids, abs=0.5)


def test_the_demo_menu_balances_to_the_gram() -> None:
    reckoning = demo()
    assert reckoning.provisions
    for provision in reckoning.provisions:
        check_balance(provision, reckoning)


def test_a_menu_adds_up_by_an_independent_path() -> None:
    reckoning = demo()
    for provision in reckoning.provisions:
        needed: dict[str, float] = {}
        for meal in provision.menu.keys.meals:
            dish = reckoning.dishes[meal.address]
            servings = meal.servings or provision.menu.keys.people
            for part in dish.parts:
                for portion in part.mix.portions:  # the kitchen's own record, not the lines'
                    times = 1 if portion.per_pot else servings / part.mix.servings
                    needed[portion.store] = needed.get(portion.store, 0) + portion.dry_g * times
        listed = {line.store.name: line.needed_g for line in provision.needs}
        assert listed == pytest.approx({name: g for name, g in needed.items() if g > 0})


def test_the_shelf_is_used_first_expired_first(
    book: Callable[..., tuple[Reckoning, Findings]],
) -> None:
    found, findings = book(**{"stock.csv": STOCK})
    assert not len(findings)
    (provision,) = found.provisions
    check_balance(provision, found)
    leeks = next(line for line in provision.needs if line.store.name == "leeks")
    assert [taken.lot.name for taken in leeks.taken] == ["LEE-1", "LEE-2"][: len(leeks.taken)]
    assert leeks.taken[0].grams == pytest.approx(min(6.0, leeks.needed_g))
    lentils = next(line for line in provision.needs if line.store.name == "lentils")
    assert lentils.on_shelf_g == pytest.approx(40.0)
    assert lentils.short_g == pytest.approx(lentils.needed_g - 40.0)
    assert not any(line.store.name == "leeks" for line in provision.drying)


def test_two_menus_never_take_the_same_gram(
    book: Callable[..., tuple[Reckoning, Findings]],
) -> None:
    later = MENU.replace("Two nights", "Later").replace("people: 2", "people: 2\ndate: 2026-09-01")
    first = MENU.replace("people: 2", "people: 2\ndate: 2026-05-01")
    found, _ = book(**{"stock.csv": STOCK, "menus__nights.yaml": first, "menus__later.yaml": later})
    taken: dict[str, float] = {}
    for provision in found.provisions:
        check_balance(provision, found)
        for line in provision.needs:
            for lot in line.taken:
                taken[lot.lot.name] = taken.get(lot.lot.name, 0.0) + lot.grams
    assert taken["LEN-1"] == pytest.approx(40.0)
    by_title = {p.menu.keys.title: p for p in found.provisions}
    first_lentils, later_lentils = (
        next(line for line in by_title[title].needs if line.store.name == "lentils")
        for title in ("Two nights", "Later")
    )
    assert first_lentils.on_shelf_g == pytest.approx(40.0)
    assert later_lentils.on_shelf_g == 0


def test_a_lot_past_its_best_is_left_on_the_shelf(
    book: Callable[..., tuple[Reckoning, Findings]],
) -> None:
    old = STOCK.replace("2026-02-01", "2019-02-01")
    found, _ = book(**{"stock.csv": old})
    lentils = next(line for line in found.provisions[0].needs if line.store.name == "lentils")
    assert lentils.taken == ()


def test_a_damp_lot_is_refused_with_its_figure(
    book: Callable[..., tuple[Reckoning, Findings]],
) -> None:
    log = "date,store,lot,fresh g,dry g,hours,trays\n2026-02-01,lentils,LEN-1,1000,360,30,2\n"
    found, findings = book(**{"stock.csv": STOCK, "drying-log.csv": log})
    causes = [finding.cause for finding in findings]
    # 1 - 1000 (1 - 0.6964)/360 = 15.7 %, by hand from USDA SR28 16070
    assert any("LEN-1 of lentils holds 16 % water" in cause for cause in causes)
    lentils = next(line for line in found.provisions[0].needs if line.store.name == "lentils")
    assert lentils.taken == ()


def test_the_households_own_yield_moves_what_is_prepared(
    book: Callable[..., tuple[Reckoning, Findings]],
) -> None:
    plain, _ = book()
    log = (
        "date,store,lot,fresh g,dry g,hours,trays\n"
        "2026-02-01,lentils,L1,1000,290,30,2\n2026-02-09,lentils,L2,900,261,28,2\n"
    )
    own, _ = book(**{"drying-log.csv": log})
    before, after = (
        next(line for line in found.provisions[0].drying if line.store.name == "lentils")
        for found in (plain, own)
    )
    assert before.dried_g == after.dried_g
    assert after.prepared_g > before.prepared_g
    # between the log's 0.29 and the table's 0.313
    assert 0.29 < after.dried_g / after.prepared_g < 0.313


def test_what_is_cooked_first_is_bought_raw(
    book: Callable[..., tuple[Reckoning, Findings]],
) -> None:
    found, _ = book()
    lines = {
        line.food.name: line for listed in found.provisions[0].shopping.values() for line in listed
    }
    assert "potatoes boiled" not in lines
    assert "lentils cooked" not in lines
    potatoes = lines["potatoes raw"]
    assert potatoes.pieces is not None
    assert potatoes.bought_g > potatoes.edible_g
    cooked = found.stores["potatoes"].food
    assert cooked is not None
    assert raw_good(cooked, found.book.foods) == potatoes.food


def test_appetites_stand_in_for_people(book: Callable[..., tuple[Reckoning, Findings]]) -> None:
    plain, _ = book()
    hungry, _ = book(
        **{"menus__nights.yaml": MENU.replace("people: 2", "people: 2\nappetites: [1, 1 1/2]")}
    )
    assert hungry.provisions[0].eaters == 2.5
    assert hungry.provisions[0].dry_g == pytest.approx(plain.provisions[0].dry_g * 1.25)


def test_raw_and_ready_never_share_a_load(
    book: Callable[..., tuple[Reckoning, Findings]],
) -> None:
    menu = MENU + "  - {day: 2, meal: lunch, recipe: mince, method: stove}\n"
    found, _ = book(**{"menus__nights.yaml": menu})
    loading = found.provisions[0].loading
    assert loading is not None
    for timed in loading.loads:
        assert len({tray.batch.raw_animal for tray in timed.load.trays}) == 1
    assert len(loading.loads) >= loading.lower_bound >= 2
    pack = next(p for p in found.provisions[0].packs if p.plate.dish.recipe.address == "mince")
    assert pack.raw_stores == ("turkey mince",)
    assert pack.cook_to_c == 73.9  # USDA: poultry 165 °F


def test_a_pack_has_its_container_absorber_and_date(
    book: Callable[..., tuple[Reckoning, Findings]],
) -> None:
    found, _ = book(
        **{"menus__nights.yaml": MENU.replace("people: 2", "people: 2\npacked: 2026-05-31")}
    )
    for pack in found.provisions[0].packs:
        assert pack.packing is not None
        assert pack.packing.absorbers is not None
        # 0.2095 x 1.5, US Standard Atmosphere 1976 and common practice, no source
        oxygen = 0.2095 * pack.packing.air_ml * 0.9637  # ISO 2533 at 310 m: 97 647 Pa
        assert pack.packing.absorbers.capacity_ml >= 1.49 * oxygen
        assert pack.best_by is not None
        assert pack.best_by > dt.date(2026, 5, 31)


def test_each_day_carries_its_water_fuel_and_food(
    book: Callable[..., tuple[Reckoning, Findings]],
) -> None:
    found, _ = book()
    provision = found.provisions[0]
    assert [day.day for day in provision.days] == [1, 2]
    water = found.dishes["bowl"].waters(2, "stove")[0]
    assert provision.days[0].water_ml == pytest.approx(water.start_ml + water.hold_back_ml)
    assert provision.days[0].carried_g == pytest.approx(found.dishes["bowl"].dry_g(2))
    assert all(day.energy_kcal > 100 for day in provision.days)
