"""Photographs become small, upright, sRGB and wordless; every picture here is made here."""

from __future__ import annotations

import io
import struct
from typing import TYPE_CHECKING, Any

import pytest
from PIL import Image, ImageChops, ImageCms, PngImagePlugin

from cookbook_build.publishing.photographs import photograph, renditions, sizes

if TYPE_CHECKING:
    from cookbook_build.publishing.renditions import Rendition

RED, GREEN, BLUE, WHITE = (200, 30, 30), (30, 160, 40), (30, 40, 200), (240, 240, 240)
WIDE, HIGH = 48, 32


def encoded(image: Image.Image, kind: str, **options: Any) -> bytes:  # noqa: ANN401 - Pillow's own
    """Return an image as a file of some kind."""
    out = io.BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def decoded(data: bytes) -> Image.Image:
    """Return a file as Pillow reads it."""
    image = Image.open(io.BytesIO(data))
    image.load()
    return image


def quarters() -> Image.Image:
    """Return an upright picture: red and green above, blue and white below."""
    image = Image.new("RGB", (WIDE, HIGH), RED)
    image.paste(GREEN, (WIDE // 2, 0, WIDE, HIGH // 2))
    image.paste(BLUE, (0, HIGH // 2, WIDE // 2, HIGH))
    image.paste(WHITE, (WIDE // 2, HIGH // 2, WIDE, HIGH))
    return image


def colours(image: Image.Image) -> list[tuple[int, ...]]:
    """Return the colours in the middle of the four quarters: above, then below."""
    rgb = image.convert("RGB")
    across, down = (
        (image.width // 4, image.width * 3 // 4),
        (image.height // 4, image.height * 3 // 4),
    )
    return [rgb.getpixel((x, y)) for y in down for x in across]  # type: ignore[misc]


def near(found: list[tuple[int, ...]], wanted: list[tuple[int, ...]], within: int) -> bool:
    """Return whether colours differ by no more than so much in each channel."""
    return all(
        abs(one - other) <= within
        for pair in zip(found, wanted, strict=True)
        for one, other in zip(*pair, strict=True)
    )


# Where the stored row 0 and column 0 stand in the upright picture: EXIF 2.32 (CIPA DC-008-2019),
# 4.6.4, tag 274. (0th row, 0th column) as printed there.
SIDES = {
    1: ("top", "left"),
    2: ("top", "right"),
    3: ("bottom", "right"),
    4: ("bottom", "left"),
    5: ("left", "top"),
    6: ("right", "top"),
    7: ("right", "bottom"),
    8: ("left", "bottom"),
}


def stored(upright: Image.Image, orientation: int) -> Image.Image:
    """Return how a camera stores an upright picture, pixel by pixel from the standard's words."""
    row, column = SIDES[orientation]
    lies = row in {"left", "right"}
    size = (upright.height, upright.width) if lies else upright.size
    made = Image.new("RGB", size)
    for y in range(upright.height):
        for x in range(upright.width):
            from_side = {
                "top": y,
                "bottom": upright.height - 1 - y,
                "left": x,
                "right": upright.width - 1 - x,
            }
            pixel = upright.getpixel((x, y))
            assert pixel is not None
            made.putpixel((from_side[column], from_side[row]), pixel)
    return made


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("orientation", SIDES)
def test_each_orientation_is_turned_upright(orientation: int, kind: str) -> None:
    exif = Image.Exif()
    exif[0x0112] = orientation
    data = encoded(stored(quarters(), orientation), kind, exif=exif, quality=95)
    for made in renditions(data):
        image = decoded(made.data)
        assert (made.width, made.height) == image.size == (WIDE, HIGH)
        assert near(colours(image), [RED, GREEN, BLUE, WHITE], 12)
        assert not image.getexif()


def test_a_torn_exif_block_turns_nothing() -> None:
    data = encoded(quarters(), "JPEG", exif=b"Exif\0\0MM\0*\0\0\0\x08\xff\xff\x01")
    assert photograph(data).size == (WIDE, HIGH)


CAMERA, PLACE, PERSON, REMARK = (
    "Riverlight Z9",
    b"Alder Bend Landing",
    "Mirela Otterford",
    "Osk was here",
)
WORDS = [CAMERA, PLACE.decode(), PERSON, REMARK, "Wide profile of the landing"]
SIGNS = [
    "Exif", "http://", "ICC_PROFILE", "Photoshop", "8BIM", "iCCP", "eXIf", "tEXt", "iTXt", "zTXt",
    "EXIF", "XMP", "ICCP", "acsp", "GPS", "tIME",
]  # fmt: skip


def told() -> dict[str, Any]:
    """Return all that a camera and an editor write beside the pixels."""
    exif = Image.Exif()
    exif[0x010F] = CAMERA
    exif[0x013B] = PERSON
    exif[0x9C9B] = REMARK.encode("utf-16-le")
    exif.get_ifd(0x8825).update(
        {1: "N", 2: (47.0, 11.0, 23.0), 3: "E", 4: (8.0, 31.0, 7.0), 28: PLACE}
    )
    xmp = (
        '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-'
        f'syntax-ns#"><rdf:Description dc:creator="{PERSON}"/></rdf:RDF></x:xmpmeta>'
    )
    return {"exif": exif, "xmp": xmp.encode(), "icc_profile": adobe_rgb()}


def with_iptc(jpeg: bytes) -> bytes:
    """Return a JPEG with an IPTC block (IIM 4.2, record 2: by-line, city) at its beginning."""
    fields = b"".join(
        b"\x1c\x02" + bytes([number]) + struct.pack(">H", len(text)) + text
        for number, text in ((80, PERSON.encode()), (90, PLACE))
    )
    block = b"Photoshop 3.0\x008BIM\x04\x04\0\0" + struct.pack(">I", len(fields)) + fields
    block += b"\0" * (len(fields) % 2)
    return jpeg[:2] + b"\xff\xed" + struct.pack(">H", len(block) + 2) + block + jpeg[2:]


def s15(*numbers: float) -> bytes:
    """Return numbers as ICC's s15Fixed16."""
    return struct.pack(f">{len(numbers)}i", *(round(number * 65536) for number in numbers))


def adobe_rgb() -> bytes:
    """Return a profile with the primaries of Adobe RGB (1998), as ICC.1:2001-04 lays it out.

    Gamma 2.19921875 and the primaries adapted to D50 are those of the Adobe RGB (1998) Color Image
    Encoding, version 2005-05, 4.3 (written from memory, to four places).
    """
    text = b"Wide profile of the landing\0"
    description = b"desc\0\0\0\0" + struct.pack(">I", len(text)) + text + b"\0" * 78
    curve = b"curv\0\0\0\0" + struct.pack(">IH", 1, round(2.19921875 * 256)) + b"\0\0"
    tags = {
        b"desc": description + b"\0" * (-len(description) % 4),
        b"cprt": b"text\0\0\0\0none\0\0\0\0",
        b"wtpt": b"XYZ \0\0\0\0" + s15(0.9642, 1.0, 0.8249),
        b"rXYZ": b"XYZ \0\0\0\0" + s15(0.6097, 0.3111, 0.0195),
        b"gXYZ": b"XYZ \0\0\0\0" + s15(0.2053, 0.6257, 0.0609),
        b"bXYZ": b"XYZ \0\0\0\0" + s15(0.1492, 0.0632, 0.7446),
        b"rTRC": curve,
        b"gTRC": curve,
        b"bTRC": curve,
    }
    table, body, start = b"", b"", 128 + 4 + 12 * len(tags)
    for name, value in tags.items():
        table += name + struct.pack(">II", start + len(body), len(value))
        body += value
    size = start + len(body)
    head = struct.pack(">I4sI4s4s4s", size, b"none", 0x02400000, b"mntr", b"RGB ", b"XYZ ")
    head += struct.pack(">6H", 2026, 1, 1, 0, 0, 0) + b"acsp" + b"\0" * 28
    head += s15(0.9642, 1.0, 0.8249)
    return head + b"\0" * (128 - len(head)) + struct.pack(">I", len(tags)) + table + body


def told_png() -> bytes:
    """Return a PNG with words in every kind of chunk that holds some."""
    info = PngImagePlugin.PngInfo()
    info.add_text("Author", PERSON)
    info.add_itxt("Comment", REMARK)
    info.add_text("Description", PLACE.decode(), zip=True)
    info.add_itxt("XML:com.adobe.xmp", told()["xmp"].decode())
    options = {key: value for key, value in told().items() if key != "xmp"}
    return encoded(quarters(), "PNG", pnginfo=info, **options)


@pytest.mark.parametrize(
    "data",
    [
        with_iptc(encoded(quarters(), "JPEG", comment=REMARK, **told())),
        told_png(),
        encoded(quarters(), "WEBP", **told()),
        encoded(quarters(), "AVIF", **told()),
        encoded(quarters(), "GIF", comment=REMARK.encode()),
        encoded(quarters().convert("RGBA").rotate(20), "PNG", **told()),
    ],
    ids=["JPEG", "PNG", "WebP", "AVIF", "GIF", "PNG with alpha"],
)
def test_no_word_of_camera_place_or_person_is_left(data: bytes) -> None:
    assert any(word.encode() in data or word.encode("utf-16-le") in data for word in WORDS)
    for made in renditions(data):
        image = decoded(made.data)
        assert not image.getexif()
        assert not image.getexif().get_ifd(0x8825)
        told_keys = {"exif", "xmp", "icc_profile", "comment", "photoshop", "XML:com.adobe.xmp"}
        assert not told_keys & set(image.info)
        for word in (*WORDS, *SIGNS):
            assert word.encode() not in made.data, word
            assert word.encode("utf-16-le") not in made.data, word


def test_the_jpeg_of_the_test_tells_all_that_it_should() -> None:
    image = decoded(with_iptc(encoded(quarters(), "JPEG", comment=REMARK, **told())))
    assert image.getexif()[0x010F] == CAMERA
    assert image.getexif().get_ifd(0x8825)[28] == PLACE
    assert {"exif", "xmp", "icc_profile", "comment", "photoshop"} <= set(image.info)


def test_a_wide_gamut_becomes_srgb() -> None:
    ramp = Image.merge("RGB", [Image.linear_gradient("L").rotate(turn) for turn in (0, 90, 180)])
    profile = ImageCms.ImageCmsProfile(io.BytesIO(adobe_rgb()))
    wanted = ImageCms.profileToProfile(ramp, profile, ImageCms.createProfile("sRGB"))
    assert wanted is not None
    assert max(high for _, high in ImageChops.difference(ramp, wanted).getextrema()) > 20  # type: ignore[misc]
    made = photograph(encoded(ramp, "PNG", icc_profile=adobe_rgb()))
    assert max(high for _, high in ImageChops.difference(made, wanted).getextrema()) <= 2  # type: ignore[misc]


def test_a_broken_profile_counts_as_none() -> None:
    data = encoded(quarters(), "PNG", icc_profile=b"no profile at all")
    assert colours(photograph(data)) == [RED, GREEN, BLUE, WHITE]


def glass() -> Image.Image:
    """Return a picture of which the left half can be seen through; blue is hidden beneath."""
    image = Image.new("RGBA", (WIDE, HIGH), (*BLUE, 0))
    image.paste((*RED, 255), (WIDE // 2, 0, WIDE, HIGH))
    return image


@pytest.mark.parametrize("kind", ["PNG", "WEBP", "GIF"])
def test_what_is_transparent_stays_so_and_hides_nothing(kind: str) -> None:
    options = {"lossless": True, "exact": True} if kind == "WEBP" else {}
    made = list(renditions(encoded(glass(), kind, **options)))
    assert [one.media_type for one in made] == ["image/webp", "image/png"]
    for one in made:
        image = decoded(one.data).convert("RGBA")
        assert image.getpixel((WIDE // 4, 5))[3] == 0  # type: ignore[index]
        assert image.getpixel((WIDE * 3 // 4, 5))[3] == 255  # type: ignore[index]
    assert decoded(made[1].data).convert("RGBA").getpixel((2, 2)) == (0, 0, 0, 0)


def test_a_picture_whose_every_pixel_is_opaque_becomes_a_jpeg() -> None:
    made = list(renditions(encoded(quarters().convert("RGBA"), "PNG")))
    assert [one.media_type for one in made] == ["image/webp", "image/jpeg"]


def test_a_palette_with_a_transparent_colour_becomes_a_png() -> None:
    image = quarters().quantize(4)
    data = encoded(image, "PNG", transparency=image.getpixel((1, 1)))
    made = list(renditions(data))
    assert made[1].media_type == "image/png"
    assert decoded(made[1].data).convert("RGBA").getpixel((1, 1))[3] == 0  # type: ignore[index]


@pytest.mark.parametrize(
    ("size", "widths"),
    [
        ((4032, 3024), [480, 960, 1600]),
        ((1600, 1200), [480, 960, 1600]),
        ((1200, 900), [480, 960, 1200]),
        ((1000, 750), [480, 960]),  # 1000 is no gain over 960
        ((480, 300), [480]),
        ((32, 20), [32]),
        ((1, 1), [1]),
        ((1000, 40_000), [102]),  # no taller than 4096
    ],
)
def test_widths_fit_the_page_and_enlarge_nothing(size: tuple[int, int], widths: list[int]) -> None:
    made = sizes(*size)
    assert [width for width, _ in made] == widths
    for width, height in made:
        assert width <= size[0]
        assert height <= min(size[1], 4096)
        assert height == pytest.approx(width * size[1] / size[0], abs=0.5 + size[1] / size[0])


def test_a_picture_thin_as_a_hair_still_has_a_size() -> None:
    assert sizes(1, 70_000_000) == [(1, 4096)]
    assert sizes(70_000_000, 1)[-1] == (1600, 1)


def test_a_tiny_picture_keeps_its_size() -> None:
    made = list(renditions(encoded(quarters(), "PNG")))
    assert [(one.media_type, one.width, one.height) for one in made] == [
        ("image/webp", WIDE, HIGH),
        ("image/jpeg", WIDE, HIGH),
    ]


@pytest.mark.parametrize("kind", ["GIF", "WEBP", "PNG", "AVIF"])
def test_of_an_animation_the_first_frame_is_shown(kind: str) -> None:
    frames = [Image.new("RGB", (40, 30), colour) for colour in (RED, BLUE)]
    data = encoded(frames[0], kind, save_all=True, append_images=frames[1:], duration=100)
    assert decoded(data).n_frames == 2  # type: ignore[attr-defined]
    made = list(renditions(data))
    assert len(made) == 2
    for one in made:
        image = decoded(one.data)
        assert getattr(image, "n_frames", 1) == 1
        assert near(colours(image), [RED] * 4, 12)


def test_a_phone_s_jpeg_of_several_pictures_is_a_jpeg() -> None:
    data = encoded(quarters(), "MPO", save_all=True, append_images=[Image.new("RGB", (9, 9))])
    assert next(iter(renditions(data))).width == WIDE


def test_grey_of_sixteen_bits_keeps_its_tones() -> None:
    image = Image.new("I;16", (WIDE, HIGH), 32_896)  # 128 of 255
    assert photograph(encoded(image, "PNG")).getpixel((3, 3)) == (128, 128, 128)


def test_a_transparent_grey_of_sixteen_bits_is_no_grey_of_eight() -> None:
    data = encoded(Image.new("I;16", (WIDE, HIGH), 25_700), "PNG", transparency=100)
    assert photograph(data).getpixel((3, 3)) == (100, 100, 100)


def test_remarks_of_the_decoder_are_nobody_s_business(recwarn: pytest.WarningsRecorder) -> None:
    torn = b"Exif\0\0II*\0\x08\0\0\0\x05\0\x12\x01\x03\0"
    assert photograph(encoded(quarters(), "JPEG", exif=torn)).size == (WIDE, HIGH)
    assert not list(recwarn)


def test_ink_colours_become_light() -> None:
    data = encoded(quarters().convert("CMYK"), "JPEG", quality=95)
    assert near(colours(photograph(data)), [RED, GREEN, BLUE, WHITE], 12)


def test_the_same_photograph_gives_the_same_bytes() -> None:
    def all_of() -> list[Rendition]:
        return list(renditions(encoded(quarters().resize((700, 500)), "JPEG")))

    assert [one.data for one in all_of()] == [one.data for one in all_of()]


def test_a_large_photograph_becomes_a_tenth_of_its_bytes() -> None:
    noise = Image.effect_noise((2400, 1800), 40).convert("RGB")
    data = encoded(noise, "JPEG", quality=97)
    narrow = min(len(one.data) for one in renditions(data))
    assert narrow < len(data) / 10
