"""What water gives back: the water a dried food lost, and the part it takes up at rest."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.kitchen.composition import Composition

Dryness = Literal["freeze", "powder", "air", "staple"]


@dataclass(frozen=True, slots=True)
class UptakePrior:
    """What a kind of dryness takes up of the water it lost, before anyone has tried.

    Parameters
    ----------
    mean, sd : float
        Mean and standard deviation of the uptake κ. [-]

    Examples
    --------
    >>> UPTAKE_PRIORS["freeze"].mean
    0.85
    """

    mean: float
    sd: float


UPTAKE_PRIORS: Final[Mapping[Dryness, UptakePrior]] = MappingProxyType(
    {
        # Fruit and potato regain up to 90 %: J. Food Eng. 72 (2006) 16-23. Corn 66 % and
        # peas 71 % in a dried-ingredient supplier's chart. The mean between is our choice.
        "freeze": UptakePrior(0.85, 0.12),
        # from memory
        "powder": UptakePrior(1.00, 0.05),
        # 30 to 66 % in the same supplier's chart; the mean is our choice.
        "air": UptakePrior(0.60, 0.15),
        # Couscous, quick oats, instant rice: from memory.
        "staple": UptakePrior(0.85, 0.12),
    }
)


@dataclass(frozen=True, slots=True)
class Portion:
    """One store's part in a component, and the water it wants.

    Parameters
    ----------
    store : str
        Name of the store. [-]
    dry_g : float
        Mass as it goes into the dry mix. [g]
    dry_ml : float
        Volume as measured into the dry mix. [mL]
    full_ml : float
        Water that would restore it wholly; a gram of water counts as a millilitre. [mL]
    uptake_mean, uptake_sd : float
        The part of it taken up in the rest, κ, and its standard deviation. [-]
    composition : Composition or None
        Mass fractions of the dry food, where known. [-]
    per_pot : bool
        True for what goes in once however many servings are made. [-]

    Raises
    ------
    ValueError
        If an amount is negative or not finite, or the uptake passes 2.

    Examples
    --------
    >>> Portion("lentils", 62.0, 236.6, 136.0, 0.85, 0.12).uptake_ml
    115.6
    """

    store: str
    dry_g: float
    dry_ml: float
    full_ml: float
    uptake_mean: float
    uptake_sd: float
    composition: Composition | None = None
    per_pot: bool = False

    def __post_init__(self) -> None:
        amounts = (self.dry_g, self.dry_ml, self.full_ml, self.uptake_sd)
        # bounds: our choice
        if not all(0 <= amount < 1e7 for amount in amounts) or not 0 <= self.uptake_mean <= 2:
            raise ValueError(f"{self.store}: amounts must not be negative or boundless")

    @property
    def uptake_ml(self) -> float:
        """Water taken up in the rest, κ a [mL]."""
        return self.uptake_mean * self.full_ml

    @property
    def uptake_sd_ml(self) -> float:
        """Standard deviation of the water taken up [mL]."""
        return self.uptake_sd * self.full_ml


def full_restoration_ml(dry_g: float, fresh_moisture: float, dried_moisture: float) -> float:
    """Return the water that brings a dried food back to its moisture before drying.

    Assumes that drying took water and nothing else; a millilitre of water counts as a gram.

    Parameters
    ----------
    dry_g : float
        Mass of the dried food. [g]
    fresh_moisture : float
        Moisture of the prepared food before drying, wet basis, M_f. [-]
    dried_moisture : float
        Moisture of the dried food, wet basis, M_r. [-]

    Returns
    -------
    float
        Water to add; none for a food that is no drier than the prepared one. [mL]

    Raises
    ------
    ValueError
        If the mass is negative or a moisture lies outside 0 to 1.

    Notes
    -----
    .. math:: a = m (M_f - M_r)/(1 - M_f)

    from the balance of dry matter, m (1 - M_r) = (m + a)(1 - M_f).

    References
    ----------
    .. [1] Mass balance; the moistures of the example are USDA SR28's, NDB 16070.

    Examples
    --------
    >>> round(full_restoration_ml(62.0, 0.6964, 0.03), 1)
    136.1
    """
    if not (dry_g >= 0 and 0 <= fresh_moisture < 1 and 0 <= dried_moisture < 1):
        raise ValueError(f"no food holds {dry_g} g at {fresh_moisture} and {dried_moisture}")
    return max(0.0, dry_g * (fresh_moisture - dried_moisture) / (1 - fresh_moisture))
