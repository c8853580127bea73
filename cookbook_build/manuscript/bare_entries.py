"""What stands in braces without a colon: text that a comma cut off, and how to keep it whole."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final, get_origin

from cookbook_build.findings import one_of
from cookbook_build.manuscript.group_mends import in_braces, is_taken, is_text, taking
from cookbook_build.manuscript.key_types import (
    annotation_at,
    choices_at,
    example_at,
    is_group,
    keys_at,
)
from cookbook_build.manuscript.nodes import Scalar
from cookbook_build.manuscript.slips import quoted

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from pydantic import BaseModel

    from cookbook_build.findings import Place
    from cookbook_build.manuscript.key_types import Path
    from cookbook_build.manuscript.nodes import Keys, Node

_DECIMAL: Final = re.compile(r"(\d),(?=\d)")
_SQUEEZED: Final = re.compile(r"([^:]+):(?=\S)")
_LOOSE: Final = ("form", "note", "about")
"""Keys that a loose word is most likely meant for."""


@dataclass(frozen=True, slots=True)
class BareEntry:
    """One finding, and the keys whose values it leaves unsure."""

    place: Place
    cause: str
    mend: str
    keys: tuple[str, ...]


def bare_entries(
    model: type[BaseModel], path: Path, node: Keys, group: Mapping[str, Any]
) -> Iterator[BareEntry]:
    """Give the findings of a group in braces; none where no group belongs, which is said itself."""
    kind = annotation_at(model, path)
    if get_origin(kind) is dict:
        names = in_braces({bare.text: {} for bare in node.bare})
        cause = f'nothing belongs to "{node.bare[0].text}"'
        yield BareEntry(_reach(node.bare), cause, f'write "{names[1:-1]}".', ())
    if not is_group(kind):
        return
    for before, tail in _runs(node):
        squeezed = [bare for bare in tail if _squeezed_key(kind, bare)]
        known = [bare for bare in tail if bare.text in keys_at(kind, ())]
        cut = [bare for bare in tail if bare not in known and bare not in squeezed]
        if squeezed:
            yield _without_space(kind, squeezed)
        for bare in known:
            line = f"{bare.text}: {_shown(kind, bare.text)}"
            cause = f'"{bare.text}" has no value'
            yield BareEntry(bare.place, cause, f'write "{line}".', (bare.text,))
        if cut:
            yield _cut(kind, before, cut, group)


def _runs(node: Keys) -> Iterator[tuple[tuple[Scalar, Node] | None, list[Scalar]]]:
    """Give the bare entries of a group, each run with the pair that it stands behind."""
    pairs = [pair for pair in node.pairs if pair[0] not in node.bare]
    runs: dict[int, list[Scalar]] = {}
    for bare in node.bare:
        at = (bare.line, bare.column)
        runs.setdefault(sum((key.line, key.column) < at for key, _ in pairs), []).append(bare)
    for before, tail in runs.items():
        yield pairs[before - 1] if before else None, tail


def _squeezed_key(kind: type[BaseModel], bare: Scalar) -> str:
    """Return the key that stands before a colon without a space, if there is one."""
    found = _SQUEEZED.match(bare.text)
    return found[1].strip() if found and found[1].strip() in keys_at(kind, ()) else ""


def _without_space(kind: type[BaseModel], squeezed: Sequence[Scalar]) -> BareEntry:
    lines = [_SQUEEZED.sub(r"\1: ", bare.text, count=1) for bare in squeezed]
    return BareEntry(
        _reach(squeezed),
        "a colon and a space are missing after a key",
        f'write "{", ".join(lines)}", with a space after the colon.',
        tuple(_squeezed_key(kind, bare) for bare in squeezed),
    )


def _cut(
    kind: type[BaseModel],
    before: tuple[Scalar, Node] | None,
    tail: Sequence[Scalar],
    group: Mapping[str, Any],
) -> BareEntry:
    """Return what to do with text that a comma cut off from the value before it."""
    place, texts = _reach(tail), [bare.text for bare in tail]
    shown = ", ".join(texts)
    own = {text: _own_key(kind, text, group, before[0].text if before else "") for text in texts}
    if all(own.values()):
        line = ", ".join(f"{key}: {in_braces(text)}" for text, key in own.items())
        return BareEntry(place, f'"{shown}" has no key', f'write "{line}".', tuple(own.values()))
    if before and isinstance(before[1], Scalar):
        key, value = before[0].text, before[1]
        mend = _joined(kind, key, _whole(value, tail), [value.text, *texts], group)
        if mend:
            cause = f'a comma cuts "{shown}" off, and nothing belongs to it'
            return BareEntry(place, cause, mend, (key,))
    loose = [key for key in _LOOSE if key in keys_at(kind, ()) and key not in group]
    mend = f"write a key before it, such as {one_of(keys_at(kind, ())[:3])}, or delete it."
    if loose:
        mend = f"write {loose[0]}: {quoted(shown) if len(texts) > 1 else in_braces(shown)}."
    return BareEntry(place, f'"{shown}" has no key', mend, tuple(loose[:1]))


def _reach(entries: Sequence[Scalar]) -> Place:
    """Return the place of some entries, from the first to the last on its line."""
    first = entries[0]
    last = [entry for entry in entries if entry.line == first.line][-1]
    return first.place.within(0, last.column + last.width - first.column)


def _whole(value: Scalar, tail: Sequence[Scalar]) -> str:
    """Return a value with what a comma cut off from it, as it was written."""
    last = tail[-1]
    if value.quoted or not value.plain or value.line != last.line:
        return ", ".join([value.text, *(bare.text for bare in tail)])
    return value.place.excerpt[value.column - 1 : last.column + last.width - 1]


def _own_key(kind: type[BaseModel], text: str, group: Mapping[str, Any], before: str) -> str:
    """Return the key that a word is plainly meant for: one whose choice it is, or a food's form."""
    keys = [key for key in keys_at(kind, ()) if text in choices_at(kind, (key,))]
    if before == "food" and not keys:  # no food's name holds a comma
        keys = ["form"]
    if not before and not keys:
        keys = list(taking(kind, text))
    return keys[0] if len(keys) == 1 and keys[0] not in group else ""


def _joined(
    kind: type[BaseModel], key: str, whole: str, parts: list[str], group: Mapping[str, Any]
) -> str:
    """Return how the value of a key is written with all its parts; nothing where it takes none."""
    found = annotation_at(kind, (key,))
    if found is None:
        return ""
    if key == "recipe":
        entries = [f'"- {in_braces({**group, key: part})}"' for part in parts]
        return f"write each on a line of its own: {' and '.join(entries)}."
    point = _DECIMAL.sub(r"\1.", whole)
    if get_origin(found) is tuple:
        return f'write "{key}: {in_braces(parts)}", with brackets round a list.'
    if point != whole and is_taken(kind, key, point) and not is_text(kind, key):
        return f'write "{key}: {point}", or put quotes round it: {key}: "{whole}".'
    if is_taken(kind, key, whole):
        return f"write {key}: {quoted(whole)}, with quotes round text that holds a comma."
    return ""


def _shown(kind: type[BaseModel], key: str) -> str:
    if annotation_at(kind, (key,)) is bool:
        return "true"
    return example_at(kind, (key,))
