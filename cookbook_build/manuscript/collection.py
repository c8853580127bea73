"""The whole book, read: every file, every finding, and what the files say of each other."""

from __future__ import annotations

import functools
import os
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, Final, TypeVar

from cookbook_build.findings import Findings, Place
from cookbook_build.foods import CONTEXT, WATER, FoodTable, load_foods, sold_as
from cookbook_build.foods.lookup import normalised
from cookbook_build.manuscript.agreement import (
    check_bases,
    check_book,
    check_parts,
    check_raw,
    check_texts,
    check_titles,
    check_twins,
)
from cookbook_build.manuscript.body import PICTURES
from cookbook_build.manuscript.checking import read_keys
from cookbook_build.manuscript.ingredients import (
    Ingredient,
    described_name,
    left_open,
    match_store,
)
from cookbook_build.manuscript.larder import Larder, read_larder
from cookbook_build.manuscript.logs import LogRow, StockRow, read_logs
from cookbook_build.manuscript.loose_measures import loose_measure
from cookbook_build.manuscript.menus import Menu, check_menu, read_menu
from cookbook_build.manuscript.missing_stores import missing_mend
from cookbook_build.manuscript.nodes import Keys, Scalar, read_nodes
from cookbook_build.manuscript.own_theme import OwnTheme, read_theme
from cookbook_build.manuscript.pictures import NamedPicture, named_pictures
from cookbook_build.manuscript.recipes import (
    Page,
    Recipe,
    check_address,
    good_address,
    read_page,
    read_recipe,
)
from cookbook_build.manuscript.replies import Reply, read_replies
from cookbook_build.manuscript.schema import BookKeys
from cookbook_build.manuscript.source import files_of, read_source
from cookbook_build.manuscript.strays import check_strays, meant_for, misnamed_folder
from cookbook_build.manuscript.trials import check_trials
from cookbook_build.measures.numbers import decimal_commas, has_decimal_commas
from cookbook_build.steady import Steady
from cookbook_build.walking import is_file
from cookbook_build.words import ENGLISH, languages, mark_of, pgettext, spoken

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Mapping, Sequence
    from pathlib import Path

    from cookbook_build.manuscript.checking import Places
    from cookbook_build.manuscript.nodes import Node
    from cookbook_build.manuscript.source import Source

Thing = TypeVar("Thing")
NEEDED: Final = frozenset({"title", "language", "measures", "altitude"})
"""Keys of book.yaml without which nothing is computed, not even to look for more findings."""


@dataclass(frozen=True, slots=True)
class Manuscript:
    """A book that was read, and what its findings left of it."""

    folder: Path
    book: BookKeys
    larder: Larder
    foods: FoodTable
    recipes: Mapping[str, Recipe]
    menus: tuple[Menu, ...]
    pages: tuple[Page, ...]
    images: tuple[str, ...]
    places: Places  # of book.yaml
    replies: tuple[Reply, ...] = ()  # what readers made and sent back
    stock: tuple[StockRow, ...] = ()  # what stands on the shelf
    log: tuple[LogRow, ...] = ()  # what was dried
    pictures: tuple[NamedPicture, ...] = ()  # what the book names of its images
    theme: OwnTheme | None = None  # that it brings
    today: dt.date | None = None  # the day on which it is read, where that is told
    faulty: frozenset[str] = frozenset()  # keys of book.yaml that were refused, wholly or in part

    @property
    def is_sound(self) -> bool:
        """Whether every key of book.yaml was taken, so that its numbers are what is meant."""
        return not self.faulty

    @property
    def meals(self) -> list[Recipe]:
        """The recipes that are eaten."""
        return [recipe for recipe in self.recipes.values() if not recipe.is_base]

    @property
    def bases(self) -> list[Recipe]:
        """The recipes that become stores."""
        return [recipe for recipe in self.recipes.values() if recipe.is_base]

    def base_of(self, store: str) -> Recipe | None:
        """Return the base that a store comes from, if it comes from one."""
        base = self.larder.stores[store].base
        return self.recipes.get(base) if base else None


