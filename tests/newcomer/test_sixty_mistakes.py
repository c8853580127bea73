"""Sixty mistakes that a cook makes on a first evening, in every file of a book, and their mends.

The book below is sound. A row plants one mistake; it must be found alone, at the line and column
that are written out as an editor counts them. Then the mend is judged: what the row writes in the
mistake's place stands, word for word, in the mend, and the book so mended gives no finding.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings, described
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.proofing import check_all

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.findings import Finding

TODAY = dt.date(2026, 7, 1)
BOOK, LARDER, MENU = "book.yaml", "larder.yaml", "menus/first-trip.yaml"
BOWL, OATS = "recipes/ashore/lentil-bowl.md", "recipes/ashore/pear-oats.md"
SAUCE, PAGE = "recipes/bases/plum-sauce.md", "pages/our-river.md"
STOCK, LOG, REPLY, STYLE = "stock.csv", "drying-log.csv", "replies/mirela.txt", "theme/own.css"
SOUND: dict[str, str] = {
    BOOK: """\
title: The book of the lower landing
author: A. Householder
language: en
measures: us-cups
altitude: 240 m
altitudes: metres
allergens: us
servings: [1, 2, 4]
cover: landing.svg
cover text: Willows over a landing stage
series:
  Ashore: {about: One pot and a flat stone.}
kit:
  bowl: {opening: 14 cm, covered: true}
  stove: {power: 2 kW, efficiency: 50 %, fuel: gas canister}
  dryer: {trays: 4, tray load: 900 g, ice: 4 kg}
  absorbers: [300 mL]
  shelf: {temperature: 18 C}
labels: {paper: A4}
cards: A6
largest file: 20 MB
contact: larder@example.org
""",
    LARDER: """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
carrots: {food: carrots raw, dried: air, weighs: 58 g per cup, also called: [carrot dice]}
pears: {food: pears raw, dried: freeze, form: diced}
quick oats: {food: oats, dried: bought}
salt: {food: salt, dried: bought}
oatcake: {food: oatcakes, dried: fresh, sold by: piece, weighs: 60 g per piece}
plum sauce: {from: bases/plum-sauce, dried: freeze, form: crumbs, weighs: 74 g per cup}
""",
    BOWL: """\
---
title: Lentil bowl
series: Ashore
part: 1
serves: 1
consistency: stew
methods: [kettle, stove]
ingredients:
  - 1 cup lentils
  - 2 tbsp leeks
  - 1 tbsp carrots, cut small
  - 1 oatcake (fresh)
  - 1/8 tsp salt
tested:
  method: kettle
  water: 3/4 cup + 2 tbsp
  rest: 12 min
trials:
  - {date: 2026-06-02, servings: 2, water: 1 3/4 cups, verdict: right}
picture: bowl.svg
picture text: A bowl of lentils
---
Pour {water}, wait {rest}; it feeds {servings}.

Goes with [pear oats](pear-oats.md).
""",
    OATS: """\
---
title: Pear oats
series: Ashore
part: 2
date: 2026-06-20
ingredients:
  - 1/2 cup quick oats
  - 2 tbsp pears
  - 1 tbsp plum sauce
---
Stir in {water}.

![Two spoons](bowl.svg)
""",
    SAUCE: """\
---
title: Plum sauce
kind: base
ingredients:
  - 1 kg plums
  - 2 large apples
cooked weight: 900 g
becomes: plum sauce
---
Simmer it down.
""",
    MENU: """\
title: First trip
people: 2
date: 2026-07-10
meals:
  - {day: 1, meal: supper, recipe: lentil-bowl, method: stove, altitude: 450 m}
  - {day: 2, meal: breakfast, recipe: pear-oats}
""",
    PAGE: """\
---
title: Our river
order: 1
---
We paddle it in June. See the [lentil bowl](lentil-bowl.md).
""",
    STOCK: """\
store,lot,packed on,container,grams
leeks,LEE-1,2026-05-03,jar,60
pears,PEA-1,2026-05-10,jar,80
""",
    LOG: """\
date,store,lot,fresh g,dry g,hours,trays
2026-05-02,leeks,LEE-1,600,110,28,2
2026-05-09,pears,PEA-1,700,112,30,2
""",
    REPLY: """\
Recipe: lentil-bowl
Date: 2026-06-13
Method: kettle
Servings: 2
Water poured: 1 3/4 cups
Water added:
It was: right
""",
    STYLE: ".winter { color: var(--soft); }\n",
    "images/landing.svg": '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"/>\n',
    "images/bowl.svg": '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"/>\n',
}


TESTED = """\
  water: 3/4 cup + 2 tbsp
  rest: 12 min
trials:
  - {date: 2026-06-02, servings: 2, water: 1 3/4 cups, verdict: right}
