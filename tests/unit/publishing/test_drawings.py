"""Drawings keep what is drawn, and lose what an editor notes beside it."""

from __future__ import annotations

import base64
import io
from pathlib import Path

import pytest
from lxml import etree
from PIL import Image

from cookbook_build.publishing.drawings import drawing

IMAGES = Path(__file__).parents[3] / "content_demo/images"

NOTED = """\
<?xml version="1.0" encoding="UTF-8" standalone="no"?>
<!-- drawn by Mirela Otterford -->
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">
<?xml-stylesheet href="otterford.css"?>
<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"
     xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"
     xmlns:ed="http://example.org/otterford-editor" ed:export="/home/otterford/kettle.png"
     ed:version="otterford 1" viewBox="0 0 80 60" xml:base="file:///home/otterford/">
  <title>Otterford kettle</title>
  <desc>Made at Otterford</desc>
  <metadata><rdf:RDF><rdf:li>Otterford</rdf:li></rdf:RDF></metadata>
  <ed:view zoom="2"><ed:guide at="otterford"/></ed:view>
  <defs><linearGradient id="g"><stop offset="0" stop-color="#c33"/></linearGradient>
  <style>/* Otterford's own */ .a { fill: url(#g) } /* otterford, never closed</style></defs>
  <g id="kettle" data-name="Otterford" ed:label="Otterford" style="fill:red;/* otterford */">
    <!-- Otterford -->
    <path class="a" d="M0 0h8v8z" fill="url(#g)"/>
    <use xlink:href="#kettle2"/><use xlink:href=" "/><use href="#g"/>
    <text xml:space="preserve">one<ed:note>otterford</ed:note> two<?otterford?> three</text>
  </g>
</svg>
"""


def svg(inner: str = "", attributes: str = 'viewBox="0 0 4 3"') -> bytes:
    """Return a drawing."""
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
        f"{attributes}>{inner}</svg>"
    ).encode()


def test_what_an_editor_notes_is_gone_and_what_is_drawn_is_there() -> None:
    made = drawing(NOTED.encode())
    assert b"otterford" not in made.data.lower()
    assert b"<!" not in made.data
    assert b"<?" not in made.data
    root = etree.fromstring(made.data)
    assert root.get("viewBox") == "0 0 80 60"
    assert set(root.nsmap) <= {None, "xlink"}
    for path in ("//s:path[@d='M0 0h8v8z'][@fill='url(#g)'][@class='a']", "//s:use[@href='#g']",
                 "//s:linearGradient[@id='g']/s:stop", "//s:g[@id='kettle']"):  # fmt: skip
        assert len(root.xpath(path, namespaces={"s": "http://www.w3.org/2000/svg"})) == 1, path
    assert "".join(root.itertext("{*}text")).strip() == "one two three"
    assert b"fill:red;" in made.data
    assert b"url(#g)" in made.data


@pytest.mark.parametrize("path", sorted(IMAGES.glob("*.svg")), ids=lambda path: path.stem)
def test_a_drawing_of_the_demo_loses_nothing(path: Path) -> None:
    before, after = etree.parse(path).getroot(), etree.fromstring(drawing(path.read_bytes()).data)
    assert etree.tostring(after, method="c14n") == etree.tostring(before, method="c14n")


# CSS Values and Units 3, 5.2: 1in = 96px = 2.54cm, 1pt = 1/72in, 1pc = 12pt
@pytest.mark.parametrize(
    ("attributes", "size"),
    [
        ('viewBox="0 0 800 600"', (960, 720)),
        ('viewBox="0,0,1600,900"', (1600, 900)),
        ('viewBox="-1 -1 0.5 0.25"', (960, 480)),
        ('width="120" height="90" viewBox="0 0 4 3"', (120, 90)),
        ('width="1in" height="2.54cm"', (96, 96)),
        ('width="72pt" height="6pc"', (96, 96)),
        ('width="200px" viewBox="0 0 4 3"', (200, 150)),
        ('height="150" viewBox="0 0 4 3"', (200, 150)),
        ('width="100%" height="100%" viewBox="0 0 4 3"', (960, 720)),
        ("", (300, 150)),
        ('viewBox="0 0 0 0"', (300, 150)),
        ('viewBox="0 0 nan inf"', (300, 150)),
        ('viewBox="large"', (300, 150)),
        (f'width="{"9" * 400}" height="1"', (300, 1)),
        ('viewBox="0 0 1 99999"', (1, 100_000)),
    ],
)
def test_every_drawing_has_a_width_and_a_height(attributes: str, size: tuple[int, int]) -> None:
    made = drawing(svg(attributes=attributes))
    assert (made.width, made.height) == size


def test_a_picture_within_a_drawing_is_as_bare_as_any_other() -> None:
    out, exif = io.BytesIO(), Image.Exif()
    exif[0x010F] = "Riverlight Z9"
    Image.new("RGB", (40, 30), (9, 99, 9)).save(out, "JPEG", exif=exif)
    assert b"Riverlight" in out.getvalue()
    reference = f"data:image/jpeg;base64,{base64.encodebytes(out.getvalue()).decode()}"
    made = drawing(svg(f'<image width="4" height="3" xlink:href="{reference}"/>'))
    (found,) = etree.fromstring(made.data).iter("{*}image")
    head, _, told = found.get("{http://www.w3.org/1999/xlink}href").partition(",")
    assert head == "data:image/jpeg;base64"
    assert b"Riverlight" not in base64.b64decode(told)
    assert Image.open(io.BytesIO(base64.b64decode(told))).size == (40, 30)


def test_other_encodings_are_read_and_written_as_utf_8() -> None:
    text = '<?xml version="1.0" encoding="utf-16"?>' + svg("<text>Grüne Erbsen</text>").decode()
    assert "Grüne Erbsen".encode() in drawing(text.encode("utf-16")).data


def test_a_leaf_may_be_used_ten_thousand_times() -> None:
    uses = '<use href="#leaf"/>' * 10_000 + '<use href="#gone"/>'
    assert drawing(svg(f'<defs><g id="leaf"><path/><path/></g></defs>{uses}')).width == 960
