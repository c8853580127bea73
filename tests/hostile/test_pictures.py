"""Pictures that are no pictures, lie, are cut short or want too much: findings, and no book."""

from __future__ import annotations

import io
import json
import struct
import zlib
from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner
from PIL import Image

from cookbook_build.cli import main

if TYPE_CHECKING:
    from pathlib import Path

BOOK = {
    "book.yaml": "title: A small book\nseries:\n  Bowls: {about: Warm ones.}\n",
    "larder.yaml": "lentils: {food: lentils cooked, dried: freeze, cooked first: true}\n",
    "recipes/bowls/lentil-bowl.md": """\
---
title: Lentil bowl
series: Bowls
ingredients:
  - 1 cup lentils
---
Pour {water}.
""",
    "pages/about.md": "---\ntitle: About us\n---\nWe live by a river.\n",
}
NAMED = {  # how a picture is named in each place, and the line of the finding
    "recipe": ("recipes/bowls/lentil-bowl.md", "series: Bowls\n", "picture: {}\npicture text: A bowl.\n", 4),
    "cover": ("book.yaml", "A small book\n", "cover: {}\ncover text: A bowl.\n", 2),
    "series": ("book.yaml", "{about: Warm ones.}", '\n    picture: "{}"\n    picture text: A bowl.', 4),
    "page": ("pages/about.md", "title: About us\n", "picture: {}\npicture text: A bowl.\n", 3),
    "recipe's text": ("recipes/bowls/lentil-bowl.md", "{water}.\n", "\n![A bowl](<{}>)\n", 9),
    "page's text": ("pages/about.md", "river.\n", "\n![A bowl](<{}>)\n", 6),
}  # fmt: skip


def encoded(image: Image.Image, kind: str, **options: Any) -> bytes:  # noqa: ANN401 - Pillow's own
    """Return an image as a file of some kind."""
    out = io.BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def photograph(kind: str = "JPEG", size: tuple[int, int] = (120, 90)) -> bytes:
    """Return a sound photograph with enough in it to be cut."""
    noise = Image.merge("RGB", [Image.effect_noise(size, sigma) for sigma in (30, 50, 70)])
    return encoded(noise, kind)


