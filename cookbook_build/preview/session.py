"""One preview from its beginning to Ctrl-C: a thread that watches and reads, a loop that serves."""

from __future__ import annotations

import asyncio
import contextlib
import threading
import time
import webbrowser
from dataclasses import dataclass, field
from pathlib import PurePosixPath
from typing import TYPE_CHECKING, Final

from tornado.httpserver import HTTPServer

from cookbook_build.preview.kept import KeptBook
from cookbook_build.preview.serving import Service, application
from cookbook_build.preview.watching import Watcher

if TYPE_CHECKING:
    import socket
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from cookbook_build.preview.kept import Renewal

PAUSE_S: Final = 0.1
LOOK_SHARE: Final = 0.1
"""How much of the time may go into looking at the folder; our choice."""
RETRY_S: Final = 1.0
PARTING_S: Final = 1.0


@dataclass(slots=True)
class Session:
    """A folder that is watched and the book that is kept of it."""

    folder: Path
    report: Callable[[Sequence[str], Renewal], None]
    kept: KeptBook = field(init=False)
    watcher: Watcher = field(init=False)
    renewed: Callable[[], None] = lambda: None
    pause_s: float = PAUSE_S

    def __post_init__(self) -> None:
        self.kept, self.watcher = KeptBook(self.folder), Watcher(self.folder)

    def step(self) -> bool:
        """Look once, and read the book again if it changed; return whether it was read."""
        began = time.monotonic()
        changed = self.watcher.step()
        self.pause_s = max(PAUSE_S, (time.monotonic() - began) / LOOK_SHARE)
        if changed is None:
            return False
        renewal = self.kept.renew()
        if self.kept.theme_folder:
            self.watcher.also = {PurePosixPath(self.kept.theme_folder).parts[0]}
        if renewal.is_torn:
            self.watcher.again()
            self.pause_s = RETRY_S
        with contextlib.suppress(
            OSError, ValueError
        ):  # a terminal that is gone, or has no such letter
            self.report(changed, renewal)
        self.renewed()
        return True

    def watch(self, ended: threading.Event) -> None:
        """Go on until it is ended."""
        while not ended.wait(self.pause_s):
            self.step()


def run(
    session: Session,
    listening: socket.socket,
    opened: str | None,
    stumbled: Callable[[str], None],
    ended: threading.Event | None = None,
) -> None:
    """Serve until Ctrl-C, or until it is ended; what listens, and who watches, ends with it."""
    ended = ended or threading.Event()
    with contextlib.suppress(KeyboardInterrupt):
        asyncio.run(_serve(session, listening, opened, ended, stumbled))
    ended.set()


async def _serve(
    session: Session,
    listening: socket.socket,
    opened: str | None,
    ended: threading.Event,
    stumbled: Callable[[str], None],
) -> None:
    loop, service = asyncio.get_running_loop(), Service(session.kept, stumbled)
    telling: set[asyncio.Task[None]] = set()

    def tell() -> None:
        task = loop.create_task(service.tell())
        telling.add(task)
        task.add_done_callback(telling.discard)

    first = asyncio.Event()

    def renewed() -> None:
        with contextlib.suppress(RuntimeError):  # the loop has ended
            loop.call_soon_threadsafe(tell)
            loop.call_soon_threadsafe(first.set)

    session.renewed = renewed
    watching = threading.Thread(target=session.watch, args=(ended,), name="watch", daemon=True)
    watching.start()
    server = HTTPServer(application(service))
    try:
        await first.wait()
        server.add_socket(listening)
        if opened:
            threading.Thread(target=_open, args=(opened, stumbled), daemon=True).start()
        while watching.is_alive():  # noqa: ASYNC110 - Windows hears Ctrl-C only between waits
            await asyncio.sleep(0.2)
    finally:
        ended.set()
        server.stop()
        listening.close()
        service.hang_up()
        await server.close_all_connections()
        watching.join(PARTING_S)


def _open(address: str, stumbled: Callable[[str], None]) -> None:
    """Ask for the user's browser; some are programs that go on until they are closed."""
    try:
        done = webbrowser.open(address)
    except webbrowser.Error:
        done = False
    if not done:
        stumbled(f"No browser could be opened here; open {address} yourself.")
