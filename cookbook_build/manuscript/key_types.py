"""What the schema says of a value at a path: its type, its keys, its choices, its examples."""

from __future__ import annotations

import types
import typing
from typing import TYPE_CHECKING, Any, Literal, get_args, get_origin

from pydantic import BaseModel

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pydantic.fields import FieldInfo

    Path = tuple[str | int, ...]


def annotation_at(model: type[BaseModel], path: Path) -> Any:  # noqa: ANN401 - any type's annotation
    """Return the annotation of the value at a path, following lists, groups and options."""
    found: Any = model
    for step in path:
        found = without_none(found)
        if is_group(found):
            fields = {name: info.annotation for name, info in fields_of(found)}
            found = fields.get(str(step))
        else:
            found = (get_args(found) or (None,))[-1 if get_origin(found) is dict else 0]
    return without_none(found)


def is_group(found: Any) -> bool:  # noqa: ANN401 - any type's annotation
    """Return whether a type is a group of keys."""
    return isinstance(found, type) and issubclass(found, BaseModel)


def fields_of(model: type[BaseModel]) -> list[tuple[str, FieldInfo]]:
    """Return what the model has of each key, by the name that an author writes."""
    return [(info.alias or name, info) for name, info in model.model_fields.items()]


def without_none(annotation: Any) -> Any:  # noqa: ANN401 - any type's annotation
    """Return a type without the possibility of nothing, and with nothing annotated."""
    while True:
        if get_origin(annotation) in {typing.Union, types.UnionType}:
            annotation = next(a for a in get_args(annotation) if a is not type(None))
        elif get_origin(annotation) is typing.Annotated:
            annotation = get_args(annotation)[0]
        else:
            return annotation


def keys_at(model: type[BaseModel], path: Path) -> list[str]:
    """Return the keys of the group at a path; none where no group belongs."""
    found = annotation_at(model, path)
    return [name for name, _ in fields_of(found)] if is_group(found) else []


def choices_at(model: type[BaseModel], path: Path) -> list[str]:
    """Return the words that the value at a path may be."""
    found = annotation_at(model, path)
    return [str(choice) for choice in get_args(found)] if get_origin(found) is Literal else []


def examples_at(model: type[BaseModel], path: Path) -> list[str]:
    """Return the examples that the type of a key brings."""
    holder = annotation_at(model, path[:-1])
    info = next((found for name, found in fields_of(holder) if name == path[-1]), None)
    if info is None:
        return []
    return [
        example
        for extra in _metadata(info.annotation, *info.metadata)
        for example in (getattr(extra, "json_schema", None) or {}).get("examples", [])
    ]


def _metadata(annotation: Any, *known: Any) -> Iterator[Any]:  # noqa: ANN401 - any type's annotation
    """Give what a type is annotated with, that of what may be left out too."""
    yield from known
    if get_origin(annotation) in {typing.Union, types.UnionType}:
        for one in get_args(annotation):
            yield from _metadata(one)
    elif get_origin(annotation) is typing.Annotated:
        yield from get_args(annotation)[1:]


def example_at(model: type[BaseModel], path: Path, otherwise: str = "…") -> str:
    """Return the first choice or example of the value at a path, else what stands for one."""
    return next(iter((*choices_at(model, path), *examples_at(model, path))), otherwise)


def example_line(model: type[BaseModel], path: Path) -> str:
    """Return a line that shows how a missing key is written."""
    name = str(path[-1])
    if get_origin(annotation_at(model, path)) is tuple:
        return f'a line "{name}:", and below it entries that begin with "- "'
    return f'a line "{name}: {example_at(model, path)}"'
