"""Temperatures that decide whether food is safe: to cook to, to hold above, to chill below.

Sources
-------
- USDA safe minimum internal temperature chart (165, 160, 145 °F) and USDA FSIS danger zone
  (40 to 140 °F), two hours, one above 90 °F; all read in copies.
- FDA Food Code 3-501.16 holds hot food at 57 °C (135 °F); the stricter 60 °C is used here.
- Milk, flour, offal and game have no line in the copies read; the 165 °F of leftovers is our
  cautious choice for them.
- A refrigerator at 4 °C (40 °F) or below: USDA FSIS, the lower edge of the danger zone.
- Ten per cent moisture with absorbers: common practice, from home-storage guides.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping

RawKind = Literal[
    "poultry", "minced meat", "offal and game", "whole meat", "fish", "egg", "milk", "flour"
]

# USDA FSIS: 140, 40 and 90 °F; a refrigerator at 4 °C.
HOT_LINE_C: Final = 60.0
COLD_LINE_C: Final = 4.4
FRIDGE_C: Final = 4.0
WARM_AIR_C: Final = 32.2
ABSORBER_MOISTURE: Final = 0.10

COOK_TO_C: Final[Mapping[RawKind, float]] = MappingProxyType(
    {
        "poultry": 73.9,
        "minced meat": 71.1,
        "offal and game": 73.9,
        "whole meat": 62.8,
        "fish": 62.8,
        "egg": 71.1,
        "milk": 73.9,
        "flour": 73.9,
    }
)
