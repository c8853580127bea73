"""One sign over and over, in each kind of text: an expression that goes back and forth is slow.

Texts are as long as the reader of each kind lets through, so that what grows with the square of
their length, or its cube, takes far longer than the limit.
"""

from __future__ import annotations

import time
from itertools import product
from typing import TYPE_CHECKING, Final

import pytest

from cookbook_build.findings import Findings, Place, described
from cookbook_build.manuscript.body import check_body, read_body
from cookbook_build.manuscript.ingredients import read_ingredient
from cookbook_build.manuscript.larder import Larder
from cookbook_build.manuscript.logs import read_logs
from cookbook_build.manuscript.replies import read_replies
from cookbook_build.manuscript.source import Source
from tests.figures import figure

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

HEAD: Final = "store,lot,packed on,container,grams\n"
SIGNS: Final = (
    " ", "\t", "1", "1 ", "1/", "/", "-", "a", "a ", ".", ",", "(", ")", "[", "]", "{", "}", "{a ",
    "{water: ", '"', "'", "*", "_", "`", "<", "&", "\\", "|", "#", ":", "½", "1½ ", "cup ", "or ",
    "+ ", "1 cup ", "–", "é", "\u0301", "(1 g) ", "x1", "1.", "1e", "http://", "www.", "@", "a@",
    "~", "=", "!", "![", "[a](b c", "[a]( ", "1 cup or ", "a, ", "of the ", "\xa0", ">", "> ", "- ",
    "<u>", "</u>", "<u></q>", "*<u>", "<a b", "<br", "\\<u>",
)  # fmt: skip
LEADS: Final = ("", "1", "{a", "[a](")
ENDS: Final = ("x", "!")
SOON_S: Final = 2.0


def as_body(text: str, _: Path) -> Findings:
    """Read a text as that of a page with a few tags."""
    findings = Findings()
    body = read_body(Source.of("pages/a.md", text), text, 1, tags=True)
    check_body(body, findings, components=["a"], images=["a.svg"], addresses=["a"])
    return findings


def as_ingredient(text: str, _: Path) -> Findings:
    """Read a text as a line of ingredients."""
    findings = Findings()
    place = Place("recipes/a.md", 9, 5, 1, text)
    read_ingredient(text[:5000], place.within, findings)
    return findings


def as_letter(text: str, folder: Path) -> Findings:
    """Read a text as each line of a reader's letter."""
    findings = Findings()
    form = "\n".join(
        f"{key}: {text[:5000]}"
        for key in ("Recipe", "Date", "Method", "Servings", "Water poured", "It was", "Altitude")
    )
    (folder / "replies").mkdir(exist_ok=True)
    (folder / "replies/a.txt").write_text(f"{text}\n\n{form}\n{text}\n", encoding="utf-8")
    read_replies(folder, {}, None, set(), findings)
    return findings


def as_log(text: str, folder: Path) -> Findings:
    """Read a text as each cell of a table, and as its heading."""
    findings = Findings()
    row = ",".join([text[:350]] * 5)
    for table in (f"{HEAD}{row}\n", f"{HEAD.strip()}{text[:1900]}\n{row}\n"):
        (folder / "stock.csv").write_text(table, encoding="utf-8")
        read_logs(folder, Larder({}, {}, set()), findings)
    return findings


@pytest.mark.parametrize(("reader", "letters"), [
    (as_body, 20_000), (as_ingredient, 5000), (as_letter, 20_000), (as_log, 2000),
])  # fmt: skip
def test_no_sign_over_and_over_is_read_for_long(
    reader: Callable[[str, Path], Findings],
    letters: int,
    tmp_path: Path,
    record_property: Callable[[str, object], None],
) -> None:
    texts = [
        lead + sign * (letters // len(sign)) + end
        for sign, lead, end in product(SIGNS, LEADS, ENDS)
    ]
    for text in texts:
        began = time.process_time()
        findings = reader(text, tmp_path)
        assert time.process_time() - began < SOON_S, (text[:20], text[-20:])
        assert all(map(described, findings))
    figure(record_property, "texts of one sign over and over, read soon", len(texts))
