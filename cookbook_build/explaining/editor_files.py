"""What editors need beside a book: a schema of each kind of file, and the line that names it.

A file of the book is only ever changed by a line at its top, and is put in place whole.
"""

from __future__ import annotations

import errno
import json
import re
from pathlib import PurePosixPath
from typing import TYPE_CHECKING, Final, Literal

from cookbook_build.explaining.schemas import schemas
from cookbook_build.manuscript.source import files_of, leads_out
from cookbook_build.walking import is_file, real
from cookbook_build.whole_files import put

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

FOLDER: Final = ".editor"
BYTE_ORDER_MARK: Final = b"\xef\xbb\xbf"
_OURS: Final = b'"$schema"'
_LINE_END: Final = re.compile(rb"\r\n|\n|\r")
_NAMED: Final = re.compile(
    rb"^[ \t]*#[ \t]*yaml-language-server[ \t]*:.*\$schema=([^\s]*)", re.MULTILINE
)

Done = Literal["added", "there already", "another's", "no plain text", "no YAML", "leads out"]


def write_schemas(book: Path) -> None:
    """Write the schemas into the book's folder for them; what is there already stays untouched."""
    folder = book / FOLDER
    if leads_out(book, folder):
        raise OSError(errno.ELOOP, "it is a link that leads out of the book")
    folder.mkdir(exist_ok=True)
    for name, schema in schemas().items():
        data = json.dumps(schema, indent=1, ensure_ascii=False).encode() + b"\n"
        path = folder / f"{name}.json"
        before = path.read_bytes() if is_file(path) else b""
        if before and _OURS not in before:
            raise FileExistsError(errno.EEXIST, f"{path.name} in it is not this program's")
        if before != data:
            put(path, data)


def schema_line(path: str) -> str:
    """Return the line that names the schema of a file, by its path within the book.

    Editors follow it from the file itself.
    """
    steps = PurePosixPath(path).parts
    kinds = {"menus": "menu", "recipes": "recipe", "pages": "page"}
    name = kinds.get(steps[0], PurePosixPath(path).stem)
    return f"# yaml-language-server: $schema={'../' * (len(steps) - 1)}{FOLDER}/{name}.json"


def yaml_files(book: Path) -> Iterator[str]:
    """Give the YAML files of a book, by their paths within it."""
    menus = [path for path in files_of(book, "menus") if path.match("*.y*ml")]
    for path in (book / "book.yaml", book / "larder.yaml", *menus):
        if is_file(path):
            yield path.relative_to(book).as_posix()


def add_line(book: Path, name: str) -> Done:
    """Put the line that names its schema at the top of a file; all else in it stays."""
    path = real(book / name)
    if leads_out(book, path):
        return "leads out"
    if path.suffix not in {".yaml", ".yml"}:
        return "no YAML"
    data = path.read_bytes()
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        return "no plain text"
    line = schema_line(name)
    if named := _NAMED.search(data):
        return "there already" if line.encode().endswith(b"=" + named[1]) else "another's"
    put(path, with_line(data, line))
    return "added"


def with_line(data: bytes, line: str) -> bytes:
    """Return a file's bytes with a line before all others, ended as they are."""
    mark = BYTE_ORDER_MARK if data.startswith(BYTE_ORDER_MARK) else b""
    end = _LINE_END.search(data)
    return mark + line.encode() + (end.group() if end else b"\n") + data.removeprefix(mark)
