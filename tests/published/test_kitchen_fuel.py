"""Fuel for a litre against a stove maker's figures, a measured burner and tables of fuels."""

from __future__ import annotations

import pytest

from cookbook_build.kitchen.conditions import Kit
from cookbook_build.kitchen.fuel import LOWER_HEATING_MJ_PER_KG, Fuel, boiling_fuel_g


@pytest.mark.parametrize(
    ("fuel", "tabled"),
    [
        # FUEL-HEATS: net values in MJ/kg, liquefied gas and butane, ethanol, two naphthas. A
        # canister is a mixture and white gas a cut: 2.5 %.
        ("gas canister", 46.596),
        ("gas canister", 45.75),
        ("alcohol", 26.945),
        ("white gas", 44.927),
        ("white gas", 44.372),
    ],
)
def test_heating_values_agree_with_tables_of_fuels(fuel: Fuel, tabled: float) -> None:
    assert LOWER_HEATING_MJ_PER_KG[fuel] == pytest.approx(tabled, rel=0.025)


@pytest.mark.parametrize(("fuel", "gross"), [("gas canister", 48.8), ("alcohol", 29.7)])
def test_net_values_lie_seven_to_eleven_percent_below_the_gross_ones(
    fuel: Fuel, gross: float
) -> None:
    # STOVE-MAKER's page for ethanol, BACKPACKING-FAQ for canister fuel (21,000 BTU/lb): both gross.
    assert 0.89 < LOWER_HEATING_MJ_PER_KG[fuel] / gross < 0.94


@pytest.mark.parametrize(("fuel", "grams"), [("gas canister", 7.5), ("alcohol", 13.1)])
def test_a_litre_takes_the_stove_makers_theoretical_fuel(fuel: Fuel, grams: float) -> None:
    # STOVE-MAKER: no loss, but no starting temperature either. Tap water of 15 to 20 °C frames it.
    warm, cool = (boiling_fuel_g(1000.0, start_c, 100.0, 1.0, fuel) for start_c in (20.0, 15.0))
    assert warm < grams < cool


def test_a_spirit_burners_fuel_is_told_from_its_efficiency() -> None:
    # SPIRIT-BURNER: 22 to 23 g of ethanol brought a litre from 21 to 100 °C, 49 % of 29.7 MJ/kg
    # gross. Of our net value that is 0.49 x 29.7/26.8 = 0.543.
    assert 22 < boiling_fuel_g(1000.0, 21.0, 100.0, 0.543, "alcohol") < 23


def test_the_usual_stove_is_no_better_than_measured_ones() -> None:
    # SPIRIT-BURNER reached 54 % of the net value and ALCOHOL-STOVES "around 60 %", both out of the
    # wind. Our half asks for a tenth more fuel than the former: cautious, and close.
    ours = Kit().stove_efficiency
    assert 0.49 <= ours <= 0.60
    grams = boiling_fuel_g(1000.0, 21.0, 100.0, ours, "alcohol")
    assert grams / 22.5 == pytest.approx(1.10, abs=0.02)
