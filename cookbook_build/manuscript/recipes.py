"""Recipes: front matter and body of one Markdown file each."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from cookbook_build.manuscript.body import Body, read_body
from cookbook_build.manuscript.checking import Places, read_keys
from cookbook_build.manuscript.ingredients import Ingredient, read_ingredient
from cookbook_build.manuscript.naming import LONGEST_ADDRESS, is_a_device
from cookbook_build.manuscript.nodes import read_nodes
from cookbook_build.manuscript.schema import PageKeys, RecipeKeys

if TYPE_CHECKING:
    from cookbook_build.findings import Findings, Place
    from cookbook_build.manuscript.checking import Model, Path
    from cookbook_build.manuscript.schema import Consistency, TestedKeys, TrialKeys
    from cookbook_build.manuscript.source import Source

_FENCE: Final = re.compile(r"---[ \t]*")
_NEAR_FENCE: Final = re.compile(r"(?:-{2}|-{4,}|—+|–+|\*{3,}|_{3,}|={3,}|- - -|\+{3,}|~{3,})\s*")
_ADDRESS: Final = re.compile(r"[\w][\w-]*")
LONGEST_NAME_BYTES: Final = 180  # most disks hold 255 bytes in all, and endings are added


@dataclass(frozen=True, slots=True)
class ComponentText:
    """A part of a recipe with its own water, as the author wrote it."""

    name: str | None
    ingredients: tuple[Ingredient, ...]
    consistency: Consistency
    tested: TestedKeys | None
    trials: tuple[TrialKeys, ...]
    path: Path  # where its keys stand in the front matter
    cold: bool = False  # made with cold water, whatever the way


@dataclass(frozen=True, slots=True)
class Recipe:
    """One recipe: its address, its keys with their places, its components and its body."""

    address: str
    folder: str
    keys: RecipeKeys
    places: Places
    components: tuple[ComponentText, ...]
    body: Body
    is_whole: bool = True  # every line of its ingredients could be read

    @property
    def path(self) -> str:
        """The recipe's file within the book."""
        return self.places.root.source.path

    @property
    def is_base(self) -> bool:
        """Whether it is cooked fresh, dried, and then used as a store."""
        return self.keys.kind == "base"

    @property
    def is_sound(self) -> bool:
        """Whether every key and every line could be taken as it was written."""
        return self.places.sound and self.is_whole

    @property
    def place(self) -> Place:
        """Where findings about the whole recipe point."""
        return self.places.key("title")


@dataclass(frozen=True, slots=True)
class Page:
    """One free page."""

    address: str
    keys: PageKeys
    places: Places
    body: Body


def read_recipe(source: Source, findings: Findings) -> Recipe | None:
    """Return the recipe of a file, or None with findings.

    Where a line of it can't be read it is not whole, and all else is still there to be checked.
    """
    read = _matter_and_body(RecipeKeys, source, findings, "a recipe")
    if read is None:
        return None
    keys, places, body = read
    if "kind" in places.faulty:  # nobody knows what the rest of it means
        return None
    before = len(findings.errors)
    components = _components(keys, places, findings)
    is_whole = len(findings.errors) == before
    _, folder, name = ("/" + source.path).rsplit("/", 2)
    return Recipe(name.removesuffix(".md"), folder, keys, places, components, body, is_whole)


def read_page(source: Source, findings: Findings) -> Page | None:
    """Return the free page of a file, or None with findings."""
    read = _matter_and_body(PageKeys, source, findings, "a page")
    if read is None:
        return None
    return Page(source.path.rsplit("/", 1)[-1].removesuffix(".md"), *read)


def check_address(address: str, place: Place, findings: Findings) -> bool:
    """Return whether a file name can be an address in the book, or report it."""
    if not check_name_of_file(address, ".md", place, findings):
        return False
    if _ADDRESS.fullmatch(address):
        return True
    findings.error(
        place,
        f'the file name "{address}" can\'t be an address in the book',
        f"rename the file to {good_address(address)}.md: letters, digits and hyphens.",
    )
    return False


def check_name_of_file(name: str, ending: str, place: Place, findings: Findings) -> bool:
    """Return whether every disk could hold pages called as a file is, or report it."""
    if len(name.encode("utf-8", "surrogatepass")) > LONGEST_NAME_BYTES:
        findings.error(
            place,
            f"the file's name is {len(name)} letters long, and with what the book adds to it no "
            "disk could hold it",
            f"rename the file, to {good_address(name)}{ending} for instance.",
        )
    elif is_a_device(name):
        findings.error(
            place,
            f'Windows keeps the name "{name}" for a device, so that nobody could hold the book '
            "there",
            f"rename the file, to {name.casefold()}-page{ending} for instance.",
        )
    else:
        return True
    return False


def good_address(name: str) -> str:
    """Return the address that a file's name is like."""
    words = "-".join(re.findall(r"\w+", name.casefold()))
    return words[:LONGEST_ADDRESS].rstrip("-_") or "a-name"


