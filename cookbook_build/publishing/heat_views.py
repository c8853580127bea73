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
    FUEL_WORDS,
    celsius,
    degrees,
    grams_up,
    hot_words,
    millilitres,
    minutes,
    percent,
    rate,
    short_time,
    until,
    watts,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.kitchen.holding import Holding
    from cookbook_build.kitchen.jars import JarCard
    from cookbook_build.kitchen.scaling import ComponentWater
    from cookbook_build.planning.camp import CampCell, JarDay
    from cookbook_build.planning.dishes import Dish
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


def _by_part(dish: Dish, rows: Callable[[int], Iterable[SizeRow]]) -> tuple[SizeGroup, ...]:
    """Return the rows of each component, named where there are several."""
    several = len(dish.parts) > 1
    return tuple(
        SizeGroup(part.name if several else "", tuple(rows(at)))
        for at, part in enumerate(dish.parts)
    )


def _bowl(dish: Dish, sizes: tuple[int, ...]) -> HeatView:
    cards = {size: bowl_card(dish, size) for size in sizes}
    groups = _by_part(dish, lambda at: _bowl_rows(cards, at))
    return HeatView(
        "kettle",
        "In the bowl",
        SizeTable("The bowl, from the pour", "", "", ("Plate on it", "No plate"), groups),
    )


def _bowl_rows(cards: Mapping[int, BowlCard], at: int) -> Iterable[SizeRow]:
    pairs = {size: (card.covered[at], card.bare[at]) for size, card in cards.items()}
    words: dict[str, Callable[[ComponentWater], str]] = {
        "Water in all": lambda water: millilitres(water.total_ml),
        "Rest": lambda water: minutes(water.rest_s),
        "Warm then": lambda water: degrees(water.derivation.ready_c),
        "Below 60 °C": lambda water: hot_words(water.hot_until_s),
        "Eat within": lambda water: until(water.eat_by_s),
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
            "this kitchen’s" if row.rated_w == own_w else "",
        )
        for at, row in enumerate(by_size[sizes[0]])
    )
    in_turn = " Parts are heated one after the other." if len(dish.parts) > 1 else ""
    return HeatView(
        "microwave",
        "In the microwave oven",
        SizeTable("Time to the boil", "Oven’s rating", "", (), (SizeGroup("", rows),)),
        (
            (
                "The rating is what a litre of water takes; a small bowl takes less of it. Stop "
                f"as soon as it boils, stir, cover, and let it rest.{in_turn}"
            ),
        ),
    )


def _pot(dish: Dish, sizes: tuple[int, ...]) -> HeatView:
    cells = {size: camp_cell(dish, size, "stove", None) for size in sizes}
    return HeatView(
        "stove",
        "In the pot",
        SizeTable(
            "The pot, from cold water", "", "", (), _by_part(dish, lambda at: _pot_rows(cells, at))
        ),
        (_boil_off_words(dish), _fuel_words(dish)),
    )


def _pot_rows(cells: Mapping[int, CampCell], at: int) -> Iterable[SizeRow]:
    words: dict[str, Callable[[CampCell], str]] = {
        "To the boil": lambda cell: short_time(cell.part_boil_s[at]),
        "Leaves as steam": lambda cell: millilitres(cell.waters[at].loss_ml),
        "Fuel": lambda cell: grams_up(cell.part_fuel_g[at]),
        "Eat within": lambda cell: until(cell.waters[at].eat_by_s),
    }
    for name, word in words.items():
        yield size_row(name, {size: (word(cell),) for size, cell in cells.items()})


def _boil_off_words(dish: Dish) -> str:
    rates = dish.place.boil_off
    return (
        f"At a low simmer {rate(rates.lid_g_per_s)} boil off with the lid on and "
        f"{rate(rates.open_g_per_s)} with it off; at full flame "
        f"{rate(rates.full_flame_g_per_s)}. A lid saves little by itself: it lets you turn the "
        "burner down."
    )


def _fuel_words(dish: Dish) -> str:
    kit = dish.place.kit
    return (
        f"The fuel is {FUEL_WORDS[kit.fuel]}, in a burner of {watts(kit.stove_w)} of which "
        f"{percent(kit.stove_efficiency)} reach the pot. Wind takes more: carry half as much again."
    )


