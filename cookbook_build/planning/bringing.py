"""Recipes that were brought, as files of a book: where they go, what is to be mended in them."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from cookbook_build.findings import Findings
from cookbook_build.manuscript.brought.lines import Shelf
from cookbook_build.manuscript.collection import Manuscript, addresses, read_book
from cookbook_build.manuscript.drafting import drafted, dried_note, folder_name, free_address
from cookbook_build.manuscript.recipes import read_recipe
from cookbook_build.manuscript.source import Source
from cookbook_build.planning.reckoning import Reckoning, reckoned

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Collection, Sequence
    from pathlib import Path

    from cookbook_build.manuscript.brought.recipe import Brought

FOLDER = "drafts"


@dataclass(frozen=True, slots=True)
class Draft:
    """A file that is to be written into a book."""

    source: Source
    recipe: Brought
    wanted: str  # the address that its title alone would give it

    @property
    def path(self) -> str:
        """Where it goes within the book."""
        return self.source.path

    @property
    def address(self) -> str:
        """Its address in the book."""
        return PurePosixPath(self.path).stem


def drafts_of(
    recipes: Sequence[Brought],
    folder: Path,
    findings: Findings,
    *,
    came_from: str,
    series: str = "",
    today: dt.date | None = None,
) -> list[Draft]:
    """Return the files that recipes become in a book, and what there is to mend in them.

    The findings are those that proofing the book gives once the files stand in it, and besides
    what a weight of fresh food is once it is dried.
    """
    before = Findings()
    book = read_book(folder, before, today=today)
    reckoning = reckoned(book, before) if book else None
    shelf = _shelf(reckoning)
    taken = addresses(folder)
    drafts = []
    for recipe in recipes:
        name = _series(recipe, book, series)
        wanted = free_address(recipe.title, (), came_from.rsplit(".", 1)[0])
        address = free_address(recipe.title, taken, came_from.rsplit(".", 1)[0])
        taken.add(address)
        text = drafted(recipe, shelf, came_from=came_from, series=name)
        path = f"recipes/{_folder(name, book)}/{address}.md"
        drafts.append(Draft(Source.of(path, text), recipe, wanted))
    _check(drafts, folder, findings, today)
    for draft in drafts:
        _check_fresh(draft, shelf, findings)
    return drafts


def _shelf(reckoning: Reckoning | None) -> Shelf:
    if reckoning is None:
        return Shelf()
    shares = {
        name: (store.food.name, store.grams_per_prepared_gram)
        for name, store in reckoning.stores.items()
        if store.dried_here and store.food
    }
    return Shelf(reckoning.book.larder.names, shares)


def _series(recipe: Brought, book: Manuscript | None, series: str) -> str:
    """Return the series as the book writes it: the one that was asked for, else its category."""
    known = _series_of(book)
    if series:
        return known.get(series.casefold(), series)
    return known.get(recipe.series.casefold(), "")


def _series_of(book: Manuscript | None) -> dict[str, str]:
    if book is None:
        return {}
    names = [recipe.keys.series for recipe in book.recipes.values() if recipe.keys.series]
    return {name.casefold(): name for name in (*names, *book.book.series)}


def _folder(series: str, book: Manuscript | None) -> str:
    """Return the folder in which most recipes of a series stand, or one of its name."""
    recipes = book.recipes.values() if book and series else ()
    used = Counter(
        PurePosixPath(recipe.path).parent.relative_to("recipes").as_posix()
        for recipe in recipes
        if recipe.keys.series == series
    )
    if used:
        return used.most_common(1)[0][0]
    return folder_name(series) or FOLDER


def _check(
    drafts: Collection[Draft], folder: Path, findings: Findings, today: dt.date | None
) -> None:
    """Add what is found in the drafts once the book holds them.

    A line that can't be read keeps the others of its recipe from being matched; so they are read
    again without it.
    """
    found = Findings()
    sources = [draft.source for draft in drafts]
    read_book(folder, found, today=today, drafts=sources)
    book = read_book(folder, found, today=today, drafts=[_without_unread(s) for s in sources])
    if book:
        reckoned(book, found)
    paths = {draft.path for draft in drafts}
    findings.gathered.extend(f for f in found.gathered if f.place.path in paths)


def _without_unread(source: Source) -> Source:
    """Return a draft whose ingredient lines that can't be read are comments, each in its place."""
    found = Findings()
    read_recipe(source, found)
    lines = list(source.lines)
    unread = {finding.place.line for finding in found.errors}
    listed = {at for at, line in enumerate(lines, start=1) if line.startswith("  - ")}
    if not unread or listed <= unread:
        return source
    for at in unread & listed:
        lines[at - 1] = f"  # {lines[at - 1][4:]}"
    return Source.of(source.path, "\n".join(lines))


def _check_fresh(draft: Draft, shelf: Shelf, findings: Findings) -> None:
    """Warn of weights that most likely are of fresh food, where the store is dried."""
    recipe = read_recipe(_without_unread(draft.source), Findings())
    for part in recipe.components if recipe else ():
        for line in part.ingredients:
            if note := dried_note(line.written, shelf):
                findings.warning(
                    line.place,
                    f'"{line.written}" reads as a weight before drying, and the store '
                    f'"{shelf.store(line)}" is kept dried',
                    f"write what you take of the dried store: {note}.",
                )
