from __future__ import annotations

import pytest

from cookbook_build.kitchen.cautions import ABSORBER_MOISTURE
from cookbook_build.preserving.lots import (
    DAMP_MOISTURE,
    fresh_moisture,
    household_yield,
    lot_of_unweighed_pot,
    weighed_lot,
)
from cookbook_build.preserving.yields import dry_yield


def test_a_lot_tells_its_yield_and_its_moisture() -> None:
    lot = weighed_lot(1000.0, 125.0, 0.88)
    assert (lot.dried_share, lot.fault, lot.teaches) == (0.125, None, True)
    assert lot.moisture == pytest.approx(0.04)


@pytest.mark.parametrize(
    ("fresh_g", "dry_g", "moisture", "fault", "teaches"),
    [
        (1000, 125, 0.88, None, True),
        (1000, 133.3, 0.88, None, True),
        (1000, 134, 0.88, None, False),
        (1000, 159, 0.88, None, False),
        (1000, 161, 0.88, "still damp", False),
        (1000, 115, 0.88, None, True),
        (1000, 109, 0.88, None, True),
        (1000, 107, 0.88, "lighter than its dry matter", True),
        (1000, 85, 0.88, "lighter than its dry matter", True),
        (1000, 83, 0.88, "far too light", False),
        (1000, 1001, 0.88, "heavier than fresh", False),
        (1000, 1010, 0.10, "heavier than fresh", False),
        (0, 125, 0.88, "not weighed", False),
        (1000, 0, 0.88, "not weighed", False),
        (1000, -3, 0.88, "not weighed", False),
        (float("nan"), 125, 0.88, "not weighed", False),
    ],
)
def test_weights_that_cannot_be_say_what_is_wrong(
    fresh_g: float, dry_g: float, moisture: float, fault: str | None, *, teaches: bool
) -> None:
    lot = weighed_lot(fresh_g, dry_g, moisture)
    assert (lot.fault, lot.teaches) == (fault, teaches)


def test_a_food_of_water_alone_is_our_mistake_not_the_authors() -> None:
    with pytest.raises(ValueError, match="no food holds"):
        weighed_lot(1000.0, 100.0, 1.0)


def test_without_lots_the_tables_yield_stands() -> None:
    own = household_yield(0.12, [])
    assert own.lots == 0
    assert own.mean == pytest.approx(0.12)
    assert own.sd == pytest.approx(0.15 * 0.12)


def test_damp_is_what_sealed_keeping_refuses() -> None:
    assert DAMP_MOISTURE == ABSORBER_MOISTURE
    assert weighed_lot(1000.0, 134.0, 0.88).is_damp
    assert not weighed_lot(1000.0, 133.0, 0.88).is_damp
    assert not weighed_lot(0.0, 133.0, 0.88).is_damp


@pytest.mark.parametrize(
    ("fresh_g", "dry_g", "filled", "least", "fault"),
    [
        # by the balance of dry matter: a pot of 20 % has at most 40 % once half of it boiled off
        (2740, 2000, 0.80, 1 - 1096 / 2000, "still damp"),
        (2740, 595, 0.80, 1 - 1096 / 595, None),
        (1000, 440, 0.80, 1 - 400 / 440, None),
        (1000, 450, 0.80, 1 - 400 / 450, "still damp"),
        (1000, 900, 0.40, 1 - 1000 / 900, None),  # more than half can't have boiled off
    ],
)
def test_a_pot_that_nobody_weighed_bounds_the_moisture_of_its_lots(
    fresh_g: float, dry_g: float, filled: float, least: float, fault: str | None
) -> None:
    lot = lot_of_unweighed_pot(fresh_g, dry_g, filled)
    assert (lot.moisture, lot.fault, lot.teaches) == (None, fault, False)
    assert lot.least_moisture == pytest.approx(least)
    assert lot.is_damp is (fault is not None)
    assert lot.dried_share == pytest.approx(dry_g / fresh_g)


def test_a_lot_of_such_a_pot_without_weights_tells_nothing() -> None:
    lot = lot_of_unweighed_pot(0.0, 100.0, 0.8)
    assert (lot.fault, lot.sure_moisture, lot.is_damp) == ("not weighed", None, False)
    with pytest.raises(ValueError, match="no food holds"):
        lot_of_unweighed_pot(1000.0, 100.0, 1.0)


@pytest.mark.parametrize("share", [0.1201, 0.13, 0.2, 0.9])
def test_no_lots_of_their_own_let_a_tray_stop_damper_than_the_target(share: float) -> None:
    # by the balance of dry matter: 0.1164 g of it, at 3 % moisture, weigh 0.12 g
    for lots in (1, 3, 40):
        target_g = 1000 * household_yield(0.12, [share] * lots).mean
        assert 1 - 116.4 / target_g <= 0.03 + 1e-9


def test_more_lots_draw_the_yield_closer_and_make_it_surer() -> None:
    owns = [household_yield(0.12, [0.10] * lots) for lots in (0, 1, 2, 5, 50)]
    assert [own.mean for own in owns] == sorted((own.mean for own in owns), reverse=True)
    assert [own.sd for own in owns] == sorted((own.sd for own in owns), reverse=True)
    assert owns[1].mean == pytest.approx(
        (0.12 / 0.0225 + 0.10 / 0.0064) / (1 / 0.0225 + 1 / 0.0064)
    )
    assert owns[-1].mean == pytest.approx(0.10, rel=0.002)


def test_a_yield_tells_the_moisture_that_it_was_made_with() -> None:
    assert fresh_moisture(dry_yield(0.87, 0.045), 0.045) == pytest.approx(0.87)
    with pytest.raises(ValueError, match="no food dries to"):
        fresh_moisture(1.1, 0.03)
