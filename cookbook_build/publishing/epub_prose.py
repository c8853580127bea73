"""A text of the book as it stands in an e-book: links and pictures that the package holds."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final
from urllib.parse import urlsplit

from markdown_it.token import Token
from markupsafe import Markup

from cookbook_build.manuscript.body import link_address, picture_source
from cookbook_build.publishing.prose import Linking, prose
from cookbook_build.words import _

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from cookbook_build.manuscript.body import Body
    from cookbook_build.publishing.epub_package import Links, PictureBox

ALWAYS_THERE: Final = frozenset({"#mix", "#water", "#heat", "#keeping", "#nourishment"})
"""The places of a meal's page that a text may point at."""


@dataclass(frozen=True, slots=True)
class PackedLinking(Linking):
    """How a text of an e-book reaches the rest of it."""

    box: PictureBox

    def picture(self, written: str, alt: str) -> Markup:
        """Return a picture that the package holds; `_picture` has put words for any other."""
        held = self.box.packed(self.pictures.view(written, alt, ""))
        return Markup('<img src="{}" alt="{}" />').format(held.href if held else "", alt)


def packed_prose(
    body: Body,
    linking: PackedLinking,
    links: Links,
    figure: Callable[[str, str | None], Markup] | None = None,
    *,
    top: int = 2,
) -> Markup:
    """Return a text as XHTML; a link or picture that the e-book can't have leaves its words."""
    tokens = tuple(
        block.copy(children=list(_fitted(block.children, linking, links)))
        if block.children
        else block
        for block in body.tokens
    )
    return prose(replace(body, tokens=tokens), linking, figure, top=top)


def _fitted(tokens: Sequence[Token], linking: PackedLinking, links: Links) -> Iterator[Token]:
    open_links: list[bool] = []
    for token in tokens:
        if token.type == "link_open":
            open_links.append(_holds(str(token.attrs["href"]), linking, links))
        kept = open_links[-1] if token.type in {"link_open", "link_close"} else True
        if token.type == "link_close":
            open_links.pop()
        if token.type == "image":
            yield _picture(token, linking)
        elif kept:
            yield token


def _holds(href: str, linking: PackedLinking, links: Links) -> bool:
    """Return whether a link leads somewhere from within the e-book."""
    address = link_address(href)
    if address:
        return bool(links.reach(linking.page_of[address]))
    if href.startswith("#"):
        return href in ALWAYS_THERE
    try:
        parts = urlsplit(href)
    except ValueError:
        return False
    return bool(parts.path if parts.scheme.casefold() == "mailto" else parts.hostname)


def _picture(token: Token, linking: PackedLinking) -> Token:
    """Return a picture, or its words where the package can't hold it."""
    packed = linking.box.packed(linking.pictures.view(picture_source(token), token.content, ""))
    if packed and packed.href:
        return token
    words = _("[Picture: {words}]").format(words=token.content) if token.content else ""
    return Token("text", "", 0, content=words)
