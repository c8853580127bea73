"""The command that makes a book."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from cookbook_build.commands.shared import BOOK, book_folder, reckoned_book, show
from cookbook_build.commands.unchanged import record_of
from cookbook_build.findings import Findings

if TYPE_CHECKING:
    from cookbook_build.findings import Finding


@click.command()
@click.argument("book", type=BOOK, required=False)
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    default=Path("site"),
    show_default=True,
    help="The folder that becomes the book.",
)
def bind(book: Path | None, out: Path) -> None:
    """Check a book, compute every number, and write it into a folder."""
    folder = book_folder(book)
    record = record_of(folder, out)
    before = record.read() if record else None
    findings, said = before or _bound(folder, out)
    if record and not before:
        record.keep(findings, said)
    show(Findings(findings), folder)
    for line in said:
        click.echo(line)


def _bound(folder: Path, out: Path) -> tuple[list[Finding], list[str]]:
    """Bind a book, and return its findings and what is to be said; or say why not, and end."""
    from cookbook_build.publishing.editions import CannotWriteError, alone  # noqa: PLC0415

    try:
        with alone(out):
            return _bound_alone(folder, out)
    except CannotWriteError as problem:
        click.echo(str(problem), err=True)
        sys.exit(3)


def _bound_alone(folder: Path, out: Path) -> tuple[list[Finding], list[str]]:
    from cookbook_build.kept import users_pieces  # noqa: PLC0415
    from cookbook_build.planning.known import Known  # noqa: PLC0415
    from cookbook_build.publishing.binding import bind_book  # noqa: PLC0415 - templates load slowly
    from cookbook_build.publishing.own_templates import ThemeFaultError  # noqa: PLC0415
    from cookbook_build.publishing.pictures import made_pictures  # noqa: PLC0415
    from cookbook_build.publishing.proofing import check_fit  # noqa: PLC0415

    findings, kept = Findings(), users_pieces(folder)
    known = Known(kept)
    reckoning = reckoned_book(folder, findings, known)
    if reckoning is not None:
        check_fit(reckoning, findings, known)
    pictures = made_pictures(reckoning.book, findings) if reckoning else None
    if reckoning is None or findings.errors:
        _not_bound(findings, folder)
    try:
        bound = bind_book(reckoning, out, pictures, findings, kept)
    except ThemeFaultError as fault:
        findings.gathered.extend(fault.findings)
        _not_bound(findings, folder)
    return list(findings), [*bound.summary(), f"Open {out / 'index.html'}"]


def _not_bound(findings: Findings, folder: Path) -> NoReturn:
    """Show what stands in the way of a book, and end."""
    show(findings, folder)
    click.echo("The book was not bound; an earlier one stays as it was.", err=True)
    sys.exit(1)
