"""The panel of findings that stands on every page of a preview, and pages that no book has.

What is added to a page stands in one piece before the end of its body, and nothing of the page
is changed. Every word of an author's is escaped. The panel speaks English, as findings do.
"""

from __future__ import annotations

from html import escape
from textwrap import dedent
from typing import TYPE_CHECKING, Final
from urllib.parse import quote

from cookbook_build.findings import Severity, described, nearest, printable
from cookbook_build.publishing.policy import IN_THE_FOLDER
from cookbook_build.publishing.web_head import COVER

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from cookbook_build.findings import Finding
    from cookbook_build.preview.kept import State

BEGINS: Final = "<!-- the preview's own, from here -->"
ENDS: Final = "<!-- to here -->"
FILES: Final = ("panel.css", "panel.js")
"""What the panel is drawn and folded with; they stand beside this module."""
AT: Final = "preview/"
"""Where they are served; no page of a book begins so."""
STILL_GOOD: Final = "These pages are those of the last good book."


def with_added(page: str, name: str, state: State, stamp: str) -> str:
    """Return a page of the book with the panel, and with what has it loaded again."""
    before, end, after = page.rpartition("</body>")
    if not end:
        before, after = page, ""
    return before + added(name, state, stamp) + end + after


def added(name: str, state: State, stamp: str) -> str:
    """Return all that a preview adds to a page."""
    notes = _note(name, state) + panel(state)
    style = f'<link rel="stylesheet" href="/{AT}panel.css">\n'
    return (
        f"{BEGINS}\n{style}{notes}"
        f'<script src="/{AT}panel.js"></script>\n'
        # `snipver` is the protocol's own field for what a page brings to its server
        f'<script src="/livereload.js?snipver={stamp}&amp;mindelay=300&amp;maxdelay=3000" async>'
        f"</script>\n{ENDS}\n"
    )


def panel(state: State) -> str:
    """Return the findings folded at the foot of a page; nothing where there is nothing to mend."""
    if not state.findings or state.edition is None:  # a page without a book has them in its text
        return ""
    kind, open_ = ("errors", " open") if state.stands_back else ("warnings", "")
    said = f"<p>{STILL_GOOD}</p>\n" if state.stands_back else ""
    return (
        f'<aside class="preview-panel {kind}" aria-label="To mend">\n<details{open_}>\n'
        f"<summary>{counted(state.findings)}</summary>\n"
        f'<div class="preview-list" role="group" aria-label="What to mend, and how" tabindex="0">\n'
        f"{said}{_listed(state.findings)}</div>\n</details>\n</aside>\n"
    )


def counted(findings: Sequence[Finding]) -> str:
    """Return how much there is to mend, in words."""
    errors = sum(finding.severity is Severity.ERROR for finding in findings)
    warnings = len(findings) - errors
    parts = [f"{errors} error{'s' * (errors != 1)}"] * bool(errors)
    parts += [f"{warnings} warning{'s' * (warnings != 1)}"] * bool(warnings)
    return ", ".join(parts) or "nothing to mend"


def waiting_page(state: State) -> str:
    """Return the page of a book that was not good yet since the preview began."""
    return _page(
        "Not a book yet",
        "<p>Mend what stands here and save the file: the book opens by itself.</p>\n"
        f'<div class="preview-list" role="group" aria-label="What to mend, and how" tabindex="0">\n'
        f"{_listed(state.findings)}</div>\n",
    )


def missing_page(name: str, names: Iterable[str]) -> str:
    """Return the page that stands where the book has none."""
    known = {one.removesuffix(".html"): one for one in names}
    near = known.get(nearest(name.removesuffix(".html"), known, likeness=0.7) or "", "")
    href = escape(quote(near, errors="replace"))
    meant = f'<p>Near it is <a href="/{href}">{escape(printable(near))}</a>.</p>\n' if near else ""
    return _page(
        "No such page",
        f"<p>This book has no page <code>{escape(printable(name))}</code>: its file may have "
        "been renamed or taken away. If it comes back, so does the page.</p>\n"
        f'{meant}<p><a href="/{COVER}">To the contents</a></p>\n',
    )


def _page(title: str, main: str) -> str:
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{IN_THE_FOLDER}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="color-scheme" content="light dark">\n'
        f'<title>{title}</title>\n<link rel="stylesheet" href="/style.css">\n'
        '<script src="/book.js"></script>\n</head>\n<body>\n'
        f'<main class="preview-page">\n<h1>{title}</h1>\n{main}</main>\n</body>\n</html>\n'
    )


def _listed(findings: Iterable[Finding]) -> str:
    return f"<ul>\n{''.join(_item(finding) for finding in findings)}</ul>\n"


def _item(finding: Finding) -> str:
    place, (_first, *excerpt, _mend) = finding.place, described(finding).split("\n")
    where = escape(f"{printable(place.path)}:{place.line}:{place.column}")
    lines = f"<pre>{escape(dedent(chr(10).join(excerpt)))}</pre>\n" if excerpt else ""
    return (
        f'<li class="{finding.severity}">\n<p><code>{where}</code></p>\n'
        f"<p><strong>{finding.severity}:</strong> {escape(printable(finding.cause))}.</p>\n"
        f"{lines}<p><strong>mend:</strong> {escape(printable(finding.mend))}</p>\n</li>\n"
    )


def _note(name: str, state: State) -> str:
    """Return what a cover says in the place of the files that only `bind` makes."""
    if name != COVER or state.edition is None:
        return ""
    return (
        '<aside class="preview-note" aria-label="Preview"><p>The e-books and the files to take '
        "along are left out of a preview; <code>cookbook-build bind</code> makes them.</p>"
        "</aside>\n"
    )
