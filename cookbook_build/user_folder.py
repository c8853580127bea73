"""The folder of the user's cache, where what was made is kept; never within a book."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cookbook_build.walking import real

if TYPE_CHECKING:
    from pathlib import Path


def kept_folder(name: str, book: Path) -> Path | None:
    """Return the folder of the cache for one kind of thing, None where it would lie in the book."""
    from platformdirs import user_cache_path  # noqa: PLC0415 - not for help

    try:
        root = user_cache_path("cookbook-build", appauthor=False) / name
        within = real(root).is_relative_to(real(book))
    except (OSError, RuntimeError):
        return None
    return root if root.is_absolute() and not within else None
