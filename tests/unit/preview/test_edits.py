"""Whatever is edited, the pages are those that `bind` writes; errors leave the last good ones."""

from __future__ import annotations

import random
import re
import subprocess
import sys
from typing import TYPE_CHECKING, Any, Final

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.preview import kept
from cookbook_build.preview.panel import BEGINS, ENDS
from cookbook_build.preview.session import Session
from cookbook_build.preview.shown import answer
from cookbook_build.publishing import binding
from cookbook_build.publishing.carrying import is_carried
from cookbook_build.publishing.folder_edition import FolderEdition
from cookbook_build.publishing.page_text import PageText
from cookbook_build.publishing.swapping import MADE
from cookbook_build.publishing.web_files import WORKER

if TYPE_CHECKING:
    from pathlib import Path

EDITS: Final = 200
ADDED: Final = re.compile(f"{re.escape(BEGINS)}.*?{re.escape(ENDS)}\n", re.DOTALL)
CARRIED: Final = re.compile(r'<section class="series carried screen".*?</section>\n', re.DOTALL)


def shown(session: Session, name: str) -> bytes:
    """Return what a browser would be sent, without what the preview adds."""
    found = answer(session.kept.state, name)
    assert found.status == 200, name
    return ADDED.sub("", found.body.decode()).encode() if name.endswith("l") else found.body


def bound(folder: Path) -> dict[str, bytes]:
    """Return what a clean bind wrote, without what only a bound book has."""
    files = {path.relative_to(folder).as_posix(): path for path in folder.rglob("*.*")}
    found = {
        name: path.read_bytes()
        for name, path in files.items()
        if path.is_file() and name not in {WORKER, MADE} and not is_carried(name)
    }
    cover = found["index.html"].decode()
    return found | {"index.html": CARRIED.sub("", cover).encode()}


def assert_as_bound(session: Session, site: Path) -> None:
    """Compare every file of the kept book with a bound one, byte for byte."""
    edition = session.kept.state.edition
    assert edition is not None
    clean = bound(site)
    assert edition.names == set(clean)
    for name, data in clean.items():
        assert shown(session, name) == data, name


def bind(folder: Path, out: Path) -> None:
    """Bind a book that has no errors."""
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    binding.bind_book(reckoned(book, findings), out)
    assert not findings.errors


