"""Photographs: read with suspicion, turned upright, in sRGB, and written without a word on them.

Everything here works on bytes. What is written holds pixels and nothing else: no place, camera,
name, comment or colour profile of the file that it was made from survives.
"""

from __future__ import annotations

import io
import re
import warnings
from typing import TYPE_CHECKING, Final

from PIL import Image, ImageCms, UnidentifiedImageError, features
from PIL import __version__ as pillow_version

from cookbook_build.publishing.renditions import RefusedPictureError, Rendition

if TYPE_CHECKING:
    from collections.abc import Iterator

WIDTHS_PX: Final = (480, 960, 1600)
TALLEST_PX: Final = 4096  # a picture this tall is scrolled past anyway; WebP ends at 16,383
ROOMIER: Final = 1.2  # a picture's own width is written where it is this much above the last
LARGEST_MEGAPIXELS: Final = 80
LARGEST_FILE_MB: Final = 100
WEBP_QUALITY: Final = 80
JPEG_QUALITY: Final = 82
SETTINGS: Final = (
    f"1 {WIDTHS_PX} {TALLEST_PX} {ROOMIER} {WEBP_QUALITY} {JPEG_QUALITY} {pillow_version} "
    f"{features.version('webp')} {features.version('jpg')} {features.version('zlib')}"
)
"""What a photograph's files depend on, beside the photograph; the first number is this module's."""

