from __future__ import annotations

import pytest

from cookbook_build.kitchen.rehydration import (
    UPTAKE_PRIORS,
    Portion,
    full_restoration_ml,
)
from cookbook_build.preserving.yields import dried_cup_weight, dry_yield


@pytest.mark.parametrize(
    ("cup_g", "moisture", "dried_cup_g", "restoring_ml"),
    [
        (198.0, 0.6964, 62.0, 136.0),  # lentils boiled, SR28 16070
        (149.0, 0.9221, 12.0, 137.0),  # sweet pepper raw chopped, SR28 11821
    ],
)
def test_the_worked_example_comes_out_to_its_last_digit(
    cup_g: float, moisture: float, dried_cup_g: float, restoring_ml: float
) -> None:
    dry_g = dried_cup_weight(cup_g, moisture, 0.03)
    assert round(dry_g, 1) == dried_cup_g
    assert round(full_restoration_ml(dry_g, moisture, 0.03), 1) == restoring_ml


def test_the_worked_yield_of_lentils_comes_out_to_its_last_digit() -> None:
    assert round(dry_yield(0.6964, 0.03), 4) == 0.3130


def test_a_food_no_drier_than_prepared_wants_no_water() -> None:
    assert full_restoration_ml(10.0, 0.1, 0.1) == 0
    assert full_restoration_ml(10.0, 0.05, 0.1) == 0


def test_uptake_is_a_part_of_full_restoration() -> None:
    lentils = Portion("lentils", 62.0, 236.6, 136.0, 0.85, 0.12)
    assert lentils.uptake_ml == pytest.approx(115.6)
    assert lentils.uptake_sd_ml == pytest.approx(16.32)


def test_priors_are_those_of_the_stated_science() -> None:
    assert {kind: (prior.mean, prior.sd) for kind, prior in UPTAKE_PRIORS.items()} == {
        "freeze": (0.85, 0.12),
        "powder": (1.00, 0.05),
        "air": (0.60, 0.15),
        "staple": (0.85, 0.12),
    }


@pytest.mark.parametrize("wrong", [(-1.0, 0.5, 0.1), (1.0, 1.0, 0.1), (1.0, 0.5, -0.1)])
def test_an_impossible_balance_is_refused(wrong: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="no food holds"):
        full_restoration_ml(*wrong)


@pytest.mark.parametrize("wrong", [(-1.0, 1.0, 0.8), (1.0, float("nan"), 0.8), (1.0, 1.0, 3.0)])
def test_an_impossible_portion_is_refused(wrong: tuple[float, float, float]) -> None:
    dry_g, full_ml, uptake = wrong
    with pytest.raises(ValueError, match="leeks"):
        Portion("leeks", dry_g, 10.0, full_ml, uptake, 0.1)
