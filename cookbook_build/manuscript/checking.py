"""Checks a tree of nodes against the schema, and turns what does not fit into findings."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Final, TypeVar, cast

from pydantic import BaseModel, ValidationError

from cookbook_build.findings import did_you_mean, nearest, one_of
from cookbook_build.manuscript.bare_entries import bare_entries
from cookbook_build.manuscript.group_mends import group_mend
from cookbook_build.manuscript.headings import keyed_ingredient
from cookbook_build.manuscript.key_types import choices_at, example_line, keys_at
from cookbook_build.manuscript.meanings import choice_meant, choices_told, key_meant, number_meant
from cookbook_build.manuscript.nodes import Items, Keys, Node, Scalar
from cookbook_build.manuscript.outdented import A_SLIP, groups_with, take_in_keys
from cookbook_build.manuscript.slips import looks_like_key, missing_colon

if TYPE_CHECKING:
    from pydantic_core import ErrorDetails

    from cookbook_build.findings import Findings, Place

Path = tuple[str | int, ...]
Model = TypeVar("Model", bound=BaseModel)
MOST_TOLD: Final = 100  # values of one file that are refused one by one; our choice
DEEPEST_GROUP: Final = 4  # groups within groups in any file of ours, and one more


@dataclass(slots=True)
class Places:
    """Where each value and each key of a checked file stands."""

    root: Node
    sound: bool = True  # whether every key could be taken as it was written
    values: dict[Path, Node] = field(default_factory=dict)
    keys: dict[Path, Scalar] = field(default_factory=dict)
    refused: set[Path] = field(default_factory=set)  # values with a finding, which are left out
    gaps: set[Path] = field(default_factory=set)  # groups of which a line could not be read
    faulty: set[str] = field(default_factory=set)  # keys at the top of which something was left out

    def of(self, *path: str | int) -> Place:
        """Return the place of a value, or of the nearest one around it."""
        while path and path not in self.values:
            path = path[:-1]
        return self.values[path].place if path else self.root.place

    def key(self, *path: str | int) -> Place:
        """Return the place of a key, or of the nearest value around it."""
        return self.keys[path].place if path in self.keys else self.of(*path)

    def within(self, start: int, width: int, *path: str | int) -> Place:
        """Return the place of a stretch of a scalar's text."""
        node = self.values.get(path)
        return node.within(start, width) if isinstance(node, Scalar) else self.of(*path)


def read_keys(
    model: type[Model], node: Node, findings: Findings, what: str
) -> tuple[Model | None, Places]:
    """Return the model that a tree of nodes holds, and the places of its values.

    `what` names the thing in findings, such as "a recipe". Keys that can't be taken leave
    findings and are left out, so that the rest is still checked; then the places are not sound.
    None comes back when what is left is no such thing.
    """
    places = Places(node)
    if not isinstance(node, Keys):
        findings.error(node.place, *_no_group(node, what))
        return None, places
    data = _plain(node, (), places)
    _report_bare(model, data, places, findings)
    places.sound = not places.refused
    places.faulty = {str(path[0]) for path in places.refused if path}
    try:
        return model.model_validate(data), places
    except ValidationError as problem:
        errors = problem.errors(include_url=False)
    if _take_choices(model, data, errors):
        try:
            return model.model_validate(data), places
        except ValidationError as problem:
            errors = problem.errors(include_url=False)
    told, more = errors[:MOST_TOLD], errors[MOST_TOLD:]
    if not more and take_in_keys(model, node, findings):  # what is left is read where it belongs
        return read_keys(model, node, findings, what)
    places.sound = False
    for error in _without_echoes(model, told, places):
        _report(model, error, places, findings, what)
    if more:
        findings.error(
            places.key(*more[0]["loc"]),
            f"{len(more):,} more values of {node.source.path} are refused, from here on",
            "mend those above first.",
        )
    for error in told:
        first = str(error["loc"][0]) if error["loc"] else ""
        known = keys_at(model, ())
        places.faulty.add(first if first in known else _key_meant(first, known) or first)
    places.faulty.update(str(error["loc"][0]) for error in more if error["loc"])
    left = _without_faults(model, data, errors)
    findings.cut_short |= left is None
    return left, places


