"""Tested water that is far from what its consistency lets expect, and the figures to say so."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.consistency import CONSISTENCIES
from cookbook_build.kitchen.scaling import component_water
from cookbook_build.measures.spoons import friendly

if TYPE_CHECKING:
    from collections.abc import Container, Iterator

    from cookbook_build.findings import Findings, Place
    from cookbook_build.measures.amounts import Amount
    from cookbook_build.measures.units import System
    from cookbook_build.planning.dishes import Dish, Part
    from cookbook_build.planning.known import Known

FAR_PHI_SD: Final = 3.0
MOST_TIMES: Final = 8
NEAR_TIMES: Final = 0.1
"""Up to how many times the usual water was most likely for so many more, and how nearly; our
choice."""
METRIC: Final = frozenset({"mL", "cL", "dL", "L"})


def far_waters(dish: Dish, known: Known) -> list[tuple[Part, float]]:
    """Return the components whose tested water is far from the usual, by how many deviations."""
    found = known.of("far", (dish,), lambda: list(_far(dish)))
    return [(dish.parts[at], off) for at, off in found]


def _far(dish: Dish) -> Iterator[tuple[int, float]]:
    waters = dish.waters(dish.default_servings, dish.default_method)
    for at, (part, water) in enumerate(zip(dish.parts, waters, strict=True)):
        usual = CONSISTENCIES[part.text.consistency]
        off = (water.phi - usual.free_ratio) / usual.free_ratio_sd
        if part.text.tested and part.lines and abs(off) > FAR_PHI_SD:
            yield at, off


def check_tested(
    dish: Dish, explained: Container[Place], system: System, known: Known, findings: Findings
) -> None:
    """Warn where a tested water is far from what its consistency lets expect.

    Those that a slip of a unit has explained are known.
    """
    for part, _ in far_waters(dish, known):
        place = dish.recipe.places.of(*part.text.path, "tested", "water")
        if place in explained:
            continue
        usual_ml = _usual_ml(dish, part)
        findings.warning(
            place,
            far_words(part, usual_ml, system),
            f"{_for_more(part, usual_ml)}check the measure, what a cup of each store weighs, and "
            "the consistency.",
        )


def far_words(part: Part, usual_ml: float, system: System) -> str:
    """Return what is odd about a tested water, with the water [mL] that one would expect."""
    tested, test = part.text.tested, part.mix.tested
    if tested is None or test is None:
        return ""
    servings = f"{test.servings:g} serving{'' if test.servings == 1 else 's'}"
    return (
        f"{tested.water} is far {'more' if test.water_ml > usual_ml else 'less'} than the "
        f'{in_their_units(usual_ml, tested.water, system)} that a "{part.text.consistency}" of '
        f"these ingredients takes for {servings}"
    )


def _for_more(part: Part, usual_ml: float) -> str:
    """Return the servings that would explain a tested water, where they are left out."""
    tested, test = part.text.tested, part.mix.tested
    if tested is None or test is None or tested.servings or usual_ml <= 0:
        return ""
    times = test.water_ml / usual_ml
    servings = round(times) * test.servings
    if not 2 <= round(times) <= MOST_TIMES or abs(times / round(times) - 1) > NEAR_TIMES:
        return ""
    return f'if you made {servings:g} servings, add a line "servings: {servings:g}" below it; else '


def in_their_units(volume_ml: float, written: Amount | None, system: System) -> str:
    """Return a volume [mL] in the measures of an amount that was written: spoons or millilitres."""
    if written is None or written.terms[0].unit.name in METRIC:
        return f"{volume_ml:.0f} mL"
    return f"{friendly(volume_ml, system)} ({volume_ml:.0f} mL)"


def _usual_ml(dish: Dish, part: Part) -> float:
    """Return the water [mL] that would be computed for a component's test, had nobody tested it."""
    test = part.mix.tested
    if test is None:
        return 0.0
    untested = component_water(
        replace(part.mix, tested=None),
        servings=test.servings,
        method=test.method,
        conditions=test.conditions,
        kit=dish.place.kit,
    )
    return untested.total_ml
