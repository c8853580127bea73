"""The books to begin from: every line explained, everything in them works, answers fill them."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import yaml
from hatchling.builders.wheel import WheelBuilder
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cookbook_build.findings import Findings, described
from cookbook_build.manuscript.collection import Manuscript, read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.proofing import check_all
from cookbook_build.starter.answers import (
    MEASURES,
    QUESTIONS,
    AnswerError,
    read_altitude,
    read_language,
    read_measures,
    read_title,
)
from cookbook_build.starter.files import as_written, filled, languages, starter_files, usual

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

EXPLANATION = re.compile(r"\s*##")
LATER = re.compile(r"^# ", re.MULTILINE)
FILES = [(language, name) for language in languages() for name in starter_files(language)]


def written(folder: Path, files: Mapping[str, str]) -> Path:
    """Write files into a folder."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")
    return folder


def proofed(folder: Path) -> tuple[Manuscript, list[str]]:
    """Return the book of a folder, and all that proof would say of it."""
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None, "\n".join(described(found) for found in findings)
    check_all(reckoned(book, findings), findings)
    told = [found for found in findings if found.severity in {"error", "warning"}]
    return book, [described(found) for found in told]


def used(text: str) -> str:
    """Return a file with every line that is for later taken into use."""
    return LATER.sub("", text)


def matter(name: str, text: str) -> str:
    """Return the part of a file that is YAML."""
    return text.split("---\n")[1] if name.endswith(".md") else text


def test_there_is_a_book_in_english_and_in_spanish() -> None:
    assert {"en", "es"} <= set(languages())
    for language in languages():
        names = list(starter_files(language))
        assert {"book.yaml", "larder.yaml"} <= set(names)
        parts = [name.split("/")[0] for name in names if "/" in name]
        assert [parts.count(part) for part in ("recipes", "menus", "pages")] == [2, 1, 1]


def test_the_wheel_carries_them() -> None:
    root = Path(__file__).parents[3]
    carried = {file.distribution_path for file in WheelBuilder(str(root)).recurse_included_files()}
    for language in languages():
        for name in starter_files(language):
            assert f"cookbook_build/starter/{language}/{name}" in carried


def test_the_two_languages_hold_the_same_keys() -> None:
    keys = re.compile(r"^(?:# )?( *(?:- )?[a-z][a-z ]*):(?: |$)", re.MULTILINE)
    english, spanish = (
        [key for key in keys.findall(starter_files(tag)["book.yaml"]) if key.strip() in KNOWN]
        for tag in ("en", "es")
    )
    assert english == spanish
    assert {key.strip() for key in english} == KNOWN


TOLD_TOGETHER = {("series: ", "part: 1"), ("series: ", "part: 2"), ("# date: ", "# packed")}
KNOWN = {
    "title", "subtitle", "author", "language", "measures", "altitude", "altitudes", "allergens",
    "servings", "contact", "address", "licence", "largest file", "cards", "series", "kit", "bowl",
    "pot", "stove", "microwave", "jar", "dryer", "pouches", "jars", "shelf", "absorbers", "labels",
}  # fmt: skip


@pytest.mark.parametrize(("language", "name"), FILES)
def test_every_key_has_its_explanation_right_above(language: str, name: str) -> None:
    lines = matter(name, starter_files(language)[name]).splitlines()
    unexplained = [
        line
        for above, line in pairwise(["", *lines])
        if re.match(r"(# )?\w[\w ]*:|#   [a-z]+: [{\[]", line)
        if not EXPLANATION.match(above) and (above[:8], line[:8]) not in TOLD_TOGETHER
    ]
    assert unexplained == []
    assert any(EXPLANATION.match(line) for line in lines)


@pytest.mark.parametrize(("language", "name"), FILES)
def test_lines_are_no_wider_than_an_editor(language: str, name: str) -> None:
    prose = [line for line in starter_files(language)[name].splitlines() if "{" not in line]
    assert max(map(len, prose)) <= 100


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("measures", MEASURES)
def test_a_new_book_has_nothing_to_mend(tmp_path: Path, language: str, measures: str) -> None:
    files = filled(starter_files(language), {"measures": measures, "language": language})
    book, told = proofed(written(tmp_path, files))
    assert told == []
    assert (book.book.language, book.book.measures) == (language, measures)


@pytest.mark.parametrize("language", languages())
def test_every_line_that_is_for_later_works(tmp_path: Path, language: str) -> None:
    files = {name: used(text) for name, text in starter_files(language).items()}
    assert files != starter_files(language)
    book, told = proofed(written(tmp_path, files))
    assert told == []
    assert book.book.kit.dryer
    assert book.book.contact
    assert book.book.series
    assert any(store.keys.raw for store in book.larder.stores.values())


