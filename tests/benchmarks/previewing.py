"""From saving a recipe until an open page of the preview has been loaded with what was written.

The page is open as a browser has it open: it holds the reload line and is told when to load. From
the moment the file was saved, until the new words were received, counts; the browser's own drawing
does not.
"""

from __future__ import annotations

import asyncio
import json
import re
import subprocess
import sys
import tempfile
import time
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Final

from tornado.httpclient import AsyncHTTPClient, HTTPRequest
from tornado.websocket import websocket_connect

from tests.benchmarks.edits import edit_recipe, recipes_of
from tests.benchmarks.measuring import Cost, Costs, Memory

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tornado.websocket import WebSocketClientConnection

PATIENCE_S: Final = 3600
PAUSE_S: Final = 0.4
HELLO: Final = {"command": "hello", "protocols": ["http://livereload.com/protocols/official-7"]}
LAST_LINE: Final = re.compile(r"(?m)^Saved \d+ times\.\n|\Z")


def edit_to_reload(book: Path, edits: int, environment: Mapping[str, str]) -> Costs:
    """Return what each edit took until its page was loaded again."""
    with tempfile.TemporaryDirectory() as kept:
        said = Path(kept) / "said.txt"
        with said.open("wb") as out:
            preview = subprocess.Popen(  # noqa: S603 - the program itself
                [sys.executable, "-u", "-m", "cookbook_build", "preview", str(book)],
                env=dict(environment), stdout=out, stderr=subprocess.STDOUT,
            )  # fmt: skip
        try:
            address, memory = _address(said, preview), Memory(preview.pid)
            return Costs(tuple(asyncio.run(_edited(book, edits, address, memory))))
        finally:
            preview.terminate()
            preview.wait()


def _address(said: Path, preview: subprocess.Popen[bytes]) -> str:
    """Return where the preview said that the book stands."""
    while preview.poll() is None:
        text = said.read_text(encoding="utf-8", errors="replace")
        if found := re.search(r"Open (http://\S+)\s", text):
            return found[1]
        time.sleep(0.05)
    sys.exit("The preview ended before it had begun.")


async def _edited(book: Path, edits: int, address: str, memory: Memory) -> list[Cost]:
    """Edit a recipe again and again while its page is open."""
    recipes = recipes_of(book)
    file = recipes[len(recipes) // 2]
    page = f"{address}recipes/{file.stem}.html"
    text = await _loaded(page)
    taken = []
    for at in range(1, edits + 1):
        line = await _opened(address, page, text)
        await asyncio.sleep(PAUSE_S)  # the last save has come to rest
        edit_recipe(book)
        words = f"Saved {at} times."
        written = LAST_LINE.sub(f"{words}\n", file.read_text(encoding="utf-8"), count=1)
        file.write_text(written, encoding="utf-8", newline="\n")
        saved = time.perf_counter()
        while words not in text:
            await _told(line)
            text = await _loaded(page)
        memory.look()
        taken.append(Cost(time.perf_counter() - saved, 0.0, memory.peak_mb))
        line.close()
    return taken


async def _loaded(page: str) -> str:
    """Return the text of a page; a preview that still reads its book is waited for."""
    client = AsyncHTTPClient(force_instance=True)
    end = time.monotonic() + PATIENCE_S
    try:
        while True:
            with suppress(OSError):
                asked = HTTPRequest(page, request_timeout=PATIENCE_S, connect_timeout=5)
                return (await client.fetch(asked)).body.decode()
            assert time.monotonic() < end, "the preview never answered"
            await asyncio.sleep(0.1)
    finally:
        client.close()


async def _opened(address: str, page: str, text: str) -> WebSocketClientConnection:
    """Open the line that an open page has to its server, and say which page it is."""
    stamp = re.search(r"snipver=(\w+)", text)
    assert stamp is not None
    line = await websocket_connect(address.replace("http", "ws", 1) + "livereload")
    await line.write_message(json.dumps({**HELLO, "snipver": stamp[1]}))
    await line.write_message(json.dumps({"command": "info", "url": page}))
    return line


async def _told(line: WebSocketClientConnection) -> None:
    """Wait until the page is told to load again."""
    while True:
        message = await asyncio.wait_for(line.read_message(), PATIENCE_S)
        assert message is not None, "the preview hung up"
        if json.loads(message).get("command") == "reload":
            return
