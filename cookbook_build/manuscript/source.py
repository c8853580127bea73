"""Source files: the author's text with its lines, so that every finding can show the place."""

from __future__ import annotations

import os
import re
import stat
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import Findings, Place
from cookbook_build.walking import below, real

if TYPE_CHECKING:
    from pathlib import Path

LARGEST_TABLE_BYTES: Final = 4_000_000  # a log of years
LARGEST_TEXT_BYTES: Final = 1_000_000  # 150,000 words
# YAML counts these as line ends, and an editor does not: as spaces they leave every place true
_ODD_LINE_ENDS: Final = str.maketrans("\x85\u2028\u2029", "   ")
_NO_TEXT: Final = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ufffe\uffff]")
TURNING: Final = "\u202a-\u202e\u2066-\u2069"
"""Signs that turn the order of the letters after them, so that another name is seen; the marks
U+200E and U+200F, which belong to some scripts, only lean one letter."""
NO_WIDTH: Final = "\u200b\u2060-\u2064\ufeff"
"""Signs of no width, which make two names of what looks like one; joiners (U+200C, U+200D) belong
to some scripts and pictures."""
_TURNING: Final = re.compile(f"[{TURNING}]")
LETTERS: Final = ".txt"


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
        text = text.translate(_ODD_LINE_ENDS)
        return cls(path, text, tuple(text.split("\n")))

    def place(self, line: int, column: int = 1, width: int = 1) -> Place:
        """Return a place in this file; line and column count from 1."""
        excerpt = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        return Place(self.path, line, column, max(width, 1), excerpt)

    def place_at(self, offset: int) -> Place:
        """Return the place of the character at an offset of the text."""
        line = self.text.count("\n", 0, offset) + 1
        return self.place(line, offset - self.text.rfind("\n", 0, offset))


def read_source(folder: Path, path: Path, findings: Findings) -> Source | None:
    """Return the text of a file, or None with a finding when it can't be read as text."""
    source = _read(folder, path, findings)
    findings.cut_short |= source is None
    return source


def _read(folder: Path, path: Path, findings: Findings) -> Source | None:
    name = path.relative_to(folder).as_posix()
    if leads_out(folder, path):
        findings.error(
            Place(name),
            "this file is a link, or lies in a folder that is one, and leads out of the book",
            "put the file itself in its place.",
        )
        return None
    most = largest_bytes(path)
    mend = f"keep each such file below {most // 1_000_000} MB; put pictures into images/."
    data = read_bytes(path, name, most, (" of text", mend), findings)
    source = None if data is None else read_text_of(name, data, findings)
    if source is None or path.suffix.casefold() == LETTERS:  # replies leave out what is unseen
        return source
    return straight(source, findings)


def straight(source: Source, findings: Findings) -> Source | None:
    """Return a source without a sign that turns text round, or None with a finding."""
    return _seen(source, _TURNING, findings)


def largest_bytes(path: Path) -> int:
    """Return how much a text file of the book may hold [byte]."""
    return LARGEST_TABLE_BYTES if path.suffix.casefold() == ".csv" else LARGEST_TEXT_BYTES


def leads_out(folder: Path, path: Path) -> bool:
    """Return whether a file that lies in the book's folder by its name is one elsewhere."""
    return not real(path).is_relative_to(real(folder))


def files_of(folder: Path, part: str, findings: Findings | None = None) -> list[Path]:
    """Return all that lies in one of a book's folders, in the order of names.

    Of a folder that leads out of the book or can't be looked into there is a finding, where
    `findings` are gathered.
    """
    root = folder / part

    def told(path: Path, why: str) -> None:
        tell(path, f"can't be looked into ({why})", "see that it is one, and that you may read it.")

    def tell(path: Path, cause: str, mend: str) -> None:
        if findings is not None:
            place = Place(path.relative_to(folder).as_posix())
            findings.error(place, f"this folder {cause}", mend)

    if not os.path.lexists(root):
        return []
    if not leads_out(folder, root):
        return sorted(below(root, told))
    tell(root, "is a link that leads out of the book", "put the folder itself in its place.")
    return []


def read_bytes(
    path: Path, name: str, most: int, too_large: tuple[str, str], findings: Findings
) -> bytes | None:
    """Return what a file holds, or None with a finding when it can't be opened or is too large.

    `too_large` is what follows its size there, and the mend.
    """
    try:
        found = path.stat()
        size, is_file = found.st_size, stat.S_ISREG(found.st_mode)
        data = path.read_bytes() if is_file and size <= most else b""
    except OSError as problem:
        findings.error(
            Place(name),
            f"this file can't be opened ({problem.strerror})",
            "check that it exists and that you may read it.",
        )
        return None
    if not is_file:
        findings.error(
            Place(name),
            "this has the name of a file and is none",
            "put the file itself in its place.",
        )
        return None
    if size > most:
        of_what, mend = too_large
        findings.error(Place(name), f"this file holds {size / 1e6:.0f} MB{of_what}", mend)
        return None
    return data


def read_text_of(name: str, data: bytes, findings: Findings) -> Source | None:
    """Return the text of a file's bytes, or None with a finding when they are no plain text."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        before = len(Source.of(name, data[: problem.start].decode("utf-8-sig")).text)
        guessed = Source.of(name, data.decode("utf-8-sig", errors="replace"))
        findings.error(
            guessed.place_at(before),
            "this character is not written as UTF-8",
            'save the file again with the encoding "UTF-8".',
        )
        return None
    return _seen(Source.of(name, text), _NO_TEXT, findings)


def _seen(source: Source, unseen: re.Pattern[str], findings: Findings) -> Source | None:
    """Return a source that holds none of some signs, or None with a finding."""
    odd = unseen.search(source.text)
    if odd:
        findings.error(
            source.place_at(odd.start()),
            f"a character that can't be seen stands here ({_character_name(odd.group())})",
            "delete it, or type the line again and save the file as plain text.",
        )
        return None
    return source


def _character_name(char: str) -> str:
    return "NUL" if char == "\0" else f"U+{ord(char):04X}"
