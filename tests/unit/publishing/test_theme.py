"""A book's own theme is found by every edition, and changes nothing where there is none."""

from __future__ import annotations

import io
import re
import zipfile
from pathlib import Path

import pytest
from lxml import etree, html
from PIL import Image

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book
from cookbook_build.publishing.own_templates import OwnTemplates
from cookbook_build.publishing.theme import Theme, theme_folder, theme_of
from cookbook_build.publishing.theme_checks import check_theme

ROOT = Path(__file__).parents[3]
BOOK = {
    "book.yaml": "title: A small book\nmeasures: us-cups\n",
    "larder.yaml": "lentils: {food: lentils cooked, dried: freeze, cooked first: true}\n",
    "recipes/lentil-bowl.md": (
        "---\ntitle: Lentil bowl\ningredients: [1 cup lentils]\n---\n{water}\n"
    ),
}
SVG = "xmlns='http://www.w3.org/2000/svg'"
RIVER = f"<svg {SVG} viewBox='0 0 9 9'><title>x</title><path d='M0 0h9'/></svg>"


def written(folder: Path, files: dict[str, str | bytes]) -> Path:
    for name, text in (BOOK | files).items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode() if isinstance(text, str) else text)
    return folder


def bound(tmp_path: Path, files: dict[str, str | bytes]) -> dict[str, bytes]:
    """Bind a small book with some files more, and return what was written."""
    folder, out = written(tmp_path / "book", files), tmp_path / "site"
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    check_theme(book, findings)
    found = reckoned(book, findings)
    assert not list(findings)
    bind_book(found, out)
    return {p.relative_to(out).as_posix(): p.read_bytes() for p in out.rglob("*") if p.is_file()}


def sheets(page: bytes) -> list[str]:
    """Return the style sheets of a page, in order."""
    return [
        link.get("href")
        for link in html.fromstring(page).iter("link")
        if link.get("rel") == "stylesheet"
    ]


def example() -> dict[str, str | bytes]:
    """Return the files of a theme that the guide shows."""
    text = (ROOT / "content_demo/pages/guide/more.md").read_text(encoding="utf-8")
    blocks = re.findall(r"```(?:css|jinja)\n(.*?)```", text, re.DOTALL)
    return {re.search(r"theme/\S+", block)[0]: block for block in blocks}  # type: ignore[index]


def test_the_example_of_the_guide_puts_a_line_under_each_title(tmp_path: Path) -> None:
    files = example()
    assert set(files) == {"theme/own.css", "theme/recipe.html"}
    made = bound(tmp_path, files)
    page = html.fromstring(made["recipes/lentil-bowl.html"])
    assert page.xpath("string(//h1/following::p[@class='winter'])") == "From our winter table."
    assert sheets(made["recipes/lentil-bowl.html"]) == [
        "../style.css",
        "../choices.css",
        "../theme/own.css",
    ]
    assert sheets(made["index.html"]) == ["style.css", "choices.css", "theme/own.css"]
    assert made["theme/own.css"].decode() == files["theme/own.css"]
    assert made["style.css"] == (theme_folder() / "style.css").read_bytes()
    assert "theme/own.css" in made["worker.js"].decode()
    assert "From our winter table" not in made["index.html"].decode()


def test_the_example_changes_one_block_and_nothing_else(tmp_path: Path) -> None:
    plain = bound(tmp_path / "plain", {})
    own = bound(tmp_path / "own", {"theme/recipe.html": example()["theme/recipe.html"]})
    assert set(own) == set(plain)
    changed = {name for name in own if own[name] != plain[name]}
    whole = "a-small-book-in-one-file.html"  # which holds the changed page
    # the cover says how large the file is
    cover = {"index.html"} if own["index.html"] != plain["index.html"] else set()
    assert changed == {"recipes/lentil-bowl.html", "worker.js", whole} | cover
    sizes = [re.sub(rb"[\d.]+(?: |\xc2\xa0)kB", b"", made["index.html"]) for made in (own, plain)]
    assert sizes[0] == sizes[1]
    line = b'\n<p class="winter">From our winter table.</p>\n'
    assert own["recipes/lentil-bowl.html"].replace(line, b"") == plain["recipes/lentil-bowl.html"]


