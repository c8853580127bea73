"""What a value in the author's files may be: types that turn text into amounts, times, dates.

Each type reads text and raises a cause with its mend, so that a wrong value becomes a finding.
"""

from __future__ import annotations

import datetime as dt
import functools
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any, Final, NoReturn, TypeVar

from pydantic import BeforeValidator, Field, PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from cookbook_build.manuscript.cells import YEARS
from cookbook_build.manuscript.meanings import day_meant
from cookbook_build.manuscript.naming import LONGEST_NAME
from cookbook_build.manuscript.web_addresses import folder_address, web_address
from cookbook_build.measures import quantities
from cookbook_build.measures.amounts import Amount, whole_amount
from cookbook_build.measures.card_papers import CardPaper, read_card
from cookbook_build.measures.numbers import NumberError, read_number

if TYPE_CHECKING:
    from collections.abc import Callable
    from fractions import Fraction

Value = TypeVar("Value")
SMALLEST_FILE, LARGEST_FILE = 1e5, 1e10  # [byte]: an empty book's, and beyond any device's
_PER: Final = re.compile(r"\bper\b|\ba\b(?=\s*(?:cup|piece|tbsp|tsp))|/", re.IGNORECASE)
_RANGE: Final = re.compile(
    r"\s*\d+(?:[.,]\d+)?\s*[^\W\d_]*\.?\s*(?:-|–|—|\bto\b|\bor\b|\ba\b|\bo\b)"
    r"\s*(\d+(?:[.,]\d+)?)\s*([^\W\d_]+)?\.?\s*",
    re.IGNORECASE,
)
_BARE_OR_GRAMS: Final = re.compile(r"\s*(\d+(?:[.,]\d+)?)\s*(gr?|grams?)?\s*", re.IGNORECASE)
SMALLEST_ML: Final = 20  # a bare number from here on is most likely one of mL; our choice
LONGEST_TEXT: Final = 5000  # letters, two pages of a book; our choice
LONGEST_VALUE: Final = 200  # letters of an amount, a time or an address; our choice
_AFTER: Final = re.compile(r"\bafter\b", re.IGNORECASE)
_WEEKDAY: Final = re.compile(
    r"(mon|tues?|wed|wednes|thu|thurs?|fri|sat|satur|sun)(day)?s?\b|"
    r"(lunes|martes|mi[ée]rcoles|jueves|viernes|s[áa]bado|domingo)\b",
    re.IGNORECASE,
)
_DATE: Final = re.compile(
    r"\d+[-./]\d+|\d\s*(?:st|nd|rd|th)?\s+[a-z]{3}|[a-z]{3,}\s+\d", re.IGNORECASE
)
_NUMBERED: Final = re.compile(r"(?:day|d[íi]a)\s*(\d{1,3})|(?!)", re.IGNORECASE)
LANGUAGE: Final = re.compile(r"[a-z]{2,3}(-[A-Za-z0-9]{2,8})*")


@dataclass(frozen=True, slots=True)
class Written:
    """A quantity as the author wrote it, and its value in SI."""

    text: str
    si: float


@dataclass(frozen=True, slots=True)
class Weight:
    """What a measure of a store weighs: `58 g per cup`, `30 g per piece`."""

    grams: Amount
    measure: Amount


@dataclass(frozen=True, slots=True)
class JarLabel:
    """What an insulated jar's label promises: `65 C after 6 h`."""

    temp_c: float
    after_s: float


def refuse(cause: str, mend: str, start: int = 0, width: int = 0) -> NoReturn:
    """Raise what pydantic turns into an error that carries a cause and a mend."""
    raise PydanticCustomError(
        "finding", "{cause}", {"cause": cause, "mend": mend, "start": start, "width": width}
    )


def _text_by(reader: Callable[[str], Any], example: str) -> Any:  # noqa: ANN401 - any type's validator
    written = f"write a value such as {example}" if example else "write a line of text"

    def read(value: object) -> Any:  # noqa: ANN401 - any type's value
        if isinstance(value, dict):
            refuse(
                "a single value belongs here, and a colon or a brace makes this a group of keys",
                f"{written}; put quotes round text that holds a colon and a space.",
            )
        if not isinstance(value, str):
            refuse(
                "a single value belongs here, and a bracket or a dash makes this a list",
                f"{written}; put quotes round text that begins with [.",
            )
        if example and len(value) > LONGEST_VALUE:
            refuse(f"{len(value):,} letters stand here, which are no single value", f"{written}.")
        try:
            return reader(value)
        except NumberError as problem:
            refuse(problem.cause, problem.mend, problem.start, problem.width)

    return PlainValidator(read)


def _schema(*examples: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "examples": list(examples)})


