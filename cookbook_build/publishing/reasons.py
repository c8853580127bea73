"""What the numbers of a dish stand on, in words: its test, its trials, its ingredients."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from cookbook_build.publishing.pours import own_trials
from cookbook_build.publishing.wording import (
    altitude_words,
    celsius,
    consistency_name,
    grams,
    method_within,
    millilitres,
    minutes,
    number_of,
    of_part,
    percent,
    tally_words,
)
from cookbook_build.words import N_, _

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.kitchen.scaling import ComponentWater
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.dishes import Dish, Part
    from cookbook_build.planning.lessons import Lessons
    from cookbook_build.publishing.pours import PourView

UNTESTED: Final = {
    (False, False): N_(
        "not yet tested; reckoned from its ingredients as a {consistency}, whose free water is "
        "{share} of the restored mix, give or take {deviation}"
    ),
    (False, True): N_(
        "not yet tested; reckoned from its ingredients as a {consistency}, whose free water "
        "was taken as {share} of the restored mix, give or take {deviation}, by what {trials} of "
        "this book taught"
    ),
    (True, False): N_(
        "not tested; reckoned from its ingredients as a {consistency}, whose free water is "
        "{share} of the restored mix, give or take {deviation}"
    ),
    (True, True): N_(
        "not tested; reckoned from its ingredients as a {consistency}, whose free water "
        "was taken as {share} of the restored mix, give or take {deviation}, by what {trials} of "
        "this book taught"
    ),
}
"""What is said of a component without a test: with trials of its own, with any in the book.

The share is the one that the water was reckoned with: what is usual until trials taught otherwise.
"""

_RESTING: Final = N_("Uptake: {mix} of dry mix take up {water} of water while they rest.")
UPTAKES: Final[Mapping[Method, str]] = {
    "kettle": _RESTING,
    "microwave": _RESTING,
    "stove": N_("Uptake: {mix} of dry mix take up {water} of water while they simmer."),
    "jar": _RESTING,
    "cold": N_("Uptake: {mix} of dry mix take up {water} of water while they soak."),
}


def tested_words(part: Part, water: ComponentWater, book: Manuscript, lessons: Lessons) -> str:
    """Return what a component's water stands on, its test or its ingredients."""
    tested = part.text.tested
    if tested is None:
        return _untested_words(part, water, lessons)
    altitude = tested.altitude or book.book.altitude
    servings = number_of(part.mix.tested.servings if part.mix.tested else 1, "serving")
    facts = [
        _("{water} for {servings}").format(water=tested.water, servings=servings),
        _method_at(
            "cold" if part.text.cold else tested.method, altitude.si if altitude else None, book
        ),
    ]
    if tested.rest:
        facts.append(_("{time} rest").format(time=minutes(tested.rest.si)))
    return _("tested: {facts}").format(facts=", ".join(facts))


def _method_at(method: Method, altitude_m: float | None, book: Manuscript) -> str:
    """Return a way within a line, with the altitude where one is known."""
    way = method_within(method)
    if altitude_m is None:
        return way
    return _("{method} at {altitude}").format(
        method=way, altitude=altitude_words(altitude_m, book.book.altitudes)
    )


def _untested_words(part: Part, water: ComponentWater, lessons: Lessons) -> str:
    others = lessons.tally
    told = UNTESTED[bool(part.trials), bool(others.trials + others.tests)]
    return _(told).format(
        consistency=consistency_name(part.text.consistency),
        share=percent(water.phi),
        deviation=percent(water.phi_sd),
        trials=tally_words(others.trials, others.tests),
    )


def learned_words(dish: Dish, servings: int, shown: tuple[PourView, ...]) -> Iterable[str]:
    """Return one line for each component whose own trials fix its default water."""
    for part, pour in zip(dish.parts, shown, strict=True):
        if part.trials:
            words = _(
                "{trials}: for {servings} by {method} pour {start}, keep {hold_back} back."
            ).format(
                trials=own_trials(part),
                servings=number_of(servings, "serving"),
                method=method_within(dish.default_method),
                start=pour.start,
                hold_back=pour.hold_back,
            )
            yield of_part(part.name, words, several=len(dish.parts) > 1)


def reasons(dish: Dish, altitude: str) -> Iterable[str]:
    """Return one readable line for each number behind the default answer."""
    method = dish.default_method
    for part, water in zip(dish.parts, dish.waters(dish.default_servings, method), strict=True):
        for words in _part_reasons(part, water, altitude):
            yield of_part(water.name, words, several=len(dish.parts) > 1)


def _part_reasons(part: Part, water: ComponentWater, altitude: str) -> Iterable[str]:
    derived = water.derivation
    yield _(UPTAKES[water.method]).format(
        mix=grams(water.dry_g), water=millilitres(water.uptake_ml)
    )
    free = (
        _("Free water: {water} less than the pieces would hold, so it stays stiff.")
        if water.free_ml < 0
        else _("Free water: {water} more stand between the pieces and make it {consistency}.")
    )
    yield free.format(
        water=millilitres(abs(water.free_ml)), consistency=consistency_name(part.text.consistency)
    )
    if not water.is_cold:  # which loses nothing
        yield _("Losses: {water} leave as steam; water boils at {boiling} at {altitude}.").format(
            water=millilitres(water.loss_ml), boiling=celsius(derived.boiling_c), altitude=altitude
        )
    rest = (
        _(
            "Rest: {reference} at a mean of {reference_mean} was enough when tested; here the mean "
            "is {mean}, so {time}."
        )
        if part.text.tested
        else _(
            "Rest: {reference} at a mean of {reference_mean} is usual for such a mix; here the "
            "mean is {mean}, so {time}."
        )
    )
    yield rest.format(
        reference=minutes(derived.reference_rest_s),
        reference_mean=celsius(derived.reference_c),
        mean=celsius(derived.mean_c),
        time=minutes(water.rest_s),
    )
