"""The crew: the same bytes for any number of hands, and what stops one of them is told."""

from __future__ import annotations

import multiprocessing
import os
import threading
from typing import TYPE_CHECKING, Any

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing import binding
from cookbook_build.publishing.crew import PAYS_FROM, crew, hands

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

HAS_FORK = "fork" in multiprocessing.get_all_start_methods()


def bound(book: Path, out: Path) -> dict[str, bytes]:
    """Return every file of a bound book."""
    read = read_book(book, Findings())
    assert read is not None
    binding.bind_book(reckoned(read, Findings()), out)
    files = (path for path in out.rglob("*") if path.is_file())
    return {path.relative_to(out).as_posix(): path.read_bytes() for path in files}


def test_any_number_of_hands_binds_the_same_bytes(
    small_book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = []
    for workers in (1, 2, 5):
        monkeypatch.setattr(binding, "hands", lambda _parts, of=workers: of)
        monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / f"cache-{workers}"))  # each makes all
        found.append(bound(small_book, tmp_path / f"site-{workers}"))
    assert len(found[0]) > 20
    assert found[1] == found[0]
    assert found[2] == found[0]


@pytest.mark.skipif(not HAS_FORK, reason="this machine has no fork")
def test_parts_are_made_elsewhere_and_what_stops_one_is_raised_here() -> None:
    def stops() -> str:
        raise ValueError("no water left")

    parts: dict[str, Callable[[], Any]] = {"who": os.getpid, "stops": stops, "after": os.getpid}
    with crew(parts, 2) as made:
        assert made("who") != os.getpid()
        with pytest.raises(ValueError, match="no water left"):
            made("stops")
        assert made("after") != os.getpid()
    assert not multiprocessing.active_children()


def test_one_hand_makes_a_part_when_it_is_asked_for() -> None:
    asked: list[str] = []
    with crew({"a": lambda: asked.append("a"), "b": lambda: asked.append("b")}, 1) as made:
        made("b")
    assert asked == ["b"]


def test_few_parts_or_other_threads_leave_it_to_this_process(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    assert hands(PAYS_FROM - 1) == 1
    assert hands(PAYS_FROM) == (len(os.sched_getaffinity(0)) if HAS_FORK else 1)
    monkeypatch.setattr(threading, "active_count", lambda: 2)
    assert hands(PAYS_FROM) == 1
