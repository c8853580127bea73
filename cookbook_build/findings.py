"""Findings: what is wrong in the author's text, where it stands and how to mend it.

An author's mistake is data. It is gathered, sorted and shown with all the others; it is
never an exception that stops the reading.
"""

from __future__ import annotations

import difflib
import re
from dataclasses import asdict, dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

EXCERPT_WIDTH = 100
LONGEST_QUOTE: Final = 100
LONGEST_MEND: Final = 600  # what is to be written in a line's place
_LONG_QUOTE: Final = re.compile(f'"([^"]{{{LONGEST_QUOTE + 1},}})"')
_LONG_MEND: Final = re.compile(f'"([^"]{{{LONGEST_MEND + 1},}})"')


class Severity(StrEnum):
    """How much a finding matters: an error stops the binding, a warning lets it through.

    A suggestion never stops anything; nothing is wrong, and something might be better.
    """

    ERROR = "error"
    WARNING = "warning"
    SUGGESTION = "suggestion"


@dataclass(frozen=True, slots=True)
class Place:
    """A stretch of one line of one file; lines and columns count from 1, in characters."""

    path: str
    line: int = 1
    column: int = 1
    width: int = 1
    excerpt: str = ""

    def within(self, start: int, width: int) -> Place:
        """Return the place `start` characters further on, `width` characters wide."""
        return Place(self.path, self.line, self.column + start, max(width, 1), self.excerpt)


@dataclass(frozen=True, slots=True)
class Finding:
    """One message about the author's text: where, what is wrong, and how to mend it."""

    severity: Severity
    place: Place
    cause: str
    mend: str

    @classmethod
    def of_json(cls, data: Mapping[str, Any]) -> Finding:
        """Return the finding that some plain data is of."""
        place = {key: data[key] for key in ("path", "line", "column", "width", "excerpt")}
        return cls(Severity(data["severity"]), Place(**place), data["cause"], data["mend"])

    def as_json(self) -> dict[str, Any]:
        """Return the finding as plain data, for tools."""
        return {"severity": str(self.severity), **asdict(self.place)} | {
            "cause": self.cause,
            "mend": self.mend,
        }


@dataclass(slots=True)
class Findings:
    """All findings of one reading, gathered as they are met and shown in order."""

    gathered: list[Finding] = field(default_factory=list)
    cut_short: bool = False  # something could not be read, and more may show once it can

    def error(self, place: Place, cause: str, mend: str) -> None:
        """Add a finding that stops the book from being bound."""
        self._add(Severity.ERROR, place, cause, mend)

    def warning(self, place: Place, cause: str, mend: str) -> None:
        """Add a finding that lets the book through and is shown last."""
        self._add(Severity.WARNING, place, cause, mend)

    def suggestion(self, place: Place, cause: str, mend: str) -> None:
        """Add what might be better; only `proof` shows it, after all that is wrong."""
        self._add(Severity.SUGGESTION, place, cause, mend)

    def _add(self, severity: Severity, place: Place, cause: str, mend: str) -> None:
        cause = _LONG_QUOTE.sub(lambda quote: f'"{quote[1][:LONGEST_QUOTE]}…"', cause)
        mend = _LONG_MEND.sub(lambda quote: f'"{quote[1][:LONGEST_MEND]}…"', mend)
        self.gathered.append(Finding(severity, place, cause, mend))

    @property
    def errors(self) -> list[Finding]:
        """The findings that stop the book."""
        return self._of(Severity.ERROR)

    @property
    def warnings(self) -> list[Finding]:
        """The findings that let the book through."""
        return self._of(Severity.WARNING)

    @property
    def suggestions(self) -> list[Finding]:
        """What might be better, though nothing is wrong."""
        return self._of(Severity.SUGGESTION)

    def _of(self, severity: Severity) -> list[Finding]:
        return [finding for finding in self if finding.severity is severity]

    def __iter__(self) -> Iterator[Finding]:
        return iter(sorted(set(self.gathered), key=_order))

    def __len__(self) -> int:
        return len(set(self.gathered))


_TURNS: Final = {severity: turn for turn, severity in enumerate(Severity)}


def _order(finding: Finding) -> tuple[int, str, int, int, str]:
    place = finding.place
    turn = _TURNS[finding.severity]
    return (turn, place.path, place.line, place.column, finding.cause)


def nearest(word: str, names: Iterable[str], likeness: float = 0.6) -> str | None:
    """Return the name most like `word`, or None when none is close."""
    known = {name.casefold(): name for name in names}
    close = difflib.get_close_matches(word.casefold(), list(known), n=1, cutoff=likeness)
    return known[close[0]] if close else None


def did_you_mean(word: str, names: Iterable[str], otherwise: str) -> str:
    """Return a mend that offers the nearest name, or `otherwise` when none is close."""
    name = nearest(word, names)
    return f'write "{name}".' if name else otherwise


def one_of(names: Iterable[str]) -> str:
    """Return names as an English list: `a, b or c`."""
    listed = list(names)
    return listed[0] if len(listed) == 1 else f"{', '.join(listed[:-1])} or {listed[-1]}"


def printable(text: str) -> str:
    """Return text with control and direction-changing characters made visible."""
    return "".join(
        char if char.isprintable() or char == "\t" else "\N{MIDDLE DOT}" for char in text
    )


def described(finding: Finding) -> str:
    """Return a finding as the lines shown on a terminal: place, excerpt, marker, mend.

    A suggestion is short: it points at nothing that is wrong.
    """
    place = finding.place
    where = f"{printable(place.path)}:{place.line}:{place.column}"
    lines = [f"{where}: {finding.severity}: {_plainly_spaced(finding.cause)}"]
    if finding.severity is Severity.SUGGESTION:
        return f"{lines[0]}\n  try: {_plainly_spaced(finding.mend)}"
    if place.excerpt.strip():
        excerpt, column = _clipped(printable(place.excerpt), place.column)
        label = f"{place.line:>6} | "
        lead = "".join("\t" if char == "\t" else " " for char in excerpt[: column - 1])
        marker = "^" * max(1, min(place.width, len(excerpt) - column + 1))
        lines += [label + excerpt, " " * (len(label) - 2) + "| " + lead + marker]
    lines.append(f"  mend: {_plainly_spaced(finding.mend)}")
    return "\n".join(lines)


def _plainly_spaced(text: str) -> str:
    """Return a sentence of ours for a terminal, where a no-break space is a space."""
    return printable(text.replace("\N{NO-BREAK SPACE}", " "))


def _clipped(excerpt: str, column: int) -> tuple[str, int]:
    """Return the part of a long line around the column, and the column within it."""
    if len(excerpt) <= EXCERPT_WIDTH:
        return excerpt, column
    start = max(0, column - EXCERPT_WIDTH // 2)
    clipped = excerpt[start : start + EXCERPT_WIDTH]
    return ("…" + clipped[1:], column - start) if start else (clipped[:-1] + "…", column)
