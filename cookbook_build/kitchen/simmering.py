"""What boils off a pot on the household's burner, lid on or off, low or at full flame."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.kitchen.boiling import boiling_point_c
from cookbook_build.kitchen.evaporation import boiling_loss_g
from cookbook_build.kitchen.heating import net_simmer_w

if TYPE_CHECKING:
    from cookbook_build.kitchen.conditions import Conditions, Kit


@dataclass(frozen=True, slots=True)
class BoilOff:
    """Steam that leaves a boiling pot.

    Parameters
    ----------
    lid_g_per_s, open_g_per_s : float
        At the simmer, the lid on and off. [g/s]
    full_flame_g_per_s : float
        At full power, the lid off. [g/s]
    """

    lid_g_per_s: float
    open_g_per_s: float
    full_flame_g_per_s: float


def steam_g_per_s(
    heat_w: float, opening_m: float, boiling_c: float, air_c: float, *, lid: bool
) -> float:
    r"""Return the steam that leaves a boiling pot.

    Assumes that what the burner gives and the pot's shell does not lose makes steam.

    Parameters
    ----------
    heat_w : float
        Heat that reaches the pot. [W]
    opening_m : float
        Inner width of the pot. [m]
    boiling_c : float
        Boiling point. [°C]
    air_c : float
        Temperature of the air. [°C]
    lid : bool
        Whether the lid is on. [-]

    Returns
    -------
    float
        Steam. [g/s]

    Notes
    -----
    .. math:: w = P_{net}/h_{fg}

    with P_net of `net_simmer_w`: a lid gives heat away and so condenses that much steam.

    References
    ----------
    .. [1] Energy balance.

    Examples
    --------
    >>> round(60 * steam_g_per_s(150.0, 0.15, 100.0, 20.0, lid=True), 1)
    2.6
    """
    net_w = net_simmer_w(heat_w, opening_m, boiling_c - air_c, lid=lid)
    return boiling_loss_g(net_w, boiling_c, 1.0)


def boil_off(conditions: Conditions, kit: Kit) -> BoilOff:
    """Return what boils off the household's pot.

    Assumes that the burner's efficiency is the same low and at full flame.

    Parameters
    ----------
    conditions : Conditions
        Where. [-]
    kit : Kit
        Pot and burner. [-]

    Returns
    -------
    BoilOff
        Steam at a simmer and at full flame. [-]

    Notes
    -----
    See `steam_g_per_s`; the simmer is the kit's throttle.

    References
    ----------
    .. [1] Energy balance.

    Examples
    --------
    >>> from cookbook_build.kitchen import Conditions, Kit
    >>> rates = boil_off(Conditions(), Kit())
    >>> rates.lid_g_per_s < rates.open_g_per_s < rates.full_flame_g_per_s
    True
    """
    boiling_c = boiling_point_c(conditions.altitude_m)
    full_w = kit.stove_w * kit.stove_efficiency
    lid, bare, full = (
        steam_g_per_s(heat_w, kit.pot_opening_m, boiling_c, conditions.air_c, lid=lid)
        for heat_w, lid in (
            (full_w * kit.simmer_throttle, True),
            (full_w * kit.simmer_throttle, False),
            (full_w, False),
        )
    )
    return BoilOff(lid, bare, full)
