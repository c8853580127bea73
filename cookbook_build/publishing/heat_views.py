"""The cards of heat: bowl, oven, pot, jar and soak, each as a table by serving size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.cautions import FRIDGE_C
from cookbook_build.planning.camp import camp_cell, jar_day
from cookbook_build.planning.heat import bowl_card, oven_rows, soak_times
from cookbook_build.publishing.curves import CurveView, jar_curve
from cookbook_build.publishing.tables import SizeGroup, SizeRow, SizeTable, size_row
from cookbook_build.publishing.wording import (
    celsius,
    degrees,
    fuel_word,
    grams_up,
    hot_words,
    millilitres,
    minutes,
    part_title,
    part_within,
    percent,
    rate,
    short_time,
    until,
    watts,
)
from cookbook_build.words import _, numeral

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.kitchen.holding import Holding
    from cookbook_build.kitchen.jars import JarCard
    from cookbook_build.kitchen.scaling import ComponentWater
    from cookbook_build.planning.camp import CampCell, JarDay
    from cookbook_build.planning.dishes import Dish, Part
    from cookbook_build.planning.heat import BowlCard, SoakTimes


@dataclass(frozen=True, slots=True)
class CurveOf:
    """A jar's curve with the serving sizes for which it holds."""

    sizes: tuple[int, ...]
    curve: CurveView


@dataclass(frozen=True, slots=True)
class HeatView:
    """The card of one method."""

    method: Method
    title: str
    table: SizeTable
    notes: tuple[str, ...] = ()
    curves: tuple[CurveOf, ...] = ()


def heat_views(dish: Dish, sizes: tuple[int, ...]) -> tuple[HeatView, ...]:
    """Return the card of each method that a dish may be made ready by."""
    return tuple(CARDS[method](dish, sizes) for method in dish.methods)


def _by_part(
    dish: Dish,
    method: Method,
    rows: Callable[[int], Iterable[SizeRow]],
    waters: Mapping[int, tuple[ComponentWater, ...]],
) -> tuple[SizeGroup, ...]:
    """Return the rows of each component, named where there are several.

    Of one with cold water in a hot meal they say what holds for a soak.
    """
    several = len(dish.parts) > 1
    return tuple(
        _cold_group(part, at, waters)
        if _is_cold(dish, part, method)
        else SizeGroup(part_title(part.name) if several else "", tuple(rows(at)))
        for at, part in enumerate(dish.parts)
    )


def _is_cold(dish: Dish, part: Part, method: Method) -> bool:
    return dish.part_method(part, method) == "cold" != method


def _cold_group(part: Part, at: int, waters: Mapping[int, tuple[ComponentWater, ...]]) -> SizeGroup:
    words: dict[str, Callable[[ComponentWater], str]] = {
        _("Soak"): lambda water: minutes(water.rest_s),
        _("Eat within"): lambda water: until(water.eat_by_s),
    }
    rows = tuple(
        size_row(name, {size: (word(found[at]),) for size, found in waters.items()})
        for name, word in words.items()
    )
    name = _("{component}, in cold drinking water").format(component=part_title(part.name))
    return SizeGroup(name, rows)


def _bowl(dish: Dish, sizes: tuple[int, ...]) -> HeatView:
    cards = {size: bowl_card(dish, size) for size in sizes}
    waters = {size: card.covered for size, card in cards.items()}
    groups = _by_part(dish, "kettle", lambda at: _bowl_rows(cards, at), waters)
    return HeatView(
        "kettle",
        _("In the bowl"),
        SizeTable(_("The bowl, from the pour"), "", "", (_("Plate on it"), _("No plate")), groups),
    )


def _bowl_rows(cards: Mapping[int, BowlCard], at: int) -> Iterable[SizeRow]:
    pairs = {size: (card.covered[at], card.bare[at]) for size, card in cards.items()}
    words: dict[str, Callable[[ComponentWater], str]] = {
        _("Most likely water"): lambda water: millilitres(water.total_ml),
        _("Rest"): lambda water: minutes(water.rest_s),
        _("Warm then"): lambda water: degrees(water.derivation.ready_c),
        _("Below 60 °C"): lambda water: hot_words(water.hot_until_s),
        _("Eat within"): lambda water: until(water.eat_by_s),
    }
    for name, word in words.items():
        yield size_row(name, {size: tuple(map(word, pair)) for size, pair in pairs.items()})


