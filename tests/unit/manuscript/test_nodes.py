"""YAML is read as text, each value with its place."""

from __future__ import annotations

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.nodes import Items, Keys, Node, Scalar, read_nodes
from cookbook_build.manuscript.source import Source


def read(text: str, first_line: int = 1) -> tuple[Node | None, Findings]:
    """Return the tree of a text and what was found."""
    findings = Findings()
    lines = "\n" * (first_line - 1)
    return read_nodes(Source.of("a.yaml", lines + text), findings, text, first_line), findings


def scalar(text: str, key: str) -> Scalar:
    """Return the value of a key."""
    root, findings = read(text)
    assert not list(findings)
    assert isinstance(root, Keys)
    node = next(value for name, value in root.pairs if name.text == key)
    assert isinstance(node, Scalar)
    return node


@pytest.mark.parametrize("written", ["no", "12:30", "1e3", "010", "~x", "2026-03-02", "0x1F"])
def test_a_value_stays_the_text_that_was_written(written: str) -> None:
    assert scalar(f"key: {written}\n", "key").text == written


@pytest.mark.parametrize("written", ["~", "null", "Null", "NULL"])
def test_quotes_make_a_sign_for_nothing_the_text_itself(written: str) -> None:
    assert scalar(f"key: {written}\n", "key").is_empty
    for mark in "'\"":
        assert not scalar(f"key: {mark}{written}{mark}\n", "key").is_empty
        assert scalar(f"key: {mark}{mark}\n", "key").is_empty


def test_a_place_is_the_line_and_column_of_the_file() -> None:
    root, _ = read("a: 1\nb:\n  - two\n", first_line=5)
    assert isinstance(root, Keys)
    (_, items) = root.pairs[1]
    assert isinstance(items, Items)
    place = items.items[0].place
    assert (place.line, place.column, place.width, place.excerpt) == (7, 5, 3, "  - two")


def test_a_quoted_value_begins_after_its_quote() -> None:
    node = scalar('key: "leeks"\n', "key")
    assert (node.text, node.column, node.width) == ("leeks", 7, 5)
    assert node.within(2, 3).column == 9


def test_a_place_within_a_folded_value_is_the_whole_value() -> None:
    node = scalar("key: >\n  leeks\n  and pears\n", "key")
    assert node.within(4, 2) == node.place


def test_a_group_reaches_to_its_end_on_its_first_line() -> None:
    root, _ = read("a: {b: 1}\nc: [2,\n  3]\n")
    assert isinstance(root, Keys)
    widths = [value.place.width for _, value in root.pairs]
    assert widths == [len("{b: 1}"), len("[2,")]


def test_only_a_key_without_a_value_is_empty() -> None:
    assert scalar("key:\n", "key").is_empty
    assert scalar("key: ~\n", "key").is_empty
    assert not scalar("key: none\n", "key").is_empty


def test_a_second_key_is_found_and_the_first_kept() -> None:
    root, findings = read("a: 1\na: 2\n")
    assert isinstance(root, Keys)
    assert [value.text for _, value in root.pairs if isinstance(value, Scalar)] == ["1"]
    assert [finding.place.line for finding in findings] == [2]


def test_a_refused_value_is_known_as_refused() -> None:
    root, findings = read("a: *b\nc: &d e\nf: !g h\n")
    assert isinstance(root, Keys)
    assert all(value.refused for _, value in root.pairs)
    assert len(findings) == 3


def test_a_line_that_is_refused_is_not_blamed_again() -> None:
    _, findings = read("a: *b c\nd: 1\n")
    assert len(findings) == 1


def test_nested_brackets_end_in_a_finding_not_in_a_stack() -> None:
    root, findings = read("a: " + "[" * 5000)
    assert root is None
    assert len(findings) == 1


def test_an_empty_text_has_no_tree_and_no_finding() -> None:
    root, findings = read("# only a comment\n")
    assert root is None
    assert not list(findings)
