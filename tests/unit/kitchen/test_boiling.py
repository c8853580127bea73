from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cookbook_build.kitchen.boiling import (
    boiling_point_c,
    pressure_pa,
    saturation_pressure_pa,
    saturation_temperature_c,
    water_density,
)

if TYPE_CHECKING:
    from collections.abc import Callable


@pytest.mark.parametrize("temp_c", [1.0, 20.0, 60.0, 99.97, 120.0])
def test_saturation_goes_there_and_back(temp_c: float) -> None:
    back = saturation_temperature_c(saturation_pressure_pa(temp_c))
    assert back == pytest.approx(temp_c, abs=1e-6)


def test_water_boils_cooler_the_higher_one_climbs() -> None:
    points = [boiling_point_c(altitude) for altitude in range(-400, 9000, 100)]
    assert points == sorted(points, reverse=True)


def test_water_is_heaviest_near_four_degrees() -> None:
    assert max(range(100), key=lambda temp_c: water_density(float(temp_c))) == 4


@pytest.mark.parametrize(
    ("law", "outside"),
    [
        (pressure_pa, 11_500.0),
        (saturation_pressure_pa, -0.1),
        (saturation_temperature_c, 100.0),
        (water_density, 151.0),
    ],
)
def test_what_lies_outside_a_laws_range_is_refused(
    law: Callable[[float], float], outside: float
) -> None:
    with pytest.raises(ValueError, match="must lie between"):
        law(outside)
