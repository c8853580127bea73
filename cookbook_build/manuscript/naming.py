"""Names of files as people say them: by address, with capitals and spaces, or by title."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import nearest

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

LONGEST_NAME: Final = 500  # letters, more than any label has room for; our choice
LONGEST_ADDRESS: Final = 60
"""Letters of a file name made from a title; more is a burden on small devices."""
_DEVICES: Final = {"con", "prn", "aux", "nul"} | {
    f"{port}{n}" for port in ("com", "lpt") for n in [*range(10), "¹", "²", "³"]
}


def is_a_device(name: str) -> bool:
    """Return whether Windows keeps a file's name for a device, whatever ending it has."""
    return name.split(".", maxsplit=1)[0].strip().casefold() in _DEVICES


def plainly(name: str) -> str:
    """Return a name as an address would have it: lower case, its words joined by hyphens."""
    return "-".join(re.findall(r"\w+", name.casefold().replace("_", " ")))


def address_meant(written: str, titles: Mapping[str, str]) -> str | None:
    """Return the one address that a name means, by address or title, or None.

    `titles` holds the title of each address. Case, spaces, hyphens and signs are passed over.
    """
    if written in titles:
        return written
    plain = plainly(written)
    for names in ({address: address for address in titles}, titles):
        meant = {address for address, name in names.items() if plain and plainly(name) == plain}
        if len(meant) == 1:
            return meant.pop()
    return None


def nearest_address(
    written: str, titles: Mapping[str, str], others: Iterable[str] = ()
) -> str | None:
    """Return the address that is meant by a name, or the one whose name or title is most like it.

    `others` are addresses without a title, such as those of files that can't be read.
    """
    names = {plainly(title): address for address, title in titles.items()}
    names |= {plainly(address): address for address in (*others, *titles)}
    near = nearest(plainly(written), names)
    return address_meant(written, titles) or (names[near] if near else None)
