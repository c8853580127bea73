"""The Markdown of a recipe or a page: parsed once, checked here, turned into HTML later.

HTML in the text stays text, but for a few tags where a page asks for them. `{water}`, `{rest}` and
`{servings}` stand for computed values; `{water: Pear relish}` for those of a named component.
"""

from __future__ import annotations

import functools
import re
from collections import defaultdict, deque
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import TYPE_CHECKING, Final
from urllib.parse import unquote

from markdown_it import MarkdownIt

from cookbook_build.findings import did_you_mean, nearest, one_of
from cookbook_build.manuscript.tags import let_tags_through, like_tags, why_text

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from markdown_it.rules_inline import StateInline
    from markdown_it.token import Token
    from markdown_it.utils import OptionsDict

    from cookbook_build.findings import Findings, Place
    from cookbook_build.manuscript.source import Source

PICTURES: Final = (".svg", ".jpg", ".jpeg", ".png", ".webp", ".gif", ".avif")
FIGURES: Final = ("water", "start", "hold-back", "rest", "servings")
_IN_WORDS: Final = {
    "water": "3/4 cup of water",
    "start": "3/4 cup of water",
    "hold-back": "2 tbsp of water",
    "rest": "12 minutes",
    "servings": "2 servings",
}
"""What may stand for a figure where none is computed."""
_MEANT: Final = {
    word: figure
    for figure, words in {
        "rest": "time wait waiting rest-time resting minutes minute min mins soak stand "
        "reposo espera tiempo minutos",
        "water": "amount hot-water boiling-water pour liquid volume how-much agua cantidad",
        "hold-back": "remaining keep aside left-over rest-of-water reserve later reserva",
        "servings": "portion portions serves serving people persons size makes yield "
        "raciones porciones personas",
    }.items()
    for word in words.split()
}
"""Words that are written for a figure, and the figure that is meant."""
_BRACES: Final = re.compile(r"\{([^{}]{1,600})\}")
_FIGURE_NAME: Final = re.compile(r"[A-Za-z][A-Za-z -]*")
_FIGURES_LISTED: Final = one_of([f"{{{figure}}}" for figure in FIGURES])
_SPACED: Final = re.compile(
    r"(!?)\[([^\[\]\n]*)\]\(([^()<>\n\"']{0,300}[^()<>\s\"'] "
    r"[^()<>\s\"'][^()<>\n\"']{0,300})\)"
)
MOST_BRACKETS: Final = 500  # in one paragraph; our choice
_REMOTE: Final = re.compile(r"(?i)[a-z][a-z0-9+.-]*:|//")
_SAFE_LINK: Final = re.compile(r"(?i)(https?://|mailto:|#)")


@dataclass(frozen=True, slots=True)
class Body:
    """A parsed Markdown text and where it begins in its file."""

    source: Source
    first_line: int
    tokens: tuple[Token, ...]
    has_tags: bool = False


def read_body(source: Source, text: str, first_line: int, *, tags: bool = False) -> Body:
    """Return the parsed text that begins at `first_line` of a file; some `tags` may be read."""
    return Body(source, first_line, tuple(_markdown(tags=tags).parse(text)), tags)


def check_body(
    body: Body,
    findings: Findings,
    *,
    components: Collection[str] | None,
    images: Collection[str],
    addresses: Collection[str],
    sound: bool = True,
) -> None:
    """Report what a text names and the book does not hold: figures, pictures, links, fences.

    `components` are the named ones of a meal, or None where no figure is computed; where the
    keys above the text are not `sound`, components are not looked for.
    """
    for token, line in _inline(body.tokens):
        at = line + body.first_line
        if token.type == "figure" and (sound or not token.meta["component"]):
            _check_figure(token, body, at, components, findings)
        elif token.type == "image":
            _check_picture(picture_source(token), token.content, body, at, images, findings)
        elif token.type == "link_open":
            _check_link(str(token.attrs["href"]), body, at, addresses, findings)
        elif token.type == "text":
            _check_spaced(token.content, body, at, addresses, findings)
    if body.has_tags:
        _check_tags(body, findings)
    for token in body.tokens:
        if token.type == "inline" and token.map and _is_crowded(token.content):
            findings.error(
                _find(body.source, token.map[0] + body.first_line, "["),
                f'{token.content.count("["):,} signs "[" stand in this paragraph, and in one of '
                f"more than {MOST_BRACKETS} none is read as a link",
                "part it into several, with a line between them that is empty.",
            )
        if token.type == "fence" and token.map and not _is_closed(token, body):
            findings.error(
                body.source.place(token.map[0] + body.first_line, 1, 3),
                f"a block that begins with {token.markup} is never closed, and swallows "
                "the rest of the page",
                f"put a line {token.markup} where the block ends.",
            )


