"""The columns of drying-log.csv and stock.csv, explained."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.explaining.explained import Explained

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.explaining.explained import Group

_STORE: Final = Explained("The store, as `larder.yaml` names it.")

_LOG: Final[Group] = {
    "date": Explained("The day on which the load came out."),
    "store": _STORE,
    "lot": Explained("A name of your own for what was dried together; jars and pouches carry it."),
    "fresh g": Explained("What went in, prepared: peeled, cored, cooked."),
    "dry g": Explained("What came out."),
    "hours": Explained("How long the load ran."),
    "trays": Explained("On how many trays it lay; 0.5 of one that it shared."),
    "last check": Explained(
        "What it weighed an hour before the end. A lot that still lost weight is not dry.",
        "Leave it empty, and the lot's weights alone say whether it is dry.",
    ),
}

_STOCK: Final[Group] = {
    "store": _STORE,
    "lot": Explained("The lot that is in it, as in the drying log, or as the shop marked it."),
    "packed on": Explained("The day on which it was closed."),
    "container": Explained(
        "What it is kept in. A pouch or a jar is taken as sealed the way you seal; a bag, a box "
        "or a tin keeps its air, and its date comes sooner."
    ),
    "grams": Explained("What is left in it. Delete the row of an empty one."),
}

TABLES: Final[Mapping[str, Group]] = MappingProxyType({"drying-log.csv": _LOG, "stock.csv": _STOCK})