def _oven(dish: Dish, sizes: tuple[int, ...]) -> HeatView:
    own_w = dish.place.kit.microwave_w
    by_size = {size: oven_rows(dish, size) for size in sizes}
    rows = tuple(
        size_row(
            watts(row.rated_w),
            {size: (short_time(found[at].heating_s),) for size, found in by_size.items()},
            _("this kitchen’s") if row.rated_w == own_w else "",
        )
        for at, row in enumerate(by_size[sizes[0]])
    )
    note = _(
        "The rating is what a litre of water takes; a small bowl takes less of it. Stop as soon "
        "as it boils, stir, cover, and let it rest."
    )
    cold = {part.name for part in dish.parts if _is_cold(dish, part, "microwave")}
    if len(dish.parts) - len(cold) > 1:
        note += " " + _("Parts are heated one after the other.")
    waters = {size: dish.waters(size, "microwave") for size in sizes}
    soaks = [
        _cold_group(part, at, waters) for at, part in enumerate(dish.parts) if part.name in cold
    ]
    return HeatView(
        "microwave",
        _("In the microwave oven"),
        SizeTable(_("Time to the boil"), _("Oven’s rating"), "", (), (SizeGroup("", rows), *soaks)),
        (note,),
    )


def _pot(dish: Dish, sizes: tuple[int, ...]) -> HeatView:
    cells = {size: camp_cell(dish, size, "stove", None) for size in sizes}
    return HeatView(
        "stove",
        _("In the pot"),
        SizeTable(
            _("The pot, from cold water"),
            "",
            "",
            (),
            _by_part(
                dish,
                "stove",
                lambda at: _pot_rows(cells, at),
                {size: cell.waters for size, cell in cells.items()},
            ),
        ),
        (_boil_off_words(dish), _fuel_words(dish)),
    )


def _pot_rows(cells: Mapping[int, CampCell], at: int) -> Iterable[SizeRow]:
    words: dict[str, Callable[[CampCell], str]] = {
        _("To the boil"): lambda cell: short_time(cell.part_boil_s[at]),
        _("Leaves as steam"): lambda cell: millilitres(cell.waters[at].loss_ml),
        _("Fuel"): lambda cell: grams_up(cell.part_fuel_g[at]),
        _("Eat within"): lambda cell: until(cell.waters[at].eat_by_s),
    }
    for name, word in words.items():
        yield size_row(name, {size: (word(cell),) for size, cell in cells.items()})


def _boil_off_words(dish: Dish) -> str:
    rates = dish.place.boil_off
    return _(
        "At a low simmer {with_lid} boil off with the lid on and {without_lid} with it off; at "
        "full flame {full_flame}. A lid saves little by itself: it lets you turn the burner down."
    ).format(
        with_lid=rate(rates.lid_g_per_s),
        without_lid=rate(rates.open_g_per_s),
        full_flame=rate(rates.full_flame_g_per_s),
    )


def _fuel_words(dish: Dish) -> str:
    kit = dish.place.kit
    return _(
        "The fuel is {fuel}, in a burner of {power} of which {share} reach the pot. Wind takes "
        "more: carry half as much again."
    ).format(
        fuel=fuel_word(kit.fuel), power=watts(kit.stove_w), share=percent(kit.stove_efficiency)
    )


def _jar(dish: Dish, sizes: tuple[int, ...]) -> HeatView:
    days = {size: jar_day(dish, size) for size in sizes}
    rests = {size: (minutes(dish.waters(size, "jar")[0].rest_s),) for size in sizes}
    rows = [
        size_row(_("Jars"), {size: (_filled(day.card),) for size, day in days.items()}),
        size_row(_("Ready"), rests),
        *_jar_rows({size: day.card for size, day in days.items()}, ""),
    ]
    bare = {size: day.bare for size, day in days.items() if day.bare}
    if bare:
        names = ", ".join(line.store.name for line in dish.parts[0].optional)
        rows += _jar_rows(bare, _("without {stores}").format(stores=names))
    return HeatView(
        "jar",
        _("In the jar"),
        SizeTable(
            _("The jar over the day"),
            "",
            "",
            (_("Preheated"), _("Not preheated")),
            (SizeGroup("", tuple(rows)),),
        ),
        tuple(_jar_notes(dish)),
        _curves(days),
    )


