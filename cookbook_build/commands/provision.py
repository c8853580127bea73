"""The command that says what a menu takes."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING

import click

from cookbook_build.commands.shared import (
    BOOK,
    address_of,
    named_in_book,
    reckoned_book,
    show,
)
from cookbook_build.findings import Findings

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.planning.reckoning import Reckoning


@click.command()
@click.argument("menu")
@click.option("--book", type=BOOK, help="The folder of the book; else the current one.")
@click.option("--json", "as_json", is_flag=True, help="Print every number as JSON.")
@click.option("--csv", "as_csv", is_flag=True, help="Print the lists as a table for a spreadsheet.")
def provision(menu: str, *, book: Path | None, as_json: bool, as_csv: bool) -> None:
    """Say what a menu takes: from the shelf, to dry, to buy, to pack and to carry.

    MENU is the name of a menu's file, its title, or the path of the file itself.
    """
    from cookbook_build.publishing.provision_lists import (  # noqa: PLC0415 - slow
        provision_csv,
        provision_lines,
    )
    from cookbook_build.publishing.provisioning import provision_data  # noqa: PLC0415 - slow

    if as_json and as_csv:
        raise click.UsageError("ask for --json or for --csv, not for both.")
    folder, name = named_in_book(menu, book, {".yaml", ".yml"})
    findings = Findings()
    reckoning = reckoned_book(folder, findings)
    address = address_of(menu, name, _titles(reckoning))
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


def _titles(reckoning: Reckoning | None) -> dict[str, str]:
    menus = reckoning.book.menus if reckoning else ()
    return {menu.address: menu.keys.title for menu in menus}


def _no_menu(address: str, reckoning: Reckoning | None, findings: Findings, folder: Path) -> None:
    from cookbook_build.manuscript.naming import nearest_address, plainly  # noqa: PLC0415
    from cookbook_build.manuscript.source import files_of  # noqa: PLC0415

    titles = _titles(reckoning)
    written = {path.stem for path in files_of(folder, "menus") if path.match("*.y*ml")}
    is_there = plainly(address) in {plainly(name) for name in (*titles, *written)}
    if findings.errors and (reckoning is None or is_there):
        show(findings, folder)
        sys.exit(1)
    near = nearest_address(address, titles, written)
    mend = f'write "{near}".' if near else "write the name of a file in menus/, or its title."
    raise click.UsageError(f'there is no menu "{address}"; {mend}')
