"""How large a label's type may be: larger with room, never with a word left out."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cookbook_build.publishing.label_fitting import (
    MODULE_MM,
    POINT_MM,
    QUIET_MODULES,
    TYPES_PT,
    Block,
    code_side,
    fitted,
    room,
    width_em,
)

MUST = [
    Block("Raw turkey mince: cook to 74 °C (165 °F) inside.", bold=True, inset_em=0.5),
    Block("3 servings, 202 g dry. Take the absorber out."),
    Block("Pour 1½ cups + 2 tbsp (388 mL) water, keep back 1 tbsp", 1.2, bold=True),
    Block("Stove, 450 m: stir, bring to the boil, lid on, simmer until 74 °C inside."),
]
HELPS = [Block("Too thick? Add what you kept back, a teaspoon at a time.")]


def test_a_larger_label_never_takes_smaller_type() -> None:
    sizes = []
    for height in range(30, 140, 5):
        fit = fitted("Turkey under mash", "Mash", MUST, [], room(99, height, 26))
        sizes.append(fit.type_pt if fit else 0.0)
    assert sizes == sorted(sizes)
    assert sizes[0] < TYPES_PT[-1] + 2
    assert sizes[-1] == TYPES_PT[0]


def test_a_title_shrinks_before_it_breaks_and_then_breaks_onto_lines() -> None:
    within = room(99, 57, 26)
    short = fitted("Mash", "", MUST, [], within)
    longer = fitted("Beetroot soup with apple", "", MUST, [], within)
    longest = fitted("A supper of lentils and turkey " * 4, "", MUST, [], within)
    assert short
    assert longer
    assert longest
    assert short.title_pt / short.type_pt > longer.title_pt / longer.type_pt
    assert longest.title_pt >= 7
    assert width_em("Beetroot soup with apple", bold=True) * longer.title_pt * POINT_MM <= (
        within.beside
    )


def test_what_only_helps_gives_way_before_the_type_gets_small() -> None:
    roomy, tight = (
        fitted("Mash", "", MUST, HELPS * 5, room(99, height, 26)) for height in (57, 30)
    )
    assert roomy
    assert tight
    assert roomy.extras > tight.extras


def test_a_label_too_small_for_its_words_or_its_square_is_none() -> None:
    assert fitted("Mash", "", MUST, [], room(38, 21, 10)) is None
    assert fitted("Mash", "", MUST[:1], [], room(99, 20, 26)) is None
    assert fitted("Mash", "", MUST[:1], [], room(26, 99, 26)) is None
    assert fitted("Mash", "", MUST[:1], [], room(0, 0, 0)) is None


@given(st.floats(0, 300), st.floats(0, 300), st.sampled_from(range(21, 82, 4)))
def test_no_dot_of_a_square_is_too_small(width: float, height: float, modules: int) -> None:
    # four modules of white on each side: ISO/IEC 18004
    assert code_side(width, height, modules) / (modules + QUIET_MODULES) >= MODULE_MM - 1e-9


@given(st.text(max_size=200), st.text(max_size=60))
def test_any_words_are_fitted_or_refused(title: str, part: str) -> None:
    fit = fitted(title, part, [Block(title)], [], room(99, 57, 26))
    assert fit is None or fit.type_pt in TYPES_PT


@pytest.mark.parametrize("words", ["鍋" * 5, "WWWWW"])
def test_wide_letters_are_counted_wide(words: str) -> None:
    assert width_em(words, bold=True) >= 5
