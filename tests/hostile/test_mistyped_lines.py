"""A cook who mistypes everything: each slip gives one finding at its line and column.

The sound book below has two meals, one of them in two parts, a base, a menu, a page and a
picture. A row plants one slip in it. Line and column are written out, as an editor counts them;
the marker must stand under the culprit, no shorter and no longer.
"""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from cookbook_build.cli import main
from cookbook_build.findings import Findings, described
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

BOOK, LARDER, MENU = "book.yaml", "larder.yaml", "menus/two-days.yaml"
BOWL, OATS = "recipes/suppers/lentil-bowl.md", "recipes/plum-oats.md"
SAUCE, PAGE = "recipes/bases/plum-sauce.md", "pages/how-we-dry.md"
SOUND: dict[str, str] = {
    BOOK: """\
title: The willow landing book
author: A. Householder
language: en
measures: us-cups
altitude: 310 m
servings: [1, 2, 4]
cover: landing.svg
cover text: A landing stage under willows
series:
  Landing suppers: {about: Suppers that need one pot.}
kit:
  stove: {power: 2 kW, efficiency: 0.5}
  jar: {holds: 500 mL, label: 65 C after 6 h}
""",
    LARDER: """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
carrots: {food: carrots raw, dried: air, weighs: 58 g per cup, also called: [carrot dice]}
pears: {food: pears raw, dried: freeze, form: diced}
yogurt powder: {food: yogurt plain whole milk, dried: freeze, form: powder, weighs: 96 g per cup}
quick oats: {food: oats, dried: bought}
salt: {food: salt, dried: bought}
oatcake: {food: oatcakes, dried: fresh, sold by: piece, weighs: 60 g per piece}
turkey mince: {food: ground turkey raw, dried: freeze, raw: true, weighs: 70 g per cup}
plum sauce: {from: bases/plum-sauce, dried: freeze, form: crumbs, weighs: 74 g per cup}
barley crackers:
  dried: bought
  label: {per: 100 g, energy: 400 kcal, protein: 10 g, fat: 4 g, carbohydrate: 75 g}
  weighs: 8 g per piece
""",
    BOWL: """\
---
title: Lentil bowl
series: Landing suppers
part: 1
serves: 1
consistency: stew
ingredients:
  - 1 cup lentils
  - 2 tbsp leeks
  - 1 tbsp yogurt powder (optional)
  - 1 oatcake (fresh)
  - 1/8 tsp salt
tested:
  method: kettle
  water: 3/4 cup + 1 tbsp
  rest: 12 min
trials:
  - {date: 2026-03-02, servings: 2, water: 1 1/2 cups, verdict: thick, added: 2 tbsp}
components:
  - name: Pear relish
    ingredients: [3 tbsp pears]
    tested: {water: 5 tsp, rest: 7 min}
---
Pour {water}, wait {rest}, and stir in {water: Pear relish}.

![The landing at dusk](landing.svg)

Goes with [plum oats](plum-oats.md); see also [how we dry](how-we-dry.md).
""",
    OATS: """\
---
title: Plum oats
consistency: spread
serves: 2
ingredients:
  - 1 cup plum sauce
  - 20 g quick oats
---
Stir in {water}.
""",
    SAUCE: """\
---
title: Plum sauce
kind: base
ingredients:
  - 1 kg plums
  - 200 g apples (prepared)
  - 100 g water
cooked weight: 900 g
becomes: plum sauce
---
Cook it down.
""",
    MENU: """\
title: Two days on the water
people: 3
meals:
  - {day: 1, meal: supper, recipe: lentil-bowl, servings: 3, method: stove}
  - {day: 2, meal: breakfast, recipe: plum-oats}
""",
    PAGE: """\
---
title: How we dry
order: 2
---
We slice thin. See [lentil bowl](lentil-bowl.md).
""",
    "images/landing.svg": '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"/>\n',
}


@dataclass(frozen=True)
class Slip:
    """One slip: what is replaced by what, where the marker stands, what is said."""

    file: str
    old: str
    new: str
    at: str  # line:column
    culprit: str  # what the marker underlines, whole
    cause: str
    mend: str
    severity: str = "error"