"""


@dataclass(frozen=True)
class Mistake:
    """One mistake: where `old` was stands `wrong`; the mend writes `writes`, which makes `mended`.

    `at` is the line and column; what is found there is an error, or `kind`.
    """

    file: str
    old: str
    wrong: str
    at: str
    cause: str
    writes: str
    mended: str
    kind: str = "error"
    found: str = ""  # the file in which it is found, where that is another


@dataclass(frozen=True)
class Misnamed:
    """One file under a name by which it is not read; the mend names the one by which it is."""

    file: str  # as it is read
    wrong: str
    at: str
    cause: str
    writes: str
    found: str = ""  # where that is another than the wrong name
    kind: str = "warning"


WATER_TESTED = "tested:\n  method: kettle\n  water: 3/4 cup + 2 tbsp\n  rest: 12 min\n"
SERIES = "series:\n  Ashore: {about: One pot and a flat stone.}\n"
KIT = SOUND[BOOK][SOUND[BOOK].index("kit:") : SOUND[BOOK].index("labels:")]
BOWL_LINE = "  bowl: {opening: 14 cm, covered: true}\n"

M = Mistake
MISTAKES = {
    # book.yaml
    "measures of a country": M(BOOK, "us-cups", "American cups", "4:11", "is not one of us-cups", "us-cups", "us-cups"),
    "an altitude without its unit": M(BOOK, "altitude: 240 m", "altitude: 240", "5:11", '"240" has no unit', "240 m", "altitude: 240 m"),
    "metres as Americans spell them": M(BOOK, "altitudes: metres", "altitudes: meters", "6:12", '"meters" is not one of metres or feet', "metres", "altitudes: metres"),
    "allergens of the wrong letters": M(BOOK, "allergens: us", "allergens: USA", "7:12", '"USA" is not one of us or eu', "us", "allergens: us"),
    "a language by its name": M(BOOK, "language: en", "language: English", "3:11", '"English" is not a language tag', "en", "language: en"),
    "sizes without brackets": M(BOOK, "servings: [1, 2, 4]", "servings: 1, 2, 4", "8:11", '"servings" is a list', "servings: [1, 2, 4]", "servings: [1, 2, 4]"),
    "one size in words": M(BOOK, "[1, 2, 4]", "[1, two, 4]", "8:15", '"two" stands here', "2", "[1, 2, 4]"),
    "a cover in capitals": M(BOOK, "cover: landing.svg", "cover: Landing.SVG", "9:8", 'no picture "Landing.SVG"', "landing.svg", "cover: landing.svg"),
    "several authors": M(BOOK, "author:", "authors:", "2:1", '"authors" is not a key', "author", "author:"),
    "a key with a capital": M(BOOK, "series:\n", "Series:\n", "11:1", '"Series" is not a key', "series", "series:\n"),
    "a fuel by another name": M(BOOK, "fuel: gas canister", "fuel: propane", "15:48", '"propane" is not one of gas canister', "gas canister", "fuel: gas canister"),
    "a share without its sign": M(BOOK, "efficiency: 50 %", "efficiency: 50", "15:36", '"50" is more than all of it', "50 %", "efficiency: 50 %"),
    "a stove that gives nothing": M(BOOK, "efficiency: 50 %", "efficiency: 0 %", "15:36", '"0 %" is nothing at all', "50 %", "efficiency: 50 %"),
    "a bowl of bare centimetres": M(BOOK, "opening: 14 cm", "opening: 14", "14:19", '"14" has no unit', "14 cm", "opening: 14 cm"),
    "a shelf without its key in braces": M(BOOK, "{temperature: 18 C}", "{18 C}", "18:11", '"18 C" has no key', "temperature: 18 C", "{temperature: 18 C}"),
    "series without a colon": M(BOOK, "series:\n  Ashore: {about: One pot and a flat stone.}", "series: {Ashore, Breakfasts}", "11:10", 'nothing belongs to "Ashore"', "Ashore: {}, Breakfasts: {}", "series: {Ashore: {}, Breakfasts: {}}"),
    "trays in words": M(BOOK, "trays: 4", "trays: four", "16:18", '"four" stands here', "4", "trays: 4"),
    "one absorber without brackets": M(BOOK, "absorbers: [300 mL]", "absorbers: 300 mL", "17:14", '"absorbers" is a list', "absorbers: [300 mL]", "absorbers: [300 mL]"),
    "a shelf of bare degrees": M(BOOK, "temperature: 18 C", "temperature: 18", "18:24", '"18" has no unit', "18 C", "temperature: 18 C"),
    "a shelf without its key": M(BOOK, "shelf: {temperature: 18 C}", "shelf: 16 C", "18:10", '"shelf" holds keys of its own, and "16 C"', "shelf: {temperature: 16 C}", "shelf: {temperature: 16 C}"),
    "a shelf without key and unit": M(BOOK, "shelf: {temperature: 18 C}", "shelf: 16", "18:10", '"shelf" holds keys of its own, and "16"', "shelf: {temperature: 16 C}", "shelf: {temperature: 16 C}"),
    "a bowl without its key": M(BOOK, "bowl: {opening: 14 cm, covered: true}", "bowl: 16 cm", "14:9", '"bowl" holds keys of its own, and "16 cm"', "bowl: {opening: 16 cm}", "bowl: {opening: 16 cm}"),
    "a stove by its fuel": M(BOOK, "stove: {power: 2 kW, efficiency: 50 %, fuel: gas canister}", "stove: gas", "15:10", '"stove" holds keys of its own, and "gas"', "stove: {fuel: gas canister}", "stove: {fuel: gas canister}"),
    "a dryer by its trays": M(BOOK, "dryer: {trays: 4, tray load: 900 g, ice: 4 kg}", "dryer: 5 trays", "16:10", '"dryer" holds keys of its own, and "5 trays"', "dryer: {trays: 5}", "dryer: {trays: 5}"),
    "a dryer by one of two weights": M(BOOK, "dryer: {trays: 4, tray load: 900 g, ice: 4 kg}", "dryer: 4 kg", "16:10", '"dryer" holds keys of its own, and "4 kg"', "dryer: {trays: 4}", "dryer: {trays: 4}"),
    "labels without their key": M(BOOK, "labels: {paper: A4}", "labels: Letter", "19:9", '"labels" holds keys of its own, and "Letter"', "labels: {paper: Letter}", "labels: {paper: Letter}"),
    "two series as a list": M(BOOK, "series:\n  Ashore: {about: One pot and a flat stone.}", "series: [Ashore, Breakfasts]", "11:9", '"series" holds keys of its own, and a list', "series: {Ashore: {}, Breakfasts: {}}", "series: {Ashore: {}, Breakfasts: {}}"),
    "one series as a word": M(BOOK, "series:\n  Ashore: {about: One pot and a flat stone.}", "series: Ashore", "11:9", '"series" holds keys of its own, and "Ashore"', "series: {Ashore: {}}", "series: {Ashore: {}}"),
    "a series with its words alone": M(BOOK, "  Ashore: {about: One pot and a flat stone.}", "  Ashore: One pot, and a flat stone", "12:11", '"Ashore" holds keys of its own', "Ashore: {about: 'One pot, and a flat stone'}", "  Ashore: {about: 'One pot, and a flat stone'}"),
    "pouches by one name": M(BOOK, "  shelf: {temperature: 18 C}", "  pouches: large", "18:12", '"pouches" is a list', "pouches: [{name: large, width: 14 cm, height: 14 cm}]", "  pouches: [{name: large, width: 14 cm, height: 14 cm}]"),
    "a paper for labels that nobody sells": M(BOOK, "paper: A4", "paper: A5", "19:17", '"A5" is not one of A4 or Letter', "A4", "paper: A4"),
    "a card by its use": M(BOOK, "cards: A6", "cards: postcard", "20:8", '"postcard" is no card paper', "A6", "cards: A6"),
    "a size of a bare number": M(BOOK, "largest file: 20 MB", "largest file: 20", "21:15", '"20" is not the size of a file', "20 MB", "largest file: 20 MB"),
    "a colon left out": M(BOOK, "author: A. Householder", "author A. Householder", "2:1", "a colon is missing after a key", "author: A. Householder", "author: A. Householder"),
    "quotes round a part of a title": M(BOOK, "title: The book of the lower landing", 'title: "The book" of the lower landing', "1:19", 'after what begins with " was closed', "title: '\"The book\" of the lower landing'", "title: '\"The book\" of the lower landing'"),
    "a box without its end": M(BOOK, "larder@example.org", "larder@example", "22:10", "neither a mail box nor an address", "larder@example.org", "larder@example.org", "warning"),
    "a kit that is a comment still": M(BOOK, "kit:\n", "# kit:\n", "13:1", '"bowl" belongs below "kit", and this line is still a comment', "kit:", "kit:\n"),
    "a kit that is a comment, below a value": M(BOOK, SERIES + KIT, f"# kit:\n{BOWL_LINE}", "11:1", '"bowl" belongs below "kit"', "kit:", f"{SERIES}kit:\n{BOWL_LINE}"),
    "a bowl without its kit": M(BOOK, KIT, "bowl: {opening: 14 cm, covered: true}\n", "13:1", '"bowl" is not a key', "kit:", f"kit:\n{BOWL_LINE}"),
    # larder.yaml
    "a store at the margin": M(LARDER, "leeks: {food: leeks raw, dried: freeze, form: sliced}", "leeks:\nfood: leeks raw\ndried: freeze\nform: sliced", "3:1", '"food", "dried" and "form" belong below "leeks"', "leeks: {food: leeks raw, dried: freeze, form: sliced}", "leeks: {food: leeks raw, dried: freeze, form: sliced}"),
    "a line of a store at the margin": M(LARDER, "salt: {food: salt, dried: bought}", "salt:\n    food: salt\ndried: bought", "8:1", '"dried" belongs below "salt"', "salt: {food: salt, dried: bought}", "salt: {food: salt, dried: bought}"),
    "dried as it is said": M(LARDER, "leeks raw, dried: freeze", "leeks raw, dried: freeze-dried", "2:33", '"freeze-dried" is not one of freeze', "freeze", "leeks raw, dried: freeze"),
    "dried in a dehydrator": M(LARDER, "dried: air", "dried: dehydrated", "3:37", '"dehydrated" is not one of', "air", "dried: air"),
    "bought in a shop": M(LARDER, "oats, dried: bought", "oats, dried: store-bought", "5:33", '"store-bought" is not one of', "bought", "oats, dried: bought"),
    "a food in slices": M(LARDER, "food: leeks raw", "food: leek slices", "2:15", 'no food called "leek slices"', "leeks raw", "food: leeks raw"),
    "a weight the other way round": M(LARDER, "weighs: 58 g per cup", "weighs: 1 cup = 58 g", "3:50", "does not say for which measure", "58 g per cup", "weighs: 58 g per cup"),
    "a key cut short": M(LARDER, "cooked first: true", "cooked: true", "1:48", '"cooked" is not a key', "cooked first", "cooked first: true"),
    "a name without brackets": M(LARDER, "also called: [carrot dice]", "also called: carrot dice", "3:77", '"also called" is a list', "also called: [carrot dice]", "also called: [carrot dice]"),
    "other names under another key": M(LARDER, "also called: [carrot dice]", "aliases: [carrot dice]", "3:64", '"aliases" is not a key', "also called", "also called: [carrot dice]"),
    "sold each": M(LARDER, "sold by: piece", "sold by: each", "7:50", '"each" is not one of weight or piece', "piece", "sold by: piece"),
    "an equals sign": M(LARDER, "salt: {food: salt", "salt = {food: salt", "6:1", 'a colon is missing after "salt"', "salt: {food: salt", "salt: {food: salt"),
    "a store without braces": M(LARDER, "salt: {food: salt, dried: bought}", "salt: food: salt, dried: bought", "6:11", "several keys stand behind one name", "salt: {food: salt, dried: bought}", "salt: {food: salt, dried: bought}"),
    "a store in round brackets": M(LARDER, "pears: {food: pears raw, dried: freeze, form: diced}", "pears: (food: pears raw, dried: freeze, form: diced)", "4:8", "round brackets hold no keys", "pears: {food: pears raw, dried: freeze, form: diced}", "pears: {food: pears raw, dried: freeze, form: diced}"),
    "a store of one word": M(LARDER, "salt: {food: salt, dried: bought}", "salt: bought", "6:7", '"bought" alone stands here', "salt: {food: salt, dried: bought}", "salt: {food: salt, dried: bought}"),
    "a store of nothing": M(LARDER, "leeks: {food: leeks raw, dried: freeze, form: sliced}", "leeks:", "2:7", "nothing stands here", "leeks: {food: leeks raw, dried: freeze}", "leeks: {food: leeks raw, dried: freeze}"),
    "a dash before a store": M(LARDER, "salt: {food: salt", "- salt: {food: salt", "6:1", "a dash begins an entry of a list", "salt: {food: salt", "salt: {food: salt"),
    "a base by its title": M(LARDER, "from: bases/plum-sauce", "from: Plum sauce", "8:20", 'no base with the address "Plum sauce"', "plum-sauce", "from: plum-sauce"),
    "raw grains in the dryer": M(LARDER, "lentils: {food: lentils cooked, dried: freeze, cooked first: true}", "lentils: {food: lentils cooked, dried: freezer, cooked first: true}", "1:40", '"freezer" is not one of freeze', "freeze", "lentils: {food: lentils cooked, dried: freeze, cooked first: true}"),
    "a note with a comma": M(LARDER, "form: diced}", "form: diced, note: From the old tree, peeled and cored.}", "4:79", 'a comma cuts "peeled and cored." off', 'note: "From the old tree, peeled and cored."', 'form: diced, note: "From the old tree, peeled and cored."}'),
    "no spaces after colons in braces": M(LARDER, "{food: salt, dried: bought}", "{food:salt, dried:bought}", "6:8", "a colon and a space are missing", "food: salt, dried: bought", "{food: salt, dried: bought}"),
    "no space after one colon in braces": M(LARDER, "{food: salt, dried: bought}", "{food: salt, dried:bought}", "6:20", "a colon and a space are missing", "dried: bought", "{food: salt, dried: bought}"),
    "a store of two words in braces": M(LARDER, "{food: salt, dried: bought}", "{salt, bought}", "6:8", '"salt, bought" has no key', "food: salt, dried: bought", "{food: salt, dried: bought}"),
    "a note with a colon": M(LARDER, "form: diced}", "form: diced, note: good year: 2026}", "4:60", 'a second colon stands in the text of "note"', 'note: "good year: 2026"', 'form: diced, note: "good year: 2026"}'),
    "a comma left out in braces": M(LARDER, "food: leeks raw, dried: freeze", "food: leeks raw dried: freeze", "2:25", 'a comma is missing before "dried"', "food: leeks raw, dried: freeze", "food: leeks raw, dried: freeze"),
    "a form behind the food": M(LARDER, "leeks raw, dried: freeze, form: sliced", "leeks raw, sliced, dried: freeze", "2:26", '"sliced" has no key', "form: sliced", "leeks raw, form: sliced, dried: freeze"),
    "a form with a comma": M(LARDER, "form: sliced", "form: sliced, very thin", "2:55", 'a comma cuts "very thin" off', 'form: "sliced, very thin"', 'form: "sliced, very thin"'),
    "two weighings without brackets": M(LARDER, "weighs: 58 g per cup", "weighings: 57 g per cup, 59 g per cup", "3:67", 'a comma cuts "59 g per cup" off', "weighings: [57 g per cup, 59 g per cup]", "weighings: [57 g per cup, 59 g per cup]"),
    "two other names without brackets": M(LARDER, "also called: [carrot dice]", "also called: carrot dice, carrot cubes", "3:90", 'a comma cuts "carrot cubes" off', "also called: [carrot dice, carrot cubes]", "also called: [carrot dice, carrot cubes]"),
    "a weight with a decimal comma": M(LARDER, "weighs: 58 g per cup", "weighs: 58,5 g per cup", "3:53", 'a comma cuts "5 g per cup" off', "weighs: 58.5 g per cup", "weighs: 58.5 g per cup"),
    "a weight with a decimal comma in quotes": M(LARDER, "weighs: 58 g per cup", "weighs: 58,5 g per cup", "3:53", 'a comma cuts "5 g per cup" off', 'weighs: "58,5 g per cup"', 'weighs: "58,5 g per cup"'),
    "true left out": M(LARDER, "cooked first: true", "cooked first", "1:48", '"cooked first" has no value', "cooked first: true", "cooked first: true"),
    "a key left out in braces": M(LARDER, "leeks raw, dried: freeze", "leeks raw, freeze", "2:26", '"freeze" has no key', "dried: freeze", "leeks raw, dried: freeze"),
    # recipes: front matter
    "a unit in two words": M(BOWL, "2 tbsp leeks", "2 tabel spoons leeks", "10:7", '"tabel spoons" is not a unit', "tbsp", "2 tbsp leeks"),
    "a handful": M(BOWL, "2 tbsp leeks", "a handful of leeks", "10:7", '"handful" is not a measure', "1/4 cup leeks", "1/4 cup leeks"),
    "a handful without a number": M(BOWL, "2 tbsp leeks", "handful of leeks", "10:5", '"handful" is not a measure', "1/4 cup leeks", "1/4 cup leeks"),
    "some": M(BOWL, "2 tbsp leeks", "some leeks", "10:5", '"some" is not a measure', "1/4 cup leeks", "1/4 cup leeks"),
    "a knob": M(BOWL, "2 tbsp leeks", "a knob of leeks", "10:7", '"knob" is not a measure', "1 tbsp leeks", "1 tbsp leeks"),
    "two cloves": M(BOWL, "2 tbsp leeks", "2 cloves leeks", "10:7", '"cloves" is not a measure', "1 tsp leeks", "1 tsp leeks"),
    "two cloves behind the name": M(BOWL, "2 tbsp leeks", "2 leeks cloves", "10:13", '"cloves" is not a measure', "1 tsp leeks", "1 tsp leeks"),
    "slices of what is counted": M(BOWL, "1 oatcake (fresh)", "1 slice of oatcake (fresh)", "12:7", '"slice" is not a measure', "1 oatcake", "1 oatcake (fresh)"),
    "a heaped spoon": M(BOWL, "2 tbsp leeks", "2 heaped tbsp leeks", "10:7", '"heaped" is not read', "2 tbsp leeks", "2 tbsp leeks"),
    "a heading among ingredients": M(OATS, "  - 2 tbsp pears\n  - 1 tbsp plum sauce\n", "  - For the topping:\n  - 2 tbsp pears\n", "8:5", '"For the topping" is a heading', "  - {name: Topping, ingredients: [2 tbsp leeks]}", "components:\n  - {name: Topping, ingredients: [2 tbsp leeks]}\n"),
    "a heading in quotes": M(BOWL, "- 2 tbsp leeks", '- "For the topping:"', "10:6", '"For the topping" is a heading', "delete this line", "#delete this line"),
    "a heading without a colon": M(SAUCE, "- 2 large apples", "- For the lid", "6:5", '"For the lid" is a heading', "delete this line", "#delete this line"),
    "a colon for a comma": M(BOWL, "- 1 tbsp carrots, cut small", "- 1 tbsp carrots: cut small", "11:5", "a colon and a space make keys", "- 1 tbsp carrots, cut small", "- 1 tbsp carrots, cut small"),
    "a handful for the pot": M(SAUCE, "2 large apples", "2 handfuls of apples", "6:7", '"handfuls" is not a measure', "1/2 cup apples", "1/2 cup apples"),
    "how it is cut before the name": M(BOWL, "2 tbsp leeks", "2 tbsp sliced leeks", "10:12", 'no store called "sliced leeks"', "leeks, sliced", "2 tbsp leeks, sliced"),
    "a tested water without its key": M(BOWL, "tested:\n  method: kettle\n  water: 3/4 cup + 2 tbsp\n  rest: 12 min\n", "tested: 3/4 cup + 2 tbsp\n", "14:9", '"tested" holds keys of its own', "tested: {water: 3/4 cup + 2 tbsp}", "tested: {water: 3/4 cup + 2 tbsp}\n"),
    "a trial of water alone": M(BOWL, "trials:\n  - {date: 2026-06-02, servings: 2, water: 1 3/4 cups, verdict: right}", "trials: 3/4 cup + 2 tbsp", "18:9", '"trials" is a list', "trials: [{date: 2026-03-02, water: 3/4 cup + 2 tbsp, verdict: right}]", "trials: [{date: 2026-03-02, water: 3/4 cup + 2 tbsp, verdict: right}]"),
    "a test at the margin": M(BOWL, WATER_TESTED, WATER_TESTED.replace("\n  ", "\n"), "15:1", '"method", "water" and "rest" belong below "tested"', "tested: {method: kettle, water: 3/4 cup + 2 tbsp, rest: 12 min}", "tested: {method: kettle, water: 3/4 cup + 2 tbsp, rest: 12 min}\n"),
    "a part of a test at the margin": M(BOWL, "  rest: 12 min\n", "rest: 12 min\n", "17:1", '"rest" belongs below "tested", and begins', "two spaces before this line", "  rest: 12 min # two spaces before this line\n"),
    "servings among ingredients": M(OATS, "ingredients:\n", "ingredients:\n  - Serves 2\n", "7:5", '"Serves 2" says how much it makes', "serves: 2", "serves: 2\ningredients:\n"),
    "portions among ingredients": M(OATS, "ingredients:\n", "ingredients:\n  - 2 servings (hungry)\n", "7:5", '"2 servings (hungry)" says how much', "serves: 2", "serves: 2\ningredients:\n"),
    "what it makes among ingredients": M(OATS, "ingredients:\n", "ingredients:\n  - Makes 2 bars\n", "7:5", '"Makes 2 bars" says how much it makes', "makes: 2 bars", "makes: 2 bars\ningredients:\n"),
    "one of three": M(BOWL, "2 tbsp leeks", "2 tbsp shallots or leeks and/or carrots", "10:12", "leaves open which", "leeks, or shallots or carrots", "2 tbsp leeks, or shallots or carrots"),
    "one or the other": M(BOWL, "2 tbsp leeks", "2 tbsp leeks or carrots", "10:12", '"leeks or carrots" leaves open which', "leeks, or carrots", "2 tbsp leeks, or carrots"),
    "one that is there, or the other": M(BOWL, "2 tbsp leeks", "2 tbsp shallots or leeks", "10:12", '"shallots or leeks" leaves open which', "leeks, or shallots", "2 tbsp leeks, or shallots"),
    "one or the other in a pot": M(SAUCE, "2 large apples", "2 large apples or pears", "6:13", '"apples or pears" leaves open which', "apples, or pears", "2 large apples, or pears"),
    "minutes misspelt": M(BOWL, "rest: 12 min", "rest: 12 minits", "17:12", '"minits" is not a unit', "12 min", "rest: 12 min"),
    "minutes from and to": M(BOWL, "rest: 12 min", "rest: 10-12 min", "17:9", '"10-12 min" is a range', "12 min", "rest: 12 min"),
    "minutes from and to, in words": M(BOWL, "rest: 12 min", "rest: 8 min to 10 min", "17:9", '"8 min to 10 min" is a range', "10 min", "rest: 10 min"),
    "millilitres without their unit": M(BOWL, "water: 3/4 cup + 2 tbsp", "water: 210", "16:10", '"210" has no unit', "210 mL", "water: 210 mL"),
    "cups without their unit": M(BOWL, "water: 3/4 cup + 2 tbsp", "water: 1", "16:10", '"1" has no unit', "1 cup", "water: 1 cup"),
    "water by its weight": M(BOWL, "water: 3/4 cup + 2 tbsp", "water: 210 g", "16:10", '"210 g" is not a volume', "210 mL", "water: 210 mL"),
    "grams in two letters": M(BOWL, "2 tbsp leeks", "6gr leeks", "10:6", '"gr" is not a unit', "g", "6 g leeks"),
    "about so long": M(BOWL, "rest: 12 min", "rest: about 12 minutes", "17:9", "does not begin with a number", "12 min", "rest: 12 min"),
    "serves one person": M(BOWL, "serves: 1", "serves: one person", "5:9", '"one person" stands here', "1", "serves: 1"),
    "the first part": M(BOWL, "part: 1", "part: first", "4:7", '"first" stands here', "1", "part: 1"),
    "a consistency in other words": M(BOWL, "consistency: stew", "consistency: saucy", "6:14", '"saucy" is not one of filling', "stew", "consistency: stew"),
    "a thick stew": M(BOWL, "consistency: stew", "consistency: thick stew", "6:14", '"thick stew" is not one of filling', "stew", "consistency: stew"),
    "water in place of a method": M(BOWL, "method: kettle", "method: boiling water", "15:11", '"boiling water" is not one of kettle', "kettle", "method: kettle"),
    "methods without brackets": M(BOWL, "methods: [kettle, stove]", "methods: kettle, stove", "7:10", '"methods" is a list', "methods: [kettle, stove]", "methods: [kettle, stove]"),
    "a rest by the clock": M(BOWL, "rest: 12 min", "rest: 0:12", "17:9", "can be hours and minutes, or minutes and seconds", "12 min", "rest: 12 min"),
    "a pot in place of a method": M(BOWL, "[kettle, stove]", "[kettle, pot]", "7:19", '"pot" is not one of kettle', "stove", "[kettle, stove]"),
    "ingredients with a capital": M(BOWL, "ingredients:", "Ingredients:", "8:1", '"Ingredients" is not a key', "ingredients", "ingredients:"),
    "ingredients on one line": M(OATS, "ingredients:\n  - 1/2 cup quick oats\n  - 2 tbsp pears\n  - 1 tbsp plum sauce\n", "ingredients: 1/2 cup quick oats, 2 tbsp pears, 1 tbsp plum sauce\n", "6:14", '"ingredients" is a list', "- 2 tbsp pears", "ingredients:\n  - 1/2 cup quick oats\n  - 2 tbsp pears\n  - 1 tbsp plum sauce\n"),
    "porridge": M(OATS, "part: 2\n", "part: 2\nconsistency: porridge\n", "5:14", '"porridge" is not one of filling', "scoopable", "part: 2\nconsistency: scoopable\n"),
    "oats in the form of soup": M(OATS, "part: 2\n", "part: 2\nconsistency: soupy\n", "5:14", '"soupy" is not one of filling', "soup", "part: 2\nconsistency: soup\n"),
    "a stew in pieces": M(BOWL, "consistency: stew", "consistency: chunky", "6:14", '"chunky" is not one of filling', "stew", "consistency: stew"),
    "four dashes": M(OATS, "sauce\n---\n", "sauce\n----\n", "10:1", '"----" does not close the front matter', "---", "sauce\n---\n"),
    "a trial's note with a colon": M(BOWL, "verdict: right", "verdict: right, note: windy: lid off", "19:78", 'a second colon stands in the text of "note"', 'note: "windy: lid off"', 'verdict: right, note: "windy: lid off"'),
    "a trial's note with a comma": M(BOWL, "verdict: right", "verdict: right, note: windy evening, lid off", "19:93", 'a comma cuts "lid off" off', 'note: "windy evening, lid off"', 'verdict: right, note: "windy evening, lid off"'),
    "a trial's water with a decimal comma": M(BOWL, "water: 1 3/4 cups", "water: 1,75 cups", "19:46", 'a comma cuts "75 cups" off', "water: 1.75 cups", "water: 1.75 cups"),
    "a verdict of praise": M(BOWL, "verdict: right", "verdict: perfect", "19:65", '"perfect" is not one of right', "right", "verdict: right"),
    "a day written out": M(OATS, "date: 2026-06-20", "date: 20 June 2026", "5:7", '"20 June 2026" is not a day', "2026-06-20", "date: 2026-06-20"),
    "a day with dots": M(OATS, "date: 2026-06-20", "date: 20.06.2026", "5:7", '"20.06.2026" is not a day', "2026-06-20", "date: 2026-06-20"),
    "a picture in another folder": M(BOWL, "picture: bowl.svg", "picture: photos/bowl.svg", "20:10", 'no picture "photos/bowl.svg"', "bowl.svg", "picture: bowl.svg"),
    "a picture by its path": M(BOWL, "picture: bowl.svg", "picture: C:\\Users\\me\\Bowl.svg", "20:10", "there is no picture", "bowl.svg", "picture: bowl.svg"),
    "a key with a hyphen": M(BOWL, "picture text:", "picture-text:", "21:1", '"picture-text" is not a key', "picture text", "picture text:"),
    "a series without its capital": M(BOWL, "series: Ashore", "series: ashore", "3:9", 'no series called "ashore"', "Ashore", "series: Ashore"),
    "a kind of its own": M(SAUCE, "kind: base", "kind: sauce", "3:7", '"sauce" is not one of meal or base', "base", "kind: base"),
    "what is ripe before the name": M(SAUCE, "1 kg plums", "1 kg ripe plums", "5:10", 'called "ripe plums"', "plums, ripe", "1 kg plums, ripe"),
    "a pot of bare grams": M(SAUCE, "cooked weight: 900 g", "cooked weight: 900", "7:16", '"900" has no unit', "900 g", "cooked weight: 900 g"),
    "a number sign in a title": M(BOWL, "title: Lentil bowl", "title: Lentil bowl #1", "2:20", '"#1" is a comment', 'title: "Lentil bowl #1"', 'title: "Lentil bowl #1"', "warning"),
    "a title that is a comment": M(OATS, "title: Pear oats", "title: #2 Pear oats", "2:1", '"title" has no value', 'title: "#2 Pear oats"', 'title: "#2 Pear oats"'),
    "a sign before a title": M(OATS, "title: Pear oats", "title: % oats", "2:8", "can't begin a value", 'title: "% oats"', 'title: "% oats"'),
    "brackets before a title": M(OATS, "title: Pear oats", "title: [new] Pear oats", "2:14", "after what begins with [ was closed", 'title: "[new] Pear oats"', 'title: "[new] Pear oats"'),
    "a part that is taken": M(OATS, "part: 2", "part: 1", "4:7", "is part 1 of the series", "part: 2", "part: 2", "warning"),
    "a spoon for a cup": M(BOWL, "- 1 cup lentils", "- 1 tbsp lentils", "9:5", "far more than the", "1 cup lentils", "- 1 cup lentils", "warning"),
    "water for a crew": M(BOWL, TESTED, "  water: 4 cups\n", "16:10", "4 cups is far more than the 1 cup (232 mL) that a", "servings: 4", "  water: 4 cups\n  servings: 4\n", "warning"),
    "water by the spoon": M(BOWL, "water: 1 3/4 cups", "water: 1 3/4 tbsp", "19:44", "this trial says 1¾ tbsp (26 mL), far less than the 1¾ cups (414 mL)", "1¾ cups", "water: 1¾ cups", "warning"),
    # the text of recipes
    "{time}": M(BOWL, "wait {rest}", "wait {time}", "23:20", '"{time}" stands for no computed value', "{rest}", "wait {rest}"),
    "{minutes}": M(BOWL, "wait {rest}", "wait {minutes} minutes", "23:20", '"{minutes}" stands for', "{rest}", "wait {rest}"),
    "{wait}": M(BOWL, "wait {rest}", "wait {wait}", "23:20", '"{wait}" stands for', "{rest}", "wait {rest}"),
    "{amount}": M(OATS, "{water}", "{amount}", "11:9", '"{amount}" stands for', "{water}", "{water}"),
    "{portion}": M(BOWL, "{servings}", "{portion}", "23:37", '"{portion}" stands for', "{servings}", "{servings}"),
    "{serves}": M(BOWL, "{servings}", "{serves}", "23:37", '"{serves}" stands for', "{servings}", "{servings}"),
    "{people}": M(BOWL, "{servings}", "{people}", "23:37", '"{people}" stands for', "{servings}", "{servings}"),
    "a link with capitals": M(BOWL, "(pear-oats.md)", "(Pear-Oats.md)", "25:23", 'the address "Pear-Oats"', "pear-oats.md", "(pear-oats.md)"),
    "a link to a page of the bound book": M(BOWL, "(pear-oats.md)", "(pear-oats.html)", "25:23", "can't be followed", "pear-oats.md", "(pear-oats.md)"),
    "a link by title": M(BOWL, "[pear oats](pear-oats.md)", "[pear oats](Pear oats)", "25:23", "holds a space", "[pear oats](pear-oats.md)", "[pear oats](pear-oats.md)"),
    # menus
    "a weekday": M(MENU, "{day: 1,", "{day: Friday,", "5:11", '"Friday" is not the number of a day', "1", "{day: 1,"),
    "a date as a day": M(MENU, "{day: 1,", "{day: 2026-07-10,", "5:11", '"2026-07-10" is not the number of a day', "1", "{day: 1,"),
    "a meal by its recipe alone": M(MENU, "  - {day: 2, meal: breakfast, recipe: pear-oats}", "  - pear-oats", "6:5", '"pear-oats" stands here', "{day: 1, meal: supper, recipe: pear-oats}", "  - {day: 1, meal: supper, recipe: pear-oats}"),
    "a day with its word": M(MENU, "{day: 2,", "{day: day 2,", "6:11", '"day 2" is not the number of a day', "2", "{day: 2,"),
    "a recipe by title": M(MENU, "recipe: lentil-bowl", "recipe: Lentil bowl", "5:36", 'the address "Lentil bowl"', "lentil-bowl", "recipe: lentil-bowl"),
    "a recipe with capitals": M(MENU, "recipe: pear-oats", "recipe: Pear_Oats.md", "6:39", 'the address "Pear_Oats"', "pear-oats", "recipe: pear-oats"),
    "two recipes at one meal": M(MENU, "  - {day: 2, meal: breakfast, recipe: pear-oats}", "  - {day: 2, meal: breakfast, recipe: pear-oats, lentil-bowl}", "6:50", 'a comma cuts "lentil-bowl" off', "- {day: 2, meal: breakfast, recipe: lentil-bowl}", "  - {day: 2, meal: breakfast, recipe: pear-oats}\n  - {day: 2, meal: breakfast, recipe: lentil-bowl}"),
    "people in words": M(MENU, "people: 2", "people: two adults", "2:9", '"two adults" stands here', "2", "people: 2"),
    "a camp stove": M(MENU, "method: stove", "method: camp stove", "5:57", '"camp stove" is not one of', "stove", "method: stove"),
    "appetites without brackets": M(MENU, "people: 2", "people: 2\nappetites: 1, 1", "3:12", '"appetites" is a list', "appetites: [1, 1]", "people: 2\nappetites: [1, 1]"),
    "a menu with a name": M(MENU, "title:", "name:", "1:1", '"name" is not a key', "title", "title:"),
    "two recipes in a meal": M(MENU, "  - {day: 2, meal: breakfast, recipe: pear-oats}", "  - {day: 2, meal: breakfast, recipe: pear-oats and lentil-bowl}", "6:39", 'names "pear-oats" and "lentil-bowl"', "- {day: 2, meal: breakfast, recipe: pear-oats}", "  - {day: 2, meal: breakfast, recipe: pear-oats}\n  - {day: 2, meal: breakfast, recipe: lentil-bowl}"),
    "two recipes in a sum": M(MENU, "recipe: pear-oats}", "recipe: lentil-bowl + pear oats}", "6:39", 'names "lentil-bowl" and "pear-oats"', "- {day: 2, meal: breakfast, recipe: pear-oats}", "recipe: lentil-bowl}\n  - {day: 2, meal: breakfast, recipe: pear-oats}"),
    "a dash forgotten": M(MENU, "  - {day: 2, meal: breakfast", "  {day: 2, meal: breakfast", "6:3", "does not fit into the list", "- {day: 2, meal: breakfast", "  - {day: 2, meal: breakfast"),
    # stock.csv and drying-log.csv
    "a column misspelt": M(STOCK, "container", "contanier", "1:21", '"contanier" is not a column', "container", "container"),
    "a store in pieces": M(LOG, "02,leeks", "02,leek slices", "2:12", 'no store called "leek slices"', "leeks", "02,leeks"),
    "grams misspelt": M(STOCK, "jar,60", "jar,60 grm", "2:28", '"grm" is not a unit', "gram", "jar,60 gram"),
    "packed before it was dried": M(STOCK, "2026-05-10", "2026-05-08", "3:13", "was packed on 2026-05-08, and dried on 2026-05-09", "2026-05-09", "2026-05-09"),
    # replies
    "a recipe in the plural": M(REPLY, "lentil-bowl", "Lentil bowls", "1:9", 'the address "Lentil bowls"', "lentil-bowl", "lentil-bowl", "warning"),
    "a hungry crew": M(REPLY, "Servings: 2", "Servings: 2 hungry people", "4:11", '"2 hungry people" stands here', "2", "Servings: 2", "warning"),
    "a fire": M(REPLY, "Method: kettle", "Method: camp stove's pot", "3:9", "is not one of kettle", "stove", "Method: stove", "warning"),
    # pages, images and theme
    "the first page": M(PAGE, "order: 1", "order: first", "3:8", '"first" stands here', "1", "order: 1"),
    "a figure on a page": M(PAGE, "We paddle it in June.", "Take {water} along.", "5:6", '"{water}" has a value only in a meal', "3/4 cup of water", "Take 3/4 cup of water along.", "warning"),
    "a misspelt figure on a page": M(PAGE, "We paddle it in June.", "Take {watter} along.", "5:6", '"{watter}" is like {water}, which has a value only in a meal', "3/4 cup of water", "Take 3/4 cup of water along.", "warning"),
    "a misspelt figure in a base": M(SAUCE, "Simmer it down.", "Let it stand {rset}.", "10:14", '"{rset}" is like {rest}', "12 minutes", "Let it stand 12 minutes.", "warning"),
    "title misspelt": M(PAGE, "title: Our river", "titel: Our river", "2:1", '"titel" is not a key', "title", "title: Our river"),
    "no space after a colon": M(PAGE, "title: Our river\norder: 1\n", "title:Our river\n", "2:1", "a colon and a space are missing", "title: Our river", "title: Our river\n"),
    "a heading for a title": M(PAGE, "---\ntitle: Our river\norder: 1\n---\n", "# Our river\n", "1:1", "does not begin with front matter", "title: Our river", "---\ntitle: Our river\n---\n# Our river\n"),
    "a link without its ending": M(PAGE, "(lentil-bowl.md)", "(../recipes/lentil-bowl)", "5:45", "can't be followed", "lentil-bowl.md", "(lentil-bowl.md)"),
    "a drawing with another outermost element": M("images/bowl.svg", '<svg xmlns="http://www.w3.org/2000/svg" viewBox', "<svg viewBox", "20:10", "is not a drawing", '<svg xmlns="http://www.w3.org/2000/svg" ', '<svg xmlns="http://www.w3.org/2000/svg" viewBox', found=BOWL),
    "a misspelt colour": M(STYLE, "color: var(--soft); }", "color: var(--soft);", "1:9", "a { is never closed", "}", "color: var(--soft); }"),
}  # fmt: skip

NOT_READ = "nothing of this file is read"
MISNAMED = {
    "a recipe saved as text": Misnamed(OATS, "recipes/ashore/pear-oats.txt", "1:1", NOT_READ, "pear-oats.md"),
    "a recipe with two endings": Misnamed(OATS, "recipes/ashore/pear-oats.md.txt", "1:1", NOT_READ, "pear-oats.md"),
    "a recipe with a long ending": Misnamed(OATS, "recipes/ashore/pear-oats.markdown", "1:1", NOT_READ, "pear-oats.md"),
    "a recipe with its ending in capitals": Misnamed(OATS, "recipes/ashore/pear-oats.MD", "1:1", NOT_READ, "pear-oats.md"),
    "a recipe of a word processor": Misnamed(OATS, "recipes/ashore/pear-oats.docx", "1:1", NOT_READ, "pear-oats.md"),
    "a recipe with a space in its name": Misnamed(BOWL, "recipes/ashore/Lentil Bowl.md", "2:1", "can't be an address", "lentil-bowl.md", kind="error"),
    "a menu saved as text": Misnamed(MENU, "menus/first-trip.txt", "1:1", NOT_READ, "first-trip.yaml"),
    "a menu with two endings": Misnamed(MENU, "menus/first-trip.yaml.txt", "1:1", NOT_READ, "first-trip.yaml"),
    "a page with a long ending": Misnamed(PAGE, "pages/our-river.markdown", "1:1", NOT_READ, "our-river.md"),
    "a book with a capital": Misnamed(BOOK, "Book.yaml", "1:1", "this folder holds no book.yaml", "rename Book.yaml to book.yaml", BOOK, "error"),
    "a book saved as text": Misnamed(BOOK, "book.yaml.txt", "1:1", "this folder holds no book.yaml", "rename book.yaml.txt to book.yaml", BOOK, "error"),
    "a larder with a short ending": Misnamed(LARDER, "larder.yml", "1:1", "this book has no larder.yaml", "rename larder.yml to larder.yaml", LARDER, "error"),
    "a folder with a capital": Misnamed(REPLY, "Replies/mirela.txt", "1:1", "nothing in this folder is read", 'rename the folder "Replies" to "replies"', "Replies"),
    "a folder of one page": Misnamed(PAGE, "page/our-river.md", "1:1", "nothing in this folder is read", 'rename the folder "page" to "pages"', "page"),
}  # fmt: skip


def write(folder: Path, files: dict[str, str]) -> Path:
    """Write a book."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")
    return folder


