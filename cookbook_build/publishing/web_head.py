"""What a page's head tells the web: where it stands, and how it is shown where it is shared.

Only a book that has an `address` tells it; see the Open Graph protocol, https://ogp.me.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final
from urllib.parse import quote, urljoin

from cookbook_build.words import _

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from cookbook_build.manuscript.schema import BookKeys
    from cookbook_build.publishing.pictures import PictureView

COVER: Final = "index.html"


@dataclass(frozen=True, slots=True)
class WebHead:
    """The page's own address, and its properties in Open Graph's names."""

    canonical: str
    properties: tuple[tuple[str, str], ...]


def page_address(address: str, name: str) -> str:
    """Return where a file of the book stands on the web; the cover is the folder itself."""
    return f"{address}/{'' if name == COVER else quote(name)}"


def picture_address(address: str, name: str, image: PictureView) -> str:
    """Return where a picture stands that a page of the book shows."""
    return urljoin(f"{address}/{quote(name)}", quote(image.src))


def web_head(
    book: BookKeys, name: str, shown: Mapping[str, Any], cover: PictureView | None
) -> WebHead | None:
    """Return what the head of a page tells the web, or None for a book that is not on it.

    `shown` is the view of the page; `cover` the picture of a page that has none.
    """
    if book.address is None:
        return None
    return WebHead(
        page_address(book.address, name), tuple(_properties(book, book.address, name, shown, cover))
    )


def _properties(
    book: BookKeys, address: str, name: str, shown: Mapping[str, Any], cover: PictureView | None
) -> Iterator[tuple[str, str]]:
    yield "og:type", "website" if name == COVER else "article"
    yield "og:title", shown["title"]
    if description := _description(book, name, shown):
        yield "og:description", description
    yield "og:url", page_address(address, name)
    image, of = shown.get("image"), name
    if image is None:
        image, of = cover, COVER
    if image is not None:
        yield "og:image", picture_address(address, of, image)
        if image.alt:
            yield "og:image:alt", image.alt
    yield "og:locale", open_graph_locale(book.language)
    yield "og:site_name", book.title


def _description(book: BookKeys, name: str, shown: Mapping[str, Any]) -> str:
    """Return a recipe's blurb, the cover's subtitle, and of any other page whose book it is."""
    if "recipe" in shown and shown["recipe"].keys.blurb:
        return str(shown["recipe"].keys.blurb)
    if name == COVER:
        return book.subtitle or ""
    if book.author:
        words = _("From {title}, by {author}.").format(title=book.title, author=book.author)
    else:
        words = _("From {title}.").format(title=book.title)
    return words[:-1] if words.endswith("..") else words  # a name that ends with one


def open_graph_locale(language: str) -> str:
    """Return a language tag in Open Graph's way: `en_GB`.

    A tag without a territory stays as it is, for leaving it out would claim `en_US`.
    """
    tag, *more = language.split("-")
    territory = next((part for part in more if len(part) == 2 and part.isalpha()), None)
    return f"{tag}_{territory.upper()}" if territory else tag
