"""A second colon within braces: text that wants quotes, or a key that wants a comma before it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.key_types import fields_of
from cookbook_build.manuscript.schema import Matter

if TYPE_CHECKING:
    from cookbook_build.findings import Place

_VALUE: Final = re.compile(r"""[{,]\s*([^\s:,{}\[\]"'][^:,{}\[\]]*):\s+([^:,{}\[\]"']+)$""")
_END: Final = re.compile(r"[,}]|$")


def colon_in_braces(stuck: Place) -> tuple[Place, str, str] | None:
    """Return the place, the cause and the mend of a colon within a value, where one stands there.

    Reading got stuck at the colon.
    """
    before, after = stuck.excerpt[: stuck.column - 1], stuck.excerpt[stuck.column - 1 :]
    found = _VALUE.search(before)
    if found is None or not re.match(r":(\s|$)", after):
        return None
    key, value = found[1].strip(), found[2]
    if name := _key_behind(key, value, stuck.excerpt):
        text = value[: -len(name)].rstrip()
        place = stuck.within(-len(name), len(name))
        rest = after[: _end(after)].rstrip()
        cause = f'a comma is missing before "{name}"'
        return place, cause, f'write "{key}: {text}, {name}{rest}".'
    text = (value + after[: _end(after)]).strip()
    place = stuck.within(found.start(2) + 1 - stuck.column, len(text))
    mark = "'" if '"' in text else '"'
    line = f"{key}: {mark}{text}{mark}"
    cause = f'a second colon stands in the text of "{key}"'
    return place, cause, f"write {line}, with quotes round text that holds a colon and a space."


def _end(text: str) -> int:
    found = _END.search(text)
    return found.start() if found else len(text)


def _key_behind(key: str, value: str, line: str) -> str:
    """Return the key of the same group that ends a value, if one does that stands nowhere else."""
    for group in Matter.__subclasses__():
        names = [name for name, _ in fields_of(group)]
        if key not in names:
            continue
        for name in names:
            if value.endswith(f" {name}") and f"{name}:" not in line.replace(f"{value}:", "", 1):
                return name
    return ""
