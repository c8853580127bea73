"""The command that shows a book while it is written."""

from __future__ import annotations

import contextlib
import datetime as dt
import os
import sys
from typing import TYPE_CHECKING

import click

from cookbook_build.commands.shared import BOOK, book_folder, show
from cookbook_build.findings import printable

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from cookbook_build.findings import Finding
    from cookbook_build.preview.kept import Renewal

PORT = 4520
NAMED = 3


@click.command()
@click.argument("book", type=BOOK, required=False)
@click.option(
    "--port",
    type=click.IntRange(1, 65_535),
    default=PORT,
    show_default=True,
    help="Where it is served on this device; the next free one where it is taken.",
)
@click.option("--open", "opens", is_flag=True, help="Open it in the browser.")
def preview(book: Path | None, *, port: int, opens: bool) -> None:
    """Show a book in the browser of this device, and follow each file that is saved."""
    folder = book_folder(book)
    reads_on = False
    with contextlib.suppress(KeyboardInterrupt):
        reads_on = _shown(folder, port, opens=opens)
    click.echo("The preview has ended; your files are as you saved them.")
    if reads_on:
        sys.stderr.flush()
        os._exit(0)  # nothing is being written, and a large book takes long to be read


def _shown(folder: Path, port: int, *, opens: bool) -> bool:
    """Show a book until it is ended, and say first where and how; return whether it reads on."""
    from cookbook_build.preview.serving import (  # noqa: PLC0415 - slow
        LOOPBACK,
        NoFreePortError,
        free_port,
    )
    from cookbook_build.preview.session import Session, run  # noqa: PLC0415 - slow

    try:
        found, listening = free_port(port)
    except NoFreePortError as problem:
        click.echo(f"No preview: {problem} Name another with --port.", err=True)
        sys.exit(3)
    address = f"http://{LOOPBACK}:{found}/"
    if found != port:
        click.echo(f"Port {port} is taken, so this preview has port {found}.")
    click.echo(f"Open {address}")
    click.echo(f"Watching {folder.resolve()}: save a file, and the page follows.")
    click.echo("Ctrl-C ends it.")
    return run(
        Session(folder.resolve(), reporter(folder)),
        listening,
        address if opens else None,
        lambda words: click.echo(words, err=True),
    )


def reporter(folder: Path) -> Callable[[Sequence[str], Renewal], None]:
    """Return what says of each reading what changed, how long it took, and what is to be mended.

    Findings that were shown already are only counted.
    """
    before: list[list[Finding]] = []

    def report(changed: Sequence[str], renewal: Renewal) -> None:
        found = list(renewal.findings)
        is_first, is_new = not before, found not in before
        if renewal.is_torn and not is_new:
            return
        before[:] = [found]
        if is_new:
            show(renewal.findings, folder)
        time = dt.datetime.now().astimezone().strftime("%H:%M:%S")
        what = "the whole book" if is_first else named(changed)
        click.echo(f"{time}  {what}: {outcome(renewal)}")

    return report


def named(changed: Sequence[str]) -> str:
    """Return the names of files as one line holds them."""
    names = [printable(name.strip("/") or "the folder") for name in changed]
    more = len(names) - NAMED
    if not names:
        return "read again"
    return ", ".join(names) if more <= 0 else f"{', '.join(names[:NAMED])} and {more} more"


def outcome(renewal: Renewal) -> str:
    """Return how long a reading took and what came of it."""
    from cookbook_build.preview.panel import counted  # noqa: PLC0415 - slow

    state = renewal.state
    stays = "no page yet" if state.edition is None else "the last good pages stay"
    ends = f"; {stays}." if state.stands_back else "."
    return f"{renewal.took_s:.1f} s, {counted(state.findings)}{ends}"
