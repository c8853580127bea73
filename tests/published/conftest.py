"""Two shared books: the demo, and one whose every word tries to be markup."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.desk import desk_for
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.pictures import made_pictures
from cookbook_build.publishing.theme import environment, theme_folder

if TYPE_CHECKING:
    from cookbook_build.publishing.desk import Desk

ROOT: Final = Path(__file__).parents[2]
# ends a script, begins a comment, ends a CDATA section, breaks a line in JavaScript, and is no
# character of XML 1.0: as YAML, then as it is read
HOSTILE_YAML: Final = (
    r'"</script><script>alert(1)</script> <!-- ]]> & \u2028\u2029 \uFFFF\x1b {{ 7 * 7 }} ½ 🥣"'
)
HOSTILE: Final = (
    "</script><script>alert(1)</script> <!-- ]]> & \u2028\u2029 \uffff\x1b {{ 7 * 7 }} ½ 🥣"
)
BOOK: Final = f"""\
title: {HOSTILE_YAML}
subtitle: {HOSTILE_YAML}
author: {HOSTILE_YAML}
licence: {HOSTILE_YAML}
contact: larder@example.org
address: https://example.org/näh/
series:
  "Bowls & <b>": {{about: Warm.}}
"""
LARDER: Final = "oats: {food: oats, dried: bought}\n"
RECIPE: Final = f"""\
---
title: {HOSTILE_YAML}
series: "Bowls & <b>"
blurb: {HOSTILE_YAML}
date: 2026-03-02
picture: a & b.svg
picture text: {HOSTILE_YAML}
ingredients: [1 cup oats]
---
1. Pour {{water}} </script> <!-- and wait.
"""


@pytest.fixture(scope="session")
def hostile_words() -> str:
    """Return what the title, the blurb and the rest of the hostile book say."""
    return HOSTILE


@pytest.fixture(scope="session")
def demo_desk() -> Desk:
    """Return the desk of the demo."""
    return desk_of(ROOT / "content_demo")


@pytest.fixture(scope="session")
def hostile_desk(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    """Return the desk of a book whose every word tries to be markup."""
    folder = tmp_path_factory.mktemp("hostile")
    files = {"book.yaml": BOOK, "larder.yaml": LARDER, "recipes/bowl.md": RECIPE}
    files["images/a & b.svg"] = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"/>'
    for name, text in files.items():
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return desk_of(folder)


def desk_of(folder: Path) -> Desk:
    """Return the desk of a book without a finding."""
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None
    found = reckoned(book, findings)
    assert not list(findings), list(findings)
    return desk_for(found, made_pictures(book, findings))


@pytest.fixture(scope="session")
def demo_pages(demo_desk: Desk) -> dict[str, str]:
    """Return the text of every page of the demo by its name."""
    return dict(Pages(demo_desk.reckoning, environment(theme_folder())).render())


@pytest.fixture(scope="session")
def hostile_pages(hostile_desk: Desk) -> dict[str, str]:
    """Return the text of every page of the hostile book by its name."""
    return dict(Pages(hostile_desk.reckoning, environment(theme_folder())).render())
