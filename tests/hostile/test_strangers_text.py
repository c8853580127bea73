"""Recipes come from strangers: whatever their text holds, it stays text on every page.

Into each line of a whole book markup and code are written, wherever the line may still say it, of
each kind into another fifth; the book is bound with them, and no part of a page, an e-book, a feed
or a list is made of it.
"""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, Final

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner
from lxml import etree

from cookbook_build.cli import main
from cookbook_build.findings import Findings
from cookbook_build.kept import Kept
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.known import Known
from cookbook_build.planning.reckoning import reckoned
from tests.figures import figure
from tests.folders import held, within
from tests.properties.author import small_demo

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

MARK: Final = "data-x7q"
MARKUP: Final = (
    f"<i {MARK} onclick=ran()>so</i><script {MARK}>ran()</script>",
    f"<u>so<sub {MARK} onclick=ran()>so</sub></u><q><script {MARK}>ran()</script></q>",
    f"</td></p></title></textarea><img {MARK} src=x onerror=ran()>",
    f"'><svg {MARK} onload=ran()>",
    f"&lt;b {MARK}&gt; &#60;b {MARK}&#62;",
    f"]]><b {MARK}/><!-- {MARK}",
    f"{{{{ 7 * 7 }}}} {{% include '{MARK}' %}} ${{7*7}} #{{7*7}}",
    f"[so](javascript:ran()) ![so](data:text/html,<b {MARK}>) <javascript:ran()>",
    f"[so]: javascript:ran() '{MARK}'",
)
"""Each reads otherwise where somebody forgot to keep text text."""
TEXTS: Final = frozenset({".md", ".yaml", ".csv", ".txt"})


def with_mark(line: str, markup: str) -> str:
    """Return a line that says some markup as well, within the quotes that it ends with."""
    end = re.search(r"""["']?[\]}]?,?$""", line)
    at = end.start() if end else len(line)
    return f"{line[:at]} {markup}{line[at:]}"


def is_sound(book: Path, known: Known) -> bool:
    """Return whether a book has no error."""
    findings = Findings()
    read = read_book(book, findings, steady=known.steady)
    if read is not None:
        reckoned(read, findings, known)
    known.settle()
    return read is not None and not findings.errors


def planted(book: Path, markup: str, turn: int) -> int:
    """Write markup into every fifth line of a book that may hold it; return into how many."""
    known, count = Known(Kept(book.with_name("kept"))), 0
    for path in sorted(path for path in book.rglob("*") if path.suffix in TEXTS):
        lines = path.read_text(encoding="utf-8").split("\n")
        for at, line in enumerate(lines):
            if (at + turn) % 5 or not re.search(r"[a-z]{3}", line):
                continue
            lines[at] = with_mark(line, markup)
            path.write_text("\n".join(lines), encoding="utf-8")
            if is_sound(book, known):
                count += 1
            else:
                lines[at] = line
        path.write_text("\n".join(lines), encoding="utf-8")
    return count


def faults(name: str, data: bytes) -> Iterator[str]:
    """Give what of a file was made of a stranger's markup."""
    if name.endswith((".xhtml", ".opf", ".ncx", ".xml", ".svg")):
        root = etree.fromstring(data, etree.XMLParser(resolve_entities=False))
        parts = [(str(part.tag), dict(part.attrib)) for part in root.iter("*")]
    elif name.endswith(".html"):
        soup = BeautifulSoup(data, "html5lib")
        parts = [(part.name, part.attrs) for part in soup.select("*")]
        for data_block in soup.find_all("script", type="application/ld+json"):
            json.loads(data_block.string or "")
    elif name.endswith((".webmanifest", ".json")):
        json.loads(data)
        return
    else:
        return
    for tag, attributes in parts:
        if any(MARK in key for key in attributes) or any(k.startswith("on") for k in attributes):
            yield f"{name}: <{tag} {attributes}>"
        for key in ("href", "src", "action", "srcset"):
            value = str(attributes.get(key, ""))
            if value.lstrip().casefold().startswith(("javascript:", "data:text", "vbscript:")):
                yield f"{name}: {key}={value}"


@pytest.mark.parametrize("markup", MARKUP)
def test_what_a_stranger_writes_stays_text(
    markup: str, tmp_path: Path, record_property: Callable[[str, object], None]
) -> None:
    book, out = small_demo(tmp_path / "book"), tmp_path / "out"
    for page in ("how-we-dry", "alder-bend"):  # where a few tags are read
        path = book / f"pages/{page}.md"
        text = path.read_text(encoding="utf-8")
        path.write_text(text.replace("\n", "\nhtml: yes\n", 1), encoding="utf-8")
    lines = planted(book, markup, MARKUP.index(markup))
    ran = CliRunner().invoke(main, ["bind", str(book), "--out", str(out)])
    assert ran.exit_code == 0, ran.output
    files = list(within(held(out)))
    assert [fault for name, data in files for fault in faults(name, data)] == []
    shown = sum(MARK.encode() in data or b"7 * 7" in data for _, data in files)
    assert lines > 10
    assert shown > 10
    assert not any(b"7 * 7" not in data and b">49<" in data for _, data in files)
    figure(record_property, "lines of a book with a stranger's markup that stayed text", lines)
