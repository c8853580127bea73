from __future__ import annotations

from dataclasses import replace

import pytest

from cookbook_build.preserving.loads import (
    Batch,
    Dryer,
    Load,
    fewest_loads,
    fewest_trays,
    plan_loads,
    tray_capacity_g,
)
from cookbook_build.preserving.tray_fitting import MOST_SEARCHED

DRYER = Dryer(5, tray_area_m2=0.19, tray_load_g=900.0, ice_g=4500.0)
CARROTS = Batch("carrots", 3400.0, 0.8829, 0.03, density_g_per_ml=0.54)
ONIONS = Batch("onions", 500.0, 0.8911, 0.03, strong_odour=True)
MINCE = Batch("turkey mince", 800.0, 0.726, 0.03, raw_animal=True)


def stores(load: Load) -> list[str]:
    return [tray.batch.name for tray in load.trays]


def test_a_batch_lies_evenly_on_as_few_trays_as_hold_it() -> None:
    plan = plan_loads([CARROTS], DRYER)
    (load,) = plan.loads
    assert [tray.prepared_g for tray in load.trays] == pytest.approx([850.0] * 4)
    assert [tray.done_g for tray in load.trays] == pytest.approx([850 * 0.1171 / 0.97] * 4)
    assert load.water_g == pytest.approx(3400 - 3400 * 0.1171 / 0.97)
    assert plan.lower_bound == 1


def test_a_tray_takes_the_least_of_load_layer_and_ice() -> None:
    assert tray_capacity_g(CARROTS, DRYER) == 900
    shallow = replace(DRYER, depth_m=0.005)
    assert tray_capacity_g(CARROTS, shallow) == pytest.approx(1900 * 0.5 * 0.54)
    unweighed = replace(CARROTS, density_g_per_ml=None)
    assert tray_capacity_g(unweighed, shallow) == pytest.approx(1900 * 0.5 * 0.66)
    icy = replace(DRYER, ice_g=400.0)
    assert tray_capacity_g(CARROTS, icy) == pytest.approx(400 / (1 - 0.1171 / 0.97))
    assert tray_capacity_g(CARROTS, Dryer(5)) == 900


def test_what_just_fits_fits() -> None:
    assert fewest_trays(replace(CARROTS, prepared_g=3 * 900.0 * (1 + 1e-12)), DRYER) == 3
    tight = Batch("soup", 4500.0 / (1 - 0.1 / 0.97), 0.9, 0.03)
    roomy = Dryer(5, tray_load_g=2000.0, ice_g=tight.water_g)
    assert len(plan_loads([tight], roomy).loads) == 1


def test_one_load_for_each_group_that_must_stay_apart() -> None:
    plan = plan_loads([MINCE, ONIONS, CARROTS, replace(MINCE, name="b", strong_odour=True)], DRYER)
    assert [set(stores(load)) for load in plan.loads] == [
        {"carrots"},
        {"onions"},
        {"turkey mince"},
        {"b"},
    ]
    assert plan.lower_bound == 4


def test_two_strong_foods_share_a_load() -> None:
    plan = plan_loads([ONIONS, replace(ONIONS, name="leeks")], DRYER)
    assert [stores(load) for load in plan.loads] == [["leeks", "onions"]]


def test_a_tray_wetter_than_the_ice_is_divided() -> None:
    plan = plan_loads([CARROTS], replace(DRYER, ice_g=500.0))
    assert len(plan.loads) == plan.lower_bound == 6
    assert all(load.water_g <= 500 for load in plan.loads)
    assert sum(t.prepared_g for load in plan.loads for t in load.trays) == pytest.approx(3400)


def test_lighter_trays_save_a_load() -> None:
    squash = Batch("squash", 7600.0, 0.922, 0.03)
    plan = plan_loads([squash], Dryer(5, tray_load_g=900.0, ice_g=3500.0))
    assert [len(load.trays) for load in plan.loads] == [5, 5]


def test_the_search_finds_what_first_fit_misses() -> None:
    # Water of 60, 50, 50, 40, 40, 30, 30 into 3 loads of 100 g: first fit decreasing needs 4.
    batches = [
        Batch(f"store {at}", water / 0.5, 0.75, 0.5)
        for at, water in enumerate([60, 50, 50, 40, 40, 30, 30])
    ]
    plan = plan_loads(batches, Dryer(3, tray_load_g=150.0, ice_g=100.0))
    assert len(plan.loads) == plan.lower_bound == 3


def test_the_bound_grows_where_trying_all_finds_nothing() -> None:
    # Water of 80, 60, 35 and 25 is twice 100 g, and four trays are two loads; 80 goes with none.
    batches = [
        Batch(f"store {at}", water / 0.5, 0.75, 0.5) for at, water in enumerate([80, 60, 35, 25])
    ]
    dryer = Dryer(2, tray_load_g=160.0, ice_g=100.0)
    assert fewest_loads(batches, dryer) == 2
    plan = plan_loads(batches, dryer)
    assert plan.lower_bound == len(plan.loads) == 3


def test_nothing_to_dry_needs_no_load() -> None:
    assert plan_loads([], DRYER) == plan_loads([replace(CARROTS, prepared_g=0.0)], DRYER)
    assert plan_loads([], DRYER).loads == ()
    assert plan_loads([], DRYER).lower_bound == 0


def test_food_that_loses_no_water_goes_by_trays_alone() -> None:
    plan = plan_loads([Batch("sugar", 9000.0, 0.02, 0.02)], DRYER)
    assert [len(load.trays) for load in plan.loads] == [5, 5]
    assert [load.water_g for load in plan.loads] == [0, 0]


def test_a_years_harvest_is_planned_at_once() -> None:
    batches = [
        Batch(f"store {at}", 400.0 + 97 * (at * 31 % 53), 0.6 + 0.3 * (at % 7) / 7, 0.03)
        for at in range(MOST_SEARCHED + 20)
    ]
    plan = plan_loads(batches, replace(DRYER, ice_g=2900.0))
    assert plan.lower_bound <= len(plan.loads) <= plan.lower_bound * 1.05


@pytest.mark.parametrize(
    ("batch", "dryer", "message"),
    [
        (CARROTS, replace(DRYER, trays=0), "without trays"),
        (CARROTS, replace(DRYER, ice_g=0.0), "takes nothing"),
        (CARROTS, replace(DRYER, tray_load_g=0.0), "takes nothing"),
        (replace(CARROTS, prepared_g=-1.0), DRYER, "no batch of carrots"),
        (replace(CARROTS, prepared_g=float("nan")), DRYER, "no batch of carrots"),
        (replace(CARROTS, dried_moisture=0.9), DRYER, "no food dries"),
    ],
)
def test_what_cannot_be_is_our_mistake(batch: Batch, dryer: Dryer, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        plan_loads([batch], dryer)
