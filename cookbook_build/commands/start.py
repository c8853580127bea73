"""The command that writes a small book to begin from."""

from __future__ import annotations

import os
import re
import shlex
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.starter.answers import Question


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--title", metavar="WORDS", help="What the book is called.")
@click.option("--measures", metavar="CUPS", help="us-cups, metric-cups or label-cups.")
@click.option("--altitude", metavar="A", help='Of your kitchen, such as "310 m" or "1000 ft".')
@click.option("--language", metavar="TAG", help="en (English) or es (Spanish).")
@click.option("--yes", is_flag=True, help="Ask nothing; take the usual where nothing is said.")
def start(folder: Path, *, yes: bool, **said: str | None) -> None:
    """Write a small working book to begin from.

    FOLDER is the folder that becomes the book; it must be new or empty.
    """
    from cookbook_build.starter.answers import QUESTIONS, base_language  # noqa: PLC0415 - slow
    from cookbook_build.starter.files import filled, starter_files, usual  # noqa: PLC0415
    from cookbook_build.starter.writing import (  # noqa: PLC0415
        TakenError,
        UnwritableError,
        check_free,
        write_book,
    )

    answers = _given(QUESTIONS, said)
    try:
        check_free(folder)
        asks = not yes and on_terminal() and len(answers) < len(QUESTIONS)
        if asks:
            click.echo("Enter takes what stands in [ ]; all of it can be changed later.")
        for question in QUESTIONS:
            if question.key not in answers:
                expected = usual(base_language(answers.get("language", "en")))[question.key]
                answers[question.key] = _asked(question, expected) if asks else expected
        files = filled(starter_files(base_language(answers["language"])), answers)
        write_book(folder, files)
    except click.Abort:
        click.echo("\nNothing was written.", err=True)
        sys.exit(1)
    except TakenError as problem:
        click.echo(str(problem), err=True)
        sys.exit(2)
    except UnwritableError as problem:
        click.echo(str(problem), err=True)
        sys.exit(3)
    click.echo("\n".join(_closing(folder, files)))


def on_terminal() -> bool:
    """Return whether somebody is there who can be asked."""
    return sys.stdin.isatty()


def _given(questions: tuple[Question, ...], said: Mapping[str, str | None]) -> dict[str, str]:
    """Return the answers that stand on the command line, or end with what is wrong with one."""
    from cookbook_build.starter.answers import AnswerError  # noqa: PLC0415 - slow

    answers = {}
    for question in questions:
        text = said[question.key]
        if text is not None:
            try:
                answers[question.key] = question.read(text)
            except AnswerError as problem:
                raise click.BadParameter(str(problem), param_hint=f"--{question.key}") from None
    return answers


def _asked(question: Question, expected: str) -> str:
    """Return an answer from the terminal, asking again until it can be taken."""
    from cookbook_build.starter.answers import AnswerError  # noqa: PLC0415 - slow

    click.echo(question.explained)
    while True:
        typed: str = click.prompt(f"  {question.asked}", default=expected)
        try:
            return question.read(typed)
        except AnswerError as problem:
            click.echo(f"  {problem}")


def _closing(folder: Path, files: Mapping[str, str]) -> list[str]:
    name = shell_word(str(folder))
    recipes = sum(path.startswith("recipes/") for path in files)
    commands = {
        f"cookbook-build preview {name}": "shows the book while you write",
        f"cookbook-build proof {name}": "says what there is to mend",
        f"cookbook-build bind {name}": 'makes the pages, in a folder "site"',
    }
    width = max(map(len, commands))
    return [
        f"Written into {name}: book.yaml, larder.yaml, {recipes} recipes, a menu and a page.",
        "Open book.yaml in a text editor; each line says what it is for. Then:",
        *(f"  {command:<{width}}  {does}" for command, does in commands.items()),
    ]


def shell_word(text: str, system: str = os.name) -> str:
    """Return a name as it is typed on a command line, in quotes where it needs them."""
    if text.startswith("-"):
        text = f".{os.sep}{text}"
    if re.fullmatch(r"[\w./\\:+,@-]+" if system == "nt" else r"[\w./:+,@%-]+", text):
        return text
    return f'"{text}"' if system == "nt" or not re.search(r'["$`\\!]', text) else shlex.quote(text)
