"""Nourishment: what a dish holds, added up from its stores."""

from __future__ import annotations

from dataclasses import dataclass, fields
from math import fsum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable


@dataclass(frozen=True, slots=True)
class Nourishment:
    """What an amount of food holds.

    Parameters
    ----------
    mass_g : float
        The food itself, as weighed. [g]
    energy_kcal : float
        Energy. [kcal]
    protein_g, fat_g, carbohydrate_g, fibre_g : float
        Parts; carbohydrate by difference, the fibre within it. [g]
    sodium_mg : float
        Sodium. [mg]

    Examples
    --------
    >>> Nourishment(100.0, energy_kcal=380.0).per_100_g().energy_kcal
    380.0
    """

    mass_g: float = 0.0
    energy_kcal: float = 0.0
    protein_g: float = 0.0
    fat_g: float = 0.0
    carbohydrate_g: float = 0.0
    fibre_g: float = 0.0
    sodium_mg: float = 0.0

    def times(self, factor: float) -> Nourishment:
        """Return the nourishment of so many times the food."""
        return Nourishment(*(getattr(self, part.name) * factor for part in fields(self)))

    def per_100_g(self) -> Nourishment:
        """Return the nourishment of 100 g; of nothing, nothing."""
        return self.times(100 / self.mass_g) if self.mass_g else Nourishment()


def total(parts: Iterable[Nourishment]) -> Nourishment:
    """Return the nourishment of several foods together.

    Assumes that mixing changes nothing.

    Parameters
    ----------
    parts : iterable of Nourishment
        The foods. [-]

    Returns
    -------
    Nourishment
        Their sum. [-]

    Notes
    -----
    A sum, part by part.

    References
    ----------
    .. [1] Sums.

    Examples
    --------
    >>> total([Nourishment(10.0, 40.0), Nourishment(5.0, 20.0)]).energy_kcal
    60.0
    """
    listed = list(parts)
    return Nourishment(
        *(fsum(getattr(part, name.name) for part in listed) for name in fields(Nourishment))
    )


def atwater_kcal(protein_g: float, fat_g: float, carbohydrate_g: float) -> float:
    """Return energy by the general Atwater factors.

    Assumes carbohydrate by difference, its fibre counted like the rest.

    Parameters
    ----------
    protein_g, fat_g, carbohydrate_g : float
        Parts of the food. [g]

    Returns
    -------
    float
        Energy. [kcal]

    Notes
    -----
    .. math:: E = 4 P + 9 F + 4 C

    References
    ----------
    .. [1] General Atwater factors, as in 21 CFR 101.9(c)(1)(i); from memory.

    Examples
    --------
    >>> atwater_kcal(10.0, 5.0, 20.0)
    165.0
    """
    return 4 * protein_g + 9 * fat_g + 4 * carbohydrate_g
