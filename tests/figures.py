"""Figures that a run of the tests found and tells at its end: what was tried, and how often."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Callable

PREFIX: Final = "figure: "


def figure(record_property: Callable[[str, object], None], what: str, number: int) -> None:
    """Tell a figure at the end of the run, from whichever worker."""
    record_property(PREFIX + what, number)
