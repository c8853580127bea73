"""Label words: what stands on the label of each pouch or jar, the gravest first."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.boiling import boiling_point_c
from cookbook_build.kitchen.cautions import COLD_LINE_C
from cookbook_build.measures.amounts import number_text
from cookbook_build.planning.nourish import companions
from cookbook_build.preserving.label_text import cut, plain_text, qr_text, size_bytes
from cookbook_build.preserving.packing import Pouch
from cookbook_build.publishing.pours import shown_measures
from cookbook_build.publishing.provisioning import best_words
from cookbook_build.publishing.wording import (
    allergen_name,
    altitude_words,
    back_words,
    celsius,
    grams,
    method_name,
    millilitres,
    minutes,
    part_title,
    part_within,
    percent,
    until,
)
from cookbook_build.words import N_, _, ngettext, numeral

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.kitchen.scaling import ComponentWater
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.packs import Pack

POUR: Final[Mapping[Method, str]] = MappingProxyType({
    "kettle": N_("Pour {start} ({start_ml}) boiling water, keep back {back}"),
    "microwave": N_("Pour {start} ({start_ml}) water, keep back {back}"),
    "stove": N_("Pour {start} ({start_ml}) water, keep back {back}"),
    "jar": N_("Pour {start} ({start_ml}) boiling water, keep back {back}"),
    "cold": N_("Pour {start} ({start_ml}) cold drinking water, keep back {back}"),
})  # fmt: skip
STEPS: Final[Mapping[Method, str]] = MappingProxyType({
    "kettle": N_("stir, cover, rest {rest}"),
    "microwave": N_("stir, heat to the boil, cover, rest {rest}"),
    "stove": N_("stir, bring to the boil, lid on, simmer {rest}"),
    "jar": N_("preheat the jar, pour, stir, close, rest {rest}"),
    "cold": N_("stir, soak {rest}"),
})  # fmt: skip
RAW_ON_STOVE: Final = N_(
    "stir, bring to the boil, lid on, simmer until {hot} inside (about {rest})"
)
RAW_STEPS: Final[Mapping[Method, str]] = MappingProxyType({
    "microwave": N_("stir, heat to the boil, then on until {hot} inside (about {rest})"),
})  # fmt: skip
RAW: Final = {
    "": N_("Raw {stores}: cook to {inside} inside."),
    "rest": N_("Raw {stores}: cook to {inside} inside, then rest 3 min."),
    "pressure": N_(
        "Raw {stores}: cook to {inside} inside; water boils at {boils} up there: only under "
        "pressure."
    ),
    "rest, pressure": N_(
        "Raw {stores}: cook to {inside} inside, then rest 3 min; water boils at {boils} up there: "
        "only under pressure."
    ),
}
ABSORBERS: Final = {
    # whether they are several, and whether they are in a pouch
    (False, True): N_("Take the absorber out."),
    (True, True): N_("Take the absorbers out."),
    (False, False): N_("Take the absorber out. Not canned: dry food only."),
    (True, False): N_("Take the absorbers out. Not canned: dry food only."),
}
NAMED: Final = 3
"""Stores named in a warning, before the rest is only counted."""
SMALL_BYTES: Final = 331
"""What a version 13 code of level M holds, which prints at 27 mm; ISO/IEC 18004, from memory."""
TITLE_BYTES: Final = 72
"""Of a title in the square, which stays small so; the label itself has all of it. Our choice."""
CARE: Final = N_("Best is quality, not safety. Swollen, damp or off: throw it out.")


@dataclass(frozen=True, slots=True)
class LabelWords:
    """What one label says; what is empty does not stand on it."""

    title: str
    part: str
    raw: str
    absorber: str
    pour: str
    how: str
    share: str
    packed: str
    best_by: str
    allergens: str
    lot: str
    extras: tuple[str, ...]  # where there is room, the most wanted first
    code_text: str


def label_words(pack: Pack, book: Manuscript) -> Iterator[LabelWords]:
    """Give what stands on each pouch or jar of a mix: its own share, and its own water."""
    keys = pack.plate.dish.recipe.keys
    part = part_title(pack.part.name) if len(pack.plate.dish.parts) > 1 else ""
    raw, absorber = raw_words(pack), _absorber_words(pack)
    pour, how = _pour_words(pack.share_water, pack, book), how_words(pack, book)
    packed = _("packed {date}").format(date=pack.packed) if pack.packed else ""
    best, contains = best_words(pack), _allergen_words(pack)
    titled = cut(plain_text(keys.title), TITLE_BYTES)
    beside, helps = tuple(_beside(pack, book)), tuple(_helps(pack))
    lot = _("lot {lot}").format(lot=pack.lot)
    for number in range(1, pack.count + 1):
        share = _share_words(pack, number)
        own = f"{part}: {share}" if part else share
        told = [raw, contains, pour, how, own, absorber, best, packed, lot]
        yield LabelWords(
            keys.title, part, raw, absorber, pour, how, share,
            packed or _("packed ____________"), best, contains, lot, (*beside, *helps),
            qr_text(titled, _with_room(titled, told, beside)),
        )  # fmt: skip


def _with_room(title: str, told: list[str], beside: tuple[str, ...]) -> list[str]:
    """Return what a square says: all that must stand there, and the rest while it stays small."""
    kept = list(told)
    for line in beside:
        if size_bytes("\n".join([title, *kept, line])) <= SMALL_BYTES:
            kept.append(line)
    return kept


def servings_words(servings: float) -> str:
    """Return a share's servings as a cook says them: `1½ servings`, `1 serving`."""
    near = Fraction(servings).limit_denominator(8)
    exact = abs(float(near) - servings) < 1e-6
    number = number_text(near) if exact else numeral(f"{servings:.1f}")
    # a part of a serving is said like one: `½ serving`
    return ngettext("{n} serving", "{n} servings", 1 if servings <= 1 else 2).format(n=number)


