"""Kitchen units, exact: what a cup, a spoon and an ounce hold in each choice of measures.

Sources
-------
- US customary: NIST Handbook 44, Appendix C, and NIST SP 430: the gallon is 231 cubic inches,
  the inch 25.4 mm, so the cup (1/16 gallon) is 236.588 236 5 mL; 16 tablespoons or 48 teaspoons
  make a cup. The avoirdupois ounce is 28.349 523 125 g.
- Household measures of nutrition labels: 21 CFR 101.9(b)(5)(viii): 5, 15, 240 and 30 mL; 28 g.
- Metric cup of 250 mL with 15 and 5 mL spoons: common practice, no source.
- Pinch 1/16 and dash 1/8 teaspoon: common practice, no source (other cooks mean other amounts).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

from cookbook_build.findings import nearest
from cookbook_build.words import npgettext

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

Kind = Literal["volume", "weight", "count"]
System = Literal["us-cups", "metric-cups", "label-cups"]

US_CUP_ML: Final = Fraction(231) * Fraction("2.54") ** 3 / 16
OUNCE_G: Final = Fraction("28.349523125")
POUND_G: Final = Fraction("453.59237")


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit that a person may write, its kind and its spellings in English and in Spanish."""

    name: str
    kind: Kind
    english: tuple[str, ...]
    spanish: tuple[str, ...] = ()

    @property
    def spellings(self) -> tuple[str, ...]:
        """Every spelling that is read, whatever language a book is written in."""
        return *self.english, *self.spanish


UNITS: Final = (
    Unit("cup", "volume", ("cup", "cups", "c"), ("taza", "tazas")),
    Unit(
        "tbsp",
        "volume",
        ("tbsp", "tbsps", "tbs", "tablespoon", "tablespoons", "tblsp"),
        ("cda", "cdas", "cucharada", "cucharadas"),
    ),
    Unit(
        "tsp",
        "volume",
        ("tsp", "tsps", "teaspoon", "teaspoons"),
        ("cdta", "cdtas", "cdita", "cditas", "cucharadita", "cucharaditas"),
    ),
    Unit(
        "fl oz",
        "volume",
        ("fl oz", "fluid ounce", "fluid ounces", "floz"),
        ("oz líq", "oz liq", "onza líquida", "onzas líquidas"),
    ),
    Unit("pint", "volume", ("pint", "pints", "pt"), ("pinta", "pintas")),
    Unit("quart", "volume", ("quart", "quarts", "qt"), ("cuarto de galón", "cuartos de galón")),
    Unit(
        "mL",
        "volume",
        ("ml", "cc", "milliliter", "milliliters", "millilitre", "millilitres"),
        ("mililitro", "mililitros"),
    ),
    Unit(
        "cL",
        "volume",
        ("cl", "centilitre", "centilitres", "centiliter", "centiliters"),
        ("centilitro", "centilitros"),
    ),
    Unit(
        "dL",
        "volume",
        ("dl", "decilitre", "decilitres", "deciliter", "deciliters"),
        ("decilitro", "decilitros"),
    ),
    Unit("L", "volume", ("l", "liter", "liters", "litre", "litres"), ("litro", "litros")),
    Unit("pinch", "volume", ("pinch", "pinches"), ("pizca", "pizcas")),
    Unit("dash", "volume", ("dash", "dashes"), ("toque", "toques", "chorrito", "chorritos")),
    Unit("g", "weight", ("g", "gram", "grams", "gramme", "grammes"), ("gramo", "gramos")),
    Unit(
        "kg",
        "weight",
        ("kg", "kilo", "kilos", "kilogram", "kilograms"),
        ("kilogramo", "kilogramos"),
    ),
    Unit("oz", "weight", ("oz", "ounce", "ounces"), ("onza", "onzas")),
    Unit("lb", "weight", ("lb", "lbs", "pound", "pounds"), ("libra", "libras")),
    Unit("piece", "count", ()),
)
_SHOWN: Final[Mapping[str, Callable[[int], str]]] = MappingProxyType(
    {
        "cup": lambda n: npgettext("unit", "cup", "cups", n),
        "tbsp": lambda n: npgettext("unit", "tbsp", "tbsp", n),
        "tsp": lambda n: npgettext("unit", "tsp", "tsp", n),
        "fl oz": lambda n: npgettext("unit", "fl oz", "fl oz", n),
        "pint": lambda n: npgettext("unit", "pint", "pints", n),
        "quart": lambda n: npgettext("unit", "quart", "quarts", n),
        "pinch": lambda n: npgettext("unit", "pinch", "pinches", n),
        "dash": lambda n: npgettext("unit", "dash", "dashes", n),
        "oz": lambda n: npgettext("unit", "oz", "oz", n),
        "lb": lambda n: npgettext("unit", "lb", "lb", n),
    }
)
"""The units whose names are another word elsewhere; g, kg, mL, cL, dL and L are the same."""