def found_in(folder: Path) -> list[Finding]:
    """Return every finding of a book, as `proof` has them."""
    findings = Findings()
    book = read_book(folder, findings, today=TODAY)
    if book is not None:
        check_all(reckoned(book, findings), findings)
    return list(findings)


def told(findings: list[Finding]) -> str:
    return "\n\n".join(described(finding) for finding in findings)


def plain(text: str) -> str:
    """Return a text with ordinary spaces."""
    return text.replace("\N{NO-BREAK SPACE}", " ")


def planted(row: Mistake, text: str) -> dict[str, str]:
    """Return the files of the book with another text where the mistake stands."""
    assert SOUND[row.file].count(row.old) >= 1, "the row's text is not in the sound book"
    return SOUND | {row.file: SOUND[row.file].replace(row.old, text, 1)}


def test_the_sound_book_gives_no_finding(tmp_path: Path) -> None:
    findings = found_in(write(tmp_path, SOUND))
    assert not findings, told(findings)


def test_every_file_of_a_book_has_its_mistakes() -> None:
    assert len(MISTAKES) + len(MISNAMED) >= 60
    assert {row.file for row in MISTAKES.values()} >= SOUND.keys() - {"images/landing.svg"}


@pytest.mark.parametrize("name", MISTAKES)
def test_a_mistake_is_found_and_its_mend_mends_it(name: str, tmp_path: Path) -> None:
    row = MISTAKES[name]
    findings = found_in(write(tmp_path / "wrong", planted(row, row.wrong)))
    assert len(findings) == 1, told(findings)
    (finding,) = findings
    place = finding.place
    assert (place.path, f"{place.line}:{place.column}") == (row.found or row.file, row.at)
    assert finding.severity == row.kind
    assert row.cause in plain(finding.cause), told(findings)
    assert row.writes in plain(finding.mend), told(findings)
    assert row.writes in row.mended, "the mended text is not what the mend writes"
    mended = found_in(write(tmp_path / "mended", planted(row, row.mended)))
    assert not mended, told(mended)


@pytest.mark.parametrize("name", MISNAMED)
def test_a_file_under_another_name_is_told_how_it_is_read(name: str, tmp_path: Path) -> None:
    row = MISNAMED[name]
    files = {file: text for file, text in SOUND.items() if file != row.file}
    folder = write(tmp_path, files | {row.wrong: SOUND[row.file]})
    where = row.found or row.wrong
    of_file = [found for found in found_in(folder) if found.place.path == where]
    assert len(of_file) == 1, told(found_in(folder))
    (finding,) = of_file
    assert (f"{finding.place.line}:{finding.place.column}", finding.severity) == (row.at, row.kind)
    assert row.cause in finding.cause
    assert row.writes in finding.mend, told(of_file)
    assert row.file.rsplit("/", 1)[-1] in row.writes or row.file.split("/")[0] in row.writes
    if (folder / row.file).parent.is_dir():
        (folder / row.wrong).rename(folder / row.file)
    else:
        (folder / row.wrong).parent.rename((folder / row.file).parent)
    assert not found_in(folder), told(found_in(folder))
