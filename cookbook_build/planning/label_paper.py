"""Label paper: where on a sheet each label stands, and whether all of them stand on it."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.fields import Written
    from cookbook_build.manuscript.schema import LabelSheetKeys

PAPERS_MM: Final = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""ISO 216, and ANSI/ASME Y14.1 (8 1/2 by 11 inches)."""
EDGE_MM: Final = 6.0
SLACK_MM: Final = 0.5
"""By which a sheet's printed measures may miss: makers round them; our choice."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of labels, in millimetres."""

    paper: str
    paper_width: float
    paper_height: float
    columns: int
    rows: int
    width: float
    height: float
    top: float
    left: float
    across: float
    down: float

    @property
    def labels(self) -> int:
        """How many labels it holds."""
        return self.columns * self.rows


@dataclass(frozen=True, slots=True)
class _Way:
    """One way over the paper: so many labels, so long, one step from the next."""

    paper: float
    count: int
    length: float
    start: float
    step: float

    @property
    def end(self) -> float:
        """Where the last label ends."""
        return self.start + (self.count - 1) * self.step + self.length

    @property
    def most(self) -> int:
        """How many labels find room."""
        if self.step <= 0:
            return 0
        return floor((self.paper - self.start - self.length + SLACK_MM) / self.step) + 1

    @property
    def longest(self) -> float:
        """How long as many labels may be, side by side, down to the millimetre."""
        return float(floor((self.paper - self.start) / self.count))


def sheet(keys: LabelSheetKeys) -> Sheet:
    """Return the household's sheet; what it doesn't say divides the paper evenly."""
    paper_width, paper_height = PAPERS_MM[keys.paper]
    wide = _way(
        paper_width,
        keys.columns,
        *(_mm(span) for span in (keys.width, keys.left, keys.across)),
    )
    high = _way(
        paper_height,
        keys.rows,
        *(_mm(span) for span in (keys.height, keys.top, keys.down)),
    )
    return _sheet(keys.paper, paper_width, paper_height, wide, high)


def even_sheet(paper: str, columns: int, rows: int) -> Sheet:
    """Return a sheet whose labels divide a paper evenly, to be cut out."""
    paper_width, paper_height = PAPERS_MM[paper]
    wide = _way(paper_width, columns, None, None, None)
    high = _way(paper_height, rows, None, None, None)
    return _sheet(paper, paper_width, paper_height, wide, high)


def full_sheet(paper: str, width: float, height: float, *, lying: bool = False) -> Sheet | None:
    """Return a sheet with as many pieces of a size as it holds, in its middle, or None."""
    paper_width, paper_height = sorted(PAPERS_MM[paper], reverse=lying)
    columns, rows = (
        floor((along + SLACK_MM) / piece)
        for along, piece in ((paper_width, width), (paper_height, height))
    )
    if not columns * rows:
        return None
    wide = _way(paper_width, columns, width, None, None)
    high = _way(paper_height, rows, height, None, None)
    return _sheet(paper, paper_width, paper_height, wide, high)


def _sheet(paper: str, paper_width: float, paper_height: float, wide: _Way, high: _Way) -> Sheet:
    return Sheet(
        paper, paper_width, paper_height, wide.count, high.count, wide.length, high.length,
        high.start, wide.start, wide.step, high.step,
    )  # fmt: skip


def check_sheet(book: Manuscript, findings: Findings) -> bool:
    """Report labels that go off the paper or cover each other; return whether none does."""
    of = sheet(book.book.labels)
    wide = _Way(of.paper_width, of.columns, of.width, of.left, of.across)
    high = _Way(of.paper_height, of.rows, of.height, of.top, of.down)
    told = [
        _fault(wide, of.paper, ("columns", "width", "wide", "left", "across")),
        _fault(high, of.paper, ("rows", "height", "high", "top", "down")),
    ]
    for fault in told:
        if fault:
            findings.error(book.places.key("labels"), *fault)
    return not any(told)


def _fault(way: _Way, paper: str, names: tuple[str, str, str, str, str]) -> tuple[str, str] | None:
    count, length, long, start, step = names
    one = way.count == 1
    if not one and way.step < way.length - SLACK_MM:
        covered = (
            f"the labels are {way.length:g} mm {long} and begin {way.step:g} mm from each other, "
            "so each covers part of the next"
        )
        return covered, f"write {step}: {way.length:g} mm, or {length}: {way.step:g} mm."
    if way.end <= way.paper + SLACK_MM:
        return None
    begun = f"{start} at {way.start:g} mm, {long} {way.length:g} mm"
    stepped = "" if one else f", {step} {way.step:g} mm"
    fewer = f"{count}: {way.most}, or " if not one and way.most >= 1 else ""
    fits = (
        f"{fewer}{length}: {way.longest:g} mm" + ("" if one else f" and {step}: {way.longest:g} mm")
        if way.longest > 0
        else f"{fewer}{start}: {EDGE_MM:g} mm"
    )
    off = (
        f"labels in {way.count} {count[:-1] if one else count} ({begun}{stepped}) end at "
        f"{way.end:g} mm, and {paper} is {way.paper:g} mm {long}"
    )
    return off, f"write {fits}."


def _mm(span: Written | None) -> float | None:
    return None if span is None else round(span.si * 1000, 6)


def _way(
    paper: float, count: int, length: float | None, start: float | None, step: float | None
) -> _Way:
    """Return one way over the paper; margins that nobody gave are alike on both sides."""
    if length is None and step is None:
        begin = EDGE_MM if start is None else start
        even = max(paper - 2 * begin, 0.0) / count
        return _Way(paper, count, even, begin, even)
    if length is None:
        length = step or 0.0
    if step is None:
        spread = (paper - 2 * start - length) / max(count - 1, 1) if start is not None else 0.0
        step = max(spread, length)
    if start is None:
        start = max((paper - (count - 1) * step - length) / 2, 0.0)
    return _Way(paper, count, length, start, step)