def _written(reader: Callable[[str], float], low: float, high: float, example: str) -> Any:  # noqa: ANN401 - any type's validator
    unit = example.split(" ", 1)[1]

    def read(text: str) -> Written:
        if " " not in unit and re.fullmatch(r"\s*\d+(?:[.,]\d+)?\s*", text):
            refuse(
                f'"{text.strip()}" has no unit',
                f"write it with its unit, such as {text.strip()} {unit}.",
                0,
                len(text),
            )
        _refuse_range(text, reader, unit)
        value = reader(text)
        if not low <= value <= high:
            refuse(
                f'"{text.strip()}" is {"less" if value < low else "more"} than can be meant here',
                f"write a value such as {example}.",
                0,
                len(text),
            )
        return Written(text.strip(), value)

    return _text_by(read, example)


def _refuse_range(text: str, reader: Callable[[str], float], unit: str) -> None:
    """Refuse a range such as `10-12 min`; the upper end of it does for one value."""
    found = _RANGE.fullmatch(text)
    one = f"{found[1]} {found[2] or unit}" if found else ""
    try:
        is_read = bool(one) and reader(one) > 0
    except NumberError:
        return
    if is_read:
        refuse(
            f'"{text.strip()}" is a range, and one value belongs here',
            f"write one, such as {one}.",
            0,
            len(text),
        )


def _date(text: str) -> dt.date:
    mend = "write year, month and day like 2026-03-02."
    try:
        found = dt.date.fromisoformat(text.strip())
    except ValueError:
        if ways := _two_ways(text.strip()):
            refuse(
                f'"{text.strip()}" can be read two ways',
                f"write {ways[0]} or {ways[1]}: year, month and day.",
            )
        if meant := day_meant(text):
            mend = f"write {meant}: year, month and day."
        refuse(f'"{text.strip()}" is not a day in the calendar', mend)
    if found.year not in YEARS:
        refuse(f'"{text.strip()}" lies in no year that can be meant', mend)
    return found


def _two_ways(text: str) -> list[str]:
    """Return the two days that a text such as 05.08.2026 may mean, or none."""
    match = re.fullmatch(r"(\d{1,2})([./-])(\d{1,2})\2(\d{4})", text)
    if not match or match[1].lstrip("0") == match[3].lstrip("0"):
        return []
    first, second, year = int(match[1]), int(match[3]), int(match[4])
    try:
        ways = [dt.date(year, second, first), dt.date(year, first, second)]
    except ValueError:
        return []
    return [day.isoformat() for day in ways]


def _poured(text: str) -> Amount:
    """Return an amount of water that was measured, which is one and no range."""
    if (found := _BARE_OR_GRAMS.fullmatch(text)) and _number(found[1]) > 0:
        number, unit = found.groups()
        large = float(_number(number)) >= SMALLEST_ML
        refuse(
            f'"{text.strip()}" is not a volume' if unit else f'"{text.strip()}" has no unit',
            f"write {number} mL{', for a gram of water is a millilitre' * bool(unit)}."
            if unit or large
            else f"write it with its unit, such as {number} cup{'s' * (_number(number) > 1)}.",
            0,
            len(text),
        )
    amount = whole_amount(text, "volume")
    if any(term.low != term.high for term in amount.terms):
        refuse(
            f'"{text.strip()}" is a range, and what was poured is one amount',
            "write the one that was measured, such as 1 1/2 cups.",
        )
    return amount


def _language(text: str) -> str:
    first, *rest = text.strip().split("-")
    tag = "-".join((first.lower(), *rest))  # tags are the same in whatever case (BCP 47)
    if not LANGUAGE.fullmatch(tag):
        refuse(f'"{text.strip()}" is not a language tag', "write a tag such as en, es or en-GB.")
    return tag


def _book_address(text: str) -> str:
    """Return where a book stands on the web: the address of its folder."""
    address = web_address(text)
    if address is None:
        refuse(
            f'"{text.strip()}" is not a whole address on the web',
            "write it like https://example.org/larder, or delete the key.",
        )
    folder = folder_address(address)
    if folder is None:
        refuse(
            f'"{text.strip()}" is not the address of the folder that holds the book',
            "write it without the page's name, like https://example.org/larder.",
        )
    return folder


def _weight(text: str) -> Weight:
    sides = _PER.split(text, maxsplit=1)
    if len(sides) != 2:
        refuse(f'"{text.strip()}" does not say for which measure', "write it like 58 g per cup.")
    grams = whole_amount(sides[0], "weight")
    measure = sides[1].strip()
    if measure.casefold() in {"piece", "pieces", "each"}:
        return Weight(grams, whole_amount("1", "count"))
    one = measure if measure[:1].isdigit() else f"1 {measure}"
    at = text.rindex(measure) - (len(one) - len(measure))
    return Weight(grams, _further_on(at, lambda: whole_amount(one, "volume")))


