"""Somebody who changes whatever stands in the files of a small book, and the book."""

from __future__ import annotations

import re
import shutil
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    import random
    from collections.abc import Callable, Iterator, Mapping

DEMO: Final = Path(__file__).parents[2] / "content_demo"
KEPT: Final = (
    "barley-and-leek-supper", "turkey-under-mash", "raspberry-oats-soaked-cold", "beetroot-soup",
    "turkey-and-mushroom-braise",
)  # fmt: skip
"""A meal of two parts with trials and replies, one of a base that links to it, a cold one, a soup
and a base: all kinds of what a page can hang on."""


def small_demo(folder: Path) -> Path:
    """Return the demo book with few recipes."""
    shutil.copytree(DEMO, folder)
    shutil.rmtree(folder / "pages" / "guide")
    for recipe in (folder / "recipes").rglob("*.md"):
        if recipe.stem not in KEPT:
            recipe.unlink()
    menu = folder / "menus/midsummer-paddle.yaml"
    lines = menu.read_text(encoding="utf-8").splitlines()
    kept = [line for line in lines if "recipe:" not in line or any(k in line for k in KEPT)]
    menu.write_text("\n".join(kept) + "\n", encoding="utf-8")
    larder = folder / "larder.yaml"
    text = larder.read_text(encoding="utf-8")
    larder.write_text(re.sub(r"(?m)^orchard sauce:.*\n(?: .*\n)*", "", text), encoding="utf-8")
    logs = [folder / "stock.csv", folder / "drying-log.csv"]
    for log in logs:
        rows = log.read_text(encoding="utf-8").splitlines()
        log.write_text("\n".join(r for r in rows if "orchard sauce" not in r) + "\n", "utf-8")
    return folder


