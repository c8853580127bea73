"""Files that are taken along by themselves: an e-book, or the one file of a volume."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.publishing.wording import file_size
from cookbook_build.words import N_, _

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.publishing.editions import Folder
    from cookbook_build.publishing.epub_volumes import VolumeName

EPUB: Final = "epub"
ONE_FILE: Final = "one file"
IN_ONE_FILE: Final = "-in-one-file.html"
"""How the name of a volume's one file ends; no page of the folder has such a name at its top."""

LARGEST_BYTES: Final = 20_000_000
"""What mail still carries and an old tablet still opens; common practice, no source."""

ABOUT: Final = {
    ONE_FILE: N_(
        "As one file for any browser, to send in a message or copy to a tablet: pictures, "
        "choosers and ticks are in it, and nothing else is needed."
    ),
    EPUB: N_(
        "As an e-book (EPUB) for a reading device, or for the reading program of a phone: every "
        "size and way on the page."
    ),
}
MEDIA_TYPES: Final = {ONE_FILE: "text/html", EPUB: "application/epub+zip"}


@dataclass(frozen=True, slots=True)
class Carried:
    """One file: what it holds, its name in the folder, and how large it is."""

    title: str
    href: str
    bytes: int

    @property
    def size(self) -> str:
        """Its size in words."""
        return file_size(self.bytes)


@dataclass(frozen=True, slots=True)
class Offer:
    """What the cover offers of one edition."""

    about: str
    media_type: str
    files: tuple[Carried, ...]


def carried(name: VolumeName, file: str, filled: Folder) -> Carried:
    """Return a volume's file that was just written."""
    title = _("The whole book") if name.series is None else name.title
    return Carried(title, file, filled.size_bytes(file) or 0)


def offers(editions: Mapping[str, Sequence[Carried]]) -> tuple[Offer, ...]:
    """Return what the cover offers, in its order."""
    return tuple(
        Offer(_(about), MEDIA_TYPES[edition], tuple(editions[edition]))
        for edition, about in ABOUT.items()
        if editions.get(edition)
    )


def is_carried(name: str) -> bool:
    """Whether a file is taken along by itself: the pages say all that it says."""
    return name.endswith(".epub") or ("/" not in name and name.endswith(IN_ONE_FILE))


def check_sizes(
    editions: Mapping[str, Sequence[Carried]], book: Manuscript, findings: Findings
) -> None:
    """Warn of each file that is larger than the author wants one to be."""
    asked = book.book.largest_file
    limit_bytes = asked.si if asked else LARGEST_BYTES
    limit = asked.text if asked else file_size(LARGEST_BYTES)
    for files in editions.values():
        for at, file in enumerate(files):
            if file.bytes > limit_bytes:
                larger = file_size(two_figures_up(file.bytes))
                smaller = "send the files of its series instead, " if not at and files[1:] else ""
                findings.warning(
                    book.places.key("largest file"),
                    f'the file "{file.href}" holds {file.size}, more than the {limit} that a '
                    "file of this book may have",
                    f"show fewer or lighter pictures, {smaller}or write largest file: {larger}.",
                )


def two_figures_up(size_bytes: int) -> int:
    """Return a size rounded up to two figures: 230 kB of 225 301 bytes."""
    step: int = 10 ** max(len(str(size_bytes)) - 2, 0)
    return step * -(-size_bytes // step)
