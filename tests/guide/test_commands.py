"""The guide is true: its evening is lived through, its files make a book, its commands run."""

from __future__ import annotations

import re
import shlex
from pathlib import Path
from typing import TYPE_CHECKING

from click.testing import CliRunner

import cookbook_build
from cookbook_build.cli import main

if TYPE_CHECKING:
    import pytest

GUIDE = Path(__file__).parents[2] / "content_demo" / "pages" / "guide"
FENCE = re.compile(r"```(?P<kind>\w+)\n(?P<text>.*?)```", re.DOTALL)
FILES = (
    "book.yaml",
    "larder.yaml",
    "recipes/suppers/lentils-and-leeks.md",
    "recipes/bases/plum-sauce.md",
    "menus/two-nights.yaml",
    "stock.csv",
    "drying-log.csv",
)
OLD_RECIPE = "Leek soup\n\n2 tbsp leeks\n1 pinch salt\n\nPour hot water on it and wait.\n"


def blocks(page: str) -> list[tuple[str, str, str]]:
    """Return each block of a page: its kind, its text and the words before it."""
    text = (GUIDE / page).read_text(encoding="utf-8")
    found, at = [], 0
    for fence in FENCE.finditer(text):
        found.append((fence["kind"], fence["text"], text[at : fence.start()]))
        at = fence.end()
    return found


def run(line: str) -> str:
    """Run a command of the guide; a preview, which doesn't end by itself, only by its options."""
    program, command, *arguments = shlex.split(line)
    assert program == "cookbook-build"
    if command == "preview":
        main.commands[command].make_context(command, list(arguments))
        return ""
    result = CliRunner().invoke(main, [command, *arguments])
    assert result.exit_code == 0, f"{line}\n{result.output}"
    return result.output


def test_the_first_evening_goes_as_it_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    book, said = Path("my-book"), dict[str, str]()
    for kind, text, before in blocks("first-evening.md"):
        if kind == "sh":
            said |= {line: run(line) for line in text.splitlines()}
            continue
        name = re.findall(r"`([\w./-]+\.(?:yaml|md))`", before)
        if "at the end of" in " ".join(before.split()):
            with (book / name[-1]).open("a", encoding="utf-8") as file:
                file.write(text)
        elif "Make a file" in before:
            recipe = book / name[-1]
            recipe.parent.mkdir(parents=True, exist_ok=True)
            recipe.write_text(text, encoding="utf-8")
        else:
            assert "above the line that closes its head" in " ".join(before.split())
            head, body = recipe.read_text(encoding="utf-8").rsplit("---\n", 1)
            recipe.write_text(f"{head}{text}---\n{body}", encoding="utf-8")
    assert "Nothing to mend." in next(o for line, o in said.items() if " proof " in line)
    assert "{food: peas" in next(o for line, o in said.items() if " foods " in line)
    written = CliRunner().invoke(main, ["water", "pea-pot", "--book", "my-book"]).output
    assert "1½ cups + 2 tbsp" in written.replace("\N{NO-BREAK SPACE}", " ")
    assert Path("my-site/index.html").is_file()
    assert list(Path("my-site").glob("*.epub"))
    assert list(Path("my-site").glob("*-in-one-file.html"))


def test_the_files_that_are_shown_make_a_sound_book(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    shown = blocks("files.md")
    texts = [text for kind, text, _ in shown if kind in {"yaml", "markdown", "csv"}]
    for name, text in zip(FILES, texts, strict=True):
        path = Path("my-book") / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    Path("old-recipe.txt").write_text(OLD_RECIPE, encoding="utf-8")
    assert "Nothing to mend." in run("cookbook-build proof my-book --strict")
    commands = [line for kind, text, _ in shown if kind == "sh" for line in text.splitlines()]
    assert len(commands) == 2
    for line in commands:
        assert run(line)


def test_lentils_take_as_much_water_in_the_guide_as_in_the_book_to_begin_from() -> None:
    """A cook who has both open compares them: a cup of lentils, and the water that was right."""
    starter = Path(cookbook_build.__file__).parent / "starter/en/recipes/first-meals"
    begun = (starter / "lentils-and-leeks.md").read_text(encoding="utf-8")
    water = re.search(r"^ +water: (.+)$", begun, re.MULTILINE)
    assert water
    assert "  - 1 cup lentils\n" in begun
    for page in ("files.md", "more.md"):
        shown = [t for _, t, _ in blocks(page) if re.search(r"^title: Lentil", t, re.MULTILINE)]
        assert shown
        for text in shown:
            assert re.search(r"- 1 cup (green )?lentils\n", text)
            assert f"water: {water[1]}, rest: 12 min" in text


def test_the_folder_that_is_shown_names_what_a_book_reads() -> None:
    (folder,) = [text for kind, text, _ in blocks("files.md") if kind == "text"]
    named = set(re.findall(r"^  ([\w-]+)", folder, re.MULTILINE))
    assert named == {
        "book", "larder", "recipes", "menus", "stock", "drying-log", "replies", "pages",
        "images", "theme",
    }  # fmt: skip
