"""Menus: recipes and servings on days."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.manuscript.checking import Places, read_keys
from cookbook_build.manuscript.naming import nearest_address
from cookbook_build.manuscript.nodes import read_nodes
from cookbook_build.manuscript.schema import MenuKeys

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.recipes import Recipe
    from cookbook_build.manuscript.source import Source


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
        if recipe is None:
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
