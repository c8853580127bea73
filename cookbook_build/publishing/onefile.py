"""The one-file edition: the whole book, and each series, as one page with all of it inside.

The folder's own pages follow one another, each under its name. One of them is shown at a time,
which the address says; on paper they are a whole book.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, partial
from typing import TYPE_CHECKING, Any, Final

from markupsafe import Markup

from cookbook_build.publishing.carrying import IN_ONE_FILE, carried
from cookbook_build.publishing.contents import cover
from cookbook_build.publishing.finder import finder_page, folded
from cookbook_build.publishing.inlining import Inliner, anchor_of
from cookbook_build.publishing.larder_pages import larder_page, store_page
from cookbook_build.publishing.page_text import SECTIONS
from cookbook_build.publishing.policy import in_one_file
from cookbook_build.publishing.theme import STYLES, theme_of
from cookbook_build.publishing.web_head import COVER
from cookbook_build.words import _

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from cookbook_build.planning.stores import ShelfStore
    from cookbook_build.publishing.carrying import Carried
    from cookbook_build.publishing.desk import Desk
    from cookbook_build.publishing.editions import Folder
    from cookbook_build.publishing.epub_volumes import Volume
    from cookbook_build.publishing.inlining import HeldPage
    from cookbook_build.publishing.pages import Pages
    from cookbook_build.publishing.theme import Theme

ORDER: Final = (
    "cover", "recipe", "base", "page", "larder", "store", "lists", "provision", "learned",
    "cautions", "find",
)  # fmt: skip
"""How a whole book is printed, by the templates of its pages; the others come last."""

IN_THE_FOLDER: Final = frozenset({"labels.html", "cards.html"})
"""Templates of pages with a paper of their own, which one file can't have beside its own."""

NUMBERED: Final = frozenset({"recipe.html", "base.html"})
OWN: Final = ("onefile.css", "onefile.js")
"""What a theme adds where all pages stand in one file."""

FOLDED_FROM: Final = 60
"""Meals from which on a script takes a meal's page from its fold when it is first shown; ours."""

LAST_OF_OURS: Final = 2
"""Styles of every page before one that a book's own theme adds."""
LARDER: Final = "larder.html"
FINDER: Final = "find.html"


@dataclass(frozen=True, slots=True)
class OneFile:
    """The one file of a volume: the template of each page that it holds, and what it becomes."""

    volume: Volume
    templates: Mapping[str, str]
    inliner: Inliner

    @property
    def name(self) -> str:
        """Its name in the folder."""
        return self.volume.name.file.removesuffix(".epub") + IN_ONE_FILE


class OneFileEdition:
    """The whole book and each series as one file, of the folder's pages."""

    def __init__(self, pages: Pages, filled: Folder) -> None:
        self.pages, self.filled = pages, filled
        self.theme = theme_of(pages.desk.book)
        self.files = {file.volume.name: file for file in self._files()}

    def meal(self, address: str) -> None:
        """Make the page of a meal as it stands in each file that holds it."""
        for volume in self.pages.holding[address]:
            file = self.files[volume.name]
            self.pages.slices.held(address, file.name, file.inliner)

    def parts(self) -> dict[str, Callable[[], Carried]]:
        """Return what writes each file, once the folder's pages are written."""
        looks = _looks(self.theme, self.filled)
        return {file.name: partial(self._write, file, looks) for file in self.files.values()}

    def _files(self) -> Iterator[OneFile]:
        desk, templates = self.pages.desk, ordered(self.pages)
        pictures = {**desk.pictures.plain, **self.theme.pictures}
        for volume in self.pages.volumes:
            only = _names_of(volume, desk)
            held = {name: of for name, of in templates.items() if only is None or name in only}
            recipes = [name for name, template in held.items() if template in NUMBERED]
            numbers = {name: number for number, name in enumerate(recipes, 1)}
            yield OneFile(volume, held, Inliner(frozenset(held), numbers, pictures))

    def _write(self, file: OneFile, looks: dict[str, str]) -> Carried:
        view = _view(file.volume, file.templates, self.pages) | looks
        view["pages"] = self._shown(file)
        view["folded"] = len(file.volume.dishes) >= FOLDED_FROM
        text = self.pages.text.in_pieces(COVER, "onefile.html", view)
        self.filled.write_pieces(file.name, text)
        return carried(file.volume.name, file.name, self.filled)

    def _shown(self, file: OneFile) -> Iterator[HeldPage]:
        """Give the pages of a file, each when it is written."""
        addresses = [dish.recipe.address for dish in file.volume.dishes]
        meals = {self.pages.desk.page_of[address]: address for address in addresses}
        for name, template in file.templates.items():
            if name in meals:
                yield self.pages.slices.held(meals[name], file.name, file.inliner)
            else:
                text = self._text(name, file)
                yield self.pages.slices.held_page(name, text, template[:-5], file.inliner)

    def _text(self, name: str, file: OneFile) -> str:
        """Return the text of a page: the folder's, but for what lists the pages of a volume."""
        pages, volume, template = self.pages, file.volume, file.templates[name]
        if name == COVER:
            return pages.text.of(name, template, self._cover(file))
        if volume.name.series is None:
            return self.filled.read(name)
        if name == LARDER:
            only = {store.name for store in volume.stores}
            return pages.text.of(name, template, larder_page(pages.desk, only))
        if name == FINDER:
            shown = finder_page(pages.desk, pages.slices, volume.dishes)
            return pages.text.of(name, template, shown)
        if name in self.stores:
            meals = {dish.recipe.address for dish in volume.dishes}
            shown = store_page(pages.desk, self.stores[name], meals)
            return pages.text.of(name, template, shown)
        return self.filled.read(name)

    def _cover(self, file: OneFile) -> dict[str, Any]:
        """Return what the cover of a volume shows, in the order of the pages that it has."""
        series, shown = file.volume.name.series, self.cover
        parts = [part.as_in(file.templates) for part in shown["contents"]]
        shown = shown | {"contents": [part for part in parts if part.entries]}
        if series is None:
            return shown
        book = self.pages.desk.book.book
        about = _("From {book}").format(book=book.title)
        return shown | {"book": book.model_copy(update={"title": series, "subtitle": about})}

    @cached_property
    def cover(self) -> dict[str, Any]:
        """What the cover of the whole book shows."""
        return cover(self.pages.desk, self.pages.slices)

    @cached_property
    def stores(self) -> dict[str, ShelfStore]:
        """Each store by its page."""
        desk = self.pages.desk
        return {desk.store_pages[name]: store for name, store in desk.reckoning.stores.items()}


