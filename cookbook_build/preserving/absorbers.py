"""The oxygen left in a closed container, the absorbers for it, and who may be sealed with one.

Volumes in mL at sea level, moistures as fractions of the whole (wet basis).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, fsum
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from collections.abc import Sequence

OXYGEN_SHARE: Final = 0.2095
"""Oxygen in dry air, by volume; U.S. Standard Atmosphere: 20.9476 %, rounded up."""

SURPLUS: Final = 1.5
"""Absorber for each mL of oxygen, to pay for slow seals and old packets; one maker only says
"a safety margin": common practice, no source."""

SEA_LEVEL_PA: Final = 101_325.0
"""The pressure at which absorbers are rated; ISO 2533 (that they are rated at it: our choice)."""

TARGET_MOISTURE: Final = 0.03
"""A freeze-dried food this dry is dry enough; common practice, no source."""

ABSORBER_MOISTURE: Final = 0.10
"""Above this, no absorber: moist food with no oxygen may grow botulism. Home-storage guides (copy
read); Utah State, NCHFP and others say the same, from memory. The kitchen's cautions repeat it."""

JUST_FITS: Final = 1e-9
"""Parts of a container or absorber by which rounding may miss; our choice."""

Sealing = Literal["fine", "allowed", "refused", "unknown"]


@dataclass(frozen=True, slots=True)
class Absorbers:
    """The absorbers of one container, and what they are for.

    Parameters
    ----------
    sizes_ml : tuple of float
        Rated capacity of each piece, the largest first. [mL]
    oxygen_ml : float
        Oxygen that they are to take up. [mL]
    """

    sizes_ml: tuple[float, ...]
    oxygen_ml: float

    @property
    def capacity_ml(self) -> float:
        """What all pieces together take up."""
        return fsum(self.sizes_ml)


@dataclass(frozen=True, slots=True)
class SealingVerdict:
    """Whether a lot may be sealed with an absorber, and the figures that say so.

    Parameters
    ----------
    sealing : {"fine", "allowed", "refused", "unknown"}
        Verdict; `unknown` when the weighings contradict the food's moisture. [-]
    moisture : float
        Moisture of the lot. [-]
    limit : float
        Moisture above which it is refused. [-]
    """

    sealing: Sealing
    moisture: float
    limit: float = ABSORBER_MOISTURE


def oxygen_left_ml(air_ml: float, pressure_pa: float = SEA_LEVEL_PA) -> float:
    r"""Return the oxygen in some air, as it would measure at sea level.

    Assumes dry air at the temperature at which absorbers are rated.

    Parameters
    ----------
    air_ml : float
        Air. [mL]
    pressure_pa : float
        Air pressure where the container is closed; sea level (ISO 2533) if not given. [Pa]

    Returns
    -------
    float
        Oxygen. [mL]

    Notes
    -----
    .. math:: V_{O2} = 0.2095 V_{air} p/p_0

    References
    ----------
    .. [1] U.S. Standard Atmosphere (1962, and 1976 alike, from memory): 20.9476 % of dry air.

    Examples
    --------
    >>> round(oxygen_left_ml(846.0)), round(oxygen_left_ml(846.0, 84_600.0))
    (177, 148)
    """
    return OXYGEN_SHARE * air_ml * pressure_pa / SEA_LEVEL_PA


def absorbers_for(oxygen_ml: float, sizes_ml: Sequence[float]) -> Absorbers:
    r"""Return the absorbers for an amount of oxygen, from the household's sizes.

    Assumes that each takes up what it is rated for, and that sizes may be mixed.

    Parameters
    ----------
    oxygen_ml : float
        Oxygen in one container. [mL]
    sizes_ml : sequence of float
        Rated capacities at hand. [mL]

    Returns
    -------
    Absorbers
        The fewest pieces that do; of those the least capacity; at least one piece. [-]

    Raises
    ------
    ValueError
        If there is no size, one is not above zero, or the oxygen is below zero.

    Notes
    -----
    .. math:: \sum c_j \ge 1.5 V_{O2}

    The number of pieces follows from the largest size. Then what these would have to spare is
    spent on smaller ones: `spared` holds every sum that can be saved, up to that.

    References
    ----------
    .. [1] Exhaustive search; the factor is common practice, no source.

    Examples
    --------
    >>> absorbers_for(177.0, [100.0, 300.0, 500.0]).sizes_ml
    (300.0,)
    >>> absorbers_for(450.0, [100.0, 300.0, 500.0]).sizes_ml
    (500.0, 300.0)
    """
    if not (sizes_ml and min(sizes_ml) > 0 and oxygen_ml >= 0):
        raise ValueError(f"no absorber for {oxygen_ml!r} mL of oxygen among {tuple(sizes_ml)}")
    need, largest = SURPLUS * oxygen_ml, max(sizes_ml)
    count = max(1, ceil(need / largest - JUST_FITS))
    spare = count * largest - need + JUST_FITS * largest
    spared: dict[float, tuple[float, ...]] = {0.0: ()}
    for _ in range(count):
        known = len(spared)
        for saved, smaller in list(spared.items()):
            for size in sizes_ml:
                sum_saved = round(saved + largest - size, 6)  # to a millionth of a mL; our choice
                if sum_saved <= spare and len(smaller) < count:
                    spared.setdefault(sum_saved, (*smaller, size))
        if len(spared) == known:
            break
    best = spared[max(spared)]
    pieces = sorted([*best, *[largest] * (count - len(best))], reverse=True)
    return Absorbers(tuple(pieces), oxygen_ml)


def sealing_verdict(moisture: float) -> SealingVerdict:
    """Return whether food this moist may be sealed for keeping with an absorber.

    Assumes that the moisture is the lot's wettest piece; a balance of weights only gives its mean,
    and a percent of error in a fresh food's moisture is ten in the dry.

    Parameters
    ----------
    moisture : float
        Moisture of the dried lot, wet basis. [-]

    Returns
    -------
    SealingVerdict
        Fine up to 3 %, allowed up to 10 %, refused above; unknown below zero. [-]

    Notes
    -----
    The limits are `TARGET_MOISTURE` and `ABSORBER_MOISTURE`.

    References
    ----------
    .. [1] Home-storage guides (copies read): absorbers only with food of 10 % moisture or less.

    Examples
    --------
    >>> sealing_verdict(0.14)
    SealingVerdict(sealing='refused', moisture=0.14, limit=0.1)
    """
    sealing: Sealing = "unknown"
    if moisture > ABSORBER_MOISTURE:
        sealing = "refused"
    elif moisture >= 0:
        sealing = "fine" if moisture <= TARGET_MOISTURE else "allowed"
    return SealingVerdict(sealing, moisture)
