"""Whatever is brought: no traceback, a draft that reads back, and no word lost."""

from __future__ import annotations

import json
import re
import tempfile
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cookbook_build.findings import Findings, described
from cookbook_build.manuscript.body import read_body
from cookbook_build.manuscript.brought.files import read_brought
from cookbook_build.manuscript.brought.lines import Shelf
from cookbook_build.manuscript.brought.recipe import Brought, Piece
from cookbook_build.manuscript.brought.signs import one_line, without_markup
from cookbook_build.manuscript.drafting import drafted, free_address, markdown_text
from cookbook_build.manuscript.nodes import Items, Keys, Scalar, read_nodes
from cookbook_build.manuscript.recipes import check_address
from cookbook_build.manuscript.source import Source

SETTINGS = settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
PIECES = st.sampled_from([
    "Lentil bowl", "Ingredients", "Ingredients:", "Method", "INGREDIENTES", "Elaboración:",
    "Serves 2", "1 cup lentils", "rice 1 cup", "• 2 tbsp chopped leeks", "1) 200 g carrots",
    "salt to taste", "1 x onion", "pepper", "leeks\t2 tbsp", "1 cup rice      2 tbsp leeks",
    "| salt | 1 tsp |", "---", "1. Boil the water.", "Stir {water} well & *wait* for a while.",
    "For the sauce:", "# Bowl", "", "By the aunt", "Source: a tin", "https://example.org/bowl",
    "Prep time: 5 min", "Notes: cold", "```", "title: x", "null", "~", "- - -", "'", '"',
    "{a: b}", "&x *x !x", "%", "@", "con", "…", "½ cup oats", "\u202eevil\u202c",
    "<b>bold</b> &amp; <script>x</script>", "[a](b.md) ![c](d.svg)", "\\", "1/0 cup", "٣ cups",
    "🫖", "e\u0301clair", "2 cups hot water", "Makes 12 oatcakes", "> said", "a" * 400,
])  # fmt: skip
LINES = st.lists(PIECES | PIECES | PIECES | st.text(max_size=30), max_size=9)
ONE_AT_LEAST = st.sampled_from([["1 cup lentils"], ["- leeks, 2 tbsp"], ["3. 20 g barley"], []])
TEXTS = st.tuples(LINES, ONE_AT_LEAST, LINES).map(
    lambda parts: "\n".join(line for part in parts for line in part)
)
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | PIECES | st.text(max_size=20),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(["@type", "@id", "name", "text", "itemListElement", "url", "value"]),
            inner,
            max_size=4,
        )
    ),
    max_leaves=8,
)
RECIPES = st.fixed_dictionaries(
    {"@type": st.just("Recipe"), "name": PIECES | JSON},
    optional={
        "recipeIngredient": st.lists(PIECES, max_size=5) | JSON,
        "recipeInstructions": st.lists(PIECES, max_size=5) | JSON,
        "recipeYield": JSON, "author": JSON, "url": JSON, "image": JSON, "description": JSON,
        "prepTime": JSON, "keywords": JSON, "nutrition": JSON, "license": JSON,
    },
)  # fmt: skip


