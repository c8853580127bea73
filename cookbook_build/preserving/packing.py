"""What a dry mix is packed in, the air left in there, and the whole plan of it.

Volumes in mL, lengths in m, masses in g. What the air calls for stands in `absorbers`.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, fsum, pi
from typing import TYPE_CHECKING, Final

from cookbook_build.preserving.absorbers import (
    JUST_FITS,
    SEA_LEVEL_PA,
    Absorbers,
    absorbers_for,
    oxygen_left_ml,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

USABLE_SHARE: Final = 0.75
"""Part of an inflated pouch that can be filled and still sealed; our choice. A filled pouch holds
50 to 70 % of it, from memory: a mix that only just fits may want the next size up."""


@dataclass(frozen=True, slots=True)
class Pouch:
    """A flat pouch, sealed all round.

    Parameters
    ----------
    name : str
        What the household calls it. [-]
    width_m, height_m : float
        Inner sides between the seals, in either order. [m]

    Examples
    --------
    >>> medium = Pouch("medium", 0.18, 0.26)
    >>> round(medium.volume_ml), round(medium.usable_ml)
    (1883, 1412)
    """

    name: str
    width_m: float
    height_m: float

    @property
    def volume_ml(self) -> float:
        """What it holds when blown up."""
        return pouch_volume_ml(self.width_m, self.height_m)

    @property
    def usable_ml(self) -> float:
        """How much dry mix goes in."""
        return USABLE_SHARE * self.volume_ml


@dataclass(frozen=True, slots=True)
class Vessel:
    """A jar or can, filled to its rated volume: the neck's bit more is room for the absorber.

    Parameters
    ----------
    name : str
        What the household calls it. [-]
    volume_ml : float
        What it is sold as holding. [mL]

    Examples
    --------
    >>> Vessel("quart", 946.0).usable_ml
    946.0
    """

    name: str
    volume_ml: float

    @property
    def usable_ml(self) -> float:
        """How much dry mix goes in."""
        return self.volume_ml


Container = Pouch | Vessel


@dataclass(frozen=True, slots=True)
class Choice:
    """A container, and how many of it a mix needs.

    Parameters
    ----------
    container : Pouch or Vessel
        The size. [-]
    count : int
        How many, filled alike. [-]
    """

    container: Container
    count: int


@dataclass(frozen=True, slots=True)
class Packing:
    """How a mix is packed; air, oxygen and absorbers are those of one container.

    Parameters
    ----------
    choice : Choice
        Container and how many. [-]
    dry_g : float
        Dry mix in each. [g]
    air_ml : float
        Air left in each. [mL]
    absorbers : Absorbers or None
        What goes into each; none where the household has none. [-]
    """

    choice: Choice
    dry_g: float
    air_ml: float
    absorbers: Absorbers | None


def pouch_volume_ml(width_m: float, height_m: float) -> float:
    r"""Return what a flat pouch, sealed all round, holds when blown up.

    Assumes sides that bend and don't stretch, and no fold at the bottom.

    Parameters
    ----------
    width_m, height_m : float
        Inner sides, in either order. [m]

    Returns
    -------
    float
        Largest volume. [mL]

    Raises
    ------
    ValueError
        If a side is not above zero.

    Notes
    -----
    .. math:: V = w^3 [h/(π w) - 0.142 (1 - 10^{-h/w})]

    with w the shorter side. It leaves out the crimps; for a square it comes out 7 % below the
    best volume that anyone has made.

    References
    ----------
    .. [1] A. C. Robin (2004), Paper Bag Problem, Mathematics Today, June, 104-107; read as an
       encyclopedia prints it.

    Examples
    --------
    >>> round(pouch_volume_ml(0.1, 0.1))
    191
    """
    if not (width_m > 0 and height_m > 0):
        raise ValueError(f"no pouch of {width_m!r} m by {height_m!r} m")
    short_m, long_m = sorted((width_m, height_m))
    slender = long_m / short_m
    return 1e6 * short_m**3 * (slender / pi - 0.142 * (1 - 10**-slender))


def smallest_container(mix_ml: float, containers: Sequence[Container]) -> Choice:
    """Return the container for a mix.

    Assumes that the mix may be parted at will.

    Parameters
    ----------
    mix_ml : float
        Bulk volume of the dry mix. [mL]
    containers : sequence of Pouch or Vessel
        The household's sizes. [-]

    Returns
    -------
    Choice
        The smallest that holds it all; else as many of the largest as it takes. [-]

    Raises
    ------
    ValueError
        If there is no container, or the mix has a volume below zero.

    Notes
    -----
    Of two that hold alike, the one named first.

    References
    ----------
    .. [1] Arithmetic.

    Examples
    --------
    >>> sizes = [Vessel("pint", 473.0), Vessel("quart", 946.0)]
    >>> smallest_container(500.0, sizes)
    Choice(container=Vessel(name='quart', volume_ml=946.0), count=1)
    >>> smallest_container(2000.0, sizes).count
    3
    """
    if not (containers and mix_ml >= 0):
        raise ValueError(f"no container for {mix_ml!r} mL among {len(containers)}")
    for container in sorted(containers, key=lambda one: one.usable_ml):
        if mix_ml <= container.usable_ml * (1 + JUST_FITS):
            return Choice(container, 1)
    largest = max(containers, key=lambda one: one.usable_ml)
    return Choice(largest, ceil(mix_ml / largest.usable_ml - JUST_FITS))


def true_density_g_per_ml(
    *,
    water: float = 0.0,
    protein: float = 0.0,
    fat: float = 0.0,
    carbohydrate: float = 0.0,
    fibre: float = 0.0,
    ash: float = 0.0,
) -> float:
    r"""Return the density of a food without its pores, from its composition, at 20 °C.

    Assumes that the parts keep their own volume when mixed.

    Parameters
    ----------
    water, protein, fat, carbohydrate, fibre, ash : float
        Shares of its mass, carbohydrate without the fibre; they are scaled to sum to one. [-]

    Returns
    -------
    float
        True density. [g/mL]

    Raises
    ------
    ValueError
        If a share is below zero, or all are zero.

    Notes
    -----
    .. math:: 1/ρ = \sum_i x_i/ρ_i

    with ρ_i in kg/m³ and t in °C:

    | water 997.18 + 3.1439e-3 t - 3.7574e-3 t²
    | protein 1329.9 - 0.5184 t
    | fat 925.59 - 0.41757 t
    | carbohydrate 1599.1 - 0.31046 t
    | fibre 1311.5 - 0.36589 t
    | ash 2423.8 - 0.28063 t

    Whole grains come out between their published apparent and true densities. Too light a
    density makes the air a little too small; `SURPLUS` is far more than that.

    References
    ----------
    .. [1] Y. Choi and M. R. Okos (1986), Effects of temperature and composition on the thermal
       properties of foods; the equations as a university course's program prints them.

    Examples
    --------
    >>> round(true_density_g_per_ml(water=0.03, protein=0.2, fat=0.08, carbohydrate=0.69), 2)
    1.42
    """
    t = 20.0
    shares = (water, protein, fat, carbohydrate, fibre, ash)
    if not (min(shares) >= 0 and fsum(shares) > 0):
        raise ValueError(f"shares must not be negative, nor all zero: {shares}")
    litres = (
        water / (997.18 + t * (3.1439e-3 - 3.7574e-3 * t))
        + protein / (1329.9 - 0.5184 * t)
        + fat / (925.59 - 0.41757 * t)
        + carbohydrate / (1599.1 - 0.31046 * t)
        + fibre / (1311.5 - 0.36589 * t)
        + ash / (2423.8 - 0.28063 * t)
    )
    return fsum(shares) / litres / 1000


def air_left_ml(container_ml: float, dry_g: float, density_g_per_ml: float) -> float:
    r"""Return the air in a filled container, between the pieces and in their pores.

    Assumes that nobody presses it out: a pouch counts as blown up, so this is the most there is.

    Parameters
    ----------
    container_ml : float
        Volume of the container. [mL]
    dry_g : float
        Dry mix in it. [g]
    density_g_per_ml : float
        True density of the mix. [g/mL]

    Returns
    -------
    float
        Air, never below zero. [mL]

    Raises
    ------
    ValueError
        If the density is not above zero.

    Notes
    -----
    .. math:: V_{air} = V - D/ρ

    References
    ----------
    .. [1] Sum of volumes.

    Examples
    --------
    >>> round(air_left_ml(946.0, 145.0, 1.45))
    846
    """
    if not density_g_per_ml > 0:
        raise ValueError(f"no density of {density_g_per_ml!r}")
    return max(0.0, container_ml - dry_g / density_g_per_ml)


def packing(
    mix_ml: float,
    dry_g: float,
    density_g_per_ml: float,
    *,
    containers: Sequence[Container],
    absorbers_ml: Sequence[float] = (),
    pressure_pa: float = SEA_LEVEL_PA,
) -> Packing:
    """Return how a mix is packed: container, air left, absorbers.

    Assumes that several containers are filled alike, and that the mix is dry enough to seal.

    Parameters
    ----------
    mix_ml : float
        Bulk volume of the dry mix. [mL]
    dry_g : float
        Its mass. [g]
    density_g_per_ml : float
        Its true density. [g/mL]
    containers : sequence of Pouch or Vessel
        The household's sizes. [-]
    absorbers_ml : sequence of float
        Rated capacities of its absorbers; none if not given. [mL]
    pressure_pa : float
        Air pressure where it is packed; sea level (ISO 2533) if not given. [Pa]

    Returns
    -------
    Packing
        Container, count, and what is in each. [-]

    Notes
    -----
    `smallest_container`, `air_left_ml`, `oxygen_left_ml` and `absorbers_for`, one after the other.

    References
    ----------
    .. [1] See there.

    Examples
    --------
    >>> jars = [Vessel("pint", 473.0), Vessel("quart", 946.0)]
    >>> plan = packing(800.0, 145.0, 1.45, containers=jars, absorbers_ml=[100.0, 300.0])
    >>> plan.choice.container.name, round(plan.air_ml), plan.absorbers.sizes_ml
    ('quart', 846, (300.0,))
    """
    choice = smallest_container(mix_ml, containers)
    each_g = dry_g / choice.count
    air_ml = air_left_ml(choice.container.volume_ml, each_g, density_g_per_ml)
    absorbers = (
        absorbers_for(oxygen_left_ml(air_ml, pressure_pa), absorbers_ml) if absorbers_ml else None
    )
    return Packing(choice, each_g, air_ml, absorbers)
