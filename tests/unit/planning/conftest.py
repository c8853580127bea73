"""A small book for planning tests, written as an author would."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings, described
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import Reckoning, reckoned

if TYPE_CHECKING:
    from pathlib import Path

BOOK = "title: A small book\naltitude: 310 m\n"
LARDER = """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
sweet peppers: {food: sweet red peppers raw, dried: freeze, form: chopped}
leeks: {food: leeks raw, dried: freeze, form: sliced}
carrots: {food: carrots raw, dried: air, form: diced, weighs: 58 g per cup}
yogurt powder: {food: yogurt plain whole milk, dried: freeze, form: powder, weighs: 96 g per cup}
quick oats: {food: oats, dried: bought}
salt: {food: salt, dried: bought}
oatcake: {food: oatcakes, dried: fresh, sold by: piece, weighs: 60 g per piece}
plum sauce: {from: bases/plum-sauce, dried: freeze, form: crumbs, weighs: 74 g per cup}
"""
MEAL = """\
---
title: Lentil bowl
consistency: stew
ingredients:
  - 1 cup lentils
  - 2 tbsp leeks
  - 1 tbsp yogurt powder (optional)
  - 1 oatcake (fresh)
  - 1/8 tsp salt
tested: {method: kettle, water: 3/4 cup + 1 tbsp, rest: 12 min}
---
Pour {water}.
"""
BASE = """\
---
title: Plum sauce
kind: base
ingredients:
  - 1 kg plums
  - 200 g apples (prepared)
  - 100 g water
cooked weight: 900 g
becomes: plum sauce
---
Cook it down.
"""

Reckon = Callable[..., Reckoning]


@pytest.fixture
def reckon(tmp_path: Path) -> Reckon:
    """Return a function that reckons the small book with some of its files changed."""

    def reckon(**changed: str) -> Reckoning:
        files = {
            "book.yaml": BOOK,
            "larder.yaml": LARDER,
            "recipes/bowls/lentil-bowl.md": MEAL,
            "recipes/bases/plum-sauce.md": BASE,
        }
        files |= {name.replace("__", "/"): text for name, text in changed.items()}
        for name, text in files.items():
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        findings = Findings()
        book = read_book(tmp_path, findings)
        assert book is not None
        found = reckoned(book, findings)
        assert not findings.errors, "\n".join(described(f) for f in findings)
        return found

    return reckon
