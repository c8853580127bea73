"""The lists of a menu as they are read: on a terminal, in a spreadsheet, as data, on the page."""

from __future__ import annotations

import csv
import io
import json
import re
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner

from cookbook_build.cli import main
from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.provision_lists import COLUMNS, provision_csv, provision_lines
from cookbook_build.publishing.provisioning import absorber_words, loads_words, provision_data
from cookbook_build.publishing.theme import environment, theme_folder

if TYPE_CHECKING:
    from collections.abc import Callable

    from cookbook_build.planning.provisions import Provision
    from cookbook_build.planning.reckoning import Reckoning

DEMO = Path(__file__).parents[3] / "content_demo"
KIT = """\
kit:
  dryer: {trays: 4, tray load: 900 g}
  pouches: [{name: medium, width: 18 cm, height: 26 cm}]
  absorbers: [100 mL, 300 mL]
"""
FILES = {
    "book.yaml": "title: A book\naltitude: 310 m\n" + KIT,
    "larder.yaml": """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
carrots: {food: carrots raw, dried: air, weighs: 58 g per cup}
turkey mince: {food: ground turkey raw, dried: freeze, raw: true, weighs: 60 g per cup}
honey: {food: honey, dried: freeze, weighs: 300 g per cup}
flatbread: {food: flour tortillas, dried: fresh, sold by: piece}
ghee: {food: ghee, dried: fresh}
salt: {food: salt, dried: bought}
""",
    "recipes/bowl.md": """\
---
title: A bowl of lentils with a title that goes on for longer than a terminal likes
consistency: stew
ingredients:
  [1 cup lentils, 1 tbsp carrots, 1 tbsp ghee (fresh), 1/2 flatbread (fresh), salt to taste]
---
Pour {water}.
""",
    "recipes/mince.md": """\
---
title: Mince
ingredients: [1/2 cup turkey mince, 1 tbsp honey]
---
""",
    "menus/m.yaml": """\
title: Nights out
people: 3
appetites: [1, 1, 1 1/2]
meals:
  - {day: 1, meal: supper, recipe: bowl}
  - {day: 2, meal: supper, recipe: mince, method: stove, servings: 4}
""",
}
Book = tuple["Reckoning", "Provision"]


@pytest.fixture
def book(tmp_path: Path) -> Callable[..., Book]:
    def write(**changed: str) -> Book:
        for name, text in (FILES | changed).items():
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        findings = Findings()
        read = read_book(tmp_path, findings)
        assert read is not None
        found = reckoned(read, findings)
        assert not findings.errors
        return found, found.provisions[0]

    return write


BARE = {"book.yaml": FILES["book.yaml"].replace(KIT, "")}


def terminal(provision: Provision) -> str:
    return " ".join("\n".join(provision_lines(provision)).split())


def page(found: Reckoning) -> BeautifulSoup:
    name = f"lists/{found.provisions[0].menu.address}.html"
    html = dict(Pages(found, environment(theme_folder())).render())[name]
    return BeautifulSoup(html, "html.parser")


def rows(provision: Provision) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(provision_csv(provision))))


def test_no_line_is_wider_than_a_terminal(book: Callable[..., Book]) -> None:
    for provision in (book()[1], book(**BARE)[1]):
        lines = provision_lines(provision)
        assert max(map(len, lines)) <= COLUMNS == 78
        assert not any("\N{NO-BREAK SPACE}" in line for line in lines)


def test_every_list_says_how_few_loads_there_could_be(book: Callable[..., Book]) -> None:
    found, provision = book()
    assert provision.loading.lower_bound == 2  # raw and ready keep apart
    said = "2 loads; no plan has fewer than 2."
    assert said in terminal(provision)
    assert said in " ".join(page(found).get_text().split())


def test_one_load_is_not_compared_with_none(book: Callable[..., Book]) -> None:
    loading = book()[1].loading
    assert loads_words(replace(loading, loads=loading.loads[:1])) == "1 load."