BEANS = "lentils: {food: lentils cooked, dried: freeze, cooked first: true}"
RELISH = "    tested: {water: 5 tsp, rest: 7 min}"
SLIPS = {
    # words that are one letter off
    "misspelt store": Slip(BOWL, "tbsp leeks", "tbsp leaks", "9:12", "leaks", 'no store called "leaks"', 'write "leeks", or add "leaks" to larder.yaml'),
    "misspelt store in a component": Slip(BOWL, "[3 tbsp pears]", "[3 tbsp paers]", "21:26", "paers", 'no store called "paers"', 'write "pears"'),
    "store that nobody has": Slip(BOWL, "tbsp leeks", "tbsp zanthum", "9:12", "zanthum", 'no store called "zanthum"', 'add "zanthum" to larder.yaml'),
    "misspelt food": Slip(LARDER, "food: leeks raw", "food: leks raw", "2:15", "leks raw", 'no food called "leks raw"', "leeks raw"),
    "food that is no food": Slip(LARDER, "food: leeks raw", "food: qwrtz", "2:15", "qwrtz", 'no food called "qwrtz"', "give a label"),
    "unknown food in a base": Slip(SAUCE, "1 kg plums", "1 kg plumbs", "5:10", "plumbs", 'neither a store nor a food called "plumbs"', "plums"),
    "misspelt key of a recipe": Slip(BOWL, "consistency:", "consistancy:", "6:1", "consistancy", '"consistancy" is not a key', 'write "consistency"'),
    "misspelt key of a test": Slip(BOWL, "  rest: 12 min", "  rests: 12 min", "16:3", "rests", '"rests" is not a key', 'write "rest"'),
    "misspelt key of a trial": Slip(BOWL, "verdict:", "verdikt:", "18:56", "verdikt", '"verdikt" is not a key', 'write "verdict"'),
    "misspelt key of a component": Slip(BOWL, "  - name: Pear", "  - nam: Pear", "20:5", "nam", '"nam" is not a key', 'write "name"'),
    "misspelt key of the book": Slip(BOOK, "altitude:", "altitud:", "5:1", "altitud", '"altitud" is not a key', 'write "altitude"'),
    "misspelt key of the kit": Slip(BOOK, "efficiency:", "efficency:", "12:24", "efficency", '"efficency" is not a key', 'write "efficiency"'),
    "misspelt key of a series": Slip(BOOK, "{about:", "{abuot:", "10:21", "abuot", '"abuot" is not a key', 'write "about"'),
    "misspelt key of a store": Slip(LARDER, "form: sliced", "forn: sliced", "2:41", "forn", '"forn" is not a key', 'write "form"'),
    "misspelt key of a label": Slip(LARDER, "fat: 4 g", "fats: 4 g", "13:56", "fats", '"fats" is not a key', 'write "fat"'),
    "misspelt key of a menu": Slip(MENU, "people:", "peopel:", "2:1", "peopel", '"peopel" is not a key', 'write "people"'),
    "misspelt key of a meal": Slip(MENU, "servings: 3", "servigns: 3", "4:49", "servigns", '"servigns" is not a key', 'write "servings"'),
    "misspelt key of a page": Slip(PAGE, "order:", "ordre:", "3:1", "ordre", '"ordre" is not a key', 'write "order"'),
    "form written as from": Slip(LARDER, "form: sliced", "from: sliced", "2:1", "leeks", "more than one of food, from and label", 'write "form: sliced"'),
    "method that isn't one": Slip(BOWL, "method: kettle", "method: kettel", "14:11", "kettel", '"kettel" is not one of kettle, microwave', 'write "kettle"'),
    "method near to none": Slip(MENU, "method: stove", "method: bonfire", "4:70", "bonfire", '"bonfire" is not one of', "write kettle, microwave, stove, jar or cold"),
    "verdict that isn't one": Slip(BOWL, "verdict: thick", "verdict: thik", "18:65", "thik", '"thik" is not one of right, thick or thin', 'write "thick"'),
    "measures that aren't": Slip(BOOK, "us-cups", "us-cup", "4:11", "us-cup", '"us-cup" is not one of', 'write "us-cups"'),
    "language by its name": Slip(BOOK, "language: en", "language: English", "3:11", "English", '"English" is not a language tag', "en, es or en-GB"),
    "unknown series": Slip(BOWL, "series: Landing suppers", "series: Landing super", "3:9", "Landing super", 'no series called "Landing super"', 'write "Landing suppers"'),
    "unknown recipe in a menu": Slip(MENU, "plum-oats", "plum-oast", "5:39", "plum-oast", 'no recipe with the address "plum-oast"', 'write "plum-oats"'),
    "base on a menu": Slip(MENU, "plum-oats", "plum-sauce", "5:39", "plum-sauce", '"plum-sauce" is a base', "name a meal that uses it"),
    "store from no base": Slip(LARDER, "bases/plum-sauce", "bases/plum-sause", "10:20", "bases/plum-sause", 'no base with the address "plum-sause"', 'write "plum-sauce"'),
    "store from a meal": Slip(LARDER, "bases/plum-sauce", "plum-oats", "10:20", "plum-oats", '"plum-oats" is a meal', 'write "plum-sauce"'),
    "base that becomes no store": Slip(SAUCE, "becomes: plum sauce", "becomes: plumm sauce", "9:10", "plumm sauce", 'no store called "plumm sauce"', 'write "plum sauce"'),
    "base that becomes another's store": Slip(SAUCE, "becomes: plum sauce", "becomes: leeks", "9:10", "leeks", '"leeks" does not come from this base', "from: bases/plum-sauce"),
    "note that is nearly a mark": Slip(BOWL, "(optional)", "(optionall)", "10:27", "optionall", '"optionall" is taken as a note', 'write "optional"', "warning"),
    # amounts
    "unknown unit": Slip(BOWL, "2 tbsp leeks", "2 tblspn leeks", "9:7", "tblspn", '"tblspn" is not a unit', 'write "tbsp"'),
    "unit near to none": Slip(BOWL, "1/8 tsp salt", "1 jar salt", "12:7", "jar", '"jar" is not a unit', "cup, tbsp, tsp, g or oz"),
    "unknown unit of water": Slip(BOWL, "3/4 cup + 1 tbsp", "3/4 cupp", "15:14", "cupp", '"cupp" is not a unit', 'write "cup"'),
    "water by weight": Slip(BOWL, "3/4 cup + 1 tbsp", "200 g", "15:10", "200 g", '"200 g" is not a volume', "write 200 mL"),
    "no water at all": Slip(BOWL, "3/4 cup + 1 tbsp", "0 cup", "15:10", "0 cup", '"0 cup" is nothing', "3/4 cup + 1 tbsp"),
    "negative amount": Slip(BOWL, "- 2 tbsp leeks", "- -2 tbsp leeks", "9:5", "-2", '"-2" is less than nothing', "above zero"),
    "negative water": Slip(BOWL, "water: 3/4 cup + 1 tbsp", "water: -3/4 cup", "15:10", "-3/4", '"-3/4" is less than nothing', "above zero"),
    "nothing of something": Slip(BOWL, "- 2 tbsp leeks", "- 0 tbsp leeks", "9:5", "0 tbsp", '"0 tbsp" is nothing', "delete the line"),
    "falling range": Slip(BOWL, "- 2 tbsp leeks", "- 3-2 tbsp leeks", "9:5", "3-2", 'the range "3-2" does not rise', "such as 2-3"),
    "over zero": Slip(BOWL, "1/8 tsp", "1/0 tsp", "12:5", "1/0", '"1/0" divides by zero', "1/2"),
    "two strokes": Slip(BOWL, "1/8 tsp", "1/8/2 tsp", "12:5", "1/8/2", '"1/8/2" is not an amount', "1/4 cup"),
    "two ways to read": Slip(OATS, "20 g quick", "1,500 g quick", "7:5", "1,500", '"1,500" can be read two ways', "1500"),
    "more than a kitchen holds": Slip(OATS, "20 g quick", "1e400 g quick", "7:5", "1e400", "more than any kitchen holds", "below a million"),
    "a cubic metre of water": Slip(BOWL, "water: 1 1/2 cups", "water: 100000 cups", "18:44", "100000 cups", '"100000 cups" is more than any kitchen holds', "what was measured"),
    "a tonne of oats": Slip(OATS, "20 g quick", "2000 kg quick", "7:5", "2000 kg", '"2000 kg" is more than any kitchen holds', "what was measured"),
    "more oats than any pot holds": Slip(OATS, "20 g quick", "200 kg quick", "7:5", "200 kg quick oats", "this is 200 kg of quick oats, more than any pot holds", "check the amount"),
    "added without end": Slip(BOWL, "added: 2 tbsp", "added: 999999 L", "18:79", "999999 L", '"999999 L" is more than any kitchen holds', "what was measured"),
    "added to what was right": Slip(BOWL, "verdict: thick", "verdict: right", "18:79", "2 tbsp", "it was right, and water was added", '"verdict: thick"'),
    "added to what was thin": Slip(BOWL, "verdict: thick", "verdict: thin", "18:78", "2 tbsp", "it was too thin, and water was added", "delete the water"),
    "a trial's water as a range": Slip(BOWL, "water: 1 1/2 cups", "water: 1-2 cups", "18:44", "1-2 cups", "is a range", "the one that was measured"),
    "a trial that is still to come": Slip(BOWL, "date: 2026-03-02", "date: 2099-03-02", "18:12", "2099-03-02", "2099-03-02 is still to come", "on which it was made"),
    "a trial's day in another order": Slip(BOWL, "date: 2026-03-02", "date: 02.03.2026", "18:12", "02.03.2026", "can be read two ways", "2026-03-02 or 2026-02-03"),
    "a trial without a day": Slip(BOWL, "date: 2026-03-02, servings", "servings", "18:5", "{servings: 2, water: 1 1/2 cups, verdict: thick, added: 2 tbsp}", 'this entry of "trials" has no "date"', '"date: 2026-03-02"'),
    "a trial written twice": Slip(BOWL, "added: 2 tbsp}\n", "added: 2 tbsp}\n  - {date: 2026-03-02, servings: 2, water: 1 1/2 cups, verdict: thick, added: 2 tbsp}\n", "19:5", "{date: 2026-03-02, servings: 2, water: 1 1/2 cups, verdict: thick, added: 2 tbsp}", "this trial stands on line 18 too", "write a note to one", severity="warning"),
    "volume plus weight": Slip(BOWL, "- 2 tbsp leeks", "- 2 tbsp + 5 g leeks", "9:5", "2 tbsp + 5 g", "adds a volume to a weight", "both as volumes or both as weights"),
    "no amount": Slip(BOWL, "- 2 tbsp leeks", "- leeks", "9:5", "leeks", '"leeks" has no amount', "1/4 cup leeks"),
    "l for 1": Slip(BOWL, "- 1 cup lentils", "- l cup lentils", "8:5", "l", '"l" is not a number', "1 cup lentils"),
    # lines as they are pasted
    "amount behind its name": Slip(BOWL, "- 2 tbsp leeks", "- leeks 2 tbsp", "9:5", "leeks 2 tbsp", '"leeks 2 tbsp" has its amount behind its name', 'write "2 tbsp leeks".'),
    "amount behind a comma": Slip(BOWL, "- 2 tbsp leeks", "- leeks, 2 tbsp", "9:5", "leeks, 2 tbsp", "has its amount behind its name", 'write "2 tbsp leeks".'),
    "amount behind a dash, and how it is cut": Slip(BOWL, "- 2 tbsp leeks", "- leeks – 2 tbsp, crushed", "9:5", "leeks – 2 tbsp, crushed", "has its amount behind its name", 'write "2 tbsp leeks, crushed".'),
    "amount in brackets behind its name": Slip(BOWL, "- 1 cup lentils", "- lentils (1 cup)", "8:5", "lentils (1 cup)", "has its amount behind its name", 'write "1 cup lentils".'),
    "amount behind its name in Spanish": Slip(BOWL, "- 1 cup lentils", "- lentils 1 taza", "8:5", "lentils 1 taza", "has its amount behind its name", 'write "1 taza lentils".'),
    "nothing but salt": Slip(BOWL, "- 1/8 tsp salt", "- salt", "12:5", "salt", '"salt" has no amount', "a pinch of salt, or salt, to taste."),
    "two things on a line": Slip(BOWL, "- 1/8 tsp salt", "- salt and pepper", "12:5", "salt and pepper", '"salt and pepper" has no amount', "a pinch of salt, or salt, to taste, and pepper on a line of its own."),
    "a pinch behind its salt": Slip(BOWL, "- 1/8 tsp salt", "- salt, a pinch", "12:5", "salt, a pinch", "has its amount behind its name", 'write "a pinch of salt".'),
    "times": Slip(BOWL, "- 1 oatcake", "- 1 x oatcake", "11:7", "x", '"x" is not a unit', 'write "1 oatcake (fresh)".'),
    "times a weight": Slip(OATS, "- 20 g quick oats", "- 2 × 10 g quick oats", "7:7", "×", '"×" is not a unit', 'write "20 g quick oats".'),
    "a number in letters": Slip(OATS, "- 1 cup plum sauce", "- two cups plum sauce", "6:5", "two", '"two" is not a number', "such as 2 cups plum sauce"),
    "two large ones of what is dried": Slip(BOWL, "- 2 tbsp leeks", "- 2 large leeks", "9:5", "2 large leeks", "what a piece of leeks weighs", "weighs: 60 g per piece"),
    "no name": Slip(BOWL, "- 2 tbsp leeks", "- 2 tbsp", "9:5", "2 tbsp", "names no ingredient", "3 tbsp leeks"),
    "bracket without its partner": Slip(BOWL, "(optional)", "(optional", "10:26", "(", 'the bracket "(" has no partner', "both brackets"),
    "count of a dried store": Slip(BOWL, "- 2 tbsp leeks", "- 2 leeks", "9:5", "2 leeks", "what a piece of leeks weighs", "weighs: 60 g per piece"),
    "cups of what is weighed by the piece": Slip(BOWL, "- 2 tbsp leeks", "- 2 tbsp barley crackers", "9:5", "2 tbsp barley crackers", "what a cup of barley crackers weighs", "write it in pieces"),
    "rest without a unit": Slip(BOWL, "rest: 12 min", "rest: 12", "16:9", "12", '"12" has no unit', "12 min"),
    "rest in minuts": Slip(BOWL, "rest: 12 min", "rest: 12 minuts", "16:12", "minuts", '"minuts" is not a unit', "minutes"),
    "altitude without a unit": Slip(BOOK, "310 m", "310", "5:11", "310", '"310" has no unit', "310 m"),
    "altitude of no kitchen": Slip(BOOK, "310 m", "31000 m", "5:11", "31000 m", "more than can be meant", "310 m"),
    "jar that says half": Slip(BOOK, "65 C after 6 h", "65 C", "13:31", "65 C", "does not say after how long", "65 C after 6 h"),
    "jar hotter than water": Slip(BOOK, "65 C after 6 h", "165 C after 6 h", "13:31", "165 C after 6 h", "is no jar's label", "65 C after 6 h"),
    "share of more than all": Slip(BOOK, "efficiency: 0.5", "efficiency: 150", "12:36", "150", "more than all of it", "50 %"),
    "weighing of nothing": Slip(LARDER, "58 g per cup", "58 g", "3:50", "58 g", "for which measure", "58 g per cup"),
    "weighing per cupp": Slip(LARDER, "58 g per cup", "58 g per cupp", "3:59", "cupp", '"cupp" is not a unit', 'write "cup"'),
    "energy without a unit": Slip(LARDER, "400 kcal", "400", "13:31", "400", '"400" is not an energy', "430 kcal"),
    "bad date": Slip(BOWL, "2026-03-02", "2026-02-30", "18:12", "2026-02-30", "not a day in the calendar", "2026-03-02"),
    "date by the month's name": Slip(BOWL, "2026-03-02", "2 March 2026", "18:12", "2 March 2026", "not a day in the calendar", "2026-03-02"),
    "servings in words": Slip(BOWL, "serves: 1", "serves: two", "5:9", "two", 'whole number, and "two" stands here', "write 2."),
    "half a serving": Slip(BOWL, "serves: 1", "serves: 1.5", "5:9", "1.5", 'whole number, and "1.5" stands here', "such as 2"),
    "servings 0": Slip(BOWL, "serves: 1", "serves: 0", "5:9", "0", '"0" is too small for "serves"', "1 or more"),
    "servings 0 of the book": Slip(BOOK, "[1, 2, 4]", "[1, 0, 4]", "6:15", "0", '"0" is too small for "servings"', "1 or more"),
    "servings for a town": Slip(BOWL, "serves: 1", "serves: 2000", "5:9", "2000", '"2000" is too large for "serves"', "1000 or less"),
    "negative day": Slip(MENU, "day: 2", "day: -2", "5:11", "-2", '"-2" is too small for "day"', "1 or more"),
    "maybe": Slip(LARDER, "cooked first: true", "cooked first: maybe", "1:62", "maybe", 'yes or no, and "maybe" stands here', "yes or no"),
    # what is left out
    "missing water": Slip(BOWL, "  water: 3/4 cup + 1 tbsp\n", "", "13:1", "tested", '"tested" has no "water"', "water: 3/4 cup + 1 tbsp"),
    "empty water": Slip(BOWL, "  water: 3/4 cup + 1 tbsp", "  water:", "15:3", "water", '"water" has no value', "water: 3/4 cup + 1 tbsp"),
    "missing title": Slip(BOWL, "title: Lentil bowl\n", "", "2:1", "series: Landing suppers", 'a recipe has no "title"', "title:"),
    "title that is a comment": Slip(BOWL, "title: Lentil", "title: # Lentil", "2:1", "title", '"title" has no value', '" #"'),
    "missing dried": Slip(LARDER, "raw, dried: freeze, form: sliced", "raw, form: sliced", "2:8", "{food: leeks raw, form: sliced}", 'the store "leeks" has no "dried"', "dried: freeze"),
    "label without fat": Slip(LARDER, "fat: 4 g, ", "", "13:3", "label", '"label" has no "fat"', "fat: 12 g"),
    "no ingredients": Slip(OATS, "ingredients:\n  - 1 cup plum sauce\n  - 20 g quick oats\n", "", "2:1", "title", "has no ingredients", "ingredients:"),
    "empty list": Slip(OATS, "  - 1 cup plum sauce\n  - 20 g quick oats\n", "  []\n", "2:1", "title", "has no ingredients", "ingredients:"),
    "empty list in a component": Slip(BOWL, "[3 tbsp pears]", "[]", "21:18", "[]", '"ingredients" is empty', '"- "'),
    "one serving size of nothing": Slip(BOOK, "[1, 2, 4]", "[0]", "6:12", "0", "too small", "1 or more"),
    "a day before the first": Slip(MENU, "{day: 1, meal: supper", "{day: 0, meal: supper", "4:11", "0", "too small", "1 or more"),
    "servings of nobody": Slip(MENU, "servings: 3", "servings: -3", "4:59", "-3", "too small", "1 or more"),
    "people of nobody": Slip(MENU, "people: 3", "people: 0", "2:9", "0", "too small", "1 or more"),
    "an appetite of nothing": Slip(MENU, "people: 3", "people: 3\nappetites: [1, 0]", "3:16", "0", "no appetite", "1.5"),
    "an appetite in words": Slip(MENU, "people: 3", "people: 3\nappetites: [one]", "3:13", "one", "not a number", "12"),
    "a menu's day that is none": Slip(MENU, "people: 3", "people: 3\ndate: 2026-02-30", "3:7", "2026-02-30", "not a day", "2026-03-02"),
    "a menu's day at the end of the calendar": Slip(MENU, "people: 3", "people: 3\ndate: 9999-12-31", "3:7", "9999-12-31", "in no year that can be meant", "2026-03-02"),
    "a packing day in a word": Slip(MENU, "people: 3", "people: 3\npacked: June", "3:9", "June", "not a day", "2026-03-02"),
    "a menu's recipe misspelt": Slip(MENU, "recipe: plum-oats", "recipe: plum-oat", "5:39", "plum-oat", "no recipe", "plum-oats"),
    "a method of no kitchen": Slip(MENU, "method: stove", "method: stew", "4:70", "stew", "", "stove"),
    "a menu key misspelt": Slip(MENU, "people: 3", "poeple: 3", "2:1", "poeple", "", "people"),
    "an altitude without unit": Slip(MENU, "method: stove", "method: stove, altitude: 450", "4:87", "450", "", "m"),
    "a rate without hours": Slip(BOOK, "kit:\n", "kit:\n  dryer: {trays: 5, removes: 110 g}\n", "12:30", "110 g", "not water in an hour", "110 g per h"),
    "a label sheet of no paper": Slip(BOOK, "kit:\n", "labels: {paper: A5}\nkit:\n", "11:17", "A5", "", "A4"),
    "a label in cups": Slip(BOOK, "kit:\n", "labels: {width: 2 cups}\nkit:\n", "11:19", "cups", "", "mm"),
    "a card of no trade": Slip(BOOK, "kit:\n", "cards: A66\nkit:\n", "11:8", "A66", "is no card paper", "A6"),
    "a card like a stamp": Slip(BOOK, "kit:\n", "cards: 20 x 30 mm\nkit:\n", "11:8", "20 x 30 mm", "smaller than one that can be printed and read", "A6, 4 x 6 in or 105 x 148 mm"),
    "a card like a poster": Slip(BOOK, "kit:\n", "cards: 40 x 60 cm\nkit:\n", "11:8", "40 x 60 cm", "larger than one that can be printed and read", "A6, 4 x 6 in or 105 x 148 mm"),
    "a card in spoons": Slip(BOOK, "kit:\n", "cards: 4 x 6 tbsp\nkit:\n", "11:8", "4 x 6 tbsp", "not a unit that fits here", "A6, 4 x 6 in or 105 x 148 mm"),
    "a fuel of no stove": Slip(BOOK, "efficiency: 0.5}", "efficiency: 0.5, fuel: petrol}", "12:47", "petrol", "", ""),
    "a jar of a thimble": Slip(BOOK, "holds: 500 mL", "holds: 20 mL", "13:16", "20 mL", "less than can be meant", "500 mL"),
    "a lunch without unit": Slip(BOOK, "label: 65 C after 6 h}", "label: 65 C after 6 h, lunch: 4}", "13:54", "4", "", "min"),
    "menu without meals": Slip(MENU, SOUND[MENU].split("meals:\n")[1], "", "3:1", "meals", '"meals" has no value', '"- "'),
    "neither food, from nor label": Slip(LARDER, "{food: leeks raw, dried", "{dried", "2:1", "leeks", "neither food, from nor label", "food: leeks raw"),
    "food and from": Slip(LARDER, "{food: leeks raw,", "{food: leeks raw, from: plum-sauce,", "2:1", "leeks", "more than one of food, from and label", "in one way"),
    "powder nobody weighed": Slip(LARDER, ", weighs: 96 g per cup", "", "5:1", "yogurt powder", "what a cup of yogurt powder weighs", "weighs: 74 g per cup"),
    "crumbs nobody weighed": Slip(LARDER, ", weighs: 74 g per cup", "", "10:1", "plum sauce", "what a cup of plum sauce weighs", "weighs: 74 g per cup"),
    "nothing dry": Slip(BOWL, "[3 tbsp pears]", "[1 oatcake]", "21:5", "ingredients", "nothing in this list is dry", "a dried or bought store"),
    # the shape of the text
    "duplicate key": Slip(BOWL, "serves: 1\n", "serves: 1\nserves: 2\n", "6:1", "serves", "the first stands on line 5", "keep one of the two"),
    "duplicate key in braces": Slip(BOWL, "cups, verdict", "cups, water: 2 cups, verdict", "18:56", "water", '"water" is written twice', "keep one of the two"),
    "duplicate store": Slip(LARDER, "salt: {food", "leeks: {food: leeks raw, dried: air}\nsalt: {food", "7:1", "leeks", "the first stands on line 2", "keep one of the two"),
    "tab before a key": Slip(BOWL, "  water: 3/4", "\twater: 3/4", "15:1", "\t", "a tab stands", "spaces"),
    "tab in the larder": Slip(LARDER, "  weighs: 8 g", "\tweighs: 8 g", "14:1", "\t", "a tab stands", "spaces"),
    "tab after a dash": Slip(BOWL, "  - 2 tbsp leeks", "  -\t2 tbsp leeks", "9:4", "\t", "a tab stands", "spaces"),
    "spaces of a web page": Slip(BOWL, "  water: 3/4", "\u00a0\u00a0water: 3/4", "15:1", "\u00a0\u00a0", "spaces of another kind", "type the spaces again"),
    "missing colon": Slip(BOWL, "consistency: stew", "consistency stew", "6:1", "consistency stew", "a colon is missing", 'write "consistency: stew"'),
    "missing colon at the top": Slip(BOWL, "title: Lentil bowl", "title Lentil bowl", "2:1", "title Lentil bowl", "a colon is missing", 'write "title: Lentil bowl"'),
    "missing colon at the end": Slip(SAUCE, "becomes: plum", "becomes plum", "9:1", "becomes plum sauce", "a colon is missing", 'write "becomes: plum sauce"'),
    "no space after the colon": Slip(BOWL, "consistency: stew", "consistency:stew", "6:1", "consistency:stew", "a colon and a space are missing", 'write "consistency: stew"'),
    "second colon in a value": Slip(BOWL, "title: Lentil bowl", "title: Lentil bowl: warm", "2:19", ":", "a second colon", "quotes"),
    "colon in an ingredient": Slip(BOWL, "- 2 tbsp leeks", "- 2 tbsp leeks: sliced", "9:5", "2 tbsp leeks: sliced", "a colon and a space make keys of this line", "- 2 tbsp leeks, sliced"),
    "unclosed quote": Slip(BOWL, "title: Lentil bowl", 'title: "Lentil bowl', "2:8", '"', "a quotation mark is opened here and never closed", "close it"),
    "unclosed single quote": Slip(BOOK, "title: The", "title: 'The", "1:8", "'", "a quotation mark is opened here and never closed", "close it"),
    "unclosed brace": Slip(LARDER, "form: sliced}", "form: sliced", "2:8", "{", "a brace { is opened and not closed", "close it with }"),
    "unclosed bracket": Slip(BOOK, "[1, 2, 4]", "[1, 2, 4", "6:11", "[", "a bracket [ is opened and not closed", "close it with ]"),
    "dash forgotten": Slip(BOWL, "  - 2 tbsp leeks", "  2 tbsp leeks", "9:3", "2 tbsp leeks", "does not fit into the list above", '"- 2 tbsp leeks"'),
    "dash stuck to its text": Slip(BOWL, "  - 2 tbsp leeks", "  -2 tbsp leeks", "9:3", "-2 tbsp leeks", "does not fit into the list above", '"- 2 tbsp leeks"'),
    "star for a dash": Slip(BOWL, "  - 2 tbsp leeks", "  * 2 tbsp leeks", "9:3", "* 2 tbsp leeks", "does not fit into the list", '"- 2 tbsp leeks"'),
    "entry pushed in": Slip(BOWL, "  - 2 tbsp leeks", "   - 2 tbsp leeks", "9:4", "- 2 tbsp leeks", "indented more than the one above it", 'right below the "- "'),
    "entry pulled out": Slip(BOWL, "  - 2 tbsp leeks", " - 2 tbsp leeks", "9:2", "-", "does not line up with the lines above", "as many spaces"),
    "key pushed in": Slip(BOWL, "part: 1", "  part: 1", "4:3", "part: 1", "indented more than the line above it", "line keys up"),
    "key pulled out": Slip(BOWL, "  water: 3/4", " water: 3/4", "15:2", "w", "does not line up with the lines above", "as many spaces"),
    "list given as a value": Slip(OATS, "ingredients:\n  - 1 cup plum sauce\n  - 20 g quick oats\n", "ingredients: 1 cup plum sauce\n", "5:14", "1 cup plum sauce", '"ingredients" is a list, and "1 cup plum sauce" stands here', '"- 1 cup plum sauce"'),
    "value given as a list": Slip(BOWL, "title: Lentil bowl", "title: [Lentil, bowl]", "2:8", "[Lentil, bowl]", "a bracket or a dash makes this a list", "a line of text"),
    "value given for keys": Slip(BOWL, RELISH, "    tested: 5 tsp", "22:13", "5 tsp", '"tested" holds keys of its own, and "5 tsp" stands here', "tested: {water: 5 tsp}"),
    "list given for keys": Slip(BOOK, "  Landing suppers: {about: Suppers that need one pot.}", "  - Landing suppers", "10:3", "- Landing suppers", "and a list stands here", "series: {Landing suppers: {}}"),
    "alias": Slip(BOWL, "consistency: stew", "consistency: *stew", "6:14", "*stew", 'begins with "*" is a repeat', "quotes"),
    "anchor": Slip(BOWL, "consistency: stew", "consistency: &s stew", "6:14", "&s stew", 'begins with "&" is a repeat', "quotes"),
    "tag": Slip(BOOK, "title: The willow", "title: !!python/name:os.system The willow", "1:8", "!!python/name:os.system The willow landing book", 'begins with "!" is a tag', "quotes"),
    "sign that begins no value": Slip(BOWL, "title: Lentil", "title: @Lentil", "2:8", "@", "can't begin a value", "quotes"),
    "deep nesting": Slip(BOWL, "consistency: stew", f"consistency: {'[' * 50}{']' * 50}", "6:25", "[", "nested too deep", "flatter"),
    "second document": Slip(BOOK, "kit:\n", "---\nkit:\n", "11:1", "---", 'a second "---"', "delete the line"),
    "unclosed front matter": Slip(BOWL, f"{RELISH}\n---\n", f"{RELISH}\n", "1:1", "---", "never closed", 'a line "---"'),
    "no front matter": Slip(OATS, "---\ntitle: Plum oats", "title: Plum oats", "1:1", "title: Plum oats", "does not begin with front matter", 'make "---" the first line'),
    "character that can't be seen": Slip(OATS, "20 g quick", "20 g\a quick", "7:9", "\a", "can't be seen stands here (U+0007)", "delete it"),
    "character that can't be seen, in the text": Slip(OATS, "Stir in", "Stir\x1b in", "9:5", "\x1b", "can't be seen stands here (U+001B)", "delete it"),
    "NUL": Slip(OATS, "20 g quick", "20 g\0 quick", "7:9", "\0", "can't be seen stands here (NUL)", "plain text"),
    # the body
    "unclosed fence": Slip(BOWL, "![The", "```\n![The", "26:1", "```", "never closed, and swallows the rest", "a line ```"),
    "{watr}": Slip(BOWL, "Pour {water}", "Pour {watr}", "24:6", "{watr}", '"{watr}" stands for no computed value', '"{water}"'),
    "unknown component": Slip(BOWL, "{water: Pear relish}", "{water: Pear relsh}", "24:40", "{water: Pear relsh}", 'no component called "Pear relsh"', '"Pear relish"'),
    "{water} in a base": Slip(SAUCE, "Cook it", "Cook {water}", "11:6", "{water}", "has a value only in a meal", "in words", "warning"),
    "link to nowhere": Slip(BOWL, "(plum-oats.md)", "(plum-oat.md)", "28:23", "plum-oat.md", 'no recipe or page with the address "plum-oat"', '"plum-oats.md"'),
    "link to nothing alike": Slip(BOWL, "(plum-oats.md)", "(zzz.md)", "28:23", "zzz.md", 'the address "zzz"', "such as how-we-dry.md"),
    "link of a page to nowhere": Slip(PAGE, "(lentil-bowl.md)", "(lentil-soup.md)", "5:34", "lentil-soup.md", 'the address "lentil-soup"', '"lentil-bowl.md"'),
    "link without its ending": Slip(BOWL, "(plum-oats.md)", "(plum-oats)", "28:23", "plum-oats", "can't be followed", '"plum-oats.md"'),
    "link that runs a script": Slip(BOWL, "(plum-oats.md)", "(javascript:alert(1))", "28:23", "javascript:alert(1)", "can't be followed", "https://"),
    "picture that isn't there": Slip(BOWL, "(landing.svg)", "(landing.png)", "26:24", "landing.png", 'no picture "landing.png"', '"landing.svg"'),
    "cover that isn't there": Slip(BOOK, "cover: landing.svg", "cover: willow.jpg", "7:8", "willow.jpg", 'no picture "willow.jpg"', "images/"),
    "picture of a kind that isn't shown": Slip(BOWL, "(landing.svg)", "(supper.HEIC)", "26:24", "supper.HEIC", '"supper.HEIC" is of a kind that a book can\'t show', "export it as JPEG"),
    "cover of a kind that isn't shown": Slip(BOOK, "cover: landing.svg", "cover: landing.tif", "7:8", "landing.tif", '"landing.tif" is of a kind that a book can\'t show', 'write "landing.svg"'),
    "picture from the web": Slip(BOWL, "(landing.svg)", "(https://example.org/a.png)", "26:24", "https://example.org/a.png", "lies outside the book", "images/"),
    "picture without words": Slip(BOWL, "![The landing at dusk]", "![]", "26:5", "landing.svg", "no words for those who can't see it", "![what it shows]", "warning"),
    "cover without words": Slip(BOOK, "cover text: A landing stage under willows\n", "", "7:8", "landing.svg", "no words for those who can't see it", "cover text: what it shows", "warning"),
    # what the files say of each other, and of food
    "two stores with one name": Slip(LARDER, "[carrot dice]", "[leek]", "3:78", "leek", '"leek" already finds the store "leeks"', "no other has"),
    "two stores but for the plural": Slip(LARDER, "salt: {food", "Leek: {food: leeks raw, dried: air}\nsalt: {food", "7:1", "Leek", '"Leek" already finds the store "leeks"', "no other has"),
    "two components with one name": Slip(BOWL, "components:\n", "components:\n  - name: pear relish\n    ingredients: [1 tbsp pears]\n", "22:11", "Pear relish", 'another component of this recipe is called "Pear relish"', "a name of its own"),
    "raw meat without raw: true": Slip(LARDER, " raw: true,", "", "9:1", "turkey mince", "drying does not kill germs", "raw: true"),
    "raw beans, dried": Slip(LARDER, BEANS, "lentils: {food: kidney beans dry, dried: freeze}", "1:1", "lentils", "undercooked it is poisonous", "cooked first: true"),
    "raw store in a jar": Slip(OATS, "serves: 2\ningredients:\n  - 1 cup", "serves: 2\nmethods: [stove, jar]\ningredients:\n  - 1 cup turkey mince\n  - 1 cup", "5:18", "jar", '"jar" does not cook "turkey mince"', "brought to the boil"),
    "raw store under poured water": Slip(BOWL, "[3 tbsp pears]\n    tested: {water: 5 tsp", "[2 tbsp turkey mince]\n    tested: {water: 5 tsp", "22:13", "{water: 5 tsp, rest: 7 min}", '"kettle" does not cook "turkey mince"', '"method: stove"'),
    "circle of one": Slip(SAUCE, "- 200 g apples (prepared)", "- 200 g plum sauce", "6:11", "plum sauce", "plum-sauce → plum-sauce", "out of the other"),
    "lighter than its solids": Slip(SAUCE, "900 g", "90 g", "8:16", "90 g", "more than 90 g cooked can hold", "weigh the pot again"),
    "label of more than all": Slip(LARDER, "carbohydrate: 75 g", "carbohydrate: 175 g", "13:10", "{per: 100 g, energy: 400 kcal, protein: 10 g, fat: 4 g, carbohydrate: 175 g}", "add up to 189 g in 100 g", "check the figures"),
    "far too much water": Slip(BOWL, "3/4 cup + 1 tbsp", "3 cups", "15:10", "3 cups", "far more than the", "check its water", "warning"),
    "far too little water": Slip(BOWL, "3/4 cup + 1 tbsp", "1 tbsp", "15:10", "1 tbsp", "far less than the", "check its water", "warning"),
    "honey in a freeze dryer": Slip(LARDER, "salt: {food", "honey: {food: honey, dried: freeze}\nsalt: {food", "7:29", "freeze", "honey does not suit a freeze dryer", "fresh or bought", "warning"),
}  # fmt: skip


