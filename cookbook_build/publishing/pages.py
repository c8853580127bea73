"""The folder of pages: which pages there are, and the template and the view of each."""

from __future__ import annotations

from functools import cached_property, partial
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.findings import Findings
from cookbook_build.kitchen.cautions import (
    ABSORBER_MOISTURE,
    COLD_LINE_C,
    COOK_TO_C,
    HOT_LINE_C,
    WARM_AIR_C,
)
from cookbook_build.kitchen.conditions import METHODS
from cookbook_build.planning.camp import CAMP_METHODS
from cookbook_build.publishing.card_pages import CARDS, card_groups, cards_css, cards_page
from cookbook_build.publishing.contact import ask_link
from cookbook_build.publishing.contents import cover, lists
from cookbook_build.publishing.credit import credit
from cookbook_build.publishing.desk import desk_for
from cookbook_build.publishing.feed import FEED, feed
from cookbook_build.publishing.finder import finder_page
from cookbook_build.publishing.label_sheets import label_book, labels_page, sheets_css
from cookbook_build.publishing.larder_pages import larder_page, store_page
from cookbook_build.publishing.learned_page import learned_page
from cookbook_build.publishing.pictures import made_pictures
from cookbook_build.publishing.prose import prose
from cookbook_build.publishing.provision_pages import provision_page
from cookbook_build.publishing.recipe_pages import base_page, recipe_page
from cookbook_build.publishing.web_head import COVER, web_head
from cookbook_build.publishing.wording import celsius, percent
from cookbook_build.words import N_, _

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from jinja2 import Environment

    from cookbook_build.kitchen.cautions import RawKind
    from cookbook_build.manuscript.recipes import Page
    from cookbook_build.planning.provisions import Provision
    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.publishing.card_pages import CardGroup
    from cookbook_build.publishing.carrying import Offer
    from cookbook_build.publishing.desk import Desk
    from cookbook_build.publishing.label_sheets import LabelBook
    from cookbook_build.publishing.pictures import Pictures

SECTIONS: Final = (
    (N_("Contents"), COVER),
    (N_("Index"), "find.html"),
    (N_("Larder"), "larder.html"),
    (N_("Lists"), "lists.html"),
    (N_("Cautions"), "cautions.html"),
)
COOK_TO_NAMES: Final[dict[RawKind, str]] = {
    "poultry": N_("Poultry, whole or minced"),
    "minced meat": N_("Minced meat other than poultry"),
    "offal and game": N_("Offal and game"),
    "whole meat": N_("Whole cuts of meat, then rest them for 3 minutes"),
    "fish": N_("Fish"),
    "egg": N_("Egg"),
    "milk": N_("Milk"),
    "flour": N_("Flour"),
}
LOOKS: Final = (
    ("device", N_("As the device")),
    ("day", N_("Day")),
    ("dark", N_("Dark")),
    ("red", N_("Red")),
)


