"""Pictures that are broken, poisoned, too large or not there: a finding each, never a traceback."""

from __future__ import annotations

import io
import re
import struct
import zlib
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw
from PIL.PngImagePlugin import PngInfo

from cookbook_build.findings import Findings, described
from cookbook_build.publishing import picture_files
from cookbook_build.publishing.drawings import DrawingError, drawing
from cookbook_build.publishing.picture_files import (
    FORMATS,
    PictureFault,
    check_pictures,
    prepared,
    write_pictures,
)

if TYPE_CHECKING:
    from pathlib import Path

NS = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
SECRET = b"Somebody's Garden"


def saved(image: Image.Image, kind: str, **options: object) -> bytes:
    out = io.BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def noise(width: int = 320, height: int = 240) -> Image.Image:
    image = Image.effect_mandelbrot((width, height), (-2, -1.5, 1, 1.5), 100).convert("RGB")
    ImageDraw.Draw(image).ellipse((20, 20, 90, 90), fill=(200, 90, 30))
    return image


def png(*chunks: tuple[bytes, bytes]) -> bytes:
    """Return a PNG of these chunks, with sound checksums."""
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
        for name, data in (*chunks, (b"IEND", b""))
    )


def head(width: int, height: int) -> tuple[bytes, bytes]:
    return b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)


def swollen() -> bytes:
    """Return a small PNG whose profile unpacks to a hundred megabytes."""
    return png(
        head(4, 4),
        (b"iCCP", b"p\0\0" + zlib.compress(b"\0" * 100_000_000, 9)),
        (b"IDAT", zlib.compress(b"\0" * (4 * 13))),
    )


def gif(*, frames: int) -> bytes:
    """Return a GIF that says its one frame comes again and again."""
    one = saved(noise(60, 40).quantize(16), "GIF")
    begin = one.index(b"\x2c", 13 + 3 * 16)
    return one[:begin] + one[begin:-1] * frames + b";"


