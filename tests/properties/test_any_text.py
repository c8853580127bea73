"""Nothing that a person types, in any file, gives a traceback."""

from __future__ import annotations

import tempfile
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cookbook_build.findings import Findings, described
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned

DEMO = Path(__file__).parents[2] / "content_demo"
FILES = sorted(
    path.relative_to(DEMO).as_posix() for path in DEMO.rglob("*") if path.suffix in {".yaml", ".md"}
)
TEXTS = {name: (DEMO / name).read_text(encoding="utf-8") for name in FILES}
SNIPPETS = st.sampled_from(
    [
        "",
        "  ",
        ":",
        ": ",
        "- ",
        "#",
        '"',
        "'",
        "{",
        "}",
        "[",
        "]",
        "---",
        "*a",
        "&a",
        "!x",
        "1/0",
        "-1",
        "1e400",
        "NaN",
        "½",
        "cup",
        "to taste",
        "null",
        "~",
        "{water}",
        "```",
        "\n",
        "\t",
        "|",
        ">",
        "?",
        "%",
        "@",
        "\x00",
        "\x85",
        "é",
        "🫖",
        "\xa0",
        "\u200b",
    ]
)


def gather(changed: dict[str, str]) -> None:
    """Read and reckon the demo with some files changed; show what is found."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for path, text in (TEXTS | changed).items():
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            (folder / path).write_text(text, encoding="utf-8", errors="replace")
        findings = Findings()
        book = read_book(folder, findings)
        if book is not None:
            reckoned(book, findings)
        for finding in findings:
            assert described(finding)
            assert finding.cause
            assert finding.mend


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.sampled_from(FILES), st.lists(st.tuples(st.floats(0, 1), SNIPPETS), max_size=4))
def test_the_demo_with_snippets_typed_into_it(name: str, typed: list[tuple[float, str]]) -> None:
    text = TEXTS[name]
    for share, snippet in typed:
        at = int(share * len(text))
        text = text[:at] + snippet + text[at:]
    gather({name: text})


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.sampled_from(FILES), st.floats(0, 1), st.floats(0, 1))
def test_the_demo_with_a_stretch_cut_out(name: str, start: float, length: float) -> None:
    text = TEXTS[name]
    at = int(start * len(text))
    gather({name: text[:at] + text[at + int(length * 80) :]})


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.sampled_from(FILES), st.text(max_size=200))
def test_any_text_in_the_place_of_a_file(name: str, text: str) -> None:
    gather({name: text})
