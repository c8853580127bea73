"""Menus: recipes and servings on days."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.checking import Places, read_keys
from cookbook_build.manuscript.group_mends import in_braces
from cookbook_build.manuscript.naming import address_meant, nearest_address
from cookbook_build.manuscript.nodes import Keys, Node, Scalar, read_nodes
from cookbook_build.manuscript.schema import MenuKeys

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.recipes import Recipe
    from cookbook_build.manuscript.source import Source

_JOINED: Final = re.compile(r"\s+(?:and|or|with|y|o|con)\s+|\s*[+&,;]\s*|\s+/\s+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Menu:
    """One menu, its address and its keys."""

    address: str
    keys: MenuKeys
    places: Places


def read_menu(source: Source, findings: Findings) -> Menu | None:
    """Return the menu of a file, or None with findings."""
    before = len(findings.gathered)
    node = read_nodes(source, findings, source.text)
    if node is None:
        if len(findings.gathered) == before:
            findings.error(
                source.place(1), "this menu is empty", 'write a line "title: …" and one "meals:".'
            )
        return None
    keys, places = read_keys(MenuKeys, node, findings, "a menu")
    if keys is None:
        return None
    return Menu(source.path.rsplit("/", 1)[-1].rsplit(".", 1)[0], keys, places)


def check_menu(
    menu: Menu, recipes: Mapping[str, Recipe], unread: Collection[str], findings: Findings
) -> None:
    """Report meals that name no meal of the book, and days that stand in no order.

    Files with findings of their own are known.
    """
    titles = {address: recipe.keys.title for address, recipe in recipes.items()}
    _check_days(menu, findings)
    _check_appetites(menu, findings)
    for at, meal in enumerate(menu.keys.meals):
        address = meal.address
        place = menu.places.of("meals", at, "recipe")
        recipe = recipes.get(address)
        if address in unread:
            continue
        if recipe is None and (several := _several(meal.recipe, titles, unread)):
            findings.error(place, *_each_by_itself(menu.places.values["meals", at], several))
        elif recipe is None:
            near = nearest_address(address, titles, unread)
            findings.error(
                place,
                f'there is no recipe with the address "{address}"',
                f'write "{near}".'
                if near
                else "write the name of a file in recipes/, without its ending.",
            )
        elif recipe.is_base:
            findings.error(
                place,
                f'"{address}" is a base, which is dried and used in meals',
                "name a meal that uses it.",
            )


def _several(written: str, titles: Mapping[str, str], unread: Collection[str]) -> list[str]:
    """Return the addresses of the recipes that one line of a menu names, or none."""
    parts = [part for part in _JOINED.split(written) if part.strip()]
    names = [part.strip().removesuffix(".md").split("/")[-1] for part in parts]
    if len(names) < 2 or address_meant(written, titles):
        return []
    meant = [nearest_address(name, titles, unread) for name in names]
    if not any(address_meant(name, titles) for name in names):
        return []
    return [address for address in meant if address] if all(meant) else []


def _each_by_itself(meal: Node, addresses: list[str]) -> tuple[str, str]:
    """Return the cause and the mend of a meal that names several recipes."""
    pairs = meal.pairs if isinstance(meal, Keys) else []
    written = {key.text: value.text for key, value in pairs if isinstance(value, Scalar)}
    lines = [f'"- {in_braces(written | {"recipe": address})}"' for address in addresses]
    named = " and ".join(f'"{address}"' for address in addresses)
    return (
        f"one entry of a menu is one recipe, and this one names {named}",
        f"write each on a line of its own: {' and '.join(lines)}.",
    )


def _check_days(menu: Menu, findings: Findings) -> None:
    """Report mixes that are packed only after the first of them was eaten."""
    packed, date = menu.keys.packed, menu.keys.date
    if packed and date and packed > date:
        findings.error(
            menu.places.of("packed"),
            f"the mixes are packed on {packed}, and the first day of this menu is {date}",
            f'write "packed: {date}" or an earlier day, or mend "date".',
        )


def _check_appetites(menu: Menu, findings: Findings) -> None:
    """Report appetites that are not as many as the people; without people they tell how many."""
    keys, places = menu.keys, menu.places
    people, appetites = keys.people, len(keys.appetites)
    if not appetites or appetites == people or "people" not in keys.model_fields_set:
        return
    findings.error(
        places.of("appetites"),
        f"there {'is 1 appetite' if appetites == 1 else f'are {appetites} appetites'} for "
        f"{'1 person' if people == 1 else f'{people} people'}",
        f"write one for each, such as [{', '.join(['1'] * min(people, 6))}"
        f"{', …' if people > 6 else ''}], or mend the number of people.",
    )
