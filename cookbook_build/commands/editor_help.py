"""The command that helps an editor explain and check what one types."""

from __future__ import annotations

import sys
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Final, NoReturn

import click

from cookbook_build.commands.shared import BOOK, book_folder
from cookbook_build.walking import is_file

if TYPE_CHECKING:
    from collections.abc import Iterator

SAID: Final = {
    "added": "the line was added",
    "there already": "has the line already",
    "another's": "has another such line, which was left as it is",
    "leads out": "is a link that leads out of the book, and was left as it is",
    "no YAML": "is a link to what is no YAML, and was left as it is",
    "no plain text": "is not written as UTF-8, and was left as it is",
}


@click.command("editor-help")
@click.argument("book", type=BOOK, required=False)
@click.option("--add-lines", is_flag=True, help="Put the line into the files that lack it.")
def editor_help(book: Path | None, *, add_lines: bool) -> None:
    """Let your editor explain and check each key while you type.

    It writes a folder .editor into the book, and says which line to put at the top of book.yaml,
    larder.yaml and each menu. Your own files change only with --add-lines, by that line.
    """
    from cookbook_build.explaining.editor_files import (  # noqa: PLC0415 - models load slowly
        FOLDER,
        add_line,
        write_schemas,
        yaml_files,
    )

    folder = book_folder(book)
    if not is_file(folder / "book.yaml"):
        raise click.UsageError(f'"{folder}" holds no book.yaml, so it is not a book.')
    try:
        write_schemas(folder)
    except OSError as problem:
        _not_written(folder / FOLDER, problem)
    click.echo(f"Wrote {(folder / FOLDER).as_posix()}, from which an editor learns every key.")
    if not add_lines:
        click.echo("\n".join(_hints(folder)))
        return
    for name in yaml_files(folder):
        try:
            done = add_line(folder, name)
        except OSError as problem:
            _not_written(folder / name, problem)
        click.echo(f"{name}: {SAID[done]}.")


def _not_written(path: Path, problem: OSError) -> NoReturn:
    click.echo(f"{path.as_posix()} could not be written ({problem.strerror or problem}).", err=True)
    sys.exit(3)


def _hints(folder: Path) -> Iterator[str]:
    """Give what to do next: the line of each file, and the option that writes it."""
    from cookbook_build.explaining.editor_files import (  # noqa: PLC0415 - models load slowly
        schema_line,
        yaml_files,
    )

    yield "Put this line at the top of a file, and an editor that reads YAML finds it:"
    files = ["book.yaml", "larder.yaml", "menus/*.yaml", *yaml_files(folder)]
    shown: dict[str, str] = {}
    for name in files:
        shown.setdefault(schema_line(name), str(PurePosixPath(name)))
    for line, name in shown.items():
        yield f"\n  {name}\n    {line}"
    named = "" if folder == Path() else f" {_quoted(folder)}"
    yield f"\nTo have that done for you: cookbook-build editor-help{named} --add-lines"
    yield "\nSome editors read the keys above a recipe's text too. There, the second line is:"
    for name in ("recipes/suppers/lentil-bowl.md", "pages/about.md"):
        yield f"\n  {name}\n    {schema_line(name)}"


def _quoted(folder: Path) -> str:
    text = folder.as_posix()
    return f'"{text}"' if " " in text else text
