"""Lots on the shelf and in the log: what teaches, what keeps, and what a menu may take."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup

from cookbook_build.findings import Finding, Findings, Severity
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.household_yields import household_rate
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.publishing.lot_words import refusal_words, why_left
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.provision_lists import provision_lines
from cookbook_build.publishing.provisioning import provision_data
from cookbook_build.publishing.theme import environment, theme_folder

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.planning.lots import Lot
    from cookbook_build.planning.provisions import NeedLine

FILES = {
    "book.yaml": """\
title: A book
altitude: 310 m
kit:
  dryer: {trays: 4, tray area: 1900 cm2, tray load: 900 g, ice: 4 kg}
  pouches: [{name: small, width: 13 cm, height: 18 cm}, {name: medium, width: 18 cm, height: 26 cm}]
  jars: [{name: blue tin, holds: 900 mL}]
  absorbers: [100 mL, 300 mL]
""",
    "larder.yaml": """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
carrots: {food: carrots raw, dried: air, form: diced, weighs: 58 g per cup}
salt: {food: salt, dried: bought}
oatcake: {food: oatcakes, dried: fresh, sold by: piece, weighs: 60 g per piece}
""",
    "recipes/bowl.md": """\
---
title: Lentil bowl
consistency: stew
ingredients: [1 cup lentils, 2 tbsp leeks, 1 tbsp carrots, 1/8 tsp salt]
tested: {method: kettle, water: 1 cup + 1 tbsp, rest: 12 min}
---
""",
    "recipes/leeks-alone.md": """\
---
title: Leeks alone
consistency: soup
ingredients: [1/2 cup leeks, 1/8 tsp salt]
---
""",
    "menus/nights.yaml": """\
title: Two nights
people: 2
date: 2026-06-20
packed: 2026-06-12
meals:
  - {day: 1, meal: supper, recipe: bowl}
  - {day: 3, meal: supper, recipe: leeks-alone}
