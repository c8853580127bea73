"""The cards on the pages show the numbers of `water --json`, for every size and method."""

from __future__ import annotations

import json
import math
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup, Tag
from click.testing import CliRunner

from cookbook_build.cli import main
from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.publishing.answers import answer
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.theme import environment, theme_folder
from cookbook_build.publishing.wording import celsius, until

DEMO = Path(__file__).parents[3] / "content_demo"
SIZES = (1, 2, 3, 4, 6, 8)
BANDS_M = (0, 1000, 2000, 3000, 4000)


@cache
def demo() -> Reckoning:
    findings = Findings()
    book = read_book(DEMO, findings)
    assert book is not None
    return reckoned(book, findings)


@cache
def pages() -> dict[str, str]:
    return dict(Pages(demo(), environment(theme_folder())).render())


@cache
def soup(address: str) -> BeautifulSoup:
    return BeautifulSoup(pages()[f"recipes/{address}.html"], "lxml")


def asked(address: str, size: int, method: str, altitude_m: float | None = None) -> dict[str, Any]:
    dish = demo().dishes[address]
    return answer(demo(), dish, size, method, altitude_m)  # type: ignore[arg-type]


def row(table: Tag, name: str, size: int, at: int = 0) -> list[str]:
    """Return the figures of one row at one size, of the component at a place."""
    rows = [tr for tr in table.select("tbody tr") if name_of(tr) == name]
    cell = rows[at].select_one(f'td[data-servings="{size}"]')
    assert cell is not None
    return figures_of(cell)


def figures_of(cell: Tag) -> list[str]:
    return [span.get_text().removesuffix("; ") for span in cell.select(".figures > span")]


def name_of(tr: Tag) -> str:
    head = tr.select_one("th[scope=row]")
    return next(head.stripped_strings) if head else ""


ADDRESSES = sorted(demo().dishes)


@pytest.mark.parametrize("address", ADDRESSES)
def test_each_method_has_its_card_with_the_numbers_of_the_answer(address: str) -> None:
    dish = demo().dishes[address]
    cards = {str(c["data-method"]): c for c in soup(address).select(".heat .card")}
    assert list(cards) == list(dish.methods)
    for method, card in cards.items():
        table = card.select_one("table.by-size")
        assert table is not None
        for size in SIZES:
            found = asked(address, size, method)
            for at, part in enumerate(found["components"]):
                eat_by = until(3600 * part["eat_by_h"])
                if part["method"] == "cold" != method:
                    continue  # has rows of its own
                if method == "kettle":
                    assert rests(row(table, "Rest", size, at)[0], part["rest_s"])
                    assert warm(
                        row(table, "Warm then", size, at)[0], part["temperatures"]["ready_c"]
                    )
                    assert close(row(table, "Eat within", size, at)[0], eat_by)
                if method == "cold":
                    assert rests(row(table, "Soak", size, at)[0], part["rest_s"])
                    assert close(row(table, "Eat within", size, at)[0], eat_by)
            if method == "stove":
                parts = range(sum(part["method"] == method for part in found["components"]))
                fuel = [grams(row(table, "Fuel", size, at)[0]) for at in parts]
                assert found["fuel_g"] <= sum(fuel) < found["fuel_g"] + len(fuel) + 0.01
                for at, part in enumerate(found["components"][: len(parts)]):
                    told = until(3600 * part["eat_by_h"])
                    assert close(row(table, "Eat within", size, at)[0], told)
            if method == "jar":
                held = [found["jar"][kind]["eat_by_h"] for kind in ("preheated", "cold")]
                shown = row(table, "Eat within", size)
                assert all(
                    close(*pair)
                    for pair in zip(shown, [until(3600 * h) for h in held], strict=True)
                )
                assert rests(row(table, "Ready", size)[0], found["components"][0]["rest_s"])


def close(shown: str, told: str) -> bool:
    """Hours in JSON are cut to a hundredth, 36 s: five minutes shown may be one step lower."""
    return 0 <= in_minutes(shown) - in_minutes(told) <= 5


def in_minutes(words: str) -> int:
    parts: dict[str, int] = {unit: int(n) for n, unit in re.findall(r"(\d+)\s(h|min)", words)}
    return 60 * parts.get("h", 0) + parts.get("min", 0)


def rests(shown: str, rest_s: float) -> bool:
    """Up to an hour a rest is shown to the minute, then to five, from four hours to thirty."""
    step = 1 if rest_s < 3630 else 5 if rest_s < 14_400 else 30
    return abs(60 * in_minutes(shown) - rest_s) <= 30 * step + 0.06


def warm(shown: str, temp_c: float) -> bool:
    celsius_, fahrenheit = (float(part.split()[0]) for part in shown.split("/"))
    return abs(celsius_ - temp_c) < 0.51 and abs(fahrenheit - (1.8 * temp_c + 32)) < 0.52


