"""How long a dish rests, from a tested rest and the temperatures then and now.

Also what to start from when nobody has tested it.
"""

from __future__ import annotations

from math import exp
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.boiling import ZERO_C_IN_K

if TYPE_CHECKING:
    from cookbook_build.kitchen.cooling import Warmth

ACTIVATION_KJ_PER_MOL: Final = 19.2
"""Air-dried Boletus edulis, 25-70 °C: J. Sci. Food Agric. 85 (2005) 1397-1404."""

ACTIVATION_BAND_KJ_PER_MOL: Final = (15.0, 40.0)
"""What other soaking and rehydration studies span; from memory. Within it lie chickpea texture
(26.5 below 60 °C), chickpea soaking (36 ± 6) and mushroom plateaus (39); below it lie chickpea
above gelatinisation (9) and cowpea (8), above it soybean soaking (60)."""

CRUSHED_REST_S: Final = 300.0
WHOLE_REST_S: Final = 600.0
"""Untested rests in a covered bowl, crushed or powdered and whole; common practice, no source."""

COVERED_BOWL_C: Final = 65.0
"""Mean temperature for which those hold, our choice: our bowl model gives 64 to 70 °C for a single
supper of 180 to 250 mL of water over ten minutes at sea level, in the default kit."""

GAS_CONSTANT_J_PER_MOL_K: Final = 8.314462618
"""CODATA 2018, exact."""


def rest_s(
    reference_s: float,
    reference_c: float,
    mean_c: float,
    activation_kj_per_mol: float = ACTIVATION_KJ_PER_MOL,
) -> float:
    r"""Return the rest at another temperature.

    Assumes that one step, the way of water into the pieces, sets the time.

    Parameters
    ----------
    reference_s : float
        Rest that was enough. [s]
    reference_c : float
        Mean temperature over that rest. [°C]
    mean_c : float
        Mean temperature over the rest asked for. [°C]
    activation_kj_per_mol : float
        Activation energy E. [kJ/mol]

    Returns
    -------
    float
        Rest. [s]

    Raises
    ------
    ValueError
        If the reference is not a positive time.

    Notes
    -----
    .. math:: t = t_{tested} \exp\left[\frac{E}{R}
              \left(\frac{1}{T} - \frac{1}{T_{tested}}\right)\right]

    The source's constants are rates from 25 to 70 °C; used here from 0 to 100 °C.

    References
    ----------
    .. [1] P. García-Pascual et al., J. Sci. Food Agric. 85 (2005) 1397-1404.

    Examples
    --------
    >>> round(rest_s(720.0, 65.0, 16.0) / 720.0, 1)
    3.2
    """
    if not reference_s > 0:
        raise ValueError(f"a rest takes time, not {reference_s!r} s")
    inverse = 1 / (mean_c + ZERO_C_IN_K) - 1 / (reference_c + ZERO_C_IN_K)
    return reference_s * exp(1000 * activation_kj_per_mol / GAS_CONSTANT_J_PER_MOL_K * inverse)


def rest_band_s(reference_s: float, reference_c: float, mean_c: float) -> tuple[float, float]:
    """Return the shortest and longest rest that the published activation energies allow.

    Assumes the mean temperature of the central rest for both.

    Parameters
    ----------
    reference_s : float
        Rest that was enough. [s]
    reference_c : float
        Mean temperature over that rest. [°C]
    mean_c : float
        Mean temperature over the rest asked for. [°C]

    Returns
    -------
    tuple of float
        Shortest and longest rest; one and the same at the reference temperature. [s]

    Notes
    -----
    `rest_s` at 15 and 40 kJ/mol.

    References
    ----------
    .. [1] Band from memory, see `ACTIVATION_BAND_KJ_PER_MOL`.

    Examples
    --------
    >>> [round(rest / 60) for rest in rest_band_s(720.0, 65.0, 95.0)]
    [4, 8]
    """
    low, high = (
        rest_s(reference_s, reference_c, mean_c, energy) for energy in ACTIVATION_BAND_KJ_PER_MOL
    )
    return min(low, high), max(low, high)


def settled_rest_s(warmth: Warmth, reference_s: float, reference_c: float) -> float:
    """Return the rest of a dish whose mean temperature itself depends on the rest.

    Assumes that a longer rest is not warmer on the mean.

    Parameters
    ----------
    warmth : Warmth
        How the temperature of the dish runs. [-]
    reference_s : float
        Rest that was enough. [s]
    reference_c : float
        Mean temperature over that rest. [°C]

    Returns
    -------
    float
        Rest. [s]

    Notes
    -----
    Solves t = `rest_s` (T(t)) by going round. Each round shortens the error to less than a
    half for any bowl that starts below 100 °C in a room, so that it comes to rest.

    References
    ----------
    .. [1] Fixed-point iteration.

    Examples
    --------
    >>> from cookbook_build.kitchen.cooling import Relaxation
    >>> round(settled_rest_s(Relaxation(95.0, 20.0, 1e9), 720.0, 65.0))
    413
    """
    rest = reference_s
    # rounds and closeness: our choice, far within what a clock shows
    for _ in range(200):
        before, rest = rest, rest_s(reference_s, reference_c, warmth.mean_c(rest))
        if abs(rest - before) <= 1e-13 * rest:  # our choice
            break
    return rest
