"""A meal's slice: all that its pages can see, so that what is made of it can be kept."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from cookbook_build.digests import Digests
from cookbook_build.findings import Findings
from cookbook_build.kept import Kept, pieces_of
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.planning.telling import STANDS_FOR
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.slices import SHOWN_AS
from cookbook_build.publishing.theme import environment, theme_folder
from tests.hash_seeds import printed

ROOT = Path(__file__).parents[3]


@cache
def demo() -> Reckoning:
    """Return the reckoned demo book."""
    findings = Findings()
    book = read_book(ROOT / "content_demo", findings)
    assert book is not None
    return reckoned(book, findings)


def pages(kept: Kept) -> Pages:
    """Return the pages of the demo book."""
    return Pages(demo(), environment(theme_folder()), kept=kept)


def digests(of: Reckoning) -> dict[str, str]:
    """Return the digest of each meal's slice."""
    desk, told = Pages(of, environment(theme_folder())).desk, Digests({**STANDS_FOR, **SHOWN_AS})
    return {address: told.of(desk.slice(dish)) for address, dish in of.dishes.items()}


def test_each_slice_has_a_digest_of_its_own_that_is_the_same_when_the_book_is_read_again() -> None:
    found = digests(demo())
    assert len(set(found.values())) == len(found)
    demo.cache_clear()
    assert digests(demo()) == found


def test_the_digests_are_the_same_in_another_process_with_another_hash_seed() -> None:
    words = (
        "from tests.unit.publishing.test_slices import demo, digests\n"
        "print(sorted(digests(demo()).items()))"
    )
    assert printed(words) == {f"{sorted(digests(demo()).items())}\n"}


def test_what_was_made_is_taken_and_what_was_damaged_is_made_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = pages(Kept(tmp_path))
    made = {address: first.slices.page(address) for address in demo().dishes}
    facts = {address: first.slices.facts(address) for address in demo().dishes}
    damaged = sorted(tmp_path.glob("page-*"))[3]
    damaged.write_bytes(damaged.read_bytes()[:-1])
    again = pages(Kept(tmp_path))
    asked: list[str] = []
    template = again.templates.get_template

    def counted(name: str, *more: object) -> object:
        if not more:  # by the program, and not from within another template
            asked.append(name)
        return template(name, *more)  # type: ignore[arg-type]

    monkeypatch.setattr(again.templates, "get_template", counted)
    assert {address: again.slices.page(address) for address in made} == made
    assert {address: again.slices.facts(address) for address in made} == facts
    assert asked == ["recipe.html"]


def test_what_was_asked_for_is_told(tmp_path: Path) -> None:
    kept, address = Kept(tmp_path), next(iter(demo().dishes))
    slices = pages(kept).slices
    slices.page(address)
    slices.facts(address)
    assert sorted(key.partition("-")[0] for key in kept.asked) == ["facts", "page"]


@pytest.fixture
def cache_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the folder of the user's cache."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache"


def test_each_book_keeps_its_own_pieces_and_none_in_itself_or_where_it_goes(
    tmp_path: Path, cache_folder: Path
) -> None:
    roots = []
    for book, out in (("one", "a"), ("one", "b"), ("two", "a")):
        with pieces_of(tmp_path / book, tmp_path / out) as kept:
            roots.append(kept.root)
    assert roots[0] == roots[1] != roots[2]
    assert all(root and root.is_relative_to(cache_folder) for root in roots)
    for folder, to in ((cache_folder.parent, tmp_path / "a"), (tmp_path / "one", cache_folder)):
        with pieces_of(folder, to) as kept:
            assert kept.root is not None
            assert not kept.root.is_relative_to(cache_folder)
            kept.keep("a", b"piece")
            assert kept.read("a") == b"piece"
        assert not kept.root.exists()