def test_every_list_says_what_servings_came_from(book: Callable[..., Book]) -> None:
    found, provision = book()
    said = (
        "3.5 servings a meal, the appetites of 3 people (1 + 1 + 1.5); "
        "but as the menu says 4 servings for supper on day 2."
    )
    assert said in terminal(provision)
    assert said in " ".join(page(found).get_text().split())
    plain = FILES["menus/m.yaml"].replace("appetites: [1, 1, 1 1/2]\n", "")
    each = book(**{"menus/m.yaml": plain})[1]
    assert "3 servings a meal, one for each of 3 people" in terminal(each)


def test_what_is_raw_is_said_where_it_is_packed(book: Callable[..., Book]) -> None:
    found, provision = book()
    words = terminal(provision)
    # USDA safe minimum internal temperature chart: poultry 165 °F
    said = "raw turkey mince: cook it to 74 °C (165 °F) inside"
    packing = words[words.index("To pack") : words.index("To carry")]
    assert said in packing
    assert "drying kills no germs" in packing
    section = page(found).select_one("[aria-labelledby=pack]")
    assert section is not None
    assert said in " ".join(section.get_text().split())
    assert any(said in row["note"] for row in rows(provision) if row["what"] == "pack")


def test_what_takes_no_tray_is_said(book: Callable[..., Book]) -> None:
    found, provision = book()
    assert "left out: honey: sugar does not dry" in terminal(provision)
    loads = page(found).select_one("[aria-labelledby=loads]")
    assert loads is not None
    assert "Left out of the loads: honey: sugar does not dry." in loads.get_text()
    assert "turkey mince, raw" in loads.get_text()
    assert "tray 1: turkey mince, raw" in terminal(provision)
    assert not any(row["name"] == "honey" for row in rows(provision) if row["what"] == "load")


def test_a_person_s_day_is_said(book: Callable[..., Book]) -> None:
    found, provision = book()
    weight_g, energy_kcal = provision.each_day
    assert weight_g == pytest.approx(sum(day.carried_g for day in provision.days) / 3 / 2)
    said = f"an average person a day: {weight_g:.0f} g of food, {energy_kcal:.0f} kcal"
    assert said in terminal(provision)
    foot = page(found).select_one("[aria-labelledby=carry] tfoot")
    assert foot is not None
    assert f"{energy_kcal:.0f}" in foot.get_text()


def test_fuel_is_rounded_alike_everywhere(book: Callable[..., Book]) -> None:
    found, provision = book()
    data = provision_data(provision)
    table = page(found).select("[aria-labelledby=carry] tbody tr")
    for day, row, listed in zip(provision.days, table, data["days"], strict=True):
        assert listed["fuel_g"] == day.fuel_up_g >= day.fuel_g
        assert f"{day.fuel_up_g} g" in " ".join(row.get_text(" ").split())
        assert (
            f"day {day.day}: {day.water_l:.1f} L of water, {day.fuel_up_g} g of canister gas"
            in (terminal(provision))
        )
    carried = {row["name"]: row["grams"] for row in rows(provision) if row["what"] == "carry"}
    assert carried["fuel, day 1"] == f"{provision.days[0].fuel_up_g:.1f}"
    assert data["together"]["fuel_g"] == sum(day["fuel_g"] for day in data["days"])


def test_the_table_says_what_its_grams_are(book: Callable[..., Book]) -> None:
    _, provision = book()
    listed = rows(provision)
    assert list(listed[0]) == ["what", "name", "grams", "pieces", "note"]
    assert {row["what"] for row in listed} == {"dry", "load", "buy", "pack", "carry"}
    for row in listed:
        assert row["grams"] == "" or float(row["grams"]) > 0
    buys = {row["name"]: row for row in listed if row["what"] == "buy"}
    assert float(buys["ghee"]["grams"]) > 0
    assert buys["flour tortillas"]["pieces"] == "2"
    assert "to taste" in buys["salt"]["note"]
    trays = [tray for timed in provision.loading.loads for tray in timed.load.trays]
    loaded = [row for row in listed if row["what"] == "load"]
    assert len(loaded) == len(trays) + len(provision.loading.air)
    assert [float(row["grams"]) for row in loaded[: len(trays)]] == [
        pytest.approx(tray.prepared_g, abs=0.05) for tray in trays
    ]


