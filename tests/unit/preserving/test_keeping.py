from __future__ import annotations

from datetime import date
from typing import get_args

import pytest

from cookbook_build.preserving.keeping import Part, best_by, mix_quality, quality_time
from cookbook_build.preserving.quality_bases import (
    DATED,
    FAT_STEPS,
    HIGH,
    LOW,
    PLAIN,
    SEALED,
    SEALED_ANIMAL,
    Kind,
    Way,
    base_quality,
    fat_factor,
    temperature_factor,
)

RICE = Part("rice", 60.0, 0.008, "grain", "bought")
LEEKS = Part("leeks", 20.0, 0.018, "vegetable", "freeze")
TURKEY = Part("turkey", 25.0, 0.27, "animal", "freeze")
AVOCADO = Part("avocado", 15.0, 0.55, "fruit", "freeze")


def test_every_kind_and_way_has_its_base() -> None:
    assert set(PLAIN) == set(get_args(Kind))
    assert set(SEALED) == set(get_args(Way))


@pytest.mark.parametrize("base", [*PLAIN.values(), *SEALED.values(), SEALED_ANIMAL])
def test_each_base_lies_in_its_range(base: object) -> None:
    low, months, high, most = (getattr(base, name) for name in ("low", "months", "high", "most"))
    assert 0 < low <= months <= high
    assert months <= most


def test_fat_shortens_in_steps() -> None:
    assert [fat_factor(fat) for fat in (0, 0.02, 0.021, 0.10, 0.11, 0.30, 0.31, 1)] == [
        1, 1, 0.75, 0.75, 0.5, 0.5, 0.375, 0.375,
    ]  # fmt: skip
    assert [factor for _, factor in FAT_STEPS] == sorted(
        (factor for _, factor in FAT_STEPS), reverse=True
    )


@pytest.mark.parametrize("fat", [-0.01, 1.01, float("nan")])
def test_fat_beyond_the_whole_is_refused(fat: float) -> None:
    with pytest.raises(ValueError, match="fat"):
        fat_factor(fat)


def test_ten_degrees_more_quarter_the_time_and_ten_less_do_not_double_it() -> None:
    assert temperature_factor(30.0) == pytest.approx(1 / 4)
    assert temperature_factor(10.0) == pytest.approx(1.8)


def test_each_quotient_errs_to_its_side() -> None:
    assert LOW.cold < DATED.cold < HIGH.cold
    assert LOW.warm > DATED.warm > HIGH.warm


def test_a_freezer_is_not_counted() -> None:
    assert temperature_factor(-18.0) == temperature_factor(4.4)


def test_a_temperature_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="temperature"):
        temperature_factor(float("nan"))


def test_the_way_of_drying_counts_only_without_oxygen() -> None:
    plain = {base_quality("vegetable", way, "plain", 0.01) for way in get_args(Way)}
    assert len(plain) == 1
    assert base_quality("vegetable", "freeze", "absorber", 0.01).months == 24


def test_oily_grain_and_browning_apricots_get_no_credit_for_an_absorber() -> None:
    for kind, way, fat in (("grain", "bought", 0.036), ("apricots", "air", 0.01)):
        sealed = quality_time(kind, way, "absorber", fat)  # type: ignore[arg-type]
        assert sealed == quality_time(kind, way, "plain", fat)  # type: ignore[arg-type]


def test_a_lean_freeze_dried_food_with_an_absorber_is_dated_two_years_not_twenty_five() -> None:
    assert quality_time("vegetable", "freeze", "absorber", 0.01).months == 24
    assert quality_time("vegetable", "freeze", "absorber", 0.01, 5.0).months == 24


def test_a_mix_keeps_as_long_as_its_shortest_part() -> None:
    lean = mix_quality([RICE, LEEKS], "absorber")
    meaty = mix_quality([RICE, LEEKS, TURKEY], "absorber")
    assert (lean.shortest, lean.keeps.months) == ("rice", 18)
    assert (meaty.shortest, meaty.keeps.months) == ("turkey", 6)


def test_a_mix_with_avocado_is_used_within_a_year() -> None:
    # common practice, no source
    mixed = mix_quality([RICE, LEEKS, AVOCADO], "absorber")
    assert mixed.shortest == "avocado"
    assert 6 <= mixed.keeps.months <= 12


def test_a_pinch_of_an_oily_spice_sets_no_date() -> None:
    cumin = Part("cumin", 0.4, 0.24, "vegetable", "bought")
    assert mix_quality([RICE, cumin], "absorber").shortest == "rice"
    assert mix_quality([cumin], "absorber").shortest == "cumin"


def test_a_mix_of_nothing_has_no_date() -> None:
    with pytest.raises(ValueError, match="weighs"):
        mix_quality([], "plain")


@pytest.mark.parametrize(
    ("packed", "months", "until"),
    [
        (date(2026, 7, 14), 9.0, date(2027, 4, 14)),
        (date(2026, 7, 14), 9.99, date(2027, 4, 14)),
        (date(2026, 7, 14), 8.9999999999, date(2027, 4, 14)),
        (date(2026, 12, 1), 24.0, date(2028, 12, 1)),
        (date(2026, 11, 30), 3.0, date(2027, 2, 28)),
        (date(2027, 11, 30), 3.0, date(2028, 2, 29)),
        (date(2026, 7, 14), 0.7, date(2026, 7, 14)),
    ],
)
def test_best_by_is_whole_months_on_rounded_down(packed: date, months: float, until: date) -> None:
    assert best_by(packed, months) == until


@pytest.mark.parametrize("months", [-1.0, float("nan"), float("inf")])
def test_best_by_no_months_is_refused(months: float) -> None:
    with pytest.raises(ValueError, match="no date"):
        best_by(date(2026, 7, 14), months)
