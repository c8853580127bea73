"""Numbers as a reader sees them: a unit never breaks from its number."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from cookbook_build.measures.amounts import number_text
from cookbook_build.measures.spoons import shown
from cookbook_build.measures.units import unit_name
from cookbook_build.planning.dishes import MAIN
from cookbook_build.words import N_, _, decimal_mark, listed, ngettext, numeral, pgettext

if TYPE_CHECKING:
    from collections.abc import Callable

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.manuscript.ingredients import Ingredient
    from cookbook_build.measures.amounts import Amount
    from cookbook_build.measures.units import Measures

NBSP: Final = "\N{NO-BREAK SPACE}"
FOOT_M: Final = 0.3048

METHOD_NAMES: Final = {
    "kettle": N_("Kettle"),
    "microwave": N_("Microwave"),
    "stove": N_("Stove"),
    "jar": N_("Jar"),
    "cold": N_("Cold soak"),
}
METHODS_WITHIN: Final = {
    "kettle": N_("kettle"),
    "microwave": N_("microwave"),
    "stove": N_("stove"),
    "jar": N_("jar"),
    "cold": N_("cold soak"),
}
METHOD_LINES: Final = {
    "kettle": N_("Boiling water into a bowl; cover it."),
    "microwave": N_("Water and mix in a bowl; heat to the boil, then cover and rest."),
    "stove": N_("Water and mix into a pot; bring to the boil, then simmer with the lid on."),
    "jar": N_("Preheat the jar with boiling water, empty it, then mix, pour and close."),
    "cold": N_(
        "Cold drinking water. The time is that of a soak on the table; chilled it is longer."
    ),
}
FUEL_WORDS: Final = {
    "gas canister": N_("canister gas"),
    "alcohol": N_("alcohol"),
    "white gas": N_("white gas"),
}
REST_WORDS: Final = {
    "kettle": N_("Rest"),
    "microwave": N_("Rest"),
    "stove": N_("Simmer"),
    "jar": N_("Rest"),
    "cold": N_("Soak"),
}
DRIED_NAMES: Final = {
    "freeze": N_("freeze-dried"),
    "air": N_("air-dried"),
    "bought": N_("bought dry"),
    "fresh": N_("fresh"),
}
CONSISTENCY_NAMES: Final = {
    "filling": N_("filling"),
    "spread": N_("spread"),
    "scoopable": N_("scoopable"),
    "stew": N_("stew"),
    "soup": N_("soup"),
    "drink": N_("drink"),
}
ALLERGEN_NAMES: Final = frozenset(
    {
        N_("celery"),
        N_("cereals containing gluten"),
        N_("crustacean shellfish"),
        N_("crustaceans"),
        N_("eggs"),
        N_("fish"),
        N_("lupin"),
        N_("milk"),
        N_("molluscs"),
        N_("mustard"),
        N_("nuts"),
        N_("peanuts"),
        N_("sesame"),
        N_("soybeans"),
        N_("sulphites"),
        N_("tree nuts"),
        N_("wheat"),
    }
)
"""The allergens of both laws, as the food table has them; any other is an author's own word."""

COUNTED: Final[dict[str, Callable[[float], str]]] = {
    "day": lambda n: ngettext("{n} day", "{n} days", n),
    "load": lambda n: ngettext("{n} load", "{n} loads", n),
    "lot": lambda n: ngettext("{n} lot", "{n} lots", n),
    "meal": lambda n: ngettext("{n} meal", "{n} meals", n),
    "month": lambda n: ngettext("{n} month", "{n} months", n),
    "serving": lambda n: ngettext("{n} serving", "{n} servings", n),
    "test": lambda n: ngettext("{n} test", "{n} tests", n),
    "tray": lambda n: ngettext("{n} tray", "{n} trays", n),
    "trial": lambda n: ngettext("{n} trial", "{n} trials", n),
    "weighing": lambda n: ngettext("{n} weighing", "{n} weighings", n),
}
"""What the book counts; anything else that is counted is an author's own word."""


def method_name(method: Method) -> str:
    """Return a way to make a dish ready as a heading has it: `Cold soak`."""
    return _(METHOD_NAMES[method])


def method_within(method: Method) -> str:
    """Return a way to make a dish ready as it stands within a line: `cold soak`."""
    return _(METHODS_WITHIN[method])


def method_line(method: Method) -> str:
    """Return what one does by a method, in a line."""
    return _(METHOD_LINES[method])


def rest_word(method: Method) -> str:
    """Return what a dish does once it has its water: `Rest`, `Simmer`, `Soak`."""
    return _(REST_WORDS[method])


def fuel_word(fuel: str) -> str:
    """Return a fuel as it stands within a line: `canister gas`."""
    return _(FUEL_WORDS[fuel])


