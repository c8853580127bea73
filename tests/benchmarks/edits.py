"""Edits as a cook makes them: an amount, a weight, a figure of the style; no two in a row alike."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path


_TIMES: Final = re.compile(r"(?m)^Cooked (\d+) times\.\n")


def recipes_of(book: Path) -> list[Path]:
    """Return the files of all recipes, in order."""
    return sorted((book / "recipes").rglob("*.md"))


def edit_recipe(book: Path) -> None:
    """Change one amount of the recipe in the middle: its trials teach every meal something else."""
    recipes = recipes_of(book)
    _count_on(recipes[len(recipes) // 2], r"(?m)^(  - )(\d+)( tbsp )", most=4, least=2)


def edit_words(book: Path) -> None:
    """Change a word of the text of the recipe in the middle, which no number hangs on."""
    recipes = recipes_of(book)
    file = recipes[len(recipes) // 2]
    text = file.read_text(encoding="utf-8")
    times = int(found[1]) if (found := _TIMES.search(text)) else 0
    words = f"Cooked {times + 1} times.\n"
    file.write_text(_TIMES.sub("", text) + words, encoding="utf-8", newline="\n")


def edit_larder(book: Path) -> None:
    """Change what a cup of one store weighs."""
    _count_on(book / "larder.yaml", r"(weighs: )(\d+)( g per cup)", most=60, least=50)


def edit_theme(book: Path) -> None:
    """Change one figure of the book's own style."""
    _count_on(book / "theme" / "own.css", r"(0\.0)(\d)(em)", most=9, least=1)


def _count_on(file: Path, pattern: str, *, most: int, least: int) -> None:
    """Put the next number in the place of the first that is found; after the most the least."""
    text = file.read_text(encoding="utf-8")

    def next_number(found: re.Match[str]) -> str:
        number = int(found[2]) + 1
        return f"{found[1]}{number if number <= most else least}{found[3]}"

    changed, times = re.subn(pattern, next_number, text, count=1)
    assert times == 1, f"nothing to edit in {file.name}"
    file.write_text(changed, encoding="utf-8", newline="\n")


EDITS: Final[Mapping[str, Callable[[Path], None]]] = {
    "words": edit_words,
    "recipe": edit_recipe,
    "larder": edit_larder,
    "theme": edit_theme,
}