def test_no_number_stands_for_what_nobody_knows(book: Callable[..., Book]) -> None:
    data = provision_data(book()[1])
    fresh = {line["store"]: line for line in data["fresh"]}
    assert fresh["ghee"]["pieces"] is None
    assert fresh["flatbread"]["pieces"] == 1.75
    salt = next(line for line in data["shopping"] if line["name"] == "salt")
    assert salt["bought_g"] is None

    def zeros(thing: Any) -> bool:  # noqa: ANN401 - JSON
        if isinstance(thing, dict):
            known = {"fuel_g", "on_shelf_g"}  # nothing burns, nothing stands there
            return any(zeros(part) for key, part in thing.items() if key not in known)
        if isinstance(thing, list):
            return any(map(zeros, thing))
        return isinstance(thing, float) and thing == 0

    assert not zeros(data)


def test_a_kit_without_dryer_pouches_and_absorbers_is_told_what_to_add(
    book: Callable[..., Book],
) -> None:
    found, provision = book(**BARE)
    assert provision.lacks == ("dryer", "containers", "absorbers")
    text = " ".join(page(found).get_text().split())
    for words in (terminal(provision), text):
        for key in ("dryer: {trays: 5", "pouches: [{name: medium", "absorbers: [100 mL"):
            assert key in words
    assert provision_data(provision)["loads"]["lower_bound"] is None
    whole = terminal(book(**FILES)[1])
    assert "Add to it" not in whole


def test_dry_goods_stand_on_one_list_apart_from_what_is_fresh(book: Callable[..., Book]) -> None:
    found, _ = book()
    soup = page(found)
    fresh, dry = (soup.select_one(f"[aria-labelledby={name}]") for name in ("shop", "pantry"))
    assert fresh is not None
    assert dry is not None
    assert "ghee" in fresh.get_text()
    assert "flour tortillas" in fresh.get_text()
    assert "salt" in dry.get_text()
    assert "salt" not in fresh.get_text()


def test_every_box_to_tick_has_a_name_of_its_own() -> None:
    findings = Findings()
    read = read_book(DEMO, findings)
    assert read is not None
    boxes = page(reckoned(read, findings)).select("main input[type=checkbox]")
    names = [box["name"] for box in boxes]
    assert len(names) == len(set(names)) > 40


def test_dates_and_lots_are_never_broken() -> None:
    findings = Findings()
    read = read_book(DEMO, findings)
    assert read is not None
    found = page(reckoned(read, findings))
    whole = {span.get_text().rstrip(",") for span in found.select(".whole")}
    dated = re.findall(r"best by \d{4}-\d{2}-\d{2}", found.get_text())
    assert dated
    assert set(dated) <= whole


def test_a_spreadsheet_takes_the_table_for_utf_8(book: Callable[..., Book], tmp_path: Path) -> None:
    book()
    result = CliRunner().invoke(main, ["provision", "m", "--book", str(tmp_path), "--csv"])
    assert result.exit_code == 0
    # the mark that RFC 3629, section 6, leaves to protocols and that spreadsheets look for
    assert result.stdout_bytes.startswith(b"\xef\xbb\xbfwhat,name,grams")
    assert result.stdout_bytes.count(b"\xef\xbb\xbf") == 1


def test_what_is_printed_as_json_is_the_data(book: Callable[..., Book], tmp_path: Path) -> None:
    _, provision = book()
    result = CliRunner().invoke(main, ["provision", "m", "--book", str(tmp_path), "--json"])
    assert json.loads(result.stdout) == json.loads(json.dumps(provision_data(provision)))


def test_no_cell_is_a_formula(book: Callable[..., Book]) -> None:
    mince = FILES["recipes/mince.md"].replace("title: Mince", 'title: "=Mince"')
    _, provision = book(**{"recipes/mince.md": mince})
    assert "'=Mince" in {row["name"] for row in rows(provision)}
    assert not any(cell[:1] in set("=+-@") for row in rows(provision) for cell in row.values())


