"""Books that somebody wrote to do harm: each is bound harmlessly, or told and not bound.

Beside the book lies a secret; no file of a bound book may hold it, whatever a path in the book
says. What is deep, long, large or repeated is told soon, before it is reckoned with.
"""

from __future__ import annotations

import os
import re
import time
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main
from tests.figures import figure
from tests.hostile.test_mistyped_lines import BOOK, BOWL, LARDER, MENU, OATS, PAGE, SOUND

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

KEPT_OUT: Final = "under the third stone"
DRAWING: Final = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 8 6"><title>willows</title>'
    '<rect width="8" height="6"/></svg>'
)
LANDING: Final = "images/landing.svg"
MOST_S: Final = 20.0
"""Of a processor's time, where a slip in an expression took minutes: none of these takes three."""
STOCK: Final = "store,lot,packed on,container,grams\n"


@dataclass(frozen=True)
class Hostile:
    """What a book holds beside what is sound; which finding tells it, "" where it is harmless."""

    files: dict[str, str | bytes]
    cause: str
    links: dict[str, str] = field(default_factory=dict)  # from the book's folder, in it or beside


def _in(name: str, old: str, new: str, cause: str) -> Hostile:
    assert old in SOUND[name], old
    return Hostile({name: SOUND[name].replace(old, new, 1)}, cause)


def _end(name: str, more: str, cause: str) -> Hostile:
    return Hostile({name: SOUND[name] + more}, cause)


def _cover(written: str) -> Hostile:
    return _in(BOOK, "cover: landing.svg", f"cover: {written}", "there is no picture")


def _shown(written: str, cause: str) -> Hostile:
    return _end(PAGE, f"\n![so]({written})\n", cause)


def _tags(written: str, cause: str) -> Hostile:
    asking = SOUND[PAGE].replace("---\n", "---\nhtml: yes\n", 1)
    return Hostile({PAGE: f"{asking}\n{written}\n"}, cause)


def _link(written: str, cause: str = "can't be followed") -> Hostile:
    return _end(PAGE, f"\n[so]({written})\n", cause)


def _theme(written: str, cause: str) -> Hostile:
    return _in(BOOK, "cover: landing.svg", f"theme: {written}\ncover: landing.svg", cause)


def _drawn(old: str, new: str, cause: str) -> Hostile:
    return Hostile({LANDING: DRAWING.replace(old, new)}, cause)


def _titled(title: str, cause: str) -> Hostile:
    return _in(BOWL, "title: Lentil bowl", f'title: "{title}"', cause)


def _many(count: int, line: str) -> str:
    return "".join(line.format(at) for at in range(count))


