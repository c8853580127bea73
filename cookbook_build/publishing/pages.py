"""The folder of pages: which pages there are, and the template and the view of each."""

from __future__ import annotations

from functools import cached_property, partial
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.findings import Findings
from cookbook_build.kept import NOTHING_KEPT
from cookbook_build.kitchen.cautions import (
    ABSORBER_MOISTURE,
    COLD_LINE_C,
    COOK_TO_C,
    HOT_LINE_C,
    WARM_AIR_C,
)
from cookbook_build.kitchen.conditions import METHODS
from cookbook_build.planning.camp import CAMP_METHODS
from cookbook_build.planning.known import Known
from cookbook_build.publishing.card_pages import CARDS, card_groups, cards_css, cards_page
from cookbook_build.publishing.contents import cover, lists
from cookbook_build.publishing.desk import desk_for
from cookbook_build.publishing.epub_volumes import volumes
from cookbook_build.publishing.feed import FEED, feed
from cookbook_build.publishing.finder import finder_page
from cookbook_build.publishing.label_sheets import label_book, labels_page, sheets_css
from cookbook_build.publishing.larder_pages import larder_page, store_page
from cookbook_build.publishing.learned_page import learned_page
from cookbook_build.publishing.page_text import PageText
from cookbook_build.publishing.pictures import made_pictures
from cookbook_build.publishing.prose import prose
from cookbook_build.publishing.provision_pages import provision_page
from cookbook_build.publishing.recipe_pages import base_page, recipe_page
from cookbook_build.publishing.slices import Slices
from cookbook_build.publishing.theme import theme_of
from cookbook_build.publishing.views import serving_sizes
from cookbook_build.publishing.web_head import COVER
from cookbook_build.publishing.wording import celsius, percent
from cookbook_build.words import N_, _

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from jinja2 import Environment

    from cookbook_build.kept import Kept
    from cookbook_build.kitchen.cautions import RawKind
    from cookbook_build.manuscript.recipes import Page
    from cookbook_build.planning.provisions import Provision
    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.publishing.card_pages import CardGroup
    from cookbook_build.publishing.carrying import Offer
    from cookbook_build.publishing.desk import Desk
    from cookbook_build.publishing.epub_volumes import Volume
    from cookbook_build.publishing.label_sheets import LabelBook
    from cookbook_build.publishing.pictures import Pictures

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


class Pages:
    """Renders every page of a book with a theme's templates."""

    def __init__(
        self,
        reckoning: Reckoning,
        templates: Environment,
        pictures: Pictures | None = None,
        kept: Kept = NOTHING_KEPT,
    ) -> None:
        if pictures is None:
            pictures = made_pictures(reckoning.book, Findings())
        self.desk, self.templates = desk_for(reckoning, pictures), templates
        self.kept = kept
        self.offers: Sequence[Offer] = ()  # known when all else is written
        self.feed = feed(self.desk)
        self.text = PageText(self.desk, templates, self.feed is not None)
        self.slices = Slices(self.text, kept, theme_of(reckoning.book).made_by)

    @cached_property
    def volumes(self) -> tuple[Volume, ...]:
        """The whole book and each series, as an e-book and one file hold them."""
        return volumes(self.desk)

    @cached_property
    def holding(self) -> dict[str, list[Volume]]:
        """The volumes that hold each meal."""
        held: dict[str, list[Volume]] = {}
        for volume in self.volumes:
            for dish in volume.dishes:
                held.setdefault(dish.recipe.address, []).append(volume)
        return held

    @cached_property
    def labels(self) -> LabelBook:
        """Every label of the book."""
        return label_book(self.desk.reckoning, Known(self.kept))

    @cached_property
    def cards(self) -> tuple[CardGroup, ...]:
        """Every pocket card of the book."""
        facts = map(self.slices.facts, self.desk.reckoning.dishes)
        return card_groups(self.desk.book.book, (one.card for one in facts))

    def render(self) -> Iterator[tuple[str, str]]:
        """Give each page's name in the book and its text."""
        for name, made in self.makers().items():
            yield name, made()

    def makers(self) -> dict[str, Callable[[], str]]:
        """Return what makes the text of each page, and of each style that hangs on the book."""
        desk = self.desk
        meals = {desk.page_of[address]: address for address in desk.reckoning.dishes}
        return {
            "choices.css": self._choices,
            "labels.css": lambda: self._style("labels.css", sheets_css(self.labels)),
            "cards.css": lambda: self._style("cards.css", cards_css(self.cards)),
            **{
                name: partial(self.slices.page, meals[name])
                if name in meals
                else partial(self._page, name, template, view)
                for name, template, view in self.views()
            },
            **({FEED: partial(str, self.feed)} if self.feed else {}),
        }

    def _page(self, name: str, template: str, view: Callable[[], dict[str, Any]]) -> str:
        return self.text.of(name, template, view())

    def _choices(self) -> str:
        book, dishes = self.desk.book, self.desk.reckoning.dishes.values()
        sizes = sorted({size for dish in dishes for size in serving_sizes(dish, book)})
        known = {"sizes": sizes, "methods": METHODS, "camp_methods": CAMP_METHODS}
        return self._style("choices.css", known)

    def _style(self, name: str, shown: Mapping[str, Any]) -> str:
        return self.templates.get_template(name).render(shown)

    def cover(self) -> str:
        """Return the text of the cover, with what it offers by now."""
        return self.text.of(COVER, "cover.html", cover(self.desk, self.slices, self.offers))

    def views(self) -> Iterator[tuple[str, str, Callable[[], dict[str, Any]]]]:
        """Give each page's name, its template and what makes the template's view."""
        desk = self.desk
        yield COVER, "cover.html", partial(cover, desk, self.slices, self.offers)
        for address, dish in desk.reckoning.dishes.items():
            yield desk.page_of[address], "recipe.html", partial(recipe_page, desk, dish)
        for base in desk.book.bases:
            if base.address in desk.reckoning.pots:
                yield desk.page_of[base.address], "base.html", partial(base_page, desk, base)
        yield "larder.html", "larder.html", partial(larder_page, desk)
        for store in desk.reckoning.stores.values():
            yield desk.store_pages[store.name], "store.html", partial(store_page, desk, store)
        yield "find.html", "find.html", partial(finder_page, desk, self.slices)
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