RAW_IN_THE_AIR = FILES["larder.yaml"].replace(
    "turkey mince: {food: ground turkey raw, dried: freeze", "turkey mince: {food: ground turkey "
    "raw, dried: air",
)  # fmt: skip


def test_raw_meat_in_the_air_is_told_with_its_heat(
    book: Callable[..., Book], tmp_path: Path
) -> None:
    found, provision = book(**{"larder.yaml": RAW_IN_THE_AIR})
    heed = "heat it to 74 °C (165 °F) inside first, or as your local guidance says"
    for text in (terminal(provision), plainly(page(found).get_text(" "))):
        assert "turkey mince, raw" in text
        assert heed in plainly(text)
    (row,) = (row for row in rows(provision) if row["name"] == "turkey mince, raw")
    assert heed in row["note"]
    findings = Findings()
    read = read_book(tmp_path, findings)
    assert read is not None
    reckoned(read, findings)
    (told,) = (f for f in findings if "dries in the air" in f.cause)
    assert (told.place.path, told.place.line) == ("larder.yaml", 3)
    assert told.place.excerpt[told.place.column - 1 :].startswith("air")
    assert "74 °C" in told.mend
    assert "local guidance" in told.mend


def plainly(text: str) -> str:
    return " ".join(text.split())


def test_the_table_for_a_spreadsheet_says_what_the_lists_say(book: Callable[..., Book]) -> None:
    _, provision = book()
    table = rows(provision)
    (mince,) = (r for r in table if r["what"] == "load" and r["name"].startswith("turkey mince"))
    assert mince["name"] == "turkey mince, raw"
    assert "34 h, between 24 and 48, as is usual" in mince["note"]
    trays = [tray for load in provision_data(provision)["loads"]["loads"] for tray in load["trays"]]
    assert {tray["store"]: tray["raw"] for tray in trays}["turkey mince"] is True


def test_appetites_that_differ_make_figures_of_the_average_eater(
    book: Callable[..., Book],
) -> None:
    found, provision = book()
    assert "a person on average" in terminal(provision)
    assert "an average person a day" in terminal(provision)
    assert "A person a day, on average" in page(found).get_text()
    alike = FILES["menus/m.yaml"].replace("[1, 1, 1 1/2]", "[1, 1, 1]")
    found, provision = book(**{"menus/m.yaml": alike})
    assert "average" not in terminal(provision)
    assert "each person" in terminal(provision)


def test_the_shop_says_how_much_of_a_thing_is_for_what_its_name_does_not_tell(
    book: Callable[..., Book],
) -> None:
    sauce = "---\ntitle: S\nkind: base\ningredients: [500 g carrots, 2 g salt]\n"
    sauce += "cooked weight: 400 g\nbecomes: gold sauce\n---\n"
    larder = FILES["larder.yaml"] + (
        "gold sauce: {from: recipes/s, dried: freeze, weighs: 74 g per cup}\n"
    )
    meal = FILES["recipes/bowl.md"].replace("1 tbsp carrots", "1 tbsp carrots, 2 tbsp gold sauce")
    _, provision = book(**{"larder.yaml": larder, "recipes/s.md": sauce, "recipes/bowl.md": meal})
    said = terminal(provision)
    carrots = next(
        line for listed in provision.shopping.values() for line in listed if line.name == "carrots"
    )
    parts = dict(carrots.what_for)
    assert sum(parts.values()) == pytest.approx(carrots.bought_g)
    assert f", of which {parts['gold sauce']:.0f} g for gold sauce" in said.replace("\xa0", " ")


@pytest.mark.parametrize(
    ("sizes", "words"),
    [
        ([300.0], "300 mL absorber"),
        ([500.0, 100.0], "500 mL + 100 mL absorbers"),
        ([50.0] * 6, "6 × 50 mL absorbers"),
        ([100.0, 50.0, 50.0], "100 mL + 2 × 50 mL absorbers"),
    ],
)
def test_absorbers_are_counted(sizes: list[float], words: str) -> None:
    assert absorber_words(sizes).replace("\xa0", " ") == words