def _cup_weight(text: str) -> Weight:
    weight = _weight(text)
    if weight.measure.kind != "volume":
        refuse(f'"{text.strip()}" is not of a measure of volume', "write it like 58 g per cup.")
    return weight


def _is_time(text: str) -> bool:
    try:
        quantities.duration_s(text)
    except NumberError:
        return False
    return True


def _jar_label(text: str) -> JarLabel:
    sides = _AFTER.split(text, maxsplit=1)
    if len(sides) != 2:
        lacks = "how warm it still is" if _is_time(text) else "after how long"
        refuse(f'"{text.strip()}" does not say {lacks}', "write it like 65 C after 6 h.")
    temp = quantities.temperature_c(sides[0])
    after = _further_on(len(text) - len(sides[1]), lambda: quantities.duration_s(sides[1]))
    if not 25 <= temp < 95 or not 600 <= after <= 172_800:
        refuse(
            f'"{text.strip()}" is no jar\'s label, which is below the 95 C that it is filled with',
            "write it like 65 C after 6 h.",
        )
    return JarLabel(temp, after)


def _further_on(start: int, read: Callable[[], Value]) -> Value:
    """Return what is read from the second part of a text; its errors stand further on."""
    try:
        return read()
    except NumberError as problem:
        at = max(problem.start + start, 0)
        raise NumberError(problem.cause, problem.mend, at, problem.width) from None


def _share(text: str) -> float:
    """Return a share; 40 % and 0.4 are the same."""
    bare = text.strip()
    value = _number(bare.removesuffix("%")) / (100 if bare.endswith("%") else 1)
    if not 0 <= value <= 1:
        refuse(f'"{bare}" is more than all of it', "write a share such as 0.5 or 50 %.")
    return float(value)


def _some_share(text: str) -> float:
    """Return a share that is not nothing."""
    share = _share(text)
    if share <= 0:
        refuse(f'"{text.strip()}" is nothing at all', "write a share such as 0.5 or 50 %.")
    return share


def _moisture(text: str) -> float:
    """Return the part of a food that is water, which is never all of it."""
    share = _share(text)
    if share >= 1:
        refuse(
            f'"{text.strip()}" says that all of it is water, and nothing is left of the food',
            "write a share below 100 %, such as 70 %.",
        )
    return share


def _day_number(value: object) -> object:
    """Return what is written for a day of a menu; a weekday or a date is no number of one."""
    # a menu of more than a week has two Mondays, and one without a date has no 20 June
    text = value[:LONGEST_VALUE].strip() if isinstance(value, str) else ""
    if _WEEKDAY.match(text) or _DATE.search(text):
        refuse(
            f'"{text}" is not the number of a day',
            "write 1 for the first day of the menu, 2 for the next; "
            'a line "date: 2026-06-20" at the top says which day the first one is.',
        )
    if found := _NUMBERED.fullmatch(text):
        refuse(f'"{text}" is not the number of a day', f"write {found[1]}.")
    return value


def _number(text: str) -> Fraction:
    found = read_number(text.strip())
    if found is None or found.end != len(text.strip()):
        refuse(f'"{text.strip()}" is not a number', "write a number such as 12 or 0.5.")
    return found.low


def _rate(text: str) -> Written:
    """Return the water that a dryer takes in an hour [g/h]."""
    mass, *per = _PER.split(text, maxsplit=1)
    if not per or per[0].strip().casefold() not in {"h", "hour"}:
        refuse(f'"{text.strip()}" is not water in an hour', "write it like 110 g per h.")
    return Written(text.strip(), quantities.mass_g(mass))


def _appetite(text: str) -> float:
    value = _number(text)
    if not 0 < value <= 10:
        refuse(f'"{text.strip()}" is no appetite', "write servings such as 1 or 1.5.")
    return float(value)


def _plain(text: str, most: int) -> str:
    if not text.strip():
        refuse("nothing stands here", "write some text, or delete the key.")
    if len(text) > most:
        refuse(
            f"{len(text):,} letters stand here, and {most:,} is the most that fits",
            "write it shorter; what is long belongs below the front matter or on a page.",
        )
    return text.strip()


def _longest(letters: int) -> tuple[Any, WithJsonSchema]:
    read = functools.partial(_plain, most=letters)
    return _text_by(read, ""), WithJsonSchema({"type": "string"})


def _energy(text: str) -> Written:
    match = re.fullmatch(r"\s*([\d.,]+)\s*(kcal|cal|kJ)\s*", text, re.IGNORECASE)
    if not match:
        refuse(f'"{text.strip()}" is not an energy', "write it like 430 kcal or 1800 kJ.")
    kcal = float(_number(match[1])) / (4.184 if match[2].casefold() == "kj" else 1)
    return Written(text.strip(), kcal)


