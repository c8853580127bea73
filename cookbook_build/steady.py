"""Steady values: the same object as before, while all it was made of are the same objects.

Where a book is read again and again, most of it is as it was. What stays the same object needn't
be made anew, nor anything else that hangs on it: its digest, what was computed of it.
"""

from __future__ import annotations

import gc
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from cookbook_build.findings import Findings

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterator

T = TypeVar("T")


@contextmanager
def staying() -> Iterator[None]:
    """Make what stays: meanwhile nothing is looked through for what could be let go.

    A large book is many objects, and each look through all of them finds next to nothing.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


class Lately(Generic[T]):
    """Values by key; those that nobody asked for between two times of `settle` are dropped."""

    def __init__(self) -> None:
        self._now: dict[Hashable, T] = {}
        self._before: dict[Hashable, T] = {}

    def get(self, key: Hashable) -> T | None:
        """Return a value, None where there is none."""
        found = self._now.get(key)
        if found is None and (found := self._before.get(key)) is not None:
            self._now[key] = found
        return found

    def put(self, key: Hashable, value: T) -> T:
        """Keep a value, and return it."""
        self._now[key] = value
        return value

    def settle(self) -> None:
        """Drop what was not asked for since the last time."""
        self._before, self._now = self._now, {}


@dataclass(frozen=True, slots=True)
class _Made:
    made_of: tuple[object, ...]
    value: Any
    findings: Findings


class Steady:
    """What was made of a book before; new, it has nothing, and all is made."""

    def __init__(self) -> None:
        self._made: Lately[_Made] = Lately()
        self._seen: Lately[Any] = Lately()

    def of(
        self,
        name: Hashable,
        made_of: tuple[object, ...],
        make: Callable[[Findings], T],
        findings: Findings,
    ) -> T:
        """Return what is made of some objects and of nothing else, with its findings.

        It is what was made under that name before, if that was of the very same objects.
        """
        made = self._made.get(name)
        if made is None or not _are_same(made.made_of, made_of):
            found = Findings()
            made = self._made.put(name, _Made(made_of, make(found), found))
        findings.gathered.extend(made.findings.gathered)
        findings.cut_short |= made.findings.cut_short
        value: T = made.value
        return value

    def made(self, name: Hashable, made_of: tuple[object, ...], make: Callable[[], T]) -> T:
        """Return what is made of some objects and of nothing else, and leaves no finding."""
        return self.of(name, made_of, lambda _: make(), Findings())

    def same(self, name: Hashable, value: T) -> T:
        """Return the object that stood under a name before, if it equals a value; else the value.

        Only for values whose equality knows all that is in them.
        """
        seen: T | None = self._seen.get(name)
        return seen if seen is not None and seen == value else self._seen.put(name, value)

    def settle(self) -> None:
        """Drop what was not asked for since the last time."""
        self._made.settle()
        self._seen.settle()


def _are_same(some: tuple[object, ...], others: tuple[object, ...]) -> bool:
    return len(some) == len(others) and all(
        one is other for one, other in zip(some, others, strict=True)
    )
