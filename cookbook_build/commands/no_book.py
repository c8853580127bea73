"""What to say where a command finds no book: where one is, and the same command with its folder."""

from __future__ import annotations

import re
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click
from click.core import ParameterSource

from cookbook_build.walking import is_file

if TYPE_CHECKING:
    from collections.abc import Iterator

FURTHEST: Final = 4  # folders up: recipes/a-series/drafts lies three below its book
_NEEDS_QUOTES: Final = re.compile(r"[^\w./\\:=+-]|^$")


def no_book() -> str:
    """Return what to tell a cook who asks for a book where none is."""
    here = Path.cwd()
    for up, folder in enumerate(here.parents[:FURTHEST], 1):
        if is_file(folder / "book.yaml"):
            where = "one folder up" if up == 1 else f"{up} folders up"
            return f"no book here: book.yaml is {where}; write: {_command('/'.join(['..'] * up))}"
    below = _below(here)
    if below:
        return f'no book here: book.yaml is in the folder "{below}"; write: {_command(below)}'
    return (
        "no book here: name the folder that holds book.yaml in place of my-book: "
        f"{_command('my-book')}"
    )


def _below(here: Path) -> str:
    """Return the one folder in this one that holds a book, or nothing."""
    found: list[str] = []
    with suppress(OSError):  # a folder that may not be looked into
        found = [path.name for path in here.iterdir() if is_file(path / "book.yaml")]
    return found[0] if len(found) == 1 else ""


def _command(book: str) -> str:
    """Return the command that was given, as it is typed, with a book's folder."""
    context = click.get_current_context()
    option = any("--book" in param.opts for param in context.command.params if param.name == "book")
    words = ["cookbook-build", str(context.info_name), *_given(context)]
    return " ".join([*words, *["--book"] * option, _typed(book)])


def _given(context: click.Context) -> Iterator[str]:
    """Give the words that were typed behind the command."""
    for param in context.command.params:
        name = param.name or ""
        if context.get_parameter_source(name) is not ParameterSource.COMMANDLINE or name == "book":
            continue
        value = context.params.get(name)
        for one in value if isinstance(value, tuple) else (value,):
            if isinstance(param, click.Option):
                yield param.opts[0]
            if not isinstance(one, bool):
                yield _typed("=".join(one) if isinstance(one, tuple) else str(one))


def _typed(word: str) -> str:
    quoted = word.replace('"', '\\"')
    return f'"{quoted}"' if _NEEDS_QUOTES.search(word) else word
