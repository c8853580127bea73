"""What the files of a book say of each other: bases and their stores, raw stores, pictures."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import did_you_mean
from cookbook_build.manuscript.body import check_body, check_image
from cookbook_build.manuscript.larder import Larder, undercooked
from cookbook_build.manuscript.recipes import Page, Recipe, check_address, check_name_of_file
from cookbook_build.manuscript.web_addresses import mail_box, web_address
from cookbook_build.words import has_words, languages, listed

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.checking import Places
    from cookbook_build.manuscript.ingredients import Ingredient
    from cookbook_build.manuscript.menus import Menu
    from cookbook_build.manuscript.recipes import ComponentText
    from cookbook_build.manuscript.schema import BookKeys, PageKeys, RecipeKeys, SeriesKeys

_LINK_LIKE: Final = re.compile(r"[^\s@]@[^\s@]|://|\bwww\.")
# Poured or soaking water is no way to cook what was dried raw. A jar and a cold soak are out;
# a bowl of poured water too, because nobody can say that it reached the middle.
RAW_METHODS: Final = ("kettle", "jar", "cold")


def check_bases(
    recipes: Mapping[str, Recipe], larder: Larder, unread: Collection[str], findings: Findings
) -> None:
    """Report stores and bases that do not name each other, and bases made from themselves."""
    for store in larder.stores.values():
        if store.base is None:
            continue
        if store.base in unread:
            larder.unsound.add(store.name)
            continue
        base = recipes.get(store.base)
        if base is None or not base.is_base:
            larder.unsound.add(store.name)
            bases = [address for address, recipe in recipes.items() if recipe.is_base]
            findings.error(
                store.places.of("from"),
                f'there is no base with the address "{store.base}"'
                if base is None
                else f'"{store.base}" is a meal, and a store comes from a base',
                did_you_mean(store.base, bases, 'name a recipe of "kind: base".'),
            )
    for recipe in recipes.values():
        if recipe.is_base and recipe.keys.becomes:
            _check_becomes(recipe, recipe.keys.becomes, larder, findings)
    _check_circles(recipes, larder, findings)


def _check_becomes(recipe: Recipe, becomes: str, larder: Larder, findings: Findings) -> None:
    store = larder.stores.get(becomes)
    place = recipe.places.of("becomes")
    if store is None:
        findings.error(
            place,
            f'there is no store called "{becomes}"',
            did_you_mean(becomes, larder.stores, f"add {becomes} to larder.yaml."),
        )
    elif store.base != recipe.address and store.name not in larder.unsound:
        findings.error(
            place,
            f'the store "{becomes}" does not come from this base',
            f'write "from: {recipe.folder}/{recipe.address}" at {becomes} in larder.yaml.',
        )


def _check_circles(recipes: Mapping[str, Recipe], larder: Larder, findings: Findings) -> None:
    """Report bases that are made, in the end, from themselves; each circle once."""
    uses = {
        address: [
            (line, base)
            for line in _lines(recipe.components)
            if line.store and (base := larder.stores[line.store].base) in recipes
        ]
        for address, recipe in recipes.items()
        if recipe.is_base
    }
    done: set[str] = set()
    for start in uses:
        trail: list[str] = []
        _walk(start, uses, trail, done, findings)


def _walk(
    address: str,
    uses: Mapping[str, list[tuple[Ingredient, str | None]]],
    trail: list[str],
    done: set[str],
    findings: Findings,
) -> None:
    if address in done:
        return
    trail.append(address)
    for line, base in uses.get(address, ()):
        if base in trail:
            circle = [*trail[trail.index(base) :], base]
            findings.error(
                line.name_place,
                f"this base is made from itself: {' → '.join(circle)}",
                "take one of these bases out of the other.",
            )
        elif base is not None:
            _walk(base, uses, trail, done, findings)
    trail.pop()
    done.add(address)


def check_raw(recipes: Iterable[Recipe], larder: Larder, findings: Findings) -> None:
    """Report meals that hot water alone would leave raw or poisonous."""
    for recipe in recipes:
        if recipe.is_base:
            continue
        for part in recipe.components:
            for line in part.ingredients:
                _check_cooked(line, part, recipe, larder, findings)


def _check_cooked(
    line: Ingredient, part: ComponentText, recipe: Recipe, larder: Larder, findings: Findings
) -> None:
    store = larder.stores.get(line.store or "")
    if store is None or store.keys.dried == "fresh":
        return
    bought = store.keys.dried == "bought" and not store.keys.cooked_first
    if store.food and store.food.needs_cooking and bought:
        findings.error(line.name_place, *undercooked(store.food))
    if store.keys.raw and part.cold:
        findings.error(
            recipe.places.of(*part.path, "cold"),
            f'"cold: true" leaves "{store.name}", which was dried raw, uncooked',
            "take this line out; a raw store is brought to the boil and cooked through.",
        )
    elif store.keys.raw:
        _check_raw_methods(recipe, part, store.name, findings)


def _cooked_ways(recipe: Recipe) -> str:
    """Return how the methods of a recipe with a raw store are written."""
    kept = [method for method in recipe.keys.methods or () if method not in RAW_METHODS]
    return f'write "methods: [{", ".join(kept or ("stove", "microwave"))}]"'


def _check_raw_methods(recipe: Recipe, part: ComponentText, store: str, findings: Findings) -> None:
    for at, method in enumerate(recipe.keys.methods or ()):
        if method in RAW_METHODS:
            findings.error(
                recipe.places.of("methods", at),
                f'"{method}" does not cook "{store}", which was dried raw',
                f"{_cooked_ways(recipe)}; a raw store is brought to the boil and cooked through.",
            )
    if part.tested and part.tested.method in RAW_METHODS:
        findings.error(
            recipe.places.of(*part.path, "tested", "method"),
            f'"{part.tested.method}" does not cook "{store}", which was dried raw',
            'test it on the stove, and write "method: stove".',
        )


def check_twins(
    recipes: Collection[Recipe],
    pages: Collection[Page],
    menus: Collection[Menu],
    findings: Findings,
) -> None:
    """Report pages and menus whose address another file has; recipes are told apart on reading."""
    taken = {recipe.address.casefold(): recipe.path for recipe in recipes}
    for page in pages:
        _check_twin(page, taken, findings)
    lists: dict[str, str] = {}
    for menu in menus:
        _check_twin(menu, lists, findings)
        check_name_of_file(menu.address, ".yaml", menu.places.key("title"), findings)


def check_titles(recipes: Iterable[Recipe], findings: Findings) -> None:
    """Warn of a recipe that is called as another one, so that no reader can tell them apart."""
    first: dict[str, Recipe] = {}
    for recipe in recipes:
        title = recipe.keys.title
        twin = first.setdefault(" ".join(title.casefold().split()), recipe)
        if twin is not recipe:
            findings.warning(
                recipe.places.of("title"),
                f'{twin.path} is called "{title}" too, so that the two look alike in every list',
                "say in the title of one what sets it apart.",
            )


def _check_twin(thing: Page | Menu, taken: dict[str, str], findings: Findings) -> None:
    path = thing.places.root.source.path
    twin = taken.setdefault(thing.address.casefold(), path)
    if twin != path:
        findings.error(
            thing.places.key("title"),
            f'the address "{thing.address}" is already that of {twin}',
            "rename one of the two files.",
        )


def check_parts(recipes: Iterable[Recipe], findings: Findings) -> None:
    """Warn of a recipe whose part another recipe of its series has already."""
    taken: dict[tuple[str, int], Recipe] = {}
    series: dict[str, set[int]] = {}
    listed = [recipe for recipe in recipes if recipe.keys.series and recipe.keys.part]
    for recipe in listed:
        series.setdefault(recipe.keys.series or "", set()).add(recipe.keys.part or 0)
    for recipe in listed:
        name, part = recipe.keys.series or "", recipe.keys.part or 0
        first = taken.setdefault((name, part), recipe)
        if first is not recipe:
            free = next(n for n in range(1, len(listed) + 2) if n not in series[name])
            findings.warning(
                recipe.places.of("part"),
                f'"{first.keys.title}" ({first.path}) is part {part} of the series "{name}" too',
                f'give each a part of its own, such as "part: {free}" here.',
            )


def check_texts(
    recipes: Collection[Recipe],
    pages: list[Page],
    images: list[str],
    unread: Collection[str],
    findings: Findings,
) -> None:
    """Report what bodies and pages name and the book does not hold."""
    addresses = [
        *dict.fromkeys(recipe.address for recipe in recipes),
        *(page.address for page in pages),
        *unread,
    ]
    for recipe in recipes:
        names = [part.name for part in recipe.components if part.name]
        check_body(
            recipe.body, findings, images=images, addresses=addresses,
            components=None if recipe.is_base else names, sound=recipe.is_sound,
        )  # fmt: skip
        _check_picture(recipe.keys, recipe.places, images, findings)
    for page in pages:
        check_address(page.address, page.places.of("title"), findings)
        check_body(page.body, findings, images=images, addresses=addresses, components=None)
        _check_picture(page.keys, page.places, images, findings)


def _check_picture(
    keys: RecipeKeys | PageKeys | SeriesKeys | BookKeys,
    places: Places,
    images: list[str],
    findings: Findings,
    *path: str | int,
    key: str = "picture",
) -> None:
    picture, text = getattr(keys, key), getattr(keys, f"{key}_text")
    if picture is None:
        return
    place = places.of(*path, key)
    check_image(picture, place, images, findings)
    if not text and (*path, f"{key} text") not in places.refused and not _is_misspelt(places, key):
        findings.warning(
            place,
            f'the picture "{picture}" has no words for those who can\'t see it',
            f'add a line "{key} text: what it shows".',
        )


def _is_misspelt(places: Places, key: str) -> bool:
    """Whether the words of a picture have a finding of their own."""
    return f"{key} text" in places.faulty


def check_book(
    book: BookKeys,
    places: Places,
    images: list[str],
    recipes: Iterable[Recipe],
    findings: Findings,
) -> None:
    """Report what book.yaml names that is not there, and a box that takes no letter."""
    if not has_words(book.language):
        findings.warning(
            places.of("language"),
            f'the book\'s own words, such as "Dry mix", are not there in "{book.language}" yet',
            f"they stay English, beside your text; there are words in {listed(languages())}.",
        )
    contact = book.contact or ""
    if _LINK_LIKE.search(contact) and not (mail_box(contact) or web_address(contact)):
        findings.warning(
            places.of("contact"),
            "this is neither a mail box nor an address on the web, so that readers can't press it",
            'write one of them alone, such as "larder@example.org" or "https://example.org/ask".',
        )
    _check_picture(book, places, images, findings, key="cover")
    for name, series in book.series.items():
        _check_picture(series, places, images, findings, "series", name)
    for recipe in recipes:
        chosen = recipe.keys.series
        if chosen and book.series and chosen not in book.series:
            findings.error(
                recipe.places.of("series"),
                f'there is no series called "{chosen}" in book.yaml',
                did_you_mean(
                    chosen, book.series, f'add "{chosen}: {{}}" below series in book.yaml.'
                ),
            )


def _lines(components: Iterable[ComponentText]) -> Iterable[Ingredient]:
    return (line for part in components for line in part.ingredients)
