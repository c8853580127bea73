"""The command that answers the one question: how much water."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING, Final

import click

from cookbook_build.commands.shared import (
    BOOK,
    address_of,
    named_in_book,
    reckoned_book,
    show,
    show_each,
)
from cookbook_build.findings import Findings, did_you_mean, one_of

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.planning.reckoning import Reckoning

METHODS = ("kettle", "microwave", "stove", "jar", "cold")
MOST_SERVINGS: Final = 100


def _servings(_ctx: click.Context, _param: click.Parameter, written: str | None) -> int | None:
    """Return the number of servings that is asked for."""
    text = (written or "").strip()
    if written is None:
        return None
    if not (text.isascii() and text.isdigit() and 1 <= int(text[:4]) <= MOST_SERVINGS):
        raise click.BadParameter(
            f'"{text}" is no number of servings; write one from 1 to {MOST_SERVINGS}, such as '
            '"--servings 2".'
        )
    return int(text)


def _method(_ctx: click.Context, _param: click.Parameter, written: str | None) -> str | None:
    """Return the method that is asked for, whatever its case."""
    if written is None or (said := written.strip().casefold()) in METHODS:
        return written and said
    raise click.BadParameter(
        f'"{written}" is no way to make a meal ready; '
        + did_you_mean(written, METHODS, f"write {one_of(METHODS)}.")
    )


@click.command()
@click.argument("recipe")
@click.option("--book", type=BOOK, help="The folder of the book; else the current one.")
@click.option("--servings", callback=_servings, metavar="N", help="How many; else as written.")
@click.option(
    "--method", callback=_method, metavar=f"[{'|'.join(METHODS)}]", help="How it is made ready."
)
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

    RECIPE is the name of a recipe's file, its title, or the path of the file itself.
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

    altitude_m = _read_altitude(altitude)
    folder, name = named_in_book(recipe, book, {".md"})
    findings = Findings()
    reckoning = reckoned_book(folder, findings)
    address = address_of(recipe, name, _titles(reckoning))
    dish = reckoning.dishes.get(address) if reckoning else None
    if reckoning is None or dish is None or not reckoning.book.is_sound:
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


def _titles(reckoning: Reckoning | None) -> dict[str, str]:
    recipes = reckoning.book.recipes if reckoning else {}
    return {address: recipe.keys.title for address, recipe in recipes.items()}


def _no_dish(address: str, reckoning: Reckoning | None, findings: Findings, folder: Path) -> None:
    from cookbook_build.manuscript.naming import nearest_address, plainly  # noqa: PLC0415
    from cookbook_build.manuscript.source import files_of  # noqa: PLC0415

    known = reckoning.book.recipes if reckoning else {}
    if address in known and known[address].is_base:
        raise click.UsageError(f"{address} is a base: it is dried, and water goes to its meals.")
    files = {path.stem: path for path in files_of(folder, "recipes") if path.suffix == ".md"}
    own = next((stem for stem in files if plainly(stem) == plainly(address)), None)
    if own and own not in known:
        path = files[own].relative_to(folder).as_posix()
        of_file = [finding for finding in findings.errors if finding.place.path == path]
        show_each(of_file or findings.errors, folder)
        click.echo(f"{path} could not be read; mend what is found in it first.", err=True)
        sys.exit(1)
    if findings.errors and (reckoning is None or address in known):
        show(findings, folder)
        sys.exit(1)
    near = nearest_address(address, _titles(reckoning), files)
    mend = f'write "{near}".' if near else "write the name of a file in recipes/, or its title."
    raise click.UsageError(f'there is no recipe "{address}"; {mend}')


def _swap(text: str) -> tuple[str, str]:
    old, equals, new = text.partition("=")
    if not (equals and old.strip() and new.strip()):
        raise click.BadParameter(
            f'"{text}" names no two stores; write it like "leeks=onions"', param_hint="--swap"
        )
    return old.strip(), new.strip()


def _read_altitude(text: str | None) -> float | None:
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
