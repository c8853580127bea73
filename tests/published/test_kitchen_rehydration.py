"""What dried food took up, and how long it took, in other people's measurements."""

from __future__ import annotations

import pytest

from cookbook_build.kitchen.rehydration import UPTAKE_PRIORS, Dryness, full_restoration_ml
from cookbook_build.kitchen.resting import ACTIVATION_KJ_PER_MOL, rest_band_s, rest_s

# REHYDRATION-CHART: dry weight to wet weight; ASHRAE-FOODS for the fresh moisture; residual
# moisture 3 % freeze-dried and 6 % air-dried as the reference page reckons it.
CHART: list[tuple[str, Dryness, float, float, float]] = [
    ("sweet corn", "freeze", 1.5, 4.5, 0.7596),
    ("green peas", "freeze", 2.25, 8.0, 0.7886),
    ("carrots", "air", 4.0, 21.0, 0.8779),
    ("broccoli florets", "air", 2.0, 14.0, 0.9069),
    ("cabbage", "air", 2.5, 14.0, 0.9215),
    ("corn", "air", 3.5, 10.0, 0.7596),
    ("green beans", "air", 2.25, 13.0, 0.9027),
    ("celery", "air", 2.0, 12.0, 0.9464),
]


def uptake(dryness: Dryness, dry: float, wet: float, moisture: float) -> float:
    residual = 0.03 if dryness == "freeze" else 0.06
    return (wet - dry) / full_restoration_ml(dry, moisture, residual)


@pytest.mark.parametrize(("name", "dryness", "dry", "wet", "moisture"), CHART)
def test_measured_uptake_lies_within_two_deviations_of_the_prior(
    name: str, dryness: Dryness, dry: float, wet: float, moisture: float
) -> None:
    prior = UPTAKE_PRIORS[dryness]
    taken = uptake(dryness, dry, wet, moisture)
    assert abs(taken - prior.mean) < 2.05 * prior.sd, f"{name} took up {taken:.0%}"


def test_sliced_mushrooms_take_up_less_than_the_prior_allows() -> None:
    # REHYDRATION-CHART: 0.5 to 3.25 oz. Half of the lost water, nearly three deviations low:
    # a store that drying changes more than most. A household's trials will teach it.
    taken = uptake("freeze", 0.5, 3.25, 0.9181)
    assert taken == pytest.approx(0.51, abs=0.01)
    prior = UPTAKE_PRIORS["freeze"]
    assert 2.5 * prior.sd < prior.mean - taken < 3 * prior.sd


def test_fruit_and_potato_may_regain_nine_tenths() -> None:
    # JFE-72: up to 90 % of the original moisture.
    prior = UPTAKE_PRIORS["freeze"]
    assert prior.mean - prior.sd < 0.90 < prior.mean + prior.sd


def test_the_activation_energy_is_the_mushrooms() -> None:
    assert ACTIVATION_KJ_PER_MOL == 19.2  # JSFA-85, average over 25-70 °C


@pytest.mark.parametrize(
    ("study", "hot", "cold"),
    [
        # BEAN-SOAK: 10 h at 25 °C, 6 h at 35 °C, 4 h at 45 °C.
        ("beans 35", (6.0, 35.0), (10.0, 25.0)),
        ("beans 45", (4.0, 45.0), (10.0, 25.0)),
        # MUSHROOM-PLATEAU: about 10 min at 100 °C, about 3 h at 30 °C.
        ("mushroom", (10 / 60, 100.0), (3.0, 30.0)),
        # CHICKPEA-TEXTURE: 941 min at 20 °C, 82 min at 97 °C.
        ("chickpea", (82 / 60, 97.0), (941 / 60, 20.0)),
    ],
)
def test_soaking_times_of_other_studies_lie_in_the_band(
    study: str, hot: tuple[float, float], cold: tuple[float, float]
) -> None:
    (hot_h, hot_c), (cold_h, cold_c) = hot, cold
    low_s, high_s = rest_band_s(3600 * hot_h, hot_c, cold_c)
    assert low_s <= 3600 * cold_h <= high_s, study


def test_the_central_rest_is_short_for_hard_seeds() -> None:
    # BEAN-SOAK again: 36-39 kJ/mol, twice the mushroom's, so the middle promises too little;
    # that is why the band is shown.
    assert rest_s(4.0, 45.0, 25.0) < 10.0
