"""Trays in the fewest loads: first-fit decreasing, lighter trays, and a search of limited length.

Two limits to a load, trays and water [g]; which foods may share one is settled before.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import islice
from math import ceil, fsum, inf
from typing import TYPE_CHECKING, Final, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

SLACK: Final = 1e-9
"""Part of a capacity that is let pass, so that what just fits still fits; our choice."""

MOST_STEPS: Final = 50_000
MOST_LOOKS: Final = 400_000
MOST_SEARCHED: Final = 60
"""Steps of the search for a plan of so many loads, looks of a batch into a load while trays are
made lighter, and loads and batches above which nothing is searched: our choice, each of the first
two about a tenth of a second."""

Counts: TypeAlias = dict[int, int]
"""Trays of a load, by the place of their batch."""


@dataclass(frozen=True, slots=True)
class Fitted:
    """On how many trays each batch lies, and which loads they make."""

    trays: tuple[int, ...]
    loads: list[Counts]


class Fitting:
    """Batches that may share loads: their water, the fewest trays of each, and what a load takes.

    A plan may lay a batch evenly on more trays than the fewest.
    """

    def __init__(
        self, water_g: list[float], least: tuple[int, ...], most_trays: int, ice_g: float | None
    ) -> None:
        self.water, self.least, self.most_trays = water_g, least, most_trays
        self.ice = inf if ice_g is None else ice_g * (1 + SLACK)

    def bound(self) -> int:
        """Return the loads that trays and water call for."""
        by_water = ceil(fsum(self.water) / self.ice - SLACK / 1000) if self.ice < inf else 1
        return max(ceil(sum(self.least) / self.most_trays), by_water)

    def fewest(self) -> tuple[Fitted, int]:
        """Return the best plan found, and the proven bound."""
        bound = self.bound()
        best = self.first_fit(self.least)
        for trays in islice(self.lighter(), self.tries(len(best.loads))):
            if len(best.loads) == bound or sum(trays) > (len(best.loads) - 1) * self.most_trays:
                break
            best = min(best, self.first_fit(trays), key=lambda fitted: len(fitted.loads))
        if max(len(best.loads), len(self.water)) > MOST_SEARCHED:
            return best, bound
        for loads in range(bound, len(best.loads)):
            search = Search(self, loads)
            found = search.plan()
            if found:
                return found, bound
            if search.steps <= MOST_STEPS and bound == loads:
                bound += 1
        return best, bound

    def tries(self, loads: int) -> int:
        """Return how often first fit may be tried, with 4 orders each time."""
        return MOST_LOOKS // (4 * loads * len(self.water))

    def lighter(self) -> Iterator[tuple[int, ...]]:
        """Give one tray more at a time to the batch whose trays are wettest, without end."""
        trays = list(self.least)
        while True:
            wettest = max(range(len(trays)), key=lambda at: self.water[at] / trays[at])
            trays[wettest] += 1
            yield tuple(trays)

    def first_fit(self, trays: tuple[int, ...]) -> Fitted:
        """Return the best of first-fit decreasing in a few orders; the earliest of equals."""
        each = [water / count for water, count in zip(self.water, trays, strict=True)]
        keys: tuple[Callable[[int], float], ...] = (
            lambda at: self.water[at],  # a batch stays together
            lambda at: each[at],
            lambda at: trays[at],
        )
        orders = [sorted(range(len(trays)), key=key, reverse=True) for key in keys]
        orders.append(_from_both_ends(orders[1]))
        fitted = (Fitted(trays, self.filled(order, trays, each)) for order in orders)
        return min(fitted, key=lambda one: len(one.loads))

    def filled(self, order: list[int], trays: tuple[int, ...], each: list[float]) -> list[Counts]:
        """Return the loads that first fit makes of the batches in an order."""
        loads: list[tuple[Counts, float]] = []
        for at in order:
            left = trays[at]
            for place, (counts, water) in enumerate(loads):
                fits = self.room(self.most_trays - sum(counts.values()), self.ice - water, each[at])
                taken = min(left, fits)
                if taken:
                    counts[at] = taken
                    loads[place] = (counts, water + taken * each[at])
                    left -= taken
            while left:
                taken = min(left, self.room(self.most_trays, self.ice, each[at]))
                loads.append(({at: taken}, taken * each[at]))
                left -= taken
        return [counts for counts, _ in loads]

    @staticmethod
    def room(free_trays: int, free_g: float, each_g: float) -> int:
        """Return how many trays of one water fit into what is free."""
        if free_trays * each_g <= max(free_g, 0.0):
            return free_trays
        return max(0, int(free_g / each_g))


def _from_both_ends(order: list[int]) -> list[int]:
    """Return the first, the last, the second, the last but one, and so on."""
    left = list(order)
    return [left.pop(0 if turn % 2 == 0 else -1) for turn in range(len(order))]


Free: TypeAlias = tuple[int, float]
"""Trays and water that a load still takes."""


class Search:
    """Tries all ways to make do with a number of loads, until they or the steps run out.

    Batches are placed in turn, on any number of trays that holds them. Loads in one state are
    alike, so only the descending ways to share trays among them are tried, and a state from which
    nothing came is not entered twice.
    """

    def __init__(self, fitting: Fitting, loads: int) -> None:
        self.fitting, self.steps = fitting, 0
        self.start: tuple[Free, ...] = ((fitting.most_trays, fitting.ice),) * loads
        self.dead: set[tuple[int, tuple[Free, ...]]] = set()
        least, water = fitting.least, fitting.water
        self.least_after = [sum(least[at:]) for at in range(len(least) + 1)]
        self.water_after = [fsum(water[at:]) for at in range(len(water) + 1)]

    def plan(self) -> Fitted | None:
        """Return a plan, or None if none was found."""
        shares = self.place(0, self.start)
        if shares is None:
            return None
        loads: list[Counter[int]] = [Counter() for _ in self.start]
        for at, share in enumerate(shares):
            for load, count in zip(loads, share, strict=True):
                load[at] = count
        counts = [{at: count for at, count in load.items() if count} for load in loads]
        return Fitted(tuple(map(sum, shares)), [load for load in counts if load])

    def place(self, at: int, free: tuple[Free, ...]) -> list[tuple[int, ...]] | None:
        """Return how many trays of each batch from here on go to each load."""
        if at == len(self.fitting.water):
            return []
        state = (at, tuple(sorted(free)))
        if state in self.dead or self.hopeless(at, free):
            return None
        self.dead.add(state)
        slots = sum(trays for trays, _ in free) - self.least_after[at + 1]
        for trays in range(self.fitting.least[at], slots + 1):
            each = self.fitting.water[at] / trays
            rooms = [self.fitting.room(*load, each) for load in free]
            for share in self.shares(trays, rooms, free):
                after = tuple(
                    (left - count, water - count * each)
                    for (left, water), count in zip(free, share, strict=True)
                )
                rest = self.place(at + 1, after)
                if rest is not None:
                    return [share, *rest]
        return None

    def hopeless(self, at: int, free: tuple[Free, ...]) -> bool:
        """Return whether the rest can't fit, however light its trays."""
        trays = sum(left for left, _ in free)
        water = fsum(water for left, water in free if left)
        return trays < self.least_after[at] or water < self.water_after[at] * (1 - SLACK)

    def shares(
        self, trays: int, rooms: list[int], free: tuple[Free, ...]
    ) -> Iterator[tuple[int, ...]]:
        """Give all ways to share trays among loads; among loads in one state, descending ones."""
        room_after = [sum(rooms[place + 1 :]) for place in range(len(rooms))]

        def given(place: int, left: int, before: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
            self.steps += 1
            if place == len(rooms) or self.steps > MOST_STEPS:
                if left == 0 and place == len(rooms):
                    yield before
                return
            alike = place > 0 and free[place] == free[place - 1]
            most = min(left, rooms[place], before[-1] if alike else left)
            for count in range(most, max(0, left - room_after[place]) - 1, -1):
                yield from given(place + 1, left - count, (*before, count))

        return given(0, trays, ())