def hollow(kind: str) -> bytes:
    """Return a photograph whose copying broke off: all of its length, half of its bytes."""
    data = photograph(kind, (400, 300))
    return data[: len(data) // 2].ljust(len(data), b"\0")


def chunk(name: bytes, data: bytes) -> bytes:
    """Return a chunk of a PNG."""
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def bomb(width: int, height: int) -> bytes:
    """Return a small PNG that says it is large."""
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    rows = zlib.compress(b"\0" * 1000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


def text_bomb() -> bytes:
    """Return a PNG whose comment grows to 100 MB."""
    sound = photograph("PNG")
    return sound[:33] + chunk(b"zTXt", b"a\0\0" + zlib.compress(b"a" * 100_000_000)) + sound[33:]


SVG = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 4 3">'
LAUGHS = (
    '<!DOCTYPE svg [<!ENTITY a "ha">'
    + "".join(f'<!ENTITY {chr(98 + n)} "{f"&{chr(97 + n)};" * 10}">' for n in range(12))
    + f"]>{SVG}"
)


def svg(inner: str) -> bytes:
    """Return a drawing that holds something."""
    return f"{SVG}\n{inner}</svg>".encode()


REFUSED: dict[str, tuple[str, bytes, str, str]] = {
    # what it is: its name, its bytes, what the finding says, what the mend says
    "a bomb": ("b.png", bomb(50_000, 50_000), "2,500 megapixels", "80 megapixels"),
    "a smaller bomb": ("b.png", bomb(9_000, 9_000), "9,000 × 9,000 pixels, that is 81 megapixels", "80 megapixels"),
    "a bomb in a comment": ("b.png", text_bomb(), "damaged", "copy it"),
    "a bomb of another kind": ("b.gif", b"GIF89a\xff\xff\xff\xff\x80\0\0" + b"\0" * 6 + b",\0\0\0\0\1\0\1\0\0\2\1\0\0;", "megapixels", "80 megapixels"),
    "a JPEG cut short": ("b.jpg", photograph()[:3000], "cut short", "copy it into images/ again"),
    "a PNG cut short": ("b.png", photograph("PNG")[:3000], "cut short", "copy it into images/ again"),
    "a WebP cut short": ("b.webp", photograph("WEBP")[:1000], "cut short", "copy it into images/ again"),
    "a GIF cut short": ("b.gif", photograph("GIF")[:3000], "cut short", "copy it into images/ again"),
    "an AVIF cut short": ("b.avif", photograph("AVIF")[:1000], "cut short", "copy it into images/ again"),
    "a JPEG of which half was copied": ("b.jpg", hollow("JPEG"), "cut short", "copy it into images/ again"),
    "a PNG of which half was copied": ("b.png", hollow("PNG"), "cut short", "copy it into images/ again"),
    "a WebP of which half was copied": ("b.webp", hollow("WEBP"), "cut short", "copy it into images/ again"),
    "an AVIF of which half was copied": ("b.avif", hollow("AVIF"), "cut short", "copy it into images/ again"),
    "a PNG with a wrong size within": ("b.png", bomb(4000, 3000), "cut short", "again"),
    "text": ("b.jpg", b"Dear Mirela,\nthe pears are in.\n", "holds no picture", "JPEG, PNG or WebP"),
    "nothing": ("b.png", b"", "holds no picture", "JPEG, PNG or WebP"),
    "a page": ("b.png", b"<!DOCTYPE html><title>404</title>", "holds no picture", "JPEG, PNG or WebP"),
    "a TIFF": ("b.jpg", photograph("TIFF"), "holds no picture", "JPEG, PNG or WebP"),
    "a phone's HEIC": ("b.jpg", b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + b"\0" * 50, "HEIC", "export it as JPEG"),
    "a PNG by another name": ("b.jpg", photograph("PNG"), "of the kind PNG, and its ending .jpg says another", '"b.png"'),
    "a JPEG by another name": ("b.webp", photograph(), "of the kind JPEG, and its ending .webp says another", '"b.jpg"'),
    "a JPEG that says drawing": ("b.svg", photograph(), "of the kind JPEG, and its ending .svg says another", '"b.jpg"'),
    "a drawing that says PNG": ("b.png", svg("<path/>"), "of the kind SVG, and its ending .png says another", '"b.svg"'),
    "a script": ("b.svg", svg("<script>alert(1)</script>"), "holds a script (its line 2)", "plain SVG"),
    "a script with a prefix": ("b.svg", svg('<x:script xmlns:x="http://www.w3.org/1999/xhtml">1</x:script>'), "holds a script", "plain SVG"),
    "a script in metadata": ("b.svg", svg("<metadata><script>1</script></metadata>"), "holds a script", "plain SVG"),
    "an event handler": ("b.svg", svg('<g onload="alert(1)"/>'), 'event handler "onload"', "plain SVG"),
    "a handler of the whole": ("b.svg", svg("").replace(b"viewBox", b'onLoad="x()" viewBox'), 'event handler "onLoad"', "plain SVG"),
    "another document": ("b.svg", svg("<foreignObject/>"), "a foreignObject", "plain SVG"),
    "a link out": ("b.svg", svg('<image href="https://example.org/a.png"/>'), 'link out of it ("https://example.org/a.png")', "plain SVG"),
    "an old link out": ("b.svg", svg('<use xlink:href="other.svg#a"/>'), 'link out of it ("other.svg#a")', "plain SVG"),
    "a link that runs": ("b.svg", svg('<a href="java&#x9;script:alert(1)"><path/></a>'), "link out of it", "plain SVG"),
    "a document in a link": ("b.svg", svg('<image href="data:image/svg+xml;base64,PHN2Zy8+"/>'), "link out of it", "plain SVG"),
    "a page in a link": ("b.svg", svg('<a href="data:text/html,hello"/>'), "link out of it", "plain SVG"),
    "a picture in a use": ("b.svg", svg('<use href="data:image/png;base64,AAAA"/>'), "link out of it", "plain SVG"),
    "a broken picture within": ("b.svg", svg('<image href="data:image/png;base64,AAAA"/>'), "a picture that can't be read", "plain SVG"),
    "no base64 within": ("b.svg", svg('<image href="data:image/png;base64,A*A"/>'), "a picture that can't be read", "plain SVG"),
    "a link set by animation": ("b.svg", svg('<a><set attributeName="xlink:href" to="javascript:1"/></a>'), 'an animation of "xlink:href"', "plain SVG"),
    "a style from elsewhere": ("b.svg", svg("<style>@import 'a.css';</style>"), 'reaches out of it ("@import', "plain SVG"),
    "a font within a style": ("b.svg", svg("<style>@font-face{src:url(data:font/woff2;base64,AA)}</style>"), "reaches out of it", "plain SVG"),
    "a style in pieces": ("b.svg", svg("<style>@im<x xmlns='urn:x'/>port 'a.css';</style>"), "a style with other elements in it", "plain SVG"),
    "a fill from elsewhere": ("b.svg", svg('<path fill="url(https://example.org/#a)"/>'), "reaches out of it", "plain SVG"),
    "a style that is masked": ("b.svg", svg('<path style="fill:\\75rl(https://example.org/#a)"/>'), "reaches out of it", "plain SVG"),
    "a thousand million laughs": ("b.svg", (LAUGHS + "<text>&m;</text></svg>").encode(), "entities", "plain SVG"),
    "laughs in an attribute": ("b.svg", (LAUGHS + '<path d="&m;"/></svg>').encode(), "entities", "plain SVG"),
    "a file by an entity": ("b.svg", f'<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/hostname">]>{SVG}<text>&a;</text></svg>'.encode(), "entities", "plain SVG"),
    "entities in UTF-16": ("b.svg", f'<!DOCTYPE svg [<!ENTITY a "b">]>{SVG}<text>&a;</text></svg>'.encode("utf-16"), "entities", "plain SVG"),
    "laughs by repetition": ("b.svg", svg('<path id="a0"/>' + "".join(f'<g id="a{n + 1}">' + f'<use xlink:href="#a{n}"/>' * 9 + "</g>" for n in range(12))), "repeats its parts without end", "export it as PNG"),
    "a drawing that uses itself": ("b.svg", svg('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'), "repeats its parts without end", "export it as PNG"),
    "a drawing of 10 MB": ("b.svg", svg('<path d="M0 0h1"/>' * 600_000), "a drawing of 11 MB", "less than 4 MB"),
    "a drawing nested too deep": ("b.svg", svg("<g>" * 5000 + "</g>" * 5000), "not a well-formed drawing", "again as SVG"),
    "a drawing cut short": ("b.svg", svg("<g/>")[:-9], "not a well-formed drawing", "again as SVG"),
    "a drawing without its namespace": ("b.svg", b'<svg viewBox="0 0 4 3"/>', "not a drawing", "xmlns="),
    "some other XML": ("b.svg", b"<rss/>", "not a drawing", "xmlns="),
    "a packed drawing": ("b.svg", zlib.compress(svg("")), "holds no picture", "export"),
}  # fmt: skip


def write(folder: Path, name: str, data: bytes, *places: str) -> Path:
    """Write the small book with a picture in it, named in some places."""
    files = dict(BOOK)
    for place in places:
        file, old, new, _ = NAMED[place]
        assert old in files[file]
        kept = "" if place == "series" else old
        files[file] = files[file].replace(old, kept + new.format(name), 1)
    for file, text in files.items():
        path = folder / file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    (folder / "images").mkdir()
    (folder / "images" / name).write_bytes(data)
    return folder


def proofed(folder: Path) -> list[dict[str, Any]]:
    """Return what is wrong in a book, as the command gives it."""
    result = CliRunner().invoke(main, ["proof", str(folder), "--json"])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.output
    found: list[dict[str, Any]] = json.loads(result.output)
    assert result.exit_code == (1 if any(f["severity"] == "error" for f in found) else 0)
    return [f for f in found if f["severity"] != "suggestion"]


@pytest.mark.parametrize("what", REFUSED)
def test_each_refused_picture_is_one_finding_and_no_book(what: str, tmp_path: Path) -> None:
    name, data, cause, mend = REFUSED[what]
    folder = write(tmp_path / "book", name, data, "recipe")
    (found,) = proofed(folder)
    assert found["severity"] == "error"
    assert f'the file "{name}" in images/' in found["cause"]
    assert cause in found["cause"]
    assert mend in found["mend"]
    assert found["mend"].endswith(".")
    result = CliRunner().invoke(main, ["bind", str(folder), "--out", str(tmp_path / "site")])
    assert result.exit_code == 1
    assert found["cause"] in result.output
    assert [path.name for path in tmp_path.iterdir()] == ["book"]


@pytest.mark.parametrize("place", NAMED)
def test_a_refused_picture_is_reported_where_it_is_named(place: str, tmp_path: Path) -> None:
    (found,) = proofed(write(tmp_path, "b.jpg", b"text", place))
    file, _, _, line = NAMED[place]
    assert (found["path"], found["line"]) == (file, line)
    at = found["column"] - 1
    assert found["excerpt"][at : at + found["width"]].strip('"') == "b.jpg"


@pytest.mark.parametrize("place", NAMED)
def test_a_picture_without_words_is_a_warning_wherever_it_is_named(
    place: str, tmp_path: Path
) -> None:
    folder = write(tmp_path, "b.png", photograph("PNG"), place)
    file, *_ = NAMED[place]
    text = (folder / file).read_text(encoding="utf-8")
    for words in ("picture text: A bowl.", "cover text: A bowl."):
        text = text.replace(words, "")
    (folder / file).write_text(text.replace("![A bowl]", "![]"), encoding="utf-8")
    (found,) = proofed(folder)
    assert found["severity"] == "warning"
    assert "no words for those who can't see it" in found["cause"]
    assert found["path"] == file


def test_a_refused_picture_is_reported_once_however_often_it_is_named(tmp_path: Path) -> None:
    assert len(proofed(write(tmp_path, "b.jpg", b"text", *NAMED))) == 1


def test_a_picture_that_nothing_names_is_nobody_s_fault(tmp_path: Path) -> None:
    assert not proofed(write(tmp_path, "b.jpg", b"text"))


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "GIF", "AVIF"])
def test_sound_pictures_of_every_kind_give_no_finding(kind: str, tmp_path: Path) -> None:
    ending = {"JPEG": "JPG"}.get(kind, kind.lower())
    assert not proofed(write(tmp_path, f"b.{ending}", photograph(kind), *NAMED))


