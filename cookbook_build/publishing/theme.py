"""Themes: folders of templates and styles; `plain` comes with the program."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined, select_autoescape

from cookbook_build.words import _, listed, ngettext, npgettext, numeral, pgettext

if TYPE_CHECKING:
    from collections.abc import Iterable

STYLES = ("style.css", "book.js", "finder.js")


def theme_folder(name: str = "plain") -> Path:
    """Return the folder of a theme that comes with the program."""
    package = Path(__file__).parent.parent
    for themes in (package / "themes", package.parent / "themes"):
        if (themes / name).is_dir():
            return themes / name
    raise FileNotFoundError(name)


def environment(folder: Path) -> Environment:
    """Return the templates of a theme; text is escaped, and a missing name is our mistake."""
    templates = Environment(
        loader=FileSystemLoader(folder),
        autoescape=select_autoescape(("html", "xhtml", "opf")),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        extensions=["jinja2.ext.i18n"],
    )
    templates.install_gettext_callables(  # type: ignore[attr-defined]  # the extension's
        _, ngettext, newstyle=True, pgettext=pgettext, npgettext=npgettext
    )
    templates.filters["numeral"] = numeral
    templates.filters["listed"] = listed
    templates.filters["groupby_order"] = grouped
    return templates


def grouped(items: Iterable[Any], attribute: str) -> list[tuple[Any, list[Any]]]:
    """Return items grouped by an attribute, in the order in which they come."""
    found: dict[Any, list[Any]] = {}
    for item in items:
        found.setdefault(getattr(item, attribute), []).append(item)
    return list(found.items())
