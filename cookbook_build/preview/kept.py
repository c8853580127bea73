"""The last good book, kept in memory: read and computed at once, its pages made when asked for."""

from __future__ import annotations

import datetime as dt
import hashlib
import threading
import time
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from cookbook_build.findings import Findings, Place
from cookbook_build.kept import NOTHING_KEPT, users_pieces
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.known import Known
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.folder_edition import beside_pages
from cookbook_build.publishing.own_templates import BESIDE, OwnTemplates, ThemeFaultError
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.pictures import made_pictures
from cookbook_build.publishing.proofing import check_fit
from cookbook_build.publishing.theme import theme_of
from cookbook_build.publishing.theme_checks import check_pages
from cookbook_build.publishing.web_files import icon_and_manifest
from cookbook_build.steady import staying
from cookbook_build.words import spoken

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from jinja2 import Environment

    from cookbook_build.findings import Finding
    from cookbook_build.kept import Kept
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.own_theme import OwnTheme
    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.publishing.pictures import Pictures


class Edition:
    """One good book: every file of its folder by name, made at the first time it is asked for."""

    def __init__(
        self,
        reckoning: Reckoning,
        pictures: Pictures,
        templates: Environment,
        pieces: Kept = NOTHING_KEPT,
    ) -> None:
        self.language = reckoning.book.book.language
        with spoken(self.language):
            pages = Pages(reckoning, templates, pictures, pieces)
            ready = [*beside_pages(pages), *self._in_bytes(pages)]
        self.pages = frozenset(name for name, _template, _view in pages.views())
        self._made: dict[str, bytes] = dict(ready)
        self._makers: dict[str, Callable[[], str]] = pages.makers()
        self.names = frozenset({*self._made, *self._makers})
        self._making = threading.Lock()
        self._stamps: dict[str, str] = {}

    @staticmethod
    def _in_bytes(pages: Pages) -> list[tuple[str, bytes]]:
        book = pages.desk.book.book
        return [(name, text.encode()) for name, text in icon_and_manifest(book, pages.templates)]

    def content(self, name: str) -> bytes:
        """Return what a file of the book holds; may be called from any thread."""
        if name not in self._made:
            with self._making, spoken(self.language):
                if name not in self._made:
                    self._made[name] = self._makers[name]().encode()
        return self._made[name]

    def stamp(self, name: str) -> str:
        """Return what changes whenever a page, or a file that it shows, is another."""
        if name not in self._stamps:
            text = self.content(name)
            digest = hashlib.sha256(text)
            for other in sorted(self.names - self.pages):
                if other.startswith(f"{BESIDE}/") or PurePosixPath(other).name.encode() in text:
                    digest.update(b"\0" + other.encode() + b"\0" + self.content(other))
            self._stamps[name] = digest.hexdigest()[:16]
        return self._stamps[name]


@dataclass(frozen=True, slots=True)
class State:
    """What there is to show: the last good book, if there was one, and what is to be mended now."""

    edition: Edition | None = None
    findings: tuple[Finding, ...] = ()

    @property
    def stands_back(self) -> bool:
        """Whether the text has errors, so that the pages are those of an earlier one."""
        return any(finding.severity == "error" for finding in self.findings)


@dataclass(frozen=True, slots=True)
class Renewal:
    """What came of one reading of the book."""

    state: State
    findings: Findings
    took_s: float
    is_torn: bool  # the folder changed or closed while it was read: read it again


class KeptBook:
    """The last good book of a folder; whoever asks gets one whole state, never half of two."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.state = State()
        self.theme_folder: str | None = None
        self._templates: tuple[OwnTheme | None, Environment] | None = None
        self._pieces = users_pieces(folder)
        self._known = Known(self._pieces)

    def renew(self) -> Renewal:
        """Read the folder, and keep its book if there is nothing in it that must be mended."""
        began, findings, torn = time.monotonic(), Findings(), False
        edition = None
        try:
            with staying():
                edition = self._edition(findings)
        except ThemeFaultError as fault:
            findings.gathered.extend(fault.findings)
        except OSError as problem:
            torn = True
            _unreadable(problem, findings)
        except Exception as problem:  # noqa: BLE001 - a fault of ours must not take the page away
            _stumbled(problem, findings)
        self.state = State(edition or self.state.edition, tuple(findings))
        return Renewal(self.state, findings, time.monotonic() - began, torn)

    def _edition(self, findings: Findings) -> Edition | None:
        """Return the book as `bind` would make it, None where a finding stands in the way."""
        if not self.folder.is_dir():
            _gone(self.folder, findings)
            return None
        today = dt.datetime.now().astimezone().date()
        book = read_book(self.folder, findings, today=today, steady=self._known.steady)
        if book is None:
            return None
        self.theme_folder = book.theme.folder if book.theme else None
        reckoning = reckoned(book, findings, self._known)
        check_fit(reckoning, findings, self._known)
        pictures = made_pictures(book, findings)
        if findings.errors:
            return None
        templates = self._templates_of(book)
        if isinstance(templates, OwnTemplates):
            check_pages(reckoning, pictures, findings)  # only a made page shows their faults
        if findings.errors:
            return None
        self._known.settle()
        return Edition(reckoning, pictures, templates, self._pieces)

    def _templates_of(self, book: Manuscript) -> Environment:
        """Return the templates of a book, those of before where its theme is as before.

        A template takes longer to be read than most pages to be made.
        """
        if self._templates is None or self._templates[0] != book.theme:
            self._templates = book.theme, theme_of(book).templates
        return self._templates[1]


def _gone(folder: Path, findings: Findings) -> None:
    findings.error(
        Place("book.yaml"),
        f'the folder "{folder.name}" is not there any more',
        "put it back, and the pages follow; or end the preview and name another folder.",
    )


def _unreadable(problem: OSError, findings: Findings) -> None:
    findings.error(
        Place("book.yaml"),
        f"a file changed or closed while the book was read ({problem.strerror})",
        "wait a moment: it is read again by itself.",
    )


def _stumbled(problem: Exception, findings: Findings) -> None:
    findings.error(
        Place("book.yaml"),
        f"the program stumbled over this book ({type(problem).__name__}: {problem})",
        "take the last change back, and tell whoever gave you this program; the fault is its own.",
    )
