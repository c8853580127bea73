"""Whatever becomes of a file's bytes, `proof` says what is wrong: no traceback, and soon.

`COOKBOOK_INPUTS=100000` tries as many; each names its seed when it fails. The demo's files are
changed by bytes, by lines and by pieces that have broken readers before, one in a book or a few;
what stays as it was is not read again, as in the preview, or as many would take days.
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
    from collections.abc import Callable, Sequence
    from pathlib import Path

INPUTS: Final = int(os.environ.get("COOKBOOK_INPUTS", "600"))
RUNS: Final = 4
MOST_S: Final = 2.0
"""Of a processor's time for one input: whoever waits longer takes the program for dead."""
TEXT: Final = frozenset({".md", ".yaml", ".csv", ".txt", ".svg"})
ENDINGS: Final = (".md", ".md", ".md", ".csv", ".txt", ".yaml", ".svg")


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


def chosen(files: Sequence[Path], chance: random.Random) -> list[Path]:
    """Return which files are mutated in one book: seldom those that all others hang on."""
    each = [path for path in files if path.name not in {"book.yaml", "larder.yaml"}]
    if chance.random() < 0.1:
        return [chance.choice([path for path in files if path not in each])]
    found = set()
    for _ in range(chance.choice([1, 1, 2, 4, 8, 12])):
        ending = chance.choice(ENDINGS)
        found.add(chance.choice([path for path in each if path.suffix == ending]))
    return sorted(found)


@pytest.mark.parametrize("run", range(RUNS))
def test_no_mutated_file_ends_in_a_traceback_or_takes_long(
    run: int, tmp_path: Path, record_property: Callable[[str, object], None]
) -> None:
    book, known = small_demo(tmp_path / "book"), Known(Kept(tmp_path / "kept"))
    files = sorted(path for path in book.rglob("*") if path.suffix in TEXT and path.is_file())
    texts = {path: path.read_bytes() for path in files}
    others = list(texts.values())
    tried, refused, proofs = 0, 0, 0
    while tried < INPUTS / RUNS:
        name = f"mutated {run} {proofs}"
        chance = random.Random(name)  # noqa: S311 - names what is tried
        paths = chosen(files, chance)
        for path in paths:
            path.write_bytes(mutated(texts[path], others, chance))
        began = time.process_time()
        try:
            findings = proofed(book, known)
            said = "\n\n".join(map(described, findings))
        except Exception as problem:
            problem.add_note(f"{name}: {[str(path.relative_to(book)) for path in paths]}")
            raise
        finally:
            for path in paths:
                path.write_bytes(texts[path])
        took = time.process_time() - began
        assert took < MOST_S, f"{name}, {paths}: {took:.1f} s"
        assert str(tmp_path) not in said, f"{name} tells where the book lies: {said}"
        assert all(char.isprintable() or char in "\n\t" for char in said), f"{name}: {said!r}"
        tried, refused, proofs = tried + len(paths), refused + bool(findings.errors), proofs + 1
    assert refused > proofs / 4
    assert not proofed(book, known).errors
    figure(record_property, "mutated files proofed without a traceback, soon", tried)
    figure(record_property, "books that they stood in", proofs)
    figure(record_property, "books with errors among them", refused)
