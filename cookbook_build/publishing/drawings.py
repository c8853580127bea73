"""Drawings: SVG parsed without entities or network, cleaned of all that isn't drawn.

What an editor notes beside the drawing (its metadata, comments, private attributes with paths and
names) is taken out; what would run, or reach out of the drawing, is refused.
"""

from __future__ import annotations

import base64
import binascii
import re
from typing import Final

from lxml import etree

from cookbook_build.publishing.photographs import reduced
from cookbook_build.publishing.renditions import RefusedPictureError, Rendition
from cookbook_build.publishing.repeats import repeats_without_end

LARGEST_DRAWING_MB: Final = 4
NARROWEST_PX: Final = 960  # a drawing that only has proportions is as wide as its column
LONGEST_PX: Final = 100_000
DEFAULT_PX: Final = (300, 150)  # CSS 2.1, 10.3.2: a replaced element without any size
SETTINGS: Final = f"1 {etree.LXML_VERSION} {etree.LIBXML_VERSION}"
"""What a cleaned drawing depends on, beside the drawing; the first number is this module's."""

_SVG: Final = "{http://www.w3.org/2000/svg}"
_XLINK_HREF: Final = "{http://www.w3.org/1999/xlink}href"
_XML: Final = "{http://www.w3.org/XML/1998/namespace}"
_KEPT: Final = frozenset({_XLINK_HREF, f"{_XML}space", f"{_XML}lang"})
_NOT_DRAWN: Final = frozenset({"metadata", "title", "desc"})
_RUNNING: Final = {
    "script": "a script",
    "handler": "a script",
    "listener": "a script",
    "foreignObject": "a foreignObject, a piece of another kind of document",
}
_PICTURE: Final = re.compile(r"(?is)\s*data:image/(?:png|jpe?g|gif|webp|avif);base64,(.*)")
_COMMENT: Final = re.compile(r"(?s)/\*.*?(?:\*/|$)")
_FETCHING: Final = re.compile(
    r"(?i)@import|\\|\b(?:url|src|image|image-set|cross-fade)\s*\((?!\s*[\"']?#)"
)
_LENGTH: Final = re.compile(r"\s*\+?(\d+\.?\d*|\.\d+)\s*(px|pt|pc|mm|cm|in)?\s*")
_PX: Final = {"px": 1, "pt": 96 / 72, "pc": 16, "mm": 96 / 25.4, "cm": 96 / 2.54, "in": 96}  # CSS
_HEAD: Final = re.compile(rb"(?s)\s*(?:\xef\xbb\xbf)?\s*<")
EXPORT: Final = 'export it from the drawing program as "plain SVG", without'


def looks_drawn(data: bytes) -> bool:
    """Return whether a file is text that begins like XML."""
    return bool(_HEAD.match(data) or data.startswith((b"\xff\xfe<", b"\xfe\xff\0<")))


def is_svg(data: bytes) -> bool:
    """Return whether a file is a well-formed drawing, whatever it holds."""
    try:
        _parsed(data)
    except RefusedPictureError:
        return False
    return True


def drawing(data: bytes) -> Rendition:
    """Return a drawing cleaned, with the size that it has on a page.

    Raises
    ------
    RefusedPictureError
        When it is no SVG, too large, or holds what runs or reaches out.
    """
    root = _parsed(data)
    _clean(root)
    if repeats_without_end(root):
        raise RefusedPictureError(
            "is a drawing that repeats its parts without end",
            "take the repetition out in the drawing program, or export it as PNG.",
        )
    width, height = _size(root)
    etree.cleanup_namespaces(root)
    return Rendition("image/svg+xml", width, height, etree.tostring(root, encoding="utf-8"))


def _parsed(data: bytes) -> etree._Element:
    if len(data) > LARGEST_DRAWING_MB * 1_000_000:
        raise RefusedPictureError(
            f"is a drawing of {len(data) / 1e6:.0f} MB",
            f"simplify it to less than {LARGEST_DRAWING_MB} MB, or export it as PNG.",
        )
    parser = etree.XMLParser(
        resolve_entities=False, no_network=True, huge_tree=False, load_dtd=False,
        remove_comments=True, remove_pis=True,
    )  # fmt: skip
    try:
        root = etree.fromstring(data, parser)
    except (etree.XMLSyntaxError, ValueError, LookupError) as problem:
        if b"<!ENTITY" in data:
            raise _refused("entities, which stand for other text", "them") from problem
        line = getattr(problem, "lineno", None)
        raise RefusedPictureError(
            "is not a well-formed drawing"
            + (f": it breaks off at its line {line}" if line else ""),
            "export it again as SVG from the drawing program.",
        ) from problem
    dtd = root.getroottree().docinfo.internalDTD
    if dtd is not None and (b"<!ENTITY" in data or list(dtd.iterentities())):
        raise _refused("entities, which stand for other text", "them")
    if root.tag != f"{_SVG}svg":
        raise RefusedPictureError(
            "is not a drawing: its outermost element is no svg of SVG's own namespace",
            'export it as SVG, which begins with <svg xmlns="http://www.w3.org/2000/svg" …>.',
        )
    return root


