"""Numbers as a reader sees them: a unit never breaks from its number."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from cookbook_build.measures.amounts import number_text
from cookbook_build.measures.spoons import shown

if TYPE_CHECKING:
    from cookbook_build.manuscript.ingredients import Ingredient
    from cookbook_build.measures.amounts import Amount
    from cookbook_build.measures.units import Measures

NBSP: Final = "\N{NO-BREAK SPACE}"
FOOT_M: Final = 0.3048

METHOD_NAMES: Final = {
    "kettle": "Kettle",
    "microwave": "Microwave",
    "stove": "Stove",
    "jar": "Jar",
    "cold": "Cold soak",
}
METHOD_LINES: Final = {
    "kettle": "Boiling water into a bowl; cover it.",
    "microwave": "Water and mix in a bowl; heat to the boil, then cover and rest.",
    "stove": "Water and mix into a pot; bring to the boil, then simmer with the lid on.",
    "jar": "Preheat the jar with boiling water, empty it, then mix, pour and close.",
    "cold": "Cold drinking water. The time is that of a soak on the table; chilled it is longer.",
}
FUEL_WORDS: Final = {
    "gas canister": "canister gas",
    "alcohol": "alcohol",
    "white gas": "white gas",
}
REST_WORDS: Final = {
    "kettle": "Rest",
    "microwave": "Rest",
    "stove": "Simmer",
    "jar": "Rest",
    "cold": "Soak",
}
DRIED_NAMES: Final = {
    "freeze": "freeze-dried",
    "air": "air-dried",
    "bought": "bought dry",
    "fresh": "fresh",
}


def number_of(count: float, what: str) -> str:
    """Return a number of things: `1 serving`, `3 trials`."""
    plural = what if count == 1 or what.endswith("s") else f"{what}s"
    return f"{count:g} {plural}"


def tally_words(trials: int, tests: int, left_out: int = 0) -> str:
    """Return what stands behind a number: `3 trials and 1 test, 1 left out`."""
    kinds = ((trials, "trial"), (tests, "test"))
    counted = " and ".join(number_of(count, what) for count, what in kinds if count)
    return (counted or "no trial") + (f", {left_out} left out" if left_out else "")


def grams(value: float) -> str:
    """Return a weight: `4.2 g`, `45 g`, `1.25 kg`."""
    if value >= 999.5:
        return f"{round(value / 1000, 2):g}{NBSP}kg"
    return f"{_rounded(value)}{NBSP}g"


def millilitres(value: float) -> str:
    """Return a volume: `192 mL`, `12.4 L`."""
    if value >= 9999.5:
        return f"{value / 1000:.1f}{NBSP}L"
    return f"{round(value)}{NBSP}mL"


def give_or_take(sd_ml: float) -> str:
    """Return a band in words: `give or take 12 mL`."""
    return f"give or take {millilitres(sd_ml) if sd_ml >= 0.5 else f'less than 1{NBSP}mL'}"


def back_words(hold_back_ml: float) -> str:
    """Return how to add what was kept back: by the teaspoon, of a big pot by the splash."""
    return "a teaspoon at a time" if hold_back_ml < 60 else "a splash at a time"


def minutes(value_s: float) -> str:
    """Return a time as a cook reads a clock: `12 min`, `1 h 20 min`, `5 h`."""
    hours, rest = divmod(whole_minutes(value_s), 60)
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
    return f"after {until(hot_until_s)}" if hot_until_s >= 60 else "from the start"


def rate(value_g_per_s: float) -> str:
    """Return how fast steam leaves: `3 mL a minute`."""
    return f"{_rounded(60 * value_g_per_s)}{NBSP}mL a minute"


def watts(value: float) -> str:
    """Return a power: `900 W`."""
    return f"{value:.0f}{NBSP}W"


def grams_up(value: float) -> str:
    """Return a weight to carry, rounded up: `9 g`."""
    return grams(float(math.ceil(value))) if value else f"0{NBSP}g"


def altitude_words(value_m: float, altitudes: str) -> str:
    """Return an altitude in `metres` or `feet`, as the book writes them."""
    if altitudes == "feet":
        return f"{round(value_m / FOOT_M):,}{NBSP}ft".replace(",", NBSP)
    return metres(value_m)


def degrees(value: float) -> str:
    """Return a temperature in both scales, short: `66 °C/151 °F`."""
    return f"{value:.0f}{NBSP}°C/{value * 1.8 + 32:.0f}{NBSP}°F"


def metres(value: float) -> str:
    """Return an altitude: `310 m`."""
    return f"{round(value):,}{NBSP}m".replace(",", NBSP)


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
        return f"{math.ceil(value_bytes / 1e5) / 10:.1f}{NBSP}MB"
    return f"{kilobytes}{NBSP}kB"


def amount_text(line: Ingredient, factor: Fraction, measures: Measures) -> str:
    """Return how much of an ingredient a serving size takes, as a cook measures it."""
    amount = line.amount if line.per_pot else line.amount.times(factor)
    if amount.to_taste or not amount.terms:
        return "to taste"
    if amount.kind == "count":
        count = amount.count()
        size = f"{NBSP}{line.size}" if line.size else ""
        return f"{amount if factor == 1 else number_text(Fraction(math.ceil(count)))}{size}"
    if amount.kind == "weight":
        return grams(float(amount.weight_g(measures)))
    if factor == 1 or line.per_pot:
        return str(line.amount)
    if all(term.unit.name in {"pinch", "dash"} for term in amount.terms) and amount.count() <= 2:
        return str(amount)
    return str(shown(amount.volume_ml(measures), measures.system))


def written_amount(amount: Amount) -> str:
    """Return an amount as it was written; a weight with a decimal point: `1.8 kg`."""
    if amount.kind != "weight" or any(term.low != term.high for term in amount.terms):
        return str(amount)
    return " + ".join(f"{float(term.low):g}{NBSP}{term.unit.name}" for term in amount.terms)


def rounds_up(line: Ingredient, factor: Fraction) -> bool:
    """Return whether a count had to be rounded up for a serving size."""
    return line.amount.kind == "count" and (line.amount.count() * factor) % 1 != 0


def _rounded(value: float) -> str:
    if value >= 10:
        return f"{value:.0f}"
    return f"{value:.1f}".removesuffix(".0")