def brought(data: bytes, name: str) -> tuple[list[Brought], Findings]:
    """Return what a file of these bytes holds; every finding can be shown."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / name
        path.write_bytes(data)
        findings = Findings()
        recipes = read_brought(path, findings)
    for finding in findings:
        assert described(finding)
        assert finding.place.line >= 1
        assert finding.place.column >= 1
    return recipes, findings


def keys_of(text: str) -> dict[str, object]:
    """Return the front matter of a draft as our own reader has it."""
    matter = text.split("\n---\n", maxsplit=1)[0].removeprefix("---\n") + "\n"
    findings = Findings()
    node = read_nodes(Source.of("a.md", text), findings, matter)
    assert not list(findings)
    assert isinstance(node, Keys)
    return {key.text: value for key, value in node.pairs}


def check_reads_back(recipe: Brought) -> str:
    """Return the draft of a recipe, once it says what the recipe says."""
    text = drafted(recipe, Shelf(), came_from="a.txt")
    assert Source.of("a.md", text).text == text
    keys = keys_of(text)
    title, listed = keys["title"], keys["ingredients"]
    assert isinstance(title, Scalar)
    assert title.text == (recipe.title or "A recipe without a title")
    assert not title.is_empty
    assert isinstance(listed, Items)
    assert all(isinstance(item, Scalar) and not item.is_empty for item in listed.items)
    waters = text.count("(the book says how much to pour)")
    assert len(listed.items) + waters >= len(recipe.lines) >= len(listed.items)
    assert {"title", "kind", "ingredients"} <= set(keys) <= {
        "title", "kind", "ingredients", "serves", "makes", "blurb",
    }  # fmt: skip
    return text


def words(text: str) -> set[str]:
    """Return the words of a text of three letters and more."""
    return {word.casefold() for word in re.findall(r"[^\W\d_]{3,}", one_line(text))}


@SETTINGS
@given(TEXTS)
def test_any_text_is_drafted_without_losing_a_word(text: str) -> None:
    recipes, findings = brought(text.encode("utf-8", "replace"), "a.txt")
    assert recipes or findings.errors
    for recipe in recipes:
        said = check_reads_back(recipe)
        shown = re.sub(r"\\(.)", r"\1", said)
        lost = words(text.encode("utf-8", "replace").decode()) - words(shown) - words(said)
        assert lost <= {"ingredients"}  # the heading, which is our key
        assert not lost or "ingredients:" in said


@SETTINGS
@given(st.binary(max_size=300), st.sampled_from(["a.txt", "a.html", "a.json", "a", "a.md"]))
def test_any_bytes_give_a_draft_or_a_finding(data: bytes, name: str) -> None:
    recipes, findings = brought(data, name)
    assert recipes or findings.errors
    for recipe in recipes:
        check_reads_back(recipe)


@SETTINGS
@given(RECIPES)
def test_any_recipe_of_a_page_is_drafted(node: dict[str, object]) -> None:
    text = json.dumps({"@graph": [node, {"@id": "#a", "name": "A"}]}).replace("</", "<\\/")
    recipes, _ = brought(
        f'<html><script type="application/ld+json">{text}</script></html>'.encode(), "a.html"
    )
    for recipe in recipes:
        check_reads_back(recipe)


@SETTINGS
@given(st.text(max_size=80) | PIECES)
def test_any_line_of_a_stranger_stays_text(text: str) -> None:
    source = Source.of("a.md", f"1. {markdown_text(text)}\n")
    for token in read_body(source, source.text, 1).tokens:
        for inner in token.children or ():
            assert inner.type in {"text", "text_special", "softbreak"}
    shown = "".join(
        inner.content
        for token in read_body(source, source.text, 1).tokens
        for inner in token.children or ()
    )
    assert shown == one_line(text)


@SETTINGS
@given(st.text(max_size=200) | PIECES, st.sets(PIECES))
def test_any_title_gives_an_address_that_a_book_takes(title: str, taken: set[str]) -> None:
    address = free_address(title, taken)
    findings = Findings()
    check_address(address, Source.of("a.md", "x").place(1), findings)
    assert not list(findings)
    assert len(address) <= 80
    assert address not in {name.casefold() for name in taken}
    assert address.split(".")[0] not in {"con", "prn", "aux", "nul", "com1", "lpt9"}


@SETTINGS
@given(st.text(max_size=60) | PIECES)
def test_text_without_markup_keeps_its_words(text: str) -> None:
    if "<" not in text and "&" not in text:
        assert without_markup(text) == text


def test_a_long_line_is_no_burden() -> None:
    recipe = Brought(
        Source.of("a", "").place(1), "Bowl", (Piece("line", "1 cup " + "rice 1 " * 20_000),)
    )
    assert len(drafted(recipe, Shelf(), came_from="a.txt")) > 100_000
