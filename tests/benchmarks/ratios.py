"""The table of ratios: each row of a size beside its floor and its goal, and how both grow."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tests.benchmarks.measuring import Costs

FLOOR: Final = "the floor"
FOLDER: Final = "cold, folder of pages alone"
COLD: Final = "cold, all editions"
UNCHANGED: Final = "nothing changed"
WORDS: Final = "one recipe's words edited"
AMOUNT: Final = "one recipe's amount edited"
PREVIEW: Final = "preview, edit to reload"
ROWS: Final = {
    FLOOR: "floor",
    FOLDER: "cold-folder",
    COLD: "cold-all",
    UNCHANGED: "unchanged",
    WORDS: "words",
    AMOUNT: "recipe",
    "larder edited": "larder",
    "theme edited": "theme",
    PREVIEW: "preview",
}
"""What is measured, in its order, and the word that `--only` has for it."""
TIME_GOALS: Final = {FOLDER: 1.0, COLD: 2.0, UNCHANGED: 0.05, WORDS: 0.05, AMOUNT: 0.05}
"""How many times as long as the floor each may take."""
PREVIEW_GOAL_S: Final = 0.150
MEMORY_GOAL: Final = 2.0
"""How many times as much as the floor a bind may hold."""
GROWTH: Final = (1_000, 10_000)
TIME_GROWTH_GOAL: Final = 11.0
MEMORY_GROWTH_GOAL: Final = 6.0
WIDTH: Final = 30


@dataclass(frozen=True, slots=True)
class Judged:
    """A figure beside its goal, if it has one."""

    figure: float | None
    goal: float | None

    @property
    def is_met(self) -> bool | None:
        """Whether the goal is met; None where there is no goal, or no figure."""
        return None if self.goal is None or self.figure is None else self.figure <= self.goal

    def words(self, unit: str, digits: int = 2) -> str:
        """Return both as they stand in the table."""
        if self.figure is None:
            return "-"
        goal = "" if self.goal is None else f" (goal {self.goal:g}{unit}: {self._verdict()})"
        return f"{self.figure:.{digits}f}{unit}{goal}"

    def _verdict(self) -> str:
        return "met" if self.is_met else "not met"


@dataclass(frozen=True, slots=True)
class Size:
    """What was measured with a book of some size."""

    recipes: int
    rows: Mapping[str, Costs]

    def time(self, what: str) -> Judged:
        """Return how long a row took, in floors; the preview's goal is in seconds."""
        floor = self.rows.get(FLOOR)
        ratio = self.rows[what].seconds / floor.seconds if floor else None
        return Judged(ratio, TIME_GOALS.get(what))

    def processor(self, what: str) -> float | None:
        """Return how much processor time a row took, in floors: steadier on a busy machine."""
        floor = self.rows.get(FLOOR)
        taken = self.rows[what].processor_s
        return taken / floor.processor_s if floor and floor.processor_s and taken else None

    def memory(self, what: str) -> Judged:
        """Return how much a row held at its peak, in floors."""
        floor, held = self.rows.get(FLOOR), self.rows[what].peak_mb
        goal = MEMORY_GOAL if what in {FOLDER, COLD} else None
        if floor is None or floor.peak_mb is None or held is None:
            return Judged(None, goal)
        return Judged(held / floor.peak_mb, goal)

    def as_json(self) -> dict[str, Any]:
        """Return it for tools."""
        return {
            "recipes": self.recipes,
            "rows": {ROWS[what]: self._row_as_json(what) for what in self.rows},
        }

    def _row_as_json(self, what: str) -> dict[str, Any]:
        costs, time, memory = self.rows[what], self.time(what), self.memory(what)
        if what == PREVIEW:
            time = Judged(time.figure, None)
        return {
            "what": what,
            "runs": len(costs.runs),
            "seconds": costs.seconds,
            "spread_s": costs.spread_s,
            "processor_s": costs.processor_s,
            "processor_times_floor": self.processor(what),
            "peak_mb": costs.peak_mb,
            "times_floor": time.figure,
            "times_floor_goal": time.goal,
            "peak_times_floor": memory.figure,
            "peak_times_floor_goal": memory.goal,
            "goal_s": PREVIEW_GOAL_S if what == PREVIEW else None,
        }


def table(size: Size) -> Iterator[str]:
    """Give the lines of one size's table."""
    yield f"{size.recipes:,} recipes"
    yield (
        f"{'what':<{WIDTH}}{'seconds':>9}{'spread':>8}{'cpu s':>8}{'x floor':>9}{'peak MB':>9}  "
        f"{'time, x floor':<32}peak, x floor"
    )
    for what, costs in size.rows.items():
        peak = "-" if costs.peak_mb is None else f"{costs.peak_mb:.0f}"
        cpu = f"{costs.processor_s:.2f}" if costs.processor_s else "-"
        ratio = Judged(size.processor(what), None).words("")
        time = size.time(what).words("")
        if what == PREVIEW:
            time = Judged(costs.seconds * 1000, PREVIEW_GOAL_S * 1000).words(" ms", 0)
        yield (
            f"{what:<{WIDTH}}{costs.seconds:>9.2f}{costs.spread_s:>8.2f}{cpu:>8}{ratio:>9}"
            f"{peak:>9}  "
            f"{time:<32}{size.memory(what).words('')}"
        ).rstrip()


def growth(sizes: Sequence[Size]) -> Iterator[str]:
    """Give how much more the largest size takes than a tenth of it, where both were measured."""
    small, large = (next((s for s in sizes if s.recipes == n), None) for n in GROWTH)
    if small is None or large is None:
        return
    yield f"growth from {GROWTH[0]:,} to {GROWTH[1]:,} recipes"
    for what in (FLOOR, FOLDER, COLD):
        if what not in small.rows or what not in large.rows:
            continue
        one, ten = small.rows[what], large.rows[what]
        is_ours = what != FLOOR
        time = Judged(ten.seconds / one.seconds, TIME_GROWTH_GOAL if is_ours else None)
        known = one.peak_mb is not None and ten.peak_mb is not None
        held = (ten.peak_mb or 0) / (one.peak_mb or 1) if known else None
        memory = Judged(held, MEMORY_GROWTH_GOAL if is_ours else None)
        yield f"{what:<{WIDTH}}time {time.words(''):<32}peak {memory.words('')}"
