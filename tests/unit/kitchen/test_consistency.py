from __future__ import annotations

from cookbook_build.kitchen.consistency import CONSISTENCIES


def test_the_table_is_that_of_the_stated_science() -> None:
    table = {name: (c.free_ratio, c.free_ratio_sd) for name, c in CONSISTENCIES.items()}
    assert table == {
        "filling": (-0.1, 0.12),
        "spread": (0.25, 0.12),
        "scoopable": (0.35, 0.12),
        "stew": (0.45, 0.12),
        "soup": (1.3, 0.4),
        "drink": (4.0, 1.0),
    }


def test_consistencies_stand_from_stiff_to_thin() -> None:
    ratios = [consistency.free_ratio for consistency in CONSISTENCIES.values()]
    assert ratios == sorted(ratios)
