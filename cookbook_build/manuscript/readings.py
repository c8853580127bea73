"""Readings: recipes that were read before, of files whose text is still the same."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from cookbook_build.findings import Findings
from cookbook_build.manuscript.recipes import read_recipe
from cookbook_build.measures.numbers import has_decimal_commas

if TYPE_CHECKING:
    from cookbook_build.manuscript.recipes import Recipe
    from cookbook_build.manuscript.source import Source


@dataclass(slots=True)
class Readings:
    """What came of reading each recipe's file, as long as a book is read again and again."""

    known: dict[str, tuple[Source, bool, Recipe | None, Findings]] = field(default_factory=dict)

    def recipe(self, source: Source, findings: Findings) -> Recipe | None:
        """Return the recipe of a file, or None with findings, as `read_recipe` does."""
        commas = has_decimal_commas()
        before = self.known.get(source.path)
        if before is None or before[:2] != (source, commas):
            found = Findings()
            before = source, commas, read_recipe(source, found), found
            self.known[source.path] = before
        _source, _commas, recipe, found = before
        findings.gathered.extend(found.gathered)
        findings.cut_short |= found.cut_short
        return recipe
