"""Checks a book's own theme: names, styles and templates as they stand, then every page with it."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING, Final

from jinja2 import nodes

from cookbook_build.findings import did_you_mean, nearest, one_of
from cookbook_build.manuscript.own_theme import CARRIED, STYLE, TEMPLATES
from cookbook_build.publishing.own_templates import OURS, OwnTemplates, ThemeFaultError, in_line
from cookbook_build.publishing.renditions import RefusedPictureError
from cookbook_build.publishing.style_check import (
    file_of,
    is_within,
    reaches_out,
    read_style,
    rule_faults,
)
from cookbook_build.publishing.theme import (
    ADDED,
    MADE_BY_BOOK,
    TAKEN_TOGETHER,
    bare,
    theme_of,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from jinja2 import Environment

    from cookbook_build.findings import Findings, Place
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.own_theme import OwnTheme
    from cookbook_build.manuscript.source import Source
    from cookbook_build.planning.reckoning import Reckoning
    from cookbook_build.publishing.pictures import Pictures
    from cookbook_build.publishing.theme import Theme

MAY_NAME_FILES: Final = ("style.css", ADDED, "epub/epub.css", f"epub/{ADDED}")
"""The styles whose addresses are looked up in the theme; others stand elsewhere in the book."""
CAUTION: Final = "cautions"


def check_theme(book: Manuscript, findings: Findings) -> None:
    """Report what is wrong with a book's own theme, without making a page."""
    theme = theme_of(book)
    if theme.own is None:
        return
    read = {
        name: tree
        for name, source in theme.own.templates.items()
        if (tree := _read(theme, source, name, findings)) is not None
    }
    used = {name for tree in read.values() for name, _ in _named(tree)}
    _check_names(theme, theme.own, used, findings)
    for name, source in theme.own.styles.items():
        _check_style(theme.own, name, source, findings)
    for name, tree in read.items():
        _check_template(theme, theme.own, name, tree, findings)


def check_pages(reckoning: Reckoning, pictures: Pictures, findings: Findings) -> None:
    """Make every page with a book's own templates, write none, and report what went wrong."""
    from cookbook_build.publishing.epub import epub_volumes  # noqa: PLC0415 - needs pictures
    from cookbook_build.publishing.pages import Pages  # noqa: PLC0415 - needs pictures

    templates = theme_of(reckoning.book).templates
    if not isinstance(templates, OwnTemplates):
        return
    templates.heard = findings
    pages = Pages(reckoning, templates, pictures)
    made = [pages.render(), *(one.render() for one in epub_volumes(pages))]
    for _ in chain.from_iterable(made):
        pass


def _read(theme: Theme, source: Source, name: str, findings: Findings) -> nodes.Template | None:
    """Return what a template is made of, or None with a finding where it can't be read."""
    try:
        theme.templates.compile(source.text, name)
        return theme.templates.parse(source.text, name)
    except ThemeFaultError as fault:
        findings.gathered.extend(fault.findings)
        return None


def _named(tree: nodes.Template) -> Iterator[tuple[str, int]]:
    """Give each template that another names, and the line."""
    for node in tree.find_all((nodes.Extends, nodes.Include, nodes.Import, nodes.FromImport)):
        held: nodes.Expr = getattr(node, "template")  # noqa: B009 - each of the four has one
        for name in held.items if isinstance(held, nodes.List | nodes.Tuple) else [held]:
            if isinstance(name, nodes.Const) and isinstance(name.value, str):
                yield name.value, node.lineno


def _check_names(theme: Theme, own: OwnTheme, used: set[str], findings: Findings) -> None:
    """Report files that nothing would read."""
    ours = [
        path.relative_to(theme.ours).as_posix()
        for path in sorted(theme.ours.rglob("*"))
        if path.suffix in {*TEMPLATES, STYLE}
    ]
    kept = {*MADE_BY_BOOK, *TAKEN_TOGETHER}
    known = [name for name in (*ours, ADDED, f"epub/{ADDED}") if name not in kept]
    for name, source in own.texts.items():
        if name in used or name in known:
            continue
        place = source.place(1)
        if name in kept:
            findings.error(
                place,
                f"{name} is the program's own, for the pages as a whole",
                f"write rules into {ADDED}, and change the templates of the pages.",
            )
            continue
        near = nearest(name, known)
        otherwise = f"styles go into {ADDED}; a template has the name of the page it changes."
        findings.error(
            place,
            f'no page reads "{name}"',
            f'rename it to "{near}".' if near else otherwise,
        )


def _check_style(own: OwnTheme, name: str, source: Source, findings: Findings) -> None:
    if name not in MAY_NAME_FILES and "{%" in source.text:  # made for the book, and judged then
        return
    named, broken = read_style(source.text)
    for fault in broken:
        place = source.place(fault.line, fault.column, fault.width)
        findings.error(place, fault.cause, fault.mend)
    for fault in rule_faults(source.text):
        place = source.place(fault.line, fault.column, fault.width)
        findings.error(place, fault.cause, fault.mend)
    for one in named:
        if is_within(one.address):
            continue
        place = in_line_after(source, one.line, one.column, one.address)
        _check_address(own, name, one.address, place, findings)


def in_line_after(source: Source, line: int, column: int, word: str) -> Place:
    """Return the place of a word that stands in a line behind a column, or of the column."""
    place = source.place(line, column)
    at = place.excerpt.find(word, column - 1) if word else -1
    return place if at < 0 else place.within(at - column + 1, len(word))


