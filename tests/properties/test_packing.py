"""What holds for any mix, pouch, absorber, fat and temperature."""

from __future__ import annotations

from itertools import combinations_with_replacement
from math import ceil
from typing import get_args

from hypothesis import given
from hypothesis import strategies as st

from cookbook_build.preserving.absorbers import SURPLUS, absorbers_for
from cookbook_build.preserving.keeping import Part, QualityTime, mix_quality, quality_time
from cookbook_build.preserving.label_text import QR_BYTES, plain_text, qr_text, size_bytes
from cookbook_build.preserving.packing import (
    Pouch,
    Vessel,
    packing,
    pouch_volume_ml,
    smallest_container,
    true_density_g_per_ml,
)
from cookbook_build.preserving.quality_bases import Kind, Package, Way

sides = st.floats(0.05, 0.6)
containers = st.lists(
    st.builds(Pouch, st.just("pouch"), sides, sides)
    | st.builds(Vessel, st.just("vessel"), st.floats(100, 20_000)),
    min_size=1,
    max_size=6,
)
sizes = st.lists(st.sampled_from([20.0, 50, 100, 200, 300, 500, 1000]), min_size=1, max_size=4)
kinds: st.SearchStrategy[Kind] = st.sampled_from(get_args(Kind))
ways: st.SearchStrategy[Way] = st.sampled_from(get_args(Way))
packages: st.SearchStrategy[Package] = st.sampled_from(get_args(Package))
fats = st.floats(0, 1)
temps = st.floats(-20, 45)


def ends(time: QualityTime) -> tuple[float, float, float]:
    return time.low, time.months, time.high


def never_longer(one: QualityTime, other: QualityTime) -> bool:
    pairs = zip(ends(one), ends(other), strict=True)
    return all(first <= second * (1 + 1e-12) for first, second in pairs)


@given(st.floats(0, 30_000), st.floats(0, 30_000), containers)
def test_a_larger_mix_never_gets_a_smaller_container(
    one: float, other: float, household: list[Pouch | Vessel]
) -> None:
    less, more = (smallest_container(mix, household) for mix in sorted((one, other)))
    assert less.container.usable_ml <= more.container.usable_ml
    assert less.count <= more.count


@given(st.floats(0, 30_000), containers)
def test_the_containers_hold_the_mix_and_one_fewer_would_not(
    mix_ml: float, household: list[Pouch | Vessel]
) -> None:
    choice = smallest_container(mix_ml, household)
    usable_ml = choice.container.usable_ml
    assert choice.count * usable_ml >= mix_ml * (1 - 1e-6)
    assert choice.count == 1 or (choice.count - 1) * usable_ml < mix_ml


@given(sides, sides, st.floats(1, 1.5))
def test_a_longer_pouch_holds_more_than_a_shorter_one(
    width_m: float, height_m: float, longer: float
) -> None:
    volume_ml = pouch_volume_ml(width_m, height_m)
    assert 0 < volume_ml <= pouch_volume_ml(width_m, height_m * longer) * (1 + 1e-12)


@given(st.floats(0, 5000), st.floats(0, 5000), sizes)
def test_more_oxygen_never_gets_a_smaller_absorber(
    one: float, other: float, household: list[float]
) -> None:
    less, more = (absorbers_for(oxygen, household) for oxygen in sorted((one, other)))
    assert less.capacity_ml <= more.capacity_ml + 1e-6
    assert len(less.sizes_ml) <= len(more.sizes_ml)


@given(st.floats(0, 1300), sizes.filter(lambda household: max(household) >= 300))
def test_no_other_pieces_as_few_would_do_with_less(oxygen: float, household: list[float]) -> None:
    need_ml = SURPLUS * oxygen
    count = max(1, ceil(need_ml / max(household)))
    able = [
        sum(pieces)
        for pieces in combinations_with_replacement(sorted(set(household)), count)
        if sum(pieces) >= need_ml
    ]
    chosen = absorbers_for(oxygen, household)
    assert len(chosen.sizes_ml) == count
    assert chosen.capacity_ml == min(able)