def _without_faults(
    model: type[Model],
    data: Any,  # noqa: ANN401 - nested dicts and lists
    errors: list[ErrorDetails],
) -> Model | None:
    """Return the model of what is left when faulty values are taken out, or None.

    Of groups only the faulty keys go, of lists all that they hold; once more for what a group
    lacks then, and in the end whatever stands at the top.
    """
    for _ in range(DEEPEST_GROUP):
        for error in errors:
            _take_out(data, error["loc"], is_missing=error["type"] == "missing")
        try:
            return model.model_validate(data)
        except ValidationError as problem:
            errors = problem.errors(include_url=False)
    return None


def _take_out(data: Any, path: Path, *, is_missing: bool) -> None:  # noqa: ANN401 - nested dicts and lists
    """Take out a value, or the group that lacks it; of a list all entries."""
    way = list(path[:-1] if is_missing else path)
    entry = next((at for at, step in enumerate(way) if isinstance(step, int)), len(way))
    way = way[:entry]
    if not way:
        return
    holder = data
    for step in way[:-1]:
        holder = holder.get(step) if isinstance(holder, dict) else None
    if isinstance(holder, dict):
        holder.pop(way[-1], None)


def _no_group(node: Node, what: str) -> tuple[str, str]:
    """Return the cause and the mend of what stands where keys belong."""
    if isinstance(node, Scalar) and node.plain and looks_like_key(node.text):
        return missing_colon(node.text)
    return f"{what} is a group of keys, and this is not", 'write "key: value" lines.'


def _take_choices(model: type[BaseModel], data: Any, errors: list[ErrorDetails]) -> bool:  # noqa: ANN401 - nested dicts and lists
    """Put choices that are written in another case (`Kettle`, `STEW`) into ours; whether any was.

    What is meant is plain, so nothing is said of it.
    """
    taken = False
    for error in errors:
        if error["type"] != "literal_error" or not isinstance(error["input"], str):
            continue
        said = " ".join(error["input"].split()).casefold()
        meant = next((c for c in choices_at(model, error["loc"]) if c.casefold() == said), None)
        if meant is not None:
            *way, last = error["loc"]
            holder = data
            for step in way:
                holder = holder[step]
            holder[last] = meant
            taken = True
    return taken


def _plain(node: Node, path: Path, places: Places) -> Any:  # noqa: ANN401 - text, list or dict
    places.values[path] = node
    if node.refused:
        places.refused.add(path)
    if node.unread:
        places.gaps.add(path[:-1])
    match node:
        case Scalar():
            return node.text
        case Items():
            kept = [item for item in node.items if not (isinstance(item, Scalar) and item.is_empty)]
            for at, item in enumerate(item for item in kept if item.refused):
                _plain(item, (*path, -1 - at), places)
            good = (item for item in kept if not item.refused)
            return [_plain(item, (*path, at), places) for at, item in enumerate(good)]
        case Keys():
            found = {}
            for key, value in node.pairs:
                places.keys[*path, key.text] = key
                if not (isinstance(value, Scalar) and value.is_empty):
                    read = _plain(value, (*path, key.text), places)
                    if not value.refused:
                        found[key.text] = read
            return found
        case _:  # pragma: no cover - every node is one of the three
            raise TypeError(node)


def _group_at(data: Any, path: Path) -> dict[str, Any] | None:  # noqa: ANN401 - nested dicts and lists
    """Return the group at a path, None within what was refused, which the data hold no more."""
    for step in path:
        held = step in data if isinstance(data, dict) else isinstance(step, int) and step >= 0
        if not held:
            return None
        data = data[step]
    return cast("dict[str, Any]", data)