@dataclass(frozen=True)
class Spoilt:
    """Whole files written, or left out, and the one finding about it; no line where none is."""

    files: Mapping[str, str | bytes | None]
    where: str  # path:line:column
    cause: str
    mend: str


BUTTER = (
    SOUND[SAUCE]
    .replace("Plum sauce", "Pear butter")
    .replace("becomes: plum sauce", "becomes: pear butter")
    .replace("1 kg plums", "1 kg plum sauce")
)
BUTTER_STORE = "pear butter: {from: pear-butter, dried: freeze, weighs: 70 g per cup}\n"
BEAN_STORE = "kidney beans: {food: kidney beans dry, dried: bought}\n"
FILES = {
    "no book.yaml": Spoilt({BOOK: None}, "book.yaml:1:1", "this folder holds no book.yaml", "title:"),
    "book.yml": Spoilt({BOOK: None, "book.yml": SOUND[BOOK]}, "book.yaml:1:1", "no book.yaml", "rename book.yml to book.yaml"),
    "no larder": Spoilt({LARDER: None}, "larder.yaml:1:1", "no larder.yaml", "leeks: {food: leeks raw"),
    "no recipe": Spoilt({BOWL: None, OATS: None, SAUCE: None, MENU: None, PAGE: None}, "recipes:1:1", "no recipe", "recipes/"),
    "empty book": Spoilt({BOOK: ""}, "book.yaml:1:1", "book.yaml is empty", "title:"),
    "empty larder": Spoilt({LARDER: "# nothing yet\n"}, "larder.yaml:1:1", "larder.yaml is empty", "each store"),
    "empty recipe": Spoilt({OATS: ""}, f"{OATS}:1:1", "this file is empty", "---"),
    "empty front matter": Spoilt({OATS: "---\n---\n"}, f"{OATS}:1:1", "the front matter is empty", "title:"),
    "empty menu": Spoilt({MENU: "\n"}, f"{MENU}:1:1", "this menu is empty", "meals:"),
    "empty page": Spoilt({PAGE: "\n\n"}, f"{PAGE}:1:1", "this file is empty", "title:"),
    "book in one line": Spoilt({BOOK: "The willow landing book\n"}, "book.yaml:1:1", "group of keys", "key: value"),
    "larder as a list": Spoilt({LARDER: "- leeks\n- carrots\n"}, "larder.yaml:1:1", "stores by name", "leeks: {food: leeks raw"),
    "not UTF-8": Spoilt({OATS: SOUND[OATS].replace("quick", "qu\xedck").encode("latin-1")}, f"{OATS}:7:12", "not written as UTF-8", "UTF-8"),
    "not UTF-8, with Windows line ends": Spoilt({OATS: SOUND[OATS].replace("quick", "qu\xedck").replace("\n", "\r\n").encode("latin-1")}, f"{OATS}:7:12", "not written as UTF-8", "UTF-8"),
    "UTF-16": Spoilt({LARDER: SOUND[LARDER].encode("utf-16")}, "larder.yaml:1:1", "not written as UTF-8", "UTF-8"),
    "two recipes with one address": Spoilt({"recipes/lentil-bowl.md": SOUND[OATS]}, f"{BOWL}:2:1", "already that of recipes/lentil-bowl.md", "rename"),
    "two addresses but for the case": Spoilt({"recipes/Plum-Oats.md": SOUND[OATS]}, f"{OATS}:2:1", "already that of recipes/Plum-Oats.md", "rename"),
    "page and recipe with one address": Spoilt({"pages/plum-oats.md": SOUND[PAGE]}, "pages/plum-oats.md:2:1", f"already that of {OATS}", "rename"),
    "two menus with one address": Spoilt({"menus/two-days.yml": SOUND[MENU]}, "menus/two-days.yml:1:1", f"already that of {MENU}", "rename"),
    "file name that is no address": Spoilt({"recipes/more plums.md": SOUND[OATS]}, "recipes/more plums.md:2:1", "can't be an address", "more-plums.md"),
    "circle of two": Spoilt({"recipes/pear-butter.md": BUTTER, LARDER: SOUND[LARDER] + BUTTER_STORE, SAUCE: SOUND[SAUCE].replace("200 g apples", "200 g pear butter")}, "recipes/pear-butter.md:5:10", "plum-sauce → pear-butter → plum-sauce", "out of the other"),
    "raw beans, bought": Spoilt({LARDER: SOUND[LARDER] + BEAN_STORE, OATS: SOUND[OATS].replace("quick oats", "kidney beans")}, f"{OATS}:7:10", "undercooked it is poisonous", "cooked first: true"),
}  # fmt: skip
SOUND_VARIANTS = {
    "as it is": {},
    "Windows line ends": {name: text.replace("\n", "\r\n") for name, text in SOUND.items()},
    "byte order marks": {name: "\ufeff" + text for name, text in SOUND.items()},
    "an empty line before the front matter": {OATS: "\n" + SOUND[OATS]},
    "no-break spaces": {BOWL: SOUND[BOWL].replace("1 1/2 cups", "1\u00a01/2\u00a0cups").replace("2 tbsp leeks", "2\u00a0tbsp\u00a0leeks")},
    "a line separator in a title": {BOWL: SOUND[BOWL].replace("Lentil bowl", "Lentil\u2028bowl")},
    "a cup of something": {BOWL: SOUND[BOWL].replace("1 cup lentils", "1 cup of lentils")},
    "a large one": {BOWL: SOUND[BOWL].replace("1 oatcake (fresh)", "1 large oatcake (fresh)")},
    "as much as one likes": {BOWL: SOUND[BOWL].replace("1/8 tsp salt", "salt to taste")},
    "curly quotes": {BOWL: SOUND[BOWL].replace("Lentil bowl", "“Lentil” bowl")},
    "words that YAML has other ideas of": {BOWL: SOUND[BOWL].replace("Lentil bowl", "no").replace("consistency: stew\n", "consistency: stew\nblurb: 12:30\n")},
    "an empty entry": {BOWL: SOUND[BOWL].replace("  - 2 tbsp leeks\n", "  -\n  - 2 tbsp leeks\n")},
    "a closed fence in a quote": {BOWL: SOUND[BOWL] + "\n> ```\n> {watr}\n> ```\n"},
    "a picture by its path": {BOWL: SOUND[BOWL].replace("(landing.svg)", "(../../images/landing.svg)")},
}  # fmt: skip


