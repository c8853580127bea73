"""schema.org's Recipe, as JSON-LD writes it in many ways, as a recipe that was brought."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.manuscript.brought.recipe import Brought, Piece
from cookbook_build.manuscript.brought.signs import (
    lines_of,
    one_line,
    without_bullet,
    without_markup,
)
from cookbook_build.manuscript.brought.yields import read_yield
from cookbook_build.manuscript.web_addresses import web_address

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from cookbook_build.manuscript.brought.page import Data

LONGEST_BLURB: Final = 200
_TIMES: Final = {
    "prepTime": "preparing",
    "cookTime": "cooking",
    "performTime": "doing it",
    "totalTime": "all of it",
}
_INGREDIENTS: Final = ("recipeIngredient", "ingredients", "supply")
_METHOD: Final = ("recipeInstructions", "instructions", "step", "steps")
_PLACED: Final = {
    *_TIMES, *_INGREDIENTS, *_METHOD, "name", "headline", "recipeYield", "yield", "author",
    "url", "description", "image", "license", "publisher",
}  # fmt: skip
_LEFT_THERE: Final = {  # what others said of it, and what only machines read
    "review", "reviews", "comment", "comments", "aggregateRating", "interactionStatistic", "video",
    "mainEntityOfPage", "mainEntity", "isPartOf", "potentialAction", "thumbnailUrl",
    "@context", "@type", "@id", "commentCount", "hasPart", "breadcrumb",
}  # fmt: skip
_ISO: Final = re.compile(
    r"P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)(?:\.\d+)?S)?)?", re.IGNORECASE
)
_SPLIT: Final = re.compile(r"\s*;\s*|,\s+(?=[\d½⅓⅔¼¾⅛])")


@dataclass(frozen=True, slots=True)
class Thing:
    """A node of JSON-LD, with what the names in its file stand for."""

    node: dict[str, Any]
    data: Data
    named: dict[str, dict[str, Any]]


def things(pieces: Iterable[Data]) -> list[Thing]:
    """Return each node that is a Recipe, outermost first, no node twice."""
    listed = list(pieces)
    named: dict[str, dict[str, Any]] = {}
    found: list[Thing] = []
    for data in listed:
        values = _Values(data.value)
        for value in values:
            if isinstance(value, dict):
                name = value.get("@id")
                if isinstance(name, str) and len(value) > 1:
                    named.setdefault(name, value)
                if is_a(value, "recipe"):
                    found.append(Thing(value, data, named))
                    continue  # a recipe within one is another's
                values.open(*value.values())
    kept = {json.dumps(thing.node, sort_keys=True): thing for thing in reversed(found)}
    return list(reversed(kept.values()))


def is_a(node: dict[str, Any], kind: str) -> bool:
    """Return whether a node is of a type of schema.org, however its name is written."""
    types = node.get("@type", node.get("type"))
    listed = types if isinstance(types, list) else [types]
    return any(
        isinstance(each, str) and re.split(r"[/#:]", each.strip())[-1].casefold() == kind
        for each in listed
    )


def as_brought(thing: Thing, page_address: str = "") -> Brought:
    """Return the recipe of a node; without a name its title is empty."""
    node = thing.node
    title = next((t for key in ("name", "headline") if (t := _first(node.get(key)))), "")
    ingredients = tuple(_ingredients(thing))
    blurb = one_line(without_markup(_joined(node.get("description"))))
    long_blurb = len(blurb) > LONGEST_BLURB
    method = ((Piece("text", blurb),) if long_blurb else ()) + tuple(_method(thing))
    serves, makes, yield_notes = _yield(node)
    notes = [
        *yield_notes, *_times(node), *_pictures(node), *_licence(node), *_publisher(thing),
        *_others(thing),
    ]  # fmt: skip
    category = _first(node.get("recipeCategory"))
    return Brought(
        place=thing.data.place_of(_text(node.get("name"))),
        title=title, ingredients=ingredients, method=method, serves=serves, makes=makes,
        blurb="" if long_blurb else blurb, credit=_people(node.get("author"), thing.named),
        address=_address(node) or web_address(page_address) or "", series=category,
        notes=tuple(dict.fromkeys(notes)),
    )  # fmt: skip


class _Values:
    """Values in their order; lists are taken apart, however deep, and more may be opened."""

    def __init__(self, value: Any) -> None:  # noqa: ANN401 - any JSON
        self._open = [value]

    def __iter__(self) -> Iterator[Any]:
        while self._open:
            value = self._open.pop()
            if isinstance(value, list):
                self.open(*value)
            else:
                yield value

    def open(self, *values: Any) -> None:  # noqa: ANN401 - any JSON
        """Let some values come next."""
        self._open += reversed(values)


def _text(value: Any) -> str:  # noqa: ANN401 - any JSON
    """Return a value's own text, where it is one."""
    match value:
        case str():
            return value
        case bool() | None:
            return ""
        case int() | float():
            return f"{value:g}" if abs(value) < 1e15 else ""
        case dict():
            keys = ("@value", "text", "name", "value", "@id", "url")
            return next((t for k in keys if isinstance(value.get(k), str) and (t := value[k])), "")
        case _:
            return ""


