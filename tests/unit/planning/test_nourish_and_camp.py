"""Nourishment, allergens and the altitude bands of a small book."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from cookbook_build.planning.camp import camp_rows, jar_day
from cookbook_build.planning.nourish import allergens, dish_nourishment, store_nourishment
from cookbook_build.planning.reckoning import Reckoning

Reckon = Callable[..., Reckoning]


def test_drying_concentrates_and_loses_no_energy(reckon: Reckon) -> None:
    lentils = reckon().stores["lentils"]
    # USDA SR28, 16070: 116 kcal in 100 g cooked, 69.64 % water
    dried = store_nourishment(lentils, 100 * lentils.grams_per_prepared_gram)
    assert dried.energy_kcal == pytest.approx(116.0)
    assert dried.protein_g == pytest.approx(9.02)


def test_a_dish_is_the_sum_of_its_stores_with_and_without_the_optional(reckon: Reckon) -> None:
    found = reckon()
    dish = found.dishes["lentil-bowl"]
    nourished = dish_nourishment(dish)
    assert nourished.without_optional is not None
    powder = store_nourishment(found.stores["yogurt powder"], 6.0)
    spared = nourished.dry.energy_kcal - nourished.without_optional.energy_kcal
    assert spared == pytest.approx(powder.energy_kcal)
    assert nourished.fresh is not None
    assert nourished.whole.mass_g == pytest.approx(nourished.dry.mass_g + 60.0)
    assert "milk" in allergens(dish, "us")


def test_water_boils_cooler_and_rests_longer_up_the_bands(reckon: Reckon) -> None:
    dish = reckon().dishes["lentil-bowl"]
    rows = camp_rows(dish, (1, 3), "stove", "metres")
    assert [row.altitude_m for row in rows] == [0, 1000, 2000, 3000, 4000]
    boils = [row.boiling_c for row in rows]
    rests = [row.cells[0].waters[0].rest_s for row in rows]
    assert boils == sorted(boils, reverse=True)
    assert rests == sorted(rests)
    assert all(row.cells[1].fuel_g > row.cells[0].fuel_g > 0 for row in rows)


def test_each_serving_size_finds_its_jars(reckon: Reckon) -> None:
    days = [jar_day(reckon().dishes["lentil-bowl"], size) for size in (1, 2, 4)]
    assert [day.card.jars for day in days] == sorted(day.card.jars for day in days)
    assert all(0 < day.card.fill <= 1 for day in days)
