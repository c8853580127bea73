"""A folder served on the loopback address, as a host on the web would."""

from __future__ import annotations

import threading
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path


class Quiet(SimpleHTTPRequestHandler):
    """Serves a folder and says nothing of it."""

    def log_message(self, *_words: object) -> None:
        """Say nothing."""


class Served:
    """A folder served on the loopback address until it is stopped."""

    def __init__(self, folder: Path, handler: type[SimpleHTTPRequestHandler] = Quiet) -> None:
        self.server = ThreadingHTTPServer(("127.0.0.1", 0), partial(handler, directory=folder))
        self.url = f"http://127.0.0.1:{self.server.server_port}/"
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def stop(self) -> None:
        """Stop serving."""
        self.server.shutdown()
        self.server.server_close()
