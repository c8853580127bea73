"""Markdown as HTML: headings one step down, pictures and links within the book, figures filled."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from markdown_it.renderer import RendererHTML
from markupsafe import Markup, escape

from cookbook_build.manuscript.body import link_address, markdown_options, picture_source
from cookbook_build.words import _

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from markdown_it.token import Token
    from markdown_it.utils import EnvType, OptionsDict

    from cookbook_build.manuscript.body import Body
    from cookbook_build.publishing.pictures import Pictures, PictureView

SIZES: Final = "(min-width: 41rem) 36rem, 100vw"
"""How wide a text's picture is: as its column, whose breadth is the theme's `--measure`."""


@dataclass(frozen=True, slots=True)
class Linking:
    """How a page reaches the rest of the book: its way up, the page of each address, pictures."""

    up: str
    page_of: Mapping[str, str]
    pictures: Pictures

    def to(self, address: str) -> str:
        """Return the link to a recipe or a free page."""
        return self.up + self.page_of[address]

    def picture(self, written: str, alt: str) -> Markup:
        """Return a picture of the book as it stands in a text."""
        view = self.pictures.view(written, alt, self.up)
        return picture(view) if view else Markup()


def prose(
    body: Body,
    linking: Linking,
    figure: Callable[[str, str | None], Markup] | None = None,
    *,
    top: int = 2,
) -> Markup:
    """Return a body as HTML; `figure` gives the value of `{water}` and its kin.

    Its own headings begin at level `top`.
    """
    renderer = _Renderer(linking, figure)
    return Markup(renderer.render(_lowered(body.tokens, top), markdown_options(), {}))  # noqa: S704 - text escaped by the renderer


def picture(view: PictureView) -> Markup:
    """Return a picture within a text, as the macro of that name shows those above it."""
    sizes = Markup(' sizes="{}"').format(SIZES)
    webp = Markup('<source type="image/webp" srcset="{}"{}>').format(view.webp, sizes)
    srcset = Markup(' srcset="{}"{}').format(view.srcset, sizes)
    return Markup(
        '<picture>{}<img src="{}"{} width="{}" height="{}" alt="{}" loading="lazy" '
        'decoding="async"></picture>'
    ).format(
        webp if view.webp else "",
        view.src,
        srcset if view.srcset else "",
        view.width,
        view.height,
        view.alt,
    )


def _lowered(tokens: Sequence[Token], top: int) -> list[Token]:
    """Return the tokens with a page's own headings below its title, and none skipped."""
    levels = sorted({token.tag for token in tokens if token.type == "heading_open"})
    step = {tag: min(at + top, 6) for at, tag in enumerate(levels)}
    lowered: list[Token] = []
    level = top - 1
    for token in tokens:
        if token.type == "heading_open":
            level = min(step[token.tag], level + 1)
        heading = token.type.startswith("heading_")
        lowered.append(token.copy(tag=f"h{level}") if heading else _aligned(token))
    return lowered


def _aligned(token: Token) -> Token:
    """Return a cell of a table with its alignment as a class: a page's policy lets in no style."""
    style = str(token.attrs.get("style", ""))
    if token.type not in {"th_open", "td_open"} or not style:
        return token
    return token.copy(attrs={"class": f"to-{style.removeprefix('text-align:')}"})


class _Renderer(RendererHTML):
    """Renders tokens; the names of its methods are those of the token types."""

    def __init__(
        self, linking: Linking, figure_text: Callable[[str, str | None], Markup] | None
    ) -> None:
        self.linking, self.figure_text = linking, figure_text
        super().__init__()

    def figure(
        self, tokens: Sequence[Token], idx: int, _options: OptionsDict, _env: EnvType
    ) -> str:
        """Return a computed value, or the text as written where nothing is computed."""
        token = tokens[idx]
        if self.figure_text is None:
            return str(escape(token.content))
        return str(self.figure_text(token.meta["name"], token.meta["component"]))

    def image(self, tokens: Sequence[Token], idx: int, options: OptionsDict, env: EnvType) -> str:
        """Return a picture of the book."""
        token = tokens[idx]
        alt = self.renderInlineAsText(token.children or (), options, env)
        return str(self.linking.picture(picture_source(token), alt))

    def link_open(
        self, tokens: Sequence[Token], idx: int, options: OptionsDict, env: EnvType
    ) -> str:
        """Return the start of a link, made relative to this page."""
        token = tokens[idx]
        address = link_address(str(token.attrs["href"]))
        if address:
            token = token.copy(attrs={**token.attrs, "href": self.linking.to(address)})
        return self.renderToken([token], 0, options, env)

    def table_open(
        self, tokens: Sequence[Token], idx: int, _options: OptionsDict, _env: EnvType
    ) -> str:
        """Return a table that scrolls within itself on a narrow screen, named by its number."""
        number = sum(token.type == "table_open" for token in tokens[: idx + 1])
        label = escape(_("Table {number}").format(number=number))
        return f'<div class="wide-table" role="region" aria-label="{label}" tabindex="0"><table>\n'

    def table_close(
        self, _tokens: Sequence[Token], _idx: int, _options: OptionsDict, _env: EnvType
    ) -> str:
        """Close what `table_open` opened."""
        return "</table></div>\n"
