"""Readers who write what they like: each slip is a warning at its line and column, none is lost.

A row replaces something in the sound letter below. The book binds all the same: a reader's
nonsense is no error of the author's. Line and column are written out, as an editor counts them.
"""

from __future__ import annotations

import datetime as dt
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cookbook_build.findings import Finding, Findings, described
from cookbook_build.manuscript.collection import read_book
from cookbook_build.manuscript.reply_blocks import read_blocks
from cookbook_build.manuscript.reply_form import HINTS
from cookbook_build.manuscript.source import Source

if TYPE_CHECKING:
    from cookbook_build.manuscript.replies import Reply

BOOK = {
    "book.yaml": "title: The willow landing book\naltitude: 310 m\n",
    "larder.yaml": """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
pears: {food: pears raw, dried: freeze, form: diced}
turkey mince: {food: ground turkey raw, dried: freeze, raw: true, weighs: 70 g per cup}
plum sauce: {from: bases/plum-sauce, dried: freeze, form: crumbs, weighs: 74 g per cup}
""",
    "recipes/suppers/lentil-bowl.md": """\
---
title: Lentil bowl
ingredients: [1 cup lentils]
tested: {water: 3/4 cup, rest: 12 min}
components:
  - name: Pear relish
    ingredients: [3 tbsp pears]
    tested: {water: 5 tsp, rest: 7 min}
---
Stir.
""",
    "recipes/suppers/plum-lentils.md": """\
---
title: Plum lentils
ingredients: [1 cup lentils, 1/2 cup plum sauce]
---
Stir.
""",
    "recipes/suppers/mince-pot.md": """\
---
title: Mince pot
methods: [stove]
ingredients: [1 cup turkey mince]
---
Boil.
""",
    "recipes/bases/plum-sauce.md": """\
---
title: Plum sauce
kind: base
ingredients: [1 kg plums]
cooked weight: 700 g
becomes: plum sauce
---
Cook it down.
""",
}
LETTER = """\
Recipe: plum-lentils
Date: 2026-06-13
Method: kettle
Servings: 2
Water poured: 1 3/4 cups
Water added: 2 tbsp
It was: too thick
Altitude: 450 m
Note: Lid on.
Name: Osk
"""
PARTS = """\
Recipe: lentil-bowl
Date: 2026-06-13
Method: kettle
Servings: 2
Part: Main bowl
Water poured: 1 1/2 cups
It was: right
Part: Pear relish
Water poured: 3 tbsp
It was: too thin
Name: Osk
"""