def dried_name(dried: str) -> str:
    """Return how a store came dry, within a line: `freeze-dried`."""
    return _(DRIED_NAMES[dried])


def consistency_name(name: str) -> str:
    """Return how stiff a dish is meant to be, within a line: `stew`."""
    return _(CONSISTENCY_NAMES[name])


def allergen_name(name: str) -> str:
    """Return an allergen within a line: the law's, or an author's own word as it is written."""
    return _(name) if name in ALLERGEN_NAMES else name


def part_title(name: str) -> str:
    """Return a component's name: the author's own, or the book's word for the only one."""
    return _(name) if name == MAIN else name


def part_within(name: str) -> str:
    """Return a component's name as it stands within a line."""
    return part_title(name).lower()


def of_part(name: str, words: str, *, several: bool = True) -> str:
    """Return what is said of a component, its name before it where there are several."""
    if not several:
        return words
    return _("{part}: {words}").format(part=part_title(name), words=words)


def number_of(count: float, what: str) -> str:
    """Return a number of things: `1 serving`, `3 trials`, or of an author's own word."""
    if what in COUNTED:
        words = COUNTED[what](count)
    elif what.endswith("s"):
        words = "{n} {what}"
    else:
        words = ngettext("{n} {what}", "{n} {what}s", count)
    return words.format(n=numeral(f"{count:g}"), what=what)


def tally_words(trials: int, tests: int, left_out: int = 0) -> str:
    """Return what stands behind a number: `3 trials and 1 test, 1 left out`."""
    kinds = ((trials, "trial"), (tests, "test"))
    counted = listed([number_of(count, what) for count, what in kinds if count]) or _("no trial")
    if not left_out:
        return counted
    return ngettext("{counted}, {n} left out", "{counted}, {n} left out", left_out).format(
        counted=counted, n=left_out
    )


def grams(value: float) -> str:
    """Return a weight: `4.2 g`, `45 g`, `1.25 kg`."""
    if value >= 999.5:
        return f"{numeral(f'{round(value / 1000, 2):g}')}{NBSP}kg"
    return f"{_rounded(value)}{NBSP}g"


def millilitres(value: float) -> str:
    """Return a volume: `192 mL`, `12.4 L`."""
    if value >= 9999.5:
        return f"{numeral(f'{value / 1000:.1f}')}{NBSP}L"
    return f"{round(value)}{NBSP}mL"


def give_or_take(sd_ml: float) -> str:
    """Return a band in words: `give or take 12 mL`."""
    if sd_ml < 0.5:
        return _("give or take less than {volume}").format(volume=millilitres(1.0))
    return _("give or take {volume}").format(volume=millilitres(sd_ml))


def back_words(hold_back_ml: float) -> str:
    """Return how to add what was kept back: by the teaspoon, of a big pot by the splash."""
    return _("a teaspoon at a time") if hold_back_ml < 60 else _("a splash at a time")


def minutes(value_s: float) -> str:
    """Return a time as a cook reads a clock: `12 min`, `1 h 20 min`, `5 h`."""
    return clock(whole_minutes(value_s))


def clock(whole_min: int) -> str:
    """Return whole minutes in hours and minutes, no rounder than they are: `1 h 2 min`."""
    hours, rest = divmod(whole_min, 60)
    parts = [f"{hours}{NBSP}h"] * bool(hours) + [f"{rest}{NBSP}min"] * bool(rest)
    return " ".join(parts)


def whole_minutes(value_s: float) -> int:
    """Return a time in minutes, as finely as a cook reads a clock; at least one."""
    whole = max(1, math.floor(value_s / 60 + 0.5))
    if whole > 60:
        whole = 5 * round(whole / 5) if whole < 240 else 30 * round(whole / 30)
    return whole


def short_time(value_s: float) -> str:
    """Return a time on the burner: `1 min 50 s`, `12 min`."""
    tens = 10 * math.ceil(value_s / 10)
    if tens >= 600:
        return minutes(value_s)
    whole, rest = divmod(tens, 60)
    parts = [f"{whole}{NBSP}min"] * bool(whole) + [f"{rest}{NBSP}s"] * bool(rest)
    return " ".join(parts) or f"0{NBSP}s"


def until(value_s: float) -> str:
    """Return a time that must not be passed, rounded down: `35 min`, `4 h 20 min`."""
    whole = math.floor(value_s / 60)
    whole -= whole % 5 if whole > 60 else 0
    hours, rest = divmod(whole, 60)
    parts = [f"{hours}{NBSP}h"] * bool(hours) + [f"{rest}{NBSP}min"] * bool(rest)
    return " ".join(parts) or f"0{NBSP}min"


