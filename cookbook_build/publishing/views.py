"""What a template shows of a dish: words and ready numbers, in the order a page needs them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from cookbook_build.kitchen.consistency import CONSISTENCIES
from cookbook_build.planning.camp import serving
from cookbook_build.planning.lessons import part_name, tally
from cookbook_build.publishing.cautioning import CautionView, caution_views
from cookbook_build.publishing.mixes import MixView, mix_view
from cookbook_build.publishing.plots import TrialPlot, trial_plot
from cookbook_build.publishing.pours import PourView, own_trials, pours
from cookbook_build.publishing.wording import (
    METHOD_LINES,
    METHOD_NAMES,
    REST_WORDS,
    altitude_words,
    celsius,
    grams,
    millilitres,
    minutes,
    number_of,
    percent,
    rounds_up,
    tally_words,
    until,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.dishes import Dish, Part
    from cookbook_build.planning.lessons import Lessons


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
    cautions: tuple[CautionView, ...] = ()

    @property
    def method_name(self) -> str:
        """The method's name."""
        return METHOD_NAMES[self.method]

    @property
    def method_line(self) -> str:
        """What one does, in a line."""
        return METHOD_LINES[self.method]

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
        AnswerView(
            size,
            method,
            (size, method) == (dish.default_servings, dish.default_method),
            pours(dish, book, size, method),
            makes.get(size, ""),
            _jars(dish, size) if method == "jar" else "",
            until(serving(dish.waters(size, method), method).eat_by_s),
            caution_views(dish, size, method)[len(dish.raw_stores) :],  # raw ones stand above all
        )
        for method in dish.methods
        for size in sizes
    )
    default = next(answer for answer in answers if answer.is_default)
    lines = [line for part in dish.parts for line in part.lines]
    own = dish.recipe.keys.serves
    altitude = altitude_words(dish.place.conditions.altitude_m, book.book.altitudes)
    return DishView(
        servings=sizes,
        methods=tuple((m, METHOD_NAMES[m], METHOD_LINES[m]) for m in dish.methods),
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
            f"{part.name}: " * (len(dish.parts) > 1) + _tested_words(part, book, lessons)
            for part in dish.parts
        ),
        reasons=tuple(_reasons(dish, altitude)),
        raw_stores=dish.raw_stores,
        trials=tuple(_trials(dish, book, lessons)),
        plots=tuple(
            plot for part in dish.parts if (plot := trial_plot(dish, part, lessons)) is not None
        ),
        learned=tuple(_learned_words(dish, default)),
        altitude=altitude,
        minutes=default.parts[0].rest,
    )


def _jars(dish: Dish, servings: int) -> str:
    """Return how many of the household's jars a serving size takes, where one is not enough."""
    jars, holds = dish.jars(servings), millilitres(dish.place.kit.jar_holds_ml)
    each = millilitres(dish.waters(servings, "jar")[0].start_ml / jars)
    return f"It takes {jars} jars of {holds}; pour {each} into each." if jars > 1 else ""


def _table(
    dish: Dish, answers: Iterable[AnswerView], sizes: tuple[int, ...]
) -> tuple[WaterRow, ...]:
    found = {(answer.method, answer.servings): answer.parts for answer in answers}
    return tuple(
        WaterRow(
            METHOD_NAMES[method],
            part.name,
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
    count, _, what = made.partition(" ")
    if not count.isdigit():
        return tuple((size, made) for size in sizes)
    own = dish.recipe.keys.serves
    counts = [-(-int(count) * size // own) for size in sizes]
    return tuple((size, number_of(n, what)) for size, n in zip(sizes, counts, strict=True))


def _tested_words(part: Part, book: Manuscript, lessons: Lessons) -> str:
    tested = part.text.tested
    if tested is None:
        usual = CONSISTENCIES[part.text.consistency]
        others = tally(lessons.records)
        return (
            f"{'not tested' if part.trials else 'not yet tested'}; reckoned from its ingredients "
            f"as a {part.text.consistency}, whose free water is {percent(usual.free_ratio)} of the "
            f"mix, give or take {percent(usual.free_ratio_sd)}"
            + (
                f", and from what {tally_words(others.trials, others.tests)} of this book taught"
                if others.trials + others.tests
                else ""
            )
        )
    servings = part.mix.tested.servings if part.mix.tested else 1
    altitude = tested.altitude or book.book.altitude
    where = f" at {altitude_words(altitude.si, book.book.altitudes)}" if altitude else ""
    rest = f", {minutes(tested.rest.si)} rest" if tested.rest else ""
    return (
        f"tested: {tested.water} for {number_of(servings, 'serving')}, "
        f"{METHOD_NAMES[tested.method].lower()}{where}{rest}"
    )


def _learned_words(dish: Dish, answer: AnswerView) -> Iterable[str]:
    """Return one line for each component whose own trials fix its water."""
    for part, pour in zip(dish.parts, answer.parts, strict=True):
        if part.trials:
            name = f"{part.name}: " if len(dish.parts) > 1 else ""
            yield (
                f"{name}{own_trials(part)}: for {number_of(answer.servings, 'serving')} by "
                f"{answer.method_name.lower()} pour {pour.start}, keep {pour.hold_back} back."
            )


def _reasons(dish: Dish, altitude: str) -> Iterable[str]:
    """Return one readable line for each number behind the default answer."""
    method = dish.default_method
    for part, water in zip(dish.parts, dish.waters(dish.default_servings, method), strict=True):
        name = f"{water.name}: " if len(dish.parts) > 1 else ""
        yield (
            f"{name}Uptake: {grams(water.dry_g)} of dry mix take up "
            f"{millilitres(water.uptake_ml)} of water while they {_rest_verb(method)}."
        )
        sign = (
            "less than the pieces would hold, so it stays stiff"
            if water.free_ml < 0
            else f"more stand between the pieces and make it {part.text.consistency}"
        )
        yield f"{name}Free water: {millilitres(abs(water.free_ml))} {sign}."
        derived = water.derivation
        yield (
            f"{name}Losses: {millilitres(water.loss_ml)} leave as steam; water boils at "
            f"{celsius(derived.boiling_c)} at {altitude}."
        )
        yield (
            f"{name}Rest: {minutes(derived.reference_rest_s)} at a mean of "
            f"{celsius(derived.reference_c)} {_rest_source(part)}; here the mean is "
            f"{celsius(derived.mean_c)}, so {minutes(water.rest_s)}."
        )


def _rest_verb(method: Method) -> str:
    return REST_WORDS[method].lower()


def _rest_source(part: Part) -> str:
    return "was enough when tested" if part.text.tested else "is usual for such a mix"


def _trials(dish: Dish, book: Manuscript, lessons: Lessons) -> Iterable[TrialView]:
    """Return the trials of a dish, the newest first."""
    for part in dish.parts:
        for record in reversed(lessons.all_of(part_name(dish, part))):
            trial = record.keys
            if trial is None:
                continue
            servings = trial.servings or dish.recipe.keys.serves
            where = ""
            if trial.altitude:
                where = f", {altitude_words(trial.altitude.si, book.book.altitudes)}"
            verdict = {"right": "right", "thick": "too thick", "thin": "too thin"}[trial.verdict]
            added = f"; {trial.added} added" if trial.added else ""
            name = f"{part.name}: " if len(dish.parts) > 1 else ""
            yield TrialView(
                trial.date.isoformat(),
                f"{name}{METHOD_NAMES[trial.method].lower()}, "
                f"{number_of(servings, 'serving')}{where}",
                str(trial.water),
                verdict + added,
                trial.by or "",
                trial.note or "",
                record.left_out,
            )
