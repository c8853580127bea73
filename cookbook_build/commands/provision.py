"""The command that says what a menu takes."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from cookbook_build.commands.shared import BOOK, book_folder, reckoned_book, show
from cookbook_build.findings import Findings, did_you_mean

if TYPE_CHECKING:
    from cookbook_build.planning.reckoning import Reckoning


@click.command()
@click.argument("menu")
@click.option("--book", type=BOOK, help="The folder of the book; else the current one.")
@click.option("--json", "as_json", is_flag=True, help="Print every number as JSON.")
@click.option("--csv", "as_csv", is_flag=True, help="Print the lists as a table for a spreadsheet.")
def provision(menu: str, *, book: Path | None, as_json: bool, as_csv: bool) -> None:
    """Say what a menu takes: from the shelf, to dry, to buy, to pack and to carry.

    MENU is the name of a menu's file, or the path of the file itself.
    """
    from cookbook_build.publishing.provision_lists import (  # noqa: PLC0415 - slow
        provision_csv,
        provision_lines,
    )
    from cookbook_build.publishing.provisioning import provision_data  # noqa: PLC0415 - slow

    if as_json and as_csv:
        raise click.UsageError("ask for --json or for --csv, not for both.")
    folder, address = _named_menu(menu, book)
    findings = Findings()
    reckoning = reckoned_book(folder, findings)
    found = (
        next((p for p in reckoning.provisions if p.menu.address == address), None)
        if reckoning
        else None
    )
    if reckoning is None or found is None:
        _no_menu(address, reckoning, findings, folder)
        return
    if findings.errors:  # what a finding left out would be missing from every list
        show(findings, folder)
        click.echo("No lists were made; mend these first.", err=True)
        sys.exit(1)
    if as_json:
        click.echo(json.dumps(provision_data(found), indent=2, ensure_ascii=False))
    elif as_csv:
        _write_bytes(provision_csv(found))
    else:
        click.echo("\n".join(provision_lines(found)))
    show(findings, folder)


def _write_bytes(text: str) -> None:
    """Print a table as it stands in a file: a spreadsheet takes the mark at its start for UTF-8.

    A terminal shows it without the mark, which would be a stray character there.
    """
    encoding = "utf-8" if sys.stdout.isatty() else "utf-8-sig"
    click.echo(text.encode(encoding), nl=False)


def _named_menu(menu: str, book: Path | None) -> tuple[Path, str]:
    """Return the book's folder and the address of a menu named by address or by file."""
    path = Path(menu)
    address = path.name.removesuffix(".yaml").removesuffix(".yml")
    if book is None and path.suffix in {".yaml", ".yml"} and path.is_file():
        for above in path.resolve().parents:
            if (above / "book.yaml").is_file():
                return above, address
    return book_folder(book), address


def _no_menu(address: str, reckoning: Reckoning | None, findings: Findings, folder: Path) -> None:
    known = {menu.address for menu in reckoning.book.menus} if reckoning else set()
    written = {path.stem for path in (folder / "menus").rglob("*.y*ml")}
    if findings.errors and (reckoning is None or address in known | written):
        show(findings, folder)
        sys.exit(1)
    raise click.UsageError(
        f'there is no menu "{address}"; '
        + did_you_mean(address, known, "write the name of a file in menus/.")
    )
