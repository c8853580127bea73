"""Label words: what stands on the label of each pouch or jar, the gravest first."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.boiling import boiling_point_c
from cookbook_build.kitchen.cautions import COLD_LINE_C
from cookbook_build.measures.amounts import number_text
from cookbook_build.planning.nourish import companions
from cookbook_build.preserving.label_text import cut, plain_text, qr_text, size_bytes
from cookbook_build.preserving.packing import Pouch
from cookbook_build.publishing.pours import shown_measures
from cookbook_build.publishing.provisioning import months_words
from cookbook_build.publishing.wording import (
    METHOD_NAMES,
    altitude_words,
    back_words,
    celsius,
    grams,
    millilitres,
    minutes,
    percent,
    until,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.kitchen.scaling import ComponentWater
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.packs import Pack

WATER_WORDS: Final = {
    "kettle": "boiling water",
    "microwave": "water",
    "stove": "water",
    "jar": "boiling water",
    "cold": "cold drinking water",
}
STEPS: Final = {
    "kettle": "stir, cover, rest {rest}",
    "microwave": "stir, heat to the boil, cover, rest {rest}",
    "stove": "stir, bring to the boil, lid on, simmer {rest}",
    "jar": "preheat the jar, pour, stir, close, rest {rest}",
    "cold": "stir, soak {rest}",
}
RAW_STEPS: Final = {
    "microwave": "stir, heat to the boil, then on until {hot} inside (about {rest})",
    "stove": "stir, bring to the boil, lid on, simmer until {hot} inside (about {rest})",
}
NAMED: Final = 3
"""Stores named in a warning, before the rest is only counted."""
SMALL_BYTES: Final = 331
"""What a version 13 code of level M holds, which prints at 27 mm; ISO/IEC 18004, from memory."""
TITLE_BYTES: Final = 72
"""Of a title in the square, which stays small so; the label itself has all of it. Our choice."""
CARE: Final = "Best is quality, not safety. Swollen, damp or off: throw it out."


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
    part = pack.part.name if len(pack.plate.dish.parts) > 1 else ""
    raw, absorber = raw_words(pack), _absorber_words(pack)
    pour, how = _pour_words(pack.share_water, pack, book), how_words(pack, book)
    packed = f"packed {pack.packed}" if pack.packed else ""
    best = f"best by {pack.best_by}" if pack.best_by else f"best {months_words(pack.quality)}"
    contains = f"Contains {', '.join(pack.allergens)}." if pack.allergens else ""
    titled = cut(plain_text(keys.title), TITLE_BYTES)
    beside, helps = tuple(_beside(pack, book)), tuple(_helps(pack))
    for number in range(1, pack.count + 1):
        share, lot = _share_words(pack, number), f"lot {pack.lot}"
        own = f"{part}: {share}" if part else share
        told = [raw, contains, pour, how, own, absorber, best, packed, lot]
        yield LabelWords(
            keys.title, part, raw, absorber, pour, how, share, packed or "packed ____________",
            best, contains, lot, (*beside, *helps),
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
    number = number_text(near) if exact else f"{servings:.1f}"
    return f"{number} serving{'s' * (servings > 1)}"


def raw_words(pack: Pack) -> str:
    """Return what a label warns of where a store was dried raw."""
    names = pack.raw_stores
    if not names:
        return ""
    more = f" and {len(names) - NAMED} more" if len(names) > NAMED else ""
    raw = f"Raw {', '.join(names[:NAMED])}{more}: cook to {celsius(pack.cook_to_c)} inside"
    if pack.cook_and_rest:
        raw += ", then rest 3 min"
    boils_c = boiling_point_c(pack.altitude_m)
    if boils_c < pack.cook_to_c:
        raw += f"; water boils at {celsius(boils_c)} up there: only under pressure"
    return f"{raw}."


def how_words(pack: Pack, book: Manuscript) -> str:
    """Return how a share is made ready; what holds raw meat goes by its heat, not by the clock."""
    method, water = pack.method, pack.share_water
    steps = RAW_STEPS.get(method, RAW_STEPS["stove"]) if pack.raw_stores else STEPS[method]
    told = steps.format(rest=minutes(water.rest_s), hot=celsius(pack.cook_to_c))
    where = "" if method == "cold" else f", {altitude_words(pack.altitude_m, book.book.altitudes)}"
    return f"{METHOD_NAMES[method]}{where}: {told}.{_clock_words(pack, water)}"


def _clock_words(pack: Pack, water: ComponentWater) -> str:
    """Return until when it may be eaten, where it stands long enough to matter."""
    if pack.method not in {"cold", "jar"}:
        return ""
    if water.ready_s > water.eat_by_s:
        return f" Keep it below {celsius(COLD_LINE_C)} all the time."
    chilled = ", or keep it chilled" if pack.method == "cold" else ""
    return f" Eat within {until(water.eat_by_s)} of pouring{chilled}."


def _pour_words(water: ComponentWater, pack: Pack, book: Manuscript) -> str:
    shown = shown_measures(water, book)
    return (
        f"Pour {shown['start']} ({millilitres(water.start_ml)}) {WATER_WORDS[pack.method]}, "
        f"keep back {shown['hold_back']}"
    )


def _share_words(pack: Pack, number: int) -> str:
    one = f"{number} of {pack.count}: " if pack.count > 1 else ""
    return f"{one}{servings_words(pack.share_servings)}, {grams(pack.share_g)} dry"


def _absorber_words(pack: Pack) -> str:
    """Return what to know of the absorber: it is not food, and it preserves nothing damp."""
    if pack.packing is None:
        return ""
    if pack.packing.absorbers is None:
        refused = pack.sealing.sealing == "refused"
        return f"No absorber: {percent(pack.sealing.moisture)} water." if refused else ""
    several = len(pack.packing.absorbers.sizes_ml) > 1
    take = f"Take the absorber{'s' * several} out."
    is_pouch = isinstance(pack.packing.choice.container, Pouch)
    return take if is_pouch else f"{take} Not canned: dry food only."


def _beside(pack: Pack, book: Manuscript) -> Iterator[str]:
    """Give what belongs to a share, where there is room: its like, its companions."""
    shown = shown_measures(pack.water, book)
    if pack.count > 1:
        yield (
            f"All {pack.count} in one: pour {shown['start']} ({millilitres(pack.water.start_ml)}), "
            f"keep back {shown['hold_back']}, {minutes(pack.water.rest_s)}."
        )
    beside = [part.name for part in pack.plate.dish.parts if part is not pack.part]
    if beside:
        yield f"Goes with: {', '.join(beside).lower()}, packed apart."
    fresh = [
        name + (f" (contains {', '.join(found)})" if found else "")
        for name, found in companions(pack.part, book.book.allergens).items()
    ]
    if fresh:
        yield f"Add fresh: {', '.join(fresh)}."


def _helps(pack: Pack) -> Iterator[str]:
    """Give what only helps, where there is room."""
    yield f"Too thick? Add what you kept back, {back_words(pack.share_water.hold_back_ml)}."
    yield CARE
    yield f"Of {', '.join(_made_of(pack))}."


def _made_of(pack: Pack) -> list[str]:
    """Return the stores of a mix, the most of it first."""
    dry: dict[str, float] = {}
    for line in pack.part.lines:
        if line.is_dry:
            dry[line.store.name] = dry.get(line.store.name, 0.0) + line.grams
    return sorted(dry, key=lambda name: (-dry[name], name))
