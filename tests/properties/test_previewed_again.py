"""A book previewed after any edits is what a preview that begins anew shows, findings and pages.

What stayed the same object is taken as it was; were it made of anything more than it says, a page
of before would be shown as that of now.
"""

from __future__ import annotations

import os
import random
from typing import TYPE_CHECKING, Final

import pytest

from cookbook_build.preview.kept import KeptBook
from tests.folders import differing
from tests.properties.author import Author, small_demo

if TYPE_CHECKING:
    from pathlib import Path

EDITS: Final = int(os.environ.get("COOKBOOK_EDITS", "8"))


def shown(kept: KeptBook) -> dict[str, bytes]:
    """Return every page of the last good book."""
    edition = kept.state.edition
    assert edition is not None
    return {name: edition.content(name) for name in edition.pages}


@pytest.mark.parametrize("seed", [3, 4])
def test_after_any_edits_it_shows_what_a_new_preview_shows(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, seed: int
) -> None:
    book = small_demo(tmp_path / "book")
    author = Author(book, random.Random(seed))  # noqa: S311 - for repeatable tests
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "kept"))
    kept = KeptBook(book)
    kept.renew()
    done: list[str] = []
    compared = refused = 0
    for at, (deed, take_back) in enumerate(author.edits(EDITS)):
        done.append(deed)
        monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / f"new-{at}"))
        anew = KeptBook(book)
        said, told = kept.renew().findings.gathered, anew.renew().findings.gathered
        assert said == told, done
        if anew.state.edition is None:
            take_back()
            refused += 1
            continue
        assert differing(shown(kept), shown(anew)) == [], done
        compared += 1
    assert compared >= EDITS / 3, done
    assert compared + refused == EDITS
