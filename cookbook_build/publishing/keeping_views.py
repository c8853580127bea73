"""The packing card: what each mix goes into, what keeps it, and for how long."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.cautions import ABSORBER_MOISTURE
from cookbook_build.measures.spoons import friendly
from cookbook_build.planning.packs import (
    containers,
    kept_quality,
    mix_sealing,
    part_lines,
    part_packing,
)
from cookbook_build.planning.quality import package, shelf_c
from cookbook_build.planning.stores import measures
from cookbook_build.publishing.provisioning import packing_words
from cookbook_build.publishing.tables import SizeGroup, SizeRow, SizeTable, size_row
from cookbook_build.publishing.wording import (
    degrees,
    grams,
    number_of,
    part_title,
    part_within,
    percent,
)
from cookbook_build.words import N_, _, numeral

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.dishes import Dish, Part
    from cookbook_build.planning.lots import Lot


@dataclass(frozen=True, slots=True)
class KeepingView:
    """The packing card of a dish."""

    table: SizeTable
    notes: tuple[str, ...]


NO_CONTAINERS: Final = N_(
    "book.yaml names no pouches or jars, so nothing is said of what it goes into. Add to its kit "
    "a line such as pouches: [{name: medium, width: 18 cm, height: 26 cm}], or jars: [{name: "
    "quart, holds: 950 mL}]."
)
NO_ABSORBERS: Final = N_(
    "It names no absorbers either, so the months are those without. Add a line such as "
    "absorbers: [300 mL] if you use them."
)
NO_ABSORBERS_ALONE: Final = N_(
    "book.yaml names no absorbers, so the months are those without. Add to its kit a line such as "
    "absorbers: [300 mL] if you use them."
)


def keeping_view(
    dish: Dish, book: Manuscript, sizes: tuple[int, ...], lots: Mapping[str, tuple[Lot, ...]]
) -> KeepingView:
    """Return the packing card of a dish."""
    several = len(dish.parts) > 1
    groups = tuple(
        SizeGroup(part_title(part.name) if several else "", _rows(dish, part, book, sizes))
        for part in dish.parts
    )
    notes = [
        *_refusals(dish, book, lots),
        *(_quality_words(dish, part, book) for part in dish.parts),
        _shelf_words(book),
        *_missing(book),
    ]
    return KeepingView(
        SizeTable(_("The mix of one meal, packed together"), "", "", (), groups), tuple(notes)
    )


def _refusals(dish: Dish, book: Manuscript, lots: Mapping[str, tuple[Lot, ...]]) -> Iterator[str]:
    """Give what is too damp to be sealed: a mix by its stores, a lot by its weights."""
    sealed = package(book) == "absorber"
    for part in dish.parts:
        verdict = mix_sealing(part_lines(dish, part, dish.recipe.keys.serves))
        if sealed and verdict.sealing == "refused":
            yield damp_mix(part, verdict.moisture, several=len(dish.parts) > 1)
    names = dict.fromkeys(line.store.name for part in dish.parts for line in part.lines)
    for lot in (lot for name in names for lot in lots.get(name, ()) if lot.refusal):
        yield damp_lot(lot)


def damp_mix(part: Part, moisture: float, *, several: bool) -> str:
    """Return why no absorber goes with a component's mix."""
    words = (
        _(
            "No absorber goes with the {component}: by its stores it holds {moisture} water, more "
            "than {limit}. Damp food without air can grow botulism: carry its damp stores apart, "
            "or dry them first."
        )
        if several
        else _(
            "No absorber goes with this mix: by its stores it holds {moisture} water, more than "
            "{limit}. Damp food without air can grow botulism: carry its damp stores apart, or dry "
            "them first."
        )
    )
    return words.format(
        component=part_within(part.name),
        moisture=percent(moisture),
        limit=percent(ABSORBER_MOISTURE),
    )


def damp_lot(lot: Lot) -> str:
    """Return why a lot is not sealed: what its weights say of its water."""
    if not lot.is_damp:
        words = _(
            "Lot {lot} of {store} lost {lost} in its last hour: dry it again before it goes into a "
            "sealed pack, and never seal it with an absorber."
        )
    elif lot.moisture is None:
        words = _(
            "Lot {lot} of {store} holds at least {moisture} water by its weights, more than "
            "{limit}: dry it again before it goes into a sealed pack, and never seal it with an "
            "absorber."
        )
    else:
        words = _(
            "Lot {lot} of {store} holds {moisture} water by its weights, more than {limit}: dry it "
            "again before it goes into a sealed pack, and never seal it with an absorber."
        )
    return words.format(
        lot=lot.name,
        store=lot.store,
        lost=numeral(f"{100 * lot.lost_share:.1f} %"),
        moisture=percent(lot.sure_moisture or 0),
        limit=percent(ABSORBER_MOISTURE),
    )


def _shelf_words(book: Manuscript) -> str:
    words = (
        _(
            "With an absorber, and at {shelf}, dark and dry. A date of quality, not of safety. An "
            "absorber goes only with what is dry right through; a jar with an absorber is not "
            "canning. Take the absorber out before you pour."
        )
        if package(book) == "absorber"
        else _(
            "In a closed jar or bag, at {shelf}, dark and dry. A date of quality, not of safety. A "
            "closed jar is not canning: it keeps only what is dry right through."
        )
    )
    return words.format(shelf=degrees(shelf_c(book)))


def _missing(book: Manuscript) -> Iterator[str]:
    """Give what the book should say for this card to be whole."""
    boxed, sealed = bool(containers(book)), bool(book.book.kit.absorbers)
    if not boxed:
        yield _(NO_CONTAINERS)
    if not sealed:
        yield _(NO_ABSORBERS_ALONE) if boxed else _(NO_ABSORBERS)


def _rows(dish: Dish, part: Part, book: Manuscript, sizes: tuple[int, ...]) -> tuple[SizeRow, ...]:
    dry = {size: dish.part_dry(part, size) for size in sizes}
    system = measures(book).system
    rows = [
        size_row(_("Dry mix"), {size: (grams(mass),) for size, (mass, _) in dry.items()}),
        size_row(
            _("Takes up"),
            {size: (str(friendly(volume, system)),) for size, (_, volume) in dry.items()},
        ),
    ]
    packed = {
        size: part_packing(part_lines(dish, part, size), volume, dish, book)
        for size, (_, volume) in dry.items()
    }
    into = {size: (packing_words(found),) for size, found in packed.items() if found}
    if into:
        rows.append(size_row(_("Goes into"), into))
    if any(found and found.choice.count > 1 for found in packed.values()):
        each = {size: (grams(found.dry_g),) for size, found in packed.items() if found}
        rows.append(size_row(_("In each"), each))
    return tuple(rows)


def _quality_words(dish: Dish, part: Part, book: Manuscript) -> str:
    quality = kept_quality(part_lines(dish, part, dish.recipe.keys.serves), book)
    keeps = quality.keeps
    words = (
        _(
            "{component}: best within {months} of packing (between {low} and {high}); {store} sets "
            "that."
        )
        if len(dish.parts) > 1
        else _("Best within {months} of packing (between {low} and {high}); {store} sets that.")
    )
    return words.format(
        component=part_title(part.name),
        months=number_of(int(keeps.months), "month"),
        low=f"{keeps.low:.0f}",
        high=f"{keeps.high:.0f}",
        store=quality.shortest,
    )
