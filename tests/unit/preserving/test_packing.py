from __future__ import annotations

import pytest

from cookbook_build.kitchen.cautions import ABSORBER_MOISTURE as KITCHEN_LIMIT
from cookbook_build.kitchen.composition import Composition
from cookbook_build.kitchen.filling import DRY_MATTER_G_PER_ML
from cookbook_build.preserving.absorbers import (
    ABSORBER_MOISTURE,
    OXYGEN_SHARE,
    SEA_LEVEL_PA,
    SURPLUS,
    TARGET_MOISTURE,
    absorbers_for,
    oxygen_left_ml,
    sealing_verdict,
)
from cookbook_build.preserving.packing import (
    USABLE_SHARE,
    Choice,
    Pouch,
    Vessel,
    air_left_ml,
    packing,
    pouch_volume_ml,
    smallest_container,
    true_density_g_per_ml,
)

INCH_M = 0.0254
PINT, QUART = Vessel("pint", 473.0), Vessel("quart", 946.0)
SMALL, MEDIUM = Pouch("small", 0.13, 0.18), Pouch("medium", 0.18, 0.26)
SIZES = [100.0, 300.0, 500.0]


def test_the_constants_are_those_of_the_stated_science() -> None:
    assert (USABLE_SHARE, OXYGEN_SHARE, SURPLUS) == (0.75, 0.2095, 1.5)
    assert (TARGET_MOISTURE, ABSORBER_MOISTURE) == (0.03, 0.10)
    assert SEA_LEVEL_PA == 101_325


def test_the_kitchen_and_the_packer_refuse_at_one_moisture() -> None:
    assert ABSORBER_MOISTURE == KITCHEN_LIMIT


@pytest.mark.parametrize(
    ("short_in", "long_in", "ml"),
    [
        # worked out apart from this code, from the same equation, to the mL
        (5, 7, 634), (6, 9, 1203), (7, 10, 1788), (8, 12, 2852),
        (10, 14, 5068), (10, 16, 6077), (12, 16, 8184), (14, 18, 12348),
    ],
)  # fmt: skip
def test_a_pouch_of_inches_holds_what_was_worked_out_apart(
    short_in: float, long_in: float, ml: float
) -> None:
    assert pouch_volume_ml(short_in * INCH_M, long_in * INCH_M) == pytest.approx(ml, abs=0.5)


def test_the_sides_of_a_pouch_come_in_either_order() -> None:
    assert pouch_volume_ml(0.26, 0.18) == pouch_volume_ml(0.18, 0.26)


@pytest.mark.parametrize("sides", [(0.0, 0.2), (0.1, -0.2), (float("nan"), 0.1)])
def test_a_pouch_without_sides_is_refused(sides: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="no pouch"):
        pouch_volume_ml(*sides)


def test_a_mix_goes_into_the_smallest_that_holds_it() -> None:
    sizes: list[Pouch | Vessel] = [QUART, MEDIUM, PINT, SMALL]
    assert smallest_container(300.0, sizes).container is PINT
    assert smallest_container(480.0, sizes).container is SMALL
    assert smallest_container(800.0, sizes).container is QUART
    assert smallest_container(1000.0, sizes).container is MEDIUM


def test_a_mix_that_just_fits_fits() -> None:
    assert smallest_container(SMALL.usable_ml, [SMALL, MEDIUM]) == Choice(SMALL, 1)
    assert smallest_container(3 * QUART.usable_ml, [QUART]) == Choice(QUART, 3)


def test_a_mix_too_large_for_any_takes_several_of_the_largest() -> None:
    assert smallest_container(2.5 * MEDIUM.usable_ml, [SMALL, MEDIUM, PINT]) == Choice(MEDIUM, 3)


def test_of_two_alike_the_first_named_is_taken() -> None:
    twin = Vessel("other pint", 473.0)
    assert smallest_container(400.0, [twin, PINT]).container is twin


def test_without_containers_nothing_is_chosen() -> None:
    with pytest.raises(ValueError, match="no container"):
        smallest_container(100.0, [])


def test_the_density_takes_a_composition_of_the_kitchen() -> None:
    mix = Composition(water=0.03, protein=0.20, fat=0.08, carbohydrate=0.65, ash=0.04)
    parts = {name: getattr(mix, name) for name in Composition.__slots__}
    # the kitchen's one figure for any dry mix, from memory: within a percent of this one
    assert true_density_g_per_ml(**parts) == pytest.approx(DRY_MATTER_G_PER_ML, rel=0.01)