@pytest.mark.parametrize("more", [b"\0" * 9000, b"a film of the moment before" * 400])
def test_what_a_phone_appends_to_a_jpeg_does_no_harm(more: bytes, tmp_path: Path) -> None:
    assert not proofed(write(tmp_path, "b.jpg", photograph() + more, "cover"))


def test_a_picture_that_can_t_be_opened_is_a_finding(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write(tmp_path, "b.png", photograph("PNG"), "cover")
    read = type(folder).read_bytes

    def refuse(path: Path) -> bytes:
        if path.suffix == ".png":
            raise PermissionError(13, "Permission denied")
        return read(path)

    monkeypatch.setattr(type(folder), "read_bytes", refuse)
    (found,) = proofed(folder)
    assert "can't be opened (Permission denied)" in found["cause"]


def test_a_file_beyond_all_measure_is_not_even_read(tmp_path: Path) -> None:
    folder = write(tmp_path, "b.jpg", b"", "cover")
    with (folder / "images/b.jpg").open("r+b") as file:
        file.truncate(101_000_000)  # a hole, of no bytes on the disk
    (found,) = proofed(folder)
    assert "holds 101 MB" in found["cause"]


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "GIF", "AVIF"])
def test_no_spoiled_byte_ends_in_a_traceback(kind: str, tmp_path: Path) -> None:
    data = photograph(kind)
    ending = {"JPEG": "jpg"}.get(kind, kind.lower())
    folder = write(tmp_path, f"b.{ending}", data, "cover")
    for at in range(0, min(len(data), 400), 13):
        spoiled = data[:at] + bytes([data[at] ^ 0xFF]) + data[at + 1 :]
        (folder / f"images/b.{ending}").write_bytes(spoiled)
        assert len(proofed(folder)) <= 1
