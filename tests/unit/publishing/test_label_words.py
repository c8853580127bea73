"""What stands on a label and on the packing card, and what never goes missing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings, described
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.publishing.keeping_views import keeping_view
from cookbook_build.publishing.label_words import LabelWords, label_words, servings_words

if TYPE_CHECKING:
    from pathlib import Path

POUCHES = "pouches: [{name: small, width: 13 cm, height: 18 cm}]"
LARDER = """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
beef mince: {food: ground beef raw, dried: freeze, raw: true, weighs: 60 g per cup}
beef: {food: beef chuck raw, dried: freeze, raw: true, weighs: 60 g per cup}
raisins: {food: raisins, dried: bought}
oatcake: {food: oatcakes, dried: fresh, sold by: piece, weighs: 60 g per piece}
"""
BOWL = """\
---
title: Lentil bowl
ingredients: [1 cup lentils, 2 tbsp leeks, 1 oatcake (fresh)]
components:
  - {name: Leek relish, ingredients: [3 tbsp leeks]}
---
"""
MENU = "title: Nights\npeople: 4\npacked: 2026-05-31\nmeals: [{day: 1, meal: supper, recipe: bowl"


def book(
    folder: Path,
    *,
    kit: str = f"kit: {{{POUCHES}, absorbers: [100 mL, 300 mL]}}",
    bowl: str = BOWL,
    method: str = "stove",
    altitude: str = "450 m",
    stock: str = "",
    log: str = "",
) -> Reckoning:
    files = {
        "book.yaml": f"title: A book\n{kit}\n",
        "larder.yaml": LARDER,
        "recipes/bowl.md": bowl,
        "menus/nights.yaml": f"{MENU}, method: {method}, altitude: {altitude}}}]\n",
    }
    files |= {name: text for name, text in (("stock.csv", stock), ("drying-log.csv", log)) if text}
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    findings = Findings()
    read = read_book(folder, findings)
    assert read is not None, [described(finding) for finding in findings]
    assert not findings.errors, [described(finding) for finding in findings]
    return reckoned(read, findings)


def labels(found: Reckoning) -> list[LabelWords]:
    return [
        words
        for provision in found.provisions
        for pack in provision.packs
        for words in label_words(pack, found.book)
    ]


def plain(words: str) -> str:
    return words.replace("\N{NO-BREAK SPACE}", " ")


def notes(found: Reckoning) -> str:
    view = keeping_view(found.dishes["bowl"], found.book, (1, 4), found.lots)
    return plain(" ".join(view.notes))


def test_each_pouch_has_its_own_label_share_and_water(tmp_path: Path) -> None:
    found = book(tmp_path)
    main, relish = found.provisions[0].packs
    listed = labels(found)
    assert main.count > 1
    assert len(listed) == main.count + 1
    shares = [words.share.split(":")[0] for words in listed[:-1]]
    assert shares == [f"{number} of {main.count}" for number in range(1, main.count + 1)]
    one = listed[0]
    assert f"({main.share_water.start_ml:.0f} mL)" in plain(one.pour)
    assert f"{main.share_g:.0f} g dry" in plain(one.share)
    assert f"({main.water.start_ml:.0f} mL)" in plain(one.extras[0])
    assert listed[-1].part == relish.part.name
    assert f"({relish.water.start_ml:.0f} mL)" in plain(listed[-1].pour)
    assert "1 of" not in listed[-1].share


def test_the_square_says_the_same(tmp_path: Path) -> None:
    for words in labels(book(tmp_path)):
        said = words.code_text.splitlines()
        assert said[0] == "Lentil bowl"
        assert len([line for line in said if line.startswith("Pour ")]) == 1
        assert f"{words.part}: " in words.code_text
        assert words.packed in said
        assert words.best_by in said
        assert words.lot in said


@pytest.mark.parametrize(
    ("meat", "heat", "then"),
    [
        ("beef mince", "71 °C (160 °F)", ""),  # USDA FSIS: ground meat 160 °F
        ("beef", "63 °C (145 °F)", ", then rest 3 min"),  # whole cuts 145 °F and 3 minutes
    ],
)
def test_raw_meat_is_simmered_by_its_heat_not_by_the_clock(
    meat: str, heat: str, then: str, tmp_path: Path
) -> None:
    words = labels(book(tmp_path, bowl=BOWL.replace("1 cup lentils", f"1 cup {meat}")))[0]
    assert plain(words.raw) == f"Raw {meat}: cook to {heat} inside{then}."
    assert f"simmer until {heat} inside (about " in plain(words.how)
    # the square spells its signs plainly
    assert words.code_text.splitlines()[1].startswith(f"Raw {meat}: cook to {heat[:2]} C")


def test_where_water_boils_too_cool_the_warning_says_so(tmp_path: Path) -> None:
    raw = BOWL.replace("1 cup lentils", "1 cup beef mince")
    words = labels(book(tmp_path, bowl=raw, altitude="8900 m"))[0]
    assert "only under pressure" in words.raw
    assert "pressure" not in labels(book(tmp_path, bowl=raw))[0].raw


@pytest.mark.parametrize(
    ("method", "poured", "said"),
    [
        ("kettle", "boiling water", "rest"),
        ("stove", "water", "bring to the boil"),
        ("cold", "cold drinking water", "Eat within 2 h of pouring"),
    ],
)
def test_a_label_says_which_water_and_what_to_do(
    method: str, poured: str, said: str, tmp_path: Path
) -> None:
    words = labels(book(tmp_path, method=method))[0]
    assert f") {poured}, keep back" in plain(words.pour)
    assert said in plain(words.how)
    assert ("450 m" in plain(words.how)) is (method != "cold")


def test_a_stranger_finds_what_goes_with_it_and_what_is_no_food(tmp_path: Path) -> None:
    main = labels(book(tmp_path))[0]
    told = " ".join(main.extras)
    assert "Goes with: leek relish, packed apart." in told
    assert "Add fresh: oatcake." in told
    assert "Of lentils, leeks." in told
    assert main.absorber.startswith("Take the absorber")
    assert "canned" not in main.absorber


def test_a_jar_says_that_it_is_not_canned(tmp_path: Path) -> None:
    jars = "kit: {jars: [{name: quart, holds: 950 mL}], absorbers: [300 mL]}"
    assert "Not canned" in labels(book(tmp_path, kit=jars))[0].absorber
    assert labels(book(tmp_path, kit="kit: {}"))[0].absorber == ""


def test_a_damp_mix_gets_no_absorber_and_says_why(tmp_path: Path) -> None:
    # raisins: 15.43 % water, USDA SR28 09298
    found = book(tmp_path, bowl=BOWL.replace("1 cup lentils", "1 cup raisins"), method="kettle")
    assert plain(labels(found)[0].absorber) == "No absorber: 15 % water."
    assert "No absorber goes with the main bowl: by its stores it holds 15 % water" in notes(found)


def test_the_card_refuses_a_damp_lot(tmp_path: Path) -> None:
    stock = "store,lot,packed on,container,grams\nlentils,LEN-1,2026-02-01,pouch,40\n"
    log = "date,store,lot,fresh g,dry g,hours,trays\n2026-02-01,lentils,LEN-1,1000,360,30,2\n"
    # 1 - 1000 (1 - 0.6964)/360 = 15.7 %, by hand from USDA SR28 16070
    damp = notes(book(tmp_path / "damp", stock=stock, log=log))
    assert "Lot LEN-1 of lentils holds 16 % water" in damp
    assert "never seal it with an absorber" in damp
    assert "LEN-1" not in notes(book(tmp_path / "dry", stock=stock))


@pytest.mark.parametrize(
    ("kit", "pouches", "absorbers"),
    [
        ("kit: {}", True, True),
        (f"kit: {{{POUCHES}}}", False, True),
        ("kit: {absorbers: [300 mL]}", True, False),
        (f"kit: {{{POUCHES}, absorbers: [300 mL]}}", False, False),
    ],
)
def test_the_card_says_what_the_book_does_not_name(
    *, kit: str, pouches: bool, absorbers: bool, tmp_path: Path
) -> None:
    said = notes(book(tmp_path, kit=kit))
    assert ("pouches: [{name: medium, width: 18 cm, height: 26 cm}]" in said) is pouches
    assert ("absorbers: [300 mL]" in said) is absorbers
    assert "not canning" in said


@pytest.mark.parametrize(
    ("servings", "words"),
    [
        (1.0, "1 serving"), (1.5, "1½ servings"), (1 / 3, "⅓ serving"), (7 / 3, "2⅓ servings"),
        (37 / 30, "1.2 servings"), (12.0, "12 servings"),
    ],
)  # fmt: skip
def test_shares_are_said_as_a_cook_says_them(servings: float, words: str) -> None:
    assert servings_words(servings) == words


def test_many_raw_stores_never_push_the_heat_out(tmp_path: Path) -> None:
    raw = "1 cup beef mince, 1 cup beef"
    words = labels(book(tmp_path, bowl=BOWL.replace("1 cup lentils", raw)))[0]
    assert plain(words.raw) == "Raw beef, beef mince: cook to 71 °C (160 °F) inside."
