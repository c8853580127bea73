"""The words of synthetic books: all of them invented."""

from __future__ import annotations

from typing import Final

BOOK: Final = """\
title: A long reach
author: A. Householder
altitude: 310 m
theme: theme
kit:
  bowl: {opening: 14 cm, covered: true}
  pot: {opening: 15 cm, lid: true}
  stove: {power: 2 kW, efficiency: 0.5, fuel: gas canister}
  jar: {holds: 500 mL, label: 65 C after 6 h}
  microwave: {power: 900 W}
  dryer: {trays: 5, tray area: 1900 cm2, tray load: 900 g, ice: 4.5 kg}
  pouches: [{name: small, width: 13 cm, height: 18 cm}, {name: medium, width: 18 cm, height: 26 cm}]
  absorbers: [100 mL, 300 mL, 500 mL]
"""
OWN_STYLE: Final = ".masthead { letter-spacing: 0.01em; }\n"
TIMES: Final = (
    "before the ferry",
    "under the alders",
    "for a wet evening",
    "with the boat tied up",
    "below the weir",
    "on the long portage",
    "after the hail",
    "at the lock",
    "for the last night",
    "by the mill",
)
STEPS: Final = (
    "Put the mix into the bowl and loosen it with a spoon.",
    "Warm the bowl with a splash of hot water, and tip that out again.",
    "Pick out what has clumped, and break it between two fingers.",
    "Keep the spices aside until the end, if the evening is long.",
    "Set the bowl where nobody steps, out of the wind.",
    "Look into the kettle: it should boil, not only sing.",
    "Pour {water} of boiling water over the mix, stir, and cover it.",
    "Wait {rest}, stir from below, and add what you kept back by the spoon.",
)
"""The first, those between of which some are taken, and the last two."""
STORIES: Final = (
    "Give it its time.",
    "It came about because the other jar was empty, and stayed because nobody complained.",
    "Cut small it is ready sooner; left large it is the last thing that you chew.",
    "The first time we had too little water and called it a stuffing.",
    "It travels well at the bottom of the barrel, below the rope.",
)