def write(folder: Path, changed: Mapping[str, str | bytes | None]) -> Path:
    """Write the sound book with some of its files changed or left out."""
    for name, text in {**SOUND, **changed}.items():
        if text is not None:
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return folder


def with_slip(slip: Slip) -> dict[str, str]:
    """Return the changed file of a slip."""
    assert SOUND[slip.file].count(slip.old) == 1, "the row's text stands once in the sound book"
    return {slip.file: SOUND[slip.file].replace(slip.old, slip.new)}


def found_in(folder: Path) -> Findings:
    """Return every finding of a book."""
    findings = Findings()
    book = read_book(folder, findings, today=dt.date(2026, 11, 1))
    if book is not None:
        reckoned(book, findings)
    return findings


def told(findings: Findings) -> str:
    """Return all findings as they are shown."""
    return "\n\n".join(described(finding) for finding in findings)


@pytest.mark.parametrize("name", SLIPS)
def test_a_slip_gives_one_finding_under_which_it_stands(name: str, tmp_path: Path) -> None:
    slip = SLIPS[name]
    findings = found_in(write(tmp_path, with_slip(slip)))
    assert len(findings) == 1, told(findings)
    (finding,) = findings
    place = finding.place
    assert f"{place.path}:{place.line}:{place.column}" == f"{slip.file}:{slip.at}", told(findings)
    start = place.column - 1
    assert place.excerpt[start : start + place.width] == slip.culprit, told(findings)
    assert finding.severity == slip.severity, told(findings)
    assert slip.cause in finding.cause, told(findings)
    assert slip.mend in finding.mend, told(findings)
    assert finding.mend.endswith("."), told(findings)


