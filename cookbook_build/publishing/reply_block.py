"""The block that a reader fills in and sends back, and the link that opens it in a letter."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.reply_form import HINTS, OF_A_PART
from cookbook_build.publishing.contact import letter
from cookbook_build.words import N_, _

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from cookbook_build.kitchen.conditions import Method

METHOD_WORDS: Final[Mapping[Method, str]] = {
    "kettle": N_("kettle"),
    "microwave": N_("microwave"),
    "stove": N_("stove"),
    "jar": N_("jar"),
    "cold": N_("cold"),
}
"""The methods as the hint of the form names them."""


def method_words() -> dict[str, str]:
    """Return the word of the form for each method."""
    return {method: _(word) for method, word in METHOD_WORDS.items()}


def reply_block(address: str, parts: Sequence[str]) -> str:
    """Return the block of a recipe as plain text: its address, and hints for the rest.

    `parts` are the names of the components, as the page shows them; one needs no name. Method and
    servings are the reader's; where a script runs, the page fills in what is chosen on it.
    """
    return "\n".join(_lines({"Recipe": address}, parts if len(parts) > 1 else ())) + "\n"


def reply_link(contact: str | None, title: str, block: str) -> str:
    """Return a `mailto:` address with the block in it (RFC 6068), or nothing without a mail box."""
    return letter(contact, title, block)


def _lines(known: Mapping[str, str], parts: Sequence[str]) -> Iterator[str]:
    """Give the lines in their order; those of a component stand once for each."""
    for key, hint in HINTS.items():
        if key == "Part":
            for part in parts or ("",):
                yield from [f"{_('Part')}: {part}"] if part else []
                yield from (f"{_(inner)}: {_(HINTS[inner])}" for inner in OF_A_PART)
        elif key not in OF_A_PART:
            yield f"{_(key)}: {known[key] if key in known else _(hint)}"