class Pages:
    """Renders every page of a book with a theme's templates."""

    def __init__(
        self,
        reckoning: Reckoning,
        templates: Environment,
        pictures: Pictures | None = None,
    ) -> None:
        if pictures is None:
            pictures = made_pictures(reckoning.book, Findings())
        self.desk, self.templates = desk_for(reckoning, pictures), templates
        self.offers: Sequence[Offer] = ()  # known when all else is written
        self.feed = feed(self.desk)
        self.made: Callable[[str], Any] = lambda name: self.makers()[name]()  # or a crew's

    @cached_property
    def labels(self) -> LabelBook:
        """Every label of the book."""
        return label_book(self.desk.reckoning)

    @cached_property
    def cards(self) -> tuple[CardGroup, ...]:
        """Every pocket card of the book."""
        return card_groups(self.desk)

    def render(self) -> Iterator[tuple[str, str]]:
        """Give each page's name in the book and its text."""
        for name, made in self.makers().items():
            yield name, made()

    def makers(self) -> dict[str, Callable[[], str]]:
        """Return what makes the text of each page, and of each style that hangs on the book."""
        return {
            "choices.css": self._choices,
            "labels.css": lambda: self._style("labels.css", sheets_css(self.labels)),
            "cards.css": lambda: self._style("cards.css", cards_css(self.cards)),
            **{
                name: partial(self._page, name, template, view)
                for name, template, view in self.views()
            },
            **({FEED: partial(str, self.feed)} if self.feed else {}),
        }

    def _page(self, name: str, template: str, view: Callable[[], dict[str, Any]]) -> str:
        return self.text(name, template, view())

    def _choices(self) -> str:
        sizes = sorted({size for view in self.desk.views.values() for size in view.servings})
        known = {"sizes": sizes, "methods": METHODS, "camp_methods": CAMP_METHODS}
        return self._style("choices.css", known)

    def _style(self, name: str, shown: Mapping[str, Any]) -> str:
        return self.templates.get_template(name).render(shown)

    def text(self, name: str, template: str, shown: Mapping[str, Any]) -> str:
        """Return the text of the page of a name that shows a view."""
        shared = self._shared(name) | self._told_to_the_web(name, shown)
        return self.templates.get_template(template).render({**shared, **shown})

    def cover(self) -> str:
        """Return the text of the cover, with what it offers by now."""
        return self.text(COVER, "cover.html", cover(self.desk, self.offers))

    def views(self) -> Iterator[tuple[str, str, Callable[[], dict[str, Any]]]]:
        """Give each page's name, its template and what makes the template's view."""
        desk = self.desk
        yield COVER, "cover.html", partial(cover, desk, self.offers)
        for address, dish in desk.reckoning.dishes.items():
            yield desk.page_of[address], "recipe.html", partial(recipe_page, desk, dish)
        for base in desk.book.bases:
            if base.address in desk.reckoning.pots:
                yield desk.page_of[base.address], "base.html", partial(base_page, desk, base)
        yield "larder.html", "larder.html", partial(larder_page, desk)
        for store in desk.reckoning.stores.values():
            yield desk.store_pages[store.name], "store.html", partial(store_page, desk, store)
        yield "find.html", "find.html", partial(finder_page, desk)
        yield CARDS, "cards.html", self._cards
        yield "lists.html", "lists.html", partial(lists, desk)
        for provided in desk.reckoning.provisions:
            name = f"lists/{provided.menu.address}"
            yield f"{name}.html", "provision.html", partial(provision_page, desk, provided)
            yield f"{name}-labels.html", "labels.html", partial(self._labels, provided)
        for page in desk.book.pages:
            yield desk.page_of[page.address], "page.html", partial(_free, desk, page)
        yield "learned.html", "learned.html", partial(learned_page, desk)
        yield "cautions.html", "cautions.html", cautions_page

    def _labels(self, provided: Provision) -> dict[str, Any]:
        return labels_page(self.labels, provided)

    def _cards(self) -> dict[str, Any]:
        return cards_page(self.desk, self.cards)

    def _shared(self, name: str) -> dict[str, Any]:
        return {
            "book": self.desk.book.book,
            "up": "../" * name.count("/"),
            "here": name,
            "sections": [(_(word), href) for word, href in SECTIONS],
            "looks": [(value, _(word)) for value, word in LOOKS],
            "newest": self.desk.newest,
            "store_pages": self.desk.store_pages,
            "credit": credit(self.desk.book.book),
            "has_feed": self.feed is not None,
        }

    def _told_to_the_web(self, name: str, shown: Mapping[str, Any]) -> dict[str, Any]:
        """Return what differs with what a page shows: its head, and a letter about it."""
        book = self.desk.book.book
        cover_picture = self.desk.pictures.view(book.cover, book.cover_text, "")
        return {
            "web": web_head(book, name, shown, cover_picture),
            "ask": ask_link(book.contact, shown["title"]),
        }


def _free(desk: Desk, page: Page) -> dict[str, Any]:
    keys = page.keys
    return {
        "title": keys.title,
        "image": desk.pictures.view(keys.picture, keys.picture_text, "../"),
        "text": prose(page.body, desk.linking()),
    }


def cautions_page() -> dict[str, Any]:
    """Return what the page of cautions shows."""
    return {
        "title": _("Cautions"),
        "cook_to": [
            {"name": _(COOK_TO_NAMES[kind]), "temperature": celsius(temp)}
            for kind, temp in COOK_TO_C.items()
        ],
        "hot_line": celsius(HOT_LINE_C),
        "cold_line": celsius(COLD_LINE_C),
        "warm_air": celsius(WARM_AIR_C),
        "absorber_limit": percent(ABSORBER_MOISTURE),
    }