ENDINGS: Final = {
    "JPEG": (".jpg", ".jpeg"),
    "PNG": (".png",),
    "WEBP": (".webp",),
    "GIF": (".gif",),
    "AVIF": (".avif",),
}
HOLLOW_BYTES: Final = 4096  # a block of a disk: a copy that broke off may end in zeros
_END_OF_JPEG: Final = b"\xff\xd9"
_ORIENTATION: Final = 0x0112
_UPRIGHT: Final = {  # EXIF 2.32, table 6: where row 0 and column 0 stand
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
_EXPORT: Final = "export it again as JPEG, PNG or WebP from the program that shows it."
_BEGINS: Final = re.compile(rb"(?s)\xff\xd8\xff|\x89PNG\r\n|GIF8|RIFF.{4}WEBP|.{4}ftypavi[fs]")
_HEIF: Final = re.compile(rb"(?s).{4}ftyp(heic|heix|hevc|heim|heis|mif1|msf1)")


def photograph(data: bytes) -> Image.Image:
    """Return a photograph decoded to its end: its first frame, upright, as RGB or RGBA in sRGB.

    Raises
    ------
    RefusedPictureError
        When the bytes are no photograph, too large, or cut short.
    """
    if _is_hollow(data):  # which decoders take for grey
        raise _damaged()
    try:
        with warnings.catch_warnings(), _opened(data) as image:
            warnings.simplefilter("ignore")  # remarks on what is left out anyway
            image.seek(0)
            image.draft(None, (WIDTHS_PX[-1], WIDTHS_PX[-1]))
            image.load()
            return _srgb(_upright(image))
    except RefusedPictureError:
        raise
    except Exception as problem:  # decoders of a stranger's bytes raise anything
        raise _damaged() from problem


def kind_of(data: bytes) -> str:
    """Return what a photograph is by its own bytes: `JPEG`, `PNG`, `WEBP`, `GIF` or `AVIF`."""
    with _opened(data) as image:
        return "JPEG" if image.format == "MPO" else str(image.format)


def renditions(data: bytes) -> Iterator[Rendition]:
    """Give a photograph's files: for each width WebP, and JPEG (PNG where it is transparent)."""
    image = photograph(data)
    for width, height in sizes(image.width, image.height):
        shown = _bare(image.resize((width, height), Image.Resampling.LANCZOS, reducing_gap=3.0))
        yield Rendition("image/webp", width, height, _encoded(shown, "WEBP"))
        yield plain(shown)


def plain(image: Image.Image) -> Rendition:
    """Return an image as the one file that every program reads: JPEG, or PNG with alpha."""
    if image.mode == "RGBA":
        return Rendition("image/png", *image.size, _encoded(image, "PNG"))
    return Rendition("image/jpeg", *image.size, _encoded(image, "JPEG"))


def reduced(data: bytes) -> Rendition:
    """Return a photograph as one plain file, as wide as it needs to be and no wider."""
    image = photograph(data)
    return plain(_bare(image.resize(sizes(*image.size)[-1], Image.Resampling.LANCZOS)))


def same_kind(data: bytes) -> bytes:
    """Return a photograph in its own kind and size, and nothing but its pixels."""
    kind = kind_of(data)
    image = photograph(data)
    return _encoded(_bare(image if kind != "JPEG" else image.convert("RGB")), kind)


def sizes(width: int, height: int) -> list[tuple[int, int]]:
    """Return the sizes that a picture is written in, narrowest first, none of them enlarged."""
    widest = max(1, min(width, WIDTHS_PX[-1], width * TALLEST_PX // height))
    widths = [fit for fit in WIDTHS_PX if fit <= widest]
    if not widths or widest > ROOMIER * widths[-1]:
        widths.append(widest)
    return [(w, max(1, min(TALLEST_PX, round(height * w / width)))) for w in widths]


def _opened(data: bytes) -> Image.Image:
    """Return an image of which only the head was read, and whose size is bearable."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            image = Image.open(io.BytesIO(data), formats=tuple(ENDINGS))
    except Image.DecompressionBombError as problem:
        told = re.search(r"\d+", str(problem))
        raise _too_large(f"{int(told[0]) / 1e6:,.0f}" if told else "too many") from problem
    except UnidentifiedImageError as problem:
        raise _no_photograph(data) from problem
    except Exception as problem:
        raise _damaged() from problem
    if image.width * image.height > LARGEST_MEGAPIXELS * 1_000_000:
        raise _too_large(
            f"{image.width:,} × {image.height:,} pixels, that is "
            f"{image.width * image.height / 1e6:,.0f}"
        )
    return image


def _too_large(told: str) -> RefusedPictureError:
    return RefusedPictureError(
        f"says that it has {told} megapixels",
        f"save it with at most {LARGEST_MEGAPIXELS} megapixels, such as 8000 × 6000 pixels; a page "
        f"shows {WIDTHS_PX[-1]} across.",
    )


def _is_hollow(data: bytes) -> bool:
    """Return whether a file's end was never written; a camera's padding stands behind a mark."""
    written = data.rstrip(b"\0")
    return len(data) - len(written) >= HOLLOW_BYTES and not written.endswith(_END_OF_JPEG)


def _damaged() -> RefusedPictureError:
    return RefusedPictureError(
        "is cut short or damaged, and can't be read to its end",
        f"copy it into images/ again from where it was taken, or {_EXPORT}",
    )


def _no_photograph(data: bytes) -> RefusedPictureError:
    if _BEGINS.match(data):
        return _damaged()
    if _HEIF.match(data):
        return RefusedPictureError(
            "is a photograph in the format HEIC, which few browsers show",
            "export it as JPEG from the phone or the program that shows it.",
        )
    return RefusedPictureError("holds no picture", _EXPORT)


def _upright(image: Image.Image) -> Image.Image:
    """Return an image turned as its EXIF says; XMP, which viewers don't follow, is not asked."""
    turn = _UPRIGHT.get(_orientation(image.info.get("exif")))
    return image if turn is None else image.transpose(turn)


def _orientation(exif: bytes | None) -> int:
    if not exif:
        return 1
    read = Image.Exif()
    try:
        read.load(exif)
        return int(read.get(_ORIENTATION, 1))
    except Exception:  # noqa: BLE001 - a torn EXIF block says nothing, in many ways
        return 1


def _srgb(image: Image.Image) -> Image.Image:
    """Return an image as RGB or RGBA in sRGB, with nothing hidden below what is transparent."""
    profile = image.info.get("icc_profile")
    if image.mode.startswith("I"):  # 16 bits of grey
        image = image.point(lambda value: value / 257).convert("L")
        image.info.pop("transparency", None)  # a grey of 16 bits, which no longer is one
    if not image.has_transparency_data:
        return _bare(_converted(image, profile))
    layered = image if image.mode in {"RGBA", "LA"} else image.convert("RGBA")
    alpha = layered.getchannel("A")
    if alpha.getextrema() == (255, 255):
        return _bare(_converted(_opaque(layered), profile))
    colours = _converted(_opaque(layered), profile)
    colours.paste((0, 0, 0), mask=alpha.point(lambda value: 255 if value == 0 else 0))
    colours.putalpha(alpha)
    return _bare(colours)


def _opaque(image: Image.Image) -> Image.Image:
    return image.convert("L" if image.mode == "LA" else "RGB")


def _converted(image: Image.Image, profile: bytes | None) -> Image.Image:
    """Return an image in sRGB; without a profile, or with a broken one, it counts as sRGB."""
    if profile:
        direct = image if image.mode in {"RGB", "L", "CMYK"} else image.convert("RGB")
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            target = ImageCms.createProfile("sRGB")
            made = ImageCms.profileToProfile(direct, source, target, outputMode="RGB")
        except (ImageCms.PyCMSError, OSError, ValueError):
            made = None
        if made is not None:
            return made
    return image.convert("RGB")


def _bare(image: Image.Image) -> Image.Image:
    """Return the pixels alone: writers copy what an image knows of its file."""
    return Image.frombytes(image.mode, image.size, image.tobytes())


def _encoded(image: Image.Image, kind: str) -> bytes:
    out = io.BytesIO()
    match kind:
        case "WEBP":
            image.save(out, kind, quality=WEBP_QUALITY, method=4)
        case "JPEG":
            image.save(out, kind, quality=JPEG_QUALITY, optimize=True, progressive=True)
        case _:
            image.save(out, kind, optimize=True)
    return out.getvalue()
