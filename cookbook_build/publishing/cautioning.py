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
from cookbook_build.publishing.wording import (
    celsius,
    millilitres,
    minutes,
    of_part,
    part_within,
    until,
)
from cookbook_build.words import N_, _, ngettext

if TYPE_CHECKING:
    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.kitchen.jars import Change
    from cookbook_build.planning.cautions import Caution
    from cookbook_build.planning.dishes import Dish

GUIDANCE: Final = N_("Follow your local food-safety guidance.")
JAR_HEADS: Final = {
    ("unsafe", True): N_("This jar is too large for the meal to be safe at lunch."),
    ("unsafe", False): N_("In this jar the meal is not safe at lunch."),
    ("lukewarm", True): N_("This jar is too large for the meal to be hot at lunch."),
    ("lukewarm", False): N_("In this jar the meal is not hot at lunch."),
}
"""What is said of a jar by the kind of its caution, and whether a smaller jar would do."""


@dataclass(frozen=True, slots=True)
class CautionView:
    """A caution of one page: its first words and the rest."""

    head: str
    text: str

    def __str__(self) -> str:
        """Return both in one line."""
        return f"{self.head} {self.text}"


def caution_views(
    dish: Dish, servings: float, method: Method, altitude_m: float | None = None
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
        _(
            "Water boils at {boiling} here, which is below the {cooked} it must reach: it can't be "
            "cooked through in a pot without pressure."
        )
        if caution.boils_at_c < caution.cook_to_c
        else _(
            "Cook it until the middle of the biggest piece reaches {cooked}: drying kills no germs."
        )
    )
    return CautionView(
        _("Raw {store}.").format(store=caution.store),
        _guided(
            text.format(boiling=celsius(caution.boils_at_c), cooked=celsius(caution.cook_to_c))
        ),
    )


def _guided(text: str) -> str:
    """Return a caution with the word to go by local guidance."""
    return f"{text} {_(GUIDANCE)}"


@_in_words.register
def _jar(caution: JarCaution) -> CautionView:
    day = caution.day
    held = day.card.preheated
    text = (
        _(
            "It falls below {hot_line} after {hot_until} and is to be eaten within {eat_by} of the "
            "pour; lunch is at {lunch}."
        )
        if held.hot_until_s >= 60
        else _(
            "It falls below {hot_line} from the start and is to be eaten within {eat_by} of the "
            "pour; lunch is at {lunch}."
        )
    ).format(
        hot_line=celsius(HOT_LINE_C),
        hot_until=until(held.hot_until_s),
        eat_by=until(held.eat_by_s),
        lunch=minutes(day.lunch_s),
    )
    too_large = day.change is not None and day.change.kind in {"fill", "smaller jar"}
    return CautionView(_(JAR_HEADS[caution.kind, too_large]), f"{text} {_change_words(day.change)}")


def _change_words(change: Change | None) -> str:
    """Return the smallest change that keeps a meal hot until lunch."""
    if change is None:
        return ""
    match change.kind:
        case "preheat":
            words = _("Preheat the jar, and it stays hot until then.")
        case "fill" if change.jars > 1:
            words = _("Fill the {jars} jars with {n} servings, and they stay hot until then.")
        case "fill":
            words = ngettext(
                "Fill it with {n} serving, and it stays hot until then.",
                "Fill it with {n} servings, and it stays hot until then.",
                round(change.amount),
            )
        case "smaller jar":
            words = _("A jar of {volume} with the same label stays hot until then.")
        case "more water":
            words = _("With {volume} more boiling water in it, it stays hot until then.")
        case "none":
            words = _(
                "No fuller or smaller jar of this kind holds it until then: pour the water later, "
                "or eat earlier."
            )
    return words.format(n=round(change.amount), jars=change.jars, volume=millilitres(change.amount))


@_in_words.register
def _soak(caution: SoakCaution) -> CautionView:
    text = (
        _(
            "It wants about {soak}, and food may stand only {eat_by} uncooled; chilled at {fridge} "
            "or below it takes about {chilled}."
        )
        if caution.too_long
        else _(
            "Eat it within {eat_by}, or keep it cold all the time: chilled at {fridge} or below it "
            "takes about {chilled}."
        )
    ).format(
        soak=minutes(caution.soak_s),
        eat_by=until(caution.eat_by_s),
        fridge=celsius(FRIDGE_C),
        chilled=minutes(caution.chilled_s),
    )
    head = (
        _("Soak it chilled, not on the table.")
        if caution.too_long
        else _("The clock runs from the pour.")
    )
    if caution.component:
        head = of_part(caution.component, head)
    return CautionView(head, _guided(text))


@_in_words.register
def _slow(caution: SlowCaution) -> CautionView:
    text = _(
        "The {component} takes {time} to come above {hot_line}, and food may be warm for two "
        "hours: make less at a time, or boil the water apart."
    ).format(
        component=part_within(caution.component),
        time=minutes(caution.warm_s),
        hot_line=celsius(HOT_LINE_C),
    )
    return CautionView(_("This fire is too weak."), _guided(text))


@_in_words.register
def _late(caution: LateCaution) -> CautionView:
    text = _(
        "The {component} wants {time}, and is to be eaten within {eat_by}: cover it, wrap it, or "
        "cook it on the stove."
    ).format(
        component=part_within(caution.component),
        time=minutes(caution.ready_s),
        eat_by=until(caution.eat_by_s),
    )
    return CautionView(_("It is not ready in time."), _guided(text))
