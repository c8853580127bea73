"""The crew: processes that make the parts of a book side by side, in any number to the same bytes.

They are forks of this process and so know the whole book; where the machine has no fork, one core,
or other threads that a fork would cut in two, this process makes every part itself.
"""

from __future__ import annotations

import gc
import os
import signal
import threading
import time
import warnings
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_all_start_methods, get_context
from typing import TYPE_CHECKING, Any, Final, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterator, Mapping

PAYS_FROM: Final = 40
"""Parts from which on beginning the processes costs less than it saves; our choice."""

LOOKS_S: Final = 0.2
"""How often a fork looks whether the one who began it is still there."""

Name = TypeVar("Name", bound="Hashable")
Made = TypeVar("Made")
_parts: Mapping[Any, Callable[[], Any]] = {}  # what a fork finds there when it begins


def hands(parts: int) -> int:
    """Return how many processes shall make some parts; 1 is this one alone."""
    if parts < PAYS_FROM or "fork" not in get_all_start_methods() or threading.active_count() > 1:
        return 1
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
    return cores or 1


@contextmanager
def crew(
    parts: Mapping[Name, Callable[[], Made]], workers: int
) -> Iterator[Callable[[Name], Made]]:
    """Give what returns each part once it is made; they are begun in their order.

    What stops one of them is raised where its part is asked for.
    """
    if workers < 2:
        yield lambda name: parts[name]()
        return
    global _parts  # noqa: PLW0603 - the only way into a fork that copies nothing
    before, _parts = _parts, parts
    gc.freeze()  # the book is neither looked through nor, with that, copied into each fork
    pool = ProcessPoolExecutor(workers, get_context("fork"), _begin, (os.getpid(),))
    try:
        with warnings.catch_warnings():  # threads of libraries that stand still meanwhile
            warnings.simplefilter("ignore", DeprecationWarning)
            begun = {name: pool.submit(_made, name) for name in parts}
        yield lambda name: begun.pop(name).result()
    finally:
        pool.shutdown(cancel_futures=True)
        _parts = before
        gc.unfreeze()


def _begin(first: int) -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the one who began it
    threading.Thread(target=_end_with, args=(first,), daemon=True).start()


def _end_with(first: int) -> None:
    """End this process soon after the one who began it, which may have been killed."""
    while os.getppid() == first:
        time.sleep(LOOKS_S)
    os._exit(1)


def _made(name: Hashable) -> Any:  # noqa: ANN401 - whatever the part is
    return _parts[name]()
