"""The command that brings in a recipe from a text or from a page saved from the web."""

from __future__ import annotations

import datetime as dt
import errno
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from cookbook_build.commands.shared import BOOK, book_folder, show
from cookbook_build.findings import Findings

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cookbook_build.planning.bringing import Draft


@click.command()
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--book", type=BOOK, help="The folder of the book; else the current one.")
@click.option("--series", metavar="NAME", default="", help="The series that it belongs to.")
@click.option("--print", "only_print", is_flag=True, help="Show the draft, write nothing.")
def draft(file: Path, *, book: Path | None, series: str, only_print: bool) -> None:
    """Bring in a recipe: from a plain text, or a page saved from the web.

    FILE holds a title, ingredients and steps as people write them, or a page with its recipe as
    data (schema.org's Recipe as JSON-LD). Nothing is fetched, and no file is overwritten.
    """
    from cookbook_build.manuscript.brought.files import read_brought  # noqa: PLC0415 - slow
    from cookbook_build.planning.bringing import drafts_of  # noqa: PLC0415 - slow

    folder = book_folder(book)
    about_file, findings = Findings(), Findings()
    recipes = read_brought(file, about_file)
    show(about_file, Path())
    if not recipes:
        click.echo("Nothing was drafted.", err=True)
        sys.exit(1)
    drafts = drafts_of(
        recipes, folder, findings,
        came_from=file.name, series=series.strip(), today=dt.datetime.now().astimezone().date(),
    )  # fmt: skip
    if only_print:
        for one in drafts:
            click.echo(one.source.text)
    else:
        _write_all(drafts, folder)
    show(findings, folder)
    if findings.errors and not only_print:
        click.echo(
            "The book can be bound once these are mended; until then you may keep a draft "
            "outside of recipes.",
            err=True,
        )


def _write_all(drafts: Sequence[Draft], folder: Path) -> None:
    for one in drafts:
        try:
            _write(folder, one)
        except OSError as problem:
            click.echo(f"{folder / one.path} could not be written ({problem.strerror}).", err=True)
            sys.exit(3)
        lines, steps = len(one.recipe.lines), len(one.recipe.steps)
        click.echo(
            f"Drafted {folder / one.path}: {lines} ingredient{'s' * (lines != 1)}, "
            f"{steps} step{'s' * (steps != 1)}. Nobody has tested it yet."
        )
        if one.address != one.wanted:
            click.echo(f'  ("{one.wanted}" is taken, so it is called "{one.address}".)')


def _write(folder: Path, draft: Draft) -> None:
    """Write a new file into the book's folder."""
    from cookbook_build.manuscript.source import leads_out  # noqa: PLC0415 - not for help
    from cookbook_build.whole_files import put  # noqa: PLC0415 - not for help

    path = folder / draft.path
    if leads_out(folder, path):
        raise OSError(errno.ELOOP, "it leads out of the book")
    path.parent.mkdir(parents=True, exist_ok=True)
    put(path, draft.source.text.encode(), only_new=True)