def _check_address(
    own: OwnTheme, name: str, address: str, place: Place, findings: Findings
) -> None:
    file = file_of(address, name)
    if reaches_out(address):
        findings.error(
            place,
            f'"{address}" reaches out of the book',
            "put the file into the theme, and name it there: a book opens without a network.",
        )
    elif file is None:
        findings.error(place, f'"{address}" leads out of the theme', "put the file into the theme.")
    elif name not in MAY_NAME_FILES:
        findings.error(
            place,
            f'"{address}" is named in {name}, which stands elsewhere in the book',
            f"write this rule into {ADDED}.",
        )
    elif "." + file.rpartition(".")[2].casefold() not in CARRIED:
        findings.error(
            place,
            f'"{address}" is neither a font nor a picture that a book carries',
            f"take one that ends in {one_of(CARRIED)}.",
        )
    elif file not in own.files:
        up = "../" * name.count("/")
        findings.error(
            place,
            f'there is no file "{address}" in the theme',
            did_you_mean(address, [up + one for one in own.files], "put it into the theme."),
        )
    else:
        try:
            bare(file, own.files[file])
        except RefusedPictureError as problem:
            findings.error(place, f'the file "{file}" of the theme {problem.cause}', problem.mend)


def _check_template(
    theme: Theme, own: OwnTheme, name: str, tree: nodes.Template, findings: Findings
) -> None:
    source = own.texts[name]
    templates = theme.templates
    known = templates.list_templates()
    for other, line in _named(tree):
        if other == name:
            findings.error(
                in_line(source.place(line), other),
                f'"{name}" is made of itself',
                f'write "{OURS}/{name}" for ours.',
            )
        elif other not in known:
            findings.error(
                in_line(source.place(line), other),
                f'there is no template "{other}"',
                did_you_mean(other, known, f'ours are named like "{OURS}/layout.html".'),
            )
    if tree.find(nodes.Extends) is None:
        _check_whole(theme, source, name, tree, findings)
    elif (blocks := _blocks_above(templates, name, tree)) is not None:
        _check_blocks(source, tree, blocks, findings)


def _check_blocks(
    source: Source, tree: nodes.Template, blocks: dict[str, nodes.Block], findings: Findings
) -> None:
    """Report blocks that nothing above has, which no page would show, and lost cautions."""
    own_blocks = list(tree.find_all(nodes.Block))
    for block in own_blocks:
        nested = any(block is not outer and _holds(outer, block) for outer in own_blocks)
        place = in_line(source.place(block.lineno), block.name)
        if block.name not in blocks and not nested:
            findings.error(
                place,
                f'the template that this one extends has no block "{block.name}"',
                did_you_mean(block.name, blocks, f"use one of {one_of(sorted(blocks))}."),
            )
        elif block.name in blocks and _is_lost(blocks[block.name], block):
            _warn_of_cautions(place, findings)


def _check_whole(
    theme: Theme, source: Source, name: str, tree: nodes.Template, findings: Findings
) -> None:
    """Report what a template that stands in the place of ours must have and has not."""
    if not (theme.ours / name).is_file():
        return
    text = (theme.ours / name).read_text(encoding="utf-8")
    ours = theme.templates.parse(text, name)
    has = {node.name for node in tree.body if isinstance(node, nodes.Macro)}
    has |= {
        one if isinstance(one, str) else one[1]
        for node in tree.find_all(nodes.FromImport)
        for one in node.names
    }
    lacks = [
        node.name for node in ours.body if isinstance(node, nodes.Macro) and node.name not in has
    ]
    if lacks:
        findings.error(
            source.place(1),
            f"{name} lacks {one_of(lacks)}, which other templates take from it".replace(
                " or ", " and "
            ),
            f'begin it with {{% from "{OURS}/{name}" import {", ".join(lacks)} %}}.',
        )
    if _is_lost(ours, tree):
        _warn_of_cautions(source.place(1), findings)


def _warn_of_cautions(place: Place, findings: Findings) -> None:
    findings.warning(
        place,
        "the cautions that ours shows here are gone",
        "show them as ours does, so that nobody eats without having read them.",
    )


def _is_lost(ours: nodes.Node, own: nodes.Node) -> bool:
    """Return whether a part of ours shows cautions and what stands in its place does not."""
    calls_super = any(
        isinstance(node.node, nodes.Name) and node.node.name == "super"
        for node in own.find_all(nodes.Call)
    )
    return _cautions(ours) and not (calls_super or _cautions(own) or own.find(nodes.Block))


def _cautions(tree: nodes.Node) -> bool:
    names = (node.name for node in tree.find_all(nodes.Name))
    attributes = (node.attr for node in tree.find_all(nodes.Getattr))
    return CAUTION in {*names, *attributes}


def _holds(outer: nodes.Node, inner: nodes.Node) -> bool:
    return any(node is inner for node in outer.find_all(nodes.Block))


def _blocks_above(
    templates: Environment, name: str, tree: nodes.Template
) -> dict[str, nodes.Block] | None:
    """Return the blocks of what a template extends, all the way up; None where that is unknown."""
    found: dict[str, nodes.Block] = {}
    seen = {name}
    while (extends := tree.find(nodes.Extends)) is not None:
        held = extends.template
        if not isinstance(held, nodes.Const) or held.value in seen:
            return None
        seen.add(held.value)
        try:
            assert templates.loader is not None
            source, _, _ = templates.loader.get_source(templates, held.value)
            tree = templates.parse(source, held.value)
        except Exception:  # noqa: BLE001 - it has its own finding
            return None
        found = {block.name: block for block in tree.find_all(nodes.Block)} | found
    return found