def _clean(root: etree._Element) -> None:
    for element in list(root.iter()):
        if element is not root and element.getparent() is None:
            continue
        tag = element.tag
        if not isinstance(tag, str):
            raise _refused("entities, which stand for other text", "them", element)
        local = etree.QName(tag).localname
        if local in _RUNNING:
            raise _refused(_RUNNING[local], "it", element)
        if element is not root and (not tag.startswith(_SVG) or local in _NOT_DRAWN):
            _take_out(element)
            continue
        _clean_attributes(element)
        if local == "style":
            _clean_style(element)


def _take_out(element: etree._Element) -> None:
    """Remove an element with all that it holds; the text after it stays."""
    for inner in element.iter():
        local = etree.QName(inner.tag).localname if isinstance(inner.tag, str) else ""
        if local in _RUNNING:
            raise _refused(_RUNNING[local], "it", inner)
    parent, before = element.getparent(), element.getprevious()
    if element.tail and before is not None:
        before.tail = (before.tail or "") + element.tail
    elif element.tail:
        parent.text = (parent.text or "") + element.tail
    for inner in list(element.iter()):
        if inner is not element:
            inner.getparent().remove(inner)
    parent.remove(element)


def _clean_attributes(element: etree._Element) -> None:
    for name, value in list(element.attrib.items()):
        local = etree.QName(name).localname
        if (
            (name.startswith("{") and name not in _KEPT)
            or local.startswith("data-")
            or (local == "href" and not value.strip())
        ):
            del element.attrib[name]
        elif local.casefold().startswith("on"):
            raise _refused(f'the event handler "{local}", which is a script', "it", element)
        elif local == "href":
            element.set(name, _reference(element, value))
        elif local == "attributeName" and re.search(r"(?i)href|^\s*(?:\w+:)?on", value):
            raise _refused(f'an animation of "{value.strip()}"', "it", element)
        else:
            cleaned = _COMMENT.sub(" ", value) if local == "style" else value
            _check_fetching(element, cleaned)
            element.set(name, cleaned)


def _clean_style(element: etree._Element) -> None:
    if len(element):  # whose texts a browser would read as one
        raise _refused("a style with other elements in it", "it", element)
    text = _COMMENT.sub(" ", element.text or "")
    _check_fetching(element, text)
    element.text = text


def _check_fetching(element: etree._Element, text: str) -> None:
    found = _FETCHING.search(text)
    if found:
        raise _refused(
            f'a style that reaches out of it ("{text[found.start() :][:40].strip()}")',
            "it",
            element,
        )


def _reference(element: etree._Element, value: str) -> str:
    """Return a reference within the drawing as it is, a picture in it as bare as any other."""
    if value.strip().startswith("#"):
        return value.strip()
    match = _PICTURE.fullmatch(value)
    if match and etree.QName(element.tag).localname in {"image", "feImage"}:
        try:
            made = reduced(base64.b64decode(re.sub(r"\s+", "", match[1]), validate=True))
        except (RefusedPictureError, binascii.Error) as problem:
            raise _refused("a picture that can't be read", "it", element) from problem
        return f"data:{made.media_type};base64,{base64.b64encode(made.data).decode()}"
    told = value.strip()
    raise _refused(f'a link out of it ("{told[:40]}{"…" * (len(told) > 40)}")', "it", element)


def _refused(what: str, it: str, element: etree._Element | None = None) -> RefusedPictureError:
    where = (
        f" (its line {element.sourceline})" if element is not None and element.sourceline else ""
    )
    return RefusedPictureError(f"is a drawing that holds {what}{where}", f"{EXPORT} {it}.")


def _size(root: etree._Element) -> tuple[int, int]:
    """Return a drawing's width and height: its own, else its view box's proportions [px]."""
    width, height = _length(root.get("width")), _length(root.get("height"))
    if width and height:
        return _whole(width, height)
    box = _view_box(root.get("viewBox"))
    if not box:
        return _whole(width or DEFAULT_PX[0], height or DEFAULT_PX[1])
    if width:
        return _whole(width, width * box[1] / box[0])
    if height:
        return _whole(height * box[0] / box[1], height)
    scale = max(1.0, NARROWEST_PX / box[0])
    return _whole(box[0] * scale, box[1] * scale)


def _length(text: str | None) -> float | None:
    """Return a length in px, or None where it is none, relative or nothing."""
    match = _LENGTH.fullmatch(text or "")
    length = float(match[1]) * _PX[match[2] or "px"] if match else 0.0
    return length if 0 < length < float("inf") else None


def _view_box(text: str | None) -> tuple[float, float] | None:
    try:
        _, _, width, height = (float(part) for part in re.split(r"[\s,]+", (text or "").strip()))
    except ValueError:
        return None
    return (width, height) if 0 < width < LONGEST_PX and 0 < height < LONGEST_PX else None


def _whole(width: float, height: float) -> tuple[int, int]:
    scale = min(1.0, LONGEST_PX / max(width, height))
    return max(1, round(width * scale)), max(1, round(height * scale))