def test_the_density_of_one_part_is_that_parts() -> None:
    assert true_density_g_per_ml(water=1.0) == pytest.approx(0.9958, abs=1e-4)
    assert true_density_g_per_ml(fat=2.0) == pytest.approx(0.9172, abs=1e-4)


def test_a_food_of_nothing_has_no_density() -> None:
    with pytest.raises(ValueError, match="shares"):
        true_density_g_per_ml()


def test_solids_and_air_fill_the_container() -> None:
    assert air_left_ml(946.0, 145.0, 1.45) + 145.0 / 1.45 == pytest.approx(946.0)


def test_there_is_never_less_air_than_none() -> None:
    assert air_left_ml(100.0, 500.0, 1.45) == 0


def test_thin_air_holds_less_oxygen() -> None:
    assert oxygen_left_ml(1000.0, SEA_LEVEL_PA / 2) == pytest.approx(oxygen_left_ml(1000.0) / 2)


@pytest.mark.parametrize(
    ("oxygen", "sizes", "pieces"),
    [
        (0.0, SIZES, (100,)),
        (66.0, SIZES, (100,)),
        (67.0, SIZES, (300,)),
        (200.0, SIZES, (300,)),
        (201.0, SIZES, (500,)),
        (334.0, SIZES, (500, 100)),
        (450.0, SIZES, (500, 300)),
        (650.0, SIZES, (500, 500)),
        (533.0, [100.0, 400.0, 500.0], (400, 400)),  # not one of 500 and one of 400
        (667.0, SIZES, (500, 500, 100)),
        (1000.0, [500.0], (500, 500, 500)),
        (400.0, [100.0, 50.0], (100, 100, 100, 100, 100, 100)),
        (360.0, [100.0, 50.0], (100, 100, 100, 100, 100, 50)),
    ],
)
def test_absorbers_are_the_fewest_then_the_least(
    oxygen: float, sizes: list[float], pieces: tuple[float, ...]
) -> None:
    chosen = absorbers_for(oxygen, sizes)
    assert chosen.sizes_ml == pieces
    assert chosen.capacity_ml >= SURPLUS * oxygen


@pytest.mark.parametrize("sizes", [[], [0.0], [-100.0, 300.0]])
def test_absorbers_of_no_size_are_refused(sizes: list[float]) -> None:
    with pytest.raises(ValueError, match="no absorber"):
        absorbers_for(100.0, sizes)


def test_many_small_absorbers_are_found_at_once() -> None:
    chosen = absorbers_for(4000.0, [20.0, 30.0, 50.0, 100.0, 105.0])
    assert len(chosen.sizes_ml) == 58
    assert chosen.capacity_ml == pytest.approx(6000, abs=5)


def test_a_plan_parts_the_mix_alike_and_counts_the_air_of_one() -> None:
    plan = packing(
        1700.0, 290.0, 1.45, containers=[PINT, QUART], absorbers_ml=SIZES, pressure_pa=84_600.0
    )
    assert plan.choice == Choice(QUART, 2)
    assert plan.dry_g == 145
    assert plan.air_ml == pytest.approx(846)
    assert plan.absorbers is not None
    assert plan.absorbers.oxygen_ml == pytest.approx(148, abs=0.5)
    assert plan.absorbers.sizes_ml == (300.0,)


def test_a_household_without_absorbers_gets_a_plan_without() -> None:
    assert packing(400.0, 60.0, 1.4, containers=[PINT]).absorbers is None


@pytest.mark.parametrize(
    ("moisture", "sealing"),
    [
        (0.0, "fine"),
        (0.03, "fine"),
        (0.031, "allowed"),
        (0.10, "allowed"),
        (0.101, "refused"),
        (0.25, "refused"),
        (-0.01, "unknown"),
        (float("nan"), "unknown"),
    ],
)
def test_a_damp_lot_is_refused_with_its_figure(moisture: float, sealing: str) -> None:
    verdict = sealing_verdict(moisture)
    assert verdict.sealing == sealing
    assert verdict.moisture is moisture
    assert verdict.limit == 0.10