def _report_bare(model: type[BaseModel], data: Any, places: Places, findings: Findings) -> None:  # noqa: ANN401 - nested dicts and lists
    """Report what stands in braces without a colon, and leave out the value that it belongs to."""
    for path, node in list(places.values.items()):
        if not isinstance(node, Keys) or not node.bare or node.refused:
            continue
        group = _group_at(data, path)
        if group is None:
            continue
        for entry in bare_entries(model, path, node, group):
            findings.error(entry.place, entry.cause, entry.mend)
            for key in entry.keys:
                places.refused.add((*path, key))
                group.pop(key, None)
            places.sound = False


def _key_meant(written: str, keys: list[str]) -> str | None:
    """Return the key that is most likely meant, by its letters or its meaning."""
    return nearest(written, keys) or key_meant(written, keys)


def _without_echoes(
    model: type[BaseModel], errors: list[ErrorDetails], places: Places
) -> list[ErrorDetails]:
    """Return the errors without keys that are missing only for a finding that they have."""
    misspelt = {
        (*error["loc"][:-1], _key_meant(str(error["loc"][-1]), keys_at(model, error["loc"][:-1])))
        for error in errors
        if error["type"] == "extra_forbidden"
    }
    echoed = misspelt | places.refused
    emptied = {path[:-1] for path in places.refused}
    emptied |= {error["loc"][:at] for error in errors for at in range(1, len(error["loc"]))}
    return [
        error
        for error in errors
        if not (
            error["type"] == "missing"
            and (error["loc"] in echoed or error["loc"][:-1] in places.gaps)
        )
        and not (error["type"] == "too_short" and error["loc"] in emptied)
    ]


def _report(
    model: type[BaseModel], error: ErrorDetails, places: Places, findings: Findings, what: str
) -> None:
    path = error["loc"]
    name = path[-1] if path else what
    context = error.get("ctx", {})
    match error["type"]:
        case "finding":
            start, width = context["start"], context["width"]
            place = places.within(start, width, *path) if width else places.of(*path)
            cause, mend = context["cause"], context["mend"]
            if path[-2:-1] == ("ingredients",):
                cause, mend = keyed_ingredient(places.values.get(path)) or (cause, mend)
            findings.error(place, cause, mend)
        case "missing":
            inside = _holder_name(path[:-1], what)
            empty = path in places.keys
            findings.error(
                place := places.key(*path) if empty else _holder_place(places, path[:-1]),
                f'"{name}" has no value' if empty else f'{inside} has no "{name}"',
                'put quotes round text that holds " #": what follows it is a comment.'
                if empty and re.search(r":\s+#", place.excerpt[place.column - 1 :])
                else f"add {example_line(model, path)}.",
            )
        case "extra_forbidden":
            known = keys_at(model, path[:-1])
            findings.error(
                places.key(*path),
                f'"{name}" is not a key that belongs here',
                _key_mend(str(name), known, groups_with(model, path[:-1], str(name))),
            )
        case "literal_error":
            choices = choices_at(model, path)
            written = str(error["input"])
            meant = choice_meant(written, choices)
            findings.error(
                places.of(*path),
                f'"{written}" is not one of {one_of(choices)}',
                _choice_mend(written, meant, choices) + choices_told(choices),
            )
        case kind:
            name = _key_name(path, what)
            cause, mend = _plain_words(kind, name, error["input"], context)
            if _SAME_WORDS.get(kind, kind) in {"tuple_type", "model_type"}:
                mend = (
                    group_mend(model, path, error["input"]) or _listed(name, error["input"]) or mend
                )
            elif kind.startswith("int_") and (number := number_meant(str(error["input"]))):
                mend = f"write {number}."
            findings.error(places.of(*path), cause, mend)


def _key_mend(written: str, known: list[str], groups: list[str]) -> str:
    """Return which of some keys to write, or the one group beside them that has such a key."""
    if len(groups) == 1 and not nearest(written, known, A_SLIP):
        return f'put it below a line "{groups[0]}:", with two spaces before it.'
    meant = _key_meant(written, known)
    return f'write "{meant}".' if meant else f"use one of {one_of(known)}."


