"""Tables whose columns are serving sizes, put into words and narrow tables for a small reader."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.publishing.camp_views import UNHEATED
from cookbook_build.publishing.wording import number_of
from cookbook_build.words import N_, _, listed, pgettext

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.publishing.tables import SizeGroup, SizeRow, SizeTable

CAMP_LINES: Final[Mapping[Method, str]] = {
    "kettle": N_(
        "Pour first {start}, keep back {hold_back}, together {together}, to the boil {boil}, "
        "rest {rest}, fuel {fuel}."
    ),
    "stove": N_(
        "Pour first {start}, keep back {hold_back}, together {together}, to the boil {boil}, "
        "simmer {rest}, fuel {fuel}."
    ),
}
"""What the figures of a camp row are, in a line."""

CAMP_LINES_OF: Final[Mapping[Method, str]] = {
    "kettle": N_(
        "{name}: pour first {start}, keep back {hold_back}, together {together}, "
        "to the boil {boil}, rest {rest}, fuel {fuel}."
    ),
    "stove": N_(
        "{name}: pour first {start}, keep back {hold_back}, together {together}, "
        "to the boil {boil}, simmer {rest}, fuel {fuel}."
    ),
}
CAMP_FIGURES: Final = ("start", "hold_back", "together", "boil", "rest", "fuel")


@dataclass(frozen=True, slots=True)
class Said:
    """What is said of one serving size."""

    size: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SaidGroup:
    """What is said under one name: of a component, or at an altitude."""

    name: str
    note: str
    said: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class NarrowRow:
    """One serving size with its figures."""

    size: int
    figures: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NarrowTable:
    """A table with a row for each serving size."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[NarrowRow, ...]


def serving_words(sizes: Iterable[int]) -> str:
    """Return serving sizes in words: `1 serving`, `2, 3 and 4 servings`."""
    found = list(sizes)
    if len(found) == 1:
        return number_of(found[0], "serving")
    return _("{sizes} servings").format(sizes=listed([str(size) for size in found]))


def narrow(table: SizeTable) -> tuple[NarrowTable, ...]:
    """Return a table of single figures with its serving sizes as rows, one for each group."""
    return tuple(
        NarrowTable(
            group.name,
            tuple(_named(row) for row in group.rows),
            tuple(
                NarrowRow(size, tuple("; ".join(_figures(row, size)) or "–" for row in group.rows))
                for size in _sizes(group)
            ),
        )
        for group in table.groups
    )


def said_by_size(table: SizeTable) -> tuple[SaidGroup, ...]:
    """Return a table of several figures a cell in words: a line for each head, size by size."""
    return tuple(
        SaidGroup(
            group.name,
            "",
            tuple(
                Said(number_of(size, "serving"), tuple(_by_head(group, size, table.heads)))
                for size in _sizes(group)
            ),
        )
        for group in table.groups
    )


def said_by_altitude(table: SizeTable, method: Method) -> tuple[SaidGroup, ...]:
    """Return a table for camp in words row by row: at each altitude, size by size.

    A row without a note belongs to the row with one above it.
    """
    found: list[list[SizeRow]] = []
    for group in table.groups:
        for row in group.rows:
            if row.note or not found:
                found.append([])
            found[-1].append(row)
    return tuple(
        SaidGroup(
            rows[0].name,
            _("Water boils at {temperature}.").format(temperature=rows[0].note),
            tuple(
                Said(
                    number_of(cell.servings, "serving"),
                    tuple(_camp_line(row, cell.servings, method, rows[0]) for row in rows),
                )
                for cell in rows[0].cells
            ),
        )
        for rows in found
    )


def _by_head(group: SizeGroup, size: int, heads: tuple[str, ...]) -> Iterator[str]:
    for row in group.rows:
        figures = _figures(row, size)
        if len(figures) < len(heads):
            yield f"{_named(row)}: {', '.join(figures)}."
    for at, head in enumerate(heads):
        by_note: dict[str, list[str]] = {}
        for row in group.rows:
            figures = _figures(row, size)
            if len(figures) == len(heads):
                by_note.setdefault(row.note, []).append(f"{_within(row.name)} {figures[at]}")
        said = [
            f"{note}: {', '.join(words)}" if note else ", ".join(words)
            for note, words in by_note.items()
        ]
        if said:  # what is cold has the same figures under each head
            yield f"{head}: {'; '.join(said)}."


def _camp_line(row: SizeRow, size: int, method: Method, first: SizeRow) -> str:
    """Return the figures of a row in a line; what adds up the components holds nothing back."""
    figures = dict(zip(CAMP_FIGURES, _figures(row, size), strict=True))
    figures["hold_back"] = figures["hold_back"].removeprefix("+ ")
    if figures["boil"] == UNHEATED:
        line = _(
            "{name}: pour first {start}, keep back {hold_back}, together {together}, soak {rest}."
        )
    elif not figures["hold_back"]:
        line = _("Together: {together}, to the boil {boil}, fuel {fuel}.")
    else:
        line = _(CAMP_LINES[method] if row is first else CAMP_LINES_OF[method])
    return line.format(name=row.name, **figures)


def _named(row: SizeRow) -> str:
    return f"{row.name}, {row.note}" if row.note else row.name


def _sizes(group: SizeGroup) -> list[int]:
    return sorted({cell.servings for row in group.rows for cell in row.cells})


def _figures(row: SizeRow, size: int) -> tuple[str, ...]:
    return next((cell.figures for cell in row.cells if cell.servings == size), ())


def _within(name: str) -> str:
    """Return the name of a row as it stands within a line, its first letter small."""
    if pgettext("names within a line: small or as written", "small") != "small":
        return name  # a language that writes its nouns with capitals
    return name[:1].lower() + name[1:]
