"""A book bound again after any edits is, byte for byte, the book that is bound with nothing kept.

What each meal's pages were made into is kept by a digest of all that they could see; were that
digest to miss anything, a page of before would stand in the book of now.
"""

from __future__ import annotations

import os
import random
import shutil
from typing import TYPE_CHECKING, Final

import pytest

from cookbook_build.findings import Findings
from cookbook_build.kept import Kept
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing import binding
from cookbook_build.publishing.pictures import made_pictures
from tests.folders import differing, held
from tests.properties.author import Author, small_demo

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

EDITS: Final = int(os.environ.get("COOKBOOK_EDITS", "8"))


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Return the demo book with few recipes."""
    return small_demo(tmp_path / "book")


def bound(book: Path, out: Path) -> dict[str, bytes] | None:
    """Return every file of the bound book, None where it has an error and nothing is bound."""
    findings = Findings()
    read = read_book(book, findings)
    reckoning = reckoned(read, findings) if read is not None else None
    pictures = made_pictures(read, findings) if read is not None else None
    if reckoning is None or findings.errors:
        return None
    binding.bind_book(reckoning, out, pictures)
    return held(out)


@pytest.mark.parametrize("seed", [1, 2])
def test_after_any_edits_it_is_the_book_that_is_bound_anew(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, seed: int
) -> None:
    author = Author(book, random.Random(seed))  # noqa: S311 - for repeatable tests
    done: list[str] = []
    compared = found = 0
    read = Kept.made  # to see that what was kept is taken

    def counted(kept: Kept, key: str, make: Callable[[], bytes]) -> bytes:
        nonlocal found
        made: list[bool] = []

        def made_now() -> bytes:
            made.append(True)
            return make()

        piece = read(kept, key, made_now)
        found += not made and key.startswith(("page-", "facts-", "chapter-", "held-"))
        return piece

    monkeypatch.setattr(Kept, "made", counted)
    for at, (deed, take_back) in enumerate(author.edits(EDITS)):
        done.append(deed)
        monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "kept"))
        again = bound(book, tmp_path / "again")
        if again is None:  # an error binds nothing
            take_back()
            continue
        monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / f"clean-{at}"))
        clean = bound(book, tmp_path / "clean")
        assert clean is not None
        assert differing(again, clean) == [], done
        compared += 1
        shutil.rmtree(tmp_path / f"clean-{at}", ignore_errors=True)
    assert compared >= EDITS / 3, done
    assert found > compared, "nothing that was kept was ever taken"
