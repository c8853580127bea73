"""The commands; thin. Words to calls, calls to exit codes.

0 done, 1 findings, 2 wrong use, 3 could not write.
"""

from __future__ import annotations

import datetime as dt
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from cookbook_build import __version__
from cookbook_build.findings import Findings, Severity, described, did_you_mean

if TYPE_CHECKING:
    from cookbook_build.findings import Finding
    from cookbook_build.planning.reckoning import Reckoning

METHODS = ("kettle", "microwave", "stove", "jar", "cold")
BOOK = click.Path(file_okay=False, path_type=Path)


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="cookbook-build")
def main() -> None:
    """Bind a household's larder and recipes into an offline book with the right water."""


@main.command()
@click.argument("book", type=BOOK, required=False)
@click.option("--json", "as_json", is_flag=True, help="Print the findings as JSON, for tools.")
def proof(book: Path | None, *, as_json: bool) -> None:
    """Read and check a book, print what is found, write nothing."""
    from cookbook_build.publishing.pictures import check_pictures  # noqa: PLC0415 - decoders load slowly

    folder = _folder(book)
    findings = Findings()
    reckoning = _theme_checked(_labels_checked(_reckon(folder, findings), findings), findings)
    if reckoning is not None:
        if reckoning.book.theme is None or findings.errors:
            check_pictures(reckoning.book, findings)
        else:
            _pages_checked(reckoning, findings)
    if as_json:
        click.echo(json.dumps([f.as_json() for f in findings], indent=2, ensure_ascii=False))
    else:
        _show(findings, folder)
        if not len(findings):
            click.echo("Nothing to mend.")
    sys.exit(1 if findings.errors else 0)


@main.command()
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
    from cookbook_build.publishing.binding import bind_book  # noqa: PLC0415 - templates load slowly
    from cookbook_build.publishing.editions import CannotWriteError, check_ours  # noqa: PLC0415
    from cookbook_build.publishing.own_templates import ThemeFaultError  # noqa: PLC0415
    from cookbook_build.publishing.pictures import made_pictures  # noqa: PLC0415

    folder = _folder(book)
    findings = Findings()
    reckoning = _theme_checked(_labels_checked(_reckon(folder, findings), findings), findings)
    pictures = made_pictures(reckoning.book, findings) if reckoning else None
    if reckoning is None or findings.errors:
        _not_bound(findings, folder)
    try:
        check_ours(out)
        bound = bind_book(reckoning, out, pictures, findings)
    except ThemeFaultError as fault:
        findings.gathered.extend(fault.findings)
        _not_bound(findings, folder)
    except CannotWriteError as problem:
        click.echo(str(problem), err=True)
        sys.exit(3)
    _show(findings, folder)
    for line in bound.summary():
        click.echo(line)
    click.echo(f"Open {out / 'index.html'}")


def _not_bound(findings: Findings, folder: Path) -> NoReturn:
    """Show what stands in the way of a book, and end."""
    _show(findings, folder)
    click.echo("The book was not bound; an earlier one stays as it was.", err=True)
    sys.exit(1)


@main.command()
@click.argument("recipe")
@click.option("--book", type=BOOK, help="The folder of the book; else the current one.")
@click.option("--servings", type=click.IntRange(1, 100), help="How many; else as written.")
@click.option("--method", type=click.Choice(METHODS), help="How it is made ready.")
@click.option("--altitude", metavar="A", help='Where, such as "2400 m" or "8000 ft".')
@click.option("--without", multiple=True, metavar="STORE", help="Leave a store out.")
@click.option(
    "--swap", multiple=True, metavar="STORE=STORE", help="Put a store in another's place."
)
@click.option(
    "--add",
    multiple=True,
    metavar="LINE",
    help='Add a line to the recipe as it is written, in its first part: "2 tbsp leeks".',
)
@click.option("--json", "as_json", is_flag=True, help="Print every number as JSON.")
def water(  # noqa: PLR0913 - the options are the command
    recipe: str,
    *,
    book: Path | None,
    servings: int | None,
    method: str | None,
    altitude: str | None,
    without: tuple[str, ...],
    swap: tuple[str, ...],
    add: tuple[str, ...],
    as_json: bool,
) -> None:
    """Say how much water a recipe takes, for any servings, method and altitude.

    RECIPE is the name of a recipe's file, or the path of the file itself.
    """
    from cookbook_build.planning.whatif import (  # noqa: PLC0415 - slow
        Changes,
        WhatIfError,
        changed,
    )
    from cookbook_build.publishing.answers import (  # noqa: PLC0415 - slow
        answer,
        answer_lines,
        compared,
    )

    altitude_m = _altitude(altitude)
    folder, address = _recipe(recipe, book)
    findings = Findings()
    reckoning = _reckon(folder, findings)
    dish = reckoning.dishes.get(address) if reckoning else None
    if reckoning is None or dish is None:
        _no_dish(address, reckoning, findings, folder)
        return
    changes = Changes(without, tuple(_swap(text) for text in swap), add)
    try:
        made = changed(dish, reckoning, changes) if changes else dish
    except WhatIfError as problem:
        raise click.UsageError(str(problem)) from None
    chosen = method or made.default_method
    if chosen not in made.methods:
        raise click.UsageError(
            f"{address} is not made ready by {chosen}; its methods: {', '.join(made.methods)}."
        )
    size = servings or dish.default_servings
    found = answer(reckoning, made, size, chosen, altitude_m)
    if changes:
        found["what_if"] = compared(dish, made, size, chosen, altitude_m, changes)
    if as_json:
        click.echo(json.dumps(found, indent=2, ensure_ascii=False))
    else:
        click.echo("\n".join(answer_lines(found)))


