"""The water for a component of a dish: for any servings, method and place.

W = A + F + L: what the food takes up, what stands free between the pieces, what leaves.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.component import (
    RIGHT_TRIAL_SD,
    Component,
    DryMix,
    FreeWater,
    Tested,
    dry_mix,
    followed_s,
    free_water,
    readied,
    require_positive,
    stays_sd_ml,
)
from cookbook_build.kitchen.filling import dish_ml, jars_filled
from cookbook_build.kitchen.holding import JAR_FOLLOW_S, Holding, holding, simmered
from cookbook_build.kitchen.resting import rest_band_s, settled_rest_s

if TYPE_CHECKING:
    from cookbook_build.kitchen.conditions import Conditions, Kit, Method
    from cookbook_build.kitchen.readying import Readying

__all__ = [
    "Component",
    "ComponentWater",
    "Derivation",
    "Tested",
    "component_water",
    "dry_mix",
    "free_water",
]

SMALLEST_HOLD_BACK_ML: Final = 5.0
"""A teaspoon, as nutrition labels count it: 21 CFR 101.9(b)(5)(viii)."""


@dataclass(frozen=True, slots=True)
class Derivation:
    """The numbers that an answer came from, for the page to put in words.

    Parameters
    ----------
    pressure_pa : float
        Air pressure. [Pa]
    boiling_c : float
        Boiling point. [°C]
    start_c : float
        Temperature of the dish as its rest begins. [°C]
    mean_c : float
        Mean temperature over its rest. [°C]
    ready_c : float
        Temperature as its rest ends. [°C]
    reference_rest_s : float
        Tested or usual rest. [s]
    reference_c : float
        Mean temperature over that rest. [°C]
    heating_s : float
        Time to the boil on the burner or in the oven. [s]
    lost_heating_ml : float
        Water that leaves before the rest. [mL]
    lost_resting_ml : float
        Water that leaves over the rest. [mL]
    tested_loss_ml : float
        Water that left when tested; zero if untested. [mL]
    """

    pressure_pa: float
    boiling_c: float
    start_c: float
    mean_c: float
    ready_c: float
    reference_rest_s: float
    reference_c: float
    heating_s: float
    lost_heating_ml: float
    lost_resting_ml: float
    tested_loss_ml: float


@dataclass(frozen=True, slots=True)
class ComponentWater:
    """The water and rest of a component.

    Parameters
    ----------
    name : str
        The component's name. [-]
    dry_g : float
        Dry mix. [g]
    dry_ml : float
        Volume of its parts as measured. [mL]
    uptake_ml : float
        Water that the food takes up, A. [mL]
    free_ml : float
        Water between the pieces, F; negative in a stiff filling. [mL]
    loss_ml : float
        Water that leaves, L. [mL]
    total_ml : float
        The expected right amount, A + F + L. [mL]
    start_ml : float
        Water to pour first. [mL]
    hold_back_ml : float
        Water to keep aside; with `start_ml` it is the most one should need. [mL]
    rest_s, rest_low_s, rest_high_s : float
        Rest, and the band it lies in. [s]
    phi, phi_sd : float
        Free water to restored food and its standard deviation. [-]
    sd_ml : float
        Standard deviation of the total. [mL]
    tested : bool
        Whether the author's own test or trials stand behind it. [-]
    ready_s : float
        Time until it is ready to eat: from the pour, on stove and in oven from cold water. [s]
    hot_until_s : float
        Time from the same start until it falls below 60 °C; none if it never was above. [s]
    eat_by_s : float
        Time from the same start by which it should be eaten, by the two-hour rule. [s]
    derivation : Derivation
        The numbers it came from. [-]
    method : Method
        How it is made ready. [-]
    """

    name: str
    dry_g: float
    dry_ml: float
    uptake_ml: float
    free_ml: float
    loss_ml: float
    total_ml: float
    start_ml: float
    hold_back_ml: float
    rest_s: float
    rest_low_s: float
    rest_high_s: float
    phi: float
    phi_sd: float
    sd_ml: float
    tested: bool
    ready_s: float
    hot_until_s: float
    eat_by_s: float
    derivation: Derivation
    method: Method

    @property
    def is_cold(self) -> bool:
        """Whether it soaks in cold water, off every fire."""
        return self.method == "cold"


@lru_cache(maxsize=32768)  # of a table and of the cards beside it: half are asked for again
def component_water(
    component: Component,
    *,
    servings: float,
    method: Method,
    conditions: Conditions,
    kit: Kit,
    tested_with: Kit | None = None,
) -> ComponentWater:
    r"""Return the water and the rest of a component.

    Assumes that uptake, dry mix and free water grow with the servings and the losses do not:
    they follow surface and time.

    Parameters
    ----------
    component : Component
        The dry mix, its consistency and its test. [-]
    servings : float
        Servings to make. [-]
    method : Method
        How it is made ready. [-]
    conditions : Conditions
        Where. [-]
    kit : Kit
        With what. [-]
    tested_with : Kit or None
        With what it was tested; None for the same. [-]

    Returns
    -------
    ComponentWater
        Water, rest and what they came from. [-]

    Raises
    ------
    ValueError
        If the servings are not above zero or the method is unknown.

    Notes
    -----
    .. math:: W = A + F + L, \quad A = \sum κ_i a_i, \quad F = φ (D + A)

    with φ of `free_water`. Departures: no loss passes the water that stays, and without a
    test free water takes back at most half of the uptake.

    Tested: hold back the larger of 5 mL and 6 % (twice the noise of a trial that was right),
    but no more than half. A mix that borrows the free water of a tested one is as sure as what
    is known of its stores: it starts at least σ lower, and may want what σ passes that noise by
    on top. Untested: σ² = (σ_φ (D + A))² + Σ (σ_κ a (1 + φ))²,
    start W - σ but at least half of the uptake, and hold back up to W + σ, at least 5 mL. Either
    way enough is held back to reach what a trial of its own found too thick.

    References
    ----------
    .. [1] Water balance; constants in `consistency`, `rehydration`, `resting`.

    Examples
    --------
    >>> from cookbook_build.kitchen import CONSISTENCIES, Conditions, Kit, Portion, Tested
    >>> home = Conditions(altitude_m=310.0)
    >>> soup = Component("bowl", 1, (Portion("lentils", 62.0, 236.6, 136.0, 0.85, 0.12),),
    ...                  CONSISTENCIES["stew"], Tested("kettle", 1, 195.0, 720.0, home))
    >>> answer = component_water(soup, servings=1, method="kettle", conditions=home, kit=Kit())
    >>> round(answer.total_ml, 6), round(answer.rest_s, 6), round(answer.start_ml, 1)
    (195.0, 720.0, 183.3)
    >>> pot = component_water(soup, servings=4, method="stove", conditions=home, kit=Kit())
    >>> round(pot.total_ml), round(pot.loss_ml)
    (793, 17)
    """
    require_positive(servings)
    mix = dry_mix(component, servings)
    free = free_water(component, tested_with or kit)
    stays_ml = _stays_ml(mix, free, servings)
    ready = readied(mix, stays_ml, servings, free.reference_rest_s, method, conditions, kit)
    rest = settled_rest_s(ready.warmth, free.reference_rest_s, free.reference_c)
    loss_ml = min(ready.lost_g(rest), stays_ml)
    mean_c = ready.warmth.mean_c(rest)
    low_s, high_s = rest_band_s(free.reference_rest_s, free.reference_c, mean_c)
    total_ml = stays_ml + loss_ml
    pour = _tested_pour if _stands_on_a_test(component) else _untested_pour
    band_ml = stays_sd_ml(component, servings, free)
    start_ml, hold_back_ml, sd_ml = pour(component, mix, total_ml, band_ml)
    if component.knowledge:
        thick_ml = component.knowledge.thick_ml_per_serving * servings + loss_ml
        hold_back_ml = max(hold_back_ml, thick_ml - start_ml)
    held = _held(ready, method, rest, conditions, free.reference_rest_s)
    if method == "jar":  # for hours it holds what was poured first
        first = readied(
            mix, start_ml, servings, free.reference_rest_s, method, conditions, kit,
            jars_filled(dish_ml(total_ml, mix.dry_g), kit.jar_holds_ml),
        )  # fmt: skip
        held = _held(first, method, rest, conditions, free.reference_rest_s)
    return ComponentWater(
        name=component.name,
        dry_g=mix.dry_g,
        dry_ml=mix.dry_ml,
        uptake_ml=mix.uptake_ml,
        free_ml=stays_ml - mix.uptake_ml,
        loss_ml=loss_ml,
        total_ml=total_ml,
        start_ml=start_ml,
        hold_back_ml=hold_back_ml,
        rest_s=rest,
        rest_low_s=min(low_s, rest),
        rest_high_s=max(high_s, rest),
        phi=free.ratio,
        phi_sd=free.ratio_sd,
        sd_ml=sd_ml,
        tested=component.tested is not None or _speaks(component),
        ready_s=ready.heating_s + rest,
        hot_until_s=held.hot_until_s,
        eat_by_s=held.eat_by_s,
        derivation=Derivation(
            pressure_pa=ready.pressure_pa,
            boiling_c=ready.boiling_c,
            start_c=ready.warmth.start_c,
            mean_c=mean_c,
            ready_c=ready.warmth.temp_c(rest),
            reference_rest_s=free.reference_rest_s,
            reference_c=free.reference_c,
            heating_s=ready.heating_s,
            lost_heating_ml=ready.lost_heating_g,
            lost_resting_ml=ready.lost_resting_g(rest),
            tested_loss_ml=free.tested_loss_ml,
        ),
        method=method,
    )


def _held(
    ready: Readying, method: Method, rest_s: float, conditions: Conditions, reference_s: float
) -> Holding:
    """Return how long it stays hot; a pot is taken to cool from the end of its simmer."""
    if method == "stove":
        return simmered(ready.heating_s + rest_s, conditions.air_c)
    follow_s = JAR_FOLLOW_S if method == "jar" else followed_s(reference_s)
    held = holding(ready.warmth, conditions.air_c, follow_s)
    if not held.hot_until_s:
        return held
    return Holding(held.hot_until_s + ready.heating_s, held.eat_by_s + ready.heating_s)


def _speaks(component: Component) -> bool:
    return component.knowledge is not None and component.knowledge.speaks


def _stands_on_a_test(component: Component) -> bool:
    if component.like is not None:
        return _stands_on_a_test(component.like)
    return component.tested is not None and not _speaks(component)


def _stays_ml(mix: DryMix, free: FreeWater, servings: float) -> float:
    # never less than half of what stayed when tested; untested, half the uptake or a tenth of the
    # dry weight: our choice
    least_ml = free.stays_ml_per_serving * servings / 2 or max(mix.uptake_ml / 2, mix.dry_g / 10)
    return max(mix.uptake_ml + free.ratio * mix.restored_g, least_ml)


def _tested_pour(
    component: Component, mix: DryMix, total_ml: float, band_ml: float
) -> tuple[float, float, float]:
    del mix
    noise_ml = sd_ml = RIGHT_TRIAL_SD * total_ml
    if component.knowledge:
        sd_ml = band_ml if component.like else min(noise_ml, band_ml)
    less_ml = min(max(SMALLEST_HOLD_BACK_ML, 2 * min(sd_ml, noise_ml), sd_ml), total_ml / 2)
    more_ml = max(sd_ml - noise_ml, 0.0)
    return total_ml - less_ml, less_ml + more_ml, sd_ml


def _untested_pour(
    component: Component, mix: DryMix, total_ml: float, sd_ml: float
) -> tuple[float, float, float]:
    del component
    # at least half of the uptake and a quarter of the whole: our choice
    start_ml = max(total_ml - sd_ml, mix.uptake_ml / 2, total_ml / 4)
    return start_ml, max(SMALLEST_HOLD_BACK_ML, total_ml + sd_ml - start_ml), sd_ml
