"""Lots: what stands on the shelf, until when at its best, and which menu has reserved it."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from math import fsum
from typing import TYPE_CHECKING, Final, Literal

from cookbook_build.kitchen.cautions import ABSORBER_MOISTURE

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping

    from cookbook_build.findings import Place
    from cookbook_build.preserving.quality_bases import Package

LEAST_G: Final = 0.05
"""Less than that is nothing on a kitchen scale, and is left; our choice."""

Refusal = Literal["", "damp", "still drying"]
WhyLeft = Literal[Refusal, "packed later", "past its best", "reserved"]
WhyUntil = Literal["eaten", "packed", "newest"]
"""Until a menu's last meal; without a date, until it is packed or the newest day of the book."""


@dataclass(frozen=True, slots=True)
class Lot:
    """One dated container of a store."""

    store: str
    name: str
    packed: dt.date
    container: str
    grams: float
    best_by: dt.date
    moisture: float | None  # from the drying log, where it was weighed
    place: Place
    package: Package = "plain"  # how its container keeps it
    assumed: str = ""  # what was assumed of the container, where its name doesn't tell
    caution: str = ""  # what to check before it is sealed
    least_moisture: float | None = None  # where the log only bounds it
    lost_share: float = 0.0  # in its last hour, where that was too much for it to be dry

    @property
    def sure_moisture(self) -> float | None:
        """What it holds of water for sure: by its weights, or at the least."""
        return self.least_moisture if self.moisture is None else self.moisture

    @property
    def is_damp(self) -> bool:
        """Whether the log shows it too damp for sealed keeping."""
        return self.sure_moisture is not None and self.sure_moisture > ABSORBER_MOISTURE

    @property
    def holds(self) -> str:
        """How much water it holds, in words."""
        least = "at least " if self.moisture is None else ""
        return f"holds {least}{100 * (self.sure_moisture or 0.0):.0f} % water"

    @property
    def refusal(self) -> Refusal:
        """Why its weights forbid to count on it and to seal it; empty where they don't."""
        if self.is_damp:
            return "damp"
        return "still drying" if self.lost_share else ""


@dataclass(frozen=True, slots=True)
class Reckoned:
    """Until when a menu is reckoned with the shelf, and why until then."""

    last: dt.date
    why: WhyUntil


@dataclass(frozen=True, slots=True)
class Taken:
    """What is taken from one lot."""

    lot: Lot
    grams: float
    reckoned: Reckoned | None = None  # of a menu without a date, of its soonest lot


@dataclass(frozen=True, slots=True)
class Left:
    """A lot that a menu wanted and left on the shelf, and why."""

    lot: Lot
    why: WhyLeft
    packed: dt.date | None = None  # when the menu is, where that is before the lot
    reckoned: Reckoned | None = None  # where the lot is past its best by then
    menus: tuple[str, ...] = ()  # titles of those that reserved it


@dataclass(frozen=True, slots=True)
class Turn:
    """When a menu takes from the shelf: on the day it is packed, to be eaten until a last day."""

    title: str
    packed: dt.date | None = None
    eaten: dt.date | None = None
    is_dated: bool = True  # whether the menu says when it begins

    def reckoned_to(self, day: dt.date | None) -> dt.date | None:
        """Return the last day that a lot must be at its best on, with the book's newest day."""
        days = (day, self.eaten) if self.is_dated else (day, self.packed)
        return max((each for each in days if each), default=None)

    def reckoned(self, last: dt.date) -> Reckoned:
        """Return until when it is reckoned with the shelf, and why until then."""
        if self.is_dated:
            return Reckoned(last, "eaten")
        return Reckoned(last, "packed" if last == self.packed else "newest")


class Reserves:
    """The shelf while menus reserve from it: first what is first past its best."""

    def __init__(
        self,
        lots: Mapping[str, tuple[Lot, ...]],
        turn: Turn | None = None,
        taken: dict[int, dict[str, float]] | None = None,
    ) -> None:
        self.lots = lots
        self._turn = turn or Turn("")
        self._taken = defaultdict(dict) if taken is None else taken  # by lot, and by menu
        self.passed: dict[str, list[Left]] = defaultdict(list)

    def for_menu(self, turn: Turn) -> Reserves:
        """Return the same shelf in the turn of one menu; `passed` is what that menu left."""
        return Reserves(self.lots, turn, self._taken)

    def left_g(self, lot: Lot) -> float:
        """Return what nobody has reserved of a lot [g]."""
        return lot.grams - fsum(self._taken[id(lot)].values())

    def reserve(self, store: str, grams: float, day: dt.date | None) -> tuple[Taken, ...]:
        """Take up to some grams of a store from lots that are dry and in date on a day."""
        taken = []
        for lot in self.lots.get(store, ()):
            if grams <= 0:
                break
            left = self._why_left(lot, day)
            if left:
                self.passed[store].append(left)
                continue
            take = min(self.left_g(lot), grams)
            taken.append(Taken(lot, take))
            menus = self._taken[id(lot)]
            menus[self._turn.title] = menus.get(self._turn.title, 0.0) + take
            grams -= take
        return tuple(taken)

    def _why_left(self, lot: Lot, day: dt.date | None) -> Left | None:
        """Return why a lot can't serve this turn, if it can't."""
        turn = self._turn
        if lot.refusal:
            return Left(lot, lot.refusal)
        packed = turn.packed or day
        if packed and lot.packed > packed:
            return Left(lot, "packed later", packed=packed)
        last = turn.reckoned_to(day)
        if last and lot.best_by < last:
            return Left(lot, "past its best", reckoned=turn.reckoned(last))
        if self.left_g(lot) <= LEAST_G:
            return Left(lot, "reserved", menus=tuple(filter(None, self._taken[id(lot)])))
        return None
