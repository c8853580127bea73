"""Ingredient lines in plain kitchen English: `1/3 cup carrots, cut small (optional)`."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.findings import nearest
from cookbook_build.foods.lookup import normalised
from cookbook_build.manuscript.brought.yields import read_yield
from cookbook_build.manuscript.headings import heading
from cookbook_build.manuscript.loose_measures import loose_measure
from cookbook_build.manuscript.pasted_lines import (
    amount_for,
    counted,
    is_water,
    parted,
    times_sign,
    turned,
)
from cookbook_build.measures.amounts import Amount, number_text, read_amount
from cookbook_build.measures.numbers import NumberError
from cookbook_build.measures.units import nearest_unit, unit_at

if TYPE_CHECKING:
    from collections.abc import Callable, Container, Iterable

    from cookbook_build.findings import Findings, Place

NEAR_MARK: Final = 0.8  # how alike a note and a mark are when one is a slip of the other
_BRACKET: Final = re.compile(r"[()]")
_OR: Final = re.compile(r"\s+(?:and/or|or|o|u)\s+", re.IGNORECASE)
_NOTE: Final = re.compile(r"\(([^()]*)\)")
_TASTE: Final = re.compile(r"(?<![,\s])[,\s]*\b(?:to taste|al gusto)\b\s*", re.IGNORECASE)
_SIZE: Final = re.compile(r"(small|medium|large)\s+(?=\S)", re.IGNORECASE)
_SIZE_AFTER: Final = re.compile(
    r"(?<!\s)\s+(?:(pequeñ[oa]s?)|(median[oa]s?)|(grandes?))\s*$", re.IGNORECASE
)
_SIZES_AFTER: Final = ("small", "medium", "large")
"""Spanish says the size after the name: `2 cebollas medianas`."""
_MARKS: Final = {
    "optional": "optional",
    "fresh": "fresh",
    "per pot": "per_pot",
    "prepared": "prepared",
    "opcional": "optional",
    "fresco": "fresh",
    "fresca": "fresh",
    "por olla": "per_pot",
    "preparado": "prepared",
    "preparada": "prepared",
}


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One ingredient line: how much, of which store, how prepared, and its marks."""

    place: Place
    written: str
    amount: Amount
    name: str
    name_place: Place
    preparation: str = ""
    size: str = ""
    note: str = ""
    weighed: Amount | None = None  # a weight given in brackets beside a measure
    optional: bool = False
    fresh: bool = False
    per_pot: bool = False
    prepared: bool = False
    store: str | None = None  # the larder's key, once matched
    food: str | None = None  # a food's id, where a base buys what the larder doesn't keep


def read_ingredient(
    text: str, place_within: Callable[[int, int], Place], findings: Findings
) -> Ingredient | None:
    """Return the ingredient that a line names, not yet matched; None leaves a finding.

    `place_within` gives the place of a stretch (start, width) of the line.
    """
    try:
        read = read_amount(text)
    except NumberError as problem:
        findings.error(place_within(problem.start, problem.width), problem.cause, problem.mend)
        return None
    amount, end = read or (Amount(), 0)
    if odd := _odd_amount(text, amount, end):
        cause, mend, start, width = odd
        findings.error(place_within(start, width), cause, mend)
        return None
    marks, spans = _marks(text, end)
    bare = _blanked(text, end, spans)
    if open_at := _BRACKET.search(bare):
        findings.error(
            place_within(open_at.start(), 1),
            f'the bracket "{open_at.group()}" has no partner',
            "write both brackets, such as (optional), or none.",
        )
        return None
    _check_marks(text, spans, place_within, findings)
    taste = _TASTE.search(bare)
    if taste:
        amount = amount if amount.terms else Amount(to_taste=True)
        bare = bare[: taste.start()] + " " * len(taste.group()) + bare[taste.end() :]
    name, at, preparation, size = _name(bare, amount)
    if not name:
        findings.error(
            place_within(0, len(text)),
            "this line names no ingredient",
            "write an amount and a store, such as 3 tbsp leeks.",
        )
        return None
    found = Ingredient(
        place_within(0, len(text)), text.strip(), amount, name, place_within(at, len(name)),
        preparation, size,
    )  # fmt: skip
    found = replace(found, **marks)
    if not amount.terms and not amount.to_taste:
        _no_amount(found, findings)
        return None
    return found


