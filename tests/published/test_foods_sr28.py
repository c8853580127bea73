"""The table of foods against USDA SR28, figure by figure. Source key: SR28.

The release is not part of the project. The test looks for `usda_sr28.csv` where COOKBOOK_SR28
points, else in `../shared/reference/` beside the checkout, and is skipped where there is none.
"""

from __future__ import annotations

import csv
import os
import re
from functools import cache
from pathlib import Path

import pytest

from cookbook_build.foods import Food, load_foods

CHECKOUT = Path(__file__).parents[2]
SR28 = Path(
    os.environ.get("COOKBOOK_SR28") or CHECKOUT.parent / "shared/reference/usda_sr28.csv",
)
FIGURES = {  # our field: SR28's column
    "energy_kcal": "energy_kcal",
    "protein_g": "protein_g",
    "fat_g": "fat_g",
    "carbohydrate_g": "carbohydrate_g",
    "fibre_g": "fibre_g",
    "ash_g": "ash_g",
    "sodium_mg": "sodium_mg",
}
# The US customary measures are exact fractions of a cup.
CUPS = {"quart": 4.0, "pint": 2.0, "cup": 1.0, "fl oz": 1 / 8}
CUPS |= {"tbsp": 1 / 16, "tablespoon": 1 / 16, "tsp": 1 / 48, "teaspoon": 1 / 48}
PORTION = re.compile(r"(?P<number>[\d.]+) (?P<what>.+) = (?P<grams>[\d.]+) g$")
VOLUME = re.compile(rf"(?P<unit>{'|'.join(CUPS)})s?\b(?P<cut>.*)$", re.IGNORECASE)
NOT_A_CUT = re.compile(
    r"yield|makes|serving|packet|envelope|label|refuse|scoop|prepared|NLEA|from \d",
    re.IGNORECASE,
)
NOT_A_PIECE = re.compile(
    r"\b(oz|lb|servings?|package|containers?|can|bottle|yields?|slices?|strips?|wedges?|rings?"
    r"|pieces?|cubic|pat|stick|sticks|portions?|bag|box|packet|envelope|nlea|block|bar|dash|chips"
    r"|unit|pouch|cubes?|drink|glass|jar|inch|sprigs|steaks?|fillets?|roast|patty|chop|half|halves"
    r"|refuse|sheet|commodity|links?|dip|quarter|part|sections?|roll|cake|tomato|pod|tip)\b"
    r"|usda|\bsq\b|thick",
    re.IGNORECASE,
)


def cut_name(words: str) -> str:
    """Return SR28's words for a cut without its brackets and asides; `plain` when it has none."""
    words = words.lower().replace('"', " inch")
    words = re.sub(
        r"\((?:\d+/?\d* (?:fl oz|cup|serving)|about.*?|approx.*?|[\d.]+ (?:kernels|halves|large).*?"
        r"|not packed)\)|8 fl oz|\bcup\b",
        " ",
        words,
    )
    words = re.sub(r"^[ ,]*cooked$", " ", words)
    return " ".join(re.sub(r"[(),;=]", " ", words).split()) or "plain"


def cups_from(portions: str) -> dict[str, float]:
    """Return grams a cup by cut: from portions of a cup or more, from spoons if there are none."""
    found: dict[str, tuple[float, float]] = {}
    for portion in portions.split("; "):
        whole = PORTION.match(portion)
        volume = whole and VOLUME.match(whole["what"])
        if not whole or not volume or NOT_A_CUT.search(whole["what"]):
            continue
        unit = CUPS[volume["unit"].lower()]
        cups = float(whole["number"]) * unit
        cut = cut_name(volume["cut"])
        if cups > found.get(cut, (0.0, 0.0))[0]:
            found[cut] = (unit if unit >= 1 else cups, round(float(whole["grams"]) / cups, 1))
    in_cups = {cut: grams for cut, (size, grams) in found.items() if size >= 1}
    return in_cups or {cut: grams for cut, (_, grams) in found.items()}


def pieces_from(portions: str) -> dict[str, float]:
    """Return edible grams of one whole piece, by SR28's words for it."""
    found: dict[str, float] = {}
    for portion in portions.split("; "):
        whole = PORTION.match(portion)
        if not whole or VOLUME.match(whole["what"]):
            continue
        if NOT_A_PIECE.search(whole["what"]) and whole["what"] != "piece":
            continue
        words = re.sub(r"\(.*|\b\d\S*\".*| ns as to .*", "", whole["what"].lower())
        name = " ".join(re.sub(r"[,;=]", " ", words).split())
        found.setdefault(name, round(float(whole["grams"]) / float(whole["number"]), 2))
    return found


@cache
def release() -> dict[str, dict[str, str]]:
    with SR28.open(encoding="utf-8", newline="") as file:
        return {row["ndb"]: row for row in csv.DictReader(file)}


def differences(food: Food) -> list[str]:
    row = release().get(food.ndb)
    if row is None:
        return [f"{food.id}: SR28 has no food {food.ndb}"]
    ours = {field: getattr(food, field) for field in FIGURES}
    theirs = {
        field: float(row[column]) if row[column] else None for field, column in FIGURES.items()
    }
    portions = "" if food.stand_in else row["portions"]  # a stand-in lends no shape
    pairs = {
        "water": (round(food.moisture * 100, 4), float(row["water_g"])),
        "refuse_pct": (round(food.refuse * 100, 4), float(row["refuse_pct"] or 0)),
        "grams_per_cup": (dict(food.grams_per_cup), cups_from(portions)),
        "pieces": (dict(food.pieces), pieces_from(portions)),
    }
    pairs |= {field: (ours[field], theirs[field]) for field in FIGURES}
    return [
        f"{food.id} ({food.ndb} {row['description']}): {field} is {mine}, SR28 says {right}"
        for field, (mine, right) in pairs.items()
        if mine != right
    ]


@pytest.mark.skipif(not SR28.is_file(), reason="usda_sr28.csv is not at hand (COOKBOOK_SR28)")
def test_every_figure_of_the_table_is_the_one_usda_sr28_prints() -> None:
    wrong = [line for food in load_foods() for line in differences(food)]
    assert not wrong, "\n".join(["foods.csv differs from SR28:", *wrong])


# Portions as SR28 prints them, and the weight of a cup or a piece that follows: plain division.
@pytest.mark.parametrize(
    ("portions", "cups"),
    [
        ("1 cup, chopped = 149 g; 1 cup, sliced = 92 g", {"chopped": 149.0, "sliced": 92.0}),
        ("1 tsp = 6 g; 1 tbsp = 18 g; 1 cup = 292 g; 1 dash = 0.4 g", {"plain": 292.0}),
        ("1 tsp = 2.3 g; 1 tbsp = 6.8 g", {"plain": 108.8}),
        ("0.33 cup = 26 g", {"plain": 78.8}),
        ('0.5 cup (1" pieces) = 66 g', {"1 inch pieces": 132.0}),
        ("1 cup, with pits, yields = 138 g; 1 oz = 28.35 g", {}),
    ],
)
def test_the_weight_of_a_cup_is_worked_out_from_a_portion(
    portions: str, cups: dict[str, float]
) -> None:
    assert cups_from(portions) == cups


def test_a_whole_piece_is_kept_and_a_slice_is_not() -> None:
    printed = '1 medium (2-1/2" dia) = 110 g; 1 slice, thin = 9 g; 5 leaves = 2.5 g'
    assert pieces_from(printed) == {"medium": 110.0, "leaves": 0.5}
