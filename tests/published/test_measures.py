"""Kitchen measures against the standards that define them."""

from __future__ import annotations

import pint
import pytest

from cookbook_build.measures.units import SYSTEMS

US = SYSTEMS["us-cups"]


@pytest.mark.parametrize(
    ("unit", "ml"),
    # NIST Handbook 44, Appendix C, as recalled (MEM, high) in the reference page, section 1
    [("tsp", 4.92892), ("tbsp", 14.78676), ("cup", 236.5882), ("fl oz", 29.57353)],
)
def test_us_measures_are_those_of_handbook_44(unit: str, ml: float) -> None:
    assert float(US.ml[unit]) == pytest.approx(ml, abs=5e-5)


@pytest.mark.parametrize(
    ("unit", "ml", "half_digit"),
    # NIST SP 430, Table 1 (seen): rounded values
    [("tsp", 4.9, 0.05), ("tbsp", 15, 0.5), ("cup", 237, 0.5), ("pint", 473, 0.5),
     ("quart", 946, 0.5)],
)  # fmt: skip
def test_us_measures_round_to_sp_430(unit: str, ml: float, half_digit: float) -> None:
    assert abs(float(US.ml[unit]) - ml) <= half_digit


def test_the_chain_of_sp_430_is_exact() -> None:
    # NIST SP 430 (seen): 3 tsp = 1 tbsp, 16 tbsp = 1 cup, 48 tsp = 1 cup, 8 fl oz = 1 cup
    assert 3 * US.ml["tsp"] == US.ml["tbsp"]
    assert 16 * US.ml["tbsp"] == US.ml["cup"] == 48 * US.ml["tsp"] == 8 * US.ml["fl oz"]


@pytest.mark.parametrize(
    ("unit", "amount"),
    # 21 CFR 101.9(b)(5)(viii) (seen, copy)
    [("tsp", 5), ("tbsp", 15), ("cup", 240), ("fl oz", 30)],
)
def test_label_measures_are_those_of_21_cfr_101_9(unit: str, amount: int) -> None:
    assert SYSTEMS["label-cups"].ml[unit] == amount
    assert SYSTEMS["label-cups"].grams["oz"] == 28


@pytest.mark.parametrize(
    ("ours", "theirs"),
    [("cup", "cup"), ("tbsp", "tablespoon"), ("tsp", "teaspoon"), ("fl oz", "fluid_ounce"),
     ("pint", "pint"), ("quart", "quart"), ("L", "liter")],
)  # fmt: skip
def test_volumes_agree_with_the_pint_library(ours: str, theirs: str) -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    expected = registry.Quantity(1, theirs).to("milliliter").magnitude
    assert float(US.ml[ours]) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(("ours", "theirs"), [("oz", "ounce"), ("lb", "pound"), ("kg", "kilogram")])
def test_weights_agree_with_the_pint_library(ours: str, theirs: str) -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    expected = registry.Quantity(1, theirs).to("gram").magnitude
    assert float(US.grams[ours]) == pytest.approx(expected, rel=1e-12)
