"""Source files: the author's text with its lines, so that every finding can show the place."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import Findings, Place

if TYPE_CHECKING:
    from pathlib import Path

LARGEST_BYTES: Final = 4_000_000


@dataclass(frozen=True, slots=True)
class Source:
    """One text file of the book: its path within the book and its text."""

    path: str
    text: str
    lines: tuple[str, ...] = field(repr=False)

    @classmethod
    def of(cls, path: str, text: str) -> Source:
        """Return the source of a text."""
        text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
        return cls(path, text, tuple(text.split("\n")))

    def place(self, line: int, column: int = 1, width: int = 1) -> Place:
        """Return a place in this file; line and column count from 1."""
        excerpt = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        return Place(self.path, line, column, max(width, 1), excerpt)


def read_source(folder: Path, path: Path, findings: Findings) -> Source | None:
    """Return the text of a file, or None with a finding when it can't be read as text."""
    name = path.relative_to(folder).as_posix()
    try:
        size = path.stat().st_size
        data = path.read_bytes() if size <= LARGEST_BYTES else b""
    except OSError as problem:
        findings.error(
            Place(name),
            f"this file can't be opened ({problem.strerror})",
            "check that it exists and that you may read it.",
        )
        return None
    if size > LARGEST_BYTES:
        findings.error(
            Place(name),
            f"this file holds {size / 1e6:.0f} MB of text",
            f"keep each file below {LARGEST_BYTES // 1_000_000} MB; put pictures into images/.",
        )
        return None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        line = data.count(b"\n", 0, problem.start) + 1
        findings.error(
            Place(name, line, excerpt=""),
            "this line is not UTF-8 text",
            'save the file again with the encoding "UTF-8".',
        )
        return None
    if "\0" in text:
        line = text.count("\n", 0, text.index("\0")) + 1
        findings.error(
            Place(name, line),
            "this line holds a character that no text has (NUL)",
            "save the file as plain text.",
        )
        return None
    return Source.of(name, text)
