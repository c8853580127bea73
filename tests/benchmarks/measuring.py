"""Measuring: what a command of its own process takes, in seconds, processor time and memory.

Memory is looked at while the command runs, and only where /proc tells it; elsewhere nothing is
said of it. A process alone counts with its high-water mark, which it may yet raise within the last
fiftieth of a second; several count with what they hold at a time, shared pages in parts.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

PROC: Final = Path("/proc")
LOOK_S: Final = 0.02
LOOKS_PER_FAMILY: Final = 50
"""Workers are looked for once a second, for that reads of every process there is."""


@dataclass(frozen=True, slots=True)
class Cost:
    """What a command took; no memory where the platform does not tell it."""

    seconds: float
    processor_s: float
    peak_mb: float | None


@dataclass(frozen=True, slots=True)
class Costs:
    """What a command took several times."""

    runs: tuple[Cost, ...]

    @property
    def seconds(self) -> float:
        """The median of the time that passed."""
        return median(run.seconds for run in self.runs)

    @property
    def spread_s(self) -> float:
        """From the quickest to the slowest."""
        taken = [run.seconds for run in self.runs]
        return max(taken) - min(taken)

    @property
    def processor_s(self) -> float:
        """The median of the processor time, of all processes together."""
        return median(run.processor_s for run in self.runs)

    @property
    def peak_mb(self) -> float | None:
        """The median of the peaks of memory."""
        known = [run.peak_mb for run in self.runs if run.peak_mb is not None]
        return median(known) if known else None


def cost_of(command: Sequence[str], environment: Mapping[str, str]) -> Cost:
    """Run a command to its end, and return what it took; one that fails ends the benchmark."""
    with tempfile.TemporaryFile("w+", encoding="utf-8", errors="replace") as said:
        before, began = _of_children(), time.perf_counter()
        process = subprocess.Popen(  # noqa: S603 - our own scripts and the program
            command, env=dict(environment), stdout=said, stderr=subprocess.STDOUT
        )
        memory = Memory(process.pid)
        while process.poll() is None:
            memory.look()
            time.sleep(LOOK_S)
        seconds = time.perf_counter() - began
        if process.returncode:
            said.seek(0)
            sys.exit(f"{' '.join(command)} ended with {process.returncode}:\n{said.read()[-4000:]}")
    return Cost(seconds, _of_children() - before, memory.peak_mb)


def _of_children() -> float:
    """Return the processor time of all children that have ended [s]."""
    times = os.times()
    return times.children_user + times.children_system


class Memory:
    """The peak of what a process and those it started hold together, as far as looks can tell."""

    def __init__(self, process: int) -> None:
        self.process, self.looks = process, 0
        self.peak_mb: float | None = None
        self.workers: list[int] = []

    def look(self) -> None:
        """Look once."""
        if self.looks % LOOKS_PER_FAMILY == 0:
            self.workers = list(_below(self.process))
        self.looks += 1
        with suppress(OSError):
            held = _field_mb(self.process, "status", "VmHWM:")
            if self.workers:
                family = (self.process, *self.workers)
                together = sum(_field_mb(one, "smaps_rollup", "Pss:") or 0 for one in family)
                held = max(held or 0, together)
            if held is not None:
                self.peak_mb = max(self.peak_mb or 0, held)


def _field_mb(process: int, file: str, name: str) -> float | None:
    """Return a figure that /proc has of a process [MB], None where it has none."""
    try:
        text = (PROC / str(process) / file).read_text(encoding="utf-8")
    except (FileNotFoundError, ProcessLookupError, PermissionError):
        return None
    for line in text.splitlines():
        if line.startswith(name):
            return int(line.split()[1]) * 1024 / 1e6
    return None


def _below(process: int) -> Iterable[int]:
    """Give the processes that one started, and those that they started."""
    parents: dict[int, list[int]] = {}
    for folder in PROC.glob("[0-9]*"):
        with suppress(OSError, ValueError):
            after_name = (folder / "stat").read_text(encoding="utf-8").rpartition(")")[2].split()
            parents.setdefault(int(after_name[1]), []).append(int(folder.name))
    waiting = list(parents.get(process, ()))
    while waiting:
        one = waiting.pop()
        yield one
        waiting += parents.get(one, ())