@pytest.mark.parametrize("language", languages())
def test_each_line_of_book_yaml_that_is_for_later_works_alone(
    tmp_path: Path, language: str
) -> None:
    files = starter_files(language)
    blocks = re.findall(r"^# \w.*\n(?:#   .*\n|##   .*\n)*", files["book.yaml"], re.MULTILINE)
    assert len(blocks) > 8
    for at, block in enumerate(blocks):
        text = files["book.yaml"].replace(block, used(block))
        _, told = proofed(written(tmp_path / str(at), {**files, "book.yaml": text}))
        assert told == [], block


def test_one_meal_was_tested_and_one_was_not() -> None:
    for language in languages():
        texts = [t for name, t in starter_files(language).items() if name.startswith("recipes/")]
        assert sorted(bool(re.search("^tested:", text, re.MULTILINE)) for text in texts) == [
            False,
            True,
        ]


def test_feet_of_an_answer_go_on_to_the_camp_card() -> None:
    text = filled(starter_files("en"), {"altitude": "1000 ft"})["book.yaml"]
    assert "\naltitude: 1000 ft\n" in text
    assert "\naltitudes: feet\n" in text


def test_without_answers_the_files_stay_as_they_are() -> None:
    for language in languages():
        answers = {question.key: usual(language)[question.key] for question in QUESTIONS}
        assert filled(starter_files(language), answers) == starter_files(language)


AWKWARD = r"""
    ~ | null | yes | 12:30 | 2026-02-30 | - a | # hash | a # b | a: b | a: | ' | " | '' | ""
    \ | \n | {water} | {a: b} | [a] | &a | *a | !a | %a | @a | `a | > a | ? a | --- | ... | = | <<
    1e3 | <b>&amp; | {{ 7 * 7 }} | {% raw %} | größe | עברית | 🍲
"""
CODED = ["| a", "\U0001f469\u200d\U0001f373 cena", "\u200fa", "e\u0301"]


@pytest.mark.parametrize("title", [*re.split(r"\s*[|\n]\s*", AWKWARD.strip()), *CODED])
def test_an_awkward_title_is_that_very_title(tmp_path: Path, title: str) -> None:
    findings = Findings()
    book = read_book(written(tmp_path, filled(starter_files("en"), {"title": title})), findings)
    assert book is not None
    assert book.book.title == title
    assert not list(findings)


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(typed=st.one_of(st.text(max_size=60), st.text(":\"#'{}[]&*!|>%@`-?, \\~", max_size=12)))
def test_whatever_is_typed_as_a_title_is_that_very_title(tmp_path: Path, typed: str) -> None:
    try:
        title = read_title(typed)
    except AnswerError as problem:
        assert re.search(r"at least one letter|can't be seen", str(problem))  # noqa: PT017 - either
        return
    book, told = proofed(written(tmp_path, filled(starter_files("en"), {"title": title})))
    assert told == []
    assert book.book.title == title
    assert title.split() == typed.split()


@given(st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1).map(str.strip))
def test_an_independent_reader_takes_a_line_for_the_same_text(text: str) -> None:
    """The YAML loader of PyYAML, with its own types, reads back what was written."""
    if text and not re.search("[\u2028\u2029\ufffe\uffff]", text):
        assert yaml.safe_load(f"key: {as_written(text)}\nother: 1") == {"key": text, "other": 1}


@pytest.mark.parametrize(
    ("read", "typed", "taken"),
    [
        (read_title, "  A book\nof two lines ", "A book of two lines"),
        (read_measures, "US", "us-cups"),
        (read_measures, "metric cups", "metric-cups"),
        (read_measures, "l", "label-cups"),
        (read_altitude, " 1000 ft ", "1000 ft"),
        (read_language, "ES", "es"),
        (read_language, "Español", "es"),
        (read_language, "es-MX", "es-MX"),
        (read_language, "English", "en"),
    ],
)
def test_an_answer_is_taken_as_people_write_it(
    read: Callable[[str], str], typed: str, taken: str
) -> None:
    assert read(typed) == taken


@pytest.mark.parametrize(
    ("key", "typed", "said"),
    [
        ("title", " ", "at least one letter"),
        ("title", "Bowls \u202efdp", "can't be seen is in this title (U+202E)"),
        ("title", "Bo\u200bwls", "can't be seen is in this title (U+200B)"),
        ("title", "a\x07b", "U+0007"),
        ("title", "a\udce9", "U+DCE9"),
        ("measures", "", "us-cups, metric-cups or label-cups"),
        ("measures", "metrik-cups", "write metric-cups"),
        ("measures", "spoons", "us-cups, metric-cups or label-cups"),
        ("altitude", "high", '"high" does not begin with a number; write it like 310 m.'),
        ("altitude", "310", "m"),
        ("altitude", "90 km", "more than can be meant"),
        ("language", "fr", 'there is no book to begin from in "fr" yet; write en or es'),
        ("language", "no such", '"no such" is not a language tag'),
    ],
)
def test_an_answer_that_can_not_be_taken_says_why(key: str, typed: str, said: str) -> None:
    question = next(question for question in QUESTIONS if question.key == key)
    with pytest.raises(AnswerError, match=re.escape(said)):
        question.read(typed)