def test_two_bindings_with_a_theme_are_the_same_to_the_byte(tmp_path: Path) -> None:
    assert bound(tmp_path / "a", example()) == bound(tmp_path / "b", example())


def test_a_folder_of_another_name_is_found_by_its_key(tmp_path: Path) -> None:
    named = {
        "book.yaml": BOOK["book.yaml"] + "theme: looks/winter\n",
        "looks/winter/own.css": "a { color: teal }\n",
    }
    made = bound(tmp_path, named)  # type: ignore[arg-type]
    assert made["theme/own.css"] == b"a { color: teal }\n"


def test_a_style_of_the_book_stands_in_the_place_of_ours(tmp_path: Path) -> None:
    made = bound(
        tmp_path, {"theme/style.css": "a { color: teal }\n", "theme/own.css": "b { color: navy }\n"}
    )
    assert sheets(made["index.html"]) == ["theme/style.css", "choices.css", "theme/own.css"]
    assert "style.css" not in made


def test_only_what_a_style_or_a_template_names_is_carried_and_pictures_are_bare(
    tmp_path: Path,
) -> None:
    photograph = io.BytesIO()
    exif = Image.Exif()
    exif[0x010F] = "A camera"
    Image.new("RGB", (8, 8), "teal").save(photograph, "JPEG", exif=exif)
    made = bound(tmp_path, {
        "theme/own.css": "@font-face { font-family: Own; src: url('fonts/own.woff2?v=1') }\n"
        "body { background: url(river.svg) } /* url(not-this.svg) */\n",
        "theme/layout.html": (
            '{% extends "plain/layout.html" %}\n{% block colophon %}{{ super() }}'
            '<img src="{{ up }}theme/bank.jpg" alt="">{% endblock %}\n'
        ),
        "theme/fonts/own.woff2": b"wOF2 a font",
        "theme/river.svg": RIVER,
        "theme/bank.jpg": photograph.getvalue(),
        "theme/not-this.svg": RIVER,
        "theme/LICENCE.txt": "a font's licence",
    })  # fmt: skip
    brought = {name for name in made if name.startswith("theme/")}
    assert brought == {
        "theme/own.css",
        "theme/fonts/own.woff2",
        "theme/river.svg",
        "theme/bank.jpg",
    }
    assert made["theme/fonts/own.woff2"] == b"wOF2 a font"
    assert b"<title>" not in made["theme/river.svg"]
    assert b"A camera" in photograph.getvalue()
    assert b"A camera" not in made["theme/bank.jpg"]


def test_a_single_file_holds_what_its_styles_name(tmp_path: Path) -> None:
    style = 'body { background: url(river.svg); content: "river.svg" }\n'
    folder = written(tmp_path, {"theme/own.css": style, "theme/river.svg": RIVER})
    book = read_book(folder, Findings())
    assert book is not None
    held = theme_of(book).held("theme/own.css", style)
    assert held.startswith('body { background: url("data:image/svg+xml;base64,')
    assert held.endswith('); content: "river.svg" }\n')
    assert Theme(theme_folder()).held("style.css", style) == style


def test_the_file_of_all_pages_holds_what_the_theme_brought(tmp_path: Path) -> None:
    made = bound(tmp_path, {
        "theme/own.css": "body { background: url(river.svg) }\n",
        "theme/recipe.html": (
            '{% extends "plain/recipe.html" %}\n{% block heading %}{{ super() }}'
            '<img class="bank-of-ours" src="{{ up }}theme/bank.svg" alt="">{% endblock %}\n'
        ),
        "theme/river.svg": RIVER,
        "theme/bank.svg": RIVER,
    })  # fmt: skip
    (text,) = (data.decode() for name, data in made.items() if name.endswith("-in-one-file.html"))
    style = html.fromstring(text).findtext(".//style") or ""
    assert style.index("--paper") < style.index('url("data:image/svg+xml;base64,')
    assert "theme/" not in re.sub(r"data:[^\"]+", "", text)
    (shown,) = html.fromstring(text).xpath("//img[@class='bank-of-ours']")
    assert shown.get("src").startswith("data:image/svg+xml;base64,")


