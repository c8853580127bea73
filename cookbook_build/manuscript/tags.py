"""The few tags of HTML that a page may ask for: whole pairs, made anew without what they carried.

Nothing of what an author writes between `<` and `>` reaches a page; a tag that is not of these, or
has no partner within its paragraph and its emphasis, stays text.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from collections.abc import Iterator

    from markdown_it import MarkdownIt
    from markdown_it.rules_inline import StateInline
    from markdown_it.token import Token

TAGS: Final = (
    "sub", "sup", "small", "u", "ins", "del", "kbd", "q", "cite", "dfn", "var", "samp",
)  # fmt: skip
"""What says something in a line of text and does nothing: no links, media, forms or styles."""
BREAK: Final = "br"
MOST_OPEN: Final = 8  # tags within tags, the unclosed too; our choice
_TAG: Final = re.compile(rf"(?ai)<(/?)({'|'.join(TAGS)})[ \t]*>|<{BREAK}[ \t]*/?>")
_LIKE_A_TAG: Final = re.compile(r"(?a)<(?:(!--)|/?([A-Za-z][A-Za-z0-9]*)(?:[\s/][^<>]*)?>)")
_IN_MARKDOWN: Final = {
    tag: markdown
    for tags, markdown in {
        "b strong": "**so**",
        "i em": "*so*",
        "s strike": "~~so~~",
        "code tt": "`so`",
        "a": "[so](barley-supper.md)",
        "img": "![what it shows](landing.jpg)",
        "p div": "an empty line between two paragraphs",
        "li ul ol": "- so",
        "h1 h2 h3 h4 h5 h6": "## So",
        "hr": "a line ***, with an empty line before it",
        "pre": "a line ``` before it and one after it",
        "blockquote": "> so",
    }.items()
    for tag in tags.split()
}


def let_tags_through(parser: MarkdownIt) -> None:
    """Have a parser read the tags of this module, as tokens without attributes."""
    parser.inline.ruler.before("autolink", "tag", _tag_rule)
    parser.inline.ruler2.before("fragments_join", "tag", _paired)


def like_tags(text: str) -> Iterator[tuple[int, str, str]]:
    """Give what looks like a tag in a text: where it begins, all of it, its name."""
    for match in _LIKE_A_TAG.finditer(text):
        yield match.start(), match.group(), match[1] or match[2].lower()


def why_text(written: str, name: str) -> tuple[str, str]:
    """Return why a tag stays text, and how to mend it; the same for all that no page reads."""
    if name == BREAK:
        return "a break carries nothing and closes nothing", f"write <{BREAK}>."
    if name in TAGS:
        if written.strip("</>").lower() != name:
            return "nothing but its name may stand in a tag", f"write <{name}>so</{name}>."
        return (
            "it has no partner where it could have one",
            f"write <{name}>so</{name}> within one paragraph, and not across *stress* or a link.",
        )
    if markdown := _IN_MARKDOWN.get(name):
        return "Markdown has signs for it", f"write {markdown}."
    if name == "!--":
        return "everybody would read what it hides", "take it out of this file."
    return "no page reads it", f"leave it out; what is read: {', '.join((*TAGS, BREAK))}."


def _tag_rule(state: StateInline, silent: bool) -> bool:  # noqa: FBT001 - markdown-it's signature
    """Take a tag as a text of its own; whether it has a partner is known once all are taken."""
    match = _TAG.match(state.src, state.pos, state.posMax)
    if not match:
        return False
    if not silent:
        if match[2]:
            token = state.push("text", "", 0)
            token.content, token.meta = match.group(), {"tag": match[2].lower()}
        else:
            state.push("hardbreak", BREAK, 0)
    state.pos = match.end()
    return True


def _paired(state: StateInline) -> None:
    """Make tokens of pairs that stand within the same emphasis and the same link."""
    around: list[list[Token]] = [[]]  # the open tags within each open element
    count = 0
    for token in state.tokens:
        opened = around[-1]
        if name := token.meta.get("tag"):
            if not token.content.startswith("</"):
                if count < MOST_OPEN:
                    opened.append(token)
                    count += 1
                continue
            names = [one.meta["tag"] for one in opened]
            if name in names:
                at = len(names) - 1 - names[::-1].index(name)
                _make(opened[at], f"{name}_open", name, 1)
                _make(token, f"{name}_close", name, -1)
                count -= len(opened) - at
                del opened[at:]
        elif token.nesting > 0:
            around.append([])
        elif token.nesting < 0:
            count -= len(around.pop())


def _make(token: Token, kind: str, tag: str, nesting: Literal[1, -1]) -> None:
    token.type, token.tag, token.nesting = kind, tag, nesting
