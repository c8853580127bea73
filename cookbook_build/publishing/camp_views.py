"""The camp card: a dish on stove and kettle at every altitude."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cookbook_build.planning.camp import CAMP_METHODS, camp_rows
from cookbook_build.publishing.pours import shown_measures
from cookbook_build.publishing.tables import SizeGroup, SizeRow, SizeTable, size_row
from cookbook_build.publishing.wording import (
    METHOD_NAMES,
    REST_WORDS,
    altitude_words,
    degrees,
    grams_up,
    minutes,
)

if TYPE_CHECKING:
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.camp import CampCell, CampRow
    from cookbook_build.planning.dishes import Dish


def camp_tables(dish: Dish, book: Manuscript, sizes: tuple[int, ...]) -> tuple[SizeTable, ...]:
    """Return a table for each method that works at camp and suits the dish."""
    return tuple(
        SizeTable(
            METHOD_NAMES[method],
            "Altitude",
            "water boils at",
            ("Pour first", "+ keep back", REST_WORDS[method], "Fuel"),
            _groups(camp_rows(dish, sizes, method, book.book.altitudes), dish, book),
        )
        for method in CAMP_METHODS
        if method in dish.methods
    )


def _groups(rows: tuple[CampRow, ...], dish: Dish, book: Manuscript) -> tuple[SizeGroup, ...]:
    """Return a row for each altitude, or a group of rows where there are several components."""
    if len(dish.parts) == 1:
        return (
            SizeGroup("", tuple(_row(row, 0, *_altitude(row, book), book=book) for row in rows)),
        )
    return tuple(
        SizeGroup(
            _altitude(row, book)[0],
            tuple(_row(row, at, part.name, "", book=book) for at, part in enumerate(dish.parts)),
            _altitude(row, book)[1],
        )
        for row in rows
    )


def _altitude(row: CampRow, book: Manuscript) -> tuple[str, str]:
    return altitude_words(row.altitude_m, book.book.altitudes), degrees(row.boiling_c)


def _row(row: CampRow, at: int, name: str, note: str, *, book: Manuscript) -> SizeRow:
    return size_row(name, {cell.servings: _figures(cell, at, book) for cell in row.cells}, note)


def _figures(cell: CampCell, at: int, book: Manuscript) -> tuple[str, ...]:
    shown = shown_measures(cell.waters[at], book)
    return (
        shown["start"],
        f"+ {shown['hold_back']}",
        minutes(cell.waters[at].rest_s),
        grams_up(cell.part_fuel_g[at]),
    )