@pytest.mark.parametrize("name", FILES)
def test_a_spoilt_file_gives_one_finding(name: str, tmp_path: Path) -> None:
    spoilt = FILES[name]
    findings = found_in(write(tmp_path, spoilt.files))
    assert len(findings) == 1, told(findings)
    (finding,) = findings
    place = finding.place
    assert f"{place.path}:{place.line}:{place.column}" == spoilt.where, told(findings)
    assert spoilt.cause in finding.cause, told(findings)
    assert spoilt.mend in finding.mend, told(findings)


@pytest.mark.parametrize("name", SOUND_VARIANTS)
def test_a_sound_book_gives_no_finding(name: str, tmp_path: Path) -> None:
    assert not told(found_in(write(tmp_path, SOUND_VARIANTS[name])))


def test_a_mend_that_is_followed_leaves_a_sound_book(tmp_path: Path) -> None:
    """The names and lines that a mend shows are right as they stand."""
    quoted = {
        "misspelt store": "leeks",
        "missing colon": "consistency: stew",
        "dash forgotten": "- 2 tbsp leeks",
        "link to nowhere": "plum-oats.md",
        "unknown component": "Pear relish",
        "{watr}": "{water}",
        "form written as from": "form: sliced",
    }
    for at, (name, shown) in enumerate(quoted.items()):
        slip = SLIPS[name]
        assert shown in slip.old or slip.old in shown or shown in SOUND[slip.file]
        folder = write(tmp_path / str(at), with_slip(slip))
        (finding,) = found_in(folder)
        assert f'"{shown}"' in finding.mend


