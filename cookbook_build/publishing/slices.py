"""What is made of each meal's slice of the book: kept by the slice's digest, or made and kept."""

from __future__ import annotations

import functools
import hashlib
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from pydantic import TypeAdapter

from cookbook_build.digests import Digests
from cookbook_build.kitchen.conditions import Method  # noqa: TC001 - facts are read again
from cookbook_build.planning.telling import STANDS_FOR
from cookbook_build.program import program
from cookbook_build.publishing.card_pages import Card, card_of
from cookbook_build.publishing.desk import Desk
from cookbook_build.publishing.epub_chapters import Chapter, chapter, packed
from cookbook_build.publishing.epub_meals import meal_view
from cookbook_build.publishing.inlining import HeldPage
from cookbook_build.publishing.meal_tables import MealTables, meal_tables
from cookbook_build.publishing.page_text import PageText
from cookbook_build.publishing.ready_times import ready_view
from cookbook_build.publishing.recipe_pages import recipe_page
from cookbook_build.publishing.renditions import Rendition

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from cookbook_build.kept import Kept
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.publishing.epub_volumes import Volume
    from cookbook_build.publishing.inlining import Inliner


@dataclass(frozen=True, slots=True)
class Facts:
    """What pages of the whole book show of a meal."""

    minutes: dict[Method, int]  # by way, from cold water to the table
    card: Card


@dataclass(frozen=True)
class MealSlice:
    """All that the pages of a meal can see, and a digest of it."""

    desk: Desk
    dish: Dish
    digest: str

    @functools.cached_property
    def tables(self) -> MealTables:
        """The cards of the meal below its water."""
        return meal_tables(self.desk, self.dish)

    @functools.cached_property
    def meal(self) -> dict[str, Any]:
        """What its page shows in every e-book."""
        return meal_view(self.desk, self.dish, self.tables)


@dataclass(frozen=True, slots=True)
class Made:
    """What was made of a meal: its facts, and the keys of its pages in other editions."""

    facts: Facts
    keys: dict[tuple[str, str], str]


class Slices:
    """The meals of a book, each seen alone."""

    def __init__(self, pages: PageText, kept: Kept, made_by: str) -> None:
        """Keep what is made; `made_by` stands for the templates that pages are made with."""
        self._pages, self._kept, self._made_by = pages, kept, made_by
        self._digests = Digests({**STANDS_FOR, **SHOWN_AS})
        self._facts: dict[str, Facts] = {}
        self._keys: dict[str, dict[tuple[str, str], str]] = {}  # by meal, and what for which file
        self._slice = functools.lru_cache(maxsize=1)(self._sliced)  # its page, then its facts

    def page(self, address: str) -> str:
        """Return the text of a meal's page."""
        own = self._slice(address)
        return self._kept.made(f"page-{own.digest}", lambda: self._page(own).encode()).decode()

    def facts(self, address: str) -> Facts:
        """Return what pages of the whole book show of a meal."""
        if address not in self._facts:
            own = self._slice(address)
            key = f"facts-{own.digest}"
            made = self._kept.made(key, lambda: _FACTS.dump_json(_facts(own)))
            self._facts[address] = _FACTS.validate_json(made)
        return self._facts[address]

    def chapter(self, address: str, volume: Volume) -> Chapter:
        """Return a meal's page in an e-book."""
        found = self._found("chapter", address, volume.name.file)
        return Chapter.of_bytes(found or self._chapter(address, volume))

    def _chapter(self, address: str, volume: Volume) -> bytes:
        own = self._slice(address)
        of = packed(own.desk, volume)
        places = (of.desk.page_of, of.desk.store_pages, of.volume, of.links)
        key = f"chapter-{self._digests.of(own.digest, places)}"
        self._remember("chapter", address, volume.name.file, key)

        def made() -> bytes:
            return chapter(of, own.dish, own.meal, self._pages.templates).as_bytes()

        return self._kept.made(key, made)

    def held(self, address: str, file: str, within: Inliner) -> HeldPage:
        """Return a meal's page as it stands in one file with others."""
        found = self._found("held", address, file)
        return HeldPage.of_bytes(found or self._held(address, file, within))

    def _held(self, address: str, file: str, within: Inliner) -> bytes:
        name, text = self._pages.desk.page_of[address], self.page(address)
        key = self._key_of(name, text, "recipe", within)
        self._remember("held", address, file, key)
        return self._kept.made(key, lambda: within.held(name, text, "recipe").as_bytes())

    def held_page(self, name: str, text: str, kind: str, within: Inliner) -> HeldPage:
        """Return any other page as it stands in one file."""
        key = self._key_of(name, text, kind, within)
        made = self._kept.made(key, lambda: within.held(name, text, kind).as_bytes())
        return HeldPage.of_bytes(made)

    def _key_of(self, name: str, text: str, kind: str, within: Inliner) -> str:
        told = (program(), name, text, kind, within.told_of(name, text))
        return f"held-{self._digests.of(*told)}"

    def made(self, address: str) -> Made:
        """Return what was made of a meal, for another process to go on with."""
        return Made(self.facts(address), self._keys.get(address, {}))

    def know(self, address: str, made: Made) -> None:
        """Take over what another process has made of a meal."""
        self._facts[address] = made.facts
        self._keys[address] = made.keys

    def _found(self, what: str, address: str, file: str) -> bytes | None:
        """Return what was made of a meal before in this binding, by its key alone."""
        key = self._keys.get(address, {}).get((what, file))
        return self._kept.read(key) if key else None

    def _remember(self, what: str, address: str, file: str, key: str) -> None:
        self._keys.setdefault(address, {})[what, file] = key

    def _sliced(self, address: str) -> MealSlice:
        dish = self._pages.desk.reckoning.dishes[address]
        desk = self._pages.desk.slice(dish)
        told = (program(), self._made_by, self._pages.has_feed, desk)
        return MealSlice(desk, dish, self._digests.of(*told))

    def _page(self, own: MealSlice) -> str:
        pages = PageText(own.desk, self._pages.templates, self._pages.has_feed)
        name = own.desk.page_of[own.dish.recipe.address]
        return pages.of(name, "recipe.html", recipe_page(own.desk, own.dish, own.tables))


def _facts(own: MealSlice) -> Facts:
    dish = own.dish
    minutes = {
        method: ready_view(dish, dish.default_servings, method).total_min for method in dish.methods
    }
    return Facts(minutes, card_of(own.desk, dish))


_FACTS: Final = TypeAdapter(Facts)
SHOWN_AS: Final[Mapping[type, Callable[[Any], Any]]] = {
    Desk: lambda desk: (
        desk.reckoning, desk.page_of, desk.store_pages, desk.anchors, desk.newest, desk.pictures,
        desk.neighbours,
    ),
    Rendition: lambda made: (
        made.media_type, made.width, made.height, hashlib.sha256(made.data).digest(),
    ),
}  # fmt: skip
"""By what a desk and its pictures are told."""
