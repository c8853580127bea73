"""The command that checks a book."""

from __future__ import annotations

import json
import sys
from collections import Counter, defaultdict
from typing import TYPE_CHECKING, Final

import click

from cookbook_build.commands.shared import (
    BOOK,
    book_folder,
    counted,
    reckoned_book,
    show_each,
    within,
)
from cookbook_build.findings import Findings, Severity, described, printable

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

    from cookbook_build.findings import Finding

MOST_ALIKE: Final = 4
"""Suggestions of the same words that are shown one by one on the terminal; our choice."""


@click.command()
@click.argument("book", type=BOOK, required=False)
@click.option("--json", "as_json", is_flag=True, help="Print the findings as JSON, for tools.")
@click.option("--strict", is_flag=True, help="Let warnings count as errors: exit code 1.")
def proof(book: Path | None, *, as_json: bool, strict: bool) -> None:
    """Read and check a book, print what is found, change nothing in it.

    Errors stop a book from being bound, warnings let it through, and suggestions are only
    what might be better. The exit code is 1 where there are errors, else 0.
    """
    from cookbook_build.kept import users_pieces  # noqa: PLC0415 - help needs none of it
    from cookbook_build.planning.known import Known  # noqa: PLC0415 - models load slowly
    from cookbook_build.planning.suggestions import suggest  # noqa: PLC0415 - models load slowly
    from cookbook_build.publishing.proofing import check_all  # noqa: PLC0415 - decoders load slowly

    folder = book_folder(book)
    findings, known = Findings(), Known(users_pieces(folder))
    reckoning = reckoned_book(folder, findings, known)
    if reckoning is not None:
        check_all(reckoning, findings, known)
        if not findings.errors:  # what is wrong comes first, and some of it may be unread
            suggest(reckoning, findings)
    if as_json:
        click.echo(json.dumps([f.as_json() for f in findings], indent=2, ensure_ascii=False))
    else:
        _show_all(findings, folder)
    sys.exit(1 if findings.errors or (strict and findings.warnings) else 0)


def _show_all(findings: Findings, folder: Path) -> None:
    wrong = [*findings.errors, *findings.warnings]
    show_each(wrong, folder)
    if not wrong:
        click.echo("Nothing to mend.")
    for line in _suggested(findings.suggestions, folder):
        click.echo(line)
    if by_file := _by_file(findings):
        click.echo("\n".join(by_file), err=True)
        click.echo(err=True)
    if len(findings):
        more = " More may show once these are mended." if findings.cut_short else ""
        click.echo(counted(findings) + more, err=True)


def _suggested(suggestions: Sequence[Finding], folder: Path) -> Iterable[str]:
    """Give the lines of what might be better; of many alike the first three."""
    if not suggestions:
        return
    yield "What might be better, if you like:"
    alike = Counter((finding.cause, finding.mend) for finding in suggestions)
    shown: Counter[tuple[str, str]] = Counter()
    for finding in suggestions:
        said = finding.cause, finding.mend
        shown[said] += 1
        if alike[said] <= MOST_ALIKE or shown[said] < MOST_ALIKE:
            yield within(folder) + described(finding)
        elif shown[said] == MOST_ALIKE:
            more = alike[said] - MOST_ALIKE + 1
            yield f"  and {more} more files of which the same can be said; --json names them all."
    yield ""


def _by_file(findings: Findings) -> list[str]:
    """Return what was found in each file, aligned, where several have something."""
    files: dict[str, Counter[Severity]] = defaultdict(Counter)
    for finding in findings:
        files[printable(finding.place.path)][finding.severity] += 1
    if len(files) < 2 or not (findings.errors or findings.warnings):
        return []
    kinds = [kind for kind in Severity if any(numbers[kind] for numbers in files.values())]
    width = max(len(name) for name in files)
    return [
        " " * width + "".join(f"  {kind}s" for kind in kinds),
        *(
            f"{name:<{width}}"
            + "".join(f"  {numbers[kind] or '-':>{len(kind) + 1}}" for kind in kinds)
            for name, numbers in sorted(files.items())
        ),
    ]
