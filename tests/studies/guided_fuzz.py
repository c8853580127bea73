"""Inputs that a fuzzer finds by what they reach in the code, for as long as one likes.

`python tests/studies/guided_fuzz.py -max_total_time=600`, with the package `atheris` beside ours
(not in our lock: it has wheels for few systems). A text becomes a line of ingredients, an amount,
a page, the front matter of a recipe, a stock and a letter, by its first byte; each must be read,
or end in findings. What breaks is written into a file `crash-…`, to be named as an argument.
"""

from __future__ import annotations

import contextlib
import functools
import sys
import tempfile
from pathlib import Path

try:
    import atheris
except ImportError:  # the module is read where tests are looked for, and does nothing there
    atheris = None

sys.path.insert(0, str(Path(__file__).parents[2]))

with (
    atheris.instrument_imports(include=["cookbook_build"]) if atheris else contextlib.nullcontext()
):
    from cookbook_build.findings import Findings, Place, described
    from cookbook_build.manuscript.body import check_body, read_body
    from cookbook_build.manuscript.ingredients import read_ingredient
    from cookbook_build.manuscript.larder import Larder
    from cookbook_build.manuscript.logs import read_logs
    from cookbook_build.manuscript.recipes import read_recipe
    from cookbook_build.manuscript.replies import read_replies
    from cookbook_build.manuscript.source import read_text_of
    from cookbook_build.measures.amounts import read_amount
    from cookbook_build.measures.numbers import NumberError


def tried(folder: Path, data: bytes) -> None:
    """Read some bytes as one kind of text."""
    kind, held, findings = data[:1], data[1:], Findings()
    source = read_text_of("recipes/a.md", held, findings)
    text = source.text if source else ""
    match kind[0] % 6 if kind else 0:
        case 0:
            read_ingredient(text[:5000], Place("recipes/a.md", 9, 5, 1, text).within, findings)
        case 1:
            try:
                read_amount(text)
            except NumberError as problem:
                assert problem.mend  # noqa: PT017 - no test, and either is right
        case 2 if source:
            body = read_body(source, text, 1, tags=text.startswith("<"))
            check_body(body, findings, components=["a"], images=["a.svg"], addresses=["a"])
        case 3 if source:
            read_recipe(source, findings)
        case 4:
            (folder / "stock.csv").write_bytes(b"store,lot,packed on,container,grams\n" + held)
            read_logs(folder, Larder({}, {}, set()), findings)
        case 5:
            (folder / "replies/a.txt").write_bytes(held)
            read_replies(folder, {}, None, set(), findings)
        case _:
            pass
    for finding in findings:
        assert described(finding)
        assert finding.cause
        assert finding.mend


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as name:
        (Path(name) / "replies").mkdir()
        atheris.Setup(sys.argv, functools.partial(tried, Path(name)))
        atheris.Fuzz()