def _texts(value: Any) -> list[str]:  # noqa: ANN401 - any JSON
    """Return the texts of a value, in their order, however deep they lie in lists."""
    return [text for each in _Values(value) if (text := _text(each))]


def _joined(value: Any) -> str:  # noqa: ANN401 - any JSON
    return "\n".join(_texts(value))


def _first(value: Any) -> str:  # noqa: ANN401 - any JSON
    return next((t for text in _texts(value) if (t := one_line(without_markup(text)))), "")


def _ingredients(thing: Thing) -> Iterator[Piece]:
    written = next((thing.node[key] for key in _INGREDIENTS if thing.node.get(key)), None)
    values = _Values(written)
    for value in values:
        if isinstance(value, dict) and (inner := value.get("itemListElement")):
            if heading := _first(value.get("name")):
                yield Piece("heading", heading)
            values.open(inner)
        else:
            text = _measured(value) if isinstance(value, dict) else _text(value)
            lines = lines_of(without_markup(text))
            if value is written and len(lines) == 1:
                lines = _SPLIT.split(lines[0])
            yield from (Piece("line", bare) for line in lines if (bare := without_bullet(line)))


def _measured(value: dict[str, Any]) -> str:
    """Return an ingredient that is a group of keys: its amount, its unit, its name."""
    amount = value.get("amount", value.get("requiredQuantity", value.get("value")))
    held = amount if isinstance(amount, dict) else value
    number = held.get("value", amount) if isinstance(amount, dict) else amount
    unit = held.get("unitText", held.get("unitCode", ""))
    name = value.get("name") or value.get("text") or value.get("item")
    return " ".join(t for part in (number, unit, name) if (t := one_line(_text(part))))


def _method(thing: Thing) -> Iterator[Piece]:
    """Give steps in their order, each section after its heading."""
    written = next((thing.node[key] for key in _METHOD if thing.node.get(key)), None)
    values = _Values(written)
    for value in values:
        if isinstance(value, dict):
            inner = value.get("itemListElement", value.get("steps", value.get("item")))
            name = _first(value.get("name"))
            text = _joined(value.get("text")) or (_joined(value.get("description")))
            if inner:
                said = one_line(without_markup(text))
                yield from (Piece("heading", name) for _ in range(bool(name)))
                yield from (Piece("text", said) for _ in range(bool(said)))
                values.open(inner)
            else:
                yield from _steps(_named(name, text))
        else:
            yield from _steps(_text(value))


def _named(name: str, text: str) -> str:
    """Return a step with its name in front, unless the text says it already."""
    said = one_line(without_markup(text))
    if not said:
        return name
    short = name.rstrip(".… ").casefold()
    return text if not name or short in said.casefold() else f"{name}: {text}"


