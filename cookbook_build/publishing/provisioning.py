"""A menu provided for: the words of its lists, and all of it as plain data."""

from __future__ import annotations

import re
from collections import Counter
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.planning.rawness import cook_to_c
from cookbook_build.preserving.packing import Pouch
from cookbook_build.publishing.cautioning import caution_views
from cookbook_build.publishing.lot_words import taken_note, why_left
from cookbook_build.publishing.wording import (
    NBSP,
    celsius,
    grams,
    millilitres,
    number_of,
    part_within,
)
from cookbook_build.words import N_, _, ngettext, numeral, pgettext

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cookbook_build.planning.loading import Loading
    from cookbook_build.planning.packs import Pack
    from cookbook_build.planning.provisions import DayLoad, Lack, Provision
    from cookbook_build.planning.shopping import DryingLine
    from cookbook_build.preserving.drying import HoursFrom
    from cookbook_build.preserving.loads import Batch
    from cookbook_build.preserving.packing import Container, Packing
    from cookbook_build.preserving.runs import Run

RUNS: Final[Mapping[HoursFrom, str]] = MappingProxyType({
    "log": N_("{middle}, between {least} and {most}, by this household's log"),
    "stated": N_("{middle}, between {least} and {most}, by the dryer's own rate"),
    "usual": N_("{middle}, between {least} and {most}, as is usual"),
})  # fmt: skip
LEAST_RUNS: Final = {
    True: N_("{middle}, up to {most}; no run of this household's log was shorter"),
    False: N_("{middle}, up to {most}; no home dryer is usually done sooner"),
}
AT_LEAST: Final = N_("at least {middle}, as is usual; go by the weight")
WHOLE_LETTERS: Final = 32
"""What finds room on a line of a small label, and on a phone beside a figure; our choice."""
DATE: Final = re.compile(r"(\b\d{4}-\d\d-\d\d\b)")
UNSUITED: Final = {
    "fat": N_("{store}: fat does not dry"),
    "sugar": N_("{store}: sugar does not dry"),
    "chocolate": N_("{store}: chocolate does not dry"),
}
LACKS: Final[Mapping[Lack, tuple[str, str]]] = MappingProxyType({
    "dryer": (
        N_(
            "The kit in book.yaml names no dryer, so no loads are planned. Add to it, such as "
            "{example}."
        ),
        "dryer: {trays: 5, tray load: 900 g}",
    ),
    "containers": (
        N_(
            "The kit in book.yaml names neither pouches nor jars, so nothing says what a mix goes "
            "into. Add to it, such as {example}."
        ),
        "pouches: [{name: medium, width: 18 cm, height: 26 cm}]",
    ),
    "absorbers": (
        N_(
            "The kit in book.yaml names no absorbers, so dates are those of plain packing. Add to "
            "it, such as {example}, if you use them."
        ),
        "absorbers: [100 mL, 300 mL]",
    ),
})  # fmt: skip
"""What lists miss for want of a key, and how the key may be written."""
RAW_AIR_HEED: Final = N_(
    "Raw meat, fish, egg or milk that dries in the air stays for hours where germs grow: heat it "
    "to {inside} inside first, or as your local guidance says, and keep it apart."
)
RAW_HEED: Final = N_(
    "What was dried raw is still raw, for drying kills no germs: keep it apart, and cook it right "
    "through."
)
DEFER: Final = N_(
    "Follow your local food-safety guidance; where it and this list differ, it is right."
)
ENERGY_NOTE: Final = N_(
    "Energy is that of these meals alone; a day on the water takes far more than a day at home."
)


def stands_whole(words: str) -> bool:
    """Return whether a date or a lot is short enough to stand on one line with its words."""
    return len(words) <= WHOLE_LETTERS


def around_dates(words: str) -> list[str]:
    """Return words parted at their dates, each second part a date, which is never broken."""
    return DATE.split(words)


def lack_words(lack: Lack) -> str:
    """Return what the kit does not name, and how to add it."""
    words, example = LACKS[lack]
    return _(words).format(example=example)


def serving_words(servings: float) -> str:
    """Return a number of servings: `3 servings`, `3.5 servings`."""
    return number_of(servings, "serving")


