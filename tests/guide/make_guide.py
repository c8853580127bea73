"""Writes the pages of the demo book's guide that are made from the program itself.

Run it in the folder of the repository after a change of what it tells:
`.venv/bin/python tests/guide/make_guide.py`. `test_guide.py` says when that was forgotten.
"""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.explaining.reference import every_key

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping


def loaded(path: Path) -> Any:  # noqa: ANN401 - a module that is no part of a package
    """Return a module of the tests, which are collected by path."""
    spec = importlib.util.spec_from_file_location(path.stem, path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[path.stem] = module  # dataclasses look their module up
    spec.loader.exec_module(module)
    return module


def when_amiss() -> str:
    """Return the page of what can be amiss, which the tests' planted mistakes make."""
    here = Path(__file__).parent
    planted = loaded(here.parent / "newcomer" / "test_sixty_mistakes.py")
    page: str = loaded(here / "amiss.py").when_amiss(planted)
    return page


GUIDE: Final = Path(__file__).parents[2] / "content_demo" / "pages" / "guide"
PAGES: Final[Mapping[str, Callable[[], str]]] = {
    "every-key.md": every_key,
    "when-amiss.md": when_amiss,
}
"""Each generated page, and what makes it."""


def main() -> None:
    """Write each page anew."""
    GUIDE.mkdir(parents=True, exist_ok=True)
    for name, made in PAGES.items():
        (GUIDE / name).write_text(made(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
