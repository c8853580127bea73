"""Serving: answers a browser of this device, and has each page loaded again that is another now.

Names are looked up in a dictionary, so no address leads to a file of the disk. Who asks for
another host than this device is refused: a page of the web whose name was turned to the loopback
address can't read the book.
"""

from __future__ import annotations

import asyncio
import json
import logging
import os
import socket
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING, Any, Final
from urllib.parse import urlsplit

from livereload.handlers import LiveReloadHandler, LiveReloadJSHandler
from tornado.web import Application, RequestHandler
from tornado.websocket import WebSocketHandler

from cookbook_build.preview.shown import answer, name_at
from cookbook_build.publishing.web_head import COVER

if TYPE_CHECKING:
    from collections.abc import Callable

    from cookbook_build.preview.kept import KeptBook
    from cookbook_build.preview.shown import Answer

LOOPBACK: Final = "127.0.0.1"
HERE: Final = frozenset({LOOPBACK, "localhost"})
TRIED: Final = 50
RELOAD: Final = {"command": "reload", "path": "*", "liveCSS": False, "liveImg": False}


class NoFreePortError(Exception):
    """Every port that was tried is taken; says which."""


class Service:
    """What all handlers share: the book, the threads that make its pages, and who reads it."""

    def __init__(self, kept: KeptBook, stumbled: Callable[[str], None]) -> None:
        self.kept, self.stumbled = kept, stumbled
        self.makers = ThreadPoolExecutor(4, thread_name_prefix="pages")
        self.readers: set[Reader] = set()

    async def answer(self, name: str) -> Answer:
        """Return what stands at a name now, made away from the thread that serves."""
        state, loop = self.kept.state, asyncio.get_running_loop()
        return await loop.run_in_executor(self.makers, answer, state, name)

    def hang_up(self) -> None:
        """End every line to an open page, and make no page any more."""
        self.makers.shutdown(wait=False, cancel_futures=True)
        for reader in list(self.readers):
            reader.close()

    async def tell(self) -> None:
        """Have each open page loaded again that would show another thing."""
        await asyncio.gather(*(reader.tell() for reader in list(self.readers)))


class Page(RequestHandler):
    """A file of the book."""

    def initialize(self, service: Service) -> None:
        """Take what all handlers share."""
        self.service = service

    def set_default_headers(self) -> None:
        """Let nothing be shown stale, taken for another kind, or shown within another's page."""
        self.set_header("Cache-Control", "no-cache")
        self.set_header("X-Content-Type-Options", "nosniff")
        self.set_header("Cross-Origin-Resource-Policy", "same-origin")
        self.set_header("X-Frame-Options", "SAMEORIGIN")

    def prepare(self) -> None:
        """Refuse who asks for another host than this device."""
        _refuse_strangers(self)

    async def get(self, name: str) -> None:
        """Send what stands at a name."""
        found = await self.service.answer(name or COVER)
        self.set_status(found.status)
        self.set_header("Content-Type", found.media_type)
        self.finish(found.body)

    async def head(self, name: str) -> None:
        """Send the same without its body."""
        await self.get(name)

    def log_exception(self, typ: Any, value: Any, tb: Any) -> None:  # noqa: ANN401 - tornado's
        """Say in one line what went wrong while a page was made."""
        del tb
        if getattr(value, "status_code", 500) >= 500:
            said = f"This page could not be made ({typ.__name__}: {value})."
            self.service.stumbled(f"{self.request.path}: {said}")

    def write_error(self, status_code: int, **_problem: Any) -> None:  # noqa: ANN401 - tornado's
        """Say it in plain words."""
        self.set_header("Content-Type", "text/plain; charset=utf-8")
        self.finish(_REFUSED if status_code == 403 else "This page could not be made.\n")


class Script(LiveReloadJSHandler):  # type: ignore[misc]  # the package has no types
    """The script that keeps in touch with this server; it tells which page it is on."""

    def prepare(self) -> None:
        """Refuse who asks for another host than this device."""
        _refuse_strangers(self)

    def write_error(self, _status_code: int, **_problem: Any) -> None:  # noqa: ANN401 - tornado's
        """Say it in plain words."""
        self.finish(_REFUSED)


class Reader(LiveReloadHandler):  # type: ignore[misc]  # the package has no types
    """An open page: its address, and the stamp of what it shows."""

    def initialize(self, service: Service) -> None:
        """Take what all handlers share."""
        self.service = service
        self.name: str | None = None
        self.stamp = ""

    def prepare(self) -> None:
        """Refuse who asks for another host than this device."""
        _refuse_strangers(self)

    def check_origin(self, origin: str) -> bool:
        """Return whether a page of this server asks."""
        return bool(WebSocketHandler.check_origin(self, origin))

    def on_close(self) -> None:
        """Forget the page."""
        self.service.readers.discard(self)
        super().on_close()

    async def on_message(self, message: str | bytes) -> None:
        """Greet, and learn which page is open; one that is no longer true is loaded again."""
        said = _read(message)
        if said is None:
            self.close()
            return
        super().on_message(message)
        if said["command"] == "hello":
            self.stamp = str(said.get("snipver", ""))
        if said["command"] == "info":
            self.name = name_at(str(said.get("url", "")))
            self.service.readers.add(self)
            await self.tell()

    async def tell(self) -> None:
        """Have the page loaded again if it would show another thing."""
        if self.name is None or self.ws_connection is None:
            return
        found = await self.service.answer(self.name)
        if found.stamp != self.stamp and self.ws_connection is not None:
            self.stamp = found.stamp  # the page that comes brings its own
            self.send_message(RELOAD)


_REFUSED: Final = "A preview is shown on the device that makes it, at its own address.\n"


def application(service: Service) -> Application:
    """Return what answers a browser."""
    for name in ("livereload", "tornado.access", "tornado.general"):  # the session says it plainly
        logging.getLogger(name).addHandler(logging.NullHandler())
    shared = {"service": service}
    return Application(
        [
            (r"/livereload", Reader, shared),
            (r"/livereload\.js", Script),
            (r"/(.*)", Page, shared),
        ],
        log_function=lambda _handler: None,
    )


def free_port(first: int) -> tuple[int, socket.socket]:
    """Return the first free port from a number on, and what listens there.

    Raises
    ------
    NoFreePortError
        When none is free among the next ones.
    """
    last = min(first + TRIED, 65_535)
    for port in range(first, last + 1):
        try:
            return port, _listening(port)
        except OSError:
            continue
    raise NoFreePortError(f"the ports from {first} to {last} are all taken.")


def _listening(port: int) -> socket.socket:
    """Return what listens at a port; on POSIX one that was just left may be taken at once."""
    made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        if os.name == "posix":  # elsewhere this would share a port that is in use
            made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        made.bind((LOOPBACK, port))
        made.listen(128)
        made.setblocking(False)  # noqa: FBT003 - the socket's own
    except OSError:
        made.close()
        raise
    return made


def _refuse_strangers(handler: RequestHandler) -> None:
    try:
        host = urlsplit(f"//{handler.request.host}").hostname
    except ValueError:  # no host's name at all
        host = None
    if host not in HERE:
        handler.send_error(403)


def _read(message: str | bytes) -> dict[str, Any] | None:
    """Return what a page says, None where it is not in the protocol."""
    try:
        said = json.loads(message)
    except ValueError:
        return None
    return said if isinstance(said, dict) and isinstance(said.get("command"), str) else None