@pytest.mark.parametrize("address", ADDRESSES)
def test_the_camp_card_has_the_answers_of_every_altitude(address: str) -> None:
    dish = demo().dishes[address]
    tables = soup(address).select(".camp table.by-size")
    methods = [method for method in ("stove", "kettle") if method in dish.methods]
    assert len(tables) == len(methods)
    for table, method in zip(tables, methods, strict=True):
        heads = [th for th in table.select("tbody th") if th.small]
        assert [re.sub(r"\s", "", str(th.next)) for th in heads] == [
            "0m",
            "1000m",
            "2000m",
            "3000m",
            "4000m",
        ]
        for size in SIZES:
            cells = table.select(f'tbody td[data-servings="{size}"]')
            together = [f for f in map(figures_of, cells) if f[0] == "together"]
            shown = [f for f in map(figures_of, cells) if f[0] != "together"]
            assert len(together) == (len(BANDS_M) if len(dish.parts) > 1 else 0)
            for figures, altitude_m in zip(together, BANDS_M, strict=False):
                told = asked(address, size, method, altitude_m)
                assert grams(figures[5]) == pytest.approx(told["fuel_g"], abs=1.01)
            parts = [
                part
                for altitude_m in BANDS_M
                for part in asked(address, size, method, altitude_m)["components"]
            ]
            for figures, part in zip(shown, parts, strict=True):
                words = part["measures"]
                assert figures[:2] == [words["start"], f"+\N{NO-BREAK SPACE}{words['hold_back']}"]
                most_ml = part["start_ml"] + part["hold_back_ml"]
                assert litres(figures[2]) == pytest.approx(most_ml, abs=0.51)
                assert rests(figures[4], part["rest_s"])
                if method == "stove":
                    boil_s = 60 * in_minutes(figures[3]) + seconds(figures[3])
                    assert boil_s == pytest.approx(part["heating_s"], abs=30.1)
            fuel = sum(
                grams(figures[5])
                for figures, part in zip(shown[: len(dish.parts)], parts, strict=False)
                if part["method"] != "cold"  # which says that it wants no fuel
            )
            exact = asked(address, size, method, 0)["fuel_g"]
            assert math.ceil(exact) <= fuel < exact + len(dish.parts) + 0.01


def test_the_most_likely_water_and_both_pours_together_have_a_word_each() -> None:
    page = soup("barley-and-leek-supper")
    for part_of_page in page.select(".answers, .mix, .heat, .camp, .water"):
        assert not re.search(r"\bin all\b", part_of_page.get_text(), re.IGNORECASE)
    bowl = page.select_one(".heat .card[data-method=kettle] table")
    assert bowl is not None
    part = asked("barley-and-leek-supper", 2, "kettle")["components"][0]
    likely = row(bowl, "Most likely water", 2)[0]
    assert litres(likely) == pytest.approx(part["total_ml"], abs=0.5)
    assert litres(likely) < part["start_ml"] + part["hold_back_ml"] - 1
    heads = page.select('.camp thead th[data-servings="2"]')
    assert [figures_of(head)[2] for head in heads] == ["together"] * 2


def litres(words: str) -> float:
    number, unit = words.split()
    return float(number) * (1000 if unit == "L" else 1)


def seconds(words: str) -> int:
    found = re.search(r"(\d+)\ss", words)
    return int(found[1]) if found else 0


def grams(words: str) -> float:
    number, unit = words.split()
    return float(number) * (1000 if unit == "kg" else 1)


@pytest.mark.parametrize("address", ADDRESSES)
def test_every_warning_of_the_answer_stands_on_the_page(address: str) -> None:
    text = soup(address).get_text(" ")
    for method in demo().dishes[address].methods:
        for size in SIZES:
            shown = soup(address).select_one(f'.answer[data-on="{size}-{method}"]')
            assert shown is not None
            said = [" ".join(p.get_text(" ").split()) for p in shown.select(".caution")]
            told = [" ".join(w.split()) for w in asked(address, size, method)["warnings"]]
            raw = [warning for warning in told if warning.startswith("Raw ")]
            assert said == [warning for warning in told if warning not in raw]
            assert all(warning in " ".join(text.split()) for warning in raw)