def _jar(dish: Dish, sizes: tuple[int, ...]) -> HeatView:
    days = {size: jar_day(dish, size) for size in sizes}
    rests = {size: (minutes(dish.waters(size, "jar")[0].rest_s),) for size in sizes}
    rows = [
        size_row("Jars", {size: (_filled(day.card),) for size, day in days.items()}),
        size_row("Ready", rests),
        *_jar_rows({size: day.card for size, day in days.items()}, ""),
    ]
    bare = {size: day.bare for size, day in days.items() if day.bare}
    if bare:
        names = ", ".join(line.store.name for line in dish.parts[0].optional)
        rows += _jar_rows(bare, f"without {names}")
    return HeatView(
        "jar",
        "In the jar",
        SizeTable(
            "The jar over the day",
            "",
            "",
            ("Preheated", "Not preheated"),
            (SizeGroup("", tuple(rows)),),
        ),
        tuple(_jar_notes(dish)),
        _curves(days),
    )


def _jar_rows(cards: Mapping[int, JarCard], note: str) -> list[SizeRow]:
    words: dict[str, Callable[[Holding], str]] = {
        "Below 60 °C": lambda held: hot_words(held.hot_until_s),
        "Eat within": lambda held: until(held.eat_by_s),
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
    yield (
        f"For jars of {millilitres(kit.jar_holds_ml)} whose label says {degrees(kit.jar_label_c)} "
        f"after {kit.jar_label_h:g}\N{NO-BREAK SPACE}h, filled at home with what is poured first, "
        f"and standing at {degrees(place.air_c)}. Times count from the pour. Colder air, or water "
        "boiled higher up, shortens them."
    )
    yield (
        "A jar that is opened, or has a wide neck, cools faster than its label says. Fill yours "
        "with boiling water once, measure it at lunch, and write that as its label. Carry hot "
        "water apart for what you keep back, or do without."
    )
    if len(dish.parts) > 1:
        yield (
            f"The card is for the {dish.parts[0].name.lower()}. Carry the rest dry, and soak it in "
            "cold water when you eat."
        )


def _filled(card: JarCard) -> str:
    return f"{card.jars}, {percent(card.fill)} full"


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
        "In cold water",
        SizeTable(
            "The soak, from the pour",
            "",
            "",
            ("On the table", "Chilled"),
            _by_part(dish, lambda at: _soak_rows(soaks, at)),
        ),
        (
            (
                f"On the table: water of {degrees(place.water_c)} in a room of "
                f"{degrees(place.air_c)}. Chilled: at {celsius(FRIDGE_C)} or below all the time, "
                "in a refrigerator or among ice; only that stops the clock."
            ),
            (
                "What is still hard when its time on the table is up is chilled or heated, not "
                "left standing; where the air is above 32 °C that time is one hour. Cold water "
                "cooks nothing and melts no fat. Use drinking water."
            ),
        ),
    )


def _soak_rows(soaks: Mapping[int, tuple[SoakTimes, ...]], at: int) -> Iterable[SizeRow]:
    words: dict[str, Callable[[SoakTimes], tuple[str, str]]] = {
        "Soak": lambda s: (minutes(s.water.rest_s), minutes(s.chilled_s)),
        "May take": lambda s: (
            _span(s.water.rest_low_s, s.water.rest_high_s),
            _span(s.chilled_low_s, s.chilled_high_s),
        ),
        "Eat within": lambda s: (until(s.water.eat_by_s), "the day"),
    }
    for name, word in words.items():
        yield size_row(name, {size: word(found[at]) for size, found in soaks.items()})


def _span(low_s: float, high_s: float) -> str:
    return f"{minutes(low_s)} to {minutes(high_s)}"


CARDS: Final[Mapping[Method, Callable[[Dish, tuple[int, ...]], HeatView]]] = {
    "kettle": _bowl,
    "microwave": _oven,
    "stove": _pot,
    "jar": _jar,
    "cold": _soak,
}
