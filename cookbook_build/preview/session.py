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
    ended: threading.Event = field(default_factory=threading.Event)

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
        if self.ended.is_set():
            return True
        with contextlib.suppress(OSError, ValueError):  # no terminal any more, or no such letter
            self.report(changed, renewal)
        self.renewed()
        return True

    def watch(self) -> None:
        """Go on until it is ended."""
        while not self.ended.wait(self.pause_s):
            self.step()


def run(
    session: Session,
    listening: socket.socket,
    opened: str | None,
    stumbled: Callable[[str], None],
) -> bool:
    """Serve until Ctrl-C, or until the session is ended; return whether a reading still goes on.

    Who is told so must end the process at once: an interpreter that leaves in order would tear
    a thread out of its reading, and not every library bears that.
    """
    watching = threading.Thread(target=session.watch, name="watch", daemon=True)
    with contextlib.suppress(KeyboardInterrupt):
        asyncio.run(_serve(session, watching, listening, opened, stumbled))
    session.ended.set()
    with contextlib.suppress(KeyboardInterrupt):
        if watching.ident is not None:
            watching.join(PARTING_S)
    return watching.is_alive()


async def _serve(
    session: Session,
    watching: threading.Thread,
    listening: socket.socket,
    opened: str | None,
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
    watching.start()
    server = HTTPServer(application(service))
    try:
        await first.wait()
        server.add_socket(listening)
        if opened:
            threading.Thread(target=_open, args=(opened, stumbled), daemon=True).start()
        # short waits, because Windows hears Ctrl-C only between them
        while watching.is_alive() and not session.ended.is_set():  # noqa: ASYNC110
            await asyncio.sleep(0.2)
    finally:
        session.ended.set()
        server.stop()
        listening.close()
        service.hang_up()
        await server.close_all_connections()


def _open(address: str, stumbled: Callable[[str], None]) -> None:
    """Ask for the user's browser; some are programs that go on until they are closed."""
    try:
        done = webbrowser.open(address)
    except webbrowser.Error:
        done = False
    if not done:
        stumbled(f"No browser could be opened here; open {address} yourself.")
