"""Card paper as the trade names and cuts it, and as an author writes it: `A6`, `4 x 6 in`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from cookbook_build.findings import nearest
from cookbook_build.measures.numbers import NumberError
from cookbook_build.measures.quantities import breadth_m

CARDS_MM: Final = {
    "A7": (74.0, 105.0),
    "3 x 5 in": (76.2, 127.0),
    "4 x 6 in": (101.6, 152.4),
    "A6": (105.0, 148.0),
    "5 x 8 in": (127.0, 203.2),
    "A5": (148.0, 210.0),
}
"""ISO 216, and the index cards of the trade, by area; upright, as they are named."""
INDEX_CARD: Final = "index card"
"""The commonest is 3 by 5 inches; common practice, no source."""
LEAST_MM, MOST_MM = (50.0, 75.0), (210.0, 279.0)
"""The least card whose words are still type, and the most that A4 and Letter hold; our choice."""
EXAMPLE: Final = "A6, 4 x 6 in or 105 x 148 mm"

_SIDES: Final = re.compile(r"(.+?)\s*(?:[x×]|\bby\b)\s*(.+)", re.IGNORECASE)
_UNIT: Final = re.compile(r"[a-z]+\.?\s*$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class CardPaper:
    """A card: its name, and its sides in millimetres, the first one across."""

    name: str
    width_mm: float
    height_mm: float

    @property
    def area_mm2(self) -> float:
        """How much there is of it."""
        return self.width_mm * self.height_mm

    def covers(self, other: CardPaper) -> bool:
        """Return whether another card lies within this one."""
        return self.width_mm >= other.width_mm and self.height_mm >= other.height_mm

    def turned(self) -> CardPaper:
        """Return it lying instead of upright."""
        return CardPaper(self.name, self.height_mm, self.width_mm)


def named_card(name: str) -> CardPaper:
    """Return a card of the trade, upright."""
    return CardPaper(shown_name(name), *CARDS_MM[name])


def shown_name(name: str) -> str:
    """Return a paper's name as print has it."""
    return name.replace(" x ", " × ").replace(" in", "\N{NO-BREAK SPACE}in")


def read_card(text: str) -> CardPaper:
    """Return the card that an author names, or measures."""
    bare = " ".join(text.split())
    if bare.casefold() == INDEX_CARD:
        return named_card("3 x 5 in")
    for name in CARDS_MM:
        if bare.casefold() == name.casefold():
            return named_card(name)
    sides = _SIDES.fullmatch(bare)
    if not sides:
        known = nearest(bare, [*CARDS_MM, INDEX_CARD])
        raise NumberError(
            f'"{bare}" is no card paper',
            f"write {known or EXAMPLE}.",
            0,
            len(text),
        )
    return _measured(text, bare, sides[1], sides[2])


def _measured(text: str, bare: str, across: str, down: str) -> CardPaper:
    unit = _UNIT.search(down)
    one = across if _UNIT.search(across) else f"{across} {unit[0] if unit else ''}"
    try:
        width, height = (round(breadth_m(side) * 1000, 3) for side in (one, down))
    except NumberError as problem:
        raise NumberError(problem.cause, f"write {EXAMPLE}.", 0, len(text)) from None
    for name, (narrow, long) in CARDS_MM.items():
        if (width, height) == (long, narrow):  # a card of the trade that lies
            lying = " x ".join(reversed(name.removesuffix(" in").split(" x ")))
            shown = f"{lying} in" if name.endswith("in") else name
            return CardPaper(shown_name(shown), width, height)
        if (width, height) == (narrow, long):
            return named_card(name)
    for side, least, most in zip(sorted((width, height)), LEAST_MM, MOST_MM, strict=True):
        if not least <= side <= most:
            raise NumberError(
                f'a card of "{bare}" is {"smaller" if side < least else "larger"} than one that '
                f"can be printed and read, which is {LEAST_MM[0]:g} × {LEAST_MM[1]:g} mm to "
                f"{MOST_MM[0]:g} × {MOST_MM[1]:g} mm",
                f"write {EXAMPLE}.",
                0,
                len(text),
            )
    return CardPaper(f"{width:g} × {height:g}\N{NO-BREAK SPACE}mm", width, height)