def read_book(
    folder: Path,
    findings: Findings,
    *,
    today: dt.date | None = None,
    drafts: Sequence[Source] = (),
    steady: Steady | None = None,
) -> Manuscript | None:
    """Return the book of a folder, or None when a finding of its keys stands in the way.

    Where keys of book.yaml are refused that change no number of a recipe, the rest is still
    there to be checked; then the book is not sound. Without `today`, no day in it is taken for
    one that is still to come. `drafts` are recipes that are read as if they stood in the
    folder already; `steady` has what was read before.
    """
    node = _book_node(folder, findings)
    with decimal_commas(written=mark_of(_language(node)) == ","):
        return _read(folder, node, findings, today, drafts, steady or Steady())


def _read(
    folder: Path,
    node: Node | None,
    findings: Findings,
    today: dt.date | None,
    drafts: Sequence[Source],
    steady: Steady,
) -> Manuscript | None:
    read = _book_keys(node, findings)
    foods = named_foods(read[0].language if read else ENGLISH)
    kitchen = steady.made("foods", (foods,), partial(foods.with_own, (WATER,)))
    larder = _larder(folder, foods, findings, steady)
    check_strays(folder, findings)
    images = _images(folder, findings)
    recipes, twins, misnamed = _recipes(folder, findings, drafts, steady)
    pages = _each(folder, "pages", "*.md", read_page, findings)
    menus = _each(folder, "menus", "*.y*ml", read_menu, findings)
    check_twins(recipes.values(), pages, menus, findings)
    check_titles((r for r in recipes.values() if r.address not in misnamed), findings)
    read_addresses = {*recipes, *(page.address for page in pages)}
    unread = addresses(folder) - read_addresses
    unread |= {good_address(address) for address in misnamed} - read_addresses
    if larder is not None:
        match = partial(_matched, larder=larder, foods=kitchen, findings=findings, steady=steady)
        recipes = {address: match(recipe) for address, recipe in recipes.items()}
        twins = list(map(match, twins))
        larder = replace(larder, unsound=set(larder.unsound))  # bases add to it
        if recipes:
            check_bases(recipes, larder, unread, findings)
        check_raw((*recipes.values(), *twins), larder, findings)
    check_trials((*recipes.values(), *twins), today, findings)
    check_parts((r for r in recipes.values() if r.address not in misnamed), findings)
    check_texts((*recipes.values(), *twins), pages, images, unread, findings)
    for menu in menus:
        check_menu(menu, recipes, unread, findings)
    replies = read_replies(folder, recipes, larder, unread, findings, today)
    stock, log = read_logs(folder, larder, findings, today)
    if read is None or larder is None:
        findings.cut_short = True
        return None
    book, places = read
    findings.cut_short |= not places.sound or bool(twins)
    check_book(book, places, images, (*recipes.values(), *twins), findings)
    theme = read_theme(folder, book.theme, places, findings)
    if places.faulty & NEEDED:
        return None
    ordered = dict(sorted(recipes.items(), key=lambda pair: _order(pair[1], book)))
    pages.sort(key=lambda page: (page.keys.order, page.address))
    return Manuscript(
        folder, book, larder, kitchen, ordered, tuple(menus), tuple(pages), tuple(images),
        places, replies, stock, log, tuple(named_pictures(book, places, ordered, pages)),
        theme, today, frozenset(places.faulty),
    )  # fmt: skip


def read_shelf(folder: Path, findings: Findings) -> tuple[str, Larder | None]:
    """Return the language of a book and its larder alone, None where that can't be read."""
    read = _book_keys(_book_node(folder, findings), findings)
    language = read[0].language if read else ENGLISH
    return language, _larder(folder, named_foods(language), findings, Steady())


@functools.cache
def named_foods(language: str) -> FoodTable:
    """Return the reference table with the names that a book's language has for its foods."""
    foods = load_foods()
    if language.startswith(ENGLISH):
        return foods
    with spoken(language):
        return foods.also_called(
            {food.id: [pgettext(CONTEXT, name) for name in sold_as(food)] for food in foods}
        )


