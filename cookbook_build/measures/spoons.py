"""Friendly measures: any volume as at most two kitchen measures that a cook owns.

The ladder of shown volumes is fixed for each choice of measures, and a volume is shown as its
nearest rung; so rounding never falls while the volume grows. The rungs are chosen once, as the
cheapest path through all pairs of measures (cups with ¼ ⅓ ½ ⅔ ¾; tablespoons with ½, up to 3;
teaspoons with ⅛ ¼ ½ ¾, up to 2½) whose gaps keep the error within 3.5 % or half a teaspoon.
"""

from __future__ import annotations

import bisect
import functools
import math
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final, NamedTuple

from cookbook_build.measures.amounts import number_text
from cookbook_build.measures.units import SYSTEMS, unit_name
from cookbook_build.words import _

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cookbook_build.measures.units import System

RELATIVE_ERROR: Final = 0.035
TSP_ERROR: Final = 0.5
LARGEST_CUPS: Final = 1000
PLAIN_CUPS: Final = 16  # from here on half cups are fine enough

# volumes on the ladder are whole numbers of 1/24 teaspoon: the finest that ⅛ tsp and ⅓ cup share
_TSP: Final = 24
_TBSP: Final = 3 * _TSP
_SAME: Final = 0.01
_TIE: Final = 1e-9  # what the last bits of two sums may differ by
_CUP_PARTS: Final = tuple(Fraction(*p) for p in ((0, 1), (1, 4), (1, 3), (1, 2), (2, 3), (3, 4)))
_TSP_PARTS: Final = tuple(Fraction(*p) for p in ((1, 8), (1, 4), (1, 2), (3, 4)))


@dataclass(frozen=True, slots=True)
class Spoons:
    """A volume as at most two kitchen measures: `((3/4, "cup"), (1, "tbsp"))`."""

    parts: tuple[tuple[Fraction, str], ...]
    ml: Fraction

    def __str__(self) -> str:
        return "\N{NO-BREAK SPACE}+ ".join(
            _part_text(number, unit) for number, unit in self.parts
        ) or _("none")


@dataclass(frozen=True, slots=True)
class Pour:
    """What to pour first, what to keep back, and both together: shown values that add up."""

    start: Spoons
    hold_back: Spoons
    together: Spoons


class _Rung(NamedTuple):
    size: int  # in 1/24 teaspoon
    fuss: float  # how much it asks of a cook: 0 for a plain cup
    parts: tuple[tuple[Fraction, str], ...]


def tolerance_ml(volume_ml: float, system: System) -> float:
    """Return the largest error [mL] that a shown volume may have."""
    return max(RELATIVE_ERROR * volume_ml, TSP_ERROR * float(SYSTEMS[system].ml["tsp"]))


def friendly(volume_ml: float, system: System) -> Spoons:
    """Return the kitchen measures to show for a volume [mL]."""
    measures = SYSTEMS[system]
    if volume_ml <= 0:
        return Spoons((), Fraction(0))
    size = _size(volume_ml, system)
    rungs = _ladder(system)
    if size > rungs[-1].size:
        cups = Fraction(round(volume_ml / float(measures.ml["cup"])))
        return Spoons(((cups, "cup"),), cups * measures.ml["cup"])
    at = bisect.bisect_left(rungs, size, key=_rung_size)
    # in a tie the smaller one, whatever the last bit of a sum is
    near = min(rungs[max(at - 1, 0) : at + 1], key=lambda r: round(abs(r.size - size), 6))
    return _spoons(near, system)


def exact(volume_ml: Fraction, system: System) -> Spoons | None:
    """Return the kitchen measures that hold just this volume [mL], if two do."""
    size = volume_ml / SYSTEMS[system].ml["tsp"] * _TSP
    rung = _every(system).get(int(size)) if size.denominator == 1 else None
    return _spoons(rung, system) if rung else None


def shown(volume_ml: Fraction, system: System) -> Spoons:
    """Return the measures for a written ingredient [mL]: exact if two hold it, else friendly."""
    return exact(volume_ml, system) or friendly(float(volume_ml), system)


@functools.lru_cache(maxsize=65536)
def pour(start_ml: float, hold_back_ml: float, system: System) -> Pour:
    """Return start, hold-back and their sum [mL], each friendly, so that the shown values add up.

    Start and sum stay within the tolerance; the hold-back is their difference, and stays
    within it too wherever the pairs of measures let it. A sum that two measures hold exactly,
    such as a tested amount, is kept.
    """
    start, hold = _size(start_ml, system), _size(hold_back_ml, system)
    every = _every(system)
    best: tuple[float, _Rung, _Rung, _Rung] | None = None
    starts = [(first, first.size, _off(first.size, start)) for first in _near(start, system)]
    allowed, size_of = _allowed(hold), every.get
    for together in _near(start + hold, system):
        size, whole = together.size, 2 * _off(together.size, start + hold)
        bonus = 2 * (abs(together.size - start - hold) < _SAME)
        for first, first_size, first_off in starts:
            kept = size_of(size - first_size)
            if kept is None:
                continue
            off = abs(kept.size - hold) / allowed
            cost = whole + first_off + off
            cost += first.fuss + kept.fuss + 2 * together.fuss + (10 * (off - 1) if off > 1 else 0)
            cost -= bonus
            if best is None or cost < best[0] - _TIE:
                best = cost, first, kept, together
    if best:
        return Pour(*(_spoons(rung, system) for rung in best[1:]))
    return _whole_cups(start_ml, hold_back_ml, system)


