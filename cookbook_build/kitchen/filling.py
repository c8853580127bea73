"""How much room a dish takes, and how many jars it fills."""

from __future__ import annotations

from math import ceil
from typing import Final

HEADSPACE: Final = 0.10
"""Part of a jar that stays empty, so that one can stir and close it; common practice, no source."""

DRY_MATTER_G_PER_ML: Final = 1.45
"""True density of dried food; from memory (Choi-Okos: carbohydrate 1.6, protein 1.3, fat 0.9)."""


def dish_ml(water_ml: float, dry_g: float) -> float:
    r"""Return the room that a dish takes once its water stands between and in the pieces.

    Assumes that no air stays in it.

    Parameters
    ----------
    water_ml : float
        Water in it. [mL]
    dry_g : float
        Dry mix. [g]

    Returns
    -------
    float
        Volume. [mL]

    Notes
    -----
    .. math:: V = W + D/ρ

    with ρ = 1.45 g/mL.

    References
    ----------
    .. [1] Sum of volumes; the density is from memory.

    Examples
    --------
    >>> round(dish_ml(200.0, 72.5))
    250
    """
    return water_ml + dry_g / DRY_MATTER_G_PER_ML


def jars_filled(volume_ml: float, holds_ml: float) -> int:
    """Return how many jars a dish fills, all filled alike.

    Assumes the fewest that hold it: a full jar keeps its heat better than two half full.

    Parameters
    ----------
    volume_ml : float
        Volume of the dish. [mL]
    holds_ml : float
        Volume of one jar. [mL]

    Returns
    -------
    int
        Jars, at least one. [-]

    Notes
    -----
    A tenth of each jar stays empty. A dish that just fits still fits: 1e-9 of a jar is let
    pass.

    References
    ----------
    .. [1] Arithmetic.

    Examples
    --------
    >>> jars_filled(450.0, 500.0), jars_filled(451.0, 500.0)
    (1, 2)
    """
    return max(1, ceil(volume_ml / (holds_ml * (1 - HEADSPACE)) - 1e-9))
