"""What a cook means by another word, and what is said of the words that belong there."""

from __future__ import annotations

from typing import get_args

import pytest

from cookbook_build.manuscript.meanings import CONSISTENCY_WORDS, choice_meant, choices_told
from cookbook_build.manuscript.schema import Consistency

CONSISTENCIES = get_args(Consistency)


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("thick stew", "stew"),
        ("Chunky", "stew"),
        ("soupy", "soup"),
        ("porridge", "scoopable"),
        ("a drink", "drink"),
        ("not soup", None),
        ("stew or soup", None),
        ("blue", None),
    ],
)
def test_a_consistency_is_told_by_its_meaning(said: str, meant: str | None) -> None:
    """Common practice, no source."""
    assert choice_meant(said, CONSISTENCIES) == meant


def test_each_consistency_is_told_in_a_few_words() -> None:
    assert tuple(CONSISTENCY_WORDS) == CONSISTENCIES
    assert "stew (moist, with a little juice round the pieces)" in choices_told(CONSISTENCIES)
    assert choices_told(("right", "thick", "thin")) == ""