@main.command()
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
    folder, address = _menu(menu, book)
    findings = Findings()
    reckoning = _reckon(folder, findings)
    found = (
        next((p for p in reckoning.provisions if p.menu.address == address), None)
        if reckoning
        else None
    )
    if reckoning is None or found is None:
        _no_menu(address, reckoning, findings, folder)
        return
    if findings.errors:  # what a finding left out would be missing from every list
        _show(findings, folder)
        click.echo("No lists were made; mend these first.", err=True)
        sys.exit(1)
    if as_json:
        click.echo(json.dumps(provision_data(found), indent=2, ensure_ascii=False))
    elif as_csv:
        _write_bytes(provision_csv(found))
    else:
        click.echo("\n".join(provision_lines(found)))
    _show(findings, folder)


def _write_bytes(text: str) -> None:
    """Print a table as it stands in a file: a spreadsheet takes the mark at its start for UTF-8.

    A terminal shows it without the mark, which would be a stray character there.
    """
    encoding = "utf-8" if sys.stdout.isatty() else "utf-8-sig"
    click.echo(text.encode(encoding), nl=False)


def _menu(menu: str, book: Path | None) -> tuple[Path, str]:
    """Return the book's folder and the address of a menu named by address or by file."""
    path = Path(menu)
    address = path.name.removesuffix(".yaml").removesuffix(".yml")
    if book is None and path.suffix in {".yaml", ".yml"} and path.is_file():
        for above in path.resolve().parents:
            if (above / "book.yaml").is_file():
                return above, address
    return _folder(book), address


def _no_menu(address: str, reckoning: Reckoning | None, findings: Findings, folder: Path) -> None:
    known = {menu.address for menu in reckoning.book.menus} if reckoning else set()
    written = {path.stem for path in (folder / "menus").rglob("*.y*ml")}
    if findings.errors and (reckoning is None or address in known | written):
        _show(findings, folder)
        sys.exit(1)
    raise click.UsageError(
        f'there is no menu "{address}"; '
        + did_you_mean(address, known, "write the name of a file in menus/.")
    )


def _no_dish(address: str, reckoning: Reckoning | None, findings: Findings, folder: Path) -> None:
    known = reckoning.book.recipes if reckoning else {}
    if address in known and known[address].is_base:
        raise click.UsageError(f"{address} is a base: it is dried, and water goes to its meals.")
    if findings.errors and (reckoning is None or address in known):
        _show(findings, folder)
        sys.exit(1)
    raise click.UsageError(
        f'there is no recipe "{address}"; '
        + did_you_mean(address, known, "write the name of a file in recipes/.")
    )


def _swap(text: str) -> tuple[str, str]:
    old, equals, new = text.partition("=")
    if not (equals and old.strip() and new.strip()):
        raise click.BadParameter(
            f'"{text}" names no two stores; write it like "leeks=onions"', param_hint="--swap"
        )
    return old.strip(), new.strip()


def _altitude(text: str | None) -> float | None:
    from cookbook_build.measures.numbers import NumberError  # noqa: PLC0415 - only when asked
    from cookbook_build.measures.quantities import length_m  # noqa: PLC0415

    if text is None:
        return None
    try:
        value = length_m(text)
    except NumberError as problem:
        raise click.BadParameter(
            f"{problem.cause}; {problem.mend}", param_hint="--altitude"
        ) from None
    if not -450 <= value <= 9000:
        raise click.BadParameter("no kitchen is that low or high", param_hint="--altitude")
    return value


def _recipe(recipe: str, book: Path | None) -> tuple[Path, str]:
    """Return the book's folder and the address of a recipe named by address or by file."""
    path = Path(recipe)
    if book is None and path.suffix == ".md" and path.is_file():
        for above in path.resolve().parents:
            if (above / "book.yaml").is_file():
                return above, path.stem
    return _folder(book), path.name.removesuffix(".md")


def _folder(book: Path | None) -> Path:
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


def _reckon(folder: Path, findings: Findings) -> Reckoning | None:
    from cookbook_build.manuscript.collection import read_book  # noqa: PLC0415 - models load slowly
    from cookbook_build.planning.reckoning import reckoned  # noqa: PLC0415

    book = read_book(folder, findings, today=dt.datetime.now().astimezone().date())
    return reckoned(book, findings) if book else None


def _labels_checked(reckoning: Reckoning | None, findings: Findings) -> Reckoning | None:
    """Return a book after labels and cards were fitted, where nothing else stands in the way."""
    from cookbook_build.publishing.card_pages import check_cards  # noqa: PLC0415 - slow
    from cookbook_build.publishing.label_sheets import check_labels  # noqa: PLC0415 - slow

    if reckoning is not None and not findings.errors:
        check_labels(reckoning, findings)
        check_cards(reckoning, findings)
    return reckoning


def _theme_checked(reckoning: Reckoning | None, findings: Findings) -> Reckoning | None:
    """Return a book after the theme that it brings was read through, if it brings one."""
    if reckoning is not None and reckoning.book.theme is not None:
        from cookbook_build.publishing.theme_checks import check_theme  # noqa: PLC0415 - slow

        check_theme(reckoning.book, findings)
    return reckoning


def _pages_checked(reckoning: Reckoning, findings: Findings) -> None:
    """Make every page of a book that brings templates, and write none."""
    from cookbook_build.publishing.pictures import made_pictures  # noqa: PLC0415 - slow
    from cookbook_build.publishing.theme_checks import check_pages  # noqa: PLC0415 - slow

    pictures = made_pictures(reckoning.book, findings)
    if not findings.errors:
        check_pages(reckoning, pictures, findings)


def _show(findings: Findings, folder: Path) -> None:
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
