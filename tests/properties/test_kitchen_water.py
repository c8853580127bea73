"""What holds for any component, place and number of servings."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from cookbook_build.kitchen import (
    CONSISTENCIES,
    METHODS,
    UPTAKE_PRIORS,
    Component,
    ComponentWater,
    Conditions,
    Kit,
    Method,
    Portion,
    Tested,
    component_water,
    full_restoration_ml,
)
from cookbook_build.kitchen.resting import CRUSHED_REST_S
from cookbook_build.kitchen.scaling import dry_mix

SIZES = (1, 2, 3, 4, 6, 8)
KIT = Kit()


@st.composite
def portions(draw: st.DrawFn, least_g: float = 2.0, *, per_pot: bool = False) -> Portion:
    dry_g = draw(st.floats(least_g, 60))
    prior = UPTAKE_PRIORS[draw(st.sampled_from(sorted(UPTAKE_PRIORS)))]
    moisture = draw(st.floats(0.4, 0.94))
    full_ml = full_restoration_ml(dry_g, moisture, 0.03)
    return Portion("store", dry_g, dry_g * 4, full_ml, prior.mean, prior.sd, per_pot=per_pot)


places = st.builds(
    Conditions,
    altitude_m=st.floats(0, 5000),
    air_c=st.floats(-10, 35),
    water_c=st.floats(1, 30),
    relative_humidity=st.floats(0.1, 1),
)
methods = st.sampled_from(METHODS)


@st.composite
def untested(draw: st.DrawFn, least_g: float = 2.0) -> Component:
    return Component(
        "bowl",
        draw(st.sampled_from([1, 2, 4])),
        (
            *draw(st.lists(portions(least_g), min_size=1, max_size=4)),
            *draw(st.lists(portions(per_pot=True), max_size=1)),
        ),
        CONSISTENCIES[draw(st.sampled_from(sorted(CONSISTENCIES)))],
        rest_hint_s=draw(st.floats(240, 1800)),
    )


@st.composite
def tried(draw: st.DrawFn) -> Component:
    component = draw(untested())
    servings = draw(st.sampled_from([1, 2, 4]))
    taken_ml = dry_mix(component, servings).uptake_ml
    poured_ml = draw(st.floats(0.8, 3)) * taken_ml + 30
    block = Tested(draw(methods), servings, poured_ml, draw(st.floats(240, 1800)), draw(places))
    return replace(component, tested=block)


components = st.one_of(untested(), tried())


def answers(component: Component, method: Method, place: Conditions) -> list[ComponentWater]:
    return [
        component_water(component, servings=size, method=method, conditions=place, kit=KIT)
        for size in SIZES
    ]


@given(tried())
def test_the_tested_amount_and_rest_come_back_exactly(component: Component) -> None:
    block = component.tested
    assert block
    answer = component_water(
        component,
        servings=block.servings,
        method=block.method,
        conditions=block.conditions,
        kit=KIT,
    )
    assert answer.total_ml == pytest.approx(block.water_ml, rel=1e-9)
    assert answer.rest_s == pytest.approx(block.rest_s, rel=1e-9)


@given(components, methods, places)
def test_more_servings_want_more_water(
    component: Component, method: Method, place: Conditions
) -> None:
    for fewer, more in pairwise(answers(component, method, place)):
        assert fewer.start_ml < more.start_ml
        assert fewer.total_ml < more.total_ml


@given(components, methods, places)
def test_water_per_serving_never_grows_with_servings(
    component: Component, method: Method, place: Conditions
) -> None:
    each = [
        answer.total_ml / size
        for answer, size in zip(answers(component, method, place), SIZES, strict=True)
    ]
    for fewer, more in pairwise(each):
        assert more <= fewer * (1 + 1e-9)


@given(components, methods, places, st.floats(0, 5000))
def test_altitude_never_changes_what_the_food_takes_up(
    component: Component, method: Method, place: Conditions, altitude_m: float
) -> None:
    here, there = (
        component_water(component, servings=2, method=method, conditions=where, kit=KIT)
        for where in (place, replace(place, altitude_m=altitude_m))
    )
    assert here.uptake_ml == there.uptake_ml
    assert here.free_ml == there.free_ml


@given(untested(least_g=60.0), st.sampled_from(SIZES), places)
def test_of_a_meal_the_stove_loses_most_and_jar_and_cold_soak_nothing(
    component: Component, servings: int, place: Conditions
) -> None:
    """A meal of 60 g or more a serving that rests as long as crushed pieces do.

    A spoonful on the stove loses at most half of its water, and litres of a drink stand longer
    in an oven before they boil than they simmer: there the oven may lose more.
    """
    rest_s = max(component.rest_hint_s, CRUSHED_REST_S)
    component = replace(component, servings=1, rest_hint_s=rest_s)
    assume(component.consistency.name != "drink")
    losses = {
        method: component_water(
            component, servings=servings, method=method, conditions=place, kit=KIT
        ).loss_ml
        for method in METHODS
    }
    assert max(losses, key=losses.__getitem__) == "stove"
    assert losses["jar"] == losses["cold"] == 0


@given(components, methods, places, st.sampled_from(SIZES))
def test_every_answer_can_be_poured(
    component: Component, method: Method, place: Conditions, servings: int
) -> None:
    answer = component_water(component, servings=servings, method=method, conditions=place, kit=KIT)
    assert 0 < answer.start_ml <= answer.total_ml
    assert answer.hold_back_ml > 0
    assert answer.start_ml + answer.hold_back_ml >= answer.total_ml - 1e-9
    assert answer.rest_low_s <= answer.rest_s <= answer.rest_high_s


@given(untested(), st.floats(0, 4000), st.floats(0, 4000))
def test_a_pot_on_a_mountain_rests_longer(
    component: Component, one_m: float, other_m: float
) -> None:
    low, high = (
        component_water(
            component, servings=1, method="stove", conditions=Conditions(altitude_m=m), kit=KIT
        ).rest_s
        for m in sorted((one_m, other_m))
    )
    assert low <= high
