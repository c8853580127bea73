"""How stiff a dish is meant to be, as free water to a gram of restored food."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping

ConsistencyName = Literal["filling", "spread", "scoopable", "stew", "soup", "drink"]


@dataclass(frozen=True, slots=True)
class Consistency:
    """The free water that makes a dish what its name says.

    Free water is what stands between the pieces; a filling holds less water than its
    pieces could take up, hence its negative value.

    Parameters
    ----------
    name : ConsistencyName
        The word that an author writes. [-]
    free_ratio : float
        Free water to the mass of dry mix and water taken up, φ. [-]
    free_ratio_sd : float
        Standard deviation of that ratio from dish to dish. [-]

    References
    ----------
    .. [1] filling to stew: common practice, no source.
    .. [2] soup: USDA SR28, 83 soups as eaten: 89.3 % water on average; pieces restored at
       about 75 % then stand in 1.3 times their mass. drink: common practice, no source.

    Examples
    --------
    >>> CONSISTENCIES["stew"].free_ratio
    0.45
    """

    name: ConsistencyName
    free_ratio: float
    free_ratio_sd: float


CONSISTENCIES: Final[Mapping[ConsistencyName, Consistency]] = MappingProxyType(
    {
        consistency.name: consistency
        for consistency in (
            Consistency("filling", -0.1, 0.12),
            Consistency("spread", 0.25, 0.12),
            Consistency("scoopable", 0.35, 0.12),
            Consistency("stew", 0.45, 0.12),
            Consistency("soup", 1.3, 0.4),
            Consistency("drink", 4.0, 1.0),
        )
    }
)