def test_an_e_book_has_its_own_style_and_what_that_names(tmp_path: Path) -> None:
    made = bound(tmp_path, {
        "theme/epub/own.css": "@font-face { font-family: Own; src: url(../fonts/own.otf) }\n",
        "theme/epub/meal.xhtml": (
            '{% extends "plain/epub/meal.xhtml" %}\n'
            "{% block heading %}{{ super() }}<p>Own.</p>\n{% endblock %}\n"
        ),
        "theme/fonts/own.otf": b"OTTO a font",
    })  # fmt: skip
    name = next(name for name in made if name.endswith(".epub"))
    with zipfile.ZipFile(io.BytesIO(made[name])) as held:
        page = held.read("EPUB/recipe-lentil-bowl.xhtml").decode()
        package = etree.fromstring(held.read("EPUB/package.opf"))
        assert held.read("EPUB/theme/fonts/own.otf") == b"OTTO a font"
        packed = {one.removeprefix("EPUB/") for one in held.namelist() if one.startswith("EPUB/")}
    assert "<p>Own.</p>" in page
    assert re.findall(r'stylesheet" type="text/css" href="([^"]+)"', page) == [
        "epub.css",
        "theme/epub/own.css",
    ]
    items = {i.get("href"): i.get("media-type") for i in package.iter("{*}item")}
    assert items["theme/fonts/own.otf"] == "font/otf"
    assert set(items) == packed - {"package.opf"}


@pytest.mark.parametrize(
    "does",
    [
        "{{ book.model_dump() }}", "{{ book.parse_file('/etc/hostname') }}",
        "{{ book.parse_raw('x', proto='pickle', allow_pickle=true) }}",
        "{{ dict.mro() }}", "{{ ''.__class__ }}",
        "{{ ([book] | map(attribute='parse_raw') | first)('x') }}",
        "{{ (book | attr('parse_raw'))('x') }}",
        "{{ self.__init__.__globals__ }}", "{{ cycler.__init__.__globals__ }}",
        "{{ lipsum.__globals__.os }}", "{{ [].append(1) }}", "{{ '{0.__class__}'.format(1) }}",
        "{% set a = namespace() %}{{ a.__class__.__base__.__subclasses__() }}",
    ],
)  # fmt: skip
def test_a_strangers_template_calls_nothing_of_the_program(tmp_path: Path, does: str) -> None:
    folder = written(tmp_path, {"theme/note.html": does})
    book = read_book(folder, Findings())
    assert book is not None
    templates = theme_of(book).templates
    assert isinstance(templates, OwnTemplates)
    templates.heard = Findings()
    said = templates.get_template("note.html").render(book=book.book)
    assert said == ""
    assert "may not do this" in templates.heard.errors[0].cause, templates.heard.errors[0].cause


def test_a_template_sees_no_file_but_those_of_the_two_themes(tmp_path: Path) -> None:
    folder = written(tmp_path, {"theme/note.html": "x"})
    book = read_book(folder, Findings())
    assert book is not None
    templates = theme_of(book).templates
    ours = {
        path.relative_to(theme_folder()).as_posix()
        for path in theme_folder().rglob("*")
        if path.is_file()
    }
    assert set(templates.list_templates()) == {
        "note.html",
        *ours,
        *(f"plain/{name}" for name in ours),
    }


def test_blocks_named_for_each_part_of_a_recipe(tmp_path: Path) -> None:
    blocks = ("heading", "picture", "choosers", "answers", "mix", "steps", "heat", "camp", "water",
              "keeping", "nourishment", "trials", "reply", "why", "heed", "neighbours")  # fmt: skip
    gone = "".join(f"{{% block {name} %}}[{name}]{{% endblock %}}" for name in blocks)
    made = bound_with_warnings(
        tmp_path, {"theme/recipe.html": '{% extends "plain/recipe.html" %}' + gone}
    )
    article = html.fromstring(made["recipes/lentil-bowl.html"]).find(".//article")
    assert article is not None
    assert "".join(article.text_content().split()) == "".join(f"[{name}]" for name in blocks)


def bound_with_warnings(tmp_path: Path, files: dict[str, str | bytes]) -> dict[str, bytes]:
    folder, out = written(tmp_path / "book", files), tmp_path / "site"
    book = read_book(folder, Findings())
    assert book is not None
    bind_book(reckoned(book, Findings()), out)
    return {p.relative_to(out).as_posix(): p.read_bytes() for p in out.rglob("*") if p.is_file()}
