"""Adding a line at the end of larder.yaml; all that stands there stays as it is."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from cookbook_build.findings import Findings
from cookbook_build.foods.lookup import normalised
from cookbook_build.manuscript.collection import read_shelf
from cookbook_build.manuscript.nodes import Keys, read_nodes
from cookbook_build.manuscript.source import Source
from cookbook_build.walking import real
from cookbook_build.whole_files import put

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from cookbook_build.manuscript.food_search import FoundFood
    from cookbook_build.manuscript.store_lines import StoreLine

FILE: Final = "larder.yaml"


class AddError(Exception):
    """A line that can't be added; says why, and what to do."""


def meant_food(found: Sequence[FoundFood], asked: str) -> FoundFood | None:
    """Return the one food that some words mean, or None where several may be meant."""
    if len(found) == 1:
        return found[0]
    names = {normalised(asked)}
    exact = [
        one for one in found if names & {normalised(n) for n in (one.called, *one.food.names) if n}
    ]
    return exact[0] if len(exact) == 1 else None


def add_line(folder: Path, kept: StoreLine) -> None:
    """Add a store's line to a book's larder, through a file beside that then takes its place.

    Raises
    ------
    AddError
        When the larder can't be read, or has a store of that name.
    OSError
        When the disk says no; the larder is then as it was.
    """
    findings = Findings()
    _, larder = read_shelf(folder, findings)
    if larder is None:
        raise AddError("larder.yaml can't be read; cookbook-build proof says why.")
    if taken := larder.names.get(normalised(kept.name)):
        raise AddError(
            f'the larder has a store that is called "{kept.name}" ({taken}); copy this line, and '
            f"give it another name: {kept.line}"
        )
    path = real(folder / FILE)
    before = path.read_bytes()
    line_end = next((end for end in ("\r\n", "\n", "\r") if end.encode() in before), "\n")
    gap = "" if not before or before.endswith((b"\n", b"\r")) else line_end
    added = f"{gap}{kept.line}{line_end}"
    if not _holds(before.decode("utf-8-sig") + added, kept.name):
        raise AddError(
            "no line can be added at the end of larder.yaml as it is written; put this one "
            f"where it belongs: {kept.line}"
        )
    put(path, before + added.encode())


def _holds(text: str, name: str) -> bool:
    """Return whether a larder's text is sound, and its last line is the store of this name."""
    findings = Findings()
    root = read_nodes(Source.of(FILE, text), findings, text)
    if not isinstance(root, Keys) or findings.gathered:
        return False
    return root.pairs[-1][0].text == name
