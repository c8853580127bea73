"""A picture is what its bytes are, and a drawing for an e-book runs, fetches and lacks nothing."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pytest
from cookbook_build.manuscript.picture_files import picture_file
from PIL import Image

if TYPE_CHECKING:
    from pathlib import Path

SVG = 'xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"'
XLINK = 'xmlns:xlink="http://www.w3.org/1999/xlink"'
FIT = {
    "bare": f"<svg {SVG}/>",
    "with a byte order mark": f"\ufeff<svg {SVG}/>",
    "with SVG's own document type": '<?xml version="1.0" encoding="UTF-8"?><!DOCTYPE svg PUBLIC '
    '"-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">'
    f'<svg {SVG}><path d="M0 0h1"/></svg>',
    "using its own parts": f'<svg {SVG} {XLINK}><defs><circle id="c" r="1"/></defs>'
    '<use href="#c"/><use xlink:href="#c"/></svg>',
    "using a part before it is drawn": f'<svg {SVG} {XLINK}><linearGradient id="h" '
    'xlink:href="#g"/><linearGradient id="g"/></svg>',
    "with a style": f"<svg {SVG}><style><![CDATA[/* a }} */ .a, .b > c:hover {{ fill: #fff; "
    'stroke-width:2 }} @media (min-width: 3px) {{ .a {{ fill: url("#g") }} }}]]></style>'
    '<g style="fill:none;stroke:red;"/></svg>'.replace("{{", "{").replace("}}", "}"),
    "with an empty style": f"<svg {SVG}><style></style></svg>",
    "with a foreign tool's notes": f'<svg {SVG} xmlns:t="urn:tool" t:onscreen="1"><t:grid/></svg>',
    "with a link to follow": f'<svg {SVG}><a href="https://example.org"><text>A</text></a></svg>',
}
UNFIT = {
    f"<svg {SVG}><script>1</script></svg>": "holds a script",
    f'<svg {SVG} onclick="1"/>': "holds a script",
    f"<svg {SVG}><foreignObject/></svg>": "holds a foreign page",
    f'<svg {SVG} {XLINK}><image xlink:href="other.svg"/></svg>': "outside the book",
    f'<svg {SVG}><image href="https://example.org/a.png"/></svg>': "outside the book",
    f'<svg {SVG}><rect style="fill:url(https://example.org/a)"/></svg>': "outside the book",
    f'<svg {SVG}><style>@import "a.css";</style></svg>': "outside the book",
    f'<?xml-stylesheet href="a.css"?><svg {SVG}/>': "style from outside",
    f'<!DOCTYPE svg SYSTEM "mine.dtd"><svg {SVG}/>': "document type outside",
    f'<!DOCTYPE svg [<!ENTITY a "b">]><svg {SVG}><text>&a;</text></svg>': "declares entities",
    f'<svg {SVG}><use href="#nowhere"/></svg>': 'uses a part "nowhere"',
    f'<svg {SVG}><g id="a"/><g id="a"/></svg>': 'two parts named "a"',
    f'<svg {SVG}><g id="a b"/></svg>': 'names a part "a b"',
    f"<svg {SVG}><style>a {{ fill: ; }}</style></svg>": "a style that can't be read",
    f'<svg {SVG}><g style="fill"/></svg>': "a style that can't be read",
    f'<?xml version="1.0" encoding="iso-8859-1"?><svg {SVG}/>': "not XML 1.0 in UTF-8",
    f'<?xml version="1.1"?><svg {SVG}/>': "not XML 1.0 in UTF-8",
    f"<svg {SVG}><g></svg>": "breaks off",
    "": "breaks off",
    "<svg/>": "is no SVG drawing",
    '<html xmlns="http://www.w3.org/1999/xhtml"/>': "is no SVG drawing",
}
TYPES = {"PNG": "image/png", "JPEG": "image/jpeg", "GIF": "image/gif", "WEBP": "image/webp"}


def made(kind: str) -> bytes:
    """Return a small picture of a kind, written by Pillow."""
    held = io.BytesIO()
    Image.new("P" if kind == "GIF" else "RGB", (8, 6)).save(held, kind)
    return held.getvalue()


@pytest.mark.parametrize("name", FIT)
def test_a_drawing_that_holds_together_is_fit(name: str, tmp_path: Path) -> None:
    path = tmp_path / "a.SVG"
    path.write_text(FIT[name], encoding="utf-8")
    found = picture_file(path)
    assert (found.problem, found.media_type, found.suffix) == ("", "image/svg+xml", ".svg")


@pytest.mark.parametrize(("text", "problem"), UNFIT.items())
def test_a_drawing_that_runs_fetches_or_lacks_something_is_not(
    text: str, problem: str, tmp_path: Path
) -> None:
    path = tmp_path / "a.svg"
    path.write_text(text, encoding="utf-8")
    assert problem in picture_file(path).problem


def test_a_problem_has_the_place_where_it_stands(tmp_path: Path) -> None:
    path = tmp_path / "a.svg"
    path.write_text(f"<svg {SVG}>\n <g/>\n   <script/>\n</svg>\n")
    found = picture_file(path)
    assert (found.line, found.column) == (3, 4)


@pytest.mark.parametrize("kind", TYPES)
def test_a_picture_is_what_its_bytes_are_whatever_its_name(kind: str, tmp_path: Path) -> None:
    path = tmp_path / "photo.png"
    path.write_bytes(made(kind))
    assert (picture_file(path).problem, picture_file(path).media_type) == ("", TYPES[kind])


@pytest.mark.parametrize("kind", TYPES)
def test_a_picture_cut_short_is_not_fit(kind: str, tmp_path: Path) -> None:
    path = tmp_path / "photo.png"
    path.write_bytes(made(kind)[:16])
    assert "breaks off" in picture_file(path).problem


def test_what_is_no_picture_is_not_fit(tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(b"hello")
    assert "none of the kinds" in picture_file(tmp_path / "a.png").problem
    assert "can't be opened" in picture_file(tmp_path / "gone.png").problem
