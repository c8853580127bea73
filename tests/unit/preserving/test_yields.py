from __future__ import annotations

import pytest

from cookbook_build.preserving.yields import (
    RESIDUAL_MOISTURE,
    VOLUME_KEPT,
    dried_cup_weight,
    dry_yield,
    prepared_mass_g,
    purchased_mass_g,
    residual_moisture,
    uncooked_mass_g,
    water_removed,
)


def test_defaults_are_those_of_the_stated_science() -> None:
    assert dict(RESIDUAL_MOISTURE) == {"freeze": 0.03, "air": 0.08}
    assert {way: (kept.mean, kept.sd) for way, kept in VOLUME_KEPT.items()} == {
        "freeze": (1.0, 0.0),
        "air": (0.21, 0.08),
    }


def test_what_stays_and_what_leaves_make_the_whole() -> None:
    assert dry_yield(0.88, 0.03) + water_removed(0.88, 0.03) == 1


def test_two_weighings_tell_the_moisture_that_the_yield_was_made_with() -> None:
    dry_g = 1800.0 * dry_yield(0.87, 0.045)
    assert residual_moisture(1800.0, dry_g, 0.87) == pytest.approx(0.045)


def test_a_weighing_slip_shows_as_moisture_below_zero() -> None:
    assert residual_moisture(1000.0, 90.0, 0.88) < 0


def test_air_dried_pieces_make_a_heavier_cup() -> None:
    puffed = dried_cup_weight(128.0, 0.8829, 0.03, VOLUME_KEPT["freeze"].mean)
    shrunk = dried_cup_weight(128.0, 0.8829, 0.08, VOLUME_KEPT["air"].mean)
    assert shrunk == pytest.approx(puffed / 0.21 * 0.97 / 0.92)


def test_the_way_back_to_the_shop_undoes_the_drying() -> None:
    prepared_g = prepared_mass_g(50.0, 0.83, 0.03)
    assert prepared_g * dry_yield(0.83, 0.03) == pytest.approx(50.0)
    bought_g = purchased_mass_g(prepared_g, 0.56)
    assert bought_g * (1 - 0.56) == pytest.approx(prepared_g)


def test_cooking_and_drying_keep_the_dry_matter() -> None:
    raw_g = uncooked_mass_g(198.0, 0.6964, 0.0826)
    assert raw_g * (1 - 0.0826) == pytest.approx(198.0 * (1 - 0.6964))


@pytest.mark.parametrize("pair", [(0.5, 0.6), (1.0, 0.1), (0.5, -0.1), (float("nan"), 0.1)])
def test_drying_that_adds_water_is_refused(pair: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="no food dries"):
        dry_yield(*pair)


def test_impossible_weighings_are_refused() -> None:
    with pytest.raises(ValueError, match="no drying"):
        residual_moisture(1000.0, 0.0, 0.8)
    with pytest.raises(ValueError, match="no cup"):
        dried_cup_weight(128.0, 0.88, 0.03, 0.0)
    with pytest.raises(ValueError, match="refuse"):
        purchased_mass_g(100.0, 1.0)
    with pytest.raises(ValueError, match="no food cooks"):
        uncooked_mass_g(100.0, 1.0, 0.1)
