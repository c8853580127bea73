"""The command that looks up the reference table of foods."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from cookbook_build.commands.shared import BOOK, book_folder
from cookbook_build.findings import Findings, printable
from cookbook_build.walking import is_file

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cookbook_build.manuscript.food_search import FoundFood

SHOWN = 8
LABEL = (
    "{label: {per: 100 g, energy: 330 kcal, protein: 9 g, fat: 4 g, carbohydrate: 62 g, "
    "restored moisture: 70 %}, dried: bought}"
)
DRINKS = (
    '"restored moisture" is the part of it that is water once it has drunk its fill: cooked rice '
    "has about 70 %, fresh mushrooms 90 %. Without it, it is taken to drink none, as chocolate "
    "does."
)
"""Moistures of rice cooked and of mushrooms raw in USDA SR28: 68 % and 92 %."""


@click.command()
@click.argument("words", nargs=-1, required=True)
@click.option("--book", type=BOOK, help="The folder of the book; else the current one, if it is.")
@click.option("--language", type=click.Choice(["en", "es"]), help="Search in one only; else both.")
@click.option("--all", "every", is_flag=True, help="Show all that fit, not only the best few.")
@click.option("--add", is_flag=True, help="Put the line of the one that fits into larder.yaml.")
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON, for tools.")
def foods(
    words: tuple[str, ...],
    *,
    book: Path | None,
    language: str | None,
    every: bool,
    add: bool,
    as_json: bool,
) -> None:
    """Find a food, its figures, and its line for larder.yaml.

    WORDS name a food in English or Spanish, slips allowed: cookbook-build foods leeks
    """
    from cookbook_build.manuscript.food_search import (  # noqa: PLC0415 - slow
        found_foods,
        says_all,
        tongues,
    )
    from cookbook_build.manuscript.store_lines import as_key  # noqa: PLC0415
    from cookbook_build.publishing.food_lines import food_data  # noqa: PLC0415

    asked = " ".join(words)
    here = _book_here(book, needed=add)
    kept = _stores(here) if here else None
    found = found_foods(asked, tongues(language or ""))
    if not found:
        click.echo(
            f'No food of the table is called anything like "{printable(asked)}". Try one plain '
            "word for it, such as leek; or copy its pack's label into larder.yaml. "
            f"{DRINKS}\n{as_key(asked)}: {LABEL}",
            err=True,
        )
        sys.exit(1)
    if add and here:
        _add(found, asked, here)
        return
    shown = found if every else found[:SHOWN]
    if as_json:
        data = [food_data(f, None if kept is None else kept.get(f.food.id, ())) for f in shown]
        click.echo(json.dumps(data, indent=2, ensure_ascii=False))
        return
    whole = says_all(asked, found)
    if not whole:
        click.echo(f'The table has no "{printable(asked)}". These are near it:\n')
    _show(shown, len(found), kept or {})
    if not whole:
        click.echo(
            f"If none of them is what you keep, give it figures of its own, in larder.yaml, with "
            f"those of its pack or of a book. {DRINKS}\n{as_key(asked)}: {LABEL}"
        )


def _book_here(book: Path | None, *, needed: bool) -> Path | None:
    """Return the folder of the book that was named or that one stands in, if there is one."""
    if book is None and not needed and not is_file(Path("book.yaml")):
        return None
    return book_folder(book)


def _stores(folder: Path) -> dict[str, list[str]]:
    """Return the names of the larder's stores, by the ids of their foods."""
    from cookbook_build.manuscript.collection import read_shelf  # noqa: PLC0415 - models load slowly

    _, larder = read_shelf(folder, Findings())
    if larder is None:
        click.echo("larder.yaml can't be read; cookbook-build proof says why.", err=True)
        return {}
    names: dict[str, list[str]] = {}
    for store in larder.stores.values():
        if store.food:
            names.setdefault(store.food.id, []).append(store.name)
    return names


def _show(shown: Sequence[FoundFood], number: int, kept: Mapping[str, Sequence[str]]) -> None:
    from cookbook_build.publishing.food_lines import food_lines  # noqa: PLC0415

    for found in shown:
        name, *lines = food_lines(found, kept.get(found.food.id, ()))
        click.echo(click.style(name, bold=True))
        click.echo("\n".join(lines) + "\n")
    more = f" These are {len(shown)} of {number}; --all shows all." if number > len(shown) else ""
    click.echo(f"The last line of each is for larder.yaml, as it stands.{more}")


def _add(found: Sequence[FoundFood], asked: str, folder: Path) -> None:
    """Put the line of a food into the larder, or end with what stands in the way."""
    from cookbook_build.manuscript.larder_adding import (  # noqa: PLC0415
        AddError,
        add_line,
        meant_food,
    )

    meant = meant_food(found, asked)
    if meant is None:
        names = ", ".join(f'"{one.food.name}"' for one in found[:3])
        raise click.UsageError(f'"{asked}" may be several foods; write one whole name: {names}.')
    try:
        add_line(folder, meant.kept)
    except AddError as problem:
        raise click.UsageError(str(problem)) from None
    except OSError as problem:
        click.echo(f"larder.yaml can't be written: {problem.strerror}.", err=True)
        sys.exit(3)
    click.echo(f"Added to {folder / 'larder.yaml'}:\n{meant.kept.line}")
    for caution in meant.kept.cautions:
        click.echo(f"  mind: {caution}")
