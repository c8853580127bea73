from __future__ import annotations

import pytest

from cookbook_build.kitchen.composition import (
    DRY_MIX_KJ_PER_KG_K,
    Composition,
    specific_heat_kj_per_kg_k,
)


def test_an_unknown_dry_mix_holds_the_heat_of_its_stated_composition() -> None:
    usual = Composition(water=0.03, carbohydrate=0.65, protein=0.20, fat=0.08, ash=0.04)
    assert specific_heat_kj_per_kg_k(usual) == pytest.approx(DRY_MIX_KJ_PER_KG_K, abs=0.02)


def test_water_raises_the_heat_that_food_holds() -> None:
    dry, wet = Composition(carbohydrate=1.0), Composition(water=0.5, carbohydrate=0.5)
    assert specific_heat_kj_per_kg_k(dry) < specific_heat_kj_per_kg_k(wet)


@pytest.mark.parametrize("wrong", [{"water": -0.1}, {"water": 0.8, "fat": 0.4}])
def test_impossible_fractions_are_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(ValueError, match="mass fractions"):
        Composition(**wrong)