def _odd_amount(text: str, amount: Amount, end: int) -> tuple[str, str, int, int] | None:
    """Return cause, mend, start and width of an amount that is none, though it begins so."""
    example = "write it like 1/4 cup or 1 1/2 tsp."
    if amount.terms and text[end : end + 1] in set("/.:*+="):
        width = end + len(text[end:].split(maxsplit=1)[0])
        return f'"{text[:width].strip()}" is not an amount', example, 0, width
    if amount.terms and not any(term.high for term in amount.terms):
        return f'"{text[:end].strip()}" is nothing', "write how much, or delete the line.", 0, end
    if sign := times_sign(text, amount, end):
        at, written, line = sign
        return f'"{written}" is not a unit', f'write "{line}".', at, 1
    return None


def _is_yield(found: Ingredient, findings: Findings) -> bool:
    """Report a line that says how many eat, or what it makes, and is no store; whether it is."""
    said = read_yield(found.written)
    if said is None:
        return False
    line = f"serves: {said.serves}" if said.serves else f"makes: {said.makes}"
    findings.error(
        found.place,
        f'"{found.written}" says how much it makes, and is no ingredient',
        f'delete it here, and let one line "{line}" stand above "ingredients:".',
    )
    return True


def _no_amount(found: Ingredient, findings: Findings) -> None:
    if _is_yield(found, findings):
        return
    if slip := heading(found.written):
        findings.error(found.place, *slip)
        return
    if line := turned(found.written):
        findings.error(
            found.place,
            f'"{found.written}" has its amount behind its name',
            f'write "{line}".',
        )
        return
    if loose := loose_measure(found, lambda _name: False):
        findings.error(found.name_place.within(0, len(loose.word)), loose.cause, loose.mend)
        return
    first, _, rest = found.name.partition(" ")
    unit = unit_at(rest, 0)
    if unit and rest[unit[1] :].strip():
        findings.error(
            found.name_place.within(0, len(first)),
            f'"{first}" is not a number',
            f"write a number before {unit[0].name}, such as {counted(first)} {rest}.",
        )
        return
    findings.error(
        found.place,
        f'"{found.written}" has no amount',
        f"write how much, such as {amount_for(found.name)}.",
    )


def _check_marks(
    text: str,
    spans: Iterable[tuple[int, int]],
    place_within: Callable[[int, int], Place],
    findings: Findings,
) -> None:
    """Warn of a note in brackets that is all but one of the marks."""
    for low, high in spans:
        note = " ".join(text[low + 1 : high - 1].split()).casefold()
        close = difflib.get_close_matches(note, _MARKS, n=1, cutoff=NEAR_MARK)
        if close and close[0] != note:
            findings.warning(
                place_within(low + 1, high - low - 2),
                f'"{note}" is taken as a note, and changes nothing',
                f'write "{close[0]}" if you mean that, or other words.',
            )


def _marks(text: str, start: int) -> tuple[dict[str, Any], list[tuple[int, int]]]:
    """Return what the brackets of a line say, and where they stand."""
    found: dict[str, Any] = {}
    notes, spans = [], []
    for match in _NOTE.finditer(text, start):
        spans.append(match.span())
        word = " ".join(match[1].split()).casefold()
        if word in _MARKS:
            found[_MARKS[word]] = True
        elif weight := _weight(match[1]):
            found["weighed"] = weight
        elif match[1].strip():
            notes.append(match[1].strip())
    if notes:
        found["note"] = "; ".join(notes)
    return found, spans


def _weight(text: str) -> Amount | None:
    try:
        read = read_amount(text.strip())
    except NumberError:
        return None
    whole = read and read[0].kind == "weight" and read[1] == len(text.strip())
    return read[0] if read and whole else None


def _blanked(text: str, start: int, spans: Iterable[tuple[int, int]]) -> str:
    """Return the text with the amount and the brackets blanked, every place kept."""
    bare = " " * start + text[start:]
    for low, high in spans:
        bare = bare[:low] + " " * (high - low) + bare[high:]
    return bare


