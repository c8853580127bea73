"""Temperatures over time: what a dish keeps and what it has lost, at any moment of its rest."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from math import exp, expm1, inf, log
from typing import Protocol


class Warmth(Protocol):
    """How the temperature of a dish runs over its rest, and what leaves it."""

    @property
    def start_c(self) -> float:
        """Temperature at the start [°C]."""

    def temp_c(self, after_s: float) -> float:
        """Return the temperature after a time [°C]."""

    def mean_c(self, after_s: float) -> float:
        """Return the mean temperature from the start to a time [°C]."""

    def lost_g(self, after_s: float) -> float:
        """Return the water gone by a time [g]."""


@dataclass(frozen=True, slots=True)
class Relaxation:
    """A lump that nears the air's temperature exponentially and loses no water.

    Parameters
    ----------
    start_c : float
        Temperature at the start. [°C]
    air_c : float
        Temperature that it nears. [°C]
    tau_s : float
        Time constant; infinite for a lump that keeps its temperature. [s]

    Notes
    -----
    .. math:: T(t) = T_a + (T_0 - T_a) e^{-t/τ}

    Examples
    --------
    >>> round(Relaxation(95.0, 20.0, 3600.0).temp_c(3600.0), 1)
    47.6
    """

    start_c: float
    air_c: float
    tau_s: float

    def temp_c(self, after_s: float) -> float:
        """Return the temperature after a time [°C]."""
        return self.air_c + (self.start_c - self.air_c) * exp(-after_s / self.tau_s)

    def mean_c(self, after_s: float) -> float:
        """Return the mean temperature from the start to a time [°C]."""
        times = after_s / self.tau_s
        if times < 1e-12:  # too short to tell: our choice
            return self.start_c
        return self.air_c - (self.start_c - self.air_c) * expm1(-times) / times

    def lost_g(self, after_s: float) -> float:  # noqa: ARG002 - the protocol's argument
        """Return the water gone by a time: none [g]."""
        return 0.0

    def time_to_s(self, temp_c: float) -> float:
        """Return when a temperature between start and air is reached, infinite if never [s]."""
        ratio = (temp_c - self.air_c) / (self.start_c - self.air_c)
        if ratio >= 1:
            return 0.0
        return -self.tau_s * log(ratio) if ratio > 0 else inf


@dataclass(frozen=True, slots=True)
class Cooling:
    """A cooling computed step by step: temperatures and what left, at rising times.

    Parameters
    ----------
    times_s : tuple of float
        Times since the start. [s]
    temps_c : tuple of float
        Temperatures at those times. [°C]
    gone_g : tuple of float
        Water evaporated by those times. [g]
    degree_seconds : tuple of float
        Integral of the temperature up to those times. [°C s]
    convected_j, radiated_j, vapour_j : float
        Heat that left over the whole time; the vapour's is its enthalpy above water at
        0 °C. [J]
    """

    times_s: tuple[float, ...]
    temps_c: tuple[float, ...]
    gone_g: tuple[float, ...]
    degree_seconds: tuple[float, ...]
    convected_j: float
    radiated_j: float
    vapour_j: float

    @property
    def start_c(self) -> float:
        """Temperature at the start [°C]."""
        return self.temps_c[0]

    def temp_c(self, after_s: float) -> float:
        """Return the temperature after a time, the last one beyond the end [°C]."""
        step, part = self._step(after_s)
        return self.temps_c[step] + part * (self.temps_c[step + 1] - self.temps_c[step])

    def mean_c(self, after_s: float) -> float:
        """Return the mean temperature from the start to a time [°C]."""
        if after_s <= 0:
            return self.start_c
        beyond_s = after_s - self.times_s[-1]
        if beyond_s > 0:
            return (self.degree_seconds[-1] + beyond_s * self.temps_c[-1]) / after_s
        step, _ = self._step(after_s)
        since = self.times_s[step]
        last = (self.temps_c[step] + self.temp_c(after_s)) / 2 * (after_s - since)
        return (self.degree_seconds[step] + last) / after_s

    def lost_g(self, after_s: float) -> float:
        """Return the water gone by a time [g]."""
        step, part = self._step(after_s)
        return self.gone_g[step] + part * (self.gone_g[step + 1] - self.gone_g[step])

    def _step(self, after_s: float) -> tuple[int, float]:
        step = min(bisect_right(self.times_s, after_s), len(self.times_s) - 1) - 1
        width = self.times_s[step + 1] - self.times_s[step]
        return step, min(1.0, (after_s - self.times_s[step]) / width)