class Author:
    """Somebody who edits a book at random, now and then wrongly, and mends it later."""

    def __init__(self, folder: Path, seed: int) -> None:
        self.folder, self.chance = folder, random.Random(seed)  # noqa: S311 - for repeatable tests
        self.counts: dict[str, int] = {}
        self.texts = {
            path.relative_to(folder).as_posix(): path.read_text(encoding="utf-8")
            for path in sorted(folder.rglob("*.*"))
        }

    def recipes(self) -> list[Path]:
        """Return the recipes' files."""
        return sorted((self.folder / "recipes").rglob("*.md"))

    def save(self, path: Path, text: str) -> None:
        """Write a file, in place or by renaming as many editors do."""
        path.parent.mkdir(parents=True, exist_ok=True)
        by_renaming = self.chance.random() < 0.5
        target = path.with_name(f"{path.name}~") if by_renaming else path
        target.write_text(text, encoding="utf-8", newline="\n")
        if by_renaming:
            target.replace(path)

    def edit(self) -> None:
        """Do one of the edits."""
        deeds = {
            self.amount: 6, self.new: 2, self.delete: 1, self.rename: 2, self.broken: 2,
            self.half: 2, self.larder: 3, self.menu: 2, self.book: 3, self.style: 1, self.mend: 9,
        }  # fmt: skip
        deed = self.chance.choices(list(deeds), list(deeds.values()))[0]
        self.counts[deed.__name__] = self.counts.get(deed.__name__, 0) + 1
        deed()

    def amount(self) -> None:
        """Change a recipe's amount."""
        path = self.chance.choice(self.recipes())
        amount = self.chance.choice(["1/4 tsp", "3/8 tsp", "1/2 tsp", "1 tsp"])
        text = path.read_text(encoding="utf-8")
        self.save(path, re.sub(r"- \S+ tsp salt", f"- {amount} salt", text))

    def new(self) -> None:
        """Write a recipe more, while they are few."""
        if len(self.recipes()) > 3:
            return
        number = self.chance.randrange(1000)
        text = self.texts["recipes/leek-broth.md"].replace("Leek broth", f"Broth {number}")
        self.save(self.folder / f"recipes/broth-{number}.md", text)

    def delete(self) -> None:
        """Take a recipe away, but never the last."""
        if len(found := self.recipes()) > 2:
            self.chance.choice(found).unlink()

    def rename(self) -> None:
        """Give a recipe's file another name."""
        path = self.chance.choice(self.recipes())
        path.rename(path.with_name(f"renamed-{self.chance.randrange(1000)}.md"))

    def broken(self) -> None:
        """Break a recipe's keys."""
        path = self.chance.choice(self.recipes())
        self.save(path, path.read_text(encoding="utf-8").replace("ingredients:", "ingredients: ["))

    def half(self) -> None:
        """Write a file only half."""
        path = self.chance.choice([*self.recipes(), self.folder / "larder.yaml"])
        text = path.read_text(encoding="utf-8")
        self.save(path, text[: len(text) // 2])

    def larder(self) -> None:
        """Weigh the carrots anew, or lose the leeks."""
        text = self.texts["larder.yaml"].replace("58 g", f"{self.chance.randrange(50, 70)} g")
        if self.chance.random() < 0.3:
            text = text.replace("leeks:", "leek greens:")
        self.save(self.folder / "larder.yaml", text)

    def menu(self) -> None:
        """Come with more people, or fewer."""
        text = self.texts["menus/paddle.yaml"]
        people = f"people: {self.chance.randrange(1, 7)}"
        self.save(self.folder / "menus/paddle.yaml", text.replace("people: 2", people))

    def book(self) -> None:
        """Change the title, the altitude and the language."""
        text = self.texts["book.yaml"].replace("shelf", f"shelf {self.chance.randrange(99)}")
        text = text.replace("310 m", f"{self.chance.randrange(2500)} m")
        self.save(self.folder / "book.yaml", text + self.chance.choice(["", "language: es\n"]))

    def style(self) -> None:
        """Bring a theme of one colour."""
        colour = f"#{self.chance.randrange(0x1000000):06x}"
        self.save(self.folder / "theme/own.css", f":root {{ --day-accent: {colour}; }}\n")

    def mend(self) -> None:
        """Write everything as it was, save the title and the recipes that came new."""
        for name, text in self.texts.items():
            if name != "book.yaml":
                self.save(self.folder / name, text)
        for path in self.recipes():
            if path.relative_to(self.folder).as_posix() not in self.texts:
                path.unlink()


def followed(session: Session) -> None:
    """Have a session look until it has nothing more to do."""
    for _ in range(8):
        if not session.step() and not session.step():
            return
    pytest.fail("it reads without end")


def test_after_200_edits_every_page_is_as_bound(
    small_book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    only = {"folder": FolderEdition}  # for speed; the last comparison binds them all
    monkeypatch.setattr(binding, "EDITIONS", only)
    session = Session(small_book, lambda *_: None)
    author = Author(small_book, seed=7)
    followed(session)
    compared, waited = 0, 0
    last_good: dict[str, bytes] = {}
    for _ in range(EDITS):
        author.edit()
        followed(session)
        waited += 1
        if session.kept.state.stands_back:  # the good book stays, to the byte
            for name in sorted(last_good)[:: max(1, len(last_good) // 5)]:
                assert shown(session, name) == last_good[name], name
        elif waited > EDITS // 16:
            out = tmp_path / f"site-{compared}"
            bind(small_book, out)
            assert_as_bound(session, out)
            compared, waited = compared + 1, 0
        edition = session.kept.state.edition
        if edition is not None and not session.kept.state.stands_back:
            last_good = {name: edition.content(name) for name in ("index.html", "find.html")}
    author.mend()
    followed(session)
    assert not session.kept.state.stands_back
    command = [sys.executable, "-m", "cookbook_build", "bind", str(small_book)]
    subprocess.run([*command, "--out", str(tmp_path / "last")], check=True, capture_output=True)  # noqa: S603 - ours
    assert_as_bound(session, tmp_path / "last")
    assert compared >= 12, compared
    assert len(author.counts) == 11, author.counts


def test_the_demo_is_as_bound(tmp_path: Path, demo_folder: Path) -> None:
    session = Session(demo_folder, lambda *_: None)
    followed(session)
    bind(demo_folder, tmp_path / "site")
    assert_as_bound(session, tmp_path / "site")


def test_an_edit_makes_only_the_pages_that_are_asked_for(
    small_book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[str] = []
    text = PageText.of

    def counted(pages: PageText, name: str, template: str, view: dict[str, Any]) -> str:
        made.append(name)
        return text(pages, name, template, view)

    monkeypatch.setattr(PageText, "of", counted)
    session = Session(small_book, lambda *_: None)
    followed(session)
    assert made == []
    shown(session, "larder.html")
    shown(session, "larder.html")
    assert made == ["larder.html"]


def test_a_folder_that_vanishes_leaves_the_book_and_its_return_is_seen(small_book: Path) -> None:
    session = Session(small_book, lambda *_: None)
    followed(session)
    good = shown(session, "index.html")
    away = small_book.with_name("away")
    small_book.rename(away)
    followed(session)
    assert [f.cause for f in session.kept.state.findings] == [
        'the folder "book" is not there any more'
    ]
    assert shown(session, "index.html") == good
    (away / "book.yaml").write_text("title: Come back\n", encoding="utf-8")
    away.rename(small_book)
    followed(session)
    assert session.kept.state.findings == ()
    assert b"Come back" in shown(session, "index.html")


def test_a_file_that_closes_while_it_is_read_is_read_again(
    small_book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    session = Session(small_book, lambda *_: None)
    with monkeypatch.context() as patched:

        def gone(*_: object, **__: object) -> None:
            raise FileNotFoundError(2, "No such file or directory")

        patched.setattr(kept, "read_book", gone)
        while not session.step():
            pass
    (finding,) = session.kept.state.findings
    assert finding.cause == (
        "a file changed or closed while the book was read (No such file or directory)"
    )
    followed(session)  # though nothing changed since
    assert session.kept.state.findings == ()
    assert session.kept.state.edition is not None


def test_a_fault_of_the_program_is_told_and_takes_no_page_away(
    small_book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    session = Session(small_book, lambda *_: None)
    followed(session)
    good = shown(session, "index.html")
    with monkeypatch.context() as patched:

        def stumble(*_: object) -> None:
            raise KeyError("water")

        patched.setattr(kept, "reckoned", stumble)
        (small_book / "book.yaml").write_text("title: Other\n", encoding="utf-8")
        followed(session)
    (finding,) = session.kept.state.findings
    assert finding.cause == "the program stumbled over this book (KeyError: 'water')"
    assert shown(session, "index.html") == good


def test_a_template_of_a_theme_is_followed_and_its_faults_are_findings(small_book: Path) -> None:
    session = Session(small_book, lambda *_: None)
    template = small_book / "theme/cover.html"
    template.parent.mkdir()
    whole = '{% extends "plain/cover.html" %}\n{% block cover %}<h1>Mine</h1>{% endblock %}\n'
    template.write_text(whole, encoding="utf-8")
    followed(session)
    assert b"<h1>Mine</h1>" in shown(session, "index.html")
    template.write_text(whole.replace("Mine", "{{ nothing.such }}"), encoding="utf-8")
    followed(session)
    assert session.kept.state.findings[0].place.path == "theme/cover.html"
    assert b"<h1>Mine</h1>" in shown(session, "index.html")