@pytest.mark.parametrize("address", [a for a in ADDRESSES if "jar" in demo().dishes[a].methods])
def test_the_curve_the_table_and_the_answer_agree_hour_by_hour(address: str) -> None:
    for size in SIZES:
        jar = asked(address, size, "jar")["jar"]
        figure, hours = (
            next(
                tag
                for tag in soup(address).select(kind)
                if str(size) in str(tag["data-sizes"]).split()
            )
            for kind in (".curve", ".hours")
        )
        rows = [
            [cell.get_text() for cell in tr.select("th, td")] for tr in hours.select("tbody tr")
        ]
        assert [line[0] for line in rows] == [str(hour) for hour in range(13)]
        for column, kind in ((1, "preheated"), (2, "cold")):
            assert all(
                warm(*pair)
                for pair in zip((line[column] for line in rows), jar[f"{kind}_c"], strict=True)
            )
        for kind in ("preheated", "cold"):
            line = figure.select_one(f"polyline.{kind}")
            assert line is not None
            points = [tuple(map(float, pair.split(","))) for pair in str(line["points"]).split()]
            # the field: 40 to 346 is 0 to 12 h, 184 up to 10 is 20 to 100 °C
            temps = [20 + 80 * (184 - y) / 174 for _, y in points]
            assert temps == pytest.approx(jar[f"{kind}_c"], abs=0.05)
            assert [x for x, _ in points] == pytest.approx(
                [40 + 25.5 * h for h in range(13)], abs=0.1
            )


def test_the_nourishment_of_a_dish_is_on_its_page_with_its_allergens() -> None:
    found = soup("barley-and-leek-supper").select_one("section.nourishment")
    assert found is not None
    heads = [th.get_text() for th in found.select("thead th")]
    assert heads == [
        "One serving, dry", "With what is fresh", "Dry, without yogurt powder", "100 g dry",
    ]  # fmt: skip
    weight = found.select_one("tbody tr")
    assert weight is not None
    assert weight.get_text(" ", strip=True).endswith("100\xa0g")
    text = found.get_text(" ")
    assert "cereals containing gluten, milk, mustard" in text
    assert "as entered by the author" in text
    assert "fourteen allergens of European Union law" in text


def test_a_base_shows_what_a_hundred_grams_of_it_hold() -> None:
    found = BeautifulSoup(pages()["recipes/orchard-sauce.html"], "lxml")
    cells = [tr.select("th, td") for tr in found.select(".nourishment tbody tr")]
    rows = {name.get_text(): figure.get_text() for name, figure in cells}
    assert rows["Weight"] == "100\xa0g"
    assert float(rows["Energy"].split()[0]) > 250  # dried fruit and sugar: SR28 has 243 for apples


@pytest.mark.parametrize("method", ["kettle", "microwave", "stove", "jar", "cold"])
def test_water_json_has_heat_and_warnings_for_every_method(method: str) -> None:
    done = CliRunner().invoke(
        main,
        ["water", "barley-and-leek-supper", "--book", str(DEMO), "--method", method, "--json"],
    )
    assert done.exit_code == 0, done.output
    found = json.loads(done.output)
    assert found["rest_s"] > 0
    assert found["ready_at"]["after_s"] >= found["rest_s"] - 0.1
    assert found["eat_by_h"] >= 2.0
    assert found["fuel_g"] >= 0
    assert isinstance(found["warnings"], list)
    for part in found["components"]:
        temps = part["temperatures"]
        assert set(temps) == {"boiling_c", "start_c", "mean_c", "ready_c"}
        assert temps["boiling_c"] == pytest.approx(98.94, abs=0.02)  # ISO 2533 and IF97, 310 m
    assert ("jar" in found) == (method == "jar")
    assert (found["fuel_g"] > 0) == (method in {"kettle", "stove", "jar"})


def test_the_terminal_says_simmer_and_soak_as_the_page_does() -> None:
    for method, word in (("stove", "simmer"), ("cold", "soak"), ("kettle", "rest")):
        done = CliRunner().invoke(
            main, ["water", "beetroot-soup", "--book", str(DEMO), "--method", method]
        )
        assert re.search(rf"^  {word} +\d", done.output, re.MULTILINE), done.output
        assert "eat within" in done.output


def test_the_cautions_page_names_every_temperature_it_warns_with() -> None:
    text = BeautifulSoup(pages()["cautions.html"], "lxml").get_text(" ")
    for temp_c in (60, 4.4, 32.2, 73.9, 71.1, 62.8):
        assert celsius(temp_c) in text


def test_a_book_in_feet_has_bands_in_feet(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "book.yaml").write_text("title: Up\naltitude: 1000 ft\naltitudes: feet\n")
    (tmp_path / "larder.yaml").write_text("oats: {food: oats, dried: bought}\n")
    (tmp_path / "recipes" / "bowl.md").write_text(
        "---\ntitle: Bowl\ningredients: [1 cup oats]\n---\n"
    )
    findings = Findings()
    book = read_book(tmp_path, findings)
    assert book is not None
    made = dict(Pages(reckoned(book, findings), environment(theme_folder())).render())
    text = BeautifulSoup(made["recipes/bowl.html"], "lxml").get_text(" ")
    for words in (
        "0\xa0ft",
        "3\xa0000\xa0ft",
        "6\xa0000\xa0ft",
        "12\xa0000\xa0ft",
        "At 1\xa0000\xa0ft",
    ):
        assert words in text
