"""The block on the page, the letter it opens in, and the way back."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import parse_qs, urlsplit

import pytest
from bs4 import BeautifulSoup

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.manuscript.replies import Reply, read_replies
from cookbook_build.publishing.reply_block import reply_block, reply_link
from cookbook_build.publishing.theme import environment, theme_folder

if TYPE_CHECKING:
    from cookbook_build.manuscript.collection import Manuscript

DEMO = Path(__file__).parents[3] / "content_demo"
SUPPER, PARTS = "barley-and-leek-supper", ("Main bowl", "Pear relish")
ONE = reply_block("beetroot-soup", ("Beetroot soup",))
TWO = reply_block(SUPPER, PARTS)


def demo() -> Manuscript:
    book = read_book(DEMO, Findings())
    assert book is not None
    return book


def sent_back(folder: Path, letter: str) -> tuple[tuple[Reply, ...], list[str]]:
    """Return what the demo book makes of a letter, and the causes of the findings."""
    (folder / "replies").mkdir(exist_ok=True)
    (folder / "replies" / "a.txt").write_bytes(letter.encode())
    findings, book = Findings(), demo()
    replies = read_replies(folder, book.recipes, book.larder, (), findings)
    return replies, [found.cause for found in findings]


def filled(block: str, **answers: str) -> str:
    """Return a block with answers in the place of hints; `water_poured` is `Water poured`."""
    answers = {"method": "kettle", "servings": "2"} | answers
    words = {key.replace("_", " ").casefold(): value for key, value in answers.items()}
    lines = [line.partition(":") for line in block.splitlines()]
    return "\n".join(f"{key}: {words.get(key.casefold(), old)}" for key, _, old in lines)


def test_what_is_known_stands_in_the_block_already() -> None:
    assert ONE.splitlines()[0] == "Recipe: beetroot-soup"
    assert "Method: (kettle, microwave, stove, jar or cold)" in ONE.splitlines()
    assert "Servings: (such as 2)" in ONE.splitlines()
    assert "Part" not in ONE
    assert [line for line in TWO.splitlines() if line.startswith("Part")] == [
        "Part: Main bowl", "Part: Pear relish",
    ]  # fmt: skip


def test_no_line_is_so_long_that_mail_breaks_it() -> None:
    assert max(map(len, (ONE + TWO).splitlines())) <= 72


def test_a_block_that_was_filled_in_comes_back_as_a_trial(tmp_path: Path) -> None:
    answers = {"date": "2026-07-14", "water_poured": "3 cups", "it_was": "right", "name": "Mirela"}
    (reply,), causes = sent_back(tmp_path, filled(ONE, **answers))
    assert not causes
    trial = reply.trial
    assert (reply.recipe, reply.part, trial.method, trial.servings) == (
        "beetroot-soup", None, "kettle", 2,
    )  # fmt: skip
    assert (str(trial.water), trial.by, trial.added) == ("3\u00a0cups", "Mirela", None)
    assert (trial.note, trial.altitude) == (None, None)


def test_an_answer_may_stand_beside_its_hint(tmp_path: Path) -> None:
    beside = {
        "Date": "2026-07-14", "Water poured": "3 cups", "It was": "right", "Method": "kettle",
        "Servings": "2",
    }  # fmt: skip
    lines = [
        f"{line} {beside[line.split(':')[0]]}" if line.split(":")[0] in beside else line
        for line in ONE.splitlines()
    ]
    (reply,), causes = sent_back(tmp_path, "\r\n".join(lines))
    assert not causes
    assert reply.trial.verdict == "right"


def test_each_part_that_was_filled_in_is_a_trial_of_its_own(tmp_path: Path) -> None:
    both = filled(TWO, date="2026-07-14", water_poured="2 cups", it_was="too thin", note="Good.")
    replies, causes = sent_back(tmp_path, both)
    assert not causes
    assert [(reply.part, reply.trial.note) for reply in replies] == [
        (None, "Good."), ("Pear relish", None),
    ]  # fmt: skip
    head, relish = TWO.split("Part: Pear relish\n")
    tail = filled("Part: Pear relish\n" + relish, water_poured="6 tbsp", it_was="right")
    (one,), causes = sent_back(tmp_path, filled(head, date="2026-07-14") + "\n" + tail)
    assert not causes
    assert one.part == "Pear relish"


def test_a_block_that_was_sent_back_blank_is_a_warning(tmp_path: Path) -> None:
    for block in (ONE, TWO):
        assert sent_back(tmp_path, block) == ((), ["this reply is not filled in"])


@pytest.mark.parametrize("contact", ["larder@example.org", "o'osk+larder%1@mail.example.org"])
def test_the_link_opens_a_letter_with_the_block_in_it(contact: str) -> None:
    link = reply_link(contact, "Lentils & plums: 100 % ½ #1", TWO)
    parts = urlsplit(link)
    fields = parse_qs(parts.query, strict_parsing=True, encoding="utf-8")
    assert (parts.scheme, parts.fragment) == ("mailto", "")
    assert parts.path == contact.replace("%", "%25")
    assert fields == {
        "subject": ["Lentils & plums: 100 % ½ #1"], "body": [TWO.replace("\n", "\r\n")],
    }  # fmt: skip
    assert "+" not in parts.query  # a space is %20 there, and a plus stays one
    assert link.isascii()


@pytest.mark.parametrize(
    "contact",
    [
        None,
        "",
        "the house by the bend",
        "a@b",
        "x@example.org, z@example.org",
        "https://example.org/write",
        "a@example.org?cc=b@example.org&x",
    ],
)
def test_a_contact_that_is_no_mail_box_gives_no_link(contact: str | None) -> None:
    assert reply_link(contact, "Soup", ONE) == ""


def shown(link: str, contact: str | None) -> BeautifulSoup:
    templates = environment(theme_folder())
    page = templates.from_string(
        '{% from "reply.html" import reply %}{{ reply(block, link, contact) }}'
    )
    return BeautifulSoup(page.render(block=TWO, link=link, contact=contact), "lxml")


def test_the_page_shows_the_block_as_it_is_and_the_link_if_there_is_one() -> None:
    link = reply_link("larder@example.org", "Supper", TWO)
    page = shown(link, "larder@example.org")
    block, anchor = page.select_one("details.reply pre"), page.select_one("details.reply a")
    assert block
    assert anchor
    assert block.get_text() == TWO
    assert anchor["href"] == link
    assert not shown("", "the house by the bend").select("a")
    assert "the house by the bend" in shown("", "the house by the bend").get_text()
    assert not shown("", None).select(".contact")