BY_NAME: Final = MappingProxyType({unit.name: unit for unit in UNITS})
PIECE: Final = BY_NAME["piece"]

_ONE_LETTER: Final = {"T": "tbsp", "t": "tsp"}
_BY_SPELLING: Final = {spelling: unit for unit in UNITS for spelling in unit.spellings}
_UNIT: Final = re.compile(
    r"(?:"
    + "|".join(sorted((re.escape(s) for s in _BY_SPELLING), key=len, reverse=True)).replace(
        r"\ ", r"\.?\s*"
    )
    + r"|[Tt])(?![^\W_])\.?",
    re.IGNORECASE,
)

_METRIC_ML: Final = {"mL": 1, "cL": 10, "dL": 100, "L": 1000}
_WEIGHT_G: Final = {"g": Fraction(1), "kg": Fraction(1000), "lb": POUND_G}


def _volumes(
    cup: Fraction | int, tbsp: Fraction | int, tsp: Fraction | int, fl_oz: Fraction | int
) -> dict[str, Fraction]:
    spoons = {"cup": cup, "tbsp": tbsp, "tsp": tsp, "fl oz": fl_oz, "pint": 2 * cup}
    pinches = {"quart": 4 * cup, "pinch": Fraction(tsp) / 16, "dash": Fraction(tsp) / 8}
    return {name: Fraction(ml) for name, ml in (spoons | pinches | _METRIC_ML).items()}


@dataclass(frozen=True, slots=True)
class Measures:
    """The measures that a book is written in: what each unit holds, exactly."""

    system: System
    ml: Mapping[str, Fraction]
    grams: Mapping[str, Fraction]
    largest_tbsp: Fraction = Fraction(3)
    largest_tsp: Fraction = Fraction(5, 2)


SYSTEMS: Final[Mapping[str, Measures]] = MappingProxyType(
    {
        "us-cups": Measures(
            "us-cups",
            _volumes(US_CUP_ML, US_CUP_ML / 16, US_CUP_ML / 48, US_CUP_ML / 8),
            _WEIGHT_G | {"oz": OUNCE_G},
        ),
        "metric-cups": Measures(
            "metric-cups",
            _volumes(250, 15, 5, US_CUP_ML / 8),
            _WEIGHT_G | {"oz": OUNCE_G},
            # a cup of 16⅔ tablespoons leaves gaps that 3 tablespoons or 2½ teaspoons can't fill
            largest_tbsp=Fraction(4),
            largest_tsp=Fraction(7, 2),
        ),
        "label-cups": Measures(
            "label-cups", _volumes(240, 15, 5, 30), _WEIGHT_G | {"oz": Fraction(28)}
        ),
    }
)


def unit_at(text: str, start: int) -> tuple[Unit, int] | None:
    """Return the unit whose spelling stands at `start` and where the text goes on after it."""
    match = _UNIT.match(text, start)
    if not match:
        return None
    written = match.group().rstrip(".")
    name = _ONE_LETTER.get(written)
    unit = BY_NAME[name] if name else _BY_SPELLING.get(_normal(written))
    return (unit, match.end()) if unit else None


def unit_name(name: str, *, several: bool) -> str:
    """Return a unit as it is shown behind a number, in the language being spoken."""
    return _SHOWN[name](2 if several else 1) if name in _SHOWN else name


_MEANT: Final[Mapping[str, str]] = MappingProxyType(
    {"gr": "g", "grs": "g", "gm": "g", "gms": "g", "kgs": "kg", "mls": "mL", "ltr": "L"}
)
"""Spellings that are met and not read, since a symbol has no plural and a grain is a "gr" too."""


def nearest_unit(word: str) -> str | None:
    """Return the unit whose spelling is most like a word: its own name, or the Spanish spelling."""
    if meant := _MEANT.get(word.casefold().rstrip(".")):
        return meant
    if len(word) < 3:  # two letters look like too much
        return None
    spelling = nearest(word, _BY_SPELLING, likeness=0.65)  # short words look alike soon
    if spelling is None:
        return None
    unit = _BY_SPELLING[spelling]
    return unit.name if spelling in unit.english else spelling


def _normal(written: str) -> str:
    return re.sub(r"\.?\s+|\.", " ", written.casefold()).strip()
