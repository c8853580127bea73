"""Whatever becomes of a file's bytes, `proof` says what is wrong: no traceback, and soon.

`COOKBOOK_INPUTS=100000` tries as many; each names its seed when it fails. The demo's files are
changed by bytes, by lines and by pieces that have broken readers before; what stays as it was is
not read again, as in the preview, or as many would take days.
"""

from __future__ import annotations

import os
import random
import time
from typing import TYPE_CHECKING, Final

import pytest

from cookbook_build.findings import Findings, described
from cookbook_build.kept import Kept
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.known import Known
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.own_templates import ThemeFaultError
from cookbook_build.publishing.proofing import check_all
from tests.figures import figure
from tests.properties.author import small_demo
from tests.properties.mutating import mutated

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

INPUTS: Final = int(os.environ.get("COOKBOOK_INPUTS", "600"))
RUNS: Final = 4
MOST_S: Final = 2.0
"""Of a processor's time for one input: whoever waits longer takes the program for dead."""
TEXT: Final = frozenset({".md", ".yaml", ".csv", ".txt", ".css", ".html", ".xhtml", ".svg"})


def proofed(book: Path, known: Known) -> Findings:
    """Return what `proof` finds, as it finds it."""
    findings = Findings()
    read = read_book(book, findings, steady=known.steady)
    if read is not None:
        try:
            check_all(reckoned(read, findings, known), findings, known)
        except ThemeFaultError as fault:
            findings.gathered.extend(fault.findings)
    known.settle()
    return findings


@pytest.mark.parametrize("run", range(RUNS))
def test_no_mutated_file_ends_in_a_traceback_or_takes_long(
    run: int, tmp_path: Path, record_property: Callable[[str, object], None]
) -> None:
    book, known = small_demo(tmp_path / "book"), Known(Kept(tmp_path / "kept"))
    files = sorted(path for path in book.rglob("*") if path.suffix in TEXT and path.is_file())
    texts = {path: path.read_bytes() for path in files}
    others = list(texts.values())
    slowest, refused = 0.0, 0
    for at in range(run, INPUTS, RUNS):
        chance = random.Random(f"mutated {at}")  # noqa: S311 - names what is tried
        path = chance.choice(files)
        path.write_bytes(mutated(texts[path], others, chance))
        began = time.process_time()
        try:
            findings = proofed(book, known)
            said = "\n\n".join(map(described, findings))
        except Exception as problem:
            problem.add_note(f"input {at}, {path.relative_to(book)}")
            raise
        finally:
            path.write_bytes(texts[path])
        took = time.process_time() - began
        assert took < MOST_S, f"input {at}, {path.relative_to(book)}: {took:.1f} s"
        assert str(tmp_path) not in said, f"input {at} tells where the book lies: {said}"
        assert all(char.isprintable() or char in "\n\t" for char in said), f"input {at}: {said!r}"
        slowest, refused = max(slowest, took), refused + bool(findings.errors)
    assert refused > INPUTS / RUNS / 4
    assert not proofed(book, known).errors
    figure(
        record_property, "mutated files proofed without a traceback", len(range(run, INPUTS, RUNS))
    )
    figure(record_property, "mutated files with errors among them", refused)