JPEG, PNG = saved(noise(), "JPEG"), saved(noise(), "PNG")
FAULTS = {
    "nothing": ("a.jpg", b"", "is empty", "copy it again"),
    "a text called a picture": ("a.jpg", b"Dear all,\nthe river rose.\n", "no picture", "save it"),
    "a page called a picture": ("a.png", b"<html><script>x</script></html>", "no picture", "JPEG"),
    "a program called a picture": ("a.gif", b"\x7fELF" + bytes(200), "no picture", "JPEG"),
    "a drawing called a photograph": ("a.png", f"<svg {NS}/>".encode(), "no picture", "JPEG"),
    "a JPEG cut off": ("a.jpg", JPEG[: len(JPEG) // 2], "damaged", "copy it again"),
    "a JPEG cut off in its head": ("a.jpg", JPEG[:30], "damaged", "copy it again"),
    "a PNG cut off": ("a.png", PNG[: len(PNG) // 2], "damaged", "copy it again"),
    "a PNG with no dots in it": ("a.png", png(head(40, 40)), "damaged", "copy it again"),
    "a PNG bomb": ("a.png", png(head(60_000, 60_000)), "far too many pixels", "1440 pixels"),
    "a PNG too large": ("a.png", png(head(10_000, 9_000)), "10000 by 9000 pixels", "1440 pixels"),
    "a PNG of no width": ("a.png", png(head(0, 10)), "", ""),
    "a photograph called a drawing": ("a.svg", JPEG, "not well formed", "plain SVG"),
    "a page called a drawing": ("a.svg", b"<html/>", "no SVG", "xmlns"),
    "a drawing that is cut off": ("a.svg", f"<svg {NS}><g>".encode(), "not well formed", "plain"),
    "a drawing in no known letters": (
        "a.svg", b'<?xml version="1.0" encoding="ebcdic-x"?><svg/>', "not well formed", "plain",
    ),
}  # fmt: skip


def fault(folder: Path, name: str, data: bytes) -> PictureFault:
    """Return what is wrong with a picture, as the author reads it."""
    (folder / "images").mkdir(exist_ok=True)
    (folder / "images" / name).write_bytes(data)
    found = prepared(folder / "images", name)
    assert isinstance(found, PictureFault)
    findings = Findings()
    check_pictures(folder, [name], findings)
    (finding,) = findings.errors
    assert described(finding).startswith(f"images/{name}:1:1: error: ")
    assert not write_pictures(folder, [name], lambda *_: pytest.fail("nothing is written of it"))
    return found


@pytest.mark.parametrize("case", FAULTS)
def test_a_picture_that_cannot_be_shown_is_a_finding(tmp_path: Path, case: str) -> None:
    name, data, cause, mend = FAULTS[case]
    found = fault(tmp_path, name, data)
    assert cause in found.cause
    assert mend in found.mend


def test_a_profile_that_swells_is_not_unpacked_whole(tmp_path: Path) -> None:
    (tmp_path / "images").mkdir()
    (tmp_path / "images" / "a.png").write_bytes(swollen())
    prepared(tmp_path / "images", "a.png")  # a fault or a picture, and no hundred megabytes


def test_a_picture_that_moves_through_frames_without_end_is_its_first_one(tmp_path: Path) -> None:
    (tmp_path / "images").mkdir()
    (tmp_path / "images" / "a.gif").write_bytes(gif(frames=20_000))
    found = prepared(tmp_path / "images", "a.gif")
    assert not isinstance(found, PictureFault)
    assert [(shot.ending, shot.width) for shot in found] == [("webp", 60), ("png", 60)]


def test_a_file_too_large_is_not_read_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(picture_files, "LARGEST_BYTES", 1_000_000)
    assert "more than 1 MB" in fault(tmp_path, "a.jpg", JPEG + bytes(1_000_000)).cause


def noted(kind: str) -> bytes:
    """Return a picture with everything noted in it that a telephone and a program note."""
    exif = Image.Exif()
    exif[0x010F], exif[0x0110], exif[0x013B] = "Make", "Camera", SECRET.decode()
    exif[0x8825] = {
        1: "N", 2: (51.0, 28.0, 38.0), 3: "W", 4: (0.0, 0.0, 5.0), 29: "2026:03:02",
    }  # fmt: skip
    options: dict[str, object] = {"exif": exif, "xmp": b"<x:xmpmeta>" + SECRET + b"</x:xmpmeta>"}
    if kind == "JPEG":
        options["comment"] = SECRET
    if kind == "PNG":
        options["pnginfo"] = info = PngInfo()
        info.add_text("Author", SECRET.decode())
        info.add_itxt("XML:com.adobe.xmp", SECRET.decode())
        del options["xmp"]
    return saved(noise(), kind, **options)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_no_place_no_camera_and_no_name_leaves_the_house(tmp_path: Path, kind: str) -> None:
    data = noted(kind)
    assert SECRET in data
    assert Image.open(io.BytesIO(data)).getexif().get_ifd(0x8825)[2] == (51.0, 28.0, 38.0)
    (tmp_path / "images").mkdir()
    (tmp_path / "images" / "a.jpg").write_bytes(data)
    shots = prepared(tmp_path / "images", "a.jpg")
    assert not isinstance(shots, PictureFault)
    for shot in shots:
        image = Image.open(io.BytesIO(shot.data))
        assert not dict(image.getexif())
        assert not {"exif", "xmp", "comment", "icc_profile", "photoshop"} & set(image.info)
        for trace in (SECRET, b"Exif", b"EXIF", b"XMP", b"xmpmeta", b"Camera", b"ICCP", b"iCCP"):
            assert trace not in shot.data


LAUGHS = "".join(f'<!ENTITY l{n} "{f"&l{n - 1};" * 10}">' for n in range(1, 10))
POISONED = {
    "script": ("<script>alert(1)</script>", "<script>"),
    "script by its file": ('<script href="#a"/>', "<script>"),
    "script in what is left out": ("<metadata><script>x</script></metadata>", "<script>"),
    "a page": ("<foreignObject><p>Hello</p></foreignObject>", "<foreignObject>"),
    "a page in what is left out": (
        '<metadata><p xmlns="http://www.w3.org/1999/xhtml"/></metadata>', "<p>",
    ),
    "a handler": ('<rect onclick="x()"/>', "onclick"),
    "a handler in capitals": ('<rect onMouseOver="x()"/>', "onMouseOver"),
    "a picture from the web": ('<image href="https://example.org/a.png"/>', "<image>"),
    "a picture of the disk": ('<image xlink:href="file:///etc/hostname"/>', "<image>"),
    "a picture inside": ('<image href="data:image/png;base64,AAAA"/>', "<image>"),
    "a shape from the web": ('<use href="https://example.org/a.svg#b"/>', "example.org"),
    "a shape of another file": ('<use xlink:href="other.svg#b"/>', "other.svg"),
    "a script in a reference": ('<use href="javascript:x()"/>', "javascript"),
    "a link": ('<a href="https://example.org/">x</a>', "<a>"),
    "a movement that sets a reference": ('<set attributeName="href" to="x"/>', "<set>"),
    "a movement": ('<animate attributeName="x" values="0;1"/>', "<animate>"),
    "a fill from the web": ('<rect fill="url(https://example.org/a)"/>', "example.org"),
    "a fill in capitals": ('<rect fill="URL( \'//example.org/a\')"/>', "example.org"),
    "a style from the web": ("<style>@import 'https://example.org/a';</style>", "@import"),
    "a letter from the web": ("<style>@font-face{src:url(a.woff)}</style>", "a.woff"),
    "a style that hides itself": ("<style>a{fill:u\\72l(//example.org)}</style>", "style"),
    "a style split by a remark": ("<style>a{fill:ur/**/l(//example.org)}</style>", "style"),
    "a style on a shape": ('<rect style="fill:url(//example.org/a)"/>', "example.org"),
    "a style in a section": ("<style><![CDATA[@import url(//example.org)]]></style>", "@import"),
    "a set of pictures": ("<style>a{mask:image-set('a.png' 1x)}</style>", "image-set"),
    "a sound": ('<audio src="a.mp3"/>', "<audio>"),
    "shapes of shapes of shapes": (
        '<g id="s0"><path d="M0 0h1"/></g>' + "".join(
            f'<g id="s{n}">' + f'<use href="#s{n - 1}"/>' * 10 + "</g>" for n in range(1, 12)
        ),
        "would draw more than",
    ),
    "a shape of itself": ('<g id="a"><use href="#a"/><use href="#a"/></g>', "would draw"),
}  # fmt: skip


@pytest.mark.parametrize("case", POISONED)
def test_a_drawing_that_does_more_than_draw_is_refused(tmp_path: Path, case: str) -> None:
    inside, said = POISONED[case]
    found = fault(tmp_path, "a.svg", f"<svg {NS}>{inside}</svg>".encode())
    assert said in found.cause
    assert found.mend


@pytest.mark.parametrize(
    "text",
    [
        f'<svg {NS} onload="x()"/>',
        f'<!DOCTYPE svg [<!ENTITY e SYSTEM "file:///etc/hostname">]><svg {NS}>&e;</svg>',
        f'<!DOCTYPE svg [<!ENTITY l0 "ha">{LAUGHS}]><svg {NS}><text>&l9;</text></svg>',
        f'<!DOCTYPE svg [<!ATTLIST svg onload CDATA "x()">]><svg {NS}/>',
        f'<?xml-stylesheet href="https://example.org/a.css"?><svg {NS}/>',
        f"<svg {NS}>&undeclared;</svg>",
    ],
    ids=["onload", "a file of the disk", "laughter", "a hidden default", "a style", "an unknown"],
)
def test_a_drawing_that_reads_or_swells_is_refused_before_it_does(text: str) -> None:
    with pytest.raises(DrawingError):
        drawing(text.encode())


def test_an_outside_document_type_is_left_out_and_not_fetched() -> None:
    text = f'<!DOCTYPE svg SYSTEM "file:///etc/hostname"><svg {NS}><text>&e;</text></svg>'
    assert "DOCTYPE" not in drawing(text.encode()).text


def test_a_link_out_of_the_book_is_not_followed(tmp_path: Path) -> None:
    book = tmp_path / "book"
    (book / "images").mkdir(parents=True)
    (tmp_path / "private.jpg").write_bytes(JPEG)
    (book / "images" / "a.jpg").symlink_to(tmp_path / "private.jpg")
    (book / "images" / "b.jpg").symlink_to(book / "images" / "b.jpg")
    (book / "images" / "c.jpg").symlink_to(book / "nowhere.jpg")
    (book / "images" / "d.jpg").write_bytes(JPEG)
    (book / "images" / "e.jpg").symlink_to("d.jpg")
    found = {name: prepared(book / "images", f"{name}.jpg") for name in "abce"}
    assert isinstance(found["a"], PictureFault)
    assert "outside the book" in found["a"].cause
    assert isinstance(found["b"], PictureFault)
    assert isinstance(found["c"], PictureFault)
    assert not isinstance(found["e"], PictureFault), "a link within the book is the book's"


@settings(max_examples=150, deadline=None)
@given(
    st.sampled_from(FORMATS), st.integers(0, 10_000), st.integers(0, 255), st.integers(0, 12_000)
)
def test_no_damage_of_any_byte_is_a_traceback(kind: str, at: int, byte: int, cut: int) -> None:
    try:
        whole = bytearray(saved(noise(48, 32), kind))
    except (KeyError, OSError):
        return  # this machine's library writes no such picture
    whole[at % len(whole)] = byte
    shots = picture_files._photographed(bytes(whole[: max(1, len(whole) - cut % 500)]))  # noqa: SLF001 - without the disk
    assert isinstance(shots, (PictureFault, tuple))


@settings(max_examples=150, deadline=None)
@given(st.text(alphabet="<>/&;\"' =:#svgrectuonhf!-[]\\()", max_size=60))
def test_no_text_in_a_drawing_is_a_traceback_or_a_script(inside: str) -> None:
    try:
        found = drawing(f"<svg {NS}>{inside}</svg>".encode())
    except DrawingError:
        return
    assert drawing(found.text.encode()) == found
    assert not re.search("<script|<[^>]* on", found.text)
