"""The picture of a dry mix is true to its masses, told apart without colour, and said in words."""

from __future__ import annotations

import functools
import itertools
import re
from collections import defaultdict
from pathlib import Path

import pytest
from lxml import html

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.publishing.answers import answer
from cookbook_build.publishing.mix_drawing import DEPTH, GRAINS, LEADING, MixDrawing, mix_drawings
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.theme import environment, theme_folder

ROOT = Path(__file__).parents[3]
DEMO = ROOT / "content_demo"
MEALS = sorted(
    path.stem for path in (DEMO / "recipes").rglob("*.md") if path.parent.name != "bases"
)
OUTLINE = re.compile(r"M0 ([\d.]+)(q\S+ \S+ \S+ 0t\S+ 0)V([\d.]+)q\S+ \S+ \S+ 0t\S+ 0Z")


@functools.cache
def demo() -> Reckoning:
    book = read_book(DEMO, Findings())
    assert book is not None
    return reckoned(book, Findings())


@functools.cache
def pages() -> dict[str, str]:
    return dict(Pages(demo(), environment(theme_folder())).render())


def drawn(meal: str) -> list[list[tuple[float, float, str]]]:
    """Return each drawing of a page: upper and lower edge and curve of each layer, read back."""
    banks = html.fromstring(pages()[f"recipes/{meal}.html"]).xpath("//div[@class='bank']/svg")
    found = []
    for bank in banks:
        outlines = [
            OUTLINE.fullmatch(path.get("d")) for path in bank.xpath("./path[@class='layer']")
        ]
        assert all(outlines)
        found.append([(float(o[1]), float(o[3]), o[2]) for o in outlines if o])
    return found


@pytest.mark.parametrize("meal", MEALS)
def test_layers_are_as_thick_as_their_parts_are_heavy(meal: str) -> None:
    dish = demo().dishes[meal]
    for layers, part in zip(drawn(meal), dish.parts, strict=True):
        size = dish.default_servings
        by_name: defaultdict[str, float] = defaultdict(float)
        for line in part.lines:
            if line.is_dry and line.grams:
                by_name[line.ingredient.name] += line.grams * dish.times(line, size)
        masses = sorted(by_name.values(), reverse=True)
        whole = sum(masses)
        small = [mass for mass in masses if mass < 0.02 * whole]
        if len(small) > 1:
            masses = [*(mass for mass in masses if mass not in small), sum(small)]
        thick = [lower - upper for upper, lower, _ in reversed(layers)]
        depth = sum(thick)
        assert [one / depth for one in thick] == pytest.approx(
            [mass / whole for mass in masses], abs=0.02 / depth
        )


@pytest.mark.parametrize("meal", MEALS)
def test_the_grams_of_the_table_beside_them_are_the_same(meal: str) -> None:
    tree = html.fromstring(pages()[f"recipes/{meal}.html"])
    size = demo().dishes[meal].default_servings
    for drawing, table in zip(
        mix_drawings(demo().dishes[meal]),
        tree.xpath("//section[@class='mix']/table[tfoot]"),
        strict=True,
    ):
        total = table.xpath(f"string(./tfoot//td[@data-servings='{size}']/*[@class='grams'])")
        assert drawing.mass == total


@pytest.mark.parametrize("meal", MEALS)
def test_banks_of_one_meal_are_as_deep_as_their_components_are_heavy(meal: str) -> None:
    dish = demo().dishes[meal]
    said = answer(demo(), dish, dish.default_servings, dish.default_method, None)
    masses = [part["dry_g"] for part in said["components"]]  # of `water --json`
    depths = [layers[-1][1] - layers[0][0] for layers in drawn(meal)]
    assert max(depths) == pytest.approx(DEPTH, abs=0.01)
    for depth, mass in zip(depths, masses, strict=True):
        assert depth / DEPTH == pytest.approx(mass / max(masses), abs=2e-4)


@pytest.mark.parametrize("meal", MEALS)
def test_layers_lie_on_each_other_along_one_curve_and_the_heaviest_below(meal: str) -> None:
    for layers in drawn(meal):
        assert all(above[1] == below[0] for above, below in itertools.pairwise(layers))
        assert len({curve for _, _, curve in layers}) == 1  # so each is as thick everywhere
        thick = [lower - upper for upper, lower, _ in layers]
        assert thick[1:] == sorted(thick[1:])  # the uppermost may be several small ones


def drawings() -> list[MixDrawing]:
    return [one for dish in demo().dishes.values() for one in mix_drawings(dish)]


def test_every_part_has_its_words_and_shares_come_to_a_whole() -> None:
    for dish in demo().dishes.values():
        for part, drawing in zip(dish.parts, mix_drawings(dish), strict=True):
            said = drawing.says.replace("\N{NO-BREAK SPACE}", " ")
            for line in part.lines:
                if line.is_dry and line.grams:
                    assert line.ingredient.name in said
            shares = [int(found) for found in re.findall(r"(?<!under )\b(\d+) %", said)]
            assert sum(shares) == pytest.approx(100, abs=len(drawing.layers) / 2)


def test_layers_side_by_side_differ_in_line_and_tone() -> None:
    assert len({(grain.apart, grain.dash, grain.lean) for grain in GRAINS}) == len(GRAINS)
    for above, below in zip(GRAINS, (*GRAINS[1:], GRAINS[0]), strict=True):
        assert above.tone != below.tone
        assert (above.apart, above.dash, above.lean) != (below.apart, below.dash, below.lean)


def test_no_name_stands_over_another_or_off_the_drawing() -> None:
    for drawing in drawings():
        tops = [float(layer.name_y) for layer in drawing.layers]
        ends = [
            top + LEADING * (len(layer.name) - 1)
            for top, layer in zip(tops, drawing.layers, strict=True)
        ]
        for end, top in zip(ends, tops[1:], strict=False):
            assert top - end >= LEADING - 0.11
        assert tops[0] >= 10
        assert ends[-1] <= float(drawing.height)


def test_a_drawing_names_nothing_in_its_page_and_nothing_outside() -> None:
    for name, text in pages().items():
        for bank in html.fromstring(text).xpath("//div[@class='bank']/svg") if "/" in name else ():
            for element in bank.iter():
                assert element.get("id") is None
                assert not [v for v in element.values() if "url(" in v or "#" in v]
                assert element.get("href") is None
                assert element.get("fill") in {None, "none", "currentColor"}


def test_small_parts_are_gathered_and_named_in_words(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "book.yaml").write_text("title: Small things\n")
    (tmp_path / "larder.yaml").write_text(
        "oats: {food: oats, dried: bought}\nsalt: {food: salt, dried: bought}\n"
        "sugar: {food: sugar, dried: bought}\n"
    )
    (tmp_path / "recipes" / "bowl.md").write_text(
        "---\ntitle: Bowl\ningredients:\n  - 500 g oats\n  - 5 g salt\n  - 4 g sugar\n"
        "  - 1 g salt\n---\n{water}\n"
    )
    book = read_book(tmp_path, Findings())
    assert book is not None
    (drawing,) = mix_drawings(reckoned(book, Findings()).dishes["bowl"])
    top, bottom = drawing.layers
    assert top.name == ("salt and sugar",)  # the salt of two lines once
    assert bottom.name == ("oats",)
    said = drawing.says.replace("\N{NO-BREAK SPACE}", " ")
    assert said == "The dry mix by weight, 510 g for 1 serving: oats 98 %; salt and sugar 2 %."
