"""A book's own theme: a folder of templates and styles, read once, with the place of every word.

Nothing outside the folder is read, neither through `..` nor through a link of the file system, and
what was read is all that the theme has: templates are made from it, not from the folder.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import Place, did_you_mean
from cookbook_build.manuscript.source import Source, files_of, leads_out, read_source
from cookbook_build.walking import is_file, is_folder, listed, real

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.checking import Places

USUAL: Final = "theme"
TEMPLATES: Final = (".html", ".xhtml")
STYLE: Final = ".css"
SCRIPT: Final = ".js"
CARRIED: Final = {
    ".woff2": "font/woff2",
    ".woff": "font/woff",
    ".ttf": "font/ttf",
    ".otf": "font/otf",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".webp": "image/webp",
}
"""Fonts and pictures that a style may name, with their media types (EPUB 3.3, 3.2)."""
LARGEST_TEXT_KB: Final = 200
LARGEST_CARRIED_MB: Final = 5
"""Our choice: six times our own style sheet, and a font with every script of Europe."""


@dataclass(frozen=True, slots=True)
class OwnTheme:
    """The templates and styles of a book's own theme, and the fonts and pictures beside them."""

    folder: str  # within the book
    texts: Mapping[str, Source]
    files: Mapping[str, bytes]

    @property
    def templates(self) -> dict[str, Source]:
        """Its templates."""
        return {n: text for n, text in self.texts.items() if n.endswith(TEMPLATES)}

    @property
    def styles(self) -> dict[str, Source]:
        """Its styles."""
        return {n: text for n, text in self.texts.items() if n.endswith(STYLE)}


def read_theme(
    book: Path, written: str | None, places: Places, findings: Findings
) -> OwnTheme | None:
    """Return the theme that a book brings, None where it brings none or has a finding."""
    root = _root(book, written, places, findings)
    if root is None:
        return None
    texts: dict[str, Source] = {}
    files: dict[str, bytes] = {}
    for name, path in _paths(book, root, findings):
        ending = path.suffix.casefold()
        if ending in {*TEMPLATES, STYLE} and _is_small(book, path, LARGEST_TEXT_KB, findings):
            source = read_source(book, path, findings)
            if source is not None:
                texts[name] = source
        elif ending in CARRIED and _is_small(book, path, LARGEST_CARRIED_MB * 1000, findings):
            files[name] = path.read_bytes()
        elif ending == SCRIPT:
            findings.error(
                Place(path.relative_to(book).as_posix()),
                f'"{name}" is a script, and a theme brings none',
                "take it out of the folder; what moves on a page is the program's own.",
            )
    return OwnTheme(root.relative_to(real(book)).as_posix(), texts, files)


def _root(book: Path, written: str | None, places: Places, findings: Findings) -> Path | None:
    """Return the folder of the theme, which lies within the book's own."""
    name = written or USUAL
    root = real(book / name)
    place = places.of("theme") if written else Place(name)
    if PurePosixPath(name).is_absolute() or not root.is_relative_to(real(book)):
        findings.error(
            place,
            f'the folder "{name}" lies outside the book',
            f'copy it into the book, and write "theme: {USUAL}".',
        )
        return None
    if root == real(book):
        findings.error(
            place,
            f'"{name}" is the folder of the whole book',
            f'put what belongs to the theme into a folder in it, and write "theme: {USUAL}".',
        )
        return None
    if is_folder(root):
        return root
    if written:
        folders = [path.name for path in listed(book) if is_folder(path)]
        findings.error(
            place,
            f'there is no folder "{name}" in the book',
            did_you_mean(name, folders, f'make it, or take the line "theme: {name}" out.'),
        )
    return None


def _paths(book: Path, root: Path, findings: Findings) -> Iterator[tuple[str, Path]]:
    """Give each file of a theme and its name there.

    A link that leads out leaves a finding, and so does a name that differs from another in its
    case alone: on many disks the two are one file.
    """
    taken: dict[str, str] = {}
    within = root.relative_to(real(book)).as_posix()
    for path in files_of(book, within, findings):
        name = path.relative_to(book / within).as_posix()
        if any(part.startswith(".") for part in name.split("/")):
            continue
        if leads_out(root, path):
            findings.error(
                Place(path.relative_to(book).as_posix()),
                f'"{path.name}" is a link that leads out of the theme',
                "put the file itself in its place.",
            )
        elif is_file(path):
            twin = taken.setdefault(name.casefold(), name)
            if twin != name:
                findings.error(
                    Place(path.relative_to(book).as_posix()),
                    f'"{name}" and "{twin}" are one file on disks that know no capitals',
                    "rename one of the two, and what names it.",
                )
                continue
            yield name, path


def _is_small(book: Path, path: Path, most_kb: int, findings: Findings) -> bool:
    """Return whether a file can be opened and is not too large; else there is a finding."""
    place = Place(path.relative_to(book).as_posix())
    try:
        size_kb = path.stat().st_size / 1000
        with path.open("rb"):
            pass
    except OSError as problem:
        findings.error(
            place,
            f"this file can't be opened ({problem.strerror})",
            "check that you may read it.",
        )
        return False
    if size_kb > most_kb:
        findings.error(
            place,
            f"this file of the theme holds {size_kb:,.0f} kB, and each page would load it",
            f"keep it below {most_kb} kB: leave out what no page uses.",
        )
        return False
    return True