def run_words(run: Run) -> str:
    """Return how long a load runs: `31 h, between 26 and 36, by this household's log`."""
    hours = run.hours
    if run.is_least and not run.from_log and hours.source == "usual":
        words = AT_LEAST
    else:
        words = LEAST_RUNS[run.from_log] if run.is_least else RUNS[hours.source]
    return _(words).format(
        middle=f"{hours.middle_h:.0f}{NBSP}h",
        least=f"{hours.least_h:.0f}",
        most=f"{hours.most_h:.0f}",
    )


def loads_words(loading: Loading) -> str:
    """Return how many loads there are, and how few there could be."""
    loads = number_of(len(loading.loads), "load")
    if len(loading.loads) == 1:  # none could be fewer
        return f"{loads}."
    return _("{loads}; no plan has fewer than {least}.").format(
        loads=loads, least=loading.lower_bound
    )


def tray_words(batch: Batch) -> str:
    """Return what lies on a tray, and whether it is raw: `turkey mince, raw`."""
    return _raw_or_not(batch.name, is_raw=batch.raw_animal)


def air_words(line: DryingLine) -> str:
    """Return what dries in the air, and whether it is raw: `beef strips, raw`."""
    return _raw_or_not(line.store.name, is_raw=line.store.store.keys.raw)


def _raw_or_not(store: str, *, is_raw: bool) -> str:
    return _("{store}, raw").format(store=store) if is_raw else store


def unsuited_words(line: DryingLine) -> str:
    """Return why a store takes no tray: `honey: sugar does not dry`."""
    words = UNSUITED.get(line.unsuited, N_("{store}: it does not dry"))
    return _(words).format(store=line.store.name)


def summary(provision: Provision) -> str:
    """Return a menu in one line."""
    return _("{people}, {days}, {meals}: {weight} of dry mix.").format(
        people=people_words(provision),
        days=number_of(len({plate.day for plate in provision.plates}), "day"),
        meals=number_of(len(provision.plates), "meal"),
        weight=grams(provision.dry_g),
    )


def people_words(provision: Provision) -> str:
    """Return how many people eat: `3 people`."""
    people = provision.people
    return ngettext("{n} person", "{n} people", people).format(n=people)


def servings_words(provision: Provision) -> str:
    """Return how servings came from people and appetites."""
    appetites = provision.menu.keys.appetites
    gaps = {
        "servings": serving_words(provision.eaters),
        "people": people_words(provision),
        "appetites": " + ".join(numeral(f"{appetite:g}") for appetite in appetites),
        "but": ", ".join(
            _("{servings} for {meal} on day {day}").format(
                servings=serving_words(own.servings), meal=own.meal, day=own.day
            )
            for own in provision.own_servings
        ),
    }
    match bool(appetites), bool(gaps["but"]):
        case True, False:
            words = _("{servings} a meal, the appetites of {people} ({appetites}).")
        case True, True:
            words = _(
                "{servings} a meal, the appetites of {people} ({appetites}); but as the menu "
                "says {but}."
            )
        case False, False:
            words = _("{servings} a meal, one for each of {people}.")
        case _:
            words = _("{servings} a meal, one for each of {people}; but as the menu says {but}.")
    return words.format(**gaps)


def mix_words(pack: Pack) -> str:
    """Return whose mix a pack holds; the component only where there are several."""
    dish = pack.plate.dish
    several = len(dish.parts) > 1
    return dish.recipe.keys.title + (f", {part_within(pack.part.name)}" if several else "")


def best_words(pack: Pack) -> str:
    """Return until when a pack is at its best, or how long after packing."""
    if pack.best_by:
        return _("best by {date}").format(date=pack.best_by)
    months = int(pack.quality.keeps.months)
    if months < 1:
        return _("best a few weeks from packing")
    return ngettext("best {n} month from packing", "best {n} months from packing", months).format(
        n=months
    )


def raw_words(pack: Pack) -> str:
    """Return what a pack with something dried raw must be cooked to."""
    if not pack.raw_stores:
        return ""
    return _("raw {stores}: cook it to {inside} inside").format(
        stores=", ".join(pack.raw_stores), inside=celsius(pack.cook_to_c)
    )


