"""What several commands need: which book is meant, and how its findings are shown."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

import click

from cookbook_build.findings import Severity, described

if TYPE_CHECKING:
    from cookbook_build.findings import Finding, Findings
    from cookbook_build.planning.reckoning import Reckoning

BOOK = click.Path(file_okay=False, path_type=Path)


def book_folder(book: Path | None) -> Path:
    """Return the folder of the book, or end with a hint in one line."""
    folder = book or Path()
    if book is None and not (folder / "book.yaml").is_file():
        raise click.UsageError(
            "no book here: name the folder that holds book.yaml, such as "
            '"cookbook-build bind my-book".'
        )
    if not folder.is_dir():
        raise click.UsageError(f'there is no folder "{folder}".')
    return folder


def reckoned_book(folder: Path, findings: Findings) -> Reckoning | None:
    """Return a book read and computed, or None where a finding of its keys stands in the way."""
    from cookbook_build.manuscript.collection import read_book  # noqa: PLC0415 - models load slowly
    from cookbook_build.planning.reckoning import reckoned  # noqa: PLC0415

    book = read_book(folder, findings, today=dt.datetime.now().astimezone().date())
    return reckoned(book, findings) if book else None


def show(findings: Findings, folder: Path) -> None:
    """Print every finding, errors first; coloured on a terminal."""
    prefix = "" if folder == Path() else f"{folder.as_posix()}/"
    for finding in findings:
        click.echo(prefix + _coloured(finding), err=True)
        click.echo(err=True)
    if len(findings):
        click.echo(_counted(findings), err=True)


def _coloured(finding: Finding) -> str:
    text = described(finding)
    colour = "red" if finding.severity is Severity.ERROR else "yellow"
    first, _, rest = text.partition("\n")
    word = f": {finding.severity}: "
    return first.replace(word, click.style(word, fg=colour, bold=True), 1) + "\n" + rest


def _counted(findings: Findings) -> str:
    errors, warnings = len(findings.errors), len(findings.warnings)
    parts = [f"{errors} error{'s' * (errors != 1)}"] * bool(errors)
    parts += [f"{warnings} warning{'s' * (warnings != 1)}"] * bool(warnings)
    return ", ".join(parts) + "."
