"""A browser of this device, and no other, is answered; open pages hear of what changed."""

from __future__ import annotations

import asyncio
import json
import socket
from contextlib import asynccontextmanager
from typing import TYPE_CHECKING, Any

import pytest
from tornado.httpclient import HTTPClientError, HTTPRequest
from tornado.websocket import WebSocketClientConnection, websocket_connect

from cookbook_build.preview.serving import NoFreePortError, free_port

if TYPE_CHECKING:
    from collections.abc import AsyncIterator, Callable
    from pathlib import Path

    from tests.conftest import Previewed

    Begin = Callable[[Path], Previewed]


@asynccontextmanager
async def reader(
    preview: Previewed, name: str, stamp: str | None = None, **headers: str
) -> AsyncIterator[WebSocketClientConnection]:
    """Give the line of an open page to its server, after its greeting."""
    if stamp is None:
        stamp = preview.text(name).split("snipver=")[1].split("&")[0]
    asked = HTTPRequest(f"ws://127.0.0.1:{preview.port}/livereload", headers=headers)
    line = await websocket_connect(asked)
    await line.write_message(json.dumps({"command": "hello", "snipver": stamp}))
    assert (await heard(line))["command"] == "hello"
    await line.write_message(json.dumps({"command": "info", "url": preview.url + name}))
    assert line.protocol is not None
    assert line.protocol.stream is not None
    stream = line.protocol.stream
    yield line
    line.close()
    while not stream.closed():  # noqa: ASYNC110 - it tells nobody
        await asyncio.sleep(0.01)


async def heard(line: WebSocketClientConnection, seconds: float = 30) -> dict[str, Any]:
    """Return the next word of the server."""
    said = await asyncio.wait_for(line.read_message(), seconds)
    assert said is not None
    found: dict[str, Any] = json.loads(said)
    return found


async def is_told(line: WebSocketClientConnection) -> bool:
    """Return whether the server had anything to say before it answered another greeting."""
    await line.write_message(json.dumps({"command": "hello"}))
    return bool((await heard(line))["command"] != "hello")


def test_every_kind_of_file_has_its_media_type(small_book: Path, previewed: Begin) -> None:
    (small_book / "theme").mkdir()
    (small_book / "theme/own.css").write_text("p { color: red }\n", encoding="utf-8")
    preview = previewed(small_book)
    kinds = {
        "": "text/html; charset=utf-8",
        "recipes/leek-broth.html": "text/html; charset=utf-8",
        "style.css": "text/css; charset=utf-8",
        "theme/own.css": "text/css; charset=utf-8",
        "book.js": "text/javascript; charset=utf-8",
        "icon.svg": "image/svg+xml",
        "manifest.webmanifest": "application/manifest+json",
        "preview/panel.css": "text/css; charset=utf-8",
    }
    assert {name: preview.get(name)[:2] for name in kinds} == {
        name: (200, kind) for name, kind in kinds.items()
    }
    assert preview.get("livereload.js")[0] == 200
    assert preview.get("?look=dark")[0] == 200


@pytest.mark.parametrize(
    "name",
    ["../book.yaml", "%2e%2e/book.yaml", "..%2f..%2fetc/passwd", "/etc/passwd", "%00", "%ff"],
)
def test_no_address_leads_out_of_the_book(small_book: Path, previewed: Begin, name: str) -> None:
    status, _kind, body = previewed(small_book).get(name)
    assert status in {400, 404}
    assert b"River shelf" not in body
    assert b"root:" not in body


def test_the_worker_is_left_out_and_folders_are_not_listed(
    small_book: Path, previewed: Begin
) -> None:
    preview = previewed(small_book)
    assert preview.get("worker.js")[0] == 404
    status, _kind, body = preview.get("recipes/")
    assert status == 404
    assert b"To the contents" in body
    assert b"lentil-bowl" not in body


@pytest.mark.parametrize(
    "host",
    ["book.example", "127.0.0.1.book.example", "127.0.0.2", "", "[::1", "[", "localhost.x:1"],
)
def test_who_asks_for_another_host_is_refused(
    small_book: Path, previewed: Begin, host: str
) -> None:
    preview = previewed(small_book)
    for name in ("", "livereload.js", "style.css", "livereload"):
        status, _kind, body = preview.get(name, Host=host)
        assert status in {400, 403}, name
        assert b"River" not in body
        assert b"LiveReload" not in body


def test_both_names_of_this_device_are_answered(small_book: Path, previewed: Begin) -> None:
    preview = previewed(small_book)
    for host in ("localhost", f"localhost:{preview.port}", "127.0.0.1"):
        assert preview.get("", Host=host)[0] == 200


def test_a_page_of_the_web_can_not_listen(small_book: Path, previewed: Begin) -> None:
    preview = previewed(small_book)

    async def refused(origin: str) -> None:
        with pytest.raises(HTTPClientError, match="403"):
            async with reader(preview, "", Origin=origin):
                pass

    asyncio.run(refused("http://book.example"))
    asyncio.run(refused(f"http://localhost.book.example:{preview.port}"))