def _name(bare: str, amount: Amount) -> tuple[str, int, str, str]:
    """Return the name, where it begins, the preparation and the size word of a line."""
    head, _, tail = bare.partition(",")
    at = len(head) - len(head.lstrip())
    size = ""
    if amount.kind == "count" and (match := _SIZE.match(head, at)):
        size, at = match[1].casefold(), match.end()
    elif amount.kind == "count" and (match := _SIZE_AFTER.search(head, at)):
        size, head = _SIZES_AFTER[(match.lastindex or 1) - 1], head[: match.start()]
    name = head[at:].rstrip()
    return re.sub(r"\s+", " ", name), at, re.sub(r"\s+", " ", tail).strip(), size


def match_store(
    ingredient: Ingredient,
    names: dict[str, str],
    findings: Findings,
    mend: Callable[[str], str] | None = None,
    by_piece: Container[str] = (),
) -> Ingredient:
    """Return the ingredient with the key of its store, or leave a finding with the nearest one.

    `names` maps each normalised name to the larder's key; `mend` says what to write for a name
    that is not among them; a piece of the stores `by_piece` was weighed.
    """
    key = names.get(normalised(ingredient.name))
    if key is not None:
        return replace(ingredient, store=key)
    if _is_yield(ingredient, findings):
        return ingredient
    if loose := loose_measure(ingredient, lambda name: normalised(name) in names):
        counted = names.get(normalised(loose.name)) in by_piece and loose.is_piece
        number = number_text(ingredient.amount.count())
        findings.error(
            ingredient.name_place.within(loose.start, len(loose.word)),
            loose.cause,
            f'write "{number} {loose.name}".'
            if counted
            else mend(loose.name)
            if mend and is_water(loose.name)
            else loose.mend,
        )
        return ingredient
    first, _, rest = ingredient.name.partition(" ")
    if ingredient.amount.kind == "count" and normalised(rest) in names and not unit_at(first, 0):
        unit = nearest_unit(first)
        findings.error(
            ingredient.name_place.within(0, len(first)),
            f'"{first}" is not a unit',
            f'write "{unit}".' if unit else "write cup, tbsp, tsp, g or oz.",
        )
        return ingredient
    if split := _parted_unit(ingredient, names):
        length, meant = split
        findings.error(
            ingredient.name_place.within(0, length),
            f'"{ingredient.name[:length]}" is not a unit',
            f'write "{meant}".',
        )
        return ingredient
    either = left_open(ingredient.name, lambda name: normalised(name) in names)
    missing = f'there is no store called "{ingredient.name}"'
    cause, mended = either or (missing, _unknown_mend(ingredient.name, names, mend))
    findings.error(ingredient.name_place, cause, mended)
    return ingredient


def _unknown_mend(name: str, names: dict[str, str], mend: Callable[[str], str] | None) -> str:
    """Return what to write for a name that is no store's."""
    if said := described_name(name, lambda one: normalised(one) in names):
        return f'write "{said}", or add "{name}" to larder.yaml.'
    if mend:
        return mend(name)
    near = nearest(name, [*names.values(), *names])
    shown = names.get(near, near) if near else None
    return f'write "{shown}", or ' * bool(shown) + f'add "{name}" to larder.yaml.'


def _parted_unit(ingredient: Ingredient, names: dict[str, str]) -> tuple[int, str] | None:
    """Return how long a unit in two words is, and the unit that is meant: `tabel spoons leeks`."""
    first, second, rest = [*ingredient.name.split(" ", 2), "", ""][:3]
    if ingredient.amount.kind != "count" or normalised(rest) not in names:
        return None
    unit = nearest_unit(first + second)
    return (len(first) + 1 + len(second), unit) if unit else None


def left_open(name: str, is_known: Callable[[str], bool]) -> tuple[str, str] | None:
    """Return the cause and the mend of a line that leaves open which store it takes, or None."""
    names = [one for one in _OR.split(name) if re.search(r"[^\W\d_]", one)]
    first = next((one for one in names if is_known(one)), names[0] if names else "")
    other = " or ".join(one for one in names if one != first)
    if not other:
        return None
    return (
        f'a line takes one store, and "{name}" leaves open which',
        f'choose one, and name what else will do behind a comma: write "{first}, or {other}".',
    )


def described_name(name: str, is_known: Callable[[str], bool]) -> str | None:
    """Return a name whose first words describe it, as a line has them: `leeks, sliced`."""
    words = name.split()
    if len(parted(name)) > 1:
        return None
    for at in range(1, len(words)):
        rest = " ".join(words[at:])
        if is_known(rest):
            return f"{rest}, {' '.join(words[:at])}"
    return None
