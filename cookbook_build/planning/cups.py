"""What a cup of a store weighs: said, learned from weighings, or derived from its food."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, log
from statistics import median
from typing import TYPE_CHECKING, Final

from cookbook_build.planning.stores import CUP_ML
from cookbook_build.preserving.yields import (
    CUP_SHARE,
    DERIVED_SHARE,
    RESIDUAL_MOISTURE,
    TABLE_SHARE,
    VOLUME_KEPT,
    dried_cup_weight,
    learned_cup_weight,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from cookbook_build.findings import Findings, Place
    from cookbook_build.foods import Food
    from cookbook_build.manuscript.fields import Weight
    from cookbook_build.manuscript.larder import Store
    from cookbook_build.measures.units import Measures

SLIP_SD: Final = 4.0
"""A cup further from what all others say of it is reported and left out; our choice."""


@dataclass(frozen=True, slots=True)
class StoreCup:
    """What a cup of a store weighs, from how many weighings, and of which cut if derived."""

    grams: float | None
    cut: str = ""
    weighings: int = 0
    sd_g: float | None = None


def store_cup(store: Store, food: Food | None, of: Measures, findings: Findings) -> StoreCup:
    """Return the cup that was said, learned from weighings, or derived; slips leave findings."""
    derived, share = _derived(store, food)
    weighed = list(_weighed(store, of))
    if not weighed:
        return derived
    kept = _without_slips(weighed, derived.grams, share, findings)
    _check_table(kept, derived.grams, share, findings)
    if not store.keys.weighings:
        return StoreCup(weighed[0][0], weighings=1)
    grams, sd_g = learned_cup_weight(derived.grams, share, [grams for grams, _ in kept])
    return StoreCup(grams, weighings=len(kept), sd_g=sd_g)


def _weighed(store: Store, of: Measures) -> Iterator[tuple[float, Place]]:
    """Give the cups that were weighed, and where each is written."""
    for at, weighing in enumerate(store.keys.weighings):
        yield _cup_g(weighing, of), store.places.of("weighings", at)
    said = store.keys.weighs
    if said and said.measure.kind == "volume":
        yield _cup_g(said, of), store.places.of("weighs")


def _without_slips(
    weighed: Sequence[tuple[float, Place]],
    derived_g: float | None,
    share: float,
    findings: Findings,
) -> list[tuple[float, Place]]:
    """Return the weighings without those that all others contradict; each of them is told."""
    kept = list(weighed)
    while len(kept) > 1:
        middle = median([grams for grams, _ in kept] + ([derived_g] if derived_g else []))
        far = max(kept, key=lambda one: abs(one[0] - middle))
        others = [grams for grams, place in kept if place != far[1]]
        mean_g, sd_g = learned_cup_weight(derived_g, share, others)
        if not _contradicts(far[0], mean_g, sd_g / mean_g):
            break
        kept.remove(far)
        findings.warning(
            far[1],
            f"a cup of {far[0]:.0f} g is far {'more' if far[0] > mean_g else 'less'} than the "
            f"{mean_g:.0f} g that the other weighings tell",
            "check its weight and its measure; until then it is left out.",
        )
    return kept


def _check_table(
    kept: Sequence[tuple[float, Place]], derived_g: float | None, share: float, findings: Findings
) -> None:
    """Warn of cups that agree, and are far from what the food lets expect; they count."""
    mean_g = learned_cup_weight(None, share, [grams for grams, _ in kept])[0]
    if derived_g is None or not _contradicts(mean_g, derived_g, share):
        return
    findings.warning(
        kept[0][1],
        f"a cup of {mean_g:.0f} g is far {'more' if mean_g > derived_g else 'less'} than the "
        f"{derived_g:.0f} g that its food lets expect",
        "check its weight, its measure, its food and its form.",
    )


def _contradicts(grams: float, mean_g: float, share: float) -> bool:
    """Whether a cup lies further from a mean than both their scatters let expect."""
    return abs(log(grams / mean_g)) > SLIP_SD * hypot(share, CUP_SHARE)


def _cup_g(weighs: Weight, of: Measures) -> float:
    return float(weighs.grams.weight_g(of) / weighs.measure.volume_ml(of)) * CUP_ML


def _derived(store: Store, food: Food | None) -> tuple[StoreCup, float]:
    """Return the cup of the reference table, dried if it was, and how unsure that is."""
    cup = food.cup(store.keys.form or "") if food else None
    if food is None or cup is None:
        return StoreCup(None), TABLE_SHARE
    cut, grams = cup
    match store.keys.dried:
        case "freeze" | "air" as dried:
            residual = min(RESIDUAL_MOISTURE[dried], food.moisture)
            kept = VOLUME_KEPT[dried].mean
            grams = dried_cup_weight(grams, food.moisture, residual, kept)
            return StoreCup(grams, cut), DERIVED_SHARE[dried]
        case _:
            return StoreCup(grams, cut), TABLE_SHARE
