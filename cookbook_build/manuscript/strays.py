"""Stray files: what lies in a book's folder under a name by which nothing of it is read.

A text editor likes to add `.txt`, a file manager hides it, and `Book.yaml` is another file than
`book.yaml` on some machines and the same on others.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from cookbook_build.findings import Place
from cookbook_build.manuscript.source import files_of
from cookbook_build.walking import is_file, is_folder, listed

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from cookbook_build.findings import Findings

OF_THE_BOOK: Final = ("book.yaml", "larder.yaml")
ENDINGS: Final[Mapping[str, str]] = {"recipes": ".md", "menus": ".yaml", "pages": ".md"}
_READ: Final[Mapping[str, tuple[str, ...]]] = {
    "recipes": (".md",),
    "menus": (".yaml", ".yml"),
    "pages": (".md",),
}
FOLDERS: Final[Mapping[str, tuple[str, ...]]] = {
    "recipes": ("recipe",),
    "menus": ("menu",),
    "pages": ("page",),
    "images": ("image", "pictures", "picture", "photos"),
    "replies": ("reply",),
    "theme": ("themes",),
}
"""The folders of a book, and names by which they are called in their place."""

_TEXTS: Final = frozenset({".txt", ".text", ".markdown", ".mdown", ".mkd", ".md", ".yaml", ".yml"})
_OWN_FORMATS: Final = frozenset({".doc", ".docx", ".odt", ".rtf", ".pages", ".pdf"})


def check_strays(folder: Path, findings: Findings) -> None:
    """Warn of files and folders that are most likely meant for the book, and are not read."""
    for name in OF_THE_BOOK:
        other = meant_for(folder, name) if is_file(folder / name) else ""
        if other:
            findings.warning(
                Place(other),
                f"nothing of this file is read, for {name} is there as well",
                f"move what you want to keep to {name}, and delete {other}.",
            )
    for name in FOLDERS:
        other = misnamed_folder(folder, name)
        if other and name != "recipes":  # a book without recipes is told so already
            findings.warning(
                Place(other),
                "nothing in this folder is read",
                f'rename the folder "{other}" to "{name}".',
            )
    for part in ENDINGS:
        for path in _strays(folder, part):
            _warn(folder, path, part, findings)


def meant_for(folder: Path, name: str) -> str:
    """Return the file that is most likely meant for one of the book's own, or nothing."""
    stem = name.split(".", maxsplit=1)[0]
    return next(
        (
            path.name
            for path in listed(folder)
            if is_file(path)
            and path.name != name
            and path.name.casefold().split(".", maxsplit=1)[0] == stem
            and set(_endings(path.name)) & (_TEXTS - {".md"})
        ),
        "",
    )


def misnamed_folder(folder: Path, name: str) -> str:
    """Return the folder that is most likely meant for one of a book, where that is not there."""
    names = [path.name for path in listed(folder) if is_folder(path)]
    if name in names:
        return ""
    wanted = {name, *FOLDERS[name]}
    return next((other for other in names if other.casefold() in wanted), "")


def _strays(folder: Path, part: str) -> Iterator[Path]:
    """Give the files of a part of the book whose ending is not read and was most likely meant."""
    known = _TEXTS | _OWN_FORMATS
    for path in files_of(folder, part):
        read = path.suffix in _READ[part] or path.name.startswith((".", "_", "~"))
        if not read and is_file(path) and set(_endings(path.name)) & known:
            yield path


def _endings(name: str) -> list[str]:
    """Return the last endings of a file's name: `.md` and `.txt` of `bowl.md.txt`."""
    return [f".{ending.casefold()}" for ending in name.split(".")[1:][-2:]]


def _warn(folder: Path, path: Path, part: str, findings: Findings) -> None:
    bare = path.name
    while _endings(bare) and _endings(bare)[-1] in _TEXTS | _OWN_FORMATS:
        bare = bare.rsplit(".", 1)[0]
    good = f"{bare}{ENDINGS[part]}"
    own = path.suffix.casefold() in _OWN_FORMATS
    findings.warning(
        Place(path.relative_to(folder).as_posix()),
        f'nothing of this file is read: what is read in {part}/ ends in "{ENDINGS[part]}"',
        f"open it, save it as plain text under the name {good}, or move it out of {part}/."
        if own
        else f"rename it to {good}, or move it out of {part}/.",
    )