def container_words(pack: Pack) -> str:
    """Return what a mix is packed in, if the kit says with what."""
    return packing_words(pack.packing) if pack.packing else ""


def packing_words(packing: Packing) -> str:
    """Return a container and what goes into it: `medium pouch, 300 mL absorber`."""
    choice = packing.choice
    container = _container_name(choice.container)
    if choice.count > 1:
        container = f"{choice.count}{NBSP}×{NBSP}{container}"
    if not packing.absorbers:
        return container
    words = (
        _("{containers}, {absorbers} in each")
        if choice.count > 1
        else _("{containers}, {absorbers}")
    )
    return words.format(containers=container, absorbers=absorber_words(packing.absorbers.sizes_ml))


def _container_name(container: Container) -> str:
    """Return what a household calls a container, and its kind where the name doesn't tell."""
    if isinstance(container, Pouch):
        kinds, words = {"pouch", _("pouch")}, _("{name} pouch")
    else:
        kinds, words = {"jar", pgettext("of glass", "jar")}, _("{name} jar")
    named = container.name.casefold()
    if any(kind in named for kind in kinds):
        return container.name
    return words.format(name=container.name)


def absorber_words(sizes_ml: Sequence[float]) -> str:
    """Return absorbers by their sizes: `300 mL absorber`, `2 × 50 mL + 20 mL absorbers`."""
    sizes = " + ".join(
        (f"{count}{NBSP}×{NBSP}" if count > 1 else "") + millilitres(size)
        for size, count in Counter(sizes_ml).items()
    )
    return ngettext("{sizes} absorber", "{sizes} absorbers", len(sizes_ml)).format(sizes=sizes)


def on_average(provision: Provision) -> bool:
    """Return whether a figure for a person is that of the average one: where appetites differ."""
    return len(set(provision.menu.keys.appetites)) > 1


def air_heed(provision: Provision) -> str:
    """Return what to mind where something raw dries in the air."""
    raw = [line.store for line in provision.loading.air if line.store.store.keys.raw]
    hottest_c = max((cook_to_c(store) for store in raw), default=0.0)
    return _(RAW_AIR_HEED).format(inside=celsius(hottest_c)) if raw else ""


def left_words(provision: Provision) -> list[str]:
    """Return, of each store that is short, which lots are not counted on, and why."""
    return [
        _("{store}, lot {lot}: {why}").format(
            store=line.store.name, lot=left.lot.name, why=why_left(left)
        )
        for line in provision.needs
        if line.short_g > 0
        for left in line.left
    ]


def provision_data(provision: Provision) -> dict[str, Any]:
    """Return every number of a menu provided for."""
    return {
        "menu": provision.menu.address,
        "title": provision.menu.keys.title,
        "guidance": _(DEFER),
        "people": provision.people,
        "appetites": list(provision.menu.keys.appetites),
        "eaters": provision.eaters,
        "lacks": list(provision.lacks),
        "dry_g": round(provision.dry_g, 3),
        "needs": [
            {
                "store": line.store.name,
                "needed_g": round(line.needed_g, 3),
                "on_shelf_g": round(line.on_shelf_g, 3),
                "short_g": round(line.short_g, 3),
                "lots": [
                    {
                        "lot": taken.lot.name,
                        "grams": round(taken.grams, 3),
                        "best_by": taken.lot.best_by.isoformat(),
                        "note": taken_note(taken),
                    }
                    for taken in line.taken
                ],
                "left": [
                    {"lot": left.lot.name, "why": left.why, "words": why_left(left)}
                    for left in line.left
                ],
            }
            for line in provision.needs
        ],
        "drying": [_drying(line) for line in provision.drying],
        "pantry": [
            {"store": line.store.name, "grams": round(line.dried_g, 3)} for line in provision.pantry
        ],
        "shopping": [
            {
                "section": section,
                "food": line.food.name,
                "name": line.name,
                "bought_g": round(line.bought_g, 3) if line.bought_g > 0 else None,
                "edible_g": round(line.edible_g, 3) if line.edible_g > 0 else None,
                "pieces": line.pieces[0] if line.pieces else None,
                "pantry": line.is_pantry,
                "for": {name: round(part_g, 3) or None for name, part_g in line.what_for},
            }
            for section, lines in provision.shopping.items()
            for line in lines
        ],
        "fresh": [
            {
                "store": fresh.name,
                "pieces": round(fresh.pieces, 3) if fresh.pieces else None,
                "grams": round(fresh.grams, 3) if fresh.grams else None,
            }
            for fresh in provision.fresh
        ],
        "to_taste": list(provision.to_taste),
        "loads": _loads(provision),
        "packs": [_pack(pack) for pack in provision.packs],
        "fuel": provision.fuel,
        "days": [{"day": day.day, **_carried(day)} for day in provision.days],
        "together": _carried(provision.together),
    }