LAUGHS = "a: &a [x, x, x, x, x, x, x, x]\n" + "".join(
    f"{chr(98 + at)}: &{chr(98 + at)} [{', '.join(['*' + chr(97 + at)] * 8)}]\n" for at in range(20)
)
ENTITIES = (
    "<!DOCTYPE svg [<!ENTITY a 'willow'>"
    + "".join(f"<!ENTITY a{at + 1} '{f'&a{at or str()};' * 9}'>" for at in range(20))
    + "]>"
    + DRAWING.replace("willows", "&a20;")
)
OTHER = SOUND[OATS].replace("title: ", "title: Other ")
TURNED = "can't be seen stands here"
HOSTILE = {
    # paths out of the book
    "a cover above": _cover("../../secret.svg"),
    "a cover by its whole path": _cover("/etc/hostname"),
    "a cover above, as Windows writes it": _cover(r"..\..\secret.svg"),
    "a cover on a drive": _cover(r"C:\secret.svg"),
    "a cover in another computer": _cover(r"\\host\share\secret.svg"),
    "a cover by its address": _cover("file:///etc/hostname"),
    "a cover above, coded": _cover("..%2f..%2fsecret.svg"),
    "a cover with a NUL, coded": _in(
        BOOK, "cover: landing.svg", "cover: landing.svg%00", "of a kind that a book can't show"),
    "a picture above": _shown("../../../secret.svg", "there is no picture"),
    "a picture by its whole path": _shown("/etc/hostname", "there is no picture"),
    "a picture above, as Windows writes it": _shown(r"..\..\secret.svg", "there is no picture"),
    "a picture of the web": _shown("https://example.org/a.png", "lies outside the book"),
    "a picture in its own address": _shown("data:image/png;base64,AAAA", "lies outside the book"),
    "a picture that is a link": Hostile({}, "leads out of the book", {LANDING: "../secret.svg"}),
    "a folder of pictures that is a link": Hostile({}, "leads out", {"images": "../elsewhere"}),
    "a recipe that is a link": Hostile({}, "leads out of the book", {BOWL: "../secret.md"}),
    "a page that is a link": Hostile({}, "leads out of the book", {PAGE: "../secret.md"}),
    "a larder that is a link": Hostile({}, "leads out of the book", {LARDER: "../secret.md"}),
    "a book that is a link": Hostile({}, "leads out of the book", {BOOK: "../secret.md"}),
    "a log that is a link": Hostile({}, "leads out of the book", {"stock.csv": "../secret.md"}),
    "a letter that is a link": Hostile(
        {}, "leads out of the book", {"replies/a.txt": "../secret.md"}
    ),
    "recipes in a folder that is a link": Hostile(
        {}, "leads out of the book", {"recipes": "../elsewhere"}
    ),
    "a link within the book": Hostile({"shared.yaml": SOUND[LARDER]}, "", {LARDER: "shared.yaml"}),
    "a link in a ring": Hostile({}, "can't be opened", {"pages/a.md": "a.md"}),
    "a link that an editor holds a file by": Hostile({}, "", {"pages/.#a.md": "nowhere"}),
    "recipes that are a whole disk": Hostile({}, "leads out of the book", {"recipes": "/"}),
    "menus that are a whole disk": Hostile({}, "leads out of the book", {"menus": "/"}),
    "pictures that are a whole disk": Hostile({}, "leads out of the book", {"images": "/"}),
    "letters that are a whole disk": Hostile({}, "leads out of the book", {"replies": "/"}),
    "recipes in a ring": Hostile({}, "can't be looked into", {"recipes": "recipes"}),
    "menus in a ring": Hostile({}, "can't be looked into", {"menus": "menus"}),
    "pictures in a ring": Hostile({}, "can't be looked into", {"images": "images"}),
    "letters in a ring": Hostile({}, "can't be looked into", {"replies": "replies"}),
    "a theme in a ring": Hostile({}, "", {"theme": "theme"}),
    "a log in a ring": Hostile({}, "can't be opened", {"stock.csv": "stock.csv"}),
    "a folder called as a recipe": Hostile({"recipes/x.md/y.txt": "so"}, "name of a file and is"),
    "a folder called as a menu": Hostile({"menus/x.yaml/y.txt": "so"}, "name of a file and is"),
    "a folder called as a log": Hostile({"stock.csv/y.txt": "so"}, "name of a file and is"),
    "a file called as a folder": Hostile({"replies": "so"}, "can't be looked into"),
    "folders in folders": Hostile({f"recipes/{'d/' * 900}x.md": OTHER}, "24 folders deep"),
    "a base above": _in(LARDER, "from: bases/plum-sauce", "from: ../../secret", "no base"),
    "a recipe of a menu, above": _end(MENU, "  - {day: 1, meal: tea, recipe: ../secret}\n", "no r"),
    "a theme above": _theme("../elsewhere", "lies outside the book"),
    "a theme by its whole path": _theme("/etc", "lies outside the book"),
    "a theme above, as Windows writes it": _theme(r"..\elsewhere", "no folder"),
    "a theme on a drive": _theme(r"C:\elsewhere", "no folder"),
    # links that do something
    "a link that runs": _link("javascript:ran()"),
    "a link that runs, coded": _link("&#106;avascript&colon;ran()"),
    "a link that runs, in capitals": _link("JaVaScRiPt:ran()"),
    "a link that runs, in brackets": _end(PAGE, "\n<javascript:ran()>\n", "can't be followed"),
    "a link that runs, by name": _end(PAGE, "\n[so]\n\n[so]: vbscript:ran()\n", "can't be f"),
    "a link that holds a page": _link("data:text/html,so"),
    "a link to a disk": _link("file:///etc/hostname"),
    "a link to whatever serves it": _link("//example.org/so"),
    "a link to a file above": _link("../../secret.md", "no recipe or page"),
    # tags on a page that asks for some
    "tags that run": _tags("<u onclick=ran()>so</u><script>ran()</script>", "stays text"),
    "a tag within a tag's name": _tags("<s<u>cript>ran()</s</u>cript>", ""),
    "a tag coded": _tags("&lt;script&gt;ran()&lt;/script&gt; &#60;img src=x onerror=ran()>", ""),
    "tags without an end": _tags("<sub>" * 160_000, "stays text"),
    "ends without a tag": _tags("</sub>" * 150_000, "stays text"),
    "tags in tags": _tags("<q>" * 60_000 + "so" + "</q>" * 60_000, "stays text"),
    "tags across one another": _tags("<q>*<u>so</q>* </u>" * 9000, "stays text"),
    "breaks": _tags("<br>" * 200_000, ""),
    # repeats and depth
    "repeats that explode in the book": _end(BOOK, LAUGHS, "is a repeat in YAML"),
    "repeats that explode in the larder": _end(LARDER, LAUGHS, "is a repeat in YAML"),
    "repeats that explode in a recipe": _in(BOWL, "part: 1\n", f"part: 1\n{LAUGHS}", "is a repeat"),
    "a repeat of itself": _end(LARDER, "willow: &a [*a]\n", "is a repeat in YAML"),
    "an object": _end(BOOK, "x: !!python/object/apply:os.system [ls]\n", "is a tag in YAML"),
    "lists in lists": _end(BOOK, f"x: {'[' * 100_000}", "nesting depth"),
    "lists in lists, each closed": _end(BOOK, f"x: {'[' * 9000}{']' * 9000}\n", "nesting depth"),
    "groups in groups": _end(BOOK, f"x: {'{a: ' * 100_000}", "nested too deep"),
    "dashes in dashes": _end(BOOK, f"x:\n  {'- ' * 100_000}a\n", "nested too deep"),
    "lines ever deeper": _end(BOOK, "x:\n" + "".join(
        f"{' ' * at}a:\n" for at in range(1, 900)), "nested too deep"),
    "quotes in quotes": _end(PAGE, "> " * 50_000 + "x\n", ""),
    "lists of text in lists": _end(PAGE, "- " * 50_000 + "x\n", ""),
    "brackets": _end(PAGE, "\n" + "[" * 200_000 + "\n", 'signs "[" stand in this paragraph'),
    "pictures in pictures": _end(PAGE, "![" * 100_000 + "\n", 'signs "[" stand in this'),
    "links without an end": _end(PAGE, "[a](b c" * 60_000 + "\n", 'signs "[" stand in this'),
    "stress in stress": _end(PAGE, "*a **a " * 50_000 + "\n", ""),
    "figures without an end": _end(PAGE, "{water: " * 60_000 + "\n", ""),
    "a figure of spaces": _end(PAGE, "\n{water:" + " " * 100_000 + "x\n", ""),
    "a name of spaces": _end(PAGE, "\n{a" + " " * 100_000 + "x\n", ""),
    "code without an end": _end(PAGE, "".join("`" * at + "a" for at in range(1, 1200)), ""),
    "a wide table": _end(PAGE, f"\n{'|a' * 4000}|\n{'|-' * 4000}|\n" + "|\n" * 4000, ""),
    "drawings in drawings": _drawn("<rect", "<g>" * 50_000 + "</g>" * 50_000 + "<rect", "well-f"),
    # size and number
    "a recipe of 100 MB": Hostile({BOWL: b"a" * 100_000_000}, "holds 100 MB of text"),
    "a larder of 100 MB": Hostile({LARDER: b"#" * 100_000_000}, "holds 100 MB of text"),
    "a log of 100 MB": Hostile({"stock.csv": b"a,b\n" * 25_000_000}, "holds 100 MB of text"),
    "a letter of 100 MB": Hostile({"replies/a.txt": b"a " * 50_000_000}, "holds 100 MB of text"),
    "a line of a log": Hostile({"stock.csv": f"{STOCK}{'(' * 100_000}\n"}, "letters, and 2,000"),
    "keys nobody knows": _end(BOOK, _many(60_000, "s{}: x\n"), "more values of book.yaml"),
    "ingredients": _in(BOWL, "  - 2 tbsp leeks\n", "  - 2 tbsp leeks\n" * 20_000, "100 is the m"),
    "components": _in(BOWL, "components:\n", "components:\n" + _many(
        5000, "  - {{name: P{}, ingredients: [1 tbsp pears]}}\n"), "12 is the most"),
    "meals of a menu": _end(MENU, _many(9000, "  - {{day: 1, meal: {}, recipe: plum-oats}}\n"),
        "1000 is the most"),
    "series": _in(BOOK, "series:\n", "series:\n" + _many(9000, "  S{}: {{}}\n"), "1000 is the m"),
    "a title": _titled("w " * 100_000, "500 is the most"),
    "a name of a store": _end(LARDER, f"{'w' * 900}: {{food: salt, dried: bought}}\n", "500 is"),
    "a water of spaces": _in(BOWL, "water: 5 tsp", f"water: '5{' ' * 100_000}tsp'", "no single v"),
    "more cups than there are": _in(OATS, "20 g quick", f"1{'0' * 400} cups quick", "any kitchen"),
    "more cups, in short": _in(OATS, "20 g quick", "1e400 cups quick", "any kitchen"),
    "an altitude": _in(BOOK, "310 m", "1e400 m", "any kitchen"),
    "a part": _in(BOWL, "part: 1", f"part: {'9' * 5000}", "is a whole number"),
    "a servings": _in(BOOK, "[1, 2, 4]", f"[1, {'9' * 5000}]", "is a whole number"),
    "no number": _in(OATS, "20 g quick", "NaN g quick", "is not a number"),
    "no number of metres": _in(BOOK, "310 m", ".nan", "does not begin with a number"),
    "endless": _in(BOOK, "310 m", ".inf", "does not begin with a number"),
    # letters that aren't seen, and names that aren't what they look
    "a title turned round": _titled("Lentil \u202elwob", TURNED),
    "a title set apart": _titled("Lentil \u2066bowl\u2069", TURNED),
    "a store turned round": _end(LARDER, "sa\u202etl: {food: salt, dried: bought}\n", TURNED),
    "a text turned round": _end(PAGE, "\nPour \u202e310 ml\n", TURNED),
    "a log turned round": Hostile({"stock.csv": f"{STOCK}leeks\u202e,a,,,\n"}, TURNED),
    "a log turned round, as a spreadsheet codes it": Hostile(
        {"stock.csv": f"{STOCK}leeks\u202e,a,,,\n".encode("utf-16")}, TURNED),
    "a title with a sign of no width": _titled("Lentil\u200b bowl", TURNED),
    "a store with a sign of no width": _end(
        LARDER, "lee\u2060ks: {food: leeks raw, dried: freeze}\n", TURNED),
    "a title with a picture of joined signs": _titled("\U0001f469\u200d\U0001f373 bowl", ""),
    "a text with places to break": _end(PAGE, "\nPour\u200bslowly.\n", ""),
    "a file turned round": Hostile({"recipes/a\u202edm.md": OTHER}, "can't be an address"),
    "files that differ in case": Hostile({"recipes/Plum-Oats.md": OTHER}, "already that of"),
    "pages that differ in case": Hostile({"pages/HOW-we-dry.md": SOUND[PAGE]}, "already that of"),
    "menus that differ in case": Hostile({"menus/Two-Days.yaml": SOUND[MENU]}, "already that of"),
    "stores that differ in case": _end(
        LARDER, "LEEKS: {food: leeks raw, dried: freeze}\n", "already finds the store"),
    "pictures that differ in case": Hostile(
        {"images/LANDING.svg": DRAWING, PAGE: f"{SOUND[PAGE]}\n![Dusk](LANDING.svg)\n"}, ""),
    "series that differ in case": _in(BOOK, "series:\n", "series:\n  landing Suppers: {}\n", ""),
    "files of a theme that differ in case": Hostile(
        {"theme/fonts/a.woff2": b"wOF2", "theme/fonts/A.woff2": b"wOF2"}, "know no capitals"),
    "a recipe called as a device": Hostile({"recipes/con.md": OTHER}, "Windows keeps the name"),
    "a menu called as a device": Hostile({"menus/Nul.yaml": SOUND[MENU]}, "Windows keeps the nam"),
    "a picture called as a device": Hostile(
        {"images/aux.svg": DRAWING, PAGE: f"{SOUND[PAGE]}\n![Dusk](aux.svg)\n"}, ""),
    "a book called as a device": _in(BOOK, "The willow landing book", "Con", ""),
    "a recipe called as the first page": Hostile({"recipes/index.md": OTHER}, ""),
    "a page called as the first page": Hostile({"pages/index.md": SOUND[PAGE]}, ""),
    "a recipe with a long name": Hostile({f"recipes/{'a' * 240}.md": OTHER}, "no disk could hold"),
    "a picture with a long name": Hostile(
        {f"images/{'a' * 240}.svg": DRAWING, PAGE: f"{SOUND[PAGE]}\n![Dusk]({'a' * 240}.svg)\n"}, ""
    ),
    # drawings
    "a drawing with a script": _drawn("<rect", "<script>ran()</script><rect", "holds a script"),
    "a drawing that runs": _drawn("<rect", '<rect onload="ran()"', "script"),
    "a drawing with entities": Hostile({LANDING: ENTITIES}, "holds entities"),
    "a drawing with a file": Hostile({LANDING: "<!DOCTYPE svg [<!ENTITY a SYSTEM 'file:///etc/"
        "hostname'>]>" + DRAWING.replace("willows", "&a;")}, "holds entities"),
    "a drawing of a file": _drawn("<rect", '<image href="../../secret.svg"/><rect', "link out"),
    # what templates and spreadsheets would run
    "a title for a template": _titled("{{ 7 * 7 }}{% include 'x' %}", ""),
    "a store for a spreadsheet": Hostile(
        {LARDER: SOUND[LARDER].replace("leeks:", '"=cmd|x":', 1).replace(
            "also called: [carrot dice]", 'also called: ["=1+1"]'),
         BOWL: SOUND[BOWL].replace("2 tbsp leeks", "2 tbsp =cmd|x")}, ""),
}  # fmt: skip


