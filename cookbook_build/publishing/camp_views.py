"""The camp card: a dish on stove and kettle at every altitude."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from cookbook_build.planning.camp import CAMP_METHODS, camp_rows
from cookbook_build.publishing.pours import shown_measures
from cookbook_build.publishing.tables import SizeGroup, SizeRow, SizeTable, size_row
from cookbook_build.publishing.wording import (
    NBSP,
    altitude_words,
    degrees,
    grams_up,
    method_name,
    millilitres,
    minutes,
    part_title,
    rest_word,
    short_time,
)
from cookbook_build.words import _

if TYPE_CHECKING:
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.camp import CampCell, CampRow
    from cookbook_build.planning.dishes import Dish

UNHEATED: Final = "–"
"""What stands for the time to the boil and the fuel of a component with cold water."""


def camp_tables(dish: Dish, book: Manuscript, sizes: tuple[int, ...]) -> tuple[SizeTable, ...]:
    """Return a table for each method that works at camp and suits the dish."""
    return tuple(
        SizeTable(
            method_name(method),
            _("{method}: altitude").format(method=method_name(method)),
            _("water boils at"),
            (
                _("Pour first"),
                _("+ keep back"),
                _("together"),
                _("To the boil"),
                rest_word(method),
                _("Fuel"),
            ),
            _groups(camp_rows(dish, sizes, method, book.book.altitudes), dish, book),
        )
        for method in CAMP_METHODS
        if method in dish.methods
    )


def _groups(rows: tuple[CampRow, ...], dish: Dish, book: Manuscript) -> tuple[SizeGroup, ...]:
    """Return a row for each altitude; of several components, the altitude's row is their sum."""
    if len(dish.parts) == 1:
        return (
            SizeGroup("", tuple(_row(row, 0, *_altitude(row, book), book=book) for row in rows)),
        )
    return tuple(
        SizeGroup(
            "",
            (
                _together(row, book),
                *(_row(row, at, _named(row, at), "", book=book) for at in range(len(dish.parts))),
            ),
        )
        for row in rows
    )


def _named(row: CampRow, at: int) -> str:
    """Return a component's name, and that it wants no fire where it has cold water."""
    water = row.cells[0].waters[at]
    name = part_title(water.name)
    return _("{component}, cold").format(component=name) if water.is_cold else name


def _together(row: CampRow, book: Manuscript) -> SizeRow:
    name, note = _altitude(row, book)
    figures = {
        int(cell.servings): (
            _("together"), "", millilitres(cell.together_ml), short_time(cell.boil_s), "",
            grams_up(cell.fuel_g),
        )
        for cell in row.cells
    }  # fmt: skip
    return size_row(name, figures, note)


def _altitude(row: CampRow, book: Manuscript) -> tuple[str, str]:
    return altitude_words(row.altitude_m, book.book.altitudes), degrees(row.boiling_c)


def _row(row: CampRow, at: int, name: str, note: str, *, book: Manuscript) -> SizeRow:
    return size_row(
        name, {int(cell.servings): _figures(cell, at, book) for cell in row.cells}, note
    )


def _figures(cell: CampCell, at: int, book: Manuscript) -> tuple[str, ...]:
    water = cell.waters[at]
    shown = shown_measures(water, book)
    return (
        shown["start"],
        f"+{NBSP}{shown['hold_back']}",
        millilitres(water.start_ml + water.hold_back_ml),
        UNHEATED if water.is_cold else short_time(cell.part_boil_s[at]),
        minutes(water.rest_s),
        UNHEATED if water.is_cold else grams_up(cell.part_fuel_g[at]),
    )
