"""The kitchen: how much water a dish wants and how long it rests.

Takes plain numbers and dataclasses in SI units (g, mL, °C, s, m, Pa, fractions); a
millilitre of water counts as a gram. Gives the same. Opens no file, reads no clock,
knows nothing of the author's text, and may import nothing but its own modules and numpy (for
learning).

In order: `conditions` (method, place, kit), `boiling` (water and air), `composition` (heat
of food), `rehydration` and `consistency` (water that stays), `heating`, `evaporation`,
`cooling` and `warmth` (water and heat that leave), `readying` (each method), `resting`
(time), `component` (dry mix and test), `scaling` (the answer), `jars`, `simmering`, `fuel` and
`holding` (heat over the day). What trials teach: `beliefs`, `trials` (from a trial to an
equation), `fixed_order`, `incidence` and `trial_rows` (trials as arrays), `rounds`, `posterior`,
`learning` (slips left out), `witnesses` (what others say of one component), `teaching` and
`foresight` (the next trial).
"""

from cookbook_build.kitchen.composition import Composition
from cookbook_build.kitchen.conditions import METHODS, Conditions, Kit, Method
from cookbook_build.kitchen.consistency import CONSISTENCIES, Consistency
from cookbook_build.kitchen.rehydration import UPTAKE_PRIORS, Portion, full_restoration_ml
from cookbook_build.kitchen.scaling import (
    Component,
    ComponentWater,
    Derivation,
    Tested,
    component_water,
)

__all__ = [
    "CONSISTENCIES",
    "METHODS",
    "UPTAKE_PRIORS",
    "Component",
    "ComponentWater",
    "Composition",
    "Conditions",
    "Consistency",
    "Derivation",
    "Kit",
    "Method",
    "Portion",
    "Tested",
    "component_water",
    "full_restoration_ml",
]
