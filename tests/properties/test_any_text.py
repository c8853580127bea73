"""Nothing that a person types, in any file, gives a traceback."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cookbook_build.findings import Findings, Place, described
from cookbook_build.manuscript.checking import read_keys
from cookbook_build.manuscript.collection import read_book
from cookbook_build.manuscript.ingredients import read_ingredient
from cookbook_build.manuscript.nodes import read_nodes
from cookbook_build.manuscript.schema import BookKeys, MenuKeys, RecipeKeys, StoreKeys
from cookbook_build.manuscript.source import Source
from cookbook_build.measures import quantities
from cookbook_build.measures.amounts import whole_amount
from cookbook_build.measures.numbers import NumberError
from cookbook_build.planning.reckoning import reckoned

if TYPE_CHECKING:
    from collections.abc import Callable

    from pydantic import BaseModel

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


READERS: tuple[Callable[[str], object], ...] = (
    quantities.length_m,
    quantities.duration_s,
    quantities.power_w,
    quantities.area_m2,
    quantities.mass_g,
    quantities.temperature_c,
    lambda text: whole_amount(text, "volume"),
    lambda text: whole_amount(text, "weight", "count"),
)
KEYS = sorted(
    info.alias or name
    for model in (RecipeKeys, BookKeys, StoreKeys, MenuKeys)
    for name, info in model.model_fields.items()
)
WORDS = st.lists(
    st.sampled_from([
        "1", "2", "½", "1/2", "1/0", "0", "-1", "2-3", "3-2", "1e9", ",", ".", "/", "+", "-",
        "(", ")", "(60", "g)", "(optional)", "cup", "cups", "tbsp", "T", "t", "g", "oz", "of",
        "to", "taste", "or", "and", "plus", "a", "an", "half", "pinch", "leeks", "large", "é",
        "🫖", "２", "٣", "\xa0", "\u2009",
    ]),
    max_size=8,
)  # fmt: skip


def refusal(reader: Callable[[str], object], text: str) -> NumberError | None:
    """Return the error with which a reader refuses a text, if it does."""
    try:
        reader(text)
    except NumberError as problem:
        return problem
    return None


def within(start: int, width: int) -> Place:
    """Return a place on a line, as long as it is one."""
    assert start >= 0
    assert width >= 0
    return Place("recipes/a.md", 9, 5, 1, "").within(start, width)


@settings(max_examples=400, deadline=None)
@given(WORDS.map(" ".join) | st.text(max_size=60))
def test_any_text_as_an_ingredient_line(text: str) -> None:
    findings = Findings()
    found = read_ingredient(text, within, findings)
    assert (found is None) == bool(findings.errors)
    for finding in findings:
        assert finding.place.column - 5 + finding.place.width <= max(len(text), 1)
        assert described(finding)


@settings(max_examples=400, deadline=None)
@given(WORDS.map("".join) | WORDS.map(" ".join) | st.text(max_size=40))
def test_any_text_as_an_amount_a_quantity_or_a_date(text: str) -> None:
    for reader in READERS:
        problem = refusal(reader, text)
        if problem is not None:
            assert problem.cause
            assert problem.mend
            assert 0 <= problem.start <= max(len(text), 1)


@settings(max_examples=200, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.sampled_from((RecipeKeys, BookKeys, StoreKeys, MenuKeys)),
    st.lists(st.tuples(st.sampled_from(KEYS), WORDS.map(" ".join) | st.text(max_size=20))),
)
def test_any_text_as_the_value_of_a_key(
    model: type[BaseModel], pairs: list[tuple[str, str]]
) -> None:
    text = "".join(f"{key}: {value}\n" for key, value in pairs)
    findings = Findings()
    source = Source.of("a.yaml", text)
    node = read_nodes(source, findings, source.text)
    if node is not None:
        read_keys(model, node, findings, "a thing")
    for finding in findings:
        assert described(finding)
        assert 1 <= finding.place.line <= len(source.lines)
