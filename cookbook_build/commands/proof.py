"""The command that checks a book."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING

import click

from cookbook_build.commands.shared import BOOK, book_folder, reckoned_book, show
from cookbook_build.findings import Findings

if TYPE_CHECKING:
    from pathlib import Path


@click.command()
@click.argument("book", type=BOOK, required=False)
@click.option("--json", "as_json", is_flag=True, help="Print the findings as JSON, for tools.")
def proof(book: Path | None, *, as_json: bool) -> None:
    """Read and check a book, print what is found, write nothing."""
    from cookbook_build.publishing.proofing import check_all  # noqa: PLC0415 - decoders load slowly

    folder = book_folder(book)
    findings = Findings()
    reckoning = reckoned_book(folder, findings)
    if reckoning is not None:
        check_all(reckoning, findings)
    if as_json:
        click.echo(json.dumps([f.as_json() for f in findings], indent=2, ensure_ascii=False))
    else:
        show(findings, folder)
        if not len(findings):
            click.echo("Nothing to mend.")
    sys.exit(1 if findings.errors else 0)