def hours_down(value_s: float) -> float:
    """Return a time in hours that must not be passed, rounded down to a hundredth."""
    return math.floor(value_s / 36) / 100


def hot_words(hot_until_s: float) -> str:
    """Return when a dish falls below the hot line: `after 35 min`, or `from the start`."""
    if hot_until_s < 60:
        return _("from the start")
    return _("after {time}").format(time=until(hot_until_s))


def rate(value_g_per_s: float) -> str:
    """Return how fast steam leaves: `3 mL a minute`."""
    volume = f"{_rounded(60 * value_g_per_s)}{NBSP}mL"
    return _("{volume} a minute").format(volume=volume)


def watts(value: float) -> str:
    """Return a power: `900 W`."""
    return f"{value:.0f}{NBSP}W"


def grams_up(value: float) -> str:
    """Return a weight to carry, rounded up: `9 g`."""
    return grams(float(math.ceil(value))) if value else f"0{NBSP}g"


def altitude_words(value_m: float, altitudes: str) -> str:
    """Return an altitude in `metres` or `feet`, as the book writes them."""
    if altitudes == "feet":
        return _("{feet}\N{NO-BREAK SPACE}ft").format(feet=_grouped(value_m / FOOT_M))
    return metres(value_m)


def degrees(value: float) -> str:
    """Return a temperature in both scales, short: `66 °C/151 °F`."""
    return f"{value:.0f}{NBSP}°C/{value * 1.8 + 32:.0f}{NBSP}°F"


def metres(value: float) -> str:
    """Return an altitude: `310 m`."""
    return f"{_grouped(value)}{NBSP}m"


def _grouped(value: float) -> str:
    """Return a whole number, its thousands set apart; four digits not, where a comma is decimal.

    So the Spanish academy has it (Ortografía de la lengua española, 2010; from memory).
    """
    whole = round(value)
    apart = abs(whole) >= 10_000 or decimal_mark() == "."
    return f"{whole:,}".replace(",", NBSP) if apart else str(whole)


def celsius(value: float) -> str:
    """Return a temperature in both scales: `74 °C (165 °F)`."""
    return f"{value:.0f}{NBSP}°C ({value * 1.8 + 32:.0f}{NBSP}°F)"


def percent(value: float) -> str:
    """Return a share: `64 %`."""
    return f"{value * 100:.0f}{NBSP}%"


def file_size(value_bytes: int) -> str:
    """Return how large a file is, rounded up: `412 kB`, `1.3 MB`."""
    kilobytes = -(-value_bytes // 1000)
    if kilobytes >= 1000:
        return f"{numeral(f'{math.ceil(value_bytes / 1e5) / 10:.1f}')}{NBSP}MB"
    return f"{kilobytes}{NBSP}kB"


def amount_text(line: Ingredient, factor: Fraction, measures: Measures) -> str:
    """Return how much of an ingredient a serving size takes, as a cook measures it."""
    amount = line.amount if line.per_pot else line.amount.times(factor)
    if amount.to_taste or not amount.terms:
        return _("to taste")
    if amount.kind == "count":
        count = amount.count()
        size = f"{NBSP}{size_name(line.size)}" if line.size else ""
        return f"{amount if factor == 1 else number_text(Fraction(math.ceil(count)))}{size}"
    if amount.kind == "weight":
        return grams(float(amount.weight_g(measures)))
    if factor == 1 or line.per_pot:
        return str(line.amount)
    if all(term.unit.name in {"pinch", "dash"} for term in amount.terms) and amount.count() <= 2:
        return str(amount)
    return str(shown(amount.volume_ml(measures), measures.system))


def size_name(size: str) -> str:
    """Return a size of whole pieces, in the language being spoken: `medium`."""
    names = {
        "small": pgettext("size of a piece", "small"),
        "medium": pgettext("size of a piece", "medium"),
        "large": pgettext("size of a piece", "large"),
    }
    return names.get(size, "")


def written_amount(amount: Amount) -> str:
    """Return an amount as it was written; a weight with a decimal point: `1.8 kg`."""
    if amount.kind != "weight" or any(term.low != term.high for term in amount.terms):
        return str(amount)
    return " + ".join(
        f"{numeral(f'{float(term.low):g}')}{NBSP}{unit_name(term.unit.name, several=term.low > 1)}"
        for term in amount.terms
    )


def rounds_up(line: Ingredient, factor: Fraction) -> bool:
    """Return whether a count had to be rounded up for a serving size."""
    return line.amount.kind == "count" and (line.amount.count() * factor) % 1 != 0


def _rounded(value: float) -> str:
    if value >= 10:
        return f"{value:.0f}"
    return numeral(f"{value:.1f}".removesuffix(".0"))