def _order(recipe: Recipe, book: BookKeys) -> tuple[int, int, str]:
    names = list(book.series)
    at = names.index(recipe.keys.series) if recipe.keys.series in names else len(names)
    return at, recipe.keys.part or 10_000, recipe.address


def _book_node(folder: Path, findings: Findings) -> Node | None:
    source = _needed(
        folder, "book", findings,
        missing="this folder holds no book.yaml",
        make='make one with a line "title: …", or name the folder of a book.',
    )  # fmt: skip
    return _tree(source, 'write a line "title: …".', findings) if source else None


def _language(node: Node | None) -> str:
    """Return the language that book.yaml names, before anything else in it is read."""
    pairs = node.pairs if isinstance(node, Keys) else ()
    named = next((value for key, value in pairs if key.text == "language"), None)
    return named.text if isinstance(named, Scalar) and named.text else ENGLISH


def _book_keys(node: Node | None, findings: Findings) -> tuple[BookKeys, Places] | None:
    if node is None:
        return None
    book, places = read_keys(BookKeys, node, findings, "book.yaml")
    return (book, places) if book else None


def _larder(folder: Path, foods: FoodTable, findings: Findings, steady: Steady) -> Larder | None:
    source = _needed(
        folder, "larder", findings,
        missing="this book has no larder.yaml",
        make="make one with a line for each store, such as leeks: {food: leeks raw, "
        "dried: freeze}.",
    )  # fmt: skip
    if source is None:
        return None
    source, commas = steady.same("larder", source), has_decimal_commas()
    return steady.of(
        "larder", (source, foods, commas), partial(_read_larder, source, foods), findings
    )


def _read_larder(source: Source, foods: FoodTable, findings: Findings) -> Larder | None:
    node = _tree(source, "write a line for each store.", findings)
    return None if node is None else read_larder(node, foods, findings)


def _needed(
    folder: Path, name: str, findings: Findings, *, missing: str, make: str
) -> Source | None:
    """Return the text of a YAML file that every book needs; None leaves a finding."""
    path = folder / f"{name}.yaml"
    if not os.path.lexists(path):
        other = meant_for(folder, path.name)
        findings.error(
            Place(path.name), missing, f"rename {other} to {path.name}." if other else make
        )
        return None
    return read_source(folder, path, findings)


def _tree(source: Source, fill: str, findings: Findings) -> Node | None:
    """Return the tree of a YAML file that must not be empty; None leaves a finding."""
    before = len(findings.gathered)
    node = read_nodes(source, findings, source.text)
    if node is None and len(findings.gathered) == before:
        findings.error(source.place(1), f"{source.path} is empty", fill)
    return node


def _images(folder: Path, findings: Findings) -> list[str]:
    return [
        path.relative_to(folder / "images").as_posix()
        for path in files_of(folder, "images", findings)
        if path.suffix.casefold() in PICTURES and is_file(path)
    ]


def _each(
    folder: Path,
    part: str,
    pattern: str,
    reader: Callable[[Source, Findings], Thing | None],
    findings: Findings,
    also: Sequence[Source] = (),
) -> list[Thing]:
    """Return what a reader makes of each file of one part of the book, in the order of names."""
    paths = [path for path in files_of(folder, part, findings) if path.match(pattern)]
    sources = [read_source(folder, path, findings) for path in paths if not _is_an_editor_s(path)]
    found = [reader(source, findings) for source in (*sources, *also) if source is not None]
    return [thing for thing in found if thing is not None]


def _is_an_editor_s(path: Path) -> bool:
    """Whether an editor keeps something of its own under a hidden name, and no file."""
    return path.name.startswith(".") and not is_file(path)


def addresses(folder: Path) -> set[str]:
    """Return the address of every recipe and page that has a file, readable or not."""
    parts = (files_of(folder, part) for part in ("recipes", "pages"))
    return {path.stem for paths in parts for path in paths if path.suffix == ".md"}


