"""What a template shows of a dish: words and ready numbers, in the order a page needs them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from cookbook_build.planning.camp import serving
from cookbook_build.planning.lessons import part_name
from cookbook_build.publishing.cautioning import CautionView, caution_views
from cookbook_build.publishing.mixes import MixView, mix_view
from cookbook_build.publishing.other_ways import cold_words
from cookbook_build.publishing.plots import TrialPlot, trial_plot
from cookbook_build.publishing.pours import PourView, pours
from cookbook_build.publishing.reasons import learned_words, reasons, tested_words
from cookbook_build.publishing.wording import (
    altitude_words,
    method_line,
    method_name,
    method_within,
    millilitres,
    number_of,
    of_part,
    part_title,
    rounds_up,
    until,
)
from cookbook_build.words import N_, _, ngettext

if TYPE_CHECKING:
    from collections.abc import Iterable

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.schema import TrialKeys
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.planning.lessons import Lessons

VERDICTS: Final = {"right": N_("right"), "thick": N_("too thick"), "thin": N_("too thin")}


@dataclass(frozen=True, slots=True)
class AnswerView:
    """The water of a dish at one serving size and method."""

    servings: int
    method: Method
    is_default: bool
    parts: tuple[PourView, ...]
    makes: str = ""
    jars: str = ""
    eat_within: str = ""
    cold: str = ""  # which components have cold water although the way is hot
    cautions: tuple[CautionView, ...] = ()

    @property
    def method_name(self) -> str:
        """The method's name."""
        return method_name(self.method)

    @property
    def method_line(self) -> str:
        """What one does, in a line; of components with cold water, that they have it."""
        return f"{method_line(self.method)} {self.cold}".rstrip()

    @property
    def on(self) -> str:
        """The choice at which it is shown."""
        return f"{self.servings}-{self.method}"


@dataclass(frozen=True, slots=True)
class WaterRow:
    """One line of the water table: a component by a method, at every serving size."""

    method: str
    component: str
    cells: tuple[PourView, ...]


@dataclass(frozen=True, slots=True)
class TrialView:
    """One trial, in words."""

    date: str
    how: str
    water: str
    verdict: str
    by: str
    note: str
    left_out: bool


@dataclass(frozen=True, slots=True)
class DishView:
    """A dish as its page shows it."""

    servings: tuple[int, ...]
    methods: tuple[tuple[str, str, str], ...]  # word, name, what one does
    default_servings: int
    default_method: str
    answers: tuple[AnswerView, ...]
    mix: tuple[MixView, ...]
    table: tuple[WaterRow, ...]
    without_optional: tuple[WaterRow, ...]
    optional_names: tuple[str, ...]
    counts_round_up: bool
    several: bool
    tested: bool
    tested_words: tuple[str, ...]
    reasons: tuple[str, ...]
    raw_stores: tuple[str, ...]
    trials: tuple[TrialView, ...]
    plots: tuple[TrialPlot, ...]
    learned: tuple[str, ...]
    altitude: str
    minutes: str


def serving_sizes(dish: Dish, book: Manuscript) -> tuple[int, ...]:
    """Return the sizes on a dish's page: the book's, and the recipe's own."""
    return tuple(sorted({*book.book.servings, dish.recipe.keys.serves}))


def dish_view(dish: Dish, book: Manuscript, lessons: Lessons) -> DishView:
    """Return what the page of a dish shows."""
    sizes = serving_sizes(dish, book)
    makes = dict(_makes(dish, sizes))
    answers = tuple(
        dish_answer(dish, book, size, method, makes.get(size, ""))
        for method in dish.methods
        for size in sizes
    )
    default = next(answer for answer in answers if answer.is_default)
    lines = [line for part in dish.parts for line in part.lines]
    own = dish.recipe.keys.serves
    altitude = altitude_words(dish.place.conditions.altitude_m, book.book.altitudes)
    return DishView(
        servings=sizes,
        methods=tuple((m, method_name(m), method_line(m)) for m in dish.methods),
        default_servings=dish.default_servings,
        default_method=dish.default_method,
        answers=answers,
        mix=tuple(mix_view(part, dish, book, sizes) for part in dish.parts),
        table=_table(dish, answers, sizes),
        without_optional=_bare_table(dish, book, sizes) if dish.has_optional else (),
        optional_names=tuple(line.store.name for part in dish.parts for line in part.optional),
        counts_round_up=any(
            rounds_up(line.ingredient, Fraction(size, own)) for line in lines for size in sizes
        ),
        several=len(dish.parts) > 1,
        tested=dish.is_tested,
        tested_words=tuple(
            of_part(
                part.name, tested_words(part, water, book, lessons), several=len(dish.parts) > 1
            )
            for part, water in zip(
                dish.parts,
                dish.waters(dish.default_servings, dish.default_method),
                strict=True,
            )
        ),
        reasons=tuple(reasons(dish, altitude)),
        raw_stores=dish.raw_stores,
        trials=tuple(_trials(dish, book, lessons)),
        plots=tuple(
            plot for part in dish.parts if (plot := trial_plot(dish, part, lessons)) is not None
        ),
        learned=tuple(learned_words(dish, default.servings, default.parts)),
        altitude=altitude,
        minutes=default.parts[0].rest,
    )