def _check_figure(
    token: Token, body: Body, line: int, components: Collection[str] | None, findings: Findings
) -> None:
    name, component = token.meta["name"], token.meta["component"]
    place = _find(body.source, line, token.content)
    if components is None:
        if figure := _near_figure(name):
            like = "" if figure == name else f"is like {{{figure}}}, which "
            findings.warning(
                place,
                f'"{token.content}" {like}has a value only in a meal, and stays as it is here',
                f'write it in words, such as "{_IN_WORDS[figure]}", or link to the meal.',
            )
    elif name not in FIGURES:
        findings.error(
            place,
            f'"{token.content}" stands for no computed value',
            f'write "{{{meant}}}".' if (meant := _meant(name)) else f"use {_FIGURES_LISTED}.",
        )
    elif component and component.casefold() not in {c.casefold() for c in components}:
        known = one_of([f'"{c}"' for c in components]) if components else "none"
        findings.error(
            place,
            f'this recipe has no component called "{component}"',
            did_you_mean(component, components, f"its components: {known}."),
        )


def _near_figure(name: str) -> str | None:
    """Return the figure that a word is, but for a slip of a letter or two, or None."""
    word = "-".join(name.replace("-", " ").split())
    swapped = (figure for figure in FIGURES if sorted(figure) == sorted(word))
    return next(swapped, None) or nearest(word, FIGURES, likeness=0.8)


def _meant(name: str) -> str | None:
    """Return the figure that is most likely meant by a word, by its meaning or its letters."""
    word = "-".join(name.replace("-", " ").split())
    meant = _MEANT.get(word) or nearest(word, FIGURES)
    return meant or _MEANT.get(nearest(word, _MEANT, likeness=0.8) or "")


def _check_picture(
    src: str, text: str, body: Body, line: int, images: Collection[str], findings: Findings
) -> None:
    place = _find(body.source, line, src)
    if _REMOTE.match(src):
        findings.error(
            place,
            f'the picture "{src}" lies outside the book',
            "save it into images/ and name it by its file name; a book makes no requests.",
        )
        return
    check_image(src, place, images, findings)
    if not text.strip():
        findings.warning(
            place,
            f'the picture "{src}" has no words for those who can\'t see it',
            f"write ![what it shows]({src}).",
        )


def check_image(name: str, place: Place, images: Collection[str], findings: Findings) -> None:
    """Report a picture that is not in images/, or of a kind that no page can show."""
    if image_name(name) in images:
        return
    ending = PurePosixPath(name).suffix
    if ending and ending.casefold() not in PICTURES:
        findings.error(
            place,
            f'"{name}" is of a kind that a book can\'t show',
            did_you_mean(
                image_name(name), images, "export it as JPEG, PNG, WebP or SVG, and name that file."
            ),
        )
        return
    own = re.split(r"[\\/]", name)[-1].casefold()  # of a path as an explorer of files copies it
    there = next((image for image in images if image.casefold() == own), None)
    near = (
        f'write "{there}".'
        if there
        else did_you_mean(image_name(name), images, "put the file into images/.")
    )
    findings.error(place, f'there is no picture "{name}" in images/', near)


def picture_source(token: Token) -> str:
    """Return a picture's name as an author wrote it: the parser writes spaces as `%20`."""
    return unquote(str(token.attrs["src"]))


def body_pictures(body: Body) -> Iterator[tuple[str, Place]]:
    """Give each picture of a text, as it is written there, and where that is."""
    for token, line in _inline(body.tokens):
        if token.type == "image" and not _REMOTE.match(written := picture_source(token)):
            yield written, _find(body.source, line + body.first_line, written)


def linked_addresses(body: Body) -> Iterator[str]:
    """Give the address of each recipe or page of the book that a text links to."""
    for token, _line in _inline(body.tokens):
        if token.type == "link_open" and (address := link_address(str(token.attrs["href"]))):
            yield address


def image_name(written: str) -> str:
    """Return the name within images/ of a picture as an author writes it."""
    return re.sub(r"^(?:\.{1,2}/)*(?:images/)?", "", written)


def _check_link(
    href: str, body: Body, line: int, addresses: Collection[str], findings: Findings
) -> None:
    if _SAFE_LINK.match(href):
        return
    place = _find(body.source, line, href)
    address = link_address(href)
    if _REMOTE.match(href) or address is None:
        stem = href.rsplit("/", 1)[-1].split(".", maxsplit=1)[0]
        findings.error(
            place,
            f'the link "{href}" can\'t be followed from a book',
            f'write "{stem}.md".'
            if stem in addresses
            else "link to a recipe such as barley-supper.md, or to an address that begins with "
            "https://.",
        )
    elif address not in addresses:
        findings.error(
            place,
            f'there is no recipe or page with the address "{address}"',
            did_you_mean(
                f"{address}.md",
                [f"{known}.md" for known in addresses],
                f"link to a file of this book, such as {min(addresses, default='index')}.md.",
            ),
        )