def ordered(pages: Pages) -> dict[str, str]:
    """Return the template of each page that goes into the one file, in its order; stores from A."""
    kinds = [f"{kind}.html" for kind in ORDER]
    found = [
        (name, template) for name, template, _view in pages.views() if template not in IN_THE_FOLDER
    ]
    rank = {kind: at for at, kind in enumerate(kinds)}
    by_name = {page: folded(name) for name, page in pages.desk.store_pages.items()}
    return dict(
        sorted(found, key=lambda page: (rank.get(page[1], len(kinds)), by_name.get(page[0], "")))
    )


def _names_of(volume: Volume, desk: Desk) -> set[str] | None:
    """Return the pages of the folder that go into a series; None for the book, which has all."""
    if volume.name.series is None:
        return None
    return {
        COVER, LARDER, FINDER, "cautions.html",
        *(desk.page_of[dish.recipe.address] for dish in volume.dishes),
        *(desk.page_of[base.address] for base in volume.bases),
        *(desk.store_pages[store.name] for store in volume.stores),
    }  # fmt: skip


def _view(volume: Volume, held: Mapping[str, str], pages: Pages) -> dict[str, Any]:
    title = pages.desk.book.book.title
    return {
        "title": title if volume.name.series is None else f"{volume.name.title} · {title}",
        "web": None,
        "has_feed": False,
        "up": "",
        "here": "",
        "sections": [(_(word), f"#{anchor_of(href)}") for word, href in SECTIONS if href in held],
        "home": f"#{anchor_of(COVER)}",
    }


def _looks(theme: Theme, filled: Folder) -> dict[str, str]:
    """Return styles and scripts of the book, each once, and what lets a browser take these alone.

    A theme's own style comes last.
    """
    style, script = ((theme.ours / name).read_text(encoding="utf-8") for name in OWN)
    plain, added = theme.styles[:LAST_OF_OURS], theme.styles[LAST_OF_OURS:]
    styles = [theme.held(name, filled.read(name)) for name in plain]
    own = [theme.held(name, filled.read(name)) for name in added]
    scripts = [filled.read(name) for name in STYLES if name.endswith(".js")]
    styles_text, scripts_text = _inline([*styles, style, *own]), _inline([*scripts, script])
    policy = in_one_file(styles_text, scripts_text)
    return {"styles": styles_text, "scripts": scripts_text, "policy": policy}


def _inline(texts: Sequence[str]) -> Markup:
    """Return styles or scripts as they stand within an element, which they can't end."""
    return Markup("\n".join(["", *texts, ""]).replace("</", "<\\/"))  # noqa: S704 - the theme's own
