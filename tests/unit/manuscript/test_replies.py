"""What readers send back: trials, found in whatever their mail wraps them in."""

from __future__ import annotations

import datetime as dt
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.manuscript.reply_form import HINTS, MAIN_PART
from cookbook_build.measures.units import SYSTEMS
from cookbook_build.planning.dishes import MAIN

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from cookbook_build.manuscript.replies import Reply

    Read = Callable[..., tuple[Reply, ...]]

LETTER = """\
Recipe: lentil-bowl
Date: 2026-06-13
Method: kettle
Servings: 2
Water poured: 1 1/2 cups
Water added: 2 tbsp
It was: too thick
Altitude: 450 m
Note: Lid on.
Name: Osk
"""


@pytest.fixture
def read(tmp_path: Path) -> Read:
    """Return a function that reads letters as the replies of a small book, without a finding."""
    (tmp_path / "recipes").mkdir()
    (tmp_path / "replies").mkdir()
    (tmp_path / "book.yaml").write_text("title: Bowls\n")
    (tmp_path / "larder.yaml").write_text(
        "lentils: {food: lentils cooked, dried: freeze, cooked first: true}\n"
    )
    for title in ("Lentil bowl", "Other bowl"):
        name = title.casefold().replace(" ", "-")
        (tmp_path / f"recipes/{name}.md").write_text(
            f"---\ntitle: {title}\ningredients: [1 cup lentils]\n---\nStir.\n"
        )

    def reading(*letters: str | bytes) -> tuple[Reply, ...]:
        for at, letter in enumerate(letters):
            data = letter.encode() if isinstance(letter, str) else letter
            (tmp_path / f"replies/{at}.txt").write_bytes(data)
        findings = Findings()
        book = read_book(tmp_path, findings)
        assert book is not None
        assert [found.cause for found in findings] == []
        return book.replies

    return reading


def test_a_reply_is_a_trial_with_a_name_a_date_and_its_places(read: Read) -> None:
    (reply,) = read(LETTER)
    trial, cups = reply.trial, SYSTEMS["us-cups"]
    assert (reply.recipe, reply.part) == ("lentil-bowl", None)
    assert trial.date == dt.date(2026, 6, 13)
    assert (trial.method, trial.servings, trial.verdict) == ("kettle", 2, "thick")
    assert trial.water.volume_ml(cups) == Fraction(3, 2) * cups.ml["cup"]
    assert trial.added is not None
    assert trial.added.volume_ml(cups) == 2 * cups.ml["tbsp"]
    assert trial.altitude is not None
    assert (trial.altitude.si, trial.by, trial.note) == (450, "Osk", "Lid on.")
    assert (reply.place.path, reply.place.line, reply.place.column) == ("replies/0.txt", 5, 15)
    assert (reply.block.line, reply.block.width) == (1, len("Recipe: lentil-bowl"))


def test_what_may_be_left_out_may_be_left_out(read: Read) -> None:
    kept = [line for line in LETTER.splitlines() if line.split(":")[0] not in LEFT_OUT]
    (reply,) = read("\n".join(kept))
    trial = reply.trial
    assert (trial.added, trial.altitude, trial.by, trial.note) == (None, None, None, None)


