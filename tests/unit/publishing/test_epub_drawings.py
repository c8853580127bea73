"""A drawing for an e-book runs, fetches and lacks nothing, and names each part once."""

from __future__ import annotations

import pytest

from cookbook_build.publishing.epub_drawings import drawing_fault

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


@pytest.mark.parametrize("name", FIT)
def test_a_drawing_that_holds_together_is_fit(name: str) -> None:
    assert drawing_fault(FIT[name].encode()) == ""


@pytest.mark.parametrize(("text", "problem"), UNFIT.items())
def test_a_drawing_that_runs_fetches_or_lacks_something_is_not(text: str, problem: str) -> None:
    assert problem in drawing_fault(text.encode())


def test_other_letters_than_utf_8_are_not_fit() -> None:
    assert "UTF-8" in drawing_fault(f"<svg {SVG}><text>\xe4</text></svg>".encode("latin-1"))
