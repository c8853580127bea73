"""A menu provided for: the words of its lists, and all of it as plain data."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.planning.rawness import cook_to_c
from cookbook_build.preserving.packing import Pouch
from cookbook_build.publishing.wording import NBSP, celsius, grams, millilitres, number_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cookbook_build.planning.loading import Loading
    from cookbook_build.planning.lots import Lot
    from cookbook_build.planning.packs import Pack
    from cookbook_build.planning.provisions import DayLoad, Lack, Provision
    from cookbook_build.planning.shopping import DryingLine, ShoppingLine
    from cookbook_build.preserving.keeping import MixQuality
    from cookbook_build.preserving.loads import Batch
    from cookbook_build.preserving.packing import Packing
    from cookbook_build.preserving.runs import Run

HOURS_FROM: Final = {
    "log": "by this household's log",
    "stated": "by the dryer's own rate",
    "usual": "as is usual",
}
LEAST_FROM: Final = {
    True: "no run of this household's log was shorter",
    False: "no home dryer is usually done sooner",
}
UNSUITED: Final = {
    "fat": "fat does not dry",
    "sugar": "sugar does not dry",
    "chocolate": "chocolate does not dry",
}
LACKS: Final[dict[Lack, str]] = {
    "dryer": "The kit in book.yaml names no dryer, so no loads are planned. Add to it, such as "
    "dryer: {trays: 5, tray load: 900 g}.",
    "containers": "The kit in book.yaml names neither pouches nor jars, so nothing says what a mix "
    "goes into. Add to it, such as pouches: [{name: medium, width: 18 cm, height: 26 cm}].",
    "absorbers": "The kit in book.yaml names no absorbers, so dates are those of plain packing. "
    "Add to it, such as absorbers: [100 mL, 300 mL], if you use them.",
}
SIZES: Final = ("small", "medium", "large")
RAW_AIR_HEED: Final = (
    "Raw meat, fish, egg or milk that dries in the air stays for hours where germs grow: heat it "
    "to {inside} inside first, or as your local guidance says, and keep it apart."
)
RAW_HEED: Final = (
    "What was dried raw is still raw, for drying kills no germs: keep it apart, and cook it right "
    "through."
)
DEFER: Final = "Follow your local food-safety guidance; where it and this list differ, it is right."
ENERGY_NOTE: Final = (
    "Energy is that of these meals alone; a day on the water takes far more than a day at home."
)


def serving_words(servings: float) -> str:
    """Return a number of servings: `3 servings`, `3.5 servings`."""
    return number_of(servings, "serving")


def bought_words(line: DryingLine) -> str:
    """Return what a store is bought as: `1.2 kg`, or the weight of its dry good."""
    food = line.store.food
    return grams(line.bought_g) + (" dry" if food and food.dry_from else "")


def pieces_words(line: ShoppingLine) -> str:
    """Return how many whole pieces that is: `about 5 (medium)`; or just `5`, if that is all."""
    if line.pieces is None:
        return ""
    count, named = line.pieces
    about = f"about {count}" if line.bought_g > 0 and named else f"{count}"
    size = size_words(line)
    return f"{about} ({size})" if size else about


def size_words(line: ShoppingLine) -> str:
    """Return what whole pieces are, where the food's own name doesn't tell: `medium`."""
    name = line.pieces[1] if line.pieces else ""
    words = [word for word in name.split() if word != "whole"]
    if not words or name == "fruit" or words[0] in line.food.name:
        return ""
    if words[-1] in SIZES:
        words.insert(0, words.pop())
    if line.pieces and line.pieces[0] > 1 and words[-1] not in SIZES:
        words[-1] = number_of(2, words[-1]).partition(" ")[2]
    return " ".join(words)


def amount_words(line: ShoppingLine) -> str:
    """Return how much to buy: `101 g, about 1 (medium)`."""
    weight = grams(line.bought_g) if line.bought_g > 0 else ""
    return ", ".join(filter(None, [weight, pieces_words(line)])) or "to taste"


def bought_lines(provision: Provision, *, pantry: bool) -> list[ShoppingLine]:
    """Return what is bought, apart from or among what a pantry may hold."""
    return [
        line
        for listed in provision.shopping.values()
        for line in listed
        if line.is_pantry is pantry
    ]


def made_into(line: ShoppingLine) -> str:
    """Return which stores it is bought for, where its own name doesn't tell.

    `for turkey braise`; where only some of it is, `of which 66 g for turkey braise`.
    """
    told = [(name, part_g) for name, part_g in line.what_for if name.split()[0] not in line.name]
    if len(line.what_for) == 1 and told:
        return f"for {told[0][0]}"
    parts = [f"{grams(part_g)} for {name}" for name, part_g in told if part_g > 0]
    return f"of which {' and '.join(parts)}" if parts else ""


def run_words(run: Run) -> str:
    """Return how long a load runs: `31 h, between 26 and 36, by this household's log`."""
    hours = run.hours
    middle = f"{hours.middle_h:.0f}{NBSP}h"
    if run.is_least and not run.from_log and hours.source == "usual":
        return f"at least {middle}, as is usual; go by the weight"
    if run.is_least:
        return f"{middle}, up to {hours.most_h:.0f}; {LEAST_FROM[run.from_log]}"
    return (
        f"{middle}, between {hours.least_h:.0f} and {hours.most_h:.0f}, {HOURS_FROM[hours.source]}"
    )


def loads_words(loading: Loading) -> str:
    """Return how many loads there are, and how few there could be."""
    loads, bound = len(loading.loads), loading.lower_bound
    return f"{number_of(loads, 'load')}; no plan has fewer than {bound}."


def tray_words(batch: Batch) -> str:
    """Return what lies on a tray, and whether it is raw: `turkey mince, raw`."""
    return f"{batch.name}, raw" if batch.raw_animal else batch.name


def unsuited_words(line: DryingLine) -> str:
    """Return why a store takes no tray: `honey: sugar does not dry`."""
    return f"{line.store.name}: {UNSUITED.get(line.unsuited, 'it does not dry')}"


def summary(provision: Provision) -> str:
    """Return a menu in one line."""
    days = len({plate.day for plate in provision.plates})
    return (
        f"{people_words(provision)}, {number_of(days, 'day')}, "
        f"{number_of(len(provision.plates), 'meal')}: {grams(provision.dry_g)} of dry mix."
    )


def people_words(provision: Provision) -> str:
    """Return how many people eat: `3 people`."""
    return "1 person" if provision.people == 1 else f"{provision.people} people"


def servings_words(provision: Provision) -> str:
    """Return how servings came from people and appetites."""
    appetites, who = provision.menu.keys.appetites, people_words(provision)
    each = " + ".join(f"{appetite:g}" for appetite in appetites)
    from_whom = f"the appetites of {who} ({each})" if appetites else f"one for each of {who}"
    words = f"{serving_words(provision.eaters)} a meal, {from_whom}"
    own = [
        f"{number_of(meal.servings, 'serving')} for {meal.meal} on day {meal.day}"
        for meal in provision.own_servings
    ]
    return words + (f"; but as the menu says {', '.join(own)}." if own else ".")


def mix_words(pack: Pack) -> str:
    """Return whose mix a pack holds; the component only where there are several."""
    dish = pack.plate.dish
    several = len(dish.parts) > 1
    return dish.recipe.keys.title + (f", {pack.part.name.lower()}" if several else "")


def best_words(pack: Pack) -> str:
    """Return until when a pack is at its best, or how long after packing."""
    return f"best by {pack.best_by}" if pack.best_by else f"best {months_words(pack.quality)}"


def raw_words(pack: Pack) -> str:
    """Return what a pack with something dried raw must be cooked to."""
    raw = ", ".join(pack.raw_stores)
    return f"raw {raw}: cook it to {celsius(pack.cook_to_c)} inside" if raw else ""


def months_words(quality: MixQuality) -> str:
    """Return how long a mix stays at its best: `8 months from packing`."""
    months = int(quality.keeps.months)
    if months < 1:
        return "a few weeks from packing"
    return f"{number_of(months, 'month')} from packing"


def container_words(pack: Pack) -> str:
    """Return what a mix is packed in, if the kit says with what."""
    return packing_words(pack.packing) if pack.packing else ""


def packing_words(packing: Packing) -> str:
    """Return a container and what goes into it: `medium pouch, 300 mL absorber`."""
    choice = packing.choice
    kind = "pouch" if isinstance(choice.container, Pouch) else "jar"
    name = choice.container.name
    named = name if kind in name.casefold() else f"{name} {kind}"
    words = named if choice.count == 1 else f"{choice.count}{NBSP}×{NBSP}{named}"
    if packing.absorbers:
        words += f", {absorber_words(packing.absorbers.sizes_ml)}"
        words += " in each" if choice.count > 1 else ""
    return words


def absorber_words(sizes_ml: Sequence[float]) -> str:
    """Return absorbers by their sizes: `300 mL absorber`, `2 × 50 mL + 20 mL absorbers`."""
    sizes = " + ".join(
        (f"{count}{NBSP}×{NBSP}" if count > 1 else "") + millilitres(size)
        for size, count in Counter(sizes_ml).items()
    )
    return f"{sizes} absorber{'s' * (len(sizes_ml) > 1)}"


def each_words(provision: Provision) -> str:
    """Return whom a figure is for: each person, or the average one where appetites differ."""
    appetites = provision.menu.keys.appetites
    return "a person on average" if len(set(appetites)) > 1 else "each person"


def air_words(line: DryingLine) -> str:
    """Return what dries in the air, and whether it is raw: `beef strips, raw`."""
    return f"{line.store.name}, raw" if line.store.store.keys.raw else line.store.name


def air_heed(provision: Provision) -> str:
    """Return what to mind where something raw dries in the air."""
    raw = [line.store for line in provision.loading.air if line.store.store.keys.raw]
    hottest_c = max((cook_to_c(store) for store in raw), default=0.0)
    return RAW_AIR_HEED.format(inside=celsius(hottest_c)) if raw else ""


def left_words(provision: Provision) -> list[str]:
    """Return, of each store that is short, which lots are not counted on, and why."""
    return [
        f"{line.store.name}, lot {left.lot.name}: {left.words}"
        for line in provision.needs
        if line.short_g > 0
        for left in line.left
    ]


def lot_note(lot: Lot) -> str:
    """Return what to know of a lot before it is packed: what to check, and what was assumed."""
    return "; ".join(word for word in (lot.caution, lot.assumed) if word)


def provision_data(provision: Provision) -> dict[str, Any]:
    """Return every number of a menu provided for."""
    return {
        "menu": provision.menu.address,
        "title": provision.menu.keys.title,
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
                        "note": lot_note(taken.lot),
                    }
                    for taken in line.taken
                ],
                "left": [
                    {"lot": left.lot.name, "why": left.why, "words": left.words}
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
    packing = pack.packing
    return {
        "recipe": pack.plate.dish.recipe.address,
        "component": pack.part.name,
        "day": pack.plate.day,
        "meal": pack.plate.meal,
        "servings": pack.plate.servings,
        "method": pack.plate.method,
        "dry_g": round(pack.dry_g, 3),
        "dry_ml": round(pack.dry_ml, 3),
        "container": packing.choice.container.name if packing else None,
        "containers": packing.choice.count if packing else None,
        "air_ml": round(packing.air_ml, 1) if packing else None,
        "absorbers_ml": (
            [round(size, 1) for size in packing.absorbers.sizes_ml]
            if packing and packing.absorbers
            else []
        ),
        "best_months": round(pack.quality.keeps.months, 2),
        "best_by": pack.best_by.isoformat() if pack.best_by else None,
        "shortest": pack.quality.shortest,
        "raw_stores": list(pack.raw_stores),
        "lot": pack.lot,
    }
