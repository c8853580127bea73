"""Repetition within a drawing: a few elements that use each other may be drawn by the million."""

from __future__ import annotations

from collections import Counter
from graphlib import CycleError, TopologicalSorter
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from lxml import etree

MOST_DRAWN: Final = 200_000
"""Elements that a drawing may show with all repetitions; our choice, far above any drawing."""

_USE: Final = "{http://www.w3.org/2000/svg}use"
_HREFS: Final = ("href", "{http://www.w3.org/1999/xlink}href")


def repeats_without_end(root: etree._Element) -> bool:
    """Return whether a drawing repeats itself in a circle, or beyond what a reader can draw."""
    named = {element.get("id"): element for element in root.iter() if element.get("id")}
    targets = {target for use in root.iter(_USE) for target in _targets(use)} & named.keys()
    used = {target: _used(named[target]) for target in targets}
    try:
        order = list(TopologicalSorter(used).static_order())
    except CycleError:
        return True
    drawn: dict[str, int] = {}
    for target in order:
        own = sum(1 for _ in named[target].iter()) if target in named else 0
        drawn[target] = own + sum(
            times * drawn[inner] for inner, times in used.get(target, Counter()).items()
        )
    return sum(drawn[t] for t in _used(root).elements() if t in drawn) > MOST_DRAWN


def _used(element: etree._Element) -> Counter[str]:
    """Return which names are used within an element, and how often."""
    return Counter(target for use in element.iter(_USE) for target in _targets(use))


def _targets(use: etree._Element) -> list[str]:
    return [use.get(name).removeprefix("#") for name in _HREFS if use.get(name)][:1]
