"""A recipe's text as plain steps."""

from __future__ import annotations

import pytest

from cookbook_build.manuscript.body import read_body
from cookbook_build.manuscript.source import Source
from cookbook_build.publishing.steps import steps

FIGURES = {("water", None): "1\N{NO-BREAK SPACE}cup", ("rest", "Relish"): "7 min"}


def read(text: str) -> tuple[str, ...]:
    body = read_body(Source.of("a.md", text), text, 1)
    return steps(body, lambda name, component: FIGURES[name, component])


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("1. Pour {water}.\n2. Wait {rest: Relish}.", ("Pour 1 cup.", "Wait 7 min.")),
        ("## Mix\n\nCrush it.\n\n1. Pour.\n\n## Notes\n\nGood.", ("Pour.",)),
        ("1. Pour.\n\ntext\n\n1. Wait.", ("Pour.", "Wait.")),
        ("1. One,\n   on *two* `lines`\n\n   and [a link](b.md).\n2. Next.",
         ("One, on two lines and a link.", "Next.")),
        ("1. Outer\n   1. first\n   2. second\n2. Last", ("Outer first second", "Last")),
        ("- 1. inside a plain list\n- so no step", ("inside a plain list so no step",)),
        ("## Head\n\nPour {water}.\n\nWait.", ("Pour 1 cup. Wait.",)),
        ("1.\n2. Second", ("Second",)),
        ("1. ![a bowl](bowl.svg)\n2. Eat.", ("Eat.",)),
        ("```\nkept as it is\n```", ("kept as it is",)),
        ("</script> & <b>", ("</script> & <b>",)),
        ("", ()),
        ("## Only a head", ()),
    ],
)  # fmt: skip
def test_numbered_items_are_steps_and_other_text_is_one(text: str, said: tuple[str, ...]) -> None:
    assert read(text) == said