LEFT_OUT = ("Water added", "Altitude", "Note", "Name")
QUOTED = "".join(f"> {line}\n" for line in LETTER.splitlines())
WRAPPED = {
    "Windows line ends": LETTER.replace("\n", "\r\n").encode(),
    "a byte-order mark": b"\xef\xbb\xbf" + LETTER.encode(),
    "a mark in the middle": "Hello\n\ufeff" + LETTER,
    "quoting": QUOTED,
    "quoting twice, and glued": "".join(f">> >{line}\n" for line in LETTER.splitlines()),
    "mail headers": "From: osk@example.org\nDate: Sat, 13 Jun 2026 21:10:00 +0200\n\n" + LETTER,
    "headers with no line between": "Date: today\nSubject: Recipe\n" + LETTER,
    "a greeting and a signature": f"Hello,\n\nhere it is.\n\n{LETTER}\nBest,\nOsk\nPhone: 123",
    "a signature mark": LETTER + "-- \nOsk\nDate: never\nWater added: no",
    "double spacing": LETTER.replace("\n", "\n\n"),
    "spaces and capitals": LETTER.upper().replace("OSK", "Osk").replace("LID ON", "Lid on"),
    "spaces round it all": "\n".join(
        f"   {line.replace(':', '  :  ', 1)}\t" for line in LETTER.split("\n")
    ),
    "no-break spaces": LETTER.replace(" ", "\N{NO-BREAK SPACE}"),
    "bold keys": "\n".join(f"*{line.replace(':', ':*', 1)}" for line in LETTER.split("\n") if line),
    "answers below the questions": "\n".join(
        f"> {key}:\n{value.strip()}"
        for key, _, value in (line.partition(":") for line in LETTER.splitlines()[:-1])
    )
    + "\n> Name: Osk",
    "the blank form quoted below": LETTER
    + "\nOn a Saturday the author wrote:\n> Recipe: lentil-bowl\n> Date:\n> Method: kettle\n"
    "> Servings: 2\n> Water poured:\n> It was:\n",
    "itself quoted below": LETTER + "\nThank you!\n" + QUOTED,
    "dashes for a list": "".join(f"- {line}\n" for line in LETTER.splitlines()),
    "a name for quoting": "".join(f"Ann> {line}\n" for line in LETTER.splitlines()),
    "paragraphs of a page": "".join(f"<p>{line}</p>\n" for line in LETTER.splitlines()),
    "colons of another keyboard": LETTER.replace(": ", "："),
    "the last answers below": LETTER.replace("Name: ", "Name:\n"),
    "bars for quoting": "".join(f"| > {line}\n" for line in LETTER.splitlines()),
    "what a page leaves behind": "".join(f"{line}&nbsp;<br>\n" for line in LETTER.splitlines()),
    "marks of a mail's own coding": "".join(f"{line}=20\n" for line in LETTER.splitlines()),
    "a hint cut by the line's end": LETTER.replace(
        "2 tbsp", HINTS["Water added"].replace(" such", "\n>> such") + "\n> > 2 tbsp"
    ),
    "a hint cut beside its answer": LETTER.replace(
        "1 1/2 cups", "1 1/2 cups " + HINTS["Water poured"].replace(" + ", " +\n>> ")
    ),
    "the next letter's headers": LETTER
    + "\nDate: Sun, 14 Jun 2026 08:00:00 +0200\nFrom: larder@example.org\nSubject: Thanks\n\nOh.",
}


@pytest.mark.parametrize("letter", WRAPPED.values(), ids=WRAPPED)
def test_a_block_is_found_in_its_wrapping(read: Read, letter: str | bytes) -> None:
    (plain,) = read(LETTER)
    (found,) = read(letter)
    bare = {"altitude": None}  # it keeps its own words
    assert found.trial.model_copy(update=bare) == plain.trial.model_copy(update=bare)
    assert found.trial.altitude
    assert found.trial.altitude.si == 450
    assert (found.recipe, found.part) == (plain.recipe, plain.part)


def test_a_mail_box_holds_several(read: Read) -> None:
    second = LETTER.replace("lentil-bowl", "other-bowl").replace("2026-06-13", "2026-06-14")
    mails = f"From: osk@example.org\nSubject: one\n\n{LETTER}\n--\nOsk\n\n{second}"
    found = read(mails, LETTER.replace("2026-06-13", "2026-06-15"))
    assert [(reply.recipe, reply.trial.date.day) for reply in found] == [
        ("lentil-bowl", 13), ("other-bowl", 14), ("lentil-bowl", 15),
    ]  # fmt: skip


