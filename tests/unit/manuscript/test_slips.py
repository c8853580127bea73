"""YAML's complaints, moved back to the slip that caused them."""

from __future__ import annotations

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.nodes import read_nodes
from cookbook_build.manuscript.source import Source


@pytest.mark.parametrize(
    ("text", "line", "mend"),
    [
        ("a 1\nb: 2\n", 1, 'write "a: 1"'),
        ("a: 1\nb 2\nc: 3\n", 2, 'write "b: 2"'),
        ("a: 1\nb 2\n", 2, 'write "b: 2"'),
        ("a: 1\nb:2\nc: 3\n", 2, 'write "b: 2"'),
        ("a: {b: 1\nc: 2\n", 1, "close it with }"),
        ("a: [1, 2\nc: 2\n", 1, "close it with ]"),
        ("a: 'b\nc: 2\n", 1, "close it"),
        ("a:\n  - b\n  c\n  - d\n", 3, '"- c"'),
        ("a:\n  - b\n  * c\n", 3, '"- c"'),
        ("a:\n  - b\n   - c\n", 3, 'right below the "- "'),
        ("a: 1\n  b: 2\n", 2, "line keys up"),
        ("a: b: c\n", 1, "quotes"),
        ("a: *b c\n", 1, "quotes"),
        ("a: [1,", 1, "with ] or }"),
        ("a: 1\nb", 2, 'write "b:"'),
        ("a:\n\tb: 2\n", 2, "spaces in place of the tab"),
        ("a:\n  b: 1\n\u2009\u2009c: 2\n  d: 3\n", 3, "type the spaces again"),
    ],
)
def test_the_line_of_the_slip_is_named(text: str, line: int, mend: str) -> None:
    findings = Findings()
    read_nodes(Source.of("a.yaml", "---\n" + text), findings, text, first_line=2)
    (finding,) = findings
    assert finding.place.line == line + 1
    assert mend in finding.mend