def _steps(text: str) -> Iterator[Piece]:
    for line in lines_of(without_markup(text)):
        if bare := without_bullet(line):
            yield Piece("step", bare)


def _yield(node: dict[str, Any]) -> tuple[int | None, str, list[str]]:
    serves, makes, notes = None, "", []
    for text in _texts(node.get("recipeYield", node.get("yield"))):
        said = one_line(without_markup(text))
        found = read_yield(said, alone=True)
        if found and found.serves and serves is None:
            serves = found.serves
        elif found and found.makes and not makes:
            makes = found.makes
        if said and not said.isdecimal():
            notes.append(f"it yields: {said}")
    return serves, makes, notes


def _times(node: dict[str, Any]) -> Iterator[str]:
    for key, meaning in _TIMES.items():
        if written := _first(node.get(key)):
            yield f"time for {meaning}: {_duration(written)}"


def _duration(written: str) -> str:
    match = _ISO.fullmatch(written)
    if not match or not any(match.groups()):
        return written
    units = ("d", "h", "min", "s")
    parts = [f"{int(n)} {u}" for n, u in zip(match.groups(), units, strict=True) if n and int(n)]
    return " ".join(parts) or "none"


def _pictures(node: dict[str, Any]) -> Iterator[str]:
    value = node.get("image")
    for text in dict.fromkeys(_addresses(value)):
        yield f"a picture, which was not fetched: {one_line(text)}"


def _addresses(value: Any) -> Iterator[str]:  # noqa: ANN401 - any JSON
    values = _Values(value)
    for each in values:
        if isinstance(each, dict):
            values.open(each.get("url") or each.get("contentUrl") or each.get("@id"))
        elif isinstance(each, str) and each.strip():
            yield each if len(each) < 500 else each[:60] + "…"


def _licence(node: dict[str, Any]) -> Iterator[str]:
    if text := _first(node.get("license")):
        yield f"its licence: {text}"


def _publisher(thing: Thing) -> Iterator[str]:
    if name := _people(thing.node.get("publisher"), thing.named):
        yield f"published by: {name}"


def _address(node: dict[str, Any]) -> str:
    candidates = [node.get("url"), node.get("mainEntityOfPage"), node.get("@id")]
    for value in candidates:
        for text in _addresses(value):
            if found := web_address(text):
                return found
    return ""


def _people(value: Any, named: dict[str, dict[str, Any]]) -> str:  # noqa: ANN401 - any JSON
    names = []
    for each in _Values(value):
        known = each
        if isinstance(each, dict) and "name" not in each:
            known = named.get(str(each.get("@id")), each)
        name = _first(known.get("name")) if isinstance(known, dict) else _first(known)
        if name:
            names.append(name)
    return ", ".join(dict.fromkeys(names))


def _others(thing: Thing) -> Iterator[str]:
    """Give what else the recipe says, one line for each of its keys."""
    left = []
    for key, value in thing.node.items():
        if key in _LEFT_THERE:
            if value and not key.startswith("@"):
                left.append(one_line(key))
        elif key not in _PLACED:
            said = ", ".join(dict.fromkeys(_all_texts(value)))
            if said:
                yield f"{one_line(key)}: {said}"
    if left:
        yield f"left where it was: {', '.join(left)}"


def _all_texts(value: Any) -> Iterator[str]:  # noqa: ANN401 - any JSON
    """Give every text and number within a value, in its order."""
    values = _Values(value)
    for each in values:
        if isinstance(each, dict):
            for key, inner in each.items():
                if isinstance(inner, (str, int, float)) and not key.startswith("@"):
                    if text := one_line(without_markup(_text(inner))):
                        yield f"{one_line(key)} {text}"
                elif not key.startswith("@"):
                    values.open(inner)
        elif text := one_line(without_markup(_text(each))):
            yield text