def dish_answer(
    dish: Dish, book: Manuscript, size: int, method: Method, makes: str = ""
) -> AnswerView:
    """Return the water of a dish at one serving size and method."""
    return AnswerView(
        size,
        method,
        (size, method) == (dish.default_servings, dish.default_method),
        pours(dish, book, size, method),
        makes,
        _jars(dish, size) if method == "jar" else "",
        until(serving(dish.waters(size, method), method).eat_by_s),
        cold_words(dish, method),
        caution_views(dish, size, method)[len(dish.raw_stores) :],  # raw ones stand above all
    )


def _jars(dish: Dish, servings: int) -> str:
    """Return how many of the household's jars a serving size takes, where one is not enough."""
    jars, holds = dish.jars(servings), millilitres(dish.place.kit.jar_holds_ml)
    each = millilitres(dish.waters(servings, "jar")[0].start_ml / jars)
    if jars == 1:
        return ""
    return ngettext(
        "It takes {n} jar of {volume}; pour {each} into each.",
        "It takes {n} jars of {volume}; pour {each} into each.",
        jars,
    ).format(n=jars, volume=holds, each=each)


def _table(
    dish: Dish, answers: Iterable[AnswerView], sizes: tuple[int, ...]
) -> tuple[WaterRow, ...]:
    found = {(answer.method, answer.servings): answer.parts for answer in answers}
    return tuple(
        WaterRow(
            method_name(method),
            part_title(part.name),
            tuple(found[method, size][at] for size in sizes),
        )
        for method in dish.methods
        for at, part in enumerate(dish.parts)
    )


def _bare_table(dish: Dish, book: Manuscript, sizes: tuple[int, ...]) -> tuple[WaterRow, ...]:
    answers = [
        AnswerView(
            size, m, is_default=False, parts=pours(dish, book, size, m, without_optional=True)
        )
        for m in dish.methods
        for size in sizes
    ]
    return tuple(
        row
        for row, part in zip(
            _table(dish, answers, sizes), list(dish.parts) * len(dish.methods), strict=True
        )
        if part.bare
    )


def _makes(dish: Dish, sizes: tuple[int, ...]) -> tuple[tuple[int, str], ...]:
    """Return what a serving size makes, counted up: `2 filled oatcakes`."""
    made = dish.recipe.keys.makes
    if not made:
        return ()
    count, what = [*made.split(" ", maxsplit=1), ""][:2]
    if not count.isdigit():
        return tuple((size, made) for size in sizes)
    own = dish.recipe.keys.serves
    counts = [-(-int(count) * size // own) for size in sizes]
    return tuple((size, number_of(n, what)) for size, n in zip(sizes, counts, strict=True))


def _trials(dish: Dish, book: Manuscript, lessons: Lessons) -> Iterable[TrialView]:
    """Return the trials of a dish, the newest first."""
    for part in dish.parts:
        for record in reversed(lessons.all_of(part_name(dish, part))):
            trial = record.keys
            if trial is None:
                continue
            servings = number_of(trial.servings or dish.recipe.keys.serves, "serving")
            way = "cold" if part.text.cold else trial.method
            how = [method_within(way), servings]
            if trial.altitude:
                how.append(altitude_words(trial.altitude.si, book.book.altitudes))
            yield TrialView(
                trial.date.isoformat(),
                of_part(part.name, ", ".join(how), several=len(dish.parts) > 1),
                str(trial.water),
                _verdict(trial),
                trial.by or "",
                trial.note or "",
                record.left_out,
            )


def _verdict(trial: TrialKeys) -> str:
    verdict = _(VERDICTS[trial.verdict])
    if not trial.added:
        return verdict
    return _("{verdict}; {amount} added").format(verdict=verdict, amount=trial.added)
