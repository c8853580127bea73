"""Numbers as a reader sees them: a unit never breaks from its number."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from cookbook_build.measures.amounts import number_text
from cookbook_build.measures.spoons import shown

if TYPE_CHECKING:
    from cookbook_build.manuscript.ingredients import Ingredient
    from cookbook_build.measures.units import Measures

NBSP: Final = "\N{NO-BREAK SPACE}"

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
    "stove": "Boil the water in a pot, stir in the mix, simmer with the lid on.",
    "jar": "Preheat the jar with boiling water, empty it, then mix, pour and close.",
    "cold": "Cold drinking water; keep it cold while it soaks.",
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


def grams(value: float) -> str:
    """Return a weight: `4.2 g`, `45 g`, `1.25 kg`."""
    if value >= 999.5:
        return f"{round(value / 1000, 2):g}{NBSP}kg"
    return f"{_rounded(value)}{NBSP}g"


def millilitres(value: float) -> str:
    """Return a volume: `192 mL`."""
    return f"{round(value)}{NBSP}mL"


def minutes(value_s: float) -> str:
    """Return a time as a cook reads a clock: `12 min`, `1 h 20 min`, `5 h`."""
    whole = max(1, math.floor(value_s / 60 + 0.5))
    if whole > 60:
        whole = 5 * round(whole / 5) if whole < 240 else 30 * round(whole / 30)
    hours, rest = divmod(whole, 60)
    parts = [f"{hours}{NBSP}h"] * bool(hours) + [f"{rest}{NBSP}min"] * bool(rest)
    return " ".join(parts)


def metres(value: float) -> str:
    """Return an altitude: `310 m`."""
    return f"{round(value):,}{NBSP}m".replace(",", NBSP)


def celsius(value: float) -> str:
    """Return a temperature in both scales: `74 °C (165 °F)`."""
    return f"{value:.0f}{NBSP}°C ({value * 1.8 + 32:.0f}{NBSP}°F)"


def percent(value: float) -> str:
    """Return a share: `64 %`."""
    return f"{value * 100:.0f}{NBSP}%"


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


def rounds_up(line: Ingredient, factor: Fraction) -> bool:
    """Return whether a count had to be rounded up for a serving size."""
    return line.amount.kind == "count" and (line.amount.count() * factor) % 1 != 0


def _rounded(value: float) -> str:
    if value >= 10:
        return f"{value:.0f}"
    return f"{value:.1f}".removesuffix(".0")
