"""The container of an e-book: a zip of some entries behind the mimetype that each begins with.

What is much the same in each binding comes deflated already, which takes longer than all else.
"""

from __future__ import annotations

import zipfile
import zlib
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.publishing.carrying import EPUB, MEDIA_TYPES

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import datetime
    from pathlib import Path

MEDIA_TYPE: Final = MEDIA_TYPES[EPUB]
FIRST_YEAR, LAST_YEAR = 1980, 2107
"""The years that a zip can date its entries with (PKWARE APPNOTE, 4.4.6)."""
TIGHTEST: Final = 9


@dataclass(frozen=True, slots=True)
class Deflated:
    """A file as it lies in a zip: its bytes by RFC 1951, and what they are checked against."""

    data: bytes
    crc: int
    size: int

    @classmethod
    def of(cls, whole: bytes) -> Deflated:
        """Return a file deflated."""
        packer = zlib.compressobj(TIGHTEST, zlib.DEFLATED, -zlib.MAX_WBITS)
        return cls(packer.compress(whole) + packer.flush(), zlib.crc32(whole), len(whole))

    @property
    def whole(self) -> bytes:
        """The file."""
        return zlib.decompress(self.data, -zlib.MAX_WBITS)


class _Zip(zipfile.ZipFile):
    """A zip that takes what is deflated already."""

    def write_deflated(self, entry: zipfile.ZipInfo, file: Deflated) -> None:
        """Write an entry as `writestr` would, had it deflated the file."""
        assert self.fp is not None
        entry.CRC, entry.compress_size, entry.file_size = file.crc, len(file.data), file.size
        entry.header_offset = self.fp.tell()
        self.fp.write(entry.FileHeader(zip64=False))
        self.fp.write(file.data)
        self.filelist.append(entry)
        self.NameToInfo[entry.filename] = entry
        self.start_dir = self.fp.tell()
        self._didModify = True


def write_container(
    path: Path, entries: Iterable[tuple[str, bytes | Deflated]], when: datetime
) -> None:
    """Write a zip of some entries, all of one day."""
    with _Zip(path, "w") as zipped:
        zipped.writestr(_entry("mimetype", when, zipfile.ZIP_STORED), MEDIA_TYPE)
        for name, data in entries:
            file = data if isinstance(data, Deflated) else Deflated.of(data)
            zipped.write_deflated(_entry(name, when, zipfile.ZIP_DEFLATED), file)


def _entry(name: str, when: datetime, method: int) -> zipfile.ZipInfo:
    """Return an entry's head: the same on every machine."""
    year = min(max(when.year, FIRST_YEAR), LAST_YEAR)
    clock = (when.hour, when.minute, when.second)
    entry = zipfile.ZipInfo(name, (year, when.month, when.day, *clock))
    entry.compress_type = method
    entry.create_system = 3
    entry.external_attr = 0o644 << 16
    return entry
