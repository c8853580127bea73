"""Replies: what readers made and sent back, as trials with a name and a date.

A reader is not the author: nothing in a reply stops the book. What can't be taken is a warning
that shows the line, and the letter stays in its file until it is mended.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import Findings, Place, did_you_mean, one_of
from cookbook_build.manuscript.agreement import RAW_METHODS
from cookbook_build.manuscript.checking import read_keys
from cookbook_build.manuscript.reply_blocks import (
    Block,
    Pour,
    filled,
    group,
    read_blocks,
)
from cookbook_build.manuscript.reply_form import MAIN_PART
from cookbook_build.manuscript.reply_languages import unaccented, ways
from cookbook_build.manuscript.reply_words import plainly
from cookbook_build.manuscript.schema import PouredKeys, ReplyKeys, TrialKeys
from cookbook_build.manuscript.source import files_of, read_source
from cookbook_build.manuscript.trials import added_in_vain, check_day, one_meal
from cookbook_build.walking import is_folder, listed

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Collection, Iterable, Iterator, Mapping
    from pathlib import Path

    from cookbook_build.manuscript.larder import Larder
    from cookbook_build.manuscript.recipes import ComponentText, Recipe

LONGEST_NOTE: Final = 600
LONGEST_NAME: Final = 60


@dataclass(frozen=True, slots=True)
class Reply:
    """One trial that a reader sent: of which component, what came of it, and where it stands."""

    recipe: str
    part: str | None  # the component's name; None for the one that has none
    trial: TrialKeys
    place: Place  # of the water
    block: Place  # of the line that names the recipe


def read_replies(
    folder: Path,
    recipes: Mapping[str, Recipe],
    larder: Larder | None,
    unread: Collection[str],
    findings: Findings,
    today: dt.date | None = None,
) -> tuple[Reply, ...]:
    """Return the replies in a book's folder `replies/`; whatever is wrong there is a warning."""
    own = Findings()
    shelf = _Shelf(recipes, larder, unread, today)
    replies = [
        reply
        for path in files_of(folder, "replies", own)
        if path.parent == folder / "replies" and not path.name.startswith(".")
        for reply in _letter(folder, path, shelf, own)
    ]
    kept = tuple(_not_the_author_s(_once(replies, own), recipes, own))
    for found in own:
        findings.warning(found.place, found.cause, found.mend)
    return kept


def _not_the_author_s(
    replies: Iterable[Reply], recipes: Mapping[str, Recipe], findings: Findings
) -> Iterator[Reply]:
    """Give the replies that the author has not copied into the recipe's own trials."""
    for reply in replies:
        recipe = recipes[reply.recipe]
        part = next(part for part in recipe.components if part.name == reply.part)
        at = next((n for n, own in enumerate(part.trials) if one_meal(own, reply.trial)), None)
        if at is None:
            yield reply
            continue
        place = recipe.places.of(*part.path, "trials", at)
        findings.warning(
            reply.block,
            f"this trial stands on line {place.line} of {place.path} too; it counts once",
            "delete one of the two; if two people made it, write their names.",
        )


@dataclass(frozen=True)
class _Shelf:
    """What the book holds, to check replies against."""

    recipes: Mapping[str, Recipe]
    larder: Larder | None
    unread: Collection[str]
    today: dt.date | None

    @cached_property
    def by_name(self) -> Mapping[str, str]:
        """The address of each recipe, by its title and itself."""
        found = {recipe.keys.title.casefold(): address for address, recipe in self.recipes.items()}
        return found | {address.casefold(): address for address in self.recipes}


def _letter(folder: Path, path: Path, shelf: _Shelf, findings: Findings) -> Iterator[Reply]:
    if is_folder(path):
        if listed(path):
            findings.warning(
                Place(path.relative_to(folder).as_posix()),
                "this folder is not read; letters stand in replies/ itself",
                f"move what is in {path.name}/ up into replies/.",
            )
        return
    if path.suffix.casefold() != ".txt":
        findings.warning(
            Place(path.relative_to(folder).as_posix()),
            "this file is not read; a reply is plain text",
            f"save its text as {path.stem}.txt, or take it out of replies/.",
        )
        return
    source = read_source(folder, path, findings)
    if source is None:
        return
    before = len(findings.gathered)
    blocks = read_blocks(source, findings)
    if not blocks and len(findings.gathered) == before:
        findings.warning(
            source.place(1, 1, len(source.lines[0])),
            "no reply stands in this file",
            'write a line "Recipe: …" above the water, or take the file out of replies/.',
        )
    addressed = [(block, _address(block.recipe.text, shelf)) for block in blocks]
    answered = {address for block, address in addressed if not block.is_blank}
    for block, address in addressed:
        if not block.is_blank:
            yield from _replies(block, address, shelf, findings)
        elif address not in answered:  # a blank form that its own answer quotes needs no word
            findings.warning(
                block.place,
                "this reply is not filled in",
                "ask the reader for it, or delete it.",
            )


def _replies(
    block: Block, address: str | None, shelf: _Shelf, findings: Findings
) -> Iterator[Reply]:
    made, sound = _made(block, findings)
    if made and not check_day(made.date, block.entries["Date"][1].place, shelf.today, findings):
        made = None
    recipe = _recipe(block, address, shelf, findings)
    note = made.note if made else None
    pours = [pour for pour in block.pours if any(filled(pour.entries))] or block.pours[:1]
    for pour in pours:
        poured = _poured(block, pour, findings)
        part = _component(block, pour, recipe, findings) if recipe else None
        if part is None or recipe is None or made is None or poured is None or not sound:
            continue
        if not _is_cooked(made.method, block, part, shelf.larder, findings):
            continue
        trial = TrialKeys.model_validate(_trial(block, pour) | {"by": made.name, "note": note})
        note = None  # a note tells of the whole meal, and is shown once
        yield Reply(
            recipe.address, part.name, trial, pour.entries["Water poured"][1].place, block.place
        )


