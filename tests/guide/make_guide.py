"""Writes the pages of the demo book's guide that are made from the program itself.

Run it in the folder of the repository after a change of what it tells:
`.venv/bin/python tests/guide/make_guide.py`. `test_guide.py` says when that was forgotten.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

from cookbook_build.explaining.reference import every_key

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

GUIDE: Final = Path(__file__).parents[2] / "content_demo" / "pages" / "guide"
PAGES: Final[Mapping[str, Callable[[], str]]] = {"every-key.md": every_key}
"""Each generated page, and what makes it."""


def main() -> None:
    """Write each page anew."""
    GUIDE.mkdir(parents=True, exist_ok=True)
    for name, made in PAGES.items():
        (GUIDE / name).write_text(made(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