def test_slips_in_every_file_are_shown_at_once(tmp_path: Path) -> None:
    names = (
        "cover that isn't there", "misspelt food", "misspelt store in a component",
        "bad date", "{watr}", "unknown recipe in a menu", "link of a page to nowhere",
        "lighter than its solids",
    )  # fmt: skip
    changed = dict(SOUND)
    for slip in map(SLIPS.__getitem__, names):
        changed[slip.file] = changed[slip.file].replace(slip.old, slip.new)
    folder = write(tmp_path / "book", changed)
    result = CliRunner().invoke(main, ["proof", str(folder), "--json"])
    assert result.exit_code == 1
    found = {(f["path"], f["line"], f["column"]) for f in json.loads(result.output)}
    assert found == {
        (slip.file, *map(int, slip.at.split(":"))) for slip in map(SLIPS.__getitem__, names)
    }


def test_a_book_with_errors_leaves_no_file_and_no_traceback(tmp_path: Path) -> None:
    folder = write(tmp_path / "book", with_slip(SLIPS["misspelt store"]))
    before = sorted(tmp_path.rglob("*"))
    for words in (["proof", str(folder)], ["bind", str(folder), "--out", str(tmp_path / "site")]):
        result = CliRunner().invoke(main, words)
        assert result.exit_code == 1
        assert isinstance(result.exception, SystemExit)
        assert f"{BOWL}:9:12: error:" in result.output
    assert sorted(tmp_path.rglob("*")) == before