def _whole_cups(start_ml: float, hold_back_ml: float, system: System) -> Pour:
    """Return a pour beyond the ladder, in whole cups."""
    cup = SYSTEMS[system].ml["cup"]
    start, hold = (max(1, round(ml / float(cup))) for ml in (start_ml, hold_back_ml))
    numbers = (Fraction(number) for number in (start, hold, start + hold))
    return Pour(*(Spoons(((number, "cup"),), number * cup) for number in numbers))


def _size(volume_ml: float, system: System) -> float:
    return volume_ml / float(SYSTEMS[system].ml["tsp"]) * _TSP


def _spoons(rung: _Rung, system: System) -> Spoons:
    return Spoons(rung.parts, rung.size * SYSTEMS[system].ml["tsp"] / _TSP)


def _rung_size(rung: _Rung) -> int:
    return rung.size


def _allowed(size: float) -> float:
    return max(RELATIVE_ERROR * size, TSP_ERROR * _TSP) * (1 + 1e-9)


def _off(shown_size: float, size: float) -> float:
    """Return how far a shown size is from the computed one, in tolerances."""
    return abs(shown_size - size) / _allowed(size)


def _near(size: float, system: System) -> Sequence[_Rung]:
    """Return the measures within the tolerance of a size, in rising order."""
    rungs = _every_in_order(system)
    low = bisect.bisect_left(rungs, size - _allowed(size), key=_rung_size)
    return rungs[low : bisect.bisect_right(rungs, size + _allowed(size), key=_rung_size)]


@functools.cache
def _every(system: System) -> dict[int, _Rung]:
    """Return each size that one or two measures hold, with its least fussy spelling."""
    cup = int(SYSTEMS[system].ml["cup"] / SYSTEMS[system].ml["tsp"] * _TSP)
    most_tbsp, most_tsp = SYSTEMS[system].largest_tbsp, SYSTEMS[system].largest_tsp
    numbers = [n + p for n in range(PLAIN_CUPS) for p in _CUP_PARTS if n + p]
    numbers += [Fraction(n, 2) for n in range(2 * PLAIN_CUPS, 2 * LARGEST_CUPS + 1)]
    cups = [_cups(number, cup) for number in numbers]
    spoons = [_tbsp(Fraction(n, 2)) for n in range(1, int(2 * most_tbsp) + 1)]
    steps = [n + p for n in range(4) for p in (Fraction(0), *_TSP_PARTS)]
    quarters = [step for step in steps if 0 < step <= Fraction(5, 2) and step * 4 % 1 == 0]
    fine = [_tsp(step) for step in (Fraction(1, 8), *quarters)]
    small = [rung for rung in fine if rung.size < _TSP]
    coarse = [_tsp(step) for step in steps if 0 < step <= most_tsp and step * 2 % 1 == 0]
    found: dict[int, _Rung] = {}
    # above 8 cups the cup's own parts are fine enough
    pairs = [_both(a, b) for a in cups if a.size < 8 * cup for b in (*spoons, *coarse)]
    pairs += [_both(a, b) for a in spoons for b in coarse if b.size < a.size]
    pairs += [_both(a, b) for a in small for b in small if b.size < a.size < a.size + b.size < _TSP]
    for rung in (*cups, *spoons, *fine, *pairs):
        known = found.get(rung.size)
        if known is None or rung.fuss < known.fuss:
            found[rung.size] = rung
    return found


def _cups(number: Fraction, cup: int) -> _Rung:
    return _Rung(
        int(number * cup), 0.0 if number % Fraction(1, 2) == 0 else 0.05, ((number, "cup"),)
    )


def _tbsp(number: Fraction) -> _Rung:
    return _Rung(int(number * _TBSP), 0.05 if number % 1 == 0 else 0.3, ((number, "tbsp"),))


def _tsp(number: Fraction) -> _Rung:
    fuss = 0.1 if number % 1 == 0 else 0.25 if number % Fraction(1, 2) == 0 else 0.5
    fuss += 0.4 * (number >= 3)  # a tablespoon says it better
    return _Rung(int(number * _TSP), fuss, ((number, "tsp"),))


def _both(large: _Rung, small: _Rung) -> _Rung:
    return _Rung(
        large.size + small.size, 0.3 + large.fuss + small.fuss, (*large.parts, *small.parts)
    )


@functools.cache
def _every_in_order(system: System) -> tuple[_Rung, ...]:
    return tuple(sorted(_every(system).values()))


@functools.cache
def _ladder(system: System) -> tuple[_Rung, ...]:
    """Return the rungs: every plain measure, and as few fussy ones as the tolerance needs."""
    every = _every_in_order(system)
    reached: list[tuple[float, int]] = [(0.0, -1)]
    for here in range(1, len(every)):
        best = (math.inf, -1)
        for before in range(here - 1, -1, -1):
            gap = every[here].size - every[before].size
            if gap / 2 > _allowed((every[here].size + every[before].size) / 2):
                break
            best = min(best, (reached[before][0] + every[here].fuss - _worth(every[here]), before))
        reached.append(best)
    path = [len(every) - 1]
    while path[-1] > 0:
        path.append(reached[path[-1]][1])
    return tuple(every[at] for at in reversed(path))


def _worth(rung: _Rung) -> float:
    """Return how much fuss a rung may be and still earn its place unasked."""
    return 0.51 if rung.size > _TSP or len(rung.parts) > 1 else 1.0


def _part_text(number: Fraction, unit: str) -> str:
    return f"{number_text(number)}\N{NO-BREAK SPACE}{unit_name(unit, several=number > 1)}"
