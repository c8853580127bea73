"""Mistakes in a book's own theme: each is told with its place by `proof`, and binds nothing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main

if TYPE_CHECKING:
    from pathlib import Path

BOOK = {
    "book.yaml": "title: A small book\nmeasures: us-cups\nseries:\n  Bowls: {}\n",
    "larder.yaml": "lentils: {food: lentils cooked, dried: freeze, cooked first: true}\n",
    "recipes/bowls/lentil-bowl.md": (
        "---\ntitle: Lentil bowl\nseries: Bowls\npart: 1\ningredients:\n  - 1 cup lentils\n---\n"
        "Pour {water} and wait {rest}.\n"
    ),
}
RECIPE = "theme/recipe.html"
OWN = "theme/own.css"
EXTENDS = '{% extends "plain/recipe.html" %}\n'
POLICY = '<meta http-equiv="Content-Security-Policy" content="{{ policy }}">'


@dataclass(frozen=True)
class Planted:
    """One theme with a mistake: where it is told, and what is said of it."""

    files: dict[str, str | bytes]
    where: str
    cause: str
    mend: str


def _p(name: str, text: str | bytes, where: str, cause: str, mend: str) -> Planted:
    return Planted({name: text}, where, cause, mend)


def _heading(inner: str) -> str:
    return EXTENDS + "{% block heading %}\n{{ super() }}\n" + inner + "\n{% endblock %}\n"


MISTAKES = {
    # the folder and its files
    "a folder that is not there": _p("book.yaml", BOOK["book.yaml"] + "theme: wintr\n", "book.yaml:5:8", 'no folder "wintr"', "make it"),
    "a folder outside the book": _p("book.yaml", BOOK["book.yaml"] + "theme: ../others\n", "book.yaml:5:8", "lies outside the book", "theme: theme"),
    "the book as its theme": _p("book.yaml", BOOK["book.yaml"] + "theme: .\n", "book.yaml:5:8", "the whole book", "theme: theme"),
    "not UTF-8": _p(OWN, b"/* caf\xe9 */\n", "theme/own.css:1:7", "not written as UTF-8", "UTF-8"),
    "a style too large": _p(OWN, "a { color: red }\n" * 20_000, "theme/own.css:1:1", "holds 340 kB", "below 200 kB"),
    "a script": _p("theme/book.js", "alert(1)\n", "theme/book.js:1:1", "is a script", "take it out"),
    "a misspelt template": _p("theme/recipes.html", EXTENDS, "theme/recipes.html:1:1", 'no page reads "recipes.html"', '"recipe.html"'),
    "a misspelt style": _p("theme/styles.css", "a { color: red }\n", "theme/styles.css:1:1", 'no page reads "styles.css"', '"style.css"'),
    "a style of the book's sizes": _p("theme/choices.css", "a { color: red }\n", "theme/choices.css:1:1", "the program's own", "own.css"),
    "the file of all pages": _p("theme/onefile.html", "a\n", "theme/onefile.html:1:1", "the program's own", "the templates of the pages"),
    # styles
    "a style from the web": _p(OWN, '@import "https://example.org/a.css";\n', "theme/own.css:1:1", "@import fetches", "in this file"),
    "a font from the web": _p(OWN, "@font-face {\n  src: url(https://example.org/a.woff2)\n}\n", "theme/own.css:2:12", '"https://example.org/a.woff2" reaches out', "without a network"),
    "an address without its scheme": _p(OWN, "body { background: url(//example.org/a.png) }\n", "theme/own.css:1:24", "reaches out", "without a network"),
    "an address written with escapes": _p(OWN, "body { background: \\75rl(\\68ttps://example.org/a.png) }\n", "theme/own.css:1:20", "reaches out", "without a network"),
    "an address in a set of pictures": _p(OWN, 'body { background: image-set("https://example.org/a.png" 1x) }\n', "theme/own.css:1:31", "reaches out", "without a network"),
    "a file of the machine": _p(OWN, "body { background: url(file:///etc/hostname) }\n", "theme/own.css:1:24", "reaches out", "without a network"),
    "a file above the theme": _p(OWN, "body { background: url(../images/a.png) }\n", "theme/own.css:1:24", "leads out of the theme", "into the theme"),
    "a picture that is not there": Planted({OWN: "body { background: url(rivr.svg) }\n", "theme/river.svg": "<svg xmlns='http://www.w3.org/2000/svg'/>"}, "theme/own.css:1:24", 'no file "rivr.svg"', '"river.svg"'),
    "a file of no known kind": _p(OWN, "body { background: url(river.bmp) }\n", "theme/own.css:1:24", "neither a font nor a picture", ".woff2"),
    "a picture that is none": Planted({OWN: "body { background: url(river.png) }\n", "theme/river.png": b"no picture"}, "theme/own.css:1:24", "river.png", "PNG"),
    "a picture of another kind": Planted({OWN: "body { background: url(river.png) }\n", "theme/river.png": b"GIF89a\x01\0\x01\0\x80\0\0\0\0\0\xff\xff\xff!\xf9\x04\x01\0\0\0\0,\0\0\0\0\x01\0\x01\0\0\x02\x02D\x01\0;"}, "theme/own.css:1:24", "is of the kind GIF", "save it as PNG"),
    "a drawing that reaches out": Planted({OWN: "body { background: url(river.svg) }\n", "theme/river.svg": "<svg xmlns='http://www.w3.org/2000/svg'><image href='https://example.org/a.png'/></svg>"}, "theme/own.css:1:24", "river.svg", "plain SVG"),
    "a bracket never closed": _p(OWN, "a { color: red\n\nb { color: blue }\n", "theme/own.css:1:3", "{ is never closed", "write }"),
    "a bracket too many": _p(OWN, "a { color: red } }\n", "theme/own.css:1:18", "} closes nothing", "take it out"),
    "a comment never closed": _p(OWN, "a { color: red }\n/* winter\n", "theme/own.css:2:1", "comment begins here", "write */"),
    "a quote never closed": _p(OWN, 'a::before { content: "– }\n', "theme/own.css:1:22", "never closed", "close it"),
    "a line without its colon": _p(OWN, ".winter {\n  font-style italic;\n}\n", "theme/own.css:2:3", "a browser skips", "font-style: italic;"),
    "a line without its colon in a medium": _p(OWN, "@media print {\n  p { margin 0 }\n}\n", "theme/own.css:2:3", "a browser skips", "font-style: italic;"),
    "a colour that is none": _p(OWN, ":root { --day-accent: rde; }\n", "theme/own.css:1:23", '"rde" is no colour', "#1f4e79"),
    "a colour of five figures": _p(OWN, "p { color: #12345 }\n", "theme/own.css:1:12", '"#12345" is no colour', "#1f4e79"),
    # templates as they stand
    "a tag never closed": _p(RECIPE, EXTENDS + "{% block heading %}\n<h1>{{ title }\n{% endblock %}\n", "theme/recipe.html:3:1", "can't be read", "themes/plain"),
    "an unknown tag": _p(RECIPE, EXTENDS + "{% blok heading %}\n", "theme/recipe.html:2:1", "can't be read", "themes/plain"),
    "an unknown filter": _p(RECIPE, _heading("{{ title | uper }}"), "theme/recipe.html:4:1", "can't be read", "themes/plain"),
    "a block that is not there": _p(RECIPE, EXTENDS + "\n{% block headding %}{% endblock %}\n", "theme/recipe.html:3:10", 'no block "headding"', '"heading"'),
    "a template that is not there": _p(RECIPE, '{% extends "plain/recip.html" %}\n', "theme/recipe.html:1:13", 'no template "plain/recip.html"', '"plain/recipe.html"'),
    "a template of itself": _p(RECIPE, '{% extends "recipe.html" %}\n', "theme/recipe.html:1:13", "is made of itself", '"plain/recipe.html"'),
    "a template outside the theme": _p(RECIPE, _heading('{% include "../book.yaml" %}'), "theme/recipe.html:4:13", "no template", "plain/"),
    "pieces that lack a piece": _p("theme/reply.html", "{# nothing #}\n", "theme/reply.html:1:1", "lacks reply", '{% from "plain/reply.html" import reply %}'),
    # templates at work
    "an unknown name": _p(RECIPE, _heading("<p>{{ titel }}</p>"), "theme/recipe.html:4:7", 'no page has a "titel"', '"title"'),
    "an unknown key": _p(RECIPE, _heading("<p>{{ recipe.keys.titel }}</p>"), "theme/recipe.html:4:19", 'no page has a "titel"', '"title"'),
    "a sum of words": _p(RECIPE, _heading("{{ title + 1 }}"), "theme/recipe.html:4:1", "can't be worked out", "themes/plain"),
    "a template named by a sum": _p(RECIPE, _heading('{% include "rec" ~ "ip" %}'), "theme/recipe.html:4:1", 'no template "recip"', "recipe.html"),
    "two templates in a ring": Planted({RECIPE: _heading('{% include "a.html" %}'), "theme/a.html": '{% include "b.html" %}', "theme/b.html": '{% include "a.html" %}'}, "theme/", "without end", "plain/"),
    "too long a loop": _p(RECIPE, _heading("{% for n in range(1000000) %}{% endfor %}"), "theme/recipe.html:4:1", "Range too big", "themes/plain"),
    "the program's inside": _p(RECIPE, _heading("{{ title.__class__.__mro__ }}"), "theme/recipe.html:4:1", "may not do this", "as they are"),
    "a model's methods": _p(RECIPE, _heading("{{ book.parse_raw('{}') }}"), "theme/recipe.html:4:1", "may not do this", "as they are"),
    "a picture of the web": _p(RECIPE, _heading('<img src="https://example.org/a.png" alt="">'), "theme/recipe.html:4:11", "reaches out of the book", "without a network"),
    "a picture of the theme that is not there": _p(RECIPE, _heading('<img src="{{ up }}theme/bank.svg" alt="">'), "theme/recipe.html:4:19", 'no file "bank.svg"', "into the theme"),
    "a picture beside the page": Planted({RECIPE: _heading('<img src="river.svg" alt="">'), "theme/river.svg": "<svg xmlns='http://www.w3.org/2000/svg'/>"}, "theme/recipe.html:4:11", "looked for beside this page", 'src="{{ up }}theme/river.svg"'),
    "a word left bold": _p(RECIPE, _heading("<p>From <b>our table.</p>"), "theme/recipe.html:4:9", "<b> is still open", "write </b>"),
    "an end without a beginning": _p(RECIPE, _heading("<p>From our table.</b></p>"), "theme/recipe.html:4:19", "</b> closes nothing", "take it out"),
    "a template that forgot what it extends": _p(RECIPE, "{% block heading %}\n{{ super() }}\n{% endblock %}\n", "theme/recipe.html:2:4", "nothing above the block", "plain/recipe.html"),
    "a page without its main part": _p("theme/layout.html", "<!DOCTYPE html>\n<html><head>" + POLICY + "</head><body>{% block main %}{% endblock %}</body></html>\n", "theme/layout.html:1:1", "has one <main>, and this one has none", "plain/layout.html"),
    "a page that says nothing of what may run": _p("theme/layout.html", "<!DOCTYPE html>\n<html><body><main>{% block main %}{% endblock %}</main></body></html>\n", "theme/layout.html:1:1", "says what a browser may run in it before it names a file, and this one doesn't", "{{ policy }}"),
    "a page that says it too late": _p("theme/layout.html", "<!DOCTYPE html>\n<html><head><link rel='stylesheet' href='{{ up }}style.css'>" + POLICY + "</head><body><main>{% block main %}{% endblock %}</main></body></html>\n", "theme/layout.html:2:7", "before it names a file", "{{ policy }}"),
    "an address put together": _p(RECIPE, _heading("""<img src="{{ 'ht' ~ 'tps://example.org/a.png' }}" alt="">"""), "theme/recipe.html:1:1", "reaches out of the book", "without a network"),
    "a style sheet of the web": _p("theme/layout.html", '{% extends "plain/layout.html" %}\n{% block head %}<link rel="stylesheet" href="//example.org/a.css">{% endblock %}\n', "theme/layout.html:2:46", "reaches out of the book", "without a network"),
    "a style in a page": _p(RECIPE, _heading('<p style="background:url(https://example.org/a.png)">a</p>'), "theme/recipe.html:4:26", "reaches out of the book", "without a network"),
    "a script in a page": _p(RECIPE, _heading("<script>alert(1)</script>"), "theme/recipe.html:4:1", "is a script", "brings no script"),
    "a script on a click": _p(RECIPE, _heading('<p onclick="alert(1)">a</p>'), "theme/recipe.html:4:4", "runs a script", "brings no script"),
    "a script as a link": _p(RECIPE, _heading('<a href="java&#9;script:alert(1)">a</a>'), "theme/recipe.html:1:1", "runs a script", "brings no script"),
    "another page in a page": _p(RECIPE, _heading('<iframe srcdoc="a"></iframe>'), "theme/recipe.html:4:1", "another page into this one", "take it out"),
    "a piece hidden in a comment": _p(RECIPE, _heading("<!-- <b>a</b> -->"), "theme/recipe.html:4:1", "a comment holds a piece", "{#"),
    "an e-book's page that is no XML": _p("theme/epub/meal.xhtml", '{% extends "plain/epub/meal.xhtml" %}\n{% block heading %}\n{{ super() }}<br>\n{% endblock %}\n', "theme/epub/meal.xhtml:1:1", "are XML", "<br/>"),
}  # fmt: skip


def planted_book(folder: Path, planted: Planted) -> Path:
    """Write the sound book with one mistaken theme."""
    for name, text in (BOOK | planted.files).items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode() if isinstance(text, str) else text)
    return folder


@pytest.mark.parametrize("name", MISTAKES)
def test_each_mistake_is_told_by_proof_and_binds_nothing(name: str, tmp_path: Path) -> None:
    planted, out = MISTAKES[name], tmp_path / "site"
    folder = planted_book(tmp_path / "book", planted)
    for arguments in (["proof", str(folder)], ["bind", str(folder), "--out", str(out)]):
        result = CliRunner().invoke(main, arguments)
        assert result.exit_code == 1, result.output
        assert isinstance(result.exception, SystemExit), result.exception
        assert "1 error." in result.output, result.output
        assert f"{folder.as_posix()}/{planted.where}" in result.output, result.output
        assert planted.cause in result.output, result.output
        mend = result.output.split("mend: ")[1]
        assert planted.mend in mend, result.output
    assert not out.exists()


def test_a_book_with_a_theme_is_named_by_any_path(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sound = Planted({OWN: "p { margin: 0 }\n", RECIPE: _heading("<p>a</p>")}, "", "", "")
    planted_book(tmp_path / "own", sound)
    for here, named in ((tmp_path, "own"), (tmp_path, "own/../own"), (tmp_path / "own", ".")):
        monkeypatch.chdir(here)
        result = CliRunner().invoke(main, ["proof", named])
        assert "Nothing to mend." in result.output, result.output


def test_a_link_out_of_the_theme_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "secret.html").write_text("secret\n", encoding="utf-8")
    folder = planted_book(tmp_path / "book", Planted({OWN: "a { color: red }\n"}, "", "", ""))
    (folder / "theme/layout.html").symlink_to(tmp_path / "secret.html")
    result = CliRunner().invoke(main, ["proof", str(folder)])
    assert result.exit_code == 1
    assert "theme/layout.html:1:1: error" in result.output
    assert "a link that leads out of the theme" in result.output
    assert "secret\n" not in result.output


def test_a_theme_that_is_a_link_out_of_the_book_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    folder = planted_book(tmp_path / "book", Planted({}, "", "", ""))
    (folder / "theme").symlink_to(tmp_path / "elsewhere", target_is_directory=True)
    result = CliRunner().invoke(main, ["proof", str(folder)])
    assert result.exit_code == 1
    assert "lies outside the book" in result.output


def test_cautions_that_a_theme_leaves_out_are_a_warning(tmp_path: Path) -> None:
    text = EXTENDS + "{% block answers %}<p>Water.</p>{% endblock %}\n"
    folder = planted_book(tmp_path / "book", Planted({RECIPE: text}, "", "", ""))
    result = CliRunner().invoke(main, ["proof", str(folder)])
    assert result.exit_code == 0, result.output
    assert "theme/recipe.html:2:10: warning: the cautions that ours shows here" in result.output
    assert "1 warning" in result.output
