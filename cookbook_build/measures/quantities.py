"""Physical quantities as people write them, in SI: `310 m`, `12 min`, `65 C`, `2 kW`.

Author text goes through this grammar first, because a units library reads `C` as coulomb and
`2 1/2` as 1.0; pint then turns each unit into SI.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import nearest, one_of
from cookbook_build.measures.numbers import NumberError, read_number

if TYPE_CHECKING:
    from collections.abc import Mapping

    import pint

_WORD = re.compile(r"\s*([^\W\d_°µ]+(?:\s?²|2(?!\d))?|°\s?[CF]|[′″'\"])\.?", re.UNICODE)
_CLOCK = re.compile(r"\s*(\d{1,3}):([0-5]\d)\s*$")

LIKELY_MINUTES: Final = 5
"""From so many on, what stands before a colon is most likely minutes; our choice."""

Reader = Callable[[str], float]

# spellings that a person may use -> the unit's name in pint
LENGTHS: Final = {
    "m": "meter", "metre": "meter", "metres": "meter", "meter": "meter", "meters": "meter",
    "km": "kilometer", "ft": "foot", "feet": "foot", "foot": "foot",
    "cm": "centimeter", "mm": "millimeter", "in": "inch", "inch": "inch", "inches": "inch",
}  # fmt: skip
BREADTHS: Final = {
    "mm": "millimeter", "cm": "centimeter", "in": "inch", "inch": "inch", "inches": "inch",
}  # fmt: skip
TIMES: Final = {
    "s": "second", "sec": "second", "second": "second", "seconds": "second",
    "min": "minute", "mins": "minute", "minute": "minute", "minutes": "minute",
    "h": "hour", "hr": "hour", "hrs": "hour", "hour": "hour", "hours": "hour",
}  # fmt: skip
_SPANISH: Final = {
    "metro": "meter", "metros": "meter", "pie": "foot", "pies": "foot",
    "segundo": "second", "segundos": "second", "seg": "second",
    "minuto": "minute", "minutos": "minute", "hora": "hour", "horas": "hour",
}  # fmt: skip
"""Read beside the English ones, never offered in their stead."""
POWERS: Final = {"w": "watt", "watt": "watt", "watts": "watt", "kw": "kilowatt"}
AREAS: Final = {"cm2": "centimeter**2", "m2": "meter**2", "in2": "inch**2"}
WEIGHTS: Final = {"g": "gram", "kg": "kilogram", "oz": "ounce", "lb": "pound", "lbs": "pound"}
VOLUMES: Final = {
    "ml": "milliliter", "l": "liter", "dl": "deciliter", "cl": "centiliter",
    "fl oz": "fluid_ounce", "cup": "cup", "cups": "cup", "qt": "quart", "pt": "pint",
}  # fmt: skip
_TEMPERATURES: Final = {"c": "C", "°c": "C", "f": "F", "°f": "F"}


def length_m(text: str) -> float:
    """Return a length or an altitude [m]."""
    return _quantity(text, LENGTHS, "meter", "310 m")


def breadth_m(text: str) -> float:
    """Return a small length, such as that of a label [m]."""
    return _quantity(text, BREADTHS, "meter", "63 mm")


def duration_s(text: str) -> float:
    """Return a time [s], such as `1 h 20 min`; `1:20` may be hours or minutes, so it is refused."""
    clock = _CLOCK.match(text)
    if clock:
        raise _two_clocks(text, int(clock[1]), int(clock[2]))
    return _quantity(text, TIMES, "second", "12 min", several=True)


def _two_clocks(text: str, large: int, small: int) -> NumberError:
    """Return the two times that `1:20` may mean, the likelier of a rest first."""
    hours, minutes = (
        " ".join(f"{n} {unit}" for n, unit in zip((large, small), units, strict=True) if n)
        for units in (("h", "min"), ("min", "s"))
    )
    first, second = (hours, minutes) if large < LIKELY_MINUTES else (minutes, hours)
    if not first:
        return NumberError(f'"{text.strip()}" is no time', "write it like 12 min.", 0, len(text))
    return NumberError(
        f'"{text.strip()}" can be hours and minutes, or minutes and seconds',
        f"write {first}, or {second}.",
        0,
        len(text),
    )


def power_w(text: str) -> float:
    """Return a power [W]."""
    return _quantity(text, POWERS, "watt", "900 W")


def area_m2(text: str) -> float:
    """Return an area [m²]."""
    return _quantity(text, AREAS, "meter**2", "1900 cm2")


def mass_g(text: str) -> float:
    """Return a mass [g]."""
    return _quantity(text, WEIGHTS, "gram", "900 g")


def volume_ml(text: str) -> float:
    """Return a volume [mL], its cup the US one."""
    return _quantity(text, VOLUMES, "milliliter", "500 mL")


def temperature_c(text: str) -> float:
    """Return a temperature [°C]."""
    value, unit, end = _one(text, 0, _TEMPERATURES, "65 C", signed=True)
    _at_end(text, end, "65 C")
    return value if unit == "C" else (value - 32) / 1.8


def _quantity(
    text: str, units: Mapping[str, str], target: str, example: str, *, several: bool = False
) -> float:
    value, unit, end = _one(text, 0, units, example)
    total = value * _factor(unit, target)
    while several and text[end:].strip():
        value, unit, end = _one(text, end, units, example)
        total += value * _factor(unit, target)
    _at_end(text, end, example)
    return total


def _one(
    text: str, start: int, units: Mapping[str, str], example: str, *, signed: bool = False
) -> tuple[float, str, int]:
    at = start + len(text[start:]) - len(text[start:].lstrip())
    sign = -1.0 if signed and text[at : at + 1] in {"-", "−"} else 1.0
    at += sign < 0
    number = read_number(text, at)
    if number is None:
        raise NumberError(
            f'"{text.strip()}" does not begin with a number',
            f"write it like {example}.",
            at,
            max(len(text) - at, 1),
        )
    word = _WORD.match(text, number.end)
    written = word[1] if word else ""
    spelling = re.sub(r"\s", "", written.casefold().replace("²", "2"))
    name = units.get(spelling)
    if name is None and _SPANISH.get(spelling) in units.values():
        name = _SPANISH[spelling]
    if name is None or word is None:
        raise _unknown_unit(text, written, number.end, units, example)
    return sign * float(number.low), name, word.end()


def _unknown_unit(
    text: str, written: str, start: int, units: Mapping[str, str], example: str
) -> NumberError:
    if not written:
        return NumberError(
            f'"{text.strip()}" has no unit', f"write it like {example}.", 0, len(text)
        )
    close = nearest(written, units) or one_of(list(units)[:3])
    return NumberError(
        f'"{written}" is not a unit that fits here',
        f"write {close}, such as {example}.",
        text.index(written, start),
        len(written),
    )


def _at_end(text: str, end: int, example: str) -> None:
    rest = text[end:].strip()
    if rest:
        raise NumberError(
            f'"{rest}" is left over', f"write it like {example}.", text.index(rest, end), len(rest)
        )


@functools.cache
def _factor(unit: str, target: str) -> float:
    return float(_registry().Quantity(1, unit).to(target).magnitude)


@functools.cache
def _registry() -> pint.UnitRegistry[float]:
    import pint  # noqa: PLC0415 - a quarter of a second that only quantities need

    return pint.UnitRegistry(cache_folder=":auto:")