def test_an_earlier_book_outlives_a_slip(tmp_path: Path) -> None:
    folder, out = write(tmp_path / "book", {}), tmp_path / "site"
    assert CliRunner().invoke(main, ["bind", str(folder), "--out", str(out)]).exit_code == 0
    before = {path: path.read_bytes() for path in out.rglob("*") if path.is_file()}
    write(folder, with_slip(SLIPS["missing colon"]))
    assert CliRunner().invoke(main, ["bind", str(folder), "--out", str(out)]).exit_code == 1
    assert {path: path.read_bytes() for path in out.rglob("*") if path.is_file()} == before


def test_exit_codes_tell_findings_wrong_use_and_what_cannot_be_written(tmp_path: Path) -> None:
    sound = str(write(tmp_path / "sound", {}))
    warned = str(write(tmp_path / "warned", with_slip(SLIPS["honey in a freeze dryer"])))
    spoilt = str(write(tmp_path / "spoilt", with_slip(SLIPS["misspelt store"])))
    file = tmp_path / "a file"
    file.write_text("mine\n")
    for code, words in [
        (0, ["proof", sound]),
        (0, ["proof", warned]),
        (0, ["bind", warned, "--out", str(tmp_path / "site")]),
        (1, ["proof", spoilt]),
        (1, ["bind", spoilt, "--out", str(tmp_path / "other")]),
        (2, ["proof", str(tmp_path / "nowhere")]),
        (2, ["proof", sound, "--jsno"]),
        (3, ["bind", sound, "--out", str(file)]),
    ]:
        result = CliRunner().invoke(main, words)
        assert result.exit_code == code, f"{words}\n{result.output}"
        assert result.exception is None or isinstance(result.exception, SystemExit)
    assert file.read_text() == "mine\n"