def _choice_mend(written: str, meant: str | None, choices: list[str]) -> str:
    """Return which of some choices to write."""
    if meant:
        return f'write "{meant}".'
    if written.casefold().startswith(("not ", "un")):  # it means what is unlike it
        return f"write {one_of(choices)}."
    return did_you_mean(written, choices, f"write {one_of(choices)}.")


def _holder_place(places: Places, path: Path) -> Place:
    """Return where to show that a key is missing: at the group's own key, else its beginning."""
    return places.keys[path].place if path in places.keys else places.of(*path)


def _holder_name(path: Path, what: str) -> str:
    """Return what a key is missing in: a group by its own key, an entry by that of its list."""
    if not path:
        return what
    return f'"{path[-1]}"' if isinstance(path[-1], str) else f'this entry of "{path[-2]}"'


def _key_name(path: Path, what: str) -> str:
    """Return the last key of a path; the entries of a list go by the list's key."""
    return next((step for step in reversed(path) if isinstance(step, str)), what)


_PLAIN_WORDS = {
    "tuple_type": (
        '"{name}" is a list, and {value} stands here',
        'put each entry on a line of its own that begins with "- ".',
    ),
    "model_type": (
        '"{name}" holds keys of its own, and {value} stands here',
        'write "key: value" lines below it, indented by two spaces.',
    ),
    "too_long": (
        '"{name}" has {actual_length} entries, and {max_length} is the most',
        "part it, or take out what is written more than once.",
    ),
    "too_short": ('"{name}" is empty', 'add at least one entry that begins with "- ".'),
    "bool_parsing": ('"{name}" is yes or no, and {value} stands here', "write yes or no."),
    "int_parsing": (
        '"{name}" is a whole number, and {value} stands here',
        "write a number such as 2.",
    ),
    "greater_than_equal": ('{value} is too small for "{name}"', "write {ge} or more."),
    "less_than_equal": ('{value} is too large for "{name}"', "write {le} or less."),
}
_SAME_WORDS = {
    "list_type": "tuple_type",
    "dict_type": "model_type",
    "model_attributes_type": "model_type",
    "bool_type": "bool_parsing",
    "int_type": "int_parsing",
    "int_from_float": "int_parsing",
    "int_parsing_size": "int_parsing",
}


def _plain_words(
    kind: str,
    name: str,
    value: Any,  # noqa: ANN401 - text, list, dict or number
    context: dict[str, Any],
) -> tuple[str, str]:
    shown = "a list" if isinstance(value, list) else f'"{value}"'
    shown = "a group of keys" if isinstance(value, dict) else shown
    cause, mend = _PLAIN_WORDS.get(
        _SAME_WORDS.get(kind, kind),
        ('{value} can\'t be read as "{name}"', "compare it with a file that works."),
    )
    told = context | {"name": name, "value": shown}
    if isinstance(value, dict | list):
        told["actual_length"] = len(value)  # of a group it is not told
    return cause.format(**told), mend.format(**told)


def _listed(name: str, value: Any) -> str | None:  # noqa: ANN401 - text, list or dict
    """Return the mend for a list that is written as one text, maybe with commas."""
    entries = [entry.strip() for entry in value.split(",")] if isinstance(value, str) else []
    entries = [entry for entry in entries if entry]
    if not entries:
        return None
    if name != "ingredients":
        return (
            f'write "{name}: [{", ".join(entries)}]", or each on a line of its own that begins '
            'with "- ".'
        )
    amounts = [entry for entry in entries if entry[0].isdigit()]
    if amounts != entries:  # a comma may part how it is cut: carrots, cut small
        entries = [value.strip()]
    lines = [f'"- {entry}"' for entry in entries]
    each = f"{', '.join(lines[:-1])} and {lines[-1]}, each" if len(lines) > 1 else lines[0]
    return f'write {each} on a line of its own below "ingredients:".'
