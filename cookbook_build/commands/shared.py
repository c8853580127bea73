"""What several commands need: which book is meant, and how its findings are shown."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

from cookbook_build.commands.no_book import no_book
from cookbook_build.findings import Severity, described
from cookbook_build.walking import is_file

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping

    from cookbook_build.findings import Finding, Findings
    from cookbook_build.planning.known import Known
    from cookbook_build.planning.reckoning import Reckoning

BOOK = click.Path(file_okay=False, path_type=Path)
_COLOURS: Final = {
    Severity.ERROR: "red",
    Severity.WARNING: "yellow",
    Severity.SUGGESTION: "cyan",
}


def book_folder(book: Path | None) -> Path:
    """Return the folder of the book, or end with a hint in one line."""
    folder = book or Path()
    if book is None and not is_file(folder / "book.yaml"):
        raise click.UsageError(no_book())
    if not folder.is_dir():
        raise click.UsageError(f'there is no folder "{folder}".')
    return folder


def named_in_book(written: str, book: Path | None, endings: Collection[str]) -> tuple[Path, str]:
    """Return the book's folder and the name of what is named by address or by its file."""
    path = Path(written)
    is_file_name = path.suffix in endings
    name = path.stem if is_file_name else path.name
    if book is None and is_file_name and is_file(path):
        for above in path.resolve().parents:
            if is_file(above / "book.yaml"):
                return above, name
    return book_folder(book), name


def address_of(written: str, name: str, titles: Mapping[str, str]) -> str:
    """Return the address that is meant, else the name as it is written."""
    from cookbook_build.manuscript.naming import address_meant  # noqa: PLC0415 - light, but ours

    return address_meant(name, titles) or address_meant(written, titles) or name


def reckoned_book(folder: Path, findings: Findings, known: Known | None = None) -> Reckoning | None:
    """Return a book read and computed, or None where a finding of its keys stands in the way."""
    from cookbook_build.manuscript.collection import read_book  # noqa: PLC0415 - models load slowly
    from cookbook_build.planning.reckoning import reckoned  # noqa: PLC0415
    from cookbook_build.steady import staying  # noqa: PLC0415

    with staying():
        book = read_book(folder, findings, today=dt.datetime.now().astimezone().date())
        return reckoned(book, findings, known) if book else None


def show(findings: Findings, folder: Path) -> None:
    """Print every error and warning, errors first, and how many; coloured on a terminal."""
    wrong = [*findings.errors, *findings.warnings]
    show_each(wrong, folder)
    if wrong:
        click.echo(counted(wrong), err=True)


def show_each(wrong: Iterable[Finding], folder: Path) -> None:
    """Print findings, each with an empty line after it."""
    for finding in wrong:
        click.echo(within(folder) + _coloured(finding), err=True)
        click.echo(err=True)


def within(folder: Path) -> str:
    """Return what stands before the path of a finding, so that a click opens the file."""
    return "" if folder == Path() else f"{folder.as_posix()}/"


def _coloured(finding: Finding) -> str:
    text = described(finding)
    first, _, rest = text.partition("\n")
    word = f": {finding.severity}: "
    colour = _COLOURS[finding.severity]
    return first.replace(word, click.style(word, fg=colour, bold=True), 1) + "\n" + rest


def counted(found: Iterable[Finding]) -> str:
    """Return how many findings of each kind there are, as a sentence."""
    numbers = Counter(finding.severity for finding in found)
    return (
        ", ".join(f"{n} {kind}{'s' * (n != 1)}" for kind in Severity if (n := numbers[kind])) + "."
    )
