"""Provision pages: a menu walked back to shelf, dryer and shop, and packed, to tick off."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from cookbook_build.publishing.lot_words import taken_note
from cookbook_build.publishing.provisioning import (
    DEFER,
    ENERGY_NOTE,
    RAW_HEED,
    air_heed,
    air_words,
    around_dates,
    best_words,
    container_words,
    lack_words,
    left_words,
    loads_words,
    mix_words,
    on_average,
    raw_words,
    run_words,
    serving_words,
    servings_words,
    stands_whole,
    summary,
    tray_words,
    unsuited_words,
)
from cookbook_build.publishing.shop_lines import (
    amount_words,
    bought_lines,
    bought_words,
    called,
    made_into,
    pieces_words,
    section_name,
)
from cookbook_build.publishing.wording import (
    NBSP,
    dried_name,
    fuel_word,
    grams,
    method_within,
    number_of,
)
from cookbook_build.words import _, numeral

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.planning.packs import Pack
    from cookbook_build.planning.provisions import DayLoad, Provision
    from cookbook_build.planning.shopping import DryingLine, ShoppingLine
    from cookbook_build.publishing.desk import Desk


class Note(NamedTuple):
    """A few words beside a line of a list."""

    words: str
    is_whole: bool = False  # stands on one line

    @property
    def parts(self) -> list[str]:
        """The words, with each date by itself."""
        return [self.words] if self.is_whole else around_dates(self.words)


def _dated(words: str) -> Note:
    """Return a note that is a date or a lot, and stands on one line where it is short enough."""
    return Note(words, stands_whole(words))


def provision_page(desk: Desk, provision: Provision) -> dict[str, Any]:
    """Return what the page of a menu shows."""
    keys, eaters = provision.menu.keys, provision.eaters
    return {
        "title": keys.title,
        "about": keys.about,
        "summary": summary(provision),
        "servings": servings_words(provision),
        "labels": f"{provision.menu.address}-labels.html",
        "plates": [
            {
                "day": plate.day,
                "meal": plate.meal,
                "title": plate.dish.recipe.keys.title,
                "href": desk.page_of[plate.dish.recipe.address],
                "how": ", ".join(
                    [
                        method_within(plate.method),
                        *([] if plate.servings == eaters else [serving_words(plate.servings)]),
                    ]
                ),
            }
            for plate in provision.plates
        ],
        "shelf": list(_shelf(provision)),
        "left": left_words(provision),
        "drying": [_drying(desk, line) for line in provision.drying],
        "shopping": list(_shopping(provision)),
        "dry_goods": [*map(_bought, bought_lines(provision, pantry=True))],
        "to_taste": provision.shelf_to_taste,
        "loads": list(_loads(provision)),
        "loads_note": _loads_note(provision),
        "no_dryer": lack_words("dryer") if "dryer" in provision.lacks else "",
        "unsuited": [*map(unsuited_words, provision.loading.unsuited)],
        "air": [
            {
                "name": air_words(line),
                "key": line.store.name + ", raw" * line.store.store.keys.raw,
                "prepared": grams(line.prepared_g),
                "done": grams(line.dried_g),
            }
            for line in provision.loading.air
        ],
        "air_heed": air_heed(provision),
        "on_average": on_average(provision),
        "air_hours": run_words(provision.loading.air_run) if provision.loading.air_run else "",
        "packs": [_pack(pack) for pack in provision.packs],
        "raw_heed": _(RAW_HEED) if any(pack.raw_stores for pack in provision.packs) else "",
        "pack_lacks": [lack_words(lack) for lack in provision.lacks if lack != "dryer"],
        "days": [{"day": f"{day.day}", **_carried(day)} for day in provision.days],
        "total": _carried(provision.together),
        "each_day": _each_day(provision),
        "fuel": fuel_word(provision.fuel),
        "energy_note": _(ENERGY_NOTE),
        "defer": _(DEFER),
    }


def _shopping(provision: Provision) -> Iterator[dict[str, Any]]:
    """Give the sections of the shop with what is bought fresh there."""
    for name, section in provision.shopping.items():
        lines = [_bought(line) for line in section if not line.is_pantry]
        if lines:
            yield {"name": section_name(name), "lines": lines}


def _bought(line: ShoppingLine) -> dict[str, Any]:
    return {
        "name": called(line),
        "key": line.name,
        "notes": [Note(made)] if (made := made_into(line)) else [],
        "bought": grams(line.bought_g) if line.bought_g > 0 else amount_words(line),
        "pieces": pieces_words(line) if line.bought_g > 0 else "",
    }


def _shelf(provision: Provision) -> Iterator[dict[str, Any]]:
    for line in provision.needs:
        for taken in line.taken:
            lot = taken.lot
            yield {
                "name": line.store.name,
                "key": f"{line.store.name}, lot {lot.name}",
                "notes": [
                    note
                    for note in (
                        _dated(_("lot {lot}").format(lot=lot.name)),
                        Note(lot.container),
                        _dated(_("best by {date}").format(date=lot.best_by)),
                        Note(taken_note(taken)),
                    )
                    if note.words
                ],
                "amount": grams(taken.grams),
            }


def _drying(desk: Desk, line: DryingLine) -> dict[str, Any]:
    keys, store = line.store.store.keys, line.store
    words = [dried_name(keys.dried), keys.form, _("raw") if keys.raw else None]
    if line.pots is not None and store.base:
        title = desk.book.recipes[store.base].keys.title
        pots = numeral(f"{line.pots:.2g}")
        words.append(_("{number} of a pot of {base}").format(number=pots, base=title))
    if store.own_yield:
        words.append(
            _("yield of {lots} of ours").format(lots=number_of(store.own_yield.lots, "lot"))
        )
    if line.unsuited:
        words.append(_("takes no tray"))
    return {
        "name": store.name,
        "notes": [Note(word) for word in words if word],
        "dried": grams(line.dried_g),
        "prepared": grams(line.prepared_g),
        "bought": bought_words(line),
    }


def _loads(provision: Provision) -> Iterator[dict[str, Any]]:
    for number, timed in enumerate(provision.loading.loads, 1):
        yield {
            "number": number,
            "hours": run_words(timed.run),
            "water": grams(timed.load.water_g),
            "trays": [
                {
                    "number": at,
                    "name": tray_words(tray.batch),
                    "key": tray.batch.name + ", raw" * tray.batch.raw_animal,
                    "in": grams(tray.prepared_g),
                    "done": grams(tray.done_g),
                }
                for at, tray in enumerate(timed.load.trays, 1)
            ],
        }


def _loads_note(provision: Provision) -> str:
    if not provision.loading.loads:
        return ""
    apart = _(
        "Strong smells keep to themselves, and what is raw never shares with what is eaten as it "
        "is."
    )
    return f"{loads_words(provision.loading)} {apart}"


def _pack(pack: Pack) -> dict[str, Any]:
    plate, best = pack.plate, best_words(pack)
    meal = _("day\N{NO-BREAK SPACE}{day}, {meal}, {servings}").format(
        day=plate.day, meal=plate.meal, servings=serving_words(plate.servings)
    )
    notes = [Note(meal), Note(container_words(pack)), _dated(best) if pack.best_by else Note(best)]
    return {
        "title": mix_words(pack),
        "key": f"{mix_words(pack)}, day{NBSP}{plate.day}, {plate.meal}",
        "notes": [note for note in notes if note.words],
        "dry": grams(pack.dry_g),
        "raw": raw_words(pack),
    }


def _carried(day: DayLoad) -> dict[str, str]:
    return {
        "water": f"{numeral(f'{day.water_l:.1f}')}{NBSP}L",
        "fuel": grams(day.fuel_up_g),
        "weight": grams(day.carried_each_g),
        "energy": f"{day.energy_each_kcal:.0f}{NBSP}kcal",
    }


def _each_day(provision: Provision) -> dict[str, str]:
    weight_g, energy_kcal = provision.each_day
    return {"weight": grams(weight_g), "energy": f"{energy_kcal:.0f}{NBSP}kcal"}
