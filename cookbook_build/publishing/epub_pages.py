"""The pages of an e-book, in the order in which they are read, and its table of contents."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.publishing.epub_container import Deflated
from cookbook_build.publishing.epub_package import Links, PictureBox
from cookbook_build.publishing.epub_prose import PackedLinking, packed_prose
from cookbook_build.publishing.epub_text import EpubText, xml
from cookbook_build.publishing.epub_volumes import series_page
from cookbook_build.publishing.larder_pages import larder_page, store_uses
from cookbook_build.publishing.pages import cautions_page
from cookbook_build.publishing.recipe_pages import base_page
from cookbook_build.words import _

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from jinja2 import Environment

    from cookbook_build.manuscript.recipes import Page, Recipe
    from cookbook_build.publishing.contents import Section
    from cookbook_build.publishing.epub_package import PackedPicture
    from cookbook_build.publishing.epub_volumes import Volume
    from cookbook_build.publishing.slices import Slices

COVER: Final = "cover.xhtml"
TITLE: Final = "title.xhtml"
CONTENTS: Final = "contents.xhtml"
LARDER: Final = "larder.xhtml"
STORES: Final = "stores.xhtml"
CAUTIONS: Final = "cautions.xhtml"


@dataclass(frozen=True, slots=True)
class EpubPage:
    """One page: its name, its title, its template, its view, and how deep the contents have it."""

    name: str
    title: str
    template: str
    view: Callable[[], dict[str, Any]]
    level: int = 1
    meal: str = ""  # the address of the meal whose page it is


@dataclass(frozen=True, slots=True)
class NavEntry:
    """One line of the contents, with the lines below it."""

    title: str
    href: str
    below: tuple[NavEntry, ...]


class EpubPages:
    """Renders every page of a volume with a theme's templates."""

    def __init__(
        self, volume: Volume, templates: Environment, slices: Slices, parts: Sequence[Section]
    ) -> None:
        self.volume, self.slices = volume, slices
        self.pictures = PictureBox(volume.desk.pictures)
        self.cover = self._cover()
        self.sections = tuple(self._sections(parts))
        self.pages = tuple(self._pages())
        stores = [volume.desk.store_pages[store.name] for store in volume.stores]
        self.links = Links(frozenset([*(page.name for page in self.pages), *stores]))
        self.linking = PackedLinking("", volume.desk.page_of, volume.desk.pictures, self.pictures)
        self.text = EpubText(volume.desk, volume.name, templates, self.links, self.pictures)

    def render(self) -> Iterator[tuple[str, Deflated]]:
        """Give each page's name in the package and its text, deflated."""
        for page in self.pages:
            if page.meal:
                yield page.name, self._chapter(page.meal)
            else:
                text = self.text.of(page.name, page.title, page.template, page.view())
                yield page.name, Deflated.of(xml(text))

    def _chapter(self, address: str) -> Deflated:
        """Return the text of a meal's page, and put the pictures that it shows into the box."""
        made = self.slices.chapter(address, self.volume)
        self.pictures.take(made.pictures, all_worded=made.all_worded)
        return made.page

    def nav(self) -> tuple[NavEntry, ...]:
        """Return the contents: pages, and below a series its recipes."""
        entries: list[NavEntry] = []
        below: list[NavEntry] = []
        for page in reversed(self.pages):
            if page.level > 1:
                below.insert(0, NavEntry(page.title, page.name, ()))
            elif page.name not in {COVER, CONTENTS}:
                entries.insert(0, NavEntry(page.title, page.name, tuple(below)))
                below = []
        return tuple(entries)

    def landmarks(self) -> tuple[tuple[str, str, str], ...]:
        """Return the kind, the title and the page of each place that readers jump to."""
        first = next((page for page in self.pages if page.level > 1), self.pages[-1])
        return (
            ("cover", _("Cover"), COVER if self.cover else TITLE),
            ("toc", _("Contents"), CONTENTS),
            ("bodymatter", first.title, first.name),
            ("index", _("Index by store"), STORES),
        )

    def _cover(self) -> PackedPicture | None:
        """Return the picture on the cover; of a series its own, else the book's."""
        keys = self.volume.desk.book.book
        own = keys.series.get(self.volume.name.series or "")
        for name, text in (
            *([(own.picture, own.picture_text)] if own else ()),
            (keys.cover, keys.cover_text),
        ):
            found = self.pictures.packed(self.volume.desk.pictures.view(name, text, ""))
            if found and found.href:
                return found
        return None

    def _sections(self, parts: Sequence[Section]) -> Iterator[Section]:
        """Give the series, the other recipes and the bases of which the volume has any."""
        volume = self.volume
        recipes = (*(dish.recipe for dish in volume.dishes), *volume.bases)
        held = {volume.desk.page_of[recipe.address] for recipe in recipes}
        for section in parts:
            if any(entry.href in held for entry in section.entries):
                yield section.only(held)

    def _pages(self) -> Iterator[EpubPage]:
        desk = self.volume.desk
        if self.cover:
            yield EpubPage(COVER, _("Cover"), "cover.xhtml", lambda: {"image": self.cover})
        yield EpubPage(TITLE, self.volume.name.title, "title.xhtml", dict)
        yield EpubPage(CONTENTS, _("Contents"), "contents.xhtml", self._contents)
        meals = [dish.recipe.address for dish in self.volume.dishes]
        by_page = {desk.page_of[address]: address for address in meals}
        bases = {desk.page_of[base.address]: base for base in self.volume.bases}
        for section in self.sections:
            name = series_page(section.anchor)
            yield EpubPage(
                name, section.name, "series.xhtml", partial(lambda part: {"part": part}, section)
            )
            for entry in section.entries:
                meal = by_page.get(entry.href, "")
                view = dict if meal else partial(self._base, bases[entry.href])
                template = "meal.xhtml" if meal else "base.xhtml"
                yield EpubPage(entry.href, entry.title, template, view, level=2, meal=meal)
        for page in self.volume.pages:
            yield EpubPage(
                desk.page_of[page.address], page.keys.title, "page.xhtml", partial(self._free, page)
            )
        yield EpubPage(LARDER, _("The larder"), "larder.xhtml", self._larder)
        yield EpubPage(STORES, _("Index by store"), "stores.xhtml", self._stores)
        yield EpubPage(CAUTIONS, _("Cautions"), "cautions.xhtml", cautions_page)

    def _contents(self) -> dict[str, Any]:
        return {"entries": self.nav(), "landmarks": self.landmarks()}

    def _base(self, base: Recipe) -> dict[str, Any]:
        return base_page(self.volume.desk, base) | {
            "image": self._image(base),
            "text": packed_prose(base.body, self.linking, self.links, top=3),
        }

    def _free(self, page: Page) -> dict[str, Any]:
        return {
            "image": self._image(page),
            "text": packed_prose(page.body, self.linking, self.links),
        }

    def _image(self, of: Recipe | Page) -> PackedPicture | None:
        pictures = self.volume.desk.pictures
        return self.pictures.packed(pictures.view(of.keys.picture, of.keys.picture_text, ""))

    def _larder(self) -> dict[str, Any]:
        return larder_page(self.volume.desk, {store.name for store in self.volume.stores})

    def _stores(self) -> dict[str, Any]:
        desk, volume = self.volume.desk, self.volume
        meals = {dish.recipe.address for dish in volume.dishes}
        return {
            "stores": [
                {
                    "name": store.name,
                    "anchor": desk.store_pages[store.name].partition("#")[2],
                    "raw": store.store.keys.raw,
                    "base": desk.page_of[store.base] if store.base else "",
                    "base_title": desk.book.recipes[store.base].keys.title if store.base else "",
                    "uses": store_uses(desk, store, meals),
                }
                for store in volume.stores
            ]
        }
