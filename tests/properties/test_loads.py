"""What holds for any batches and any dryer."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from random import Random  # noqa: TC003  # hypothesis reads the annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cookbook_build.preserving.loads import (
    Batch,
    Dryer,
    fewest_loads,
    plan_loads,
    tray_capacity_g,
)

JUST_FITS = 1 + 1e-8


@st.composite
def many_batches(draw: st.DrawFn) -> list[Batch]:
    return [
        Batch(
            f"store {at}",
            draw(st.floats(0, 4000)),
            draw(st.floats(0.3, 0.96)),
            draw(st.floats(0.0, 0.25)),
            draw(st.none() | st.floats(0.1, 1.2)),
            strong_odour=draw(st.booleans()),
            raw_animal=draw(st.booleans()),
        )
        for at in range(draw(st.integers(0, 6)))
    ]


dryers = st.builds(
    Dryer,
    trays=st.integers(1, 6),
    tray_area_m2=st.none() | st.floats(0.05, 0.3),
    tray_load_g=st.none() | st.floats(300, 1500),
    ice_g=st.none() | st.floats(700, 6000),
)


@given(many_batches(), dryers)
def test_no_gram_is_lost_or_invented(batches: list[Batch], dryer: Dryer) -> None:
    found: dict[Batch, list[float]] = defaultdict(lambda: [0.0, 0.0, 0.0])
    for load in plan_loads(batches, dryer).loads:
        assert load.water_g == pytest.approx(sum(tray.water_g for tray in load.trays), rel=1e-12)
        for tray in load.trays:
            sums = found[tray.batch]
            sums[0] += tray.prepared_g
            sums[1] += tray.done_g
            sums[2] += tray.water_g
    for batch in batches:
        wanted = (batch.prepared_g, batch.done_g, batch.water_g)
        assert found[batch] == pytest.approx(wanted, rel=1e-9, abs=1e-9)


@given(many_batches(), dryers)
def test_every_load_keeps_every_rule(batches: list[Batch], dryer: Dryer) -> None:
    for load in plan_loads(batches, dryer).loads:
        assert 1 <= len(load.trays) <= dryer.trays
        if dryer.ice_g is not None:
            assert load.water_g <= dryer.ice_g * JUST_FITS
        kinds = {(tray.batch.strong_odour, tray.batch.raw_animal) for tray in load.trays}
        assert len(kinds) == 1
        for tray in load.trays:
            assert 0 < tray.prepared_g <= tray_capacity_g(tray.batch, dryer) * JUST_FITS
            assert tray.done_g + tray.water_g == pytest.approx(tray.prepared_g)


@given(many_batches(), dryers)
def test_trays_of_a_batch_are_alike(batches: list[Batch], dryer: Dryer) -> None:
    fills: dict[Batch, set[float]] = defaultdict(set)
    for load in plan_loads(batches, dryer).loads:
        for tray in load.trays:
            fills[tray.batch].add(tray.prepared_g)
    assert all(len(grams) == 1 for grams in fills.values())


@given(many_batches(), dryers)
def test_no_plan_beats_its_bound_nor_the_bound_the_plain_one(
    batches: list[Batch], dryer: Dryer
) -> None:
    plan = plan_loads(batches, dryer)
    assert fewest_loads(batches, dryer) <= plan.lower_bound <= len(plan.loads)


@given(many_batches(), dryers, st.randoms(use_true_random=False))
def test_the_order_of_batches_changes_nothing(
    batches: list[Batch], dryer: Dryer, chance: Random
) -> None:
    shuffled = list(batches)
    chance.shuffle(shuffled)
    assert plan_loads(shuffled, dryer) == plan_loads(batches, dryer)


@settings(deadline=None)
@given(many_batches(), dryers, st.floats(700, 6000), st.floats(0, 3000))
def test_more_ice_never_needs_more_loads(
    batches: list[Batch], dryer: Dryer, ice_g: float, more_g: float
) -> None:
    # So small that all plans are tried: a longer search may end early, on a plan that isn't best.
    few = [replace(batch, prepared_g=batch.prepared_g / 2) for batch in batches[:4]]
    less, more = (plan_loads(few, replace(dryer, ice_g=ice)) for ice in (ice_g, ice_g + more_g))
    assert less.lower_bound == len(less.loads)
    assert len(more.loads) <= len(less.loads)