def _carried(day: DayLoad) -> dict[str, Any]:
    """Return what is carried; water and fuel rounded up, as every list has them."""
    return {
        "water_ml": round(1000 * day.water_l),
        "fuel_g": day.fuel_up_g,
        "carried_g": round(day.carried_g, 1),
        "carried_each_g": round(day.carried_each_g, 1),
        "energy_kcal": round(day.energy_kcal, 1),
        "energy_each_kcal": round(day.energy_each_kcal, 1),
    }


def _drying(line: DryingLine) -> dict[str, Any]:
    return {
        "store": line.store.name,
        "dried_g": round(line.dried_g, 3),
        "prepared_g": round(line.prepared_g, 3),
        "bought_g": round(line.bought_g, 3),
        "water_removed_g": round(line.removed_g, 3),
        "pots": None if line.pots is None else round(line.pots, 4),
    }


def _loads(provision: Provision) -> dict[str, Any]:
    loading = provision.loading
    return {
        "lower_bound": None if loading.lacks_dryer else loading.lower_bound,
        "loads": [
            {
                "water_g": round(timed.load.water_g, 3),
                **_hours(timed.run),
                "trays": [
                    {
                        "store": tray.batch.name,
                        "raw": tray.batch.raw_animal,
                        "prepared_g": round(tray.prepared_g, 3),
                        "done_g": round(tray.done_g, 3),
                    }
                    for tray in timed.load.trays
                ],
            }
            for timed in loading.loads
        ],
        "air": [_drying(line) for line in loading.air],
        "air_run": _hours(loading.air_run) if loading.air_run else None,
        "unsuited": [{"store": line.store.name, "why": line.unsuited} for line in loading.unsuited],
    }


def _hours(run: Run) -> dict[str, Any]:
    return {
        "hours": round(run.hours.middle_h, 2),
        "hours_low": round(run.hours.least_h, 2),
        "hours_high": round(run.hours.most_h, 2),
        "hours_from": run.hours.source,
        "shortest_run": run.is_least,
    }


def _pack(pack: Pack) -> dict[str, Any]:
    packing, plate = pack.packing, pack.plate
    absorbers = packing.absorbers if packing else None
    cautions = caution_views(plate.dish, plate.servings, plate.method, pack.altitude_m)
    return {
        "recipe": plate.dish.recipe.address,
        "component": pack.part.name,
        "day": plate.day,
        "meal": plate.meal,
        "servings": plate.servings,
        "method": plate.method,
        "dry_g": round(pack.dry_g, 3),
        "dry_ml": round(pack.dry_ml, 3),
        "container": packing.choice.container.name if packing else None,
        "containers": packing.choice.count if packing else None,
        "air_ml": round(packing.air_ml, 1) if packing else None,
        "absorbers_ml": [round(size, 1) for size in absorbers.sizes_ml] if absorbers else [],
        "best_months": round(pack.quality.keeps.months, 2),
        "best_by": pack.best_by.isoformat() if pack.best_by else None,
        "shortest": pack.quality.shortest,
        "best_is": "quality, not safety",
        "raw_stores": list(pack.raw_stores),
        "allergens_as_entered": list(pack.allergens),
        "warnings": [str(caution) for caution in cautions],
        "lot": pack.lot,
    }
