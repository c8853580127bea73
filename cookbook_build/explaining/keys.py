"""What is known of each key that authors write: its words, its type, its default, its choices."""

from __future__ import annotations

import types
import typing
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated, Any, Final, Literal, get_args, get_origin

from pydantic import BaseModel, WithJsonSchema
from pydantic.fields import FieldInfo

from cookbook_build.explaining.book import BOOK
from cookbook_build.explaining.larder import LARDER
from cookbook_build.explaining.menus import MENU
from cookbook_build.explaining.recipes import PAGE, RECIPE
from cookbook_build.manuscript.schema import BookKeys, MenuKeys, PageKeys, RecipeKeys, StoreKeys

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from cookbook_build.explaining.explained import Explained, Group
    from cookbook_build.manuscript.schema import Matter

EXPLAINED: Final[Mapping[type[Matter], Group]] = MappingProxyType(
    {**BOOK, **LARDER, **RECIPE, **PAGE, **MENU}
)
"""Every group of keys that authors write."""


@dataclass(frozen=True, slots=True)
class File:
    """A kind of file that authors write keys into."""

    name: str  # of what editors check it with
    shown: str
    model: type[Matter]
    what: str


BOOK_FILE: Final = File("book", "book.yaml", BookKeys, "What holds for the whole book.")
LARDER_FILE: Final = File(
    "larder", "larder.yaml", StoreKeys, "The stores on your shelf, each by its name."
)
RECIPE_FILE: Final = File(
    "recipe",
    "Recipes",
    RecipeKeys,
    "What stands above the text of a recipe, such as `recipes/suppers/lentil-bowl.md`.",
)
MENU_FILE: Final = File(
    "menu", "Menus", MenuKeys, "Who eats what on which day, such as `menus/midsummer-paddle.yaml`."
)
PAGE_FILE: Final = File(
    "page",
    "Free pages",
    PageKeys,
    "What stands above the text of a page, such as `pages/how-we-dry.md`.",
)
FILES: Final = (BOOK_FILE, LARDER_FILE, RECIPE_FILE, MENU_FILE, PAGE_FILE)


@dataclass(frozen=True, slots=True)
class Key:
    """One key of a group."""

    name: str
    hint: Any  # its type, with what is annotated
    needed: bool
    default: Any
    explained: Explained

    @property
    def default_text(self) -> str:
        """What is taken where it is not written, as it would be written; nothing where nothing."""
        if self.explained.usual:
            return self.explained.usual
        empty = self.needed or self.default is None or self.default == ()
        return "" if empty or isinstance(self.default, (BaseModel, dict)) else written(self.default)

    @property
    def choices(self) -> tuple[str, ...]:
        """The words that it may be."""
        return choices(self.hint)

    @property
    def example(self) -> str:
        """A value as it stands after the colon."""
        if self.explained.example:
            return self.explained.example
        return next(iter((*self.choices, *type_examples(self.hint))), self.default_text)

    @property
    def line(self) -> str:
        """The key with its example."""
        below = self.example.startswith("\n")
        return f"{self.name}:{'' if below else ' '}{self.example}"

    @property
    def inner(self) -> type[Matter] | None:
        """The group of keys that it holds: itself, as entries of a list, or by names."""
        return inner_model(self.hint)


def keys_of(model: type[Matter]) -> Iterator[Key]:
    """Give the keys of a group, in the order in which the model has them."""
    hints = typing.get_type_hints(model, include_extras=True)
    for field, info in model.model_fields.items():
        name = info.alias or field
        default = None if info.is_required() else info.get_default()
        yield Key(name, hints[field], info.is_required(), default, EXPLAINED[model][name])


def groups(model: type[Matter]) -> Iterator[type[Matter]]:
    """Give a group of keys and all groups that it holds, each once."""
    seen: list[type[Matter]] = []
    _gather(model, seen)
    yield from seen


def _gather(model: type[Matter], seen: list[type[Matter]]) -> None:
    if model in seen:
        return
    seen.append(model)
    for key in keys_of(model):
        if key.inner:
            _gather(key.inner, seen)


def written(value: object) -> str:
    """Return a default as an author would write it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return f"[{', '.join(written(one) for one in value)}]"
    return str(value)


def optional(hint: Any) -> Any:  # noqa: ANN401 - any type's annotation
    """Return a type without the possibility that nothing is there, and without a key's own words.

    What is annotated stays, since it says how a text is read.
    """
    if get_origin(hint) in {typing.Union, types.UnionType}:
        return optional(next(one for one in get_args(hint) if one is not type(None)))
    if get_origin(hint) is Annotated:
        kept = [one for one in hint.__metadata__ if not (isinstance(one, FieldInfo) and one.alias)]
        if len(kept) < len(hint.__metadata__):
            return optional(Annotated[(hint.__origin__, *kept)] if kept else hint.__origin__)
    return hint


def bare(hint: Any) -> Any:  # noqa: ANN401 - any type's annotation
    """Return a type with nothing annotated."""
    hint = optional(hint)
    return bare(hint.__origin__) if get_origin(hint) is Annotated else hint


def choices(hint: Any) -> tuple[str, ...]:  # noqa: ANN401 - any type's annotation
    """Return the words that a value may be, or that the entries of a list may be."""
    found = bare(hint)
    if get_origin(found) is tuple:
        return choices(get_args(found)[0])
    return tuple(map(str, get_args(found))) if get_origin(found) is Literal else ()


def type_examples(hint: Any) -> tuple[str, ...]:  # noqa: ANN401 - any type's annotation
    """Return the examples that a type brings."""
    found = optional(hint)
    if get_origin(found) is not Annotated:
        return ()
    shown = next((one for one in found.__metadata__ if isinstance(one, WithJsonSchema)), None)
    return tuple((shown.json_schema or {}).get("examples", ())) if shown else ()


def inner_model(hint: Any) -> type[Matter] | None:  # noqa: ANN401 - any type's annotation
    """Return the group of keys that a value holds, if it does."""
    found = bare(hint)
    if get_origin(found) in {tuple, dict}:
        return inner_model(get_args(found)[0 if get_origin(found) is tuple else -1])
    return found if isinstance(found, type) and issubclass(found, BaseModel) else None  # type: ignore[return-value]


def bounds(hint: Any) -> tuple[float | None, float | None]:  # noqa: ANN401 - any type's annotation
    """Return the least and the most that a number may be."""
    return annotated(hint, "ge"), annotated(hint, "le")


def annotated(hint: Any, name: str) -> Any:  # noqa: ANN401 - any type's bound
    """Return a bound that a type is annotated with, such as `min_length`, or None."""
    if get_origin(hint) is not Annotated:
        return None
    fields = [info for info in hint.__metadata__ if isinstance(info, FieldInfo)]
    told = [one for info in fields for one in info.metadata]
    return next((getattr(one, name) for one in told if hasattr(one, name)), None)
