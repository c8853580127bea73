"""A meal for a reader without choosers: every size and every way stands on the page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from markupsafe import Markup, escape

from cookbook_build.planning.camp import CAMP_METHODS
from cookbook_build.publishing.desk import raw_view
from cookbook_build.publishing.epub_words import (
    narrow,
    said_by_altitude,
    said_by_size,
    serving_words,
)
from cookbook_build.words import N_, _

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.publishing.cautioning import CautionView
    from cookbook_build.publishing.desk import Desk
    from cookbook_build.publishing.heat_views import HeatView
    from cookbook_build.publishing.meal_tables import MealTables
    from cookbook_build.publishing.mixes import MixCell, MixRow
    from cookbook_build.publishing.pours import PourView
    from cookbook_build.publishing.views import AnswerView, DishView, WaterRow

BY_METHOD: Final[Mapping[str, str]] = {
    "kettle": N_("{servings} by kettle"),
    "microwave": N_("{servings} by microwave"),
    "stove": N_("{servings} by stove"),
    "jar": N_("{servings} by jar"),
    "cold": N_("{servings} by cold soak"),
}
IN_SHORT: Final[Mapping[Method, str]] = {
    "kettle": N_("Pour {start}, keep back {hold_back}, rest {rest}"),
    "microwave": N_("Pour {start}, keep back {hold_back}, rest {rest}"),
    "stove": N_("Pour {start}, keep back {hold_back}, simmer {rest}"),
    "jar": N_("Pour {start}, keep back {hold_back}, rest {rest}"),
    "cold": N_("Pour {start}, keep back {hold_back}, soak {rest}"),
}
IN_SHORT_OF: Final[Mapping[Method, str]] = {
    "kettle": N_("{name}: pour {start}, keep back {hold_back}, rest {rest}"),
    "microwave": N_("{name}: pour {start}, keep back {hold_back}, rest {rest}"),
    "stove": N_("{name}: pour {start}, keep back {hold_back}, simmer {rest}"),
    "jar": N_("{name}: pour {start}, keep back {hold_back}, rest {rest}"),
    "cold": N_("{name}: pour {start}, keep back {hold_back}, soak {rest}"),
}
"""The same for each of several components."""


@dataclass(frozen=True, slots=True)
class SizedPour:
    """The water of one component at one serving size."""

    servings: int
    pour: PourView


@dataclass(frozen=True, slots=True)
class PourTable:
    """The water of one component by one method, a row for each serving size."""

    component: str
    rest_word: str
    tested: bool
    rows: tuple[SizedPour, ...]


@dataclass(frozen=True, slots=True)
class CautionOf:
    """A caution with the serving sizes that it is for."""

    sizes: str
    caution: CautionView


@dataclass(frozen=True, slots=True)
class MethodPours:
    """All the water of a meal by one method."""

    method: str
    name: str
    line: str
    tables: tuple[PourTable, ...]
    bare: tuple[PourTable, ...]  # without the optional ingredients
    jars: tuple[str, ...]
    cautions: tuple[CautionOf, ...]


@dataclass(frozen=True, slots=True)
class MixLineOf:
    """One ingredient at one serving size."""

    row: MixRow
    cell: MixCell


@dataclass(frozen=True, slots=True)
class MixPart:
    """The ingredients of one component at one serving size, and their sum."""

    name: str
    lines: tuple[MixLineOf, ...]
    total: MixCell


@dataclass(frozen=True, slots=True)
class MixOf:
    """The dry mix at one serving size."""

    servings: int
    parts: tuple[MixPart, ...]


def meal_view(desk: Desk, dish: Dish, shown: MealTables) -> dict[str, Any]:
    """Return what the page of a meal shows, apart from what links to other pages."""
    view = desk.views[dish.recipe.address]
    return {
        "title": dish.recipe.keys.title,
        "recipe": dish.recipe,
        "view": view,
        "cautions": [raw_view(desk, name) for name in dish.raw_stores],
        "mixes": _mixes(view),
        "banks": shown.banks,
        "makes": _makes(view),
        "waters": tuple(_method_pours(view, word) for word, _name, _line in view.methods),
        "short": tuple(_short(view)),
        "steps_for": _(BY_METHOD[view.default_method]).format(
            servings=serving_words([view.default_servings])
        ),
        "heat": [_heat(card) for card in shown.heat],
        "camp": [
            (table.caption, said_by_altitude(table, method))
            for method, table in zip(
                (method for method in CAMP_METHODS if method in dish.methods),
                shown.camp,
                strict=True,
            )
        ],
        "keeping": {"tables": narrow(shown.keeping.table), "notes": shown.keeping.notes},
        "nourish": shown.nourish,
    }


def steps_figure(view: DishView, name: str, component: str | None) -> Markup:
    """Return the value of a figure in the steps, for the size and way that the recipe is for."""
    answer = next(answer for answer in view.answers if answer.is_default)
    named = [
        part for part in answer.parts if component and part.name.casefold() == component.casefold()
    ]
    part = (named or list(answer.parts))[0]
    words = {
        "water": part.start,
        "start": part.start,
        "hold-back": part.hold_back,
        "rest": part.rest,
        "servings": str(answer.servings),
    }
    return Markup("<b>{}</b>").format(words[name])


def _short(view: DishView) -> Iterator[Markup]:
    """Give the water of each component, for the size and way that the recipe is for."""
    answer = next(answer for answer in view.answers if answer.is_default)
    words = IN_SHORT_OF if view.several else IN_SHORT
    for part in answer.parts:
        yield escape(_(words["cold" if part.cold else answer.method])).format(
            name=part.name,
            start=Markup("<b>{}</b>").format(part.start),
            hold_back=part.hold_back,
            rest=part.rest,
        )


def _mixes(view: DishView) -> tuple[MixOf, ...]:
    return tuple(
        MixOf(
            size,
            tuple(
                MixPart(
                    mix.name,
                    tuple(MixLineOf(row, row.cells[at]) for row in mix.rows),
                    mix.totals[at],
                )
                for mix in view.mix
            ),
        )
        for at, size in enumerate(view.servings)
    )


def _makes(view: DishView) -> tuple[tuple[str, str], ...]:
    """Return what each serving size makes, once."""
    made = {answer.servings: answer.makes for answer in view.answers if answer.makes}
    return tuple((serving_words([size]), words) for size, words in made.items())


def _method_pours(view: DishView, method: str) -> MethodPours:
    answers = [answer for answer in view.answers if answer.method == method]
    first = answers[0]
    tables = tuple(
        _table(part.name, tuple(SizedPour(a.servings, a.parts[at]) for a in answers))
        for at, part in enumerate(first.parts)
    )
    bare = tuple(
        _table(row.component, tuple(_sized(row, view.servings)))
        for row in view.without_optional
        if row.method == first.method_name
    )
    jars = tuple(f"{serving_words([a.servings])}: {a.jars}" for a in answers if a.jars)
    return MethodPours(
        method,
        first.method_name,
        first.method_line,
        tables,
        bare,
        jars,
        tuple(method_cautions(answers)),
    )


def _sized(row: WaterRow, sizes: Iterable[int]) -> Iterator[SizedPour]:
    for size, cell in zip(sizes, row.cells, strict=True):
        yield SizedPour(size, cell)


def _table(component: str, rows: tuple[SizedPour, ...]) -> PourTable:
    return PourTable(component, rows[0].pour.rest_word, rows[0].pour.tested, rows)


def method_cautions(answers: Sequence[AnswerView]) -> Iterator[CautionOf]:
    """Give each caution of a method once, with the sizes it is for if it is not for all."""
    found: dict[CautionView, list[int]] = {}
    for answer in answers:
        for caution in answer.cautions:
            found.setdefault(caution, []).append(answer.servings)
    for caution, sizes in found.items():
        yield CautionOf("" if len(sizes) == len(answers) else serving_words(sizes), caution)


def _heat(card: HeatView) -> dict[str, Any]:
    several = bool(card.table.heads)
    return {
        "title": card.title,
        "caption": card.table.caption,
        "corner": card.table.corner,
        "said": said_by_size(card.table) if several else (),
        "tables": () if several else narrow(card.table),
        "curves": [(serving_words(curve.sizes), curve.curve) for curve in card.curves],
        "notes": card.notes,
    }