@dataclass
class Author:
    """Somebody who changes whatever stands in the files of a book."""

    book: Path
    chance: random.Random

    def edit(self) -> str:
        """Change one thing, and return what was done."""
        deeds: list[Callable[[], str]] = [
            self.figure, self.figure, self.figure, self.word, self.word, self.line_twice,
            self.line_gone, self.renamed, self.new_recipe, self.swapped_pictures, self.style,
            self.template, self.key_of_the_book, self.linked, self.spaced, self.dated,
        ]  # fmt: skip
        return self.chance.choice(deeds)()

    def edits(self, times: int) -> Iterator[tuple[str, Callable[[], None]]]:
        """Change one thing after the other; give what was done, and what takes it back."""
        for _ in range(times):
            before = {path: path.read_bytes() for path in self.book.rglob("*") if path.is_file()}
            yield self.edit(), partial(self._take_back, before)

    def _take_back(self, before: Mapping[Path, bytes]) -> None:
        shutil.rmtree(self.book)
        for path, data in before.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)

    def texts(self) -> list[Path]:
        """Return every file that is text."""
        found = (p for p in self.book.rglob("*.*") if p.suffix in {".md", ".yaml", ".csv", ".txt"})
        return sorted(found)

    def recipe(self) -> Path:
        """Return some recipe's file."""
        return self.chance.choice(sorted((self.book / "recipes").rglob("*.md")))

    def put(self, path: Path, text: str) -> str:
        """Write a file."""
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")
        return path.relative_to(self.book).as_posix()

    def figure(self) -> str:
        """Change a figure somewhere."""
        path = self.chance.choice(self.texts())
        text = path.read_text(encoding="utf-8")
        figures = list(re.finditer(r"(?<![\d-])[1-9]\d{0,2}(?![\d-])", text))
        if not figures:
            return "nothing"
        at = self.chance.choice(figures)
        other = str(max(1, int(at[0]) + self.chance.choice([-1, 1, 2])))
        return self.put(path, text[: at.start()] + other + text[at.end() :])

    def word(self) -> str:
        """Write a word more somewhere in a text."""
        path = self.chance.choice([p for p in self.texts() if p.suffix == ".md"])
        text = path.read_text(encoding="utf-8")
        return self.put(path, text + self.chance.choice(["Slowly.\n", "\n## Later\n\nSo.\n"]))

    def line_twice(self) -> str:
        """Write a line of a list twice."""
        path = self.chance.choice(self.texts())
        lines = path.read_text(encoding="utf-8").splitlines()
        listed = [at for at, line in enumerate(lines) if re.match(r"\s+- ", line)]
        if listed:
            at = self.chance.choice(listed)
            lines.insert(at, lines[at])
        return self.put(path, "\n".join(lines) + "\n")

    def line_gone(self) -> str:
        """Take a line out."""
        path = self.chance.choice(self.texts())
        lines = path.read_text(encoding="utf-8").splitlines()
        if len(lines) > 3:
            del lines[self.chance.randrange(1, len(lines))]
        return self.put(path, "\n".join(lines) + "\n")

    def renamed(self) -> str:
        """Give a recipe another title, or its file another name."""
        path = self.recipe()
        number = self.chance.randrange(1000)
        if self.chance.random() < 0.5:
            path.rename(path.with_name(f"{path.stem}-{number}.md"))
            return f"{path.name} renamed"
        text = path.read_text(encoding="utf-8")
        return self.put(path, re.sub(r"(?m)^title: .*", f"title: Bowl {number}", text, count=1))

    def new_recipe(self) -> str:
        """Write a recipe more into some series."""
        number = self.chance.randrange(1000)
        text = self.recipe().read_text(encoding="utf-8")
        text = re.sub(r"(?m)^title: .*", f"title: Bowl {number}", text, count=1)
        return self.put(self.book / f"recipes/bowl-{number}.md", text)

    def swapped_pictures(self) -> str:
        """Put one picture in the place of another."""
        drawn = sorted((self.book / "images").glob("*.svg"))
        one, other = self.chance.sample(drawn, 2)
        one.write_bytes(other.read_bytes())
        return one.name

    def style(self) -> str:
        """Bring a theme of one colour."""
        self._themed()
        colour = f"#{self.chance.randrange(0x1000000):06x}"
        return self.put(self.book / "theme/own.css", f":root {{ --day-accent: {colour}; }}\n")

    def template(self) -> str:
        """Say something else under every recipe's title."""
        self._themed()
        said = self.chance.choice(["From the bend", "By the alders", "{{ newest }}"])
        name = self.chance.choice(["recipe.html", "epub/meal.xhtml"])
        block = "{% block heading %}{{ super() }}<p>" + said + "</p>{% endblock %}"
        parent = f'{{% extends "plain/{name}" %}}\n'
        return self.put(self.book / "theme" / name, parent + block + "\n")

    def _themed(self) -> None:
        keys = self.book / "book.yaml"
        text = keys.read_text(encoding="utf-8")
        if "\ntheme:" not in text:
            self.put(keys, text.replace("\nauthor:", "\ntheme: theme\nauthor:"))

    def key_of_the_book(self) -> str:
        """Change a key of the whole book."""
        path = self.book / "book.yaml"
        text = path.read_text(encoding="utf-8")
        old, new = self.chance.choice([
            ("language: en", "language: es"), ("language: es", "language: en"),
            ("measures: us-cups", "measures: metric-cups"),
            ("altitudes: metres", "altitudes: feet"), ("cards: A6", "cards: A5"),
             ("allergens: eu", "allergens: us"),
            ("address: https://example.org/larder\n", ""), ("covered: true", "covered: false"),
            ("servings: [1, 2, 3, 4, 6, 8]", "servings: [1, 4]"), ("lid: true", "lid: false"),
            ("contact: larder@example.org\n", ""),
        ])  # fmt: skip
        return self.put(path, text.replace(old, new))

    def dated(self) -> str:
        """Give a recipe another day, which may be the book's newest."""
        path, day = self.recipe(), f"2026-0{self.chance.randrange(1, 10)}-11"
        text = path.read_text(encoding="utf-8")
        return self.put(path, re.sub(r"(?m)^date: .*", f"date: {day}", text, count=1))

    def linked(self) -> str:
        """Link from one recipe to another."""
        one, other = self.recipe(), self.recipe()
        text = one.read_text(encoding="utf-8")
        return self.put(one, f"{text}\nSee [the other]({other.name}).\n")

    def spaced(self) -> str:
        """Write an empty line or a comment, which changes nothing but where things stand."""
        path = self.chance.choice([p for p in self.texts() if p.suffix == ".yaml"])
        text = path.read_text(encoding="utf-8")
        return self.put(path, f"# {self.chance.random()}\n\n{text}")
