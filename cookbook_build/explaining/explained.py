"""One key explained: for a cook, in a sentence or two."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Explained:
    """What a key means, and what happens where it is not written.

    `example` stands as it does after the colon; left out, it is the first of the key's type.
    `usual` is the value taken where none is written and the model itself names none.
    """

    means: str
    without: str = ""
    example: str = ""
    usual: str = ""
    choices: Mapping[str, str] = field(default_factory=dict)


Group = Mapping[str, Explained]
"""The keys of one group, by the names that an author writes."""