def _matter_and_body(
    model: type[Model], source: Source, findings: Findings, what: str
) -> tuple[Model, Places, Body] | None:
    if not source.text.strip():
        findings.error(
            source.place(1),
            "this file is empty",
            'begin it with a line "---", keys such as "title: …", and "---" again.',
        )
        return None
    begin = next(at for at, line in enumerate(source.lines) if line.strip())
    if not _FENCE.fullmatch(source.lines[begin]):
        findings.error(*_not_begun(source, begin))
        return None
    begin += 1
    end = next(
        (at for at, line in enumerate(source.lines) if at >= begin and _FENCE.fullmatch(line)), None
    )
    if end is None:
        findings.error(*_not_closed(source, begin))
        return None
    matter = "\n".join(source.lines[begin:end]) + "\n"
    before = len(findings.gathered)
    node = read_nodes(source, findings, matter, first_line=begin + 1)
    if node is None:
        if len(findings.gathered) == before:
            findings.error(
                source.place(begin, 1, 3), "the front matter is empty", 'write a line "title: …".'
            )
        return None
    keys, places = read_keys(model, node, findings, what)
    if keys is None:
        return None
    text = "\n".join(source.lines[end + 1 :])
    tags = isinstance(keys, PageKeys) and keys.html
    return keys, places, read_body(source, text, end + 2, tags=tags)


def _not_begun(source: Source, begin: int) -> tuple[Place, str, str]:
    """Return the finding of a file whose first line is no `---`."""
    line = source.lines[begin]
    place = source.place(begin + 1, 1, len(line))
    if _NEAR_FENCE.fullmatch(line):
        return (
            place,
            f'"{line.strip()}" does not begin front matter, and "---" does',
            'write "---".',
        )
    title = re.match(r"#+\s+(.+?)\s*#*$", line)
    return (
        place,
        "this file does not begin with front matter",
        f'write three lines above it: "---", "title: {title[1]}" and "---"; '
        "further keys go between."
        if title
        else 'make "---" the first line, then keys such as "title: …", then "---" again.',
    )


def _not_closed(source: Source, begin: int) -> tuple[Place, str, str]:
    """Return the finding of front matter without an end, at a line that may be meant as one."""
    for at, line in enumerate(source.lines[begin:], begin + 1):
        if _NEAR_FENCE.fullmatch(line):
            return (
                source.place(at, 1, len(line.rstrip())),
                f'"{line.strip()}" does not close the front matter, and "---" does',
                'write "---".',
            )
    return (
        source.place(begin, 1, 3),
        "the front matter that begins here is never closed",
        'put a line "---" after its last key, before the text.',
    )


def _components(keys: RecipeKeys, places: Places, findings: Findings) -> tuple[ComponentText, ...]:
    """Return the recipe's components: its own ingredients first, then the named ones."""
    if not keys.ingredients and not keys.components and places.sound:
        findings.error(
            places.key("title"),
            "this recipe has no ingredients",
            'add a key "ingredients:" with a list below it.',
        )
    elif keys.tested and not keys.ingredients and places.sound:
        findings.error(
            places.key("tested"),
            "this tested water belongs to no ingredients",
            "move it into the component that it was tested with.",
        )
    _check_names(keys, places, findings)
    _check_main(keys, places, findings)
    found = []
    if keys.ingredients:
        lines = _lines(keys.ingredients, ("ingredients",), places, findings)
        found.append(ComponentText(None, lines, keys.consistency, keys.tested, keys.trials, ()))
    for at, part in enumerate(keys.components):
        path: Path = ("components", at)
        lines = _lines(part.ingredients, (*path, "ingredients"), places, findings)
        consistency = part.consistency or keys.consistency
        found.append(
            ComponentText(part.name, lines, consistency, part.tested, part.trials, path, part.cold)
        )
    return tuple(found)


def _check_names(keys: RecipeKeys, places: Places, findings: Findings) -> None:
    """Report components that can't be told apart by their names."""
    seen: set[str] = set()
    for at, part in enumerate(keys.components):
        if part.name.casefold() in seen:
            findings.error(
                places.of("components", at, "name"),
                f'another component of this recipe is called "{part.name}" too',
                "give each component a name of its own.",
            )
        seen.add(part.name.casefold())


def _check_main(keys: RecipeKeys, places: Places, findings: Findings) -> None:
    """Report a recipe whose first part, its main one, is made with cold water whatever the way."""
    if keys.ingredients or not keys.components or not keys.components[0].cold:
        return
    findings.error(
        places.of("components", 0, "cold"),
        f'"cold: true" stands at "{keys.components[0].name}", the first part, which the ways are '
        "for",
        "put a part that is made hot before it; where all of the meal is cold, take this line out "
        'and write "methods: [cold]".',
    )


def _lines(
    lines: tuple[str, ...], path: Path, places: Places, findings: Findings
) -> tuple[Ingredient, ...]:
    """Return the lines that can be read; the others leave findings."""
    read = [
        read_ingredient(
            text,
            lambda start, width, at=at: places.within(start, width, *path, at),  # type: ignore[misc]
            findings,
        )
        for at, text in enumerate(lines)
    ]
    return tuple(line for line in read if line is not None)
