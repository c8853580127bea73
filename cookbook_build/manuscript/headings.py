"""Headings and second colons among ingredients, where each line is one ingredient."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.group_mends import in_braces
from cookbook_build.manuscript.nodes import Keys, Scalar

if TYPE_CHECKING:
    from cookbook_build.manuscript.nodes import Node

_FOR: Final = re.compile(r"(?:for|para)\s+(?:(?:the|la|el|los|las)\s+)?", re.IGNORECASE)
_FOR_THE: Final = re.compile(r"(?:for\s+the|para\s+(?:la|el|los|las))\s", re.IGNORECASE)


def heading(written: str) -> tuple[str, str] | None:
    """Return the cause and the mend of a heading such as `For the topping:`, or None."""
    bare = written.strip()
    if not bare.endswith(":") and not _FOR_THE.match(bare):
        return None
    bare = bare.rstrip(":").rstrip()
    name = _FOR.sub("", bare, count=1).strip() or bare
    part = f"  - {{name: {in_braces(name.capitalize())}, ingredients: [2 tbsp leeks]}}"
    mend = (
        "delete this line, and line those below it up with the others; what has water of its own "
        f'goes below a line "components:", such as "{part}".'
    )
    return f'"{bare}" is a heading, and each line here is one ingredient', mend


def keyed_ingredient(node: Node | None) -> tuple[str, str] | None:
    """Return the cause and the mend of an ingredient that a colon makes a group of keys."""
    if not isinstance(node, Keys) or node.in_braces or not node.pairs:
        return None
    key, value = node.pairs[0]
    if not isinstance(value, Scalar) or value.is_empty:
        return heading(f"{key.text}:")
    if len(node.pairs) > 1 or not key.text[:1].isdigit() or value.refused:
        return None
    return (
        "a colon and a space make keys of this line",
        f'write "- {key.text}, {value.text}", with a comma in place of the colon.',
    )
