"""The keys of book.yaml, explained."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.explaining.explained import Explained
from cookbook_build.manuscript.schema import (
    BookKeys,
    BowlKeys,
    DryerKeys,
    JarKeys,
    KitKeys,
    LabelSheetKeys,
    MicrowaveKeys,
    PotKeys,
    PouchKeys,
    SeriesKeys,
    ShelfKeys,
    StoveKeys,
    VesselKeys,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.explaining.explained import Group
    from cookbook_build.manuscript.schema import Matter

_BOOK: Final[Group] = {
    "title": Explained(
        "The name of the book, on its cover and on every page.",
        example="The Alder Bend larder book",
    ),
    "subtitle": Explained(
        "A line below the title on the cover.",
        "The cover goes without.",
        example="Meals that wait in a jar, and need only water",
    ),
    "author": Explained(
        "Who wrote the book; your household's name will do.",
        "No page names an author.",
        example="A. Householder",
    ),
    "language": Explained(
        "The language of the book's own words, such as on its labels. There are words in English "
        "and in Spanish; in any other language they stay English beside your text.",
    ),
    "measures": Explained(
        "What your cup holds. All amounts of the book, read and shown, follow it.",
        choices={
            "us-cups": "a cup of 236.6 mL, and 16 tablespoons to a cup",
            "metric-cups": "a cup of 250 mL, spoons of 15 mL and 5 mL",
            "label-cups": "a cup of 240 mL, as labels on food in the United States count",
        },
    ),
    "altitude": Explained(
        "How high your kitchen lies. Water boils cooler higher up, so rest and loss follow it.",
        "Your kitchen is taken to lie at the sea.",
        usual="0 m",
    ),
    "altitudes": Explained(
        "In what the book shows heights, as on a meal's card for the camp.",
        choices={
            "metres": "the sea, 1000 m, 2000 m and up",
            "feet": "the sea, 3000 ft, 6000 ft and up",
        },
    ),
    "allergens": Explained(
        "Whose list of allergens the book names.",
        choices={
            "us": "the nine of the United States",
            "eu": "the fourteen of the European Union",
        },
    ),
    "servings": Explained(
        "For how many servings the pages give amounts and water.",
        example="[1, 2, 4]",
    ),
    "cover": Explained(
        "The picture on the cover: a file in the folder `images`.",
        "The cover has no picture.",
        example="cover.svg",
    ),
    "cover text": Explained(
        "What the cover's picture shows, for those who can't see it.",
        "A cover with a picture gets a warning.",
        example="A kettle on a flat stone by the river",
    ),
    "contact": Explained(
        "Where readers write to you: a mail box, a page on the web, or words.",
        "No page asks readers to write.",
        example="larder@example.org",
    ),
    "address": Explained(
        "Where the book stands on the web, if it does: the address of its folder. It brings a "
        "feed of new recipes, and pictures where a page is passed on.",
        "The book has no feed. It can be put on the web all the same.",
    ),
    "licence": Explained(
        "On what terms others may use the book: a licence's name, its address, or a sentence.",
        "No page names any terms.",
        example="CC BY-SA 4.0",
    ),
    "largest file": Explained(
        "How large a file that you send along may be; one that holds more is a warning. Write "
        "what your mail carries.",
        usual="20 MB",
    ),
    "series": Explained(
        "The book's series in their order, by name. Recipes name theirs with `series`.",
        "Series stand in the order of their recipes, and any name will do.",
        example="{Riverbank suppers: {about: Four suppers for a flat stone.}}",
    ),
    "kit": Explained(
        "What you cook, dry and pack with. Every number of the book follows it.",
        "A usual kitchen is taken: bowl, pot, stove and oven, no jar and no dryer.",
        example="{bowl: {opening: 16 cm}, microwave: {power: 800 W}}",
    ),
    "labels": Explained(
        "Your sheets of labels: how many stand on one, how large, and where.",
        "Ten labels fill a sheet of A4 evenly.",
        example="{paper: A4, columns: 3, rows: 8}",
    ),
    "theme": Explained(
        "A folder of the book that changes how it looks.",
        "A folder named `theme` is taken if there is one; else the book looks as ours do.",
        example="winter-look",
    ),
    "cards": Explained(
        "The paper of the pocket cards: its name, or its two sides.",
        "With metric cups it is A6, else 4 × 6 in.",
    ),
}  # fmt: skip

_SERIES: Final[Group] = {
    "about": Explained(
        "A sentence or two that open the series.",
        "The series opens with its name only.",
        example="Four suppers that need one pot and a flat stone.",
    ),
    "picture": Explained(
        "The picture of the series: a file in the folder `images`.",
        "The series has none.",
        example="suppers.svg",
    ),
    "picture text": Explained(
        "What the picture shows, for those who can't see it.",
        "A picture without it is a warning.",
        example="Three bowls on a flat stone",
    ),
}

_KIT: Final[Group] = {
    "bowl": Explained(
        "The bowl that you pour boiling water into.",
        "A usual one: 14 cm across, with a cover.",
        example="{opening: 14 cm, covered: yes}",
    ),
    "pot": Explained(
        "The pot for the stove.",
        "A usual one: 15 cm across, with a lid.",
        example="{opening: 15 cm, lid: yes}",
    ),
    "stove": Explained(
        "The stove or burner.",
        "A small camp burner on a gas canister.",
        example="{power: 2 kW, fuel: alcohol}",
    ),
    "microwave": Explained(
        "The microwave oven.",
        "One of 900 W.",
        example="{power: 800 W}",
    ),
    "jar": Explained(
        "The insulated food jar that keeps a lunch hot.",
        "A jar is no way of making a meal ready, unless its recipe names it.",
        example="{holds: 350 mL, label: 65 C after 6 h}",
    ),
    "dryer": Explained(
        "The freeze dryer: from it come the loads of a menu, and how long they run.",
        "What is to be dried is not divided into loads.",
        example="{trays: 5, tray load: 900 g}",
    ),
    "pouches": Explained(
        "The pouches that mixes are packed in, each with its inner sides.",
        "A mix is packed into the jars that you name, else into none by name.",
        example="[{name: small, width: 13 cm, height: 18 cm}]",
    ),
    "jars": Explained(
        "The jars, tins or boxes that mixes are kept in.",
        "A mix is packed into the pouches that you name, else into none by name.",
        example="[{name: pint jar, holds: 473 mL}]",
    ),
    "shelf": Explained(
        "Where your packed mixes stand.",
        "It is at room temperature.",
        example="{temperature: 18 C}",
    ),
    "absorbers": Explained(
        "The sizes of your oxygen absorbers, by the oxygen that each takes up.",
        "Mixes are taken to be packed without, and their quality dates come sooner.",
        example="[100 mL, 300 mL]",
    ),
}

_VESSELS: Final[Mapping[type[Matter], Group]] = {
    BowlKeys: {
        "opening": Explained(
            "How wide the bowl is at its rim, inside: water steams off there.", usual="14 cm"
        ),
        "covered": Explained("Whether you lay a plate or a lid on the bowl.", example="yes"),
    },
    PotKeys: {
        "opening": Explained(
            "How wide the pot is at its rim, inside: water steams off there.",
            usual="15 cm",
            example="15 cm",
        ),
        "lid": Explained("Whether the pot has its lid on.", example="yes"),
    },
    StoveKeys: {
        "power": Explained(
            "The burner's full power, as its maker gives it.", usual="2 kW", example="2 kW"
        ),
        "efficiency": Explained(
            "What part of the heat reaches the pot: less in wind, more with a shield.",
            usual="0.5",
        ),
        "fuel": Explained(
            "What it burns; the card for the camp says how much to carry.",
            choices={
                "gas canister": "propane and butane from a canister",
                "alcohol": "spirit",
                "white gas": "clean petrol that is sold for stoves",
            },
        ),
    },
    MicrowaveKeys: {
        "power": Explained("The oven's full power, as stands on its plate or in its booklet."),
    },
    JarKeys: {
        "holds": Explained("What the jar holds when it is full.", example="350 mL"),
        "label": Explained("What its label promises: how warm it still is, after how long."),
        "lunch": Explained(
            "How long after you fill it you eat from it. With this key, a lunch that is below "
            "60 °C by then is a warning.",
            usual="4 h",
            example="2 h 30 min",
        ),
    },
    DryerKeys: {
        "trays": Explained("How many trays it takes.", example="5"),
        "tray area": Explained(
            "How large a tray is, to know what lies on it in one layer.",
            "Only the weight on a tray is looked at.",
        ),
        "tray load": Explained(
            "How much food a tray takes.", "Only the area of a tray is looked at."
        ),
        "ice": Explained(
            "How much ice it holds before it must thaw: the most water that one load may give.",
            "A load is bounded by its trays only.",
            example="4.5 kg",
        ),
        "removes": Explained(
            "How much water it takes out in an hour. Your drying log knows better.",
            "Until the log tells, a usual dryer is taken.",
        ),
    },
    PouchKeys: {
        "name": Explained("What you call this size.", example="small"),
        "width": Explained("How wide it is inside, between its seams.", example="13 cm"),
        "height": Explained("How high it is inside, up to its seal.", example="18 cm"),
    },
    VesselKeys: {
        "name": Explained("What you call this size.", example="pint jar"),
        "holds": Explained("What it holds when it is full.", example="473 mL"),
    },
    ShelfKeys: {
        "temperature": Explained(
            "How warm the shelf is over the year. Mixes stay good longer where it is cool.",
            usual="20 C",
        ),
    },
}

_LABELS: Final[Group] = {
    "paper": Explained(
        "The paper of a sheet.",
        choices={"A4": "210 × 297 mm", "Letter": "8 1/2 × 11 in"},
    ),
    "columns": Explained("How many labels stand beside each other.", example="3"),
    "rows": Explained("How many labels stand below each other.", example="8"),
    "width": Explained("How wide a label is.", "They divide the sheet evenly.", example="70 mm"),
    "height": Explained("How high a label is.", "They divide the sheet evenly.", example="36 mm"),
    "top": Explained(
        "How far down the first label begins.",
        "The margins above and below are alike.",
        example="4.5 mm",
    ),
    "left": Explained(
        "How far in the first label begins.",
        "The margins on both sides are alike.",
        example="0 mm",
    ),
    "across": Explained(
        "How far it is from the left edge of a label to that of the next.",
        "The labels of a row touch, or what is left between the margins is divided evenly.",
        example="70 mm",
    ),
    "down": Explained(
        "How far it is from the upper edge of a label to that of the next.",
        "The labels of a column touch, or what is left between the margins is divided evenly.",
        example="36 mm",
    ),
}

BOOK: Final[Mapping[type[Matter], Group]] = MappingProxyType(
    {BookKeys: _BOOK, SeriesKeys: _SERIES, KitKeys: _KIT, **_VESSELS, LabelSheetKeys: _LABELS}
)