def written(folder: Path, hostile: Hostile) -> Path:
    """Write a book with a secret beside it; return the book's folder."""
    (folder / "elsewhere").mkdir(parents=True)
    for name in ("secret.svg", "secret.md", "elsewhere/landing.svg", "elsewhere/secret.md"):
        text = (
            DRAWING.replace("willows", KEPT_OUT) if name.endswith("svg") else f"{OTHER}{KEPT_OUT}\n"
        )
        (folder / name).write_text(text, encoding="utf-8")
    book = folder / "book"
    files: dict[str, str | bytes] = {**SOUND, LANDING: DRAWING, **hostile.files}
    for name, held in files.items():
        path = book / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(held if isinstance(held, bytes) else held.encode())
    for name, to in hostile.links.items():
        path = book / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.is_dir():
            path.rename(folder / "was")
        path.unlink(missing_ok=True)
        path.symlink_to(os.path.relpath(book / to, path.parent) if to != "a.md" else to)
    return book


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_book_is_harmless_or_told(
    name: str, tmp_path: Path, record_property: Callable[[str, object], None]
) -> None:
    hostile = HOSTILE[name]
    book, out = written(tmp_path / "all", hostile), tmp_path / "out"
    began = time.process_time()
    proof = CliRunner().invoke(main, ["proof", str(book)])
    took = time.process_time() - began
    said = proof.output.replace("\u202f", " ")
    assert isinstance(proof.exception, SystemExit | None), proof.exception
    assert hostile.cause in said, said[:2000]
    refused = hostile.cause and re.search(rf": error: .*{re.escape(hostile.cause)}", said)
    assert proof.exit_code == bool(refused), said[:2000]
    assert took < MOST_S
    assert max(map(len, said.splitlines())) < 1000
    assert KEPT_OUT not in said
    assert all(char.isprintable() or char in "\n\t" for char in said)
    bound = CliRunner().invoke(main, ["bind", str(book), "--out", str(out)])
    assert bound.exit_code == proof.exit_code, bound.output[:2000]
    assert out.exists() == (proof.exit_code == 0)
    for path in (path for path in out.rglob("*") if path.is_file()):
        assert KEPT_OUT.encode() not in path.read_bytes(), path
        if path.suffix == ".csv":
            assert "\n=" not in path.read_text(encoding="utf-8").replace(",", "\n"), path
    names = [path.relative_to(out).as_posix().casefold() for path in out.rglob("*")]
    assert len(names) == len(set(names))
    figure(record_property, "hostile books told, or bound harmlessly", 1)
