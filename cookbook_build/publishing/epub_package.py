"""The package of an e-book: its pictures, the links within it, and what it says of itself."""

from __future__ import annotations

import os
import uuid
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Final

from cookbook_build.planning.stock import book_day
from cookbook_build.publishing.editions import CannotWriteError
from cookbook_build.publishing.epub_drawings import drawing_fault
from cookbook_build.publishing.pictures import SVG
from cookbook_build.words import _

if TYPE_CHECKING:
    from collections.abc import Iterable

    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.publishing.epub_volumes import Volume
    from cookbook_build.publishing.pictures import Pictures, PictureView

EPOCH: Final = "SOURCE_DATE_EPOCH"
NO_DAY: Final = datetime(2000, 1, 1, tzinfo=UTC)
"""What stands for the day of a book whose texts name none."""

LAST_MOMENT_S: Final = 253_402_300_799
"""The end of the year 9999, the last that a date in a package can name."""


@dataclass(frozen=True, slots=True)
class PackedPicture:
    """A picture as a page of the e-book shows it; without `href` only its words stand there."""

    href: str
    alt: str
    width: int | None
    height: int | None


@dataclass(frozen=True, slots=True)
class HeldPicture:
    """A picture file that the package holds."""

    href: str
    data: bytes
    media_type: str


@dataclass(slots=True)
class PictureBox:
    """Gathers the pictures that pages ask for, each under a plain name and once."""

    pictures: Pictures
    held: dict[str, HeldPicture | None] = field(default_factory=dict)
    all_worded: bool = True

    def packed(self, view: PictureView | None) -> PackedPicture | None:
        """Return a picture of a page, with its place in the package if it may be in one."""
        if view is None:
            return None
        held = self._hold(view.src.rpartition("../")[2])
        href = held.href if held else ""
        if href and not view.alt.strip():
            self.all_worded = False
        return PackedPicture(href, view.alt, view.width, view.height)

    def _hold(self, name: str) -> HeldPicture | None:
        """Return the place of a plain picture of the book; None where no e-book can hold it."""
        if name not in self.held:
            made = self.pictures.plain[name]
            unfit = made.media_type == SVG and drawing_fault(made.data)
            href = f"pictures/{name.removeprefix('images/').replace('/', '-')}"
            self.held[name] = None if unfit else HeldPicture(href, made.data, made.media_type)
        return self.held[name]

    def take(self, names: Iterable[str], *, all_worded: bool) -> None:
        """Gather pictures that a page shows which was made elsewhere."""
        for name in names:
            self._hold(name)
        self.all_worded = self.all_worded and all_worded

    def files(self) -> list[HeldPicture]:
        """Return the pictures to put into the package."""
        return [held for held in self.held.values() if held]


@dataclass(frozen=True, slots=True)
class Links:
    """What can be reached within a volume."""

    targets: frozenset[str]

    def reach(self, href: str) -> str:
        """Return a link as it is when the volume holds its end, else nothing."""
        return href if href in self.targets else ""


@dataclass(frozen=True, slots=True)
class Metadata:
    """What a package says of itself."""

    identifier: str
    title: str
    subtitle: str
    creator: str
    language: str
    modified: str
    date: str
    description: str
    collection: str


@dataclass(frozen=True, slots=True)
class Access:
    """What a package says of who can read it, in the words of the EPUB accessibility terms."""

    modes: tuple[str, ...]
    sufficient: tuple[str, ...]
    features: tuple[str, ...]
    hazard: str
    summary: str


def metadata(volume: Volume) -> Metadata:
    """Return what a volume's package says of it."""
    book, name = volume.desk.book, volume.name
    keys = book.book
    about = keys.series[name.series].about if name.series else keys.subtitle
    day = book_day(book)
    return Metadata(
        identifier(book, name.series),
        name.title,
        (keys.subtitle or "") if name.series is None else "",
        keys.author or "",
        keys.language,
        f"{moment(book):%Y-%m-%dT%H:%M:%SZ}",
        day.isoformat() if day else "",
        about or "",
        keys.title if name.series else "",
    )


def identifier(book: Manuscript, series: str | None) -> str:
    """Return a name that stays the same from edition to edition, and is no other book's.

    It is made from the book's address on the web, or from its title and author.
    """
    keys = book.book
    words = [keys.address] if keys.address else [keys.title, keys.author or ""]
    words += [series] if series else []
    space = uuid.NAMESPACE_URL if keys.address else uuid.NAMESPACE_OID
    return uuid.uuid5(space, "\n".join(words)).urn


def moment(book: Manuscript) -> datetime:
    """Return when the book's text is from: its newest day, or what SOURCE_DATE_EPOCH says.

    Raises
    ------
    CannotWriteError
        When SOURCE_DATE_EPOCH is no number of seconds.
    """
    said = os.environ.get(EPOCH, "").strip()
    if said:
        if not (said.isascii() and said.isdigit() and int(said) <= LAST_MOMENT_S):
            raise CannotWriteError(
                f'{EPOCH} is "{said}", which is no whole number of seconds since 1970. Unset it, '
                f"or write one such as {EPOCH}=1767225600."
            )
        return datetime.fromtimestamp(int(said), UTC)
    day = book_day(book)
    return datetime(day.year, day.month, day.day, tzinfo=UTC) if day else NO_DAY


def access(pictures: PictureBox, *, has_drawings: bool = False) -> Access:
    """Return what a package promises to those who read by ear, by touch or in large type.

    Drawings of the program's own stand in the pages, and all have their words.
    """
    files = has_drawings or pictures.files()
    worded = pictures.all_worded
    features = [
        "tableOfContents",
        "readingOrder",
        "structuralNavigation",
        "index",
        "displayTransformability",
        *(["alternativeText"] if files and worded else []),
    ]
    return Access(
        ("textual", "visual") if files else ("textual",),
        ("textual",) if worded else ("textual,visual",),
        tuple(features),
        "none",
        _summary(has_pictures=bool(files), worded=worded),
    )


def _summary(*, has_pictures: bool, worded: bool) -> str:
    said = [
        _(
            "All text flows and can be enlarged; no meaning hangs on colour. Tables have "
            "headings, and what is wide stands in lists."
        )
    ]
    if has_pictures and worded:
        said.append(_("Every picture has words in its place."))
    elif has_pictures:
        said.append(
            _("Some pictures have no words in their place; no amount or caution is only in one.")
        )
    return " ".join(said)