def test_a_page_is_told_only_of_what_it_shows(
    small_book: Path, previewed: Begin, wait: Callable[..., None]
) -> None:
    style = small_book / "theme/own.css"
    style.parent.mkdir()
    style.write_text("p { color: red }\n", encoding="utf-8")
    preview = previewed(small_book)

    async def told() -> None:
        async with (
            reader(preview, "recipes/lentil-bowl.html") as bowl,
            reader(preview, "recipes/leek-broth.html") as broth,
        ):
            text = (small_book / "recipes/leek-broth.md").read_text("utf-8")
            changed = text.replace("wait {rest}", "sit {rest}")
            (small_book / "recipes/leek-broth.md").write_text(changed, encoding="utf-8")
            assert (await heard(broth))["command"] == "reload"
            style.write_text("p { color: teal }\n", encoding="utf-8")  # of every page
            assert (await heard(bowl))["command"] == "reload"
            assert not await is_told(bowl)  # so the first edit was none for it

    asyncio.run(told())
    assert "sit" in preview.text("recipes/leek-broth.html")
    wait(lambda: not preview.session.kept.state.findings)


def test_a_page_that_was_loaded_before_the_last_change_is_told_when_it_calls(
    small_book: Path, previewed: Begin
) -> None:
    preview = previewed(small_book)

    async def told() -> None:
        async with reader(preview, "find.html", stamp="0123456789abcdef") as stale:
            assert (await heard(stale))["command"] == "reload"
        async with reader(preview, "find.html") as true:
            assert not await is_told(true)

    asyncio.run(told())


def test_a_page_that_goes_and_comes_is_told_both_times(
    small_book: Path, previewed: Begin, wait: Callable[..., None]
) -> None:
    preview = previewed(small_book)
    broth = small_book / "recipes/leek-broth.md"
    text = broth.read_text("utf-8")

    async def told() -> None:
        async with reader(preview, "recipes/leek-broth.html") as line:
            broth.unlink()
            assert (await heard(line))["command"] == "reload"
            assert preview.get("recipes/leek-broth.html")[0] == 404
            broth.write_text(text, encoding="utf-8")
            assert (await heard(line))["command"] == "reload"

    asyncio.run(told())
    wait(lambda: preview.get("recipes/leek-broth.html")[0] == 200)


@pytest.mark.parametrize("word", ["no json", "[]", '{"command": 1}', "null", '"x"'])
def test_what_is_not_in_the_protocol_ends_the_line_and_says_nothing(
    small_book: Path, previewed: Begin, word: str, caplog: pytest.LogCaptureFixture
) -> None:
    preview = previewed(small_book)

    async def ended() -> None:
        async with reader(preview, "") as line:
            await line.write_message(word)
            assert await asyncio.wait_for(line.read_message(), 30) is None

    asyncio.run(ended())
    assert preview.said == []
    assert not [one for one in caplog.records if one.exc_info]


def test_edits_reach_the_page_and_errors_leave_it(
    small_book: Path, previewed: Begin, wait: Callable[..., None]
) -> None:
    preview = previewed(small_book)
    larder = small_book / "larder.yaml"
    sound = larder.read_text("utf-8")
    for grams in (51, 62, 53):
        larder.write_text(sound.replace("58 g", f"{grams} g"), encoding="utf-8")
        wait(
            lambda grams=grams: f"{grams}\N{NO-BREAK SPACE}g" in preview.text("larder/carrots.html")
        )
    larder.write_text(sound.replace("58 g", "many"), encoding="utf-8")
    wait(lambda: "larder.yaml:3:" in preview.text("larder/carrots.html"))
    assert "53\N{NO-BREAK SPACE}g" in preview.text("larder/carrots.html")
    larder.write_text(sound, encoding="utf-8")
    wait(lambda: "58\N{NO-BREAK SPACE}g" in preview.text("larder/carrots.html"))
    assert "preview-panel" not in preview.text("larder/carrots.html")


def test_a_page_that_can_not_be_made_is_told_in_a_line(
    small_book: Path, previewed: Begin, monkeypatch: pytest.MonkeyPatch
) -> None:
    preview = previewed(small_book)

    def stumble(*_: object) -> None:
        raise KeyError("water")

    monkeypatch.setattr("cookbook_build.publishing.page_text.PageText.of", stumble)
    assert preview.get("find.html") == (
        500, "text/plain; charset=utf-8", b"This page could not be made.\n",
    )  # fmt: skip
    assert preview.said == ["/find.html: This page could not be made (KeyError: 'water')."]


def test_a_taken_port_is_passed_over() -> None:
    first, taken = free_port(48_600)
    second, also = free_port(first)
    assert second > first
    taken.close()
    also.close()


def test_where_no_port_is_free_it_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        monkeypatch.setattr("cookbook_build.preview.serving.TRIED", 0)
        with pytest.raises(NoFreePortError, match=f"from {port} to {port} are all taken"):
            free_port(port)