def _file_size(text: str) -> Written:
    """Return how large a file may be [byte]; prefixes are decimal, as shops and mail count."""
    match = re.fullmatch(r"\s*([\d.,]+)\s*([kMG])B\s*", text, re.IGNORECASE)
    if not match:
        refuse(f'"{text.strip()}" is not the size of a file', "write it like 20 MB or 900 kB.")
    size = float(_number(match[1])) * {"k": 1e3, "m": 1e6, "g": 1e9}[match[2].casefold()]
    if not SMALLEST_FILE <= size <= LARGEST_FILE:
        refuse(
            f'"{text.strip()}" is {"less" if size < SMALLEST_FILE else "more"} than can be meant '
            "here",
            "write a size such as 20 MB or 900 kB.",
        )
    return Written(text.strip(), size)


def _grams(text: str) -> Written:
    match = re.fullmatch(r"\s*([\d.,]+)\s*(mg|g)\s*", text, re.IGNORECASE)
    if not match:
        refuse(f'"{text.strip()}" is not a weight', "write it like 12 g or 600 mg.")
    return Written(
        text.strip(), float(_number(match[1])) / (1000 if match[2].casefold() == "mg" else 1)
    )


Text = Annotated[str, *_longest(LONGEST_TEXT)]
Name = Annotated[str, *_longest(LONGEST_NAME)]
"""What stands in lists and on labels."""
Language = Annotated[str, _text_by(_language, "en"), _schema("en", "es")]
BookAddress = Annotated[
    str,
    _text_by(_book_address, "https://example.org/larder"),
    _schema("https://example.org/larder"),
]
Day = Annotated[dt.date, _text_by(_date, "2026-03-02"), _schema("2026-03-02")]
Altitude = Annotated[
    Written, _written(quantities.length_m, -450, 9000, "310 m"), _schema("310 m", "8000 ft")
]
Opening = Annotated[Written, _written(quantities.length_m, 0.02, 1, "14 cm"), _schema("14 cm")]
Duration = Annotated[
    Written, _written(quantities.duration_s, 1, 604_800, "12 min"), _schema("12 min", "1 h 20 min")
]
Power = Annotated[Written, _written(quantities.power_w, 50, 20_000, "900 W"), _schema("900 W")]
Area = Annotated[Written, _written(quantities.area_m2, 0.001, 10, "1900 cm2"), _schema("1900 cm2")]
Mass = Annotated[Written, _written(quantities.mass_g, 0.1, 1e6, "900 g"), _schema("900 g")]
Capacity = Annotated[
    Written, _written(quantities.volume_ml, 1, 100_000, "500 mL"), _schema("500 mL")
]
JarVolume = Annotated[
    Written, _written(quantities.volume_ml, 150, 5000, "500 mL"), _schema("500 mL")
]
Temperature = Annotated[
    Written, _written(quantities.temperature_c, -60, 120, "18 C"), _schema("18 C")
]
Rate = Annotated[Written, _text_by(_rate, "110 g per h"), _schema("110 g per h")]
Span = Annotated[Written, _written(quantities.breadth_m, 0, 0.5, "63 mm"), _schema("63 mm")]
Card = Annotated[
    CardPaper,
    _text_by(read_card, "A6"),
    _schema("A6", "4 x 6 in", "index card", "105 x 148 mm"),
]
Appetite = Annotated[float, _text_by(_appetite, "1.5"), _schema("1.5", "1 1/2")]
Share = Annotated[float, _text_by(_some_share, "0.5"), _schema("0.5", "50 %")]
Moisture = Annotated[float, _text_by(_moisture, "70 %"), _schema("70 %", "0.05")]
Volume = Annotated[
    Amount, _text_by(_poured, "3/4 cup + 1 tbsp"),
    _schema("3/4 cup + 1 tbsp"),
]  # fmt: skip
Weighs = Annotated[Weight, _text_by(_weight, "58 g per cup"), _schema("58 g per cup")]
CupWeighs = Annotated[Weight, _text_by(_cup_weight, "58 g per cup"), _schema("58 g per cup")]
Jar = Annotated[JarLabel, _text_by(_jar_label, "65 C after 6 h"), _schema("65 C after 6 h")]
Energy = Annotated[Written, _text_by(_energy, "430 kcal"), _schema("430 kcal")]
FileSize = Annotated[Written, _text_by(_file_size, "20 MB"), _schema("20 MB", "900 kB")]
Grams = Annotated[Written, _text_by(_grams, "12 g"), _schema("12 g", "600 mg")]
Count = Annotated[int, Field(ge=1, le=1000)]
DayNumber = Annotated[int, BeforeValidator(_day_number), Field(ge=1, le=1000)]
