"""The insulated jar over a day: how hot, until when, and what would keep it hot to lunch."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final, Literal

from cookbook_build.kitchen.component import dry_mix, readied
from cookbook_build.kitchen.filling import dish_ml, jars_filled
from cookbook_build.kitchen.holding import JAR_FOLLOW_S, Holding, holding
from cookbook_build.kitchen.scaling import component_water

if TYPE_CHECKING:
    from cookbook_build.kitchen.component import Component
    from cookbook_build.kitchen.conditions import Conditions, Kit
    from cookbook_build.kitchen.cooling import Warmth

# Half a day by the hour; how far changes are tried, and in what steps: our choice.
HOURS: Final = tuple(range(13))
MOST_MORE_WATER: Final = 1.25
MOST_SERVINGS: Final = 20
SMALLEST_JAR_ML: Final = 200
JAR_STEP_ML: Final = 50

Kind = Literal["preheat", "fill", "smaller jar", "more water", "none"]


@dataclass(frozen=True, slots=True)
class Change:
    """The smallest change that keeps a meal above 60 °C until lunch.

    Parameters
    ----------
    kind : Kind
        What to change; `none` where nothing tried is enough. [-]
    amount : float
        Servings in the jars, millilitres of the jar, or millilitres of water more. [-]
    jars : int
        Jars that are filled, as many as the servings take without it; zero of other changes. [-]
    """

    kind: Kind
    amount: float = 0.0
    jars: int = 0


@dataclass(frozen=True, slots=True)
class JarCard:
    """A meal in the household's jar over twelve hours.

    Parameters
    ----------
    jars : int
        Jars that the servings take. [-]
    fill : float
        Part of a jar that the first pour fills. [-]
    hours : tuple of int
        Hours since the pour. [h]
    preheated_c, cold_c : tuple of float
        Temperatures at those hours, the jar warmed first or not. [°C]
    preheated, cold : Holding
        Until when each is hot and to be eaten. [-]
    """

    jars: int
    fill: float
    hours: tuple[int, ...]
    preheated_c: tuple[float, ...]
    cold_c: tuple[float, ...]
    preheated: Holding
    cold: Holding


def jar_card(component: Component, servings: float, conditions: Conditions, kit: Kit) -> JarCard:
    """Return how a meal fares in the household's jar.

    Assumes the fewest jars that hold the servings, all filled alike, and that what is held back
    is not in them yet.

    Parameters
    ----------
    component : Component
        The meal's main component. [-]
    servings : float
        Servings to pack. [-]
    conditions : Conditions
        Where. [-]
    kit : Kit
        With which jar. [-]

    Returns
    -------
    JarCard
        Temperatures and times. [-]

    Notes
    -----
    The cooling is `jar_cooling`'s; the start is the mixing temperature with the inner wall at
    the boiling point (preheated) or at the air's temperature (cold).

    References
    ----------
    .. [1] Newton's law; EN 12546-1 for the label.

    Examples
    --------
    >>> from cookbook_build.kitchen import CONSISTENCIES, Component, Conditions, Kit, Portion
    >>> soup = Component("soup", 1, (Portion("peas", 40.0, 200.0, 120.0, 0.85, 0.12),),
    ...                  CONSISTENCIES["soup"])
    >>> card = jar_card(soup, 1, Conditions(), Kit())
    >>> card.jars, card.preheated.hot_until_s > card.cold.hot_until_s
    (1, True)
    """
    water = component_water(
        component, servings=servings, method="jar", conditions=conditions, kit=kit
    )
    jars = jars_filled(dish_ml(water.total_ml, water.dry_g), kit.jar_holds_ml)
    warm, cold = (
        _warmth(component, water.start_ml, servings, jars, conditions, changed)
        for changed in (replace(kit, jar_preheated=first) for first in (True, False))
    )
    return JarCard(
        jars,
        dish_ml(water.start_ml, water.dry_g) / jars / kit.jar_holds_ml,
        HOURS,
        tuple(warm.temp_c(3600.0 * hour) for hour in HOURS),
        tuple(cold.temp_c(3600.0 * hour) for hour in HOURS),
        holding(warm, conditions.air_c, JAR_FOLLOW_S),
        holding(cold, conditions.air_c, JAR_FOLLOW_S),
    )


def change_for_lunch(
    component: Component, servings: float, lunch_s: float, conditions: Conditions, kit: Kit
) -> Change | None:
    """Return the smallest change that keeps a meal hot until lunch, None if it is hot anyway.

    Assumes that preheating asks less of a cook than filling the jar, that less than another
    jar, and that less than a thinner meal.

    Parameters
    ----------
    component : Component
        The meal's main component. [-]
    servings : float
        Servings to pack. [-]
    lunch_s : float
        Time from the pour to lunch. [s]
    conditions : Conditions
        Where. [-]
    kit : Kit
        With which jar, and whether it is preheated. [-]

    Returns
    -------
    Change or None
        What to change. [-]

    Notes
    -----
    Tried in this order: preheat; as many servings as the jar holds; a smaller jar with the
    same label; up to a quarter more water.

    References
    ----------
    .. [1] See `jar_card`.

    Examples
    --------
    >>> from cookbook_build.kitchen import CONSISTENCIES, Component, Conditions, Kit, Portion
    >>> soup = Component("soup", 1, (Portion("peas", 40.0, 200.0, 120.0, 0.85, 0.12),),
    ...                  CONSISTENCIES["soup"])
    >>> change_for_lunch(soup, 1, 3600.0, Conditions(), Kit()) is None
    True
    >>> change_for_lunch(soup, 1, 4 * 3600.0, Conditions(), Kit(jar_holds_ml=1000.0)).kind
    'smaller jar'
    """
    card = jar_card(component, servings, conditions, kit)
    now = card.preheated if kit.jar_preheated else card.cold
    if now.hot_until_s >= lunch_s:
        return None
    if card.preheated.hot_until_s >= lunch_s:
        return Change("preheat")
    warm = replace(kit, jar_preheated=True)
    for extra in range(1, MOST_SERVINGS):
        more = servings + extra
        fuller = jar_card(component, more, conditions, warm)
        if fuller.jars > card.jars:
            break
        if fuller.preheated.hot_until_s >= lunch_s:
            return Change("fill", more, card.jars)
    for holds_ml in range(int(kit.jar_holds_ml) - JAR_STEP_ML, SMALLEST_JAR_ML, -JAR_STEP_ML):
        smaller = replace(warm, jar_holds_ml=float(holds_ml))
        less = jar_card(component, servings, conditions, smaller)
        if less.jars > card.jars:
            break
        if less.preheated.hot_until_s >= lunch_s:
            return Change("smaller jar", holds_ml)
    return _more_water(component, servings, lunch_s, conditions, warm) or Change("none")


def _more_water(
    component: Component, servings: float, lunch_s: float, conditions: Conditions, kit: Kit
) -> Change | None:
    water = component_water(
        component, servings=servings, method="jar", conditions=conditions, kit=kit
    )
    jars = jars_filled(dish_ml(water.total_ml, water.dry_g), kit.jar_holds_ml)
    # in steps of five per cent: our choice
    for percent in range(5, round(100 * (MOST_MORE_WATER - 1)) + 1, 5):
        more_ml = water.total_ml * percent / 100
        fuller_ml = dish_ml(water.total_ml + more_ml, water.dry_g)
        if jars_filled(fuller_ml, kit.jar_holds_ml) > jars:
            break
        warmth = _warmth(component, water.start_ml + more_ml, servings, jars, conditions, kit)
        if holding(warmth, conditions.air_c, JAR_FOLLOW_S).hot_until_s >= lunch_s:
            return Change("more water", more_ml)
    return None


def _warmth(
    component: Component,
    water_ml: float,
    servings: float,
    jars: int,
    conditions: Conditions,
    kit: Kit,
) -> Warmth:
    mix = dry_mix(component, servings)
    return readied(mix, water_ml, servings, JAR_FOLLOW_S, "jar", conditions, kit, jars).warmth
