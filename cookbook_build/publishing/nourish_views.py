"""What a dish nourishes with, as a table, and its allergens."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.planning.nourish import (
    allergens,
    dish_nourishment,
    store_allergens,
    store_nourishment,
)
from cookbook_build.publishing.wording import NBSP, allergen_name, grams
from cookbook_build.words import N_, _

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from cookbook_build.kitchen.nourishment import Nourishment
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.planning.stores import ShelfStore

LAWS: Final = {
    "us": N_("the nine major allergens of United States law"),
    "eu": N_("the fourteen allergens of European Union law"),
}
KJ_PER_KCAL: Final = 4.184


@dataclass(frozen=True, slots=True)
class NourishRow:
    """One part of the food, in each column."""

    name: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NourishView:
    """The nourishment card."""

    columns: tuple[str, ...]
    rows: tuple[NourishRow, ...]
    notes: tuple[str, ...] = ()
    allergens: tuple[str, ...] = ()
    law: str = ""


ROWS: Final[dict[str, Callable[[Nourishment], str]]] = {
    N_("Weight"): lambda food: grams(food.mass_g),
    N_("Energy"): lambda food: f"{food.energy_kcal:.0f}{NBSP}kcal",
    N_("Energy, kJ"): lambda food: f"{food.energy_kcal * KJ_PER_KCAL:.0f}{NBSP}kJ",
    N_("Protein"): lambda food: grams(food.protein_g),
    N_("Fat"): lambda food: grams(food.fat_g),
    N_("Carbohydrate"): lambda food: grams(food.carbohydrate_g),
    N_("of it fibre"): lambda food: grams(food.fibre_g),
    N_("Sodium"): lambda food: f"{food.sodium_mg:.0f}{NBSP}mg",
}


def nourish_view(dish: Dish, book: Manuscript) -> NourishView:
    """Return the nourishment card of a dish."""
    found = dish_nourishment(dish)
    columns = {_("One serving, dry"): found.dry}
    if found.fresh:
        columns[_("With what is fresh")] = found.whole
    if found.without_optional:
        optional = ", ".join(line.store.name for part in dish.parts for line in part.optional)
        columns[_("Dry, without {stores}").format(stores=optional)] = found.without_optional
    columns[_("100 g dry")] = found.dry.per_100_g()
    law = book.book.allergens
    return NourishView(
        tuple(columns),
        nourish_rows(*columns.values()),
        tuple(_notes(dish)),
        tuple(allergen_name(name) for name in allergens(dish, law)),
        _(LAWS[law]),
    )


def store_nourish_view(store: ShelfStore, book: Manuscript) -> NourishView:
    """Return the nourishment of 100 g of a store, and its allergens."""
    law = book.book.allergens
    return NourishView(
        (_("100 g dried"),),
        nourish_rows(store_nourishment(store, 100.0)),
        allergens=tuple(allergen_name(name) for name in sorted(store_allergens(store, law))),
        law=_(LAWS[law]),
    )


def nourish_rows(*foods: Nourishment) -> tuple[NourishRow, ...]:
    """Return the rows for some foods, a column each."""
    return tuple(NourishRow(_(name), tuple(map(words, foods))) for name, words in ROWS.items())


def _notes(dish: Dish) -> Iterator[str]:
    lines = [line for part in dish.parts for line in part.lines]
    to_taste = sorted({line.store.name for line in lines if not line.grams})
    if to_taste:
        yield _("Not counted, because its amount is left to taste: {stores}.").format(
            stores=", ".join(to_taste)
        )
    standing_in = sorted(
        {line.store.name for line in lines if line.store.food and line.store.food.stand_in}
    )
    if standing_in:
        yield _("Reckoned with a related food of the table: {stores}.").format(
            stores=", ".join(standing_in)
        )