def _recipes(
    folder: Path, findings: Findings, drafts: Sequence[Source], steady: Steady
) -> tuple[dict[str, Recipe], list[Recipe], set[str]]:
    """Return the recipes by address, those whose address is taken, and addresses with findings.

    Of a recipe whose address is taken nothing is computed, but all that it says is checked.
    """
    found: dict[str, Recipe] = {}
    twins: list[Recipe] = []
    misnamed: set[str] = set()
    taken: dict[str, str] = {}

    def read(source: Source, findings: Findings) -> Recipe | None:
        source, commas = steady.same(source.path, source), has_decimal_commas()
        make = partial(read_recipe, source)
        return steady.of(("read", source.path), (source, commas), make, findings)

    for recipe in _each(folder, "recipes", "*.md", read, findings, drafts):
        if not check_address(recipe.address, recipe.place, findings):
            misnamed.add(recipe.address)
        twin = taken.setdefault(recipe.address.casefold(), recipe.path)
        if twin != recipe.path:
            findings.error(
                recipe.place,
                f'the address "{recipe.address}" is already that of {twin}',
                "rename one of the two files.",
            )
            twins.append(recipe)
            misnamed |= {address for address in found if found[address].path == twin}
            continue
        found[recipe.address] = recipe
    if (
        not found
        and not drafts
        and not any(path.suffix == ".md" for path in files_of(folder, "recipes"))
    ):
        findings.error(
            Place("recipes"), "this book has no recipe",
            f'rename the folder "{other}" to "recipes".'
            if (other := misnamed_folder(folder, "recipes"))
            else "put a Markdown file into recipes/.",
        )  # fmt: skip
    return found, twins, misnamed


def _matched(
    recipe: Recipe, larder: Larder, foods: FoodTable, findings: Findings, steady: Steady
) -> Recipe:
    made_of = recipe, larder, foods
    return steady.of(("matched", recipe.path), made_of, partial(_match, *made_of), findings)


def _match(recipe: Recipe, larder: Larder, foods: FoodTable, findings: Findings) -> Recipe:
    def mend(name: str) -> str:
        tables = (foods, *(named_foods(language) for language in languages()))
        return missing_mend(name, larder, tables)

    by_piece = {
        name
        for name, store in larder.stores.items()
        if store.keys.weighs and store.keys.weighs.measure.kind == "count"
    }
    components = tuple(
        replace(
            part,
            ingredients=tuple(
                _match_fresh(line, larder, foods, findings)
                if recipe.is_base
                else match_store(line, larder.names, findings, mend, by_piece)
                for line in part.ingredients
            ),
        )
        for part in recipe.components
    )
    return replace(recipe, components=components)


def _match_fresh(
    ingredient: Ingredient, larder: Larder, foods: FoodTable, findings: Findings
) -> Ingredient:
    """Return a base's ingredient with the store or the food that it buys.

    "Onions" in a base are bought fresh, though the larder keeps dried ones; "salt" and stores
    that come from another base are the larder's.
    """
    key = larder.names.get(normalised(ingredient.name))
    store = larder.stores[key] if key else None
    if store and (store.base or store.keys.dried in {"bought", "fresh"}):
        return replace(ingredient, store=store.name)
    food = foods.find(f"{ingredient.name} raw") or foods.find(ingredient.name)
    if food:
        return replace(ingredient, food=food.id)
    if store:
        return replace(ingredient, store=store.name)
    if loose := loose_measure(ingredient, lambda name: _is_bought(name, foods)):
        findings.error(
            ingredient.name_place.within(loose.start, len(loose.word)), loose.cause, loose.mend
        )
        return ingredient
    if either := left_open(ingredient.name, lambda name: _is_bought(name, foods)):
        findings.error(ingredient.name_place, *either)
        return ingredient
    said = described_name(ingredient.name, lambda name: _is_bought(name, foods))
    near = foods.nearest(ingredient.name, limit=1)
    mend = said or (near[0].name if near else "")
    findings.error(
        ingredient.name_place,
        f'there is neither a store nor a food called "{ingredient.name}"',
        f'write "{mend}".' if mend else "write a food of the reference table.",
    )
    return ingredient


def _is_bought(name: str, foods: FoodTable) -> bool:
    return bool(foods.find(f"{name} raw") or foods.find(name))
