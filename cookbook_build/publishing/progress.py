"""Progress of what takes a while, shown on a terminal and nowhere else."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from rich.console import Console
from rich.progress import track

if TYPE_CHECKING:
    from collections.abc import Iterable

Thing = TypeVar("Thing")


def watched(things: Iterable[Thing], doing: str, total: int) -> Iterable[Thing]:
    """Give things one by one, with a bar that shows how many are done."""
    console = Console(stderr=True)
    return track(
        things,
        description=doing,
        total=total,
        console=console,
        transient=True,
        disable=not console.is_terminal,
    )