""",
}
STOCK = "store,lot,packed on,container,grams\n"
LOG = "date,store,lot,fresh g,dry g,hours,trays,last check\n"
Read = Callable[..., tuple[Reckoning, list[Finding]]]


@pytest.fixture
def book(tmp_path: Path) -> Read:
    """Return a function that reckons the book with rows of stock and log, and files changed."""

    def book(stock: str = "", log: str = "", **changed: str) -> tuple[Reckoning, list[Finding]]:
        files = FILES | {name.replace("__", "/"): text for name, text in changed.items()}
        files |= {"stock.csv": STOCK + stock, "drying-log.csv": LOG + log}
        for name, text in files.items():
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        findings = Findings()
        read = read_book(tmp_path, findings)
        assert read is not None
        return reckoned(read, findings), list(findings)

    return book


def need(found: Reckoning, store: str, menu: str = "nights") -> NeedLine:
    """Return what a menu takes of a store."""
    (provision,) = (p for p in found.provisions if p.menu.address == menu)
    (line,) = (line for line in provision.needs if line.store.name == store)
    return line


def lot(found: Reckoning, name: str) -> Lot:
    """Return a lot by its name."""
    (one,) = (lot for listed in found.lots.values() for lot in listed if lot.name == name)
    return one


# what teaches


def test_a_damp_lot_teaches_neither_yield_nor_rate(book: Read) -> None:
    # 1 - 1000 (1 - 0.6964)/345 = 12.0 %, by hand from USDA SR28 16070
    damp, _ = book(log="2026-02-01,lentils,L1,1000,345,10,2,\n")
    assert damp.stores["lentils"].own_yield is None
    assert household_rate(damp.book, damp.stores) is None
    # 335 g hold 9.4 %
    dry, _ = book(log="2026-02-01,lentils,L1,1000,335,10,2,\n")
    assert dry.stores["lentils"].own_yield is not None
    rate = household_rate(dry.book, dry.stores)
    assert rate is not None
    assert rate.g_per_h == pytest.approx(66.5)


def test_a_load_with_one_damp_lot_is_no_finished_load(book: Read) -> None:
    rows = "2026-02-01,leeks,L1,1000,174,10,2,\n2026-02-01,lentils,L2,1000,360,10,2,\n"
    found, _ = book(log=rows + "2026-02-09,leeks,L3,1000,174,20,2,\n")
    rate = household_rate(found.book, found.stores)
    assert rate is not None
    assert rate.loads == 1
    assert rate.g_per_h == pytest.approx(41.3)
    own = found.stores["leeks"].own_yield
    assert own is not None
    assert own.lots == 2


def test_what_dried_in_the_air_says_nothing_of_the_freeze_dryer(book: Read) -> None:
    rows = "2026-02-01,carrots,L1,1000,127,10,2,\n2026-02-01,leeks,L2,1000,174,20,2,\n"
    found, _ = book(log=rows)
    rate = household_rate(found.book, found.stores)
    assert rate is not None
    assert rate.g_per_h == pytest.approx(826 / 20)
    assert found.stores["carrots"].own_yield is not None


def test_a_run_that_was_not_steady_warns_and_teaches_nothing(book: Read) -> None:
    found, findings = book(log="2026-02-01,leeks,L1,1000,174,20,2,176\n")
    (finding,) = findings
    assert finding.severity is Severity.WARNING
    assert (finding.place.path, finding.place.line, finding.place.column) == (
        "drying-log.csv",
        2,
        35,
    )
    assert "176 g and 174 g, differ by 1.1 %" in finding.cause
    assert "weigh it again after another hour" in finding.mend
    assert found.stores["leeks"].own_yield is None
    assert household_rate(found.book, found.stores) is None
    steady, findings = book(log="2026-02-01,leeks,L1,1000,174,20,2,175\n")
    assert not findings
    assert steady.stores["leeks"].own_yield is not None


@pytest.mark.parametrize("dry", [174, 180, 188])
def test_no_tray_is_called_done_with_more_than_three_percent_left(book: Read, dry: int) -> None:
    rows = "".join(f"2026-02-0{at},leeks,L{at},1000,{dry},20,2,\n" for at in range(1, 7))
    found, _ = book(log=rows)
    loading = found.provisions[0].loading
    assert loading is not None
    trays = [tray for timed in loading.loads for tray in timed.load.trays]
    leeks = [tray for tray in trays if tray.batch.name == "leeks"]
    assert leeks
    for tray in leeks:
        # USDA SR28 11246: leeks hold 83 % of water
        assert 1 - tray.prepared_g * 0.17 / tray.done_g <= 0.03 + 1e-6


# weights that can't be, and those that are unlikely


def test_lots_within_the_foods_own_variation_are_silent(book: Read) -> None:
    # 170 g of dry matter by USDA SR28 11246; 155 g is a tenth less
    _, findings = book(
        log="2026-02-01,leeks,L1,1000,155,20,2,\n2026-02-09,leeks,L2,1000,169,20,2,\n"
    )
    assert not findings


def test_light_lots_give_one_warning_a_store(book: Read) -> None:
    rows = "".join(
        f"2026-02-0{at},leeks,L{at},1000,{dry},20,2,\n" for at, dry in enumerate((150, 136, 160), 1)
    )
    found, findings = book(log=rows)
    (finding,) = findings
    assert finding.severity is Severity.WARNING
    assert finding.place.line == 2
    assert "2 lots of leeks (L1, L2) weigh up to 20 % less" in finding.cause
    assert "wetter than the table's" in finding.mend
    own = found.stores["leeks"].own_yield
    assert own is not None
    assert own.lots == 3
    _, findings = book(log="2026-02-01,leeks,L1,1000,136,20,2,\n")
    assert "lot L1 of leeks weighs 20 % less" in findings[0].cause


def test_a_lot_far_below_its_dry_matter_is_an_error(book: Read) -> None:
    found, findings = book(log="2026-02-01,leeks,L1,1000,110,20,2,\n")
    (finding,) = findings
    assert finding.severity is Severity.ERROR
    assert "lot L1 came out at 110 g" in finding.cause
    assert "the dry matter of 1000 g leeks weighs about 170 g" in finding.cause
    assert "the tray's own weight" in finding.mend
    assert found.stores["leeks"].own_yield is None


def test_a_wet_lot_is_told_once_at_the_shelf_or_at_the_log(book: Read) -> None:
    log = "2026-02-01,leeks,L1,1000,250,20,2,\n"
    _, findings = book(log=log)
    assert [(f.place.path, "still holds 32 % water" in f.cause) for f in findings] == [
        ("drying-log.csv", True)
    ]
    _, findings = book("leeks,L1,2026-02-03,jar,200\n", log)
    assert [f.place.path for f in findings if "% water" in f.cause] == ["stock.csv"]


SAUCE = """\
---
title: Plum sauce
kind: base
ingredients: [1 kg plums (prepared), 100 g water]
cooked weight: 800 g
becomes: plum sauce
---
"""
SAUCE_LOT = "2026-02-01,plum sauce,L1,800,132,20,2,\n"


def test_a_pot_that_was_not_weighed_tells_nothing_of_its_lots(book: Read) -> None:
    # plums are 87.23 % water, USDA SR28 09279: 127.7 g of dry matter, which 132 g hold at 3 %;
    # had nothing boiled away, 800 g of the 1100 g would hold 93 g, and 132 g be 30 % moist
    larder = (
        FILES["larder.yaml"]
        + "plum sauce: {from: bases/plum-sauce, dried: freeze, weighs: 74 g per cup}\n"
    )
    files = {"larder.yaml": larder, "recipes/bases/plum-sauce.md": SAUCE}
    found, findings = book("plum sauce,L1,2026-02-03,pouch,132\n", SAUCE_LOT, **files)
    assert not findings
    moisture = lot(found, "L1").moisture
    assert moisture is not None
    assert 0.02 < moisture < 0.04
    files["recipes/bases/plum-sauce.md"] = SAUCE.replace("cooked weight: 800 g\n", "")
    found, findings = book("plum sauce,L1,2026-02-03,pouch,132\n", SAUCE_LOT, **files)
    (finding,) = findings
    assert finding.severity is Severity.WARNING
    assert 'nobody weighed the pot of "plum-sauce"' in finding.cause
    assert "cooked weight: 900 g" in finding.mend
    one = lot(found, "L1")
    assert (one.is_damp, one.moisture) == (False, None)
    assert "do not tell how dry it is" in one.caution
    assert found.stores["plum sauce"].own_yield is None
    assert household_rate(found.book, found.stores) is None
    steady = SAUCE_LOT.replace("2,\n", "2,133\n")
    found, findings = book("plum sauce,L1,2026-02-03,pouch,132\n", steady, **files)
    assert not findings
    assert lot(found, "L1").caution == ""
    assert found.stores["plum sauce"].own_yield is None
    rate = household_rate(found.book, found.stores)
    assert rate is not None
    assert rate.g_per_h == pytest.approx((800 - 132) / 20)


def test_a_pot_that_was_not_weighed_still_bounds_its_lots(book: Read) -> None:
    # plums are 87.23 % water, USDA SR28 09279: 127.7 g of dry matter in a pot of 1100 g; had half
    # of it boiled off, 800 g of the rest would hold 185.75 g, and a lot of 286 g be 35 % water
    larder = (
        FILES["larder.yaml"]
        + "plum sauce: {from: bases/plum-sauce, dried: freeze, weighs: 74 g per cup}\n"
    )
    files = {
        "larder.yaml": larder,
        "recipes/bases/plum-sauce.md": SAUCE.replace("cooked weight: 800 g\n", ""),
        "menus/sauce.yaml": "title: Sauce\nmeals: [{day: 1, meal: supper, recipe: sauced}]\n",
        "recipes/sauced.md": FILES["recipes/leeks-alone.md"]
        .replace("leeks,", "plum sauce,")
        .replace("Leeks alone", "Sauced"),
    }
    wet = "2026-02-01,plum sauce,L1,800,286,20,2,286\n"
    found, findings = book("plum sauce,L1,2026-02-03,pouch,286\n", wet, **files)
    one = lot(found, "L1")
    assert (one.is_damp, one.moisture) == (True, None)
    assert one.least_moisture == pytest.approx(1 - 185.75 / 286, abs=2e-4)
    (left,) = need(found, "plum sauce", "sauce").left
    assert (left.why, why_left(left)) == ("damp", "holds at least 35 % water: dry it again")
    (finding,) = findings
    assert finding.place.path == "stock.csv"
    assert "L1 of plum sauce holds at least 35 % water, more than the 10 %" in finding.cause
    assert '"cooked weight: 900 g", to plum-sauce.md; until then no menu' in finding.mend
    assert household_rate(found.book, found.stores) is None
    pages = dict(Pages(found, environment(theme_folder())).render())
    (card,) = (page for name, page in pages.items() if name.endswith("sauced.html"))
    assert "holds at least 35\xa0% water by its weights" in str(card)
    # off the shelf the log says it
    _, findings = book("", wet.replace(",286\n", ",\n"), **files)
    (finding,) = findings
    assert finding.place.path == "drying-log.csv"
    assert "lot L1 of plum sauce still holds at least 35 % water" in finding.cause
    # 185.75 g in 206 g are 9.8 %: perhaps dry, so its last hour decides
    found, findings = book(
        "plum sauce,L1,2026-02-03,pouch,206\n",
        wet.replace("286,20,2,286", "206,20,2,206"),
        **files,
    )
    assert not findings
    assert (refusal_words(lot(found, "L1")), lot(found, "L1").caution) == ("", "")


def test_a_label_without_moisture_tells_nothing_of_its_lots(book: Read) -> None:
    label = "{per: 100 g, energy: 60 kcal, protein: 2 g, fat: 0 g, carbohydrate: 12 g}"
    larder = FILES["larder.yaml"] + f"paste: {{label: {label}, dried: freeze}}\n"
    log = "2026-02-01,paste,L1,1000,150,20,2,\n"
    _, findings = book("", log, **{"larder.yaml": larder})
    (finding,) = findings
    assert "lot L1 of paste is dry can't be told: its label" in finding.cause
    assert "under last check" in finding.mend
    assert "moisture: 80 %" in finding.mend
    larder = larder.replace("12 g}", "12 g, moisture: 86 %}")
    _, findings = book("", log, **{"larder.yaml": larder})
    assert not findings


# what a lot is dated by


@pytest.mark.parametrize(
    ("container", "package", "until", "is_told"),
    [
        # freeze-dried vegetables: 24 months with an absorber (Utah State University thesis 5494),
        # 4.5 without, half of NCHFP's for fruit; as `quality_bases` has them
        ("pouch", "absorber", "2027-10-01", True),
        ("2 medium pouches", "absorber", "2027-10-01", True),
        ("3 L jar", "absorber", "2027-10-01", True),
        ("blue tin", "absorber", "2027-10-01", True),
        ("tin, blue", "plain", "2026-02-01", True),
        ("small tin", "plain", "2026-02-01", True),
        ("paper bag", "plain", "2026-02-01", True),
        ("jar without absorber", "plain", "2026-02-01", True),
        ("bag with absorber", "absorber", "2027-10-01", True),
        ("crock", "plain", "2026-02-01", False),
    ],
)
def test_a_lot_is_dated_by_what_it_is_kept_in(
    book: Read, container: str, package: str, until: str, *, is_told: bool
) -> None:
    found, _ = book(f'leeks,L1,2025-10-01,"{container}",90\n')
    one = lot(found, "L1")
    assert (one.package, one.best_by) == (package, dt.date.fromisoformat(until))
    assert (one.assumed == "") is is_told
    if not is_told:
        assert "a closed container with air in it" in one.assumed


def test_salt_and_sugar_outlast_what_they_season(book: Read) -> None:
    larder = FILES["larder.yaml"] + "brown sugar: {food: brown sugar, dried: bought}\n"
    stock = (
        "salt,S1,2025-10-01,tin,90\nbrown sugar,S2,2025-10-01,tin,90\nleeks,L1,2025-10-01,tin,9\n"
    )
    found, _ = book(stock, **{"larder.yaml": larder})
    assert {lot(found, "S1").best_by, lot(found, "S2").best_by} == {dt.date(2027, 10, 1)}
    assert lot(found, "L1").best_by == dt.date(2026, 2, 1)


def test_without_absorbers_every_lot_keeps_its_air(book: Read) -> None:
    plain = FILES["book.yaml"].replace("  absorbers: [100 mL, 300 mL]\n", "")
    found, _ = book("leeks,L1,2025-10-01,small pouch,90\n", **{"book.yaml": plain})
    assert lot(found, "L1").package == "plain"


def test_a_new_container_makes_no_old_lot_young(book: Read) -> None:
    log = "2024-02-01,leeks,L1,1000,174,20,2,\n2026-02-01,leeks,L2,1000,174,20,2,\n"
    found, _ = book("leeks,L1,2026-02-03,pouch,90\nleeks,L2,2026-02-03,pouch,90\n", log)
    assert lot(found, "L1").best_by == dt.date(2026, 2, 1)
    assert lot(found, "L2").best_by == dt.date(2028, 2, 3)


def test_a_lot_that_nobody_weighed_says_so(book: Read) -> None:
    stock = (
        "leeks,L1,2026-02-03,pouch,90\nlentils,L2,2026-02-04,pouch,900\n"
        "salt,S1,2026-02-04,crock,900\n"
    )
    found, _ = book(stock, "2026-02-01,lentils,L2,3000,939,20,2,\n")
    assert lot(found, "L1").caution == "not weighed: check that it is dry"
    assert lot(found, "L2").caution == ""
    assert lot(found, "S1").caution == ""  # bought dry
    (nights,) = (provision_data(p) for p in found.provisions)
    notes = {one["lot"]: one["note"] for line in nights["needs"] for one in line["lots"]}
    assert notes["L1"] == "not weighed: check that it is dry"
    assert notes["L2"] == ""
    assert "air in it" in notes["S1"]


def test_a_lot_that_was_still_losing_weight_says_so(book: Read) -> None:
    found, _ = book("leeks,L1,2026-02-03,pouch,90\n", "2026-02-01,leeks,L1,1000,174,20,2,180\n")
    assert "was still losing weight" in lot(found, "L1").caution


@pytest.mark.parametrize(
    ("last_check", "words"),
    [
        (182, ""),  # 8 of 174 g are 4.6 %
        (182.7, "lost 5.0 % in its last hour: dry it again"),
        (183, "lost 5.2 % in its last hour: dry it again"),
        (220.5, "lost 26.7 % in its last hour: dry it again"),
    ],
)
def test_a_lot_that_lost_much_in_its_last_hour_is_not_counted_on(
    book: Read, last_check: float, words: str
) -> None:
    log = f"2026-02-01,leeks,L1,1000,174,20,2,{last_check}\n"
    found, findings = book("leeks,L1,2026-02-03,pouch,90\n", log)
    assert refusal_words(lot(found, "L1")) == words
    line = need(found, "leeks")
    assert [taken.lot.name for taken in line.taken] == ([] if words else ["L1"])
    assert [(left.why, why_left(left)) for left in line.left] == (
        [("still drying", words)] if words else []
    )
    (finding,) = findings
    assert ("until then no menu counts on it" in finding.mend) is bool(words)
    pages = dict(Pages(found, environment(theme_folder())).render())
    (card,) = (str(page) for name, page in pages.items() if name.endswith("leeks-alone.html"))
    assert ("before it goes into a sealed pack" in card) is bool(words)


def test_a_scales_own_step_is_no_loss(book: Read) -> None:
    # 1 g of 18 g are 5.6 %, and a kitchen scale weighs to the gram
    stock = "leeks,L1,2026-02-03,pouch,18\n"
    found, _ = book(stock, "2026-02-01,leeks,L1,103,18,20,2,19\n")
    assert refusal_words(lot(found, "L1")) == ""
    assert "was still losing weight" in lot(found, "L1").caution
    found, _ = book(stock, "2026-02-01,leeks,L1,103,18,20,2,20\n")
    assert refusal_words(lot(found, "L1")) == "lost 11.1 % in its last hour: dry it again"


def test_what_was_still_drying_is_refused_though_nothing_tells_its_moisture(book: Read) -> None:
    label = "{per: 100 g, energy: 60 kcal, protein: 2 g, fat: 0 g, carbohydrate: 12 g}"
    larder = FILES["larder.yaml"] + f"paste: {{label: {label}, dried: freeze}}\n"
    log = "2026-02-01,paste,L1,1000,150,20,2,190\n"
    found, _ = book("paste,L1,2026-02-03,pouch,90\n", log, **{"larder.yaml": larder})
    assert refusal_words(lot(found, "L1")) == "lost 26.7 % in its last hour: dry it again"


@pytest.mark.parametrize(
    ("log", "reason"),
    [
        ("2026-02-01,leeks,L1,1000,200,20,2,", "holds 15 % water: dry it again"),
        ("2026-02-01,leeks,L1,1000,174,20,2,190", "lost 9.2 % in its last hour: dry it again"),
    ],
)
def test_a_refused_lot_has_no_date_on_its_stores_page(book: Read, log: str, reason: str) -> None:
    stock = "leeks,L1,2026-02-03,pouch,90\nleeks,L2,2026-02-03,pouch,90\n"
    found, _ = book(stock, log + "\n2026-02-01,leeks,L2,1000,174,20,2,\n")
    pages = dict(Pages(found, environment(theme_folder())).render())
    (text,) = (page for name, page in pages.items() if name.endswith("/leeks.html"))
    rows = {
        row("th")[0].get_text(" ").split()[0]: (row("th")[0].get_text(), row("td")[-1].get_text())
        for row in BeautifulSoup(text, "lxml").select("section[aria-labelledby=lots] tbody tr")
    }
    note, best = rows["L1"]
    assert reason in note.replace("\xa0", " ")
    assert best == "–"
    assert rows["L2"][1] == lot(found, "L2").best_by.isoformat()


def test_a_fresh_good_on_the_shelf_is_no_lot(book: Read) -> None:
    found, findings = book("oatcake,O1,2026-02-03,tin,300\n")
    (finding,) = findings
    assert finding.severity is Severity.WARNING
    assert '"oatcake" is fresh' in finding.cause
    assert finding.place.column == 1
    assert "delete this row" in finding.mend
    assert "oatcake" not in found.lots


# what a menu may take


def test_a_lot_packed_after_the_menus_packing_day_is_left_and_said(book: Read) -> None:
    found, findings = book("leeks,L1,2026-06-13,pouch,90\nleeks,L2,2026-06-12,pouch,2\n")
    line = need(found, "leeks")
    assert [taken.lot.name for taken in line.taken] == ["L2"]
    (left,) = line.left
    assert (left.lot.name, left.why) == ("L1", "packed later")
    assert "packed on 2026-06-13; this menu is packed on 2026-06-12" in why_left(left)
    (finding,) = findings
    assert "lot L1 of leeks was packed on 2026-06-13" in finding.cause
    assert 'the mixes of "Two nights" are packed on 2026-06-12' in finding.cause
    assert 'write "packed: 2026-06-13"' in finding.mend
    data = provision_data(found.provisions[0])
    (told,) = (line["left"] for line in data["needs"] if line["store"] == "leeks")
    assert told == [{"lot": "L1", "why": "packed later", "words": why_left(left)}]


def test_without_a_packing_day_the_first_day_of_the_menu_counts(book: Read) -> None:
    menu = FILES["menus/nights.yaml"].replace("packed: 2026-06-12\n", "")
    stock = "leeks,L1,2026-06-20,pouch,20\nleeks,L2,2026-06-21,pouch,90\n"
    found, _ = book(stock, **{"menus__nights.yaml": menu})
    line = need(found, "leeks")
    assert [taken.lot.name for taken in line.taken] == ["L1"]


def test_a_lot_past_its_best_on_the_last_day_is_left_and_said(book: Read) -> None:
    # a bag keeps its air: best by 2026-06-21, and day 3 is 2026-06-22
    found, findings = book("leeks,L1,2026-02-21,paper bag,90\nleeks,L2,2026-02-22,paper bag,90\n")
    line = need(found, "leeks")
    assert [taken.lot.name for taken in line.taken] == ["L2"]
    assert [(left.lot.name, left.why) for left in line.left] == [("L1", "past its best")]
    assert not findings  # nothing is short
    _, findings = book("leeks,L1,2026-02-21,paper bag,90\n")
    (finding,) = findings
    assert "lot L1 of leeks is at its best until 2026-06-21" in finding.cause
    assert '"Two nights" is eaten until 2026-06-22' in finding.cause
    assert "eat it before" in finding.mend


UNDATED = (
    FILES["menus/nights.yaml"].replace("date: 2026-06-20\n", "").replace("packed: 2026-06-12\n", "")
)


def test_a_menu_without_a_date_says_what_day_it_is_reckoned_to(book: Read) -> None:
    # a bag keeps its air: L1 is best by 2026-02-03, L2 by 2026-10-01, and L3 names the newest day
    stock = (
        "leeks,L1,2025-10-03,paper bag,90\nleeks,L2,2026-06-01,paper bag,2\n"
        "lentils,L3,2026-06-03,pouch,90\n"
    )
    found, findings = book(stock, **{"menus__nights.yaml": UNDATED})
    assert not findings
    reckoned_to = "this menu has no date; reckoned to 2026-06-03, the newest that the book names"
    line = need(found, "leeks")
    assert [(left.lot.name, why_left(left)) for left in line.left] == [
        ("L1", f"at its best until 2026-02-03; {reckoned_to}")
    ]
    (data,) = (provision_data(provided) for provided in found.provisions)
    notes = {one["lot"]: one["note"] for line in data["needs"] for one in line["lots"]}
    assert notes["L2"].endswith(reckoned_to)
    assert "no date" not in notes["L3"]  # said once, at the lot that runs out first
    assert "eaten until" not in " ".join(provision_lines(found.provisions[0]))
    # one that is dated says nothing of it
    dated, _ = book(stock)
    assert "no date" not in " ".join(provision_lines(dated.provisions[0]))


def test_a_menu_without_a_date_takes_nothing_past_its_best_when_it_is_packed(book: Read) -> None:
    packed = f"packed: 2026-12-01\n{UNDATED}"
    stock = "leeks,L2,2026-06-01,paper bag,90\n"  # best by 2026-10-01
    found, _ = book(stock, **{"menus__nights.yaml": packed})
    line = need(found, "leeks")
    assert not line.taken
    assert why_left(line.left[0]) == (
        "at its best until 2026-10-01; this menu has no date; reckoned to 2026-12-01, when it is "
        "packed"
    )


def test_a_menu_that_was_eaten_is_not_nagged_about(book: Read) -> None:
    found, findings = book("leeks,L1,2026-07-13,pouch,90\n")
    assert not findings
    assert [left.why for left in need(found, "leeks").left] == ["packed later"]


def test_a_damp_lot_is_left_and_said(book: Read) -> None:
    found, _ = book("leeks,L1,2026-02-03,pouch,90\n", "2026-02-01,leeks,L1,1000,200,20,2,\n")
    (left,) = need(found, "leeks").left
    assert (left.why, why_left(left)) == ("damp", "holds 15 % water: dry it again")


def test_a_lot_that_another_menu_reserved_says_which(book: Read) -> None:
    later = FILES["menus/nights.yaml"].replace("Two nights", "Later").replace("06-", "07-")
    found, _ = book("leeks,L1,2026-02-03,pouch,5\n", **{"menus__later.yaml": later})
    assert [taken.grams for taken in need(found, "leeks").taken] == [5.0]
    (left,) = need(found, "leeks", "later").left
    assert (left.why, why_left(left)) == ("reserved", "reserved by Two nights")


def test_a_menu_that_is_over_takes_nothing_from_one_to_come(book: Read) -> None:
    past = FILES["menus/nights.yaml"].replace("Two nights", "Past").replace("2026-", "2025-")
    found, _ = book(
        "leeks,L1,2025-02-03,pouch,5\nlentils,L2,2026-06-01,pouch,9\n", **{"menus__past.yaml": past}
    )
    assert [taken.grams for taken in need(found, "leeks").taken] == [5.0]
    assert [left.why for left in need(found, "leeks", "past").left] == ["reserved"]


def test_a_pack_does_not_outlive_its_lots(book: Read) -> None:
    found, _ = book("leeks,L1,2026-03-01,paper bag,90\n")
    (bowl, alone) = found.provisions[0].packs
    assert bowl.best_by == alone.best_by == dt.date(2026, 7, 1)
    fresh, _ = book()
    assert all(
        pack.best_by and pack.best_by > dt.date(2027, 1, 1) for pack in fresh.provisions[0].packs
    )


def test_a_pack_without_a_day_does_not_outlive_its_lots_either(book: Read) -> None:
    menu = FILES["menus/nights.yaml"].replace("packed: 2026-06-12\n", "")
    found, _ = book("leeks,L1,2026-03-01,paper bag,90\n", **{"menus__nights.yaml": menu})
    assert {pack.best_by for pack in found.provisions[0].packs} == {dt.date(2026, 7, 1)}
    long_lived, _ = book("leeks,L1,2026-03-01,pouch,90\n", **{"menus__nights.yaml": menu})
    assert long_lived.provisions[0].packs[0].best_by is None


def test_mixes_packed_after_they_are_eaten_are_an_error(book: Read) -> None:
    menu = FILES["menus/nights.yaml"].replace("packed: 2026-06-12", "packed: 2026-06-21")
    _, findings = book(**{"menus__nights.yaml": menu})
    (finding,) = findings
    assert finding.severity is Severity.ERROR
    assert (finding.place.line, finding.place.column) == (4, 9)
    assert "packed on 2026-06-21, and the first day of this menu is 2026-06-20" in finding.cause
    assert 'write "packed: 2026-06-20"' in finding.mend


def test_mixes_past_their_best_when_they_are_eaten_are_told(book: Read) -> None:
    menu = FILES["menus/nights.yaml"].replace("packed: 2026-06-12", "packed: 2023-06-12")
    _, findings = book(**{"menus__nights.yaml": menu})
    (finding,) = findings
    assert finding.place.line == 4
    assert 'packed on 2023-06-12, "Lentil bowl" and 1 more is at its best until' in finding.cause
    assert "and is eaten on 2026-06-20" in finding.cause
    assert "pack it later" in finding.mend


def test_the_lists_say_which_lots_are_not_counted_on_and_what_to_check(book: Read) -> None:
    stock = "lentils,L1,2026-02-02,jar,300\nlentils,L2,2026-02-02,jar,20\n"
    found, _ = book(stock, "2026-02-01,lentils,L1,1000,360,10,2,\n")
    (provided,) = found.provisions
    lines = " ".join(" ".join(provision_lines(provided)).split())
    assert "On the shelf, and not counted on lentils, lot L1: " in lines
    assert "of lot L2, best by" in lines
    assert "; not weighed: check that it is dry" in lines
    pages = dict(Pages(found, environment(theme_folder())).render())
    text = " ".join(
        BeautifulSoup(pages[f"lists/{provided.menu.address}.html"], "lxml").get_text(" ").split()
    )
    assert "not counted on lentils, lot L1: " in text
    assert "not weighed: check that it is dry" in text
