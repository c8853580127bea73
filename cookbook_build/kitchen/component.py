"""A component of a dish: its dry mix, its test, and the free water that the test tells."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import fsum, hypot, sqrt
from typing import TYPE_CHECKING, ClassVar, Final

from cookbook_build.kitchen.composition import DRY_MIX_KJ_PER_KG_K, specific_heat_kj_per_kg_k
from cookbook_build.kitchen.readying import Dish, Readying, readying
from cookbook_build.kitchen.resting import COVERED_BOWL_C, WHOLE_REST_S

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from cookbook_build.kitchen.conditions import Conditions, Kit, Method
    from cookbook_build.kitchen.consistency import Consistency
    from cookbook_build.kitchen.rehydration import Portion

RIGHT_TRIAL_SD: Final = 0.03
"""Noise of a trial that was right, in parts of its water; science of the project, our choice."""

FOLLOW_TIMES: Final = 10.0
LEAST_FOLLOW_S: Final = 14_400.0
"""The warmth is followed for ten times the reference rest, which 0 to 100 °C stay within, and for
four hours, in which a full bowl has fallen below 60 °C; both our choice."""


@dataclass(frozen=True, slots=True)
class Tested:
    """What the author really did and found right.

    Parameters
    ----------
    method : Method
        How it was made ready. [-]
    servings : float
        For how many. [-]
    water_ml : float
        Water poured in all. [mL]
    rest_s : float
        Rest. [s]
    conditions : Conditions
        Where. [-]

    Raises
    ------
    ValueError
        If water, servings or rest are not above zero.
    """

    __test__: ClassVar = False  # its name begins like a test's; pytest must not collect it

    method: Method
    servings: float
    water_ml: float
    rest_s: float
    conditions: Conditions

    def __post_init__(self) -> None:
        for amount in (self.servings, self.water_ml, self.rest_s):
            require_positive(amount)


@dataclass(frozen=True, slots=True)
class Knowledge:
    """What trials taught about a component.

    Parameters
    ----------
    free_ratio : float
        Free water that it is believed to want, φ. [-]
    covariance : tuple of tuple of float
        Covariance of its portions' uptakes, in their order, and of φ, last. [-]
    speaks : bool
        Whether trials of its own, and not its test, fix its water. [-]
    thick_ml_per_serving : float
        The most water that stayed in a serving and was too little; zero without one. [mL]
    """

    free_ratio: float
    covariance: tuple[tuple[float, ...], ...]
    speaks: bool = False
    thick_ml_per_serving: float = 0.0

    @property
    def free_ratio_sd(self) -> float:
        """Standard deviation of φ [-]."""
        return sqrt(max(self.covariance[-1][-1], 0.0))


@dataclass(frozen=True, slots=True)
class Component:
    """A part of a recipe with its own water and rest.

    Parameters
    ----------
    name : str
        Its name. [-]
    servings : float
        Servings for which the portions are. [-]
    portions : tuple of Portion
        Its dry mix as the author wrote it. [-]
    consistency : Consistency
        How stiff it is meant to be. [-]
    tested : Tested or None
        What the author did, if anything. [-]
    rest_hint_s : float
        Rest in a covered bowl if nobody tested it. [s]
    like : Component or None
        The component whose free water and rest this one shares: the same dish with its
        optional parts, say, which was tested. [-]
    knowledge : Knowledge or None
        What trials taught about it, its portions' uptakes aside. [-]

    Raises
    ------
    ValueError
        If there is no dry mix, or servings or rest are not above zero.
    """

    name: str
    servings: float
    portions: tuple[Portion, ...]
    consistency: Consistency
    tested: Tested | None = None
    rest_hint_s: float = WHOLE_REST_S
    like: Component | None = None
    knowledge: Knowledge | None = None

    def __post_init__(self) -> None:
        require_positive(self.servings)
        require_positive(self.rest_hint_s)
        require_positive(fsum(portion.dry_g for portion in self.portions))


@dataclass(frozen=True, slots=True)
class DryMix:
    """A component's dry mix for some servings.

    Parameters
    ----------
    dry_g : float
        Mass, D. [g]
    dry_ml : float
        Volume of its parts as measured. [mL]
    uptake_ml, uptake_sd_ml : float
        Water taken up, A, and its standard deviation. [mL]
    heat_j_per_k : float
        Heat capacity. [J/K]
    """

    dry_g: float
    dry_ml: float
    uptake_ml: float
    uptake_sd_ml: float
    heat_j_per_k: float

    @property
    def restored_g(self) -> float:
        """Mass with the water taken up, D + A [g]."""
        return self.dry_g + self.uptake_ml


@dataclass(frozen=True, slots=True)
class FreeWater:
    """How much free water a component wants, and from where that is known.

    Parameters
    ----------
    ratio, ratio_sd : float
        Free water to restored food, φ, and its standard deviation. [-]
    reference_rest_s : float
        Rest that was, or is expected to be, enough. [s]
    reference_c : float
        Mean temperature over that rest. [°C]
    stays_ml_per_serving : float
        Water that stayed when tested; zero if untested. [mL]
    tested_loss_ml : float
        Water that left when tested. [mL]
    """

    ratio: float
    ratio_sd: float
    reference_rest_s: float
    reference_c: float
    stays_ml_per_serving: float = 0.0
    tested_loss_ml: float = 0.0


def dry_mix(component: Component, servings: float) -> DryMix:
    """Return a component's dry mix for some servings.

    Assumes that the errors of different stores' uptakes are independent.

    Parameters
    ----------
    component : Component
        The component. [-]
    servings : float
        Servings to make. [-]

    Returns
    -------
    DryMix
        Mass, volume, uptake and heat. [-]

    Notes
    -----
    D = Σ m, A = Σ κ a; what is marked per pot goes in once.

    References
    ----------
    .. [1] Sums.

    Examples
    --------
    >>> from cookbook_build.kitchen import CONSISTENCIES, Portion
    >>> mix = Component("bowl", 2, (Portion("salt", 3.0, 2.5, 0.0, 1.0, 0.0),),
    ...                 CONSISTENCIES["stew"])
    >>> dry_mix(mix, 6).dry_g
    9.0
    """
    scaled = [(portion, _times(portion, component, servings)) for portion in component.portions]
    return DryMix(
        dry_g=fsum(times * portion.dry_g for portion, times in scaled),
        dry_ml=fsum(times * portion.dry_ml for portion, times in scaled),
        uptake_ml=fsum(times * portion.uptake_ml for portion, times in scaled),
        uptake_sd_ml=_root_sum(times * portion.uptake_sd_ml for portion, times in scaled),
        heat_j_per_k=fsum(times * portion.dry_g * _heat(portion) for portion, times in scaled),
    )


@lru_cache(maxsize=4096)
def free_water(component: Component, kit: Kit) -> FreeWater:
    r"""Return the free water that a component wants.

    Assumes that the author tested with the same kit.

    Parameters
    ----------
    component : Component
        The component. [-]
    kit : Kit
        The vessels and burners of the test. [-]

    Returns
    -------
    FreeWater
        φ and the rest that goes with it. [-]

    Notes
    -----
    .. math:: φ = (W_{tested} - A - L_{tested})/(D + A)

    of the tested servings, method and place; untested, φ of the consistency, or what trials
    taught. With trials of its own a tested component goes by them too.

    References
    ----------
    .. [1] Water balance.

    Examples
    --------
    >>> from cookbook_build.kitchen import CONSISTENCIES, Kit, Portion
    >>> bowl = Component("bowl", 1, (Portion("lentils", 62.0, 236.6, 136.0, 0.85, 0.12),),
    ...                  CONSISTENCIES["stew"])
    >>> free_water(bowl, Kit()).ratio
    0.45
    """
    if component.like is not None:
        return replace(free_water(component.like, kit), stays_ml_per_serving=0.0)
    tested = component.tested
    knowledge = component.knowledge
    if tested is None:
        consistency = component.consistency
        return FreeWater(
            knowledge.free_ratio if knowledge else consistency.free_ratio,
            knowledge.free_ratio_sd if knowledge else consistency.free_ratio_sd,
            component.rest_hint_s,
            COVERED_BOWL_C,
        )
    mix = dry_mix(component, tested.servings)

    def ready(stays_ml: float) -> Readying:
        return readied(
            mix, stays_ml, tested.servings, tested.rest_s, tested.method, tested.conditions, kit
        )

    stays_ml = stayed_ml(tested.water_ml, lambda stays: ready(stays).lost_g(tested.rest_s))
    found = FreeWater(
        ratio=(stays_ml - mix.uptake_ml) / mix.restored_g,
        ratio_sd=RIGHT_TRIAL_SD * tested.water_ml / mix.restored_g,
        reference_rest_s=tested.rest_s,
        reference_c=ready(stays_ml).warmth.mean_c(tested.rest_s),
        stays_ml_per_serving=stays_ml / tested.servings,
        tested_loss_ml=tested.water_ml - stays_ml,
    )
    if knowledge and knowledge.speaks:
        return replace(found, ratio=knowledge.free_ratio, ratio_sd=knowledge.free_ratio_sd)
    return found


def readied(
    mix: DryMix,
    stays_ml: float,
    servings: float,
    reference_rest_s: float,
    method: Method,
    conditions: Conditions,
    kit: Kit,
    jars: int | None = None,
) -> Readying:
    """Return how a dry mix and the water that stays in it are made ready.

    Assumes that the warmth need not be followed beyond ten reference rests or four hours.

    Parameters
    ----------
    mix : DryMix
        The dry mix. [-]
    stays_ml : float
        Water that stays in it. [mL]
    servings : float
        Servings to make. [-]
    reference_rest_s : float
        Tested or usual rest. [s]
    method : Method
        How. [-]
    conditions : Conditions
        Where. [-]
    kit : Kit
        With what. [-]
    jars : int or None
        Jars among which it is divided; None for as few as hold it. [-]

    Returns
    -------
    Readying
        Its warmth and its losses. [-]

    Notes
    -----
    See `readying`.

    References
    ----------
    .. [1] See `readying`.

    Examples
    --------
    >>> from cookbook_build.kitchen import Conditions, Kit
    >>> mix = DryMix(70.0, 240.0, 120.0, 15.0, 122.0)
    >>> readied(mix, 200.0, 1, 600.0, "cold", Conditions(), Kit()).lost_g(600.0)
    0.0
    """
    follow_s = followed_s(reference_rest_s)
    dish = Dish(stays_ml, mix.dry_g, mix.heat_j_per_k, servings, follow_s, jars)
    return readying(dish, method, conditions, kit)


def stayed_ml(poured_ml: float, lost_ml: Callable[[float], float]) -> float:
    """Return the water [mL] that stays of what was poured; the loss hangs on it a little."""
    stays_ml = poured_ml
    for _ in range(50):  # rounds: our choice
        before = stays_ml
        stays_ml = max(poured_ml - lost_ml(stays_ml), poured_ml / 2)
        if abs(stays_ml - before) <= 1e-14 * stays_ml:  # closeness: our choice
            break
    return stays_ml


def stays_sd_ml(component: Component, servings: float, free: FreeWater) -> float:
    """Return the standard deviation [mL] of the water that stays.

    Without trials, uptakes and free water are independent; what was taught together is not.
    """
    mix = dry_mix(component, servings)
    knowledge = component.knowledge
    if knowledge is None:
        return hypot(free.ratio_sd * mix.restored_g, mix.uptake_sd_ml * (1 + free.ratio))
    slopes = [
        (1 + free.ratio) * portion.full_ml * _times(portion, component, servings)
        for portion in component.portions
    ]
    slopes.append(mix.restored_g)
    variance = fsum(
        one * two * shared
        for one, row in zip(slopes, knowledge.covariance, strict=True)
        for two, shared in zip(slopes, row, strict=True)
    )
    return sqrt(max(variance, 0.0))


def followed_s(reference_rest_s: float) -> float:
    """Return the time [s] over which a dish's warmth is followed."""
    return max(FOLLOW_TIMES * reference_rest_s, LEAST_FOLLOW_S)


def _times(portion: Portion, component: Component, servings: float) -> float:
    return 1.0 if portion.per_pot else servings / component.servings


def _heat(portion: Portion) -> float:
    composition = portion.composition
    return specific_heat_kj_per_kg_k(composition) if composition else DRY_MIX_KJ_PER_KG_K


def _root_sum(deviations: Iterable[float]) -> float:
    return hypot(*deviations)


def require_positive(amount: float) -> None:
    """Raise ValueError unless an amount lies above zero and within bounds."""
    if not 0 < amount < 1e7:  # ten tonnes: our choice
        raise ValueError(f"an amount must be above zero and within bounds, not {amount!r}")