def _jar_rows(cards: Mapping[int, JarCard], note: str) -> list[SizeRow]:
    words: dict[str, Callable[[Holding], str]] = {
        _("Below 60 °C"): lambda held: hot_words(held.hot_until_s),
        _("Eat within"): lambda held: until(held.eat_by_s),
    }
    return [
        size_row(
            name,
            {size: (word(card.preheated), word(card.cold)) for size, card in cards.items()},
            note,
        )
        for name, word in words.items()
    ]


def _jar_notes(dish: Dish) -> Iterable[str]:
    kit, place = dish.place.kit, dish.place.conditions
    yield _(
        "For jars of {volume} whose label says {label} after {hours}\N{NO-BREAK SPACE}h, filled at "
        "home with what is poured first, and standing at {air}. Times count from the pour. Colder "
        "air, or water boiled higher up, shortens them."
    ).format(
        volume=millilitres(kit.jar_holds_ml),
        label=degrees(kit.jar_label_c),
        hours=numeral(f"{kit.jar_label_h:g}"),
        air=degrees(place.air_c),
    )
    yield _(
        "A jar that is opened, or has a wide neck, cools faster than its label says. Fill yours "
        "with boiling water once, measure it at lunch, and write that as its label. Carry hot "
        "water apart for what you keep back, or do without."
    )
    if len(dish.parts) > 1:
        yield _(
            "The card is for the {component}. Carry the rest dry, and soak it in cold water when "
            "you eat."
        ).format(component=part_within(dish.parts[0].name))


def _filled(card: JarCard) -> str:
    return _("{jars}, {share} full").format(jars=card.jars, share=percent(card.fill))


def _curves(days: Mapping[int, JarDay]) -> tuple[CurveOf, ...]:
    """Return each curve once, with the serving sizes that share it."""
    shared: dict[CurveView, list[int]] = {}
    for size, day in days.items():
        shared.setdefault(jar_curve(day), []).append(size)
    return tuple(CurveOf(tuple(sizes), curve) for curve, sizes in shared.items())


def _soak(dish: Dish, sizes: tuple[int, ...]) -> HeatView:
    soaks = {size: soak_times(dish, size) for size in sizes}
    place = dish.place.conditions
    return HeatView(
        "cold",
        _("In cold water"),
        SizeTable(
            _("The soak, from the pour"),
            "",
            "",
            (_("On the table"), _("Chilled")),
            _by_part(dish, "cold", lambda at: _soak_rows(soaks, at), {}),
        ),
        (
            _(
                "On the table: water of {water} in a room of {air}. Chilled: at {fridge} or below "
                "all the time, in a refrigerator or among ice; only that stops the clock."
            ).format(
                water=degrees(place.water_c),
                air=degrees(place.air_c),
                fridge=celsius(FRIDGE_C),
            ),
            _(
                "What is still hard when its time on the table is up is chilled or heated, not "
                "left standing; where the air is above 32 °C that time is one hour. Cold water "
                "cooks nothing and melts no fat. Use drinking water."
            ),
        ),
    )


def _soak_rows(soaks: Mapping[int, tuple[SoakTimes, ...]], at: int) -> Iterable[SizeRow]:
    words: dict[str, Callable[[SoakTimes], tuple[str, str]]] = {
        _("Soak"): lambda s: (minutes(s.water.rest_s), minutes(s.chilled_s)),
        _("May take"): lambda s: (
            _span(s.water.rest_low_s, s.water.rest_high_s),
            _span(s.chilled_low_s, s.chilled_high_s),
        ),
        _("Eat within"): lambda s: (until(s.water.eat_by_s), _("the day")),
    }
    for name, word in words.items():
        yield size_row(name, {size: word(found[at]) for size, found in soaks.items()})


def _span(low_s: float, high_s: float) -> str:
    return _("{low} to {high}").format(low=minutes(low_s), high=minutes(high_s))


CARDS: Final[Mapping[Method, Callable[[Dish, tuple[int, ...]], HeatView]]] = {
    "kettle": _bowl,
    "microwave": _oven,
    "stove": _pot,
    "jar": _jar,
    "cold": _soak,
}