def _check_spaced(
    text: str, body: Body, line: int, addresses: Collection[str], findings: Findings
) -> None:
    """Report links and pictures that Markdown leaves as text, for their name holds a space."""
    for match in _SPACED.finditer(text):
        shown, written = match[2], match[3]
        stem = written.rsplit("/", 1)[-1].removesuffix(".md")
        near = nearest("-".join(stem.casefold().split()), addresses)
        good = f"<{written}>" if match[1] or near is None else f"{near}.md"
        findings.error(
            _find(body.source, line, written),
            f'"{written}" holds a space, so nothing here is read as '
            f"{'a picture' if match[1] else 'a link'}",
            f"write {match[1]}[{shown}]({good}).",
        )


def _check_tags(body: Body, findings: Findings) -> None:
    """Report tags that stay text, the first of each cause."""
    stand: defaultdict[str, deque[tuple[int, int]]] = defaultdict(deque)
    for line, text in enumerate(body.source.lines[body.first_line - 1 :], body.first_line):
        for start, written, _ in like_tags(text):
            stand[written].append((line, start))
    told: set[tuple[str, str]] = set()
    for token, from_line in _inline(body.tokens):
        for _, written, name in like_tags(token.content):  # it may be read, or be code
            places = stand[written]
            while places and places[0][0] < from_line + body.first_line:
                places.popleft()
            line, start = places.popleft() if places else (0, 0)
            why = cause, mend = why_text(written, name)
            escaped = start and body.source.lines[line - 1][start - 1] == "\\"
            if token.type == "text" and line and not escaped and why not in told:
                told.add(why)
                place = body.source.place(line, start + 1, len(written))
                findings.warning(place, f'"{written[:40]}" stays text: {cause}', mend)


def link_address(href: str) -> str | None:
    """Return the address that a link to another file of the book names, or None."""
    match = re.fullmatch(r"(?:\.{1,2}/)*(?:[\w-]+/)*([\w-]+)\.md(?:#[\w-]*)?", href)
    return match[1] if match else None


def _is_closed(token: Token, body: Body) -> bool:
    lines = body.source.lines
    last = (token.map or [0, 0])[1] + body.first_line - 2
    begins = (token.map or [0, 0])[0] + body.first_line - 1
    closing = lines[min(last, len(lines) - 1)].strip(" \t>")
    return last > begins and closing.startswith(token.markup)


def _find(source: Source, line: int, text: str) -> Place:
    """Return the place of a text at or below a line: inline tokens carry no columns."""
    for at in range(line, min(line + 40, len(source.lines) + 1)):
        column = source.lines[at - 1].find(text)
        if column >= 0:
            return source.place(at, column + 1, len(text))
    return source.place(line)


def _inline(tokens: tuple[Token, ...]) -> Iterator[tuple[Token, int]]:
    for block in tokens:
        for token in block.children or ():
            yield token, block.map[0] if block.map else 0


class _Markdown(MarkdownIt):
    def validateLink(self, url: str) -> bool:  # noqa: ARG002, N802 - markdown-it's name
        """Let every link through: each is checked above, with its place."""
        return True


@functools.cache
def _markdown(*, tags: bool = False) -> MarkdownIt:
    parser = _Markdown("commonmark", {"html": False}).enable(["table", "strikethrough"])
    parser.inline.ruler.before("link", "figure", _figure_rule)
    parser.inline.ruler.before("figure", "crowded", _crowded_rule)
    if tags:
        let_tags_through(parser)
    return parser


def _crowded_rule(state: StateInline, silent: bool) -> bool:  # noqa: FBT001 - markdown-it's signature
    """Take brackets for text in a paragraph of too many: each is sought an end for, to its end."""
    width = 1 + state.src.startswith("![", state.pos)
    if not state.src.startswith("[", state.pos + width - 1) or not _is_crowded(state.src):
        return False
    if not silent:
        state.pending += state.src[state.pos : state.pos + width]
    state.pos += width
    return True


@functools.lru_cache(maxsize=8)
def _is_crowded(paragraph: str) -> bool:
    return paragraph.count("[") > MOST_BRACKETS


def _figure_rule(state: StateInline, silent: bool) -> bool:  # noqa: FBT001 - markdown-it's signature
    braces = _BRACES.match(state.src, state.pos)
    name, colon, component = braces[1].partition(":") if braces else ("", "", "")
    name, component = name.strip(), component.strip()
    names_one = component and "\n" not in component
    if not braces or not _FIGURE_NAME.fullmatch(name) or (colon and not names_one):
        return False
    if not silent:
        token = state.push("figure", "", 0)
        token.content = braces.group()
        token.meta = {"name": name.casefold(), "component": component or None}
    state.pos = braces.end()
    return True


def markdown_options() -> OptionsDict:
    """Return the options that the text was parsed with, for its rendering."""
    return _markdown().options
