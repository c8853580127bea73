"""The pictures that a book names: in its front matter and in its texts, each with its place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.manuscript.body import body_pictures, image_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from cookbook_build.findings import Place
    from cookbook_build.manuscript.checking import Places
    from cookbook_build.manuscript.recipes import Page, Recipe
    from cookbook_build.manuscript.schema import BookKeys


@dataclass(frozen=True, slots=True)
class NamedPicture:
    """A picture as an author names it: its file within images/, and where the name stands."""

    file: str
    place: Place
    is_shown: bool = True  # a series without meals has no part of the contents


def named_pictures(
    book: BookKeys, places: Places, recipes: Mapping[str, Recipe], pages: Iterable[Page]
) -> Iterator[NamedPicture]:
    """Give every picture that a book names, as often as it is named."""
    if book.cover:
        yield NamedPicture(image_name(book.cover), places.of("cover"))
    begun = {recipe.keys.series for recipe in recipes.values() if not recipe.is_base}
    for name, series in book.series.items():
        if series.picture:
            place = places.of("series", name, "picture")
            yield NamedPicture(image_name(series.picture), place, name in begun)
    for recipe in recipes.values():
        yield from _of_text(recipe)
    for page in pages:
        yield from _of_text(page)


def _of_text(text: Recipe | Page) -> Iterator[NamedPicture]:
    if text.keys.picture:
        yield NamedPicture(image_name(text.keys.picture), text.places.of("picture"))
    for written, place in body_pictures(text.body):
        yield NamedPicture(image_name(written), place)
