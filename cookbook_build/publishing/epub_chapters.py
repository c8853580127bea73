"""Chapters: the page of one meal in an e-book, made of the meal's slice of the book alone."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, Any

from cookbook_build.publishing.epub_container import Deflated
from cookbook_build.publishing.epub_meals import steps_figure
from cookbook_build.publishing.epub_package import Links, PictureBox
from cookbook_build.publishing.epub_prose import PackedLinking, packed_prose
from cookbook_build.publishing.epub_text import EpubText, xml
from cookbook_build.publishing.epub_volumes import series_page

if TYPE_CHECKING:
    from jinja2 import Environment

    from cookbook_build.planning.dishes import Dish
    from cookbook_build.publishing.desk import Desk
    from cookbook_build.publishing.epub_volumes import Volume, VolumeName


@dataclass(frozen=True, slots=True)
class Chapter:
    """A meal's page in an e-book, and the pictures of the book that it shows, in their order."""

    page: Deflated
    pictures: tuple[str, ...]
    all_worded: bool

    def as_bytes(self) -> bytes:
        """Return it as it is kept."""
        page = self.page
        head = json.dumps([page.crc, page.size, self.pictures, self.all_worded])
        return head.encode() + b"\n" + page.data

    @classmethod
    def of_bytes(cls, kept: bytes) -> Chapter:
        """Return what was kept."""
        head, _, data = kept.partition(b"\n")
        crc, size, pictures, all_worded = json.loads(head)
        return cls(Deflated(data, crc, size), tuple(pictures), bool(all_worded))


@dataclass(frozen=True, slots=True)
class Packed:
    """A meal's slice as a volume has it: what stands where, and what can be reached."""

    desk: Desk
    volume: VolumeName
    links: Links


def packed(desk: Desk, volume: Volume) -> Packed:
    """Return the slice of a meal with its places in a volume."""
    whole = volume.desk
    own = replace(
        desk,
        page_of={address: whole.page_of[address] for address in desk.page_of},
        store_pages={name: whole.store_pages[name] for name in desk.store_pages},
    )
    series = map(series_page, own.anchors.values())
    near = {*own.page_of.values(), *own.store_pages.values(), *series}
    return Packed(own, volume.name, Links(volume.links.targets & near))


def chapter(of: Packed, dish: Dish, meal: dict[str, Any], templates: Environment) -> Chapter:
    """Return the page of a meal in a volume; `meal` is what it shows in each of them."""
    desk, recipe, box = of.desk, dish.recipe, PictureBox(of.desk.pictures)
    text = EpubText(desk, of.volume, templates, of.links, box)
    made = text.of(
        desk.page_of[recipe.address], recipe.keys.title, "meal.xhtml",
        meal | _linked(of, dish, box),
    )  # fmt: skip
    return Chapter(Deflated.of(xml(made)), tuple(box.held), box.all_worded)


def _linked(of: Packed, dish: Dish, box: PictureBox) -> dict[str, Any]:
    """Return what of the page leads elsewhere."""
    desk, keys, body = of.desk, dish.recipe.keys, dish.recipe.body
    series = keys.series if keys.series in desk.anchors else None
    linking = PackedLinking("", desk.page_of, desk.pictures, box)
    figure = partial(steps_figure, desk.views[dish.recipe.address])
    return {
        "image": box.packed(desk.pictures.view(keys.picture, keys.picture_text, "")),
        "series": series,
        "series_page": series_page(desk.anchors[series]) if series else "",
        "text": packed_prose(body, linking, of.links, figure, top=3),
    }
