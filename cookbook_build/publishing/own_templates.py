"""Templates of a book's own theme: run in a sandbox, held to the book, their faults told.

A template that a household was given by somebody else is somebody else's program. It sees the two
themes and what the pages show, reads values and calls nothing of ours but what templates are given,
and what it makes may neither run nor fetch anything. What it may still do, such as take long, is
said in DEVELOPERS.md.
"""

from __future__ import annotations

import re
import sys
from pathlib import PurePosixPath
from typing import TYPE_CHECKING, Any, Final, NoReturn

from jinja2 import (
    DictLoader,
    FileSystemLoader,
    PrefixLoader,
    TemplateError,
    TemplateNotFound,
    TemplateSyntaxError,
    UndefinedError,
)
from jinja2 import Template as AnyTemplate
from jinja2.exceptions import SecurityError
from jinja2.loaders import BaseLoader, ChoiceLoader
from jinja2.sandbox import ImmutableSandboxedEnvironment

from cookbook_build.findings import Finding, Place, Severity, did_you_mean, nearest
from cookbook_build.publishing.page_check import Fault, page_faults
from cookbook_build.publishing.style_check import is_within, reaches_out

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path
    from types import TracebackType

    from jinja2 import Environment

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.own_theme import OwnTheme

OURS: Final = "plain"
"""What an own template writes before the name of one of ours: `plain/recipe.html`."""
ALL_PAGES: Final = "onefile.html"
"""Ours: it holds pages that were looked at one by one, and the program's scripts and styles."""
_CALLED: Final = frozenset({"builtins", "datetime", "decimal", "fractions", "markupsafe"})
_UP: Final = re.compile(r"^(?:\.\.?/)+")
_SHOWN: Final = re.compile(r'<img[^>]*\ssrc="([^"]+)')
BESIDE: Final = "theme"
"""The folder of the bound book that holds what its own theme brought."""
IMAGES: Final = "images"
"""The folder of the bound book that holds its pictures."""
_NO_PARENT: Final = re.compile(r"there is no parent block called '(?P<block>[^']+)'")
_MISSING: Final = re.compile(r"'([^']+)' is undefined|has no (?:attribute|element) '([^']+)'")


class ThemeFaultError(Exception):
    """A page can't be made with the book's own theme; says why as findings."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__(findings[0].cause)
        self.findings = findings


class _CheckedTemplate(AnyTemplate):
    """A template whose page is looked at before anyone has it."""

    def render(self, *args: Any, **kwargs: Any) -> str:  # noqa: ANN401 - Jinja's own
        templates = self.environment
        if not isinstance(templates, OwnTemplates):
            return super().render(*args, **kwargs)
        try:
            text = super().render(*args, **kwargs)
            templates.check(self.name or "", text)
        except ThemeFaultError as fault:
            if templates.heard is None:
                raise
            templates.heard.gathered.extend(fault.findings)
            return ""
        return text


class OwnTemplates(ImmutableSandboxedEnvironment):
    """The templates of a book's own theme over ours."""

    template_class = _CheckedTemplate

    def __init__(self, own: OwnTheme, ours: Path, **options: Any) -> None:  # noqa: ANN401 - Jinja's
        super().__init__(loader=loader(own, ours), **options)
        self.own, self.ours = own, ours
        self.heard: Findings | None = None  # where faults are gathered; else the first one raises

    def is_safe_attribute(self, obj: Any, attr: str, value: Any) -> bool:  # noqa: ANN401 - any value
        """Return whether a template may take an attribute: values, and methods of plain values.

        The sandbox alone would let a template call every public method of what a page shows.
        """
        if not super().is_safe_attribute(obj, attr, value):
            return False
        if not callable(value):
            return True
        kind = type(obj).__module__
        return not isinstance(obj, type) and (kind in _CALLED or kind.startswith("jinja2."))

    def handle_exception(self, source: str | None = None) -> NoReturn:
        """Turn what went wrong in a template into findings."""
        _, problem, trace = sys.exc_info()
        if isinstance(problem, ThemeFaultError):
            raise problem
        if not isinstance(problem, Exception):
            super().handle_exception(source)
        raise ThemeFaultError((self._finding(problem, trace),)) from problem

    def check(self, name: str, text: str) -> None:
        """Look through a page that was made; what runs or reaches out leaves findings.

        Raises
        ------
        ThemeFaultError
            When the page holds what no page of a book may hold.
        """
        if name == ALL_PAGES:
            return
        found = tuple(
            Finding(Severity.ERROR, self._where(needle, name), cause, mend)
            for needle, cause, mend in (*page_faults(name, text), *self._missing(name, text))
        )
        if found:
            raise ThemeFaultError(found)

    def _missing(self, template: str, text: str) -> Iterator[Fault]:
        """Give each picture that a page shows and that doesn't stand where the page looks."""
        for address in dict.fromkeys(_SHOWN.findall(text) if template.endswith(".html") else ()):
            if is_within(address) or reaches_out(address):
                continue
            folder, _, name = _UP.sub("", address).partition("/")
            if folder == IMAGES or (folder == BESIDE and name in self.own.files):
                continue
            if folder == BESIDE:
                mend = did_you_mean(name, self.own.files, "put it into the theme.")
                yield f"{BESIDE}/{name}", f'there is no file "{name}" in the theme', mend
                continue
            name = PurePosixPath(address).name
            near = name if name in self.own.files else nearest(name, self.own.files)
            yield (
                address,
                f'the picture "{address}" is looked for beside this page, and isn\'t there',
                f'write src="{{{{ up }}}}{BESIDE}/{near or name}"'
                + ("." if near else ", and put it into the theme."),
            )

    def _where(self, needle: str, name: str) -> Place:
        """Return where some text stands in the theme: best in the page's own template."""
        texts = self.own.templates
        for template in sorted(texts, key=lambda one: (one != name, one)):
            at = texts[template].text.find(needle) if needle else -1
            if at >= 0:
                place = texts[template].place_at(at)
                return place.within(0, len(needle.split("\n", maxsplit=1)[0]))
        whole = next((one for one in (name, "layout.html") if one in texts), None)
        return texts[whole].place(1) if whole else Place(self.own.folder)

    def _finding(self, problem: Exception, trace: TracebackType | None) -> Finding:
        name, line = self._culprit(problem, trace)
        cause, mend, word = told(problem, self)
        source = self.own.texts.get(name)
        if source is None:
            place = Place(self.own.folder)
            cause = f"a page can't be made with this theme: {cause}"
        else:
            place = in_line(source.place(line), word)
        return Finding(Severity.ERROR, place, cause, mend)

    def _culprit(self, problem: Exception, trace: TracebackType | None) -> tuple[str, int]:
        """Return the innermost of the theme's own templates that was at work, and its line."""
        if isinstance(problem, TemplateSyntaxError) and problem.name in self.own.texts:
            return str(problem.name), problem.lineno
        found = "", 1
        while trace is not None:
            template = trace.tb_frame.f_globals.get("__jinja_template__")
            if template is not None and template.name in self.own.texts:
                found = template.name, template.get_corresponding_lineno(trace.tb_lineno)
            trace = trace.tb_next
        return found


