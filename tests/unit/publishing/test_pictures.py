"""Which pictures are written, under which names, from which cache, and how a page shows them."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import PIL
import pytest
from bs4 import BeautifulSoup
from PIL import Image

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing import photographs, pictures
from cookbook_build.publishing.binding import bind_book
from cookbook_build.publishing.picture_cache import PictureCache, key_of, users_cache
from cookbook_build.publishing.pictures import Pictures, book_names, check_pictures, made_pictures
from cookbook_build.publishing.renditions import Rendition

if TYPE_CHECKING:
    from cookbook_build.planning.reckoning import Reckoning

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"><path d="M0 0h4v3z"/></svg>'
FILES = {
    "book.yaml": """\
title: A small book
cover: The landing.JPG
cover text: The landing at dusk.
series:
  Bowls: {picture: bowls.svg, picture text: Three bowls.}
  Nothing yet: {picture: later.svg, picture text: Later.}
""",
    "larder.yaml": "lentils: {food: lentils cooked, dried: freeze, cooked first: true}\n",
    "recipes/bowls/lentil-bowl.md": """\
---
title: Lentil bowl
series: Bowls
picture: dusk/bowl.png
picture text: A bowl & "spoon".
ingredients:
  - 1 cup lentils
---
Pour {water}.

![The *landing* & "stones"](<../../images/The landing.JPG>) ![Bowls](bowls.svg)
""",
    "images/bowls.svg": SVG,
    "images/later.svg": SVG,
    "images/unused.svg": SVG,
}


def photograph(kind: str, size: tuple[int, int] = (1800, 1350)) -> bytes:
    """Return a photograph of ours."""
    out = io.BytesIO()
    mode = "RGBA" if kind == "PNG" else "RGB"
    image = Image.new(mode, size, (200, 120, 40, 128)[: len(mode)])
    image.paste((20, 90, 60), (0, 0, size[0] // 2, size[1]))
    image.save(out, kind)
    return out.getvalue()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a book with photographs and drawings, some of them not shown."""
    made = tmp_path / "book"
    for name, text in FILES.items():
        path = made / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    (made / "images/The landing.JPG").write_bytes(photograph("JPEG"))
    (made / "images/unused.jpg").write_bytes(photograph("JPEG", (9, 9)))
    (made / "images/dusk").mkdir()
    (made / "images/dusk/bowl.png").write_bytes(photograph("PNG", (500, 400)))
    return made


def reckon(folder: Path) -> Reckoning:
    """Return the reckoned book of a folder."""
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    assert not list(findings)
    return reckoned(book, findings)


def made(folder: Path) -> Pictures:
    """Return the made pictures of a folder."""
    findings = Findings()
    found = made_pictures(reckon(folder).book, findings)
    assert not list(findings)
    return found


def contents(folder: Path) -> dict[str, bytes]:
    """Return every file of a folder."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_only_what_the_book_shows_is_written(folder: Path, tmp_path: Path) -> None:
    before = contents(folder)
    bind_book(reckon(folder), tmp_path / "site")
    images = sorted(path.name for path in (tmp_path / "site/images").iterdir())
    assert images == [
        "bowls.svg",
        "dusk-bowl-480.png", "dusk-bowl-480.webp",
        "the-landing-1600.jpg", "the-landing-1600.webp",
        "the-landing-480.jpg", "the-landing-480.webp",
        "the-landing-960.jpg", "the-landing-960.webp",
    ]  # fmt: skip
    assert contents(folder) == before, "nothing is ever written into the author's folder"


def test_two_binds_are_the_same_to_the_byte_with_a_cache_and_without(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = []
    for at, cache in enumerate(("one", "one", "other", None)):
        if cache is None:
            monkeypatch.setattr(pictures, "users_cache", lambda _: PictureCache(None))
        monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / str(cache)))
        bind_book(reckon(folder), tmp_path / f"site{at}")
        found.append(contents(tmp_path / f"site{at}"))
    assert all(one == found[0] for one in found)


def shown(folder: Path, out: Path, page: str) -> BeautifulSoup:
    """Return a page of the bound book."""
    bind_book(reckon(folder), out)
    return BeautifulSoup((out / page).read_text(encoding="utf-8"), "lxml")


def test_a_page_shows_webp_with_a_fallback_in_every_width(folder: Path, tmp_path: Path) -> None:
    soup = shown(folder, tmp_path / "site", "recipes/lentil-bowl.html")
    head, landing, bowls = soup.select("picture")
    for picture, width, height, ending in ((head, 480, 384, "png"), (landing, 1600, 1200, "jpg")):
        source, image = picture.select_one("source"), picture.select_one("img")
        assert source is not None
        assert image is not None
        assert source["type"] == "image/webp"
        assert source["sizes"] == image["sizes"]
        assert (image["width"], image["height"]) == (str(width), str(height))
        assert image["decoding"] == "async"
        assert str(image["src"]).endswith(f".{ending}")
        for tag, kind in ((source, "webp"), (image, ending)):
            for one in str(tag["srcset"]).split(", "):
                name, told = one.split(" ")
                assert name.endswith(f"-{told.removesuffix('w')}.{kind}")
                with Image.open(tmp_path / "site/recipes" / name) as opened:
                    assert opened.width == int(told.removesuffix("w"))
    assert str(head.img["alt"] if head.img else "") == 'A bowl & "spoon".'
    assert str(landing.img["alt"] if landing.img else "") == 'The landing & "stones"'
    assert landing.img is not None
    assert landing.img["src"] == "../images/the-landing-960.jpg"
    assert bowls.select("source") == []
    assert bowls.img is not None
    assert (bowls.img["src"], bowls.img["width"], bowls.img["height"]) == (
        "../images/bowls.svg", "960", "720",
    )  # fmt: skip


def test_every_picture_of_a_book_has_its_size_and_how_it_loads(
    folder: Path, tmp_path: Path
) -> None:
    soup = shown(folder, tmp_path / "site", "index.html")
    loading = [str(tag["loading"]) for tag in soup.select("img[width][height][decoding]")]
    assert loading == ["eager", "lazy"]
    assert len(loading) == len(soup.select("img"))


def test_the_plain_file_is_one_that_every_edition_can_show(folder: Path) -> None:
    plain = {file: picture.plain for file, picture in made(folder).by_file.items()}
    told = {file: (one.name, one.made.media_type, one.made.width) for file, one in plain.items()}
    assert told == {
        "The landing.JPG": ("images/the-landing-960.jpg", "image/jpeg", 960),
        "dusk/bowl.png": ("images/dusk-bowl-480.png", "image/png", 480),
        "bowls.svg": ("images/bowls.svg", "image/svg+xml", 960),
    }
    assert Image.open(io.BytesIO(plain["The landing.JPG"].made.data)).size == (960, 720)


def test_names_in_the_book_are_plain_and_no_two_alike() -> None:
    named = book_names(["Grüne Erbsen, 2.JPG", "a b.png", "a-b.jpg", "a/b.gif", "鍋.jpg", "锅.jpg"])
    assert named == {
        "Grüne Erbsen, 2.JPG": "grune-erbsen-2",
        "a b.png": "a-b",
        "a-b.jpg": "a-b-2",
        "a/b.gif": "a-b-3",
        "鍋.jpg": "picture",
        "锅.jpg": "picture-2",
    }
    assert all(re.fullmatch(r"[a-z0-9-]+", name) for name in named.values())


# The cache


@pytest.fixture
def counted(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Return a list that grows with each photograph that is decoded and written anew."""
    calls: list[int] = []
    written = photographs.renditions

    def counting(data: bytes) -> object:
        calls.append(len(data))
        return written(data)

    monkeypatch.setattr(photographs, "renditions", counting)
    return calls


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the folder that the cache lies in."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache/cookbook-build/pictures"


