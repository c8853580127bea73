"""The desk: one book with its addresses, as every page needs them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.kitchen.boiling import boiling_point_c
from cookbook_build.planning.cautions import raw_caution
from cookbook_build.publishing.cautioning import CautionView, in_words
from cookbook_build.publishing.prose import Linking
from cookbook_build.publishing.views import DishView, dish_view
from cookbook_build.words import N_

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.recipes import Recipe
    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.publishing.pictures import Pictures

OTHER = N_("Other recipes")
BASES = N_("Bases")


@dataclass(frozen=True, slots=True)
class Link:
    """A page of the book as another page names it."""

    title: str
    href: str


@dataclass(frozen=True, slots=True)
class Desk:
    """A reckoned book, what its dishes show, and the address of every page."""

    reckoning: Reckoning
    views: Mapping[str, DishView]
    page_of: Mapping[str, str]  # of recipes and free pages
    store_pages: Mapping[str, str]
    anchors: Mapping[str, str]  # of series in the contents
    newest: str
    pictures: Pictures

    @property
    def book(self) -> Manuscript:
        """The book as it was read."""
        return self.reckoning.book

    def changed(self, recipe: Recipe) -> str:
        """Return the newest day of a recipe with a date: its own, or of a trial that counts."""
        view = self.views.get(recipe.address)
        trials = [trial.date for trial in view.trials if not trial.left_out] if view else []
        return max([str(recipe.keys.date), *trials])

    def linking(self, up: str = "../") -> Linking:
        """Return how a page's text reaches the rest of the book."""
        return Linking(up, self.page_of, self.pictures)


def desk_for(reckoning: Reckoning, pictures: Pictures) -> Desk:
    """Return the desk of a book."""
    book = reckoning.book
    dates = [recipe.keys.date.isoformat() for recipe in book.recipes.values() if recipe.keys.date]
    stores = anchors(reckoning.stores)
    return Desk(
        reckoning,
        {
            address: dish_view(dish, book, reckoning.lessons)
            for address, dish in reckoning.dishes.items()
        },
        {
            **{page.address: f"pages/{page.address}.html" for page in book.pages},
            **{address: f"recipes/{address}.html" for address in book.recipes},
        },
        {name: f"larder/{anchor}.html" for name, anchor in stores.items()},
        anchors([*book.book.series, OTHER, BASES]),
        max(dates, default=""),
        pictures,
    )


def raw_view(desk: Desk, name: str) -> CautionView:
    """Return what a page says of a store that was dried raw."""
    home_m = desk.reckoning.place.conditions.altitude_m
    return in_words(raw_caution(desk.reckoning.stores[name], boiling_point_c(home_m)))


def anchors(names: Iterable[str]) -> dict[str, str]:
    """Return an address for each name: letters, digits and hyphens, no two alike."""
    found: dict[str, str] = {}
    taken: set[str] = set()
    for name in names:
        anchor = base = "-".join(re.findall(r"\w+", name.casefold())) or "part"
        number = 2
        while anchor in taken:
            anchor, number = f"{base}-{number}", number + 1
        taken.add(anchor)
        found[name] = anchor
    return found