def _made(block: Block, findings: Findings) -> tuple[ReplyKeys | None, bool]:
    """Return what a block says of the meal, and whether all that counts could be read."""
    plainly(block.entries)
    for key, longest in (("Name", LONGEST_NAME), ("Note", LONGEST_NOTE)):
        value = block.entries[key][1] if key in block.entries else None
        if value and len(value.text) > longest:
            findings.warning(
                value.place,
                f"this {key.casefold()} has {len(value.text)} letters, and is left out",
                f"shorten it to {longest}; it is printed in the book.",
            )
            del block.entries[key]
    node = group(block.source, block.place, block.entries)
    made, places = read_keys(ReplyKeys, node, findings, "this reply")
    return made, places.sound


def _poured(block: Block, pour: Pour, findings: Findings) -> PouredKeys | None:
    plainly(pour.entries)
    place = pour.part[0].place if pour.part else block.place
    node = group(block.source, place, pour.entries)
    what = f'the part "{pour.part[1].text}"' if pour.part and pour.part[1].text else "this reply"
    poured, places = read_keys(PouredKeys, node, findings, what)
    if poured is None or not places.sound:
        return None
    if poured.added and poured.verdict != "too thick":
        findings.warning(
            pour.entries["Water added"][1].place,
            *added_in_vain(poured.verdict, "It was", "too thick"),
        )
        return None
    return poured


def _trial(block: Block, pour: Pour) -> dict[str, str]:
    """Return the words of a block by the keys of a trial."""
    written = {
        key: value.text
        for key, (_, value) in (block.entries | pour.entries).items()
        if not value.is_empty
    }
    found = {name: written[key] for key, name in _TRIAL_KEYS.items() if key in written}
    return found | {"verdict": written["It was"].removeprefix("too ")}


_TRIAL_KEYS: Final = {
    "Date": "date", "Method": "method", "Servings": "servings", "Altitude": "altitude",
    "Water poured": "water", "Water added": "added",
}  # fmt: skip


def _address(written: str, shelf: _Shelf) -> str | None:
    """Return the recipe that is meant, by its address or its title."""
    name = written.casefold().removesuffix(".md").split("/")[-1].strip()
    return shelf.by_name.get(name)


def _recipe(block: Block, address: str | None, shelf: _Shelf, findings: Findings) -> Recipe | None:
    written = block.recipe
    if address is None:
        if written.text.casefold() in {other.casefold() for other in shelf.unread}:
            return None
        findings.warning(
            written.place if written.text else block.place,
            f'there is no recipe with the address "{written.text}"'
            if written.text
            else "this reply does not say of which recipe",
            did_you_mean(written.text, shelf.recipes, "write the name of a file in recipes/."),
        )
        return None
    recipe = shelf.recipes[address]
    if recipe.is_base:
        findings.warning(
            written.place,
            f'"{address}" is a base, which is dried and takes no water by itself',
            "name the meal that was made with it.",
        )
        return None
    return recipe


def _component(
    block: Block, pour: Pour, recipe: Recipe, findings: Findings
) -> ComponentText | None:
    """Return the component that water was poured on; of a recipe half read nobody can say."""
    if not recipe.is_sound:
        return None
    named = {
        name: part
        for part in recipe.components
        for name in ([unaccented(part.name)] if part.name else ways(MAIN_PART))
    }
    names = [part.name or MAIN_PART for part in recipe.components]
    written = pour.part[1].text if pour.part else ""
    if not written and len(names) == 1:
        return recipe.components[0]
    if unaccented(written) in named:
        return named[unaccented(written)]
    if not written:
        findings.warning(
            pour.part[0].place if pour.part else block.place,
            f"this reply does not say which part of {recipe.address} it tells of",
            f'write a line "Part: {names[0]}"; its parts are {_listed(names)}.',
        )
    elif pour.part:
        findings.warning(
            pour.part[1].place,
            f'{recipe.address} has no part called "{written}"',
            did_you_mean(written, names, f"write {one_of(names)}.")
            if len(names) > 1
            else "delete this line; the recipe has one part.",
        )
    return None


def _listed(names: list[str]) -> str:
    return " and ".join(f'"{name}"' for name in names)


def _is_cooked(
    method: str, block: Block, part: ComponentText, larder: Larder | None, findings: Findings
) -> bool:
    """Whether what was dried raw was cooked through; if not, nobody shall learn from it."""
    stores = larder.stores if larder else {}
    raw = [
        line.store
        for line in part.ingredients
        if line.store in stores and stores[line.store].keys.raw
    ]
    if method not in RAW_METHODS or not raw:
        return True
    findings.warning(
        block.entries["Method"][1].place,
        f'"{method}" does not cook "{raw[0]}", which was dried raw; this trial is not counted',
        "tell the reader to bring it to the boil and cook it through, and delete the reply.",
    )
    return False


def _once(replies: list[Reply], findings: Findings) -> tuple[Reply, ...]:
    """Return each trial once: a letter that was saved or quoted again teaches nothing new."""
    kept: dict[object, Reply] = {}
    for reply in replies:
        bare = reply.trial.model_copy(update={"note": None})
        first = kept.setdefault((reply.recipe, reply.part, bare), reply)
        quoted = reply.block.path == first.block.path and reply.trial.note == first.trial.note
        if reply is not first and not quoted:
            findings.warning(
                reply.block,
                "this reply was read already, from line "
                f"{first.block.line} of {first.block.path}; it counts once",
                "delete one of the two; if two people made it, write their names.",
            )
    return tuple(kept.values())
