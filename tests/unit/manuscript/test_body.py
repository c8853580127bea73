"""The Markdown of a recipe or a page."""

from __future__ import annotations

import pytest

from cookbook_build.findings import Finding, Findings
from cookbook_build.manuscript.body import (
    body_pictures,
    check_body,
    image_name,
    link_address,
    read_body,
)
from cookbook_build.manuscript.source import Source

IMAGES = ("bowl.svg", "dusk/river.jpg", "grüne Erbsen.jpg", "100%.png")
ADDRESSES = ("lentil-bowl", "about")


def check(
    text: str, components: tuple[str, ...] | None = ("Relish",), *, sound: bool = True
) -> list[Finding]:
    """Return what is found in a text that begins on line 4 of its file."""
    findings = Findings()
    source = Source.of("recipes/a.md", "---\ntitle: A\n---\n" + text)
    check_body(
        read_body(source, text, 4), findings,
        components=components, images=IMAGES, addresses=ADDRESSES, sound=sound,
    )  # fmt: skip
    return list(findings)


@pytest.mark.parametrize(
    "text",
    [
        "Pour {water}, then {start}, keep {hold-back}, wait {rest}, for {servings}.",
        "Stir in {water: Relish} and {rest: relish}.",
        "Not a figure: `{watr}`, { }, {1}, {}.",
        "![A bowl](bowl.svg) ![Dusk](../images/dusk/river.jpg)",
        "![Peas](<grüne Erbsen.jpg>) ![Peas](gr%C3%BCne%20Erbsen.jpg) ![All](100%.png)",
        "[a](lentil-bowl.md) [b](../about.md#top) [c](#here) [d](https://example.org)",
        "[e](mailto:larder@example.org)",
        "```\n{watr}\n```\n",
        "~~~~ text\n```\n~~~~\n",
        "> ```\n> {watr}\n> ```\n",
        "- one\n\n  ```\n  x\n  ```\n",
    ],
)
def test_a_sound_text_gives_no_finding(text: str) -> None:
    assert not check(text)


@pytest.mark.parametrize(
    ("text", "line", "culprit"),
    [
        ("One.\n\nPour {watr} now.\n", 6, "{watr}"),
        ("A paragraph\nof lines, {water: Relsh}\n", 5, "{water: Relsh}"),
        ("![A bowl](bwl.svg)\n", 4, "bwl.svg"),
        ("![Peas](<gelbe Erbsen.jpg>)\n", 4, "gelbe Erbsen.jpg"),
        ("![A bowl](//example.org/a.png)\n", 4, "//example.org/a.png"),
        ("| a | b |\n|---|---|\n| [x](abuot.md) | c |\n", 6, "abuot.md"),
        ("[x](javascript:alert(1))\n", 4, "javascript:alert(1)"),
        ("[x](data:text/html,hi)\n", 4, "data:text/html,hi"),
        ("One.\n\n```\nswallowed\n", 6, "```"),
    ],
)
def test_a_finding_stands_where_its_culprit_does(text: str, line: int, culprit: str) -> None:
    (finding,) = check(text)
    place = finding.place
    assert place.line == line
    assert place.excerpt[place.column - 1 : place.column - 1 + place.width] == culprit


def test_a_figure_has_no_value_outside_a_meal() -> None:
    (finding,) = check("Pour {water}, {anything}.", None)
    assert finding.severity == "warning"


def test_components_of_a_recipe_with_findings_are_not_looked_for() -> None:
    assert not check("Stir in {water: Sauce}.", sound=False)
    assert len(check("Pour {watr}.", sound=False)) == 1


def test_a_picture_goes_by_its_name_within_images() -> None:
    for written in ("bowl.svg", "images/bowl.svg", "./bowl.svg", "../../images/bowl.svg"):
        assert image_name(written) == "bowl.svg"


def test_a_text_s_pictures_are_given_with_their_places() -> None:
    source = Source.of("pages/a.md", "One ![b](<my bowl.jpg>)\n\n![x](https://example.org/a.png)\n")
    ((written, place),) = body_pictures(read_body(source, source.text, 1))
    assert written == "my bowl.jpg"
    assert (place.line, place.column, place.width) == (1, 11, len(written))


def test_an_address_is_the_file_name_without_its_ending() -> None:
    assert link_address("../suppers/lentil-bowl.md#rest") == "lentil-bowl"
    assert link_address("lentil-bowl.html") is None