@given(st.floats(50, 3000), st.floats(0.05, 0.6), st.floats(0.3, 1), st.floats(0.3, 1), sizes)
def test_packing_higher_up_never_takes_more_absorber(
    mix_ml: float, g_per_ml: float, one: float, other: float, household: list[float]
) -> None:
    low, high = (
        packing(
            mix_ml,
            mix_ml * g_per_ml,
            1.45,
            containers=[Vessel("quart", 946.0)],
            absorbers_ml=household,
            pressure_pa=share * 101_325,
        ).absorbers
        for share in sorted((one, other))
    )
    assert low is not None
    assert high is not None
    assert low.capacity_ml <= high.capacity_ml + 1e-6


@given(st.lists(st.floats(0, 1), min_size=6, max_size=6).filter(lambda parts: sum(parts) > 0.01))
def test_a_density_lies_between_fat_and_ash(parts: list[float]) -> None:
    names = ("water", "protein", "fat", "carbohydrate", "fibre", "ash")
    density = true_density_g_per_ml(**dict(zip(names, parts, strict=True)))
    assert 0.917 < density < 2.419


@given(kinds, ways, packages, fats, temps, temps)
def test_warmer_never_keeps_longer(
    kind: Kind, way: Way, package: Package, fat: float, one: float, other: float
) -> None:
    cool_c, warm_c = sorted((one, other))
    warm = quality_time(kind, way, package, fat, warm_c)
    assert never_longer(warm, quality_time(kind, way, package, fat, cool_c))


@given(kinds, ways, packages, fats, fats, temps)
def test_fatter_never_keeps_longer(
    kind: Kind, way: Way, package: Package, one: float, other: float, temp_c: float
) -> None:
    lean, fat = sorted((one, other))
    fatter = quality_time(kind, way, package, fat, temp_c)
    assert never_longer(fatter, quality_time(kind, way, package, lean, temp_c))


@given(kinds, ways, fats, temps)
def test_an_absorber_never_shortens_the_time(
    kind: Kind, way: Way, fat: float, temp_c: float
) -> None:
    plain = quality_time(kind, way, "plain", fat, temp_c)
    assert never_longer(plain, quality_time(kind, way, "absorber", fat, temp_c))


@given(kinds, ways, packages, fats, temps)
def test_the_date_lies_in_its_range(
    kind: Kind, way: Way, package: Package, fat: float, temp_c: float
) -> None:
    low, months, high = ends(quality_time(kind, way, package, fat, temp_c))
    assert 0 < low <= months * (1 + 1e-12)
    assert months <= high * (1 + 1e-12)


part = st.builds(Part, st.just("store"), st.floats(1, 100), fats, kinds, ways)


@given(st.lists(part, min_size=1, max_size=8), packages, temps)
def test_no_mix_outlasts_a_part_that_counts(
    parts: list[Part], package: Package, temp_c: float
) -> None:
    keeps = mix_quality(parts, package, temp_c).keeps
    whole_g = sum(one.dry_g for one in parts)
    for one in parts:
        if one.dry_g >= 0.02 * whole_g:
            alone = quality_time(one.kind, one.way, package, one.fat, temp_c)
            assert never_longer(keeps, alone)


@given(st.text(), st.lists(st.text(), max_size=8))
def test_any_words_fit_the_code_and_their_warning_comes_first(title: str, lines: list[str]) -> None:
    text = qr_text(title, ["RAW: cook to 74 C", *lines])
    assert size_bytes(text) <= QR_BYTES
    assert "RAW: cook to 74 C" in text.splitlines()[:2]


@given(st.text())
def test_plain_words_stay_plain(words: str) -> None:
    once = plain_text(words)
    assert plain_text(once) == once
    assert "\n" not in once