def test_a_second_time_nothing_is_made_anew(folder: Path, cache: Path, counted: list[int]) -> None:
    first = made(folder)
    assert len(counted) == 2
    assert len(list(cache.iterdir())) == 3
    assert made(folder) == first
    assert len(counted) == 2


@pytest.mark.parametrize("spoil", ["cut", "changed", "swapped", "emptied", "listed wrong"])
def test_a_damaged_or_wrong_cached_file_is_made_again(
    spoil: str, folder: Path, cache: Path, counted: list[int]
) -> None:
    first = made(folder)
    kept = sorted(cache.iterdir())
    datas = [path.read_bytes() for path in kept]
    for at, path in enumerate(kept):
        data = datas[at]
        path.write_bytes(
            {
                "cut": data[:-1],
                "changed": data[:-1] + bytes([data[-1] ^ 1]),
                "swapped": datas[at - 1],
                "emptied": b"",
                "listed wrong": data.replace(b"[[", b"[{"),
            }[spoil]
        )
    assert made(folder) == first
    assert len(counted) == 4
    assert [path.read_bytes() for path in kept] == datas, "and it is mended"


def test_other_bytes_or_settings_are_another_picture() -> None:
    keys = [key_of(b"a", "1 12.0"), key_of(b"b", "1 12.0"), key_of(b"a", "1 12.1")]
    keys += [key_of(b"1a", ""), key_of(b"a", "1")]
    assert len(set(keys)) == len(keys)


def test_pillow_s_version_is_among_the_settings() -> None:
    assert f" {PIL.__version__} " in photographs.SETTINGS


def test_a_cache_that_can_t_be_written_changes_nothing(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    usual = made(folder)
    (tmp_path / "a-file").write_text("in the way")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "a-file"))
    assert made(folder) == usual
    assert (tmp_path / "a-file").read_text() == "in the way"


def test_a_full_disk_leaves_no_half_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_: Path, __: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    cache = PictureCache(tmp_path / "cache")
    cache.keep("key", [Rendition("image/png", 1, 1, b"data")])
    assert cache.read("key") == ()
    assert list((tmp_path / "cache").iterdir()) == []


@pytest.mark.parametrize("inside", ["", ".cache", "images"])
def test_a_cache_within_the_book_is_not_used(
    inside: str, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(folder / inside))
    before = contents(folder)
    assert users_cache(folder).root is None
    made(folder)
    assert contents(folder) == before


def test_proofing_writes_nothing_and_reads_again_nothing_that_is_kept(
    folder: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book, findings = reckon(folder).book, Findings()
    judged: list[str] = []
    monkeypatch.setattr(pictures, "judge", lambda file, _: judged.append(file))
    check_pictures(book, findings)
    assert len(judged) == 3 + 1  # with the series that has no meal yet
    assert not cache.exists()
    made_pictures(book, findings)
    check_pictures(book, findings)
    assert len(judged) == 4
    assert not list(findings)


def test_what_was_kept_comes_back_as_it_was(tmp_path: Path) -> None:
    cache = PictureCache(tmp_path / "cache")
    kept = (Rendition("image/webp", 4, 3, b"\n[]\0"), Rendition("image/jpeg", 4, 3, b"\xff\n"))
    cache.keep("key", kept)
    assert cache.read("key") == kept
    assert cache.read("other") == ()
    cache.keep("strange", [replace(kept[0], media_type="text/html")])
    assert cache.read("strange") == ()
