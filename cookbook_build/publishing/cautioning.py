"""Cautions in words: the first words and the rest."""

from __future__ import annotations

from dataclasses import dataclass
from functools import singledispatch
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.cautions import FRIDGE_C, HOT_LINE_C
from cookbook_build.planning.cautions import (
    JarCaution,
    LateCaution,
    RawCaution,
    SlowCaution,
    SoakCaution,
    dish_cautions,
)
from cookbook_build.publishing.wording import celsius, hot_words, millilitres, minutes, until

if TYPE_CHECKING:
    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.kitchen.jars import Change
    from cookbook_build.planning.cautions import Caution
    from cookbook_build.planning.dishes import Dish

GUIDANCE: Final = "Follow your local food-safety guidance."


@dataclass(frozen=True, slots=True)
class CautionView:
    """A caution of one page: its first words and the rest."""

    head: str
    text: str

    def __str__(self) -> str:
        """Return both in one line."""
        return f"{self.head} {self.text}"


def caution_views(
    dish: Dish, servings: int, method: Method, altitude_m: float | None = None
) -> tuple[CautionView, ...]:
    """Return the cautions of a dish at one size, method and altitude [m], in words."""
    return tuple(in_words(found) for found in dish_cautions(dish, servings, method, altitude_m))


def in_words(caution: Caution) -> CautionView:
    """Return a caution in words."""
    return _in_words(caution)


@singledispatch
def _in_words(caution: object) -> CautionView:
    raise TypeError(f"no words for {caution!r}")


@_in_words.register
def _raw(caution: RawCaution) -> CautionView:
    text = (
        f"Cook it until the middle of the biggest piece reaches {celsius(caution.cook_to_c)}: "
        f"drying kills no germs. {GUIDANCE}"
    )
    if caution.boils_at_c < caution.cook_to_c:
        text = (
            f"Water boils at {celsius(caution.boils_at_c)} here, which is below the "
            f"{celsius(caution.cook_to_c)} it must reach: it can't be cooked through in a pot "
            f"without pressure. {GUIDANCE}"
        )
    return CautionView(f"Raw {caution.store}.", text)


@_in_words.register
def _jar(caution: JarCaution) -> CautionView:
    day = caution.day
    held = day.card.preheated
    text = (
        f"It falls below {celsius(HOT_LINE_C)} {hot_words(held.hot_until_s)} and is to be eaten "
        f"within {until(held.eat_by_s)} of the pour; lunch is at {minutes(day.lunch_s)}. "
        f"{_change_words(day.change)}"
    )
    then = {"unsafe": "safe", "lukewarm": "hot"}[caution.kind]
    too_large = day.change is not None and day.change.kind in {"fill", "smaller jar"}
    head = (
        f"This jar is too large for the meal to be {then} at lunch."
        if too_large
        else f"In this jar the meal is not {then} at lunch."
    )
    return CautionView(head, text)


def _change_words(change: Change | None) -> str:
    """Return the smallest change that keeps a meal hot until lunch."""
    if change is None:
        return ""
    return {
        "preheat": "Preheat the jar, and it stays hot until then.",
        "fill": f"Fill it with {change.amount:.0f} servings, and it stays hot until then.",
        "smaller jar": (
            f"A jar of {millilitres(change.amount)} with the same label stays hot until then."
        ),
        "more water": (
            f"With {millilitres(change.amount)} more boiling water in it, it stays hot until then."
        ),
        "none": (
            "No fuller or smaller jar of this kind holds it until then: pour the water later, or "
            "eat earlier."
        ),
    }[change.kind]


@_in_words.register
def _soak(caution: SoakCaution) -> CautionView:
    chilled = f"chilled at {celsius(FRIDGE_C)} or below it takes about {minutes(caution.chilled_s)}"
    if caution.too_long:
        return CautionView(
            "Soak it chilled, not on the table.",
            f"It wants about {minutes(caution.soak_s)}, and food may stand only "
            f"{until(caution.eat_by_s)} uncooled; {chilled}. {GUIDANCE}",
        )
    return CautionView(
        "The clock runs from the pour.",
        f"Eat it within {until(caution.eat_by_s)}, or keep it cold all the time: {chilled}. "
        f"{GUIDANCE}",
    )


@_in_words.register
def _slow(caution: SlowCaution) -> CautionView:
    return CautionView(
        "This fire is too weak.",
        f"The {caution.component.lower()} takes {minutes(caution.warm_s)} to come above "
        f"{celsius(HOT_LINE_C)}, and food may be warm for two hours: make less at a time, or "
        f"boil the water apart. {GUIDANCE}",
    )


@_in_words.register
def _late(caution: LateCaution) -> CautionView:
    return CautionView(
        "It is not ready in time.",
        f"The {caution.component.lower()} wants {minutes(caution.ready_s)}, and is to be eaten "
        f"within {until(caution.eat_by_s)}: cover it, wrap it, or cook it on the stove. {GUIDANCE}",
    )
