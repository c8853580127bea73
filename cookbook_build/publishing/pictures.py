"""Pictures: which the book shows, the files that each of them becomes, and how a page shows it."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import cached_property
from pathlib import PurePosixPath
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.body import image_name
from cookbook_build.manuscript.naming import LONGEST_ADDRESS, is_a_device
from cookbook_build.manuscript.source import leads_out
from cookbook_build.publishing import drawings, photographs
from cookbook_build.publishing.epub_drawings import drawing_fault
from cookbook_build.publishing.picture_cache import PictureCache, key_of, users_cache
from cookbook_build.publishing.progress import watched
from cookbook_build.publishing.renditions import SUFFIXES, RefusedPictureError, Rendition

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from cookbook_build.findings import Findings, Place
    from cookbook_build.manuscript.collection import Manuscript

DRAWN: Final = ".svg"
SVG: Final = "image/svg+xml"
PLAIN_WIDTH_PX: Final = 960


@dataclass(frozen=True, slots=True)
class PictureFile:
    """One file of the book."""

    name: str  # within the book
    made: Rendition


@dataclass(frozen=True, slots=True)
class PictureView:
    """A picture as a page shows it: WebP where there is some, and what every reader knows."""

    src: str
    alt: str
    width: int
    height: int
    srcset: str = ""
    webp: str = ""


@dataclass(frozen=True, slots=True)
class Picture:
    """What one picture became: files of several widths, narrowest first."""

    webp: tuple[PictureFile, ...]  # none for a drawing
    usual: tuple[PictureFile, ...]  # JPEG or PNG, or one SVG

    @property
    def files(self) -> tuple[PictureFile, ...]:
        """Every file that is written."""
        return (*self.webp, *self.usual)

    @property
    def plain(self) -> PictureFile:
        """The one file for an edition that has no choice of widths: at most 960 px, or the SVG."""
        narrow = [file for file in self.usual if file.made.width <= PLAIN_WIDTH_PX]
        return (narrow or self.usual)[-1]

    def view(self, text: str | None, up: str) -> PictureView:
        """Return how a page shows it."""
        widest = self.usual[-1].made
        return PictureView(
            up + self.plain.name,
            text or "",
            widest.width,
            widest.height,
            _srcset(self.usual, up) if self.webp else "",
            _srcset(self.webp, up),
        )


@dataclass(frozen=True)
class Pictures:
    """Every picture that the book shows, by its file within images/."""

    by_file: Mapping[str, Picture]

    @property
    def files(self) -> list[PictureFile]:
        """Every file that is written."""
        return [file for picture in self.by_file.values() for file in picture.files]

    @cached_property
    def plain(self) -> Mapping[str, Rendition]:
        """The one file of each picture that an edition without choice of widths shows."""
        plain = (picture.plain for picture in self.by_file.values())
        return {file.name: file.made for file in plain}

    def only(self, written: Iterable[str | None]) -> Pictures:
        """Return the pictures that an author named so."""
        named = {image_name(one) for one in written if one is not None}
        return Pictures({file: self.by_file[file] for file in sorted(named & self.by_file.keys())})

    def view(self, written: str | None, text: str | None, up: str) -> PictureView | None:
        """Return how a page shows a picture that an author named, if one was named."""
        return None if written is None else self.by_file[image_name(written)].view(text, up)


def check_pictures(book: Manuscript, findings: Findings) -> None:
    """Report each picture that no page could show, where it is first named."""
    cache = users_cache(book.folder)
    named = _named(book)
    for file, place in watched(named.items(), "Pictures", len(named)):
        data = _read(book, file, place, findings)
        kept = cache.read(_key(file, data)) if data is not None else ()
        if data is None:
            continue
        try:
            drawn = kept[0] if kept else judge(file, data)
        except RefusedPictureError as problem:
            _report(file, problem, place, findings)
        else:
            _warn_of_e_books(file, drawn, place, findings)


def made_pictures(book: Manuscript, findings: Findings) -> Pictures:
    """Return what the book's pictures become; those that can't be shown leave a finding."""
    cache = users_cache(book.folder)
    shown = {one.file for one in book.pictures if one.is_shown}
    names = book_names(shown)
    found = {}
    named = _named(book)
    for file, place in watched(named.items(), "Pictures", len(named)):
        data = _read(book, file, place, findings)
        if data is None:
            continue
        try:
            made = _made(file, data, cache)
        except RefusedPictureError as problem:
            _report(file, problem, place, findings)
        else:
            _warn_of_e_books(file, made[0], place, findings)
            if file in shown:
                found[file] = _picture(names[file], made)
    return Pictures(found)


def judge(file: str, data: bytes) -> Rendition | None:
    """Read a picture to its end and write nothing; return what a drawing becomes.

    Raises
    ------
    RefusedPictureError
        When no page could show it.
    """
    if _is_drawing(file, data):
        return drawings.drawing(data)
    photographs.photograph(data)
    return None


def book_names(files: Iterable[str]) -> dict[str, str]:
    """Return a name in the book for each file, of plain letters and digits, no two alike."""
    found: dict[str, str] = {}
    for file in sorted(files):
        bare = unicodedata.normalize("NFKD", str(PurePosixPath(file).with_suffix("")).casefold())
        plain = bare.encode("ascii", "ignore").decode()
        name = base = "-".join(re.findall(r"[a-z0-9]+", plain))[:LONGEST_ADDRESS] or "picture"
        if is_a_device(name):
            name = base = f"picture-{name}"
        number = 2
        while name in found.values():
            name, number = f"{base}-{number}", number + 1
        found[file] = name
    return found


def _named(book: Manuscript) -> dict[str, Place]:
    """Return each picture of images/ that is named, and where it is first."""
    found: dict[str, Place] = {}
    for named in book.pictures:
        if named.file in book.images:  # what isn't there has its finding already
            found.setdefault(named.file, named.place)
    return found


def _read(book: Manuscript, file: str, place: Place, findings: Findings) -> bytes | None:
    path = book.folder / "images" / file
    limit_mb = photographs.LARGEST_FILE_MB
    if leads_out(book.folder, path):
        refused = RefusedPictureError("leads out of the book", "put the picture itself there.")
        _report(file, refused, place, findings)
        return None
    try:
        size_mb = path.stat().st_size / 1e6
        if size_mb <= limit_mb:
            return path.read_bytes()
    except OSError as problem:
        cause, mend = f"can't be opened ({problem.strerror})", "check that you may read it."
    else:
        cause, mend = f"holds {size_mb:,.0f} MB", f"save it smaller, below {limit_mb} MB."
    _report(file, RefusedPictureError(cause, mend), place, findings)
    return None


def _report(file: str, problem: RefusedPictureError, place: Place, findings: Findings) -> None:
    findings.error(place, f'the file "{file}" in images/ {problem.cause}', problem.mend)


def _warn_of_e_books(file: str, made: Rendition | None, place: Place, findings: Findings) -> None:
    """Warn of a drawing that pages show and e-books leave out, so that none is in silence."""
    fault = drawing_fault(made.data) if made and made.media_type == SVG else ""
    if fault:
        findings.warning(
            place,
            f'no e-book can hold "{file}": it {fault}',
            f"{drawings.EXPORT} it; until then the e-book has its words in its place.",
        )


def _made(file: str, data: bytes, cache: PictureCache) -> tuple[Rendition, ...]:
    key = _key(file, data)
    kept = cache.read(key)
    if kept:
        return kept
    made = (
        (drawings.drawing(data),)
        if _is_drawing(file, data)
        else tuple(photographs.renditions(data))
    )
    cache.keep(key, made)
    return made


def _key(file: str, data: bytes) -> str:
    ending = PurePosixPath(file).suffix.casefold()
    return key_of(data, f"{ending} {drawings.SETTINGS} {photographs.SETTINGS}")


def _is_drawing(file: str, data: bytes) -> bool:
    """Return whether a file is a drawing; its ending and its bytes must say the same."""
    path = PurePosixPath(file)
    ending = path.suffix.casefold()
    if drawings.looks_drawn(data):
        if ending != DRAWN and drawings.is_svg(data):
            raise _misnamed(path, "SVG", DRAWN)
        if ending == DRAWN:
            return True
    kind = photographs.kind_of(data)
    endings = photographs.ENDINGS[kind]
    if ending not in endings:
        raise _misnamed(path, kind, endings[0])
    return False


def _misnamed(path: PurePosixPath, kind: str, ending: str) -> RefusedPictureError:
    return RefusedPictureError(
        f"is of the kind {kind}, and its ending {path.suffix} says another",
        f'rename it in images/, and write "{path.with_suffix(ending)}" here.',
    )


def _picture(name: str, made: Iterable[Rendition]) -> Picture:
    webp: list[PictureFile] = []
    usual: list[PictureFile] = []
    for one in made:
        width = "" if one.media_type == SVG else f"-{one.width}"
        file = PictureFile(f"images/{name}{width}.{SUFFIXES[one.media_type]}", one)
        (webp if one.media_type == "image/webp" else usual).append(file)
    return Picture(tuple(webp), tuple(usual))


def _srcset(files: Iterable[PictureFile], up: str) -> str:
    return ", ".join(f"{up}{file.name} {file.made.width}w" for file in files)
