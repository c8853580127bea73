"""The page "When something is amiss", made of the mistakes that the tests plant.

Each is planted into the sound book of `tests/newcomer/test_sixty_mistakes.py`, and what the
program says of it is what the page shows; so the page says what the program says.
"""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.manuscript.drafting import markdown_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.findings import Finding

HEAD: Final = """\
---
title: When something is amiss
order: 14
---
What the program says, and what to do then, by the file in which it is said. This page is made of
the mistakes that its own tests plant, so these are its own words. In each entry stands what was
written, what is said of it, and the mend.

An error keeps a book from being bound, so that nobody cooks by half of it; the last book that was
bound stays as it is. A warning lets it through. All of them are shown at once, though some show
only when others are mended.
"""
FILES: Final = {
    "book.yaml": "In book.yaml",
    "larder.yaml": "In larder.yaml",
    "recipes": "In a recipe",
    "menus": "In a menu",
    "pages": "In a page of your own",
    "stock.csv": "In stock.csv",
    "drying-log.csv": "In drying-log.csv",
    "replies": "In a reply",
    "images": "In a picture",
    "theme": "In a theme",
}
MISNAMED: Final = "Files under another name"


def when_amiss(tests: Any) -> str:  # noqa: ANN401 - a module that is no part of a package
    """Return the page as Markdown, of the module that plants the mistakes."""
    sections: dict[str, list[str]] = {heading: [] for heading in (*FILES.values(), MISNAMED)}
    with tempfile.TemporaryDirectory() as folder:
        for at, (name, row) in enumerate(tests.MISTAKES.items()):
            book = tests.write(Path(folder) / str(at), tests.planted(row, row.wrong))
            (found,) = tests.found_in(book)
            sections[FILES[row.file.split("/")[0]]] += entry(name, _written(row.wrong), found)
        for at, (name, row) in enumerate(tests.MISNAMED.items()):
            files = {one: text for one, text in tests.SOUND.items() if one != row.file}
            book = tests.write(Path(folder) / f"n{at}", files | {row.wrong: tests.SOUND[row.file]})
            where = row.found or row.wrong
            (found,) = [one for one in tests.found_in(book) if one.place.path == where]
            sections[MISNAMED] += entry(name, row.wrong, found)
    parts = [f"## {heading}\n\n" + "\n".join(said) for heading, said in sections.items() if said]
    return HEAD + "\n" + "\n".join(parts)


def entry(name: str, written: str, found: Finding) -> Iterator[str]:
    """Give the lines of one entry: what was written, what is said of it, and the mend."""
    mark = "``" if "`" in written else "`"
    yield f"- **{name[0].upper()}{name[1:]}.** {mark}{written}{mark}"
    yield ""
    yield f"  {_sentence(found.cause)} *Mend:* {markdown_text(found.mend)}"
    yield ""


def _written(wrong: str) -> str:
    """Return the first line of a mistake that says something."""
    return next((line.strip() for line in wrong.splitlines() if line.strip()), wrong.strip())


def _sentence(cause: str) -> str:
    text = markdown_text(cause[0].upper() + cause[1:])
    return text if text.endswith((".", "!")) else f"{text}."