def loader(own: OwnTheme, ours: Path) -> BaseLoader:
    """Return where templates come from: what was read of the book's theme, then ours."""
    plain = FileSystemLoader(ours)
    held = {name: source.text for name, source in own.texts.items()}
    return ChoiceLoader([DictLoader(held), plain, PrefixLoader({OURS: plain})])


def in_line(place: Place, word: str) -> Place:
    """Return the place of a word within a line, or of the line's first letter."""
    found = re.search(rf"(?<!\w){re.escape(word)}(?!\w)", place.excerpt) if word else None
    if found:
        return place.within(found.start(), len(word))
    text = place.excerpt.strip()
    return place.within(place.excerpt.find(text), len(text))


def told(  # noqa: PLR0911 - one for each kind
    problem: Exception, templates: Environment
) -> tuple[str, str, str]:
    """Return cause and mend of what went wrong in a template, and the word that shows where."""
    match problem:
        case TemplateSyntaxError():
            cause = f"this template can't be read: {_sentence(problem.message or '')}"
            return cause, "compare it with the same file in themes/plain.", ""
        case TemplateNotFound():
            name = str(problem.name or problem.message or "")
            return (
                f'there is no template "{name}"',
                did_you_mean(name, templates.list_templates(), "name a file of the theme."),
                name,
            )
        case SecurityError():
            return (
                f"a template may not do this: {_sentence(str(problem))}",
                "show values as they are, without calling what belongs to the program.",
                "",
            )
        case UndefinedError() if found := _NO_PARENT.search(str(problem)):
            return (
                f'there is nothing above the block "{found["block"]}" that super() could show',
                f'begin the file with a line such as {{% extends "{OURS}/recipe.html" %}}.',
                "super",
            )
        case UndefinedError():
            found = _MISSING.search(str(problem))
            name = next((one for one in found.groups() if one), "") if found else ""
            known = known_names(templates)
            return (
                f'no page has a "{name}" here' if name else _sentence(str(problem)),
                did_you_mean(name, known, "compare it with the same file in themes/plain."),
                name,
            )
        case RecursionError():
            return (
                "this template is made of itself, without end",
                f'write "{OURS}/" before the name of ours that it extends or includes.',
                "",
            )
        case TemplateError() | _:
            return (
                f"this can't be worked out: {_sentence(str(problem) or type(problem).__name__)}",
                "compare it with the same file in themes/plain.",
                "",
            )


def _sentence(message: str) -> str:
    """Return a message of the template language as a part of a sentence."""
    return " ".join(message.split()).rstrip(".").replace("'", '"')


def known_names(templates: Environment) -> set[str]:
    """Return every name and attribute that our own templates use."""
    found: set[str] = set()
    for name in templates.list_templates(filter_func=lambda one: one.startswith(f"{OURS}/")):
        source, _, _ = templates.loader.get_source(templates, name)  # type: ignore[union-attr]
        found |= set(re.findall(r"(?<![\w'\"])[a-z]\w+", "".join(_code(source))))
    return found


def _code(source: str) -> Iterator[str]:
    return (found[0] for found in re.finditer(r"(?s)\{[{%].*?[%}]\}", source))