def read(letters: dict[str, str | bytes]) -> tuple[tuple[Reply, ...], list[Finding]]:
    """Return the replies of a book with these letters, and all findings."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for path, text in (BOOK | {f"replies/{n}": text for n, text in letters.items()}).items():
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            data = text.encode("utf-8", "replace") if isinstance(text, str) else text
            (folder / path).write_bytes(data)
        findings = Findings()
        book = read_book(folder, findings, today=dt.date(2026, 11, 1))
        assert book is not None
        return book.replies, list(findings)


@dataclass(frozen=True)
class Slip:
    """One slip: what is replaced by what, where the marker stands, what is said."""

    old: str
    new: str
    at: str  # line:column
    culprit: str  # what the marker underlines, whole
    cause: str
    mend: str
    letter: str = LETTER
    replies: int = 0


SLIPS = {
    # which recipe, which part
    "misspelt recipe": Slip("plum-lentils", "plum-lentls", "1:9", "plum-lentls", 'no recipe with the address "plum-lentls"', 'write "plum-lentils"'),
    "recipe nobody has": Slip("plum-lentils", "zanthum", "1:9", "zanthum", 'no recipe with the address "zanthum"', "name of a file in recipes/"),
    "recipe left empty": Slip("Recipe: plum-lentils", "Recipe:\n", "1:1", "Recipe:", "does not say of which recipe", "name of a file"),
    "recipe that is a base": Slip("plum-lentils", "plum-sauce", "1:9", "plum-sauce", '"plum-sauce" is a base', "name the meal"),
    "recipe line gone": Slip("Recipe: plum-lentils\n", "Dear all,\n", "5:1", "Water poured: 1 3/4 cups", "belongs to no recipe", '"Recipe: …"'),
    "recipe misspelt as a key": Slip("Recipe:", "Recipie:", "1:1", "Recipie", '"Recipie" is not a line of a reply', 'write "Recipe"', replies=1),
    "misspelt part": Slip("Pear relish", "Pair relish", "8:7", "Pair relish", 'no part called "Pair relish"', 'write "Pear relish"', PARTS, 1),
    "part of nothing like it": Slip("Pear relish", "Custard", "8:7", "Custard", 'no part called "Custard"', "Main bowl or Pear relish", PARTS, 1),
    "part of a recipe with one": Slip("Servings: 2", "Servings: 2\nPart: Relish", "5:7", "Relish", 'no part called "Relish"', "delete this line"),
    "part not said": Slip("Part: Main bowl\n", "", "1:1", "Recipe: lentil-bowl", "does not say which part of lentil-bowl", 'its parts are "Main bowl" and "Pear relish"', "Recipe: lentil-bowl\nDate: 2026-06-13\nMethod: kettle\nServings: 2\nPart: Main bowl\nWater poured: 1 cup\nIt was: right\n"),
    "part left empty": Slip("Part: Main bowl", "Part:", "5:1", "Part", "does not say which part", '"Part: Main bowl"', PARTS, 1),
    # values
    "day that is none": Slip("2026-06-13", "2026-06-31", "2:7", "2026-06-31", '"2026-06-31" is not a day', "2026-03-02"),
    "day to be read two ways": Slip("2026-06-13", "06/05/2026", "2:7", "06/05/2026", '"06/05/2026" can be read two ways', "2026-05-06 or 2026-06-05"),
    "day with dots, to be read two ways": Slip("2026-06-13", "05.08.2026", "2:7", "05.08.2026", '"05.08.2026" can be read two ways', "2026-08-05 or 2026-05-08"),
    "day that is still to come": Slip("2026-06-13", "2099-06-13", "2:7", "2099-06-13", "2099-06-13 is still to come: today is 2026-11-01", "on which it was made"),
    "31st of a short month": Slip("2026-06-13", "31 June 2026", "2:7", "31 June 2026", '"31 June 2026" is not a day', "2026-03-02"),
    "method that isn't one": Slip("kettle", "bonfire", "3:9", "bonfire", '"bonfire" is not one of kettle', "write kettle, microwave, stove, jar or cold"),
    "method misspelt": Slip("kettle", "microwve", "3:9", "microwve", '"microwve" is not one of', 'write "microwave"'),
    "servings by feel": Slip("Servings: 2", "Servings: a few", "4:11", "a few", 'whole number, and "a few" stands here', "such as 2"),
    "half a serving": Slip("Servings: 2", "Servings: 1.5", "4:11", "1.5", 'whole number, and "1.5" stands here', "such as 2"),
    "nobody served": Slip("Servings: 2", "Servings: 0", "4:11", "0", '"0" is too small for "Servings"', "1 or more"),
    "water in mugs": Slip("1 3/4 cups", "2 mugs", "5:17", "mugs", '"mugs" is not a unit', "3/4 cup + 1 tbsp"),
    "water by weight": Slip("1 3/4 cups", "400 g", "5:15", "400 g", '"400 g" is not a volume', "write 400 mL"),
    "water without a unit": Slip("1 3/4 cups", "400", "5:15", "400", '"400" has no unit', "write 400 mL"),
    "more water than any kitchen holds": Slip("1 3/4 cups", "999999 L", "5:15", "999999 L", '"999999 L" is more than any kitchen holds', "what was measured"),
    "more added than any kitchen holds": Slip("2 tbsp", "999999 L", "6:14", "999999 L", '"999999 L" is more than any kitchen holds', "what was measured"),
    "water from one to another": Slip("1 3/4 cups", "1-2 cups", "5:15", "1-2 cups", '"1-2 cups" is a range', "the one that was measured"),
    "water in words": Slip("1 3/4 cups", "enough", "5:15", "enough", '"enough" is not an amount', "3/4 cup + 1 tbsp"),
    "misspelt unit, further on": Slip("1 3/4 cups", "about 1 cupp of hot water", "5:23", "cupp", '"cupp" is not a unit', 'write "cup"'),
    "no water at all": Slip("1 3/4 cups", "0 cups", "5:15", "0 cups", '"0 cups" is nothing', "3/4 cup + 1 tbsp"),
    "negative water": Slip("1 3/4 cups", "-1 cup", "5:15", "-1", '"-1" is less than nothing', "above zero"),
    "added in words": Slip("2 tbsp", "a splash", "6:16", "splash", '"splash" is not a unit', "3/4 cup + 1 tbsp"),
    "verdict by taste": Slip("too thick", "delicious", "7:9", "delicious", '"delicious" is not one of right, too thick or too thin', "right, too thick or too thin"),
    "right, and yet added to": Slip("too thick", "right", "6:14", "2 tbsp", "it was right, and water was added", '"It was: too thick"'),
    "thin, and yet added to": Slip("too thick", "too runny", "6:14", "2 tbsp", "it was too thin, and water was added", "delete the water"),
    "altitude without a unit": Slip("450 m", "450", "8:11", "450", '"450" has no unit', "450 m"),
    "altitude of no camp": Slip("450 m", "45000 m", "8:11", "45000 m", "more than can be meant", "310 m"),
    "raw meat that was not cooked": Slip("plum-lentils", "mince-pot", "3:9", "kettle", '"kettle" does not cook "turkey mince"', "cook it through"),
    # what is left out
    "no date": Slip("Date: 2026-06-13\n", "", "1:1", "Recipe: plum-lentils", 'this reply has no "Date"', '"Date: 2026-03-02"'),
    "empty date": Slip("2026-06-13", "", "2:1", "Date", '"Date" has no value', '"Date: 2026-03-02"'),
    "hint left in the date": Slip("2026-06-13", HINTS["Date"], "2:1", "Date", '"Date" has no value', '"Date: 2026-03-02"'),
    "empty method": Slip("Method: kettle", "Method:", "3:1", "Method", '"Method" has no value', "Method: kettle"),
    "no servings": Slip("Servings: 2\n", "", "1:1", "Recipe: plum-lentils", 'this reply has no "Servings"', "Servings"),
    "empty water": Slip("1 3/4 cups", "", "5:1", "Water poured", '"Water poured" has no value', "3/4 cup + 1 tbsp"),
    "no verdict": Slip("It was: too thick\n", "", "1:1", "Recipe: plum-lentils", 'this reply has no "It was"', "It was: right"),
    "no water of a part": Slip("Water poured: 3 tbsp\n", "", "8:1", "Part", 'the part "Pear relish" has no "Water poured"', "Water poured:", PARTS, 1),
    "nothing filled in": Slip("*", "Recipe: plum-lentils\nDate:\nMethod: kettle\nServings: 2\nWater poured:\nIt was:\n", "1:1", "Recipe: plum-lentils", "this reply is not filled in", "ask the reader"),
    # the shape of the text
    "misspelt key": Slip("Water poured:", "Watr poured:", "5:1", "Watr poured", '"Watr poured" is not a key', 'write "Water poured"'),
    "misspelt key with a wide colon": Slip("Water poured: ", "Watr poured：", "5:1", "Watr poured", '"Watr poured" is not a key', 'write "Water poured"'),
    "misspelt key that may be left out": Slip("Altitude:", "Altitide:", "8:1", "Altitide", '"Altitide" is not a key', 'write "Altitude"'),
    "misspelt part key": Slip("Part: Pear", "Parts: Pear", "8:1", "Parts", '"Parts" is not a line of a reply', 'write "Part"', PARTS, 2),
    "colon forgotten": Slip("Date: 2026", "Date 2026", "2:1", "Date 2026-06-13", 'a colon is missing after "Date"', 'write "Date: 2026-06-13"'),
    "written twice": Slip("Method: kettle", "Method: kettle\nMethod: stove", "4:1", "Method", '"Method" is written twice here; the first stands on line 3', "keep one"),
    "water by half its key": Slip("Water poured: ", "Water: 1 cup\nWater poured: ", "5:1", "Water: 1 cup", "this line of a reply is not read", 'write "Water poured: 1 cup".', replies=1),
    "a remark between the lines": Slip("It was:", "the blue pot, that is\nIt was:", "7:1", "the blue pot, that is", "this line of a reply is not read", "into the note", replies=1),
    "more of an amount below it": Slip("Water added:", "1/4 cup and a bit\nWater added:", "6:1", "1/4 cup and a bit", 'this line follows "Water poured" and is not read, so that the trial waits', 'the whole answer after "Water poured:"'),
    "an answer below a filled line": Slip("*", "".join(f"> {line}\n" for line in LETTER.splitlines()).replace("> Servings: 2\n", "> Servings: 1\n2\n"), "5:1", "2", 'this line follows "Servings" and is not read, so that the trial waits', 'the whole answer after "Servings:"'),
    "another method below the first": Slip("*", "".join(f"> {line}\n" for line in LETTER.splitlines()).replace("> Method: kettle\n", "> Method: kettle\nstove\n"), "4:1", "stove", 'this line follows "Method" and is not read', 'the whole answer after "Method:"'),
    "a second reply without colons": Slip("Name: Osk\n", "Name: Osk\n\n" + LETTER.replace(": ", " = "), "12:1", "Recipe = plum-lentils", "a reply seems to stand here, in a form that is not read", '"Water poured: …"', replies=1),
    "a reply on one line": Slip("*", LETTER.replace("\n", " ").strip(), "1:1", LETTER.replace("\n", " ").strip(), "a reply seems to stand here", '"Recipe: …"'),
    "a mail's own coding": Slip("Name: Osk\n", "Name: Osk\n\n" + ("UmVjaXBlOiBsZW50aWwtYm93bA" * 3 + "\n") * 2, "12:1", "UmVjaXBlOiBsZW50aWwtYm93bA" * 3, "own coding (base64)", "save its text", replies=1),
    "the opposite of a verdict": Slip("too thick", "not too thick", "7:9", "not too thick", '"not too thick" is not one of', "write right, too thick or too thin"),
    "spoons of another language": Slip("2 tbsp", "2 EL", "6:16", "EL", '"EL" is not a unit', "3/4 cup + 1 tbsp"),
    "quoted, and still misspelt": Slip("*", "".join(f"> {line}\n" for line in LETTER.replace("kettle", "ketle").splitlines()), "3:11", "ketle", '"ketle" is not one of', 'write "kettle"'),
    "a whole letter for a name": Slip("Osk", "x" * 61, "10:7", "x" * 61, "this name has 61 letters", "shorten it to 60", replies=1),
    "a whole letter for a note": Slip("Lid on.", "x" * 601, "9:7", "x" * 601, "this note has 601 letters", "shorten it to 600", replies=1),
    "ordinary mail": Slip("*", "Dear all,\n\nwe liked it.\n", "1:1", "Dear all,", "no reply stands in this file", '"Recipe: …"'),
    "empty file": Slip("*", "", "1:1", "", "no reply stands in this file", '"Recipe: …"'),
    "a sign that can't be seen": Slip("Lid on.", "Lid\x00on.", "9:10", "\x00", "can't be seen stands here", "delete it"),
}  # fmt: skip


@pytest.mark.parametrize("slip", SLIPS.values(), ids=SLIPS)
def test_each_slip_is_one_warning_under_its_culprit(slip: Slip) -> None:
    assert slip.old == "*" or slip.letter.count(slip.old) == 1
    text = slip.new if slip.old == "*" else slip.letter.replace(slip.old, slip.new)
    replies, findings = read({"a.txt": text})
    (found,) = findings
    place = found.place
    assert found.severity == "warning"
    assert f"{place.path}:{place.line}:{place.column}" == f"replies/a.txt:{slip.at}"
    assert place.excerpt[place.column - 1 : place.column - 1 + place.width] == slip.culprit
    assert slip.cause in found.cause
    assert slip.mend in found.mend
    assert len(replies) == slip.replies
    assert described(found)


def test_the_sound_letters_give_replies_and_no_finding() -> None:
    replies, findings = read({"a.txt": LETTER, "b.txt": PARTS})
    assert not findings
    assert [(reply.recipe, reply.part) for reply in replies] == [
        ("plum-lentils", None), ("lentil-bowl", None), ("lentil-bowl", "Pear relish"),
    ]  # fmt: skip


def test_all_slips_of_a_letter_come_at_once() -> None:
    text = LETTER.replace("06-13", "06-31").replace("cups", "mugs").replace("450 m", "450")
    replies, findings = read({"a.txt": text.replace("kettle", "").replace("plum-len", "plum-lem")})
    assert [found.place.line for found in findings] == [1, 2, 3, 5, 8]
    assert not replies


def test_bytes_that_are_no_text_are_a_warning_at_their_place() -> None:
    (found,) = read({"a.txt": LETTER.replace("Osk", "Ren\u00e9").encode("cp1252")})[1]
    assert (found.severity, found.place.line, found.place.column) == ("warning", 10, 10)
    assert "UTF-8" in found.mend


def test_a_letter_in_another_form_is_a_warning() -> None:
    replies, (found,) = read({"a.docx": b"PK\x03\x04", "b.txt": LETTER, ".hidden": b"\x00"})
    assert "a.txt" in found.mend
    assert (found.place.path, len(replies)) == ("replies/a.docx", 1)


def test_a_folder_inside_is_told_and_not_read() -> None:
    replies, (found,) = read({"old/a.txt": LETTER, "b.TXT": LETTER})
    assert (len(replies), replies[0].block.path) == (1, "replies/b.TXT")
    assert (found.severity, found.place.path) == ("warning", "replies/old")
    assert (found.cause, found.mend) == (
        "this folder is not read; letters stand in replies/ itself",
        "move what is in old/ up into replies/.",
    )


def test_a_letter_that_was_saved_twice_counts_once() -> None:
    replies, (found,) = read({"a.txt": LETTER, "b.txt": "> " + LETTER.replace("\n", "\n> ")})
    assert len(replies) == 1
    assert (found.place.path, found.place.line) == ("replies/b.txt", 1)
    assert "line 1 of replies/a.txt" in found.cause


def test_another_note_on_the_same_meal_is_not_dropped_in_silence() -> None:
    replies, (found,) = read({"a.txt": LETTER + "\n" + LETTER.replace("Lid on", "Lid off")})
    assert len(replies) == 1
    assert (found.place.line, "line 1 of replies/a.txt" in found.cause) == (12, True)
    assert "write their names" in found.mend


def test_a_reply_that_the_author_copied_counts_once() -> None:
    recipe = "recipes/suppers/plum-lentils.md"
    trial = (
        "trials: [{date: 2026-06-13, method: kettle, servings: 2, water: 1 3/4 cups, "
        "verdict: thick, added: 2 tbsp}]"
    )
    text = BOOK[recipe].replace("title", f"{trial}\ntitle")
    replies, (found,) = read({"a.txt": LETTER, f"../{recipe}": text})
    assert not replies
    assert (found.place.path, found.place.line) == ("replies/a.txt", 1)
    assert f"line 2 of {recipe}" in found.cause


def test_a_missing_folder_is_no_finding() -> None:
    assert read({}) == ((), [])


PIECES = st.sampled_from([
    *LETTER.splitlines(), *PARTS.splitlines(), *(f"{key}: {HINTS[key]}" for key in HINTS),
    *(f"{key}:" for key in HINTS), "", "> ", "--", "-- ", "***", "From: a@example.org",
    "Subject: x", "Date: Mon, 1 Jun 2026 10:00:00 +0000", "Recipe: ", "recipie: lentil-bowl",
    "Water poured", "Water poured 1 cup", "water  poured :: 1/0 cup", "It was (", "**Note:** ()",
    "Note: ((", "Name: \u202e\u200b", "Method: \N{ZERO WIDTH SPACE}", "Date: 0000-00-00",
    "Date: 99 March 9999", "Servings: 9999999999999999999999", "Servings: ٣", "🫖: 🫖",
    "Altitude: -1e400 m", "null", "Water poured: ~", "Water added: null", "Part: ()", ":", "\ufeff",
])  # fmt: skip
LETTERS = st.lists(
    st.tuples(st.sampled_from(["", "> ", ">> ", "  ", "\ufeff"]), PIECES | st.text(max_size=30)),
    max_size=25,
).map(lambda pieces: "\n".join(quoting + piece for quoting, piece in pieces))

ALTERED = st.tuples(
    st.sampled_from([LETTER, PARTS, LETTER + "\n-- \n" + PARTS]),
    st.lists(st.tuples(st.integers(0, 25), st.booleans(), PIECES), max_size=4),
).map(lambda drawn: altered(*drawn))


def altered(text: str, changes: list[tuple[int, bool, str]]) -> str:
    """Return a letter with lines put in, or put in the place of others."""
    lines = text.splitlines()
    for at, instead, piece in changes:
        lines[at : at + instead] = [piece]
    return "\n".join(lines)


def spans(text: str) -> list[tuple[int, int]]:
    """Return the first and the last line of each block that was begun."""
    source = Source.of("replies/a.txt", text)
    begun = [block.place.line for block in read_blocks(source, Findings())]
    ends = [*(line - 1 for line in begun[1:]), len(source.lines)]
    return list(zip(begun, ends, strict=False))


@settings(max_examples=200, deadline=None, suppress_health_check=list(HealthCheck))
@given(LETTERS | ALTERED | st.text(max_size=200))
def test_no_letter_crashes_and_no_block_is_lost(text: str) -> None:
    replies, findings = read({"a.txt": text})
    assert all(found.severity == "warning" for found in findings)
    for found in findings:
        assert described(found)
        assert found.mend
    if not replies and not findings:
        pytest.fail("a file without a reply is a finding")
    if any("can't be seen" in found.cause for found in findings):
        return  # the file as a whole is not read, and says so
    marked = [reply.block.line for reply in replies] + [found.place.line for found in findings]
    for first, last in spans(text):
        if not any(first <= line <= last for line in marked):
            # only a copy of what was read: a blank form, or the same trial once more
            assert replies or findings
            assert is_copy(text, first, last)


def is_copy(text: str, first: int, last: int) -> bool:
    """Whether a block alone would be a blank form, or gives what the whole letter gives too."""
    lines = list(Source.of("a", text).lines)
    replies, findings = read({"a.txt": "\n".join(lines[first - 1 : last])})
    blank = any("not filled in" in found.cause for found in findings)
    known = {(r.recipe, r.part, r.trial.date) for r in read({"a.txt": text})[0]}
    return blank or (bool(replies) and {(r.recipe, r.part, r.trial.date) for r in replies} <= known)


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.binary(max_size=60), st.integers(0, len(LETTER)))
def test_any_bytes_in_a_letter_are_findings_at_most(noise: bytes, at: int) -> None:
    data = LETTER.encode()
    _, findings = read({"a.txt": data[:at] + noise + data[at:]})
    assert all(found.severity == "warning" and described(found) for found in findings)
