"""The cover with the contents, and the page of lists."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from cookbook_build.publishing.card_pages import CARDS
from cookbook_build.publishing.desk import BASES, OTHER
from cookbook_build.publishing.provisioning import summary
from cookbook_build.publishing.wording import clock, method_within
from cookbook_build.words import _

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Sequence

    from cookbook_build.planning.dishes import Dish
    from cookbook_build.publishing.carrying import Offer
    from cookbook_build.publishing.desk import Desk
    from cookbook_build.publishing.pictures import PictureView
    from cookbook_build.publishing.slices import Slices


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the contents."""

    title: str
    href: str
    part: int | None = None
    blurb: str = ""
    time: str = ""
    ways: str = ""


@dataclass(frozen=True, slots=True)
class Section:
    """One part of the contents."""

    name: str
    anchor: str
    about: str
    numbered: bool
    image: PictureView | None
    entries: tuple[Entry, ...]

    def only(self, hrefs: Collection[str]) -> Section:
        """Return this part with the entries of some pages."""
        return replace(self, entries=tuple(e for e in self.entries if e.href in hrefs))

    def as_in(self, hrefs: Iterable[str]) -> Section:
        """Return this part with the entries of some pages, in the order of these."""
        found = {entry.href: entry for entry in self.entries}
        return replace(self, entries=tuple(found[href] for href in hrefs if href in found))


def cover(desk: Desk, slices: Slices, carried: Sequence[Offer] = ()) -> dict[str, Any]:
    """Return what the cover shows, and the files that it offers."""
    book = desk.book.book
    return {
        "title": book.title,
        "image": desk.pictures.view(book.cover, book.cover_text, ""),
        "contents": [part for part in (*sections(desk, slices), _also(desk)) if part.entries],
        "carried": carried,
    }


def sections(desk: Desk, slices: Slices) -> Iterator[Section]:
    """Give the series, the other recipes and the bases, each with its lines of the contents."""
    by_series: dict[str, list[Entry]] = defaultdict(list)
    for dish in desk.reckoning.dishes.values():
        by_series[dish.recipe.keys.series or ""].append(_entry(desk, slices, dish))
    for name, keys in desk.book.book.series.items():
        entries = tuple(by_series.pop(name, ()))
        image = desk.pictures.view(keys.picture, keys.picture_text, "") if entries else None
        yield Section(
            name,
            desk.anchors[name],
            keys.about or "",
            numbered=True,
            image=image,
            entries=entries,
        )
    rest = tuple(entry for entries in by_series.values() for entry in entries)
    yield Section(
        _(OTHER) if desk.book.book.series else _("Recipes"),
        desk.anchors[OTHER], "", numbered=False, image=None, entries=rest,
    )  # fmt: skip
    bases = tuple(
        Entry(base.keys.title, desk.page_of[base.address], blurb=base.keys.blurb or "")
        for base in desk.book.bases
        if base.address in desk.reckoning.pots
    )
    about = _("Cooked fresh at home, dried, and used by the recipes above.")
    yield Section(_(BASES), desk.anchors[BASES], about, numbered=False, image=None, entries=bases)


def _also(desk: Desk) -> Section:
    lists = [
        Entry(c.menu.keys.title, f"lists/{c.menu.address}.html", blurb=summary(c))
        for c in desk.reckoning.provisions
    ]
    pages = [Entry(page.keys.title, desk.page_of[page.address]) for page in desk.book.pages]
    index = Entry(
        _("Index"), "find.html", blurb=_("Every meal by its name, by way and by what it holds.")
    )
    larder = Entry(
        _("The larder"),
        "larder.html",
        blurb=_("Every store on the shelf, and what a cup of it weighs."),
    )
    cards = Entry(
        _("Pocket cards"), CARDS, blurb=_("Each recipe on a card, to slip into its pouch.")
    )
    learned = Entry(
        _("What we learned"), "learned.html", blurb=_("From every trial, for every recipe.")
    )
    cautions = Entry(_("Cautions"), "cautions.html", blurb=_("What hot water does not do."))
    return Section(
        _("Also in this book"), "also", "", numbered=False, image=None,
        entries=(*lists, index, cards, larder, learned, *pages, cautions),
    )  # fmt: skip


def _entry(desk: Desk, slices: Slices, dish: Dish) -> Entry:
    keys = dish.recipe.keys
    ways = ", ".join(map(method_within, dish.methods))
    return Entry(
        keys.title,
        desk.page_of[dish.recipe.address],
        keys.part,
        keys.blurb or "",
        clock(slices.facts(dish.recipe.address).minutes[dish.default_method]),
        _("{way} only").format(way=ways) if len(dish.methods) == 1 else ways,
    )


def lists(desk: Desk) -> dict[str, Any]:
    """Return what the page of lists shows."""
    return {
        "title": _("Lists"),
        "lists": [
            {
                "title": c.menu.keys.title,
                "href": f"lists/{c.menu.address}.html",
                "summary": summary(c),
            }
            for c in desk.reckoning.provisions
        ],
    }
