"""A recipe's text as plain steps: what its numbered lists say, one after the other."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from markdown_it.token import Token

    from cookbook_build.manuscript.body import Body

    Figure = Callable[[str, str | None], str]


def steps(body: Body, figure: Figure) -> tuple[str, ...]:
    """Return the items of the numbered lists; of a text without one, the whole as one step.

    `figure` gives the value of `{water}` and its kin. A text without words has no step.
    """
    found = [words for item in _items(body.tokens) if (words := _words(item, figure))]
    whole = _words(body.tokens, figure)
    return tuple(found) or ((whole,) if whole else ())


def _items(tokens: Sequence[Token]) -> Iterator[list[Token]]:
    """Give the tokens of each item of the outermost numbered lists."""
    item: list[Token] = []
    inside = False
    for token in tokens:
        if token.level == 0 and token.type.startswith("ordered_list"):
            inside = token.nesting == 1
        elif inside and token.level == 1 and token.type == "list_item_open":
            item = []
        elif inside and token.level == 1 and token.type == "list_item_close":
            yield item
        elif inside:
            item.append(token)


def _words(tokens: Sequence[Token], figure: Figure) -> str:
    """Return the words of some blocks on one line; headings and pictures are left out."""
    said = []
    for before, token in zip((None, *tokens), tokens, strict=False):
        if token.type == "inline" and not (before and before.type == "heading_open"):
            said.append("".join(_inline(token.children or (), figure)))
        elif token.type in {"fence", "code_block"}:
            said.append(token.content)
    return " ".join(" ".join(said).split())  # no-break spaces and line ends as well


def _inline(tokens: Sequence[Token], figure: Figure) -> Iterator[str]:
    for token in tokens:
        if token.type in {"text", "code_inline"}:
            yield token.content
        elif token.type in {"softbreak", "hardbreak"}:
            yield " "
        elif token.type == "figure":
            yield figure(token.meta["name"], token.meta["component"])