def raw_words(pack: Pack) -> str:
    """Return what a label warns of where a store was dried raw."""
    names = pack.raw_stores
    if not names:
        return ""
    boils_c = boiling_point_c(pack.altitude_m)
    under = "pressure" if boils_c < pack.cook_to_c else ""
    words = RAW[", ".join(filter(None, ["rest" if pack.cook_and_rest else "", under]))]
    return _(words).format(
        stores=_named(names), inside=celsius(pack.cook_to_c), boils=celsius(boils_c)
    )


def _named(names: tuple[str, ...]) -> str:
    few, more = ", ".join(names[:NAMED]), len(names) - NAMED
    if more <= 0:
        return few
    return ngettext("{names} and {n} more", "{names} and {n} more", more).format(names=few, n=more)


def how_words(pack: Pack, book: Manuscript) -> str:
    """Return how a share is made ready; what holds raw meat goes by its heat, not by the clock."""
    method, water = pack.method, pack.share_water
    steps = RAW_STEPS.get(method, RAW_ON_STOVE) if pack.raw_stores else STEPS[method]
    gaps = {
        "way": method_name(method),
        "altitude": altitude_words(pack.altitude_m, book.book.altitudes),
        "steps": _(steps).format(rest=minutes(water.rest_s), hot=celsius(pack.cook_to_c)),
    }
    told = _("{way}: {steps}.") if method == "cold" else _("{way}, {altitude}: {steps}.")
    return " ".join(filter(None, [told.format(**gaps), _clock_words(pack, water)]))


def _clock_words(pack: Pack, water: ComponentWater) -> str:
    """Return until when it may be eaten, where it stands long enough to matter."""
    if pack.method not in {"cold", "jar"}:
        return ""
    if water.ready_s > water.eat_by_s:
        return _("Keep it below {cold} all the time.").format(cold=celsius(COLD_LINE_C))
    words = (
        _("Eat within {time} of pouring, or keep it chilled.")
        if pack.method == "cold"
        else _("Eat within {time} of pouring.")
    )
    return words.format(time=until(water.eat_by_s))


def _allergen_words(pack: Pack) -> str:
    if not pack.allergens:
        return ""
    return _("Contains {allergens}.").format(
        allergens=", ".join(map(allergen_name, pack.allergens))
    )


def _pour_words(water: ComponentWater, pack: Pack, book: Manuscript) -> str:
    shown = shown_measures(water, book)
    return _(POUR[pack.method]).format(
        start=shown["start"], start_ml=millilitres(water.start_ml), back=shown["hold_back"]
    )


def _share_words(pack: Pack, number: int) -> str:
    gaps = {
        "number": number,
        "count": pack.count,
        "servings": servings_words(pack.share_servings),
        "weight": grams(pack.share_g),
    }
    if pack.count > 1:
        return _("{number} of {count}: {servings}, {weight} dry").format(**gaps)
    return _("{servings}, {weight} dry").format(**gaps)


def _absorber_words(pack: Pack) -> str:
    """Return what to know of the absorber: it is not food, and it preserves nothing damp."""
    if pack.packing is None:
        return ""
    if pack.packing.absorbers is None:
        if pack.sealing.sealing != "refused":
            return ""
        return _("No absorber: {moisture} water.").format(moisture=percent(pack.sealing.moisture))
    several = len(pack.packing.absorbers.sizes_ml) > 1
    return _(ABSORBERS[several, isinstance(pack.packing.choice.container, Pouch)])


def _beside(pack: Pack, book: Manuscript) -> Iterator[str]:
    """Give what belongs to a share, where there is room: its like, its companions."""
    shown = shown_measures(pack.water, book)
    if pack.count > 1:
        yield _("All {count} in one: pour {start} ({start_ml}), keep back {back}, {rest}.").format(
            count=pack.count,
            start=shown["start"],
            start_ml=millilitres(pack.water.start_ml),
            back=shown["hold_back"],
            rest=minutes(pack.water.rest_s),
        )
    beside = [part_within(part.name) for part in pack.plate.dish.parts if part is not pack.part]
    if beside:
        yield _("Goes with: {components}, packed apart.").format(components=", ".join(beside))
    fresh = [
        _fresh_words(name, found)
        for name, found in companions(pack.part, book.book.allergens).items()
    ]
    if fresh:
        yield _("Add fresh: {companions}.").format(companions=", ".join(fresh))


def _fresh_words(name: str, allergens: tuple[str, ...]) -> str:
    if not allergens:
        return name
    return _("{companion} (contains {allergens})").format(
        companion=name, allergens=", ".join(map(allergen_name, allergens))
    )


def _helps(pack: Pack) -> Iterator[str]:
    """Give what only helps, where there is room."""
    yield _("Too thick? Add what you kept back, {how}.").format(
        how=back_words(pack.share_water.hold_back_ml)
    )
    yield _(CARE)
    yield _("Of {stores}.").format(stores=", ".join(_made_of(pack)))


def _made_of(pack: Pack) -> list[str]:
    """Return the stores of a mix, the most of it first."""
    dry: dict[str, float] = {}
    for line in pack.part.lines:
        if line.is_dry:
            dry[line.store.name] = dry.get(line.store.name, 0.0) + line.grams
    return sorted(dry, key=lambda name: (-dry[name], name))