EVERYDAY = {
    "2026-06-13": [
        "13 June 2026",
        "June 13, 2026",
        "13. Jun. 2026",
        "Saturday, 13th June 2026",
        "13.06.2026",
        "06/13/2026",
        "2026-6-13",
        "2026/06/13",
        "13th of June 2026",
        "Sat, 13 Jun 2026",
    ],
    "kettle": ["Kettle", "boiled water in a bowl", "Boiling water.", "KETTLE"],
    "Servings: 2": ["Servings: two", "Servings: for 2 people", "Servings: 2 servings"],
    "1 1/2 cups": [
        "1½ cups",
        "about 1 1/2 cups",
        "1 cup + 8 tbsp",
        "1 1/2 cups of hot water",
        "1 cup\n> + 1/2 cup",
        "1 cup +\n1/2 cup",
        "\n1 cup\nand 1/2 cup",
    ],
    "too thick": [
        "Thick",
        "a bit too thick",
        "too thick.",
        "slightly thick",
        "too dry",
        "it was too thick",
    ],
    "450 m": ["(450 m)", "450 metres"],
    "lentil-bowl": ["Lentil-Bowl", "suppers/lentil-bowl.md", "Lentil bowl"],
}


@pytest.mark.parametrize(
    ("plain", "written"), [(plain, word) for plain, ws in EVERYDAY.items() for word in ws]
)
def test_everyday_words_mean_what_they_mean(read: Read, plain: str, written: str) -> None:
    (first,) = read(LETTER)
    (found,) = read(LETTER.replace(plain, written))
    old, new = first.trial, found.trial
    assert (old.date, old.method, old.servings, old.verdict) == (
        new.date, new.method, new.servings, new.verdict,
    )  # fmt: skip
    assert old.water.volume_ml(SYSTEMS["us-cups"]) == new.water.volume_ml(SYSTEMS["us-cups"])
    assert old.altitude
    assert new.altitude
    assert old.altitude.si == new.altitude.si
    assert found.recipe == "lentil-bowl"


@pytest.mark.parametrize(
    ("written", "method"),
    [("on the camp stove", "stove"), ("cold soak", "cold"), ("In the microwave", "microwave"),
     ("Stove", "stove"), ("food jar", "jar"), ("cold water", "cold")],
)  # fmt: skip
def test_a_method_goes_by_what_people_call_it(read: Read, written: str, method: str) -> None:
    (found,) = read(LETTER.replace("kettle", written))
    assert found.trial.method == method


@pytest.mark.parametrize("nothing", ["none", "-", "0", "Nothing.", ""])
def test_nothing_added_is_nothing(read: Read, nothing: str) -> None:
    letter = LETTER.replace("2 tbsp", nothing).replace("too thick", "just right")
    (found,) = read(letter)
    assert (found.trial.added, found.trial.verdict) == (None, "right")


def test_a_note_runs_to_the_next_key_and_the_last_one_to_a_blank_line(read: Read) -> None:
    (between,) = read(LETTER.replace("Lid on.", "Lid on,\nwind  behind.\n\nGood. (Very: good.)"))
    (last,) = read(LETTER.replace("Note: Lid on.\n", "") + "Note:\nLid on,\nwind.\n\nBest, Osk\n")
    assert between.trial.note == "Lid on, wind behind. Good. (Very: good.)"
    assert last.trial.note == "Lid on, wind."


def test_a_name_is_not_what_stands_below_an_empty_one(read: Read) -> None:
    (found,) = read(LETTER.replace("Osk", "") + "Sent from a hill\n")
    assert found.trial.by is None


def test_a_mail_s_own_coding_is_not_printed(read: Read) -> None:
    (found,) = read(
        LETTER.replace("Osk", "J=C3=B6rg").replace("Lid on.", "Salt &amp; pepper, so tha=\nt.")
    )
    assert (found.trial.by, found.trial.note) == ("J\u00f6rg", "Salt & pepper, so that.")


def test_signs_that_turn_text_round_are_not_printed(read: Read) -> None:
    (found,) = read(LETTER.replace("Osk", "O\u202esk").replace("Lid on", "Lid\u2066 on"))
    assert (found.trial.by, found.trial.note) == ("Osk", "Lid on.")


def test_the_main_part_is_called_as_the_pages_call_it() -> None:
    assert MAIN_PART == MAIN


def test_a_book_without_letters_has_no_replies(read: Read) -> None:
    assert read() == ()
